"""Tools of a release: nothing of them is in the package, and nothing is uploaded by them."""
