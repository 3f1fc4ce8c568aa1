"""``bindoff grid``: a chart grid from a picture, and a picture of a chart as knitted fabric."""

import os
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bindoff.commands.gridshared import (
    characters_of,
    chart_entry,
    colours_of,
    folder_of,
    force_option,
    pattern_option,
    read_file,
    reported,
    stem,
    unread_pattern,
    write_file,
    yarns_option,
)
from bindoff.commands.gridsheet import from_sheet
from bindoff.commands.shared import say
from bindoff.diagnostics import fail
from bindoff.files import GRID_LIMIT, DiskFiles
from bindoff.records import Record

if TYPE_CHECKING:
    from bindoff.craft.entry import Stitch
    from bindoff.document.faces import Faces
    from bindoff.plan.gauge import Gauge
    from bindoff.source.imagegrid import Rounds
    from bindoff.source.read import Source

STITCH_PX = 24  # wide enough to see both legs of a stitch
LONGEST_PX = 3000


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


_gauge = click.option(
    "--gauge",
    callback=_gauge_text,
    metavar="GAUGE",
    help="The gauge: stitches x rounds over 10 cm, such as '22 x 30', or '22 x 30 / 4 in'.",
)


@click.group(name="grid")
def command() -> None:
    """Make a chart grid from a picture or a spreadsheet, or see a chart as knitted fabric."""


command.add_command(from_sheet)


# ---------------------------------------------------------------- from a picture


@command.command(name="from-image")
@click.argument("picture", type=click.Path())
@click.option("--stitches", type=int, help="Width of the grid.")
@click.option("--rounds", type=int, help="Height of the grid.")
@click.option(
    "--lines",
    type=click.Choice(["auto", "none"]),
    default="auto",
    help="Read a chart by its lines; or take lines as a part of what is drawn.",
)
@yarns_option
@pattern_option
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
@force_option
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

    with reported():
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
        data = read_file(picture, IMAGE_LIMIT)
        made = grid_from_image(data, shown, wish)
        characters = yarn_characters(tuple(basis.colours), basis.characters)
        target = Path(out or Path(folder_of(folder) or Path(picture).parent, stem(shown) + ".grid"))
        write_file(target, grid_text(made, characters).encode(), force)
        counts = Counter(yarn for line in made for yarn in line)
        used = {sign: yarn for yarn, sign in characters.items() if counts[yarn]}
        width, height = basis.gauge.width_of(len(made[0])), basis.gauge.height_of(len(made))
        remarks = (
            f"{target}: {len(made[0])} stitches by {len(made)} rounds, "
            f"{width / 10:.1f} x {height / 10:.1f} cm",
            "stitches: " + ", ".join(f"{yarn} {counts[yarn]}" for yarn in used.values()),
        )
        say(chart_entry(target, used, remarks).rstrip("\n"))


# ---------------------------------------------------------------- a look at the fabric


@command.command(name="preview")
@click.argument("source", type=click.Path())
@click.option("--chart", "key", metavar="KEY", help="The chart of the pattern.")
@yarns_option
@pattern_option
@_gauge
@click.option("--across", type=click.IntRange(1, 100), default=1, help="Repeat it side by side.")
@click.option("--up", type=click.IntRange(1, 100), default=1, help="Repeat it one over the other.")
@click.option("--width", type=int, help="Width of the picture in pixels.")
@click.option("--out", required=True, help="The PNG file.")
@force_option
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

    with reported():
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
        write_file(Path(out), render_png(drawing, fitting if width is None else width), force)
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
    source = unread_pattern(folder) if folder is not None else None
    colours = colours_of(source, yarns)
    if source is None and gauge is None:
        raise click.UsageError("Give the gauge: --gauge '22 x 30', or --pattern.")
    characters = characters_of(source) if source else {}
    if gauge is None:
        assert source is not None
        gauge = _gauge_of(source, "")
    return _Basis(colours, characters, gauge)


def _gauge_of(source: "Source", key: str) -> "Gauge":
    """A gauge of the first size."""
    from bindoff.plan.sizing import sizings

    return sizings(source)[0].gauges[key]
