"""What a drafter may write in a field, as JSON Schema: for editors that complete and check.

A schema knows no units of a job and no other field, so it accepts some of what the reader refuses;
what the reader accepts it never refuses.
"""

import dataclasses
import re
from collections.abc import Mapping
from typing import Any

from pydantic import AfterValidator, GetJsonSchemaHandler, WithJsonSchema

from planset.units import INCHES_PER_UNIT, UnitTable

JsonSchema = dict[str, Any]

_NUMBER = r"[-−]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
_LENGTH_WORDS = "|".join(["feet", "foot", "inches", "inch", *INCHES_PER_UNIT])


@dataclasses.dataclass(frozen=True, eq=False)
class Check(AfterValidator):
    """A check of a value that was read, with what it adds to the schema of a number or a list.

    Attributes:
        numbers: What it adds where the schema is that of a plain number.
        lists: What it adds where the schema is that of a list.
    """

    numbers: Mapping[str, Any] = dataclasses.field(default_factory=dict)
    lists: Mapping[str, Any] = dataclasses.field(default_factory=dict)

    def __get_pydantic_json_schema__(self, core: Any, handler: GetJsonSchemaHandler) -> JsonSchema:
        """Return the schema of the value with what this check adds."""
        schema = handler(core)
        kind = schema.get("type")
        if kind in ("integer", "number"):
            schema.update(self.numbers)
        elif kind == "array":
            schema.update(self.lists)
        return schema


def _text(pattern: str, description: str, *examples: str) -> JsonSchema:
    return {
        "type": "string",
        "pattern": pattern,
        "description": description,
        "examples": list(examples),
    }


def quantity(table: UnitTable, *examples: str) -> WithJsonSchema:
    """Return the schema of a quantity that needs its unit."""
    units = "|".join(re.escape(unit) for unit in table.units)
    said = f"{table.quantity[0].upper()}{table.quantity[1:]} with its unit: {table.forms}."
    return WithJsonSchema(_text(rf"^\s*{_NUMBER}\s*(?:{units})\s*$", said, *examples))


LENGTH = WithJsonSchema(
    {
        "description": "A length; a bare number is in the `units` of the job.",
        "anyOf": [
            {"type": "number"},
            {
                "type": "string",
                "pattern": rf"^\s*[-−]?[0-9.](?:[-−0-9./'’′\x22”″\s]|{_LENGTH_WORDS})*$",
            },
        ],
        "examples": ["12'-6 1/2\"", "57-1/2 in", "9 ft", "1.7 m", 24],
    }
)
PITCH = WithJsonSchema(
    _text(
        rf"^\s*{_NUMBER}\s*(?:[:/]\s*{_NUMBER}|deg|°)\s*$",
        "A roof pitch: rise and run, or degrees.",
        "5:12",
        "22.6 deg",
    )
)
DATE = WithJsonSchema(
    _text(r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$", "Year, month and day, in quotes.", "2026-11-25")
)
ID = WithJsonSchema(
    _text(
        r"^[A-Za-z0-9][A-Za-z0-9_-]{0,15}$",
        "A name of its own for this thing, up to 16 letters, digits, hyphens and underscores.",
        "A1",
    )
)
CATALOG_NAME = WithJsonSchema(
    _text(
        r"^[A-Za-z0-9][A-Za-z0-9._-]*$",
        "The name of a catalog entry: its file's, without folder and .yaml.",
        "tr-402",
    )
)
FIRE_TYPE = WithJsonSchema(
    _text(r"^Type [1-9][0-9]?$", "The fire type of a module, as its listing has it.", "Type 1")
)


def text(longest: int) -> WithJsonSchema:
    """Return the schema of text that is not blank."""
    return WithJsonSchema({"type": "string", "pattern": r"\S", "maxLength": longest})
