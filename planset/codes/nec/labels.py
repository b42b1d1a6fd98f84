"""Labels and placards that the NEC asks for on photovoltaic systems, edition by edition."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

from planset.codes import _table
from planset.codes.nec import _tables


@dataclass(frozen=True, slots=True)
class Label:
    """One label as an edition asks for it.

    Attributes:
        name: Name of the label, as in `names`.
        edition: Year of the code.
        clause: Where it asks for the label.
        words: Alternatives the code fixes, each as its lines; none where it fixes no words.
        content: What the label must tell besides, in our words; empty where nothing.
        place: Where it belongs.
        letter_in: Least height of the letters, of the title where there is one [in]; None where
            none is fixed.
        other_letter_in: Least height of the rest [in]; None where none is fixed.
        text_color: Color of the letters, of the title where there is one; empty: not fixed.
        background: Color behind them; empty: not fixed.
        other_text_color: Color of the other letters; empty: not fixed.
        other_background: Color behind those; empty: not fixed.
        reflective: Whether it must reflect.
        distance_ft: How near it must be to its thing, or to the next such label [ft]; None where
            the code fixes none.
        dwellings: Whether one- and two-family dwellings need it.
        from_memory: Whether words, numbers or clause are remembered, not seen in a copy.

    Source: NEC 2017, 2020 and 2023, 690.13(B) and the clauses it names.
    """

    name: str
    edition: int
    clause: str
    words: tuple[tuple[str, ...], ...]
    content: str
    place: str
    letter_in: float | None
    other_letter_in: float | None
    text_color: str
    background: str
    other_text_color: str
    other_background: str
    reflective: bool
    distance_ft: float | None
    dwellings: bool
    from_memory: bool


@cache
def _labels() -> Mapping[tuple[str, int], Label]:
    found = {}
    for row in _table.rows(Path(__file__).with_name("labels.csv")):
        for year in row["editions"].split("+"):
            found[row["label"], int(year)] = _label(row, int(year))
    return MappingProxyType(found)


def _label(row: Mapping[str, str], edition: int) -> Label:
    name = row["label"]
    remembered = edition in _tables.remembered("label_clauses")[name]
    return Label(
        name=name,
        edition=edition,
        clause=_tables.of_edition("label_clauses", name, edition),
        words=tuple(tuple(text.split(" / ")) for text in row["words"].split(" | ") if text),
        content=row["content"],
        place=row["place"],
        letter_in=_number(row["letter_in"]),
        other_letter_in=_number(row["other_letter_in"]),
        text_color=row["text_color"],
        background=row["background"],
        other_text_color=row["other_text_color"],
        other_background=row["other_background"],
        reflective=row["reflective"] == "yes",
        distance_ft=_number(row["distance_ft"]),
        dwellings=row["dwellings"] == "yes",
        from_memory=remembered or str(edition) in row["from_memory"].split("+"),
    )


def _number(text: str) -> float | None:
    return float(text) if text else None


def names() -> tuple[str, ...]:
    """Names of all labels of all editions.

    Source: NEC 2017, 2020 and 2023, 690.13(B) and the clauses of the labels.
    """
    return tuple(_tables.by_topic("label_clauses"))


def labels(edition: int) -> Mapping[str, Label]:
    """Labels of an edition by name.

    Args:
        edition: Year of the NEC: 2017, 2020 or 2023.

    Returns:
        Name to label; one the edition does not ask for is left out.

    Raises:
        ValueError: Edition not covered.

    Source: NEC 2017, 2020 and 2023, 690.13(B) and the clauses of the labels.
    """
    found = {name: label for (name, year), label in _labels().items() if year == edition}
    if not found:
        known = ", ".join(str(year) for year in sorted({year for _, year in _labels()}))
        msg = f"NEC edition is {edition}; expected one of {known}"
        raise ValueError(msg)
    return MappingProxyType(found)
