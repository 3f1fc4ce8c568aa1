"""Buttonholes in words: the row they are worked in, and a table of their places."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import counted, figures, join, paragraph, running, text
from bindoff.document.sizetables import sizes_joined
from bindoff.document.stepphrases import headed, in_yarn, side_of, unit_in, with_yarn
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks, Column, Inlines, ItemList, ListItem, Table
from bindoff.document.voice import Voice
from bindoff.plan.spacing import collapse
from bindoff.plan.steps.buttonholes import Buttonholes, Holes
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.buttonholes import ButtonholesStep

_Step = WorkedStep[ButtonholesStep, Buttonholes]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    if step.detail.hole is not None:
        return _upright(voice, step, new_yarn)
    detail, unit = step.detail, unit_in(step)
    first = headed(f"buttonhole {unit}{side_of(step, 1, unit)}")
    pattern = voice.row(detail.rows[0])
    over = tuple(each.over for each in detail.holes)
    if detail.bound_off:
        each: Inlines = join("for each buttonhole ", voice.term["bind_off"].lower(), " ")
        each = join(each, counted(over, "stitch"))
    else:
        each = text("for each buttonhole work a yarn over and the next 2 stitches together")
    number = counted(tuple(each.number for each in detail.holes), "buttonhole")
    opening = running(
        in_yarn(voice, step, new_yarn),
        first,
        pattern,
        join("In this ", unit, " make ", number, ": ", each, ", at the places in the table."),
    )
    table = Table(
        text("Places of the buttonholes"),
        (
            Column(text("Size")),
            Column(text("Stitches before the first, between, behind the last"), weight=2.0),
            Column(text(f"Stitches of the {unit} that are in a buttonhole"), weight=3.0),
        ),
        sizes_joined(
            voice.sizes, [(text(_gaps(each)), text(_places(each))) for each in detail.holes]
        ),
    )
    if not detail.bound_off:
        return (paragraph(opening), table)
    left = join("There are ", figures(detail.left), " stitches left.")
    back = join("Over each gap cast on ", counted(over, "stitch"), ".")
    live = tuple(progress.stitches for progress in step.after)
    then = running(
        headed(f"next {unit}{side_of(step, 2, unit)}"),
        voice.row(detail.rows[1]),
        back,
        join(capital_count(live)),
    )
    return (paragraph(running(opening, left)), table, paragraph(then))


def _upright(voice: Voice, step: _Step, new_yarn: bool) -> Blocks:
    """An upright band: its rows, the row with a hole, and where that is worked."""
    detail, unit = step.detail, unit_in(step)
    assert detail.hole is not None
    rows = [
        paragraph(
            headed(
                f"{unit} {number}{side_of(step, number, unit) if len(detail.rows) == 2 else ''}"
            ),
            " ",
            voice.row(row),
        )
        for number, row in enumerate(detail.rows, start=1)
    ]
    number = counted(tuple(each.number for each in detail.holes), "buttonhole")
    turn = "these in turn" if len(rows) > 1 else "all alike"
    how = join("work ", counted(detail.rounds, unit), f", {turn}.")
    instead = f"In the {unit}s of the table work the buttonhole {unit} instead."
    made = join("That makes ", number, ".")
    opening = paragraph(running(with_yarn(voice, step, new_yarn, how), instead, made))
    hole = paragraph(headed(f"buttonhole {unit}"), " ", voice.row(detail.hole))
    table = Table(
        text("Places of the buttonholes"),
        (
            Column(text("Size")),
            Column(text(f"{unit.capitalize()}s of this step with a buttonhole"), weight=3.0),
        ),
        sizes_joined(voice.sizes, [(text(", ".join(map(str, own))),) for own in detail.in_rows]),
    )
    items = ItemList(tuple(ListItem((each,)) for each in (*rows, hole)))
    return (opening, items, table)


def capital_count(live: tuple[int, ...]) -> Inlines:
    """``86 stitches again.``"""
    return join(figures(live), " stitches again.")


def _gaps(holes: Holes) -> str:
    """``3, then 11 6 times, then 3``."""
    first, *between, last = holes.gaps
    runs = [
        f"{run.group}" if run.times == 1 else f"{run.group} {_often(run.times)}"
        for run in collapse(between)
    ]
    return ", then ".join([f"{first}", *runs, f"{last}"])


def _often(count: int) -> str:
    return "twice" if count == 2 else f"{count} times"


def _places(holes: Holes) -> str:
    if holes.over == 1:
        return ", ".join(str(first) for first, _ in holes.places)
    return ", ".join(f"{first} to {last}" for first, last in holes.places)


WORDS = Words(
    ButtonholesStep,
    tell=_tell,
    in_full=named_in_full,
    leads={},
    tells_rounds=False,
    tracks=no_tracks,
)
