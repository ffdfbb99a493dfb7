"""Choosing between woods."""
