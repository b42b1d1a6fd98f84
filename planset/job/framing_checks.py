"""What the framing must agree with: the planes of the roof, and the arrays that stand on it."""

from collections.abc import Iterable, Iterator

from planset.errors import Problem
from planset.job.by_plane import EVERY_PLANE
from planset.job.framing import Framing
from planset.job.sections import Sections
from planset.source import SourceDocument


def check_framing(
    sections: Sections, known: list[str], document: SourceDocument
) -> Iterator[Problem]:
    """Yield what is said of planes that are not there, and what an array lacks under it.

    Args:
        sections: The valid sections of the job.
        known: Every plane of the roofs.
        document: The job file.
    """
    if "framing" not in sections:
        return
    framing = sections["framing"]
    if framing is None:
        yield from _nothing_stands_on_others(sections, document)
        return
    yield from _planes_exist(framing, known, document)
    yield from _planes_are_surveyed(sections, framing, known, document)


def _nothing_stands_on_others(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    for number, array in enumerate(sections.get("arrays", ())):
        if array.mounting is not None:
            message = "its attachments stand on framing that is by others"
            mend = "describe the framing, or write mounting: by_others"
            yield document.problem(("arrays", number, "mounting"), message, mend)


def _planes_exist(
    framing: Framing, known: list[str], document: SourceDocument
) -> Iterator[Problem]:
    stated: dict[str, Iterable[str]] = {
        "first_rafter": framing.first_rafter,
        "supports": framing.supports or {},
    }
    for field, by_plane in stated.items():
        for name in by_plane:
            if name not in (*known, EVERY_PLANE):
                message = f"not a plane of the roof (got {name})"
                mend = f"write one of: {', '.join(known)}"
                yield document.problem(("framing", field, name), message, mend)


def _planes_are_surveyed(
    sections: Sections, framing: Framing, known: list[str], document: SourceDocument
) -> Iterator[Problem]:
    """Yield planes that an array stands on, and whose rafters nobody measured."""
    for number, array in enumerate(sections.get("arrays", ())):
        if array.mounting is None or array.plane not in known:
            continue
        lacks = {}
        if framing.first_rafter_on(array.plane) is None:
            lacks["first_rafter"] = f"the rafters of plane {array.plane} are not surveyed"
        if framing.kind == "rafter" and framing.supports_on(array.plane) is None:
            lacks["supports"] = f"where the rafters of plane {array.plane} bear is not surveyed"
        for field, message in lacks.items():
            mend = f"add {array.plane} to framing.{field}"
            yield document.problem(("arrays", number, "plane"), message, mend)
