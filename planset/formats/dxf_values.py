"""Values that an insertion carries without showing them: where they stand when made visible."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planset.drawing.geometry import Box, Placement, Point
from planset.drawing.layers import UNPLOTTED
from planset.drawing.primitives import Text
from planset.drawing.text import LINE_PITCH, NOTE_HEIGHT

_LETTERS = 8  # that the width of a block has room for
_LEAST_LINES = 4  # that its height has room for


@dataclass(frozen=True, slots=True)
class HiddenValues:
    """The hidden values of a block: one under the other, from its upper left corner down.

    Attributes:
        tags: Their names, from the top.
        corner: Upper left corner of the block [in].
        height: Of the letters, which fit the block [in].
    """

    tags: tuple[str, ...]
    corner: Point
    height: float

    @classmethod
    def within(cls, box: Box | None, tags: Sequence[str]) -> HiddenValues:
        """Those of a block that covers a box, None for one that draws nothing."""
        if box is None:
            return cls(tuple(tags), (0.0, 0.0), NOTE_HEIGHT)
        lines = max(len(tags), _LEAST_LINES) * LINE_PITCH
        height = min(box.height / lines, box.width / _LETTERS) or NOTE_HEIGHT
        return cls(tuple(tags), (box.x0, box.y1), height)

    def text(self, tag: str, value: str, place: Placement) -> Text:
        """The text of a value.

        Args:
            tag: Its name.
            value: What it says.
            place: From the block to where it is inserted.
        """
        line = self.tags.index(tag) if tag in self.tags else len(self.tags)
        x, top = self.corner
        at = place.apply((x, top - (line * LINE_PITCH + 1) * self.height))
        turn = place.rotation_deg
        return Text(value, at, self.height * place.scale, UNPLOTTED, rotation_deg=turn)
