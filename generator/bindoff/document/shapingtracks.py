"""A track of boxes to tick beside a pace of shaping: one a row, those of shaping rows bold, with
the stitches after each of them."""

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise

from bindoff.document.drawing import Drawing, Label, Lines, Rect, Shape
from bindoff.document.drawn import Drawn
from bindoff.document.lettering import CAP_HEIGHT, text_width
from bindoff.document.phrases import text
from bindoff.document.steps.registry import words_of
from bindoff.document.steps.words import Track
from bindoff.document.tree import Blocks, Figure, Paragraph, Table
from bindoff.document.voice import Voice
from bindoff.english import how_many, plural
from bindoff.plan.persize import named
from bindoff.plan.worked import StepPlan

_INK = "#000000"
_WIDE = 126.25  # mm: the main column
_BOX, _AIR = 5.22, 0.9  # mm, a box at the least; the white space between two figures
_PLAIN, _BOLD = 0.22, 0.75  # mm, the lines of a box
_BETWEEN = 1.6  # mm, between a box and a figure
_APART = 4.0  # mm, between two tracks
_COUNTED = 5  # every so many rows the number is bold
_MOST_LINES = 4  # of boxes in all: longer paces are worked by their words


def with_tracks(blocks: Blocks, voice: Voice, step: StepPlan, drawn: Drawn) -> Blocks:
    """``blocks`` of a step, and after them the tracks of its shaping in all sizes, where they are
    short enough to tick them."""
    tracks = words_of(step.step).tracks(step)
    told = [
        (tuple(name for name, _ in group), track)
        for track, group in _together(voice.sizes, tracks)
        if track.shaped
    ]
    across = _across([track for _, track in told], drawn.numbers)
    count = sum(-(-track.rows // across) for _, track in told)
    if not 0 < count <= _MOST_LINES:
        return blocks
    several = len(voice.sizes) > 1
    unit = told[0][1].unit
    heads = [(", ".join(names) if several else "", track) for names, track in told]
    drawing = _drawing(heads, across, drawn.numbers)
    said = f"{plural(unit)} are bold, with the stitches after each below"
    look = text(f"Tick each {unit}: shaping {said}.")
    figure = Figure(drawing, _in_words(told, voice.sizes))
    tables = [at for at, block in enumerate(blocks) if isinstance(block, Table)]
    after = tables[-1] + 1 if tables else len(blocks)
    shown = (figure, Paragraph(look, role="small", print_only=True))
    return (*blocks[:after], *shown, *blocks[after:])


def _together(
    sizes: Sequence[str], tracks: Sequence[Track]
) -> Iterator[tuple[Track, list[tuple[str, Track]]]]:
    """Each track with the sizes in turn that have it."""
    pairs = zip(sizes, tracks, strict=False)
    for track, group in groupby(pairs, key=lambda pair: pair[1]):
        yield track, list(group)


def _across(tracks: Sequence[Track], letters: float) -> int:
    """How many boxes stand side by side."""
    return int((_WIDE - _BOLD) / _box(tracks, letters))


def _box(tracks: Sequence[Track], letters: float) -> float:
    """The side of a box: figures above and below it have room."""
    wide = _BOX
    for track in tracks:
        rows = [row for row, _ in track.shaped]
        near = min((b - a for a, b in pairwise(rows)), default=track.rows)
        above = text_width(str(track.rows), letters, bold=True)
        below = max(text_width(str(count), letters) for _, count in track.shaped)
        wide = max(wide, above + _AIR, (below + _AIR) / near)
    return wide


def _drawing(told: Sequence[tuple[str, Track]], across: int, letters: float) -> Drawing:
    box = _box([track for _, track in told], letters)
    shapes: list[Shape] = []
    y = 0.0
    wide = 0.0
    for name, track in told:
        if name:
            shapes.append(Label(0.0, y + letters * CAP_HEIGHT, name, letters, bold=True))
            wide = max(wide, text_width(name, letters, bold=True))
            y += letters + _BETWEEN
        step = -(-track.rows // -(-track.rows // across))  # lines of like length
        for first in range(1, track.rows + 1, step):
            last = min(track.rows, first + step - 1)
            shapes += _line(track, first, last, y, box, letters)
            y += 2 * letters + 2 * _BETWEEN + box
            wide = max(wide, (last - first + 1) * box + _BOLD)
        y += _APART - _BETWEEN
    return Drawing(round(wide, 2), round(y - _APART + _BETWEEN, 2), tuple(shapes))


def _line(
    track: Track, first: int, last: int, y: float, box: float, letters: float
) -> Iterator[Shape]:
    """The boxes of rows ``first`` to ``last`` in one line, their numbers above, stitches below."""
    left, top = _BOLD / 2, y + letters + _BETWEEN
    shaped = dict(track.shaped)
    for row in range(first, last + 1):
        x = left + (row - first + 0.5) * box
        bold = row in shaped
        yield Label(x, y + letters * CAP_HEIGHT, str(row), letters, "middle", bold=bold)
        if bold:
            below = top + box + _BETWEEN + letters * CAP_HEIGHT
            yield Label(x, below, str(shaped[row]), letters, "middle")
    count = last - first + 1
    yield Rect(left, top, count * box, box, stroke=_INK, width=_PLAIN)
    between = (left + at * box for at in range(1, count))
    yield Lines(tuple((x, top, x, top + box) for x in between), _INK, _PLAIN)
    inset = _BOLD / 2
    for row in range(first, last + 1):
        if row in shaped:
            x = left + (row - first) * box + inset
            side = box - 2 * inset
            yield Rect(x, top + inset, side, side, stroke=_INK, width=_BOLD)


def _in_words(told: Sequence[tuple[Sequence[str], Track]], sizes: Sequence[str]) -> str:
    """The shaping rows of all sizes, and the stitches after each."""
    parts = []
    for names, track in told:
        each = [f"{row}, {how_many(count, 'stitch')}" for row, count in track.shaped]
        of = f" in {named(names, sizes)}" if len(sizes) > 1 else ""
        plain = f"{how_many(track.rows, track.unit)} in all{of}"
        parts.append(f"{plain}, shaping in {track.unit} {'; '.join(each)}.")
    return " ".join(parts)
