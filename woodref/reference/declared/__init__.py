"""The fields of the tables of the reference dataset, a module a kind of table."""
