"""Schematic drawings: the flat shape of a piece in true proportion, with dimension lines.

A piece is described in its own millimetres, x to the right and y down from its top left corner, and
scaled to the space there is. Lines and type keep their size whatever the scale.
"""

from collections.abc import Iterator, Sequence
from itertools import chain
from string import ascii_uppercase
from typing import Literal

from bindoff.diagnostics import fail
from bindoff.document.drawing import Drawing, Label, Lines, Path, Shape
from bindoff.document.lettering import CAP_HEIGHT, text_width
from bindoff.records import Record

Command = tuple[str | float, ...]
Commands = tuple[Command, ...]
Point = tuple[float, float]
Segment = tuple[float, float, float, float]
Side = Literal["left", "right", "above", "below"]

_INK, _DETAIL_INK = "#000000", "#808080"  # neutral: printed with black alone
_TINT = "#f4f4f4"  # prints as next to nothing, but parts the piece from the paper
_OUTLINE, _DETAIL, _DIMENSION, _EXTENSION = 0.4, 0.18, 0.2, 0.12
_STAND_OFF = 4.5  # mm from the piece to its dimension line
_CLEAR = 1.0  # mm from the piece to where an extension line begins
_PAST = 1.0  # mm an extension line runs past the dimension line
_STROKE, _STROKE_WIDTH = 0.7, 0.35  # mm, the oblique stroke at its ends: half its reach, weight
_DASH = (1.2, 0.8)
_LEAST_MARGIN = 1.5  # mm on a side without dimensions
_BESIDE = 1.3  # mm from a dimension line to its label
_ROUND = 0.5523  # of a radius: the control points of a quarter circle


class Extent(Record):
    """A length in mm, what it is called, and the label of its dimension line (the next letter of
    the alphabet if empty)."""

    mm: float
    name: str
    label: str = ""


class Ink(Record):
    """How a schematic is drawn: the size of its ``letters`` in mm, and whether a faint ``tint``
    parts the piece from the paper."""

    letters: float = 3.2
    tint: bool = True


class Schematic(Record):
    """A drawing, what its labels stand for as (label, name), and its words."""

    drawing: Drawing
    labels: tuple[tuple[str, str], ...]
    alt: str


class _Outline(Record):
    """Lines of the piece itself: filled and firm, or thin detail; ``dash`` for folds."""

    commands: Commands
    firm: bool = True


class _Fold(Record):
    """A dashed line where the fabric is folded."""

    segments: tuple[Segment, ...]


class _Dimension(Record):
    """A dimension line on one side of the piece, from ``start`` to ``end`` along it. The extension
    lines begin where the piece ends at those two points: ``at_start`` and ``at_end`` across."""

    side: Side
    start: float
    end: float
    at_start: float
    at_end: float
    label: str


class _Piece(Record):
    """What to draw: the bounding box in mm of the piece, its lines, its dimensions."""

    width: float
    height: float
    lines: tuple[_Outline | _Fold, ...]
    dimensions: tuple[_Dimension, ...]


# ---------------------------------------------------------------- the pieces


def tube(
    width: Extent,
    depth: Extent,
    brim: Extent | None = None,
    *,
    gathered: bool = True,
    max_mm: tuple[float, float] = (85.0, 80.0),
    look: Ink = Ink(),
) -> Schematic:
    """A tube lying flat, gathered at the top or open, with a turned-up brim.

    ``depth`` is from the lower edge to the top as worn; ``brim`` is part of it.

    Raises:
        PatternError: ``schematic.size`` for a length that is not above 0, or a brim deeper than the
            tube.
    """
    labels = _labels(width, depth, brim)
    _check_part(brim, depth)
    w, h = width.mm, depth.mm
    shape = _sack(w, h) if gathered else (_Outline(_box(0, 0, w, h)), *_open_edges(w, h, brim))
    lines = (*shape, *_brim(w, h, brim))
    dimensions = [
        _Dimension("below", 0, w, h, h, labels[0]),
        _Dimension("left", 0, h, w / 2 if gathered else 0, 0, labels[1]),
    ]
    if brim:
        dimensions.append(_Dimension("right", h - brim.mm, h, w, w, labels[2]))
    piece = _Piece(w, h, lines, tuple(dimensions))
    kind = "a tube lying flat, gathered at the top" if gathered else "a tube lying flat"
    return _schematic(piece, kind, labels, (width, depth, brim), max_mm, look)


def hat(
    width: Extent,
    body: Extent,
    crown: Extent,
    brim: Extent | None = None,
    *,
    max_mm: tuple[float, float] = (85.0, 80.0),
    look: Ink = Ink(),
) -> Schematic:
    """A hat lying flat: a straight body, ``brim`` included, and a domed crown above it.

    Raises:
        PatternError: ``schematic.size`` for a length that is not above 0, or a brim deeper than the
            body.
    """
    labels = _labels(width, body, crown, brim)
    _check_part(brim, body)
    w, c, h = width.mm, crown.mm, crown.mm + body.mm
    dome: Commands = (
        ("M", 0.0, h),
        ("L", 0.0, c),
        *_dome(0, w, c, 0),
        ("L", w, h),
        ("Z",),
    )
    wedges = tuple(
        command
        for share in (0.25, 0.5, 0.75)
        for command in (
            ("M", w * share, c),
            ("C", w * share, c * 0.45, w / 2 + (share - 0.5) * w * 0.6, c * 0.12, w / 2, 0.0),
        )
    )
    lines: tuple[_Outline | _Fold, ...] = (
        _Outline(dome),
        _Outline(wedges, firm=False),
        _Fold(((0, c, w, c),)),
        *_brim(w, h, brim),
    )
    dimensions = [
        _Dimension("below", 0, w, h, h, labels[0]),
        _Dimension("left", c, h, 0, 0, labels[1]),
        _Dimension("left", 0, c, w / 2, 0, labels[2]),
    ]
    if brim:
        dimensions.append(_Dimension("right", h - brim.mm, h, w, w, labels[3]))
    piece = _Piece(w, h, lines, tuple(dimensions))
    kind = "a hat lying flat"
    return _schematic(piece, kind, labels, (width, body, crown, brim), max_mm, look)


def mitten(
    width: Extent,
    cuff: Extent,
    hand: Extent,
    to_thumb: Extent,
    thumb: Extent,
    thumb_width: Extent | None = None,
    *,
    max_mm: tuple[float, float] = (85.0, 100.0),
    look: Ink = Ink(),
) -> Schematic:
    """A mitten lying flat, thumb to the right.

    ``hand`` runs from the top of the cuff to the tip, ``to_thumb`` from the top of the cuff to
    where the thumb parts from the hand, ``thumb`` from there to its tip. Without ``thumb_width``
    the thumb is drawn two fifths as wide as the hand.

    Raises:
        PatternError: ``schematic.size`` for a length that is not above 0, or a thumb that starts
            above the tip of the hand.
    """
    labels = _labels(width, cuff, hand, to_thumb, thumb, thumb_width)
    _check_part(to_thumb, hand)
    w = width.mm
    t = thumb_width.mm if thumb_width else 0.4 * w
    tip = max(hand.mm, to_thumb.mm + thumb.mm)  # how high the higher of the two tips is
    wrist, bottom = tip, tip + cuff.mm
    top, parting = wrist - hand.mm, wrist - to_thumb.mm
    thumb_tip = parting - thumb.mm
    gap = 0.05 * w
    inner, outer = w + gap, w + gap + t
    outline: Commands = (
        ("M", 0.04 * w, bottom),
        ("L", 0.04 * w, wrist),
        ("C", 0.0, wrist - 0.1 * w, 0.0, wrist - 0.15 * w, 0.0, wrist - min(0.3 * w, hand.mm / 3)),
        ("L", 0.0, top + min(0.55 * w, 0.6 * hand.mm)),
        *_dome(0, w, top + min(0.55 * w, 0.6 * hand.mm), top),
        ("L", w, parting),
        ("C", w, parting + gap * 0.7, inner, parting + gap * 0.7, inner, parting),
        ("L", inner, thumb_tip + min(0.5 * t, 0.6 * thumb.mm)),
        *_dome(inner, outer, thumb_tip + min(0.5 * t, 0.6 * thumb.mm), thumb_tip),
        ("L", outer, parting),
        (
            "C",
            outer,
            parting + 0.5 * to_thumb.mm,
            0.98 * w,
            wrist - 0.25 * to_thumb.mm,
            0.96 * w,
            wrist,
        ),
        ("L", 0.96 * w, bottom),
        ("Z",),
    )
    lines = (
        _Outline(outline),
        _Outline(_ribs(0.04 * w, 0.96 * w, wrist, bottom), firm=False),
        _Fold(((0.04 * w, wrist, 0.96 * w, wrist), (inner, parting, outer, parting))),
    )
    dimensions = [
        _Dimension("above", 0, w, top, top, labels[0]),
        _Dimension("left", wrist, bottom, 0.04 * w, 0.04 * w, labels[1]),
        _Dimension("left", top, wrist, w / 2, 0.04 * w, labels[2]),
        _Dimension("right", parting, wrist, outer, 0.96 * w, labels[3]),
        _Dimension("right", thumb_tip, parting, (inner + outer) / 2, outer, labels[4]),
    ]
    if thumb_width:
        dimensions.append(
            _Dimension("above", inner, outer, thumb_tip + t / 2, thumb_tip + t / 2, labels[5])
        )
    piece = _Piece(outer, bottom, lines, tuple(dimensions))
    extents = (width, cuff, hand, to_thumb, thumb, thumb_width)
    return _schematic(piece, "a mitten lying flat", labels, extents, max_mm, look)


def panel(
    bottom: Extent,
    height: Extent,
    top: Extent | None = None,
    *,
    max_mm: tuple[float, float] = (85.0, 80.0),
    look: Ink = Ink(),
) -> Schematic:
    """A flat piece: a rectangle, or a trapezoid with its middle kept where ``top`` differs.

    Raises:
        PatternError: ``schematic.size`` for a length that is not above 0.
    """
    labels = _labels(bottom, height, top)
    upper = top.mm if top else bottom.mm
    w, h = max(bottom.mm, upper), height.mm
    low, high = (w - bottom.mm) / 2, (w - upper) / 2
    outline: Commands = (
        ("M", low, h),
        ("L", high, 0.0),
        ("L", w - high, 0.0),
        ("L", w - low, h),
        ("Z",),
    )
    dimensions = [
        _Dimension("below", low, w - low, h, h, labels[0]),
        _Dimension("left", 0, h, high, low, labels[1]),
    ]
    if top:
        dimensions.append(_Dimension("above", high, w - high, 0, 0, labels[2]))
    piece = _Piece(w, h, (_Outline(outline),), tuple(dimensions))
    return _schematic(piece, "a flat piece", labels, (bottom, height, top), max_mm, look)


# ---------------------------------------------------------------- parts of pieces


def _box(x: float, y: float, w: float, h: float) -> Commands:
    return (("M", x, y), ("L", x + w, y), ("L", x + w, y + h), ("L", x, y + h), ("Z",))


def _dome(left: float, right: float, foot: float, top: float) -> Commands:
    """From (left, foot) over the top to (right, foot); the pen is already at the start."""
    half, rise = (right - left) / 2, foot - top
    bend = half * (1 - _ROUND)
    return (
        ("C", left, foot - rise * 0.62, left + bend, top, left + half, top),
        ("C", right - bend, top, right, foot - rise * 0.62, right, foot),
    )


def _sack(w: float, h: float) -> tuple[_Outline, ...]:
    """A tube drawn together at the top: sides curve in to a small gather, with folds below it."""
    shoulder = min(0.3 * w, 0.45 * h)
    knot, neck = 0.07 * w, 0.05 * min(w, h)
    outline: Commands = (
        ("M", 0.0, h),
        ("L", 0.0, shoulder),
        ("C", 0.0, shoulder * 0.3, w / 2 - knot * 2.4, neck * 1.4, w / 2 - knot, neck),
        ("C", w / 2 - knot * 0.8, -neck / 3, w / 2 + knot * 0.8, -neck / 3, w / 2 + knot, neck),
        ("C", w / 2 + knot * 2.4, neck * 1.4, w, shoulder * 0.3, w, shoulder),
        ("L", w, h),
        ("Z",),
    )
    folds = tuple(
        command
        for share, length in (
            (-0.8, 0.75),
            (-0.5, 1.0),
            (-0.22, 0.8),
            (0.0, 1.15),
            (0.22, 0.8),
            (0.5, 1.0),
            (0.8, 0.75),
        )
        for command in (
            ("M", w / 2 + share * knot, neck * 1.5),
            (
                "C",
                w / 2 + share * w * 0.16,
                neck + shoulder * 0.3 * length,
                w / 2 + share * w * 0.36,
                neck + shoulder * 0.55 * length,
                w / 2 + share * w * 0.42,
                neck + shoulder * length,
            ),
        )
    )
    return (_Outline(outline), _Outline(folds, firm=False))


def _open_edges(w: float, h: float, brim: Extent | None) -> tuple[_Outline, ...]:
    """The line just inside an open edge that tells it from a fold."""
    inset = 0.025 * h
    levels = (inset,) if brim else (inset, h - inset)
    return (
        _Outline(
            tuple(c for y in levels for c in (("M", 0.0, y), ("L", w, y))),
            firm=False,
        ),
    )


def _brim(w: float, h: float, brim: Extent | None) -> tuple[_Outline, ...]:
    """The brim turned up over the piece, a little wider than what it covers."""
    if brim is None:
        return ()
    out = 0.012 * w
    return (
        _Outline(_box(-out, h - brim.mm, w + 2 * out, brim.mm)),
        _Outline(_ribs(-out, w + out, h - brim.mm, h), firm=False),
    )


def _ribs(left: float, right: float, top: float, bottom: float) -> Commands:
    """Upright lines of ribbing, evenly over a band."""
    count = 14
    inset = 0.12 * (bottom - top)
    return tuple(
        command
        for number in range(1, count)
        for x in (left + (right - left) * number / count,)
        for command in (("M", x, top + inset), ("L", x, bottom - inset))
    )


# ---------------------------------------------------------------- labels and checks


def _labels(*extents: Extent | None) -> tuple[str, ...]:
    """The label of each extent that there is: its own, or the next letter."""
    found = tuple(extent for extent in extents if extent is not None)
    for extent in found:
        if not extent.mm > 0:
            raise fail(
                "schematic.size",
                f"`{extent.name}` is {extent.mm:g} mm, so there is nothing to draw",
                "Give it a length above 0",
            )
    own = {extent.label for extent in found}
    letters = (letter for letter in ascii_uppercase if letter not in own)
    return tuple(extent.label or next(letters) for extent in found)


def _check_part(part: Extent | None, whole: Extent) -> None:
    if part is not None and part.mm > whole.mm:
        raise fail(
            "schematic.size",
            f"`{part.name}` ({part.mm:g} mm) is longer than `{whole.name}` ({whole.mm:g} mm), of "
            "which it is a part",
            f"Make `{part.name}` shorter, or `{whole.name}` longer",
        )


def _schematic(
    piece: _Piece,
    kind: str,
    labels: tuple[str, ...],
    extents: tuple[Extent | None, ...],
    max_mm: tuple[float, float],
    look: Ink,
) -> Schematic:
    names = tuple(extent.name for extent in extents if extent is not None)
    pairs = tuple(zip(labels, names, strict=True))
    told = "; ".join(f"{label}: {name}" for label, name in pairs)
    return Schematic(_draw(piece, max_mm, look), pairs, f"Outline of {kind}. {told}.")


# ---------------------------------------------------------------- drawing


class _Placing(Record):
    """Where the piece lies on the drawing, and how many mm of paper are one mm of the piece."""

    left: float
    top: float
    scale: float
    piece: _Piece

    def point(self, x: float, y: float) -> Point:
        """A place on the piece as a place on the drawing."""
        return self.left + x * self.scale, self.top + y * self.scale

    def moved(self, commands: Commands) -> Commands:
        """Path commands of the piece as commands of the drawing."""
        return tuple(
            (
                name,
                *chain.from_iterable(
                    self.point(float(x), float(y))
                    for x, y in zip(numbers[::2], numbers[1::2], strict=True)
                ),
            )
            for name, *numbers in commands
        )


def _draw(piece: _Piece, max_mm: tuple[float, float], look: Ink) -> Drawing:
    text_mm = look.letters
    sides: tuple[Side, ...] = ("left", "right", "above", "below")
    left, right, above, below = (_margin(piece.dimensions, side, text_mm) for side in sides)
    scale = min(
        (max_mm[0] - left - right) / piece.width, (max_mm[1] - above - below) / piece.height
    )
    if scale <= 0:
        raise fail(
            "schematic.size",
            "the labels of the schematic leave no room for the piece",
            "Use letters for the labels and give the lengths in a table",
        )
    placing = _Placing(left, above, scale, piece)
    width = left + piece.width * scale + right
    height = above + piece.height * scale + below
    labels = tuple(
        chain.from_iterable(_side_labels(placing, side, width, text_mm) for side in sides)
    )
    return Drawing(
        round(width, 2),
        round(max(height, *(label.y + text_mm * 0.25 for label in labels)), 2),
        (*_piece_shapes(placing, look.tint), *_dimension_lines(placing), *labels),
    )


def _margin(dimensions: Sequence[_Dimension], side: Side, text_mm: float) -> float:
    """The room that one side needs for its dimension line and labels."""
    labels = [dimension.label for dimension in dimensions if dimension.side == side]
    if not labels:
        return _LEAST_MARGIN
    if side in ("left", "right"):
        return _STAND_OFF + _BESIDE + max(text_width(label, text_mm, True) for label in labels)
    return _STAND_OFF + _BESIDE + text_mm


def _piece_shapes(placing: _Placing, tint: bool) -> Iterator[Shape]:
    for line in placing.piece.lines:
        match line:
            case _Outline(commands, firm=True):
                yield Path(placing.moved(commands), _TINT if tint else "#ffffff", _INK, _OUTLINE)
            case _Outline(commands):
                yield Path(placing.moved(commands), None, _DETAIL_INK, _DETAIL)
            case _Fold(segments):
                moved = tuple(
                    (*placing.point(x1, y1), *placing.point(x2, y2)) for x1, y1, x2, y2 in segments
                )
                yield Lines(moved, _INK, _DETAIL, _DASH)


def _line_of(placing: _Placing, side: Side) -> float:
    """How far across the drawing the dimension line of a side lies."""
    right, bottom = placing.point(placing.piece.width, placing.piece.height)
    return {
        "left": placing.left - _STAND_OFF,
        "right": right + _STAND_OFF,
        "above": placing.top - _STAND_OFF,
        "below": bottom + _STAND_OFF,
    }[side]


def _dimension_lines(placing: _Placing) -> Iterator[Shape]:
    """For each dimension its line with an oblique stroke at both ends, and extension lines."""
    lines: list[Segment] = []
    strokes: list[Segment] = []
    extensions: list[Segment] = []
    for dimension in placing.piece.dimensions:
        across = _line_of(placing, dimension.side)
        upright = dimension.side in ("left", "right")
        out = 1 if dimension.side in ("right", "below") else -1
        ends = []
        for along, at in (
            (dimension.start, dimension.at_start),
            (dimension.end, dimension.at_end),
        ):
            x, y = placing.point(at, along) if upright else placing.point(along, at)
            if upright:
                extensions.append((x + out * _CLEAR, y, across + out * _PAST, y))
            else:
                extensions.append((x, y + out * _CLEAR, x, across + out * _PAST))
            end_x, end_y = (across, y) if upright else (x, across)
            strokes.append((end_x - _STROKE, end_y + _STROKE, end_x + _STROKE, end_y - _STROKE))
            ends.append((end_x, end_y))
        lines.append((*ends[0], *ends[1]))
    yield Lines(tuple(extensions), _DETAIL_INK, _EXTENSION)
    yield Lines(tuple(lines), _INK, _DIMENSION)
    yield Lines(tuple(strokes), _INK, _STROKE_WIDTH)


def _side_labels(placing: _Placing, side: Side, width: float, text_mm: float) -> Iterator[Label]:
    """The labels of one side in the middle of their lines, kept apart and on the drawing."""
    dimensions = [d for d in placing.piece.dimensions if d.side == side]
    across, cap = _line_of(placing, side), text_mm * CAP_HEIGHT
    least = 0.0
    for dimension in sorted(dimensions, key=lambda d: d.start):
        middle = (dimension.start + dimension.end) / 2
        text, room = dimension.label, text_width(dimension.label, text_mm, True)
        x, y = placing.point(middle, middle)
        if side == "left":
            least = max(least, y + cap / 2)
            yield Label(across - _BESIDE, least, text, text_mm, "end", _INK, bold=True)
            least += text_mm * 1.1
        elif side == "right":
            least = max(least, y + cap / 2)
            yield Label(across + _BESIDE, least, text, text_mm, "start", _INK, bold=True)
            least += text_mm * 1.1
        else:
            baseline = across + _BESIDE + cap if side == "below" else across - _BESIDE
            x = max(room / 2, min(x, width - room / 2))
            yield Label(x, baseline, text, text_mm, "middle", _INK, bold=True)
