"""Rows in the row language, worked in turn."""

from bindoff.diagnostics import Diagnostic, PatternError, fail
from bindoff.english import how_many, listed, verb
from bindoff.plan.bench import Bench, Outcome, States
from bindoff.plan.bindoffs import Doubt, settle
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.rowfacts import row_facts
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.gauge import round_to
from bindoff.plan.measures import Measures
from bindoff.plan.mirrored import goes_on_after_change
from bindoff.plan.picture import piece_gauges
from bindoff.plan.rowbyrow import work_rows
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.records import Record, replace
from bindoff.source.rowlang.syntax import Alter, CountChange, Row, ToGap
from bindoff.source.rowlang.uses import every_part
from bindoff.source.steps.work import WorkStep


class Divided(Record):
    """Stitches of a row that divides, per size; ``held`` if they wait, else on the needles."""

    name: str
    stitches: tuple[int, ...]
    held: bool


Division = tuple[Divided, ...]
"""All parts of a row, in order; those of one name are counted together."""


class Striped(Record):
    """A stripe: its yarn and its rounds, per size."""

    yarn: str
    rounds: tuple[int, ...]


class Rows(Record):
    """Rows in the row language, worked in turn for ``rounds`` rounds per size.

    ``doubt`` is set where a binding off among them fits in two readings. ``divided`` are the parts
    into which rows that hold stitches under a name divide them, if all sizes have the same ones.
    ``again`` is how many at the end are repeated when all are worked; 0 for all of them.
    ``machine`` says that they are turns of a machine's crank. ``until`` are the lengths (mm) to
    which they are worked, measured from this step if ``from_here``, else from where stitches were
    last put on the needles; none where the rows are counted. ``stripes`` are worked one after the
    other and again, whatever row is due.
    """

    rows: tuple[Row, ...]
    rounds: tuple[int, ...]
    doubt: Doubt | None = None
    again: int = 0
    divided: tuple[Division, ...] = ()
    machine: bool = False
    until: tuple[float, ...] = ()
    from_here: bool = False
    stripes: tuple[Striped, ...] = ()


_Rows = WorkedStep[WorkStep, Rows]


def _work(bench: Bench, index: int, step: WorkStep, yarn: str, states: States) -> Outcome[Rows]:
    """The rows of a ``work`` step in turn, for so many rounds or times."""
    rows = bench.rows(step.place.of("work"))
    given = [key for key in ("rounds", "times", "until") if getattr(step, key) is not None]
    if len(given) > 1:
        raise fail(
            "step.rounds-and-times",
            f"`{given[0]}` and `{given[1]}` are both given",
            "Keep one: `rounds` counts rounds in all, `times` counts how often the list is worked, "
            "`until` is the length to work to",
            step.place.of(given[1]).key_span,
        )
    stripes = _stripes(bench, step, rows)
    once = [sum(sizes) for sizes in zip(*(each.rounds for each in stripes), strict=True)]
    until: tuple[float, ...] = ()
    if step.until is not None:
        until = bench.measures.lengths(step.until)
        rounds = _rounds_until(bench, step, until, len(rows), states)
    elif step.rounds is not None:
        rounds = bench.measures.counts(step.rounds)
    elif step.times is not None:
        many = bench.measures.counts(step.times)
        each = once or [len(rows)] * len(states)
        rounds = tuple(times * count for times, count in zip(many, each, strict=True))
    else:
        rounds = tuple(once) or (len(rows),) * len(states)
    bench.refuse_endless(index, states, rounds)
    again = _repeated(step, len(rows))
    _refuse_half_pairs(bench, step, rows, rounds, again)
    written = len(rows)
    rows, doubt = settle(bench, states, in_order(rows, again, max(rounds)), rounds)
    plans = _in_yarns(rows, rounds, stripes)
    after, worked = work_rows(bench, index, yarn, states, plans)
    divided = _divisions(step, after)
    here = step.from_ == "here"
    detail = Rows(
        rows[:written], rounds, doubt, again, divided, bench.machine, until, here, stripes
    )
    return detail, after, worked


def _stripes(bench: Bench, step: WorkStep, rows: tuple[Row, ...]) -> tuple[Striped, ...]:
    """The stripes that the rows are worked in.

    Raises:
        PatternError: ``step.stripes`` where another yarn is named for the same stitches, where a
            size has no stripe, or on a machine, whose crank tells no stripes of a step.
    """
    if not step.in_stripes:
        return ()
    place = step.place.of("in stripes")
    named = (part.yarn for row in rows for part in every_part(row) if hasattr(part, "yarn"))
    if step.yarn is not None or any(named) or any(row.yarn for row in rows):
        raise fail(
            "step.stripes",
            "the stripes name the yarns of this step, and so does "
            + ("`yarn:`" if step.yarn is not None else "a row of it"),
            "Keep one of the two",
            place.key_span,
        )
    if bench.machine:
        raise fail(
            "step.stripes",
            "rows of a piece from the machine are not told in stripes",
            "Write a step for each stripe, or give the piece a `tube:` with its stripes",
            place.key_span,
        )
    stripes = tuple(
        Striped(each.yarn, bench.measures.counts(each.rounds)) for each in step.in_stripes
    )
    bench.refuse(
        (
            size,
            Diagnostic(
                "step.stripes",
                "the stripes have no rounds",
                "Write at least 1 for one of them",
                place.span,
            ),
        )
        for size, each in enumerate(zip(*(each.rounds for each in stripes), strict=True))
        if not any(each)
    )
    return stripes


def _in_yarns(
    rows: tuple[Row, ...], rounds: tuple[int, ...], stripes: tuple[Striped, ...]
) -> list[list[Row]]:
    """The rows of each size in turn, each in the yarn of its stripe."""
    if not stripes:
        return [[rows[at % len(rows)] for at in range(count)] for count in rounds]
    dyed = {each.yarn: [replace(row, yarn=each.yarn) for row in rows] for each in stripes}
    plans: list[list[Row]] = []
    for size, count in enumerate(rounds):
        turn = [each.yarn for each in stripes for _ in range(each.rounds[size])]
        plans.append([dyed[turn[at % len(turn)]][at % len(rows)] for at in range(count)])
    return plans


def _rounds_until(
    bench: Bench, step: WorkStep, until: tuple[float, ...], rows: int, states: States
) -> tuple[int, ...]:
    """The rounds to a length: the nearest number that is a whole number of lists."""
    assert step.until is not None
    gauges = piece_gauges(bench.measures, bench.piece)
    begun = [0 if step.from_ == "here" else state.height - state.begun for state in states]
    left = [
        mm / gauge.round_mm - done for mm, gauge, done in zip(until, gauges, begun, strict=True)
    ]
    bench.refuse(
        (
            size,
            Diagnostic(
                "step.until",
                f"the piece has {how_many(begun[size], bench.row_word)} here, and is longer "
                "already than it is to be",
                "Give a greater length, or write `from: here` to measure it from this step",
                step.until.span,
            ),
        )
        for size, more in enumerate(left)
        if round_to(more) < 0
    )
    return tuple(max(0, round_to(more / rows)) * rows for more in left)


def in_order(rows: tuple[Row, ...], again: int, count: int) -> tuple[Row, ...]:
    """``rows`` and then the last ``again`` of them over and over, as far as ``count`` rows; those
    alone where nothing is repeated but all of them."""
    if not again:
        return rows
    more = max(0, count - len(rows))
    return (*rows, *(rows[len(rows) - again + place % again] for place in range(more)))


def _repeated(step: WorkStep, rows: int) -> int:
    """How many rows at the end of the list are repeated.

    Raises:
        PatternError: ``step.repeat-last`` where there are not so many, or no number of rounds.
    """
    if step.repeat_last is None:
        return 0
    if step.repeat_last > rows or step.rounds is None:
        raise fail(
            "step.repeat-last",
            f"the last {step.repeat_last} are repeated of {how_many(rows, 'row')}"
            if step.repeat_last > rows
            else "the last rows are repeated, and it is not said how many rows there are in all",
            "Write a list of as many rows, or a smaller number"
            if step.repeat_last > rows
            else "Add `rounds:` with the number of all rows",
            step.place.of("repeat last").span,
        )
    return step.repeat_last


def _refuse_half_pairs(
    bench: Bench, step: WorkStep, rows: tuple[Row, ...], rounds: tuple[int, ...], again: int
) -> None:
    """Raises where a mirrored piece binds off in one row of a pair, and works pairs in part."""
    paired = bench.mirrored and bench.flat and any(goes_on_after_change(row) for row in rows)
    if paired and (again % 2 or any(count % 2 for count in rounds)):
        raise fail(
            "mirror.row",
            f"in `{bench.key}`, stitches are bound off or cast on in the row beside the one that "
            "is written, and the step ends amid two such rows",
            "Give the step an even number of rows, and work the last one in a step of its own",
            step.place.of("work").span,
        )


def _divisions(step: WorkStep, after: States) -> tuple[Division, ...]:
    """The parts of each row that names some of them.

    Raises:
        PatternError: ``step.parts`` where ``parts`` has another number of names than there are
            parts on the needles.
    """
    kept = [name.strip() for name in step.parts.split(",")] if step.parts else []
    found: list[Division] = []
    alike = {tuple(tuple(name for name, _ in row) for row in state.divided) for state in after}
    rows = list(zip(*(state.divided for state in after), strict=True)) if len(alike) == 1 else []
    for row in rows:
        stay = sum(not name for name, _ in row[0])
        if kept and len(kept) != stay:
            raise _wrong_parts(step, stay, len(kept))
        names = iter(kept or [""] * stay)
        parts: dict[tuple[str, bool], tuple[int, ...]] = {}
        for each in zip(*row, strict=True):
            group, count = each[0][0], tuple(count for _, count in each)
            key = (group, True) if group else (next(names), False)
            before = parts.get(key, (0,) * len(count))
            parts[key] = tuple(map(sum, zip(before, count, strict=True)))
        found.append(tuple(Divided(name, count, held) for (name, held), count in parts.items()))
    if kept and not found:
        raise _wrong_parts(step, 0, len(kept))
    return tuple(found)


def _wrong_parts(step: WorkStep, stay: int, named: int) -> PatternError:
    return fail(
        "step.parts",
        f"{how_many(stay, 'part')} {verb(stay, 'stays', 'stay')} on the needles between the "
        f"stitches that the row holds by name, and {named} {verb(named, 'is', 'are')} named"
        if stay
        else "parts are named, and no row of this step holds stitches under a name",
        "Name those that stay on the needles, in order: `parts: front, back`"
        if stay
        else "Say in the row what they are held for, as in `hold … stitches for left sleeve`",
        step.place.of("parts").span,
    )


def _rows(step: _Rows) -> tuple[Row, ...]:
    detail = step.detail
    return in_order(detail.rows, detail.again, max(detail.rounds))


def _tools(step: _Rows) -> tuple[str, ...]:
    return () if step.detail.machine else needles(step)


def _techniques(step: _Rows, flat: bool) -> tuple[str, ...]:
    parts = [part for row in step.detail.rows for part in every_part(row)]
    goals = (getattr(part, "to", None) or getattr(part, "until", None) for part in parts)
    turned = any(isinstance(goal, ToGap) for goal in goals)
    picked = any(isinstance(part, Alter) and part.change in _PICKED_UP for part in parts)
    return (*(["short-rows"] if turned else ()), *(["picking-up"] if picked else ()))


_PICKED_UP = (CountChange.PICK_UP, CountChange.PICK_UP_PURL)


def _facts(measures: Measures, step: _Rows, keys: Keys) -> Facts:
    rows = row_facts(measures, What.ROW, step.detail.rows)
    again = {(What.REPEATED, ""): {"": step.detail.again}} if step.detail.again else {}
    stripes: Facts = {}
    if step.detail.stripes:
        named = [(each.rounds, _name(measures, each.yarn)) for each in step.detail.stripes]
        said = [
            "stripes of " + listed(f"{rounds[size]} in {name}" for rounds, name in named)
            for size in range(len(measures.sizes))
        ]
        stripes = {(What.STRIPES, ""): per_size(measures, said)}
    return {**yarn_facts(measures, step, keys), **rows, **again, **stripes}


def _name(measures: Measures, yarn: str) -> str:
    return measures.source.pattern.yarns[yarn].name


KIND = Kind(
    WorkStep,
    _work,
    Answers(
        rows=_rows,
        in_turn=True,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=nothing.stitches,
        closes=nothing.stitches,
        thread=nothing.thread,
        tools=_tools,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=False,
        hand=Hand.WORKED,
    ),
)
