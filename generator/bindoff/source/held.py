"""Which held stitches a step takes up: how many, or their names."""

from bindoff.records import replace
from bindoff.source.amount import Amount
from bindoff.source.otherside import other_name
from bindoff.source.rowlang.groups import Entry, entries_of
from bindoff.source.yamltree import Place


class Held(Amount):
    """An amount, or names of held stitches such as ``left front, cast on 8, back``.

    There are no formulas where it can only be names. A single word is read as both: it is a name
    where stitches are held for it.
    """

    def read(self, name: str, place: Place, sizes: tuple[str, ...]) -> Amount:
        """The amount with its formulas, or with none if names are written; see ``Amount.read``."""
        entries = self.entries
        if not entries or str(self.written).isidentifier():
            return super().read(name, place, sizes)
        return replace(self, name=name, place=place)

    def mirrored(self) -> "Held":
        """The groups of the other side, from the other end; an amount stays what it is."""
        if not self.entries:
            return self
        written = ", ".join(reversed([each.strip() for each in str(self.written).split(",")]))
        return replace(self, written=other_name(written))

    @property
    def entries(self) -> tuple[Entry, ...]:
        """The names as written, with what stands between them; none where it is an amount."""
        return entries_of(self.written) if isinstance(self.written, str) else ()
