"""What the tests ask of a DXF file read back."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ezdxf.document import Drawing


def everything(doc: Drawing) -> Iterator[Any]:
    """Every drawn entity, attribute values included: model, layouts and block definitions."""
    for layout in (*doc.layouts, *(b for b in doc.blocks if not b.is_any_layout)):
        for entity in layout:
            yield entity
            yield from getattr(entity, "attribs", ())


def of_kind(layout: Any, query: str) -> list[Any]:
    return list(layout.query(query))


def in_model(doc: Drawing, query: str) -> list[Any]:
    return of_kind(doc.modelspace(), query)


def figure(dimension: Any) -> str:
    """What a dimension shows: the text in its own block."""
    (text,) = dimension.get_geometry_block().query("TEXT")
    words: str = text.plain_text()
    return words


def only_text(doc: Drawing, words: str) -> Any:
    (found,) = [e for e in everything(doc) if e.dxftype() == "TEXT" and e.dxf.text == words]
    return found
