"""Moisture and time: how fast wood follows the air through its thickness and its finish."""
