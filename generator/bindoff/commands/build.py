"""``bindoff build``: all outputs of every pattern, each folder replaced as a whole."""

import sys
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

import click

from bindoff.catalogue import (
    FEW,
    BuildState,
    Built,
    Job,
    Request,
    build_all,
    default_workers,
    program,
)
from bindoff.commands.gaugeoption import gauge_option
from bindoff.commands.shared import Result, named, record, say, tell
from bindoff.editions import Form, TextOptions, Wanted
from bindoff.jsontext import as_ascii
from bindoff.render.pdf import PdfOptions
from bindoff.report import visible
from bindoff.source.statedgauge import StatedGauge

Command = Callable[..., None]

NARROWEST = 12
"""Characters of the shortest braille displays in use (common practice, no source)."""

# What decides the outputs; also of ``watch``. ``request`` makes a ``Request`` of their values.
OPTIONS = (
    click.option(
        "--paper",
        type=click.Choice(["a4", "letter"]),
        default="a4",
        show_default=True,
        help="Paper of the PDF.",
    ),
    click.option(
        "--large-print", "theme", flag_value="large-print", help="Set the PDF in 18 pt and more."
    ),
    click.option(
        "--print-saver",
        "theme",
        flag_value="print-saver",
        help="Set the PDF on few sheets, with little ink.",
    ),
    click.option("--grey", is_flag=True, help="Set the PDF without colour."),
    gauge_option,
    click.option(
        "--changes",
        type=click.Path(exists=True),
        metavar="OLD",
        help="Print what differs from this earlier version among the last notes.",
    ),
    click.option(
        "--size",
        "sizes",
        multiple=True,
        metavar="SIZE",
        help="Build an edition of this size alone too; may be given several times.",
    ),
    click.option("--card", is_flag=True, help="Build a card for the machine too, to tick off."),
    click.option(
        "--html",
        "forms",
        flag_value="html",
        multiple=True,
        help="Build one HTML file too, for phone and tablet: a size, ticks, rulers, a counter.",
    ),
    click.option(
        "--epub", "forms", flag_value="epub", multiple=True, help="Build an EPUB too, for readers."
    ),
    click.option(
        "--braille",
        "forms",
        flag_value="braille",
        multiple=True,
        help="Build every text edition in contracted braille too (BRF and PEF), by liblouis.",
    ),
    click.option(
        "--uncontracted-braille",
        "forms",
        flag_value="uncontracted braille",
        multiple=True,
        help="The same in uncontracted braille.",
    ),
    click.option(
        "--test-sheets",
        "forms",
        flag_value="test sheets",
        multiple=True,
        help="Build sheets for test knitters too, to fill in: measures, steps, faults.",
    ),
    click.option(
        "--all-editions",
        is_flag=True,
        help="Build A4, letter, large print, print saver, grey, every size alone, the card for "
        "the machine, HTML and EPUB.",
    ),
    click.option(
        "--text-width",
        type=click.IntRange(min=NARROWEST),
        metavar="N",
        help="Wrap the text edition at N characters [default: a line for each sentence].",
    ),
    click.option(
        "--plain-abbreviations",
        is_flag=True,
        help="Leave out of the text edition what an abbreviation stands for; it is said where a "
        "section first uses it.",
    ),
    click.option(
        "--explain-abbreviations",
        is_flag=True,
        hidden=True,  # what it asked for is what is done now
        expose_value=False,
    ),
)


def request(
    paper: Any,
    theme: Any,
    grey: bool,
    gauges: tuple[StatedGauge, ...],
    changes: str | None,
    sizes: tuple[str, ...],
    card: bool,
    forms: tuple[Form, ...],
    all_editions: bool,
    text_width: int | None,
    plain_abbreviations: bool,
) -> Request:
    """What the values of ``OPTIONS`` ask of the outputs.

    Raises ``click.UsageError`` where all editions are asked for together with one of them.
    """
    pdf = PdfOptions(paper=paper, theme=theme or "calm", grey=grey)
    if all_editions and (pdf != PdfOptions() or sizes):
        raise click.UsageError(
            "--all-editions builds them all: leave --paper, --large-print, --print-saver, --grey "
            "and --size out."
        )
    wanted = Wanted(sizes, card, all_editions, forms)
    text = TextOptions(text_width or 0, not plain_abbreviations)
    return Request(pdf, gauges, changes or "", wanted, text)


def output_options(command: Command) -> Command:
    """Gives a command all ``OPTIONS``."""
    for option in reversed(OPTIONS):
        command = option(command)
    return command


@click.command(name="build")
@click.argument("patterns", nargs=-1, required=True, type=click.Path(), metavar="PATTERN...")
@click.option("--out", default="build", show_default=True, help="Folder for the outputs.")
@output_options
@click.option("--force", is_flag=True, help="Build unchanged patterns too.")
@click.option("--clean", is_flag=True, help="Remove editions made of an earlier version.")
@click.option(
    "--jobs",
    type=click.IntRange(min=1),
    metavar="N",
    help=f"Patterns built at a time [default: 1; for over {FEW} patterns, one a processor].",
)
@click.option("--json", "as_json", is_flag=True, help="Say what was built or found as JSON.")
def command(
    patterns: tuple[str, ...],
    out: str,
    force: bool,
    clean: bool,
    jobs: int | None,
    as_json: bool,
    **options: Any,
) -> None:
    """Build every PATTERN (a folder or its pattern.yaml) into a folder of its name.

    A pattern is left as it is while its files, the options and this program stay the same.
    """
    work = to_build(patterns, out, request(**options), force, clean)
    results: list[Built] = []
    for built in build_all(work, jobs or default_workers(len(work))):
        results.append(built)
        if not as_json:
            many = len(work) > FEW
            report(built, f" ({len(results)} of {len(work)})" if many else "", paths=not many)
    if as_json:
        click.echo(as_ascii([_record(built) for built in results]))
    elif len(results) > 1:
        _sum_up(results)
    sys.exit(1 if any(built.state is BuildState.FAILED for built in results) else 0)


def to_build(
    patterns: Iterable[str], out: str, request: Request, force: bool, clean: bool = False
) -> list[Job]:
    """A job for each pattern, once if it is named again.

    Raises ``click.UsageError`` if one output folder would hold two patterns, or if an earlier
    version is given for more than one.
    """
    made_by = program()
    first: dict[str, tuple[Path, Job]] = {}
    for argument in patterns:
        pattern = named(argument)
        source = (pattern.files.folder / pattern.source).resolve()
        job = Job(argument, out, request, made_by, force, clean)
        if first.setdefault(pattern.called.casefold(), (source, job))[0] != source:
            raise click.UsageError(
                f"Two patterns would both be built into `{pattern.called}`: build them one at a "
                "time, each with its own --out."
            )
    if request.changes and len(first) > 1:
        raise click.UsageError("--changes is for one PATTERN: build them one at a time.")
    return [job for _, job in first.values()]


def report(built: Built, counted: str = "", paths: bool = True) -> None:
    """Print a pattern's findings and what came of it, with the ``paths`` of new outputs."""
    lines = built.paths if paths and built.state is BuildState.BUILT else ()
    result = Result(built.findings, tuple(f"  {path}" for path in lines))
    tell(named(built.argument), result, f"{built.state}{counted}")


def _sum_up(results: Sequence[Built]) -> None:
    counts = Counter(built.state for built in results)
    said = ", ".join(f"{counts[state]} {state}" for state in BuildState if counts[state])
    say(f"{len(results)} patterns: {said}")
    for built in results:
        if built.state is BuildState.FAILED:
            say(f"failed: {visible(built.argument)}", err=True)


def _record(built: Built) -> dict[str, Any]:
    data = None if built.state is BuildState.FAILED else list(built.paths)
    return {**record(built.argument, Result(built.findings, (), data)), "state": built.state}
