"""Numbers written by the shorter way are, digit for digit, those reportlab writes by itself."""

from __future__ import annotations

import math
from contextlib import nullcontext
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from pages import DRAWING
from reportlab.lib.rl_accel import fp_str
from reportlab.pdfgen import canvas, pathobject

from planset.formats import pdf_write
from planset.formats.pdf_numbers import numbers, numbers_written_straight
from planset.formats.pdf_write import write_pdf

POWERS = [10.0**power for power in range(-8, 7)]


@given(st.lists(st.floats(-1e6, 1e6) | st.integers(-(10**6), 10**6), min_size=1, max_size=6))
@example([0, 0.5, -0.5, 1, 100.0, 0.0000004])
@example([math.nextafter(power, 0) for power in POWERS])
@example(POWERS)
@example([math.nextafter(-power, -1e9) for power in POWERS])
def test_any_numbers(values: list[float]) -> None:
    assert numbers(*values) == fp_str(*values)
    assert numbers(values) == fp_str(values)


def test_our_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_pdf(DRAWING, tmp_path / "ours.pdf")
    monkeypatch.setattr(pdf_write, "numbers_written_straight", nullcontext)
    write_pdf(DRAWING, tmp_path / "plain.pdf")
    assert (tmp_path / "ours.pdf").read_bytes() == (tmp_path / "plain.pdf").read_bytes()


def test_reportlab_is_put_back() -> None:
    def fail_inside() -> None:
        with numbers_written_straight():
            assert canvas.fp_str is pathobject.fp_str is numbers
            raise OSError

    with pytest.raises(OSError):  # noqa: PT011 - it is ours
        fail_inside()
    assert canvas.fp_str is pathobject.fp_str is fp_str
