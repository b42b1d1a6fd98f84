"""What a DXF file holds, counted as a reader that loses nothing would."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from ezdxf.document import Drawing
from ezdxf.filemanagement import readfile

APPID = "PLANSET"


def read(dxf: Path) -> Drawing:
    return readfile(dxf)


def edges(doc: Drawing, entities: Iterable[Any]) -> int:
    """Lines, arcs and circles, those of inserted blocks included; no filled areas, no texts."""
    count = 0
    for entity in entities:
        kind = entity.dxftype()
        if kind in ("LINE", "CIRCLE"):
            count += 1
        elif kind == "LWPOLYLINE":
            count += len(entity) - (0 if entity.closed else 1)
        elif kind == "INSERT":
            count += edges(doc, doc.blocks[entity.dxf.name])
    return count


def every_block(doc: Drawing) -> Iterator[Any]:
    """Model space, the layouts and all block definitions but the pictures of dimensions."""
    return (block for block in doc.blocks if not block.name.startswith("*D"))


def block_references(doc: Drawing) -> Counter[str]:
    """How often each block is inserted, insertions inside blocks counted once."""
    return Counter(
        insert.dxf.name for block in every_block(doc) for insert in block.query("INSERT")
    )


def identities(doc: Drawing) -> Counter[str]:
    """How often each id of a design object stands in the file."""
    return Counter(
        insert.get_xdata(APPID)[1].value
        for block in every_block(doc)
        for insert in block.query("INSERT")
        if insert.has_xdata(APPID)
    )


def texts(entities: Iterable[Any]) -> Counter[str]:
    """The lines of plain text."""
    return Counter(e.plain_text() for e in entities if e.dxftype() == "TEXT")
