"""Checks that the parts of a source meet: what one part names, another declares."""

from collections.abc import Collection, Iterator, Mapping
from itertools import islice

from bindoff import regex as re
from bindoff.diagnostics import Diagnostic, closest, written_as
from bindoff.english import listed
from bindoff.source.bundle import Source
from bindoff.source.chart import NO_STITCH, CellMeaning, Chart
from bindoff.source.model import Model
from bindoff.source.rowlang.stitches import Terms, standard_book
from bindoff.source.rowlang.vocabulary import near_stitches
from bindoff.source.shape import PanelShape
from bindoff.source.steps.embroider import EmbroiderStep
from bindoff.source.steps.stripes import StripesStep
from bindoff.source.steps.work import WorkStep
from bindoff.source.yamltree import Place

FromPlan = StripesStep | EmbroiderStep

_NAME = re.compile(r"[a-z][a-z0-9_]*")
_WORDS_OF_FORMULAS = frozenset({"if", "else"})


def unmet(source: Source) -> Iterator[Diagnostic]:
    """Everything that is named and not there, or there and can't be named (ids ``source.…``)."""
    yield from _measure_names(source)
    yield from _names(source)
    yield from _tubes(source)
    yield from _machines(source)
    yield from _legends(source)
    yield from _bodies(source)
    yield from _photographs(source)


def _names(source: Source) -> Iterator[Diagnostic]:
    """Yarns, charts and gauges that a piece or step names and nobody declared."""
    pattern = source.pattern
    for declared in pattern.yarns.values():
        if declared.swatch:
            yield from _known(declared.swatch, "gauge", pattern.gauges, "gauge")
    for piece in pattern.pieces.values():
        yield from _known(piece, "yarn", pattern.yarns, "yarn")
        yield from _known(piece, "gauge", pattern.gauges, "gauge")
        if piece.tube:
            for zone in type(piece.tube.yarns).model_fields:
                yield from _known(piece.tube.yarns, zone, pattern.yarns, "yarn")
            for stripe in piece.tube.stripes:
                yield from _known(stripe, "yarn", pattern.yarns, "yarn")
        if piece.picture:
            yield from _known(piece.picture, "chart", pattern.charts, "chart")
            yield from _known(piece.picture, "ground", pattern.yarns, "yarn")
            yield from _known(piece.picture, "above", pattern.yarns, "yarn")
        shape = piece.schematic
        if isinstance(shape, PanelShape):
            others = {key: each for key, each in pattern.pieces.items() if each is not piece}
            place = shape.place.of("hangs from")
            yield from _declared(shape.hangs_from, place, others, "piece")
        for motif in piece.motifs:
            yield from _known(motif, "chart", pattern.charts, "chart")
            for index, size in enumerate(motif.sizes):
                place = motif.place.of("sizes").of(index)
                yield from _declared(size, place, pattern.sizes, "size")
        never = piece.colour_plan.place.of("never base")
        for index, yarn in enumerate(piece.colour_plan.never_base):
            yield from _declared(yarn, never.of(index), pattern.yarns, "yarn")
        for step in piece.steps:
            yield from _known(step, "yarn", pattern.yarns, "yarn")
            yield from _known(step, "chart", pattern.charts, "chart")
            for each in step.in_stripes if isinstance(step, WorkStep) else ():
                yield from _known(each, "yarn", pattern.yarns, "yarn")


def _tubes(source: Source) -> Iterator[Diagnostic]:
    """Tubes whose parts don't come together: lengths, picture, stripes, embroidery."""
    for key, piece in source.pattern.pieces.items():
        given = {"tube": piece.tube, "picture": piece.picture or piece.motifs or None}
        missing = [f"`{name}:`" for name, value in given.items() if value is None]
        plain = piece.tube is not None and not piece.pictured
        if piece.picture and piece.motifs:
            yield Diagnostic(
                "source.picture-and-motifs",
                "the piece has a picture, which fills the tube, and motifs as well",
                "Draw the motifs into the picture's grid, or place the picture as a motif "
                "`around: true`",
                piece.place.of("motifs").key_span,
            )
        planned = [
            step
            for step in piece.steps
            if isinstance(step, FromPlan) and not (plain and isinstance(step, StripesStep))
        ]
        if missing:
            for step in planned:
                yield Diagnostic(
                    "source.no-picture",
                    "this step needs the plan of a picture, but the piece has no "
                    + " and no ".join(missing),
                    f"Add {listed(missing)} to the piece `{key}`, or take the step out",
                    step.place.span,
                )
        written = "tube" if piece.tube else "picture" if piece.picture else "motifs"
        knitted = any(isinstance(step, StripesStep) for step in piece.steps)
        if len(missing) < 2 and not knitted and not (missing and planned):
            yield Diagnostic(
                "source.no-stripes",
                f"the piece has `{written}:`, but no step knits it",
                f"Add the step `- stripes: from plan`, or take `{written}:` out",
                piece.place.of(written).key_span,
            )


def _machines(source: Source) -> Iterator[Diagnostic]:
    """Pieces made on a machine of which some size does not know the needles."""
    pattern = source.pattern
    if all(pattern.needles(size) for size in pattern.sizes):
        return
    for piece in pattern.pieces.values():
        if piece.made == "machine":
            yield Diagnostic(
                "source.machine-needles",
                "the piece is made on a machine, and its number of needles is not given",
                "Add `made: {by: machine, needles: …}` to the head of the pattern",
                piece.place.of("made").span,
            )


def _known(
    owner: Model, key: str, declared: Mapping[str, object], what: str
) -> Iterator[Diagnostic]:
    """A fault where ``owner`` names under ``key`` what is not declared."""
    yield from _declared(getattr(owner, key, None), owner.place.of(key), declared, what)


def _declared(
    name: str | None, place: Place, declared: Mapping[str, object], what: str
) -> Iterator[Diagnostic]:
    if name is None or name in declared:
        return
    close = closest(name, declared)
    hint = f"Write `{close}`, or add" if close else "Add"
    yield Diagnostic(
        f"source.unknown-{what}",
        f"there is no {what} called `{name}`",
        f"{hint} `{name}:` under `{what}s:`; declared there: {_listed(declared)}",
        place.span,
        fixes=written_as(close),
    )


_MOST_LISTED = 20


def _listed(names: Collection[str]) -> str:
    """Names one after the other, the first of very many."""
    more = f" and {len(names) - _MOST_LISTED} more" if len(names) > _MOST_LISTED else ""
    return (", ".join(f"`{name}`" for name in islice(names, _MOST_LISTED)) or "none") + more


def _legends(source: Source) -> Iterator[Diagnostic]:
    """Grid characters without a meaning, meanings without a yarn, legend keys of two letters."""
    yarns = source.pattern.yarns
    for key, chart in source.pattern.charts.items():
        legend = chart.place.of("legend")
        for character, meaning in chart.legend.items():
            place = legend.of(character)
            if len(character) != 1:
                yield Diagnostic(
                    "source.legend-key",
                    f"the legend key `{character}` is not a single character",
                    "Use one character, the one that stands in the grid",
                    place.key_span,
                )
            if isinstance(meaning, CellMeaning):
                yield from _known(meaning, "yarn", yarns, "yarn")
                place = place.of("stitch")
                yield from _stitch(source, place, character, meaning.stitch, "a stitch", ())
            else:
                what = "a yarn or a stitch"
                yield from _stitch(source, place, character, meaning, what, tuple(yarns))
        yield from _unexplained(source, key, chart)


def _stitch(
    source: Source,
    place: Place,
    character: str,
    name: str | None,
    what: str,
    yarns: tuple[str, ...],
) -> Iterator[Diagnostic]:
    own, book = source.pattern.stitches, standard_book(Terms(source.pattern.terms))
    known = name is None or name in yarns or name in own or book.find(name) is not None
    if name is None or (known and not (name == NO_STITCH and what == "a stitch")):
        return
    close = closest(name, (*yarns, *own))
    near = near_stitches(book, name.lower())
    if close:
        meant = f"Write `{close}` if that is what you mean"
    else:
        meant = f"Write {what}; near it: {', '.join(near)}" if near else f"Write {what}"
    stitches = ", such as k, p or k2tog, or declare it under `stitches:`"
    yield Diagnostic(
        "source.legend-meaning",
        f"`{character}` stands for `{name}`, which is not {what} of this pattern",
        meant + (f"; its yarns are {_listed(yarns)}" if yarns else stitches),
        place.span,
        fixes=written_as(close),
    )


def _unexplained(source: Source, key: str, chart: Chart) -> Iterator[Diagnostic]:
    seen = set(chart.legend)
    for grid in source.drawings(key):
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
                    size.place.key_span,
                )


def _measure_names(source: Source) -> Iterator[Diagnostic]:
    """Names of measures that no formula could use."""
    for name, measure in source.pattern.measures.items():
        if name in _WORDS_OF_FORMULAS or not _NAME.fullmatch(name):
            better = re.sub(r"[^a-z0-9_]+", "_", name.lower()).strip("_0123456789")
            usable = _NAME.fullmatch(better) and better not in _WORDS_OF_FORMULAS
            yield Diagnostic(
                "source.measure-name",
                f"a formula can't use a measure called `{name}`",
                f"Call it `{better}`" if usable else "Use small letters, digits and _ in its name",
                measure.place.key_span,
            )


def _photographs(source: Source) -> Iterator[Diagnostic]:
    """Photographs that are neither JPEG nor PNG, by the bytes such files begin with."""
    for photo, data in zip(source.pattern.photos, source.photos, strict=True):
        if not data.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n")):
            yield Diagnostic(
                "source.photo",
                f"`{photo.file}` is neither a JPEG nor a PNG photograph",
                "Save the photograph as one of these, or correct the name",
                photo.place.of("file").span,
            )
