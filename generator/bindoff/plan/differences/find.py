"""What differs between two plans of a pattern.

Every plan is laid out as facts: what is told about something, with a value for each size. Two
plans differ where their facts do. Yarns, charts and pieces meet by their keys, else by their
names; steps meet by a comparison of the two lists, so that an added step does not make all later
ones look changed.
"""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain

from bindoff.plan.differences.change import (
    Change,
    ChangedPart,
    Differences,
    Place,
    Shift,
    StepAt,
    shared_sizes,
)
from bindoff.plan.differences.facts import (
    Cells,
    cells_of,
    chart_facts,
    chart_titles,
    pattern_facts,
    piece_facts,
    yarn_facts,
    yarn_names,
)
from bindoff.plan.differences.matching import SAME_KEYS, Keys, aligned, new_keys, paired
from bindoff.plan.differences.said import Facts, Stop, What
from bindoff.plan.differences.stepfacts import step_facts
from bindoff.plan.plan import Plan
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.records import Record
from bindoff.source.amount import Amount
from bindoff.source.steps.step import Step


def differences(old: Plan, new: Plan) -> Differences:
    """What is not the same in ``old`` and ``new``.

    Sizes meet by their names; of a size that only one version has nothing more is told. A yarn
    of the old version is called by its new key if it has one.
    """
    yarns = paired(yarn_names(old), yarn_names(new))
    keys = Keys(new_keys(yarns), new_keys(paired(chart_titles(old), chart_titles(new))))
    both = _Both(old, new, shared_sizes(old, new), keys)
    changes = chain(
        _size_changes(both),
        both.changes(Place(ChangedPart.PATTERN), pattern_facts(old), pattern_facts(new)),
        _yarn_changes(both, yarns),
        _piece_changes(both),
        _chart_changes(both),
    )
    return Differences(old, new, tuple(changes))


class _Both(Record):
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


def _size_changes(both: _Both) -> Iterator[Change]:
    """Sizes that are new or gone, and a new order of those that stay: it is that of all lists."""
    place = Place(ChangedPart.PATTERN)
    old, new = both.old.source.sizes, both.new.source.sizes
    for size in dict.fromkeys((*new, *old)):
        shift = Shift("", size if size in old else None, size if size in new else None)
        if shift.old != shift.new:
            yield Change(place, What.SIZE, size, (shift,))
    before = [size for size in old if size in new]
    if before != list(both.sizes):
        order = Shift("", ", ".join(before), ", ".join(both.sizes))
        yield Change(place, What.SIZE_ORDER, "", (order,))


def _yarn_changes(both: _Both, pairs: Iterable[tuple[str | None, str | None]]) -> Iterator[Change]:
    for old, new in pairs:
        was = yarn_facts(both.old, old) if old is not None else {}
        now = yarn_facts(both.new, new) if new is not None else {}
        yield from both.changes(Place(ChangedPart.YARN, old, new), was, now)


def _chart_changes(both: _Both) -> Iterator[Change]:
    for old, new in paired(chart_titles(both.old), chart_titles(both.new)):
        place = Place(ChangedPart.CHART, old, new)
        was = chart_facts(both.old, old) if old is not None else {}
        now = chart_facts(both.new, new) if new is not None else {}
        yield from both.changes(place, was, now)
        if old is not None and new is not None:
            drawn = dict[tuple[Cells, Cells], list[str]]()
            for size in both.sizes:
                was_drawn = cells_of(both.old, old, size, both.keys)
                now_drawn = cells_of(both.new, new, size, SAME_KEYS)
                drawn.setdefault((was_drawn, now_drawn), []).append(size)
            for (was_drawn, now_drawn), sizes in drawn.items():
                yield from _cell_changes(
                    place, was_drawn, now_drawn, sizes if len(drawn) > 1 else [""]
                )


def _cell_changes(place: Place, old: Cells, new: Cells, sizes: Sequence[str]) -> Iterator[Change]:
    """Rounds with other cells, rounds that are new and rounds that are gone; none where the width
    changes, since then nothing can be compared stitch by stitch."""
    if len(old[0]) != len(new[0]):
        return
    pairs: Iterable[tuple[int | None, int | None]]
    if len(old) == len(new):
        pairs = ((index, index) for index in range(len(new)))
    else:
        pairs = aligned([("", repr(line)) for line in old], [("", repr(line)) for line in new])
    for was, now in pairs:
        before = None if was is None else old[was]
        after = None if now is None else new[now]
        number = was if now is None else now
        if before != after and number is not None:
            shifts = tuple(Shift(size, before, after) for size in sizes)
            yield Change(place, What.CELLS, str(number + 1), shifts)


def _piece_changes(both: _Both) -> Iterator[Change]:
    titles = [
        {key: piece.title for key, piece in plan.source.pattern.pieces.items()}
        for plan in (both.old, both.new)
    ]
    for old, new in paired(*titles):
        was = both.old.piece(old) if old is not None else None
        now = both.new.piece(new) if new is not None else None
        yield from both.changes(
            Place(ChangedPart.PIECE, old, new),
            piece_facts(both.old, was) if was else {},
            piece_facts(both.new, now) if now else {},
        )
        if was and now:
            yield from _step_changes(both, was, now)


def _said(step: Step) -> str:
    """All that is written of a step, and what holds where nothing is."""
    return json.dumps(
        vars(step), default=lambda part: part.written if isinstance(part, Amount) else vars(part)
    )


def _step_changes(both: _Both, old: PiecePlan, new: PiecePlan) -> Iterator[Change]:
    old_at, new_at = _numbered(old), _numbered(new)
    kinds = [
        [(type(step.step).__name__, _said(step.step)) for step in piece.steps]
        for piece in (old, new)
    ]
    for was, now in aligned(*kinds):
        place = Place(
            ChangedPart.STEP,
            old.key,
            new.key,
            None if was is None else old_at[was],
            None if now is None else new_at[now],
        )
        before = None if was is None else old.steps[was]
        after = None if now is None else new.steps[now]
        yield from both.changes(
            place,
            step_facts(both.old, before, both.keys) if before else {},
            step_facts(both.new, after, SAME_KEYS) if after else {},
        )
        yield from _stop_changes(
            place,
            both,
            _stops_of(both.old, before, both.keys) if before else {},
            _stops_of(both.new, after, SAME_KEYS) if after else {},
        )


def _stops_of(plan: Plan, step: StepPlan, keys: Keys) -> Mapping[str, tuple[Stop, ...]]:
    """Where the counter stops in a step, per size; nothing where it does not."""
    return dict(zip(plan.source.sizes, step.answers.stops(step, keys), strict=False))


def _numbered(piece: PiecePlan) -> list[StepAt]:
    """Steps with the numbers that the document gives them."""
    found: list[StepAt] = []
    number, section = 0, ""
    for index, step in enumerate(piece.steps):
        if step.heading:
            section = step.heading
            found.append(StepAt(index, None, section))
        else:
            number += 1
            found.append(StepAt(index, number, section))
    return found


def _stop_changes(
    place: Place,
    both: _Both,
    old: Mapping[str, tuple[Stop, ...]],
    new: Mapping[str, tuple[Stop, ...]],
) -> Iterator[Change]:
    """Stops that moved, are new or are gone; the same stop of several sizes is one change.

    ``of`` is the kind of the stop and its number among those of its kind.
    """
    found: dict[str, list[Shift]] = {}
    for size in both.sizes:
        was, now = old.get(size, ()), new.get(size, ())
        kinds = [[(stop.kind, stop.kind) for stop in stops] for stops in (was, now)]
        seen: dict[str, int] = {}
        for index, again in aligned(*kinds):
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
