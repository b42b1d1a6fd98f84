"""Files made to hurt: refused with a sentence, in bounded time and memory."""

from __future__ import annotations

import os
import re
import resource
import shutil
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from ezdxf.document import Drawing
from ezdxf.filemanagement import new, readfile

from planset.catalog.fields import FEW_ENTRIES, LONGEST_TEXT, MOST_ENTRIES
from planset.catalog.library import PACKAGE_DATA
from planset.cli import main
from planset.errors import JobErrors
from planset.formats.dxf_load import FARTHEST, LARGEST_DRAWING, MOST_ENTITIES
from planset.job.limits import MOST_ATTACHMENTS, MOST_CELLS, MOST_MODULES
from planset.pipeline import check
from planset.resources import drawings_folder
from planset.source import LARGEST_FILE, MOST_EVENTS
from tests.example_job import EXAMPLE, edited

LONGEST_S = 5.0  # of the processor, since others may run beside
MOST_MEMORY_MB = 400


@pytest.fixture(autouse=True)
def bounded() -> Iterator[None]:
    """Every case here ends soon, and takes no memory to speak of."""
    grown, started = peak_mb(), time.process_time()
    yield
    assert time.process_time() - started < LONGEST_S
    assert peak_mb() - grown < MOST_MEMORY_MB


def peak_mb() -> float:
    unit = 2**20 if sys.platform == "darwin" else 2**10
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / unit


def told(job: Path) -> list[str]:
    """What is wrong with a job that must be refused."""
    with pytest.raises(JobErrors) as caught:
        check(job)
    return [str(problem) for problem in caught.value.problems]


def refusal(job: Path) -> str:
    (line,) = told(job)
    return line


def written(folder: Path, text: str) -> Path:
    job = folder / "job.yaml"
    job.write_text(text, encoding="utf-8")
    return job


# --- YAML ----------------------------------------------------------------------------------


def bomb() -> str:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10)]
    return "\n".join(lines)


def test_a_yaml_bomb_is_never_lit(tmp_path: Path) -> None:
    lines = told(written(tmp_path, bomb()))
    assert sum("the anchor &a" in line for line in lines) == 10
    assert sum("the alias *a" in line for line in lines) == 81


TOO_MANY = f"the file holds more than {MOST_EVENTS:,} keys and values"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a: [" + "1," * 490_000 + "1]", TOO_MANY),
        ("a: [" + "[]," * 320_000 + "1]", TOO_MANY),
        ("".join(f"k{n}: 1\n" for n in range(90_000)), TOO_MANY),
        ("".join(f"k{n}: &a{n} 1\n" for n in range(40_000)), TOO_MANY),
        ("? " * 400_000, TOO_MANY),
        ("- " * 400_000, "nested more than 40 levels deep"),
        ("a: " + "{b: " * 200_000, "nested more than 40 levels deep"),
        ("a: " + "9" * 900_000, "a number beyond all use"),
        ("a: 0" + "9" * 900_000, "a number with a leading zero"),
        ("? " + "x" * 900_000 + "\n: 1", "a key of 900000 letters"),
        ("x" * 50_000 + ": 1\n" + "y" * 900_000, "a colon where none can stand"),
        ("a: b" + "\n" * 900_000 + "c: d", "unknown field"),
        ("#" * LARGEST_FILE + "\na: b", "the file is larger than"),
    ],
    ids=range(13),
)
def test_yaml_that_goes_on_and_on(text: str, said: str, tmp_path: Path) -> None:
    lines = told(written(tmp_path, text))
    assert any(said in line for line in lines), lines[0][:200]
    assert max(map(len, lines)) < 1_000


def test_a_long_id_does_not_name_fields(tmp_path: Path) -> None:
    lines = told(edited(tmp_path, ("id: SK1", "id: " + "S" * 100_000)))
    assert all(len(line) < 300 for line in lines)


# --- files that are none -------------------------------------------------------------------


def test_a_pipe_for_a_job(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "job.yaml")
    assert refusal(tmp_path / "job.yaml").endswith("not a file; name a YAML file")


@pytest.mark.parametrize("place", ["/dev/zero", "/dev/null", "/"])
def test_a_device_or_folder_for_a_job(place: str) -> None:
    assert refusal(Path(place)).endswith("not a file; name a YAML file")


def test_a_link_that_leads_to_itself(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").symlink_to(tmp_path / "job.yaml")
    assert "job.yaml: " in refusal(tmp_path / "job.yaml")


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may read any file")
def test_a_job_nobody_may_read(tmp_path: Path) -> None:
    job = edited(tmp_path)
    job.chmod(0)
    assert "cannot be read (Permission denied)" in refusal(job)


def test_a_job_the_system_does_not_hand_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def denied(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    job = edited(tmp_path)
    monkeypatch.setattr(Path, "open", denied)
    assert "cannot be read (Permission denied)" in refusal(job)


def test_exit_code_and_words_of_the_command(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["draw", str(written(tmp_path, bomb())), "-o", str(tmp_path / "out")])
    assert ended.value.code == 2
    assert "Traceback" not in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


# --- numbers -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("along: 57-1/2 in", "along: 1e300", "corner.along: outside -12000 to 12000 in (got 1e+3"),
        ("along: 57-1/2 in", "along: 1e300 in", "corner.along: not a length (got 1e300 in)"),
        ("along: 57-1/2 in", "along: 1e999", "a number beyond all use"),
        ("along: 57-1/2 in", f"along: {'9' * 400} in", "corner.along: not a length"),
        ("along: 57-1/2 in", "along: nan", "corner.along: not a finite number"),
        ("along: 57-1/2 in", "along: nan in", "corner.along: not a length (got nan in)"),
        ("along: 57-1/2 in", "along: .inf", "corner.along: not a finite number"),
        ("depth: 34'-0\"", "depth: 1/0 in", "roof.depth: not a length (got 1/0 in)"),
        ("pitch: 5:12", "pitch: 1:0", "roof.pitch: not a roof pitch (got 1:0)"),
        ("front_azimuth: 190", "front_azimuth: 1e30", "outside 0 to 360 degrees (got 1e+30)"),
        ("rows: 4", "rows: 1000000000", "arrays.A1.rows: outside 1 to 10000 (got 1000000000)"),
        ("rows: 4", f"rows: {'1' * 300}", "arrays.A1.rows: outside 1 to 10000"),
        ("wind_speed: 110 mph", f"wind_speed: {'1' * 500} mph", "not a speed with its unit"),
    ],
)  # fmt: skip
def test_numbers_no_house_has(old: str, new: str, said: str, tmp_path: Path) -> None:
    assert said in refusal(edited(tmp_path, (old, new)))


STRINGS = (
    "- {id: S1, array: A1, modules: 10, input: 1}\n    - {id: S2, array: A1, modules: 10, input: 2}"
)


def strung(*sizes: int) -> tuple[str, str]:
    lines = [
        f"- {{id: T{n}, array: A1, modules: {size}, input: 1}}" for n, size in enumerate(sizes)
    ]
    return STRINGS, "\n    ".join(lines)


@pytest.mark.parametrize(("rows", "columns"), [(401, 5), (10_000, 10_000)])
def test_more_modules_than_any_job_has(rows: int, columns: int, tmp_path: Path) -> None:
    count = rows * columns
    sizes = [10_000] * (count // 10_000) + [count % 10_000 or 1]
    said = told(
        edited(
            tmp_path,
            ("rows: 4", f"rows: {rows}"),
            ("columns: 5", f"columns: {columns}"),
            strung(*sizes[:400]),
        )
    )
    assert any(
        f"arrays.A1: the job comes to {count:,} modules, where {MOST_MODULES:,} is the most; "
        "correct rows and columns, or make two jobs" in line
        for line in said
    )


def test_more_attachments_than_any_job_has(tmp_path: Path) -> None:
    own(tmp_path, "modules/tr-402", ("width: 67.8 in", "width: 120 in"))
    said = refusal(
        edited(
            tmp_path,
            ("columns: 5", "columns: 400"),
            ("  spacing: 24 in", "  spacing: 6 in"),
            ("attachment_spacing: 42 in", "attachment_spacing: 6 in"),
            strung(1600),
        )
    )
    assert f"attachments, where {MOST_ATTACHMENTS:,} is the most; correct the mounting" in said


def test_a_list_longer_than_any_job_has(tmp_path: Path) -> None:
    item = (
        "  - {id: O%d, kind: mast, plane: back, center: {along: 9, up: 9}, diameter: 1, "
        "clearance: 0}"
    )
    lines = "\n".join(item % n for n in range(MOST_ENTRIES))
    said = refusal(edited(tmp_path, ("obstructions:\n", f"obstructions:\n{lines}\n")))
    assert f"obstructions: a list of {MOST_ENTRIES + 2} entries, where {MOST_ENTRIES} is" in said


def test_more_wings_than_any_roof_has(tmp_path: Path) -> None:
    wing = (
        "    - {id: W%d, side: front, from_left: %d in, width: 20 ft, projection: 10 ft, "
        "pitch: 5:12, end: gable, eave_above: 0}\n"
    )
    wings = "".join(wing % (n, 2 * n) for n in range(200))
    said = refusal(edited(tmp_path, ("  front_azimuth", f"  wings:\n{wings}  front_azimuth")))
    assert f"a list of 200 entries, where {FEW_ENTRIES} is the most; shorten it" in said


def test_a_plane_too_large_to_be_fitted(tmp_path: Path) -> None:
    (corner,) = re.findall(r"corner: .*", EXAMPLE.read_text(encoding="utf-8"))
    said = refusal(
        edited(
            tmp_path,
            ("rows: 4", "as_many_as_fit: true"),
            ("    columns: 5\n", ""),
            (f"    {corner}\n", ""),
            ("ridge_length: 44'-0\"", "ridge_length: 1000 ft"),
            ("depth: 34'-0\"", "depth: 1000 ft"),
        )
    )
    assert f"places to fit modules, where {MOST_CELLS:,} is the most" in said


@pytest.mark.parametrize("length", [LONGEST_TEXT + 1, 900_000])
def test_text_no_sheet_holds(length: int, tmp_path: Path) -> None:
    said = refusal(edited(tmp_path, ("name: Tallow Creek Residence", "name: " + "W" * length)))
    assert f"project.name: longer than {LONGEST_TEXT} characters (got WWW" in said
    assert said.endswith("shorten it")


# --- paths ---------------------------------------------------------------------------------

TITLE_BLOCK = "title_block: strip-11x17"


def own(folder: Path, entry: str, *edits: tuple[str, str]) -> Path:
    """A catalog file beside the job: the package's with texts replaced."""
    path = folder / "catalog" / f"{entry}.yaml"
    path.parent.mkdir(parents=True)
    text = (PACKAGE_DATA / f"{entry}.yaml").read_text(encoding="utf-8")
    for old, mended in edits:
        assert text.count(old) == 1
        text = text.replace(old, mended)
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("name", ["../tr-402", "/etc/passwd", "..", "a/../b", "tr-402.yaml/.."])
def test_a_catalog_name_that_is_a_path(name: str, tmp_path: Path) -> None:
    said = refusal(edited(tmp_path, ("module: tr-402", f"module: {name}")))
    assert "arrays.A1.module: not" in said


def test_a_catalog_link_that_leads_out(tmp_path: Path) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    path = own(folder, "modules/tr-402")
    shutil.move(path, tmp_path / "secret.yaml")
    path.symlink_to(tmp_path / "secret.yaml")
    assert refusal(edited(folder)) == (
        f"{path}: a link that leads out of the job's folder; copy the file there instead"
    )


def test_a_pipe_for_a_catalog_file(tmp_path: Path) -> None:
    path = own(tmp_path, "modules/tr-402")
    path.unlink()
    os.mkfifo(path)
    assert refusal(edited(tmp_path)) == f"{path}: not a file; name a YAML file"


def test_a_catalog_file_that_is_a_bomb(tmp_path: Path) -> None:
    path = own(tmp_path, "modules/tr-402")
    path.write_text(bomb(), encoding="utf-8")
    assert all(line.startswith(f"{path}:") for line in told(edited(tmp_path)))


@pytest.mark.parametrize("character", ["→", "家", "\U0001f3e0"])
def test_a_catalog_file_with_text_that_cannot_be_drawn(character: str, tmp_path: Path) -> None:
    path = own(tmp_path, "modules/tr-402", ("maker: Tarn and Rowe", f"maker: Tarn {character}"))
    assert refusal(edited(tmp_path)) == (
        f"{path}:3: maker: the drawing face has no {character}; use another spelling"
    )


def built_in() -> Path:
    return drawings_folder("titleblocks") / "strip-11x17.dxf"


@pytest.mark.parametrize("how", ["../ours.dxf", "{}/ours.dxf", "sub/../../ours.dxf", "link.dxf"])
def test_a_title_block_elsewhere(how: str, tmp_path: Path) -> None:
    folder = tmp_path / "job"
    (folder / "sub").mkdir(parents=True)
    shutil.copy(built_in(), tmp_path / "ours.dxf")
    (folder / "link.dxf").symlink_to(tmp_path / "ours.dxf")
    name = how.format(tmp_path)
    said = refusal(edited(folder, (TITLE_BLOCK, f"title_block: {name}")))
    assert f"drafting.title_block: a path that leads out of the job's folder (got {name}" in said
    assert said.endswith("copy the file beside the job and name it")


@pytest.mark.parametrize("name", ["sub/../ours.dxf", "sub/link.dxf", "./ours.dxf"])
def test_a_title_block_beside_the_job_by_any_name(name: str, tmp_path: Path) -> None:
    shutil.copy(built_in(), tmp_path / "ours.dxf")
    (tmp_path / "sub").mkdir()
    (tmp_path / "sub" / "link.dxf").symlink_to(tmp_path / "ours.dxf")
    assert check(edited(tmp_path, (TITLE_BLOCK, f"title_block: {name}"))).drawing is not None


@pytest.mark.parametrize("name", ["../../etc/passwd", "/etc/passwd", "x" * 400 + ".dxf", "~"])
def test_a_title_block_that_is_none(name: str, tmp_path: Path) -> None:
    assert "drafting.title_block: no" in refusal(
        edited(tmp_path, (TITLE_BLOCK, f"title_block: {name}"))
    )


# --- drawings ------------------------------------------------------------------------------


def with_title_block(folder: Path, content: bytes | Drawing) -> str:
    path = folder / "ours.dxf"
    if isinstance(content, bytes):
        path.write_bytes(content)
    else:
        content.saveas(path)
    lines = told(edited(folder, (TITLE_BLOCK, "title_block: ours.dxf")))
    assert all(line.startswith(f"{path}: ") and len(line) < 300 for line in lines)
    return "\n".join(lines)


@pytest.mark.parametrize("share", [0.0, 0.1, 0.5, 0.9, 0.99])
def test_a_title_block_cut_off(share: float, tmp_path: Path) -> None:
    whole = built_in().read_bytes()
    with_title_block(tmp_path, whole[: int(len(whole) * share)])


@pytest.mark.parametrize(
    "content",
    [
        bytes(range(256)) * 4_000,
        b"\0" * 100_000,
        b"0\nSECTION\n" * 100_000,
        b"AC1027" + b"\xff" * 500,
        b"AutoCAD Binary DXF\r\n\x1a\x00" + b"\x01" * 1_000,
        b"  0\n" * 50_000,
        b"9" * 1_000_000,
    ],
)
def test_a_title_block_of_junk(content: bytes, tmp_path: Path) -> None:
    assert "cannot be read as DXF" in with_title_block(tmp_path, content)


def test_a_title_block_that_is_enormous(tmp_path: Path) -> None:
    path = tmp_path / "ours.dxf"
    with path.open("wb") as stream:
        stream.truncate(2**33)  # a hole takes no room on the disk
    said = refusal(edited(tmp_path, (TITLE_BLOCK, "title_block: ours.dxf")))
    assert f"the file has {2**33:,} bytes, where {LARGEST_DRAWING:,} is the most; purge it" in said


def changed(change: Callable[[Drawing], object]) -> Drawing:
    document = readfile(built_in())
    change(document)
    return document


def test_a_title_block_of_very_many_lines(tmp_path: Path) -> None:
    def scribble(document: Drawing) -> None:
        for n in range(MOST_ENTITIES):
            document.modelspace().add_line((0, 0), (1, n / MOST_ENTITIES))

    assert f"more than {MOST_ENTITIES:,} entities" in with_title_block(tmp_path, changed(scribble))


def test_a_title_block_of_one_very_long_line(tmp_path: Path) -> None:
    def scribble(document: Drawing) -> None:
        document.modelspace().add_lwpolyline([(n % 7, n % 11) for n in range(MOST_ENTITIES)])

    assert f"more than {MOST_ENTITIES:,} entities" in with_title_block(tmp_path, changed(scribble))


@pytest.mark.parametrize("number", [float("nan"), float("inf"), -float("inf"), 1e300, 2 * FARTHEST])
@pytest.mark.parametrize(
    "draw",
    [
        lambda space, x: space.add_line((0, 0), (x, 1)),
        lambda space, x: space.add_circle((1, 1), x),
        lambda space, x: space.add_arc((1, 1), 1, x, 20),
        lambda space, x: space.add_lwpolyline([(0, 0), (1, x)]),
        lambda space, x: space.add_lwpolyline([(0, 0, x), (1, 0, 0)], format="xyb"),
        lambda space, x: space.add_text("A", height=max(1e9, x)),  # others are mended
        lambda space, x: space.add_text("A", height=0.1, rotation=x),
        lambda space, x: space.add_solid([(0, 0), (1, 0), (0, x)]),
        lambda space, x: space.add_hatch().paths.add_polyline_path([(0, 0), (1, 0), (1, x)]),
        lambda space, x: space.add_attdef("DATE", (x, 1)),
    ],
)
def test_a_title_block_with_numbers_beyond_all_use(
    draw: Callable[..., object], number: float, tmp_path: Path
) -> None:
    said = with_title_block(tmp_path, changed(lambda d: draw(d.modelspace(), number)))
    assert "beyond all use; delete it" in said


def test_a_title_block_that_inserts_itself_without_end(tmp_path: Path) -> None:
    def nest(document: Drawing) -> None:
        for n in range(20):
            block = document.blocks.new(f"B{n}")
            for _ in range(10):
                block.add_blockref(f"B{(n + 1) % 20}", (0, 0))
        document.modelspace().add_blockref("B0", (0, 0))

    assert "INSERT of B0 in a title block; explode it" in with_title_block(tmp_path, changed(nest))


def test_a_title_block_without_anything(tmp_path: Path) -> None:
    assert "SHEET-EDGE: the layer holds 0 entities" in with_title_block(
        tmp_path, new("R2013", units=1)
    )


def test_the_example_is_within_all_bounds() -> None:
    assert check(EXAMPLE).drawing is not None
