"""Rows in words: one, or a list."""

from bindoff import regex as re
from bindoff.document.fullrows import in_pattern_throughout, named_in_full, stitch_throughout
from bindoff.document.machinesteps import cranked
from bindoff.document.phrases import counted, figures, join, joined, often, paragraph, running, text
from bindoff.document.stepphrases import (
    changed,
    counts,
    headed,
    in_yarn,
    named_side,
    no_rounds,
    side_of,
    unit_in,
    with_yarn,
)
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.stitchpatterns import begun, pattern_id
from bindoff.document.tree import Blocks, Inlines, ItemList, Link, ListItem
from bindoff.document.units import lengths
from bindoff.document.voice import Voice
from bindoff.english import listed, plural
from bindoff.plan.cutyarns import cut_within, ending_yarns
from bindoff.plan.steps.work import Division, Rows
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.plan.yarnends import carried_rounds
from bindoff.source.rowlang.syntax import Row, Turn
from bindoff.source.steps.work import WorkStep

_Step = WorkedStep[WorkStep, Rows]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    detail, flat = step.detail, unit_in(step) == "row"
    unit = "row" if flat or _turns(detail.rows) else "round"
    sides = _sides(step, flat)
    if not any(detail.rounds):
        return no_rounds(unit)
    if detail.machine and all(row.yarn is None for row in detail.rows):
        return cranked(voice, piece, step, detail.rounds, new_yarn)
    stripes = _stripes(voice, piece, step)
    new_yarn = new_yarn and not detail.stripes
    if len(detail.rows) > 1:
        return _row_list(voice, step, unit, sides, new_yarn, stripes)
    (row,) = detail.rows
    verb = stitch_throughout(row)
    if verb:
        words = join(f"{verb} ", _how_far(voice, detail, unit), ".")
        told = running(with_yarn(voice, step, new_yarn, words), stripes, changed(step))
        return (paragraph(told),)
    if in_pattern_throughout(row):
        to = " " if detail.until else " for "
        words = join(*_in_pattern(step), to, _how_far(voice, detail, unit), ".")
        told = running(with_yarn(voice, step, new_yarn, words), stripes, changed(step))
        return (paragraph(told),)
    once = set(detail.rounds) == {1} and not detail.until
    head = f"next {unit}{sides[0]}" if once else f"every {unit}"
    work: Inlines = () if once else join("Work ", _how_far(voice, detail, unit), ".")
    told = running(voice.row(row), work, stripes)
    words = running(begun(voice, step), headed(head), told, _count(step, told))
    return (paragraph(running(in_yarn(voice, step, new_yarn), words)),)


def _in_pattern(step: _Step) -> tuple[Inlines | str, ...]:
    """``work the rows of Seed stitch`` where it begins, else ``work in pattern``."""
    new = [each for each in step.patterns.stitch if each.begun]
    if not new:
        return ("work in pattern",)
    title = new[0].rows.title
    return ("work the rows of ", (Link(text(title), f"#{pattern_id(new[0].rows.key)}"),))


def _row_list(
    voice: Voice,
    step: _Step,
    unit: str,
    sides: tuple[str, ...],
    new_yarn: bool,
    stripes: Inlines,
) -> Blocks:
    detail = step.detail
    count = len(detail.rows)
    items = tuple(
        ListItem(
            (
                paragraph(
                    headed(f"{unit} {number}{side}"),
                    " ",
                    voice.row(row),
                ),
            )
        )
        for number, (row, side) in enumerate(zip(detail.rows, sides, strict=True), start=1)
    )
    these = f"work these {count} {plural(unit)}"
    if detail.until:
        how: Inlines = join(f"{these} over and over ", _how_far(voice, detail, unit), ".")
    elif detail.again:
        how = _then_repeated(detail, unit)
    elif set(detail.rounds) == {count}:
        how = text(f"{these}.")
    elif all(rounds % count == 0 for rounds in detail.rounds):
        whole = tuple(rounds // count for rounds in detail.rounds)
        how = join(f"{these} ", often(whole), ". That makes ", counted(detail.rounds, unit), ".")
    else:
        how = join(f"{these} in turn for ", counted(detail.rounds, unit), ".")
    opening = paragraph(
        running(with_yarn(voice, step, new_yarn, how), stripes, begun(voice, step), _count(step))
    )
    return (opening, ItemList(items))


_ENDS = re.compile(r"\b(?:cut|cutting|break|breaking|carry|carried|carrying)\b", re.IGNORECASE)


def _stripes(voice: Voice, piece: PiecePlan, step: _Step) -> Inlines:
    """The stripes that the rows are worked in, and how often; that yarns are cut which rest for
    long, where the designer's words don't say what becomes of them."""
    detail = step.detail
    if not detail.stripes:
        return ()
    names = voice.yarn_names
    heights = joined(
        join(figures(each.rounds), f" in {names[each.yarn]}") for each in detail.stripes
    )
    once = [sum(each) for each in zip(*(each.rounds for each in detail.stripes), strict=True)]
    many = [divmod(rounds, stripe) for rounds, stripe in zip(detail.rounds, once, strict=True)]
    again: Inlines = ()
    if any(over for _, over in many):
        again = text("Repeat these stripes until all are worked.")
    elif len({times for times, _ in many}) > 1:
        again = join("Work these stripes ", often([times for times, _ in many]), ".")
    elif many[0][0] > 1:
        again = join("Repeat these stripes ", often([many[0][0] - 1]), " more.")
    cut = cut_within(step, carried_rounds(voice.plan.source, piece.key))
    if cut and not _ENDS.search(f"{step.step.first or ''} {step.step.note or ''}"):
        if {each.yarn for each in detail.stripes} == {*cut}:
            words = "Cut the yarn at the end of each stripe but the last."
        else:
            its = "its" if len(cut) == 1 else "their"
            words = (
                f"Cut {listed(names[yarn] for yarn in cut)} at the end of each of {its} stripes."
            )
            kept = [names[yarn] for yarn in cut if yarn in ending_yarns(step)]
            words += f" Do not cut {listed(kept)} after the last stripe." if kept else ""
        again = running(again, words)
    unit = plural(unit_in(step))
    return running(join(f"The {unit} are worked in stripes of so many: ", heights, "."), again)


def _how_far(voice: Voice, detail: Rows, unit: str) -> Inlines:
    """``12 rounds``; or ``until the piece measures 14 cm (about 42 rounds)``."""
    if not detail.until:
        return counted(detail.rounds, unit)
    measured = "this part" if detail.from_here else "the piece"
    length = lengths(detail.until, voice.units)
    about = join("about ", counted(detail.rounds, unit))
    return join(f"until {measured} measures ", length, " (", about, ")")


def _then_repeated(detail: Rows, unit: str) -> Inlines:
    count, first = len(detail.rows), len(detail.rows) - detail.again + 1
    last = f"{plural(unit)} {first} {'and' if detail.again == 2 else 'to'} {count}"
    which = f"{unit} {count}" if detail.again == 1 else last
    in_all = counted(detail.rounds, unit)
    return join(
        f"work these {count} {plural(unit)}, then repeat {which}. In all there are ", in_all, "."
    )


def _count(step: _Step, said: Inlines = ()) -> Inlines:
    """The count where it changed, after those of the parts where a row divides."""
    told = [_divided(division) for division in step.detail.divided]
    after = tuple(progress.stitches for progress in step.after)
    if told and not any(after):
        return running(*told)
    if told and after == tuple(progress.stitches for progress in step.before):
        return running(*told, join("With the new ones there are ", counts(after), "."))
    return running(*told, changed(step, said))


def _divided(division: Division) -> Inlines:
    """``The stitches are now divided: front 74, left sleeve 50.``"""
    parts = (join(f"{each.name or 'on the needles'} ", figures(each.stitches)) for each in division)
    return join("The stitches are now divided: ", joined(parts), ".")


def _turns(rows: tuple[Row, ...]) -> int:
    """How many rows are turned at their end, as those of a heel are: in the round too, such rows
    are called rows."""
    return sum(isinstance(row.parts[-1], Turn) for row in rows)


def _sides(step: _Step, flat: bool) -> tuple[str, ...]:
    """`` (right side)`` and the like for each row, nothing where it is not always so."""
    rows = step.detail.rows
    turns = len(rows) if flat else _turns(rows)
    begun = {progress.wrong_side for progress in step.before}
    again = step.detail.again or len(rows)
    each = again if flat else _turns(rows[-again:])
    steady = each % 2 == 0 or max(step.detail.rounds) <= len(rows)
    if flat:
        numbers = range(1, len(rows) + 1)
        return tuple(side_of(step, number, "row") if steady else "" for number in numbers)
    if not turns or not steady or len(begun) > 1:
        return ("",) * len(rows)
    (wrong_side,) = begun
    turned = [wrong_side + _turns(rows[:place]) for place in range(len(rows))]
    return tuple(named_side({(each + 1) % 2}) for each in turned)


def _in_full(step: _Step, row: Row) -> bool:
    if len(step.detail.rows) == 1:
        return bool(stitch_throughout(row))
    return named_in_full(step, row)


WORDS = Words(WorkStep, tell=_tell, in_full=_in_full, leads={}, tells_rounds=True, tracks=no_tracks)
