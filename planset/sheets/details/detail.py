"""The distinct attachment details of a job, and the sheet each is drawn on."""

from __future__ import annotations

from dataclasses import dataclass, replace

from planset.catalog.attachment import Attachment, OnRafter, SeamClampAttachment
from planset.catalog.mounting import MountingSystem
from planset.design.buildup import BuildUp
from planset.design.design import Design
from planset.design.fastening import Fastening
from planset.design.layout import PlacedArray
from planset.design.mounted import Mounted
from planset.job.covering import AsphaltShingle, Covering, CurvedTile, StandingSeam
from planset.job.framing import Framing
from planset.sheets.context import continued_id

SHEET = "S-501"
ALONG, ACROSS = 1, 2
"""Numbers of the two views of a detail on its sheet."""

_KINDS = {
    "hook": "HOOK",
    "standoff": "STANDOFF",
    "flashed_foot": "FLASHED FOOT",
    "seam_clamp": "CLAMP",
}
_COVERINGS = {
    "curved_tile": "CURVED TILE",
    "asphalt_shingle": "ASPHALT SHINGLES",
    "standing_seam": "A STANDING SEAM",
    "membrane": "A MEMBRANE",
}


@dataclass(frozen=True, slots=True)
class Detail:
    """One attachment on one covering, as all of its arrays have it.

    Attributes:
        number: Counted from 0.
        mounts: Its arrays.
        covering: What the attachment stands on.
        framing: What lies under that.
    """

    number: int
    mounts: tuple[Mounted, ...]
    covering: Covering
    framing: Framing

    @property
    def sheet(self) -> str:
        """Id of the sheet it is drawn on."""
        return continued_id(SHEET, self.number)

    @property
    def callout(self) -> str:
        """How other sheets refer to it."""
        return f"{ALONG}/{self.sheet}"

    @property
    def arrays(self) -> tuple[PlacedArray, ...]:
        """Its arrays where they lie."""
        return tuple(one.array for one in self.mounts)

    @property
    def array_ids(self) -> frozenset[str]:
        """Ids of its arrays."""
        return frozenset(one.id for one in self.mounts)

    @property
    def system(self) -> MountingSystem:
        """Its mounting system."""
        return self.mounts[0].array.system

    @property
    def attachment(self) -> Attachment:
        """The attachment."""
        return self.system.attachment

    @property
    def on_rafter(self) -> OnRafter:
        """The attachment, which is screwed to a rafter.

        Raises:
            ValueError: It is a clamp on a seam.
        """
        if isinstance(self.attachment, SeamClampAttachment):
            msg = f"{self.attachment.name} is not screwed to a rafter"
            raise ValueError(msg)
        return self.attachment

    @property
    def build_up(self) -> BuildUp:
        """Its heights."""
        return self.mounts[0].build_up

    @property
    def fastening(self) -> Fastening | None:
        """Its lag screws, None for a clamp on a seam."""
        return self.mounts[0].fastening

    @property
    def rail_gap_in(self) -> float:
        """Between neighboring modules, along a rail [in]."""
        return _rail_gap_in(self.mounts[0])

    @property
    def name(self) -> str:
        """What it shows, capitals."""
        return f"{_KINDS[self.attachment.kind]} ON {_COVERINGS[self.covering.kind]}"

    @property
    def lowest_covering(self) -> str:
        """What the height of the modules is measured from, capitals."""
        if isinstance(self.covering, CurvedTile):
            return "PAN"
        if isinstance(self.covering, StandingSeam):
            return "PANEL"
        return "SHINGLES" if isinstance(self.covering, AsphaltShingle) else "ROOF"


def details_of(design: Design) -> tuple[Detail, ...]:
    """Every distinct attachment detail of a job, in the order of its arrays.

    Arrays share one where system, heights and the gap between modules are the same.
    """
    alike: dict[tuple[MountingSystem, BuildUp, float], list[Mounted]] = {}
    for one in design.mounts:
        key = (one.array.system, replace(one.build_up, array=""), _rail_gap_in(one))
        alike.setdefault(key, []).append(one)
    inputs = design.inputs
    return tuple(
        Detail(number, tuple(mounts), inputs.job.roof.covering, inputs.framing)
        for number, mounts in enumerate(alike.values())
    )


def _rail_gap_in(one: Mounted) -> float:
    given = one.array.given
    return given.gap if one.array.system.across else given.up_gap
