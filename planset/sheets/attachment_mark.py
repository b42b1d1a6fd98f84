"""What point of an attachment the crew marks, and where its lag screws are from there."""

from __future__ import annotations

from collections.abc import Sequence
from types import MappingProxyType

from planset.catalog.attachment import Attachment, OnRafter
from planset.design.mounted import Mounted
from planset.design.post_courses import PostFit
from planset.design.tile_courses import TileFit
from planset.units import format_feet_inches

_POINT = MappingProxyType(
    {
        "hook": "face of the hook's arm",
        "standoff": "middle of the post",
        "flashed_foot": "middle of the plate",
        "seam_clamp": "middle of the clamp",
    }
)
_SIXTEENTHS = 16
_NOISE_IN = 1e-6


def mark_words(attachment: Attachment) -> str:
    """What UP is measured to, and how far up the slope from there the lag screws are."""
    point = _POINT[attachment.kind]
    if attachment.kind == "seam_clamp":
        return point
    return f"{point}; {lags_from_mark(attachment)}"


def lags_from_mark(attachment: OnRafter) -> str:
    """Where the lag screws are from the mark, up the slope."""
    ups = attachment.lags_up
    name = "lags" if len(ups) > 1 else "lag"
    if all(up > _NOISE_IN for up in ups):
        return f"{name} {' and '.join(map(_length, ups))} above it"
    return f"{name} {' and '.join(map(_from_mark, ups))}"


def _from_mark(up_in: float) -> str:
    if abs(up_in) < _NOISE_IN:
        return "there"
    return f"{_length(abs(up_in))} {'above' if up_in > 0 else 'below'} it"


def up_heading(mounted: Sequence[Mounted]) -> str:
    """The same for the head of a table, with its arrays where they differ."""
    arrays: dict[str, list[str]] = {}
    for one in mounted:
        arrays.setdefault(mark_words(one.array.system.attachment), []).append(one.id)
    if len(arrays) == 1:
        return f"UP: {next(iter(arrays)).upper()}"
    return "; ".join(f"UP, {', '.join(ids)}: {words.upper()}" for words, ids in arrays.items())


def window_words(fits: Sequence[TileFit]) -> str:
    """Where the face of an arm may be below the nose of the course above; the same for all."""
    laps = fits[0].laps
    least = format_feet_inches(laps.least_below_in, rounding="up")
    most = format_feet_inches(max(laps.most_below_in, 0.0), rounding="down")
    return f"its face {least} to {most} below the nose"


def as_laid_out(fits: Sequence[TileFit]) -> str:
    """Where the faces of all arms are below their noses as laid out, "" where there are none."""
    below = [hook.below_in for fit in fits for hook in fit.hooks]
    if not below:
        return ""
    return " to ".join(dict.fromkeys((_signed(min(below)), _signed(max(below)))))


def laps_as_laid_out(fits: Sequence[PostFit]) -> str:
    """How far the flashings of all posts run under the course above as laid out, or end short."""
    laps = [post.lap_in for fit in fits for post in fit.posts]
    if not laps:
        return ""
    return " to ".join(dict.fromkeys((_lap(min(laps)), _lap(max(laps)))))


def _lap(lap_in: float) -> str:
    if lap_in < 0:
        return f"{format_feet_inches(-lap_in, denominator=_SIXTEENTHS, rounding='up')} short"
    return format_feet_inches(lap_in, denominator=_SIXTEENTHS, rounding="down")


def _signed(below_in: float) -> str:
    return f"{'-' if below_in < 0 else ''}{_length(abs(below_in))}"


def _length(value_in: float) -> str:
    return format_feet_inches(value_in, denominator=_SIXTEENTHS)
