"""A piece of furniture and its parts: weight, movement, cost."""
