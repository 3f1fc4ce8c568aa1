"""Hostile patterns by name: each a set of files, and the ids of which one must be reported.

``None`` among the ids means that the pattern may also be built.
"""

import io
import os
import random
import struct
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field

from PIL import Image

from tests.small_patterns import CAP, FLAP, TUBE, WAVES, changed


@dataclass(frozen=True, slots=True)
class Case:
    """A hostile pattern; ``links`` are symbolic links by name."""

    text: str | bytes
    ids: tuple[str | None, ...]
    files: Mapping[str, str | bytes] = field(default_factory=dict)
    links: Mapping[str, str] = field(default_factory=dict)


def _cap(*changes: tuple[str, str]) -> str:
    return changed(CAP, *changes)


def _say(prose: str) -> str:
    return _cap(("      - crown: 8", f"      - say: {prose!r}\n      - crown: 8"))


def _row(row: str) -> str:
    return _cap(('"*k2, p2; repeat from * to end"', f'"{row}"'))


def _measure(formula: str) -> str:
    return _cap(("head * 95 %", formula))


def _photo(data: bytes, name: str = "p.png") -> Case:
    text = CAP + f"photos:\n  - {{file: {name}, alt: A cap}}\n"
    return Case(text, ("pdf.photo", "source.photo"), {name: data})


def _huge_png(side: int = 60_000) -> bytes:
    """A valid head of a picture that would fill gigabytes, in a few bytes."""

    head = struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0)
    rows = zlib.compress(bytes(5_000_000), 9)
    parts = ((b"IHDR", head), (b"IDAT", rows), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(kind, data) for kind, data in parts)


def _clear_png(side: int) -> bytes:
    out = io.BytesIO()
    Image.new("RGBA", (side, side), (90, 9, 9, 90)).save(out, "PNG")
    return out.getvalue()


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def _swollen_png() -> bytes:
    """A sound picture whose compressed remark holds 300 MB in 300 KB."""
    whole = _picture("PNG")
    text = zlib.compress(bytes(300_000_000), 9)
    return whole[:-12] + _chunk(b"zTXt", b"Comment\0\0" + text) + whole[-12:]


def _says(prose: str, times: int) -> str:
    return _cap(("      - crown: 8", f"      - say: {prose!r}\n" * times + "      - crown: 8"))


def _many(before: str, entry: str, times: int) -> str:
    """The cap with so many entries more after a line; ``@`` in one is its number."""
    return _cap((before, before + "".join(entry.replace("@", str(n)) for n in range(times))))


def _forty_sizes() -> str:
    """The cap in forty sizes of 400 stitches, so that a chart of 200 is worked twice in each."""
    return _cap(
        ("  M: {head: 56 cm}\n", FORTY_SIZES),
        ("[20 cm, 21 cm]", "20 cm"),
        ("rounds(depth) - 30", "4"),
        ("stitches(around, multiple = 8)", "400"),
    )


def _noise(stitches: int, rounds: int) -> str:
    """A grid in which no round is like another, nor long of one yarn."""
    dice = random.Random(7)
    return "".join("".join(dice.choices(".#", k=stitches)) + "\n" for _ in range(rounds))


def _crossed(stitches: int, rounds: int) -> str:
    """A grid of crosses among knit and purl stitches, a multiple of four of them."""
    dice = random.Random(7)
    parts = ("kkkk", "kppk", "llll", "rrrr")
    return "".join("".join(dice.choices(parts, k=stitches // 4)) + "\n" for _ in range(rounds))


def _crosses() -> str:
    """The cap with a chart of crosses all over."""
    return _cap(
        ('{".": slate, "#": foam}', "{k: k, p: p, l: 2/2 LC, r: 2/2 RC}"),
        ('  foam: {name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}\n', ""),
        ("[20 cm, 21 cm]", "60 cm"),
        ("stitches(around, multiple = 8)", "400"),
    )


def _steps_in_forty_sizes() -> str:
    """The cap in forty sizes with hundreds of steps, one row in each."""
    row = '      - work: "*k1, yo, k2tog, p1; repeat from * to end"\n        rounds: @\n'
    steps = "".join(row.replace("@", str(number % 4 + 1)) for number in range(300))
    return changed(_forty_sizes(), ("400", "80"), ("      - crown", steps + "      - crown"))


def _pieces_in_forty_sizes() -> str:
    """The flap in forty sizes with ninety flat pieces, each of another width."""
    piece = (
        "  p@: {title: P, worked: flat, steps: "
        "[{cast on: @}, {work: [k all, p all], times: 5}, {bind off: all}]}\n"
    )
    pieces = "".join(piece.replace("@", str(number)) for number in range(10, 100))
    sizes = "".join(f"  M{number}: {{neck: {34 + number / 8} cm}}\n" for number in range(1, 40))
    return changed(
        FLAP,
        ("  M: {neck: 38 cm}\n", sizes),
        ("[20, 24]", "20"),
        ("[10, 12]", "10"),
        ("pieces:\n", "pieces:\n" + pieces),
    )


def _picture(format: str, side: int = 40) -> bytes:
    out = io.BytesIO()
    Image.effect_noise((side, side), 60).convert("RGB").save(out, format)
    return out.getvalue()


ALIASES = "a: &a [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{b}: &{b} [{', '.join([f'*{a}'] * 10)}]\n"
    for a, b in zip("abcdefgh", "bcdefghi", strict=True)
)
LINKED = ("file.unreadable", "file.missing")
LARGE = "\n".join(["." * 250] * 400) + "\n"
CHARTS = "".join(
    f"  c{number}: {{title: C, grid: w.grid, legend: {{'.': foam}}, alt: A light ground}}\n"
    for number in range(9)
)
FORTY_SIZES = "".join(f"  M{n}: {{head: {40 + n / 4} cm}}\n" for n in range(39))
STRANDED = "\n".join("".join(".#"[(x // 7 + y) % 2] for x in range(200)) for y in range(150)) + "\n"
NOISE = _noise(200, 150)
NEVER = "{never base: [" + "no, " * 4000 + "no]}"
WIDE = "\n".join(["." * 1000] * 1000) + "\n"

CASES: Mapping[str, Case] = {
    # ------------------------------------------------------------ YAML
    "alias bomb": Case(ALIASES, ("yaml.limit",)),
    "alias loop": Case("a: &a [*a]\n", ("yaml.loop",)),
    "deep brackets": Case("a: " + "[" * 20_000, ("yaml.limit",)),
    "deep braces": Case("{a: " * 20_000, ("yaml.limit",)),
    "duplicate keys": Case(CAP + "title: Other\n", ("yaml.twice",)),
    "a tag that runs code": Case("a: !!python/object:os.system x\n", ("yaml.needs-quotes",)),
    "a hundred megabytes": Case(b"a: 1\n" * 20_000_000, ("file.too-large",)),
    "many values": Case("a: [" + "1, " * 60_000 + "1]\n", ("yaml.limit",)),
    "UTF-16": Case(CAP.encode("utf-16"), ("file.encoding",)),
    "Latin-1": Case(_cap(("Quay Cap", "Qué Cap")).encode("latin-1"), ("file.encoding",)),
    "invalid UTF-8": Case(b"title: \xc3\x28\n", ("file.encoding",)),
    "NUL": Case(CAP.replace("Quay", "Qu\0y"), ("file.binary",)),
    "control character": Case(CAP.replace("Quay", "Qu\x1b[31my"), ("yaml.character",)),
    "right-to-left override": Case(CAP.replace("Quay", "Qu\u202ey"), ("yaml.character",)),
    "right-to-left mark in a remark": Case(CAP + "# x \u200f y\n", ("yaml.character",)),
    "not a number": Case(_cap(("stitches: 20", "stitches: .nan")), ("source.value",)),
    "infinite": Case(_cap(("stitches: 20", "stitches: .inf")), ("source.value",)),
    "a negative gauge": Case(_cap(("stitches: 20", "stitches: -20")), ("source.value",)),
    "empty": Case("", ("yaml.empty",)),
    # ------------------------------------------------------------ prose
    "reaching for a class": Case(_say("{{ ''.__class__ }}"), ("prose.braces", "prose.name")),
    "reaching for a class by filter": Case(_say("{{ around | attr('x') }}"), ("prose.braces",)),
    "nested loops": Case(
        _say("{% for a in sizes %}{% for b in sizes %}{% for c in sizes %}x" + "{% endfor %}" * 3),
        ("prose.braces",),
    ),
    "a power": Case(_say("{{ 10**10**10 }}"), ("prose.braces",)),
    "deep brackets in braces": Case(_say("{{ " + "(" * 5000), ("prose.braces",)),
    "many emphases": Case(_say("*" * 15_000), (None, "prose.markdown")),
    "a text without end": Case(_say("[" * 50_000), ("prose.long",)),
    "a run of stars": Case(_say("*a " * 6000), (None,)),
    "a run of unclosed links": Case(_say("[a](b" * 4000), (None,)),
    "a run of digits": Case(_say("1" * 19_000), (None,)),
    "a run of at signs": Case(_say("@" * 19_000), (None,)),
    "a book of figures": Case(_says("Knit 24 stitches. " * 1000, 3), (None,)),
    "a sentence of figures": Case(_says("every 4th round 3 times, then " * 600, 3), (None,)),
    "a book": Case(_says("*a* " * 4900, 24), ("source.long",)),
    "many texts that grow": Case(
        _says("{% for a in sizes %}{% for b in sizes %}a{% endfor %}{% endfor %}", 90),
        ("source.long",),
    ),
    "conditions in one another": Case(
        _say("{% if sizes %}" * 200 + "x" + "{% endif %}" * 200), ("prose.braces",)
    ),
    "many links": Case(_say("[" * 20_000), (None, "prose.markdown")),
    # ------------------------------------------------------------ formulas
    "a power in a formula": Case(_measure("10**10**10"), ("formula.syntax",)),
    "a large product": Case(_measure("999999999 * 999999999 * head"), ("formula.too-large",)),
    "deep brackets in a formula": Case(
        _measure("(" * 400 + "head" + ")" * 400), (None, "formula.too-deep")
    ),
    "a deep formula": Case(_measure("-" * 900 + "head"), ("formula.too-deep",)),
    "a long sum": Case(_measure("head" + " + head" * 5000), ("formula.too-long",)),
    "division by nearly zero": Case(
        _measure("head / 0.000000000000001"), ("formula.too-large",)
    ),
    "division by zero": Case(_measure("head / 0"), ("formula.zero", "formula.division")),
    "a measure of itself": Case(_measure("depth + around"), ("formula.loop",)),
    "thousands of unknown names": Case(
        _many("measures:\n", "  m@: nosuch@ * 2\n", 4000), ("formula.unknown-name",)
    ),
    "thousands of loops": Case(_many("measures:\n", "  m@: m@ * 2\n", 3000), ("formula.loop",)),
    "thousands of misspelt keys": Case(
        _many("yarns:\n", "  y@: {nmae: Y, colur: '#000000', wieght: 4}\n", 1500),
        ("source.unknown-key",),
    ),
    "thousands of unknown yarns": Case(
        _cap(("    title: Cap\n", f"    title: Cap\n    colour plan: {NEVER}\n")),
        ("source.unknown-yarn",),
    ),
    # ------------------------------------------------------------ rows
    "nested repeats": Case(
        _row("((k1, p1) 9999 times, k1) 9999 times"), ("row.large",)
    ),
    "repeat 9999 by 9999": Case(_row("*(k1) 9999 times; repeat from * 9999 times"), ("row.times",)),
    "deep brackets in a row": Case(_row("(" * 3000 + "k1" + ")" * 3000), ("row.long",)),
    "a long row": Case(_row("k1, " * 12_000 + "k1"), ("row.long",)),
    "a row of many parts": Case(_row("k1, " * 900 + "k1"), ("row.too-many",)),
    "a regular-expression trap": Case(_row("a" * 50_000 + "!"), ("row.long", "row.unreadable")),
    "rounds without end": Case(_cap(("rounds: 8", "rounds: 1000000")), ("amount.large",)),
    # ------------------------------------------------------------ figures
    "a tiny gauge": Case(
        _cap(("stitches: 20", "stitches: 0.000000001")), ("gauge.beyond",)
    ),
    "a ball of nothing": Case(_cap(("100 g = 200 m", "0 g = 200 m")), ("ball.out-of-range",)),
    "an endless ball": Case(_cap(("100 g = 200 m", "100 g = 1e300 m")), ("ball.malformed",)),
    "a negative length": Case(_cap(("S: {head: 52 cm}", "S: {head: -52 cm}")), ("length.none",)),
    "a tube of 20 m on 400 needles": Case(
        changed(TUBE, ("needles: 24", "needles: 400"), ("[10 cm, 11 cm]", "20 m")), ("tube.large",)
    ),
    # ------------------------------------------------------------ files
    "a grid of a million stitches": Case(CAP, ("grid.too-large",), {"waves.grid": WIDE}),
    "a large chart in forty sizes": Case(_forty_sizes(), (None,), {"waves.grid": STRANDED}),
    "a chart of noise in forty sizes": Case(_forty_sizes(), (None,), {"waves.grid": NOISE}),
    "crosses all over": Case(_crosses(), (None,), {"waves.grid": _crossed(200, 100)}),
    "hundreds of steps in forty sizes": Case(_steps_in_forty_sizes(), (None,)),
    "ninety flat pieces in forty sizes": Case(_pieces_in_forty_sizes(), (None,)),
    "neighbours whose names are no text": Case(
        CAP, (None,), {os.fsdecode(b"caf\xe9.grid"): WAVES, "\u202e.grid": WAVES, "a\x1b.md": ""}
    ),
    "many large grids": Case(
        changed(CAP, ("pieces:", CHARTS + "pieces:")), ("grid.too-large",), {"w.grid": LARGE}
    ),
    "a thousand photographs": Case(
        CAP + "photos:\n" + "  - {file: p.png, alt: A cap}\n" * 1000,
        ("source.value",),
        {"p.png": _picture("PNG")},
    ),
    "a grid beyond all sides": Case(CAP, ("grid.too-large",), {"waves.grid": "." * 5000}),
    "a path that leads out": Case(_cap(("waves.grid", "../waves.grid")), ("file.name",)),
    "an absolute path": Case(_cap(("waves.grid", "/dev/zero")), ("file.name",)),
    "a link that leads out": Case(CAP, LINKED, {}, {"waves.grid": "/etc/hostname"}),
    "a link to itself": Case(CAP, LINKED, {}, {"waves.grid": "waves.grid"}),
    "an endless device": Case(CAP, LINKED, {}, {"waves.grid": "/dev/zero"}),
    "a picture that swells": _photo(_huge_png()),
    "a large clear picture": Case(
        CAP + "photos:\n  - {file: p.png, alt: A cap}\n", (None,), {"p.png": _clear_png(7700)}
    ),
    "a remark that swells": _photo(_swollen_png()),
    "half a picture": _photo(_picture("PNG")[:900]),
    "half a JPEG": _photo(_picture("JPEG")[:500], "p.jpg"),
    "a picture that is none": _photo(b"GIF89a not at all"),
    "a picture of another kind": _photo(_picture("BMP")),
    # ------------------------------------------------------------ letters
    "emoji": Case(_cap(("Quay Cap", "Quay 🧶 Cap")), ("font.glyph",)),
    "Thai": Case(_cap(("Quay Cap", "หมวก")), ("font.glyph",)),
    "Hebrew": Case(_cap(("Quay Cap", "כובע")), ("font.glyph",)),
    "Latin-2, Greek, Cyrillic": Case(
        _cap(("Quay Cap", "Čepice Łódź"), ("The Ebbstow", "Σκούφος Шапка")), (None, "font.glyph")
    ),
}  # fmt: skip

# What the message must name, or the place it points to must show.
NAMED: Mapping[str, str] = {
    "alias bomb": "*",
    "alias loop": "*a",
    "deep brackets": "[",
    "deep braces": "{",
    "duplicate keys": "title",
    "a tag that runs code": "!!python/object:os.system",
    "a hundred megabytes": "pattern.yaml",
    "many values": "1",
    "UTF-16": "UTF-16",
    "Latin-1": "0xe9",
    "invalid UTF-8": "0xc3",
    "NUL": "pattern.yaml",
    "control character": "U+001B",
    "right-to-left override": "U+202E",
    "right-to-left mark in a remark": "U+200F",
    "not a number": ".nan",
    "infinite": ".inf",
    "a negative gauge": "-20",
    "empty": "the file says nothing",
    "reaching for a class": "__class__",
    "reaching for a class by filter": "attr",
    "nested loops": "for",
    "a power": "10**10**10",
    "deep brackets in braces": "((((",
    "many emphases": "****",
    "a text without end": "50,000",
    "a book": "470,",
    "many texts that grow": "90 texts",
    "conditions in one another": "{% if sizes %}",
    "thousands of unknown names": "nosuch0",
    "thousands of loops": "m0",
    "thousands of misspelt keys": "nmae",
    "thousands of unknown yarns": "4,000 more places",
    "a remark that swells": "p.png",
    "a power in a formula": "*",
    "a large product": "999999999 * 999999999",
    "a deep formula": "----",
    "a long sum": "1000 characters",
    "division by nearly zero": "0.000000000000001",
    "division by zero": "0",
    "a measure of itself": "around",
    "nested repeats": "9999 times",
    "repeat 9999 by 9999": "9999 times",
    "deep brackets in a row": "(((",
    "a long row": "48,002",
    "a row of many parts": "901 stitches",
    "a regular-expression trap": "50,001",
    "rounds without end": "1000000",
    "a tiny gauge": "mm wide",
    "a ball of nothing": "0 g",
    "an endless ball": "1e300 m",
    "a negative length": "-52 cm",
    "a tube of 20 m on 400 needles": "400 stitches",
    "a grid of a million stitches": "1,000,000 stitches",
    "many large grids": "100,0",
    "a thousand photographs": "photos",
    "a grid beyond all sides": "5000 stitches",
    "a path that leads out": "../waves.grid",
    "an absolute path": "/dev/zero",
    "a link that leads out": "waves.grid",
    "a link to itself": "waves.grid",
    "an endless device": "waves.grid",
    "a picture that swells": "p.png",
    "half a picture": "p.png",
    "half a JPEG": "p.jpg",
    "a picture that is none": "p.png",
    "a picture of another kind": "p.png",
    "emoji": "U+1F9F6",
    "Thai": "U+0E2B",
    "Hebrew": "U+05DB",
}
PLACELESS = frozenset({"a hundred megabytes"})
"""No place in the file: the whole of it is the fault, and it isn't read."""


def files_of(case: Case) -> dict[str, str | bytes]:
    """All files of a case; the waves are there unless the case has its own or a link."""
    waves = {} if "waves.grid" in case.links else {"waves.grid": WAVES}
    return {**waves, **case.files, "pattern.yaml": case.text}
