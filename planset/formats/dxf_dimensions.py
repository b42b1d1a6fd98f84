"""How a CAD program draws and measures our dimensions anew: their styles and their figures."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

from planset.drawing.dimension import (
    ARROW_LENGTH,
    EXTENSION_GAP,
    EXTENSION_OVERRUN,
    NEXT_OFFSET,
    OVERRUN,
    TEXT_GAP,
    TEXT_HEIGHT,
    TICK_REACH,
)
from planset.drawing.primitives import Dimension
from planset.drawing.running import DATUM_RADIUS, TAIL
from planset.units import format_feet_inches

TEXT_STYLE = "ARIAL"
BYLAYER_COLOR = 256
BYLAYER_WEIGHT = -1

MEASURED = "<>"  # in the text of a dimension: the length, formatted by its style
FINEST = 16  # fractions of an inch that a style prints

DATUM = "DATUM"  # block of the mark where running dimensions begin
DATUM_REACH = DATUM_RADIUS / ARROW_LENGTH  # its radius, in lengths of an arrowhead

_NEARLY_IN = 1e-4  # that two programs may differ in measuring a length

# Parts of a dimension by DIMSTYLE name, in heights of its figure, as `drawing.dimension` draws
# them: what a CAD program draws anew after an edit looks like the rest.
DIMENSION_SIZES = {
    "dimtxt": 1.0,
    "dimtsz": TICK_REACH * math.sqrt(0.5) / TEXT_HEIGHT,  # a tick's reach across, to each side
    "dimdle": OVERRUN / TEXT_HEIGHT,  # dimension line beyond the ticks
    "dimasz": ARROW_LENGTH / TEXT_HEIGHT,
    "dimexo": EXTENSION_GAP / TEXT_HEIGHT,  # gap at the object
    "dimexe": EXTENSION_OVERRUN / TEXT_HEIGHT,  # extension line beyond the dimension line
    "dimgap": TEXT_GAP / TEXT_HEIGHT,
    "dimdli": NEXT_OFFSET / TEXT_HEIGHT,
    "dimcen": 1 / 16 / TEXT_HEIGHT,
}
DIMENSION_CHOICES: dict[str, Any] = {
    "dimlunit": 4,  # architectural
    "dimdec": 4,  # sixteenths
    "dimfrac": 2,  # fractions in line
    "dimzin": 3,  # 40'-0" keeps its inches, 8 1/2" has no feet
    "dimdsep": 46,  # a decimal point, should a reader ignore the above
    "dimtad": 1,  # figure above the line
    "dimtih": 0,  # and parallel to it, inside
    "dimtoh": 0,  # and outside the extension lines
    "dimtofl": 1,
    "dimrnd": 0.0,
    "dimclrd": BYLAYER_COLOR,
    "dimclre": BYLAYER_COLOR,
    "dimclrt": BYLAYER_COLOR,
    "dimlwd": BYLAYER_WEIGHT,
    "dimlwe": BYLAYER_WEIGHT,
    "dimtxsty": TEXT_STYLE,
}

# What `drawing.running` draws otherwise.
_RUNNING_SIZES = {"dimtsz": 0.0, "dimdle": 0.0, "dimexe": TAIL / TEXT_HEIGHT}
_RUNNING_CHOICES: dict[str, Any] = {
    "dimsah": 1,  # the ends differ
    "dimblk": "",
    "dimblk1": DATUM,
    "dimblk2": "",  # a filled arrow
    "dimatfit": 2,  # arrows stay inside while they have room
    "dimtad": 0,
    "dimtih": 1,  # level, unless the dimension says how its figure is turned
    "dimtoh": 1,
    "dimtmove": 2,  # a figure stands where it is put, and the line where it is
}


class DimensionSize(NamedTuple):
    """What sets one dimension style apart from another.

    Attributes:
        scale: Model inches per inch of the dimension's sizes.
        text_height: Height of the figures before scaling [in].
        length_factor: True length of what is drawn an inch long.
        running: Whether it is for distances from one datum.
    """

    scale: float
    text_height: float
    length_factor: float = 1.0
    running: bool = False

    @property
    def name(self) -> str:
        """Name of the style."""
        height = "" if self.text_height == TEXT_HEIGHT else f"-{self.text_height:g}"
        lengths = "" if self.length_factor == 1 else f"-X{self.length_factor:g}"
        return f"PLANSET-{self.scale:g}{height}{lengths}{'-RUN' if self.running else ''}"

    @property
    def variables(self) -> dict[str, Any]:
        """Its dimension variables by name."""
        sizes, choices = DIMENSION_SIZES, DIMENSION_CHOICES
        if self.running:
            sizes, choices = sizes | _RUNNING_SIZES, choices | _RUNNING_CHOICES
        heights = {name: size * self.text_height for name, size in sizes.items()}
        return {"dimscale": self.scale, "dimlfac": self.length_factor, **heights, **choices}


def measured_text(part: Dimension, length_in: float) -> str:
    """The text of a dimension, measured anew where that gives the same figure.

    Args:
        part: The dimension.
        length_in: What a program measures of it [in].

    Returns:
        Its words with `MEASURED` for the figure, or as printed where the style would say
        something else: a length on the slope, one rounded more coarsely or to one side.
    """
    low, high = (
        format_feet_inches(length_in + by, denominator=FINEST) for by in (-_NEARLY_IN, _NEARLY_IN)
    )
    if part.on_slope or low != high:
        return part.text
    figure, words = part.text[: len(low)], part.text[len(low) :]
    return MEASURED + words if figure == low else part.text
