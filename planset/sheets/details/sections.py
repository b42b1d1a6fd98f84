"""Both sections of a detail, by what its attachment is."""

from __future__ import annotations

from planset.job.covering import AsphaltShingle
from planset.sheets.details import flashed_foot, hook, seam_clamp, standoff
from planset.sheets.details.detail import Detail
from planset.sheets.details.shingles import Tucked
from planset.sheets.details.sketch import Section


def sections(detail: Detail) -> tuple[Section, Section]:
    """The section along the rafter or the seam, and the one across the slope."""
    match detail.attachment.kind:
        case "hook":
            return hook.along(detail), hook.across(detail)
        case "standoff":
            return standoff.along(detail), standoff.across(detail)
        case "flashed_foot":
            return flashed_foot.along(detail), flashed_foot.across(detail)
        case "seam_clamp":
            return seam_clamp.along(detail), seam_clamp.across(detail)


def place_on_shingles(detail: Detail) -> Tucked | None:
    """Where an attachment stands below the butt above it; None on another covering."""
    if not isinstance(detail.covering, AsphaltShingle):
        return None
    match detail.attachment.kind:
        case "flashed_foot":
            return flashed_foot.place(detail)
        case "standoff":
            return standoff.place(detail)
        case _:
            return None
