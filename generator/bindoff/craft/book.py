"""The stitch book: every stitch that rows and charts may name, found by any of its spellings."""

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import TypeVar

from bindoff.craft.cables import cable, cross_symbol
from bindoff.craft.entry import Act, Caution, Craft, Lean, Side, Stitch, Terms, Wording
from bindoff.craft.symbols import Symbol
from bindoff.records import Record

__all__ = [
    "Act",
    "Caution",
    "Craft",
    "Lean",
    "Side",
    "Stitch",
    "StitchBook",
    "Terms",
    "Wording",
    "cable",
]


class StitchBook(Record):
    """All stitches and acts that rows may name; made by ``standard_book`` and ``extended``.

    ``by_name`` holds every spelling under the book's ``terms``: in UK terms ``dc`` is the stitch
    whose id is ``sc``. ``by_other_name`` holds crochet under the other terms, and
    ``foreign_names`` those that mean nothing in these.
    """

    stitches: tuple[Stitch, ...]
    acts: tuple[Act, ...]
    cautions: tuple[Caution, ...]
    terms: Terms
    by_id: Mapping[str, Stitch]
    by_name: Mapping[str, Stitch]
    by_other_name: Mapping[str, Stitch]
    foreign_names: frozenset[str]
    act_by_name: Mapping[str, Act]

    @classmethod
    def of(
        cls,
        stitches: Iterable[Stitch],
        acts: Iterable[Act],
        cautions: Iterable[Caution] = (),
        terms: Terms = Terms.US,
    ) -> "StitchBook":
        """A book of these entries, in this order; raises ``ValueError`` if two share a name."""
        stitches, acts = tuple(stitches), tuple(acts)
        names = _index((stitch, stitch.names(terms)) for stitch in stitches)
        hooked = (stitch for stitch in stitches if stitch.craft is Craft.CROCHET)
        others = _index((stitch, stitch.names(terms.other)) for stitch in hooked)
        return cls(
            stitches,
            acts,
            tuple(cautions),
            terms,
            MappingProxyType({stitch.id: stitch for stitch in stitches}),
            names,
            others,
            frozenset(others.keys() - names.keys()),
            _index((act, (act.id.lower(), *act.aliases)) for act in acts),
        )

    def find(self, name: str) -> Stitch | None:
        """The stitch spelled ``name`` in the book's terms, any case; cables too, or ``None``."""
        plain = " ".join(name.lower().split())
        return self.by_name.get(plain) or cable(plain)

    def named(self, name: str) -> Stitch:
        """The stitch spelled ``name``; raises ``KeyError`` if there is none."""
        found = self.find(name)
        if found is None:
            raise KeyError(name)
        return found

    def act(self, name: str) -> Act | None:
        """The act or modifier called ``name`` (id or alias, any case), or ``None``."""
        return self.act_by_name.get(" ".join(name.lower().split()))

    def __getitem__(self, id: str) -> Stitch:
        """The stitch with this id; raises ``KeyError`` if there is none."""
        found = self.by_id.get(id) or cable(id.lower())
        if found is None:
            raise KeyError(id)
        return found

    def get(self, id: str) -> Stitch | None:
        """The stitch with this id, or ``None``."""
        return self.by_id.get(id) or cable(id.lower())

    def worked(self, id: str, how: tuple[str, ...]) -> Stitch:
        """The stitch ``id`` with modifiers: its own entry (``k tbl``) where it has one."""
        return (self.by_id.get(" ".join((id, *how))) if how else None) or self[id]

    def showing(self, stitch: Stitch, side: Side) -> Stitch:
        """What is worked on ``side`` so that the right side shows ``stitch``."""
        partner = stitch.on_right_side if side is Side.RIGHT else stitch.on_wrong_side
        return self[partner] if partner else stitch

    def mirrored(self, stitch: Stitch) -> Stitch:
        """The stitch that leans the other way; itself where it leans neither."""
        return self[stitch.mirror] if stitch.mirror else stitch

    def foreign(self, name: str) -> Stitch | None:
        """The stitch that the lower-case ``name`` means in the other terms and in these not."""
        return None if name in self.by_name else self.by_other_name.get(name)

    def elsewhere(self, name: str) -> Stitch | None:
        """The crochet stitch that the lower-case ``name`` means in the other terms, if any."""
        return self.by_other_name.get(name)

    def caution(self, word: str) -> Caution | None:
        """Why the lower-case ``word`` is not read, and what to write, where that is known."""
        return next((each for each in self.cautions if each.word == word), None)

    def symbols(self) -> Iterator[Symbol]:
        """The chart symbol of every entry, those of crosses left out, each once."""
        yield from dict.fromkeys(stitch.symbol for stitch in self.stitches if stitch.symbol)

    def symbol(self, name: str) -> Symbol | None:
        """The chart symbol called ``name``, crosses too, or ``None``."""
        known = (symbol for symbol in self.symbols() if symbol.name == name)
        return next(known, None) or cross_symbol(name)

    def modifiers(self, ids: Iterable[str]) -> tuple[str, ...]:
        """``ids`` of modifiers, each once, in the book's order."""
        wanted = set(ids)
        return tuple(act.id for act in self.acts if act.modifier and act.id in wanted)

    def extended(self, stitches: Iterable[Stitch]) -> "StitchBook":
        """This book with a pattern's own stitches after it, which may take loose names from it."""
        own = tuple(stitches)
        ids = {stitch.id for stitch in own}
        kept = (stitch for stitch in self.stitches if stitch.id not in ids)
        return StitchBook.of((*kept, *own), self.acts, self.cautions, self.terms)


Entry = TypeVar("Entry", Stitch, Act)


def _index(entries: Iterable[tuple[Entry, tuple[str, ...]]]) -> Mapping[str, Entry]:
    index: dict[str, Entry] = {}
    for entry, names in entries:
        for name in dict.fromkeys(names):
            before = index.get(name)
            if before is not None and not (isinstance(before, Stitch) and name in before.loose):
                raise ValueError(f"two entries are called {name!r}")
            index[name] = entry
    return MappingProxyType(index)
