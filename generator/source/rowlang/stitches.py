"""The stitch book: what each stitch uses and makes, how it is written, and how it is worked."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from generator.diagnostics import Span


class Terms(StrEnum):
    """Whose words are printed. A change of terms changes words, never stitches."""

    US = "US"
    UK = "UK"


class Craft(StrEnum):
    """Needles or hook."""

    KNIT = "knit"
    CROCHET = "crochet"


class Lean(StrEnum):
    """Which way the top stitch of a decrease, increase or cross slants, seen from the right side."""

    LEFT = "left"
    RIGHT = "right"
    CENTRED = "centred"


@dataclass(frozen=True, slots=True)
class Wording:
    """One set of terms for a stitch.

    ``abbreviation`` is what a list of abbreviations shows; ``written`` and ``spoken`` are what a row
    says in short and in full, with ``{n}`` where the number goes (none: a single stitch).
    """

    abbreviation: str
    name: str
    written: str
    spoken: str


@dataclass(frozen=True, slots=True)
class Stitch:
    """An entry of the stitch book.

    ``consumes`` live stitches are used and ``produces`` are on the needle afterwards (negative when
    stitches already worked are passed over); ``loops`` is how many loops of yarn it takes.
    ``how_to`` is one sentence. ``takes`` lists the modifier ids it may carry.
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
    chains: int = 0

    @property
    def counted(self) -> bool:
        """Whether its number is part of its name, as in ``k2``."""
        return "{n}" in self.us.written

    def wording(self, terms: Terms) -> Wording:
        """The words under ``terms``."""
        return self.us if terms is Terms.US else self.uk


@dataclass(frozen=True, slots=True)
class Modifier:
    """How a stitch is worked (``wyif``, ``tbl``), or an act with an abbreviation (``pm``)."""

    id: str
    abbreviation: str
    name: str
    how_to: str
    aliases: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class StitchBook:
    """All stitches that may be named in the rows of one pattern."""

    stitches: tuple[Stitch, ...]
    modifiers: tuple[Modifier, ...]

    def find(self, name: str) -> Stitch | None:
        """The stitch called ``name`` (id or alias, any case, cables included), or ``None``."""
        raise NotImplementedError

    def __getitem__(self, id: str) -> Stitch:
        raise NotImplementedError

    def extended(self, stitches: Iterable[Stitch]) -> "StitchBook":
        """This book with a pattern's own stitches after it."""
        raise NotImplementedError


def standard_book() -> StitchBook:
    """The book every pattern starts from."""
    raise NotImplementedError


def declare(
    book: StitchBook,
    name: str,
    consumes: int,
    produces: int,
    words: str,
    full_name: str = "",
    span: Span | None = None,
) -> Stitch:
    """A pattern's own stitch, checked against ``book``.

    Raises ``PatternError`` for a name that is taken or cannot be told from the row language's words.
    """
    raise NotImplementedError
