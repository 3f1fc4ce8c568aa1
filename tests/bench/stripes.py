"""How many tubes of full size are planned in the least time there is. Run by hand; not a test.

    python -m tests.bench.stripes [COUNT [SEED]]

Of ``COUNT`` pictures drawn by lot, three of four with some order, it prints in how many the plan
takes exactly the least time that an integer program proves, in how many it is sure of that itself,
and the greatest share by which a plan may be above the least; for changes of yarn alone, for yarns
that are carried and ends with a price, and for the ends of strands besides.
"""

import sys
from collections import Counter
from time import process_time

from bindoff.plan.colour.stripes import plan_stripes
from tests.plan.colour.integer_program import drawn, least_minutes, options_of
from tests.plan.colour.test_least_stripes import NEAR, RULE

SECONDS, TRIES = 5.0, 40
WAYS = (("changes", False, False), ("carried yarns", True, False), ("strands", True, True))


def report(count: int, seed: int) -> None:
    """Print a line for each way to price, those of pictures without order apart."""
    for name, ends, strands in WAYS:
        for order_ in (True, False):
            found: Counter[str] = Counter()
            gap, slowest = 0.0, 0.0
            for number in range(seed, seed + count):
                if (number % 4 != 3) != order_:
                    continue
                grid, order, dice = drawn(number)
                options = options_of(dice, ends, RULE if strands else None)
                started = process_time()
                plan = plan_stripes(grid, order, options)
                slowest = max(slowest, process_time() - started)
                least = least_minutes(grid, order, options, SECONDS, TRIES)
                above = plan.minutes - max(least.minutes, plan.least_minutes)
                found["in all"] += 1
                found["least"] += plan.minutes - least.minutes <= NEAR
                found["least by its own bound"] += plan.minutes - plan.least_minutes <= NEAR
                found["below what is proved"] += plan.minutes < least.minutes - NEAR
                gap = max(gap, above / plan.minutes)
            kind = "pictures" if order_ else "by lot"
            print(
                f"{name}, {kind}: {dict(found)}, gap up to {gap:.1%}, {slowest:.2f} s", flush=True
            )


if __name__ == "__main__":
    numbers = [int(each) for each in sys.argv[1:]]
    report(*(numbers + [100, 0][len(numbers) :]))
