"""Lumber: its thicknesses and prices, piles and cut lists, boards in hand and what to buy."""
