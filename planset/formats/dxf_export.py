"""What ezdxf does with each value of an entity, setting and writing it, without the ways around.

Of an entity's possible values most are not set; ezdxf looks each of them up, three calls deep, only
to write nothing. Most of those set are a number, a word or a point under a group code, yet each is
first made an object of its own. Going straight takes half off the time of a large file.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from typing import Any

from ezdxf.entities.dxfns import SETTER_EVENTS, DXFNamespace
from ezdxf.lldxf.attributes import DXFAttr, DXFAttributes, XType
from ezdxf.lldxf.tagwriter import AbstractTagWriter
from ezdxf.lldxf.types import BINARY_DATA, is_point_code, tag_type
from ezdxf.math import Vec3


@contextmanager
def values_written_straight() -> Iterator[None]:
    """While inside, ezdxf writes the same bytes by a shorter way."""
    export = DXFNamespace.export_dxf_attribs

    def export_set(
        self: DXFNamespace, tagwriter: AbstractTagWriter, attribs: str | Iterable[Any]
    ) -> None:
        values, known = self.__dict__, _known(self.dxfattribs)
        write, version = tagwriter.write_tag2, tagwriter.dxfversion
        for name in (attribs,) if isinstance(attribs, str) else attribs:
            value, way = values.get(name), known.get(name)
            if value is None and way is not None and way.nothing_when_unset:
                continue
            if value is None or way is None or version < way.since or tagwriter.force_optional:
                export(self, tagwriter, name)
            elif way.left_out is not None and value == way.left_out:
                continue
            elif way.point:
                tagwriter.write_vertex(way.code, value)
            elif isinstance(value, str) and ("\n" in value or "\r" in value):
                export(self, tagwriter, name)  # which refuses it
            else:
                write(way.code, way.cast(value))

    DXFNamespace.export_dxf_attribs = export_set  # type: ignore[method-assign]
    try:
        yield
    finally:
        DXFNamespace.export_dxf_attribs = export  # type: ignore[method-assign]


@contextmanager
def values_set_straight() -> Iterator[None]:
    """While inside, ezdxf casts and checks the values of new entities by a shorter way."""
    set_one = DXFNamespace.__setattr__

    def set_value(self: DXFNamespace, name: str, value: Any) -> None:
        way = _known(self.dxfattribs).get(name)
        if way is not None and not way.heard:
            made = None if value is None else way.cast(value)
            if way.valid is None or way.valid(made):
                self.__dict__[name] = made
                return
        set_one(self, name, value)

    DXFNamespace.__setattr__ = set_value  # type: ignore[method-assign, assignment]
    try:
        yield
    finally:
        DXFNamespace.__setattr__ = set_one  # type: ignore[method-assign]


@dataclass(frozen=True, slots=True)
class _Way:
    """How a value that is neither worked out nor binary is set and written.

    Attributes:
        code: Its group code.
        cast: What makes of a value what is kept and written.
        valid: What tells whether it may be kept, None where all may.
        heard: Whether its entity may want to know that it was set.
        point: Whether it is a point of three coordinates.
        since: The first release of DXF that has it.
        left_out: The value that need not be written, if any.
        nothing_when_unset: Whether nothing is written when nobody set it.
    """

    code: int
    cast: Callable[[Any], Any]
    valid: Callable[[Any], bool] | None
    heard: bool
    point: bool
    since: str
    left_out: Any
    nothing_when_unset: bool


@cache
def _known(definitions: DXFAttributes) -> Mapping[str, _Way]:
    """The ways of the values of a kind of entity; all others are left to ezdxf."""
    named = {name: definitions.get(name) for _, name in definitions.build_group_code_items()}
    return {name: _way(name, one) for name, one in named.items() if one and _is_plain(one)}


def _is_plain(one: DXFAttr) -> bool:
    worked_out = one.xtype in (XType.callback, XType.point2d)
    return not worked_out and one.code not in BINARY_DATA


def _way(name: str, one: DXFAttr) -> _Way:
    point = is_point_code(one.code)
    return _Way(
        code=one.code,
        cast=Vec3 if point else tag_type(one.code),
        valid=one.validator,
        heard=name in SETTER_EVENTS,
        point=point,
        since=one.dxfversion,
        left_out=one.default if one.optional else None,
        nothing_when_unset=one.optional or one.default is None,
    )
