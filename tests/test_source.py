"""Reading YAML: values, lines, and everything that is refused."""

from pathlib import Path
from typing import Any

import pytest

from planset.errors import JobErrors
from planset.source import DEEPEST_NESTING, LARGEST_FILE, SourceDocument, read_yaml, scan_yaml


def read(folder: Path, text: str) -> SourceDocument:
    path = folder / "job.yaml"
    path.write_bytes(text.encode())
    return read_yaml(path)


def problems(folder: Path, text: str | bytes) -> list[str]:
    path = folder / "job.yaml"
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    with pytest.raises(JobErrors) as caught:
        read_yaml(path)
    return [str(problem).removeprefix(f"{folder}/") for problem in caught.value.problems]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("true", True),
        ("false", False),
        ("null", None),
        ("~", None),
        ("", None),
        ("null  # not surveyed", None),
        ("0", 0),
        ("-12", -12),
        ("1.50", 1.5),
        ("1e3", 1000.0),
        ("-0.5", -0.5),
        ("5:12", "5:12"),
        ("1:30", "1:30"),
        ("12:30:45", "12:30:45"),
        ("NO", "NO"),
        ("yes", "yes"),
        ("True", "True"),
        ("off", "off"),
        ("Null", "Null"),
        ("0x1F", "0x1F"),
        ("0o17", "0o17"),
        (".5", ".5"),
        ("+5", "+5"),
        ("2026-014", "2026-014"),
        ("2026-11-25 on site", "2026-11-25 on site"),
        ("07-118-042", "07-118-042"),
        ("44'-0\"", "44'-0\""),
        ("'012'", "012"),
        ('"1_000"', "1_000"),
        ('"2026-11-25"', "2026-11-25"),
        ('"#10"', "#10"),
        ("2x6  # nominal", "2x6"),
        ("C#4", "C#4"),
        ("|\n  two\n  lines", "two\nlines\n"),
    ],
)  # fmt: skip
def test_what_a_scalar_means(tmp_path: Path, text: str, value: Any) -> None:
    found = read(tmp_path, f"field: {text}\n").data["field"]
    assert found == value
    assert type(found) is type(value)


def test_lines_of_fields_and_of_what_is_missing(tmp_path: Path) -> None:
    document = read(
        tmp_path,
        "# a comment\n"
        "site:\n"
        "  wind: 110 mph\n"
        "arrays:\n"
        "  - id: A1\n"
        "    corner: {along: 1, up: 2}\n"
        "  - rows: 4\n",
    )
    assert document.line_of(()) == 2
    assert document.line_of(("site",)) == 2
    assert document.line_of(("site", "wind")) == 3
    assert document.line_of(("site", "snow")) == 2
    assert document.line_of(("arrays", 0)) == 5
    assert document.line_of(("arrays", 0, "corner", "up")) == 6
    assert document.line_of(("arrays", 1, "corner", "up")) == 7
    assert document.line_of(("roof", "pitch")) == 2


def test_fields_are_named_by_id_or_count(tmp_path: Path) -> None:
    document = read(tmp_path, "arrays:\n  - id: A1\n    rows: 4\n  - rows: 5\n")
    assert document.field_name(("arrays", 0, "rows")) == "arrays.A1.rows"
    assert document.field_name(("arrays", 1, "rows")) == "arrays.2.rows"
    assert document.field_name(("arrays", 7, "rows")) == "arrays.8.rows"
    assert document.field_name(()) == ""


def test_line_ends_and_byte_order_mark_of_other_editors(tmp_path: Path) -> None:
    document = read(tmp_path, "\ufeffunits: in\r\nname: é\r\n")
    assert document.data == {"units": "in", "name": "é"}
    assert document.line_of(("name",)) == 2


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        (
            "a: 1\nb:\n  c: 1\n  d: 2\n  c: 3\n",
            "job.yaml:5: b: the key c is given twice, first on line 3; keep one of them",
        ),
        ("a: 1\nb: &x 2\n", "job.yaml:2: b: the anchor &x; remove it"),
        ("a: 1\nb: *x\n", "job.yaml:2: b: the alias *x; write the value out here"),
        ("a: !!str 2\n",
         "job.yaml:1: a: the tag tag:yaml.org,2002:str; remove it, or put text in quotes"),
        ("a: !!python/object:os.system {}\n",
         "job.yaml:1: a: the tag tag:yaml.org,2002:python/object:os.system; "
         "remove it, or put text in quotes"),
        ("b:\n  <<: {a: 1}\n", "job.yaml:2: b: the merge key <<; write the fields out here"),
        ("12: x\n", "job.yaml:1: a key that is not text (got 12); put it in quotes"),
        ("true: x\n", "job.yaml:1: a key that is not text (got true); put it in quotes"),
        ("? [a, b]\n: x\n",
         "job.yaml:1: a key that is not text; write one word before the colon"),
        ("a: 012\n", "job.yaml:1: a: a number with a leading zero (got 012); "
                     "remove the zero, or put text in quotes"),
        ("a: [1_000]\n", "job.yaml:1: a.1: a number with an underscore (got 1_000); "
                         "write the digits together, or put text in quotes"),
        ("a: 2026-11-25\n",
         "job.yaml:1: a: a date without quotes (got 2026-11-25); put it in quotes"),
        ("a: .inf\n", "job.yaml:1: a: not a finite number (got .inf); "
                      "write a number, or put text in quotes"),
        ("a: NaN\n", "job.yaml:1: a: not a finite number (got NaN); "
                     "write a number, or put text in quotes"),
        ("a: 1e999\n", "job.yaml:1: a: a number beyond all use; write a number that can be meant"),
        ("a: #10\n", "job.yaml:1: a: no value, for # begins a comment; "
                     "put the value in quotes, or write null"),
        ("a:\n  - #10\n", "job.yaml:2: a.1: no value, for # begins a comment; "
                          "put the value in quotes, or write null"),
        ("a: {b: #10\n  }\n", "job.yaml:1: a.b: no value, for # begins a comment; "
                              "put the value in quotes, or write null"),
        ("a: 4 Elm Way #10\n",
         "job.yaml:1: a: the value ends before #10, for # begins a comment; "
         "put the whole value in quotes, or a space after # if a comment is meant"),
        ("a: 1\n---\nb: 2\n",
         "job.yaml:2: a second document begins; keep one document per file"),
        ("- a\n- b\n", "job.yaml:1: the file holds no keys; write the file as `key: value` lines"),
        ("text\n", "job.yaml:1: the file holds no keys; write the file as `key: value` lines"),
        ("", "job.yaml:1: the file holds nothing; write the file as `key: value` lines"),
        ("# all\n", "job.yaml:1: the file holds nothing; write the file as `key: value` lines"),
    ],
)  # fmt: skip
def test_what_is_refused(tmp_path: Path, text: str, problem: str) -> None:
    assert problems(tmp_path, text) == [problem]


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("a: 1\n\tb: 2\n", "job.yaml:2: a tab in the indent; indent with spaces"),
        ("a: b\n  c: 2\n", "job.yaml:2: a colon where none can stand; check the indent of this "
                           "line and the one above, and quote text that contains a colon"),
        ("a: @x\n", "job.yaml:1: a value that begins with a sign YAML reserves; "
                    "put the value in quotes"),
        ('b: 2\na: "8 1/2\nc: 1\n',
         "job.yaml:2: a quotation mark that is never closed; "
         "close it, or put a length in the other kind of quotes, as '8 1/2\"'"),
        ('a: "8" high\n', "job.yaml:1: text after a closed quotation mark; "
                          "put the whole value in one pair of quotes"),
        ("a:\n  b: 1\n c: 2\n", "job.yaml:3: a line whose indent does not fit the lines above; "
                                "start the keys of one block in the same column"),
        ("a: {b: 1\n", "job.yaml:1: a bracket or brace that is never closed, or a missing comma; "
                       "close it, or add the comma"),
        ("a: ]\n", "job.yaml:1: not readable as YAML (expected the node content, but found ']'); "
                   "check the punctuation of this line"),
        ("a: 1\nb: \x00\n", "job.yaml:2: a character that cannot be printed; remove it"),
        (b"a: 1\nb: \xe9\n", "job.yaml:2: a character that is not UTF-8; save the file as UTF-8"),
    ],
)  # fmt: skip
def test_syntax_errors(tmp_path: Path, text: str | bytes, problem: str) -> None:
    assert problems(tmp_path, text) == [problem]


def test_all_problems_are_reported_together(tmp_path: Path) -> None:
    found = problems(tmp_path, "a: 012\nb: #4\na: 1\nc: &x {d: *x}\n")
    assert [line.split(": ")[0] for line in found] == [
        "job.yaml:1", "job.yaml:2", "job.yaml:3", "job.yaml:4", "job.yaml:4",
    ]  # fmt: skip


def test_problems_before_a_syntax_error_are_not_lost(tmp_path: Path) -> None:
    found = problems(tmp_path, "a: 012\nb: ]\n")
    assert ["leading zero" in found[0], "not readable" in found[1]] == [True, True]


def test_scanning_keeps_a_document_whose_values_have_problems(tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    path.write_text("a: 012\nb: 3\n")
    document, found = scan_yaml(path)
    assert document is not None
    assert document.data == {"a": "012", "b": 3}
    assert len(found) == 1


def test_deep_nesting_ends_the_reading_without_a_crash(tmp_path: Path) -> None:
    assert read(tmp_path, "a: " + "[" * DEEPEST_NESTING + "]" * DEEPEST_NESTING).data
    for depth in (DEEPEST_NESTING + 1, 100_000):
        (line,) = problems(tmp_path, "a: " + "[" * depth + "]" * depth)
        assert line == "job.yaml:1: nested more than 40 levels deep; write it flatter"


def test_a_missing_file(tmp_path: Path) -> None:
    with pytest.raises(JobErrors) as caught:
        read_yaml(tmp_path / "absent.yaml")
    assert str(caught.value) == (f"{tmp_path}/absent.yaml: no such file; check its name and folder")


def test_a_folder_is_not_a_file(tmp_path: Path) -> None:
    with pytest.raises(JobErrors, match="not a file; name a YAML file"):
        read_yaml(tmp_path)


def test_a_name_no_system_accepts() -> None:
    with pytest.raises(JobErrors, match="the file cannot be read"):
        read_yaml(Path("a\0b"))


def test_a_file_too_large(tmp_path: Path) -> None:
    assert problems(tmp_path, "#" * (LARGEST_FILE + 1)) == [
        "job.yaml: the file is larger than 1,000,000 bytes; name a job or catalog file"
    ]
