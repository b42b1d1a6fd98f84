"""Notes for the crew on the attachment plan: how to mark the roof, and what not to do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from planset.catalog.mounting import MountingSystem
from planset.design.design import Design
from planset.drawing.geometry import Point
from planset.drawing.table import Column, Table
from planset.sheets.context import SheetContext
from planset.sheets.details.detail import SHEET, details_of
from planset.sheets.note_table import note_table
from planset.sheets.racking_blocks import on_seams
from planset.sheets.tape_marks import eave_of, whole_eave
from planset.sheets.words import inches

_DETAILS, _LOADS = SHEET, "S-601"


def notes(context: SheetContext, at: Point, width: float) -> Table:
    """The notes for the crew, numbered.

    Args:
        context: What the sheet is given.
        at: Upper left corner [paper in].
        width: Width of the column [in].
    """
    rows = [(str(number), words) for number, words in enumerate(crew_notes(context), 1)]
    columns = (Column("", 0.3, "center"), Column("", width - 0.3))
    return note_table("NOTES FOR THE CREW", columns, rows, at)


def crew_notes(context: SheetContext) -> list[str]:
    """How to mark the roof from this sheet, and what not to do."""
    design = context.design
    return [
        datum(design),
        *survey(design),
        *supports(design),
        *lining_up(design),
        *gaps_and_feet(design),
        "Count attachments and parts against the tables before modules cover them.",
        falls(design),
        *_sheets(context),
    ]


def falls(design: Design) -> str:
    """Against falls, by what is underfoot."""
    wet = "wet tile" if design.inputs.job.roof.covering.kind == "curved_tile" else "a wet roof"
    return (
        "Above 6 ft: tied off or guarded before you leave the ladder (29 CFR 1926.501). Keep off "
        f"skylights. Not on {wet} or in high wind."
    )


def datum(design: Design) -> str:
    """What marks are measured from."""
    parted = any(eave_of(one) != whole_eave(one.array.plane) for one in design.mounts)
    where = "the left end of the eave"
    where += ", or of the part of it between wings" if parted else ""
    return (
        f"ALONG is from the datum, {where}; UP is from the eave's edge on the roof surface: every "
        "mark from its datum, none from another. Do not scale."
    )


def survey(design: Design) -> Iterator[str]:
    """What was measured of the roof's accuracy, and what to do about it."""
    survey = design.inputs.job.survey
    if survey is None:
        return
    measured = []
    for plane in dict.fromkeys(one.array.plane.id for one in design.mounts):
        bent, uneven = survey.eave_out_of_straight_on(plane), survey.unevenness_on(plane)
        words = [
            *([f"eave out of straight by {inches(bent)}"] if bent is not None else []),
            *([f"surface uneven by {inches(uneven)}"] if uneven is not None else []),
        ]
        if words:
            measured.append(f"{plane.replace('_', ' ')} plane: {', '.join(words)}")
    if measured:
        yield (
            f"Measured ({survey.source}): {'; '.join(measured)}. Stretch a string between the ends "
            "of the eave and measure UP from the string, not from the edge."
        )
        for system in systems(design):
            yield taken_up(system)


def taken_up(system: MountingSystem) -> str:
    """How much unevenness the parts of a system take."""
    reach = system.adjustment_in
    if not reach:
        return (
            f"{system.model}: no part adjusts in height. Where a string over the attachments "
            "shows one high or low, stop and call the designer."
        )
    foot = system.foot
    by = f", feet {inches(foot.lowest)} to {inches(foot.highest)}" if foot else ""
    return (
        f"{system.model} takes up to {inches(reach)} of unevenness{by}: find the highest place by "
        "string before setting any height."
    )


def supports(design: Design) -> Iterator[str]:
    """What attachments stand on."""
    framing = design.inputs.job.framing
    if any(not on_seams(one.array) for one in design.mounts):
        source = f" ({framing.source})" if framing else ""
        yield (
            f"Rafters as surveyed{source}. Find the middle of each before drilling. If it is not "
            "under its mark, stop and call the designer."
        )
        yield (
            "Screws go in the solid wood of a rafter. A hole that missed holds nothing: seal and "
            "flash it, then set the attachment anew in the rafter."
        )
    if any(on_seams(one.array) for one in design.mounts):
        yield (
            "Seams as surveyed. If a seam is not at its mark, stop and call the designer. Clamps "
            "need no hole: do not pierce a panel."
        )


def lining_up(design: Design) -> Iterator[str]:
    """What is set first, and how it is squared."""
    used = systems(design)
    if any(system.across for system in used):
        yield (
            "Set the first and the last rail of an array first, both ends of each the same "
            "distance from the eave. Stretch strings between their ends and bring the other rails "
            "to the strings."
        )
    if any(not system.across for system in used):
        yield (
            "Set the first and the last rail of an array first, both ends of each the same "
            "distance along the eave. Stretch a string between their lower ends and bring the "
            "other rails to it."
        )
    yield (
        "Check both diagonals of an array before its first hole. Where one differs from the table, "
        "find the wrong mark."
        if any(not on_seams(one.array) for one in design.mounts)
        else "Check both diagonals of an array before its first clamp is tightened. Where one "
        "differs from the table, find the wrong mark."
    )


def gaps_and_feet(design: Design) -> Iterator[str]:
    """Gaps, feet and trim."""
    yield from dict.fromkeys(_gap(one.array.system, one.array.given.gap) for one in design.mounts)
    for system in systems(design):
        if system.foot:
            off = inches(system.foot.from_rail_end)
            yield f"{system.foot.name}: {off} or more off a rail's end."
        if system.trim:
            yield (
                f"{system.trim.name}: {inches(system.trim.overhang)} at most past the last "
                f"{'front foot' if system.foot else 'rail'}."
            )


def _gap(system: MountingSystem, gap_in: float) -> str:
    """Between modules: what the part between them needs, else what the layout leaves."""
    if system.clamps:
        return f"{system.clamps.mid}: {inches(system.clamps.gap)} between frames, set by the clamp."
    if system.coupling:
        name, gap_in = system.coupling.name, system.coupling.gap
        return f"{name}: {inches(gap_in)} between frames, set by the coupling."
    return f"Modules stand {inches(gap_in)} apart."


def systems(design: Design) -> Iterable[MountingSystem]:
    """The mounting systems of a job, each once."""
    return list(dict.fromkeys(one.array.system for one in design.mounts))


def _sheets(context: SheetContext) -> list[str]:
    """Where to read on, of the sheets that the set has."""
    sheets = {entry.id for entry in context.index}
    seams = all(on_seams(one.array) for one in context.design.mounts)
    what = "Clamps and torques" if seams else "Screws, pilot holes, flashing and torques"
    more = [
        words
        for sheet, words in (
            (_DETAILS, f"{what}: {_callouts(context.design)}."),
            (_LOADS, f"Zones and loads: {_LOADS}."),
        )
        if sheet in sheets
    ]
    return [" ".join(more)] if more else []


def _callouts(design: Design) -> str:
    """The attachment details, with their arrays where there are several."""
    details = details_of(design)
    if len(details) == 1:
        return details[0].callout
    return "; ".join(f"{', '.join(sorted(one.array_ids))} {one.callout}" for one in details)
