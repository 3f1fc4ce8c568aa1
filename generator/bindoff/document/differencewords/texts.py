"""What is so now and what was before, for what is no figure."""

from bindoff.craft.yarn_weights import yarn_weight
from bindoff.document.differencewords.cells import cell_phrase, ranges
from bindoff.document.differencewords.telling import Telling
from bindoff.document.phrases import join, text
from bindoff.document.rowwords import words as row_words
from bindoff.document.steps.taper import pace_words
from bindoff.document.tree import (
    Inlines,
    plain,
)
from bindoff.document.voice import Voice
from bindoff.plan.differences.change import Change, ChangedPart, Shift
from bindoff.plan.differences.matching import SAME_KEYS
from bindoff.plan.differences.said import Instruction, Said, SaidProse, What
from bindoff.plan.taper import Taper
from bindoff.source.rowlang.stitches import Terms

SHORT = 60
"""Letters up to which a text stands in a line with what it was."""


def text_phrase(telling: Telling, change: Change, shift: Shift) -> Inlines:
    """What is so now and what was before, for what is no figure; nothing for prose."""
    old, new = shift.old, shift.new
    if isinstance(old, SaidProse) or isinstance(new, SaidProse):
        return ()
    match change.what:
        case What.SIZE:
            return text(f"{change.of} is {'gone' if new is None else 'new'}")
        case What.SIZE_ORDER:
            return text(f"the order is now {new}, was {old}")
        case What.TEXT:
            now, was = (str(value or "").removesuffix(".") for value in (new, old))
            return _was("", now, was) if short(change) else ()
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
            return cell_phrase(telling, change)
        case What.STRANDED:
            return _was("knit in two yarns the rounds ", *map(_rounds, (new, old)))
        case What.CROWN | What.WORKING_ORDER | What.MOTIFS:
            return text(_REORDERED[change.what])
        case _:
            unit = telling.unit(change.place) if change.place.part is ChangedPart.STEP else ""
            now, was = _words(telling.new, new, unit), _words(telling.old, old, unit)
            words = _was(_words_before(telling, change, unit), now, was)
            new_row = isinstance(new, Instruction) and old is None
            return join(words, ", which is new") if new_row else words


_WORKED = {"flat": "flat, in rows", "round": "in the round"}

_REORDERED = {
    What.CROWN: "the table of decrease rounds has changed",
    What.MOTIFS: "the list of motifs has changed",
    What.WORKING_ORDER: "the list of areas in working order has changed",
}


def _rounds(value: Said | None) -> str:
    assert value is None or isinstance(value, tuple)
    numbers = [each[0] for each in value or () if isinstance(each, tuple)]
    return ranges([number for number in numbers if isinstance(number, int)])


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


def short(change: Change) -> bool:
    """Whether a text of the head is short enough to stand in a line with what it was."""
    return all(len(str(value)) <= SHORT for s in change.shifts for value in (s.old, s.new))


def _words_before(telling: Telling, change: Change, unit: str) -> str:
    """What leads to a text: which row it is if there are several, what it says."""
    number = f" {change.of}" if _several_rows(telling, change) else ""
    row = f"{unit}{number}: " if number else ""
    own = telling.lead(change)
    if own is not None:
        return own
    return {
        What.ROW: row,
        What.SHAPING_ROW: f"shaping {unit}: ",
        What.PLAIN_ROW: f"plain {unit}{number}: ",
        What.CROWN_START: "the crown starts with ",
        What.PACE: "shape ",
        What.METHOD: "method: ",
        What.GROUPS: "put back on the needles: ",
        What.JOINED_TO: "join to ",
        What.GAUGE_STATE: "measured ",
        What.GAUGE_TOOL: "tool: ",
        What.GAUGE_WORKED: "worked in ",
        What.ALT: "now described as: ",
    }.get(change.what, "")


def _several_rows(telling: Telling, change: Change) -> bool:
    """Whether a step has numbered rows of a kind in either version."""
    if change.of != "1":
        return bool(change.of)
    place, found = change.place, telling.found
    for at, plan in ((place.old_step, found.old), (place.new_step, found.new)):
        if at is not None:
            step = telling.step(place, at)
            facts = step.answers.facts(plan.measures, step, SAME_KEYS)
            if (change.what, "2") in facts:
                return True
    return False


def _words(voice: Voice, value: Said | None, unit: str) -> str:
    """A value that is no figure in the words of the version it is of; nothing for none."""
    match value:
        case None:
            return ""
        case Instruction():
            return f"“{row_of(voice, value)}”"
        case Taper():
            return pace_words(value, unit)
        case int():
            return f"{yarn_weight(value).name} ({value})"
        case _:
            return str(value).removesuffix(".")


def row_of(voice: Voice, said: Instruction) -> str:
    """A row as one size works it."""
    style = Terms(voice.plan.source.pattern.terms)
    numbers = {name: (number,) for name, number in said.numbers}
    row = said.row
    words = row_words(row, numbers, style, voice.plan.book, yarns=voice.yarn_names)
    return plain(words).removesuffix(".")
