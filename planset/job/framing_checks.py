"""What the framing must agree with: the planes of the roof, and the arrays that stand on it."""

from collections.abc import Iterable, Iterator

from planset.errors import Problem
from planset.job.framing import Framing
from planset.job.plane_names import unknown_planes
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
    if survey := sections.get("survey"):
        for field in ("unevenness", "eave_out_of_straight"):
            named = getattr(survey, field)
            yield from unknown_planes(("survey", field), named, known, document)
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
        yield from unknown_planes(("framing", field), by_plane, known, document)


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
