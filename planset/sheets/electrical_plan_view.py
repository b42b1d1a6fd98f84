"""The roof on the electrical plan: circuits module by module, boxes, raceways, lugs."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise

from planset.design.design import Design
from planset.design.electrical.boxes import placed_boxes
from planset.design.electrical.module_devices import circuit_modules
from planset.design.electrical.routes import RoofRoute, roof_routes
from planset.design.layout import PlacedArray, PlacedModule
from planset.drawing.dimension import dimension
from planset.drawing.fit import BESIDE_MATCH_LINE, Margins, Part, fit_or_split, match_lines
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, Point, box_around, direction_deg, distance, readable
from planset.drawing.labels import Label, LabelPlacer, NoRoomError
from planset.drawing.layers import OWN_LAYERS
from planset.drawing.leader_course import ends_inside
from planset.drawing.page import PLAN_SCALES, Scale, View
from planset.drawing.primitives import Block, Dimension, Insert, Line, Primitive, Text
from planset.drawing.text import MINIMUM_HEIGHT, NOTE_HEIGHT, SLACK, text_width, wrap
from planset.sheets.access_areas import ACCESS_LINES, access_lines_block
from planset.sheets.array_layers import MODULES_LIGHT
from planset.sheets.context import SheetContext, continued_id
from planset.sheets.electrical_blocks import (
    electrical_blocks,
    on_roof,
    route_block,
    shown,
)
from planset.sheets.electrical_paths import tag_room
from planset.sheets.module_tags import array_names
from planset.sheets.plan_blocks import (
    OBSTRUCTIONS,
    ROOF,
    array_block,
    plan_blocks,
    roof_extent,
)
from planset.sheets.plan_walls import WALLS, outside_of_roofs
from planset.sheets.plane_names import plane_names
from planset.sheets.roof_plan_draft import obstruction_box, reserve
from planset.sheets.site_names import building_names, side_words
from planset.sheets.unnamed import Marked, Unnamed, led_from_outside, or_unnamed

DIMS = "E-ANNO-DIMS"
TEXT = "E-ANNO-TEXT"
LEADER = "E-ANNO-NOTE"

_TAG = "E-SOLR-IDEN"
_ABOVE, _BESIDE = 0.72, 0.5  # room around the roof for words [paper in]
_OFFSETS = (0.16, 0.3, 0.45, 0.7)  # of a dimension from its leg [paper in]
_ALONG_LINE, _LINE_TRIES = 0.12, 60  # steps along a match line, and how many to each side
_NEAR_LINE = (0.0, 0.14, 0.28, 0.42)  # farther off from it [paper in]
_FAR_FROM_LINE = (0.6, 0.8, 1.0, 1.25, 1.5, 1.75, 2.0, 2.3)  # so far that words tell where it is
_PAST_LINE = tuple(-NOTE_HEIGHT - 2 * BESIDE_MATCH_LINE - off for off in (0.0, 0.06, 0.12))
_EDGE_IN = 0.1
_TOGETHER = 0.6  # ends of raceways this near each other share a leader [paper in]
_LEAVING_WIDTH = 2.5  # of the words at an end [paper in]
_SHIFTS = (0.0, -0.06, 0.06, -0.12, 0.12)  # by which a tag steps aside, in sizes of its module


@dataclass(frozen=True, slots=True)
class PlanPart:
    """The plan, or a part of it on a page of its own.

    Attributes:
        view: The view.
        unnamed: What it had no room to name.
        undrawn: Legs of raceways whose dimension had no room.
    """

    view: View
    unnamed: tuple[str, ...]
    undrawn: tuple[str, ...]


def blocks(context: SheetContext) -> tuple[Block, ...]:
    """What the plan shows."""
    design = context.design
    return (*plan_blocks(design), access_lines_block(design), *electrical_blocks(design))


def fitted_parts(context: SheetContext, title: str, place: Box) -> tuple[Part, ...]:
    """The roof at the largest scale that fits and lets every module have its tag, else in parts.

    Args:
        context: What the sheet is given.
        title: Title of the view.
        place: Where it goes on its page [paper in].
    """
    design = context.design
    margins = Margins(_BESIDE, _BESIDE, _ABOVE, _ABOVE)
    return fit_or_split(
        title,
        roof_extent(design),
        margins,
        place,
        _scales(design),
        _shown(design),
        between_modules(design),
    )


def named_parts(context: SheetContext, parts: tuple[Part, ...], sheet: str) -> tuple[PlanPart, ...]:
    """The parts with their words.

    Args:
        context: What the sheet is given.
        parts: The parts in the order of their pages.
        sheet: Id of the first page.
    """
    known = {block.name: block for block in blocks(context)}
    known |= {name: symbol.block for name, symbol in context.symbols.items()}
    sheets = [continued_id(sheet, number) for number in range(len(parts))]
    return tuple(_annotated(context, part, known, sheets) for part in parts)


def between_modules(design: Design) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Where an upright and a level line in plan cut no module, at the edge of one [in]."""
    boxes = [
        box_around([array.plane.to_plan(corner) for corner in module.surface.corners])
        for array in design.arrays
        for module in array.modules
    ]
    across = [(box.x0, box.x1) for box in boxes]
    up = [(box.y0, box.y1) for box in boxes]
    return _uncut(across), _uncut(up)


def _uncut(spans: list[tuple[float, float]]) -> tuple[float, ...]:
    ends = sorted({end for span in spans for end in span})
    return tuple(
        end
        for end in ends
        if not any(low + _EDGE_IN < end < high - _EDGE_IN for low, high in spans)
    )


def _scales(design: Design) -> tuple[Scale, ...]:
    """Scales at which the tags of all modules fit into them; the largest in any case."""
    fitting = tuple(scale for scale in PLAN_SCALES if _tags_fit(design, scale))
    return fitting or PLAN_SCALES[:1]


def _tags_fit(design: Design, scale: Scale) -> bool:
    tags = module_tags(design)
    for array in design.arrays:
        for module in array.modules:
            room = tag_room(module)
            width = text_width(tags.get(module.id, ""), MINIMUM_HEIGHT) * SLACK * scale.factor
            height = MINIMUM_HEIGHT * 1.3 * scale.factor * array.plane.slope_factor
            if width > room.width or height > room.height:
                return False
    return True


def module_tags(design: Design) -> dict[str, str]:
    """What stands in each module, by its tag: circuit, number in it, polarity at the ends.

    The positive conductor leaves a string at its first module, the negative one at its last.
    """
    strings = {string.id for string in design.electrical.strings}
    found: dict[str, str] = {}
    for circuit, tags in circuit_modules(design):
        for number, tag in enumerate(tags, 1):
            signs = [s for s, n in (("+", 1), ("-", len(tags))) if number == n]
            ends = "".join(signs) if circuit in strings else ""
            found[tag] = f"{circuit}-{number}{ends}"
    return found


def _shown(design: Design) -> tuple[Primitive, ...]:
    origin = (0.0, 0.0)
    return (
        Insert(WALLS, origin, "A-WALL-BELO"),
        *((Insert(ACCESS_LINES, origin, "F-ROOF-ACCS"),) if design.access_areas else ()),
        Insert(OBSTRUCTIONS, origin, OWN_LAYERS),
        *(Insert(array_block(array.id), origin, MODULES_LIGHT) for array in design.arrays),
        Insert(ROOF, origin, OWN_LAYERS),
        *shown(design),
    )


def _annotated(
    context: SheetContext, part: Part, known: Mapping[str, Block], sheets: list[str]
) -> PlanPart:
    """A part with its words, in order of how little they can move."""
    view, design = part.view, context.design
    placer = LabelPlacer(view.frame.grown(-0.02))
    placer.keep_clear(view.model, known, view.on_paper)
    sides = side_words(context, view, part.neighbors)
    matched: list[Primitive] = []
    lines = match_lines(part, sheets)
    placer.keep_clear([one for one in lines if isinstance(one, Line)], known)
    off_modules = placer.copy()  # whose own tags come later
    for array in design.arrays:
        reserve(off_modules, view, array)
    for line, words in zip(lines[::2], lines[1::2], strict=True):
        matched += [line, _beside_line(off_modules, view, line, words)]
    fixed = [*matched, *map(placer.settled, sides)]
    placer.keep_clear(fixed, known)
    made: list[Marked] = [*fixed, *_tags(placer, design, part)]
    for array in design.arrays:
        reserve(placer, view, array)
    undrawn: list[str] = []
    for mark in _legs(placer, design, view):
        if isinstance(mark, str):
            undrawn.append(mark)
        else:
            made.append(mark)
    made += _box_names(placer, context, view)
    made += _leaving(placer, context, view)
    made += building_names(placer, context, view)
    made += array_names(placer, context, view)
    made += _obstruction_names(placer, context, view)
    made += plane_names(placer, context, view)
    marks = tuple(mark for mark in made if not isinstance(mark, Unnamed))
    unnamed = tuple(mark.thing for mark in made if isinstance(mark, Unnamed))
    return PlanPart(replace(view, annotation=marks), unnamed, tuple(undrawn))


def _beside_line(placer: LabelPlacer, view: View, line: Primitive, words: Primitive) -> Primitive:
    """Words beside a match line, moved along it where something heavy is in their way.

    They stand inside of the part where they can, else just past a level line, and say where it is
    when they stand far from it; where they have no room they only name the other sheet.
    """
    if not (isinstance(words, Text) and isinstance(line, Line)):
        return words
    upright = abs(line.a[0] - line.b[0]) < abs(line.a[1] - line.b[1])
    x, y = words.at
    steps = [step * _ALONG_LINE for n in range(_LINE_TRIES) for step in (n, -n)]
    inward = math.copysign(1.0, x - line.a[0] if upright else y - line.a[1])
    left_or_below, right_or_above = ("LEFT", "RIGHT") if upright else ("BELOW", "ABOVE")
    where = left_or_below if inward > 0 else right_or_above
    far = replace(words, text=words.text.replace("MATCH LINE", f"MATCH LINE {where}"))
    short = replace(words, text=words.text.removeprefix("MATCH LINE, "))
    past = () if upright else _PAST_LINE
    offsets = [
        *((words, off) for off in _NEAR_LINE),
        *((far, off) for off in _FAR_FROM_LINE),
        *((words, off) for off in past),
        *((short, off) for off in (*_NEAR_LINE, *past)),
    ]
    places = [
        replace(text, at=(x + inward * off, y + step) if upright else (x + step, y + inward * off))
        for text, off in offsets
        for step in steps
    ]
    inside = [text for text in places if view.frame.contains(rotated_text_box(text))]
    try:
        return placer.place_first(inside or places[:1])
    except NoRoomError:
        return placer.settled(words)


def _tags(placer: LabelPlacer, design: Design, part: Part) -> Iterator[Marked]:
    """The circuit's tag in every module, read along the eave of its plane.

    A module that is cut has its tag in the part that shows its middle.
    """
    tags, view = module_tags(design), part.view
    for array in design.arrays:
        ends = readable(*(array.plane.to_plan((u, 0.0)) for u in (0.0, 1.0)))
        turn = direction_deg(*ends)
        for module in array.modules:
            words = tags.get(module.id)
            places = _tag_places(array, module, view)
            if words and part.extent.holds(array.plane.to_plan(tag_room(module).center)):
                texts = [Text(words, at, MINIMUM_HEIGHT, _TAG, "middle", turn) for at in places]
                yield from or_unnamed(f"MODULE {words}", partial(_first, placer, texts))


def _first(placer: LabelPlacer, texts: list[Text]) -> tuple[Primitive, ...]:
    return (placer.place_first(texts),)


def _tag_places(array: PlacedArray, module: PlacedModule, view: View) -> list[Point]:
    u, v = tag_room(module).center
    return [
        view.on_paper.apply(array.plane.to_plan((u, v + share * module.surface.height)))
        for share in _SHIFTS
    ]


def _legs(placer: LabelPlacer, design: Design, view: View) -> Iterator[Dimension | str]:
    """The length of each leg of each raceway beside it, else its name."""
    for route in roof_routes(design.inputs, design.roof):
        for number, (a, b) in enumerate(pairwise(route.points), 1):
            ends = [view.on_paper.apply(route.plane.to_plan(point)) for point in (a, b)]
            if not all(map(view.frame.holds, ends)) or ends[0] == ends[1]:
                continue
            ways = _ways(view, ends[0], ends[1], distance(a, b))
            try:
                yield placer.place_dimension(ways)
            except NoRoomError:
                yield f"RUN {route.name.upper()}, LEG {number}: {ways[0].text}"


def _ways(view: View, a: Point, b: Point, true_in: float) -> list[Dimension]:
    drawn = distance(a, b) * view.scale.factor
    factor = true_in / drawn
    slope = factor if factor > 1 + 1e-9 else 1.0
    return [
        dimension(
            a,
            b,
            side * offset,
            DIMS,
            view.scale.factor,
            slope_factor=slope,
            rounding="up",
            beyond=beyond,
        )
        for offset in _OFFSETS
        for side in (1, -1)
        for beyond in ("b", "a")
    ]


def _box_names(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    outside = outside_of_roofs(context.design.roof, view)
    for box in placed_boxes(context.design):
        at = view.on_paper.apply(box.plane.to_plan(box.at))
        if ends_inside(view.frame, at):
            label = Label((box.id,), at, MINIMUM_HEIGHT, TEXT, LEADER, names=on_roof(box.id))
            label = replace(label, end="dot")
            place = partial(led_from_outside, placer, label, view.frame, outside)
            yield from or_unnamed(f"JUNCTION BOX {box.id}", place)


def _leaving(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """Where raceways leave the roof, those that do so side by side by one leader."""
    outside = outside_of_roofs(context.design.roof, view)
    for ends in _ends_together(context.design, view):
        names = [route.name.upper() for route, _ in ends]
        several = len(names) > 1
        words = f"RACEWAY OF RUN {names[0]}\nLEAVES THE ROOF HERE"
        if several:
            words = f"RACEWAYS OF RUNS {', '.join(names)}\nLEAVE THE ROOF HERE"
        lines = tuple(wrap(words, MINIMUM_HEIGHT, _LEAVING_WIDTH))
        named, at = ends[len(ends) // 2]
        label = Label(lines, at, MINIMUM_HEIGHT, TEXT, LEADER, names=route_block(named))
        place = partial(led_from_outside, placer, label, view.frame, outside)
        thing = "ENDS OF THE RACEWAYS OF RUNS" if several else "END OF THE RACEWAY OF RUN"
        yield from or_unnamed(f"{thing} {', '.join(names)}", place)


def _ends_together(design: Design, view: View) -> list[list[tuple[RoofRoute, Point]]]:
    """Routes that end in the view, and where [paper in], those near each other in a group.

    A group goes from one end of it to the other: its middle one is nearest to all.
    """
    ends = [
        (route, view.on_paper.apply(route.plane.to_plan(route.leaves)))
        for route in roof_routes(design.inputs, design.roof)
    ]
    groups: list[list[tuple[RoofRoute, Point]]] = []
    for end in sorted(ends, key=lambda end: (end[1][1], end[1][0])):
        if not ends_inside(view.frame, end[1]):
            continue
        near = [group for group in groups if distance(group[0][1], end[1]) <= _TOGETHER]
        if near:
            near[0].append(end)
        else:
            groups.append([end])
    return groups


def _obstruction_names(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    for item in context.design.obstructions:
        box = obstruction_box(view, item)
        if ends_inside(view.frame, box.center):
            reach = max(box.width, box.height) / 2
            label = Label(
                (item.id,), box.center, MINIMUM_HEIGHT, TEXT, LEADER, item.id, reach, "dot"
            )
            place = partial(placer.place_near, label, view.frame)
            yield from or_unnamed(f"OBSTRUCTION {item.id}", place)
