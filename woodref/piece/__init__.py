"""A whole piece of furniture: its file, what it weighs and costs, how it moves and is used."""
