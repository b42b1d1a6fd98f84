"""The documents a set rests on, as the cover lists them."""

from pathlib import Path

from planset.job.load import read_job
from planset.sheets.documents import documents

EXAMPLES = Path(__file__).parents[2] / "examples"


def test_what_is_bound_in_and_what_goes_apart() -> None:
    # read off the catalog files by hand; the product sheet D-2 is not the manual that is cited
    assert documents(read_job(EXAMPLES / "cross-gable" / "job.yaml")) == [
        ("TR-402 data sheet, revision C", "BOUND AS D-1"),
        ("TR-402 installation manual, revision B, page 14", "SUBMITTED APART"),
        ("Bittern installation manual, revision D, pages 13, 19", "SUBMITTED APART"),
        ("Bittern calculation report OV-55, pages 3, 4, 7", "SUBMITTED APART"),
        ("Bittern span tables OV-58, page 3", "SUBMITTED APART"),
        ("DL-7.6K data sheet, revision 2", "BOUND AS D-3"),
        ("DL-450 data sheet, revision 2", "BOUND AS D-4"),
    ]


def test_the_load_calculation_is_submitted_too() -> None:
    rows = documents(read_job(EXAMPLES / "battery-retrofit" / "job.yaml"))
    assert rows[-1] == (
        "load calculation by Gullwing Bay Electric, 2026-11-22 (220.83)",
        "SUBMITTED APART",
    )
