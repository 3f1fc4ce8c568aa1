"""The tube in words: the counter table of its stripes, and what the plan saves."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from math import ceil

from bindoff import regex as re
from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.document.openstart import open_start
from bindoff.document.phrases import (
    NOT_WORKED,
    counted,
    figures,
    join,
    joined,
    paragraph,
    running,
    text,
)
from bindoff.document.tree import Blocks, Column, Inlines, Table, TableRow
from bindoff.document.tubecharts import chart_links, picture_charts, stitchings
from bindoff.document.units import Units, per_size, round_length
from bindoff.document.voice import Voice
from bindoff.document.voice import number as in_figures
from bindoff.english import capital, how_many, listed
from bindoff.plan import yarn as method
from bindoff.plan.colour.stripes import Stripe
from bindoff.plan.picture import PicturePlan
from bindoff.plan.tube import TubePart, TubeRounds
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.plan.yarnends import Supply, hangs_on_waste, loose_ends, supply_of
from bindoff.records import Record
from bindoff.source.texts import texts
from bindoff.source.tube import ColourPlan

_TOLD_STRIPES = 6  # of one size: more have a table
MOST_WASTE_ROUNDS = 8
WASTE_ROUNDS = f"6 to {MOST_WASTE_ROUNDS}"
"""Rounds in waste yarn before and after the main yarn; common practice, no source."""


class Event(Record):
    """What to do after so many rounds, and the yarns knitted before it and after it; ``None`` is
    waste yarn."""

    counter: int
    words: str
    before: str | None
    after: str | None


def stripe_blocks(voice: Voice, plan: PiecePlan, step: StepPlan) -> Blocks:
    """How a step knits the tube: cast-on, counter table, waste yarn, and the work it saves."""
    plans, piece = step.tubes, plan.key
    base = per_size([voice.yarn_names[each.stripes.bases[0]] for each in plans])
    start, end = (tail.removeprefix(_TAIL) for tail in closing_tails(plan, voice.units))
    return (
        paragraph(
            running(
                join(
                    "Cast on all ",
                    needles_words(plans),
                    f" needles with waste yarn and crank {WASTE_ROUNDS} rounds.",
                ),
                join(
                    "Cut the waste yarn, join ",
                    base,
                    f"{f'{LONG_TAIL}, {start},' if start else ','} and set the counter to 0.",
                ),
                open_start(voice, plan, step),
            )
        ),
        paragraph(_markers(plans)),
        paragraph(
            running(
                "Crank to the number in the table, which the counter shows when that round is "
                "finished; stop, do what the row says, and go on.",
                f"A long tail is {end}." if end and not start else "",
            )
        ),
        *_carried(plans),
        *_stranded(voice, piece, plans),
        *_tables(voice, plans, end),
        *_stripes(voice, plans),
        paragraph(
            f"Crank {WASTE_ROUNDS} rounds with the waste yarn and take the tube off the machine."
        ),
        *((paragraph(_saving(voice, piece, plans)),) if _shown(plans) else ()),
        paragraph(_ends(voice, plan, plans, len([tail for tail in (start, end) if tail]))),
    )


_TWIST_EVERY = 4
"""A yarn carried up past more rounds is twisted with the other so often; common practice, no
source."""


def _carried(plans: Sequence[PicturePlan]) -> Blocks:
    """What it means to let a yarn rest and carry it up; nothing where all are cut."""
    rests = [rest for plan in plans for rest in _rests(plan)]
    if not rests:
        return ()
    twist = (
        f"Where it passes more than {_TWIST_EVERY} rounds, twist it once with the working yarn "
        f"every {_TWIST_EVERY} rounds."
        if max(rests) > _TWIST_EVERY
        else ""
    )
    return (
        paragraph(
            running(
                "A resting yarn is not cut, which spares two ends: take it out of the "
                f"feeder and let it hang inside the tube, here for {_span(rests)}. When the table "
                "says to carry it up, lead it up the inside, neither tight nor in a loop, and put "
                "it back into the feeder.",
                twist,
            )
        ),
    )


def _span(rounds: Sequence[int]) -> str:
    """``2 rounds``, or ``1 to 4 rounds``."""
    least, most = min(rounds), max(rounds)
    return how_many(most, "round") if least == most else f"{least} to {most} rounds"


def _rests(plan: PicturePlan) -> Iterator[int]:
    """For how many rounds each yarn rests that is carried up."""
    since: dict[str, int] = {}
    for change in plan.stripes.changes:
        yield from (change.counter - since[yarn] for yarn in change.resume)
        since |= dict.fromkeys(change.rest, change.counter)


def _ends(voice: Voice, piece: PiecePlan, plans: Sequence[PicturePlan], tails: int) -> Inlines:
    """How many ends there are to weave in: two for each yarn joined, for each strand, and for each
    yarn that joins, closes or edges. Of the stripes' ends some are long ``tails``, which close the
    tube before they are woven in."""
    joining = [loose_ends(voice.plan.source, piece, size) for size in range(len(plans))]
    closing = "the long tails that close" if tails > 1 else "the long tail that closes"
    parts = [
        ("the stripes have ", [plan.stripes.ends - tails for plan in plans]),
        ("the strands of the embroidery ", [2 * plan.strands for plan in plans]),
        ("joining and closing ", joining),
        (f"{closing} the tube ", [tails] * len(plans)),
    ]
    total = [sum(of_size) for of_size in zip(*(counts for _, counts in parts), strict=True)]
    there = [join(what, per_size(counts)) for what, counts in parts if any(counts)]
    if len(there) < 2:
        return join("Ends to weave in: ", per_size(total), ".")
    *others, last = there
    return join(
        "Ends to weave in: ",
        per_size(total),
        ". Of these ",
        joined(others, ", "),
        " and ",
        last,
        ".",
    )


def needles_words(plans: Sequence[PicturePlan]) -> Inlines:
    """The needles of every size: ``48``, or ``44 (48)``."""
    return per_size([plan.tube.needles for plan in plans])


def _stripes(voice: Voice, plans: Sequence[PicturePlan]) -> Blocks:
    """Which rounds are knitted in which yarn: one table where all sizes have the same stripes in
    turn, a sentence where one size has few; nothing for a tube of one yarn."""
    if all(len(plan.stripes.stripes) == 1 for plan in plans):
        return ()
    if len(plans) == 1 and len(plans[0].stripes.stripes) <= _TOLD_STRIPES:
        told = (f"{voice.yarn_names[s.yarn]}, {_rounds_of(s)}" for s in plans[0].stripes.stripes)
        return (paragraph(f"Stripes and their rounds: {'; '.join(told)}."),)
    turns = [[stripe.yarn for stripe in plan.stripes.stripes] for plan in plans]
    if all(each == turns[0] for each in turns):
        headings = voice.sizes if len(plans) > 1 else ("Rounds",)
        return (_stripe_table(voice, plans, "Stripes: rounds of each yarn", headings),)
    return tuple(
        _stripe_table(voice, (plan,), f"Stripes, size {size}: rounds of each yarn", ("Rounds",))
        for size, plan in zip(voice.sizes, plans, strict=True)
    )


def _rounds_of(stripe: Stripe) -> str:
    return f"{stripe.first}" if stripe.rounds == 1 else f"{stripe.first}–{stripe.last}"


def _stripe_table(
    voice: Voice, plans: Sequence[PicturePlan], caption: str, headings: tuple[str, ...]
) -> Table:
    many = len(headings) > 1
    columns = (
        Column(text("Yarn"), weight=2.0),
        *(
            Column(text(heading), align="right", size=index if many else None)
            for index, heading in enumerate(headings)
        ),
    )
    rows = []
    for stripes in zip(*(plan.stripes.stripes for plan in plans), strict=True):
        spans = map(_rounds_of, stripes)
        rows.append(
            TableRow((text(voice.yarn_names[stripes[0].yarn]), *(text(span) for span in spans)))
        )
    return Table(text(caption), columns, tuple(rows), whole=True)


def _stranded(voice: Voice, piece: str, plans: Sequence[PicturePlan]) -> Blocks:
    """Which rounds are knitted in two yarns, if any are."""
    rounds = [two_yarn_rounds(plan) for plan in plans]
    if set(rounds) == {NOT_WORKED}:
        return ()
    charts = stitchings(piece, plans)
    seen = picture_charts(voice, piece)
    link, shows = chart_links(voice, seen, "picture chart"), "shows them"
    if charts:
        link, shows = chart_links(voice, charts, "embroidery chart"), "shows as knitted"
    return (
        paragraph(
            running(
                join(
                    "Rounds to knit in two yarns: ",
                    per_size(rounds),
                    ".",
                ),
                join("Knit each of their stitches in the yarn that the ", link, f" {shows}."),
            )
        ),
    )


def two_yarn_rounds(plan: PicturePlan) -> str:
    """``3 to 5 and 9``, without the commas that part the sizes; a dash for none."""
    found: list[list[int]] = []
    for number, second in enumerate(plan.stripes.seconds, start=1):
        if not second:
            continue
        if found and found[-1][1] == number - 1:
            found[-1][1] = number
        else:
            found.append([number, number])
    words = (f"{first}" if first == last else f"{first} to {last}" for first, last in found)
    return listed(words) or NOT_WORKED


def _markers(plans: Sequence[PicturePlan]) -> Inlines:
    """Where rounds start, which needles to mark, and which half is the front."""
    tubes = [plan.tube for plan in plans]
    moved = any(tube.start for tube in tubes)
    begins: Inlines = ()
    if moved:
        begins = join("Every round starts ", per_size([_start_words(tube) for tube in tubes]), ".")
    return running(
        begins, *_marked(tubes, moved), _in_fabric(tubes), _front(tubes) if _shown(plans) else ""
    )


def _shown(plans: Sequence[PicturePlan]) -> bool:
    return any(plan.has_picture for plan in plans)


def _start_words(tube: TubeRounds) -> str:
    """Where rounds start on the wearer."""
    quarters = {0: "at the side, on the wearer's left", 2: "at the side, on the wearer's right"}
    if tube.start == 3 * tube.needles // 4:
        return "at the middle of the back"
    if tube.start * 4 % tube.needles == 0 and tube.start * 4 // tube.needles in quarters:
        return quarters[tube.start * 4 // tube.needles]
    return f"{tube.front - 1} stitches before the front"


def _marked(tubes: Sequence[TubeRounds], moved: bool) -> Iterator[Inlines | str]:
    if any(len(tube.markers) == 1 for tube in tubes):
        yield "Mark needle 1, where every round starts."
        return
    if moved:
        sides = per_size([" and ".join(str(each) for each in tube.markers) for tube in tubes])
        yield join("Mark needles ", sides, ": they are the two sides of the tube.")
        return
    half = per_size([tube.markers[1] for tube in tubes])
    yield join(
        "Mark needle 1, where every round starts, and needle ",
        half,
        ", half a round on: the two sides of the tube.",
    )


def _in_fabric(tubes: Sequence[TubeRounds]) -> str:
    """Needles stay behind when a tube leaves the machine: what marks the same places in it."""
    where = "their stitches"
    if any(len(tube.markers) == 1 for tube in tubes):
        where = "its stitch"
    return (
        f"After each round that the table says to mark, hang a loop of waste yarn in {where} as a "
        "marker."
    )


MARKERS_OUT = "Take out the loops of waste yarn that mark the tube."
"""What is said where nothing needs them any more."""


def marked_tubes(voice: Voice) -> tuple[PiecePlan, ...]:
    """The pieces with loops of waste yarn for markers that no text of the designer's takes out."""
    marked = tuple(plan for plan in voice.plan.pieces if any(step.tubes for step in plan.steps))
    told = (each.place.text for each in texts(voice.plan.source.pattern)) if marked else ()
    return () if any(_TAKEN_OUT.search(each) for each in told) else marked


_TAKEN_OUT = re.compile(
    r"\b(?:tak|remov|pull|draw)\w*\b[^.]*\b(?:markers?|loops? of waste yarn)\b", re.IGNORECASE
)


def _front(tubes: Sequence[TubeRounds]) -> Inlines:
    """Which stitches are the front as worn."""
    fronts = []
    for tube in tubes:
        last = (tube.front + tube.needles // 2 - 2) % tube.needles + 1
        fronts.append(f"{tube.front} to {last}")
    return join("The front is stitches ", per_size(fronts), ".")


def _tables(voice: Voice, plans: Sequence[PicturePlan], tail: str) -> tuple[Table, ...]:
    """One table if the same things happen in the same order in all sizes, else one for each."""
    events = [tube_events(voice, plan, LONG_TAIL if tail else "") for plan in plans]
    names = [[event.words for event in each] for each in events]
    if all(each == names[0] for each in names):
        rows = [
            (what, [each[index].counter for each in events]) for index, what in enumerate(names[0])
        ]
        return (_table(rows, "Counter table", voice.sizes if len(plans) > 1 else ("Round",)),)
    return tuple(
        _table([(e.words, [e.counter]) for e in each], f"Counter table, size {size}", ("Round",))
        for size, each in zip(voice.sizes, events, strict=True)
    )


def _table(
    rows: Sequence[tuple[str, Sequence[int]]], caption: str, sizes: tuple[str, ...]
) -> Table:
    many = len(sizes) > 1
    columns = (
        Column(text("What to do"), weight=3.0),
        *(
            Column(text(size), align="right", size=index if many else None)
            for index, size in enumerate(sizes)
        ),
    )
    return Table(
        text(f"{caption}: after which round to stop"),
        columns,
        tuple(TableRow((text(what), *(text(str(c)) for c in counts))) for what, counts in rows),
        tick=True,
    )


def closing_tails(piece: PiecePlan, units: Units) -> tuple[str, str]:
    """The tails that close the tube later, at its first and last round; empty where none does.

    A gathering tail goes through the stitches twice and needs an end to hold, one that sews goes
    around three times (common practice). One that grafts becomes a row of loops, which holds 3.8
    times its width dry and 4.1 times wet (Munden 1959, Kw): the three widths that some makers cut
    (common practice, no source) end before the row does. So four, and the usual end to hold and to
    weave in.
    """
    return _at_both_ends(piece, lambda step: closing_tail(piece, step, units))


def _at_both_ends(piece: PiecePlan, told: Callable[[StepPlan], str]) -> tuple[str, str]:
    """What is told of the steps that close the first round and the last."""
    start = end = ""
    for step in piece.steps:
        start = start or (told(step) if _at_start(step) else "")
        end = end or (told(step) if _at_end(step) and hangs_on_waste(piece, step) else "")
    return start, end


def closing_lengths(piece: PiecePlan, around_mm: float, units: Units) -> tuple[str, str]:
    """Those tails of a tube so far around, up to the next 5 cm: ``, leaving a tail of 55 cm``."""

    def told(step: StepPlan) -> str:
        often = _tail_of(piece, step)
        if often is None:
            return ""
        times, _, more = often
        mm = _TAIL_STEP_MM * ceil((times * around_mm + more) / _TAIL_STEP_MM - 1e-9)
        return f", leaving {_TAIL}{round_length(mm, units)}"

    return _at_both_ends(piece, told)


_TAIL_STEP_MM = 50


def _at_start(step: StepPlan) -> bool:
    """Whether a step closes the first round."""
    gathers = step.closes is not None and step.closes.by is method.BindOffKind.GATHERED_ENDS
    return gathers or (step.closes is not None and step.closes.start)


def _at_end(step: StepPlan) -> bool:
    """Whether a step closes the last round."""
    return step.closes is not None and not step.closes.start


def _tail_of(piece: PiecePlan, step: StepPlan) -> tuple[int, str, float] | None:
    """How many times the edge the tail is that a step closes it with, in words too, and how much
    more (mm); nothing where it takes none of the last round's yarn."""
    by = step.closes.by if step.closes and supply_of(piece, step) is Supply.TAIL else None
    end = CRAFT_LENGTHS["tail"]
    often: Mapping[method.BindOffKind, tuple[int, str, float]] = {
        method.BindOffKind.GATHERED_ENDS: (2, "twice", end),
        method.BindOffKind.GRAFTED: (4, "four times", end),
        method.BindOffKind.SEWN_TOGETHER: (3, "three times", 0.0),
    }
    return often.get(by) if by else None


def closing_tail(piece: PiecePlan, step: StepPlan, units: Units, flat: bool = False) -> str:
    """The tail that a step closes the last round with, empty where it takes none of it."""
    often = _tail_of(piece, step)
    if often is None:
        return ""
    _, times, mm = often
    more = f" and {round_length(mm, units)} more" if mm else ""
    along = "width of the edge" if flat else "way around the tube"
    return f"{_TAIL}about {times} the {along}{more}"


LONG_TAIL = ", leaving a long tail"  # its length stands beside the table, for all sizes
_TAIL = "a tail of "


def tube_events(voice: Voice, plan: PicturePlan, leaving: str) -> list[Event]:
    """What to do and after which round: changes of yarn, the fold, the end, in counter order.

    ``leaving`` are the words of the tail to leave at the last round, empty where none is needed.
    """
    names = voice.yarn_names
    found: list[tuple[int, int, str]] = []
    for change in plan.stripes.changes:
        told = (
            ("cut {}", change.drop),
            ("let {} rest", change.rest),
            ("join {}", change.take_up),
            ("carry up {}", change.resume),
        )
        words = ", ".join(do.format(listed(names[y] for y in yarns)) for do, yarns in told if yarns)
        found.append((change.counter, 1, capital(words) or f"Go on with {names[change.base]}"))
    for part, words in _PLACES.items():
        segment = plan.tube.segment(part)
        if segment is not None and segment.last != plan.tube.fold_after:
            found.append((segment.last, 0, f"{words}; mark this round"))
    if plan.tube.fold_after is not None:
        found.append((plan.tube.fold_after, 0, "Fold line; mark this round"))
    last = names[plan.stripes.bases[-1]]
    found.append((1, 0, "Mark this round"))
    end = f"Mark this round, cut {last}{leaving}, join waste yarn"
    found.append((plan.tube.total_rounds, 2, end))
    knitted: list[str | None] = [*plan.stripes.bases, None]
    return [
        Event(counter, words, knitted[counter - 1], knitted[counter if order else counter - 1])
        for counter, order, words in sorted(found)
    ]


_PLACES = {
    TubePart.LINING: "Lining ends, brim starts",
    TubePart.OUTER_BRIM: "Brim ends, to be turned up here",
}


def _saving(voice: Voice, piece: str, plans: Sequence[PicturePlan]) -> Inlines:
    """What is left to embroider, and what the stripes spare; only what every size gains.

    Time is told at the designer's own pace, and not at all where the pattern sets none.
    """
    stripes = [plan.stripes for plan in plans]
    left = [plan.embroidered_total for plan in stripes]
    if not any(left):
        return text("The stripes show the whole picture; nothing is left to embroider.")
    remains = join("Stitches left to embroider: ", figures(left), ".")
    if 1 not in left:
        number = counted(left, "stitch")
        remains = join("Knitted in these stripes, the tube leaves ", number, " to embroider.")
    saved = [plan.stitches_saved for plan in stripes]
    if min(saved) <= 0:
        return remains
    single = per_size([voice.yarn_names[plan.single.yarn] for plan in stripes])
    fewer = join("That is ", per_size(saved), " fewer")
    pace = _pace(voice.plan.source.pattern.pieces[piece].colour_plan)
    spared = _time([plan.minutes_saved for plan in stripes]) if pace else ()
    work = join(", and about ", spared, f" less work {pace}") if spared else ()
    tube = voice.plan.source.pattern.pieces[piece].tube
    beside = tube is not None and (tube.stripes or tube.yarns.model_fields_set)
    alone = join("with ", single, " in all other rounds")
    if not beside:
        alone = join("on a tube knitted in ", single, " alone")
    return running(remains, join(fewer, " than ", alone, work, "."))


def _pace(plan: ColourPlan) -> str:
    """How fast the designer works, as far as the pattern says so; empty where it does not."""
    said = {
        "minutes_per_stitch": (plan.minutes_per_stitch, "a stitch"),
        "minutes_per_change": (plan.minutes_per_change, "a change of yarn"),
    }
    if not plan.model_fields_set >= set(said):
        return ""
    paces = [f"{_minutes(each)} {what}" for each, what in said.values()]
    if plan.minutes_per_end:
        paces.append(f"{_minutes(plan.minutes_per_end)} an end of a strand")
    return f"at {listed(paces)}"


def _minutes(minutes: float) -> str:
    match minutes:
        case 0.5:
            return "half a minute"
        case 1:
            return "a minute"
        case _:
            return f"{in_figures(minutes)} minutes"


_LEAST_MINUTES = 10  # less is lost in the estimate


def _time(minutes: Sequence[float]) -> Inlines:
    """Time in half hours, or in tens of minutes where one size takes less than an hour and a half.

    Nothing where a size gains too little to speak of.
    """
    if min(minutes) < _LEAST_MINUTES:
        return ()
    if min(minutes) < 90:
        return join(per_size([round(each / 10) * 10 for each in minutes]), " minutes")
    return join(per_size([f"{round(each / 30) / 2:g}" for each in minutes]), " hours")
