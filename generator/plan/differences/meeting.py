"""What belongs together in two versions: by key, by name, or by its place in a list."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from types import MappingProxyType
from typing import Any


@dataclass(frozen=True, slots=True)
class Keys:
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
    """Indexes of two lists of (kind, content) that belong together.

    Equal items meet first; between them, items of one kind in their order.
    """
    if list(old) > list(new):  # the matcher is not symmetric, the result shall be
        return [(was, now) for now, was in aligned(new, old)]
    found: list[tuple[int | None, int | None]] = []
    for tag, a, a_end, b, b_end in _runs(old, new):
        if tag == "equal":
            found += zip(range(a, a_end), range(b, b_end), strict=True)
            continue
        kinds = [[kind for kind, _ in part] for part in (old[a:a_end], new[b:b_end])]
        for inner, c, c_end, d, d_end in _runs(*kinds):
            was, now = range(a + c, a + c_end), range(b + d, b + d_end)
            if inner == "equal":
                found += zip(was, now, strict=True)
            else:
                found += [*((index, None) for index in was), *((None, index) for index in now)]
    return found


def _runs(old: Sequence[Any], new: Sequence[Any]) -> Sequence[tuple[str, int, int, int, int]]:
    return SequenceMatcher(None, old, new, autojunk=False).get_opcodes()
