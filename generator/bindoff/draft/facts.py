"""What stands before the instructions of a pattern: sizes, gauge, yarns, tools, measures."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.draft.figures import UNIT, lengths
from bindoff.records import Record

# ---------------------------------------------------------------- sizes


class SizesSaid(Record):
    """The ``names`` of the sizes, and ``bodies``: each body measure with a length for each size."""

    names: tuple[str, ...]
    bodies: tuple[tuple[str, tuple[str, ...]], ...] = ()


_OPEN = re.compile(r"[(\[]")
_PARTS = re.compile(r" ?(?:[,/;|]|\band\b) ?")
_LETTERS = re.compile(r"[A-Za-z0-9][\w’' +–-]{0,30}")

BODY_PARTS = {
    "head": "head", "chest": "chest", "bust": "chest", "waist": "waist", "hip": "hip",
    "hips": "hip", "wrist": "wrist", "hand": "hand", "neck": "neck", "foot": "foot",
    "upper arm": "upper arm", "ankle": "ankle",
}  # fmt: skip
_BODY = re.compile(
    rf"\b(upper arm|{'|'.join(part for part in BODY_PARTS if ' ' not in part)})\b"
    r"( length)?(?: circumference)?(?: of| measuring)?[ :=]{1,3}(?=[\d½¼¾])",
    re.IGNORECASE,
)


def sizes_said(text: str) -> SizesSaid | None:
    """The sizes that a line about them names, ``None`` where it names none.

    ``Adult S (M, L)``, ``Small [Medium, Large]``, ``S, M and L``, ``One size``.
    """
    names_part = text.split(":")[0] if _BODY.search(text) else text
    names_part = re.split(r"\bto fit\b(?= (?:head|chest|bust|foot))", names_part, maxsplit=1)[0]
    names = _names(names_part.strip(" .:;"))
    return SizesSaid(names) if names else None


def _names(text: str) -> tuple[str, ...]:
    if re.match(r"one size\b", text, re.IGNORECASE):
        return ("One size",)
    opening = _OPEN.search(text)
    if opening is None:
        found = tuple(each for each in _PARTS.split(text) if each)
        return found if len(found) > 1 and all(_is_name(each) for each in found) else ()
    inside = re.split(r"[)\]]", text[opening.end() :])[0]
    others = tuple(each for each in _PARTS.split(inside) if each)
    first = text[: opening.start()].strip(" ,:")
    if all(" " not in each for each in others):
        first = first.split()[-1] if first else ""
    found = (first, *others)
    return found if all(_is_name(each) for each in found) else ()


def _is_name(text: str) -> bool:
    return bool(_LETTERS.fullmatch(text)) and len(text.split()) <= 3


def bodies_said(text: str, sizes: int) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Each body measure that a line says, with a length for each size."""
    for found in _BODY.finditer(text):
        said = next(lengths(text[found.end() :], sizes), None)
        if said and said.start == 0 and len(said.values) == sizes:
            part = BODY_PARTS[found[1].lower()]
            yield f"{part} length" if found[2] else part, said.values


# ---------------------------------------------------------------- finished measurements

_NAMED = re.compile(r"([A-Za-z][A-Za-z ]{2,40}?)[ :=]{1,3}(?=[\d½¼¾])")


def finished_said(text: str, sizes: int) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Each finished measurement with its name: one length for all sizes, or one for each."""
    for found in _NAMED.finditer(text):
        said = next(lengths(text[found.end() :], sizes), None)
        if said and said.start == 0:
            name = re.sub(
                r"^(?:finished|measurements?|and|approx\w*)\b *", "", found[1].strip().lower()
            )
            if name:
                yield name[:1].upper() + name[1:], said.values


# ---------------------------------------------------------------- gauge


class GaugeSaid(Record):
    """A gauge in its own words; what it doesn't say is empty."""

    stitches: str = ""
    rounds: str = ""
    over: str = ""
    worked: str = ""
    tool: str = ""
    state: str = ""


_N = r"(\d{1,3}(?:[.,]\d)?)"
_GAUGE_STITCHES = re.compile(rf"{_N} ?(?:stitches|stitch|sts|st)\b", re.IGNORECASE)
_GAUGE_ROUNDS = re.compile(rf"{_N} ?(?:rows?|rounds?|rnds?)\b", re.IGNORECASE)
_GAUGE_OVER = re.compile(
    rf"(?:=|\bto|\bper|\bover|\bin|\bmake|\bequals?|/) ?(?:a )?(\d{{1,2}}) ?({UNIT})", re.IGNORECASE
)
_WORKED = re.compile(
    r"\b(?:in|over|of|measured over)\s+((?:stockinette|stocking stitch|st st|garter|rib|reverse|"
    r"moss|seed|pattern|charted|lace|stranded|\d ?x ?\d|k\d)[a-z0-9 ,]{0,60}?)"
    r"(?=[,.;]| on\b| using\b| with\b| after\b| washed| blocked|$)",
    re.IGNORECASE,
)
_GAUGE_TOOL = re.compile(
    r"\b(?:on|using|with)\s+((?:size )?(?:[^.;]|\.(?=\d)){1,60}?\b(?:needles?|hook))\b", re.I
)
_WASHED = re.compile(r"\b(un)?(?:washed|blocked)\b", re.IGNORECASE)


def gauge_said(text: str) -> GaugeSaid | None:
    """The gauge that ``text`` says, ``None`` where it says no stitches over a length."""
    stitches, over = _GAUGE_STITCHES.search(text), _GAUGE_OVER.search(text)
    if stitches is None or over is None:
        return None
    rounds, worked = _GAUGE_ROUNDS.search(text), _WORKED.search(text)
    tool, washed = _GAUGE_TOOL.search(text), _WASHED.search(text)
    unit = next(lengths(f"{over[1]} {over[2]}", 1))
    return GaugeSaid(
        stitches=stitches[1].replace(",", "."),
        rounds=rounds[1].replace(",", ".") if rounds else "",
        over=unit.values[0],
        worked=worked[1].strip() if worked else "",
        tool=tool[1].strip() if tool else "",
        state="" if washed is None else "unwashed" if washed[1] else "washed",
    )


# ---------------------------------------------------------------- yarns


class YarnSaid(Record):
    """A yarn in its own words; what isn't said is empty."""

    key: str
    name: str
    ball: str = ""
    fibre: str = ""
    weight: str = ""


_YARN_KEY = re.compile(
    r"(?:yarn )?(MC|CC ?\d?|[A-F]|main colou?r|contrast(?:ing)? colou?r(?: \d)?)"
    r"(?: \([A-Z]{1,3}\d?\))?\s*[:=–-]\s*",
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
    "lace": 0, "fingering": 1, "sock": 1, "4-ply": 1, "4 ply": 1, "sport": 2, "dk": 3,
    "double knitting": 3, "light worsted": 3, "worsted": 4, "aran": 4, "bulky": 5, "chunky": 5,
    "super bulky": 6, "roving": 6, "jumbo": 7,
}  # fmt: skip
_WEIGHT = re.compile(rf"\b({'|'.join(sorted(_WEIGHT_WORDS, key=len, reverse=True))})\b", re.I)
_CATEGORY = re.compile(r"(?:weight|category) ?[#(]? ?([0-7])\b|\(([0-7])\)", re.IGNORECASE)
_YARN_END = re.compile(r" ?(?:[(,;:]|\d|[–-] )")


def yarn_said(text: str) -> YarnSaid | None:
    """The yarn that a line names, ``None`` where it says no ball."""
    line = re.sub(r"^[-•–] |(?<!\w)\*|\*(?!\w)", "", text).strip()
    key = _YARN_KEY.match(line)
    named = line[key.end() if key else 0 :]
    ball = _ball(named)
    if not ball and not key:
        return None
    end = _YARN_END.search(named)
    name = named[: end.start() if end else None].strip(" *.")
    fibre, colour = (
        _FIBRE.search(named),
        re.search(r"\bin (?:colou?r )?([A-Z][\w’' -]{1,24})", named),
    )
    if colour and colour[1] not in name:
        name = f"{name} in {colour[1].strip()}"
    return YarnSaid(
        key=key[1].replace(" ", "").lower() if key else "main",
        name=name or (key[1] if key else "Yarn"),
        ball=ball,
        fibre=fibre[0] if fibre else "",
        weight=_weight(named),
    )


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


# ---------------------------------------------------------------- tools and wearers

TOOL = re.compile(r"\b(?:needles?|hooks?|dpns?|circulars?)\b", re.IGNORECASE)

_WEARERS = (
    ("infant", re.compile(r"\b(?:bab(?:y|ies)|newborn|infants?|\d+ months|preemies?)\b", re.I)),
    (
        "child",
        re.compile(r"\b(?:child(?:ren)?|kids?|toddlers?|girls?|boys?|\d+ (?:years|yrs))\b", re.I),
    ),
    (
        "adult",
        re.compile(r"\b(?:adults?|wom[ae]n|m[ae]n|wom[ae]n[’']s|m[ae]n[’']s|teens?)\b", re.I),
    ),
)


def wearers_said(text: str) -> tuple[str, ...]:
    """For whom it is, as far as the words tell."""
    return tuple(wearer for wearer, words in _WEARERS if words.search(text))
