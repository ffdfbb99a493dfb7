"""Cutting boards into blanks: what is packed, the search for a plan, and the least it can be."""
