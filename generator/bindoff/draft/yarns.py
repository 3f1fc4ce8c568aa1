"""The yarns that a text names: their names, what is on their balls, fibre, weight."""

from itertools import pairwise

from bindoff import regex as re
from bindoff.records import Record


class YarnSaid(Record):
    """A yarn in its own words; what isn't said is empty."""

    key: str
    name: str
    ball: str = ""
    fibre: str = ""
    weight: str = ""


_YARN_KEY = re.compile(
    r"(?:yarn |colou?r )?(MC|CC ?\d?|[A-F]|main colou?r|contrast(?:ing)? colou?r(?: \d)?)"
    r"(?: \([A-Z]{1,3}\d?\))?\s*[:=–-]\s*",
    re.IGNORECASE,
)
_LETTER_KEY = re.compile(r"(MC|CC ?\d?|[A-F]) (?=[a-z])")
_KEY_BEHIND = re.compile(r"\((MC|CC ?\d?|[A-F])\)|\b(MC|CC\d?)\b")
_NAMED_FIBRE = (
    r"wool|cotton|alpaca|merino|silk|mohair|linen|acrylic|cashmere|bamboo|nylon|angora|hemp|jute|"
    r"viscose|yak|llama"
)
_YARN_WORDS = re.compile(
    rf"\b(?:{_NAMED_FIBRE}|yarns?|skeins?|hanks?|balls?|weight|\d+-?ply|dk|aran|worsted|fingering|"
    r"chunky|bulky|sportweight|laceweight|double knitting|twine|raffia)\b",
    re.IGNORECASE,
)
_NOUN = re.compile(
    rf"\b(?:{_NAMED_FIBRE}|yarn|weight|\d+-?ply|dk|aran|worsted|fingering|chunky|bulky)\b",
    re.IGNORECASE,
)
_NO_YARN = re.compile(
    r"\b(?:waste|scrap|yarn needle|wool needle|stitch holders?|tapestry|darning|pompom maker|"
    r"yarn bowl|"
    r"safety pins?|scissors|markers?|buttons?|ribbon|elastic)\b",
    re.IGNORECASE,
)
_AMOUNT_ONLY = re.compile(
    r"^(?:about |approx\w*\.? |total(?: of)? )?\d[\d ()\[\],/:½-]*(?:g|grams?|oz|m|metres|meters|"
    r"yards|yds|"
    r"skeins?|balls?|hanks?)\b.*",
    re.IGNORECASE,
)
_GRAMS = r"(\d{2,4}(?:[.,]\d{1,2})?) ?(g|grams?|oz)\b"
_LONG = r"(\d{2,4}(?:[.,]\d)?) ?(metres|meters|m|yards|yds|yd)\b"
_BALL = re.compile(rf"{_GRAMS}[^\d.]{{1,24}}?{_LONG}", re.IGNORECASE)
_BALL_TURNED = re.compile(rf"{_LONG}[^\d.]{{1,24}}?{_GRAMS}", re.IGNORECASE)
_FIBRE = re.compile(
    r"\d{1,3} ?% ?[A-Za-z]{3,20}(?: [a-z]{3,12})?(?:[,/ &+]{1,3}\d{1,3} ?% ?[A-Za-z]{3,20})*"
)
_WEIGHT_WORDS = {
    "lace": 0, "laceweight": 0, "2-ply": 0, "2 ply": 0, "fingering": 1, "fingering weight": 1,
    "3-ply": 1, "3 ply": 1, "sportweight": 2, "5-ply": 2, "5 ply": 2, "8-ply": 3, "8 ply": 3,
    "10-ply": 4, "10 ply": 4, "12-ply": 5, "12 ply": 5, "super chunky": 6,
    "sock": 1, "4-ply": 1, "4 ply": 1, "sport": 2, "dk": 3,
    "double knitting": 3, "light worsted": 3, "worsted": 4, "aran": 4, "bulky": 5, "chunky": 5,
    "super bulky": 6, "roving": 6, "jumbo": 7,
}  # fmt: skip
_WEIGHT = re.compile(rf"\b({'|'.join(sorted(_WEIGHT_WORDS, key=len, reverse=True))})\b", re.I)
_PURE = re.compile(
    rf"\b(?:pure |merino |lambs|superwash |feltable |organic )*(?:{_NAMED_FIBRE})\b", re.IGNORECASE
)
_CATEGORY = re.compile(r"(?:weight|category) ?[#(]? ?([0-7])\b|\(([0-7])\)", re.IGNORECASE)
_YARN_END = re.compile(r" ?(?:[(,;:]|\d|[–-] )")


def yarn_said(text: str, named: bool = False) -> YarnSaid | None:
    """The yarn that a line names, ``None`` where it names none.

    ``named``: the line stands among yarns, so that ``A  navy`` and ``red, 50 g`` are some.
    """
    line = re.sub(r"^[-•–] |(?<!\w)\*|\*(?!\w)", "", text).strip()
    if _NO_YARN.search(line):
        return None
    key = _YARN_KEY.match(line) or (_LETTER_KEY.match(line) if named else None)
    rest = line[key.end() if key else 0 :]
    ball = _ball(rest)
    if not ball and not key and not _YARN_WORDS.search(line):
        return None
    if not key and goes_on_with_yarn(line) and not ball:
        return None
    if not key and not ball and (len(line.split()) > _MOST_WORDS or line.endswith("?")):
        return None
    name = _without_amount(rest)
    fibre = _FIBRE.search(rest) or _PURE.search(rest)
    colour = re.search(r"\bin (?:colou?r )?([A-Z][\w’' -]{1,24})", rest)
    if colour and colour[1] not in name:
        name = f"{name} in {colour[1].strip()}"
    behind = None if key else _KEY_BEHIND.search(line)
    called = key[1] if key else (behind[1] or behind[2]) if behind else "main"
    return YarnSaid(
        key=called.replace(" ", "").lower(),
        name=name or called,
        ball=ball,
        fibre=fibre[0] if fibre else "",
        weight=_weight(rest),
    )


_MOST_WORDS = 24


def _without_amount(text: str) -> str:
    """The words of a line that begins with an amount: 100 g of navy wool."""
    amount = _AMOUNT.match(text)
    bare = text[amount.end() :] if amount else text
    end = _YARN_END.search(bare)
    return bare[: end.start() if end else None].strip(" *.,")


_AMOUNT = re.compile(
    r"(?:(?:about|approx\w*\.?|one|two|three|four|each|of|in|x|×|g|grams?|oz|m|metres|meters|yards|"
    r"yds|skeins?|"
    r"balls?|hanks?|a|an)(?![\w’'-]) ?|[\d ()\[\],/:½–-]+(?!-?ply))*",
    re.IGNORECASE,
)


def further_yarns(text: str, first: str) -> tuple[YarnSaid, ...]:
    """Yarns that a line names after its first: ... (MC), 1 ball in white (CC)."""
    found = [each for each in _KEY_BEHIND.finditer(text) if each[1]]
    return tuple(
        YarnSaid(each[1].lower(), _without_amount(before.strip()) or each[1])
        for above, each in pairwise(found)
        if each[1].lower() != first
        and (before := re.sub(r"^(?:[,;]| and| &)+", "", text[above.end() : each.start()]))
    )


def weight_said(text: str) -> str:
    """The category of weight that words say for all yarns below them, nothing where they don't."""
    return _weight(text)


def goes_on_with_yarn(text: str) -> bool:
    """Whether a line says how much of the yarn above it is needed."""
    return bool(_AMOUNT_ONLY.fullmatch(text)) and not _NOUN.search(text)


def _ball(text: str) -> str:
    if found := _BALL.search(text):
        grams, gram_unit, long, unit = found.groups()
    elif found := _BALL_TURNED.search(text):
        long, unit, grams, gram_unit = found.groups()
    else:
        return ""
    short = "yd" if unit.lower().startswith("y") else "m"
    weight = "oz" if gram_unit.lower() == "oz" else "g"
    return f"{grams.replace(',', '.')} {weight} = {long.replace(',', '.')} {short}"


def _weight(text: str) -> str:
    if found := _CATEGORY.search(text):
        return found[1] or found[2]
    if found := _WEIGHT.search(text):
        return str(_WEIGHT_WORDS[found[1].lower()])
    return ""
