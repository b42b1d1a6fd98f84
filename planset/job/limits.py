"""How much one job may hold, so that no slip of the pen takes all time and memory of a machine."""

import math
from collections.abc import Iterator

from planset.catalog.module import Module
from planset.errors import Problem
from planset.job.arrays import Array, ArrayMounting
from planset.job.framing import Framing
from planset.job.sections import Entries, Sections
from planset.source import SourceDocument

MOST_MODULES = 2_000
"""Of a job; several times what a sheet can show."""

MOST_ATTACHMENTS = 20_000
"""Of a job: ten of each module."""


def too_much(sections: Sections, entries: Entries, document: SourceDocument) -> Iterator[Problem]:
    """Yield a problem of the array with which a job comes to hold more than it may."""
    modules, attachments = 0, 0
    for number, array in enumerate(sections.get("arrays", ())):
        product, framing = entries.modules.get(array.module), sections.get("framing")
        modules += array.module_count or array.most or 0
        if product and framing and array.mounting:
            attachments += _attachments(array, array.mounting, product, framing)
        for count, most, what, mend in (
            (modules, MOST_MODULES, "modules", "correct rows and columns"),
            (attachments, MOST_ATTACHMENTS, "attachments", "correct the mounting and the module"),
        ):
            if count > most:
                message = f"the job comes to {count:,} {what}, where {most:,} is the most"
                yield document.problem(("arrays", number), message, f"{mend}, or make two jobs")
                return


def _attachments(array: Array, mounting: ArrayMounting, product: Module, framing: Framing) -> int:
    """Return how many attachments an array can have at most; 0 when its extent is to be found."""
    if array.rows is None or array.columns is None:
        return 0
    across, up = product.width, product.height
    if array.orientation == "portrait":
        across, up = up, across
    rails = array.columns * (across + array.gap) / (framing.spacing * mounting.rail_every)
    each = array.rows * (up + array.up_gap) / mounting.attachment_spacing
    return (math.floor(rails) + 1) * (math.floor(each) + 2)
