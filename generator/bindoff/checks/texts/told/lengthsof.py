"""Lengths that a sentence gives to what is made, against all that the rows and stitches come to."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.keys.sizes import bodies
from bindoff.checks.prose import Prose
from bindoff.checks.sentencesof import Sentence, sentences_of
from bindoff.checks.texts.told.scene import Scene, scene_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import millimetres
from bindoff.plan.gauge import Gauge
from bindoff.plan.picture import piece_gauges
from bindoff.plan.values import Kind
from bindoff.plan.worked import PiecePlan, Progress, StepPlan
from bindoff.records import Record
from bindoff.remembered import once_each
from bindoff.source.steps.section import SectionStep

_NUMBER = r"\d+(?:\.\d+)?[¼½¾]?"
_LENGTH = rf"({_NUMBER})(?: ?\(({_NUMBER}(?:, ?{_NUMBER})+|{_NUMBER})\))? ?(cm|inches|inch|in)\b"
_OTHER_UNIT = r"(?: \([^()]*(?:cm|in|inches|\")[^()]*\))?"
_WAY = (
    r"(?: (?:wide|long|deep|high|tall|around|across|square|along|in length|in width|in "
    r"circumference|all round))"
)
_ABOUT = (
    r"(?:about |now |then |roughly |nearly |almost |some |just (?:over|under) |a (?:little|bit) "
    r"(?:more "
    r"than|over|under|less than) |not quite |close to |around )*"
)
_MEASURED = phrase(
    rf"\b(?:measures?|comes? to|come out at|should be|piece of) {_ABOUT}{_LENGTH}"
    rf"|\b(?:is|are|to|at) {_ABOUT}{_LENGTH}(?={_OTHER_UNIT}{_WAY}\b)"
    rf"|\b(?:edge|hem|brim|band|border|cuff|strip|piece|welt|collar|flap|tube|square)s? (?:of "
    rf")?{_ABOUT}"
    rf"{_LENGTH}(?={_OTHER_UNIT}{_WAY}\b)"
    rf"|\b(?:rows|rounds),? (?:or|which (?:is|are|makes)|that is|=) (?:about )?{_LENGTH}"
    rf"|(?:^|(?<=[.;]\s))(?:that|this|it) is (?:about )?{_LENGTH}"
    rf"|\bat {_LENGTH}(?={_OTHER_UNIT} (?:this|it)\b)"
)
_LISTED = phrase(
    rf"(?<![\w.,(/])({_NUMBER}) \(({_NUMBER}(?:, ?{_NUMBER})*)\) ?"
    r"(mm|cm|inches|inch|in(?=[),;.\]/]|$| (?:wide|long|deep|high|across|from|and|or|to) ))\b"
)
"""A length for each size: it comes from the work."""
_TINY = phrase(rf"(?<![\w.,/])({_NUMBER}) ?(mm)\b(?={_WAY}\b)")
"""What is made is told in millimetres where centimetres are meant."""
_COUNTED = phrase(
    rf"(?<![\w.,/])(\d+)(?: \((\d+(?:, ?\d+)*)\))? (rows|rounds|rnds|stitches|sts)"
    rf"(?: (?!makes?\b)[a-z]+)?,?(?: (?:or|which (?:is|are)|that is|are|=))? \(?"
    rf"(?:about |some |roughly )?{_LENGTH}"
)
"""Rows or stitches, and what they come to."""
_ADDED = phrase(
    rf"(?<![\w.,/])(\d+) (rows|rounds|rnds|stitches|sts)(?: more| further| extra)? (?:will "
    rf")?(?:make|add"
    rf"|makes|adds|give) (?:it |the \w+ |the \w+ \w+ )?(?:about |some |roughly )?{_LENGTH}"
    r"(?! of (?:ease|room))"
)
"""So many rows more, and by how much they make it longer."""
_FLAT = phrase(
    rf"\b({_NUMBER})(?: ?\([^()]*\))? ?(cm|inches|in) (?:around|round|in circumference),? (?:now )?"
    rf"(?:or|which (?:is|makes|means)|that is|=|and) (?:about )?({_NUMBER})(?: ?\([^()]*\))?"
    r" ?(cm|inches|in)\b(?:[^.;\d]{0,30}?\bflat\b| across\b)"
)
"""The way around something, and its width when it lies flat."""
_SQUARE = phrase(
    rf"\b(?:to|measures?|is|about|of) (?:about )?({_NUMBER}) ?(?:cm|in)? ?(?:×|x|by) ?({_NUMBER}) ?"
    r"(cm|inches|inch|in)\b"
)
_TURNED = phrase(
    rf"\b(brim|cuff|hem|collar|top|facing|(?:lower )?edge)s? (?:is |are )?(?:turned |folded )?"
    rf"(?:up|over|back|down|under)? ?(?:by|for|to) (?:about )?{_LENGTH}"
)
_NOT = phrase(
    rf"^{_OTHER_UNIT} (?:short|from|apart|away|longer|shorter|more|less|wider|narrower|below"
    r"|before (?:the|you|joining|shaping|any)|above|beyond|past|of (?:ease|negative|positive)"
    r"|larger|smaller|too|needle|circular|or more|than|at the|for (?:the|a) (?:tail|swatch)"
    r"|each time|off|in diameter|thick|button)\b"
)
_ASIDE = phrase(
    r"\b(?:tails?|needles?|ease|leave|hook|buttons?|pompoms?|tassels?|fringes?|swatch|every"
    r"|ball|skein|pins?|loops?|body|wearer|chest|head|foot|hand|felting|\w*stretch\w*)\b"
)
_BEING = phrase(r"^(?:is|are)\b")
_WORK = (
    "it they this that these those piece fabric work knitting edge strip square panel tube ring",
    "rows rounds stitches length width depth side top bottom foot leg hand arm sole heel toe",
    "which each both all now then finished flat point corner end middle",
)
_CLOSE, _CLOSE_MM = 0.05, 7.0
"""Lengths are told to half a centimetre or a quarter of an inch, and about."""
_NEAR = 30
_LEAST_MM = 25.0
_SEEN_MM = 12.0
"""Nothing that is knitted to a measure is smaller."""
_QUARTERS = {"¼": 0.25, "½": 0.5, "¾": 0.75}


_PerSize = Sequence[Sequence[float]]


class Measured(Record):
    """A length told from ``start`` to ``end``, and the nearest one that there is, in mm."""

    start: int
    end: int
    nearest: float


def lengths_told(context: Context, prose: Prose) -> Iterator[Measured]:
    """Every length of a text that nothing comes to in some size."""
    scene: Scene | None = None
    for sentence in sentences_of(prose):
        yield from _added(context, scene or scene_of(context, prose), sentence)
        if sentence.supposes:
            continue
        scene = scene or scene_of(context, prose)
        counted = list(_counted(context, scene, sentence))
        yield from counted
        yield from _listed(context, scene, sentence, counted)
        for found in _MEASURED.finditer(sentence.words):
            left, right = sentence.words[: found.start()], sentence.words[found.end() :]
            if _NOT.search(right) or _ASIDE.search(left[-_NEAR:]):
                continue
            if _BEING.match(found[0]) and not _of_the_work(context, left):
                continue
            first, more, unit = _groups(found)
            scene = scene or scene_of(context, prose)
            told = _figures(first, more, unit)
            if len(told) > 1 and _LISTED.search(found[0]):
                continue
            wrong = _wrong(context, told, lengths_near(context, scene))
            if wrong:
                at = sentence.start
                yield Measured(at + found.start(), at + found.end(), wrong)
        yield from _folded(sentence)
        yield from _permuted(context, scene, sentence)
        for found in _TINY.finditer(sentence.words):
            meant = _mm(found[1], "cm")
            real = _everywhere(context, scene)
            tiny = _mm(found[1], "mm")
            if tiny < _SEEN_MM and all(any(_close(meant, n) for n in some) for some in real):
                at = sentence.start
                yield Measured(at + found.start(), at + found.end(), meant)
        for found in _SQUARE.finditer(sentence.words):
            for figure in (found[1], found[2]):
                scene = scene or scene_of(context, prose)
                wrong = _wrong(context, [_mm(figure, found[3])], lengths_near(context, scene))
                if wrong:
                    at = sentence.start
                    yield Measured(at + found.start(), at + found.end(), wrong)
                    break
        for found in _TURNED.finditer(sentence.words):
            named = _named(context, found[1].lower())
            wrong = _wrong(context, _figures(found[2], found[3], found[4]), named)
            if wrong:
                at = sentence.start
                yield Measured(at + found.start(), at + found.end(), wrong)


def _of_the_work(context: Context, left: str) -> bool:
    """Whether the last word of what ``is`` so long names the work or a part of it: an egg or a
    telephone is as long as it is."""
    last = re.search(r"([\w-]+)\W*$", left)
    return last is None or last[1].lower().rstrip("s") in _words_of_the_work(context)


@once_each
def _words_of_the_work(context: Context) -> frozenset[str]:
    pattern = context.pattern
    names = [pattern.title, *pattern.finished, *pattern.measures]
    for piece in pattern.pieces.values():
        names += [
            piece.title,
            *(step.section for step in piece.steps if isinstance(step, SectionStep)),
        ]
    names += _WORK
    return frozenset(
        word.rstrip("s") for name in names for word in re.findall(r"[a-z]+", name.lower())
    )


def _counted(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Measured]:
    """Lengths told of so many rows or stitches, which come to another in every piece."""
    for found in _COUNTED.finditer(sentence.words):
        numbers = [int(each) for each in (found[1], *(found[2] or "").split(",")) if each]
        told = _figures(found[4], found[5], found[6])
        if len(numbers) != len(told) or _NOT.search(sentence.words, found.end()):
            continue
        yield from _off_gauge(context, scene, sentence, found, (3, numbers, told))


def _added(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Measured]:
    """What so many rows more are said to add, whether or not they are only supposed."""
    for found in _ADDED.finditer(sentence.words):
        told = _figures(found[3], found[4], found[5])
        yield from _off_gauge(context, scene, sentence, found, (2, [int(found[1])], told[:1]))


def _off_gauge(
    context: Context,
    scene: Scene,
    sentence: Sentence,
    found: "re.Match[str]",
    claim: tuple[int, Sequence[int], Sequence[float]],
) -> Iterator[Measured]:
    """A count and the length it is said to come to, where no gauge gives that."""
    unit, numbers, told = claim
    if numbers and told:
        wide = found[unit].lower().startswith("st")
        real = [
            gauge.width_of(number) if wide else gauge.height_of(number)
            for gauge in _gauges(context, scene)
            for number in numbers[:1]
        ]
        if real and not any(_close(told[0], each) for each in real):
            nearest = min(real, key=lambda each: abs(each - told[0]))
            yield Measured(sentence.start + found.start(), sentence.start + found.end(), nearest)


def _folded(sentence: Sentence) -> Iterator[Measured]:
    """A width laid flat that is not half of the way around."""
    for found in _FLAT.finditer(sentence.words):
        around, flat = _mm(found[1], found[2]), _mm(found[3], found[4])
        if abs(around / 2 - flat) > max(_CLOSE_MM, _CLOSE * flat):
            at = sentence.start
            yield Measured(at + found.start(3), at + found.end(4), around / 2)


def _permuted(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Measured]:
    """Lengths for the sizes that are those of a body or of the work in another order."""
    for found in _LISTED.finditer(sentence.words) if len(context.source.sizes) > 1 else ():
        told = _figures(found[1], found[2], found[3])
        if len(told) != len(context.source.sizes):
            continue
        every = [tuple(figures) for _, figures in bodies(context)]
        measures = (*context.plan.measures.finished.values(), *context.plan.measures.named.values())
        every += [tuple(m.rounded) for m in measures if m.kind is Kind.LENGTH]
        if any(_same(told, each) for each in every):
            continue
        turned = [each for each in every if _same(sorted(told), sorted(each))]
        if turned:
            off = next(b for a, b in zip(told, turned[0], strict=True) if abs(a - b) > _EXACT_MM)
            yield Measured(sentence.start + found.start(), sentence.start + found.end(), off)


def _same(one: Sequence[float], other: Sequence[float]) -> bool:
    return len(one) == len(other) and all(
        abs(a - b) <= _EXACT_MM for a, b in zip(one, other, strict=True)
    )


_EXACT_MM = 1.0


def _gauges(context: Context, scene: Scene) -> Iterator[Gauge]:
    for plan in (scene.plan,) if scene.plan is not None else context.plan.pieces:
        yield from piece_gauges(context.plan.measures, context.pattern.pieces[plan.key])


def _listed(
    context: Context, scene: Scene, sentence: Sentence, but: Sequence[Measured]
) -> Iterator[Measured]:
    """Lengths told for each size that nothing comes to in some of them."""
    for found in _LISTED.finditer(sentence.words):
        left, right = sentence.words[: found.start()], sentence.words[found.end() :]
        at = sentence.start + found.start()
        known = any(each.start <= at < each.end for each in but)
        if known or _NOT.search(right) or _ASIDE.search(left[-_NEAR:]):
            continue
        told = _figures(found[1], found[2], found[3])
        if len(told) != len(context.source.sizes):
            continue
        real = _everywhere(context, scene)
        if wrong := _wrong(context, told, real):
            yield Measured(at, sentence.start + found.end(), wrong)


def _everywhere(context: Context, scene: Scene) -> _PerSize:
    """All lengths of the work, of its measures and of the bodies, per size."""
    here = lengths_near(context, scene)
    of_all = lengths_near(context, Scene(scene.prose))
    bodies_of = [figures for _, figures in bodies(context)]
    return [
        [*some, *more, *(figures[size] for figures in bodies_of)]
        for size, (some, more) in enumerate(zip(here, of_all, strict=True))
    ]


def _groups(found: "re.Match[str]") -> tuple[str, str | None, str]:
    """The first figure, those in brackets if there are some, and the unit."""
    groups = found.groups()
    for index in range(0, len(groups), 3):
        if groups[index]:
            return groups[index], groups[index + 1], groups[index + 2]
    raise AssertionError("every way of telling a length has a figure")


def _figures(first: str, more: str | None, unit: str) -> list[float]:
    """The lengths told, in mm: one, or one for each size."""
    return [_mm(each.strip(), unit) for each in (first, *(more.split(",") if more else ()))]


def _mm(figure: str, unit: str) -> float:
    whole = figure.rstrip("¼½¾")
    part = _QUARTERS.get(figure[len(whole) :], 0.0)
    return millimetres(float(whole or 0) + part, unit)


def _wrong(context: Context, told: Sequence[float], real: _PerSize) -> float:
    """The real length nearest to one that is told in vain; 0 where all are right or unknown."""
    sizes = len(context.source.sizes)
    if (
        len(told) not in (1, sizes)
        or min(told) < (_LEAST_MM if len(told) == 1 else 0)
        or not all(real)
    ):
        return 0.0
    if len(told) == 1 and any(_close(told[0], each) for some in real for each in some):
        return 0.0
    for size, mm in enumerate(told if len(told) == sizes else [told[0]] * sizes):
        if not any(_close(mm, each) for each in real[size]):
            return min(real[size], key=lambda each: abs(each - mm))
    return 0.0


def _close(told: float, real: float) -> bool:
    return abs(told - real) <= max(_CLOSE_MM, _CLOSE * real)


def lengths_near(context: Context, scene: Scene) -> _PerSize:
    """All lengths that a text may speak of, per size: those of its step and of the rows up to it,
    of its piece, or of all pieces, and those that are finished or have a name."""
    plans = (scene.plan,) if scene.plan is not None else context.plan.pieces
    measures = (*context.plan.measures.finished.values(), *context.plan.measures.named.values())
    found: list[list[float]] = []
    for size in range(len(context.source.sizes)):
        lengths = [m.rounded[size] for m in measures if m.kind is Kind.LENGTH]
        for plan in plans:
            gauge = piece_gauges(context.plan.measures, context.pattern.pieces[plan.key])[size]
            if scene.own is not None:
                lengths += _of_step(scene, scene.own, gauge, size)
            else:
                lengths += _of_piece(plan, gauge, size)
        found.append(lengths)
    return found


def _of_step(scene: Scene, own: StepPlan, gauge: Gauge, size: int) -> Iterator[float]:
    """The widths at a step, whole and folded, and the heights of it, of its section and of the
    piece up to its end."""
    for count in {each.stitches for each in _both(own, size)} - {0}:
        yield gauge.width_of(count)
        yield gauge.width_of(count) / 2
    end = own.after[size].height
    starts = {0, own.before[size].height, *(step.before[size].height for step in scene.behind)}
    yield from (gauge.height_of(end - start) for start in starts)


def _of_piece(plan: PiecePlan, gauge: Gauge, size: int) -> Iterator[float]:
    """The widths of a piece, whole and folded, and the heights of its steps, of its sections, and
    up to and from each."""
    for count in {each.stitches for step in plan.steps for each in _both(step, size)} - {0}:
        yield gauge.width_of(count)
        yield gauge.width_of(count) / 2
    stops = sorted({0, *(step.after[size].height for step in plan.steps)})
    headed = [step.before[size].height for step in plan.steps if step.heading]
    for first, last in (*pairwise(stops), *pairwise((*headed, stops[-1]))):
        yield gauge.height_of(last - first)
    for stop in stops:
        yield gauge.height_of(stop)
        yield gauge.height_of(stops[-1] - stop)


def _both(step: StepPlan, size: int) -> tuple[Progress, Progress]:
    return step.before[size], step.after[size]


def _named(context: Context, noun: str) -> _PerSize:
    """The lengths whose name has a word in it, per size."""
    measures = {**context.plan.measures.named, **context.plan.measures.finished}
    word = re.compile(rf"(?:\b|_){noun}(?:\b|_)", re.IGNORECASE)
    named = [m for name, m in measures.items() if m.kind is Kind.LENGTH and word.search(name)]
    tubes = [piece.tube for piece in context.pattern.pieces.values() if piece.tube is not None]
    if noun in ("brim", "edge", "lower edge"):
        named += [context.plan.measures.amount(tube.brim) for tube in tubes]
    return [[m.rounded[size] for m in named] for size in range(len(context.source.sizes))]
