"""YAML in: plain data with the line of every field; the only reader of YAML.

The parser's events are read directly, so tags, anchors and aliases are seen before they act, and
what a plain scalar means is decided here alone: `true`, `false`, `null`, and numbers as JSON writes
them. All else is text, so `5:12`, `NO` and `1:30` stay what the drafter wrote. What YAML would
quietly turn into something else is refused with the way to write it.
"""

import copy
import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, StreamMark, YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from planset.errors import JobErrors, Problem

Location = tuple[str | int, ...]
"""Keys and list positions (from 0) that lead from the top of a document to a field."""

LARGEST_FILE = 1_000_000
"""Bytes; a job written by people is far below."""

DEEPEST_NESTING = 40

MOST_EVENTS = 20_000
"""Beginnings and ends of values; a job written by people has a thousand."""

LONGEST_KEY = 200
"""Characters; the longest field name has 30."""

LONGEST_SHOWN = 60
"""Characters of a value that a message repeats."""

_TEXTS_REMEMBERED = 32  # more than the catalog files of a job

_CONSTANTS = {"": None, "~": None, "null": None, "true": True, "false": False}
_INTEGER = re.compile(r"-?(?:0|[1-9][0-9]*)")
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?")
_VALUE_IS_COMMENT = re.compile(r"[ \t]*:?[ \t]*#")
_NUMBER_IN_COMMENT = re.compile(r"[ \t]+#[0-9]+")

_TRAPS = (
    (
        re.compile(r"[-+]?0[0-9]+(?:\.[0-9]*)?"),
        "a number with a leading zero",
        "remove the zero, or put text in quotes",
    ),
    (
        re.compile(r"[-+]?[0-9][0-9_]*_[0-9_]*(?:\.[0-9_]*)?"),
        "a number with an underscore",
        "write the digits together, or put text in quotes",
    ),
    (
        re.compile(r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}(?:[Tt ]+[0-9:].*)?"),
        "a date without quotes",
        "put it in quotes",
    ),
    (
        re.compile(r"[-+]?\.?(?:nan|inf|infinity)", re.IGNORECASE),
        "not a finite number",
        "write a number, or put text in quotes",
    ),
)

_SYNTAX = (
    (
        "mapping values are not allowed",
        "a colon where none can stand",
        "check the indent of this line and the one above, and quote text that contains a colon",
    ),
    ("character '\\t'", "a tab in the indent", "indent with spaces"),
    (
        "cannot start any token",
        "a value that begins with a sign YAML reserves",
        "put the value in quotes",
    ),
    (
        "found unexpected end of stream",
        "a quotation mark that is never closed",
        "close it, or put a length in the other kind of quotes, as '8 1/2\"'",
    ),
    (
        "but found '<scalar>'",
        "text after a closed quotation mark",
        "put the whole value in one pair of quotes",
    ),
    (
        "could not find expected ':'",
        "a line without a colon that ends its key",
        "write it as `key: value`, with a space after the colon",
    ),
    (
        "expected <block end>",
        "a line whose indent does not fit the lines above",
        "start the keys of one block in the same column",
    ),
    (
        "expected ',' or",
        "a bracket or brace that is never closed, or a missing comma",
        "close it, or add the comma",
    ),
)


@dataclass(frozen=True, slots=True)
class SourceDocument:
    """A YAML file as plain data that remembers where each field stands.

    Attributes:
        file: the file as the user named it.
        data: mappings, lists, text, numbers, true, false and None.
        lines: line (from 1) of every location.
    """

    file: str
    data: dict[str, Any]
    lines: Mapping[Location, int]

    def line_of(self, location: Location) -> int:
        """Return the line of a location, or of the nearest one above it that is in the file."""
        while location and location not in self.lines:
            location = location[:-1]
        return self.lines.get(location, 1)

    def value_at(self, location: Location) -> Any:
        """Return what stands at a location, None when nothing does."""
        value: Any = self.data
        for step in location:
            if isinstance(value, list) and isinstance(step, int) and step < len(value):
                value = value[step]
            else:
                value = value.get(step) if isinstance(value, dict) else None
        return value

    def field_name(self, location: Location) -> str:
        """Return a location as a dotted path; list entries by id, else counted from 1."""
        names = []
        for depth, step in enumerate(location, start=1):
            entry = self.value_at(location[:depth]) if isinstance(step, int) else None
            own_id = entry.get("id") if isinstance(entry, dict) else None
            counted = step + 1 if isinstance(step, int) else step
            named = isinstance(own_id, str) and 0 < len(own_id) <= LONGEST_SHOWN
            names.append(str(own_id if named else counted))
        return ".".join(names)

    def problem(self, location: Location, message: str, mend: str) -> Problem:
        """Return a problem of the field at a location."""
        return Problem(self.file, self.line_of(location), self.field_name(location), message, mend)


@dataclass(frozen=True, slots=True)
class _Remark:
    """A problem before the document it belongs to is complete."""

    line: int
    location: Location
    message: str
    mend: str


class _Unreadable(Exception):  # noqa: N818 - never leaves this module
    """Reading cannot go on after the remark it carries."""

    def __init__(self, remark: _Remark) -> None:
        self.remark = remark
        super().__init__(remark)


class _Builder:
    """Turns the events of one document into plain data, lines and remarks."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._events = _bounded(YAML(typ="safe", pure=True).parse(text))
        self.lines: dict[Location, int] = {}
        self.remarks: list[_Remark] = []

    def build(self) -> dict[str, Any]:
        """Return the one document of the text, which must be a mapping."""
        data: Any = None
        documents = 0
        for event in self._events:
            if isinstance(event, DocumentStartEvent):
                documents += 1
                if documents > 1:
                    line = event.start_mark.line + 1
                    raise _Unreadable(
                        _Remark(line, (), "a second document begins", "keep one document per file")
                    )
                data = self._node(next(self._events), (), 0)
        if not isinstance(data, dict):
            found = "nothing" if data is None else "no keys"
            mend = "write the file as `key: value` lines"
            raise _Unreadable(_Remark(1, (), f"the file holds {found}", mend))
        return data

    def _remark(self, location: Location, message: str, mend: str) -> None:
        self.remarks.append(_Remark(self.lines[location], location, message, mend))

    def _node(self, event: Event, location: Location, after: int) -> Any:
        """Return the value an event begins; `after` is where its text may start."""
        self.lines.setdefault(location, event.start_mark.line + 1)
        if len(location) > DEEPEST_NESTING:
            message = f"nested more than {DEEPEST_NESTING} levels deep"
            raise _Unreadable(_Remark(self.lines[location], (), message, "write it flatter"))
        self._refuse_sharing(event, location)
        if isinstance(event, ScalarEvent):
            return self._scalar(event, location, after)
        if isinstance(event, SequenceStartEvent):
            return self._sequence(location)
        if isinstance(event, MappingStartEvent):
            return self._mapping(location)
        return None

    def _refuse_sharing(self, event: Event, location: Location) -> None:
        anchor, tag = getattr(event, "anchor", None), getattr(event, "tag", None)
        if isinstance(event, AliasEvent):
            self._remark(location, f"the alias *{anchor}", "write the value out here")
        elif anchor is not None:
            self._remark(location, f"the anchor &{anchor}", "remove it")
        if tag is not None:
            self._remark(location, f"the tag {tag}", "remove it, or put text in quotes")

    def _scalar(self, event: ScalarEvent, location: Location, after: int) -> Any:
        text: str = event.value
        if event.style is not None:
            return text
        if not text:
            if _VALUE_IS_COMMENT.match(self._text, after):
                self._remark(
                    location,
                    "no value, for # begins a comment",
                    "put the value in quotes, or write null",
                )
            return None
        if lost := _NUMBER_IN_COMMENT.match(self._text, event.end_mark.index):
            self._remark(
                location,
                f"the value ends before {lost[0].strip()}, for # begins a comment",
                "put the whole value in quotes, or a space after # if a comment is meant",
            )
        return self._plain(text, location)

    def _plain(self, text: str, location: Location) -> Any:
        if text in _CONSTANTS:
            return _CONSTANTS[text]
        if _NUMBER.fullmatch(text):
            if not math.isfinite(float(text)):
                self._remark(
                    location, "a number beyond all use", "write a number that can be meant"
                )
                return text
            return int(text) if _INTEGER.fullmatch(text) else float(text)
        for pattern, message, mend in _TRAPS:
            if pattern.fullmatch(text):
                self._remark(location, f"{message} (got {text[:LONGEST_SHOWN]})", mend)
        return text

    def _sequence(self, location: Location) -> list[Any]:
        items: list[Any] = []
        while not isinstance(event := next(self._events), SequenceEndEvent):
            after = event.start_mark.index
            items.append(self._node(event, (*location, len(items)), after))
        return items

    def _mapping(self, location: Location) -> dict[str, Any]:
        mapping: dict[str, Any] = {}
        while not isinstance(event := next(self._events), MappingEndEvent):
            key = self._key(event, location)
            if key is None:
                self._skip(event)
                self._skip(next(self._events))
                continue
            here = (*location, key)
            self.lines[here] = event.start_mark.line + 1
            self._refuse_sharing(event, here)
            mapping[key] = self._node(next(self._events), here, event.end_mark.index)
        return mapping

    def _key(self, event: Event, location: Location) -> str | None:
        """Return the text of a key, or None after a remark on what is wrong with it."""
        key = str(event.value) if isinstance(event, ScalarEvent) else ""
        plain = isinstance(event, ScalarEvent) and event.style is None
        if not isinstance(event, ScalarEvent):
            trouble = "a key that is not text", "write one word before the colon"
        elif len(key) > LONGEST_KEY:
            trouble = f"a key of {len(key)} letters", "write one word before the colon"
        elif plain and key == "<<":
            trouble = "the merge key <<", "write the fields out here"
        elif plain and (key in _CONSTANTS or _NUMBER.fullmatch(key)):
            trouble = f"a key that is not text (got {key})", "put it in quotes"
        elif first := self.lines.get((*location, key)):
            trouble = f"the key {key} is given twice, first on line {first}", "keep one of them"
        else:
            return key
        self.remarks.append(_Remark(event.start_mark.line + 1, location, *trouble))
        return None

    def _skip(self, event: Event) -> None:
        """Pass over the value that an event begins."""
        depth = 0
        while True:
            if isinstance(event, MappingStartEvent | SequenceStartEvent):
                depth += 1
            elif isinstance(event, MappingEndEvent | SequenceEndEvent):
                depth -= 1
            if depth == 0:
                return
            event = next(self._events)


def _bounded(events: Iterator[Event]) -> Iterator[Event]:
    """Yield events up to the most a file may have."""
    for number, event in enumerate(events):
        if number == MOST_EVENTS:
            message = f"the file holds more than {MOST_EVENTS:,} keys and values"
            mend = "remove what is repeated; name a job or catalog file"
            raise _Unreadable(_Remark(event.start_mark.line + 1, (), message, mend))
        yield event


def _read_text(path: Path) -> str:
    """Return the text of a file, or raise the remark that it cannot be had."""
    try:
        if path.exists() and not path.is_file():
            raise _Unreadable(_Remark(0, (), "not a file", "name a YAML file"))
        with path.open("rb") as stream:
            raw = stream.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        raise _Unreadable(_Remark(0, (), "no such file", "check its name and folder")) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        message = f"the file cannot be read ({reason})"
        raise _Unreadable(_Remark(0, (), message, "check its name and permissions")) from None
    if len(raw) > LARGEST_FILE:
        message = f"the file is larger than {LARGEST_FILE:,} bytes"
        raise _Unreadable(_Remark(0, (), message, "name a job or catalog file"))
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        mend = "save the file as UTF-8"
        raise _Unreadable(_Remark(line, (), "a character that is not UTF-8", mend)) from None


def _in_a_value(mark: StreamMark, text: str) -> bool:
    """Tell whether a colon stands behind another one of the same entry of its line."""
    before = text.splitlines()[mark.line][: mark.column]
    return ":" in re.split(r"[{\[,]", before)[-1]


def _syntax_remark(error: YAMLError, text: str) -> _Remark:
    """Return what the parser stumbled over, in a drafter's words."""
    if not isinstance(error, MarkedYAMLError):
        line = text.count("\n", 0, getattr(error, "position", 0)) + 1
        return _Remark(line, (), "a character that cannot be printed", "remove it")
    said = str(error.problem)
    if "but got ':'" in said and _in_a_value(error.problem_mark, text):
        message = "a colon in the text of a value, between brackets or braces"
        return _Remark(error.problem_mark.line + 1, (), message, "put that text in quotes")
    noticed_late = any(sign in said for sign in ("end of stream", "expected ','", "expected ':'"))
    mark = error.context_mark if noticed_late else error.problem_mark
    line = mark.line + 1
    for sign, message, mend in _SYNTAX:
        if sign in said:
            return _Remark(line, (), message, mend)
    return _Remark(line, (), f"not readable as YAML ({said})", "check the punctuation of this line")


@dataclass(frozen=True, slots=True)
class _Scanned:
    """What a text holds: data, None when it could not be read to its end, lines and remarks."""

    data: dict[str, Any] | None
    lines: Mapping[Location, int]
    remarks: tuple[_Remark, ...]


@lru_cache(maxsize=_TEXTS_REMEMBERED)
def _scan(text: str) -> _Scanned:
    """Return what a text holds; catalog files are asked for again with every job of a process."""
    builder = _Builder(text)
    data: dict[str, Any] | None = None
    try:
        data = builder.build()
    except _Unreadable as unreadable:
        builder.remarks.append(unreadable.remark)
    except YAMLError as error:
        builder.remarks.append(_syntax_remark(error, text))
    return _Scanned(data, MappingProxyType(builder.lines), tuple(builder.remarks))


def scan_yaml(path: Path) -> tuple[SourceDocument | None, tuple[Problem, ...]]:
    """Return what a YAML file holds and all that is wrong with it as YAML.

    The document is None when the file could not be read to its end; then the last problem says
    why. Values with a problem of their own stand in the document as text or None.
    """
    try:
        scanned = _scan(_read_text(path))
    except _Unreadable as unreadable:
        scanned = _Scanned(None, {}, (unreadable.remark,))
    data = copy.deepcopy(scanned.data)  # whoever is given it may change it
    names = SourceDocument(str(path), data or {}, scanned.lines)
    problems = tuple(
        Problem(names.file, r.line or None, names.field_name(r.location), r.message, r.mend)
        for r in scanned.remarks
    )
    return None if data is None else names, problems


def read_yaml(path: Path) -> SourceDocument:
    """Return a YAML file as plain data with lines.

    Raises:
        JobErrors: with every problem of the file, when it has any.
    """
    document, problems = scan_yaml(path)
    if document is None or problems:
        raise JobErrors(problems)
    return document
