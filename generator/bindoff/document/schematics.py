"""The schematic of every piece, its letters, and what they stand for per size."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import count, product
from string import ascii_lowercase
from types import MappingProxyType

from bindoff import regex as re
from bindoff.diagnostics import PatternError
from bindoff.document.drawn import USUALLY, Drawn
from bindoff.document.measurelines import Lettered, box_of
from bindoff.document.phrases import text
from bindoff.document.schematic import Ink, draw
from bindoff.document.sizetables import Figures, length_figures
from bindoff.document.tree import Blocks, Figure
from bindoff.document.voice import Voice
from bindoff.english import capital
from bindoff.plan.outlines.choose import Dimension, outline_of
from bindoff.plan.outlines.shapes import Outline
from bindoff.plan.picture import piece_gauges
from bindoff.plan.values import Kind
from bindoff.records import Record, replace
from bindoff.source.shape import PanelShape

DIMENSION_NAMES: Mapping[str, str] = MappingProxyType(
    {
        "around": "circumference",
        "depth": "depth with the brim turned up",
        "body": "edge to crown",
        "crown": "crown",
        "brim": "brim",
        "cuff": "cuff",
        "to thumb": "cuff to thumb opening",
        "hand": "hand, cuff to tip",
        "thumb": "thumb",
        "lower edge": "lower edge",
        "upper edge": "upper edge",
        "height": "height",
        "length": "length, all round",
        "width": "width",
    }
)
"""What a dimension is called in print, by the key that the source gives it."""

_WIDE = 1.5  # times as wide as high: such a drawing takes the width of the main column
_COLUMN, _MAIN = (85.0, 82.0), (126.0, 95.0)
_LARGER, _SMALLER = (72.0, 82.0), (48.0, 60.0)  # of two that stand side by side,
_PAIRED = 160.0  # ... which they do in so much width,
_SMALL_TYPE = 5.0  # ... if their letters are no larger; all mm
_GROWN = 1.4  # times: the room of a drawing with larger letters, which stand around the piece


class Schematic(Record):
    """The outline of a piece, and its measures with their letters; ``finished`` is the label of the
    finished measurement that tells the same, by the letter."""

    key: str
    outline: Outline
    dimensions: tuple[tuple[str, Dimension], ...]
    finished: Mapping[str, str]


def schematics(voice: Voice) -> tuple[Schematic, ...]:
    """The schematics of all pieces that have one; their letters stand in the order of the table of
    measurements, and then run on from piece to piece.

    Raises:
        PatternError: ``schematic.…`` for an outline that can't be drawn.
    """
    plan = voice.plan
    found: list[tuple[str, Outline, list[tuple[Dimension, str]]]] = []
    for key, piece in plan.source.pattern.pieces.items():
        if piece.schematic is None:
            continue
        outline, dimensions = outline_of(plan.measures, plan.pieces, key)
        found.append((key, outline, _shown(voice, dimensions)))
    labels = [label for _, _, meant in found for _, label in meant]
    letters = iter(_lettered(labels, tuple(plan.measures.finished)))
    return tuple(
        _schematic(key, outline, [(next(letters), *each) for each in meant])
        for key, outline, meant in found
    )


def _shown(voice: Voice, dimensions: Sequence[Dimension]) -> list[tuple[Dimension, str]]:
    """The measures that get a letter, with the labels of the finished measurements that tell the
    same. A spare one gets a letter for a label that no other has: the width below an edging is that
    of the edge."""
    labels = ["" if each.drawn.spare else _told(voice, each, ()) for each in dimensions]
    for at, each in enumerate(dimensions):
        if each.drawn.spare:
            labels[at] = _told(voice, each, labels)
    shown = [
        (each, label)
        for each, label in zip(dimensions, labels, strict=True)
        if label or not each.drawn.spare
    ]
    return [(each, label if _means(label, each, shown) else "") for each, label in shown]


def _lettered(labels: Sequence[str], rows: Sequence[str]) -> list[str]:
    """A letter for each measure: first for those with the label of a row, in the order of rows."""
    places = {label: at for at, label in enumerate(rows)}
    order = sorted(range(len(labels)), key=lambda at: places.get(labels[at], len(rows)))
    letters = dict(zip(order, _letters(), strict=False))
    return [letters[at] for at in range(len(labels))]


def _schematic(
    key: str, outline: Outline, lettered: Iterable[tuple[str, Dimension, str]]
) -> Schematic:
    in_order = sorted(lettered, key=lambda each: (len(each[0]), each[0]))
    dimensions = tuple((letter, each) for letter, each, _ in in_order)
    told = {letter: label for letter, _, label in in_order if label}
    return Schematic(key, outline, dimensions, told)


def schematic_blocks(voice: Voice, found: Sequence[Schematic], drawn: Drawn = USUALLY) -> Blocks:
    """A figure for every schematic."""
    blocks: list[Figure] = []
    for each, room in zip(found, _rooms(found, drawn), strict=True):
        piece = voice.plan.source.pattern.pieces[each.key]
        assert piece.schematic is not None
        lettered = [Lettered(letter, dimension.drawn) for letter, dimension in each.dimensions]
        look = Ink(drawn.letters, tint=drawn.colour)
        try:
            drawing = draw(_worn(voice, each, found), lettered, room, look)
        except PatternError as error:
            place = piece.schematic.place.span
            raise PatternError(replace(one, span=place) for one in error.findings) from None
        scale = "not to scale between sizes" if len(voice.sizes) > 1 else "not to scale"
        caption = text(f"{piece.title}: schematic, {scale}{_assumed(each.outline)}")
        blocks.append(Figure(drawing, _alt(voice, each, found), caption, f"schematic-{each.key}"))
    return tuple(blocks)


def _worn(voice: Voice, each: Schematic, found: Sequence[Schematic]) -> Outline:
    """The outline of a piece, and behind it those that hang from its lower edge."""
    left, _, right, low = _box(each.outline)
    behind = []
    for other in found:
        if _hangs_from(voice, other) == each.key:
            start, top, end, _ = _box(other.outline)
            aside = (left + right - start - end) / 2
            behind += [
                tuple((x + aside, y - top + low) for x, y in line) for line in other.outline.shapes
            ]
    return replace(each.outline, shapes=(*behind, *each.outline.shapes))


def _hangs_from(voice: Voice, each: Schematic) -> str | None:
    shape = voice.plan.source.pattern.pieces[each.key].schematic
    return shape.hangs_from if isinstance(shape, PanelShape) else None


def _assumed(outline: Outline) -> str:
    """What of a drawing follows from no row and no stitch."""
    if not outline.bend:
        return ""
    return (
        f". That its last edge bends through {outline.bend:.0f} degrees is an assumption: another "
        "bow gives another wingspan and neck edge"
    )


def further_measures(voice: Voice, found: Sequence[Schematic]) -> Iterator[Figures]:
    """What the schematics measure and the finished measurements do not tell."""
    for each in found:
        title = voice.plan.source.pattern.pieces[each.key].title
        for letter, dimension in each.dimensions:
            if letter not in each.finished:
                name = _named(voice, each.key, dimension)
                name = f"{title}, {name}" if len(found) > 1 else capital(name)
                yield length_figures(voice, name, dimension.mm, (letter,))


def _named(voice: Voice, key: str, dimension: Dimension) -> str:
    """What a measure of a piece is called."""
    return _name(dimension) + _edge_of(voice, key, dimension)


def _edge_of(voice: Voice, key: str, dimension: Dimension) -> str:
    """Which edge an upper or lower one is in the work, for a piece drawn with its cast-on edge up:
    empty for others."""
    if dimension.key not in ("upper edge", "lower edge"):
        return ""
    plan = voice.plan.piece(key)
    gauges = piece_gauges(voice.plan.measures, voice.plan.source.pattern.pieces[key])
    begun = next((step.begins for step in plan.steps if step.begins), None)
    closed = next(iter(plan.closings), None)
    if begun is None or closed is None or len(begun.parts) > 1:
        return ""
    edges = {"cast on": begun.parts[0], "bound off": closed.stitches}
    widths = {
        word: [gauge.width_of(count) for gauge, count in zip(gauges, counts, strict=True)]
        for word, counts in edges.items()
    }
    is_it = {word: _as_wide(dimension.mm, mm) for word, mm in widths.items()}
    upside_down = is_it["cast on" if dimension.key == "upper edge" else "bound off"]
    if not upside_down or all(is_it.values()):
        return ""
    return ", cast on" if dimension.key == "upper edge" else f", {voice.term['bound_off']}"


def _as_wide(one: Sequence[float], other: Sequence[float]) -> bool:
    return all(abs(a - b) < _ROUNDED for a, b in zip(one, other, strict=True))


def finished_letters(found: Sequence[Schematic]) -> Mapping[str, tuple[str, ...]]:
    """The letters of the schematics that stand for finished measurements, by their labels."""
    letters: dict[str, list[str]] = {}
    for each in found:
        for letter, label in each.finished.items():
            letters.setdefault(label, []).append(letter)
    return {label: tuple(some) for label, some in letters.items()}


def _rooms(found: Sequence[Schematic], drawn: Drawn) -> Iterator[tuple[float, float]]:
    """How large each drawing may be: two side by side, the larger piece with more room. One alone
    is as wide as a half of the main column, or as all of it where it is far wider than high."""
    pairs = drawn.width >= _PAIRED and drawn.letters <= _SMALL_TYPE
    sizes = [_size(each.outline) for each in found]
    for at, (wide, high) in enumerate(sizes):
        other = at + 1 if at % 2 == 0 else at - 1
        paired = other < len(sizes)
        smaller = paired and (wide * high, other) < (sizes[other][0] * sizes[other][1], at)
        more = _GROWN if drawn.letters > _SMALL_TYPE else 1.0
        if pairs and paired:
            yield _SMALLER if smaller else _LARGER
        elif smaller:
            yield _SMALLER[0] * more, _SMALLER[1] * more
        else:
            width, height = _MAIN if wide > _WIDE * high else _COLUMN
            yield min(width * more, drawn.width), height * more


def _size(outline: Outline) -> tuple[float, float]:
    """The width and the height of a piece."""
    left, top, right, low = _box(outline)
    return right - left, low - top


def _box(outline: Outline) -> tuple[float, float, float, float]:
    return box_of([point for line in outline.shapes for point in line])


def _alt(voice: Voice, each: Schematic, found: Sequence[Schematic]) -> str:
    pieces = voice.plan.source.pattern.pieces
    behind = [pieces[other.key].title for other in found if _hangs_from(voice, other) == each.key]
    hung = "".join(f", {voice.amid(title)} below it" for title in behind)
    told = "; ".join(
        f"{letter}: {each.finished.get(letter) or _named(voice, each.key, dimension)}"
        for letter, dimension in each.dimensions
    )
    return f"Outline of {each.outline.kind}{hung}. Letters: {told}."


def _name(dimension: Dimension) -> str:
    return DIMENSION_NAMES.get(dimension.key, dimension.name)


def _told(voice: Voice, dimension: Dimension, told: Collection[str]) -> str:
    """The label of the finished measurement that is written or comes out the same in every size;
    empty if there is none but those in ``told``."""
    finished = voice.plan.source.pattern.finished
    for label, measure in voice.plan.measures.finished.items():
        written = str(finished[label].written)
        if label in told or measure.kind is not Kind.LENGTH:
            continue
        if dimension.written:
            same = _plain(written) == _plain(dimension.written)
        else:
            pairs = zip(measure.rounded, dimension.mm, strict=True)
            same = _may_be(written, dimension) and all(abs(a - b) < _SAME for a, b in pairs)
        if same:
            return label
    return ""


def _means(label: str, dimension: Dimension, shown: Sequence[tuple[Dimension, str]]) -> bool:
    """Whether a label is meant for a measure, and not for another one of the piece that comes out
    the same and has more words in common with it: a leg is not the foot."""
    same = [_in_common(label, each) for each, other in shown if other == label]
    return bool(label) and (bool(dimension.written) or _in_common(label, dimension) == max(same))


def _in_common(label: str, dimension: Dimension) -> int:
    return len(set(label.lower().split()) & set(_name(dimension).lower().split()))


def _may_be(written: str, dimension: Dimension) -> bool:
    """Whether an amount may be that: a width follows from stitches, a height from rows."""
    helper = _HELPER.match(written)
    return helper is None or (helper[1] == "height") is dimension.drawn.rows


_HELPER = re.compile(r"(?:\w+_)?(width|height)\(")
_SAME = 0.05  # mm
_ROUNDED = 2.6  # mm: half of the least step that lengths are rounded to


def _plain(written: str) -> str:
    """An amount without its spaces, which mean nothing."""
    return "".join(written.split())


def _letters() -> Iterator[str]:
    """a to z, then aa, ab and so on; but l and o, which look like a line and a nought."""
    some = [letter for letter in ascii_lowercase if letter not in "lo"]
    for length in count(1):
        yield from ("".join(letters) for letters in product(some, repeat=length))
