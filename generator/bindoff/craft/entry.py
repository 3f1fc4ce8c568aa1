"""What one entry of the stitch book holds: a stitch, or something done beside stitches."""

from enum import StrEnum

from bindoff.craft.symbols import Symbol
from bindoff.records import Record


class Terms(StrEnum):
    """Whose words are read and printed. A change of terms changes words, never stitches."""

    US = "US"
    UK = "UK"

    @property
    def other(self) -> "Terms":
        """The terms of the other side of the sea."""
        return Terms.UK if self is Terms.US else Terms.US


class Craft(StrEnum):
    """Needles or hook."""

    KNIT = "knit"
    CROCHET = "crochet"


class Lean(StrEnum):
    """Which way the top stitch of a decrease, increase or cross slants, from the right side."""

    LEFT = "left"
    RIGHT = "right"
    CENTRED = "centred"

    @property
    def other(self) -> "Lean":
        """The same slant in a looking-glass."""
        return _IN_A_GLASS[self]


_IN_A_GLASS = {Lean.LEFT: Lean.RIGHT, Lean.RIGHT: Lean.LEFT, Lean.CENTRED: Lean.CENTRED}


class Loop(StrEnum):
    """How the yarn of a stitch runs, seen from the right side when worked there.

    A ``KNIT`` loop is drawn to the front through what is below it, a ``PURL`` one to the back; an
    ``OPEN`` one lies over the needle with nothing below it; a ``RAISED`` one is the strand between
    two stitches, its feet crossed, and so is one that is ``CAST_ON``; a ``SLIPPED`` one is the loop
    of the row below, drawn up.
    """

    KNIT = "knit"
    PURL = "purl"
    OPEN = "open"
    RAISED = "raised"
    CAST_ON = "cast on"
    SLIPPED = "slipped"
    NONE = "none"


class Side(StrEnum):
    """The side of the fabric that faces the knitter; in the round always the right side."""

    RIGHT = "right side"
    WRONG = "wrong side"


class Wording(Record):
    """One set of terms for an entry.

    ``abbreviation`` is what a list of abbreviations shows and ``name`` what it stands for;
    ``written`` and ``spoken`` are what a row says in short and in full, with ``{n}`` where the
    number goes (no ``{n}``: a single stitch).
    """

    abbreviation: str
    name: str
    written: str
    spoken: str


class Stitch(Record):
    """A stitch: ``consumes`` live stitches are used, ``produces`` take their place on the needle.

    ``produces`` is negative when stitches already worked are passed over. ``loops`` is how many
    loops of yarn it draws. ``how_to`` is one sentence. ``takes`` lists the modifier ids it may
    carry. ``aliases`` are further spellings that rows accept.

    ``lean`` and ``lean_from_wrong_side`` are its slants seen from the right side, when it is worked
    on the right side and when on the wrong side.

    ``mirror`` is the id of the stitch that slants the other way, empty where that is itself.
    ``on_wrong_side`` is the id of what a wrong-side row works so that the right side shows this
    stitch, and ``on_right_side`` of what a right-side row works; empty where that is itself.
    ``loose`` are those of its names on which the trade is not agreed: a designer's own stitch may
    take one.
    ``loop`` is how its yarn runs: it is drawn through the ``consumes`` stitches below it.
    ``symbol`` stands for it in charts. ``base`` and ``how`` are the stitch and the modifiers that
    it is made of, as ``k tbl`` is of ``k``; empty for most.
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
    lean_from_wrong_side: Lean | None = None
    mirror: str = ""
    on_right_side: str = ""
    on_wrong_side: str = ""
    symbol: Symbol | None = None
    base: str = ""
    how: tuple[str, ...] = ()
    family: str = ""
    loose: tuple[str, ...] = ()
    loop: Loop = Loop.KNIT

    @property
    def counted(self) -> bool:
        """Whether its number is part of its name, as in ``k2``."""
        return "{n}" in self.us.written

    @property
    def shapes(self) -> bool:
        """Whether it changes how many stitches are on the needle."""
        return self.consumes != self.produces

    @property
    def cells(self) -> int:
        """How many cells of a chart it covers."""
        return self.symbol.wide if self.symbol else 1

    def wording(self, terms: Terms) -> Wording:
        """The words under ``terms``."""
        return self.us if terms is Terms.US else self.uk

    def leans(self, worked: Side) -> Lean | None:
        """Its slant seen from the right side when worked with that side facing."""
        return self.lean if worked is Side.RIGHT else self.lean_from_wrong_side

    def names(self, terms: Terms) -> tuple[str, ...]:
        """Every spelling a row accepts under ``terms``, in lower case, each once."""
        short = self.wording(terms).abbreviation.lower()
        own = (self.id.lower(),) if self.craft is Craft.KNIT else ()
        return tuple(dict.fromkeys((short, *own, *self.aliases)))


class Act(Record):
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


class Caution(Record):
    """A word of the trade that no row may use as it stands, and what to write for it.

    ``why`` says what is wrong in lower case without a full stop, ``help`` what to write.
    """

    word: str
    why: str
    help: str


def knit_entry(
    id: str,
    change: tuple[int, int],
    name: str,
    how_to: str,
    *,
    takes: tuple[str, ...] = (),
    aliases: tuple[str, ...] = (),
    loops: int = 1,
    spoken: str = "",
    abbreviation: str = "",
    written: str = "",
    uk_name: str = "",
    lean: Lean | None = None,
    twists: bool = False,
    mirror: str = "",
    on_right_side: str = "",
    on_wrong_side: str = "",
    symbol: Symbol | None = None,
    base: str = "",
    how: tuple[str, ...] = (),
    loose: tuple[str, ...] = (),
    loop: Loop = Loop.KNIT,
) -> Stitch:
    """A knitting stitch, abbreviated the same in US and UK terms.

    What slants one way on the side it is worked on slants the other way seen from the other side.
    A cross or a twisted loop (``twists``) is a screw: it is the same from both sides.
    """
    short = abbreviation or id
    us, uk = (
        Wording(short, full, written or short, spoken or full) for full in (name, uk_name or name)
    )
    return Stitch(
        id,
        change[0],
        change[1],
        us,
        uk,
        how_to,
        lean=lean,
        lean_from_wrong_side=lean if twists or lean is None else lean.other,
        takes=takes,
        aliases=aliases,
        loops=loops,
        mirror=mirror,
        on_right_side=on_right_side,
        on_wrong_side=on_wrong_side,
        symbol=symbol,
        base=base,
        how=how,
        loose=loose,
        loop=loop,
    )


def hook_entry(
    id: str,
    uk: str,
    change: tuple[int, int],
    us_name: str,
    uk_name: str,
    how_to: str,
    *,
    aliases: tuple[str, ...] = (),
    loops: int = 1,
    counted: bool = False,
) -> Stitch:
    """A crochet stitch; ``id`` is its US abbreviation, ``uk`` the British one."""

    def wording(short: str, name: str) -> Wording:
        number = " {n}" if counted else ""
        return Wording(short, name, short + number, name + number)

    return Stitch(
        id.lower(),
        change[0],
        change[1],
        wording(id, us_name),
        wording(uk, uk_name),
        how_to,
        craft=Craft.CROCHET,
        aliases=aliases,
        loops=loops,
        loose=(uk.lower(),) if uk != id else (),
    )
