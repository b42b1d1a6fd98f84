"""Measure dictionaries: what lets a viewer's measuring tool read feet and inches in each view.

PDF 32000-1:2008, 12.9, tables 260 to 263: a page's viewports, each with a rectilinear measure.
"""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFString

from planset.drawing.page import NOT_TO_SCALE, View
from planset.formats.pdf_plotter import POINTS

INCHES_PER_FOOT = 12
SIXTEENTHS = 16


def viewports(views: Sequence[View]) -> PDFArray | None:
    """The viewports of a page, one per view that has a scale; None when none has.

    The tool reads what is drawn: in a plan the distance in plan, not on the slope.
    """
    made = [_viewport(view) for view in views if view.scale.label != NOT_TO_SCALE.label]
    return PDFArray(made) if made else None


def _viewport(view: View) -> PDFDictionary:
    frame = view.frame
    corners = (frame.x0, frame.y0, frame.x1, frame.y1)  # lower left first: x right, y up
    return PDFDictionary(
        {
            "Type": PDFName("Viewport"),
            "BBox": PDFArray([_number(corner * POINTS) for corner in corners]),
            "Name": PDFString(view.title),
            "Measure": _measure(view),
        }
    )


def _measure(view: View) -> PDFDictionary:
    feet_per_point = view.scale.factor / POINTS / INCHES_PER_FOOT
    inches = _format("in", INCHES_PER_FOOT, F=PDFName("F"), D=SIXTEENTHS)
    return PDFDictionary(
        {
            "Type": PDFName("Measure"),
            "Subtype": PDFName("RL"),
            "R": PDFString(view.scale.label),
            "X": PDFArray([_format("ft", feet_per_point)]),
            "D": PDFArray([_format("ft", 1), inches]),
            "A": PDFArray([_format("sq ft", 1)]),
            "T": PDFArray([_format("deg", 1)]),
        }
    )


def _format(unit: str, factor: float, **how: object) -> PDFDictionary:
    """How many of a unit, and how the rest is shown; without saying, in hundredths."""
    kind, label = PDFName("NumberFormat"), PDFString(unit)
    return PDFDictionary({"Type": kind, "U": label, "C": _number(factor), **how})


def _number(value: float) -> str:
    """Nine decimals: reportlab's own six would be off by 1 in 4,000 on the largest scales."""
    return f"{value:.9f}".rstrip("0").rstrip(".")
