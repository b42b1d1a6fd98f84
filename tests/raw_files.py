"""The files of a set written by the bare libraries: what `tests.bench` measures planset against.

`record` notes down every call that planset makes to reportlab, and every entity that stands in its
DXF file; `replay` makes the same calls and entities again from those lists, with no page, no block
and no layer of planset between. As a process, `python -m tests.raw_files RECORDING OUT` imports the
libraries that planset imports, and writes the files.
"""

from __future__ import annotations

import pickle
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from unittest import mock

import numpy as np
import pydantic
import ruamel.yaml
import shapely.geometry
import typer
from ezdxf.document import Drawing
from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.filemanagement import new, readfile
from ezdxf.layouts.base import BaseLayout
from fontpkg_arimo import ROOT as FACES
from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

IMPORTED = (np, pydantic, ruamel.yaml, shapely.geometry, typer)
"""Libraries a run of planset imports and a raw run has no other use for."""

Attributes = dict[str, Any]
HANDLES = ("handle", "owner", "paperspace")


@dataclass(frozen=True)
class Call:
    """One call to a library's object; objects are known by numbers, the canvas is 0."""

    target: int
    name: str
    arguments: tuple[Any, ...]
    named: dict[str, Any]
    result: int


@dataclass(frozen=True)
class Reference:
    """In a call's arguments: an object of an earlier call."""

    number: int


@dataclass(frozen=True)
class Entity:
    """One entity of a DXF file."""

    kind: str
    attributes: Attributes
    points: list[tuple[float, ...]] = field(default_factory=list)
    attribs: list[tuple[str, str, Attributes]] = field(default_factory=list)
    xdata: list[tuple[int, Any]] = field(default_factory=list)


@dataclass
class Recording:
    """Everything a set's files are made of."""

    canvas: dict[str, Any] = field(default_factory=dict)
    calls: list[Call] = field(default_factory=list)
    tables: dict[str, list[Attributes]] = field(default_factory=dict)
    blocks: dict[str, list[Entity]] = field(default_factory=dict)
    layouts: dict[str, list[Entity]] = field(default_factory=dict)
    texts: dict[str, bytes] = field(default_factory=dict)


# --- recording -----------------------------------------------------------------------------


class Recorder:
    """Stands before an object of reportlab, and notes each call."""

    def __init__(self, real: Any, recording: Recording, number: int) -> None:
        self._real = real
        self._recording = recording
        self._number = number

    def __getattr__(self, name: str) -> Callable[..., Any]:
        def call(*arguments: Any, **named: Any) -> Any:
            result = getattr(self._real, name)(*map(_real, arguments), **named)
            number = len(self._recording.calls) + 1
            plain = tuple(map(_reference, arguments))
            self._recording.calls.append(Call(self._number, name, plain, named, number))
            made = name in ("beginPath", "beginText")
            return Recorder(result, self._recording, number) if made else result

        return call


def _real(value: Any) -> Any:
    return value._real if isinstance(value, Recorder) else value


def _reference(value: Any) -> Any:
    return Reference(value._number) if isinstance(value, Recorder) else value


def record_pdf(write: Callable[[], None], recording: Recording) -> None:
    """Note the calls that a run of planset's PDF writer makes."""

    def canvas(_: str, **named: Any) -> Recorder:
        recording.canvas = named
        return Recorder(Canvas(_, **named), recording, 0)

    with mock.patch("planset.formats.pdf_write.Canvas", canvas):
        write()


def record_dxf(path: Path, recording: Recording) -> None:
    """Note the entities of a DXF file."""
    document = readfile(path)
    for name in ("appids", "styles", "linetypes", "layers", "dimstyles"):
        recording.tables[name] = [_plain(entry) for entry in getattr(document, name)]
    for block in document.blocks:
        if not block.is_any_layout:
            recording.blocks[block.name] = [_entity(entity) for entity in block]
    for layout in document.layouts:
        recording.layouts[layout.name] = [_entity(entity) for entity in layout]


def _plain(entity: DXFEntity) -> Attributes:
    found = entity.dxfattribs()
    return {name: value for name, value in found.items() if name not in HANDLES}


def _entity(entity: Any) -> Entity:
    kind = entity.dxftype()
    points: list[tuple[float, ...]] = []
    if kind == "LWPOLYLINE":
        points = list(entity.get_points("xyb"))
    elif kind == "HATCH":
        points = list(entity.paths[0].vertices)
    attribs = [
        (attrib.dxf.tag, attrib.dxf.text, _plain(attrib))
        for attrib in (entity.attribs if kind == "INSERT" else ())
    ]
    xdata = entity.get_xdata("PLANSET") if entity.has_xdata("PLANSET") else []
    return Entity(kind, _plain(entity), points, attribs, [(tag.code, tag.value) for tag in xdata])


# --- replaying -----------------------------------------------------------------------------


def replay_pdf(recording: Recording, path: Path) -> None:
    """Make the calls again."""
    face = recording.canvas["initialFontName"]
    if face not in pdfmetrics.getRegisteredFontNames():
        pdfmetrics.registerFont(TTFont(face, str(FACES / "files" / "Arimo[wght].ttf")))
    rl_config.useA85 = 0
    objects: dict[int, Any] = {0: Canvas(str(path), **recording.canvas)}
    for call in recording.calls:
        arguments = call.arguments
        if arguments and isinstance(arguments[0], Reference):
            arguments = (objects[arguments[0].number], *arguments[1:])
        result = getattr(objects[call.target], call.name)(*arguments, **call.named)
        if call.name in ("beginPath", "beginText"):
            objects[call.result] = result


def replay_dxf(recording: Recording, path: Path) -> None:
    """Make the entities again."""
    document = new("R2013", setup=False, units=1)
    for table, entries in recording.tables.items():
        for entry in entries:
            _make_entry(document, table, entry)
    for name in recording.blocks:
        if name not in document.blocks:
            document.blocks.new(name)
    for name, entities in recording.blocks.items():
        _make(document.blocks.get(name), entities)
    for name, entities in recording.layouts.items():
        _make(_layout(document, name), entities)
    document.saveas(path)


def _make_entry(document: Drawing, table: str, entry: Attributes) -> None:
    entries: Any = getattr(document, table)
    name = entry["name"]
    if name in entries:
        entries.get(name).update_dxf_attribs(entry)
    else:
        entries.new(name, dxfattribs=entry)


def _layout(document: Drawing, name: str) -> Any:
    if name == "Model":
        return document.modelspace()
    if "Layout1" in document.layouts:
        document.layouts.rename("Layout1", name)
        return document.paperspace(name)
    return document.layouts.new(name)


def _make(layout: BaseLayout | Any, entities: list[Entity]) -> None:
    for entity in entities:
        if entity.kind == "LWPOLYLINE":
            made: Any = layout.add_lwpolyline(
                entity.points, format="xyb", dxfattribs=entity.attributes
            )
        elif entity.kind == "HATCH":
            made = layout.add_hatch(dxfattribs=entity.attributes)
            made.paths.add_polyline_path(entity.points, is_closed=True)
        else:
            made = layout.new_entity(entity.kind, entity.attributes)
        for tag, text, attributes in entity.attribs:
            made.add_attrib(tag, text, dxfattribs=attributes)
        if entity.xdata:
            made.set_xdata("PLANSET", entity.xdata)


def main(recording: Path, out: Path) -> None:
    """Write all files of a recording."""
    # A recording was written by tests.bench a moment ago.
    recorded: Recording = pickle.loads(recording.read_bytes())
    out.mkdir(parents=True, exist_ok=True)
    replay_pdf(recorded, out / "planset.pdf")
    replay_dxf(recorded, out / "planset.dxf")
    for name, content in recorded.texts.items():
        (out / name).write_bytes(content)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
