"""A card to stand beside the machine: what to do at which number of the counter, to tick off."""

from collections.abc import Iterator, Sequence

from bindoff.document.build import language_of
from bindoff.document.chartkeys import yarn_symbols
from bindoff.document.charts.cellwork import symbol_stamps
from bindoff.document.charts.symbols import ink_on, symbol_of
from bindoff.document.drawing import Drawing, Label, Lines, Rect, Shape
from bindoff.document.lettering import CAP_HEIGHT, text_width
from bindoff.document.phrases import NOT_WORKED, heading, of_size, paragraph, running, text
from bindoff.document.stepphrases import unit_of
from bindoff.document.stripewords import (
    WASTE_ROUNDS,
    Event,
    closing_lengths,
    tube_events,
    two_yarn_rounds,
)
from bindoff.document.tree import (
    Block,
    Blocks,
    Definition,
    DefinitionList,
    Document,
    Figure,
    Heading,
    PageBreak,
    Paragraph,
    Strong,
)
from bindoff.document.typography import set_in_type
from bindoff.document.voice import Voice, voice_of
from bindoff.english import ended, how_many, listed, plural
from bindoff.plan.gauge import Gauge
from bindoff.plan.picture import PicturePlan
from bindoff.plan.plan import Plan
from bindoff.plan.worked import PiecePlan

BOX_MM = 7.0
SWATCH_MM = 7.5
_APART_MM = 1.5
_DASH = (1.2, 0.9)
_NAME_MM, _ACROSS_MM = 6.35, 150.0  # the type of their names, and the room for them
_LINE_MM = 0.4
_FIRST = "Read Safety first."


def has_card(plan: Plan) -> bool:
    """Whether a piece is made on the machine: a tube, or one whose rows are cranked."""
    return any(piece.from_machine for piece in plan.pieces)


def card_document(plan: Plan, sizes: Sequence[str] = (), boxes: bool = True) -> Document:
    """The card of every piece from the machine: a page for each of ``sizes``, or for every size.

    With ``boxes`` each line has a square to tick; without, it ends in ``Done:`` to type after.
    """
    voice = voice_of(plan)
    pattern = plan.source.pattern
    wanted = [size for size in plan.source.sizes if not sizes or size in sizes]
    title = f"{pattern.title}: card for the machine"
    found: list[Block] = [Heading(1, text(title))]
    for number, (piece, size) in enumerate(_pages(voice, wanted)):
        if number:
            found.append(PageBreak())
        found += _page(voice, piece, size, boxes)
    document = Document(
        title,
        pattern.designer,
        language_of(voice),
        pattern.version,
        pattern.date,
        "What to do at which number of the counter, with room to tick it off.",
        tuple(wanted),
        tuple(found),
        keywords=("knitting pattern", *pattern.keywords),
        rights=f"© {pattern.date[:4]} {pattern.designer}",
    )
    return set_in_type(document)


def _pages(voice: Voice, sizes: Sequence[str]) -> Iterator[tuple[PiecePlan, str]]:
    """Every piece from the machine, size after size."""
    for size in sizes:
        for piece in voice.plan.pieces:
            if piece.from_machine:
                yield piece, size


def _page(voice: Voice, piece: PiecePlan, size: str, boxes: bool) -> Blocks:
    index = voice.sizes.index(size)
    title = of_size(voice.plan.source.pattern.pieces[piece.key].title, size)
    tube = next((step.tubes[index] for step in piece.steps if step.tubes), None)
    tension = voice.plan.measures.sizes[index].gauges
    written = voice.plan.source.pattern.pieces[piece.key].gauge or ""
    gauge = tension[written]
    lines = _cranked(voice, piece, index) if tube is None else _of_tube(voice, piece, tube, gauge)
    unit = unit_of(voice, piece)
    version = voice.plan.source.pattern.version
    stops = [*(line.counter for line in lines[1:]), None]
    return (
        heading(2, title),
        _swatches(voice, _yarns(piece, index)),
        paragraph(
            running(
                _needles(voice, piece, index) if tube is None else _marks(tube),
                f"{lines[-1].counter} {plural(unit)}.",
                f"{gauge.stitches_per():.3g} stitches and {gauge.rounds_per():.3g} {plural(unit)} "
                "over 10 cm / 4 in.",
            )
        ),
        *(_in_two_yarns(tube) if tube else ()),
        DefinitionList(
            tuple(
                _line(voice, line, _next(line.counter, stop, unit), boxes)
                for line, stop in zip(lines, stops, strict=True)
            ),
            filling=True,
        ),
        Paragraph(text(f"For version {version} of the pattern; Safety stands there."), "small"),
    )


def _of_tube(voice: Voice, piece: PiecePlan, tube: PicturePlan, gauge: Gauge) -> list[Event]:
    first = tube.stripes.bases[0]
    around = gauge.width_of(tube.tube.needles)
    leaving, end = closing_lengths(piece, around, voice.units)
    name = voice.yarn_names[first]
    begin = f"{_FIRST} After {WASTE_ROUNDS} rounds of waste yarn, join {name}{leaving}"
    return [Event(0, begin, None, first), *tube_events(voice, tube, end)]


def _cranked(voice: Voice, piece: PiecePlan, size: int) -> list[Event]:
    """The stops of a piece whose rounds or rows are cranked: changes of yarn, and the end."""
    lines: list[Event] = []
    yarn = ""
    for step in piece.steps:
        counter = step.before[size].rounds
        name = voice.yarn_names[step.yarn] if step.yarn else ""
        if step.begins:
            yarn = step.yarn
            begin = f"{'' if lines else f'{_FIRST} '}Begin with {name}"
            lines.append(Event(counter, begin, yarn, yarn))
        if step.rounds[size] and step.yarn != yarn:
            words = f"Cut {voice.yarn_names[yarn]}, join {name}"
            lines.append(Event(counter, words, yarn, step.yarn))
            yarn = step.yarn
    end = Event(piece.rounds[size], "Stop here and go on in the pattern", yarn, yarn)
    return [*lines, end]


def _needles(voice: Voice, piece: PiecePlan, size: int) -> str:
    begun = next((step.begins for step in piece.steps if step.begins), None)
    count = sum(part[size] for part in begun.parts) if begun else 0
    return f"{how_many(count, 'needle')} in work."


def _marks(tube: PicturePlan) -> str:
    marks = listed(str(each) for each in tube.tube.markers)
    return f"{tube.tube.needles} needles. Needles to mark: {marks}."


def _next(counter: int, stop: int | None, unit: str) -> str:
    """How far it is to the next stop."""
    if stop is None or stop == counter:
        return ""
    return f"Then {how_many(stop - counter, unit)}."


def _yarns(piece: PiecePlan, size: int) -> tuple[str, ...]:
    used = (yarn for step in piece.steps for loops in step.worked[size] for yarn, _ in loops)
    return tuple(dict.fromkeys(used))


def _swatches(voice: Voice, yarns: Sequence[str]) -> Figure:
    """A swatch of every yarn with its name beside it, in the order they are taken up."""
    symbols, written = yarn_symbols(voice), voice.plan.source.pattern.yarns
    shapes: list[Shape] = []
    x, y, wide = 0.0, 0.0, 0.0
    for yarn in yarns:
        look = written[yarn]
        beside = x + SWATCH_MM + 2.0
        end = beside + text_width(look.name, _NAME_MM)
        if x and end > _ACROSS_MM:
            end, x, y, beside = end - x, 0.0, y + SWATCH_MM + 2.0, SWATCH_MM + 2.0
        shapes += _chip(voice, yarn, x, y)
        base = y + SWATCH_MM / 2 + _NAME_MM * CAP_HEIGHT / 2
        shapes.append(Label(beside, base, look.name, _NAME_MM))
        x, wide = end + 3.0, max(wide, end)
    drawing = Drawing(round(wide, 2), round(y + SWATCH_MM + _LINE_MM, 2), tuple(shapes))
    names = listed(f"{written[yarn].name} ({symbol_of(symbols[yarn]).picture})" for yarn in yarns)
    return Figure(drawing, f"Swatches of the yarns: {names}.")


def _in_two_yarns(tube: PicturePlan) -> Blocks:
    """What a stop can't say: which rounds take two yarns at once."""
    rounds = two_yarn_rounds(tube)
    if rounds == NOT_WORKED:
        return ()
    return (paragraph(f"Rounds in two yarns: {rounds}. Their stitches are in the chart."),)


def _line(voice: Voice, line: Event, then: str, boxes: bool) -> Definition:
    meaning = running(ended(line.words), then)
    term = (Strong(text(str(line.counter))),)
    if not boxes:
        return Definition(term, running(meaning, "Done:"), stop=line.counter)
    return Definition(term, meaning, _box(), end=_chips(voice, line), stop=line.counter)


def _chips(voice: Voice, line: Event) -> Drawing:
    """The yarn that is knitted and the one that follows it, where that is another; waste yarn is
    dashed."""
    shown = (line.before, line.after) if line.before != line.after else (line.after,)
    step = SWATCH_MM + _APART_MM
    left = step * (2 - len(shown))
    shapes = [
        each for at, yarn in enumerate(shown) for each in _chip(voice, yarn, left + step * at)
    ]
    return Drawing(
        round(2 * SWATCH_MM + _APART_MM + _LINE_MM, 2), SWATCH_MM + _LINE_MM, tuple(shapes)
    )


def _chip(voice: Voice, yarn: str | None, x: float, y: float = 0.0) -> Iterator[Shape]:
    """A swatch with the yarn's sign."""
    left, top, side = x + _LINE_MM / 2, y + _LINE_MM / 2, SWATCH_MM
    if yarn is None:
        right, low = left + side, top + side
        edges = (
            (left, top, right, top),
            (right, top, right, low),
            (right, low, left, low),
            (left, low, left, top),
        )
        yield Lines(edges, "#000000", _LINE_MM, _DASH)
        return
    look = voice.plan.source.pattern.yarns[yarn]
    yield Rect(left, top, side, side, look.colour, "#000000", _LINE_MM)
    symbol = symbol_of(yarn_symbols(voice)[yarn])
    yield from symbol_stamps(symbol, ink_on(look.colour), ((left, top),), side, side)


def _box() -> Drawing:
    """A square to tick."""
    inner = BOX_MM - _LINE_MM
    square = Rect(_LINE_MM / 2, _LINE_MM / 2, inner, inner, "#ffffff", "#000000", _LINE_MM)
    return Drawing(BOX_MM, BOX_MM, (square,))
