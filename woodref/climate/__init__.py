"""Seasons and rooms: what wood comes to through the year, and the sizes that follow."""
