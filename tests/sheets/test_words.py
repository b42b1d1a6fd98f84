"""Words and figures as they are printed."""

from __future__ import annotations

from planset.sheets.words import capitals, measured


def test_one_of_a_thing_is_not_printed_as_many() -> None:
    assert [measured(n, "units", "up") for n in (1.0, 2.0)] == ["1 unit", "2 units"]
    assert measured(1.0, "rails", "up") == "1 rail"
    assert measured(1.0, "psf", "up") == "1 psf"


def test_sizes_keep_the_sign_between_them_in_capitals() -> None:
    assert capitals("lag 5/16 in x 3 1/2 in, 12 x 18 in") == "LAG 5/16 in x 3 1/2 in, 12 x 18 in"
