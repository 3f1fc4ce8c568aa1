"""What is not the same in two plans of a pattern, figure by figure, as data without words.

Every plan is laid out as facts: what is told about something, with a value for each size. Two
plans differ where their facts do. Yarns, charts and pieces meet by their keys, else by their
names; steps meet by a comparison of the two lists, so that an added step does not make all later
ones look changed.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from enum import StrEnum
from itertools import chain
from types import MappingProxyType
from typing import Any, assert_never

from generator.diagnostics import Diagnostic, PatternError, Severity, Span
from generator.plan.gauge import Gauge, round_to
from generator.plan.measures import Measures, measure_pattern
from generator.plan.persize import named, together
from generator.plan.picture import PicturePlan, piece_gauges
from generator.plan.plan import Plan, make_plan
from generator.plan.sizing import Sizing, sizings
from generator.plan.steps import (
    BindOff,
    CastOn,
    ChartRows,
    Crowned,
    Edged,
    Embroidered,
    Even,
    Gather,
    Joined,
    Left,
    PickUp,
    PiecePlan,
    Rows,
    StepPlan,
    Striped,
    Tapered,
)
from generator.plan.taper import Taper
from generator.plan.tube import Part as TubePart
from generator.plan.values import Kind, Measure
from generator.plan.yarn import Ball
from generator.plan.yarnplan import YarnTotal
from generator.source.formula import Quantity
from generator.source.models import CellMeaning, ChartStep, Pattern, SayStep, SectionStep
from generator.source.read import Source
from generator.source.regauge import StatedGauge, gauge_path, regauge
from generator.source.rowlang.syntax import Repeat, Row
from generator.source.rowlang.uses import numbers_used

ASPECT_LIMIT = 0.05
"""How much a stitch may change its proportions before a picture looks different; common practice,
no source."""

NEAREST_PERCENT = 25
"""How far from a gauge that can't be made one is looked for that can."""


class What(StrEnum):
    """What a figure or a text tells; the words are those of the JSON output."""

    # the pattern
    SIZE = "size"
    SIZE_ORDER = "order of sizes"
    TEXT = "text"
    PROSE = "prose"
    TOOL = "tool"
    NOTION = "notion"
    STITCH = "stitch of its own"
    # sizes
    GAUGE = "gauge"
    GAUGE_STATE = "state of the gauge"
    GAUGE_TOOL = "tool for the gauge"
    GAUGE_WORKED = "fabric of the gauge"
    BODY = "body measurement"
    FINISHED = "finished measurement"
    MEASURE = "measure"
    # yarns
    NAME = "name"
    COLOUR = "colour"
    WEIGHT = "weight"
    FIBRE = "fibre"
    BALL = "ball"
    AMOUNT = "amount"
    BALLS = "balls"
    # charts
    ALT = "description"
    EXTENT = "extent"
    CELLS = "cells"
    # pieces
    MAKE = "how often it is made"
    WORKED = "how it is worked"
    TOTAL_ROUNDS = "rounds in all"
    SCHEMATIC = "schematic"
    # steps
    HEADING = "heading"
    SAY = "words"
    NOTE = "note"
    YARN = "yarn"
    STITCHES = "stitches"
    ROUNDS = "rounds"
    METHOD = "method"
    HELD = "held stitches"
    PICKED_UP = "picked up"
    ROW = "row"
    SHAPING_ROW = "shaping row"
    PLAIN_ROW = "plain row"
    PACE = "pace"
    CHART = "chart"
    REPEATS = "repeats of the chart"
    CROWN_START = "first crown round"
    DECREASE_ROUNDS = "decrease rounds"
    PLAIN_ROUNDS = "plain rounds"
    CROWN = "crown rounds"
    CLOSED = "closed stitches"
    JOINED_TO = "joined to"
    ALONG = "length of the edge"
    SIDE = "side of the edge"
    EDGED = "stitches of the edging"
    COUNTER = "counter"
    STRANDED = "rounds in two yarns"
    PICTURE_START = "first round of the picture"
    EMBROIDERED = "embroidered stitches"
    AREAS = "embroidered areas"
    STRANDS = "strands"
    THREAD = "thread"
    WORKING_ORDER = "working order"


# ---------------------------------------------------------------- values


@dataclass(frozen=True, slots=True)
class Instruction:
    """A row as one size works it: its computed numbers by name."""

    row: Row
    numbers: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Prose:
    """Prose as written, with the figures that it prints in one size and the names of yarns."""

    text: str
    figures: tuple[tuple[str, float | str], ...] = ()


@dataclass(frozen=True, slots=True)
class Amount:
    """Yarn needed, reserve included."""

    grams: float
    metres: float


@dataclass(frozen=True, slots=True)
class Extent:
    """Stitches and rounds: those of a chart, or those over 10 cm."""

    stitches: float
    rounds: float


@dataclass(frozen=True, slots=True)
class Cell:
    """A stitch of a chart: its yarn (empty: that of the step) and how it is worked."""

    yarn: str
    stitch: str


@dataclass(frozen=True, slots=True)
class Stop:
    """A stop of a machine's counter: where a part of the tube ends, or yarns are cut and joined.

    ``part`` is ``lining``, ``fold``, ``brim`` or ``end``, empty for yarns; ``go_on`` is the yarn of
    the next round where none is cut or joined.
    """

    counter: int
    part: str = ""
    cut: tuple[str, ...] = ()
    join: tuple[str, ...] = ()
    go_on: str = ""

    @property
    def kind(self) -> str:
        """What happens at the stop, whatever the counter shows."""
        return f"{self.part}{self.go_on}|{','.join(self.cut)}|{','.join(self.join)}"


Listing = tuple[tuple[str | int, ...], ...]
Said = (
    int
    | float
    | str
    | Quantity
    | Ball
    | Taper
    | Instruction
    | Prose
    | Amount
    | Extent
    | Stop
    | tuple[Cell, ...]
    | Listing
)
"""Lengths are millimetres. Figures are rounded to the millionth, above binary dust."""

Subject = tuple[What, str]
"""What is told, and of which: the yarn, the row, the named measure; empty where there is one."""

Facts = Mapping[Subject, Mapping[str, Said]]
"""What is told of every subject in each size; under an empty name what does not depend on size."""

# ---------------------------------------------------------------- differences


class Part(StrEnum):
    """What part of a pattern is not the same."""

    PATTERN = "pattern"
    YARN = "yarn"
    CHART = "chart"
    PIECE = "piece"
    STEP = "step"


@dataclass(frozen=True, slots=True)
class StepAt:
    """A step by its index in the piece and as the reader knows it; a heading has no number."""

    index: int
    number: int | None
    section: str


@dataclass(frozen=True, slots=True)
class Place:
    """Where a change lies: keys in both versions, ``None`` where a version lacks it."""

    part: Part
    old: str | None = ""
    new: str | None = ""
    old_step: StepAt | None = None
    new_step: StepAt | None = None

    @property
    def added(self) -> bool:
        """Whether only the new version has it."""
        return self.old is None or (self.part is Part.STEP and self.old_step is None)

    @property
    def gone(self) -> bool:
        """Whether only the old version has it."""
        return self.new is None or (self.part is Part.STEP and self.new_step is None)


@dataclass(frozen=True, slots=True)
class Shift:
    """What one size was told and is told now; ``None`` where a version says nothing.

    ``size`` is empty for what does not depend on size.
    """

    size: str
    old: Said | None
    new: Said | None


@dataclass(frozen=True, slots=True)
class Change:
    """One subject of one place that is not the same, in the sizes in which it is not."""

    place: Place
    what: What
    of: str
    shifts: tuple[Shift, ...]


@dataclass(frozen=True, slots=True)
class Differences:
    """All that is not the same in two plans, in the order of the document."""

    old: Plan
    new: Plan
    changes: tuple[Change, ...]

    @property
    def sizes(self) -> tuple[str, ...]:
        """The sizes that both have, in the new order."""
        return _shared(self.old, self.new)


def differences(old: Plan, new: Plan) -> Differences:
    """What is not the same in ``old`` and ``new``.

    Sizes meet by their names; of a size that only one version has nothing more is told. A yarn
    of the old version is called by its new key if it has one.
    """
    yarns = _paired(_yarn_names(old), _yarn_names(new))
    keys = Keys(_met(yarns), _met(_paired(_chart_titles(old), _chart_titles(new))))
    both = _Both(old, new, _shared(old, new), keys)
    changes = chain(
        _size_changes(both),
        both.changes(
            Place(Part.PATTERN), _pattern_facts(old, keys), _pattern_facts(new, SAME_KEYS)
        ),
        _yarn_changes(both, yarns),
        _piece_changes(both),
        _chart_changes(both),
    )
    return Differences(old, new, tuple(changes))


@dataclass(frozen=True, slots=True)
class Keys:
    """The new keys of an old version's yarns and charts, where they have others."""

    yarns: Mapping[str, str]
    charts: Mapping[str, str]

    def yarn(self, key: str) -> str:
        """The key by which both versions know a yarn."""
        return self.yarns.get(key, key)

    def chart(self, key: str) -> str:
        """The key by which both versions know a chart."""
        return self.charts.get(key, key)


SAME_KEYS = Keys(MappingProxyType({}), MappingProxyType({}))


@dataclass(frozen=True, slots=True)
class _Both:
    """Two plans, their common sizes, and the new keys of the old version."""

    old: Plan
    new: Plan
    sizes: tuple[str, ...]
    keys: Keys

    def changes(self, place: Place, old: Facts, new: Facts) -> Iterator[Change]:
        """Every subject of a place whose facts differ."""
        for what, of in dict.fromkeys((*new, *old)):
            was, now = old.get((what, of), {}), new.get((what, of), {})
            shifts = tuple(
                Shift(size, was.get(size), now.get(size))
                for size in ("", *self.sizes)
                if was.get(size) != now.get(size)
            )
            if shifts:
                yield Change(place, what, of, shifts)


def _shared(old: Plan, new: Plan) -> tuple[str, ...]:
    return tuple(size for size in new.source.sizes if size in old.source.sizes)


def _paired(
    old: Mapping[str, str], new: Mapping[str, str]
) -> tuple[tuple[str | None, str | None], ...]:
    """Keys that belong together, given the name of each: by key, what is left by name.

    In the new order; what is gone comes last.
    """
    by_name = {name: key for key, name in old.items() if key not in new}
    found: list[tuple[str | None, str | None]] = []
    for key, name in new.items():
        found.append((key if key in old else by_name.pop(name, None), key))
    met = {was for was, _ in found}
    return (*found, *((key, None) for key in old if key not in met))


def _met(pairs: Iterable[tuple[str | None, str | None]]) -> Mapping[str, str]:
    return {was: now for was, now in pairs if was is not None and now is not None}


def _aligned(
    old: Sequence[tuple[str, str]], new: Sequence[tuple[str, str]]
) -> list[tuple[int | None, int | None]]:
    """Indexes of two lists of (kind, content) that belong together.

    Equal items meet first; between them, items of one kind in their order.
    """
    if list(old) > list(new):  # the matcher is not symmetric, the result shall be
        return [(was, now) for now, was in _aligned(new, old)]
    found: list[tuple[int | None, int | None]] = []
    for tag, a, a_end, b, b_end in _runs(old, new):
        if tag == "equal":
            found += zip(range(a, a_end), range(b, b_end), strict=True)
            continue
        kinds = [[kind for kind, _ in part] for part in (old[a:a_end], new[b:b_end])]
        for inner, c, c_end, d, d_end in _runs(*kinds):
            was, now = range(a + c, a + c_end), range(b + d, b + d_end)
            if inner == "equal":
                found += zip(was, now, strict=True)
            else:
                found += [*((index, None) for index in was), *((None, index) for index in now)]
    return found


def _runs(old: Sequence[Any], new: Sequence[Any]) -> Sequence[tuple[str, int, int, int, int]]:
    return SequenceMatcher(None, old, new, autojunk=False).get_opcodes()


def _per_size(plan: Plan, values: Iterable[Said | None]) -> dict[str, Said]:
    """Values of all sizes by the name of the size; none where there is none."""
    return {
        size: value
        for size, value in zip(plan.source.sizes, values, strict=True)
        if value is not None
    }


def _fine(number: float) -> float:
    return round(number, 6)


def _quantities(plan: Plan, measure: Measure) -> dict[str, Said]:
    kind = Kind.LENGTH if measure.kind is Kind.LENGTH else Kind.NUMBER
    return _per_size(plan, [Quantity(_fine(value), kind) for value in measure.rounded])


_IN_BRACES = re.compile(r"\{[{%](.*?)[%}]\}", re.DOTALL)


def _prose(plan: Plan, text: str | None, keys: Keys) -> dict[str, Said]:
    """Prose in every size: the same unless it prints a figure."""
    if not text:
        return {}
    words = re.findall(r"\w+", " ".join(_IN_BRACES.findall(text)))
    yarns = plan.source.pattern.yarns
    named = [(keys.yarn(key), yarns[key].name) for key in yarns if key in words]
    return {
        sizing.name: Prose(
            text,
            tuple((w, _fine(sizing.names[w].value)) for w in words if w in sizing.names)
            + tuple(named),
        )
        for sizing in plan.measures.sizes
    }


# ---------------------------------------------------------------- the pattern


def _size_changes(both: _Both) -> Iterator[Change]:
    """Sizes that are new or gone, and a new order of those that stay: it is that of all lists."""
    place = Place(Part.PATTERN)
    old, new = both.old.source.sizes, both.new.source.sizes
    for size in dict.fromkeys((*new, *old)):
        shift = Shift("", size if size in old else None, size if size in new else None)
        if shift.old != shift.new:
            yield Change(place, What.SIZE, size, (shift,))
    before = [size for size in old if size in new]
    if before != list(both.sizes):
        order = Shift("", ", ".join(before), ", ".join(both.sizes))
        yield Change(place, What.SIZE_ORDER, "", (order,))


def _pattern_facts(plan: Plan, keys: Keys) -> Facts:
    """What is told before and after the pieces."""
    pattern, measures = plan.source.pattern, plan.measures
    facts: dict[Subject, Mapping[str, Said]] = {}
    for size in measures.sizes:
        for name, mm in size.body.items():
            facts[What.BODY, name] = {
                **facts.get((What.BODY, name), {}),
                size.name: Quantity(_fine(mm), Kind.LENGTH),
            }
    for what, figures in ((What.FINISHED, measures.finished), (What.MEASURE, measures.named)):
        facts |= {(what, name): _quantities(plan, measure) for name, measure in figures.items()}
    facts |= _gauge_facts(plan)
    facts |= {(What.TOOL, tool.name): {"": tool.use} for tool in pattern.tools}
    facts |= {(What.NOTION, notion): {"": notion} for notion in pattern.notions}
    facts |= {
        (What.STITCH, key): {"": f"{stitch.name}: {stitch.how}"}
        for key, stitch in pattern.stitches.items()
    }
    facts |= {(What.TEXT, name): {"": text} for name, text in _texts(pattern).items() if text}
    for name in ("notes", "finishing", "care", "licence"):
        facts[What.PROSE, name] = _prose(plan, getattr(pattern, name), keys)
    return facts


def _gauge_facts(plan: Plan) -> Facts:
    pattern = plan.source.pattern
    facts: dict[Subject, Mapping[str, Said]] = {}
    for name in ("", *pattern.gauges):
        written = [
            pattern.gauges[name] if name else size.gauge or pattern.gauge
            for size in pattern.sizes.values()
        ]
        gauges = [size.gauges[name] for size in plan.measures.sizes]
        counts = [Extent(_fine(g.stitches_per()), _fine(g.rounds_per())) for g in gauges]
        facts |= {
            (What.GAUGE, name): _per_size(plan, counts),
            (What.GAUGE_STATE, name): _per_size(plan, [gauge.state for gauge in gauges]),
            (What.GAUGE_TOOL, name): _per_size(plan, [each.tool or None for each in written]),
            (What.GAUGE_WORKED, name): _per_size(plan, [each.worked or None for each in written]),
        }
    return facts


def _texts(pattern: Pattern) -> Mapping[str, str]:
    """Short texts of the head by the name a reader knows them by."""
    needles = f", {pattern.made.needles} needles" if pattern.made.needles else ""
    return {
        "title": pattern.title,
        "designer": pattern.designer,
        "language": pattern.language,
        "terms": pattern.terms,
        "units": pattern.units,
        "summary": pattern.summary,
        "skill": pattern.skill,
        "contact": pattern.contact,
        "wearer": ", ".join(pattern.wearer),
        "made": f"by {pattern.made.by}{needles}",
        "cautions": ", ".join(pattern.hazards),
        "techniques": ", ".join(pattern.techniques),
    }


# ---------------------------------------------------------------- yarns


def _yarn_names(plan: Plan) -> Mapping[str, str]:
    return {key: yarn.name for key, yarn in plan.source.pattern.yarns.items()}


def _yarn_changes(both: _Both, pairs: Iterable[tuple[str | None, str | None]]) -> Iterator[Change]:
    for old, new in pairs:
        was = _yarn_facts(both.old, old) if old is not None else {}
        now = _yarn_facts(both.new, new) if new is not None else {}
        yield from both.changes(Place(Part.YARN, old, new), was, now)


def _yarn_facts(plan: Plan, key: str) -> Facts:
    yarn = plan.source.pattern.yarns[key]
    total = next(each for each in plan.yarn if each.yarn == key)
    return {
        (What.NAME, ""): {"": yarn.name},
        (What.COLOUR, ""): {"": yarn.colour.lower()},
        (What.WEIGHT, ""): {"": yarn.weight},
        (What.FIBRE, ""): {"": yarn.fibre} if yarn.fibre else {},
        (What.BALL, ""): {"": Ball(_fine(total.ball.grams), _fine(total.ball.metres))},
        (What.AMOUNT, ""): _amounts(plan, total),
        (What.BALLS, ""): _per_size(plan, [need.balls for need in total.needs]),
    }


def _amounts(plan: Plan, total: YarnTotal) -> dict[str, Said]:
    needs = [Amount(_fine(need.grams), _fine(need.metres)) for need in total.needs]
    return _per_size(plan, needs)


# ---------------------------------------------------------------- charts


def _chart_titles(plan: Plan) -> Mapping[str, str]:
    return {key: chart.title for key, chart in plan.source.pattern.charts.items()}


def _chart_changes(both: _Both) -> Iterator[Change]:
    for old, new in _paired(_chart_titles(both.old), _chart_titles(both.new)):
        place = Place(Part.CHART, old, new)
        was = _chart_facts(both.old, old) if old is not None else {}
        now = _chart_facts(both.new, new) if new is not None else {}
        yield from both.changes(place, was, now)
        if old is not None and new is not None:
            yield from _cell_changes(
                place, _cells(both.old, old, both.keys), _cells(both.new, new, SAME_KEYS)
            )


def _chart_facts(plan: Plan, key: str) -> Facts:
    chart, grid = plan.source.pattern.charts[key], plan.source.grids[key]
    return {
        (What.NAME, ""): {"": chart.title},
        (What.ALT, ""): {"": chart.alt},
        (What.EXTENT, ""): {"": Extent(grid.width, grid.height)},
    }


def _cells(plan: Plan, key: str, keys: Keys) -> list[tuple[Cell, ...]]:
    """What each stitch of a chart means, round 1 and stitch 1 first."""
    legend = plan.source.pattern.charts[key].legend
    cells: dict[str, Cell] = {}
    for character, meaning in legend.items():
        if isinstance(meaning, CellMeaning):
            yarn, stitch = meaning.yarn or "", meaning.stitch or "k"
        elif meaning in plan.source.pattern.yarns:
            yarn, stitch = meaning, "k"
        else:
            yarn, stitch = "", meaning
        found = plan.book.find(stitch)
        cells[character] = Cell(keys.yarn(yarn), found.id if found else stitch)
    rounds = plan.source.grids[key].rounds
    return [tuple(cells[character] for character in line[::-1]) for line in rounds]


def _cell_changes(
    place: Place, old: Sequence[tuple[Cell, ...]], new: Sequence[tuple[Cell, ...]]
) -> Iterator[Change]:
    """Rounds with other cells, rounds that are new and rounds that are gone; none where the width
    changes, since then nothing can be compared stitch by stitch."""
    if len(old[0]) != len(new[0]):
        return
    pairs: Iterable[tuple[int | None, int | None]]
    if len(old) == len(new):
        pairs = ((index, index) for index in range(len(new)))
    else:
        pairs = _aligned([("", repr(line)) for line in old], [("", repr(line)) for line in new])
    for was, now in pairs:
        before = None if was is None else old[was]
        after = None if now is None else new[now]
        number = was if now is None else now
        if before != after and number is not None:
            yield Change(place, What.CELLS, str(number + 1), (Shift("", before, after),))


# ---------------------------------------------------------------- pieces


def _piece_changes(both: _Both) -> Iterator[Change]:
    titles = [
        {key: piece.title for key, piece in plan.source.pattern.pieces.items()}
        for plan in (both.old, both.new)
    ]
    for old, new in _paired(*titles):
        was = both.old.piece(old) if old is not None else None
        now = both.new.piece(new) if new is not None else None
        yield from both.changes(
            Place(Part.PIECE, old, new),
            _piece_facts(both.old, was) if was else {},
            _piece_facts(both.new, now) if now else {},
        )
        if was and now:
            yield from _step_changes(both, was, now)


def _piece_facts(plan: Plan, piece: PiecePlan) -> Facts:
    written = plan.source.pattern.pieces[piece.key]
    facts: dict[Subject, Mapping[str, Said]] = {
        (What.NAME, ""): {"": written.title},
        (What.MAKE, ""): {"": written.make},
        (What.WORKED, ""): {"": written.worked},
        (What.TOTAL_ROUNDS, ""): _per_size(plan, piece.rounds),
    }
    shape = written.schematic
    for name, field in type(shape).model_fields.items() if shape else ():
        if name != "shape" and getattr(shape, name) is not None:
            measure = plan.measures.amount("pieces", piece.key, "schematic", str(field.alias))
            facts[What.SCHEMATIC, str(field.alias)] = _quantities(plan, measure)
    return facts


def _step_changes(both: _Both, old: PiecePlan, new: PiecePlan) -> Iterator[Change]:
    old_at, new_at = _numbered(old), _numbered(new)
    kinds = [
        [(type(step.step).__name__, step.step.model_dump_json()) for step in piece.steps]
        for piece in (old, new)
    ]
    for was, now in _aligned(*kinds):
        place = Place(
            Part.STEP,
            old.key,
            new.key,
            None if was is None else old_at[was],
            None if now is None else new_at[now],
        )
        before = None if was is None else old.steps[was]
        after = None if now is None else new.steps[now]
        yield from both.changes(
            place,
            _step_facts(both.old, before, both.keys) if before else {},
            _step_facts(both.new, after, SAME_KEYS) if after else {},
        )
        yield from _stop_changes(
            place,
            both,
            _stops(both.old, before, both.keys) if before else {},
            _stops(both.new, after, SAME_KEYS) if after else {},
        )


def _numbered(piece: PiecePlan) -> list[StepAt]:
    """Steps with the numbers that the document gives them."""
    found: list[StepAt] = []
    number, section = 0, ""
    for index, step in enumerate(piece.steps):
        if isinstance(step.step, SectionStep):
            section = step.step.section
            found.append(StepAt(index, None, section))
        else:
            number += 1
            found.append(StepAt(index, number, section))
    return found


def _step_facts(plan: Plan, step: StepPlan, keys: Keys) -> Facts:
    """What a step tells, in every size."""
    facts: dict[Subject, Mapping[str, Said]] = {}
    if isinstance(step.step, SectionStep):
        facts[What.HEADING, ""] = {"": step.step.section}
    if isinstance(step.step, SayStep):
        facts[What.SAY, ""] = _prose(plan, step.step.say, keys)
    facts[What.NOTE, ""] = _prose(plan, step.step.note, keys)
    if step.detail is None:
        return facts
    facts[What.STITCHES, ""] = _per_size(plan, [each.stitches for each in step.after])
    facts[What.ROUNDS, ""] = _per_size(plan, step.rounds)
    if not isinstance(step.detail, BindOff | Gather | Left | Striped | Embroidered):
        facts[What.YARN, ""] = {"": keys.yarn(step.yarn)}
    facts |= _detail_facts(plan, step, keys)
    return facts


def _detail_facts(plan: Plan, step: StepPlan, keys: Keys) -> Facts:
    """What only a step of this kind tells."""
    match step.detail:
        case CastOn():
            return {(What.METHOD, ""): {"": getattr(step.step, "method", "")}}
        case PickUp(held, picked_up):
            return {
                (What.HELD, ""): _per_size(plan, held),
                (What.PICKED_UP, ""): _per_size(plan, picked_up),
            }
        case Rows(rows):
            return _rows(plan, What.ROW, rows)
        case ChartRows(chart, _, across):
            return {
                (What.CHART, ""): {"": keys.chart(chart)},
                (What.REPEATS, ""): _per_size(plan, across),
            }
        case Even(rows):
            worked = [_instruction(plan, row, i) if row else None for i, row in enumerate(rows)]
            return {(What.ROW, "1"): _per_size(plan, worked)}
        case Tapered(shaping, plain, tapers):
            return {
                **_rows(plan, What.SHAPING_ROW, (shaping,)),
                **_rows(plan, What.PLAIN_ROW, plain),
                (What.PACE, ""): _per_size(plan, tapers),
            }
        case Crowned():
            return _crown_facts(plan, step.detail)
        case BindOff(stitches) | Gather(stitches) | Left(stitches):
            how = getattr(step.step, "how", "")
            return {
                (What.CLOSED, ""): _per_size(plan, stitches),
                (What.METHOD, ""): {"": how} if how else {},
            }
        case Joined(stitches, to, by):
            return {
                (What.CLOSED, ""): _per_size(plan, stitches),
                (What.JOINED_TO, ""): {"": plan.source.pattern.pieces[to].title} if to else {},
                (What.METHOD, ""): {"": by},
            }
        case Striped(plans):
            return {(What.STRANDED, ""): _per_size(plan, [_stranded(each) for each in plans])}
        case Embroidered(plans):
            return _embroidery_facts(plan, plans, keys)
        case Edged(rows, along, sides, counts):
            lengths = [Quantity(_fine(mm), Kind.LENGTH) for mm in along]
            return {
                **_rows(plan, What.ROW, rows),
                (What.ALONG, ""): _per_size(plan, lengths),
                **_numbered_counts(plan, What.SIDE, sides),
                **_numbered_counts(plan, What.EDGED, counts),
            }
        case None:
            return {}
        case _:
            assert_never(step.detail)


def _rows(plan: Plan, what: What, rows: Sequence[Row]) -> Facts:
    """Rows by their number."""
    return {
        (what, str(number)): _per_size(
            plan, [_instruction(plan, row, size) for size in range(len(plan.source.sizes))]
        )
        for number, row in enumerate(rows, start=1)
    }


def _numbered_counts(plan: Plan, what: What, counts: Sequence[Sequence[int]]) -> Facts:
    """Counts per size of the first, the second ... of a kind."""
    return {
        (what, str(number)): _per_size(plan, each) for number, each in enumerate(counts, start=1)
    }


def _instruction(plan: Plan, row: Row, size: int) -> Instruction:
    numbers = plan.measures.numbers(size)
    names = dict.fromkeys(each.name for each in numbers_used(row))
    return Instruction(row, tuple((name, numbers[name]) for name in names))


def _crown_facts(plan: Plan, detail: Crowned) -> Facts:
    sizes = range(len(plan.source.sizes))
    rounds = [
        [
            (round_, row)
            for round_, row in zip(detail.crown.rounds, detail.rows, strict=True)
            if round_.worked[size]
        ]
        for size in sizes
    ]
    lists: list[Listing] = [
        tuple((each.work, each.after[size], each.plain_after) for each, _ in rounds[size])
        for size in sizes
    ]
    plain = [sum(each.plain_after for each, _ in worked) for worked in rounds]
    starts = [
        _instruction(plan, _once(worked[0][1]), size) if worked else None
        for size, worked in enumerate(rounds)
    ]
    return {
        (What.CROWN_START, ""): _per_size(plan, starts),
        (What.DECREASE_ROUNDS, ""): _per_size(plan, [len(worked) for worked in rounds]),
        (What.PLAIN_ROUNDS, ""): _per_size(plan, plain),
        (What.CROWN, ""): _per_size(plan, lists),
    }


def _once(row: Row) -> Row:
    """What one wedge of a crown round says."""
    match row.parts:
        case (Repeat(parts),):
            return Row(parts)
        case _:
            return row


# ---------------------------------------------------------------- tubes


def _embroidery_facts(plan: Plan, plans: Sequence[PicturePlan], keys: Keys) -> Facts:
    """Stitches, areas, strands and thread of each yarn, and the areas in working order."""
    facts: dict[Subject, Mapping[str, Said]] = {
        (What.PICTURE_START, ""): _per_size(plan, [_chart_start(each) for each in plans]),
        (What.WORKING_ORDER, ""): _per_size(plan, [_order(each, keys) for each in plans]),
    }
    for key in plan.source.pattern.yarns:
        of = keys.yarn(key)
        threads = [
            next((t for t in each.embroidery.threads if t.yarn == key and t.stitches), None)
            for each in plans
        ]
        mm = [Quantity(_fine(t.thread_mm), Kind.LENGTH) if t else None for t in threads]
        facts |= {
            (What.EMBROIDERED, of): _per_size(plan, [t.stitches if t else None for t in threads]),
            (What.AREAS, of): _per_size(plan, [t.areas if t else None for t in threads]),
            (What.STRANDS, of): _per_size(plan, [t.strands if t else None for t in threads]),
            (What.THREAD, of): _per_size(plan, mm),
        }
    return facts


def _chart_start(plan: PicturePlan) -> int:
    """The tube's round that is round 1 of the embroidery chart, which shows the picture and what
    stripes hide of the tube beside it."""
    rounds = (number for number, line in enumerate(plan.overlay, start=1) if any(line))
    return min(plan.first, next(rounds, plan.first))


def _stranded(plan: PicturePlan) -> Listing | None:
    """The rounds knitted in two yarns, ``None`` if there are none."""
    seconds = enumerate(plan.stripes.seconds, start=1)
    return tuple((number,) for number, second in seconds if second) or None


def _order(plan: PicturePlan, keys: Keys) -> Listing:
    """The areas as worked: yarn, rounds of the chart, where it starts, its stitches."""
    below = _chart_start(plan) - 1
    return tuple(
        (
            keys.yarn(area.yarn),
            area.first_round - below,
            area.last_round - below,
            area.cells[0][0] - below,
            area.cells[0][1],
            area.stitches,
        )
        for area in plan.embroidery.areas
    )


def _stops(plan: Plan, step: StepPlan, keys: Keys) -> Mapping[str, tuple[Stop, ...]]:
    """Where the counter stops in a striped step, per size; none for other steps."""
    if not isinstance(step.detail, Striped):
        return {}
    return {
        size: _stops_of(each, keys)
        for size, each in zip(plan.source.sizes, step.detail.plans, strict=True)
    }


def _stops_of(plan: PicturePlan, keys: Keys) -> tuple[Stop, ...]:
    def named(yarns: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(keys.yarn(yarn) for yarn in yarns)

    tube = plan.tube
    lining, brim = tube.segment(TubePart.LINING), tube.segment(TubePart.OUTER_BRIM)
    ends = [Stop(tube.fold_after, "fold"), Stop(tube.total_rounds, "end")]
    if lining and lining.last != tube.fold_after:
        ends.append(Stop(lining.last, "lining"))
    if brim and brim.last != tube.fold_after:
        ends.append(Stop(brim.last, "brim"))
    changes = [
        Stop(
            change.counter,
            "",
            named(change.drop),
            named(change.take_up),
            "" if change.drop or change.take_up else keys.yarn(change.base),
        )
        for change in plan.stripes.changes
    ]
    return tuple(sorted((*ends, *changes), key=lambda stop: (stop.counter, stop.part == "")))


def _stop_changes(
    place: Place,
    both: _Both,
    old: Mapping[str, tuple[Stop, ...]],
    new: Mapping[str, tuple[Stop, ...]],
) -> Iterator[Change]:
    """Stops that moved, are new or are gone; the same stop of several sizes is one change.

    ``of`` is the kind of the stop and how often it came before.
    """
    found: dict[str, list[Shift]] = {}
    for size in both.sizes:
        was, now = old.get(size, ()), new.get(size, ())
        kinds = [[(stop.kind, stop.kind) for stop in stops] for stops in (was, now)]
        seen: dict[str, int] = {}
        for index, again in _aligned(*kinds):
            before = None if index is None else was[index]
            after = None if again is None else now[again]
            stop = after or before
            assert stop is not None
            seen[stop.kind] = seen.get(stop.kind, 0) + 1
            if before != after:
                of = f"{stop.kind}|{seen[stop.kind]}"
                found.setdefault(of, []).append(Shift(size, before, after))
    for of, shifts in found.items():
        yield Change(place, What.COUNTER, of, tuple(shifts))


# ---------------------------------------------------------------- another gauge


def replan(source: Source, stated: Sequence[StatedGauge]) -> tuple[Plan, tuple[Diagnostic, ...]]:
    """The plan at the gauges that are stated, with notes on gauges that stay as written and
    warnings on pictures that come out taller or lower (``regauge.proportions``).

    Raises:
        PatternError: as ``regauge`` and ``make_plan``; with it ``regauge.nearest``, the nearest
            gauge at which the pattern can be made.
    """
    if not stated:
        return make_plan(source), ()
    changed, notes = regauge(source, stated)
    try:
        plan = make_plan(changed)
    except PatternError as error:
        findings = [_with_sizes(changed, finding) for finding in error.findings]
        raise PatternError([*findings, *_nearest(source, stated)]) from None
    return plan, (*notes, *_proportions(sizings(source), plan))


def _with_sizes(source: Source, finding: Diagnostic) -> Diagnostic:
    """A picture that is too high, with the sizes in which it fits."""
    if finding.id != "picture.height":
        return finding
    measures = measure_pattern(source)
    fitting = [
        size
        for key, piece in source.pattern.pieces.items()
        if piece.picture and finding.span == source.span("pieces", key, "picture", "chart")
        for size, rounds, needed in zip(
            source.sizes, _seen(measures, key), _needed(measures, key), strict=True
        )
        if rounds >= needed
    ]
    if not fitting:
        return replace(finding, help=f"{finding.help}; it fits in no size at this gauge")
    return replace(finding, help=f"{finding.help}; at this gauge it fits in {named(fitting)}")


def _seen(measures: Measures, key: str) -> list[float]:
    """Rounds of a tube that are seen, per size."""
    gauges = piece_gauges(measures, measures.source.pattern.pieces[key])
    visible = measures.lengths("pieces", key, "tube", "visible")
    return [gauge.rounds_for(mm).rounded for gauge, mm in zip(gauges, visible, strict=True)]


def _needed(measures: Measures, key: str) -> list[int]:
    """Rounds that a picture and what is below it take, per size."""
    picture = measures.source.pattern.pieces[key].picture
    assert picture is not None
    height = measures.source.grids[picture.chart].height
    if "start" not in picture.model_fields_set:
        return [height] * len(measures.sizes)
    return [height + start for start in measures.counts("pieces", key, "picture", "start")]


def _nearest(source: Source, stated: Sequence[StatedGauge]) -> Iterator[Diagnostic]:
    """The nearest gauge with the same stitches, or else with the same rounds, that can be made."""
    for what in ("rounds", "stitches"):
        for percent in range(1, NEAREST_PERCENT + 1):
            for factor in (1 + percent / 100, 1 - percent / 100):
                tried = [_scaled(each, what, factor) for each in stated]
                if _can_be_made(source, tried):
                    said = " ".join(f"`--gauge '{_option(each)}'`" for each in tried)
                    yield Diagnostic(
                        "regauge.nearest",
                        f"the nearest gauge that can be made has other {what}: {said}",
                        "Try it, or change what does not fit",
                        source.span(*gauge_path(source, stated[0].of), key=True),
                        Severity.NOTE,
                    )
                    return


def _scaled(stated: StatedGauge, what: str, factor: float) -> StatedGauge:
    if what == "rounds":
        return replace(stated, rounds=round(stated.rounds * factor, 1))
    return replace(stated, stitches=round(stated.stitches * factor, 1))


def _option(stated: StatedGauge) -> str:
    of = f"{stated.of} = " if stated.of else ""
    return f"{of}{stated.stitches:.4g} x {stated.rounds:.4g} / 10 cm"


def _can_be_made(source: Source, stated: Sequence[StatedGauge]) -> bool:
    try:
        make_plan(regauge(source, stated)[0])
    except PatternError:
        return False
    return True


def _proportions(before: Sequence[Sizing], plan: Plan) -> Iterator[Diagnostic]:
    """Charts and pictures whose stitches are no longer as wide for their height."""
    source = plan.source
    for key, piece in source.pattern.pieces.items():
        gauge = piece.gauge or ""
        for chart, place in _charted(source, key):
            found = [
                (now.name, _changed_aspect(source, chart, was.gauges[gauge], now.gauges[gauge]))
                for was, now in zip(before, plan.measures.sizes, strict=True)
            ]
            changed = [(size, (message, help)) for size, (message, help) in found if message]
            same = [size for size, (message, _) in found if not message]
            stays = f"; it stays as it was in {named(same)}" if same else ""
            yield from together(
                (
                    (
                        size,
                        Diagnostic(
                            "regauge.proportions", message, help + stays, place, Severity.WARNING
                        ),
                    )
                    for size, (message, help) in changed
                ),
                source.sizes,
            )


def _charted(source: Source, key: str) -> Iterator[tuple[str, Span]]:
    """The charts of a piece, each with the first place that names it."""
    piece = source.pattern.pieces[key]
    seen: set[str] = set()
    if piece.picture:
        seen.add(piece.picture.chart)
        yield piece.picture.chart, source.span("pieces", key, "picture", "chart")
    for index, step in enumerate(piece.steps):
        if isinstance(step, ChartStep) and step.chart not in seen:
            seen.add(step.chart)
            yield step.chart, source.span("pieces", key, "steps", index, "chart")


def _changed_aspect(source: Source, chart: str, was: Gauge, now: Gauge) -> tuple[str, str]:
    """How a chart's proportions change and what would keep them; empty where they hardly do."""
    taller = was.aspect / now.aspect
    if abs(taller - 1) <= ASPECT_LIMIT:
        return "", ""
    percent = round(abs(taller - 1) * 100)
    rounds = now.stitches_per() * was.aspect
    height = source.grids[chart].height
    redrawn = max(1, round_to(height / taller))
    return (
        f"`{chart}` comes out {percent} % {'taller' if taller > 1 else 'lower'} for its width "
        "than at the gauge it was drawn for",
        f"With {now.stitches_per():.3g} stitches, {rounds:.3g} rounds over 10 cm keep its "
        f"proportions; or draw it {redrawn} rounds high instead of {height}",
    )
