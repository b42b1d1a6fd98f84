"""Splices, feet, couplings, clamps and trim: as many on the plan, in its tables and in the DXF."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import ezdxf
import pytest
from ezdxf.document import Drawing

from planset.design.holding import ModuleHolding
from planset.design.mounted import Mounted
from planset.design.part_places import KINDS, SPLICE_SEAT, TRIM, part_counts, parts_of
from planset.design.rail_pieces import RailPiece, RailPieces, SplicePlace
from planset.drawing.primitives import Insert, Text
from planset.formats.dxf_write import write_dxf
from planset.sheets.part_symbols import LAYER_OF, symbol_of
from planset.sheets.racking_blocks import holding_block
from planset.units import parse_length
from tests.sheets.attachment_sheets import (
    attributes,
    drawn,
    example,
    expanded,
    lines,
    pages,
    rows_under,
    titles,
    views,
)
from tests.sheets.mounted_jobs import design_of

NAMES = ("tile-gable+parts", "cross-gable+parts", "shingle-across+parts", "seam-across+parts")
SIZES = ("11x17", "24x36")
SIXTEENTH = 1 / 16 + 1e-6


def placed(one: Mounted) -> Counter[str]:
    """How many of every part the design has on an array's rails, by the name that is printed."""
    system, holding = one.array.system, one.holding
    found: Counter[str] = Counter(held.part.upper() for held in holding.holders)
    if system.rail.splice:
        found[system.rail.splice.name.upper()] = len(one.rails.splices)
    if system.coupling:
        found[system.coupling.name.upper()] = len(holding.couplings)
    if system.trim:
        found[system.trim.name.upper()] = len(holding.trim)
        found[system.trim.joint.upper()] = sum(piece.joined for piece in holding.trim)
        if system.trim.lock:
            found[system.trim.lock.upper()] = sum(held.front for held in holding.holders)
    return +found


@cache
def written(name: str) -> Drawing:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "planset.dxf"
        write_dxf(example(name, "24x36"), path)
        return ezdxf.readfile(path)


def inserted(document: Drawing, block: str, tag: str) -> Counter[str]:
    """How often what has a constant value is inserted in a block of a DXF file."""
    told = (
        document.blocks.get(insert.dxf.name).get_attdef_text(tag)
        for insert in document.blocks.get(block).query("INSERT")
    )
    return Counter(filter(None, told))


@pytest.mark.parametrize("name", NAMES)
def test_counts_on_plan_in_table_and_in_the_dxf_agree(name: str) -> None:
    drawing, of, document = example(name, "24x36"), design_of(name), written(name)
    table: dict[str, Counter[str]] = {}
    for array, part, count in rows_under(drawing, "PARTS ON THE RAILS"):
        table.setdefault(array, Counter())[part] += int(count)
    for one in of.mounts:
        expected = placed(one)
        assert expected.total() >= 18
        block = drawing.blocks[holding_block(one.id)]
        plan = [
            told.value.upper()
            for part in block.primitives
            if isinstance(part, Insert)
            for told in drawing.blocks[part.block].constants
        ]
        assert Counter(plan) == expected
        read = inserted(document, holding_block(one.id), "PART")
        assert Counter({part.upper(): count for part, count in read.items()}) == expected
        assert table[one.id] == expected


@pytest.mark.parametrize("name", NAMES)
def test_the_dxf_lists_every_attachment_with_what_it_is(name: str) -> None:
    of, document = design_of(name), written(name)
    zones = {load.attachment: load.zone for load in of.loads.attachments}
    for one in of.mounts:
        line = "SEAM" if one.array.system.attachment.kind == "seam_clamp" else "RAFTER"
        found = {
            insert.get_attrib_text("ID"): insert
            for insert in document.blocks.get(f"RACKING-{one.id}").query("INSERT")
        }
        assert list(found) == [item.id for item in one.racking.attachments]
        for item in one.racking.attachments:
            insert = found[item.id]
            assert insert.get_attrib_text(line) == str(item.line)
            assert insert.get_attrib_text("ZONE") == zones[item.id]
            assert float(insert.get_attrib_text("DEMAND_LB")) > 0
        alike = document.blocks.get(f"ATTACHMENT-{one.id}")
        assert alike.get_attdef_text("TYPE") == one.array.system.attachment.name
        assert float(alike.get_attdef_text("CAPACITY_LB")) > 0


@pytest.mark.parametrize(
    ("name", "pitch", "plate", "lags"),
    [
        # a hook is inserted at the face of its arm, its plate 5-1/2 to 11-1/2 in up the slope
        ("tile-gable+parts", 5, (5.5, 11.5), (6.75, 10.25)),
        ("cross-gable+parts", 5, (-2.5, 2.5), (-1.75, 1.75)),
    ],
)
def test_plate_and_screws_are_drawn_where_they_are_from_the_mark(
    name: str, pitch: float, plate: tuple[float, float], lags: tuple[float, float]
) -> None:
    slope = math.hypot(12, pitch) / 12
    block = written(name).blocks.get("ATTACHMENT-A1")
    (outline,) = (part for part in block.query("LWPOLYLINE") if part.closed)
    heights = [y for _, y in outline.get_points("xy")]
    assert (min(heights), max(heights)) == pytest.approx([n / slope for n in plate], abs=1e-4)
    middles = sorted(tuple(part.dxf.center)[1] for part in block.query("CIRCLE"))
    assert middles == pytest.approx([n / slope for n in lags], abs=1e-4)


@pytest.mark.parametrize("name", NAMES)
def test_parts_stand_where_the_design_has_them_with_their_rail(name: str) -> None:
    drawing = example(name, "24x36")
    for one in design_of(name).mounts:
        inserts = drawing.blocks[holding_block(one.id)].primitives
        for place, insert in zip(parts_of(one), inserts, strict=True):
            assert isinstance(insert, Insert)
            at = one.array.plane.to_surface(insert.at)
            assert at == pytest.approx((place.u_in, place.v_in))
            assert insert.layer == LAYER_OF[place.kind]
            assert attributes([insert], "RAIL") == ([place.rail] if place.rail else [])
        on_rails = {rail.id: rail for rail in one.racking.rails}
        for held in one.holding.holders:
            rail = on_rails[held.rail]
            assert rail.line_in in (held.u_in, held.v_in)


@pytest.mark.parametrize("name", NAMES)
def test_the_legend_shows_what_is_on_its_page_and_nothing_else(name: str) -> None:
    for size in SIZES:
        drawing, of = example(name, size), design_of(name)
        whole: Counter[str] = Counter()
        for page in pages(drawing):
            said = lines(page, drawing)
            for kind in KINDS:
                words = kind.upper().replace("_", " ")
                for line in said:
                    if line.startswith(f"{words} ("):
                        whole[kind] += int(line.removeprefix(f"{words} (").removesuffix(")"))
        assert whole == Counter(place.kind for one in of.mounts for place in parts_of(one))


def test_a_job_without_parts_has_no_words_for_them() -> None:
    of = design_of("shingle-across")
    bare = tuple(
        replace(
            one,
            holding=ModuleHolding(one.id),
            rails=RailPieces(
                one.id,
                tuple(RailPiece(r.id, r.id, r.start_in, r.end_in) for r in one.racking.rails),
            ),
        )
        for one in of.mounts
    )
    drawing = drawn(replace(of, mounts=bare, cuts=()), "24x36")
    said = [line for page in pages(drawing) for line in lines(page, drawing)]
    assert "PARTS ON THE RAILS" not in said
    assert not any(line.startswith(("FOOT", "SPLICE (", "MID CLAMP")) for line in said)
    assert not any(block.startswith("PART") for block in drawing.blocks)


@pytest.mark.parametrize("name", NAMES)
def test_kits_print_every_piece_and_where_its_splice_lies(name: str) -> None:
    drawing = example(name, "11x17")
    for one in design_of(name).mounts:
        kits = {
            rail: (start, pieces, splices)
            for rails, start, pieces, splices in rows_under(drawing, f"RAIL KITS, ARRAY {one.id}")
            for rail in expanded(rails)
        }
        assert kits.keys() == {rail.id for rail in one.racking.rails}
        for rail in one.racking.rails:
            _, pieces, splices = kits[rail.id]
            lengths = [piece.lstrip("abc ") for piece in pieces.split(", ")]
            own = [piece for piece in one.rails.pieces if piece.rail == rail.id]
            assert list(map(parse_length, lengths)) == pytest.approx(
                [piece.length_in for piece in own], abs=SIXTEENTH
            )
            held = [item.along_in for item in one.racking.by_rail[rail.id]]
            placed = [place for place in one.rails.splices if place.rail == rail.id]
            read = [] if splices == "NONE" else splices.split("; ")
            assert len(read) == len(placed)
            for words, place in zip(read, placed, strict=True):
                distance, _, number = words.rpartition(", ")[2].partition(" PAST ")
                along = held[int(number.rstrip("STNDRH")) - 1] + parse_length(distance)
                assert along == pytest.approx(place.along_in, abs=SIXTEENTH)


@pytest.mark.parametrize("name", NAMES)
def test_the_cut_list_has_every_piece_once_in_bars_that_are_long_enough(name: str) -> None:
    drawing, of = example(name, "24x36"), design_of(name)
    lengths = {piece.id: piece.length_in for one in of.mounts for piece in one.rails.pieces}
    (title,) = titles(drawing, "CUT LIST")
    *rows, (_, judged, _) = rows_under(drawing, title)
    cut: Counter[str] = Counter()
    bars = 0
    for bar, pieces, _ in rows:
        low, _, high = bar.partition("-")
        count = int(high or low) - int(low) + 1
        bars += count
        for group in pieces.split("; "):
            length, _, tags = group.rpartition(": ")
            times, _, length = length.rpartition(" x ")
            listed = expanded(tags)
            assert len(listed) == count * int(times or 1)
            assert all(
                parse_length(length) == pytest.approx(lengths[tag], abs=SIXTEENTH) for tag in listed
            )
            cut.update(listed)
    assert cut == Counter(lengths.keys())
    (cuts,) = of.cuts
    assert bars == len(cuts.bars)
    assert judged.startswith(f"{bars} BARS OF ")
    assert f"NO CUT LIST NEEDS FEWER THAN {cuts.least_bars}" in judged


def test_a_proven_cut_list_says_so() -> None:
    of = design_of("cross-gable")
    drawing = example("cross-gable", "24x36")
    (title,) = titles(drawing, "CUT LIST")
    proven = all(cuts.proven for cuts in of.cuts)
    assert proven == rows_under(drawing, title)[-1][1].endswith("NO CUT LIST NEEDS FEWER")


def test_every_kind_has_a_symbol_of_its_own() -> None:
    shapes = [tuple(symbol_of(kind)) for kind in KINDS if kind != TRIM]
    assert len(set(shapes)) == len(shapes)
    assert set(LAYER_OF) == set(KINDS)


@pytest.mark.parametrize("name", NAMES)
def test_parts_carry_no_tags_that_would_crowd_the_plan(name: str) -> None:
    """Rails, attachments and lines are tagged; a part is told by its symbol."""

    def words(of: str) -> Counter[str]:
        return Counter(
            part.text
            for view in views(example(of, "24x36"))
            for part in view.annotation
            if isinstance(part, Text)
        )

    bare, full = words(name.removesuffix("+parts")), words(name)
    assert full == bare


def test_a_foot_on_a_splice_needs_its_seat() -> None:
    (mounted,) = design_of("tile-gable").mounts
    foot = next(one for one in mounted.holding.holders if one.rail == "R2")
    for off, seats in ((3.9, 1), (4.1, 0)):  # the bar is 8 in long
        splice = SplicePlace("R2", foot.v_in + off, span_in=42, from_support_in=8)
        spliced = replace(mounted, rails=replace(mounted.rails, splices=(splice,)))
        counted = part_counts(spliced)
        assert counted.get((SPLICE_SEAT, "Heron bridge seat"), 0) == seats
