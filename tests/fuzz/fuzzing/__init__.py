"""Hostile input: cases made from a seed, run in this process, and what is wrong with an answer."""
