"""Job files as slips of hand and keyboard leave them: seeded changes of the text of a good one."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

Lines = list[str]
Change = Callable[[random.Random, Lines], Lines]

_NUMBER = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
_WORD = re.compile(r"[A-Za-z_]{3,}")
_UNIT = re.compile(r"(?<=[0-9])( ?)(in|ft|mm|cm|m|mph|m/s|psf|kPa|F|C|A|V|deg|lb)\b")
_UNITS = ("in", "ft", "mm", "cm", "m", "mph", "m/s", "psf", "kPa", "F", "C", "A", "V", "deg", "lb")
_STRANGE = (
    *"é家→🏠½°#&*%{]'\"|@\t\x07",
    "\u200b",  # no width
    "\u202e",  # right to left from here
    "\u00a0",  # no break
    "\ufeff",  # byte order mark
)
_SECTION = re.compile(r"[a-z_]+:")


def mutated(text: str, seed: int) -> str:
    """Return a job with one to three changes; equal seeds make equal changes."""
    choose = random.Random(seed)
    lines = text.splitlines()
    for _ in range(choose.choice((1, 2, 2, 3))):
        change = choose.choice(CHANGES)
        lines = change(choose, lines) or lines
    return "\n".join(lines) + "\n"


def _spot(choose: random.Random, lines: Lines) -> int:
    """Return the number of a line that says something."""
    said = [number for number, line in enumerate(lines) if line.partition("#")[0].strip()]
    return choose.choice(said) if said else 0


def _replaced(choose: random.Random, lines: Lines, pattern: re.Pattern[str], new: str) -> Lines:
    """Put a text in place of one match of a pattern, out of comments."""
    places = [
        (number, match.span())
        for number, line in enumerate(lines)
        for match in pattern.finditer(line.partition(" #")[0])
    ]
    if not places:
        return lines
    number, (start, end) = choose.choice(places)
    line = lines[number]
    return [*lines[:number], line[:start] + new + line[end:], *lines[number + 1 :]]


def _delete(choose: random.Random, lines: Lines) -> Lines:
    spot = _spot(choose, lines)
    return lines[:spot] + lines[spot + 1 :]


def _double(choose: random.Random, lines: Lines) -> Lines:
    spot = _spot(choose, lines)
    return lines[: spot + 1] + lines[spot:]


def _swap_lines(choose: random.Random, lines: Lines) -> Lines:
    a, b = _spot(choose, lines), _spot(choose, lines)
    lines = list(lines)
    lines[a], lines[b] = lines[b], lines[a]
    return lines


def _swap_values(choose: random.Random, lines: Lines) -> Lines:
    a, b = _spot(choose, lines), _spot(choose, lines)
    (head, colon, tail), (other, and_colon, value) = (
        lines[a].partition(":"),
        lines[b].partition(":"),
    )
    lines = list(lines)
    lines[a], lines[b] = head + colon + value, other + and_colon + tail
    return lines


def _number(choose: random.Random, lines: Lines) -> Lines:
    new = choose.choice(
        [
            "0", "-1", "1", "2", "7", "30", "1e300", "1000000000", "0.000001", "3.14159265358979",
            "100000", "12000", "0.5", "1/3", "1/0", "359.999999", "90", "45", "600", "nan", ".inf",
            str(choose.randint(1, 500)), f"{choose.uniform(0, 100):.6f}",
        ]
    )  # fmt: skip
    return _replaced(choose, lines, _NUMBER, new)


def _nudge(choose: random.Random, lines: Lines) -> Lines:
    """Scale one number, so that most jobs still read well."""
    places = [
        (number, match)
        for number, line in enumerate(lines)
        for match in _NUMBER.finditer(line.partition(" #")[0])
    ]
    if not places:
        return lines
    number, match = choose.choice(places)
    scaled = float(match[0]) * choose.choice((0.01, 0.1, 0.5, 0.9, 1.1, 2, 3, 10, 100))
    new = f"{scaled:.0f}" if match[0].isdigit() and choose.random() < 0.7 else f"{scaled:.4f}"
    line = lines[number]
    new_line = line[: match.start()] + new + line[match.end() :]
    return [*lines[:number], new_line, *lines[number + 1 :]]


def _unit(choose: random.Random, lines: Lines) -> Lines:
    return _replaced(choose, lines, _UNIT, choose.choice(("", " ")) + choose.choice(_UNITS))


def _word(choose: random.Random, lines: Lines) -> Lines:
    words = sorted({word for line in lines for word in _WORD.findall(line.partition(" #")[0])})
    return _replaced(choose, lines, _WORD, choose.choice(words))


def _indent(choose: random.Random, lines: Lines) -> Lines:
    spot = _spot(choose, lines)
    by = choose.choice((" ", "  ", "\t", "    ", ""))
    line = by + lines[spot] if by else lines[spot].lstrip()
    return [*lines[:spot], line, *lines[spot + 1 :]]


def _sections(lines: Lines) -> list[Lines]:
    parts: list[Lines] = [[]]
    for line in lines:
        if _SECTION.match(line):
            parts.append([])
        parts[-1].append(line)
    return parts


def _drop_section(choose: random.Random, lines: Lines) -> Lines:
    parts = _sections(lines)
    parts.pop(choose.randrange(len(parts)))
    return [line for part in parts for line in part]


def _double_section(choose: random.Random, lines: Lines) -> Lines:
    return lines + choose.choice(_sections(lines))


def _shuffle_sections(choose: random.Random, lines: Lines) -> Lines:
    parts = _sections(lines)
    choose.shuffle(parts)
    return [line for part in parts for line in part]


def _strange(choose: random.Random, lines: Lines) -> Lines:
    spot = _spot(choose, lines)
    line = lines[spot]
    at = choose.randint(0, len(line))
    return [*lines[:spot], line[:at] + choose.choice(_STRANGE) + line[at:], *lines[spot + 1 :]]


def _truncate(choose: random.Random, lines: Lines) -> Lines:
    text = "\n".join(lines)
    return text[: choose.randint(0, len(text))].splitlines()


def _twice(choose: random.Random, lines: Lines) -> Lines:
    return lines + choose.choice((["---"], [])) + lines


def _list_order(choose: random.Random, lines: Lines) -> Lines:
    """Exchange two entries of a list that stand on lines of their own, or turn a flow list."""
    flow = [n for n, line in enumerate(lines) if re.search(r"\[[^]]*,", line)]
    entries = [n for n, line in enumerate(lines) if re.match(r"\s*- \{", line)]
    lines = list(lines)
    if flow and (not entries or choose.random() < 0.5):
        spot = choose.choice(flow)
        lines[spot] = re.sub(
            r"\[([^]]*)\]",
            lambda found: "[" + ", ".join(reversed(found[1].split(", "))) + "]",
            lines[spot],
        )
    elif entries:
        a, b = choose.choice(entries), choose.choice(entries)
        lines[a], lines[b] = lines[b], lines[a]
    return lines


CHANGES: tuple[Change, ...] = (
    _delete,
    _double,
    _swap_lines,
    _swap_values,
    _number,
    _number,
    _nudge,
    _nudge,
    _nudge,
    _nudge,
    _unit,
    _unit,
    _word,
    _word,
    _indent,
    _drop_section,
    _double_section,
    _shuffle_sections,
    _strange,
    _strange,
    _truncate,
    _twice,
    _list_order,
)
