"""The names by which plot devices know sheets of paper."""

from __future__ import annotations

_KNOWN = {
    (11.0, 8.5): "ANSI_full_bleed_A",
    (17.0, 11.0): "ANSI_full_bleed_B",
    (22.0, 17.0): "ANSI_full_bleed_C",
    (34.0, 22.0): "ANSI_full_bleed_D",
    (44.0, 34.0): "ANSI_full_bleed_E",
    (12.0, 9.0): "ARCH_full_bleed_A",
    (18.0, 12.0): "ARCH_full_bleed_B",
    (24.0, 18.0): "ARCH_full_bleed_C",
    (36.0, 24.0): "ARCH_full_bleed_D",
    (42.0, 30.0): "ARCH_full_bleed_E1",
    (48.0, 36.0): "ARCH_full_bleed_E",
}
"""By width and height [in]: media of "DWG To PDF", from memory; sizes of ANSI Y14.1 and ARCH."""


def paper_series(width: float, height: float) -> str:
    """What the name of a paper begins with, which goes on with its size.

    Args:
        width: Of the sheet [in].
        height: Of the sheet [in].

    Returns:
        "sheet" for a size that devices have no name for.
    """
    return _KNOWN.get((round(width, 2), round(height, 2)), "sheet")


def paper_name(width: float, height: float) -> str:
    """The whole name of a paper, as `ANSI_full_bleed_B_(17.00_x_11.00_Inches)`."""
    return f"{paper_series(width, height)}_({width:.2f}_x_{height:.2f}_Inches)"
