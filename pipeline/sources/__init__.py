"""Readers of the source tables, one module per family."""
