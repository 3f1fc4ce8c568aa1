"""Who a size is for and on which part of the body a piece is worn: cautions follow from both.

The name of a size says it (``Toddler``, ``6-12 months``, ``Woman M``), or its body measurements do,
held against the tables in ``bodies.py``. The limits are our judgement, no source.
"""

from collections.abc import Collection, Iterator, Mapping
from enum import StrEnum
from functools import lru_cache

from bindoff import regex as re
from bindoff.craft.bodies import BODIES, Body, Dimension, body
from bindoff.records import Record


class Wearer(StrEnum):
    """A part of the population that has cautions of its own."""

    INFANT = "infant"
    UNDER_THREE = "child under three"
    CHILD = "child"
    ADULT = "adult"


class Worn(StrEnum):
    """The part of the body that a piece is worn on."""

    HEAD = "head"
    NECK = "neck"
    BODY = "body"
    HAND = "hand"
    FOOT = "foot"


class Fitting(Record):
    """A size as far as it tells who wears it: its name, and its body measurements in mm."""

    name: str
    body: Mapping[str, float]


_YOUNGEST = frozenset({Wearer.INFANT, Wearer.UNDER_THREE})
_DECLARED: Mapping[str, frozenset[Wearer]] = {
    "infant": _YOUNGEST,
    "child": frozenset({Wearer.CHILD}),
    "adult": frozenset({Wearer.ADULT}),
}

_SMALL = frozenset({*_YOUNGEST, Wearer.CHILD})

# Words in the names of sizes, the more particular first. Months to 12 are an infant's.
_NAMED: tuple[tuple[re.Pattern[str], frozenset[Wearer]], ...] = tuple(
    (re.compile(rf"\b(?:{words})\b", re.IGNORECASE), frozenset(who))
    for words, who in (
        (r"newborns?|preemies?|premature|baby|babies|infants?", _YOUNGEST),
        (r"(?:\d+ ?[-–/to]+ ?)?(?:[0-9]|1[0-2]) ?(?:m|mo|mos|mths?|months?)", _YOUNGEST),
        (r"toddlers?|\d+ ?(?:m|mo|mos|mths?|months?)|[12] ?T", _SMALL),
        (r"(?:1[-–/])?[12] ?(?:y|yrs?|years?)", _SMALL),
        (r"adults?|wom[ae]n|m[ae]n|lad(?:y|ies)", {Wearer.ADULT}),
        (r"child(?:ren)?|kids?|girls?|boys?|teens?|youths?|juniors?", {Wearer.CHILD}),
        (r"\d+ ?(?:y|yrs?|years?|T)", {Wearer.CHILD}),
    )
)

# A body up to the first two may be an infant's or a toddler's; between the other two a child's: who
# is larger wears what is made for adults. An adult's starts a twentieth below the smallest of the
# tables, as people lie to both sides of them.
_LAST_INFANT, _LAST_TODDLER = "18 months", "3 years"
_FIRST_CHILD, _LAST_CHILD = "12 months", "child 10-12"
_BELOW_ADULT = 0.95


def wearers(sizes: Collection[Fitting], declared: Collection[str]) -> frozenset[Wearer]:
    """Who may wear one of ``sizes``, of a pattern that names ``declared`` as wearers (``infant``,
    ``child``, ``adult``). A size for a baby or toddler counts as that whatever is declared."""
    return frozenset(who for size in sizes for who in wearers_of(size, declared))


def wearers_of(size: Fitting, declared: Collection[str]) -> frozenset[Wearer]:
    """Who may wear ``size``: as it is called, else as its body measures; else all ``declared``."""
    said = frozenset(who for each in declared for who in _DECLARED[each])
    measured = _measured(tuple(size.body.items()))
    named = next((who for words, who in _NAMED if words.search(size.name)), frozenset[Wearer]())
    if named == {Wearer.ADULT}:
        return named
    found = (named & measured or named) if named else measured
    small = {Wearer.UNDER_THREE} if Wearer.CHILD in found else _YOUNGEST
    return (found & said or said) | (small & (measured | named))


@lru_cache(maxsize=256)
def _measured(measures: tuple[tuple[str, float], ...]) -> frozenset[Wearer]:
    """Who has such a body, by every measurement that the tables know of children and adults."""
    known = {dimension.value: dimension for dimension in Dimension}
    each = [
        frozenset(_having(known[name], mm))
        for name, mm in measures
        if name in known
        and all(body(person).figure(known[name]) for person in (_LAST_TODDLER, _LAST_CHILD))
    ]
    if not each:
        return frozenset()
    return frozenset.intersection(*each) or frozenset.union(*each)


def _having(dimension: Dimension, mm: float) -> Iterator[Wearer]:
    adults = [each for each in BODIES if each.who.startswith("adult")]
    if mm <= _of(body(_LAST_INFANT), dimension):
        yield Wearer.INFANT
    if mm <= _of(body(_LAST_TODDLER), dimension):
        yield Wearer.UNDER_THREE
    if _of(body(_FIRST_CHILD), dimension) < mm <= _of(body(_LAST_CHILD), dimension):
        yield Wearer.CHILD
    if mm >= _BELOW_ADULT * min(_of(each, dimension) for each in adults if each.figure(dimension)):
        yield Wearer.ADULT


def _of(person: Body, dimension: Dimension) -> float:
    figure = person.figure(dimension)
    return figure.mm if figure else 0.0


# ---------------------------------------------------------------- the part of the body

_PARTS: tuple[tuple[Worn, frozenset[str], str], ...] = (
    (
        Worn.BODY,
        frozenset({"chest", "bust"}),
        r"sweaters?|pullovers?|jumpers?|cardigans?|vests?|waistcoats?|jackets?|coats?|ponchos?"
        r"|capes?|bunting|cocoons?|rompers?|overalls|hood(?:y|ie)s?|tunics?|dress(?:es)?",
    ),
    (
        Worn.FOOT,
        frozenset({"foot", "foot length", "heel", "ankle"}),
        r"socks?|slippers?|bootees?|booties|stockings?|knee[- ]highs|bed ?socks?",
    ),
    (Worn.HAND, frozenset({"hand", "hand length"}), r"mitt(?:en)?s?|gloves?|mitts|wristers?"),
    (
        Worn.HEAD,
        frozenset({"head"}),
        r"hats?|caps?|beanies?|bonnets?|tams?|berets?|toques?|tuques?|balaclavas?|hoods?",
    ),
    (
        Worn.NECK,
        frozenset({"neck"}),
        r"cowls?|snoods?|scar(?:f|ves)|gaiters?|neck[- ]?(?:warmers?|rings?|gaiters?)",
    ),
)


def worn_on(measured: Collection[str], titles: Collection[str]) -> Worn | None:
    """Where a piece is worn: by the body measurements that it is made to, else by its titles.

    A garment for the body may go by the head too, which passes its neck, and so may what is called
    a cowl. ``None``: nothing says.
    """
    by_body = next((part for part, names, _ in _PARTS if names & set(measured)), None)
    said = " ".join(titles)
    by_name = (p for p, _, words in _PARTS if re.search(rf"\b(?:{words})\b", said, re.IGNORECASE))
    named = next(by_name, None)
    return named if by_body is Worn.HEAD and named is Worn.NECK else by_body or named
