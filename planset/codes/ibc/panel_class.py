"""The fire class of panel systems over the roof of any building (IBC 1505.9 [from memory])."""

CLAUSES = {year: "1505.9" for year in (2012, 2015, 2018, 2021, 2024)}
"""Clause by edition [from memory]: panels mounted on a roof are tested, listed and identified with
a fire class, with the mounting they stand on; 1505.1 says where a class is asked for."""
