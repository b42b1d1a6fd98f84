"""What is said beside a label: where it goes, how many, its clause, letters, colors, material."""

from __future__ import annotations

from planset.citation import CodeEdition
from planset.codes.nec.labels import Label
from planset.design.electrical.system import PlacedLabel
from planset.sheets.label_face import drawn_heights
from planset.sheets.words import inches

MATERIAL = "durable in the place where it hangs, permanently fixed, not handwritten"
MATERIAL_CLAUSE = "110.21(B)"


def heading(placed: PlacedLabel, code: CodeEdition) -> str:
    """Key and clause."""
    return f"{placed.key}   {code.cite(placed.label.clause)}"


def notes(placed: PlacedLabel) -> tuple[str, ...]:
    """Sentences on a label, one after the other.

    Args:
        placed: The label.
    """
    label = placed.label
    listed = [
        f"{quantity(placed)}, ON {', '.join(placed.equipment)}",
        f"PLACE: {label.place.upper()}",
        _look(placed),
    ]
    return tuple(listed)


def quantity(placed: PlacedLabel) -> str:
    """How many, and why; without a reason it is one for each place."""
    reason = f" ({placed.quantity_reason.upper()})" if placed.quantity_reason else ""
    return f"QUANTITY {placed.quantity}{reason}"


def _look(placed: PlacedLabel) -> str:
    """Letters and colors, in one where the code fixes neither."""
    label = placed.label
    if label.letter_in is None and not label.text_color and not label.reflective:
        return f"NO COLOR OR HEIGHT FIXED, DRAWN {_drawn(placed)}"
    return f"{letters(placed)}; {colors(placed)}"


def letters(placed: PlacedLabel) -> str:
    """Heights of the letters as drawn, and what the code asks."""
    label = placed.label
    drawn = _drawn(placed)
    if label.letter_in is None:
        return f"NO HEIGHT FIXED, DRAWN {drawn}"
    return f"CAPITALS {_fixed_heights(label)} OR HIGHER, DRAWN {drawn}"


def colors(placed: PlacedLabel) -> str:
    """Colors the code fixes, and whether it must reflect."""
    label = placed.label
    reflective = "; REFLECTIVE" if label.reflective else ""
    if not label.text_color:
        return f"NO COLOR FIXED BY THE CODE, DRAWN BLACK ON WHITE{reflective}"
    said = f"{label.text_color} on {label.background}"
    if label.other_text_color:
        said += f", below the title {label.other_text_color} on {label.other_background}"
    return f"LETTERS {said.upper()}{reflective}"


def _drawn(placed: PlacedLabel) -> str:
    return ", THEN ".join(_height(height) for height in drawn_heights(placed))


def _fixed_heights(label: Label) -> str:
    least = _height(label.letter_in or 0.0)
    return f"{least}, OTHERS {_height(label.other_letter_in)}" if label.other_letter_in else least


def _height(value_in: float) -> str:
    return inches(value_in)
