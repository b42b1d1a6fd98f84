"""A DXF file of others opened within bounds: what is broken or beyond all use goes no further."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain
from pathlib import Path

from ezdxf.document import Drawing
from ezdxf.entities.boundary_paths import PolylinePath
from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.entities.hatch import Hatch
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.filemanagement import readfile
from ezdxf.math import Vec2, Vec3

LARGEST_DRAWING = 4_000_000
"""Bytes of a title block or of a family of symbols; ours have 40,000."""

MOST_ENTITIES = 5_000
"""Entities and vertices of a drawing; ours have 200."""

FARTHEST = 10_000.0
"""The largest number of a drawing [in, degrees]; a sheet is 36 in wide."""


class UnusableError(Exception):
    """A file that cannot be used at all.

    Args:
        message: What is wrong with it.
        mend: What to do about it.
    """

    def __init__(self, message: str, mend: str) -> None:
        super().__init__(message)
        self.message = message
        self.mend = mend


def load_drawing(path: Path) -> Drawing:
    """Return a drawing of which every number can be meant.

    Raises:
        UnusableError: The file cannot be read, or is too large, or a number in it is.
    """
    try:
        size = path.stat().st_size
        if size > LARGEST_DRAWING:
            message = f"the file has {size:,} bytes, where {LARGEST_DRAWING:,} is the most"
            raise UnusableError(message, "purge it, and remove what is no title block or symbol")
        document = readfile(path)
    except UnusableError:
        raise
    except Exception as failure:  # a damaged file makes the parser fail in any way
        reason = " ".join(str(failure).split())[:80] or type(failure).__name__
        message = f"cannot be read as DXF ({reason})"
        raise UnusableError(message, "save it again as DXF R2013") from failure
    _check_numbers(document)
    return document


def _check_numbers(document: Drawing) -> None:
    count = 0
    for layout in document.blocks:  # the model space is one of them
        for entity in layout:
            vertices = _vertices(entity)
            count += 1 + len(vertices)
            if count > MOST_ENTITIES:
                message = f"the drawing has more than {MOST_ENTITIES:,} entities and vertices"
                raise UnusableError(message, "remove what is no title block or symbol")
            for number in _numbers(entity.dxfattribs().values(), *vertices):
                if not abs(number) <= FARTHEST:  # nor is it, when it is not a number
                    message = f"a {entity.dxftype()} has the number {number:g}, beyond all use"
                    raise UnusableError(message, "delete it, or draw it within the sheet")


def _vertices(entity: DXFEntity) -> Sequence[Sequence[float]]:
    """Return the vertices that a polyline or a fill has besides its attributes."""
    if isinstance(entity, LWPolyline):
        return entity.get_points("xyseb")
    if isinstance(entity, Hatch):
        paths = [path for path in entity.paths.paths if isinstance(path, PolylinePath)]
        return [vertex for path in paths for vertex in path.vertices]
    return ()


def _numbers(*groups: Iterable[object]) -> Iterator[float]:
    for value in chain.from_iterable(groups):
        if isinstance(value, float):
            yield value
        elif isinstance(value, Vec2 | Vec3):
            yield from value
