"""One board: its density and weight, its movement, its end before and after, how it sags."""
