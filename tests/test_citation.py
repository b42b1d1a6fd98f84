"""Editions, written and printed."""

import pytest

from planset.citation import CodeEdition, clauses_of, read_edition


@pytest.mark.parametrize(
    ("written", "edition", "printed"),
    [
        ("IRC 2021", CodeEdition("IRC", 2021), "IRC 2021"),
        ("NFPA 1 2015", CodeEdition("NFPA 1", 2015), "NFPA 1 2015"),
        ("ASCE 7 2016", CodeEdition("ASCE 7", 2016), "ASCE 7-16"),
        ("CFC 2016+2018", CodeEdition("CFC", 2016, 2018), "CFC 2016 (2018 supplement)"),
    ],
)
def test_an_edition(written: str, edition: CodeEdition, printed: str) -> None:
    assert read_edition(written) == edition
    assert str(edition) == printed
    assert edition.cite() == printed
    assert edition.cite("R1") == f"{printed} R1"


@pytest.mark.parametrize("written", ["", "IRC", "2021", "IRC 21", "IRC 2021+", "CFC 2016+18"])
def test_what_is_no_edition(written: str) -> None:
    with pytest.raises(ValueError, match="is not an edition; write it as IRC 2021"):
        read_edition(written)


def test_clauses_of_one_document() -> None:
    assert clauses_of("NEC", {2017: "690.7", 2020: "690.7(A)"}) == {
        CodeEdition("NEC", 2017): "690.7",
        CodeEdition("NEC", 2020): "690.7(A)",
    }
