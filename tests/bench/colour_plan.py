"""How plan time grows: rounds, stitches and yarns doubled in turn. Run by hand; not a test.

    python -m tests.bench.colour_plan

Each line doubles one measure of the grid before it and prints the time over the time before: about
2 is linear, 4 is quadratic.
"""

from time import perf_counter

from bindoff.plan.colour.embroidery import ThreadRule, plan_embroidery
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.colour.stripes import (
    StripeOptions,
    StripePlan,
    embroidered_cells,
    plan_stripes,
)

DOUBLINGS = 3
REPEATS = 5


def grid_of(rounds: int, stitches: int, yarns: int) -> ColourGrid:
    """A grid without order in it: every yarn in every round, no run long."""
    return ColourGrid(
        tuple(
            tuple(
                f"yarn {(at * at + 7 * round_ * at + round_) // 29 % yarns}"
                for at in range(stitches)
            )
            for round_ in range(rounds)
        )
    )


def seconds(rounds: int, stitches: int, yarns: int, stranded: bool) -> tuple[float, float]:
    """Least of some runs: seconds to plan the stripes, then the embroidery."""
    grid = grid_of(rounds, stitches, yarns)
    order = tuple(f"yarn {at}" for at in range(yarns))
    options = (
        StripeOptions(stranded_rounds=tuple(range(1, rounds + 1)), float_limit=stitches)
        if stranded
        else StripeOptions(minimum_rounds=4)
    )
    stripes = embroidery = float("inf")
    for _ in range(REPEATS):
        started = perf_counter()
        plan: StripePlan = plan_stripes(grid, order, options)
        planned = perf_counter()
        plan_embroidery(embroidered_cells(grid, plan), order, ThreadRule(16.0, 5.0))
        stripes = min(stripes, planned - started)
        embroidery = min(embroidery, perf_counter() - planned)
    return stripes, embroidery


def report(stranded: bool) -> None:
    """Print one table."""
    print("stranded rounds" if stranded else "whole stripes, at least 4 rounds each")
    print(f"{'rounds':>7}{'stitches':>9}{'yarns':>6}{'stripes s':>11}{'ratio':>7}", end="")
    print(f"{'embroidery s':>14}{'ratio':>7}")
    for grown in range(3):
        size = [50, 100, 4]
        before: tuple[float, float] | None = None
        for _ in range(DOUBLINGS + 1):
            now = seconds(size[0], size[1], size[2], stranded)
            first, second = (
                ("", "")
                if before is None
                else (
                    f"{now[0] / before[0]:.2f}",
                    f"{now[1] / before[1]:.2f}",
                )
            )
            print(f"{size[0]:>7}{size[1]:>9}{size[2]:>6}{now[0]:>11.4f}{first:>7}", end="")
            print(f"{now[1]:>14.4f}{second:>7}")
            before = now
            size[grown] *= 2
    print()


if __name__ == "__main__":
    report(stranded=False)
    report(stranded=True)
    whole = seconds(200, 400, 12, stranded=False)
    print(f"200 rounds x 400 stitches x 12 yarns: stripes {whole[0]:.3f} s", end=", ")
    print(f"embroidery {whole[1]:.3f} s")
