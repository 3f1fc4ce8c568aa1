"""The order in which formulas can be evaluated."""

from collections.abc import Collection, Mapping
from functools import lru_cache
from graphlib import CycleError, TopologicalSorter

from bindoff.diagnostics import Diagnostic, PatternError, gathered
from bindoff.source.formula.nodes import Formula
from bindoff.source.formula.suggest import instead, instead_fix


def order_of(formulas: Mapping[str, Formula], given: Collection[str] = ()) -> tuple[str, ...]:
    """The formulas' names in an order in which each comes after all that it needs.

    ``given`` are names that exist without a formula.

    Raises:
        PatternError: ``formula.unknown-name`` for every name that doesn't exist and
            ``formula.loop`` for every loop that shares no name with another one.
    """
    known = dict.fromkeys((*formulas, *given))
    findings = list(
        gathered(
            Diagnostic(
                "formula.unknown-name",
                f"there is no name `{needed}`",
                instead(needed, [name for name in known if name != user]),
                formula.place_of(needed),
                fixes=instead_fix(needed, [name for name in known if name != user]),
            )
            for user, formula in formulas.items()
            for needed in formula.names
            if needed not in known
        )
    )
    needs = tuple(
        (name, tuple(needed for needed in formula.names if needed in formulas))
        for name, formula in formulas.items()
    )
    order, loops = _sorted(needs)
    findings += [_loop(_from_first(loop, tuple(formulas)), formulas) for loop in loops]
    if findings:
        raise PatternError(findings)
    return order


_MOST_LOOPS = 20


@lru_cache(maxsize=8)
def _sorted(
    all_needs: tuple[tuple[str, tuple[str, ...]], ...],
) -> tuple[tuple[str, ...], tuple[list[str], ...]]:
    """The order of names by what each needs, and the first loops; mostly the same in every size."""
    needs, loops = {name: list(needed) for name, needed in all_needs}, list[list[str]]()
    while len(loops) < _MOST_LOOPS:
        try:
            return tuple(TopologicalSorter(needs).static_order()), tuple(loops)
        except CycleError as error:
            loops.append(error.args[1][:0:-1])
            needs = _without(loops[-1], needs)
    return (), tuple(loops)


def _from_first(loop: list[str], declared: tuple[str, ...]) -> list[str]:
    """The loop turned so that the name declared first stands first."""
    start = min(range(len(loop)), key=lambda index: declared.index(loop[index]))
    return loop[start:] + loop[:start]


def _without(names: Collection[str], needs: Mapping[str, list[str]]) -> dict[str, list[str]]:
    return {
        name: [needed for needed in inner if needed not in names]
        for name, inner in needs.items()
        if name not in names
    }


def _loop(loop: list[str], formulas: Mapping[str, Formula]) -> Diagnostic:
    pairs = list(zip(loop, [*loop[1:], loop[0]], strict=True))
    chain = ", ".join(f"`{name}` needs `{needed}`" for name, needed in pairs)
    if len(loop) == 1:
        message = f"`{loop[0]}` needs itself"
    else:
        message = f"these names need each other: {chain}"
    places = ", ".join(f"`{name}` at {formulas[name].span}" for name in loop)
    return Diagnostic(
        "formula.loop",
        message,
        f"Give one of them a value that needs none of the others: {places}",
        formulas[loop[0]].place_of(pairs[0][1]),
    )
