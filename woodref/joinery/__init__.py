"""Fixings that let wood move: their kinds and sizes, what they need, where they run out of room."""
