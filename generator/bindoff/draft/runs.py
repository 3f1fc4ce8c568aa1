"""Instructions made into steps: rows gathered and counted, the rest one sentence a step."""

from collections.abc import Iterable, Mapping

from bindoff import regex as re
from bindoff.draft.fabrics import AS_SET, FABRICS, PLAIN
from bindoff.draft.goals import Goal, MoreOften, RowsInAll, TimesInAll, UntilLong
from bindoff.draft.lines import Origin
from bindoff.draft.rows import Readable, RowRead, row_read, uncounted
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
    Saying,
    StepsAgain,
    TakeUp,
)
from bindoff.records import Record, replace

Figures = tuple[int, ...] | tuple[str, ...]
"""One figure for all sizes, or one for each."""


class Words(Record):
    """Prose of the text, for the source."""

    text: str


class Edges(Record):
    """Edges along which stitches are picked up, each with how many."""

    edges: tuple[tuple[tuple[int, ...], str], ...]


class Row(Record):
    """A row for the source, and its label in the text."""

    text: str
    label: str = ""


Value = str | Words | Figures | Edges | tuple[Row, ...]


class Step(Record):
    """A step of the draft: its keys with their values, and the sentences of the text it is from.

    ``kept``: it seems to work stitches, and stands in its own words because it wasn't understood.
    ``number`` is that of the text's numbered step.
    """

    entries: tuple[tuple[str, Value], ...]
    origins: tuple[Origin, ...]
    kept: bool = False
    number: int | None = None

    @property
    def line(self) -> int:
        """The line of the text on which it begins."""
        return self.origins[0].line if self.origins else 1

    @property
    def is_prose(self) -> bool:
        """Whether it is words alone."""
        return self.entries[0][0] == "say"

    @property
    def works(self) -> bool:
        """Whether it works rows."""
        return self.entries[0][0] in ("work", "even", "cord")


class Sentence(Record):
    """A sentence with what it says, its place, the yarn in hand where the text named one, whether
    it is worked in the round, and the number of the text's step it stands in."""

    said: Saying
    origin: Origin
    yarn: str = ""
    in_round: bool = True
    number: int | None = None
    joins: bool = False
    text: str = ""


class _Row(Record):
    numbers: tuple[int, ...]
    words: str
    origin: Origin
    side: str = ""
    yarn: str = ""
    label: str = ""
    remark: str = ""
    fills: str = ""
    named: str = ""
    number: int | None = None

    @property
    def text(self) -> str:
        return f"{self.side}: {self.words}" if self.side else self.words


_FEW_ROWS = 2
"""Plain rows that go on with the rows above them, so that both can be repeated."""

_MOST_STEPS = 400
_MOST_ROWS = 400

NamedRows = Mapping[str, tuple[_Row, ...]]
"""Rows of parts worked before, by the part's heading in small letters."""


class Part(Record):
    """What a part of the instructions is made of: its steps, and its numbered rows for later."""

    steps: tuple[Step, ...] = ()
    rows: tuple[_Row, ...] = ()
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
    rows: tuple[_Row, ...] = ()
    taking: tuple[Sentence, ...] = ()
    worked: tuple[_Row, ...] = ()
    recent: tuple[_Row, ...] = ()

    def after(self, each: Sentence) -> "_Run":
        """What is read after one more sentence."""
        if isinstance(each.said, TakeUp):
            return (
                replace(self.flushed(), taking=(*self.taking, each))
                if each.yarn
                else (self.flushed().with_steps(_in_words(each, kept=False)))
            )
        more = _rows_of(each, self.rows, self.readable)
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
        words = tuple(_in_words(each, kept=False) for each in self.taking)
        return replace(self, done=(*self.done, *words), taking=())

    def flushed(self) -> "_Run":
        """The rows gathered are steps."""
        if not self.rows:
            return self
        rows = _in_order(self.rows)
        if rows is None:
            kept = tuple(_row_in_words(row) for row in _once(self.rows))
            return replace(self, rows=()).with_steps(*kept)
        run = replace(self, rows=(), worked=(*self.worked, *rows)).with_steps(*_as_worked(rows))
        shaping = all(row.named or row.words in ("k all", "p all") for row in rows)
        return replace(run, recent=rows, fabric=self.fabric if shaping else "")

    def _again(self, each: Sentence, said: Again) -> "_Run":
        if said.named:
            return self._again_every(each, said)
        rows = _in_order(self.rows)
        if said.of or isinstance(said.goal, TimesInAll):
            run = self.flushed()
            again = run._recalled(said) if not (rows and self.rows and not said.of) else None
            if again and isinstance(said.goal, TimesInAll):
                texts = _as_rows(again, counted=False)
                entries = (("work", texts), *_goal(said.goal), *_in(each.yarn))
                return run.with_steps(Step(entries, (each.origin,), number=each.number))
            return run.with_steps(_in_words(each))
        if not rows and self.recent:
            return self._once_more(each, said)
        made = _worked_again(rows, said, each) if rows else None
        if made is None:
            return self.flushed().with_steps(_in_words(each))
        assert rows is not None
        run = replace(self, rows=(), worked=(*self.worked, *rows))
        goal = self._from_where(each, said.goal)
        here = isinstance(goal, UntilLong) and not goal.from_start and goal != said.goal
        if goal is None or (here and len(made) > 1):
            return self.flushed().with_steps(_in_words(each))
        return run.with_steps(*(_with_goal(step, goal) for step in made))

    def _once_more(self, each: Sentence, said: Again) -> "_Run":
        """Rows that were worked before words without stitches: they are worked again after them."""
        again = _last_of(self.recent, said, each)
        goal = self._from_where(each, said.goal)
        from_start = isinstance(goal, UntilLong) and goal.from_start
        if again is None or not (from_start or isinstance(goal, MoreOften)):
            return self.with_steps(_in_words(each))
        assert goal is not None
        key = "rounds" if len(again) == 1 else "times"
        entries = goal.values if isinstance(goal, MoreOften) else None
        goals = ((key, entries),) if entries else _goal(goal, key)
        rows = _as_rows(again, counted=False)
        step = Step(
            (("work", rows), *goals, *_in(again[0].yarn)), (each.origin,), number=each.number
        )
        return self.with_steps(step)

    def _recalled(self, said: Again) -> tuple[_Row, ...]:
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
            return run.with_steps(_in_words(each))
        plain = fabric[0 if each.in_round else 1]
        if not each.in_round and (said.every % 2 or shaped.side == "WS"):
            return run.with_steps(_in_words(each))
        turned = plain[1:] + plain[:1]  # the rows between begin on the wrong side
        between = tuple(Row(turned[at % len(turned)]) for at in range(said.every - 1))
        rows = (*between, Row(uncounted(shaped.text), shaped.label))
        entries: tuple[tuple[str, Value], ...] = (
            ("work", rows), ("times", said.goal.values), *_in(each.yarn),
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
            return (_in_words(each, kept=not isinstance(each.said, Prose) or each.said.works),)
        return tuple(
            Step(
                _with_yarn(entries, each.yarn),
                (each.origin,) if at == 0 else (),
                number=each.number,
            )
            for at, entries in enumerate(made)
        )

    def _entries(self, each: Sentence) -> tuple[tuple[tuple[str, Value], ...], ...] | None:
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
                remark: tuple[tuple[str, Value], ...] = (
                    (("note", Words(read.remark)),) if read.remark else ()
                )
                return ((("work", (Row(read.text, label),)), *_goal(here), *remark),)
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
                by_method: tuple[tuple[str, Value], ...] = (("by", by),) if by else ()
                said: tuple[tuple[str, Value], ...] = (("how", Words(how)),) if how else ()
                return ((("bind off", "all"), *by_method, *said),)
            case Gather():
                return ((("gather", "all"),),)
            case Leave():
                return ((("leave", "live"), ("note", Words(each.text))),)
            case StepsAgain(first, last, more):
                return _steps_again(self.done, first, last, more)
            case Prose() | NumberedRow() | LikeRow() | Again() | TakeUp():
                return None


# ---------------------------------------------------------------- rows


def _rows_of(
    each: Sentence, above: tuple[_Row, ...], readable: Readable
) -> tuple[_Row, ...] | None:
    """The rows that a sentence is, ``None`` where it is none."""
    match each.said:
        case NumberedRow(numbers, row, side, fills, label, named):
            read = row_read(row, readable)
            if read is None:
                return None
            one = _row(each, read, numbers, side, label, fills, named)
            if fills or not numbers:
                return (one,)
            return _each_number(one)
        case LikeRow(numbers, like, count, label):
            same = next((row for row in reversed(above) if like in row.numbers), None)
            if same is None:
                return None
            words = f"{uncounted(same.words)} {count}".strip()
            if count and not readable(words):
                words = uncounted(same.words)
            alike = replace(
                same, numbers=numbers, words=words, origin=each.origin, side="", label=label,
                remark="", named="",
            )  # fmt: skip
            return _each_number(alike)
        case Plain(fabric, RowsInAll((count,))) if above and count <= _FEW_ROWS:
            rows = FABRICS[fabric][0]
            one = _Row((), rows[0], each.origin, yarn=each.yarn)
            return (one,) * count if len(rows) == 1 and rows == FABRICS[fabric][1] else None
        case Prose(text, _, names_stitches):
            # A row without a label, as a sentence of its own.
            read = row_read(text, readable) if names_stitches else None
            return (_row(each, read),) if read else None
        case _:
            return None


def _row(
    each: Sentence,
    read: RowRead,
    numbers: tuple[int, ...] = (),
    side: str = "",
    label: str = "",
    fills: str = "",
    named: str = "",
) -> _Row:
    return _Row(numbers, read.text, each.origin, side, each.yarn, label, read.remark, fills, named)


def _each_number(row: _Row) -> tuple[_Row, ...]:
    """A row for each of its numbers; the label stands beside the first."""
    first, *others = row.numbers
    return (
        replace(row, numbers=(first,)),
        *(replace(row, numbers=(number,), label="", remark="") for number in others),
    )


def _in_order(rows: tuple[_Row, ...]) -> tuple[_Row, ...] | None:
    """The rows in the order they are worked in, those that stand for every second one in all
    their places; ``None`` where a row is missing among them."""
    filling = [row for row in rows if row.fills]
    numbers = [row.numbers[0] for row in rows if row.numbers]
    if not filling and numbers == sorted(numbers):
        return rows
    begin = _last_run(rows)
    before, rows = rows[:begin], rows[begin:]
    filling = [row for row in rows if row.fills]
    numbered = {row.numbers[0]: row for row in rows if row.numbers and not row.fills}
    if not all(row.numbers or row.fills for row in rows) or not numbered:
        return None
    if len(numbered) != sum(1 for row in rows if not row.fills):
        return None
    for row in filling:
        parity = _parity(row, numbered)
        if parity is None:
            return None
        top = max((*numbered, *row.numbers))
        top = top if top % 2 == parity else top + 1
        low = min((*row.numbers, *numbered)) if row.numbers else 1
        for number in range(low, min(top, _MOST_ROWS) + 1):
            if number % 2 == parity and number not in numbered:
                seen = any(each.origin == row.origin for each in numbered.values())
                one = replace(row, numbers=(number,), fills="", side="")
                numbered[number] = replace(one, label="", remark="") if seen else one
    order = sorted(numbered)
    if order != list(range(order[0], order[0] + len(order))):
        return None
    return (*before, *(numbered[number] for number in order))


def _last_run(rows: tuple[_Row, ...]) -> int:
    """Where the last rows that are numbered from one on begin, after others that stand alone."""
    begin = 0
    for at, row in enumerate(rows):
        if not row.numbers and not row.fills:
            begin = at + 1
        elif (
            row.numbers
            and row.numbers[0] == 1
            and any(each.numbers and each.numbers[0] == 1 for each in rows[begin:at])
        ):
            begin = at
    return begin


def _parity(row: _Row, numbered: Mapping[int, _Row]) -> int | None:
    match row.fills:
        case "same":
            return row.numbers[0] % 2 if row.numbers else None
        case "even":
            return 0
        case "odd":
            return 1
        case side:
            known = {
                number % 2 if each.side == side else 1 - number % 2
                for number, each in numbered.items()
                if each.side
            }
            return known.pop() if len(known) == 1 else None


def _once(rows: tuple[_Row, ...]) -> tuple[_Row, ...]:
    """Rows of which each sentence stands once."""
    return tuple({row.origin: row for row in reversed(rows)}.values())[::-1]


def _as_rows(rows: tuple[_Row, ...], counted: bool = True) -> tuple[Row, ...]:
    return tuple(Row(row.text if counted else uncounted(row.text), row.label) for row in rows)


def _origins(rows: Iterable[_Row]) -> tuple[Origin, ...]:
    return tuple(dict.fromkeys(row.origin for row in rows))


def _remarks(rows: Iterable[_Row]) -> tuple[tuple[str, Value], ...]:
    said = " ".join(row.remark for row in rows if row.remark)
    return (("note", Words(said)),) if said else ()


def _as_worked(rows: tuple[_Row, ...]) -> tuple[Step, ...]:
    """Rows worked once each, those alike and beside each other in one step with their number; a
    row of another yarn, or of another numbered step, is a step of its own."""
    groups: list[list[_Row]] = []
    for row in rows:
        last = groups[-1][-1] if groups else None
        if last and (last.yarn, last.number) == (row.yarn, row.number):
            groups[-1].append(row)
        else:
            groups.append([row])
    return tuple(_one_step(tuple(group)) for group in groups)


def _one_step(rows: tuple[_Row, ...]) -> Step:
    last = (*_in(rows[0].yarn), *_remarks(rows))
    texts = _as_rows(rows)
    if len({row.text for row in texts}) == 1:
        count: tuple[tuple[str, Value], ...] = (("rounds", (len(texts),)),) if len(rows) > 1 else ()
        entries = (("work", texts[:1]), *count, *last)
        return Step(entries, _origins(rows), number=rows[0].number)
    return Step((("work", texts), *last), _origins(rows), number=rows[0].number)


def _with_yarn(entries: tuple[tuple[str, Value], ...], yarn: str) -> tuple[tuple[str, Value], ...]:
    return entries if any(key in ("yarn", "say") for key, _ in entries) else (*entries, *_in(yarn))


def _in(yarn: str) -> tuple[tuple[str, Value], ...]:
    return (("yarn", yarn),) if yarn else ()


def _worked_again(rows: tuple[_Row, ...], said: Again, each: Sentence) -> tuple[Step, ...] | None:
    """The rows above with those that are worked again, ``None`` where they are not the last."""
    last = _last_of(rows, said, each)
    if last is None:
        return None
    many, before = len(last), rows[: -len(last)]
    texts = _as_rows(last)
    bare = _as_rows(last, counted=False)
    counted = [row.text for row in texts] != [row.text for row in bare]
    same = len({row.text for row in texts}) == 1
    shown = texts[:1] if same and many == 1 else texts
    more = said.goal.values if isinstance(said.goal, MoreOften) else ()
    yarn = _in(last[0].yarn)
    if counted and more:
        # The counts hold for the first time: these rows stand once with them, then without.
        key = "rounds" if many == 1 else "times"
        again = Step((("work", bare), (key, more), *yarn), (each.origin,), number=each.number)
        return (*_as_worked(rows), again)
    goal = _goal(said.goal, "rounds" if same and many == 1 else "times")
    entries = (("work", bare if counted else shown), *goal, *yarn, *_remarks(last))
    origins = (*_origins(last), each.origin)
    return (*_as_worked(before), Step(entries, origins, number=last[0].number))


def _last_of(rows: tuple[_Row, ...], said: Again, each: Sentence) -> tuple[_Row, ...] | None:
    """The last rows of those above that are meant, ``None`` where they are others."""
    many = said.many
    if said.numbers:
        numbers = tuple(row.numbers[0] if row.numbers else None for row in rows)
        many = len(said.numbers) if numbers[-len(said.numbers) :] == said.numbers else None
    elif many is None:
        many = 1 if _is_one(each.origin.text) else len(rows)
    if not many or many > len(rows):
        return None
    last = rows[-many:]
    if len({row.yarn for row in last}) == 1:
        return last
    return tuple(replace(row, words=_with_its_yarn(row), yarn="") for row in last)


def _with_its_yarn(row: _Row) -> str:
    """A row that says itself which yarn it is worked with."""
    named = row.words.lower().startswith("with ") or not row.yarn
    return row.words if named else f"with {row.yarn}: {row.words[:1].lower()}{row.words[1:]}"


def _is_one(text: str) -> bool:
    """Whether the words say one row: the last round, this row."""
    words = text.lower().replace(".", "").split()
    return any(word in ("row", "round", "rnd") for word in words[:5])


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


def _with_goal(step: Step, goal: Goal) -> Step:
    """A step with its length measured from where ``goal`` says."""
    if not isinstance(goal, UntilLong) or not any(key == "until" for key, _ in step.entries):
        return step
    kept = tuple(entry for entry in step.entries if entry[0] not in ("until", "from"))
    at = 1
    return replace(step, entries=(*kept[:at], *_goal(goal), *kept[at:]))


def _goal(goal: Goal, times_key: str = "times") -> tuple[tuple[str, Value], ...]:
    match goal:
        case UntilLong(values, from_start):
            here: tuple[tuple[str, Value], ...] = () if from_start else (("from", "here"),)
            note = f"{goal.aside[:1].upper()}{goal.aside[1:]}."
            or_else: tuple[tuple[str, Value], ...] = (("note", Words(note)),) if goal.aside else ()
            return (("until", values), *here, *or_else)
        case RowsInAll(values):
            return (("rounds", values),)
        case MoreOften(values):
            return ((times_key, tuple(value + 1 for value in values)),)
        case TimesInAll(values):
            return ((times_key, values),) if values != (1,) else ()


# ---------------------------------------------------------------- other steps


def _plain(
    fabric: str, goal: Goal, each: Sentence
) -> tuple[tuple[tuple[str, Value], ...], ...] | None:
    rows = FABRICS[fabric][0 if each.in_round else 1]
    if isinstance(goal, UntilLong) and goal.ends == "RS" and not each.in_round:
        return None
    if each.joins and rows == ("k all",) and isinstance(goal, UntilLong):
        joining: tuple[tuple[str, Value], ...] = (("work", (Row("k all, join in the round"),)),)
        return (joining, (("work", (Row("k all"),)), *_goal(goal)))
    return ((("work", tuple(Row(row) for row in rows)), *_goal(goal)),)


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
) -> tuple[tuple[tuple[str, Value], ...], ...] | None:
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
) -> tuple[tuple[tuple[str, Value], ...], ...] | None:
    """Numbered steps over again, so many times more."""
    within = [step for step in done if step.number is not None and first <= step.number <= last]
    again = [step for step in within if not step.is_prose]
    numbers = {step.number for step in again}
    if numbers != set(range(first, last + 1)) or any(step.kept for step in within):
        return None
    if len(again) * more > _MOST_STEPS:
        return None
    return tuple(step.entries for _ in range(more) for step in again)


def _in_words(each: Sentence, kept: bool = True) -> Step:
    words = each.text or each.origin.text
    return Step((("say", Words(words)),), (each.origin,), kept, each.number)


def _row_in_words(row: _Row) -> Step:
    return Step((("say", Words(row.origin.text)),), (row.origin,), True, row.number)


def joined(steps: Iterable[Step]) -> Iterable[Step]:
    """Steps with neighbouring prose in one paragraph, as the text has it."""
    held: Step | None = None
    for step in steps:
        if held is not None:
            if held.is_prose and step.is_prose and not (held.kept or step.kept):
                words = Words(f"{_said(held)} {_said(step)}")
                held = Step((("say", words),), (*held.origins, *step.origins))
                continue
            yield held
        held = step
    if held is not None:
        yield held


def _said(step: Step) -> str:
    value = step.entries[0][1]
    assert isinstance(value, Words)
    return value.text
