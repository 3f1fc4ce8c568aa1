"""What sentences of instructions say, in one of a few kinds."""

from bindoff import regex as re
from bindoff.draft.goals import Goal
from bindoff.records import Record


class CastOn(Record):
    """So many stitches cast on, and how, in a word that the source knows, and in the rest."""

    values: tuple[int, ...]
    method: str
    rest: str


class NumberedRow(Record):
    """A row under its label: its numbers, none where it has none; what is worked; its side.

    ``fills``: it stands for every second row, as ``Label`` says. ``label`` is as written, ``named``
    what the label calls it, such as dec.
    """

    numbers: tuple[int, ...]
    row: str
    side: str = ""
    fills: str = ""
    label: str = ""
    named: str = ""


class LikeRow(Record):
    """A row under its label that is worked as an earlier one; ``count`` is what it says after."""

    numbers: tuple[int, ...]
    like: int
    count: str = ""
    label: str = ""


class Again(Record):
    """Rows worked again: ``many`` last ones, or those ``numbers``, or all above.

    ``of`` names the part they stand in, where it is another; ``named`` the one row meant, such as
    dec; ``every`` how many rows from one to the next.
    """

    many: int | None
    numbers: tuple[int, ...]
    goal: Goal
    of: str = ""
    named: str = ""
    every: int = 1


class RowUntil(Record):
    """A row worked over and over: ``*k2, p2* around until it measures 5 cm``."""

    row: str
    goal: Goal
    label: str = ""


class StepsAgain(Record):
    """Numbered steps worked so many times more."""

    first: int
    last: int
    more: int


class Plain(Record):
    """Rows of a fabric with a name, so many or so long; ``as set``: of the one that is worked."""

    fabric: str
    goal: Goal


class EachRow(Record):
    """Stitches bound off where each of the next rows begins."""

    values: tuple[int, ...]
    rows: int


class Evenly(Record):
    """Stitches added or taken evenly over a row, to so many."""

    way: str
    values: tuple[int, ...]


class Cord(Record):
    """All stitches worked as a cord of that length."""

    values: tuple[str, ...]


class PickUp(Record):
    """Stitches picked up: so many along each edge, ``to`` in all; ``first`` is what to do before.

    ``rest`` is what stands behind.
    """

    edges: tuple[tuple[tuple[int, ...], str], ...]
    to: tuple[int, ...] = ()
    first: str = ""


class Held(Record):
    """Held stitches put back on needles, so many."""

    values: tuple[int, ...]


class Leave(Record):
    """All live stitches left waiting, on a holder and the like."""


class TakeUp(Record):
    """Another yarn is taken in hand, and nothing else is done."""

    text: str


class BindOff(Record):
    """All stitches bound off, and how; ``by`` is a method that the source knows."""

    how: str
    by: str = ""


class Gather(Record):
    """The yarn drawn through all stitches."""


class Prose(Record):
    """A sentence in its own words; ``works`` where it seems to work stitches, ``names_stitches``
    where it could be a row without a label."""

    text: str
    works: bool
    names_stitches: bool


Saying = (
    CastOn | NumberedRow | LikeRow | RowUntil | Again | StepsAgain | Plain | EachRow | Evenly | Cord
    | Leave | PickUp | Held | TakeUp | BindOff | Gather | Prose
)  # fmt: skip


STITCHES = re.compile(
    r"\*|\b(?:[kp]\d|k2tog|p2tog|ssk|(?:yo|kfb|pick up and (?:k|knit|purl) \d+|knit across|sc in|"
    r"dc in)\b)",
    re.IGNORECASE,
)
