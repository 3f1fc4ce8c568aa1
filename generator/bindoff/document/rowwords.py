"""Says a row in the house style, in US or UK terms, with every size's numbers."""

from collections.abc import Iterable, Mapping
from enum import StrEnum

from bindoff.craft.book import Craft
from bindoff.document.tree import Inline, Inlines, SizeValues, Text
from bindoff.records import Record, replace
from bindoff.source.rowlang.stitches import StitchBook, Terms
from bindoff.source.rowlang.syntax import (
    Alter,
    Base,
    Count,
    Fill,
    Group,
    Hooked,
    InCorner,
    InEach,
    InFirst,
    InNext,
    InPattern,
    InSame,
    IntoOne,
    Kept,
    Marker,
    MoreTimes,
    NamedNumber,
    Onward,
    Part,
    Repeat,
    Row,
    Target,
    ToCorner,
    ToEnd,
    ToGap,
    ToLast,
    ToMarker,
    Turn,
    Where,
    Work,
)


class Form(StrEnum):
    """Abbreviated for the page (``k2tog``), spelled out for the ear (``knit 2 together``), or as
    the rows of a chart in words have it: ``knit 2, k2tog``."""

    SHORT = "short"
    LONG = "long"
    CHARTED = "charted"


def words(
    row: Row,
    sizes_numbers: Mapping[str, tuple[int, ...]],
    terms: Terms,
    book: StitchBook,
    *,
    form: Form = Form.SHORT,
    yarns: Mapping[str, str] | None = None,
    patterns: Mapping[str, str] | None = None,
    spelling: Mapping[str, str] | None = None,
) -> Inlines:
    """``row`` as a sentence; a computed number that differs between sizes is a ``SizeValues``.

    What every size works nought times is left out. A number that ``sizes_numbers`` lacks prints
    as a dash. ``yarns`` gives the printed name of each yarn id and ``patterns`` that of each stitch
    pattern and chart; an id without one prints as it is. ``spelling`` has the abbreviation of
    stitches that have another than the house's.
    """
    voice = _Voice(terms, book, form, yarns or {}, sizes_numbers, patterns or {}, spelling or {})
    said = settled(row, sizes_numbers)
    return _sentence(voice, said if said.parts else row)


def respelled(written: str, own: str | None) -> str:
    """What a row says for a stitch, ``k{n}`` as ``K{n}`` where ``K`` is the designer's ``own``."""
    if own is None:
        return written
    return f"{own}{{n}}" if "{n}" in written else own


# ---------------------------------------------------------------- numbers


def settled(row: Row, sizes_numbers: Mapping[str, tuple[int, ...]]) -> Row:
    """``row`` with numbers that all sizes share written out, and without what is then nothing."""
    return replace(row, parts=_settled_parts(row.parts, sizes_numbers))


def _settled_parts(
    parts: tuple[Part, ...], numbers: Mapping[str, tuple[int, ...]]
) -> tuple[Part, ...]:
    return tuple(kept for part in parts for kept in _settled_part(part, numbers))


def _settled_part(part: Part, numbers: Mapping[str, tuple[int, ...]]) -> tuple[Part, ...]:
    match part:
        case Work():
            times = _settled_count(part.times, numbers)
            return (replace(part, times=times),) if times != 0 else ()
        case Fill():
            return (replace(part, to=_settled_target(part.to, numbers)),)
        case Group():
            times, inner = _settled_count(part.times, numbers), _settled_parts(part.parts, numbers)
            if times == 1:
                return inner
            return (replace(part, parts=inner, times=times),) if times != 0 and inner else ()
        case Repeat():
            inner = _settled_parts(part.parts, numbers)
            if not isinstance(part.until, MoreTimes):
                until = _settled_target(part.until, numbers)
                return (replace(part, parts=inner, until=until),) if inner else ()
            more = _settled_count(part.until.count, numbers)
            if more == 0:
                return inner
            return (replace(part, parts=inner, until=MoreTimes(more)),) if inner else ()
        case Alter():
            if isinstance(part.amount, Target):
                return (replace(part, amount=_settled_target(part.amount, numbers)),)
            amount = _settled_count(part.amount, numbers)
            return (replace(part, amount=amount),) if amount != 0 else ()
        case Hooked():
            times, where = _settled_count(part.times, numbers), _settled_where(part.where, numbers)
            nowhere = isinstance(where, InNext) and where.count == 0
            return (replace(part, times=times, where=where),) if times != 0 and not nowhere else ()
        case InPattern():
            return _settled_pattern(part, numbers)
        case IntoOne() | Marker() | Turn() | Onward():
            return (part,)


def _settled_pattern(part: InPattern, numbers: Mapping[str, tuple[int, ...]]) -> tuple[Part, ...]:
    if part.to is None:
        return (part,)
    if isinstance(part.to, Target):
        return (replace(part, to=_settled_target(part.to, numbers)),)
    count = _settled_count(part.to, numbers)
    return (replace(part, to=count),) if count != 0 else ()


def _settled_count(count: Count, numbers: Mapping[str, tuple[int, ...]]) -> Count:
    if isinstance(count, NamedNumber):
        values = numbers.get(count.name) or count.values
        return values[0] if len(set(values)) == 1 else count
    return count


def _settled_target(target: Target, numbers: Mapping[str, tuple[int, ...]]) -> Target:
    match target:
        case ToLast():
            count = _settled_count(target.count, numbers)
            return ToEnd() if count == 0 else ToLast(count)
        case ToMarker():
            return ToMarker(_settled_count(target.before, numbers), target.last)
        case ToGap():
            before, past = (_settled_count(n, numbers) for n in (target.before, target.past))
            return ToGap(before, past)
        case ToEnd() | ToCorner():
            return target


def _settled_where(where: Where, numbers: Mapping[str, tuple[int, ...]]) -> Where:
    match where:
        case InEach():
            return replace(where, to=_settled_target(where.to, numbers))
        case InNext():
            return replace(where, count=_settled_count(where.count, numbers))
        case InFirst() | InSame() | InCorner():
            return where


# ---------------------------------------------------------------- sentences


class _Voice(Record):
    """How to speak; ``numbers`` are the computed numbers per size."""

    terms: Terms
    book: StitchBook
    form: Form
    yarns: Mapping[str, str]
    numbers: Mapping[str, tuple[int, ...]]
    patterns: Mapping[str, str]
    spelling: Mapping[str, str]

    def number(self, count: Count) -> Inline:
        """``count`` as printed."""
        if isinstance(count, int):
            return Text(str(count))
        values = self.numbers.get(count.name) or count.values
        return SizeValues(tuple(map(str, values))) if values else Text("–")

    def act(self, id: str) -> str:
        """What a row says for the act or modifier ``id``."""
        act = self.book.act(id)
        if act is None:
            raise KeyError(id)
        wording = act.wording(self.terms)
        return wording.spoken if self.form is Form.LONG else wording.written

    def stitch(self, id: str) -> str:
        """What a row says for the stitch ``id``, with ``{n}`` where its number goes."""
        stitch = self.book[id]
        wording = stitch.wording(self.terms)
        if self.form is Form.LONG or (self.form is Form.CHARTED and stitch.counted):
            return wording.spoken
        return respelled(wording.written, self.spelling.get(id))

    def yarn(self, id: str) -> str:
        """The printed name of a yarn."""
        return self.yarns.get(id, id)

    @property
    def long(self) -> bool:
        """Whether all is spelled out."""
        return self.form is Form.LONG


RowSaid = tuple[Inline | str, ...]

_KEPT = {
    Kept.FIRST: "the stitch left on the right needle is the first of the next stitches",
    Kept.BESIDE: "the stitch left on the right needle is not one of the next stitches",
}


def _sentence(voice: _Voice, row: Row) -> Inlines:
    prefix = f"with {voice.yarn(row.yarn)}: " if row.yarn else ""
    parts = _all_over(voice, row) or _listed(_part(voice, part, top=True) for part in row.parts)
    return _merged(_capital((prefix, *parts, ".")))


def _all_over(voice: _Voice, row: Row) -> RowSaid:
    """The few words for a row of one stitch throughout, or for stitches all taken off."""
    match row.parts:
        case (Fill("k" | "p" as stitch, ToEnd(), (), yarn),):
            return (voice.book[stitch].wording(voice.terms).name, *_in_yarn(voice, yarn))
        case (InPattern(name, ToEnd(), False),):
            return (f"work in {voice.patterns.get(name, name) if name else 'pattern'}",)
        case (Alter(change, ToEnd()) as part,):
            how = f" {part.how}" if part.how else ""
            return (f"{voice.act(change.value)} all stitches{how}", *_for_group(part))
        case _:
            return ()


def _listed(parts: Iterable[RowSaid]) -> RowSaid:
    said: list[Inline | str] = []
    for part in parts:
        said += [", ", *part] if said else part
    return tuple(said)


def _part(voice: _Voice, part: Part, *, top: bool = False) -> RowSaid:
    match part:
        case Work():
            return _work(voice, part)
        case Fill():
            stitch = voice.stitch(part.stitch).replace("{n}", "").strip()
            how, to = _how(voice, part.how), _target(voice, part.to)
            return (stitch, *how, " ", *to, *_in_yarn(voice, part.yarn))
        case Group():
            return (*_bracketed(voice, part.parts), *_times(voice, part.times))
        case Repeat():
            return _repeat(voice, part, star=top)
        case IntoOne():
            inside = _listed(_in_one(voice, inner) for inner in part.parts)
            return ("(", *inside, f") in next {part.base.value}")
        case Marker():
            return (voice.act(part.act.value),)
        case Alter():
            said = (voice.act(part.change.value), " ", *_amount(voice, part.amount))
            said = (*said, *_for_group(part), *((" ", part.how) if part.how else ()))
            return said if part.kept is None else (*said, f" ({_KEPT[part.kept]})")
        case Turn():
            said = (voice.act("w&t" if part.wrap else "turn"),)
            return (*said, ", ", voice.stitch("ds")) if part.double else said
        case Onward():
            return (part.way.value,)
        case Hooked():
            return _hooked(voice, part)
        case InPattern():
            return (_pattern_said(voice, part), *_pattern_goal(voice, part))


def _pattern_said(voice: _Voice, part: InPattern) -> str:
    if not part.name:
        return "in pattern"
    name = voice.patterns.get(chart_name(part.name) if part.chart else part.name, part.name)
    return f"chart {name}" if part.chart else f"in {name}"


def chart_name(key: str) -> str:
    """The id of a chart among the names of stitch patterns."""
    return f"chart {key}"


def _pattern_goal(voice: _Voice, part: InPattern) -> RowSaid:
    if part.to is None:
        return ()
    if isinstance(part.to, Target):
        return (" ", *_target(voice, part.to))
    return (" over ", *_stitches(voice, part.to))


def _in_one(voice: _Voice, part: Work) -> RowSaid:
    """A stitch worked into one place with others: crochet with its number before it."""
    stitch = voice.book[part.stitch]
    if stitch.craft is not Craft.CROCHET or stitch.counted or part.times == 1 or part.how:
        return _work(voice, part)
    return (voice.number(part.times), " ", voice.stitch(part.stitch), *_in_yarn(voice, part.yarn))


def _work(voice: _Voice, part: Work) -> RowSaid:
    template, how = voice.stitch(part.stitch), _how(voice, part.how)
    yarn = _in_yarn(voice, part.yarn)
    if "{n}" in template:
        before, after = template.split("{n}")
        return (before, voice.number(part.times), after, *how, *yarn)
    times = () if part.times == 1 else (" ", *_times(voice, part.times))
    return (template, *how, *times, *yarn)


def _repeat(voice: _Voice, part: Repeat, *, star: bool) -> RowSaid:
    if isinstance(part.until, MoreTimes):
        until: RowSaid = _more(voice, part.until.count)
    else:
        until = _target(voice, part.until)
    inner = _listed(_part(voice, each) for each in part.parts)
    if voice.long:
        return ("start of repeat, ", *inner, ", end of repeat, work it ", *until)
    if star:
        return ("*", *inner, "; repeat from * ", *until)
    return ("[", *inner, "] ", *until)


def _bracketed(voice: _Voice, parts: tuple[Part, ...]) -> RowSaid:
    inner = _listed(_part(voice, each) for each in parts)
    if voice.long:
        return ("start of repeat, ", *inner, ", end of repeat, work it ")
    return ("[", *inner, "] ")


def _hooked(voice: _Voice, part: Hooked) -> RowSaid:
    count: RowSaid = () if part.times == 1 else (voice.number(part.times), " ")
    return (
        *count,
        voice.stitch(part.stitch),
        " in ",
        *_where(voice, part.where),
        *_in_yarn(voice, part.yarn),
    )


# ---------------------------------------------------------------- phrases


def _how(voice: _Voice, how: tuple[str, ...]) -> RowSaid:
    return tuple(f" {voice.act(id)}" for id in how)


def _in_yarn(voice: _Voice, yarn: str | None) -> RowSaid:
    return () if yarn is None else (f" in {voice.yarn(yarn)}",)


def _times(voice: _Voice, count: Count) -> RowSaid:
    match count:
        case 1:
            return ("once",)
        case 2:
            return ("twice",)
        case _:
            return (voice.number(count), " times")


def _more(voice: _Voice, count: Count) -> RowSaid:
    match count:
        case 1:
            return ("once more",)
        case 2:
            return ("twice more",)
        case _:
            return (voice.number(count), " more times")


def _stitches(voice: _Voice, count: Count) -> RowSaid:
    return (voice.number(count), " stitch" if count == 1 else " stitches")


def _target(voice: _Voice, target: Target) -> RowSaid:
    the = "the " if voice.long else ""
    match target:
        case ToEnd():
            return (f"to {the}end",)
        case ToLast(1):
            return (f"to {the}last stitch",)
        case ToLast(count):
            return (f"to {the}last ", *_stitches(voice, count))
        case ToMarker(0, last):
            return (f"to {the}{'last ' if last else ''}marker",)
        case ToMarker(before, last):
            which = f"{the}{'last ' if last else ''}marker"
            return ("to ", *_stitches(voice, before), f" before {which}")
        case ToCorner():
            return (f"to {the}corner",)
        case ToGap(0, 0):
            return (f"to {the}gap",)
        case ToGap(0, past):
            return ("to ", *_stitches(voice, past), f" past {the}last turn")
        case ToGap(before, _):
            return ("to ", *_stitches(voice, before), f" before {the}gap")


def _for_group(part: Alter) -> RowSaid:
    return (f" for {part.group}",) if part.group else ()


def _amount(voice: _Voice, amount: Count | Target) -> RowSaid:
    return _target(voice, amount) if isinstance(amount, Target) else _stitches(voice, amount)


def _where(voice: _Voice, where: Where) -> RowSaid:
    the = "the " if voice.long else ""
    match where:
        case InEach(base, ToEnd()):
            return (f"each {base.value}",)
        case InEach(base, to):
            return (f"each {base.value} ", *_target(voice, to))
        case InNext(1, base):
            return (f"{the}next {base.value}",)
        case InNext(count, base):
            return (f"{the}next ", voice.number(count), f" {_several(base)}")
        case InFirst():
            return (f"{the}first stitch",)
        case InSame(base):
            return (f"{the}same {base.value}",)
        case InCorner(each):
            return ("each corner" if each else f"{the}corner",)


def _several(base: Base) -> str:
    return "stitches" if base is Base.STITCH else f"{base.value}s"


# ---------------------------------------------------------------- typography


def _capital(said: RowSaid) -> RowSaid:
    """``said`` with its first letter large, unless a figure comes before it."""
    for i, piece in enumerate(said):
        if not isinstance(piece, str):
            return said
        stem = piece.lstrip("*[(")
        if stem:
            start = len(piece) - len(stem)
            capital = piece[:start] + stem[0].upper() + stem[1:]
            return (*said[:i], capital, *said[i + 1 :])
    return said


def _merged(said: RowSaid) -> Inlines:
    """``said`` as inlines, neighbouring characters in one ``Text``."""
    merged: list[Inline] = []
    for piece in said:
        node = Text(piece) if isinstance(piece, str) else piece
        last = merged[-1] if merged else None
        if isinstance(node, Text) and isinstance(last, Text):
            merged[-1] = Text(last.text + node.text)
        elif node != Text(""):
            merged.append(node)
    return tuple(merged)
