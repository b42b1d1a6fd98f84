"""Range checks on arguments, worded alike in every clause."""

import math
from collections.abc import Mapping


def above_zero(value: float, what: str) -> None:
    """Raise ValueError unless the value is a finite number above zero."""
    if not 0 < value < math.inf:
        msg = f"{what} is {value:g}; expected a number above 0; correct the value or its unit"
        raise ValueError(msg)


def not_negative(value: float, what: str) -> None:
    """Raise ValueError unless the value is zero or a finite number above it."""
    if not 0 <= value < math.inf:
        msg = f"{what} is {value:g}; expected 0 or more; give its size without a sign"
        raise ValueError(msg)


def within(value: float, low: float, high: float, what: str) -> None:
    """Raise ValueError unless low <= value <= high."""
    if not low <= value <= high:
        msg = f"{what} is {value:g}; expected {low:g} to {high:g}; correct the value or its unit"
        raise ValueError(msg)


def at_most(value: float, limit: float) -> bool:
    """Tell whether a value keeps a limit, equality included in spite of rounding."""
    return value <= limit or math.isclose(value, limit, rel_tol=1e-9)


def one_of(word: str, values: Mapping[str, float], what: str) -> float:
    """Return the value of a word, or raise ValueError naming the words there are."""
    if word not in values:
        msg = f"{what} is {word!r}; expected one of {', '.join(values)}"
        raise ValueError(msg)
    return values[word]
