"""Roof live load where solar panels cover the roof."""

from dataclasses import dataclass
from types import MappingProxyType

from planset.codes import _check

CLEAR_SPACE_IN = 24.0
"""Clear space under a panel up to which the area it covers counts as inaccessible [in].

Source: IBC 2015, 1607.12.5.1.
"""

CLAUSES = MappingProxyType(
    {2015: "1607.12.5.1", 2018: "1607.13.5.1", 2021: "1607.14.4.1", 2024: "1607.13.5.1"}
)
"""Clause of the rule by edition.

Source: IBC 2015, 1607.12.5.1, IBC 2018, 1607.13.5.1, and their successors as public pages cite
them; that of 2024 on one page only, confirm it.
"""


@dataclass(frozen=True, slots=True)
class RoofCase:
    """One of the load cases a roof under panels must be designed for.

    Attributes:
        panels: Whether the panels are there.
        dead_psf: Dead load, with the panels' where they are [psf].
        live_psf: Roof live load [psf].
        snow_psf: Snow load, which panels never take away [psf].

    Source: IBC 2015, 1607.12.5.1.
    """

    panels: bool
    dead_psf: float
    live_psf: float
    snow_psf: float

    @property
    def total_psf(self) -> float:
        """Dead load and the greater of roof live load and snow [psf]."""
        return self.dead_psf + max(self.live_psf, self.snow_psf)


def live_load_omitted(clear_space_in: float) -> bool:
    """Tell whether the area under a panel is inaccessible and takes no roof live load.

    Args:
        clear_space_in: Between the roof and the underside of the panels [in].

    Raises:
        ValueError: Space negative.

    Source: IBC 2015, 1607.12.5.1.
    """
    _check.not_negative(clear_space_in, "clear space under the panels, in,")
    return _check.at_most(clear_space_in, CLEAR_SPACE_IN)


def roof_cases(
    roof_dead_psf: float,
    panel_dead_psf: float,
    live_psf: float,
    snow_psf: float,
    clear_space_in: float,
) -> tuple[RoofCase, RoofCase]:
    """The two cases of a covered roof: with the panels, and as if they were not there.

    Args:
        roof_dead_psf: Dead load of the roof [psf].
        panel_dead_psf: Dead load of panels and racking [psf].
        live_psf: Roof live load Lr [psf].
        snow_psf: Snow load [psf].
        clear_space_in: Between the roof and the underside of the panels [in].

    Returns:
        With panels, live load left out where the space is 24 in or less; then without panels,
        live load in full.

    Raises:
        ValueError: A value is negative.

    Source: IBC 2015, 1607.12.5.1 and 1607.12.5.2.
    """
    for value in (roof_dead_psf, panel_dead_psf, live_psf, snow_psf):
        _check.not_negative(value, "load on the roof, psf,")
    under_psf = 0.0 if live_load_omitted(clear_space_in) else live_psf
    return (
        RoofCase(True, roof_dead_psf + panel_dead_psf, under_psf, snow_psf),
        RoofCase(False, roof_dead_psf, live_psf, snow_psf),
    )
