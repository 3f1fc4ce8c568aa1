"""Turning chains, against the stitches of their rows."""

from collections.abc import Iterator

from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.texts.told.truths import phrase

# Chains that turn a row of each stitch, in US terms; common practice, no source.
_TURNS = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4}
_STITCHES = {
    "US": {"single": "sc", "half double": "hdc", "double": "dc", "treble": "tr", "triple": "tr"},
    "UK": {"double": "sc", "half treble": "hdc", "treble": "dc", "double treble": "tr"},
}
_CROCHET = phrase(
    r"\b(half double|half treble|double treble|single|double|treble|triple) crochets?\b"
    r"|\b(sc|hdc|dc|tr)\b"
)
_TURN = phrase(
    r"^(?:row|round|rnd) \d+(?: \([^()]*\))?: ch (\d+)\b|\b(\d+) (?:ch|chains?)\b"
    r"(?= (?:at (?:a|the|each) (?:turn|start)|to turn|count|that count))"
    r"|\b(?:turn|turning)[^.;]{0,20}? ch (\d+)\b"
)
_PLUS = phrase(r"\b(?:space|loop|picot|arch|corner|mesh|filet)\b")


def turns_of_crochet_doubted(told: Told) -> Iterator[Doubt]:
    """Each turning chain that is not as long as the one kind of stitch of its sentence is high."""
    terms = told.context.pattern.terms
    kinds = {
        _STITCHES[terms].get((found[1] or "").lower()) or _abbreviated(found[2], terms)
        for found in _CROCHET.finditer(told.words)
    }
    if len(kinds) != 1 or None in kinds or _PLUS.search(told.words):
        return
    usual = _TURNS[str(*kinds)]
    for found in _TURN.finditer(told.words):
        number = int(next(each for each in found.groups() if each))
        if number != usual:
            yield Doubt(*found.span(), "a row of these stitches is turned with other chains")


def _abbreviated(said: str | None, terms: str) -> str | None:
    if said is None or terms == "US":
        return said and said.lower()
    return {"dc": "sc", "tr": "dc"}.get(said.lower())
