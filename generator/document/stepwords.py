"""Every kind of step in words: one function for each, returning blocks of the document."""

from collections.abc import Sequence
from typing import assert_never

from generator.document.phrases import join, merged, paragraph, text, times
from generator.document.stripewords import embroidery_blocks, stripe_blocks
from generator.document.tree import (
    Block,
    Blocks,
    Column,
    Inlines,
    ItemList,
    Link,
    ListItem,
    Paragraph,
    Strong,
    Table,
    TableRow,
    Text,
)
from generator.document.units import per_size
from generator.document.voice import Voice
from generator.plan.steps import (
    BindOff,
    CastOn,
    ChartRows,
    Crowned,
    Edged,
    Embroidered,
    Even,
    Gather,
    PickUp,
    PiecePlan,
    Rows,
    StepPlan,
    Striped,
    Tapered,
)
from generator.plan.taper import Taper
from generator.source.models import CastOnStep
from generator.source.rowlang.syntax import Fill, Repeat, Row, ToEnd, Work

NOT_WORKED = "–"


def step_blocks(voice: Voice, piece: PiecePlan, step: StepPlan, new_yarn: bool) -> Blocks:
    """The words of a worked step; ``new_yarn`` says the yarn differs from the step before."""
    unit = unit_of(voice, piece)
    match step.detail:
        case None:
            return ()
        case CastOn():
            return _cast_on(voice, step, step.detail)
        case PickUp():
            return _pick_up(voice, step, step.detail)
        case Rows():
            return _rows(voice, step, step.detail, unit, new_yarn)
        case ChartRows():
            return _chart(voice, step, step.detail, unit, new_yarn)
        case Even():
            return _even(voice, step, step.detail, unit, new_yarn)
        case Tapered():
            return _taper(voice, step, step.detail, unit, new_yarn)
        case Crowned():
            return _crown(voice, step, step.detail, new_yarn)
        case BindOff(stitches):
            return _bind_off(voice, step, stitches)
        case Gather(stitches):
            return _gather(voice, piece, stitches)
        case Striped(plans):
            return stripe_blocks(voice, plans)
        case Embroidered(plans):
            return embroidery_blocks(voice, piece.key, plans)
        case Edged():
            return _edging(voice, step, step.detail)
        case _:
            assert_never(step.detail)


def unit_of(voice: Voice, piece: PiecePlan) -> str:
    """``round`` or ``row``: what one turn of work is called in this piece."""
    worked = voice.plan.source.pattern.pieces[piece.key].worked
    return "row" if worked == "flat" else "round"


def counts(stitches: Sequence[int]) -> Inlines:
    """``80 (88, 96) stitches``, stressed: the count a knitter checks."""
    word = "stitch" if set(stitches) == {1} else "stitches"
    return (Strong(join(per_size(stitches), f" {word}")),)


# ---------------------------------------------------------------- beginnings and ends


def _cast_on(voice: Voice, step: StepPlan, detail: CastOn) -> Blocks:
    assert isinstance(step.step, CastOnStep)
    yarn = voice.yarn_names[step.yarn]
    method = step.step.method
    return (
        paragraph(f"With {yarn} and the {method} method, cast on ", counts(detail.stitches), "."),
    )


def _pick_up(voice: Voice, step: StepPlan, detail: PickUp) -> Blocks:
    parts: list[Inlines] = [
        join("Put the ", per_size(detail.held), " held stitches back on the needles. ")
    ]
    yarn = voice.yarn_names[step.yarn]
    if any(detail.picked_up):
        parts.append(
            join(
                f"With {yarn}, pick up and knit ",
                per_size(detail.picked_up),
                " stitches in the gap beside them. ",
            )
        )
    else:
        parts.append(text(f"Join {yarn}. "))
    return (paragraph(*parts, _after(step)),)


def _bind_off(voice: Voice, step: StepPlan, stitches: tuple[int, ...]) -> Blocks:
    how = getattr(step.step, "how", "")
    manner = f" {how}" if how else ""
    bind_off = voice.term["bind_off"].capitalize()
    remaining = any(progress.stitches for progress in step.after)
    word = "" if remaining else "all "
    end: Inlines = join(" ", _after(step)) if remaining else ()
    return (paragraph(f"{bind_off} {word}", counts(stitches), f"{manner}.", end),)


def _gather(voice: Voice, piece: PiecePlan, stitches: tuple[int, ...]) -> Blocks:
    if any(isinstance(step.detail, Striped) for step in piece.steps):
        return (
            paragraph(
                "Thread the tail at each end of the tube through the live loops of that end, ",
                counts(stitches),
                ", and take out the waste yarn. Draw each end closed and fasten it off.",
            ),
        )
    return (
        paragraph(
            "Cut the yarn, leaving a tail of 20 cm / 8 in. Thread it through the remaining ",
            counts(stitches),
            ", draw them closed, and fasten off on the inside.",
        ),
    )


# ---------------------------------------------------------------- rows


def _rows(voice: Voice, step: StepPlan, detail: Rows, unit: str, new_yarn: bool) -> Blocks:
    lead = _with_yarn(voice, step, new_yarn)
    if len(detail.rows) > 1:
        return _row_list(voice, step, detail, unit, lead)
    (row,) = detail.rows
    rounds = detail.rounds
    verb = _stitch_throughout(row)
    if verb:
        words = join(_capital(lead, f"{verb} "), per_size(rounds), f" {_units(unit, rounds)}. ")
        return (paragraph(words, _changed(step)),)
    if set(rounds) == {1}:
        head: Inlines = join((Strong(text(_capital(lead, f"next {unit}: "))),))
        return (paragraph(head, voice.row(row), " ", _after(step)),)
    head = (Strong(text(_capital(lead, f"every {unit}: "))),)
    return (
        paragraph(
            head,
            voice.row(row),
            " Work ",
            per_size(rounds),
            f" {_units(unit, rounds)}. ",
            _changed(step),
        ),
    )


def _row_list(voice: Voice, step: StepPlan, detail: Rows, unit: str, lead: str) -> Blocks:
    count = len(detail.rows)
    items = tuple(
        ListItem((paragraph((Strong(text(f"{unit.capitalize()} {number}: ")),), voice.row(row)),))
        for number, row in enumerate(detail.rows, start=1)
    )
    whole = tuple(rounds // count for rounds in detail.rounds)
    if all(rounds % count == 0 for rounds in detail.rounds):
        how: Inlines = join(
            f"work these {count} {unit}s ",
            _times(whole),
            ", ",
            per_size(detail.rounds),
            f" {unit}s in all. ",
        )
    else:
        how = join(
            f"work these {count} {unit}s in turn for ", per_size(detail.rounds), f" {unit}s. "
        )
    opening = paragraph(_capital(lead, ""), _capitalised(how), _changed(step))
    return (opening, ItemList(items))


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


_VERBS = {"k": "knit", "p": "purl"}


def _chart(voice: Voice, step: StepPlan, detail: ChartRows, unit: str, new_yarn: bool) -> Blocks:
    chart = voice.plan.source.pattern.charts[detail.chart]
    height = voice.plan.source.grids[detail.chart].height
    lead = _with_yarn(voice, step, new_yarn)
    link: Inlines = (Link(text(f"{chart.title} chart"), f"#chart-{detail.chart}"),)
    if all(rounds == height for rounds in detail.rounds):
        what = join(_capital(lead, f"work {unit}s 1 to {height} of the "), link)
    elif all(rounds % height == 0 for rounds in detail.rounds):
        passes = tuple(rounds // height for rounds in detail.rounds)
        what = join(
            _capital(lead, "work the "),
            link,
            " ",
            _times(passes),
            ", ",
            per_size(detail.rounds),
            f" {unit}s in all",
        )
    else:
        what = join(
            _capital(lead, "work the "),
            link,
            " from its first round for ",
            per_size(detail.rounds),
            f" {unit}s",
        )
    across = join(". Its stitches repeat ", _times(detail.across), f" in every {unit}. ")
    if set(detail.across) == {1}:
        across = text(". ")
    return (paragraph(what, across, _changed(step)),)


# ---------------------------------------------------------------- shaping


def _even(voice: Voice, step: StepPlan, detail: Even, unit: str, new_yarn: bool) -> Blocks:
    lead = _with_yarn(voice, step, new_yarn)
    stitches = tuple(progress.stitches for progress in step.after)
    rows = [voice.row(row) if row else text("No change.") for row in detail.rows]
    head: Inlines = (Strong(text(_capital(lead, f"next {unit}: "))),)
    shared = merged(rows)
    if shared is not None:
        return (paragraph(head, shared, " ", _after(step)),)
    kind = getattr(step.step, "even", "shape")
    opening = paragraph(head, f"{kind} evenly to ", counts(stitches), ", as the table says.")
    table = Table(
        text(f"Even {kind}s"),
        (
            Column(text("Size")),
            Column(text(unit.capitalize()), weight=3.0),
            Column(text("Stitches"), align="right"),
        ),
        tuple(
            TableRow((text(size), row, text(str(count))))
            for size, row, count in zip(voice.sizes, rows, stitches, strict=True)
        ),
    )
    return (opening, table)


def _taper(voice: Voice, step: StepPlan, detail: Tapered, unit: str, new_yarn: bool) -> Blocks:
    lead = _with_yarn(voice, step, new_yarn)
    stitches = tuple(progress.stitches for progress in step.after)
    verb = "adds" if detail.change > 0 else "takes away"
    amount = abs(detail.change)
    head: Inlines = (Strong(text(_capital(lead, f"shaping {unit}: "))),)
    opening = paragraph(
        head,
        voice.row(detail.shaping),
        f" It {verb} {amount} {'stitch' if amount == 1 else 'stitches'}.",
    )
    paces = [_pace(plan, unit) for plan in detail.tapers]
    times_worked = tuple(plan.changes for plan in detail.tapers)
    plain = _plain_between(voice, detail, unit)
    shared = merged([text(pace) for pace in paces]) if all(paces) else None
    if shared is not None:
        return (opening, paragraph("Work it on ", shared, plain, ". ", _after(step)))
    if all(set(plan.intervals) == {1} and not plan.plain_after for plan in detail.tapers):
        return (
            opening,
            paragraph(f"Work it on every {unit}, ", _times(times_worked), ". ", _after(step)),
        )
    table = Table(
        text("Pace of the shaping"),
        (
            Column(text("Size")),
            Column(text(f"Work the shaping {unit} on"), weight=3.0),
            Column(text(f"{unit.capitalize()}s in all"), align="right"),
            Column(text("Stitches after"), align="right"),
        ),
        tuple(
            TableRow((text(size), text(pace), text(str(plan.rounds)), text(str(count))))
            for size, pace, plan, count in zip(
                voice.sizes, paces, detail.tapers, stitches, strict=True
            )
        ),
    )
    closing = join("Work it as the table says for your size", plain, ".")
    return (opening, Paragraph(closing), table)


def _pace(plan: Taper, unit: str) -> str:
    """``every 8th round 4 times, then every 9th round twice; then 2 rounds plain``."""
    runs = [f"{_every(run.group, unit)} {times(run.times)}" for run in plan.runs]
    words = ", then ".join(runs)
    if plan.plain_after:
        rest = f"{plan.plain_after} {unit if plan.plain_after == 1 else unit + 's'} plain"
        words = f"{words}, then {rest}" if words else rest
    return words


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


def _plain_between(voice: Voice, detail: Tapered, unit: str) -> Inlines:
    """How the rows between are worked: ``; knit the rounds between``."""
    told = [_stitch_throughout(row) for row in detail.plain]
    if len(detail.plain) == 2 and unit == "row":
        right, wrong = (
            text(f"{verb} {side} rows") if verb else join(f"work {side} rows as ", words)
            for verb, side, words in zip(
                told, ("right-side", "wrong-side"), _all_words(voice, detail.plain), strict=True
            )
        )
        return join("; between, ", right, " and ", wrong)
    if told[0]:
        return text(f"; {told[0]} the {unit}s between")
    return join(f"; work the {unit}s between as ", _stripped(voice.row(detail.plain[0])))


def _all_words(voice: Voice, rows: Sequence[Row]) -> list[Inlines]:
    return [_stripped(voice.row(row)) for row in rows]


def _crown(voice: Voice, step: StepPlan, detail: Crowned, new_yarn: bool) -> Blocks:
    lead = _with_yarn(voice, step, new_yarn)
    opening = (
        "decrease by the table, from its top row down. In a decrease round, repeat the words of "
        "the row all around; then knit the plain rounds it gives."
    )
    if _starts_apart(detail):
        opening += (
            " Start at the first row that has a count in your size: a dash means that your size "
            "has not begun."
        )
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
            Column(text("Then plain"), align="right"),
            *size_columns,
        ),
        tuple(rows),
    )
    return (paragraph(_capital(lead, opening)), table)


def _once(voice: Voice, row: Row) -> Inlines:
    """What one repeat of a wedge row says: ``K9, k2tog``."""
    (repeat,) = row.parts
    assert isinstance(repeat, Repeat)
    return _stripped(voice.row(Row(repeat.parts)))


def _starts_apart(detail: Crowned) -> bool:
    return not all(detail.crown.rounds[0].worked) if detail.crown.rounds else False


def _edging(voice: Voice, step: StepPlan, detail: Edged) -> Blocks:
    yarn = voice.yarn_names[step.yarn]
    blocks: list[Block] = [
        paragraph(
            f"With {yarn} and the crochet hook, work along the edge from the right side, ",
            "turning at each corner:",
        )
    ]
    items = tuple(ListItem((paragraph(voice.row(row)),)) for row in detail.rows)
    if len(items) == 1:
        return (
            paragraph(
                (Strong(text("Edging: ")),),
                f"with {yarn} and the crochet hook, right side facing: ",
                voice.row(detail.rows[0]),
                " Fasten off.",
            ),
        )
    return (*blocks, ItemList(items, ordered=True), paragraph("Fasten off."))


# ---------------------------------------------------------------- shared words


def _with_yarn(voice: Voice, step: StepPlan, new_yarn: bool) -> str:
    return f"with {voice.yarn_names[step.yarn]}, " if new_yarn else ""


def _capital(lead: str, rest: str) -> str:
    words = lead + rest
    return words[:1].upper() + words[1:]


def _capitalised(words: Inlines) -> Inlines:
    first = words[0]
    if isinstance(first, Text):
        return (Text(_capital("", first.text)), *words[1:])
    return words


def _units(unit: str, rounds: Sequence[int]) -> str:
    return unit if set(rounds) == {1} else f"{unit}s"


def _times(values: Sequence[int]) -> Inlines:
    if len(set(values)) == 1:
        return text(times(values[0]))
    return join(per_size(values), " times")


def _changed(step: StepPlan) -> Inlines:
    """The count after the step where it changed; nothing where it did not."""
    same = all(
        before.stitches == after.stitches
        for before, after in zip(step.before, step.after, strict=True)
    )
    return () if same else _after(step)


def _after(step: StepPlan) -> Inlines:
    return join(counts(tuple(progress.stitches for progress in step.after)), ".")


def _stripped(words: Inlines) -> Inlines:
    """A row's words without the full stop."""
    last = words[-1]
    if isinstance(last, Text) and last.text.endswith("."):
        return (*words[:-1], Text(last.text[:-1]))
    return words
