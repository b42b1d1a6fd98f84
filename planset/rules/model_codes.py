"""Clauses of the model codes, and of California's codes that keep their numbers."""

from collections.abc import Mapping

from planset.citation import CodeEdition, clauses_of

_MODEL = {2022: 2021, 2025: 2024}  # year of California's code to that of the model code [memory]


def with_california(
    model: str, californian: str, clauses: Mapping[int, str]
) -> Mapping[CodeEdition, str]:
    """Return the clauses of a model code and of the Californian code that stands on it.

    Args:
        model: Name of the model code, such as "IBC".
        californian: Name of California's, such as "CBC".
        clauses: Clause of the model code by year.
    """
    by_year = {year: clauses[base] for year, base in _MODEL.items()}
    return {**clauses_of(model, clauses), **clauses_of(californian, by_year)}
