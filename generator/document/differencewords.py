"""Differences between two versions in words that can be published, and as data.

A line names the place, the sizes if not all have the change, and what is so now and was before:
``Step 4 (Brim), size M: 118 stitches, was 120.`` Where sizes change in different ways, their
figures stand side by side as everywhere in a pattern. What prints the same is left out.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, is_dataclass
from itertools import groupby
from typing import Any, Literal

from generator.document.phrases import (
    capital,
    heading,
    join,
    joined,
    listed,
    merged,
    plural,
    text,
    times,
)
from generator.document.prose import blocks
from generator.document.rowwords import words as row_words
from generator.document.stepwords import step_blocks, unit_of
from generator.document.tree import (
    Blocks,
    Inlines,
    ItemList,
    ListItem,
    Paragraph,
    Strong,
    plain,
)
from generator.document.units import (
    METRES_PER_YARD,
    length_in,
    per_size,
    scales,
    up,
    up_to_tenths,
    weight,
    yarn_length,
)
from generator.document.voice import Voice, body_rows, voice_of
from generator.plan.differences import (
    Amount,
    Cell,
    Change,
    Differences,
    Extent,
    Instruction,
    Part,
    Place,
    Prose,
    Said,
    Shift,
    StepAt,
    Stop,
    What,
    differences,
)
from generator.plan.plan import Plan
from generator.plan.standards.yarn_weights import yarn_weight
from generator.plan.steps import (
    BindOff,
    CastOn,
    Crowned,
    Edged,
    Even,
    Gather,
    Joined,
    Left,
    Rows,
    StepPlan,
    Striped,
    Tapered,
)
from generator.plan.taper import Taper
from generator.plan.values import Kind
from generator.plan.yarn import Ball
from generator.source.formula import Quantity
from generator.source.models import SayStep
from generator.source.rowlang.stitches import Terms

FORMAT = 1

SAME = "Nothing that the pattern prints has changed."

MOST_LINES = 2
"""If all sizes change, up to so many different changes have a line each; more stand side by side.
"""

MOST_ROUNDS = 12
MOST_KINDS = 4
"""Up to so many changed rounds of a chart, and kinds of change in a round, are named."""

SHORT = 60
"""Letters up to which a text stands in a line with what it was."""


def change_blocks(found: Differences, level: Literal[1, 2, 3, 4]) -> Blocks:
    """What has changed of all that is printed, under headings of ``level``.

    Raises:
        PatternError: for prose that can't be printed.
    """
    telling = _telling(found)
    chosen = [(title, lines) for title, lines in _sections(telling) if lines]
    if not chosen:
        return (Paragraph(text(SAME)),)
    return tuple(
        block
        for title, lines in chosen
        for block in (heading(level, title), ItemList(tuple(lines)))
    )


def change_section(earlier: Plan | None, plan: Plan) -> Blocks:
    """What differs from an earlier version, for the last pages of a document; none without one.

    Raises:
        PatternError: for prose that can't be printed.
    """
    if earlier is None:
        return ()
    title = f"Changes since version {earlier.source.pattern.version}"
    return (heading(3, title, "changes-since"), *change_blocks(differences(earlier, plan), 4))


def measure_blocks(found: Differences) -> Blocks:
    """The named measures that have changed, which only the source shows; none if none have."""
    telling = _telling(found)
    lines = list(_lines(telling, [c for c in found.changes if c.what is What.MEASURE]))
    return (ItemList(tuple(lines)),) if lines else ()


def change_data(found: Differences) -> dict[str, Any]:
    """All changes as plain data, one record each; lengths in millimetres.

    A record has the keys of its place in both versions, what has changed and of which, and ``old``
    and ``new`` for every size, or once for what does not depend on size.
    """
    telling = _telling(found)
    return {
        "format": FORMAT,
        "old": _edition(found.old.source.pattern.title, found.old.source.pattern.version),
        "new": _edition(found.new.source.pattern.title, found.new.source.pattern.version),
        "sizes": list(found.sizes),
        "changes": [_record(telling, change) for change in found.changes],
    }


@dataclass(frozen=True, slots=True)
class _Telling:
    """The differences and how both versions speak."""

    found: Differences
    old: Voice
    new: Voice

    def yarn(self, key: str) -> str:
        """The name of a yarn, in the new version if it has it."""
        return self.new.yarn_names.get(key) or self.old.yarn_names.get(key, key)

    def chart(self, key: str) -> str:
        """The title of a chart, in the new version if it has it."""
        charts = {**self.old.plan.source.pattern.charts, **self.new.plan.source.pattern.charts}
        return charts[key].title if key in charts else key

    def step(self, place: Place, at: StepAt | None) -> StepPlan:
        """The plan of a step in the version that ``at`` is of."""
        assert at is not None
        plan, key = (
            (self.found.new, place.new) if at is place.new_step else (self.found.old, place.old)
        )
        assert key is not None
        return plan.piece(key).steps[at.index]

    def unit(self, place: Place) -> str:
        """``round`` or ``row``."""
        if place.new is not None:
            return unit_of(self.new, self.found.new.piece(place.new))
        assert place.old is not None
        return unit_of(self.old, self.found.old.piece(place.old))


def _telling(found: Differences) -> _Telling:
    return _Telling(found, voice_of(found.old), voice_of(found.new))


# ---------------------------------------------------------------- sections and lines

_IN_SIZES = (What.SIZE, What.SIZE_ORDER, What.BODY, What.FINISHED)
_IN_GAUGE = (What.GAUGE, What.GAUGE_STATE, What.GAUGE_TOOL, What.GAUGE_WORKED)
_IN_WORDS = (What.TEXT, What.PROSE, What.STITCH)


def _sections(telling: _Telling) -> Iterator[tuple[str, list[ListItem]]]:
    """The lines of every section, in the order of the document."""
    changes = telling.found.changes
    parts: dict[Part, list[Change]] = {part: [] for part in Part}
    for change in changes:
        parts[change.place.part].append(change)
    of_pattern = parts[Part.PATTERN]

    def chosen(*whats: What) -> list[Change]:
        return [change for change in of_pattern if change.what in whats]

    yield "Sizes and finished measurements", list(_lines(telling, chosen(*_IN_SIZES)))
    materials = [*parts[Part.YARN], *chosen(What.TOOL, What.NOTION)]
    yield "Materials", list(_lines(telling, materials))
    yield telling.new.term["gauge"].capitalize(), list(_lines(telling, chosen(*_IN_GAUGE)))
    pieces = [change for change in changes if change.place.part in (Part.PIECE, Part.STEP)]
    for (old, new), group in groupby(pieces, lambda each: (each.place.old, each.place.new)):
        yield _piece_title(telling, old, new), list(_lines(telling, _worth(telling, list(group))))
    yield "Charts", list(_chart_lines(telling, parts[Part.CHART]))
    yield "Words", list(_lines(telling, chosen(*_IN_WORDS)))


def _piece_title(telling: _Telling, old: str | None, new: str | None) -> str:
    if new is not None:
        return telling.found.new.source.pattern.pieces[new].title
    assert old is not None
    return telling.found.old.source.pattern.pieces[old].title


def _worth(telling: _Telling, changes: Sequence[Change]) -> list[Change]:
    """Without dimensions of the schematic that the finished measurements tell already, and without
    the list of a crown's rounds where its figures tell what has changed."""
    told = [each.shifts for each in telling.found.changes if each.what is What.FINISHED]
    crowns = [each.place for each in changes if each.what in _CROWN]
    return [
        each
        for each in changes
        if not (each.what is What.SCHEMATIC and each.shifts in told)
        and not (each.what is What.CROWN and each.place in crowns)
    ]


_CROWN = (What.CROWN_START, What.DECREASE_ROUNDS, What.PLAIN_ROUNDS)


def _lines(telling: _Telling, changes: Sequence[Change]) -> Iterator[ListItem]:
    """One line for every place and group of sizes."""
    for (place, lead), group in groupby(changes, lambda each: _group(telling, each)):
        same = list(group)
        if place is not None:
            yield _new_or_gone(telling, _lead(telling, same[0]), same)
            continue
        by_sizes: dict[tuple[str, ...], list[Inlines]] = {}
        for change in same:
            for sizes, words in _told(telling, change):
                who = () if sizes == telling.new.sizes else sizes
                by_sizes.setdefault(who, []).append(words)
        for sizes, phrases in by_sizes.items():
            yield _line(lead, sizes, phrases)
        for change in same:
            yield from _rewritten(telling, lead, change)


def _group(telling: _Telling, change: Change) -> tuple[Place | None, str]:
    """What shares lines: all of a place that is new or gone, else what has the same lead."""
    place = change.place
    return (place, "") if place.added or place.gone else (None, _lead(telling, change))


def _line(lead: str, sizes: tuple[str, ...], phrases: Sequence[Inlines]) -> ListItem:
    said = joined(phrases, "; ")
    end = "" if plain(said).endswith((".", "?", "!")) else "."
    return _plainly(f"{lead}{_for_sizes(sizes)}:", join(said, end))


def _for_sizes(sizes: tuple[str, ...]) -> str:
    """``, size M`` or ``, sizes S and M``; nothing for all."""
    if not sizes:
        return ""
    return f", {'size' if len(sizes) == 1 else 'sizes'} {listed(sizes)}"


def _lead(telling: _Telling, change: Change) -> str:
    """What a line starts with: the place as the reader finds it."""
    place = change.place
    match place.part:
        case Part.YARN:
            return telling.yarn(str(place.old if place.new is None else place.new))
        case Part.CHART:
            return _chart_lead(telling, change)
        case Part.PIECE:
            return {
                What.TOTAL_ROUNDS: "In all",
                What.SCHEMATIC: f"Schematic, {change.of}",
            }.get(change.what, _piece_title(telling, place.old, place.new))
        case Part.STEP:
            return _step_lead(place)
        case _:
            return _pattern_lead(telling, change)


def _pattern_lead(telling: _Telling, change: Change) -> str:
    match change.what:
        case What.SIZE | What.SIZE_ORDER:
            return "Sizes"
        case What.BODY:
            return f"To fit {change.of}"
        case _ if change.what in _IN_GAUGE:
            pieces = telling.found.new.source.pattern.pieces.values()
            named = [piece.title for piece in pieces if change.of and piece.gauge == change.of]
            return listed(named) or change.of or telling.new.term["gauge"].capitalize()
        case What.TOOL:
            return "Tools"
        case What.NOTION:
            return "Notions"
        case What.STITCH:
            return f"Abbreviation {change.of}"
        case What.TEXT | What.PROSE:
            return capital(change.of)
        case _:
            return change.of


def _chart_lead(telling: _Telling, change: Change) -> str:
    place = change.place
    plan = telling.found.old if place.new is None else telling.found.new
    title = plan.source.pattern.charts[str(place.old if place.new is None else place.new)].title
    return f"{title}, round {change.of}" if change.what is What.CELLS else title


def _step_lead(place: Place) -> str:
    old, new = place.old_step, place.new_step
    at = new or old
    assert at is not None
    section = f" ({at.section})" if at.section else ""
    if at.number is None:
        return f"Section {at.section}"
    if old and new and old.number != new.number:
        return f"Step {old.number}, now step {new.number}{section}"
    return f"Step {at.number}{section}"


# ---------------------------------------------------------------- what is new or gone


def _new_or_gone(telling: _Telling, lead: str, changes: Sequence[Change]) -> ListItem:
    place = changes[0].place
    if place.gone:
        numbered = place.old_step is not None and place.old_step.number is not None
        return _plainly(f"{lead} of the earlier version" if numbered else lead, "is gone.")
    if place.new_step is not None and place.new_step.number is not None:
        return _opened(f"New {lead[:1].lower()}{lead[1:]}:", _step_words(telling, place))
    if place.part is Part.YARN:
        told = [
            join(words, _for_sizes(() if sizes == telling.new.sizes else sizes))
            for change in changes
            for sizes, words in _told(telling, change)
        ]
        return _plainly(f"{lead} is new:", join(joined(told, "; "), "."))
    return _plainly(lead, "is new.")


def _plainly(lead: str, words: Inlines | str) -> ListItem:
    return ListItem((Paragraph(join((Strong(text(lead)),), " ", words)),))


def _opened(lead: str, words: Blocks) -> ListItem:
    """``words`` with a lead before their first paragraph."""
    opening: Inlines = (Strong(text(lead)),)
    match words:
        case (Paragraph(children), *rest):
            return ListItem((Paragraph(join(opening, " ", children)), *rest))
        case _:
            return ListItem((Paragraph(opening), *words))


def _step_words(telling: _Telling, place: Place) -> Blocks:
    """What the document says of a step of the new version."""
    step, voice = telling.step(place, place.new_step), telling.new
    assert place.new is not None
    words: Blocks
    if isinstance(step.step, SayStep):
        words = blocks(step.step.say, voice.values, step.span)
    else:
        words = step_blocks(voice, voice.plan.piece(place.new), step, len(voice.yarn_names) > 1)
    note = blocks(step.step.note, voice.values, step.span) if step.step.note else ()
    return (*words, *note)


def _rewritten(telling: _Telling, lead: str, change: Change) -> Iterator[ListItem]:
    """Prose that reads otherwise, in its new words; prose that is new or gone."""
    was, now = (_prose(telling, change, old=old) for old in (True, False))
    if was == now:
        return
    what = f"{lead}, note" if change.what is What.NOTE else lead
    if now:
        yield _opened(f"{what}, now reads:" if was else f"{what}, new:", now)
    else:
        yield _plainly(what, "is gone.")


def _prose(telling: _Telling, change: Change, *, old: bool) -> Blocks:
    """The prose of a change as one of the versions prints it; nothing where it has none."""
    said = next((s.old if old else s.new for s in change.shifts), None)
    voice = telling.old if old else telling.new
    place = change.place
    if isinstance(said, Prose):
        if place.part is Part.STEP:
            span = telling.step(place, place.old_step if old else place.new_step).span
        else:
            span = voice.plan.source.span(change.of)
        return blocks(said.text, voice.values, span)
    if change.what is What.TEXT and not _short(change):
        return (Paragraph(text(str(said))),) if said else ()
    return ()


# ---------------------------------------------------------------- phrases

_Printed = tuple[tuple[str, str], ...]
"""Figures, each with its unit: a noun in the singular, or the sign of a unit."""

_GIVEN = (What.BODY, What.FINISHED, What.SCHEMATIC, What.MEASURE)

_SIGNS = ("", "cm", "in", "g", "m", "yd")

# what -> the words before its figure, what the figure counts, the words after it
_COUNTED: Mapping[What, tuple[str, str, str]] = {
    What.STITCHES: ("", "stitch", ""),
    What.ROUNDS: ("", "{unit}", ""),
    What.TOTAL_ROUNDS: ("", "{unit}", ""),
    What.MAKE: ("make ", "", ""),
    What.HELD: ("put ", "held stitch", " back"),
    What.PICKED_UP: ("pick up ", "stitch", ""),
    What.REPEATS: ("the chart repeats ", "time", " in every {unit}"),
    What.DECREASE_ROUNDS: ("", "decrease round", ""),
    What.PLAIN_ROUNDS: ("", "plain round", ""),
    What.CLOSED: ("{close} ", "stitch", ""),
    What.ALONG: ("the edge is ", "", " long"),
    What.SIDE: ("side {of} has ", "stitch", ""),
    What.EDGED: ("", "stitch", " after row {of}"),
    What.BALLS: ("buy ", "ball", ""),
    What.PICTURE_START: ("round 1 of the embroidery chart is round ", "", " of the tube"),
    What.EMBROIDERED: ("", "stitch", " in {yarn}"),
    What.AREAS: ("", "area", " in {yarn}"),
    What.STRANDS: ("", "strand", " in {yarn}"),
    What.THREAD: ("", "", " of thread in {yarn}"),
    What.GAUGE: ("", "", " over {over}"),
    What.AMOUNT: ("you need ", "", ""),
    What.COUNTER: ("{stop} after round ", "", ""),
    What.BALL: ("a ball is ", "", ""),
}


def _told(telling: _Telling, change: Change) -> Iterator[tuple[tuple[str, ...], Inlines]]:
    """The sizes of a change and its phrase, one for each group of sizes with the same change."""
    shifts = [shift for shift in change.shifts if _shows(telling, change, shift)]
    groups: dict[Inlines, list[Shift]] = {}
    for shift in shifts:
        words = _phrase(telling, change, (shift,))
        if words:
            groups.setdefault(words, []).append(shift)
    one_sided = any(shift.old is None or shift.new is None for shift in shifts)
    if len(groups) > (1 if one_sided else MOST_LINES):
        beside = _side_by_side(telling, change, [s for group in groups.values() for s in group])
        if beside is not None:
            yield (), beside
            return
    for words, group in groups.items():
        sizes = tuple(shift.size for shift in group if shift.size)
        yield () if sizes == telling.found.sizes else sizes, words


def _shows(telling: _Telling, change: Change, shift: Shift) -> bool:
    """Whether a change is printed by itself, and not only as a consequence of one that is."""
    place = change.place
    if change.what is What.BODY:
        printed = {name for v in (telling.old, telling.new) for name, _ in body_rows(v.plan)}
        return change.of in printed
    if place.part is not Part.STEP or place.added or place.gone:
        return True
    step = telling.step(place, place.new_step)
    if change.what is What.ROUNDS:
        return not isinstance(step.detail, Crowned | Even | Striped)
    if change.what is What.STITCHES:
        was = telling.step(place, place.old_step)
        return any(
            each.before[index].stitches != each.after[index].stitches
            for each, plan in ((was, telling.found.old), (step, telling.found.new))
            for index in (plan.source.sizes.index(shift.size),)
        ) and not (shift.old == 0 or shift.new == 0)
    return True


def _side_by_side(telling: _Telling, change: Change, shifts: Sequence[Shift]) -> Inlines | None:
    """One phrase with the figures of every size of the document in its order.

    ``None`` where a size has not changed, or where more than figures differ between sizes: then
    nobody could tell which figure is whose.
    """
    by_size = {shift.size: shift for shift in shifts}
    in_order = [by_size[size] for size in telling.new.sizes if size in by_size]
    if len(in_order) < len(telling.new.sizes):
        return None
    if len({(shift.old is None, shift.new is None) for shift in in_order}) > 1:
        return None
    if _printed(telling, change, in_order[0].new or in_order[0].old):
        return _phrase(telling, change, in_order)
    return merged([_phrase(telling, change, (shift,)) for shift in in_order])


def _phrase(telling: _Telling, change: Change, shifts: Sequence[Shift]) -> Inlines:
    """What is so now and what was before; nothing where both print the same.

    Several shifts are for all sizes in order and have figures.
    """
    now = [_printed(telling, change, shift.new) for shift in shifts]
    was = [_printed(telling, change, shift.old) for shift in shifts]
    if not any(now) and not any(was):
        return _text_phrase(telling, change, shifts[0])
    if now == was:
        return ()
    before, after = _around(telling, change)
    if not any(now) and change.what in _GIVEN:
        return text("no longer given")
    if not any(now):
        return join("no longer ", before, _figures(was, units=True), after)
    said = join(before, _figures(now, units=True), after)
    if not any(was):
        if change.what is What.COUNTER:
            return join("also ", said)
        return said if change.place.added else join(said, ", which is new")
    return join(said, ", was ", _figures(was, units=False))


def _around(telling: _Telling, change: Change) -> tuple[str, str]:
    """The words before and after a figure."""
    before, _, after = _COUNTED.get(change.what, ("", "", ""))
    place = change.place
    over = {"metric": "10 cm", "imperial": "4 in"}.get(telling.new.units, "10 cm / 4 in")
    names = {"of": change.of, "yarn": telling.yarn(change.of), "over": over}
    names |= {"unit": "", "close": "", "stop": ""}
    if place.part is Part.STEP:
        step = telling.step(place, place.new_step or place.old_step)
        names["close"] = _closing(telling, step)
        names["unit"] = telling.unit(place)
        if change.what is What.STITCHES and isinstance(step.detail, CastOn):
            before = "cast on "
    if change.what is What.COUNTER:
        stop = change.shifts[0].new or change.shifts[0].old
        assert isinstance(stop, Stop)
        names["stop"] = _stop_words(telling, stop)
    return before.format_map(names), after.format_map(names)


def _closing(telling: _Telling, step: StepPlan) -> str:
    match step.detail:
        case Gather():
            return "draw together"
        case Left():
            return "leave live"
        case Joined():
            return "join"
        case _:
            return telling.new.term["bind_off"]


_PLACES = {
    "lining": "the lining ends",
    "fold": "the fold line is",
    "brim": "the brim ends",
    "end": "the tube ends",
}


def _stop_words(telling: _Telling, stop: Stop) -> str:
    if stop.part:
        return _PLACES[stop.part]
    cut, taken = (listed(telling.yarn(key) for key in keys) for keys in (stop.cut, stop.join))
    words = [f"cut {cut}" if cut else "", f"join {taken}" if taken else ""]
    return listed(word for word in words if word) or f"go on with {telling.yarn(stop.go_on)}"


def _printed(telling: _Telling, change: Change, value: Said | None) -> _Printed:
    """A value as figures; nothing for a text, or for none."""
    units = telling.new.units
    counted = _COUNTED.get(change.what, ("", "", ""))[1]
    match value:
        case Quantity(mm, Kind.LENGTH) if change.what is What.THREAD:
            if units == "imperial":
                return ((up_to_tenths(mm / 1000 / METRES_PER_YARD), "yd"),)
            return ((up_to_tenths(mm / 1000), "m"),)
        case Quantity(mm, Kind.LENGTH):
            return tuple((length_in(mm, scale), scale) for scale in scales(units))
        case Quantity(number):
            return ((f"{number:g}", ""),)
        case Amount(grams, metres):
            yards = (f"{up(metres / METRES_PER_YARD)}", "yd")
            long = {"metric": ((f"{up(metres)}", "m"),), "imperial": (yards,)}
            return ((f"{up(grams)}", "g"), *long.get(units, ((f"{up(metres)}", "m"), yards)))
        case Ball(grams, metres):
            return ((f"{weight(grams, units)} = {yarn_length(metres, units)}", ""),)
        case Extent(stitches, rounds):
            noun = "row" if _flat_gauge(telling, change) else "round"
            form = ".3g" if change.what is What.GAUGE else "g"
            return ((f"{stitches:{form}}", "stitch"), (f"{rounds:{form}}", noun))
        case Stop(counter):
            return ((str(counter), ""),)
        case int() if change.what is not What.WEIGHT:
            unit = telling.unit(change.place) if "{unit}" in counted else ""
            return ((str(value), counted.format(unit=unit)),)
        case _:
            return ()


def _flat_gauge(telling: _Telling, change: Change) -> bool:
    pattern = telling.found.new.source.pattern
    written = pattern.gauges.get(change.of) if change.of else pattern.gauge
    return change.what is What.GAUGE and written is not None and "flat" in written.worked


def _figures(values: Sequence[_Printed], units: bool) -> Inlines:
    """The figures of one size, or those of all sizes side by side.

    Counts of one thing go without the thing where ``units`` are not wanted.
    """
    parts: list[Inlines] = []
    for column in zip(*values, strict=True):
        figures = tuple(figure for figure, _ in column)
        unit = column[0][1]
        if unit not in _SIGNS:
            if not units and len(values[0]) == 1:
                unit = ""
            elif set(figures) != {"1"}:
                unit = plural(unit)
        parts.append(join(per_size(figures), f" {unit}" if unit else ""))
    return joined(parts, " and " if values[0][0][1] == "stitch" else " / ")


# ---------------------------------------------------------------- phrases of words


def _text_phrase(telling: _Telling, change: Change, shift: Shift) -> Inlines:
    """What is so now and what was before, for what is no figure; nothing for prose."""
    old, new = shift.old, shift.new
    if isinstance(old, Prose) or isinstance(new, Prose):
        return ()
    match change.what:
        case What.SIZE:
            return text(f"{change.of} is {'gone' if new is None else 'new'}")
        case What.SIZE_ORDER:
            return text(f"the order is now {new}, was {old}")
        case What.TEXT:
            now, was = (str(value or "").removesuffix(".") for value in (new, old))
            return _was("", now, was) if _short(change) else ()
        case What.CHART:
            return text(f"work the chart {telling.chart(str(new))}, was {telling.chart(str(old))}")
        case What.TOOL | What.NOTION:
            return _thing(change.of, old, new)
        case What.NAME:
            return text(f"this is the new name of {old}") if old is not None else ()
        case What.COLOUR:
            return (
                text(f"shown in another {telling.new.term['color']}")
                if old is not None and new is not None
                else ()
            )
        case What.WORKED:
            return text(f"now worked {_WORKED.get(str(new), str(new))}") if old else ()
        case What.HEADING:
            return text(f"was called {old}") if old is not None else ()
        case What.YARN:
            return text(f"in {telling.yarn(str(new))}, was {telling.yarn(str(old))}")
        case What.CELLS:
            return _cell_phrase(telling, change)
        case What.STRANDED:
            return _was("knit in two yarns the rounds ", *map(_rounds, (new, old)))
        case What.CROWN | What.WORKING_ORDER:
            return text(_REORDERED[change.what])
        case _:
            unit = telling.unit(change.place) if change.place.part is Part.STEP else ""
            now, was = _words(telling.new, new, unit), _words(telling.old, old, unit)
            words = _was(_words_before(telling, change, unit), now, was)
            new_row = isinstance(new, Instruction) and old is None
            return join(words, ", which is new") if new_row else words


_WORKED = {"flat": "flat, in rows", "round": "in the round"}
_REORDERED = {
    What.CROWN: "the table of decrease rounds has changed",
    What.WORKING_ORDER: "the list of areas in working order has changed",
}


def _rounds(value: Said | None) -> str:
    assert value is None or isinstance(value, tuple)
    numbers = [each[0] for each in value or () if isinstance(each, tuple)]
    return _ranges([number for number in numbers if isinstance(number, int)])


def _was(lead: str, now: str, was: str) -> Inlines:
    if now == was:
        return ()
    if not now or not was:
        return text(f"{lead}{now}" if now else f"no longer {lead}{was}")
    return text(f"{lead}{now}, was {was}")


def _thing(name: str, old: Said | None, new: Said | None) -> Inlines:
    if new is None:
        return text(f"no longer needed: {name}")
    if old is None:
        return text(f"also needed: {name}{f' ({new})' if new and new != name else ''}")
    return text(f"{name} ({new or 'no special use'}), was ({old or 'no special use'})")


def _short(change: Change) -> bool:
    """Whether a text of the head is short enough to stand in a line with what it was."""
    return all(len(str(value)) <= SHORT for s in change.shifts for value in (s.old, s.new))


def _words_before(telling: _Telling, change: Change, unit: str) -> str:
    """What leads to a text: which row it is if there are several, what it says."""
    number = f" {change.of}" if _several_rows(telling, change) else ""
    row = f"{unit}{number}: " if number else ""
    return {
        What.ROW: row,
        What.SHAPING_ROW: f"shaping {unit}: ",
        What.PLAIN_ROW: f"plain {unit}{number}: ",
        What.CROWN_START: "the crown starts with ",
        What.PACE: "shape ",
        What.METHOD: f"{telling.new.term['bind_off']} "
        if _binds_off(telling, change)
        else "method: ",
        What.JOINED_TO: "join to ",
        What.GAUGE_STATE: "measured ",
        What.GAUGE_TOOL: "tool: ",
        What.GAUGE_WORKED: "worked in ",
        What.ALT: "now described as: ",
    }.get(change.what, "")


def _binds_off(telling: _Telling, change: Change) -> bool:
    at = change.place.new_step or change.place.old_step
    return at is not None and isinstance(telling.step(change.place, at).detail, BindOff)


def _several_rows(telling: _Telling, change: Change) -> bool:
    """Whether a step has numbered rows of a kind in either version."""
    if change.of != "1":
        return bool(change.of)
    place = change.place
    for at in (place.old_step, place.new_step):
        match telling.step(place, at).detail if at else None:
            case Rows(rows) | Edged(rows) if len(rows) > 1:
                return True
            case Tapered(_, plain) if change.what is What.PLAIN_ROW and len(plain) > 1:
                return True
            case _:
                pass
    return False


def _words(voice: Voice, value: Said | None, unit: str) -> str:
    """A value that is no figure in the words of the version it is of; nothing for none."""
    match value:
        case None:
            return ""
        case Instruction():
            return f"“{_row(voice, value)}”"
        case Taper():
            return _pace(value, unit)
        case int():
            return f"{yarn_weight(value).name} ({value})"
        case _:
            return str(value).removesuffix(".")


def _row(voice: Voice, said: Instruction) -> str:
    """A row as one size works it."""
    style = Terms(voice.plan.source.pattern.terms)
    numbers = {name: (number,) for name, number in said.numbers}
    row = said.row
    words = row_words(row, numbers, style, voice.plan.book, yarns=voice.yarn_names)
    return plain(words).removesuffix(".")


def _pace(plan: Taper, unit: str) -> str:
    """``every 8 rounds 4 times, then every 9 rounds twice``."""
    names = {1: f"every {unit}", 2: f"every other {unit}"}
    runs = [
        f"{names.get(run.group, f'every {run.group} {unit}s')} {times(run.times)}"
        for run in plan.runs
    ]
    if plan.plain_after:
        runs.append(f"{plan.plain_after} {unit if plan.plain_after == 1 else f'{unit}s'} plain")
    return ", then ".join(runs)


# ---------------------------------------------------------------- charts


def _chart_lines(telling: _Telling, changes: Sequence[Change]) -> Iterator[ListItem]:
    """What is told of each chart, how many of its stitches have changed, and which."""
    for _, group in groupby(changes, lambda each: (each.place.old, each.place.new)):
        of_chart = list(group)
        cells = [change for change in of_chart if change.what is What.CELLS]
        yield from _lines(telling, [change for change in of_chart if change.what is not What.CELLS])
        changed = [(int(change.of), len(_changed_cells(change))) for change in cells]
        total = sum(count for _, count in changed)
        if total:
            rounds = [number for number, count in changed if count]
            where = f"{'round' if len(rounds) == 1 else 'rounds'} {_ranges(rounds)}"
            noun = "stitch has" if total == 1 else "stitches have"
            lead = _chart_lead(telling, cells[0]).rpartition(",")[0]
            yield _line(lead, (), [text(f"{total} {noun} changed, in {where}")])
        if len(cells) <= MOST_ROUNDS:
            yield from _lines(telling, cells)


def _changed_cells(change: Change) -> list[tuple[int, Cell, Cell]]:
    """Stitches of a round, counted from 1, that were one thing and are another."""
    (shift,) = change.shifts
    if shift.old is None or shift.new is None:
        return []
    assert isinstance(shift.old, tuple)
    assert isinstance(shift.new, tuple)
    pairs = enumerate(zip(shift.old, shift.new, strict=True), start=1)
    return [
        (stitch, was, now)
        for stitch, (was, now) in pairs
        if isinstance(was, Cell) and isinstance(now, Cell) and was != now
    ]


def _ranges(numbers: Sequence[int]) -> str:
    """``3, 5 to 8 and 12``."""
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    words: list[str] = []
    for run in runs:
        words += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else map(str, run)
    return listed(words)


def _cell_phrase(telling: _Telling, change: Change) -> Inlines:
    """Which stitches of a round are something else now."""
    (shift,) = change.shifts
    if shift.old is None:
        return text("this round is new")
    if shift.new is None:
        return text("this round of the earlier chart is gone")
    alike: dict[tuple[Cell, Cell], list[int]] = {}
    for stitch, was, now in _changed_cells(change):
        alike.setdefault((was, now), []).append(stitch)
    if len(alike) > MOST_KINDS:
        return text(f"{sum(map(len, alike.values()))} stitches have changed")
    return text(
        "; ".join(
            f"{'stitch' if len(stitches) == 1 else 'stitches'} {_ranges(stitches)}: "
            f"{_cell(telling, now)}, was {_cell(telling, was)}"
            for (was, now), stitches in alike.items()
        )
    )


def _cell(telling: _Telling, cell: Cell) -> str:
    if cell.yarn and cell.stitch == "k":
        return telling.yarn(cell.yarn)
    found = telling.new.plan.book.find(cell.stitch)
    name = telling.new.abbreviation(found.id)[1] if found else cell.stitch
    return f"{name} in {telling.yarn(cell.yarn)}" if cell.yarn else name


# ---------------------------------------------------------------- data


def _edition(title: str, version: str) -> dict[str, str]:
    return {"title": title, "version": version}


def _record(telling: _Telling, change: Change) -> dict[str, Any]:
    place = change.place
    record: dict[str, Any] = {"part": place.part.value}
    if place.part is not Part.PATTERN:
        record["key"] = {"old": place.old, "new": place.new}
    if place.part is Part.STEP:
        record["step"] = {
            side: asdict(at) if at else None
            for side, at in (("old", place.old_step), ("new", place.new_step))
        }
    record |= {"what": change.what.value, "of": change.of}
    values = {
        shift.size: {
            "old": _plain(telling.old, shift.old),
            "new": _plain(telling.new, shift.new),
        }
        for shift in change.shifts
    }
    return record | values.get("", {"sizes": values})


def _plain(voice: Voice, value: Any) -> Any:
    """A value as JSON holds it."""
    match value:
        case Quantity(number):
            return number
        case Instruction():
            return _row(voice, value)
        case tuple():
            return [_plain(voice, each) for each in value]
        case _ if is_dataclass(value) and not isinstance(value, type):
            return asdict(value)
        case _:
            return value
