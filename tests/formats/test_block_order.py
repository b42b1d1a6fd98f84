"""Blocks come after those they insert."""

from __future__ import annotations

import pytest

from planset.drawing.primitives import Block, Insert
from planset.formats.block_order import dependency_order


def test_a_block_may_be_missing_or_insert_itself() -> None:
    lone = {"A": Block("A", (Insert("B", (0, 0), "0"),))}
    with pytest.raises(KeyError):
        dependency_order(lone)
    with pytest.raises(ValueError, match="cycle"):
        dependency_order(lone | {"B": Block("B", (Insert("A", (0, 0), "0"),))})
