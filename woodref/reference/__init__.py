"""The library of woods, names, measurements and their sources."""
