"""Shipping a piece: what it weighs packed, its crate, what is lifted."""
