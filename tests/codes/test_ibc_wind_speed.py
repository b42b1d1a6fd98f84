"""Wind speed conversion against IBC 2021 Table 1609.3.1, from memory; the table rounds to 1 mph."""

import pytest

from planset.codes.ibc.wind_speed import ultimate_speed_mph


@pytest.mark.parametrize(
    ("ultimate", "nominal"),
    [(100, 78), (110, 85), (120, 93), (130, 101), (140, 108), (150, 116), (160, 124), (170, 132)],
)
def test_table(ultimate: float, nominal: float) -> None:
    assert ultimate_speed_mph(nominal) == pytest.approx(ultimate, abs=0.7)


def test_a_speed_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="expected a number above 0"):
        ultimate_speed_mph(0)
