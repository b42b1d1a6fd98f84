"""A crew can mark every attachment on the roof from what S-101 prints, and from that alone."""

from __future__ import annotations

import math

import pytest

from planset.design.mounted import Mounted
from planset.drawing.page import DrawingSet
from planset.units import parse_length
from tests.sheets.attachment_sheets import (
    example,
    expanded,
    mounts_in,
    plates,
    printed,
    rails_of,
    rows_under,
    tags,
    tapes_along,
    tapes_up,
    titles,
    to_right_end,
    views,
)
from tests.sheets.mounted_jobs import design_of

SIZES = ("11x17", "24x36")
NAMES = ("tile-gable", "cross-gable", "shingle-hip", "seam-across", "shingle-across+irregular")
EVERY = [(name, size) for name in NAMES for size in SIZES]
HALF_INCH = 0.5


def datum(one: Mounted) -> float:
    """The corner of the eave next to the left of an array's attachments, u [in]."""
    first = min(item.u_in for item in one.racking.attachments)
    corners = [u for u, v in one.array.plane.surface_outline if v < HALF_INCH]
    return max(u for u in corners if u <= first)


def placed(one: Mounted) -> dict[str, tuple[float, float]]:
    """Where a design puts the attachments of an array, from its datum and the eave [in]."""
    left = datum(one)
    return {item.id: (item.u_in - left, item.v_in) for item in one.racking.attachments}


def from_tables(drawing: DrawingSet) -> dict[str, tuple[float, float]]:
    """Where the tables put every attachment, by its tag: along and up [in]."""
    found: dict[str, tuple[float, float]] = {}
    heights: dict[tuple[str, str], list[float]] = {}
    for array, rails, ups in rows_under(drawing, "HEIGHTS OF ATTACHMENTS, ON SLOPE"):
        names = ["ALL RAILS"] if rails == "ALL RAILS" else expanded(rails)
        heights |= {(array, name): [parse_length(up) for up in ups.split(", ")] for name in names}
    marks: dict[str, list[float]] = {}
    for title in titles(drawing, "MARKS ALONG THE EAVE"):
        for _, along, *_, rails in rows_under(drawing, title):
            for rail in expanded(rails):
                marks.setdefault(rail, []).append(parse_length(along))
    for title in titles(drawing, "RAILS AND ATTACHMENTS"):
        array = title.rpartition(" ")[2]
        for rail, _, where, _, count, tagged in rows_under(drawing, title):
            line = parse_length(where)
            listed = expanded(tagged)
            assert len(listed) == int(count)
            if rail in marks:
                ends = [(along, line) for along in sorted(marks[rail])]
            else:
                ups = heights.get((array, rail)) or heights[array, "ALL RAILS"]
                ends = [(line, up) for up in ups]
            found |= dict(zip(listed, ends, strict=True))
    return found


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_tables_alone_rebuild_every_attachment(name: str, size: str) -> None:
    found = from_tables(example(name, size))
    expected = {tag: at for one in design_of(name).mounts for tag, at in placed(one).items()}
    assert found.keys() == expected.keys()
    assert all(math.dist(found[tag], expected[tag]) < HALF_INCH for tag in expected)


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_tapes_alone_rebuild_every_attachment(name: str, size: str) -> None:
    """A plate's position is read off the tapes whose marks it stands over and beside."""
    drawing = example(name, size)
    for view in views(drawing):
        found = plates(drawing, view)
        tapes = tapes_along(view)
        for one in mounts_in(design_of(name), view):
            expected = placed(one)
            for item in one.racking.attachments:
                x, y = found[item.id]
                own = [
                    tape
                    for start, tape in tapes.items()
                    if item.rail in (rails_of(view, start) or [item.rail])
                ]
                assert len(own) == 1
                (across,) = (d for d in own[0] if abs(d.b[0] - x) < 0.005)
                (height,) = (d for d in tapes_up(view) if abs(d.b[1] - y) < 0.005)
                read = (printed(across), printed(height))
                assert math.dist(read, expected[item.id]) < HALF_INCH


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_a_rail_across_takes_every_mark_of_its_tape_that_lies_under_it(
    name: str, size: str
) -> None:
    """Otherwise a crew that reads a tape would drill where nothing stands."""
    for view in views(example(name, size)):
        if any(word.startswith("SEE TABLE") for word in tags(view)):
            assert name.endswith("+irregular")  # too many patterns for tapes of their own
            continue
        for one in mounts_in(design_of(name), view):
            held = one.racking.by_rail
            left = datum(one)
            for rail in (rail for rail in one.racking.rails if not rail.up):
                (marks,) = (
                    [printed(d) + left for d in tape]
                    for start, tape in tapes_along(view).items()
                    if rail.id in (rails_of(view, start) or [rail.id])
                )
                under = [u for u in marks if rail.start_in <= u <= rail.end_in]
                assert under == pytest.approx([item.u_in for item in held[rail.id]], abs=1 / 16)


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_tapes_run_from_their_datum_and_say_what_lies_on_the_slope(name: str, size: str) -> None:
    for view in views(example(name, size)):
        along, up = tapes_along(view), tapes_up(view)
        assert along
        assert len({d.a for d in up}) == 1
        origin = view.on_paper.apply((0.0, 0.0))
        assert up[0].a[1] == pytest.approx(origin[1])  # the eave
        for one in mounts_in(design_of(name), view):
            start, _ = view.on_paper.apply((datum(one), 0.0))
            assert any(at[0] == pytest.approx(start) for at in along)


@pytest.mark.parametrize("name", NAMES)
def test_the_last_mark_is_checked_from_the_right_end_of_its_eave(name: str) -> None:
    drawing = example(name, "24x36")
    rows = rows_under(drawing, "DIAGONALS AND RIGHT END, TO CHECK")
    rests = {
        (array, words.partition(" ")[0]): parse_length(rest)
        for array, words, rest in rows
        if words.endswith("RIGHT END, ALONG")
    }
    for view in views(drawing):
        ends = [printed(one) for one in to_right_end(view)]
        assert len(ends) == len(tapes_along(view))
        for one in mounts_in(design_of(name), view):
            last = max(one.racking.attachments, key=lambda item: item.u_in)
            corners = [u for u, v in one.array.plane.surface_outline if v < HALF_INCH]
            rest = min(u for u in corners if u >= last.u_in) - last.u_in
            assert rests[one.id, last.id] == pytest.approx(rest, abs=1 / 16)
            assert any(end == pytest.approx(rest, abs=1 / 16) for end in ends)


@pytest.mark.parametrize("name", NAMES)
def test_diagonals_are_those_of_the_corners(name: str) -> None:
    rows = rows_under(example(name, "24x36"), "DIAGONALS AND RIGHT END, TO CHECK")
    squared = [row for row in rows if "RIGHT END" not in row[1]]
    assert len(squared) == 2 * len(design_of(name).mounts)
    for one in design_of(name).mounts:
        held = {item.id: (item.u_in, item.v_in) for item in one.racking.attachments}
        lines = {rail.id: rail.line_in for rail in one.racking.rails}
        rail_of = {item.id: item.rail for item in one.racking.attachments}
        ends: list[frozenset[str]] = []
        for array, pair, distance in squared:
            if array != one.id:
                continue
            low, _, high = pair.partition(" TO ")
            assert parse_length(distance) == pytest.approx(
                math.dist(held[low], held[high]), abs=1 / 16
            )
            between = {lines[rail_of[low]], lines[rail_of[high]]}
            assert between == {min(lines.values()), max(lines.values())}
            ends.append(frozenset((low, high)))
        assert not ends[0] & ends[1]
