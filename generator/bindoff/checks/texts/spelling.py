"""US and UK words against the pattern's declared terms."""

from collections.abc import Iterator, Mapping

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.texts.misspelt import first_words, in_dictionary, listed
from bindoff.craft.spellings import US_TO_UK, us_forms
from bindoff.diagnostics import Severity
from bindoff.records import Record


class _Pair(Record):
    """How a word is written in US and in UK terms, as patterns and for advice."""

    us: str
    uk: str
    us_said: str
    uk_said: str


# Conversion lists of the trade and ordinary spelling; common practice, no source.
_PAIRS = (
    _Pair(r"\w*color\w*", r"\w*colour\w*", "color", "colour"),
    _Pair(r"center(?:s|ed|ing)?", r"centr(?:e|es|ed|ing)", "center", "centre"),
    _Pair(r"fibers?", r"fibres?", "fiber", "fibre"),
    _Pair(r"gray\w*", r"grey\w*", "gray", "grey"),
    _Pair(
        r"(?:centi|milli)meters?|meters?",
        r"(?:centi|milli)metres?|metres?",
        "centimeter, meter",
        "centimetre, metre",
    ),
    _Pair(r"jewelry", r"jewellery", "jewelry", "jewellery"),
    _Pair(r"pajamas?", r"pyjamas?", "pajamas", "pyjamas"),
    _Pair(r"favorites?", r"favourites?", "favorite", "favourite"),
    _Pair(
        r"(?:bind|binds|binding|bound)[ -]off", r"(?:cast|casts|casting)[ -]off",
        "bind off", "cast off",
    ),
    _Pair(r"stockinette(?: stitch)?", r"stocking stitch", "stockinette", "stocking stitch"),
    _Pair(r"seed stitch", r"moss stitch", "seed stitch", "moss stitch"),
    # A treble and a double are words of both, but of two stitches; these are words of one side.
    _Pair(r"single crochets?", r"(?!)", "single crochet", "double crochet"),
    _Pair(r"(?!)", r"double knitting (?:yarn|wool|weight)", "DK", "double knitting"),
    _Pair(r"(?!)", r"(?:yarn|wool) round (?:the )?hook", "yarn over", "yarn round hook"),
    _Pair(r"(?!)", r"miss (?:the )?next (?:ch|chains?|sts?|stitch|stitches)",
          "skip the next stitch", "miss the next stitch"),
    _Pair(r"(?!)", r"polo necks?", "turtleneck", "polo neck"),
    _Pair(r"(?!)", r"press studs?|poppers?", "snap", "press stud"),
    _Pair(r"(?!)", r"tension squares?", "gauge swatch", "tension square"),
    _Pair(r"half double crochets?", r"half trebles?(?: crochets?)?",
          "half double crochet", "half treble"),
)  # fmt: skip


@check(
    id="prose.spelling",
    title="Words and spelling keep to the declared terms",
    looks_at="words that differ between US and UK patterns in every text of the designer's, and "
    "words that the dictionary has in the other spelling alone, against `terms:`",
    why="some craft words mean another thing across the sea; a mixture leaves the reader in doubt "
    "about all of them",
    severity=Severity.WARNING,
    remedy="Use the word of the declared terms, or change `terms:`",
    needs=Needs.SOURCE,
)
def terms_kept(context: Context) -> Iterator[Finding]:
    """One finding for each word."""
    if not context.in_english:
        return
    terms = context.pattern.terms
    words = _foreign(terms)
    whole = re.compile(rf"\b(?:{'|'.join(words)})\b", re.IGNORECASE)
    names = " ".join(yarn.name for yarn in context.pattern.yarns.values())
    yield from _other_spelling(context, whole)
    for prose in context.prose:
        for found, place in prose.found(whole):
            if found[0] in names:
                continue
            said = next(word for foreign, word in words.items() if _is(foreign, found[0]))
            yield Finding(
                f"`{found[0]}` is not a word of {terms} terms", place, f"Write it as in `{said}`"
            )


def _other_spelling(context: Context, told: "re.Pattern[str]") -> Iterator[Finding]:
    """Words that are spelled as on the other side and are none of the trade's that are ``told``;
    each where it stands first."""
    terms = context.pattern.terms
    for word, (prose, start, end) in first_words(context).items():
        right = _here(word, terms)
        if right and not told.fullmatch(word):
            place, written = prose.place(start, end), prose.raw[start:end]
            yield Finding(
                f"`{written}` is not spelled as in {terms} terms", place, f"Write `{right}`"
            )


def _here(word: str, terms: str) -> str:
    """How a word is spelled in these terms, where the other side spells it as it is."""
    if terms == "UK":
        return US_TO_UK.get(word, "")
    if listed(word) or in_dictionary(word):
        return ""
    return next(filter(in_dictionary, us_forms(word)), "")


def _foreign(terms: str) -> Mapping[str, str]:
    """Patterns of the other side's words, with this side's."""
    if terms == "US":
        return {pair.uk: pair.us_said for pair in _PAIRS}
    return {pair.us: pair.uk_said for pair in _PAIRS}


def _is(pattern: str, word: str) -> bool:
    return re.fullmatch(pattern, word, re.IGNORECASE) is not None


CHECKS = (terms_kept,)
