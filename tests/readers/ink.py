"""Pages as ink: which pixels are drawn on, and how much of one page is far from another."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import numpy.typing as npt
from PIL import Image

DPI = 150
PAPER = 225  # gray level from which a pixel counts as blank; thin gray lines are darker

Ink = npt.NDArray[np.bool_]


def read_ink(picture: Path) -> Ink:
    """The ink of a rendered page, its first row at the top."""
    with Image.open(picture) as image:
        return np.asarray(image.convert("L")) < PAPER


def grown(ink: Ink, pixels: int) -> Ink:
    """The ink and all that lies so near to it, along rows, columns or both."""
    for _ in range(pixels):
        for axis in (0, 1):
            there, back = np.roll(ink, 1, axis), np.roll(ink, -1, axis)
            np.moveaxis(there, axis, 0)[0] = False  # nothing comes in over the edge
            np.moveaxis(back, axis, 0)[-1] = False
            ink = ink | there | back
    return ink


def far_share(ink: Ink, other: Ink, pixels: int) -> float:
    """The share of the ink that lies farther than so many pixels from the other's."""
    assert ink.shape == other.shape
    return float((ink & ~grown(other, pixels)).sum() / ink.sum())
