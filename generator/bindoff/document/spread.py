"""Words and numbers beside a drawing, kept apart where what they belong to crowds."""

from collections.abc import Sequence


def spread(wanted: Sequence[float], gap: float, high: float) -> list[float]:
    """Heights as near to those ``wanted`` as may be that are ``gap`` apart, from 0 to ``high`` if
    they have room.

    Those too near to each other form a group, whose middle lies where its members want it.
    """
    groups: list[list[float]] = []
    for at in wanted:
        groups.append([at])
        while len(groups) > 1 and _top(groups[-2], gap, high) + len(groups[-2]) * gap > _top(
            groups[-1], gap, high
        ):
            last = groups.pop()
            groups[-1] += last
    return [_top(group, gap, high) + gap * place for group in groups for place in range(len(group))]


def _top(group: Sequence[float], gap: float, high: float) -> float:
    """Where the first of a group comes to lie."""
    room = gap * (len(group) - 1)
    return max(0.0, min(sum(group) / len(group) - room / 2, high - room))
