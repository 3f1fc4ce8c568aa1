"""Names of stitches that wait off the needles, and the order in which they come back on them."""

from bindoff import regex as re
from bindoff.records import Record
from bindoff.source.rowlang.syntax import Count, CountChange, NamedNumber

_WORDS = r"[^\W\d_]+(?: [^\W\d_]+)*"
_TAKEN = re.compile(_WORDS)
_NEW = re.compile(r"(cast on|pick up) (\d{1,4}|\{[A-Za-z_]\w*\})(?: stitch(?:es)?)?")


class FromGroup(Record):
    """Stitches held earlier, by name; of several names, each is for one piece of those made."""

    names: tuple[str, ...]


class Between(Record):
    """Stitches ``cast on`` or ``pick up``-ed between two groups."""

    change: CountChange
    count: Count


Entry = FromGroup | Between


def group_name(words: str) -> str:
    """The name in lower case, without an article before it."""
    return " ".join(words.lower().split()).removeprefix("the ")


def entries_of(text: str) -> tuple[Entry, ...]:
    """What ``text`` puts on the needles, in order: ``back, cast on 8, left front``.

    Each entry is a name, names with ``or`` between them, or stitches that are cast on or picked up.
    Empty where the text is no such list. That a single word may also be a measure's name is for the
    caller to settle.
    """
    found = tuple(_entry(" ".join(each.lower().split())) for each in text.split(","))
    entries = tuple(each for each in found if each is not None)
    named = any(isinstance(each, FromGroup) for each in entries)
    return entries if named and len(entries) == len(found) else ()


def _entry(words: str) -> Entry | None:
    new = _NEW.fullmatch(words)
    if new:
        many = new[2]
        count: Count = NamedNumber(many[1:-1]) if many.startswith("{") else int(many)
        return Between(CountChange.CAST_ON if new[1] == "cast on" else CountChange.PICK_UP, count)
    if not _TAKEN.fullmatch(words):
        return None
    return FromGroup(tuple(group_name(name) for name in words.split(" or ")))
