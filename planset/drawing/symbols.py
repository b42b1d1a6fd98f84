"""Symbols of the trade: blocks with terminals, read from drawings a firm can change."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Block


@dataclass(frozen=True, slots=True)
class Symbol:
    """One symbol.

    Attributes:
        block: Its drawing, in paper inches at true size.
        terminals: Connection points by name: the side of the symbol they lie on (W, E, N, S),
            numbered from the lower left when a side has several (W1, W2) [in].
        box: Extent of its lines [in].
    """

    block: Block
    terminals: Mapping[str, Point]
    box: Box

    @property
    def name(self) -> str:
        """Name of the symbol and of its block."""
        return self.block.name
