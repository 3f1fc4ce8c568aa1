"""Stated widths and heights against what the stitches and rounds of the pieces come to."""

from collections.abc import Iterator
from functools import lru_cache, reduce
from itertools import combinations, pairwise, product
from operator import or_

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.texts.told.truths import between_markers
from bindoff.checks.walk import length_said, sizes_said
from bindoff.diagnostics import Severity
from bindoff.plan.picture import piece_gauges
from bindoff.plan.steps.pick_up_along import PickedUp
from bindoff.plan.steps.work import Rows
from bindoff.plan.values import Kind, Measure
from bindoff.plan.worked import PiecePlan
from bindoff.records import Record
from bindoff.source.amount import Amount
from bindoff.source.formula.nodes import Binary, Call, Name, walk
from bindoff.source.lengths import parse_length
from bindoff.source.shape import RingShape
from bindoff.source.texts import amounts

_WIDTH = re.compile(r"\b(circumference|around|width|wide|chest|bust|across|hip|waist|edge)\b")
_HEIGHT = re.compile(r"\b(depth|deep|height|high|length|long|tall|brim|cuff|hand|thumb|body)\b")
_TURNED_UP = re.compile(r"\b(?:folded|turned|rolled)[ -](?:up|back|over)\b", re.IGNORECASE)
_AROUND = re.compile(r"\b(?:around|circumference)\b")
_FROM_THE_START = re.compile(
    r"sleeve length|length of (?:the )?sleeves?|(?:(?:finished|total|full|overall|whole) )*length"
)
_WHOLE = re.compile(
    r"(?:(?:finished|total|full|overall|whole) )*(?:length|height|depth)"
    r"|leg (?:above|to) the heel.*"
)
_LONG = re.compile(r"\b(?:length|long)\b")
_WIDTH_OF = re.compile(r"(?:\d+ ?\* ?)?(?:\w+_)?width\(")
_HEIGHT_OF = re.compile(r"(?:(\w+)_)?height\([^()]*\)")
_AND_A_BAND = re.compile(r"(.+?) ?\+ ?(\d+(?:\.\d+)?) ?(mm|cm|in)")
_SO_MANY = re.compile(
    r"(?:(?<!\w)\w+_)?(?:width|height)\((?:(\d+) ?\* ?\w+|\w+ ?\* ?(\d+))\)"
    r"|(\d+) ?\* ?(?:\w+_)?(?:width|height)\(\w+\)"
)
_SIDEWAYS = re.compile(r"\b(?:sideways|sidewise|side to side|(?:one )?side to the other)\b", re.I)
_INTO_A_RING = re.compile(
    r"\b(?:sew|sewn|seam|seamed|join|joined|graft|grafted|close|closed)\b[^.;]{0,50}?"
    r"\b(?:ring|loop|circle|tube|short (?:ends|edges)"
    r"|cast[- ]on edge to the (?:bound|cast)[- ]off"
    r"|(?:bound|cast)[- ]off edge to the cast[- ]on|two ends|ends together"
    r"|start to (?:the )?end)\b",
    re.I,
)
_LIES_DOUBLE = re.compile(
    r"\b(?:lies|lie|lying|laid|lay)\b[^.;]{0,25}?\b(?:flat and double|double|doubled|in two layers)"
    r"|\btwo layers\b|\bdouble (?:scarf|layer)",
    re.I,
)
"""What lies flat is half as wide as the way around it."""
_OF_A_PART = re.compile(r"\b(?:of|from|band|border|edge)\b", re.I)
_PART = 0.03
_FEW_PIECES = 12  # that lie side by side in every way


class _Real(Record):
    """A length that the pieces have, in mm, and half a stitch or round of it.

    ``whole`` says that it begins or ends with a piece, ``begins`` that it begins with one,
    ``folded`` that it is half of what lies double; ``piece`` is that which has it alone.
    """

    mm: float
    half: float
    whole: bool = True
    begins: bool = True
    folded: bool = False
    piece: str = ""


@check(
    id="stated.width",
    title="Stated widths are gauge times stitches",
    looks_at="finished widths and those of the schematics against every stitch count of the "
    "pieces, lying flat or opened, and against flat pieces sewn together, within half a stitch "
    "or 3 %; in a pattern that is said to be worked sideways also against the rows",
    why="knitters measure against the stated width; if it is not what the stitches give, they rip "
    "out good work or trust a wrong size",
    severity=Severity.WARNING,
    remedy="Make the width from the count it belongs to with `width(…)`, or correct the count",
)
def stated_widths(context: Context) -> Iterator[Finding]:
    """One finding for each width that no count gives."""
    yield from _unfounded(context, _WIDTH, "no count of stitches")


@check(
    id="stated.height",
    title="Stated heights are gauge times rounds",
    looks_at="finished heights and those of the schematics against the rounds of any run of steps "
    "(a length, height or depth of the whole: a run that begins or ends a piece; a sleeve length: "
    "one that begins it), of a step folded double, and of pieces one above another, within half a "
    "round, or 3 % where it is not so many rows of a pattern from the machine; the curve of a "
    "crown left aside; in a pattern that is said to be worked sideways also against the stitches",
    why="a depth that the rounds don't give makes a hat that ends above the ears",
    severity=Severity.WARNING,
    remedy="Make the height from the rounds it belongs to with `height(…)`, or correct the rounds",
)
def stated_heights(context: Context) -> Iterator[Finding]:
    """One finding for each height that no run of rounds gives."""
    yield from _unfounded(context, _HEIGHT, "no run of rounds")


def _unfounded(context: Context, words: "re.Pattern[str]", what: str) -> Iterator[Finding]:
    sizes = range(len(context.source.sizes))
    doubled = any(True for prose in context.prose for _ in prose.found(_LIES_DOUBLE)) and not any(
        step.flat for plan in context.plan.pieces for step in plan.steps if any(step.rounds)
    )
    ring = any(True for prose in context.prose for _ in prose.found(_INTO_A_RING))
    sideways = any(True for prose in context.prose for _ in prose.found(_SIDEWAYS))
    if sideways:
        what = "no count of stitches or rows"
    lengths = (_widths, _heights) if sideways else (_heights if words is _HEIGHT else _widths,)
    real = [[each for some in lengths for each in some(context, size)] for size in sizes]
    told = set()
    for label, measure, key, amount in _lengths(context, words):
        whole = _WHOLE.fullmatch(label.lower()) is not None
        fitting = [[r for r in some if r.whole or not whole] for some in real]
        if _FROM_THE_START.fullmatch(label.lower()):
            fitting = [[r for r in some if r.begins] for some in fitting]
        if _AROUND.search(label.lower()):
            fitting = [[r for r in some if not r.folded] for some in fitting]
        if doubled and label.lower() in ("width", "finished width"):
            fitting = [[r for r in some if r.folded] for some in fitting]
        if key and not sideways and words is _WIDTH:
            fitting = [[r for r in some if r.piece == key] for some in fitting]
        if _LONG.search(label.lower()) and _WIDTH_OF.match(amount.place.text):
            # A collar is long across its rows.
            fitting = [[*some, *_widths(context, size)] for size, some in enumerate(fitting)]
        if words is _WIDTH and _OF_A_PART.search(label) and _HEIGHT_OF.match(amount.place.text):
            # A band that is knitted along is as wide as its rows are high.
            fitting = [[*some, *_heights(context, size)] for size, some in enumerate(fitting)]
        if _AROUND.search(label.lower()) and _HEIGHT_OF.match(amount.place.text) and ring:
            # A strip that is sewn into a ring is as far around as it is long.
            fitting = [[*some, *_heights(context, size)] for size, some in enumerate(fitting)]
        if not all(any(r.mm for r in some) for some in fitting) or _TURNED_UP.search(label):
            continue  # worked in words alone, or a length less what lies double
        part = 0.0 if _in_rows(context, amount) else _PART
        beside = _beside(context, amount)
        band = _band(context, amount)
        wrong = [
            size
            for size in sizes
            if not _given(measure.rounded[size], fitting[size], part)
            and not (
                beside
                and _given(
                    measure.rounded[size] / beside,
                    [*fitting[size], *_between_markers(context, size)],
                    part,
                )
            )
            and not (
                band
                and _given(measure.rounded[size] - band, fitting[size], part)
                and _given(band, [*_bands(context, size)], part)
            )
        ]
        if wrong and measure.rounded not in told:
            told.add(measure.rounded)
            size = wrong[0]
            mm = measure.rounded[size]
            yield Finding(
                f"{what} gives `{label}` in {sizes_said(context, wrong)}: stated for size "
                f"{context.source.sizes[size]} is {length_said(context, mm)}, and the pieces have "
                f"{_nearest(context, mm, fitting[size])}",
                measure.span,
            )


def _beside(context: Context, amount: Amount) -> int:
    """How many equal pieces lie side by side in a length that is written so: 5 in
    ``width(5 * half)`` or ``5 * width(half)``; 0 where it is not, or fewer are made."""
    found = _SO_MANY.fullmatch(amount.place.text.strip())
    made = [p.make for p in context.pattern.pieces.values() if p.worked == "flat"]
    count = int(found[1] or found[2] or found[3]) if found else 0
    return count if max(made, default=0) > 1 and 1 < count <= sum(made) else 0


def _between_markers(context: Context, size: int) -> Iterator[_Real]:
    """The widths between markers: a square that is decreased at its middle is so wide."""
    for plan in context.plan.pieces:
        gauge = piece_gauges(context.plan.measures, context.pattern.pieces[plan.key])[size]
        for step in plan.steps:
            for counts in between_markers(step):
                yield _Real(gauge.width_of(counts[size]), gauge.stitch_mm / 2, piece=plan.key)


def _band(context: Context, amount: Amount) -> float:
    """The length in mm that is typed behind a width, as in ``width(back) + 2.7 cm``; else 0."""
    found = _AND_A_BAND.fullmatch(amount.place.text.strip())
    return parse_length(f"{found[2]} {found[3]}") if found else 0.0


def _bands(context: Context, size: int) -> Iterator[_Real]:
    """The heights of the pieces that are picked up along edges: they make a garment wider."""
    for plan in context.plan.pieces:
        if any(isinstance(step.detail, PickedUp) for step in plan.steps):
            gauge = piece_gauges(context.plan.measures, context.pattern.pieces[plan.key])[size]
            for rounds in {step.after[size].most for step in plan.steps}:
                yield _Real(gauge.height_of(rounds), gauge.round_mm)


def _nearest(context: Context, mm: float, real: list[_Real]) -> str:
    """The lengths next below and next above."""
    below = max((each.mm for each in real if each.mm < mm), default=0.0)
    above = min((each.mm for each in real if each.mm >= mm), default=0.0)
    said = [length_said(context, each) for each in (below, above) if each]
    return " or ".join(said) + " at the nearest"


def _in_rows(context: Context, amount: Amount) -> bool:
    """Whether a length is written as the height of so many rows, in a pattern from the machine:
    its counter shows them, and who knits a piece of it by hand counts too. There is no slack then,
    where the pieces in that gauge are worked by count and over all their stitches."""
    found = _HEIGHT_OF.fullmatch(amount.place.text.strip())
    if found is None or not any(plan.from_machine for plan in context.plan.pieces):
        return False
    pieces = context.pattern.pieces
    of_gauge = [plan for plan in context.plan.pieces if pieces[plan.key].gauge == found[1]]
    return bool(of_gauge) and all(plan.from_machine or _by_count(plan) for plan in of_gauge)


def _by_count(plan: PiecePlan) -> bool:
    """Whether no step is worked to a length, and no row is short."""
    measured = any(isinstance(step.detail, Rows) and step.detail.until for step in plan.steps)
    return not measured and not plan.short_rows


def _given(mm: float, real: list[_Real], part: float) -> bool:
    return not real or any(abs(mm - each.mm) <= max(each.half, part * each.mm) for each in real)


def _lengths(
    context: Context, words: "re.Pattern[str]"
) -> Iterator[tuple[str, Measure, str, Amount]]:
    """Finished and schematic lengths whose label is of one kind: widths win over heights.

    Each with the piece whose schematic it is on, or none, and as it is written.
    """
    height = words is _HEIGHT
    for label, measure in context.plan.measures.finished.items():
        if _is(label.lower(), words, height) and measure.kind is Kind.LENGTH:
            yield label, measure, "", context.pattern.finished[label]
    for key, piece in context.pattern.pieces.items():
        if piece.schematic is None:
            continue
        for label, amount in sorted(piece.schematic.dimensions.items()):
            if _is("high" if label == "to thumb" else label, words, height):
                measure = context.plan.measures.amount(amount)
                if measure.kind is Kind.LENGTH:
                    yield f"{label} of {key}", measure, key, amount


def _is(label: str, words: "re.Pattern[str]", height: bool) -> bool:
    return bool(words.search(label)) and not (height and _WIDTH.search(label))


def _widths(context: Context, size: int) -> Iterator[_Real]:
    """Every count of every piece, whole and folded; flat pieces also sewn side by side.

    Those are taken as wide as at their lower edge, or at their widest.
    """
    flat: list[tuple[float, ...]] = []
    most = 0.0
    for plan in context.plan.pieces:
        piece = context.pattern.pieces[plan.key]
        gauge = piece_gauges(context.plan.measures, piece)[size]
        half = gauge.stitch_mm / 2
        counts = [step.after[size].stitches for step in plan.steps if step.after[size].stitches]
        for count in sorted(set(counts)):
            yield _Real(gauge.width_of(count), half, piece=plan.key)
            yield _Real(gauge.width_of(count) / 2, half, folded=True, piece=plan.key)
        if piece.gauge is not None and counts:  # it may end in the fabric of the main gauge
            main = context.plan.measures.sizes[size].gauges[""]
            yield _Real(main.width_of(counts[-1]), main.stitch_mm / 2, piece=plan.key)
        joined = any(step.closes and step.closes.to == "" for step in plan.steps)
        if joined or isinstance(piece.schematic, RingShape):
            # A tube or strip joined to its own start is a ring, as far around as it is long.
            around = gauge.height_of(plan.steps[-1].after[size].height)
            yield _Real(around, gauge.round_mm / 2, piece=plan.key)
        if piece.worked == "flat" and counts:
            edges = sorted({counts[0], max(counts)})
            flat += [tuple(gauge.width_of(count) for count in edges)] * min(piece.make, 2)
            most = max(most, half)
    yield from _side_by_side(tuple(flat), most)


@lru_cache(maxsize=8)
def _side_by_side(pieces: tuple[tuple[float, ...], ...], most: float) -> tuple[_Real, ...]:
    """Two and three of the pieces beside each other, each of them as wide as one of its edges.

    Widths of many pieces are added in steps of an eighth of ``most``, each sum once.
    """
    if len(pieces) <= _FEW_PIECES:
        found = [
            sum(widths)
            for beside in (2, 3)
            for together in combinations(pieces, beside)
            for widths in product(*together)
        ]
    else:
        step = most / 8
        one = two = three = 0  # a bit for each width that so many pieces may have
        for edges in pieces:
            own = [round(width / step) for width in edges]
            three = reduce(or_, (two << steps for steps in own), three)
            two = reduce(or_, (one << steps for steps in own), two)
            one = reduce(or_, (1 << steps for steps in own), one)
        reached = bin(two | three)[:1:-1]
        found = [step * at for at, bit in enumerate(reached) if bit == "1"]
    return tuple(_Real(mm, most) for mm in dict.fromkeys(found))


def _heights(context: Context, size: int) -> Iterator[_Real]:
    """Every run of steps of every piece, single steps also folded; pieces one above another.

    Where there are short rows, along the stitches that had the fewest and those that had the most.
    """
    wholes: list[set[float]] = []
    margin = 0.0
    for plan in context.plan.pieces:
        piece = context.pattern.pieces[plan.key]
        gauge = piece_gauges(context.plan.measures, piece)[size]
        half = gauge.round_mm / 2
        after = [step.after[size] for step in plan.steps]
        least = tuple(sorted({0, *(each.height for each in after)}))
        most = tuple(sorted({0, *(each.most for each in after)}))
        for stops in dict.fromkeys((least, most)):
            for rounds, whole, begins in _runs(stops):
                yield _Real(gauge.height_of(rounds), half, whole, begins)
            for first, last in pairwise(stops):
                yield _Real(gauge.height_of(last - first) / 2, half, whole=False)
            yield _Real(gauge.height_of(stops[-1]) / 2, half)
        yield from (_Real(gauge.height_of(rounds), half) for rounds in _branched(plan, size))
        for step in plan.steps:
            for tube in step.tubes[size : size + 1]:
                for segment in tube.tube.segments:
                    yield _Real(gauge.height_of(segment.last - segment.first + 1), half)
        wholes.append({gauge.height_of(stops[-1]) for stops in (least, most)})
        margin = max(margin, half)
    for one, other in combinations(wholes, 2):
        yield from (_Real(sum(heights), margin) for heights in product(one, other))
    onward = [mm for plan in context.plan.pieces for mm in _past_what_is_held(context, plan, size)]
    later = [
        heights
        for plan, heights in zip(context.plan.pieces, wholes, strict=True)
        if plan.steps and plan.steps[0].begins and plan.steps[0].begins.by is None
    ]
    for run, heights in product(onward, later):
        yield from (_Real(run + height, margin) for height in heights)


@lru_cache(maxsize=8)
def _runs(stops: tuple[int, ...]) -> tuple[tuple[int, bool, bool], ...]:
    """The rounds of every run from one stop to a later one, each number of them once: whether such
    a run begins or ends the piece, and whether it begins it."""
    low, high = stops[0], stops[-1]
    reached = sum(1 << stop - low for stop in stops)
    apart = 0  # a bit for each number of rounds
    for stop in stops:
        apart |= reached >> stop - low
    begin = {stop for stop in stops if stop > 0}
    end = {high - stop for stop in stops[:-1]} - begin
    amid = {rounds for rounds in range(1, high - low + 1) if apart >> rounds & 1} - begin - end
    return (
        *((rounds, True, True) for rounds in sorted(begin)),
        *((rounds, True, False) for rounds in sorted(end)),
        *((rounds, False, False) for rounds in sorted(amid)),
    )


def _past_what_is_held(context: Context, plan: PiecePlan, size: int) -> Iterator[float]:
    """How far the rows go on, in mm, past a row that holds stitches by name: a foot, without the
    heel that is made of them afterwards."""
    gauge = piece_gauges(context.plan.measures, context.pattern.pieces[plan.key])[size]
    stops = {step.after[size].height for step in plan.steps}
    for step in plan.steps:
        if isinstance(step.detail, Rows) and step.detail.divided:
            held = step.after[size].height
            yield from (gauge.height_of(stop - held) for stop in stops if stop > held)


def _branched(plan: PiecePlan, size: int) -> Iterator[int]:
    """Rounds from the start to where stitches are held, and on in what is made of them later: a
    foot with the heel that is put in last."""
    for index, step in enumerate(plan.steps):
        if index and step.begins and step.begins.by is None:
            begins = step.before[size].height
            later = {each.after[size].height for each in plan.steps[index:]}
            ends = {each.after[size].height for each in plan.steps[:index]}
            yield from sorted({end + last - begins for end in ends for last in later})


@check(
    id="measure.direction",
    title="Widths are made of stitches, heights of rounds",
    looks_at="`width(…)` of nothing but counts of rounds, and `height(…)` of nothing but counts of "
    "stitches, in all measures and finished figures",
    why="stitches are wider than high: a height by stitches is a third too long",
    severity=Severity.WARNING,
    remedy="Use `height(…)` for rounds and `width(…)` for stitches",
    needs=Needs.MEASURES,
)
def directions(context: Context) -> Iterator[Finding]:
    """One finding for each formula."""
    kinds = {name: _counted(amount) for name, amount in context.pattern.measures.items()}
    for amount in amounts(context.pattern):
        for formula in amount.formulas:
            if not any(map(_directed, formula.functions)):
                continue
            for call in walk(formula.root):
                if not isinstance(call, Call) or not _directed(call.function):
                    continue
                parts = [*walk(call)]
                if any(isinstance(each, Binary) and each.sign in "*/" for each in parts):
                    continue  # stitches may grow with the rounds
                inside = {kinds.get(each.name) for each in parts if isinstance(each, Name)}
                across = call.function.endswith("width")
                wrong, right = (Kind.ROUNDS, "height") if across else (Kind.STITCHES, "width")
                if inside == {wrong}:
                    yield Finding(
                        f"`{call.function}(…)` is made of {wrong.value} alone",
                        formula.place(call),
                        f"Write `{call.function.removesuffix('width').removesuffix('height')}"
                        f"{right}(…)` if {wrong.value} are meant",
                    )


def _counted(amount: Amount) -> Kind | None:
    """What a measure counts that is made of a length at once; ``None`` for all others, since
    stitches may be reckoned from rounds."""
    found: set[Kind | None] = set()
    for formula in amount.formulas:
        made = formula.root.function if isinstance(formula.root, Call) else ""
        found.add(_KINDS.get(_last(made.removesuffix("_up").removesuffix("_down"))))
    return found.pop() if len(found) == 1 else None


def _directed(function: str) -> bool:
    return _last(function) in ("width", "height")


def _last(function: str) -> str:
    """The helper without the name of a gauge before it."""
    return function.rpartition("_")[2]


_KINDS = {"rounds": Kind.ROUNDS, "rows": Kind.ROUNDS, "stitches": Kind.STITCHES}


CHECKS = (stated_widths, stated_heights, directions)
