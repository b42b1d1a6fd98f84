"""The bill of materials: every part counted from where the design places it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from planset.catalog.attachment import FlashedFootAttachment, StandoffAttachment
from planset.design.electrical.lugs import GROUNDING_LUG, lugs
from planset.design.electrical.wire_clips import WIRE_CLIP, wire_clips
from planset.design.electrical_materials import electrical_lines
from planset.design.material_line import MaterialLine, SpareClass, Unit, spares_of
from planset.design.part_places import TRIM, part_counts
from planset.job.materials import USUAL_SPARES, Spares
from planset.units import format_feet_inches, format_inches

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.design.layout import PlacedArray
    from planset.design.mounted import Mounted
    from planset.design.stock_cutting import CutList

MODULES, ATTACHMENTS, RAILS = "MODULES", "ATTACHMENTS", "RAILS"
ON_RAILS, WIRING = "PARTS ON RAILS", "WIRING AND BONDING"
BY_OTHERS = "BY OTHERS"

_NOISE = 1e-9


@dataclass
class _Part:
    """What one line counts, array by array.

    Attributes:
        per: What it was counted by, such as "ONE PER ATTACHMENT".
        amount: How many, or how much, before it is rounded up.
        drawn_as: The name of its insertions in a drawing.
        arrays: Where.
    """

    group: str
    item: str
    product: str
    document: str
    per: str
    spare: SpareClass
    amount: float
    unit: Unit = "each"
    drawn_as: str = ""
    arrays: list[str] = field(default_factory=list)

    @property
    def key(self) -> tuple[str, ...]:
        """What lines of several arrays that are one have in common."""
        return (self.group, self.item, self.product, self.document, self.per, self.unit)


def spares_rule(design: Design) -> Spares:
    """The shares ordered as spares: the job's, else the usual ones."""
    stated = design.inputs.job.materials
    return stated.spares if stated else USUAL_SPARES


def bill_of_materials(design: Design) -> tuple[MaterialLine, ...]:
    """Every line of the bill, by group; what is by others, or not laid out, without a count."""
    spares = spares_rule(design)
    parts = [
        *(part for array in design.arrays for part in _modules(array)),
        *(part for one in design.mounts for part in _attachments(one)),
    ]
    on_rails = [
        *(part for one in design.mounts for part in _on_rails(one)),
        *(_clips(design, array) for array in design.arrays),
        *(_lugs(design, one) for one in design.mounts),
    ]
    return (
        *_lines(parts, spares),
        *_not_ours(design),
        *(_bars(design, cuts) for cuts in design.cuts if cuts.bars or cuts.uncut),
        *_lines(on_rails, spares),
        *_jumpers(design),
        *electrical_lines(design, spares),
    )


def _lines(parts: Iterable[_Part], spares: Spares) -> Iterator[MaterialLine]:
    """The parts as lines, those of several arrays that are one added up."""
    added: dict[tuple[str, ...], _Part] = {}
    for part in parts:
        kept = added.setdefault(part.key, part)
        if kept is not part:
            kept.amount += part.amount
            kept.arrays += [name for name in part.arrays if name not in kept.arrays]
    for part in sorted(added.values(), key=lambda one: _ORDER.index(one.group)):
        count = math.ceil(part.amount - _NOISE)
        yield MaterialLine(
            group=part.group,
            item=part.item,
            product=part.product,
            document=part.document,
            quantity=count,
            spare=spares_of(count, spares, part.spare),
            unit=part.unit,
            counted=f"{part.per}, {_named(part.arrays)}",
            drawn_as=part.drawn_as,
        )


_ORDER = (MODULES, ATTACHMENTS, ON_RAILS, WIRING)


def _named(arrays: list[str]) -> str:
    return f"ARRAY{'S' if len(arrays) > 1 else ''} {', '.join(arrays)}"


def _modules(array: PlacedArray) -> Iterator[_Part]:
    module, count = array.product, len(array.modules)
    name = f"{module.maker} {module.model}"
    yield _Part(
        *(MODULES, "Module", name, module.document, "MODULES", "modules", count),
        drawn_as=module.model,
        arrays=[array.id],
    )


def _attachments(one: Mounted) -> Iterator[_Part]:
    """Attachments with their screws, flashings and what else seals them."""
    system, count = one.array.system, len(one.racking.attachments)
    attachment = system.attachment

    def part(item: str, product: str, per: str, each: float, spare: SpareClass) -> _Part:
        return _Part(
            *(ATTACHMENTS, item, product, system.document, per, spare, each * count),
            arrays=[one.id],
        )

    placed = part("Attachment", attachment.name, "ATTACHMENTS", 1, "attachments")
    placed.drawn_as = attachment.name
    yield placed
    if attachment.kind != "seam_clamp":
        lags = attachment.lags
        size = f"{format_inches(lags.diameter)} x {format_inches(lags.length)}"
        yield part("Lag screw", size, f"{lags.count} PER ATTACHMENT", lags.count, "small_parts")
    if isinstance(attachment, StandoffAttachment | FlashedFootAttachment):
        across, along = attachment.flashing_width, attachment.flashing_length
        size = f"{attachment.name}, {format_inches(across)} x {format_inches(along)}"
        yield part("Flashing", size, "1 PER ATTACHMENT", 1, "attachments")
    for supply in attachment.supplies:
        unit = "" if supply.unit == "each" else f" {supply.unit}"
        made = part(
            "Sealing",
            supply.name,
            f"{supply.amount:g}{unit} PER ATTACHMENT",
            supply.amount,
            "attachments",
        )
        made.unit = supply.unit
        yield made


def _not_ours(design: Design) -> Iterator[MaterialLine]:
    """What others design, so that nobody reads it as forgotten."""
    names = [array.id for array in design.arrays if array.mounting is None]
    if names:
        yield MaterialLine(
            group=ATTACHMENTS,
            item="Attachments, rails and what holds the modules",
            product=BY_OTHERS,
            document="",
            quantity=None,
            spare=0,
            unit="each",
            counted=f"NOT COUNTED: MOUNTING BY OTHERS, {_named(names)}",
        )


def _bars(design: Design, cuts: CutList) -> MaterialLine:
    """The stock lengths of a cut list."""
    system = next(
        one.array.system for one in design.mounts if one.array.system.model == cuts.system
    )
    uncut = f"; LONGER THAN STOCK, NOT COUNTED: {', '.join(cuts.uncut)}" if cuts.uncut else ""
    return MaterialLine(
        group=RAILS,
        item=f"Rail, stock length {format_feet_inches(cuts.stock_in)}",
        product=f"{system.maker} {system.model}",
        document=system.document,
        quantity=len(cuts.bars),
        spare=0,
        unit="each",
        counted=f"BARS OF THE CUT LIST{uncut}",
    )


def _on_rails(one: Mounted) -> Iterator[_Part]:
    """Parts on the rails."""
    system = one.array.system
    for (kind, name), count in part_counts(one).items():
        item, per = kind.replace("_", " ").capitalize(), "PLACES ON THE PLAN"
        if kind == TRIM and system.trim:
            item = f"Trim, {format_feet_inches(system.trim.piece_length)} piece"
            per = "ONE STOCK PIECE TO EACH"
        spare: SpareClass = "none" if kind == TRIM else "small_parts"
        yield _Part(
            *(ON_RAILS, item, name, system.document, per, spare, count),
            drawn_as=name,
            arrays=[one.id],
        )


def _clips(design: Design, array: PlacedArray) -> _Part:
    """Wire clips; the job names no product."""
    spacing = format_inches(design.inputs.job.electrical.wire_clips.spacing)
    return _Part(
        *(WIRING, WIRE_CLIP, "", "", f"PLACES ON THE PLAN, {spacing} APART OR LESS", "small_parts"),
        sum(1 for place in wire_clips(design) if place.array == array.id),
        drawn_as=WIRE_CLIP,
        arrays=[array.id],
    )


def _lugs(design: Design, one: Mounted) -> _Part:
    bonding = one.array.system.bonding
    document = f"{bonding.document}, page {bonding.page}"
    return _Part(
        *(WIRING, GROUNDING_LUG, "", document, "1 PER BONDED SECTION", "small_parts"),
        sum(1 for lug in lugs(design) if lug.array == one.id),
        drawn_as=GROUNDING_LUG,
        arrays=[one.id],
    )


def _jumpers(design: Design) -> Iterator[MaterialLine]:
    """Jumpers from modules to rails, which nothing lays out."""
    names = [one.id for one in design.mounts if not one.array.system.bonding.modules_to_rails]
    if names:
        yield MaterialLine(
            group=WIRING,
            item="Bonding jumpers, modules to rails",
            product="",
            document="",
            quantity=None,
            spare=0,
            unit="each",
            counted=f"NOT COUNTED: NOT LAID OUT, {_named(names)}",
        )
