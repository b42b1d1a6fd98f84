"""Tags and numbers as a list that is short to read: `R1-R4, R7`, `12-20 EVERY 2ND`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

_SHORT_TAG = 3  # characters of a tag that has room for another beside it
_ORDINALS = {2: "2ND", 3: "3RD"}
_LEAST_ROW = 4  # numbers in even steps that are worth a shorter word


def from_to(tags: Sequence[str]) -> str:
    """Tags that follow each other; long ones may go on two lines."""
    if len(tags) < 2:
        return tags[0] if tags else "-"
    return f"{tags[0]}-{tags[-1]}" if len(tags[-1]) <= _SHORT_TAG else f"{tags[0]} - {tags[-1]}"


def listed_tags(tags: Sequence[str]) -> str:
    """Tags with those of three and more that follow each other drawn together."""
    parts: list[list[str]] = []
    for tag in tags:
        if parts and _number(tag) == _number(parts[-1][-1]) + 1:
            parts[-1].append(tag)
        else:
            parts.append([tag])
    words = [f"{part[0]}-{part[-1]}" if len(part) > 2 else ", ".join(part) for part in parts]
    return ", ".join(words)


def listed_numbers(numbers: Sequence[int]) -> str:
    """Different numbers in order, in even steps as first, last and step."""
    ordered = sorted(set(numbers))
    steps = {b - a for a, b in pairwise(ordered)}
    if len(ordered) < _LEAST_ROW or len(steps) > 1:
        return ", ".join(map(str, ordered))
    (step,) = steps
    row = f"{ordered[0]}-{ordered[-1]}"
    return row if step == 1 else f"{row} EVERY {_ORDINALS.get(step, f'{step}TH')}"


def _number(tag: str) -> int:
    """The number a tag ends with, -1 without one."""
    found = re.search(r"\d+$", tag)
    return int(found.group()) if found else -1
