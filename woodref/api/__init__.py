"""The public functions of woodref, by what they are about; woodref/__init__.py offers them all."""
