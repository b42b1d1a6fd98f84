"""Types of enclosures."""

from typing import Literal

EnclosureType = Literal["1", "2", "3", "3R", "3S", "4", "4X", "5", "6", "6P", "12", "12K", "13"]
"""Type of an enclosure as its maker marks it."""

OUTDOORS = frozenset({"3", "3R", "3S", "4", "4X", "6", "6P"})
"""Types that keep rain out.

Source: NEC 2017, 2020 and 2023, Table 110.28 [from memory].
"""
