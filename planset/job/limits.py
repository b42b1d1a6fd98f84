"""How much one job may hold, so that no slip of the pen takes all time and memory of a machine."""

import math
from collections.abc import Iterator

from planset.catalog.module import Module
from planset.errors import Problem
from planset.job.arrays import Array
from planset.job.framing import Framing
from planset.job.roof import Roof
from planset.job.sections import Entries, Sections
from planset.roof.shapes import RoofShapeError
from planset.source import SourceDocument

MOST_MODULES = 2_000
"""Of a job; several times what a sheet can show."""

MOST_ATTACHMENTS = 20_000
"""Of a job: ten of each module."""

_CLOSEST_IN = 24.0  # attachments on a rail that is laid out by planset, to guess their number

MOST_CELLS = 2 * MOST_MODULES
"""Of the grid on the plane of an array that is to be fitted."""


def too_much(sections: Sections, entries: Entries, document: SourceDocument) -> Iterator[Problem]:
    """Yield a problem of the array with which a job comes to hold more than it may."""
    modules, attachments = 0, 0
    for number, array in enumerate(sections.get("arrays", ())):
        product = entries.modules.get(array.module)
        cells = _cells(array, product, sections.get("roof"))
        modules += array.module_count or array.most or cells
        attachments += _attachments(array, product, sections.get("framing"))
        for count, most, what, mend in (
            (cells, MOST_CELLS, "places to fit modules", "state rows, columns and corner"),
            (modules, MOST_MODULES, "modules", "correct rows and columns"),
            (attachments, MOST_ATTACHMENTS, "attachments", "correct the mounting and the module"),
        ):
            if count > most:
                message = f"the job comes to {count:,} {what}, where {most:,} is the most"
                yield document.problem(("arrays", number), message, f"{mend}, or make two jobs")
                return


def _attachments(array: Array, product: Module | None, framing: Framing | None) -> int:
    """Return how many attachments an array can have at most, 0 where that cannot be said."""
    rows, columns, mounting = array.rows, array.columns, array.mounting
    if rows is None or columns is None or not (mounting and product and framing):
        return 0
    across, up = product.width, product.height
    if array.orientation == "portrait":
        across, up = up, across
    lines = math.floor(columns * (across + array.gap) / framing.spacing) + 1
    if mounting.rail_inset is not None:
        return 2 * rows * (lines // (mounting.attach_every or 1) + 1)
    spacing = mounting.attachment_spacing or _CLOSEST_IN
    each = math.floor(rows * (up + array.up_gap) / spacing) + 2
    return (lines // (mounting.rail_every or 1) + 1) * each


def _cells(array: Array, product: Module | None, roof: Roof | None) -> int:
    """Return how many modules the box around a plane has room for, 0 where none is to be fitted."""
    if not (array.as_many_as_fit and product and roof):
        return 0
    try:
        planes = roof.solid.planes
    except RoofShapeError:  # told by those who check roofs
        return 0
    for plane in planes:
        if plane.id == array.plane:
            u, v = zip(*map(plane.to_surface, plane.outline), strict=True)
            room: float = (max(u) - min(u)) * (max(v) - min(v))
            return math.floor(room / (product.width * product.height))
    return 0
