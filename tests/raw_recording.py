"""What a set's files are made of, noted down to be written again by the bare libraries."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any
from unittest import mock

from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.filemanagement import readfile
from reportlab.pdfgen.canvas import Canvas

from tests.raw_files import Attributes, Call, Entity, Recording, Reference

HANDLES = ("handle", "owner", "paperspace")


class Recorder:
    """Stands before an object of reportlab, and notes each call."""

    def __init__(self, real: Any, recording: Recording, number: int) -> None:
        self._real = real
        self._recording = recording
        self._number = number

    def __getattr__(self, name: str) -> Any:
        """Return a call that is noted; what is private is the real one."""
        if name.startswith("_"):
            return getattr(self._real, name)

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
