"""The cheapest stripes as an integer program, solved by a library that knows nothing of knitting.

No path, no states, no order of rounds: a yarn is the base of a round or it is not, and the solver
proves how little any choice can take.
"""

import random
from collections.abc import Iterator, Sequence
from itertools import product

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import lil_array

from bindoff.plan.colour.areas import Cells
from bindoff.plan.colour.embroidery import ThreadRule, plan_embroidery
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.colour.stripes import StripeOptions
from bindoff.plan.colour.working_order import Place
from bindoff.records import Record

Row = tuple[dict[int, float], float]
"""What the variables of a row, by number, must come to at the least."""

At = dict[tuple[str, int, int], int]
"""The numbers of the variables: a yarn is the base (x), taken up (u) or joined (j) in a round."""


class Least(Record):
    """Minutes that no choice of stripes can be below, and whether one takes just so many."""

    minutes: float
    reached: bool


def least_minutes(
    grid: ColourGrid, order: tuple[str, ...], options: StripeOptions, seconds: float, tries: int = 1
) -> Least:
    """The least that any stripes can take, as far as the solver finds it in ``tries`` of at most
    ``seconds`` each.

    Strands are counted too low at first. The stripes that seem to be the cheapest are embroidered
    (``plan_embroidery``), a row says what the strands of each part of the picture are with just
    these rounds to embroider, and the solver tries again. Stranded rounds and rounds of any height
    are not known here.
    """
    height, yarns = grid.height, len(order)
    variables = [*product("xuj", range(height), range(yarns))]
    at = {name: number for number, name in enumerate(variables)}
    parts = _parts(grid, order, options) if options.prices_strands else []
    of_part = range(len(variables), len(variables) + len(parts))
    shares = [(part, cluster) for part in of_part for cluster in parts[part - of_part[0]].clusters]
    first_share = of_part.stop
    count = first_share + len(shares)
    cost, upper = np.zeros(count), np.ones(count)
    upper[len(variables) :] = np.inf
    cost[of_part] = 2 * options.minutes_per_end
    rows: list[Row] = []
    fixed = dict(options.fixed)
    for r, y in product(range(height), range(yarns)):
        shown = grid.rounds[r].count(order[y])
        cost[at["x", r, y]] = options.minutes_per_stitch * (grid.width - shown)
        cost[at["u", r, y]] = options.minutes_per_carried
        cost[at["j", r, y]] = options.minutes_per_change - options.minutes_per_carried
        if order[y] in options.not_base or fixed.get(r + 1, order[y]) != order[y]:
            upper[at["x", r, y]] = 0
        rows += _taken_up(at, r, y, options.carry)
        rows += _high_enough(at, r, y, height, options.minimum_rounds)
    for number, (part, cluster) in enumerate(shares, first_share):
        rows += _strands_of(at, parts[part - of_part[0]].yarn, number, cluster, options.thread)
    for part in of_part:
        mine = {n: -1.0 for n, (owner, _) in enumerate(shares, first_share) if owner == part}
        rows.append(({part: 1.0, **mine}, 0.0))
    one = lil_array((height, count))
    for r, y in product(range(height), range(yarns)):
        one[r, at["x", r, y]] = 1
    whole = np.array([name == "x" for name, *_ in variables] + [False] * (count - len(variables)))
    constant = -options.minutes_per_change
    best, reached = -np.inf, False
    for _ in range(tries):
        matrix, least = _matrix(rows, count)
        found = milp(
            cost,
            integrality=whole.astype(int),
            bounds=Bounds(0, upper),
            constraints=[
                LinearConstraint(matrix, least, np.inf),
                LinearConstraint(one.tocsr(), 1, 1),
            ],
            options={"time_limit": seconds, "mip_rel_gap": 0.0},
        )
        best = max(best, float(found.mip_dual_bound) + constant)
        reached = found.status == 0
        if not parts or not reached:
            break
        for number, each in zip(of_part, parts, strict=True):
            sewn = [r for r in each.rounds if found.x[at["x", r, each.yarn]] < 0.5]
            strands = _counted(grid, order[each.yarn], sewn, each.rounds, options.thread)
            if strands > found.x[number] + 1e-6:
                reached = False
                changed = {
                    at["x", r, each.yarn]: float(strands if r in sewn else -strands)
                    for r in each.rounds
                }
                others = len(each.rounds) - len(sewn)
                rows.append(({number: 1.0, **changed}, float(strands - strands * others)))
        if reached:
            break
    return Least(best, reached)


class _Part(Record):
    """What of a yarn's stitches may share strands: rounds (from 0) near each other, in clusters of
    stitches that are."""

    yarn: int
    rounds: tuple[int, ...]
    clusters: tuple[tuple[int, ...], ...]


def _parts(grid: ColourGrid, order: tuple[str, ...], options: StripeOptions) -> list[_Part]:
    rule = options.thread
    assert rule is not None
    found: list[_Part] = []
    for y, yarn in enumerate(order):
        rounds = [r for r, row in enumerate(grid.rounds) if yarn in row]
        runs: list[list[int]] = []
        for r in rounds:
            if runs and r - runs[-1][-1] - 1 <= rule.jump_limit:
                runs[-1].append(r)
            else:
                runs.append([r])
        own = [[each if each == yarn else None for each in row] for row in grid.rounds]
        near = [
            tuple(r - 1 for r, _ in each) for each in clusters(own, grid.wraps, rule.jump_limit)
        ]
        found += [
            _Part(y, tuple(run), tuple(each for each in near if each[0] in run)) for run in runs
        ]
    return found


def clusters(cells: Cells, wraps: bool, jump_limit: int) -> list[list[Place]]:
    """The stitches of ``cells`` by groups within which, and only there, a thread may go from each
    to the next: from a stitch at a time to all that are within its reach."""
    width = len(cells[0]) if cells else 0
    left = {
        (round_, width - at)
        for round_, row in enumerate(cells, start=1)
        for at, yarn in enumerate(row)
        if yarn is not None
    }
    reach = range(-jump_limit - 1, jump_limit + 2)
    found: list[list[Place]] = []
    while left:
        group = [left.pop()]
        for round_, stitch in group:
            for across in reach:
                beside = (stitch + across - 1) % width + 1 if wraps else stitch + across
                for up in reach:
                    near = (round_ + up, beside)
                    if near in left:
                        left.remove(near)
                        group.append(near)
        found.append(group)
    return found


def _strands_of(
    at: At, y: int, number: int, cluster: tuple[int, ...], rule: ThreadRule | None
) -> Iterator[Row]:
    """A cluster has a strand if any round of it is embroidered, and all that its stitches need."""
    assert rule is not None
    share = rule.stitch_thread_mm / rule.working_mm
    for r in set(cluster):
        yield {number: 1.0, at["x", r, y]: 1.0}, 1.0
    used = {at["x", r, y]: share * cluster.count(r) for r in set(cluster)}
    yield {number: 1.0, **used}, share * len(cluster)


def _counted(
    grid: ColourGrid,
    yarn: str,
    sewn: Sequence[int],
    rounds: Sequence[int],
    rule: ThreadRule | None,
) -> int:
    """The strands of a yarn in the rounds ``sewn`` of a part."""
    assert rule is not None
    cells = [
        [yarn if each == yarn and r in sewn else None for each in grid.rounds[r]]
        for r in range(rounds[0], rounds[-1] + 1)
    ]
    return plan_embroidery(cells, (yarn,), rule, grid.wraps).threads[0].strands


def _taken_up(at: At, r: int, y: int, carry: int) -> Iterator[Row]:
    """A yarn that the round before has not is taken up; one that none of the rounds before has from
    which it could be carried is joined."""
    before = {at["x", r - 1, y]: 1.0} if r else {}
    yield {at["u", r, y]: 1.0, at["x", r, y]: -1.0, **before}, 0.0
    near = {at["x", k, y]: 1.0 for k in range(max(0, r - carry - 1), r)}
    yield {at["j", r, y]: 1.0, at["x", r, y]: -1.0, **near}, 0.0


def _high_enough(at: At, r: int, y: int, height: int, minimum: int) -> Iterator[Row]:
    """A stripe that begins in a round goes on for as many as it must have."""
    before = {at["x", r - 1, y]: 1.0} if r else {}
    for more in range(1, minimum):
        later = {at["x", r + more, y]: 1.0} if r + more < height else {}
        yield {**later, at["x", r, y]: -1.0, **before}, 0.0


def _matrix(rows: list[Row], count: int) -> tuple[object, np.ndarray]:
    matrix = lil_array((len(rows), count))
    for number, (terms, _) in enumerate(rows):
        for place, factor in terms.items():
            matrix[number, place] = factor
    return matrix.tocsr(), np.array([least for _, least in rows])


def drawn(seed: int) -> tuple[ColourGrid, tuple[str, ...], random.Random]:
    """A tube of 22 to 46 needles and 60 to 120 rounds in 2 to 5 yarns: bands of water and sky with
    boats, floats and rows of drops on them; one in four is without any order."""
    dice = random.Random(seed)
    width, height, count = dice.randint(22, 46), dice.randint(60, 120), dice.randint(2, 5)
    order = tuple("abcde"[:count])
    if seed % 4 == 3:
        rows = [[dice.choice(order) for _ in range(width)] for _ in range(height)]
        return ColourGrid(tuple(map(tuple, rows))), order, dice
    rows = []
    while len(rows) < height:
        yarn = dice.choice(order)
        rows += [[yarn] * width for _ in range(dice.randint(1, 30))]
    del rows[height:]
    for _ in range(dice.randint(2, 9)):
        _draw(rows, dice, dice.choice(order))
    return ColourGrid(tuple(map(tuple, rows))), order, dice


def _draw(rows: list[list[str]], dice: random.Random, yarn: str) -> None:
    """A round shape, a bar, or drops all around."""
    height, width = len(rows), len(rows[0])
    low, left = dice.randrange(height), dice.randrange(width)
    high, wide = dice.randint(1, 24), dice.randint(1, width)
    kind = dice.choice(("round", "bar", "drops"))
    for r, c in product(range(low, min(height, low + high)), range(wide)):
        inside = (2 * (r - low) / high - 1) ** 2 + (2 * c / wide - 1) ** 2 <= 1
        if kind == "bar" or (kind == "round" and inside):
            rows[r][(left + c) % width] = yarn
    if kind == "drops":
        step = dice.randint(2, 6)
        for c in range(0, width, step):
            rows[low][c] = yarn


def options_of(dice: random.Random, ends: bool, rule: ThreadRule | None) -> StripeOptions:
    """Times as makers give them; with ``ends`` each end has its price."""
    return StripeOptions(
        minutes_per_stitch=dice.choice((0.3, 0.5, 1.0)),
        minutes_per_change=dice.choice((4.0, 6.0, 10.0)),
        minutes_per_end=dice.choice((1.0, 2.0)) if ends else 0.0,
        minimum_rounds=dice.randint(1, 3),
        carry=dice.choice((0, 2, 4)) if ends else 0,
        thread=rule,
    )
