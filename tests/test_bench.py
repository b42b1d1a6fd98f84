"""The benchmark can note what the writers do, so that bare libraries can write it again."""

from pathlib import Path

from planset.formats.pdf_write import write_pdf
from tests.raw_files import Recording
from tests.raw_recording import record_pdf
from tests.sheets.drawn_sets import example


def test_the_pdf_of_the_example_is_noted(tmp_path: Path) -> None:
    drawing, recording = example().drawing, Recording()
    record_pdf(lambda: write_pdf(drawing, tmp_path / "set.pdf"), recording)
    shown = [call for call in recording.calls if call.name == "showPage"]
    assert len(shown) == len(drawing.pages)
