"""Left for right in words, for a piece that mirrors another."""

from bindoff import regex as re

# `right side` is a side of the fabric, and stitches are `left`: only before these is it the wearer.
_OF_A_BODY = re.compile(
    r"\b(left|right)(?=[ -](?:fronts?|backs?|shoulders?|sleeves?|armholes?|underarms?|arms?|"
    r"hand(?![ -]needle)s?|gloves?|mittens?|mitts?|foot|feet|socks?|thumbs?|legs?|cuffs?|edges?|"
    r"collar|pockets?|neck|half|bands?|palms?|fingers?)\b)",
    re.I,
)
_OTHER = {"left": "right", "right": "left"}


def other_name(name: str) -> str:
    """A name of stitches or of a piece for the other side: ``left front``, ``right front``."""
    return re.sub(r"(?<![A-Za-z])(left|right)(?![A-Za-z])", _turned, name, flags=re.I)


def other_words(prose: str) -> str:
    """Prose for the other side: ``the left front`` becomes ``the right front``, and ``right side``
    and ``3 stitches left`` stay."""
    return _OF_A_BODY.sub(_turned, prose)


def _turned(found: "re.Match[str]") -> str:
    word = _OTHER[found[1].lower()]
    return word.capitalize() if found[1][0].isupper() else word
