"""Instructions made into steps: rows gathered and counted, the rest one sentence a step."""

from collections.abc import Iterable

from bindoff import regex as re
from bindoff.draft.fabrics import AS_SET, FABRICS, PLAIN
from bindoff.draft.gathered import (
    Gathered,
    NamedRows,
    as_rows,
    as_worked,
    each_sentence_once,
    in_order,
    last_of,
    row_in_words,
    rows_of,
    worked_again,
)
from bindoff.draft.goals import Goal, MoreOften, TimesInAll, UntilLong
from bindoff.draft.rows import Readable, row_read, uncounted
from bindoff.draft.sayings import (
    Again,
    BindOff,
    CastOn,
    Cord,
    EachRow,
    Evenly,
    Gather,
    Held,
    Leave,
    LikeRow,
    NumberedRow,
    PickUp,
    Plain,
    Prose,
    RowUntil,
    StepsAgain,
    TakeUp,
)
from bindoff.draft.steps import (
    Edges,
    Entries,
    Row,
    Sentence,
    Step,
    Value,
    Words,
    goal_entries,
    in_words,
    in_yarn,
    with_goal,
    with_yarn,
)
from bindoff.records import Record, replace

_MOST_STEPS = 400


class Part(Record):
    """What a part of the instructions is made of: its steps, and its numbered rows for later."""

    steps: tuple[Step, ...] = ()
    rows: tuple[Gathered, ...] = ()
    begun: str = ""
    fabric: str = ""


def steps(
    sentences: Iterable[Sentence], heading: str, piece: str, before: Part, readable: Readable,
    named: NamedRows,
) -> Part:  # fmt: skip
    """The steps of a part of the instructions, in order, after the part ``before``.

    ``piece`` are the words that the piece is called by.
    """
    state = _Run(readable, heading, named, piece, before.begun, before.fabric)
    for each in sentences:
        state = state.after(each)
    ended = state.flushed().settled()
    return Part(ended.done, ended.worked, ended.begun, ended.fabric)


class _Run(Record):
    """What is read so far: steps done, rows gathered, the yarn's change that waits for a step."""

    readable: Readable
    heading: str
    named: NamedRows
    piece: str = ""
    begun: str = ""
    fabric: str = ""
    done: tuple[Step, ...] = ()
    rows: tuple[Gathered, ...] = ()
    taking: tuple[Sentence, ...] = ()
    worked: tuple[Gathered, ...] = ()
    recent: tuple[Gathered, ...] = ()

    def after(self, each: Sentence) -> "_Run":
        """What is read after one more sentence."""
        if isinstance(each.said, TakeUp):
            return (
                replace(self.flushed(), taking=(*self.taking, each))
                if each.yarn
                else (self.flushed().with_steps(in_words(each, kept=False)))
            )
        more = rows_of(each, self.rows, self.readable)
        if more is not None:
            taken = self.flushed() if self.taking and self.rows else self
            more = tuple(replace(row, number=each.number) for row in more)
            return replace(taken, rows=(*taken.rows, *more))
        if isinstance(each.said, Again):
            return self._again(each, each.said)
        run = self.flushed()
        if isinstance(each.said, PickUp) and (both := _held_and_more(run.done, each.said)):
            last = replace(both, origins=(*both.origins, each.origin))
            return replace(run, done=(*run.done[:-1], last))
        return run.with_steps(*run._step(each)).noted(each)

    def noted(self, each: Sentence) -> "_Run":
        """What later sentences need to know: the fabric that is worked, and a piece's start."""
        if self.done and self.done[-1].kept and not each.in_round:
            return replace(self, fabric="")  # who knows on which side the next row begins?
        match each.said:
            case Plain(fabric, _) if fabric != AS_SET:
                return replace(self, fabric=fabric if fabric in PLAIN else "")
            case CastOn():
                return replace(self, begun=self.begun or "cast on", fabric="")
            case PickUp() | Held():
                return replace(self, begun=self.begun or "taken up")
            case RowUntil():
                return replace(self, fabric="")
            case Prose(_, works, _) if works and (
                not each.in_round or _OTHER_FABRIC.search(each.text)
            ):
                return replace(self, fabric="")
            case _:
                return self

    def with_steps(self, *steps: Step) -> "_Run":
        """More steps; words with which a yarn was taken up go to the first that works."""
        if not steps:
            return self
        first, *others = steps
        if any(step.kept or not step.is_prose for step in steps):
            self = replace(self, recent=())
        if self.taking and not first.is_prose:
            origins = tuple(each.origin for each in self.taking)
            first = replace(first, origins=(*origins, *first.origins))
            return replace(self, done=(*self.done, first, *others), taking=())
        return replace(self.settled(), done=(*self.settled().done, first, *others))

    def settled(self) -> "_Run":
        """Words that took up a yarn stand as they are where no step follows."""
        words = tuple(in_words(each, kept=False) for each in self.taking)
        return replace(self, done=(*self.done, *words), taking=())

    def flushed(self) -> "_Run":
        """The rows gathered are steps."""
        if not self.rows:
            return self
        rows = in_order(self.rows)
        if rows is None:
            kept = tuple(row_in_words(row) for row in each_sentence_once(self.rows))
            return replace(self, rows=()).with_steps(*kept)
        run = replace(self, rows=(), worked=(*self.worked, *rows)).with_steps(*as_worked(rows))
        shaping = all(row.named or row.words in ("k all", "p all") for row in rows)
        return replace(run, recent=rows, fabric=self.fabric if shaping else "")

    def _again(self, each: Sentence, said: Again) -> "_Run":
        if said.named:
            return self._again_every(each, said)
        rows = in_order(self.rows)
        if said.of or isinstance(said.goal, TimesInAll):
            run = self.flushed()
            again = run._recalled(said) if not (rows and self.rows and not said.of) else None
            if again and isinstance(said.goal, TimesInAll):
                texts = as_rows(again, counted=False)
                entries = (("work", texts), *goal_entries(said.goal), *in_yarn(each.yarn))
                return run.with_steps(Step(entries, (each.origin,), number=each.number))
            return run.with_steps(in_words(each))
        if not rows and self.recent:
            return self._once_more(each, said)
        made = worked_again(rows, said, each) if rows else None
        if made is None:
            return self.flushed().with_steps(in_words(each))
        assert rows is not None
        run = replace(self, rows=(), worked=(*self.worked, *rows))
        goal = self._from_where(each, said.goal)
        here = isinstance(goal, UntilLong) and not goal.from_start and goal != said.goal
        if goal is None or (here and len(made) > 1):
            return self.flushed().with_steps(in_words(each))
        return run.with_steps(*(with_goal(step, goal) for step in made))

    def _once_more(self, each: Sentence, said: Again) -> "_Run":
        """Rows that were worked before words without stitches: they are worked again after them."""
        again = last_of(self.recent, said, each)
        goal = self._from_where(each, said.goal)
        from_start = isinstance(goal, UntilLong) and goal.from_start
        if again is None or not (from_start or isinstance(goal, MoreOften)):
            return self.with_steps(in_words(each))
        assert goal is not None
        key = "rounds" if len(again) == 1 else "times"
        entries = goal.values if isinstance(goal, MoreOften) else None
        goals = ((key, entries),) if entries else goal_entries(goal, key)
        rows = as_rows(again, counted=False)
        step = Step(
            (("work", rows), *goals, *in_yarn(again[0].yarn)), (each.origin,), number=each.number
        )
        return self.with_steps(step)

    def _recalled(self, said: Again) -> tuple[Gathered, ...]:
        wanted = said.of.lower().removesuffix(" pattern")
        for name, rows in self.named.items():
            if wanted and wanted in name:
                found = [row for row in rows if row.numbers and row.numbers[0] in said.numbers]
                numbers = tuple(row.numbers[0] for row in found)
                if numbers == said.numbers or not said.numbers:
                    return tuple(found) if said.numbers else rows
        return ()

    def _again_every(self, each: Sentence, said: Again) -> "_Run":
        """A shaping row worked so many times more, with rows of the fabric between."""
        shaped = next(
            (
                row
                for row in reversed((*self.worked, *self.rows))
                if row.named.startswith(said.named)
            ),
            None,
        )
        fabric = FABRICS.get(self.fabric)
        run = self.flushed()
        if shaped is None or fabric is None or not isinstance(said.goal, MoreOften):
            return run.with_steps(in_words(each))
        plain = fabric[0 if each.in_round else 1]
        if not each.in_round and (said.every % 2 or shaped.side == "WS"):
            return run.with_steps(in_words(each))
        turned = plain[1:] + plain[:1]  # the rows between begin on the wrong side
        between = tuple(Row(turned[at % len(turned)]) for at in range(said.every - 1))
        rows = (*between, Row(uncounted(shaped.text), shaped.label))
        entries: Entries = (
            ("work", rows), ("times", said.goal.values), *in_yarn(each.yarn),
        )  # fmt: skip
        return run.with_steps(Step(entries, (each.origin,), number=each.number))

    def _from_where(self, each: Sentence, goal: Goal) -> Goal | None:
        """A goal whose length begins where the text says; ``None`` where that isn't known.

        The part of a heading is measured from its start, where nothing of it is worked before.
        """
        if not isinstance(goal, UntilLong):
            return goal
        if goal.ends and not _ends_there(goal.ends, each):
            return None
        if not goal.measured and not goal.beyond:
            return goal
        if _is_called(goal.measured, self.piece) and (
            (self.begun == "cast on" and goal.measured and not goal.beyond)
            or (self.begun == "taken up" and _WHERE_TAKEN_UP.search(goal.beyond))
        ):
            return replace(goal, from_start=True, measured="", beyond="")
        heading = self.heading.lower()
        named = bool(goal.measured) and goal.measured in heading
        begins_there = _WHERE_TAKEN_UP.search(goal.beyond) and _FROM_THERE.search(heading)
        known = named or begins_there is not None
        fresh = not any((step.works and not _picks_up(step)) or step.kept for step in self.done)
        if not known or not fresh:
            return None
        cast_on = any(step.entries[0][0] == "cast on" for step in self.done)
        return replace(goal, from_start=cast_on, measured="", beyond="")

    def _step(self, each: Sentence) -> tuple[Step, ...]:
        """The steps that a sentence is which works no rows in words."""
        made = self._entries(each)
        if made is None:
            return (in_words(each, kept=not isinstance(each.said, Prose) or each.said.works),)
        return tuple(
            Step(
                with_yarn(entries, each.yarn),
                (each.origin,) if at == 0 else (),
                number=each.number,
            )
            for at, entries in enumerate(made)
        )

    def _entries(self, each: Sentence) -> tuple[Entries, ...] | None:
        match each.said:
            case CastOn(values, method, rest):
                entries: list[tuple[str, Value]] = [("cast on", values)]
                entries += [("method", method)] if method else []
                entries += [("note", Words(f"{rest[:1].upper()}{rest[1:]}."))] if rest else []
                return (tuple(entries),)
            case Plain(fabric, goal):
                here = self._from_where(each, goal)
                fabric = self.fabric if fabric == AS_SET else fabric
                return _plain(fabric, here, each) if here and fabric else None
            case RowUntil(row, goal, label):
                read = row_read(row, self.readable)
                here = self._from_where(each, goal)
                if read is None or here is None:
                    return None
                remark: Entries = (("note", Words(read.remark)),) if read.remark else ()
                return ((("work", (Row(read.text, label),)), *goal_entries(here), *remark),)
            case EachRow(values, rows):
                return _each_row(values, rows, self.fabric, each.in_round)
            case Evenly(way, values):
                return ((("even", way), ("to", values)),)
            case Cord(values):
                return ((("cord", values),),)
            case PickUp(edges, to, first):
                entries = [("pick up along", Edges(edges))]
                entries += [("to", to)] if to else []
                entries += [("first", Words(f"{first[:1].upper()}{first[1:]}."))] if first else []
                return (tuple(entries),)
            case Held(values):
                return ((("held", values),),)
            case BindOff(how, by):
                by_method: Entries = (("by", by),) if by else ()
                said: Entries = (("how", Words(how)),) if how else ()
                return ((("bind off", "all"), *by_method, *said),)
            case Gather():
                return ((("gather", "all"),),)
            case Leave():
                return ((("leave", "live"), ("note", Words(each.text))),)
            case StepsAgain(first, last, more):
                return _steps_again(self.done, first, last, more)
            case Prose() | NumberedRow() | LikeRow() | Again() | TakeUp():
                return None


_WHERE_TAKEN_UP = re.compile(r"\b(?:underarm|pick(?:ed)?[ -]?up|armhole)", re.IGNORECASE)


_FROM_THERE = re.compile("body|sleeve|thumb")


_OTHER_FABRIC = re.compile(
    r"\b(?:rib|garter|moss|seed|pattern|patt|chart|lace|cable)", re.IGNORECASE
)


def _is_called(measured: str, piece: str) -> bool:
    """Whether a thing that is measured is the piece itself: a sleeve among Sleeves."""
    return all(word.rstrip("s") in piece for word in measured.split())


def _picks_up(step: Step) -> bool:
    """Whether a step picks up the stitches that a part is measured from."""
    value = step.entries[0][1]
    return isinstance(value, tuple) and any(
        isinstance(row, Row) and "pick up" in row.text for row in value
    )


def _plain(fabric: str, goal: Goal, each: Sentence) -> tuple[Entries, ...] | None:
    rows = FABRICS[fabric][0 if each.in_round else 1]
    if isinstance(goal, UntilLong) and goal.ends == "RS" and not each.in_round:
        return None
    if each.joins and rows == ("k all",) and isinstance(goal, UntilLong):
        joining: Entries = (("work", (Row("k all, join in the round"),)),)
        return (joining, (("work", (Row("k all"),)), *goal_entries(goal)))
    return ((("work", tuple(Row(row) for row in rows)), *goal_entries(goal)),)


def _held_and_more(done: tuple[Step, ...], said: PickUp) -> Step | None:
    """The step before, which took up held stitches, with those picked up beside them."""
    if not done or done[-1].entries[0][0] != "held" or len(said.edges) != 1 or said.first:
        return None
    ((many, where),) = said.edges
    return replace(done[-1], entries=(*done[-1].entries[:1], ("pick up", many), ("along", where)))


def _ends_there(ends: str, each: Sentence) -> bool:
    """Whether a length of whole lists of rows ends as the text says it does."""
    match each.said:
        case Again():
            rows = each.said.many or len(each.said.numbers)
            return ends == "last" or ends == str(rows) or (ends == "WS" and rows == 2)
        case Plain(fabric, _):
            flat = FABRICS["stockinette" if fabric == AS_SET else fabric][1]
            return ends in ("WS", "2") and not each.in_round and len(flat) == 2
        case _:
            return False


def _each_row(
    values: tuple[int, ...], rows: int, fabric: str, in_round: bool
) -> tuple[Entries, ...] | None:
    """Bindings off where rows begin, the rest of each row in the fabric that is worked."""
    many = (
        str(values[0]) if len(values) == 1 else f"{values[0]} ({', '.join(map(str, values[1:]))})"
    )
    if in_round:
        return None
    if fabric == "stockinette" and rows % 2 == 0:
        pair = (Row(f"bind off {many}, k to end"), Row(f"bind off {many}, p to end"))
        return ((("work", pair), *((("times", (rows // 2,)),) if rows > 2 else ())),)
    if fabric in ("knit", "garter"):
        return ((("work", (Row(f"bind off {many}, k to end"),)), ("rounds", (rows,))),)
    return None


def _steps_again(
    done: tuple[Step, ...], first: int, last: int, more: int
) -> tuple[Entries, ...] | None:
    """Numbered steps over again, so many times more."""
    within = [step for step in done if step.number is not None and first <= step.number <= last]
    again = [step for step in within if not step.is_prose]
    numbers = {step.number for step in again}
    if numbers != set(range(first, last + 1)) or any(step.kept for step in within):
        return None
    if len(again) * more > _MOST_STEPS:
        return None
    return tuple(step.entries for _ in range(more) for step in again)
