"""The files of a set written by the bare libraries: what `tests.bench` measures planset against.

A recording holds every call that planset makes to reportlab, and every entity that stands in its
DXF file (`tests.raw_recording`). Here the same calls and entities are made again from those lists,
with no page, no block and no layer of planset between.
"""

from __future__ import annotations

import pickle
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
import pydantic
import ruamel.yaml
import shapely.geometry
import typer
from ezdxf.document import Drawing
from ezdxf.filemanagement import new
from ezdxf.layouts.base import BaseLayout
from fontpkg_arimo import ROOT as FACES
from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

IMPORTED = (np, pydantic, ruamel.yaml, shapely.geometry, typer)
"""Libraries a run of planset imports and a raw run has no other use for."""

Attributes = dict[str, Any]


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


def main(recording: str, out: str) -> None:
    """Write all files of a recording, which `tests.bench` made a moment ago."""
    recorded: Recording = pickle.loads(Path(recording).read_bytes())
    folder = Path(out)
    replay_pdf(recorded, folder / "planset.pdf")
    replay_dxf(recorded, folder / "planset.dxf")
    for name, content in recorded.texts.items():
        (folder / name).write_bytes(content)
