"""A card to stand beside the machine: what to do at which number of the counter, to tick off."""

from collections.abc import Sequence

from bindoff.document.build import language_of
from bindoff.document.drawing import Drawing, Rect
from bindoff.document.phrases import NOT_WORKED, ended, heading, of_size, paragraph, text
from bindoff.document.stripewords import WASTE_ROUNDS, tube_events, two_yarn_rounds
from bindoff.document.tree import (
    Block,
    Blocks,
    Definition,
    DefinitionList,
    Document,
    Heading,
    PageBreak,
    Paragraph,
    Strong,
)
from bindoff.document.typography import set_in_type
from bindoff.document.voice import Voice, voice_of
from bindoff.plan.picture import PicturePlan
from bindoff.plan.plan import Plan

BOX_MM = 6.0
_LINE_MM = 0.4


def has_card(plan: Plan) -> bool:
    """Whether a piece is a tube knitted by a stripe plan."""
    return any(step.tubes for piece in plan.pieces for step in piece.steps)


def card_document(plan: Plan, sizes: Sequence[str] = (), boxes: bool = True) -> Document:
    """The card of every tube: a page for each of ``sizes``, or for every size.

    With ``boxes`` each line has a square to tick; without, it ends in ``Done:`` to type after.
    """
    voice = voice_of(plan)
    pattern = plan.source.pattern
    wanted = [size for size in plan.source.sizes if not sizes or size in sizes]
    title = f"{pattern.title}: card for the machine"
    found: list[Block] = [Heading(1, text(title))]
    for number, (name, size, tube) in enumerate(_tubes(voice, wanted)):
        if number:
            found.append(PageBreak())
        found += _page(voice, of_size(name, size), tube, boxes)
    document = Document(
        title,
        pattern.designer,
        language_of(voice),
        pattern.version,
        pattern.date,
        "What to do at which number of the counter, with room to tick it off.",
        tuple(wanted),
        tuple(found),
        keywords=("knitting pattern",),
    )
    return set_in_type(document)


def _tubes(voice: Voice, sizes: Sequence[str]) -> list[tuple[str, str, PicturePlan]]:
    """Title of the piece, size and tube: size after size."""
    pieces = voice.plan.source.pattern.pieces
    return [
        (pieces[piece.key].title, size, step.tubes[voice.sizes.index(size)])
        for size in sizes
        for piece in voice.plan.pieces
        for step in piece.steps
        if step.tubes
    ]


def _page(voice: Voice, title: str, tube: PicturePlan, boxes: bool) -> Blocks:
    base = voice.yarn_names[tube.stripes.bases[0]]
    lines = [(0, f"After {WASTE_ROUNDS} rounds of waste yarn, join {base}")]
    lines += [(counter, what) for what, counter in tube_events(voice, tube)]
    needles = tube.tube.needles
    version = voice.plan.source.pattern.version
    marks = " and ".join(str(each) for each in tube.tube.markers)
    return (
        heading(2, title),
        paragraph(
            f"{needles} needles, {tube.tube.total_rounds} rounds. Needles to mark: {marks}. Stop "
            "when the counter shows the number."
        ),
        DefinitionList(tuple(_line(counter, what, boxes) for counter, what in lines)),
        *_in_two_yarns(tube),
        Paragraph(text(f"For version {version} of the pattern."), "small"),
    )


def _in_two_yarns(tube: PicturePlan) -> Blocks:
    """What a stop can't say: which rounds take two yarns at once."""
    rounds = two_yarn_rounds(tube)
    if rounds == NOT_WORKED:
        return ()
    return (paragraph(f"Rounds in two yarns: {rounds}. Their stitches are in the chart."),)


def _line(counter: int, what: str, boxes: bool) -> Definition:
    meaning = ended(what) if boxes else f"{ended(what)} Done:"
    return Definition((Strong(text(str(counter))),), text(meaning), _box() if boxes else None)


def _box() -> Drawing:
    """A square to tick."""
    inner = BOX_MM - _LINE_MM
    square = Rect(_LINE_MM / 2, _LINE_MM / 2, inner, inner, "#ffffff", "#000000", _LINE_MM)
    return Drawing(BOX_MM, BOX_MM, (square,))
