"""The pages of a piece: its numbered steps under their sections, and the counts to check."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from operator import itemgetter
from types import MappingProxyType

from bindoff.document.chartkeys import yarn_symbols
from bindoff.document.drawn import USUALLY, Drawn
from bindoff.document.phrases import heading, join, paragraph, running, text
from bindoff.document.shapingtracks import with_tracks
from bindoff.document.sizetables import GROUPED_SIZES, Figures, unit_table
from bindoff.document.stepnumbers import Numbered, numbered, piece_id, section_id
from bindoff.document.stepphrases import unit_of
from bindoff.document.stepwords import opened, step_blocks
from bindoff.document.stripewords import MARKERS_OUT, marked_tubes
from bindoff.document.tree import (
    Block,
    Blocks,
    Figure,
    ItemList,
    Link,
    ListItem,
    Origin,
    Paragraph,
    Table,
    from_source,
)
from bindoff.document.tubemap import (
    YarnLook,
    folded_views,
    letters_key,
    names_sides,
    signs_key,
    tube_alt,
    tube_map,
    views_alt,
)
from bindoff.document.tubestrip import with_strips
from bindoff.document.units import per_size
from bindoff.document.voice import Voice
from bindoff.english import capital, how_many, plural
from bindoff.plan.cutyarns import ending_yarns
from bindoff.plan.picture import piece_gauges
from bindoff.plan.steps.close import ClosedTop
from bindoff.plan.worked import Hand, PiecePlan, Progress, StepPlan
from bindoff.plan.yarnends import begins_anew, loose_ends
from bindoff.records import replace
from bindoff.source.piece import Piece

_LEAST_COUNTED = 3  # steps that work rounds: fewer need no counts to check
NO_NOTES: Mapping[str, Blocks] = MappingProxyType({})
_LEAST_RUN = 4  # steps that do the same: as many are one row of the table of counts


def piece_blocks(
    voice: Voice, plan: PiecePlan, drawn: Drawn = USUALLY, notes: Mapping[str, Blocks] = NO_NOTES
) -> Blocks:
    """Heading, the map of a tube, numbered steps section by section, and the table of counts; below
    each heading's steps the ``notes`` that belong there, by its id."""
    piece = voice.plan.source.pattern.pieces[plan.key]
    found: list[Block] = [
        heading(2, _title(piece), piece_id(plan)),
        *_mirror(voice, piece),
        *_tube_map(voice, plan, drawn),
    ]
    items: list[ListItem] = []
    number, start, sections, place = 0, 1, 0, piece_id(plan)
    said = _said_in_steps(voice, plan)
    last = max((at for at, step in enumerate(plan.steps) if not step.heading), default=0)
    held, several = "", len(voice.yarn_names) > 1
    for index, step in enumerate(plan.steps):
        before, held = held, _in_hand(step, held)
        if step.heading:
            if items:
                found.append(ItemList(tuple(items), ordered=True, start=start))
            found += notes.get(place, ())
            place = section_id(plan, sections)
            found += from_source((heading(3, step.heading, place),), step.span)
            items, start, sections = [], number + 1, sections + 1
        else:
            number += 1
            anew = begins_anew(plan, step) or (several and step.yarn != before)
            words = step_blocks(voice, plan, step, anew)
            if step.tubes:
                words = with_strips(words, voice, step.tubes, _looks(voice), drawn, _is_tied(plan))
            words = with_tracks(words, voice, step, drawn)
            if number in said:
                words = _counted_on(words, said[number])
            if number == 1 and plan is _first_on_machine(voice):
                words = _after_cautions(words)
            if index == last:
                words = (*words, *_at_end(voice, plan))
            items.append(ListItem(words, Origin(step.span)))
    if items:
        found.append(ItemList(tuple(items), ordered=True, start=start))
    counted = () if said else _count_tables(voice, plan)
    return from_source((*found, *counted, *notes.get(place, ())), piece.place.key_span)


def _first_on_machine(voice: Voice) -> PiecePlan | None:
    """The first piece that is made on the machine."""
    return next((each for each in voice.plan.pieces if each.from_machine), None)


def _after_cautions(words: Blocks) -> Blocks:
    """The words of a step after where the cautions stand, before the crank is turned."""
    link = (Link(text("Safety"), "#safety"),)
    told = join("First read the cautions for the machine under ", link, ".")
    return opened(words, told)


def _at_end(voice: Voice, plan: PiecePlan) -> Iterator[Paragraph]:
    """What is left to do when the last step is done: ends to weave in, where those of the tubes are
    counted too, and the markers of a tube where no finishing text comes later."""
    source = voice.plan.source
    counted = any(step.tubes for piece in voice.plan.pieces for step in piece.steps)
    if counted and not any(step.tubes for step in plan.steps):
        ends = [loose_ends(source, plan, size) for size in range(len(voice.sizes))]
        each = " in each" if source.pattern.pieces[plan.key].make > 1 else ""
        yield paragraph("Ends to weave in: ", per_size(ends), f"{each}.")
    if source.pattern.finishing is None and plan in marked_tubes(voice):
        yield paragraph(MARKERS_OUT)


def _mirror(voice: Voice, piece: Piece) -> Iterator[Block]:
    """What a knitter should know of a piece that mirrors another: all its rows are there."""
    if piece.mirror_of is None:
        return
    other = voice.plan.source.pattern.pieces[piece.mirror_of].title
    if piece.worked == "flat":
        how = (
            "what is shaped at one edge there is shaped at the other edge here, and stitches that "
            "are bound off or cast on come where the row beside it begins, a row sooner or later."
        )
    else:
        how = "each is worked from its other end, and what leans there leans the other way here."
    unit = "row" if piece.worked == "flat" else "round"
    yield paragraph(
        f"This piece is the mirror image of “{other}”, and all its {unit}s are written here: {how}"
    )


def _tube_map(voice: Voice, plan: PiecePlan, drawn: Drawn) -> Iterator[Figure]:
    """The map of the first size's tube: what a maker looks at first."""
    title = voice.plan.source.pattern.pieces[plan.key].title
    looks = _looks(voice)
    written = voice.plan.source.pattern.pieces[plan.key]
    titles = {key: chart.title for key, chart in voice.plan.source.pattern.charts.items()}
    gauge = piece_gauges(voice.plan.measures, written)[0]
    for step in plan.steps:
        if not step.tubes:
            continue
        tube = step.tubes[0]
        drawing = tube_map(
            tube,
            gauge,
            looks,
            drawn.numbers,
            min(drawn.width, drawn.map),
            drawn.colour,
            _is_tied(plan),
            plan.key,
        )
        several = len({each.tube.total_rounds for each in step.tubes}) > 1
        where = f" in size {voice.sizes[0]}" if several or len(set(step.tubes)) > 1 else ""
        letters = letters_key(tube, titles, drawn.colour, _is_tied(plan))
        key = f". {letters}" if letters else ""
        tells = names_sides(drawing) or any("side" in each.place for each in tube.motifs)
        sides = ". Left and right are the wearer’s" if tells else ""
        signs = f". {capital(found)}" if (found := signs_key(tube, drawn.colour)) else ""
        caption = text(f"{title}: map of the tube{where}{key}{signs}{sides}")
        yield Figure(
            drawing,
            tube_alt(title, tube, looks, titles, _is_tied(plan)),
            caption,
            f"map-{plan.key}",
        )
        apart = folded_views(
            tube, gauge, looks, drawn.numbers, drawn.width, drawn.colour, _is_tied(plan)
        )
        if apart is not None:
            yield Figure(apart, views_alt(_is_tied(plan)), text(f"{title}: folded"))


def _is_tied(plan: PiecePlan) -> bool:
    """Whether a strip ties its top, so that its ends stand above the tie."""
    return any(isinstance(s.detail, ClosedTop) and s.detail.by == "tie" for s in plan.steps)


def _looks(voice: Voice) -> dict[str, YarnLook]:
    """How each yarn looks on drawings of a tube."""
    symbols, yarns = yarn_symbols(voice), voice.plan.source.pattern.yarns
    return {key: YarnLook(each.name, each.colour, symbols[key]) for key, each in yarns.items()}


def _title(piece: Piece) -> str:
    return piece.title if piece.make == 1 else f"{piece.title} (make {piece.make})"


def _in_hand(step: StepPlan, before: str) -> str:
    """The yarn in hand after a step if it is the same in all sizes, else nothing.

    Rounds of several yarns leave any of them.
    """
    used = {yarn for rounds in step.worked for loops in rounds for yarn, _ in loops}
    match step.answers.hand:
        case Hand.OWN:
            return step.yarn
        case Hand.ANY:
            return ""
        case Hand.WORKED:
            if not used:
                return before
            if any(len(loops) > 1 for rounds in step.worked for loops in rounds):
                return ""
            ends = ending_yarns(step)
            (end,) = ends if len(ends) == 1 else ("",)
            return end if all(step.worked) or before == end else ""


# ---------------------------------------------------------------- counts to check


def _named(voice: Voice, step: Numbered) -> str:
    """``Step 4, brim``."""
    name = f"Step {step.number}"
    return f"{name}, {voice.amid(step.section)}" if step.section else name


def _working(plan: PiecePlan) -> list[tuple[Numbered, tuple[int, ...]]]:
    """The steps that work rounds, with those so far; nothing for a short piece."""
    printed = [
        so_far
        for step, so_far in zip(plan.steps, plan.rounds_so_far, strict=True)
        if not step.heading
    ]
    working = [
        (each, so_far)
        for each, so_far in zip(numbered(plan), printed, strict=True)
        if any(each.step.rounds) and any(so_far)
    ]
    return working if len(working) >= _LEAST_COUNTED else []


def _said_in_steps(voice: Voice, plan: PiecePlan) -> Mapping[int, str]:
    """For one size what the counts are after each step, to stand in the step itself; nothing where
    they need an explanation, as not all rows are counted."""
    if len(voice.sizes) > 1 or _short_rows(voice, plan):
        return {}
    unit = unit_of(voice, plan)
    found = {}
    for _, each, (so_far,) in _runs_joined(voice, _working(plan), unit):
        done = f"{so_far} rows and rounds" if len(plan.ways) > 1 else how_many(so_far, unit)
        left = how_many(_stitches(each.step.after)[0], "stitch")
        found[each.number] = f"So far: {done}, {left}."
    return found


def _counted_on(words: Blocks, said: str) -> Blocks:
    """The words of a step, and what the counts are after it."""
    *others, last = words
    if isinstance(last, Paragraph):
        return (*others, replace(last, children=running(last.children, said)))
    return (*words, paragraph(said))


def _count_tables(voice: Voice, plan: PiecePlan) -> tuple[Table, ...]:
    """Rounds worked and live stitches after each step that works any."""
    working = _working(plan)
    if not working:
        return ()
    title = voice.plan.source.pattern.pieces[plan.key].title
    unit = unit_of(voice, plan)
    done = f"{'rows and rounds' if len(plan.ways) > 1 else plural(unit)} worked so far"
    short = _short_rows(voice, plan)
    shown = list(_runs_joined(voice, working, unit))
    if len(voice.sizes) <= GROUPED_SIZES:
        both = [
            Figures(
                name, (_words(so_far), _words(_stitches(each.step.after))), Origin(each.step.span)
            )
            for name, each, so_far in _sections_once(voice, shown)
        ]
        caption = f"{title}: counts to check after each step{short}"
        units = (capital(done), "Stitches")
        return (unit_table(voice.sizes, caption, "After", units, both),)
    rounds = _equal_joined(voice, shown)
    changed = [
        Figures(name, (_words(_stitches(each.step.after)),), Origin(each.step.span))
        for name, each, _ in _sections_once(
            voice,
            [row for row in shown if _stitches(row[1].step.before) != _stitches(row[1].step.after)],
        )
    ]
    caption = f"{title}: stitches after each step that changes them"
    return (
        unit_table(voice.sizes, f"{title}: {done}, after each step{short}", "After", ("",), rounds),
        *((unit_table(voice.sizes, caption, "After", ("",), changed),) if len(changed) > 1 else ()),
    )


def _short_rows(voice: Voice, plan: PiecePlan) -> str:
    """How the rounds of a piece are counted in which some are not worked over all stitches."""
    column = voice.plan.source.pattern.pieces[plan.key].counted_at
    if column is not None:
        return f"; counted at {column.name}"
    unit = plural(unit_of(voice, plan))
    return f"; only {unit} over all stitches are counted" if plan.short_rows else ""


def _runs_joined(
    voice: Voice, working: Sequence[tuple[Numbered, tuple[int, ...]]], unit: str
) -> Iterator["_Counted"]:
    """The rows of a table of counts: a step, or a run of steps that do the
    same, such as ``Steps 5 to 44, body: 1 round each``."""
    added = [_added(each.step) for each, _ in working]
    keys = [  # equal while each count is the one before and as much more
        (each.section, count, so_far[0] - count * index) if count else (index,)
        for index, ((each, so_far), count) in enumerate(zip(working, added, strict=True))
    ]
    start = 0
    for _, group in groupby(keys):
        stop = start + len(list(group))
        run = working[start:stop]
        if len(run) < _LEAST_RUN:
            yield from ((_named(voice, each), each, so_far) for each, so_far in run)
        else:
            (first, _), (last, so_far) = run[0], run[-1]
            count = added[start]
            each_one = f"{count} {unit if count == 1 else plural(unit)} each"
            steps = f"Steps {first.number} to {last.number}"
            section = f", {voice.amid(last.section)}" if last.section else ""
            yield f"{steps}{section}: {each_one}", last, so_far
        start = stop


_Counted = tuple[str, Numbered, tuple[int, ...]]
"""A row's name, its last step and the rounds so far."""


def _sections_once(voice: Voice, rows: Sequence[_Counted]) -> Iterator[_Counted]:
    """``rows`` that name their section where it is another than that of the row above."""
    above = ""
    for name, each, so_far in rows:
        same = each.section and each.section == above
        yield name.replace(f", {voice.amid(each.section)}", "", 1) if same else name, each, so_far
        above = each.section


def _equal_joined(voice: Voice, shown: Sequence[_Counted]) -> list[Figures]:
    """The rounds so far, a row a step; steps after which they are the same share one."""
    found = []
    for so_far, group in groupby(_sections_once(voice, shown), key=itemgetter(2)):
        names, steps, _ = zip(*group, strict=True)
        first, last = steps[0], steps[-1]
        name = names[0]
        if len(names) > 1:
            link = "and" if last.number == first.number + 1 else "to"
            sections = dict.fromkeys(voice.amid(each.section) for each in steps if each.section)
            name = ", ".join([f"Steps {first.number} {link} {last.number}", *sections])
        found.append(Figures(name, (_words(so_far),), Origin(last.step.span)))
    return found


def _added(step: StepPlan) -> int:
    """The rounds that a step works in every size; 0 if sizes differ, or stitches change."""
    same = len(set(step.rounds)) == 1 and _stitches(step.before) == _stitches(step.after)
    return step.rounds[0] if same else 0


def _stitches(progress: Sequence[Progress]) -> tuple[int, ...]:
    return tuple(each.stitches for each in progress)


def _words(counts: Sequence[int]) -> tuple[str, ...]:
    return tuple(map(str, counts))
