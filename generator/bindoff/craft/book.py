"""The stitch book: what each stitch uses and makes, how it is written, and how it is worked."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from types import MappingProxyType
from typing import TypeVar


class Terms(StrEnum):
    """Whose words are printed. A change of terms changes words, never stitches."""

    US = "US"
    UK = "UK"


class Craft(StrEnum):
    """Needles or hook."""

    KNIT = "knit"
    CROCHET = "crochet"


class Lean(StrEnum):
    """Which way the top stitch of a decrease, increase or cross slants, from the right side."""

    LEFT = "left"
    RIGHT = "right"
    CENTRED = "centred"


@dataclass(frozen=True, slots=True)
class Wording:
    """One set of terms for an entry.

    ``abbreviation`` is what a list of abbreviations shows and ``name`` what it stands for;
    ``written`` and ``spoken`` are what a row says in short and in full, with ``{n}`` where the
    number goes (no ``{n}``: a single stitch).
    """

    abbreviation: str
    name: str
    written: str
    spoken: str


@dataclass(frozen=True, slots=True)
class Stitch:
    """A stitch: ``consumes`` live stitches are used, ``produces`` take their place on the needle.

    ``produces`` is negative when stitches already worked are passed over. ``loops`` is how many
    loops of yarn it draws. ``how_to`` is one sentence. ``takes`` lists the modifier ids it may
    carry.
    """

    id: str
    consumes: int
    produces: int
    us: Wording
    uk: Wording
    how_to: str
    craft: Craft = Craft.KNIT
    lean: Lean | None = None
    takes: tuple[str, ...] = ()
    aliases: tuple[str, ...] = ()
    loops: int = 1

    @property
    def counted(self) -> bool:
        """Whether its number is part of its name, as in ``k2``."""
        return "{n}" in self.us.written

    def wording(self, terms: Terms) -> Wording:
        """The words under ``terms``."""
        return self.us if terms is Terms.US else self.uk


@dataclass(frozen=True, slots=True)
class Act:
    """Something other than a stitch that needs explaining.

    A modifier of stitches (``wyif``, ``tbl``) when ``modifier``, or a thing done between stitches
    (``pm``, ``w&t``, ``bind off``).
    """

    id: str
    us: Wording
    uk: Wording
    how_to: str
    modifier: bool = False
    aliases: tuple[str, ...] = ()

    def wording(self, terms: Terms) -> Wording:
        """The words under ``terms``."""
        return self.us if terms is Terms.US else self.uk


@dataclass(frozen=True, slots=True)
class StitchBook:
    """All stitches and acts that rows may name; made by ``standard_book`` and ``extended``."""

    stitches: tuple[Stitch, ...]
    acts: tuple[Act, ...]
    by_name: Mapping[str, Stitch]
    act_by_name: Mapping[str, Act]

    @classmethod
    def of(cls, stitches: Iterable[Stitch], acts: Iterable[Act]) -> "StitchBook":
        """A book of these entries, in this order; raises ``ValueError`` if two share a name."""
        stitches, acts = tuple(stitches), tuple(acts)
        return cls(stitches, acts, _index(stitches), _index(acts))

    def find(self, name: str) -> Stitch | None:
        """The stitch called ``name`` (id or alias, any case; cables too), or ``None``."""
        plain = " ".join(name.lower().split())
        return self.by_name.get(plain) or cable(plain)

    def act(self, name: str) -> Act | None:
        """The act or modifier called ``name`` (id or alias, any case), or ``None``."""
        return self.act_by_name.get(" ".join(name.lower().split()))

    def __getitem__(self, id: str) -> Stitch:
        """The stitch with this id; raises ``KeyError`` if there is none."""
        found = self.by_name.get(id) or self.find(id)
        if found is None:
            raise KeyError(id)
        return found

    def modifiers(self, ids: Iterable[str]) -> tuple[str, ...]:
        """``ids`` of modifiers, each once, in the book's order."""
        wanted = set(ids)
        return tuple(act.id for act in self.acts if act.modifier and act.id in wanted)

    def extended(self, stitches: Iterable[Stitch]) -> "StitchBook":
        """This book with a pattern's own stitches after it."""
        return StitchBook.of((*self.stitches, *stitches), self.acts)


Entry = TypeVar("Entry", bound=Stitch | Act)


def _index(entries: tuple[Entry, ...]) -> Mapping[str, Entry]:
    index: dict[str, Entry] = {}
    for entry in entries:
        for name in dict.fromkeys((entry.id.lower(), *entry.aliases)):
            if name in index:
                raise ValueError(f"two entries are called {name!r}")
            index[name] = entry
    return MappingProxyType(index)


_CABLE = re.compile(r"([1-9]\d?)/([1-9]\d?) ?([rl])(p?)c")
_EVEN_CABLE = re.compile(r"c([1-9]\d?)([fb])")


@cache
def cable(name: str) -> Stitch | None:
    """The cable cross called ``name``, or ``None`` if that is not how a cross is named.

    ``2/1 rc``: the first number is how many stitches cross in front. ``c4f`` and ``c4b`` share
    their stitches evenly. Source of the naming: common practice, from memory.
    """
    if found := _CABLE.fullmatch(name):
        front, behind, side, purl = found.groups()
        return _cross(int(front), int(behind), right=side == "r", purl=bool(purl))
    found = _EVEN_CABLE.fullmatch(name)
    if found and int(found[1]) % 2 == 0:
        half = int(found[1]) // 2
        return _cross(half, half, right=found[2] == "b", purl=False)
    return None


def _cross(front: int, behind: int, *, right: bool, purl: bool) -> Stitch:
    side, sign = ("right", "R") if right else ("left", "L")
    kind = "purl cross" if purl else "cross"
    behind_work = "purl" if purl else "knit"
    name = f"{front} over {behind} {side} {kind}"
    written = f"{front}/{behind} {sign}{'P' if purl else ''}C"
    if right:
        how = (
            f"Slip {behind} to a cable needle and hold it at the back, knit {front}, "
            f"then {behind_work} {behind} from the cable needle."
        )
    else:
        how = (
            f"Slip {front} to a cable needle and hold it at the front, {behind_work} {behind}, "
            f"then knit {front} from the cable needle."
        )
    wording = Wording(written, name, written, name)
    return Stitch(
        written,
        front + behind,
        front + behind,
        wording,
        wording,
        how,
        lean=Lean.RIGHT if right else Lean.LEFT,
        loops=front + behind,
    )
