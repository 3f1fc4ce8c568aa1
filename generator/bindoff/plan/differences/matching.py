"""What belongs together in two versions: by key, by name, or by its place in a list."""

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

from bindoff.records import Record


class Keys(Record):
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


def paired(
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


def new_keys(pairs: Iterable[tuple[str | None, str | None]]) -> Mapping[str, str]:
    """The new key of every old one that has a partner."""
    return {was: now for was, now in pairs if was is not None and now is not None}


def aligned(
    old: Sequence[tuple[str, str]], new: Sequence[tuple[str, str]]
) -> list[tuple[int | None, int | None]]:
    """Indexes of two lists of (kind, content) that belong together, both in their order.

    As many equal items as possible meet, then as many others of one kind. Takes time and room in
    proportion to the product of both lengths; no chart or piece has more than 1,000 items.
    """
    if list(old) > list(new):  # where several meetings are as good, both directions take the same
        return [(was, now) for now, was in aligned(new, old)]
    best = _best_from(old, new)
    found: list[tuple[int | None, int | None]] = []
    was, now = 0, 0
    while was < len(old) and now < len(new):
        worth = _worth(old[was], new[now], len(old))
        if worth and best[was][now] == worth + best[was + 1][now + 1]:
            found.append((was, now))
            was, now = was + 1, now + 1
        elif best[was][now] == best[was + 1][now]:
            found.append((was, None))
            was += 1
        else:
            found.append((None, now))
            now += 1
    found += [(index, None) for index in range(was, len(old))]
    found += [(None, index) for index in range(now, len(new))]
    return found


def _best_from(
    old: Sequence[tuple[str, str]], new: Sequence[tuple[str, str]]
) -> Sequence[Sequence[int]]:
    """What meetings from an item of each list on are worth at best, one row for each old item."""
    rows = [[0] * (len(new) + 1)]
    for item in reversed(old):
        below = rows[-1]
        row = [0]
        for index in reversed(range(len(new))):
            met = below[index + 1] + _worth(item, new[index], len(old))
            row.append(max(met, row[-1], below[index]))
        rows.append(row[::-1])
    return rows[::-1]


def _worth(old: tuple[str, str], new: tuple[str, str], most: int) -> int:
    """One equal pair outweighs ``most`` others of one kind."""
    if old == new:
        return most + 1
    return int(old[0] == new[0])
