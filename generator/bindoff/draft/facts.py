"""What stands before the instructions of a pattern: sizes, gauge, yarns, tools, measures."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.draft.figures import LIST, UNIT, figures, lengths
from bindoff.records import Record

# ---------------------------------------------------------------- sizes


class SizesSaid(Record):
    """The ``names`` of the sizes, and ``bodies``: each body measure with a length for each size."""

    names: tuple[str, ...]
    bodies: tuple[tuple[str, tuple[str, ...]], ...] = ()


_OPEN = re.compile(r"[(\[]")
_COMMAS = re.compile(r" ?(?:[,;|:]|\band\b|&) ?")
_SLASHES = re.compile(r" ?/ ?")
_LETTERS = re.compile(r"[A-Za-z0-9][\w’'/ +–-]{0,30}")
_LEADING = re.compile(
    r"(?:(?:sizes?|to fit|for|ages?|aged|approx\w*\.?|in|is|are)\b[ :]*)*", re.IGNORECASE
)
_SAID_UNIT = re.compile(
    r"(?P<n>\d[\d/–-]{0,30}) ?(?P<unit>(?:yr|year|mth|month|mo)s?\.?|cm|in)$", re.I
)
_FIGURE_ALONE = re.compile(r"\d[\d/–-]{0,30}$")
_NO_NAME = re.compile(
    r"\b(?:to|fit|fits|for|approx\w*|is|are|shown|the|of|cm|inch\w*|with|by|x|any)\b",
    re.I,
)

BODY_PARTS = {
    "head": "head", "chest": "chest", "bust": "chest", "waist": "waist", "hip": "hip",
    "hips": "hip", "wrist": "wrist", "hand": "hand", "neck": "neck", "foot": "foot",
    "upper arm": "upper arm", "ankle": "ankle",
}  # fmt: skip
_BODY = re.compile(
    rf"\b(upper arm|{'|'.join(part for part in BODY_PARTS if ' ' not in part)})\b"
    r"( length)?( circumference| around)?(?: of| measuring)?[ :=]{1,3}(?=[\d½¼¾])",
    re.IGNORECASE,
)


def sizes_said(text: str) -> SizesSaid | None:
    """The sizes that a line about them names, ``None`` where it names none.

    ``Adult S (M, L)``, ``Small [Medium, Large]``, ``6 mths (1, 2 yrs)``, ``S/M [L/XL]``,
    ``S, M and L``, ``To fit chest 43/48/53 cm``, ``One size``.
    """
    names_part = text.split(":")[0] if _BODY.search(text) else text
    names_part = re.split(r"\bto fit\b(?= (?:head|chest|bust|foot))", names_part, maxsplit=1)[0]
    names = _names(names_part.strip(" .:;"))
    if not names:
        names = tuple(_of_figures(text))
    return SizesSaid(names) if names and len(set(names)) == len(names) else None


_SLASHED = re.compile(
    r"\d{2,3}(?:[.,]\d)?(?P<sign> ?[/,-] ?)\d{2,3}(?:[.,]\d)?(?:(?P=sign)\d{2,3}(?:[.,]\d)?)*"
    r"(?: ?(?:and|&) ?\d{2,3})? ?(?P<unit>cm|in\b|inches|[\"”″])"
)


def listed(text: str) -> str:
    """``43/48/53 cm`` and ``43, 48 and 53 cm`` as ``43 (48, 53) cm``."""
    return _SLASHED.sub(_bracketed, text)


def _bracketed(found: re.Match[str]) -> str:
    values = re.findall(r"\d{2,3}(?:[.,]\d(?!\d))?", found[0])
    if values != sorted(values, key=lambda each: float(each.replace(",", "."))):
        return found[0]
    return f"{values[0]} ({', '.join(values[1:])}) {found['unit']}"


def _of_figures(text: str) -> Iterator[str]:
    """Sizes that have no name but the figure of a body: 43 cm, 48 cm, 53 cm."""
    if not _BODY.search(text) and not re.search(r"\bto fit\b", text, re.IGNORECASE):
        return
    found = _FIRST_LIST.search(listed(text))
    values = figures(found[1]) if found else ()
    if found and len(values) > 1:
        yield from (f"{value} {found[2]}" for value in values)


_FIRST_LIST = re.compile(rf"({LIST}) ?(cm|in\b|inches)", re.IGNORECASE)


def _names(text: str) -> tuple[str, ...]:
    if re.match(r"one size\b", text, re.IGNORECASE):
        return ("One size",)
    leading = _LEADING.match(text)
    text = text[leading.end() :] if leading else text
    opening = _OPEN.search(text)
    if opening is None:
        found = _cut(text)
        return _united(found) if len(found) > 1 and all(map(_is_name, found)) else ()
    inside, after = (*re.split(r"[)\]]", text[opening.end() :], maxsplit=1), "")[:2]
    others = _cut(inside, text[: opening.start()])
    first = text[: opening.start()].strip(" ,:")
    if all(" " not in each for each in others) and not _SAID_UNIT.search(first):
        first = first.split()[-1] if first else ""
    unit = re.match(r"\s*((?:yr|year|mth|month)s?)\b", after, re.IGNORECASE)
    if unit and others:
        others = (*others[:-1], f"{others[-1]} {unit[1]}")
    found = _united((first, *others))
    return found if all(map(_is_name, found)) else ()


def _cut(text: str, first: str = "") -> tuple[str, ...]:
    """The names of a list; strokes part them where no comma does and no name has one itself."""
    by_comma = tuple(each.strip() for each in _COMMAS.split(text) if each.strip())
    if len(by_comma) == 1 and "/" not in first:
        return tuple(each.strip() for each in _SLASHES.split(text) if each.strip())
    return by_comma


def _united(names: tuple[str, ...]) -> tuple[str, ...]:
    """Figures alone take the unit said after them: 6 mths, 1, 2 yrs are 6 mths, 1 yrs, 2 yrs."""
    unit, done = "", list[str]()
    for name in reversed(names):
        if said := _SAID_UNIT.fullmatch(name):
            unit = said["unit"]
        one = unit.rstrip("s") if name == "1" and unit in ("yrs", "years") else unit
        done.append(f"{name} {one}" if unit and _FIGURE_ALONE.fullmatch(name) else name)
    return tuple(reversed(done))


def _is_name(text: str) -> bool:
    return bool(_LETTERS.fullmatch(text)) and len(text.split()) <= 3 and not _NO_NAME.search(text)


def bodies_said(text: str, sizes: int) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Each body measure that a line says, with a length for each size."""
    for found in _BODY.finditer(text):
        said = next(lengths(text[found.end() :], sizes), None)
        if said and said.start == 0 and len(said.values) == sizes:
            part = BODY_PARTS[found[1].lower()]
            if part == "foot" and not found[2] and not found[3]:
                continue  # its length or its girth?
            yield f"{part} length" if found[2] else part, said.values


# ---------------------------------------------------------------- finished measurements

_NAMED = re.compile(
    r"(?P<name>[A-Za-z][A-Za-z ,’'()-]{1,40}?)(?: of| is| measures| about|"
    r" approx\w*\.?)*[ :=–-]{1,3}"
    r"(?=[\d½¼¾])"
)
_NO_MEASURE = re.compile(
    r"^(?:(?:to fit|fits?)\b.*|.*\b(?:sts|stitches|rows|rounds|gauge|tension|balls?|skeins?)\b.*|"
    r"(?:cm|in) x|"
    r"(?:.*\b)?(?:about|for|with|after|before|needles?|size|us|every|over|by|and a|in)$)",
    re.I,
)


_TWO_SIDES = re.compile(
    rf"(?P<a>\d[\d.½]{{0,8}}) ?(?P<first>{UNIT})? ?[x×] ?(?P<b>\d[\d.½]{{0,8}}) ?(?P<unit>{UNIT})",
    re.IGNORECASE,
)


def finished_said(
    text: str, sizes: int, known: bool = True
) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Each finished measurement with its name: one length for all sizes, or one for each.

    Unless it is ``known`` that the line is about them, it must begin with one.
    """
    if sides := _TWO_SIDES.search(text):
        unit = sides["first"] or sides["unit"]
        for side, value in (("One side", sides["a"]), ("Other side", sides["b"])):
            yield side, next(lengths(f"{value} {unit}", 1)).values
        return
    for number, found in enumerate(_NAMED.finditer(text)):
        said = next(lengths(text[found.end() :], sizes), None)
        if not known and number == 0 and found.start() > 0:
            return
        if said and said.start == 0 and not _NO_MEASURE.fullmatch(found["name"].strip()):
            name = re.sub(
                r"^(?:finished|measurements?|sizes?|and|approx\w*)\b *",
                "",
                found["name"].strip().lower(),
            ).strip(" ,")
            name = name or found["name"].strip().lower()
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


_N = r"(\d{1,3}(?:[.,]\d{1,2}| ?[½¼¾])?)"
_GAUGE_STITCHES = re.compile(rf"{_N} ?(?:stitches|stitch|sts|st)\b", re.IGNORECASE)
_GAUGE_ROUNDS = re.compile(rf"{_N} ?(?:rows?|rounds?|rnds?)\b", re.IGNORECASE)
_GAUGE_OVER = re.compile(
    r"(?:=|\bto|\bper|\bover|\bin|\bmakes?|\bequals?|\bmeasures?|/|\bis|^) ?(?:about |"
    r"approx\w*\.? )?"
    rf"(?:(?:a|each|every) )?(?P<n>\d{{1,2}}|one|an|the) ?"
    rf"(?:(?:cm )?[x×] ?\d{{1,2}} ?)?-?(?P<unit>{UNIT})",
    re.IGNORECASE,
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
_STATE = re.compile(
    r"\b(?:(?P<not>un(?:washed|blocked))|(?P<washed>washed)|(?P<blocked>blocked))\b", re.IGNORECASE
)


def _state(text: str) -> str:
    """What was done with the swatch, as far as ``text`` says."""
    said = {each.lastgroup for each in _STATE.finditer(text)}
    if "not" in said:
        return "unwashed"
    return " and ".join(word for word in ("washed", "blocked") if word in said)


_PER_INCH = re.compile(r"(?:/ ?|\bper )in(?:ch)?\b", re.IGNORECASE)


def _decimal(figure: str) -> str:
    """A figure of a gauge with a point in it: 5½ is 5.5."""
    whole = figure.replace(",", ".").replace(" ", "")
    for sign, part in (("½", ".5"), ("¼", ".25"), ("¾", ".75")):
        whole = whole.replace(sign, part)
    return whole


def gauge_said(text: str) -> GaugeSaid | None:
    """The gauge that ``text`` says, ``None`` where it says no stitches over a length."""
    stitches, over = _GAUGE_STITCHES.search(text), _GAUGE_OVER.search(text)
    per_inch = _PER_INCH.search(text)
    if stitches is None or (over is None and per_inch is None):
        return None
    rounds, worked = _GAUGE_ROUNDS.search(text), _WORKED.search(text)
    tool = _GAUGE_TOOL.search(text)
    many = over["n"] if over and over["n"].isdigit() else "1"
    unit = next(lengths(f"{many} {over['unit'].lower() if over else 'in'}", 1))
    return GaugeSaid(
        stitches=_decimal(stitches[1]),
        rounds=_decimal(rounds[1]) if rounds else "",
        over=unit.values[0],
        worked=worked[1].strip() if worked else "",
        tool=tool[1].strip() if tool else "",
        state=_state(text),
    )


# ---------------------------------------------------------------- tools and wearers

TOOL = re.compile(r"\b(?:needles?|hooks?|dpns?|circulars?)\b", re.IGNORECASE)

_WEARERS = (
    (
        "infant",
        re.compile(
            r"\b(?:bab(?:y|ies)|newborn|infants?|\d+ ?(?:months?|mths?|mos)|preemies?)\b", re.I
        ),
    ),
    (
        "child",
        re.compile(
            r"\b(?:child(?:ren)?|kids?|toddlers?|girls?|boys?|\d+ ?(?:years?|yrs?))\b", re.I
        ),
    ),
    (
        "adult",
        re.compile(r"\b(?:adults?|wom[ae]n|m[ae]n|wom[ae]n[’']s|m[ae]n[’']s|teens?)\b", re.I),
    ),
)


def wearers_said(text: str) -> tuple[str, ...]:
    """For whom it is, as far as the words tell."""
    return tuple(wearer for wearer, words in _WEARERS if words.search(text))
