"""Which lines are headings, and what stands beside them: (make 2), (both alike)."""

from bindoff import regex as re
from bindoff.draft.lines import Line
from bindoff.records import Record


class Heading(Record):
    """The words of a heading; ``strength`` 1 is of the first order, 2 of the second, 3 may be none.

    ``remark`` is what stood behind it in brackets, ``make`` how many it says are made.
    """

    text: str
    strength: int
    remark: str = ""
    make: int | None = None


NUMBERS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
}  # fmt: skip

_MOST_WORDS = 5
_MOST_CAPITAL_WORDS = 9

WHOLE_PIECES = frozenset(
    (
        "hat", "cap", "cowl", "scarf", "shawl", "mitten", "mittens", "mitt", "mitts", "sock",
        "socks", "back", "front", "sleeve", "sleeves", "body", "thumb", "thumbs", "collar",
        "pocket", "pockets", "strap", "straps", "square", "squares", "band", "bands", "panel",
        "panels", "strip", "strips", "neckband", "loop", "loops", "tie", "ties", "cord",
        "earflap", "earflaps", "slipper", "slippers", "bootee", "bootees", "blanket", "bag",
        "handle", "handles", "belt", "hood", "base", "side", "sides", "lining", "tube",
        "pullover", "sweater", "jumper", "cardigan", "vest", "glove", "gloves", "headband",
        "bonnet", "poncho", "stocking", "bib", "cushion", "cover",
    )
)  # fmt: skip
"""Nouns of things that are knitted on their own."""

KNOWN_PARTS = WHOLE_PIECES | frozenset(
    (
        "brim", "crown", "cuff", "cuffs", "leg", "heel", "foot", "toe", "gusset", "hand", "fingers",
        "yoke", "neck", "hem", "edging", "border", "borders", "flap", "instructions", "directions",
        "pattern", "ribbing", "rib", "armhole", "armholes", "neckline", "shoulders", "shoulder",
        "sole", "instep", "finishing", "top", "buttonband", "method", "shaping", "raglan", "rim",
        "peak",
    )
)  # fmt: skip
"""Nouns that begin the heading of a part."""

NO_TITLES = frozenset(("instructions", "directions", "pattern", "method", "to knit", "to make"))
"""Headings that say nothing but that instructions follow."""

_BULLET = re.compile(r"(?:[-*•–] |\d{1,2}\) )")
_NUMBER = re.compile(r"(?:\d{1,2}|[IVX]{1,4}|[A-H])[.)]\s*(?=[A-Z])")
_REMARK = re.compile(
    r"^(?P<text>.(?:.*?[^ ,:–\n-])?)[ ,:–-]*+[(\[](?P<remark>[^()\[\]]{1,50})[)\]]\s*:?"
)
_MAKE = re.compile(
    r"\b(?:make|work|knit|m)\s?(?P<n>\d{1,2}|[a-z]+)\b|\b(?P<times>\d{1,2}|[a-z]+) "
    r"(?:alike|the same|identical|of these|pieces)|^(?:x|×)? ?(?P<bare>\d)$|^(?P<word>two|three|"
    r"four)$",
    re.IGNORECASE,
)
_MAKE_AFTER = re.compile(
    r"^(?P<text>.(?:.*?\S)?)\s*+[,–:-]\s*+(?P<remark>(?:make|work|knit) (?:\d{1,2}|[a-z]{3,6})"
    r"(?: (?:alike|the same))?|both alike)\.?$",
    re.IGNORECASE,
)
_BOTH = re.compile(r"\bboth\b.{0,20}\b(?:alike|the same)\b|^both$|\bpair\b", re.IGNORECASE)
_LABEL = re.compile(
    r"(?:\d{0,3}(?:st|nd|rd|th)? ?)(?:next|last|dec|inc|decrease|increase|set-?up|foundation)? ?"
    r"(?:rows?|rnds?|rounds?)\b|r\d{1,3}\b",
    re.IGNORECASE,
)
_DOING = re.compile(
    r"(?:knit|purl|[kp]\d*|work|cast|bind|join|turn|break|cut|repeat|rep|continue|cont|place|slip|"
    r"change|with|using|weave|sew|fasten|pick|block|now|then|next|decrease|increase|dec|inc|as|"
    r"crank|wash|fold|leave|do|don[’']t|keep|begin|start|set|put|divide|graft|measure|stop|remove|"
    r"co|bo|make|draw|thread|row|rnd|round|every|all|rs|ws|and|or|plus|not|hold|pm|sm)\b",
    re.IGNORECASE,
)
_ROW_WORDS = re.compile(r"\b(?:[kp]\d+|k2tog|ssk|yo|sts?|rep)\b|\*", re.IGNORECASE)


def make_said(words: str) -> int | None:
    """How many are made as ``words`` say it: make 2, make two, both alike."""
    if _BOTH.search(words):
        return 2
    found = _MAKE.search(words)
    if found is None:
        return None
    said = next(each for each in found.groups() if each).lower()
    number = int(said) if said.isdigit() else NUMBERS.get(said)
    return number if number and number > 0 else None


def heading_of(line: Line, above: str, below: str, shouted: bool) -> Heading | None:
    """The heading that a line is, ``None`` where it is none.

    ``above`` and ``below`` are its neighbours; ``shouted`` where the whole text is in capitals, so
    that these mark nothing.
    """
    text = line.text
    if not text:
        return None
    if text.startswith("#"):
        bare = text.strip("# ")
        level = len(text) - len(text.lstrip("#"))
        return _beside(bare, 1 if level < 3 else 2) if bare else None
    number = _NUMBER.match(text)
    bare = text[number.end() :] if number else text
    if line.under and not _BULLET.match(text):
        return _beside(bare.rstrip(":"), 1 if line.under == "=" else 2)
    if _BULLET.match(text):
        return None
    said = _beside(bare.rstrip(" :"), 1)
    if said is None or _LABEL.match(bare):
        return None
    words = said.text.split()
    if not shouted and _is_capital(said.text, words):
        return said
    return None if number else _quiet(text, said, words, above, below)


def _is_capital(text: str, words: list[str]) -> bool:
    return (
        text.isupper()
        and len(words) <= _MOST_CAPITAL_WORDS
        and text[-1] not in ".;,!?"
        and any(len(re.sub(r"[^A-Z]", "", word)) > 2 for word in words)
        and not _ROW_WORDS.search(text)
        and ":" not in text
    )


def _quiet(text: str, said: Heading, words: list[str], above: str, below: str) -> Heading | None:
    """A heading in small letters: it stands alone, or its noun is that of a part."""
    if len(words) > _MOST_WORDS or not text[:1].isupper() or _DOING.match(text):
        return None
    if said.remark and (said.remark[:1].isupper() or "[" in text) and not said.make:
        return None
    if any(mark.isdigit() for mark in said.text) or _ROW_WORDS.search(said.text):
        return None
    if said.text[-1] in ".;,!?)" or ":" in said.text or (text[-1] in ".;,!?"):
        return None
    if text.endswith(":"):
        return Heading(said.text, 3, said.remark, said.make)
    known = words[0].lower().strip(",") in KNOWN_PARTS or words[-1].lower() in KNOWN_PARTS
    ended = not above or above[-1] in ".!?)…"
    if (said.make or known) and ended:
        return Heading(said.text, 2, said.remark, said.make)
    return None if above else Heading(said.text, 3, said.remark, said.make)


def _beside(text: str, strength: int) -> Heading | None:
    """A heading without its remark, and what that says."""
    found = _REMARK.fullmatch(text) or _MAKE_AFTER.fullmatch(text)
    if found is None:
        return Heading(text, strength) if text.strip() else None
    remark = found["remark"]
    return Heading(found["text"].strip(" :"), strength, remark, make_said(remark))
