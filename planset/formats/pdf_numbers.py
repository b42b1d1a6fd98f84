"""Numbers as reportlab writes them, by a shorter way.

Half the time of a large file goes into numbers, of which reportlab takes a logarithm each to know
how many decimals to print.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from reportlab.lib.rl_accel import fp_str
from reportlab.pdfgen import canvas, pathobject

_NOTHING = 1e-7
_FORMATS = ((10.0, "%.6f"), (100.0, "%.5f"), (1000.0, "%.4f"), (10_000.0, "%.3f"))


@contextmanager
def numbers_written_straight() -> Iterator[None]:
    """While inside, reportlab writes the same numbers of lines and paths by a shorter way."""
    canvas.fp_str = pathobject.fp_str = numbers
    try:
        yield
    finally:
        canvas.fp_str = pathobject.fp_str = fp_str


def numbers(*values: Any) -> str:
    """What `fp_str` of reportlab makes of numbers, or of one sequence of them."""
    if len(values) == 1 and not isinstance(values[0], int | float):
        return fp_str(*values)  # type: ignore[no-any-return]
    return " ".join(map(_number, values))


def _number(value: float) -> str:
    size = abs(value)
    if size <= _NOTHING:
        return "0"
    for limit, form in _FORMATS:
        if size < limit:
            written = (form % value).rstrip("0").rstrip(".")
            return written[1:] if written[0] == "0" and len(written) > 1 else written
    return fp_str(value)  # type: ignore[no-any-return]
