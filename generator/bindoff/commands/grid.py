"""``bindoff grid``: a chart grid from a picture, and a picture of a chart as knitted fabric."""

import json
import os
import re
import sys
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from bindoff.commands.shared import own_fault, say
from bindoff.diagnostics import Diagnostic, PatternError, fail
from bindoff.files import GRID_LIMIT, DiskFiles, Files
from bindoff.records import Record
from bindoff.report import full

if TYPE_CHECKING:
    from bindoff.craft.entry import Stitch
    from bindoff.document.faces import Faces
    from bindoff.plan.gauge import Gauge
    from bindoff.source.imagegrid import Rounds
    from bindoff.source.read import Source

STITCH_PX = 24  # wide enough to see both legs of a stitch
LONGEST_PX = 3000

_YARN = re.compile(r"([^\s=,]+)(?:=(#[0-9a-fA-F]{6}))?")


def _yarn_list(
    context: click.Context, parameter: click.Parameter, text: str | None
) -> Mapping[str, str | None] | None:
    """``slate=#3d4a57,foam=#e8eef0``; a bare name takes its colour from a pattern."""
    if text is None:
        return None
    found: dict[str, str | None] = {}
    for part in text.split(","):
        match = _YARN.fullmatch(part.strip())
        if match is None:
            raise click.BadParameter(f"{part.strip()!r} is not like slate=#3d4a57.")
        if match[1] in found:
            raise click.BadParameter(f"{match[1]!r} is there twice.")
        found[match[1]] = match[2] and match[2].lower()
    return found


def _gauge_text(
    context: click.Context, parameter: click.Parameter, text: str | None
) -> "Gauge | None":
    """``22 x 30``: stitches by rounds over 10 cm, or over the length after a stroke."""
    from bindoff.plan.gauge import Gauge
    from bindoff.source.statedgauge import parse_gauge

    if text is None:
        return None
    try:
        stated = parse_gauge(text if "/" in text else f"{text} / 10 cm")
    except ValueError as error:
        raise click.BadParameter(f"{error}.") from None
    if stated.of:
        raise click.BadParameter("One gauge is enough here, without a name.")
    return Gauge.over(stated.stitches, stated.rounds)


_yarns = click.option(
    "--yarns",
    callback=_yarn_list,
    metavar="YARNS",
    help="The yarns, such as slate=#3d4a57,foam=#e8eef0.",
)
_pattern = click.option(
    "--pattern", "folder", metavar="PATTERN", help="Take yarns and gauge from this pattern."
)
_gauge = click.option(
    "--gauge",
    callback=_gauge_text,
    metavar="GAUGE",
    help="The gauge: stitches x rounds over 10 cm, such as '22 x 30', or '22 x 30 / 4 in'.",
)
_force = click.option("--force", is_flag=True, help="Write over a file that is there already.")


@click.group(name="grid")
def command() -> None:
    """Make a chart grid from a picture, or see a chart as knitted fabric."""


# ---------------------------------------------------------------- from a picture


@command.command(name="from-image")
@click.argument("picture")
@click.option("--stitches", type=int, help="Width of the grid.")
@click.option("--rounds", type=int, help="Height of the grid.")
@click.option(
    "--lines",
    type=click.Choice(["auto", "none"]),
    default="auto",
    help="Read a chart by its lines; or take lines as a part of what is drawn.",
)
@_yarns
@_pattern
@_gauge
@click.option("--background", metavar="YARN", help="The yarn behind transparent parts.")
@click.option("--mirror", is_flag=True, help="Turn the picture left for right.")
@click.option("--clean", is_flag=True, help="Give stitches that stand alone to their neighbours.")
@click.option(
    "--dither",
    type=click.Choice(["none"]),
    default="none",
    help="Shades are never imitated by scattered stitches.",
)
@click.option("--out", help="The grid file; by default in the pattern, or beside the picture.")
@_force
def from_image(
    picture: str,
    stitches: int | None,
    rounds: int | None,
    lines: str,
    yarns: Mapping[str, str | None] | None,
    folder: str | None,
    gauge: "Gauge | None",
    background: str | None,
    mirror: bool,
    clean: bool,
    dither: str,
    out: str | None,
    force: bool,
) -> None:
    """Turn PICTURE into a grid, each stitch in the yarn nearest to it.

    A chart with its lines is read cell by cell. Of any other picture, say how many --stitches it
    has: the rounds follow from the gauge, so that the knitted picture keeps its proportions. Or say
    how many --rounds, or both where you know them. Prints the chart for pattern.yaml.
    """
    from bindoff.source.imagegrid import (
        IMAGE_LIMIT,
        Wish,
        grid_from_image,
        grid_text,
        yarn_characters,
    )

    with _reported():
        basis = _basis(folder, yarns, gauge)
        shown = os.path.basename(picture)
        wish = Wish(
            stitches,
            basis.gauge.aspect,
            basis.colours,
            background,
            mirror,
            clean,
            rounds,
            lines == "auto",
        )
        data = _read(picture, IMAGE_LIMIT)
        made = grid_from_image(data, shown, wish)
        characters = yarn_characters(tuple(basis.colours), basis.characters)
        target = Path(
            out or Path(_folder_of(folder) or Path(picture).parent, _stem(shown) + ".grid")
        )
        _write(target, grid_text(made, characters).encode(), force)
        say(_chart_entry(target, made, characters, basis.gauge).rstrip("\n"))


def _folder_of(argument: str | None) -> str | None:
    """The folder of a pattern named by its folder or its source."""
    from bindoff.files import split_pattern_path

    return split_pattern_path(argument)[0] if argument is not None else None


def _stem(name: str) -> str:
    return os.path.splitext(name)[0]


def _chart_entry(
    target: Path, rounds: "Rounds", characters: Mapping[str, str], gauge: "Gauge"
) -> str:
    """The chart for ``pattern.yaml``, with what was made of the picture as a remark."""
    counts = Counter(yarn for line in rounds for yarn in line)
    used = {yarn: sign for yarn, sign in characters.items() if counts[yarn]}
    key = re.sub(r"\W+", "_", target.stem.lower()).strip("_") or "chart"
    width, height = gauge.width_of(len(rounds[0])) / 10, gauge.height_of(len(rounds)) / 10
    told = ", ".join(f"{yarn} {counts[yarn]}" for yarn in used)
    legend = ", ".join(f"{json.dumps(sign)}: {_plain(yarn)}" for yarn, sign in used.items())
    return (
        f"# {target}: {len(rounds[0])} stitches by {len(rounds)} rounds, "
        f"{width:.1f} x {height:.1f} cm\n"
        f"# stitches: {told}\n"
        "charts:\n"
        f"  {_plain(key)}:\n"
        f"    title: {_plain(target.stem.replace('-', ' ').replace('_', ' ').capitalize())}\n"
        f"    grid: {_plain(target.name)}\n"
        f"    legend: {{{legend}}}\n"
        '    alt: ""  # say in a sentence what the chart shows\n'
    )


def _plain(text: str) -> str:
    """A YAML scalar: as it is where it can only be read as these words, else in quotes."""
    safe = re.fullmatch(r"[A-Za-z][\w. -]*[\w]|[A-Za-z]", text, re.ASCII)
    words = ("yes", "no", "on", "off", "y", "n", "true", "false", "null")
    return text if safe and text.lower() not in words else json.dumps(text, ensure_ascii=False)


# ---------------------------------------------------------------- a look at the fabric


@command.command(name="preview")
@click.argument("source")
@click.option("--chart", "key", metavar="KEY", help="The chart of the pattern.")
@_yarns
@_pattern
@_gauge
@click.option("--across", type=click.IntRange(1, 100), default=1, help="Repeat it side by side.")
@click.option("--up", type=click.IntRange(1, 100), default=1, help="Repeat it one over the other.")
@click.option("--width", type=int, help="Width of the picture in pixels.")
@click.option("--out", required=True, help="The PNG file.")
@_force
def preview(
    source: str,
    key: str | None,
    yarns: Mapping[str, str | None] | None,
    folder: str | None,
    gauge: "Gauge | None",
    across: int,
    up: int,
    width: int | None,
    out: str,
    force: bool,
) -> None:
    """Show a chart as knitted fabric, in a PNG.

    SOURCE is a pattern, of which --chart names the chart; or a grid file, with its yarns in the
    order they had when it was made, or by character (such as .=#3d4a57).
    """
    from bindoff.document.fabric import fabric
    from bindoff.render.raster import render_png
    from bindoff.source.grid import MAX_SIDE

    with _reported():
        if os.path.isdir(source) or source.lower().endswith((".yaml", ".yml")):
            swatch = _swatch_of_pattern(source, key, gauge)
        else:
            swatch = _swatch_of_grid(source, _basis(folder, yarns, gauge))
        rows = [line * across for line in swatch.rounds] * up
        if len(rows) > MAX_SIDE or len(rows[0]) > MAX_SIDE:
            raise fail(
                "preview.too-large",
                f"{len(rows[0]):,} stitches by {len(rows):,} rounds are too many to look at",
                f"Repeat the chart less often: at most {MAX_SIDE:,} both ways",
            )
        size = swatch.gauge.width_of(len(rows[0])), swatch.gauge.height_of(len(rows))
        drawing = fabric(rows, swatch.colours, swatch.gauge.aspect, *size, swatch.faces(across, up))
        wide = len(rows[0]) * STITCH_PX
        tall = wide * size[1] / size[0]
        fitting = max(1, int(wide * min(1, LONGEST_PX / max(wide, tall))))
        _write(Path(out), render_png(drawing, fitting if width is None else width), force)
        say(f"{out}: {len(rows[0])} stitches by {len(rows)} rounds")


class _Swatch(Record):
    """Rounds of yarn ids (bottom first, left to right), what their stitches are."""

    rounds: "Rounds"
    stitches: "tuple[tuple[Stitch | None, ...], ...]"
    colours: Mapping[str, str]
    gauge: "Gauge"

    def faces(self, across: int, up: int) -> "Faces":
        """How the stitches of all repeats look where they are no plain knit stitches."""
        from bindoff.document.faces import faces_of

        return faces_of([line * across for line in self.stitches] * up)


def _swatch_of_pattern(argument: str, key: str | None, gauge: "Gauge | None") -> _Swatch:
    from bindoff.files import split_pattern_path
    from bindoff.source.read import read_source

    folder, name = split_pattern_path(argument)
    source = read_source(DiskFiles(folder), name)
    charts = source.pattern.charts
    if key is None and len(charts) == 1:
        key = next(iter(charts))
    if key is None or key not in charts:
        raise fail(
            "preview.chart",
            "no chart is named" if key is None else f"there is no chart called `{key}`",
            "Write `--chart` and one of: " + (", ".join(charts) or "none, there are no charts"),
        )
    ground, gauge_key = _worked_in(source, key)
    meanings = {c: _meaning(source, key, c, ground) for c in charts[key].legend}
    lines = source.grids[key][0].rounds
    return _Swatch(
        tuple(tuple(meanings[c][0] for c in line) for line in lines),
        tuple(tuple(meanings[c][1] for c in line) for line in lines),
        {yarn: written.colour for yarn, written in source.pattern.yarns.items()},
        gauge or _gauge_of(source, gauge_key),
    )


def _worked_in(source: "Source", key: str) -> tuple[str, str]:
    """The main yarn and the gauge of the first piece that works a chart."""
    first = next(iter(source.pattern.yarns))
    for piece in source.pattern.pieces.values():
        if any(chart == key for chart, _ in piece.pictured):
            ground = piece.picture.ground if piece.picture else piece.yarn
            return ground or first, piece.gauge or ""
        for step in piece.steps:
            if getattr(step, "chart", None) == key:
                return step.yarn or piece.yarn or first, piece.gauge or ""
    return first, ""


def _meaning(
    source: "Source", key: str, character: str, ground: str
) -> "tuple[str, Stitch | None]":
    """The yarn of a grid character, and the stitch it names, ``None`` for a yarn alone and for one
    that the pattern declares itself."""
    from bindoff.plan.picture import cell_meaning
    from bindoff.source.rowlang.stitches import Terms, standard_book

    yarn, name = cell_meaning(source.pattern.charts[key].legend[character], source.pattern.yarns)
    book = standard_book(Terms(source.pattern.terms))
    stitch = book.named(name) if name and book.find(name) else None
    return yarn or ground, stitch


def _swatch_of_grid(path: str, basis: "_Basis") -> _Swatch:
    from bindoff.source.grid import read_grid
    from bindoff.source.imagegrid import yarn_characters

    folder, name = os.path.split(path)
    grid = read_grid(DiskFiles(folder or ".").read_text(name, limit=GRID_LIMIT), path)
    by_character = all(len(yarn) == 1 for yarn in basis.colours)
    characters = (
        {yarn: yarn for yarn in basis.colours}
        if by_character
        else yarn_characters(tuple(basis.colours), basis.characters)
    )
    yarns = {sign: yarn for yarn, sign in characters.items()}
    for number, line in enumerate(grid.rounds, start=1):
        for place, character in enumerate(line):
            if character not in yarns:
                known = ", ".join(f"`{sign}` {yarn}" for sign, yarn in yarns.items())
                raise fail(
                    "preview.character",
                    f"`{character}` in round {number} stands for no yarn",
                    f"Add it to the yarns, such as `--yarns {character}=#3d4a57`; known: {known}",
                    grid.span(number, grid.width - place),
                )
    return _Swatch(
        tuple(tuple(yarns[c] for c in line) for line in grid.rounds),
        tuple((None,) * grid.width for _ in grid.rounds),
        basis.colours,
        basis.gauge,
    )


# ---------------------------------------------------------------- yarns and gauge


class _Basis(Record):
    """Yarn colours by id, the characters that stand for yarns already, and the gauge."""

    colours: Mapping[str, str]
    characters: Mapping[str, str]
    gauge: "Gauge"


def _basis(
    folder: str | None, yarns: Mapping[str, str | None] | None, gauge: "Gauge | None"
) -> _Basis:
    """What a grid is made with: from the pattern, and what the command line says instead."""
    source = _unread_pattern(folder) if folder is not None else None
    if source is None and yarns is None:
        raise click.UsageError("Give the yarns: --yarns slate=#3d4a57,foam=#e8eef0, or --pattern.")
    if source is None and gauge is None:
        raise click.UsageError("Give the gauge: --gauge '22 x 30', or --pattern.")
    own = {key: yarn.colour for key, yarn in source.pattern.yarns.items()} if source else {}
    wished = own if yarns is None else yarns
    colours: dict[str, str] = {}
    for yarn, colour in wished.items():
        found = colour or own.get(yarn)
        if found is None:
            raise click.UsageError(f"Give the yarn {yarn!r} a colour, such as {yarn}=#3d4a57.")
        colours[yarn] = found
    characters = _characters(source) if source else {}
    if gauge is None:
        assert source is not None
        gauge = _gauge_of(source, "")
    return _Basis(colours, characters, gauge)


def _unread_pattern(argument: str) -> "Source":
    """A pattern without its grids, one of which may be what is to be made."""
    from bindoff.files import split_pattern_path
    from bindoff.source.placing import placed
    from bindoff.source.read import Source
    from bindoff.source.validation import validate
    from bindoff.source.yamltree import read_yaml

    folder, name = split_pattern_path(argument)
    files: Files = DiskFiles(folder)
    tree = read_yaml(files.read_text(name), files.display(name))
    pattern, _ = placed(validate(tree), tree.at(()))
    return Source(name, pattern, {}, ())


def _characters(source: "Source") -> Mapping[str, str]:
    """The characters that stand for yarns in the pattern's charts; the first of each yarn."""
    found: dict[str, str] = {}
    for chart in source.pattern.charts.values():
        for character, meaning in chart.legend.items():
            known = isinstance(meaning, str) and meaning in source.pattern.yarns
            if known and len(character) == 1 and character not in found.values():
                found.setdefault(str(meaning), character)
    return found


def _gauge_of(source: "Source", key: str) -> "Gauge":
    """A gauge of the first size."""
    from bindoff.plan.sizing import sizings

    return sizings(source)[0].gauges[key]


# ---------------------------------------------------------------- files


def _read(path: str, limit: int) -> bytes:
    """The bytes of a file; a link is followed wherever it leads."""
    folder, name = os.path.split(os.path.realpath(path) if os.path.islink(path) else path)
    return DiskFiles(folder or ".").read_bytes(name, limit=limit)


def _write(target: Path, data: bytes, force: bool) -> None:
    """Raises ``PatternError`` when the file is there and may not be written over, or can't be."""
    try:
        with target.open("wb" if force else "xb") as file:
            file.write(data)
    except FileExistsError:
        raise fail(
            "file.exists",
            f"`{target}` is there already",
            "Choose another name with `--out`, or write over it with `--force`",
        ) from None
    except OSError as error:
        raise fail(
            "file.unwritable",
            f"`{target}` can't be written: {error.strerror or error}",
            "Choose a file in a folder that is there and that you may write to",
        ) from None


@contextmanager
def _reported() -> Iterator[None]:
    """Findings on the terminal, and exit code 1."""
    try:
        yield
    except PatternError as error:
        _stop(error.findings)
    except click.ClickException:
        raise
    except Exception as error:
        _stop((own_fault(error),))


def _stop(findings: Sequence[Diagnostic]) -> NoReturn:
    say(full(findings, _lines).rstrip("\n"), err=True)
    sys.exit(1)


def _lines(path: str) -> tuple[str, ...]:
    folder, name = os.path.split(path)
    files = DiskFiles(folder or ".")
    return files.lines(files.display(name))
