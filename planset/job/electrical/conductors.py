"""How a job writes conductors."""

from typing import Annotated

from planset.catalog.fields import Text, tabulated
from planset.codes.nec.conductors import area_cmil, insulation_rating_c


def _dry_rating_c(insulation: str) -> float:
    return insulation_rating_c(insulation, wet=False)


ConductorSize = Annotated[Text, tabulated(area_cmil, "a conductor size")]
"""AWG without its letters, "10" or "4/0"; over that kcmil without its letters, "250"."""

Insulation = Annotated[Text, tabulated(_dry_rating_c, "an insulation of the tables")]
"""Type of a conductor's insulation, as THWN-2."""
