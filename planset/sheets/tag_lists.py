"""Tags and numbers as a list that is short to read: `R1-R4, R7`."""

from __future__ import annotations

import re
from collections.abc import Sequence

_LONGEST_LIST = 40  # characters of tags in one row of a table, to fit under a heading on any page
_ENDINGS = {1: "ST", 2: "ND", 3: "RD"}


def from_to(tags: Sequence[str]) -> str:
    """Tags that follow each other."""
    if len(tags) < 2:
        return tags[0] if tags else "-"
    return f"{tags[0]}-{tags[-1]}"


def listed_tags(tags: Sequence[str]) -> str:
    """Tags with those of three and more that follow each other drawn together."""
    parts: list[list[str]] = []
    for tag in tags:
        if parts and _follows(tag, parts[-1][-1]):
            parts[-1].append(tag)
        else:
            parts.append([tag])
    return ", ".join(_together(part) if len(part) > 2 else ", ".join(part) for part in parts)


def _together(tags: Sequence[str]) -> str:
    """The first and the last tag; a dash between those that have one would be lost among them."""
    return f"{tags[0]}{' TO ' if '-' in tags[0] else '-'}{tags[-1]}"


def rows_of_tags(tags: list[str]) -> list[list[str]]:
    """Tags in parts that a row holds, however short the page."""
    parts: list[list[str]] = []
    for tag in tags:
        if parts and len(listed_tags([*parts[-1], tag])) <= _LONGEST_LIST:
            parts[-1].append(tag)
        else:
            parts.append([tag])
    return parts


def in_order(tags: Sequence[str]) -> str:
    """Tags in their order, those that follow each other up or down drawn together."""
    numbers = [int(tag.lstrip("M")) for tag in tags]
    steps = [b - a for a, b in zip(numbers, numbers[1:], strict=False)]
    parts: list[tuple[int, int]] = []
    start = 0
    for number in range(1, len(tags) + 1):
        goes_on = number < len(tags) and abs(steps[number - 1]) == 1
        if goes_on and (number - start < 2 or steps[number - 1] == steps[number - 2]):
            continue
        parts.append((start, number - 1))
        start = number
    return ", ".join(tags[a] if a == b else f"{tags[a]}-{tags[b]}" for a, b in parts)


def first_to_last(numbers: Sequence[int]) -> str:
    """The least and the greatest of some numbers, `12-20`, "-" without any."""
    if not numbers:
        return "-"
    low, high = min(numbers), max(numbers)
    return str(low) if low == high else f"{low}-{high}"


def ordinal(number: int) -> str:
    """A number that counts, in capitals: `1ST`, `12TH`, `23RD`."""
    ending = "TH" if number // 10 % 10 == 1 else _ENDINGS.get(number % 10, "TH")
    return f"{number}{ending}"


def _follows(tag: str, before: str) -> bool:
    """Whether a tag differs from another by a number that is one more."""
    parts = [re.fullmatch(r"(\D*)(\d+)(\D*)", word) for word in (before, tag)]
    if not (parts[0] and parts[1]):
        return False
    (head, low, tail), (other_head, high, other_tail) = (part.groups() for part in parts if part)
    return (head, tail, int(low) + 1) == (other_head, other_tail, int(high))
