"""What is worked out once for the same objects, where many parts of a build ask for it."""

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import TypeVar, TypeVarTuple

_KEPT = 8  # answers: those of the last builds, which a page of the desk may still ask about

Things = TypeVarTuple("Things")
Found = TypeVar("Found")


class _Same:
    """A key that only the very same object equals; it keeps the object, so that no other takes its
    place in memory."""

    __slots__ = ("it",)

    def __init__(self, it: object) -> None:
        self.it = it

    def __hash__(self) -> int:
        return id(self.it)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.it is other.it


def once_each(work: Callable[[*Things], Found]) -> Callable[[*Things], Found]:
    """``work`` done once for the same objects.

    For objects that nothing changes, too large to be compared, and answers that nobody changes.
    What ``work`` raises is not remembered.
    """
    remembered = lru_cache(maxsize=_KEPT)(lambda *same: work(*(each.it for each in same)))

    @wraps(work)
    def asked(*things: *Things) -> Found:
        return remembered(*map(_Same, things))

    return asked
