"""The `planset` command: words and exit codes.

Each command imports what it runs when it runs, so that `--help` answers at once.
"""

from __future__ import annotations

import atexit
import gc
import os
import shutil
import textwrap
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, NoReturn

import typer
from typer.core import TyperGroup

from planset import __version__
from planset.errors import JobErrors, MachineError, PlansetError

if TYPE_CHECKING:
    from collections.abc import Callable

    from planset.pipeline import Checked, Drawn

FAILED = 1
KEPT = 4
WIDEST = 100
BETWEEN_COLLECTIONS = 1_000_000
"""Objects made; a run ends before, and nearly all it makes lives until then."""

app = typer.Typer(
    help="Turn one job file into a permit-ready plan set for a rooftop solar array.",
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)

JobFile = Annotated[Path, typer.Argument(metavar="JOB", help="The job file (YAML).")]


def main(arguments: list[str] | None = None) -> NoReturn:
    """Run one command and end the process.

    Exit codes: 0 done, 1 something fails, 2 the job cannot be used, 3 the machine failed us,
    4 written beside a file that someone had changed.

    Args:
        arguments: The words after `planset`; those of the process when not given.
    """
    gc.set_threshold(BETWEEN_COLLECTIONS)
    atexit.register(gc.freeze)  # else Python looks through all of it once more before it ends
    try:
        app(arguments)
    except PlansetError as error:
        _tell_error(error)
        raise SystemExit(error.exit_code) from None
    raise SystemExit(0)


def _print_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"planset {__version__}")
        raise typer.Exit


@app.callback()
def _options(
    *,
    version: Annotated[
        bool,
        typer.Option(
            "--version", help="Print the version and end.", callback=_print_version, is_eager=True
        ),
    ] = False,
) -> None:
    pass


@app.command()
def new(
    folder: Annotated[
        Path, typer.Argument(metavar="DIR", help="Folder for the job; made when it is not there.")
    ],
) -> None:
    """Begin a job: write a starter that draws as it stands, with a comment on each field."""
    from planset.output.starter import write_starter

    job, schema = write_starter(folder)
    _say(
        f"Written: {job}, a job to change line by line, and {schema}, by which an editor that",
        "knows YAML schemas completes and checks it. Everything in the job is invented.",
        f"Draw it: planset draw {job} -o {folder / 'out'}",
    )


@app.command()
def schema(
    out: Annotated[
        Path | None,
        typer.Option("-o", "--out", metavar="FILE", help="Write it to this file instead."),
    ] = None,
) -> None:
    """Print the JSON Schema of a job file."""
    from planset.job.schema import job_schema
    from planset.output.json_text import json_text
    from planset.output.machine import machine_errors

    text = json_text(job_schema())
    if out is None:
        _say(text.rstrip())
        return
    with machine_errors(f"write {out}"):
        out.write_text(text, encoding="utf-8", newline="\n")


@app.command()
def check(
    job: JobFile,
    json: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Write the findings to this file as JSON, too."),
    ] = None,
) -> None:
    """Judge a job and its sheets; write no set."""
    from planset import pipeline
    from planset.output.json_text import write_checks
    from planset.output.machine import machine_errors

    checked = pipeline.check(job)
    _report(checked, job)
    if json is not None:
        with machine_errors(f"write {json}"):
            write_checks(checked.findings, json)
    if checked.fails:
        _say("Something fails: draw would write nothing.")
    elif checked.preliminary:
        _say("Something is open: draw would mark the set PRELIMINARY.")
    else:
        _say("Nothing stands against the set.")
    _caution()
    if checked.fails:
        raise typer.Exit(FAILED)


@app.command()
def draw(
    job: JobFile,
    out: Annotated[
        Path, typer.Option("-o", "--out", metavar="OUT", help="Folder the set is written into.")
    ],
    *,
    preliminary: Annotated[
        bool,
        typer.Option("--preliminary", help="Write even what fails, marked PRELIMINARY."),
    ] = False,
    dxf_per_sheet: Annotated[
        bool,
        typer.Option(
            "--dxf-per-sheet",
            help="Write each sheet as a DXF file of its own, too, for programs without layouts.",
        ),
    ] = False,
    watch: Annotated[
        bool,
        typer.Option("--watch", help="Draw again whenever the job, or a file it uses, is saved."),
    ] = False,
) -> None:
    """Judge a job and write its plan set, unless something fails."""
    again = partial(_draw, job, out, preliminary=preliminary, dxf_per_sheet=dxf_per_sheet)
    if watch:
        _watch(job, again)
    elif code := again():
        raise typer.Exit(code)


def _draw(job: Path, out: Path, *, preliminary: bool, dxf_per_sheet: bool) -> int:
    """Draw once, say what came of it, and return the exit code."""
    from planset import pipeline

    drawn = pipeline.draw(job, out, preliminary=preliminary, dxf_per_sheet=dxf_per_sheet)
    _report(drawn.checked, job)
    _tell_outcome(drawn, asked=preliminary)
    _caution()
    if drawn.written is None:
        return FAILED
    return KEPT if drawn.written.kept else 0


def _watch(job: Path, again: Callable[[], int]) -> None:
    """Draw now and after every save, until the user ends it; what is wrong is said, and no more."""
    try:
        from planset.watch import saves

        for saved in saves(job):
            _say(*([f"Saved: {', '.join(map(str, saved))}"] if saved else []))
            try:
                again()
            except PlansetError as error:
                _tell_error(error)
            _say(f"Watching {job}; Ctrl-C ends.")
    except KeyboardInterrupt:
        _say("", "Ended.")


@app.command()
def rules(
    rule: Annotated[
        str | None, typer.Argument(metavar="ID", help="Tell all about this rule.")
    ] = None,
) -> None:
    """List the rules, or tell all about one."""
    from planset.report import rule_lines, rule_of, rules_lines

    if rule is None:
        _say(*rules_lines(_width()))
        return
    found = rule_of(rule)
    if found is None:
        msg = f"no rule {rule}; `planset rules` lists them"
        raise typer.BadParameter(msg)
    _say(*rule_lines(found))


@app.command()
def jurisdiction(
    name: Annotated[
        str | None, typer.Argument(metavar="NAME", help="Tell all about this jurisdiction.")
    ] = None,
    *,
    job: Annotated[
        Path,
        typer.Option(
            metavar="JOB", help="Look in the catalog folder beside this job, not beside here."
        ),
    ] = Path("job.yaml"),
) -> None:
    """List the jurisdictions, or tell what one changes and where each of its values is from."""
    from planset.catalog.jurisdiction import Jurisdiction
    from planset.catalog.library import find
    from planset.jurisdiction_report import jurisdiction_lines, jurisdictions_lines

    if name is None:
        _say(*jurisdictions_lines(job.parent))
        return
    _say(*jurisdiction_lines(find(Jurisdiction, name, job.parent), _width()))


class _CatalogGroup(TyperGroup):
    """Words that name no command of the group are what its `list` command is to list."""

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """Return the words of the command line, `list` before those that name no command."""
        own = bool(args) and args[0] in (*self.commands, "--help")
        return super().parse_args(ctx, args if own else ["list", *args])


catalog = typer.Typer(
    cls=_CatalogGroup,
    help="List the equipment of the catalog, or draft an entry from an open table.",
    rich_markup_mode=None,
)
app.add_typer(catalog, name="catalog")
TableName = Annotated[str, typer.Argument(metavar="NAME", help="Name of a row of the table.")]
DraftFile = Annotated[
    Path,
    typer.Option("-o", "--out", metavar="FILE", help="The draft, in the job's catalog folder."),
]


@catalog.command("list")
def catalog_list(
    what: Annotated[
        str | None,
        typer.Argument(metavar="WHAT", help="A kind, as inverters, or an entry, to show whole."),
    ] = None,
    *,
    job: Annotated[
        Path, typer.Option(metavar="JOB", help="Look in the catalog folder beside this job, too.")
    ] = Path("job.yaml"),
) -> None:
    """List entries with their main ratings, or show one whole; `list` may be left out."""
    from planset.catalog_report import catalog_lines

    _say(*catalog_lines(what, job.parent))


@catalog.command("import-module")
def import_module(name: TableName, out: DraftFile) -> None:
    """Draft a module from the open table of pvlib, to be completed from label and listing."""
    _import("modules", name, out)


@catalog.command("import-inverter")
def import_inverter(name: TableName, out: DraftFile) -> None:
    """Draft a string inverter from the open table of pvlib, to be completed likewise."""
    _import("inverters", name, out)


def _import(kind: str, name: str, out: Path) -> None:
    from planset.catalog.open_table import draft, table_folder
    from planset.output.machine import machine_errors

    text = draft(kind, name, table_folder())
    if out.exists():
        msg = f"{out} is there already; name another file"
        raise MachineError(msg)
    with machine_errors(f"write {out}"), out.open("x", encoding="utf-8", newline="\n") as stream:
        stream.write(text)
    _say(f"Written: {out}. Fill in what has no value; until then planset refuses the entry.")


def _tell_error(error: PlansetError) -> None:
    typer.echo(error, err=True)
    if isinstance(error, JobErrors):
        count = len(error.problems)
        typer.echo(f"{count} problem{'s' if count > 1 else ''}", err=True)


def _report(checked: Checked, job: Path) -> None:
    from planset.report import findings_lines

    _say(*findings_lines(checked.findings, str(job), _width()))


def _tell_outcome(drawn: Drawn, *, asked: bool) -> None:
    written = drawn.written
    if written is None:
        _say(_refusal(drawn.checked))
        return
    if drawn.checked.preliminary:
        reason = "as asked" if asked else "because something is open"
        _say(f"Written, marked PRELIMINARY {reason}:")
    else:
        _say("Written for submittal:")
    _say(*(f"  {path}" for path in written.paths))
    for path in written.kept:
        _say(f"Kept, since it is not as planset last wrote it: {path}")


def _refusal(checked: Checked) -> str:
    if checked.drawing is None:
        return "Nothing written, because a sheet has no room for what it must show."
    return (
        "Nothing written, because something fails. Change the job, or add --preliminary for a set "
        "that is marked so."
    )


def _caution() -> None:
    from planset.report import CAUTION

    _say(*textwrap.wrap(CAUTION, _width()))


def _width() -> int:
    """Columns of the terminal, no more than read well."""
    return min(shutil.get_terminal_size().columns, WIDEST)


def _say(*lines: str) -> None:
    for line in lines:
        typer.echo(line, color=False if "NO_COLOR" in os.environ else None)
