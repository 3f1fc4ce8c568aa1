"""Checks that the parts of a source meet: what one part names, another declares."""

import re
from collections.abc import Iterator, Mapping
from difflib import get_close_matches

from bindoff.diagnostics import Diagnostic
from bindoff.source.bundle import Source
from bindoff.source.models import (
    NO_STITCH,
    CellMeaning,
    Chart,
    EmbroiderStep,
    Piece,
    StripesStep,
)
from bindoff.source.rowlang.stitches import Terms, standard_book
from bindoff.source.rowlang.vocabulary import near_stitches
from bindoff.source.yamltree import Path

FromPlan = StripesStep | EmbroiderStep

_NAME = re.compile(r"[a-z][a-z0-9_]*")
_WORDS_OF_FORMULAS = frozenset({"if", "else"})


def unmet(source: Source) -> Iterator[Diagnostic]:
    """Everything that is named and not there, or there and can't be named (ids ``source.…``)."""
    yield from _measure_names(source)
    yield from _names(source)
    yield from _tubes(source)
    yield from _legends(source)
    yield from _bodies(source)
    yield from _photographs(source)


def _names(source: Source) -> Iterator[Diagnostic]:
    """Yarns, charts and gauges that a piece or step names and nobody declared."""
    pattern = source.pattern
    for key, declared in pattern.yarns.items():
        if declared.swatch:
            place: Path = ("yarns", key, "swatch", "gauge")
            named = declared.swatch.gauge
            yield from _known(source, place, named, pattern.gauges, "gauge", "gauges")
    for key, piece in pattern.pieces.items():
        path: Path = ("pieces", key)
        yield from _known(source, (*path, "yarn"), piece.yarn, pattern.yarns, "yarn", "yarns")
        yield from _known(source, (*path, "gauge"), piece.gauge, pattern.gauges, "gauge", "gauges")
        if piece.picture:
            inner = (*path, "picture")
            yield from _known(
                source, (*inner, "chart"), piece.picture.chart, pattern.charts, "chart", "charts"
            )
            for name in ("ground", "above"):
                yarn = getattr(piece.picture, name)
                yield from _known(source, (*inner, name), yarn, pattern.yarns, "yarn", "yarns")
        for index, yarn in enumerate(piece.colour_plan.never_base):
            place = (*path, "colour plan", "never base", index)
            yield from _known(source, place, yarn, pattern.yarns, "yarn", "yarns")
        yield from _step_names(source, key, piece)


def _step_names(source: Source, key: str, piece: Piece) -> Iterator[Diagnostic]:
    pattern = source.pattern
    for index, step in enumerate(piece.steps):
        path: Path = ("pieces", key, "steps", index)
        yield from _known(source, (*path, "yarn"), step.yarn, pattern.yarns, "yarn", "yarns")
        chart = getattr(step, "chart", None)
        yield from _known(source, (*path, "chart"), chart, pattern.charts, "chart", "charts")


def _tubes(source: Source) -> Iterator[Diagnostic]:
    """Folded tubes whose parts don't come together: lengths, picture, stripes, embroidery."""
    for key, piece in source.pattern.pieces.items():
        path: Path = ("pieces", key)
        missing = [f"`{name}:`" for name in ("tube", "picture") if getattr(piece, name) is None]
        planned = [index for index, step in enumerate(piece.steps) if isinstance(step, FromPlan)]
        if missing:
            for index in planned:
                yield Diagnostic(
                    "source.no-picture",
                    "this step needs the plan of a picture, but the piece has no "
                    + " and no ".join(missing),
                    f"Add {' and '.join(missing)} to the piece `{key}`, or take the step out",
                    source.span(*path, "steps", index),
                )
        given = "tube" if piece.tube else "picture"
        knitted = any(isinstance(step, StripesStep) for step in piece.steps)
        if len(missing) < 2 and not knitted and not (missing and planned):
            yield Diagnostic(
                "source.no-stripes",
                f"the piece has `{given}:`, but no step knits it",
                f"Add the step `- stripes: from plan`, or take `{given}:` out",
                source.span(*path, given, key=True),
            )


def _known(
    source: Source,
    path: Path,
    name: str | None,
    declared: Mapping[str, object],
    what: str,
    where: str,
) -> Iterator[Diagnostic]:
    if name is None or name in declared:
        return
    close = get_close_matches(name, declared, n=1)
    known = ", ".join(f"`{key}`" for key in declared) or "none"
    hint = f"Write `{close[0]}`, or add" if close else "Add"
    yield Diagnostic(
        f"source.unknown-{what}",
        f"there is no {what} called `{name}`",
        f"{hint} `{name}:` under `{where}:`; declared there: {known}",
        source.span(*path),
    )


def _legends(source: Source) -> Iterator[Diagnostic]:
    """Grid characters without a meaning, meanings without a yarn, legend keys of two letters."""
    yarns = source.pattern.yarns
    for key, chart in source.pattern.charts.items():
        path: Path = ("charts", key, "legend")
        for character, meaning in chart.legend.items():
            if len(character) != 1:
                yield Diagnostic(
                    "source.legend-key",
                    f"the legend key `{character}` is not a single character",
                    "Use one character, the one that stands in the grid",
                    source.span(*path, character, key=True),
                )
            if isinstance(meaning, CellMeaning):
                place = (*path, character, "yarn")
                yield from _known(source, place, meaning.yarn, yarns, "yarn", "yarns")
                place = (*path, character, "stitch")
                yield from _stitch(source, place, meaning.stitch, "a stitch", ())
            else:
                yield from _stitch(
                    source, (*path, character), meaning, "a yarn or a stitch", tuple(yarns)
                )
        yield from _unexplained(source, key, chart)


def _stitch(
    source: Source, path: Path, name: str | None, what: str, yarns: tuple[str, ...]
) -> Iterator[Diagnostic]:
    own, book = source.pattern.stitches, standard_book(Terms(source.pattern.terms))
    known = name is None or name in yarns or name in own or book.find(name) is not None
    if name is None or (known and not (name == NO_STITCH and what == "a stitch")):
        return
    close = get_close_matches(name, (*yarns, *own), n=1)
    near = near_stitches(book, name.lower())
    if close:
        meant = f"Write `{close[0]}` if that is what you mean"
    else:
        meant = f"Write {what}; near it: {', '.join(near)}" if near else f"Write {what}"
    stitches = ", such as k, p or k2tog, or declare it under `stitches:`"
    yield Diagnostic(
        "source.legend-meaning",
        f"`{path[3]}` stands for `{name}`, which is not {what} of this pattern",
        meant
        + (f"; its yarns are {', '.join(f'`{key}`' for key in yarns)}" if yarns else stitches),
        source.span(*path),
    )


def _unexplained(source: Source, key: str, chart: Chart) -> Iterator[Diagnostic]:
    grid = source.grids[key]
    seen = set(chart.legend)
    for number, line in enumerate(grid.rounds, start=1):
        for index, character in enumerate(line):
            if character not in seen:
                seen.add(character)
                yield Diagnostic(
                    "source.grid-character",
                    f"`{character}` in round {number} of the grid has no meaning in the legend",
                    f'Add `"{character}": …` to the legend of `{key}`, or correct the grid',
                    grid.span(number, grid.width - index),
                )


def _bodies(source: Source) -> Iterator[Diagnostic]:
    """Sizes that lack a body measurement which the others have."""
    sizes = source.pattern.sizes
    if any(size.like for size in sizes.values()):
        return  # only the plan knows what the standard bodies have
    for name, size in sizes.items():
        for measure in dict.fromkeys(key for other in sizes.values() for key in other.body):
            if measure not in size.body:
                yield Diagnostic(
                    "source.size-measurement",
                    f"the size `{name}` has no `{measure}`, which other sizes have",
                    f"Add `{measure}: …` with its unit to the size `{name}`",
                    source.span("sizes", name, key=True),
                )


def _measure_names(source: Source) -> Iterator[Diagnostic]:
    """Names of measures that no formula could use."""
    for name in source.pattern.measures:
        if name in _WORDS_OF_FORMULAS or not _NAME.fullmatch(name):
            better = re.sub(r"[^a-z0-9_]+", "_", name.lower()).strip("_0123456789")
            usable = _NAME.fullmatch(better) and better not in _WORDS_OF_FORMULAS
            yield Diagnostic(
                "source.measure-name",
                f"a formula can't use a measure called `{name}`",
                f"Call it `{better}`" if usable else "Use small letters, digits and _ in its name",
                source.span("measures", name, key=True),
            )


def _photographs(source: Source) -> Iterator[Diagnostic]:
    """Photographs that are neither JPEG nor PNG, by the bytes such files begin with."""
    for index, (photo, data) in enumerate(zip(source.pattern.photos, source.photos, strict=True)):
        if not data.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n")):
            yield Diagnostic(
                "source.photo",
                f"`{photo.file}` is neither a JPEG nor a PNG photograph",
                "Save the photograph as one of these, or correct the name",
                source.span("photos", index, "file"),
            )
