"""A taper: shaping rounds spread over a length, so that the edge runs straight."""

from typing import Literal

from bindoff.plan.spacing import EvenRun, collapse, even_groups
from bindoff.records import Record

ShapeOn = Literal["first", "last"]


class Taper(Record):
    """``intervals`` holds, for every shaping round in turn, the rounds it stands for.

    "Every 8th round" is an interval of 8: one shaping round and 7 plain. ``plain_after`` rounds
    are left over and worked plain at the end.
    """

    rounds: int
    intervals: tuple[int, ...]
    plain_after: int

    @property
    def changes(self) -> int:
        """The number of shaping rounds."""
        return len(self.intervals)

    @property
    def runs(self) -> tuple[EvenRun, ...]:
        """Every ``group``-th round, ``times`` times, in working order."""
        return collapse(self.intervals)

    def shaping_rounds(self, shape_on: ShapeOn = "last") -> tuple[int, ...]:
        """The numbers (from 1) of the shaping rounds.

        ``shape_on`` says which round of an interval is the shaping one. Where row 1 is a
        right-side row and only those are shaped, that is the first.
        """
        ends = [sum(self.intervals[: i + 1]) for i in range(self.changes)]
        if shape_on == "last":
            return tuple(ends)
        return tuple(end - size + 1 for end, size in zip(ends, self.intervals, strict=True))


def least_rounds(changes: int, step: int) -> int:
    """The fewest rounds that have room for ``changes`` shaping rounds, ``step`` apart."""
    return (changes - 1) * step + 1 if changes else 0


def taper(rounds: int, changes: int, step: int = 1, shape_on: ShapeOn = "last") -> Taper:
    """Spread ``changes`` shaping rounds over ``rounds``, the shorter intervals first.

    ``step`` is 1 where any round may be shaped, 2 where only right-side rows are, 4 for every 4th
    one. With u = rounds div step and q, r = u divmod changes: every (step x q)-th round
    changes - r times, every (step x (q + 1))-th r times, rounds mod step left plain.

    Where one interval more is wanted than fits, as 6 of 2 in 11 rounds, one is short: the first,
    so that the last round is shaped, or with ``shape_on`` "first" the last.

    Raises ``ValueError`` when there are more shaping rounds than places for them.
    """
    if rounds < 0 or changes < 0 or step < 1:
        raise ValueError(
            f"a taper needs rounds and changes of 0 or more and a step of 1 or more,"
            f" not {rounds}, {changes} and {step}"
        )
    if changes == 0:
        return Taper(rounds, (), rounds)
    if rounds < least_rounds(changes, step):
        raise ValueError(f"{changes} shaping rounds do not fit into {rounds} rounds (step {step})")
    places, over = divmod(rounds, step)
    if changes > places:
        whole = (step,) * places
        return Taper(rounds, (over, *whole) if shape_on == "last" else (*whole, over), 0)
    sizes = sorted(even_groups(places, changes))
    return Taper(rounds, tuple(step * size for size in sizes), over)
