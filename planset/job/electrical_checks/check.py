"""Every check of an electrical section, in the order a drafter reads the section."""

from collections.abc import Iterator

from planset.errors import Problem
from planset.job.electrical_checks.boxes import check_boxes
from planset.job.electrical_checks.connection import (
    check_combiner,
    check_connection,
    check_load_lines,
    check_storage,
)
from planset.job.electrical_checks.control import check_control
from planset.job.electrical_checks.ids import check_ids
from planset.job.electrical_checks.joints import check_joints
from planset.job.electrical_checks.runs import check_runs
from planset.job.electrical_checks.sources import (
    check_arrays_held,
    check_conversion,
    check_shutdown,
    check_sources,
)
from planset.job.electrical_checks.walls import check_walls
from planset.job.sections import Entries, Sections
from planset.source import SourceDocument


def check_electrical(
    sections: Sections, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Yield every disagreement within the electrical section, and with arrays and entries."""
    electrical, arrays = sections.get("electrical"), sections.get("arrays")
    if electrical is None:
        return
    yield from check_ids(electrical, document)
    if not electrical.strings and not electrical.branches:
        mend = "add strings with their inverters, or branches of microinverters"
        yield document.problem(("electrical",), "no strings and no branches", mend)
        return
    if arrays is not None:
        yield from check_arrays_held(electrical, arrays, document)
        yield from check_boxes(electrical, arrays, document)
    yield from check_sources(electrical, entries, document)
    yield from check_conversion(electrical, entries, document)
    yield from check_storage(electrical, entries, document)
    yield from check_shutdown(electrical, document)
    yield from check_control(electrical, document)
    yield from check_combiner(electrical, document)
    yield from check_connection(electrical, document)
    yield from check_load_lines(electrical, document)
    yield from check_runs(electrical, document)
    yield from check_joints(electrical, document)
    yield from check_walls(electrical, document)
