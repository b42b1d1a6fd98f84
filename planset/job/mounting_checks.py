"""What a mounting must agree with: its system, the covering under it, the lines it counts by."""

from collections.abc import Iterator

from planset.catalog.mounting import MountingSystem
from planset.errors import Problem
from planset.job.arrays import Array, ArrayMounting
from planset.job.covering import AsphaltShingle, Covering, CurvedTile, StandingSeam
from planset.job.sections import Entries, Sections
from planset.source import SourceDocument

_UP = ("first_rail_rafter", "rail_every", "first_attachment", "attachment_spacing")
_ACROSS = ("first_line", "attach_every")
_FOUND = "or write fewest_attachments: true"
_MEANING = {
    "first_rail_rafter": "number of the rafter under the first rail, from the left",
    "rail_every": "1 for a rail over each rafter, 2 over every second one",
    "first_attachment": "length from the lower end of the rail",
    "attachment_spacing": "length up the slope",
    "first_line": "number of the rafter or seam of the first attachment, from the left",
    "attach_every": "1 for an attachment on each rafter or seam, 2 on every second one",
}


def check_mountings(
    sections: Sections, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Yield mountings that do not suit the covering, and what they state too much or too little.

    Args:
        sections: The valid sections of the job.
        entries: The catalog entries it names.
        document: The job file.
    """
    roof = sections.get("roof")
    for number, array in enumerate(sections.get("arrays", ())):
        if array.mounting is None:
            continue
        system = entries.mountings.get(array.mounting.system)
        if roof is not None:
            told = list(_covering(number, array, system, roof.covering, document))
            yield from told
        if system is not None:
            yield from _fields(number, array.mounting, system, document)
            yield from _pins(number, array.mounting, system, document)


def _covering(
    number: int,
    array: Array,
    system: MountingSystem | None,
    covering: Covering,
    document: SourceDocument,
) -> Iterator[Problem]:
    if not isinstance(covering, CurvedTile | AsphaltShingle | StandingSeam):
        message = f"attachments on {covering.kind} are not designed yet"
        mend = "write mounting: by_others, and have the designer of the mounting add its sheets"
        yield document.problem(("arrays", number, "mounting"), message, mend)
        return
    if system is None:
        return
    if covering.kind not in system.attachment.suits:
        suits = ", ".join(system.attachment.suits)
        message = f"{system.model} does not suit {covering.kind}, only {suits}"
        mend = "choose a system whose attachment suits the covering"
        yield document.problem(("arrays", number, "mounting", "system"), message, mend)
        return
    if isinstance(covering, StandingSeam) and covering.first_seam_on(array.plane) is None:
        message = f"clamps stand on seams whose first_seam is not surveyed on {array.plane}"
        where = "roof.covering" if covering.first_seam is None else "roof.covering.first_seam"
        mend = f"add it to {where}, from the left end of the eave to the first seam"
        yield document.problem(("arrays", number, "plane"), message, mend)


def _fields(
    number: int, mounting: ArrayMounting, system: MountingSystem, document: SourceDocument
) -> Iterator[Problem]:
    """Each family has fields of its own, which planset finds itself when it is asked to."""
    own, others = (_ACROSS, (*_UP,)) if system.across else (_UP, (*_ACROSS, "rail_inset"))
    stated = {name for name in (*_UP, *_ACROSS, "rail_inset") if _has(mounting, name)}
    where = ("arrays", number, "mounting")
    for name in sorted(stated & set(others)):
        message = f"not of this family: {system.model} has {_words(system.family)}"
        yield document.problem((*where, name), message, "remove it, or choose another system")
    if mounting.stagger and not system.across:
        message = (
            f"stagger is of rails across the slope; {system.model} has {_words(system.family)}"
        )
        yield document.problem((*where, "stagger"), message, "remove it")
    if system.across and "rail_inset" not in stated:
        message = "rail_inset is missing, from the lower and upper edge of a module to its rails"
        yield document.problem(where, message, "add it, by the clamp zone of the module")
    missing = [name for name in own if name not in stated]
    if mounting.fewest_attachments:
        for name in sorted(stated & set(own)):
            message = "fewest_attachments finds it itself"
            yield document.problem((*where, name), message, "remove one of them")
    elif missing:
        message = "missing: " + "; ".join(f"{name}, {_MEANING[name]}" for name in missing)
        yield document.problem(where, message, f"add what is missing, {_FOUND}")


def _has(mounting: ArrayMounting, name: str) -> bool:
    return getattr(mounting, name) is not None


def _words(family: str) -> str:
    return family.replace("_", " ")


def _pins(
    number: int, mounting: ArrayMounting, system: MountingSystem, document: SourceDocument
) -> Iterator[Problem]:
    needed, other = ("rail", "up") if system.across else ("up", "rail")
    for place, pin in enumerate(mounting.pinned):
        where = ("arrays", number, "mounting", "pinned", place)
        if not mounting.fewest_attachments:
            message = "pinned belongs to fewest_attachments, which finds the other attachments"
            yield document.problem(where, message, "write fewest_attachments: true, or remove it")
            return
        if getattr(pin, needed) is None or getattr(pin, other) is not None:
            message = f"an attachment of {_words(system.family)} is pinned by line and {needed}"
            yield document.problem(where, message, f"give line and {needed}, no more")
