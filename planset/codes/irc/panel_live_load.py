"""Roof live load where solar panels cover the roof of a dwelling."""

from types import MappingProxyType

from planset.codes.ibc import panel_live_load
from planset.codes.ibc.panel_live_load import RoofCase

CLAUSES = MappingProxyType(
    {2015: "R324.4.1", 2018: "R324.4.1.1", 2021: "R324.4.1.1", 2024: "R329.4.1.1"}
)
"""Clause of the rule by edition.

Source: IRC 2018, R324.4.1.1; those of 2015, 2021 and 2024 from memory.
"""


def roof_cases(
    roof_dead_psf: float,
    panel_dead_psf: float,
    live_psf: float,
    snow_psf: float,
    clear_space_in: float,
) -> tuple[RoofCase, RoofCase]:
    """The two cases of a covered roof: with the panels, and as if they were not there.

    The text names no clear space. That of the building code, 24 in, is asked here too before the
    live load is left out: an interpretation to the safe side.

    Args:
        roof_dead_psf: Dead load of the roof [psf].
        panel_dead_psf: Dead load of panels and racking [psf].
        live_psf: Roof live load [psf].
        snow_psf: Snow load [psf].
        clear_space_in: Between the roof and the underside of the panels [in].

    Returns:
        Dead load with panels and snow; then dead load without panels and the greater of roof
        live load and snow, which is `RoofCase.total_psf`.

    Raises:
        ValueError: A value is negative.

    Source: IRC 2018, R324.4.1.1.
    """
    return panel_live_load.roof_cases(
        roof_dead_psf, panel_dead_psf, live_psf, snow_psf, clear_space_in
    )
