"""What a stripe plan may do, what its work costs, and which wishes cannot be planned with."""

from collections.abc import Mapping
from itertools import groupby

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.plan.colour.embroidery import ThreadRule
from bindoff.plan.colour.grid import ColourGrid
from bindoff.records import Record

MINUTES_PER_STITCH = 0.5
"""One duplicate stitch. Ours; common practice, no source."""

MINUTES_PER_CHANGE = 5.0
"""Cut, join, and later weave two ends. Ours; common practice, no source."""


class StripeOptions(Record):
    """What a plan may do and what its work costs.

    ``minimum_rounds``: shortest stripe, no longer than the grid is high.
    ``not_base``: yarns that are never the base (they may still be the second yarn of a stranded
    round). ``stranded_rounds``: rounds, from 1, that may carry a second yarn, when no float of
    either yarn passes more than ``float_limit`` stitches. ``first_base``, ``last_base``: base of
    the first and the last round where the designer fixes it. ``fixed``: rounds (from 1) that the
    designer wants knitted in one yarn, with that yarn. A stripe that has a fixed round may be of
    any height, and so may what lies between fixed rounds with less room than ``minimum_rounds``.

    ``minutes_per_change`` has the two ends of a cut yarn in it; ``minutes_per_end`` says how much
    of it each of them is. A yarn that rests for up to ``carry`` rounds is carried up and not cut.
    Both ends of every strand are counted too where an end has a price and ``thread`` says how
    strands are cut.
    """

    minutes_per_stitch: float = MINUTES_PER_STITCH
    minutes_per_change: float = MINUTES_PER_CHANGE
    minimum_rounds: int = 1
    not_base: tuple[str, ...] = ()
    stranded_rounds: tuple[int, ...] = ()
    float_limit: int = 0
    first_base: str | None = None
    last_base: str | None = None
    fixed: tuple[tuple[int, str], ...] = ()
    minutes_per_end: float = 0.0
    carry: int = 0
    thread: ThreadRule | None = None

    @property
    def minutes_per_carried(self) -> float:
        """A change to a yarn that was carried up: as any, but there are no ends to weave in."""
        return self.minutes_per_change - 2 * self.minutes_per_end

    @property
    def prices_strands(self) -> bool:
        """Whether the ends of strands are counted."""
        return self.thread is not None and self.minutes_per_end > 0

    def any_height(self, height: int) -> tuple[bool, ...]:
        """For each of ``height`` rounds, whether the stripe it is in may be of any height."""
        wanted = {round_ for round_, _ in self.fixed}
        free: list[bool] = []
        for is_fixed, group in groupby(range(1, height + 1), wanted.__contains__):
            count = len(list(group))
            free += [is_fixed or (bool(wanted) and count < self.minimum_rounds)] * count
        return tuple(free)


_LONGEST = 1440
"""Longest time taken for one stitch or one change: a day, in minutes."""


def refuse_bad_options(grid: ColourGrid, order: tuple[str, ...], options: StripeOptions) -> None:
    """Raise ``PatternError`` with everything in the options that cannot be planned with."""
    findings = [*_bad_numbers(grid, options), *_bad_yarns(grid, order, options)]
    if findings:
        raise PatternError(findings)


def _bad_numbers(grid: ColourGrid, options: StripeOptions) -> list[Diagnostic]:
    findings = []
    times: Mapping[str, float] = {
        "a duplicate stitch": options.minutes_per_stitch,
        "a colour change": options.minutes_per_change,
        "an end": options.minutes_per_end,
    }
    for name, minutes in times.items():
        if not 0 <= minutes <= _LONGEST:
            findings.append(
                Diagnostic(
                    "stripe.time",
                    f"{minutes} minutes cannot be the time of {name}",
                    f"Give the time in minutes, from 0 to {_LONGEST}",
                )
            )
    if not findings and options.minutes_per_carried < 0:
        findings.append(
            Diagnostic(
                "stripe.time",
                f"a change of yarn takes {options.minutes_per_change:g} minutes, and its two ends "
                f"alone take {2 * options.minutes_per_end:g}",
                "Give `minutes per change` with both ends in it, or fewer `minutes per end`",
            )
        )
    if options.minimum_rounds > grid.height:
        findings.append(
            Diagnostic(
                "stripe.minimum",
                f"the tube has {grid.height} rounds in all, and no stripe can have "
                f"{options.minimum_rounds} at the least",
                f"Give a minimum of {grid.height} rounds or fewer",
            )
        )
    if options.minimum_rounds < 1:
        findings.append(
            Diagnostic(
                "stripe.minimum",
                f"a stripe cannot have a minimum of {options.minimum_rounds} rounds",
                "Give a minimum of 1 round or more",
            )
        )
    if options.stranded_rounds and options.float_limit < 1:
        findings.append(
            Diagnostic(
                "stripe.float-limit",
                f"rounds cannot be stranded with a float limit of {options.float_limit} stitches",
                "Give a float limit of 1 stitch or more",
            )
        )
    outside = [at for at in options.stranded_rounds if not 1 <= at <= grid.height]
    if outside:
        findings.append(
            Diagnostic(
                "stripe.stranded-round",
                f"round {outside[0]} is to be stranded but the colours have {grid.height} rounds",
                f"Name rounds from 1 to {grid.height}",
            )
        )
    return findings


def _bad_yarns(
    grid: ColourGrid, order: tuple[str, ...], options: StripeOptions
) -> list[Diagnostic]:
    findings = []
    missing = [yarn for yarn in grid.yarns if yarn not in order]
    if missing:
        findings.append(
            Diagnostic(
                "stripe.unknown-yarn",
                f"the colours use a yarn `{missing[0]}` that is not among the yarns",
                "Add the yarn, or correct its name in the legend of the grid",
            )
        )
    if all(yarn in options.not_base for yarn in order):
        findings.append(
            Diagnostic(
                "stripe.no-base",
                "no yarn is left that may be a base",
                "Take at least one yarn off the list of those that may not be base",
            )
        )
    for round_, yarn in options.fixed:
        if not 1 <= round_ <= grid.height:
            findings.append(
                Diagnostic(
                    "stripe.fixed-round",
                    f"round {round_} is to be in `{yarn}`, but the colours have {grid.height} "
                    "rounds",
                    f"Name rounds from 1 to {grid.height}",
                )
            )
    both = {yarn for _, yarn in options.fixed if yarn in options.not_base or yarn not in order}
    for yarn in sorted(both):
        findings.append(
            Diagnostic(
                "stripe.fixed-base",
                f"rounds are wanted in `{yarn}`, which is not a yarn that may be a base",
                "Choose another yarn for them, or allow this one as a base",
            )
        )
    for fixed, which in ((options.first_base, "first"), (options.last_base, "last")):
        if fixed is not None and (fixed in options.not_base or fixed not in order):
            findings.append(
                Diagnostic(
                    "stripe.fixed-base",
                    f"the {which} base `{fixed}` is not a yarn that may be a base",
                    f"Choose another {which} base, or allow this yarn as one",
                )
            )
    return findings
