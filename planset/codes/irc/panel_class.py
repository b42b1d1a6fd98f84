"""The fire class of panel systems over a dwelling's roof (IRC R902.4 [from memory])."""

CLAUSES = {year: "R902.4" for year in (2012, 2015, 2018, 2021, 2024)}
"""Clause by edition [from memory]: panels mounted on a roof are tested, listed and identified with
a fire class, with the mounting they stand on; R902.1 says where a class is asked for."""
