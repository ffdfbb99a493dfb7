"""A catalog of many boards at once: files or tables in, weights, movements and costs out.

Names, places and written sizes are looked up once each; the rows are computed in DuckDB, by the
formulas of woodref.formulas on the coefficients of woodref.choose.coefficients.
"""
