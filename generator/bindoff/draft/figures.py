"""Figures for the sizes, as patterns print them: 64 (72, 80) sts, 12½ [13, 14] cm."""

from collections.abc import Iterable, Iterator, Mapping

from bindoff import regex as re
from bindoff.records import Record

_ONE = r"\d{1,5}(?:[.,]\d{1,2}(?!\.?\d))?(?: ?[½¼¾⅓⅔⅛⅜⅝⅞]| \d/\d)?|[½¼¾⅓⅔⅛⅜⅝⅞]"
_BETWEEN = r" ?[,:;/|] ?"
LIST = rf"(?:{_ONE})(?: ?[(\[{{] ?(?>{_ONE})(?:{_BETWEEN}(?>{_ONE}))*+ ?[)\]}}])*"
"""A figure, with those of further sizes in brackets after it."""

UNIT = r"(?:cm|mm|inches|inch|in\b|yards|yds|yd|metres|meters|m\b|”|″|\")"

_FIGURE = re.compile(_ONE)
_LISTED = re.compile(LIST)
_OTHER_UNIT = re.compile(rf" ?(?:/ ?|[(\[] ?)({LIST}) ?-?({UNIT})\.?(?: ?[)\]])?")
_UNIT_AFTER = re.compile(rf" ?-?({UNIT})")
_UNITS = {
    "inches": "in", "inch": "in", "”": "in", "″": "in", '"': "in", "yards": "yd", "yds": "yd",
    "metres": "m", "meters": "m",
}  # fmt: skip


def figures(text: str) -> tuple[str, ...]:
    """Each figure of a list, in order, with a point in decimals."""
    return tuple(_decimal(each[0]) for each in _FIGURE.finditer(text))


def _decimal(figure: str) -> str:
    return re.sub(r"(\d),(\d)", r"\1.\2", figure.strip())


def for_sizes(text: str, sizes: int) -> tuple[str, ...] | None:
    """The figures of a list for so many sizes: one for all or one each, ``None`` where neither."""
    found = figures(text)
    return found if len(found) in (1, sizes) else None


def counts(text: str, sizes: int) -> tuple[int, ...] | None:
    """As ``for_sizes``, whole numbers only."""
    found = for_sizes(text, sizes)
    if found is None or not all(each.isdigit() for each in found):
        return None
    return tuple(int(each) for each in found)


class Lengths(Record):
    """Lengths in a text: ``values`` with their unit, and where in the text they stand."""

    values: tuple[str, ...]
    start: int
    end: int


def lengths(text: str, sizes: int) -> Iterator[Lengths]:
    """Every length, or list of them, that a text says; the same said again in another unit is
    passed over."""
    at = 0
    while found := _LISTED.search(text, at):
        unit = _UNIT_AFTER.match(text, found.end())
        values = for_sizes(found[0], sizes)
        if unit is None or values is None:
            at = found.end()
            continue
        end = unit.end()
        again = _OTHER_UNIT.match(text, end)
        if again and _unit(again[2]) != _unit(unit[1]):
            end = again.end()
        yield Lengths(tuple(f"{each} {_unit(unit[1])}" for each in values), found.start(), end)
        at = end


def _unit(written: str) -> str:
    return _UNITS.get(written, written)


Names = Mapping[tuple[str, ...], str]
"""The lists of figures that prose says, each with the name of its measure."""


def names_of(texts: Iterable[str], sizes: int) -> Names:
    """A name for every list of figures for the sizes that one of ``texts`` says."""
    names: dict[tuple[str, ...], str] = {}
    for text in texts:
        for _, _, kind, values in _lists(text, sizes):
            number = 1 + sum(name.startswith(f"{kind}_") for name in names.values())
            names.setdefault(values, f"{kind}_{number}")
    return names


def in_prose(text: str, names: Names, sizes: int) -> str:
    """``text`` as prose of a source: lists for the sizes become the names that print them."""
    pieces, at = list[str](), 0
    for start, end, _, values in _lists(text, sizes):
        pieces += [_escaped(text[at:start]), f"{{{{ {names[values]} }}}}"]
        at = end
    return "".join([*pieces, _escaped(text[at:])])


def _escaped(text: str) -> str:
    """What Markdown or a template would read as a sign stays as it is written."""
    return re.sub(r"([*_`\[\]<])", r"\\\1", text.replace("{", "(").replace("}", ")"))


def _lists(text: str, sizes: int) -> list[tuple[int, int, str, tuple[str, ...]]]:
    """Where lists for the sizes stand in ``text``, whether of lengths or counts, their figures."""
    if sizes < 2:
        return []
    found = [
        (each.start, each.end, "length", each.values)
        for each in lengths(text, sizes)
        if len(each.values) == sizes
    ]
    taken = [(start, end) for start, end, _, _ in found]
    for each in _LISTED.finditer(text):
        values = counts(each[0], sizes)
        free = all(each.end() <= start or each.start() >= end for start, end in taken)
        if values is not None and len(values) == sizes and free:
            found.append((each.start(), each.end(), "count", tuple(map(str, values))))
    return sorted(found)
