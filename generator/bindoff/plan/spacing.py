"""Changes spread evenly over a round or a row: where each decrease or increase falls.

The stitches are divided into groups that differ by at most one, and the long groups are
themselves spread out (group i = floor((i + 1)n / d) - floor(i n / d)) instead of bunched.
"""

from collections.abc import Sequence
from itertools import groupby, pairwise
from typing import Literal

from bindoff.records import Record

Layout = Literal["round", "flat", "flat, first group halved"]
Change = Literal["k2tog", "m1", "kfb"]

# Stitches of the left needle a change uses up, and stitches it leaves.
_USES: dict[Change, int] = {"k2tog": 2, "m1": 0, "kfb": 1}
_LEAVES: dict[Change, int] = {"k2tog": 1, "m1": 1, "kfb": 2}


class EvenRun(Record):
    """A group of ``group`` stitches, ``times`` times in a row."""

    group: int
    times: int


class ShapedRow(Record):
    """One worked round or row: (work ``group`` stitches, make the change) for every run in turn.

    The whole list of runs is worked ``repeats`` times, then ``rest`` stitches are worked plain.
    """

    change: Change
    runs: tuple[EvenRun, ...]
    repeats: int
    rest: int

    @property
    def steps(self) -> tuple[int, ...]:
        """Stitches worked before each change, in order."""
        once = tuple(run.group for run in self.runs for _ in range(run.times))
        return once * self.repeats

    @property
    def stitches_before(self) -> int:
        """Stitches on the needles before the row."""
        return sum(self.steps) + len(self.steps) * _USES[self.change] + self.rest

    @property
    def stitches_after(self) -> int:
        """Stitches on the needles after the row."""
        return sum(self.steps) + len(self.steps) * _LEAVES[self.change] + self.rest


class Spacing(Record):
    """``changes`` changes over ``stitches`` stitches, cut into ``groups`` in working order.

    In the round a change ends every group. Flat, a change lies between neighbouring groups, so
    there is one group more than changes and none falls on an edge.
    """

    stitches: int
    changes: int
    layout: Layout
    groups: tuple[int, ...]

    @property
    def runs(self) -> tuple[EvenRun, ...]:
        """The groups with equal neighbours collapsed."""
        return collapse(self.groups)

    def decrease_row(self) -> ShapedRow:
        """Work group - 2, k2tog. Flat, a k2tog takes one stitch from the group on each side.

        Raises ``ValueError`` where a group is too small to hold its decrease.
        """
        groups = self.groups[: self.changes]
        steps = [group - 2 for group in groups]
        rest = self.stitches - sum(groups)
        if steps and self.layout != "round":
            # The first k2tog reaches one stitch into the second group, so do all that follow.
            steps[0] += 1
            rest -= 1
        return self._row("k2tog", tuple(steps), rest)

    def increase_row(self, change: Literal["m1", "kfb"] = "m1") -> ShapedRow:
        """Work the group, m1 (or work group - 1, kfb in its last stitch)."""
        steps = tuple(group - _USES[change] for group in self.groups[: self.changes])
        return self._row(change, steps, self.stitches - sum(self.groups[: self.changes]))

    def _row(self, change: Change, steps: tuple[int, ...], rest: int) -> ShapedRow:
        if rest < 0 or any(step < 0 for step in steps):
            raise ValueError(
                f"{self.changes} decreases do not fit evenly into {self.stitches} stitches"
                f" ({self.layout})"
            )
        repeats = _repeats(steps)
        return ShapedRow(change, collapse(steps[: len(steps) // repeats]), repeats, rest)


def in_the_round(stitches: int, changes: int) -> Spacing:
    """As many groups as changes. Raises ``ValueError`` for more changes than stitches."""
    _check(stitches, changes, groups=changes)
    groups = even_groups(stitches, changes) if changes else (stitches,)
    return Spacing(stitches, changes, "round", groups)


def flat(stitches: int, changes: int, halve_first: bool = False) -> Spacing:
    """One group more than changes; or one group a change, the first halved over both edges.

    Groups are centred, so the row is the same from both edges wherever the count allows.
    Raises ``ValueError`` for more groups than stitches.
    """
    _check(stitches, changes, groups=changes + 1)
    if not halve_first or changes == 0:
        return Spacing(stitches, changes, "flat", even_groups(stitches, changes + 1, centred=True))
    first, *others = even_groups(stitches, changes)
    if first < 2:
        raise ValueError(
            f"the first of {changes} groups over {stitches} stitches is too small to halve"
        )
    groups = (first // 2, *others, first - first // 2)
    return Spacing(stitches, changes, "flat, first group halved", groups)


def even_groups(total: int, parts: int, centred: bool = False) -> tuple[int, ...]:
    """``total`` in ``parts`` whole groups that differ by at most one, long groups spread out.

    Group i is floor((i + 1)n / d) - floor(in / d). ``centred`` rounds to the nearest instead and
    mirrors the second half: the same read from either end, where the counts allow it at all.
    """
    if centred:
        near = [(2 * i * total + parts) // (2 * parts) for i in range(parts // 2 + 1)]
        edges = near + [total - edge for edge in reversed(near[: parts + 1 - len(near)])]
    else:
        edges = [i * total // parts for i in range(parts + 1)]
    return tuple(after - before for before, after in pairwise(edges))


def collapse(groups: Sequence[int]) -> tuple[EvenRun, ...]:
    """Equal neighbours as one run."""
    return tuple(EvenRun(group, len(list(same))) for group, same in groupby(groups))


def _repeats(steps: tuple[int, ...]) -> int:
    """How many times the shortest list that makes up ``steps`` is worked."""
    count = len(steps)
    for length in range(1, count):
        if count % length == 0 and steps[:length] * (count // length) == steps:
            return count // length
    return 1


def _check(stitches: int, changes: int, groups: int) -> None:
    if stitches < 1:
        raise ValueError(f"the number of stitches must be at least 1, not {stitches}")
    if changes < 0:
        raise ValueError(f"the number of changes can not be negative ({changes})")
    if groups > stitches:
        raise ValueError(f"{changes} changes do not fit into {stitches} stitches")
