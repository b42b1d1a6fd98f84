"""The fire class of panel systems over the roof of a dwelling."""

from types import MappingProxyType

CLAUSES = MappingProxyType(dict.fromkeys((2012, 2015, 2018, 2021, 2024), "R902.4"))
"""Clause by edition: panels on a roof are tested, listed and identified with a fire class together
with their mounting; R902.1 says where a class is asked for.

Source: IRC 2021, R902.4 and R902.1, and those of the other editions [all from memory].
"""
