"""The picture of a finished piece, of the middle size, as its schematic lies."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from math import atan2, pi

from bindoff.document.drawing import Drawing, Lines, Rect, Shape, moved, reach, scaled
from bindoff.document.fabric import darker
from bindoff.document.finished.added import hanging, hangs, tie_of, tied
from bindoff.document.finished.bowed import bowed
from bindoff.document.finished.courses import Courses, courses_of, seen_of
from bindoff.document.finished.laidflat import Patch, angle_of, filled, scale_of
from bindoff.document.finished.socks import sock_patches
from bindoff.document.finished.stitched import main_yarn
from bindoff.document.finished.strips import Strip, woven
from bindoff.document.voice import Voice
from bindoff.plan.gauge import Gauge
from bindoff.plan.outlines.choose import outline_of
from bindoff.plan.outlines.shapes import Line, Outline
from bindoff.plan.picture import piece_gauges
from bindoff.plan.steps.pick_up import PickUp
from bindoff.plan.worked import PiecePlan
from bindoff.records import Record, replace
from bindoff.source.steps.pick_up_along import PickUpAlongStep

_ONE_SLEEVE = ", with one of its sleeves"  # of a schematic; the picture has both
_CRESCENT, _TRIANGLE = "a crescent shawl", "a triangular shawl"
_SLEEVE = "sleeve"  # in the key of a piece, as for its outline
_TUFT = "a tuft above the tie"
_PAIRS = ("a mitten lying flat", "a glove lying flat")
_BETWEEN = 0.06  # of the width of one
_AIR = 0.07  # of the picture's height: paper around the piece
_THUMB = pi / 6  # a thumb leans outwards, as its outline does
_FOLD = 0.5  # the light of a fold
_WITHIN = 0.7  # ... and of the inside of a ring
_PALE = 0.9  # how far the ground behind the piece goes from its yarn to white


class Finished(Record):
    """A piece as it will look: the picture, the piece's key, how it lies in words, and the size
    shown."""

    drawing: Drawing
    piece: str
    kind: str
    size: int


def finished(voice: Voice, width: float, height: float, painted: bool = True) -> Finished | None:
    """The first piece whose outline is known, on a pale ground ``width`` by ``height`` mm.

    ``None`` where no piece has one that rows can fill. The ground is empty unless ``painted``.
    """
    plan = voice.plan
    for piece in plan.pieces:
        if plan.source.pattern.pieces[piece.key].schematic is None:
            continue
        outline, _ = outline_of(plan.measures, plan.pieces, piece.key)
        size = len(plan.measures.sizes) // 2
        gauge = piece_gauges(plan.measures, plan.source.pattern.pieces[piece.key])[size]
        patches = tuple(_patches(voice, piece, outline, size, gauge))
        if not patches:
            return None
        if plan.source.pattern.pieces[piece.key].make == 2 and outline.kind in _PAIRS:
            patches = _pair(patches)
        colours = tuple((key, yarn.colour) for key, yarn in plan.source.pattern.yarns.items())
        drawing = Drawing(width, height, ())
        if painted:
            folds = _gathers(outline)
            drawing = _drawn(patches, outline.kind, folds, gauge, colours, (width, height))
        return Finished(
            drawing,
            piece.key,
            ", ".join([outline.kind.removesuffix(_ONE_SLEEVE), *_below(voice, piece)]),
            size,
        )
    return None


def _below(voice: Voice, piece: PiecePlan) -> Iterator[str]:
    """What hangs from a piece, in words."""
    yield from (f"{voice.amid(title)} below it" for title in hangs(voice, piece))


def _gathers(outline: Outline) -> tuple[Line, ...]:
    """The folds that a gathered end lies in; where a crown begins there is none to be seen."""
    return outline.folds if "tube" in outline.kind else ()


def _pair(patches: Sequence[Patch | Strip]) -> tuple[Patch | Strip, ...]:
    """A left one and a right one, side by side."""
    xs = [x for patch in patches for x, _ in patch.outline]
    middle = max(xs) + _BETWEEN * (max(xs) - min(xs))

    def flip(line: Line) -> Line:
        return tuple((2 * middle - x, y) for x, y in line)

    def flipped(patch: Patch | Strip) -> Patch | Strip:
        if isinstance(patch, Strip):
            return replace(patch, one=flip(patch.one), other=flip(patch.other))
        return replace(patch, outline=flip(patch.outline), turn=-patch.turn)

    return (*patches, *map(flipped, patches))


@lru_cache(maxsize=16)  # most of what is written of a pattern leaves its piece as it is
def _drawn(
    patches: tuple[Patch | Strip, ...],
    kind: str,
    folds: tuple[Line, ...],
    gauge: Gauge,
    by_yarn: tuple[tuple[str, str], ...],
    room: tuple[float, float],
) -> Drawing:
    """The piece on its ground, ``room`` wide and high in mm, in the colours of its yarns."""
    colours = dict(by_yarn)
    main = colours[main_yarn(_largest(patches).courses)]
    return on_ground(_piece(patches, kind, folds, gauge, colours), *room, main)


def _largest(patches: Sequence[Patch | Strip]) -> Patch | Strip:
    """The first of those that take most room."""

    def room(patch: Patch | Strip) -> float:
        xs, ys = [x for x, _ in patch.outline], [y for _, y in patch.outline]
        return (max(xs) - min(xs)) * (max(ys) - min(ys))

    return max(patches, key=room)


def _piece(
    patches: Sequence[Patch | Strip],
    kind: str,
    folds: Sequence[Line],
    gauge: Gauge,
    colours: dict[str, str],
) -> tuple[Shape, ...]:
    merged = scale_of([patch.outline for patch in patches], gauge, counted=kind == _CRESCENT)
    found: list[Shape] = []
    for patch in patches:
        if isinstance(patch, Strip):
            found += woven(patch, patch.gauge or gauge, colours, merged)
        else:
            fill = bowed if kind == _CRESCENT else filled
            found += fill(patch, patch.gauge or gauge, colours, merged)
    last = _largest(patches).courses[-1]
    shade = darker(colours[last.yarns[len(last.yarns) // 2]], _FOLD)
    for line in folds:
        segments = tuple((*a, *b) for a, b in pairwise(line))
        found.append(Lines(segments, shade, 1.6))
    return tuple(found)


def _patches(
    voice: Voice, piece: PiecePlan, outline: Outline, size: int, gauge: Gauge
) -> Iterator[Patch | Strip]:
    """The parts of an outline with the rows that fill them, the hindmost first."""
    tubes = next((step.tubes for step in piece.steps if step.tubes), None)
    if tubes is not None:
        seen, brim = seen_of(tubes[size])
        if "ring" in outline.kind:
            yield from _ringed(outline, seen)
            return
        yield from hanging(voice, piece, size)
        yield Patch(outline.shapes[0], seen, squeezed=True)
        tie = tie_of(voice, piece, size) if _TUFT in outline.kind else None
        if tie is not None:
            yield from tied(voice, tie, outline, size)
        else:
            yield from (Patch(shape, seen[:brim] or seen) for shape in outline.shapes[1:])
        return
    runs = courses_of(voice, piece, size)
    if not runs:
        return
    main = runs[0]
    kind = outline.kind
    if kind == _CRESCENT:
        yield Patch(outline.shapes[0], tuple(reversed(main)), down=True, around=False)
    elif kind == _TRIANGLE:
        yield from _winged(outline.shapes[0], tuple(reversed(main)))
    elif "sock" in kind:
        yield from sock_patches(outline, main, gauge)
    elif "yoke" in kind:
        yield from _yoked(voice, piece, outline, main, size)
    elif "mitten" in kind or "glove" in kind:
        limbs = runs[1:] or (main,)
        leans = _THUMB if "mitten" in kind else 0.0
        for at, shape in enumerate(outline.shapes[1:]):
            turn = leans if at == 0 else 0.0
            yield Patch(shape, limbs[min(at, len(limbs) - 1)], turn=turn)
        yield Patch(outline.shapes[0], main)
    else:
        hat = "hat" in kind
        for shape in outline.shapes:
            yield Patch(shape, main, around=hat or "tube" in kind, fan=hat)


def _ringed(outline: Outline, courses: Courses) -> Iterator[Strip]:
    """A tube joined to a ring: its rows run around it, and their join lies to one side in front."""
    half = len(courses) // 2
    turned = (*courses[-half * 3 // 4 :], *courses[: -half * 3 // 4])
    rows = {"front": turned[:half], "back": turned[half:]}
    for part in outline.parts:
        light = _WITHIN if part.name == "back" else 1.0
        yield Strip(part.one, part.other, rows[part.name], light=light)


def _winged(outline: Line, courses: Courses) -> Iterator[Patch]:
    """A triangular shawl: two wings, whose rows lie along its lower sides and meet in its spine."""
    (left, _), (right, _), (_, deep) = outline
    for end in (left, right):
        wing = ((0.0, 0.0), (end, 0.0), (0.0, deep))
        turn = atan2(-deep if end > 0 else deep, abs(end))
        yield Patch(wing, courses, turn=turn, down=True, around=False)


def _yoked(
    voice: Voice, piece: PiecePlan, outline: Outline, main: Courses, size: int
) -> Iterator[Patch | Strip]:
    """A garment worked down from the neck: both sleeves behind the body, and its neckband."""
    arm, body = outline.shapes[0], outline.shapes[-1]
    others = [courses_of(voice, each, size) for each in voice.plan.pieces if each is not piece]
    sleeves = max((run for runs in others for run in runs), key=len, default=main)
    along = next((m for m in outline.measures if m.side == "along" and m.rows), None)
    turn = 0.0
    if along is not None:
        turn = atan2(*angle_of(along.end, along.start))
        turn = turn - pi if turn > pi / 2 else turn + pi if turn < -pi / 2 else turn
    joining = _joining(voice)
    if joining is not None:
        yield from _over_body(voice, main, outline, joining, turn, size)
        return
    worked = tuple(reversed((*main[: len(main) // 3], *sleeves)))
    right = Patch(arm, worked, turn=turn, down=True)
    yield right
    yield replace(right, outline=tuple((-x, y) for x, y in arm), turn=-turn)
    band = next((courses_of(voice, e, size) for e in voice.plan.pieces if _is_along(e, piece)), ())
    bands = [Strip(part.one, part.other, band[0], across=True) for part in outline.parts if band]
    yield from bands[:-1]
    yield Patch(body, tuple(reversed(main)), down=True)
    yield from bands[-1:]


def _joining(voice: Voice) -> PiecePlan | None:
    """The yoke of a garment worked up from its hem: it begins with a body and two sleeves."""
    for piece in voice.plan.pieces:
        first = next((step for step in piece.steps if step.begins is not None), None)
        if first is not None and isinstance(first.detail, PickUp) and len(first.detail.parts) > 2:
            return piece
    return None


def _over_body(
    voice: Voice, main: Courses, outline: Outline, yoke: PiecePlan, turn: float, size: int
) -> Iterator[Patch]:
    """A garment worked up from its hem: its yoke goes on over body and sleeves."""
    arm, body = outline.shapes[0], outline.shapes[-1]
    over = next(iter(courses_of(voice, yoke, size)), ())
    sleeves = next((each for each in voice.plan.pieces if _SLEEVE in each.key), None)
    of_arm = next(iter(courses_of(voice, sleeves, size)), main) if sleeves else main
    right = Patch(arm, (*of_arm, *over), turn=turn)
    yield right
    yield replace(right, outline=tuple((-x, y) for x, y in arm), turn=-turn)
    yield Patch(body, (*main, *over))


def _is_along(band: PiecePlan, piece: PiecePlan) -> bool:
    """Whether a piece is picked up along another."""
    step = next((each.step for each in band.steps if each.begins is not None), None)
    edges = step.pick_up_along if isinstance(step, PickUpAlongStep) else ()
    return any(edge.of == piece.key for edge in edges)


def on_ground(shapes: Sequence[Shape], width: float, height: float, yarn: str) -> Drawing:
    """The piece in the middle of a pale ground, as large as it leaves some air."""
    left, top, right, low = reach(shapes)
    room = width * (1 - 2 * _AIR), height * (1 - 2 * _AIR)
    scale = min(room[0] / (right - left), room[1] / (low - top))
    small = scaled(Drawing(right - left, low - top, tuple(moved(shapes, -left, -top))), scale)
    x, y = (width - small.width) / 2, (height - small.height) / 2
    ground = Rect(0.0, 0.0, width, height, _pale(yarn))
    return Drawing(width, height, (ground, *moved(small.shapes, x, y)))


def _pale(colour: str) -> str:
    parts = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return "#" + "".join(f"{round(each + (255 - each) * _PALE):02x}" for each in parts)
