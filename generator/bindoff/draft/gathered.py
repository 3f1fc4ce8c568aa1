"""Rows gathered from sentences: put in order, counted, worked again."""

from collections.abc import Iterable, Mapping

from bindoff.draft.fabrics import FABRICS
from bindoff.draft.goals import MoreOften, RowsInAll
from bindoff.draft.lines import Origin
from bindoff.draft.rows import Readable, RowRead, row_read, uncounted
from bindoff.draft.sayings import Again, LikeRow, NumberedRow, Plain, Prose
from bindoff.draft.steps import Entries, Row, Sentence, Step, Words, goal_entries, in_yarn
from bindoff.records import Record, replace


class Gathered(Record):
    """A row that a sentence is, with its numbers, its place and what its label says."""

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
        """Its words, with the side that its label names."""
        return f"{self.side}: {self.words}" if self.side else self.words


_FEW_ROWS = 2
"""Plain rows that go on with the rows above them, so that both can be repeated."""


_MOST_ROWS = 400


NamedRows = Mapping[str, tuple[Gathered, ...]]
"""Rows of parts worked before, by the part's heading in small letters."""


def rows_of(
    each: Sentence, above: tuple[Gathered, ...], readable: Readable
) -> tuple[Gathered, ...] | None:
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
            one = Gathered((), rows[0], each.origin, yarn=each.yarn)
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
) -> Gathered:
    return Gathered(
        numbers, read.text, each.origin, side, each.yarn, label, read.remark, fills, named
    )


def _each_number(row: Gathered) -> tuple[Gathered, ...]:
    """A row for each of its numbers; the label stands beside the first."""
    first, *others = row.numbers
    return (
        replace(row, numbers=(first,)),
        *(replace(row, numbers=(number,), label="", remark="") for number in others),
    )


def in_order(rows: tuple[Gathered, ...]) -> tuple[Gathered, ...] | None:
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


def _last_run(rows: tuple[Gathered, ...]) -> int:
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


def _parity(row: Gathered, numbered: Mapping[int, Gathered]) -> int | None:
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


def each_sentence_once(rows: tuple[Gathered, ...]) -> tuple[Gathered, ...]:
    """Rows of which each sentence stands once."""
    return tuple({row.origin: row for row in reversed(rows)}.values())[::-1]


def as_rows(rows: tuple[Gathered, ...], counted: bool = True) -> tuple[Row, ...]:
    """Rows for the source, with their counts or without."""
    return tuple(Row(row.text if counted else uncounted(row.text), row.label) for row in rows)


def _origins(rows: Iterable[Gathered]) -> tuple[Origin, ...]:
    return tuple(dict.fromkeys(row.origin for row in rows))


def _remarks(rows: Iterable[Gathered]) -> Entries:
    said = " ".join(row.remark for row in rows if row.remark)
    return (("note", Words(said)),) if said else ()


def as_worked(rows: tuple[Gathered, ...]) -> tuple[Step, ...]:
    """Rows worked once each, those alike and beside each other in one step with their number; a
    row of another yarn, or of another numbered step, is a step of its own."""
    groups: list[list[Gathered]] = []
    for row in rows:
        last = groups[-1][-1] if groups else None
        if last and (last.yarn, last.number) == (row.yarn, row.number):
            groups[-1].append(row)
        else:
            groups.append([row])
    return tuple(_one_step(tuple(group)) for group in groups)


def _one_step(rows: tuple[Gathered, ...]) -> Step:
    last = (*in_yarn(rows[0].yarn), *_remarks(rows))
    texts = as_rows(rows)
    if len({row.text for row in texts}) == 1:
        count: Entries = (("rounds", (len(texts),)),) if len(rows) > 1 else ()
        entries = (("work", texts[:1]), *count, *last)
        return Step(entries, _origins(rows), number=rows[0].number)
    return Step((("work", texts), *last), _origins(rows), number=rows[0].number)


def worked_again(
    rows: tuple[Gathered, ...], said: Again, each: Sentence
) -> tuple[Step, ...] | None:
    """The rows above with those that are worked again, ``None`` where they are not the last."""
    last = last_of(rows, said, each)
    if last is None:
        return None
    many, before = len(last), rows[: -len(last)]
    texts = as_rows(last)
    bare = as_rows(last, counted=False)
    counted = [row.text for row in texts] != [row.text for row in bare]
    same = len({row.text for row in texts}) == 1
    shown = texts[:1] if same and many == 1 else texts
    more = said.goal.values if isinstance(said.goal, MoreOften) else ()
    yarn = in_yarn(last[0].yarn)
    if counted and more:
        # The counts hold for the first time: these rows stand once with them, then without.
        key = "rounds" if many == 1 else "times"
        again = Step((("work", bare), (key, more), *yarn), (each.origin,), number=each.number)
        return (*as_worked(rows), again)
    goal = goal_entries(said.goal, "rounds" if same and many == 1 else "times")
    entries = (("work", bare if counted else shown), *goal, *yarn, *_remarks(last))
    origins = (*_origins(last), each.origin)
    return (*as_worked(before), Step(entries, origins, number=last[0].number))


def last_of(rows: tuple[Gathered, ...], said: Again, each: Sentence) -> tuple[Gathered, ...] | None:
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


def _with_its_yarn(row: Gathered) -> str:
    """A row that says itself which yarn it is worked with."""
    named = row.words.lower().startswith("with ") or not row.yarn
    return row.words if named else f"with {row.yarn}: {row.words[:1].lower()}{row.words[1:]}"


def _is_one(text: str) -> bool:
    """Whether the words say one row: the last round, this row."""
    words = text.lower().replace(".", "").split()
    return any(word in ("row", "round", "rnd") for word in words[:5])


def row_in_words(row: Gathered) -> Step:
    """A row as a step in its own words."""
    return Step((("say", Words(row.origin.text)),), (row.origin,), True, row.number)
