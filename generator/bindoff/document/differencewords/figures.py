"""What is so now and what was before, figures first."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff.document.differencewords.telling import Telling
from bindoff.document.differencewords.texts import text_phrase
from bindoff.document.phrases import join, joined, merged, text
from bindoff.document.steps.registry import words_of
from bindoff.document.tree import (
    Inlines,
)
from bindoff.document.units import (
    METRES_PER_YARD,
    length_in,
    per_size,
    scales,
    up,
    up_to_tenths,
    weight,
    yards_up,
    yarn_length,
)
from bindoff.document.voice import body_rows
from bindoff.english import listed, plural
from bindoff.plan.differences.change import Change, ChangedPart, Shift
from bindoff.plan.differences.said import Said, SaidAmount, SaidExtent, Stop, What
from bindoff.plan.values import Kind
from bindoff.plan.yarn import Ball
from bindoff.source.formula import Quantity

MOST_LINES = 2
"""If all sizes change, up to so many different changes have a line each; more stand side by side.
"""

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
    What.REPEATED: ("repeat the last ", "{unit}", ""),
    What.PICKED_UP: ("pick up ", "stitch", ""),
    What.REPEATS: ("the chart repeats ", "time", " in every {unit}"),
    What.DECREASE_ROUNDS: ("", "decrease round", ""),
    What.PLAIN_ROUNDS: ("", "plain round", ""),
    What.CLOSED: ("", "stitch", ""),
    What.ALONG: ("the edge is ", "", " long"),
    What.CORD: ("the cord is ", "", " long"),
    What.SIDE: ("side {of} has ", "stitch", ""),
    What.EDGED: ("", "stitch", " after row {of}"),
    What.BALLS: ("buy ", "ball", ""),
    What.FRONT: ("the front begins at stitch ", "", ""),
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


def phrases_by_sizes(telling: Telling, change: Change) -> Iterator[tuple[tuple[str, ...], Inlines]]:
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


def _shows(telling: Telling, change: Change, shift: Shift) -> bool:
    """Whether a change is printed by itself, and not only as a consequence of one that is."""
    place = change.place
    if change.what is What.BODY:
        printed = {name for v in (telling.old, telling.new) for name, _ in body_rows(v.plan)}
        return change.of in printed
    if place.part is not ChangedPart.STEP or place.added or place.gone:
        return True
    step = telling.step(place, place.new_step)
    if change.what is What.ROUNDS:
        return words_of(step.step).tells_rounds
    if change.what is What.STITCHES:
        was = telling.step(place, place.old_step)
        return any(
            each.before[index].stitches != each.after[index].stitches
            for each, plan in ((was, telling.found.old), (step, telling.found.new))
            for index in (plan.source.sizes.index(shift.size),)
        ) and not (shift.old == 0 or shift.new == 0)
    return True


def _side_by_side(telling: Telling, change: Change, shifts: Sequence[Shift]) -> Inlines | None:
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


def _phrase(telling: Telling, change: Change, shifts: Sequence[Shift]) -> Inlines:
    """What is so now and what was before; nothing where both print the same.

    Several shifts are for all sizes in order and have figures.
    """
    now = [_printed(telling, change, shift.new) for shift in shifts]
    was = [_printed(telling, change, shift.old) for shift in shifts]
    if not any(now) and not any(was):
        return text_phrase(telling, change, shifts[0])
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


def _around(telling: Telling, change: Change) -> tuple[str, str]:
    """The words before and after a figure."""
    before, _, after = _COUNTED.get(change.what, ("", "", ""))
    place = change.place
    over = {"metric": "10 cm", "imperial": "4 in"}.get(telling.new.units, "10 cm / 4 in")
    names = {"of": change.of, "yarn": telling.yarn(change.of), "over": over}
    names |= {"unit": "", "stop": ""}
    if place.part is ChangedPart.STEP:
        before = telling.lead(change) or before
        names["unit"] = telling.unit(place)
    if change.what is What.COUNTER:
        stop = change.shifts[0].new or change.shifts[0].old
        assert isinstance(stop, Stop)
        names["stop"] = _stop_words(telling, stop)
    return before.format_map(names), after.format_map(names)


_PLACES = {
    "lining": "the lining ends",
    "fold": "the fold line is",
    "brim": "the brim ends",
    "end": "the tube ends",
}


def _stop_words(telling: Telling, stop: Stop) -> str:
    if stop.part:
        return _PLACES[stop.part]
    done = (
        ("cut {}", stop.cut),
        ("let {} rest", stop.rest),
        ("join {}", stop.join),
        ("carry up {}", stop.resume),
    )
    words = [do.format(listed(map(telling.yarn, keys))) for do, keys in done if keys]
    return listed(words) or f"go on with {telling.yarn(stop.go_on)}"


def _printed(telling: Telling, change: Change, value: Said | None) -> _Printed:
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
        case SaidAmount(grams, metres):
            yards = (f"{yards_up(metres, units)}", "yd")
            long = {"metric": ((f"{up(metres)}", "m"),), "imperial": (yards,)}
            return ((f"{up(grams)}", "g"), *long.get(units, ((f"{up(metres)}", "m"), yards)))
        case Ball(grams, metres):
            return ((f"{weight(grams, units)} = {yarn_length(metres, units)}", ""),)
        case SaidExtent(stitches, rounds):
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


def _flat_gauge(telling: Telling, change: Change) -> bool:
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
