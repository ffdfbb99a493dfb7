"""From published tables to the reference dataset."""
