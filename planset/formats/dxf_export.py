"""What ezdxf asks of each entity when it writes one, without the questions whose answer is nothing.

Of an entity's possible values most are not set; ezdxf looks each of them up, three calls deep, only
to write nothing. Skipping those takes a quarter off the time of writing a file.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from functools import cache
from typing import Any

from ezdxf.entities.dxfns import DXFNamespace
from ezdxf.lldxf.attributes import DXFAttributes, XType
from ezdxf.lldxf.tagwriter import AbstractTagWriter


@contextmanager
def unset_values_skipped() -> Iterator[None]:
    """While inside, ezdxf writes the same bytes without looking up values that are not set."""
    export = DXFNamespace.export_dxf_attribs

    def export_set(
        self: DXFNamespace, tagwriter: AbstractTagWriter, attribs: str | Iterable[Any]
    ) -> None:
        is_set, definitions = self.__dict__, self.dxfattribs
        asked = (attribs,) if isinstance(attribs, str) else attribs
        export(
            self,
            tagwriter,
            [n for n in asked if n in is_set or not _is_nothing_when_unset(definitions, n)],
        )

    DXFNamespace.export_dxf_attribs = export_set  # type: ignore[method-assign]
    try:
        yield
    finally:
        DXFNamespace.export_dxf_attribs = export  # type: ignore[method-assign]


@cache
def _is_nothing_when_unset(definitions: DXFAttributes, name: str) -> bool:
    """Whether a value, unless somebody set it, is neither worked out nor has to be written."""
    definition = definitions.get(name)
    return (
        definition is not None
        and definition.xtype != XType.callback
        and (definition.optional or definition.default is None)
    )
