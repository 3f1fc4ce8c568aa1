"""Every kind of step in words: one function for each, returning blocks of the document."""

from collections.abc import Sequence
from typing import assert_never

from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.document.chartpages import chart_id
from bindoff.document.phrases import (
    NOT_WORKED,
    capital,
    counted,
    figures,
    join,
    joined,
    merged,
    often,
    paragraph,
    running,
    text,
    times,
)
from bindoff.document.stripewords import embroidery_blocks, stripe_blocks
from bindoff.document.tree import (
    Blocks,
    Column,
    Inlines,
    ItemList,
    Link,
    ListItem,
    Strong,
    Table,
    TableRow,
    Text,
    plain,
)
from bindoff.document.units import lengths, round_length
from bindoff.document.voice import Voice
from bindoff.plan.nouns import how_many, plural
from bindoff.plan.picture import chart_yarns
from bindoff.plan.spacing import collapse
from bindoff.plan.steps.bind_off import BindOff
from bindoff.plan.steps.cast_on import CastOn
from bindoff.plan.steps.crown import Crowned
from bindoff.plan.steps.edging import Edged
from bindoff.plan.steps.embroider import Embroidered
from bindoff.plan.steps.even import Even
from bindoff.plan.steps.gather import Gather
from bindoff.plan.steps.join import Joined
from bindoff.plan.steps.leave import Left
from bindoff.plan.steps.pick_up import PickUp
from bindoff.plan.steps.stripes import Striped
from bindoff.plan.steps.taper import Tapered
from bindoff.plan.steps.work import Rows
from bindoff.plan.taper import Taper
from bindoff.plan.worked import ChartRows, PiecePlan, StepPlan
from bindoff.source.models import BindOffStep, CastOnStep, EvenStep
from bindoff.source.rowlang.syntax import Fill, Repeat, Row, ToEnd, Work

_VERBS = {"k": "knit", "p": "purl"}


def step_blocks(voice: Voice, piece: PiecePlan, step: StepPlan, new_yarn: bool) -> Blocks:
    """The words of a worked step; ``new_yarn`` says that the reader has to be told its yarn."""
    unit = unit_of(voice, piece)
    match step.detail:
        case None:
            return ()
        case CastOn():
            return _cast_on(voice, step, step.detail)
        case PickUp():
            return _pick_up(voice, step, step.detail, unit)
        case Rows():
            return _rows(voice, step, step.detail, unit, new_yarn)
        case ChartRows():
            return _chart(voice, piece, step, step.detail, unit, new_yarn)
        case Even():
            return _even(voice, step, step.detail, unit, new_yarn)
        case Tapered():
            return _taper(voice, step, step.detail, unit, new_yarn)
        case Crowned():
            return _crown(voice, step, step.detail, new_yarn)
        case BindOff(stitches):
            return _bind_off(voice, step, stitches, new_yarn)
        case Gather(stitches):
            return _gather(voice, piece, stitches)
        case Left(stitches):
            where = "on a spare needle or on waste yarn"
            return (paragraph(f"Leave all stitches live {where}: ", counts(stitches), "."),)
        case Joined():
            return _joined_edges(voice, step.detail)
        case Striped(plans):
            return stripe_blocks(voice, piece.key, plans, _closing_tails(piece))
        case Embroidered(plans):
            return embroidery_blocks(voice, piece.key, plans)
        case Edged():
            return _edging(voice, step, step.detail)
        case _:
            assert_never(step.detail)


def _joined_edges(voice: Voice, detail: Joined) -> Blocks:
    edge: Inlines = text("the open loops of the first round, taking out the waste yarn as you go")
    if detail.to:
        title = voice.plan.source.pattern.pieces[detail.to].title
        link = (Link(text(title), f"#piece-{detail.to}"),)
        edge = join("the live stitches of the piece ", link)
    bind_off = voice.term["bind_off"].replace(" ", "-")
    manner = "by grafting" if detail.by == "grafting" else f"with a three-needle {bind_off}"
    return (
        paragraph(
            f"Join all stitches {manner} to ",
            edge,
            ", one to one. Each edge has ",
            counted(detail.stitches, "stitch"),
            ".",
        ),
    )


def _closing_tails(piece: PiecePlan) -> tuple[str, str]:
    """The tails that close the tube later, at its first and last round; empty where none does.

    A gathering tail goes around about twice, a grafting one three times (common practice).
    """
    twice, thrice = (
        f"a tail of about {often_} the way around the tube" for often_ in ("twice", "three times")
    )
    for step in piece.steps:
        match step.detail:
            case Gather():
                return twice, twice
            case Joined(_, _, "grafting"):
                return "", thrice
            case _:
                pass
    return "", ""


def unit_of(voice: Voice, piece: PiecePlan) -> str:
    """``round`` or ``row``: what one turn of work is called in this piece."""
    worked = voice.plan.source.pattern.pieces[piece.key].worked
    return "row" if worked == "flat" else "round"


def counts(stitches: Sequence[int]) -> Inlines:
    """``80 (88, 96) stitches``, stressed: the count a knitter checks."""
    if 1 in stitches and set(stitches) != {1}:
        return (Strong(join("stitches: ", figures(stitches))),)
    return (Strong(counted(stitches, "stitch")),)


def abbreviated_rows(step: StepPlan) -> tuple[Row, ...]:
    """The rows of a step that its words print in abbreviations."""
    match step.detail:
        case Rows((row,)):
            return () if _stitch_throughout(row) else (row,)
        case Rows(rows) | Edged(rows) | Crowned(_, rows):
            return tuple(row for row in rows if not _named_in_full(row))
        case Even(rows):
            return tuple(row for row in rows if row is not None)
        case Tapered(shaping, between):
            others = between if _has_plain(step.detail) else ()
            return (shaping, *(row for row in others if not _stitch_throughout(row)))
        case _:
            return ()


def _stitch_throughout(row: Row) -> str:
    """``knit`` or ``purl`` for a row of nothing else, or nothing."""
    if row.yarn is not None or len(row.parts) != 1:
        return ""
    match row.parts[0]:
        case Fill(stitch, ToEnd(), (), None):
            return _VERBS.get(stitch, "")
        case Repeat((Work(stitch, _, (), None),), ToEnd()):
            return _VERBS.get(stitch, "")
        case _:
            return ""


def _named_in_full(row: Row) -> bool:
    """Whether the house style says the row as ``Knit.``"""
    match row.parts:
        case (Fill(stitch, ToEnd(), ()),):
            return stitch in _VERBS
        case _:
            return False


# ---------------------------------------------------------------- beginnings and ends


def _cast_on(voice: Voice, step: StepPlan, detail: CastOn) -> Blocks:
    assert isinstance(step.step, CastOnStep)
    yarn, method = voice.yarn_names[step.yarn], step.step.method
    number = counts(detail.stitches)
    if method == "waste yarn":
        return (paragraph("With waste yarn, cast on ", number, f". Change to {yarn}."),)
    return (paragraph(f"With {yarn} and the {method} method, cast on ", number, "."),)


def _pick_up(voice: Voice, step: StepPlan, detail: PickUp, unit: str) -> Blocks:
    yarn = voice.yarn_names[step.yarn]
    one = set(detail.held) == {1}
    held: Inlines = text("Put the held stitch back on the needles.")
    if not one and 1 in detail.held:
        held = join("Put the held stitches back on the needles: ", figures(detail.held), ".")
    elif not one:
        held = join("Put the ", figures(detail.held), " held stitches back on the needles.")
    more: Inlines = text(f"Join {yarn}.")
    if any(detail.picked_up):
        gap = f"in the gap beside {'it' if one else 'them'}"
        picked_up = counted(detail.picked_up, "stitch")
        more = join(f"Join {yarn}, and {gap} pick up and knit ", picked_up, ".")
    on = "Go on in the round from there." if unit == "round" and any(detail.picked_up) else ""
    return (paragraph(running(held, more, on, _after(step))),)


def _bind_off(voice: Voice, step: StepPlan, stitches: tuple[int, ...], new_yarn: bool) -> Blocks:
    assert isinstance(step.step, BindOffStep)
    how = step.step.how.strip().rstrip(".")
    number = counts(stitches)
    if not any(progress.stitches for progress in step.after):
        words = join(f"{voice.term['bind_off']} all ", number, f" {how}." if how else ".")
        return (paragraph(_with_yarn(voice, step, new_yarn, words)),)
    words = join(f"{voice.term['bind_off']} {how}{' ' if how else ''}", number, ".")
    left = join(_after_words(step), " left.")
    return (paragraph(running(_with_yarn(voice, step, new_yarn, words), left)),)


def _gather(voice: Voice, piece: PiecePlan, stitches: tuple[int, ...]) -> Blocks:
    if any(isinstance(step.detail, Striped) for step in piece.steps):
        return (
            paragraph(
                "Thread the tail at each end of the tube through the live loops of that end, ",
                counts(stitches),
                ", and take out the waste yarn. Draw each end closed and fasten it off.",
            ),
        )
    rest = round_length(CRAFT_LENGTHS["tail"], voice.units)
    return (
        paragraph(
            "Cut the yarn, leaving enough to go around the stitches one and a half times and "
            f"{rest} more. Thread it through the remaining ",
            counts(stitches),
            ", draw them closed, and fasten off on the inside.",
        ),
    )


# ---------------------------------------------------------------- rows


def _rows(voice: Voice, step: StepPlan, detail: Rows, unit: str, new_yarn: bool) -> Blocks:
    if not any(detail.rounds):
        return _nothing(unit)
    if len(detail.rows) > 1:
        return _row_list(voice, step, detail, unit, new_yarn)
    (row,) = detail.rows
    verb = _stitch_throughout(row)
    if verb:
        words = join(f"{verb} ", counted(detail.rounds, unit), ".")
        return (paragraph(running(_with_yarn(voice, step, new_yarn, words), _changed(step))),)
    once = set(detail.rounds) == {1}
    head = f"next {unit}{_side(step, 1, unit)}" if once else f"every {unit}"
    work: Inlines = () if once else join("Work ", counted(detail.rounds, unit), ".")
    words = running(_headed(head), voice.row(row), work, _changed(step))
    return (paragraph(running(_in_yarn(voice, step, new_yarn), words)),)


def _row_list(voice: Voice, step: StepPlan, detail: Rows, unit: str, new_yarn: bool) -> Blocks:
    count = len(detail.rows)
    steady = count % 2 == 0 or max(detail.rounds) <= count
    items = tuple(
        ListItem(
            (
                paragraph(
                    _headed(f"{unit} {number}{_side(step, number, unit) if steady else ''}"),
                    " ",
                    voice.row(row),
                ),
            )
        )
        for number, row in enumerate(detail.rows, start=1)
    )
    these = f"work these {count} {plural(unit)}"
    if set(detail.rounds) == {count}:
        how: Inlines = text(f"{these}.")
    elif all(rounds % count == 0 for rounds in detail.rounds):
        whole = tuple(rounds // count for rounds in detail.rounds)
        how = join(f"{these} ", often(whole), ". That makes ", counted(detail.rounds, unit), ".")
    else:
        how = join(f"{these} in turn for ", counted(detail.rounds, unit), ".")
    opening = paragraph(running(_with_yarn(voice, step, new_yarn, how), _changed(step)))
    return (opening, ItemList(items))


def _chart(
    voice: Voice,
    piece: PiecePlan,
    step: StepPlan,
    detail: ChartRows,
    unit: str,
    new_yarn: bool,
) -> Blocks:
    if not any(detail.rounds):
        return _nothing(unit)
    chart = voice.plan.source.pattern.charts[detail.chart]
    height = voice.plan.source.grids[detail.chart].height
    target = f"#chart-{chart_id(voice.plan, piece, detail.chart)}"
    link: Inlines = (Link(text(f"{chart.title} chart"), target),)
    if height > 1 and set(detail.rounds) == {height}:
        what = join(f"work {plural(unit)} 1 to {height} of the ", link, ".")
    elif all(rounds % height == 0 for rounds in detail.rounds):
        passes = tuple(rounds // height for rounds in detail.rounds)
        what = join("work the ", link, " ", often(passes), ".")
        if height > 1:
            what = running(what, join("That makes ", counted(detail.rounds, unit), "."))
    else:
        what = join("work the ", link, f" from its {unit} 1 for ", counted(detail.rounds, unit))
        what = join(what, ".")
    across: Inlines = ()
    if set(detail.across) != {1}:
        across = join(f"In every {unit}, work its stitches ", often(detail.across), ".")
    own = any(yarn not in voice.yarn_names for yarn in chart_yarns(chart).values())
    lead = _with_yarn(voice, step, new_yarn and own, what)
    return (paragraph(running(lead, across, _changed(step))),)


# ---------------------------------------------------------------- shaping


def _even(voice: Voice, step: StepPlan, detail: Even, unit: str, new_yarn: bool) -> Blocks:
    assert isinstance(step.step, EvenStep)
    stitches = tuple(progress.stitches for progress in step.after)
    if not any(detail.rows):
        return (paragraph("No shaping is needed here: there are ", counts(stitches), " already."),)
    rows = [voice.row(row) if row else text(NOT_WORKED) for row in detail.rows]
    head = running(_in_yarn(voice, step, new_yarn), _headed(f"next {unit}{_side(step, 1, unit)}"))
    shared = merged(rows)
    if shared is not None:
        return (paragraph(running(head, shared, _after(step))),)
    opening = join(f"{step.step.even} evenly to ", counts(stitches), ", as the table says.")
    table = Table(
        text(f"Even {step.step.even}s"),
        (
            Column(text("Size")),
            Column(text(capital(unit)), weight=3.0),
            Column(text("Stitches after"), align="right"),
        ),
        tuple(
            TableRow((text(size), row, text(str(count))))
            for size, row, count in zip(voice.sizes, rows, stitches, strict=True)
        ),
    )
    return (paragraph(running(head, _capital_first(opening))), table)


def _taper(voice: Voice, step: StepPlan, detail: Tapered, unit: str, new_yarn: bool) -> Blocks:
    if not any(plan.changes for plan in detail.tapers):
        return _unshaped(voice, step, detail, unit, new_yarn)
    amount = abs(detail.change)
    change = f"{amount} {'stitch' if amount == 1 else 'stitches'}"
    opening = running(
        _in_yarn(voice, step, new_yarn),
        _headed(f"shaping {unit}{_shaping_side(step, detail, unit)}"),
        voice.row(detail.shaping),
        f"It adds {change}." if detail.change > 0 else f"It takes away {change}.",
    )
    paces = [_pace(plan, unit) for plan in detail.tapers]
    between = _plain_between(voice, detail, unit)
    shared = _shared_pace(detail, paces, unit)
    if shared is not None:
        how = join("Work it on ", shared, ".")
        return (paragraph(opening), paragraph(running(how, between, _after(step))))
    table = Table(
        text("Pace of the shaping"),
        (
            Column(text("Size")),
            Column(text(f"Work the shaping {unit} on"), weight=3.0),
            Column(text(f"{capital(plural(unit))} in all"), align="right"),
            Column(text("Stitches after"), align="right"),
        ),
        tuple(
            TableRow(
                (
                    text(size),
                    text(pace),
                    figures([plan.rounds]),
                    text(str(progress.stitches)),
                )
            )
            for size, pace, plan, progress in zip(
                voice.sizes, paces, detail.tapers, step.after, strict=True
            )
        ),
    )
    how = text("Work it as the table says for your size.")
    return (paragraph(opening), paragraph(running(how, between)), table)


def _shared_pace(detail: Tapered, paces: Sequence[str], unit: str) -> Inlines | None:
    """One pace for all sizes, if they differ in nothing but numbers."""
    if all(set(plan.intervals) == {1} and not plan.plain_after for plan in detail.tapers):
        return join(f"every {unit}, ", often([plan.changes for plan in detail.tapers]))
    if not all(plan.changes for plan in detail.tapers):
        return None
    return merged([text(pace) for pace in paces])


def _unshaped(voice: Voice, step: StepPlan, detail: Tapered, unit: str, new_yarn: bool) -> Blocks:
    """A taper that no size needs: its rounds are plain."""
    rounds = [plan.rounds for plan in detail.tapers]
    if not any(rounds):
        return (paragraph("No shaping is needed here."),)
    words = join("work ", counted(rounds, unit), " plain.")
    if 1 in rounds:
        words = join("work plain for ", counted(rounds, unit), ".")
    return (
        paragraph(
            running(_with_yarn(voice, step, new_yarn, words), _plain_between(voice, detail, unit))
        ),
    )


def _pace(plan: Taper, unit: str) -> str:
    """``every 8th round 4 times, then every 9th round twice, then 2 rounds plain``.

    In the round an interval ends with its shaping; flat it begins with it, so that the first row
    of the step is shaped and the last interval leaves plain rows behind.
    """
    if not plan.changes:
        return f"no {unit}; {_some(plan.rounds, unit)} plain" if plan.rounds else NOT_WORKED
    if unit == "round":
        parts = [f"{_every(run.group, unit)} {times(run.times)}" for run in plan.runs]
        rest = plan.plain_after
    else:
        runs = collapse(plan.intervals[:-1])
        first = f"the first {unit}"
        parts = [first, *(f"{_every(run.group, unit)} {times(run.times)}" for run in runs)]
        rest = plan.intervals[-1] - 1 + plan.plain_after
    if rest:
        parts.append(f"{_some(rest, unit)} plain")
    return ", then ".join(parts)


def _some(count: int, noun: str) -> str:
    return how_many(count, noun)


def _every(interval: int, unit: str) -> str:
    match interval:
        case 1:
            return f"every {unit}"
        case 2:
            return f"every other {unit}"
        case _:
            return f"every {_ordinal(interval)} {unit}"


def _ordinal(number: int) -> str:
    endings = {1: "st", 2: "nd", 3: "rd"}
    ending = "th" if number % 100 in (11, 12, 13) else endings.get(number % 10, "th")
    return f"{number}{ending}"


def _has_plain(detail: Tapered) -> bool:
    """Whether any size works a round of the taper without shaping."""
    return any(plan.rounds > plan.changes for plan in detail.tapers)


def _plain_between(voice: Voice, detail: Tapered, unit: str) -> Inlines:
    """How the plain rounds are worked, and that they come first where they do."""
    if not _has_plain(detail):
        return ()
    told = [_stitch_throughout(row) for row in detail.plain]
    words = [_stripped(voice.row(row)) for row in detail.plain]
    many = plural(unit)
    if len(detail.plain) == 1:
        how: Inlines = join(f"Work the plain {many} as ", words[0], ".")
        if told[0]:
            how = text(f"{capital(told[0])} the plain {many}.")
    elif len(detail.plain) == 2 and unit == "row":
        sides = [
            text(f"{verb} the {side}") if verb else join(f"work the {side} as ", said)
            for verb, said, side in zip(told, words, ("right side", "wrong side"), strict=True)
        ]
        how = join("In the plain rows, ", sides[0], " and ", sides[1], ".")
    else:
        count = len(detail.plain)
        how = join(f"The plain {many} follow a turn of {count}, counted from {unit} 1 of this step")
        for number, said in enumerate(words, start=1):
            how = join(how, ": " if number == 1 else "; ", f"{unit} {number}, ", said)
        how = join(how, f". A shaping {unit} takes the place of the one whose turn it is.")
    shaped_late = unit == "round" and any(
        interval > 1 for plan in detail.tapers for interval in plan.intervals
    )
    return running(how, f"The plain {many} come first each time." if shaped_late else "")


def _crown(voice: Voice, step: StepPlan, detail: Crowned, new_yarn: bool) -> Blocks:
    opening = text("decrease by the table, from its top row down.")
    how = "In a decrease round, repeat the words of the row all around"
    how += "; then knit the plain rounds it gives." if _plain_crown(detail) else "."
    start = ""
    if detail.crown.rounds and not all(detail.crown.rounds[0].worked):
        start = (
            "Start at the first row that has a count in your size: before it, your size has not "
            "begun."
        )
    size_columns: tuple[Column, ...] = (Column(text("Stitches"), align="right"),)
    if len(voice.sizes) > 1:
        size_columns = tuple(
            Column(text(size), align="right", size=index) for index, size in enumerate(voice.sizes)
        )
    rows = []
    for round_, row in zip(detail.crown.rounds, detail.rows, strict=True):
        cells = tuple(
            text(str(after) if worked else NOT_WORKED)
            for worked, after in zip(round_.worked, round_.after, strict=True)
        )
        rows.append(TableRow((_once(voice, row), text(str(round_.plain_after)), *cells)))
    table = Table(
        text("Crown: stitches after each decrease round"),
        (
            Column(text("Repeat around"), weight=2.0),
            Column(text("Plain rounds after"), align="right"),
            *size_columns,
        ),
        tuple(rows),
    )
    if not rows:
        number = counts(tuple(progress.stitches for progress in step.after))
        return (paragraph("No shaping is needed here: there are ", number, " already."),)
    lead = _with_yarn(voice, step, new_yarn, opening)
    return (paragraph(running(lead, how, start)), table)


def _plain_crown(detail: Crowned) -> bool:
    return any(round_.plain_after for round_ in detail.crown.rounds)


def _once(voice: Voice, row: Row) -> Inlines:
    """What one repeat of a wedge row says: ``K9, k2tog``."""
    (repeat,) = row.parts
    assert isinstance(repeat, Repeat)
    return _stripped(voice.row(Row(repeat.parts)))


def _edging(voice: Voice, step: StepPlan, detail: Edged) -> Blocks:
    yarn = voice.yarn_names[step.yarn]
    join_ = f"With the crochet hook, join {yarn} to the edge, right side facing you."
    along = join("The edge is ", lengths(detail.along, voice.units), " long.")
    if detail.sides:
        sides = joined((figures(side) for side in detail.sides), " + ")
        along = running(along, join("Stitches of its sides, corner to corner: ", sides, "."))
    rows = [voice.row(row) for row in detail.rows]
    if detail.counts:
        rows = [
            join(row, " ", counts(after), ".")
            for row, after in zip(rows, detail.counts, strict=True)
        ]
    fastened = any(plain(row).rstrip(".").lower().endswith("fasten off") for row in rows[-1:])
    end = "" if fastened else "Fasten off."
    if len(rows) == 1:
        return (paragraph(running(join_, along, _headed("edging"), rows[0], end)),)
    items = tuple(ListItem((paragraph(row),)) for row in rows)
    last = (paragraph(end),) if end else ()
    opening = paragraph(running(join_, along, f"Work these {len(rows)} rows in turn."))
    return (opening, ItemList(items, ordered=True), *last)


# ---------------------------------------------------------------- shared words


def _nothing(unit: str) -> Blocks:
    """A step that computes to no rounds in every size; its number stays."""
    return (paragraph(f"There are no {plural(unit)} to work here."),)


def _headed(words: str) -> Inlines:
    """``Next round:``, stressed."""
    return (Strong(text(f"{capital(words)}:")),)


def _with_yarn(voice: Voice, step: StepPlan, new_yarn: bool, words: Inlines) -> Inlines:
    """``With Slate, knit 8 rounds.``, or the words alone with a large first letter."""
    if new_yarn:
        return join(f"With {voice.yarn_names[step.yarn]}, ", words)
    return _capital_first(words)


def _in_yarn(voice: Voice, step: StepPlan, new_yarn: bool) -> str:
    """A sentence for the yarn, before a heading such as ``Next round:``."""
    return f"Work with {voice.yarn_names[step.yarn]}." if new_yarn else ""


def _capital_first(words: Inlines) -> Inlines:
    """``words`` with a large first letter if they begin with plain text."""
    match words:
        case (Text(first), *_):
            return (Text(capital(first)), *words[1:])
        case (Strong(children), *_):
            return (Strong(_capital_first(children)), *words[1:])
        case _:
            return words


def _side(step: StepPlan, number: int, unit: str) -> str:
    """`` (right side)`` for the row of that number of a flat step, if it is so in all sizes."""
    if unit != "row":
        return ""
    return _named_side({(progress.rounds + number) % 2 for progress in step.before})


def _shaping_side(step: StepPlan, detail: Tapered, unit: str) -> str:
    if unit != "row":
        return ""
    return _named_side(
        {
            (progress.rounds + number) % 2
            for progress, plan in zip(step.before, detail.tapers, strict=True)
            for number in plan.shaping_rounds("first")
        }
    )


def _named_side(remainders: set[int]) -> str:
    """The side of rows whose numbers, counted from 1 of the piece, leave these halved."""
    if len(remainders) != 1:
        return ""
    return " (right side)" if remainders == {1} else " (wrong side)"


def _changed(step: StepPlan) -> Inlines:
    """The count after the step where it changed; nothing where it did not."""
    same = all(
        before.stitches == after.stitches
        for before, after in zip(step.before, step.after, strict=True)
    )
    return () if same else _after(step)


def _after(step: StepPlan) -> Inlines:
    return join(_after_words(step), ".")


def _after_words(step: StepPlan) -> Inlines:
    return _capital_first(counts(tuple(progress.stitches for progress in step.after)))


def _stripped(words: Inlines) -> Inlines:
    """A row's words without the full stop."""
    last = words[-1]
    if isinstance(last, Text) and last.text.endswith("."):
        rest = last.text[:-1]
        return (*words[:-1], Text(rest)) if rest else words[:-1]
    return words
