"""After LibreCAD has saved a sheet's own file, everything on it is still told apart.

Ids (extension data) and values (ATTRIB) are gone then: what is left is the name of the block, the
place, and the tag, which is plain TEXT at its place.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Hashable, Iterator
from dataclasses import dataclass
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from ezdxf.document import Drawing
from ezdxf.filemanagement import readfile

from planset.design.design import Design
from tests.readers.dxf_content import APPID
from tests.readers.programs import librecad_saved

pytestmark = pytest.mark.readers

NEAR_IN = 1e-3  # numbers are written with fewer digits

Place = tuple[float, float]
Places = dict[Hashable, list[Place]]
"""Where things of one kind stand."""


@dataclass(frozen=True)
class Both:
    """A sheet's own file as we write it, and as LibreCAD saves it again."""

    ours: Drawing
    saved: Drawing


@pytest.fixture(scope="module")
def sheets(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Both]:
    """The sheets with modules, attachments, electrical things, and labels."""
    home = tmp_path_factory.mktemp("librecad")
    names = ("A-101", "S-101", "E-101", "E-101.1", "E-601", "E-701.1")
    made = {}
    for name in names:
        ours = folder / f"{name}.dxf"
        made[name] = Both(readfile(ours), readfile(librecad_saved(ours, home)))
    return made


def inserted(doc: Drawing) -> Iterator[tuple[str, Any]]:
    """Every insertion, and what it is inserted into."""
    for block in doc.blocks:
        for insert in block.query("INSERT"):
            yield block.name, insert


def inserts(doc: Drawing) -> Places:
    """By what they are inserted into, their block and turn."""
    made: Places = defaultdict(list)
    for where, insert in inserted(doc):
        made[where, insert.dxf.name, round(insert.dxf.rotation) % 360].append(origin(insert))
    return made


def texts(doc: Drawing) -> Places:
    """By their words."""
    made: Places = defaultdict(list)
    for text in doc.modelspace().query("TEXT"):
        made[text.dxf.text].append(anchor(text))
    return made


def origin(insert: Any) -> Place:
    x, y, _ = insert.dxf.insert
    return (x, y)


def anchor(text: Any) -> Place:
    at = text.dxf.align_point if text.dxf.halign or text.dxf.valign else text.dxf.insert
    return (at[0], at[1])


def moved(before: Places, after: Places) -> list[Hashable]:
    """Kinds of which there are more or fewer than before, or one that stands elsewhere."""
    assert before
    return [
        kind
        for kind in before.keys() | after.keys()
        if len(before.get(kind, ())) != len(after.get(kind, ()))
        or any(min(math.dist(at, one) for one in after[kind]) > NEAR_IN for at in before[kind])
    ]


def test_it_was_saved_with_a_line_more_and_without_ids(sheets: dict[str, Both]) -> None:
    for both in sheets.values():
        lines = [len(doc.modelspace().query("LINE")) for doc in (both.ours, both.saved)]
        assert lines[1] == lines[0] + 1
        assert not any(insert.has_xdata(APPID) for _, insert in inserted(both.saved))
        assert not any(insert.attribs for _, insert in inserted(both.saved))


def test_every_insertion_keeps_block_place_and_turn(sheets: dict[str, Both]) -> None:
    for both in sheets.values():
        assert moved(inserts(both.ours), inserts(both.saved)) == []


def test_every_text_keeps_its_words_and_place(sheets: dict[str, Both]) -> None:
    for both in sheets.values():
        assert moved(texts(both.ours), texts(both.saved)) == []


def test_every_id_is_found_again_by_block_and_place(
    sheets: dict[str, Both], design: Design
) -> None:
    """Things that keep block and place are told apart by them: no two with an id have the same."""
    for both in sheets.values():
        named: Places = defaultdict(list)
        for where, insert in inserted(both.ours):
            if insert.has_xdata(APPID):
                named[where, insert.dxf.name].append(origin(insert))
        for places in named.values():
            pairs = combinations(places, 2)
            assert all(math.dist(one, other) > 10 * NEAR_IN for one, other in pairs)
    modules = {m.id for array in design.arrays for m in array.modules}
    assert modules <= ids(sheets["A-101"].ours)
    assert attachments(design) <= ids(sheets["S-101"].ours)


def ids(doc: Drawing) -> set[str]:
    return {i.get_xdata(APPID)[1].value for _, i in inserted(doc) if i.has_xdata(APPID)}


def attachments(design: Design) -> set[str]:
    return {one.id for mount in design.mounts for one in mount.racking.attachments}


def in_model(doc: Drawing, prefix: str) -> dict[Place, Any]:
    """Insertions of blocks, themselves inserted in model space, by where they land there [in]."""
    made = {}
    for outer in doc.modelspace().query("INSERT"):
        matrix = outer.matrix44()
        for insert in doc.blocks[outer.dxf.name].query("INSERT"):
            if insert.dxf.name.startswith(prefix):
                x, y, _ = matrix.transform(insert.dxf.insert)
                made[(x, y)] = insert
    return made


def test_a_module_is_the_one_nearest_to_its_tag(sheets: dict[str, Both], design: Design) -> None:
    """From the saved file alone: each tag leads to one module, and to the one that had the id."""
    both = sheets["A-101"]
    names = {m.id for array in design.arrays for m in array.modules}
    check_by_tag(both, "MODULE-", names, middle)


def test_an_attachment_is_the_one_nearest_to_its_tag(
    sheets: dict[str, Both], design: Design
) -> None:
    check_by_tag(sheets["S-101"], "ATTACHMENT-", attachments(design), landed)


def check_by_tag(both: Both, prefix: str, names: set[str], place: Any) -> None:
    known = {
        at: insert.get_xdata(APPID)[1].value for at, insert in in_model(both.ours, prefix).items()
    }
    found = in_model(both.saved, prefix)
    tags = {
        text.dxf.text: anchor(text)
        for text in both.saved.modelspace().query("TEXT")
        if text.dxf.text in names
    }
    assert set(tags) == names
    spots = {at: place(both.saved, at, insert) for at, insert in found.items()}
    wrong = {}
    for tag, at in tags.items():
        nearest = min(spots, key=lambda spot: math.dist(spots[spot], at))
        (before,) = [name for spot, name in known.items() if math.dist(spot, nearest) < NEAR_IN]
        if before != tag:
            wrong[tag] = before
    assert wrong == {}


def landed(_: Drawing, at: Place, insert: Any) -> Place:
    return at


def middle(doc: Drawing, at: Place, insert: Any) -> Place:
    """The middle of what a block draws, turned as it is inserted."""
    (outline,) = doc.blocks[insert.dxf.name].query("LWPOLYLINE")
    xs, ys = zip(*outline.get_points("xy"), strict=True)
    x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    turn = math.radians(insert.dxf.rotation)
    return (
        at[0] + x * math.cos(turn) - y * math.sin(turn),
        at[1] + x * math.sin(turn) + y * math.cos(turn),
    )
