"""What the covering must tell of the planes that attachments stand on."""

from collections.abc import Iterator

from planset.catalog.attachment import HookAttachment
from planset.errors import Problem
from planset.job.by_plane import on_plane
from planset.job.covering import Covering, CurvedTile, StandingSeam
from planset.job.plane_names import unknown_planes
from planset.job.sections import Entries, Sections
from planset.source import SourceDocument

_MEASURED = {
    "first_course": "from the eave's edge up the slope to the nose of the second course",
    "first_pan": "from the left end of the eave to the middle of the first pan",
}


def check_covering(
    sections: Sections,
    entries: Entries,
    covering: Covering,
    known: list[str],
    document: SourceDocument,
) -> Iterator[Problem]:
    """Yield planes that are not there, and what nobody measured in the tile under an array.

    Args:
        sections: The valid sections of the job.
        entries: The catalog entries it names.
        covering: What lies on the roof.
        known: Every plane of the roofs.
        document: The job file.
    """
    if isinstance(covering, StandingSeam):
        named = covering.first_seam or ()
        yield from unknown_planes(("roof", "covering", "first_seam"), named, known, document)
    if not isinstance(covering, CurvedTile):
        return
    for field, measured in _MEASURED.items():
        surveyed = getattr(covering, field)
        place = ("roof", "covering", field)
        yield from unknown_planes(place, surveyed or (), known, document)
        for number, array in enumerate(sections.get("arrays", ())):
            if array.mounting is None or array.plane not in known:
                continue
            system = entries.mountings.get(array.mounting.system)
            if system is not None and not isinstance(system.attachment, HookAttachment):
                continue
            if on_plane(surveyed or {}, array.plane) is None:
                message = f"hooks stand in tile whose {field} is not surveyed on {array.plane}"
                where = "roof.covering" if surveyed is None else f"roof.covering.{field}"
                missing = field if surveyed is None else array.plane
                mend = f"add {missing} to {where}, {measured}"
                yield document.problem(("arrays", number, "plane"), message, mend)
