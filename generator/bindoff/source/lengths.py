"""Lengths and ball sizes as people write them, to millimetres, grams and metres.

The factors are exact by definition: the inch is 25.4 mm and the yard 0.9144 m (international
yard and pound agreement of 1959; NIST Special Publication 811, appendix B), the avoirdupois ounce
28.349523125 g (the pound of 0.45359237 kg over 16).
"""

import unicodedata
from fractions import Fraction
from types import MappingProxyType

from bindoff import regex as re
from bindoff.diagnostics import Fix, Span, fail, written_as

MM_PER_UNIT = MappingProxyType(
    {
        "mm": Fraction(1),
        "cm": Fraction(10),
        "m": Fraction(1000),
        "in": Fraction("25.4"),
        "yd": Fraction("914.4"),
    }
)
GRAMS_PER_UNIT = MappingProxyType({"g": Fraction(1), "oz": Fraction("28.349523125")})

_UNITS = MappingProxyType(
    {
        "mm": "mm",
        "cm": "cm",
        "m": "m",
        "metre": "m",
        "metres": "m",
        "meter": "m",
        "meters": "m",
        "in": "in",
        "inch": "in",
        "inches": "in",
        '"': "in",
        "”": "in",
        "″": "in",
        "yd": "yd",
        "yds": "yd",
        "yard": "yd",
        "yards": "yd",
    }
)
_WEIGHTS = MappingProxyType(
    {"g": "g", "gram": "g", "grams": "g", "oz": "oz", "ounce": "oz", "ounces": "oz"}
)
_LARGEST_MM = 10**9
_LARGEST_BALL = 10**6
_LONGEST_TEXT = 80

_CHARACTERS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_DECIMAL = re.compile(r"[0-9]{1,15}(?:\.[0-9]{1,15})?|\.[0-9]{1,15}")
_FRACTION_CHARACTER = re.compile(rf"(?P<whole>[0-9]{{1,15}})?\s*(?P<part>[{_CHARACTERS}])")
_FRACTION = re.compile(
    r"(?:(?P<whole>[0-9]{1,15})\s+)?(?P<over>[0-9]{1,15})\s*[/⁄]\s*(?P<under>[0-9]{1,15})"
)
_UNIT_AT_END = re.compile(r"[A-Za-z]*[\"”″]?\Z")
_LENGTH_HELP = "Write a figure and a unit, as in `21 cm`, `35 mm`, `8.25 in` or `8¼ in`"
_BALL_HELP = "Write weight = length, as in `100 g = 180 m` or `50 g = 120 yd`"


def parse_length(text: str, span: Span | None = None) -> float:
    """``21 cm``, ``8.25 in``, ``8¼ in``, ``8 1/4"`` or ``35 mm`` as millimetres.

    A minus sign may come first (ease can be negative). Raises ``PatternError`` for anything
    else, a bare number above all: its unit can't be guessed.
    """
    parts = _split(text)
    if parts is None:
        pointed = text.strip().replace(",", ".") if _decimal_comma(text) else None
        raise fail(
            "length.malformed",
            f"{_quoted(text)} is not a length",
            f"Write the decimal with a point, as in `{pointed}`" if pointed else _LENGTH_HELP,
            span,
            written_as(pointed),
        )
    figure, unit = parts
    if not unit:
        body = text.strip()
        raise fail(
            "length.without-unit",
            f"`{body}` has no unit",
            f"Add the unit, as in `{body} cm` or `{body} in`",
            span,
            (Fix(f"Write `{body} cm`", f"{body} cm"), Fix(f"Write `{body} in`", f"{body} in")),
        )
    if unit not in _UNITS:
        raise fail(
            "length.unknown-unit",
            f"`{unit}` is not a unit of length",
            "Use mm, cm, m, in or yd",
            span,
        )
    length = figure * MM_PER_UNIT[_UNITS[unit]]
    if abs(length) > _LARGEST_MM:
        raise fail("length.too-large", f"{_quoted(text)} is too long", "Shorten it", span)
    return float(length)


def parse_yarn(text: str, metres_per_gram: float, span: Span | None = None) -> float:
    """``3 m``, ``4 yd`` or ``2 g`` of a yarn as millimetres, at least 0.

    Raises ``PatternError`` for anything else.
    """
    parts = _split(text)
    if parts is not None and parts[1] in _WEIGHTS:
        mm = float(parts[0] * GRAMS_PER_UNIT[_WEIGHTS[parts[1]]]) * metres_per_gram * 1000
    else:
        mm = parse_length(text, span)
    if not 0 < mm <= _LARGEST_MM:
        raise fail(
            "yarn.takes",
            f"{_quoted(text)} is no amount of yarn",
            "Write a length or a weight, as in `3 m` or `2 g`",
            span,
        )
    return mm


def parse_ball(text: str, span: Span | None = None) -> tuple[float, float]:
    """``100 g = 180 m`` or ``50 g = 120 yd`` as grams and metres, both above zero.

    Either side may come first. Raises ``PatternError`` for anything else.
    """
    grams = metres = None
    for side in text.split("=", 2):
        parts = _split(side)
        if parts is None:
            raise fail(
                "ball.malformed",
                f"{_quoted(text)} doesn't say what a ball weighs and how long its yarn is",
                _BALL_HELP,
                span,
            )
        figure, unit = parts
        if unit in _WEIGHTS:
            grams = figure * GRAMS_PER_UNIT[_WEIGHTS[unit]]
        elif _UNITS.get(unit) in ("m", "yd"):
            metres = figure * MM_PER_UNIT[_UNITS[unit]] / 1000
        else:
            raise fail(
                "ball.unknown-unit",
                f"{_quoted(side)} is neither a weight nor a length of yarn",
                "Use g or oz for the weight, m or yd for the length, as in `100 g = 180 m`",
                span,
            )
        if not 0 < figure <= _LARGEST_BALL:
            raise fail(
                "ball.out-of-range", f"{_quoted(side)} can't be part of a ball", _BALL_HELP, span
            )
    if grams is None or metres is None or text.count("=") != 1:
        raise fail(
            "ball.malformed",
            f"{_quoted(text)} needs one weight and one length",
            _BALL_HELP,
            span,
        )
    return float(grams), float(metres)


def parse_figure(text: str) -> Fraction | None:
    """``8``, ``8.25``, ``8¼``, ``8 1/4`` or ``1/4``, exactly; ``None`` for anything else."""
    if _DECIMAL.fullmatch(text):
        return Fraction(text)
    if match := _FRACTION_CHARACTER.fullmatch(text):
        over, under = unicodedata.normalize("NFKC", match["part"]).split("⁄")
        return int(match["whole"] or 0) + Fraction(int(over), int(under))
    if (match := _FRACTION.fullmatch(text)) and int(match["under"]):
        return int(match["whole"] or 0) + Fraction(int(match["over"]), int(match["under"]))
    return None


def _split(text: str) -> tuple[Fraction, str] | None:
    """The signed figure and the unit in small letters; ``None`` if ``text`` is neither."""
    body = text.strip()
    if len(body) > _LONGEST_TEXT:
        return None
    sign = -1 if body[:1] in ("-", "−") else 1
    unsigned = body[1:].lstrip() if sign < 0 else body
    unit = _UNIT_AT_END.search(unsigned)
    written = unit[0] if unit else ""
    figure = parse_figure(unsigned[: len(unsigned) - len(written)].rstrip())
    return None if figure is None else (sign * figure, written.lower())


def _decimal_comma(text: str) -> bool:
    return len(text) <= _LONGEST_TEXT and re.search(r"[0-9],[0-9]", text) is not None


def _quoted(text: str) -> str:
    body = text.strip()
    return f"`{body}`" if len(body) <= _LONGEST_TEXT else f"`{body[:_LONGEST_TEXT]}…`"
