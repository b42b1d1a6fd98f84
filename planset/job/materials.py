"""What is ordered beyond the count."""

from typing import Annotated

from planset.catalog.fields import StrictModel, Text, between

Share = Annotated[float, between(0, 1)]


class Spares(StrictModel):
    """Shares of the count ordered as spares, 0 to 1; each line of the bill is rounded up.

    `small_parts` are screws, clamps, feet, couplings, splices, clips and lugs, and the waste of
    conductors and raceways; `attachments` are those with their flashings and sealing; `modules`
    includes the devices under them. Rails, trim and other equipment have none.
    """

    small_parts: Share
    attachments: Share
    modules: Share
    source: Text


class Materials(StrictModel):
    """How the bill of materials is drawn up."""

    spares: Spares


USUAL_SPARES = Spares(
    small_parts=0.05, attachments=0.02, modules=0.0, source="common practice, no source"
)
"""Taken where a job states none, and printed on the bill."""
