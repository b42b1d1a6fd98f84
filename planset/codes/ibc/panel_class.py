"""The fire class of panel systems over the roof of any building."""

from types import MappingProxyType

CLAUSES = MappingProxyType(dict.fromkeys((2012, 2015, 2018, 2021, 2024), "1505.9"))
"""Clause by edition: panels on a roof are tested, listed and identified with a fire class together
with their mounting; 1505.1 says where a class is asked for.

Source: IBC 2021, 1505.9 and 1505.1, and those of the other editions [all from memory].
"""
