"""Labels and placards of each edition of the NEC.

Sources: copies of the 2022 California Electrical Code (NEC 2020) and of NEC 2023 (230.85, 110.16);
study notes on the 2025 California Electrical Code (NEC 2023). 2017 mostly from memory.
"""

import pytest

from planset.codes.nec import labels

NEW_IN_2020 = {"emergency_disconnect", "storage_shutdown"}
NEW_IN_2023 = {"other_sources"}
ONLY_2017 = {"rapid_shutdown_outside_only"}


def test_which_labels_each_edition_has() -> None:
    every = set(labels.names())
    assert set(labels.labels(2017)) == every - NEW_IN_2020 - NEW_IN_2023
    assert set(labels.labels(2020)) == every - NEW_IN_2023 - ONLY_2017
    assert set(labels.labels(2023)) == every - ONLY_2017


@pytest.mark.parametrize(
    ("name", "clauses"),
    [
        ("pv_disconnect", ("690.13(B)", "690.13(B)", "690.13(B)")),
        ("dc_raceway", ("690.31(G)(3)", "690.31(D)(2)", "690.31(D)(2)")),
        ("dc_voltage", ("690.53", "690.53", "690.7(D)")),
        ("rapid_shutdown", ("690.56(C)(1)(a)", "690.56(C)", "690.12(D)(1)")),
        ("rapid_shutdown_switch", ("690.56(C)(3)", "690.56(C)(2)", "690.12(D)(2)")),
        ("directory", ("690.56(B)", "705.10", "705.10")),
        ("do_not_relocate", ("705.12(B)(2)(3)(b)", "705.12(B)(3)(2)", "705.12(B)(2)")),
    ],
)
def test_clauses(name: str, clauses: tuple[str, ...]) -> None:
    found = tuple(labels.labels(edition)[name].clause for edition in (2017, 2020, 2023))
    assert found == clauses


@pytest.mark.parametrize(
    ("name", "edition", "letter_in", "other_in", "colors", "other_colors", "reflective"),
    [
        ("dc_raceway", 2020, 0.375, None, ("white", "red"), ("", ""), False),
        ("dc_raceway", 2023, 0.375, None, ("white", "red"), ("", ""), False),
        (
            "rapid_shutdown",
            2020,
            0.375,
            0.1875,
            ("black", "yellow"),
            ("black", "white"),
            False,
        ),
        ("rapid_shutdown", 2023, 0.375, None, ("", ""), ("", ""), False),  # no color fixed
        ("rapid_shutdown_switch", 2020, 0.375, None, ("white", "red"), ("", ""), True),
        ("emergency_disconnect", 2020, None, None, ("", ""), ("", ""), False),
        ("emergency_disconnect", 2023, 0.5, None, ("white", "red"), ("", ""), False),
        ("pv_disconnect", 2020, None, None, ("", ""), ("", ""), False),
    ],
)
def test_letters_and_colors(
    name: str,
    edition: int,
    letter_in: float | None,
    other_in: float | None,
    colors: tuple[str, str],
    other_colors: tuple[str, str],
    reflective: bool,
) -> None:
    label = labels.labels(edition)[name]
    assert (label.letter_in, label.other_letter_in) == (letter_in, other_in)
    assert (label.text_color, label.background) == colors
    assert (label.other_text_color, label.other_background) == other_colors
    assert label.reflective is reflective


def test_words() -> None:
    of_2020 = labels.labels(2020)
    assert of_2020["pv_disconnect"].words == (("PV SYSTEM DISCONNECT",),)
    # either of two texts
    assert of_2020["dc_raceway"].words == (
        ("PHOTOVOLTAIC POWER SOURCE",),
        ("SOLAR PV DC CIRCUIT",),
    )
    assert labels.labels(2017)["dc_raceway"].words == (("WARNING: PHOTOVOLTAIC POWER SOURCE",),)
    title, rest = of_2020["rapid_shutdown"].words[0]
    assert title == "SOLAR PV SYSTEM IS EQUIPPED WITH RAPID SHUTDOWN"
    assert rest.startswith("TURN RAPID SHUTDOWN SWITCH TO THE 'OFF' POSITION")
    assert labels.labels(2017)["directory"].words == ()
    assert of_2020["directory"].words == (("CAUTION: MULTIPLE SOURCES OF POWER",),)
    assert len(labels.labels(2023)["emergency_disconnect"].words) == 3
    assert of_2020["rapid_shutdown_switch"].distance_ft == 3
    assert of_2020["dc_raceway"].distance_ft == 10


def test_every_label_says_something_and_where() -> None:
    for edition in (2017, 2020, 2023):
        for label in labels.labels(edition).values():
            assert label.words or label.content
            assert label.place
            assert all(line == line.strip() for lines in label.words for line in lines)
            assert bool(label.text_color) is bool(label.background)


def test_what_dwellings_need_not_have() -> None:
    for edition in (2017, 2020, 2023):
        found = {name for name, label in labels.labels(edition).items() if not label.dwellings}
        assert found == {"arc_flash", "fault_current"}


def test_what_is_from_memory_is_said() -> None:
    assert labels.labels(2017)["dc_raceway"].from_memory
    assert not labels.labels(2020)["dc_raceway"].from_memory
    assert labels.labels(2023)["sum_of_breakers"].from_memory  # its words
    assert labels.labels(2020)["emergency_disconnect"].from_memory
    assert not labels.labels(2023)["emergency_disconnect"].from_memory


@pytest.mark.parametrize(
    ("older", "newer", "changed"),
    [
        # what differs but the clause
        (2017, 2020, {"dc_raceway", "dc_voltage", "directory"}),
        (2020, 2023, {"rapid_shutdown", "directory", "emergency_disconnect"}),
    ],
)
def test_exactly_these_labels_change(older: int, newer: int, changed: set[str]) -> None:
    def seen(edition: int) -> dict[str, tuple[object, ...]]:
        return {
            name: (
                label.words,
                label.content,
                label.place,
                label.letter_in,
                label.other_letter_in,
                label.text_color,
                label.background,
                label.reflective,
                label.distance_ft,
            )
            for name, label in labels.labels(edition).items()
        }

    before, after = seen(older), seen(newer)
    assert {name for name in before if name in after and before[name] != after[name]} == changed


@pytest.mark.parametrize("edition", [2014, 2026])
def test_other_editions_are_refused(edition: int) -> None:
    with pytest.raises(ValueError, match="expected one of 2017, 2020, 2023"):
        labels.labels(edition)
