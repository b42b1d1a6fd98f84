"""The frame of a DXF file: header, layers, linetypes, text and dimension styles, saving."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from io import StringIO

from ezdxf import options  # type: ignore[attr-defined]  # public, though not in __all__
from ezdxf.colors import aci2rgb
from ezdxf.document import Drawing
from ezdxf.filemanagement import new

from planset.drawing.dimension import TEXT_HEIGHT
from planset.drawing.extent import extent
from planset.drawing.geometry import Box
from planset.drawing.layers import INHERITED, LAYERS, LINETYPES, UNPLOTTED, Layer
from planset.drawing.primitives import Block
from planset.drawing.text import NOTE_HEIGHT
from planset.errors import PlansetError
from planset.formats.dxf_dimensions import (
    DATUM,
    DATUM_REACH,
    TEXT_STYLE,
    DimensionSize,
)
from planset.formats.dxf_export import values_written_straight
from planset.formats.dxf_values import HiddenValues

APPID = "PLANSET"

# Some readers draw a linetype by its name, not as it is defined. By its name HIDDEN2, and the same
# with the others, is half as long as HIDDEN: as long as the pages draw it.
HALF_AS_LONG = "2"

BLACK_OR_WHITE = 7
GRAY = 8
FIXED_COLORS = (*range(1, 7), *range(10, 256))  # color indexes that look alike on any background


class DxfDocument:
    """A DXF file in the making, and which layers and dimension styles it turned out to need.

    Args:
        sheet_factor: For a file whose model space is one sheet: model inches per plotted inch.

    Attributes:
        doc: The file as ezdxf holds it.
        hidden_values: Of each block, where its values stand that are not shown.
    """

    def __init__(self, sheet_factor: float | None = None) -> None:
        self._sheet_factor = sheet_factor
        self.doc: Drawing = new("R2013", setup=False, units=1)  # 1: inches
        self.doc.appids.new(APPID)
        self.doc.styles.new(TEXT_STYLE, dxfattribs={"font": "arial.ttf"})
        self.hidden_values: dict[str, HiddenValues] = {}
        self._boxes: dict[str, Box | None] = {}
        self._layers: set[str] = {UNPLOTTED}
        self._dimension_styles: Counter[DimensionSize] = Counter()

    def layer(self, name: str) -> str:
        """The layer's name, noted as used."""
        self._layers.add(name)
        return name

    def hide_values(self, block: Block, tags: Sequence[str]) -> HiddenValues:
        """Settle where the values of a block stand that are not shown; those it inserts first."""
        box = self._boxes[block.name] = extent(block.primitives, self._boxes)
        values = self.hidden_values[block.name] = HiddenValues.within(box, tags)
        return values

    @property
    def formats_figures(self) -> bool:
        """Whether a program may format figures by their style: not one that knows one style."""
        return self._sheet_factor is None

    def dimension_style(self, size: DimensionSize) -> str:
        """Name of the dimension style for some sizes, made when new."""
        if not size.running:
            self._dimension_styles[size] += 1
        if size.name not in self.doc.dimstyles:
            if size.running and DATUM not in self.doc.blocks:
                self._define_datum()
            self.doc.dimstyles.new(size.name, dxfattribs=size.variables)
        return size.name

    def _define_datum(self) -> None:
        """The mark where running dimensions begin, as an arrowhead: the tip is the origin."""
        mark = self.doc.blocks.new(DATUM)
        mark.add_circle((0.0, 0.0), DATUM_REACH, {"layer": INHERITED})
        mark.add_line((0.0, 0.0), (-1.0, 0.0), {"layer": INHERITED})

    def finish(self) -> None:
        """Define what was used: layers with their linetypes, and the header."""
        used = [LAYERS[name] for name in sorted(self._layers - {INHERITED})]
        for linetype in sorted({layer.linetype for layer in used if LINETYPES[layer.linetype]}):
            self._define_linetype(linetype)
        for layer in used:
            self._define_layer(layer)
        self._define_header()

    def content(self) -> bytes:
        """The file; the same document gives the same bytes under any hash seed.

        Raises:
            PlansetError: The file would not be a sound DXF.
        """
        found = self.doc.audit()
        if found.errors or found.fixes:
            listed = "; ".join(entry.message for entry in [*found.errors, *found.fixes])
            msg = f"the drawing would not be sound DXF ({listed}); please report this"
            raise PlansetError(msg)
        for name in sorted(self.doc.entitydb.dxf_types_in_use()):
            self.doc.classes.add_class(name)  # else their order hangs on the hash seed
        written = StringIO()
        with values_written_straight():
            self.doc.write(written)
        return self.doc.encode(written.getvalue())

    def _define_linetype(self, name: str) -> None:
        lengths = LINETYPES[name]
        signed = [-part if place % 2 else part for place, part in enumerate(lengths)]
        pattern = [sum(lengths), *signed]
        self.doc.linetypes.add(_linetype_name(name), pattern, description=name.lower())

    def _define_layer(self, layer: Layer) -> None:
        made = self.doc.layers.add(
            layer.name,
            color=_color_index(layer),
            linetype=_linetype_name(layer.linetype),
            lineweight=round(layer.pen_mm * 100),
            plot=layer.plotted,
        )
        if layer.gray or layer.rgb:
            made.rgb = layer.color
        made.description = layer.purpose

    def _define_header(self) -> None:
        header = self.doc.header
        header["$MEASUREMENT"] = 0  # inches
        header["$LUNITS"] = 4  # architectural
        header["$LUPREC"] = 4  # sixteenths
        header["$PSLTSCALE"] = 1  # dashes of a layout in paper inches
        header["$LTSCALE"] = self._sheet_factor or 1.0
        header["$LWDISPLAY"] = 1
        header["$TEXTSTYLE"] = TEXT_STYLE
        header["$TEXTSIZE"] = NOTE_HEIGHT
        self._define_usual_dimension()

    def _define_usual_dimension(self) -> None:
        """Some readers know one set of dimension variables: the sheet's, or the one most used."""
        counted = sorted(self._dimension_styles.items(), key=lambda item: (-item[1], item[0]))
        usual = counted[0][0] if counted else DimensionSize(1.0, TEXT_HEIGHT)
        if self._sheet_factor:
            usual = DimensionSize(self._sheet_factor, TEXT_HEIGHT)
        self.doc.header["$DIMSTYLE"] = self.dimension_style(usual)
        self.doc.dimstyles.get("Standard").update_dxf_attribs(usual.variables)
        for name, value in usual.variables.items():
            self.doc.header[f"${name.upper()}"] = value


def _color_index(layer: Layer) -> int:
    """Index of the layer's color, or of the nearest, for readers without true color."""
    if layer.rgb is None:
        return GRAY if layer.gray else BLACK_OR_WHITE
    found: int = min(FIXED_COLORS, key=lambda index: math.dist(aci2rgb(index), layer.color))
    return found


def _linetype_name(name: str) -> str:
    return name + HALF_AS_LONG if LINETYPES[name] else name


@contextmanager
def fixed_metadata() -> Iterator[None]:
    """While inside, ezdxf writes fixed dates and ids instead of the time and random ones."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before
