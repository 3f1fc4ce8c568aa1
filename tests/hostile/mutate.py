"""Changes a sound source as a slip, a bad editor or an ill-meaning stranger would."""

import json
import random
import re
from collections.abc import Callable, Mapping

from bindoff.files import packaged_template
from tests.hostile.grafts import Donors, grafted
from tests.hostile.inventing import prose

Sources = Mapping[str, str]

FRAGMENTS = (
    "{{ ''.__class__ }}",
    "{{ name",
    "{% for a in b %}",
    "{{ loop.index }}",
    "{{ cast_on }}",
    "{% if sizes %}",
    "\\",
    '"',
    "'",
    "`",
    "*",
    "&a ",
    "*a",
    "!!python/object:os.system",
    "<<: *a",
    "[",
    "]",
    "{",
    "}",
    ": ",
    "- ",
    "\t",
    "\x00",
    "\x1b[31m",
    "\u202e",
    "\u200b",
    "\ufeff",
    "\U000f0000",
    "\U0001f9f6",
    "é",
    "ǆ",
    "ı",
    "٣",
    "½",
    "9999999999",
    "-1",
    "0",
    "1e308",
    ".nan",
    ".inf",
    "0.000000000000001",
    "100000000000000",
    "10**10**10",
    "1 / 0",
    "- 20",
    "0 cm",
    "-3 cm",
    "999999 m",
    "1000 in",
    "k all",
    "p all",
    "*k2, p2; repeat from * to end",
    "*k1; repeat from * 9999 times",
    "k9999",
    "k0",
    "(k2tog, yo) 9999 times",
    "*(k1, *p1; repeat from * 99 times) 99 times; repeat from * to end",
    "k to marker",
    "k to last 3",
    "pm",
    "hold 3 stitches",
    "k{cast_on}",
    "stitches(10 cm, multiple = 0)",
    "nearest(1, 0)",
    "width(0)",
    "height(-5)",
    "true",
    "null",
    "~",
    "all",
    "same",
    "from plan",
    "start",
    "# ",
    "|\n",
    ">-\n",
    "---\n",
    "\r",
    "\u2028",
    "../../etc/passwd",
    "/dev/zero",
)
NUMBERS = (
    "0", "1", "2", "3", "7", "8", "60", "99", "100", "400", "1000", "9999", "100000",
    "1000000", "999999999", "-1", "-8", "0.1", "0.5", "1.5", "0.000001", "1e9", "00", "1.", ".5",
)  # fmt: skip
TEMPLATES = (
    "notes/care.md",
    "notes/gauge.md",
    "notes/licence.md",
    "notes/sizes-and-ease.md",
    "notes/yarn-amounts.md",
    "safety/adult.md",
    "safety/hands.md",
    "techniques/weaving-in-ends.md",
    "techniques/stranded-knitting.md",
    "techniques/duplicate-stitch.md",
    "techniques/grafting.md",
)
GRID_CHARACTERS = ".#~wryk-/\\ \t\u0301x0🧶"

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_PROSE = re.compile(r"(say|note|notes|care|finishing|summary|alt|caption|how|title): (.+)$", re.M)
_TOKEN = re.compile(r"\w+|[^\w\s]|\s+")


def mutated(sources: Sources, dice: random.Random, donors: Donors) -> dict[str, str]:
    """``sources`` (file name to text) with one to four changes, one file each.

    A picture is text too, a character for each byte.
    """
    changed = dict(sources)
    if dice.random() < 0.06:
        return _swollen(changed, dice)
    for _ in range(dice.choice((1, 1, 1, 2, 2, 3, 4))):
        kind = dice.random()
        others = [name for name in changed if name != "pattern.yaml"]
        if kind < 0.2 and others:
            name = dice.choice(others)
            changed[name] = _other(name, changed[name], dice)
        elif kind < 0.25:
            name = dice.choice(TEMPLATES)
            own = changed.get(f"templates/{name}") or packaged_template(name) or ""
            changed[f"templates/{name}"] = _template(own, dice)
        elif kind < 0.75:
            text = grafted(changed["pattern.yaml"], dice, donors)
            changed["pattern.yaml"] = text or _slip(changed["pattern.yaml"], dice)
        else:
            changed["pattern.yaml"] = _slip(changed["pattern.yaml"], dice)
    return changed


MARKS = (
    "*a ", "_a*", "**a_ ", "[a](b", "![a ", "a@", "1", "1,", "{{ ", "{% if sizes %}", "- ", "a\n\n",
    "`a", '"a ', "&amp;", "<a ", "# a\n\n", "5 cm (2 in) ", "4.5 mm ", "k2tog ",
    "{% for a in sizes %}x",
)  # fmt: skip
NAMES = (
    ("measures:", "  m@: nosuch@ * 2"), ("measures:", "  m@: m@ / 2"), ("measures:", "  m@: 3 cm"),
    ("yarns:", "  y@: {nmae: Y}"), ("tools:", "  - {name: @ mm needle}"), ("charts:", "  c@: {}"),
    ("finished:", "  F@: width(nosuch@)"), ("finished:", "  Height F@: height(@)"),
    ("sizes:", "  S@: {hed: 3 cm}"), ("wearer:", "  - x@"),
    ("pieces:", "  p@: {title: P, yarn: no@, steps: [cast on: 8, gather: all]}"),
)  # fmt: skip
NEIGHBOURS = (
    "\udce9.grid", "\u202e.grid", "a\x1b[31m.md", "a\nerror: fake.grid", "con", "nul.grid",
    "é.grid",
    "templates/notes/\udcff.md", "templates/notes/care.md~", ".swp", "x" * 250, "pattern.yml",
)  # fmt: skip


FLAT = (
    "  q@: {title: Q, worked: flat, steps: [{cast on: @}, {work: [k all, p all], times: 4}, "
    "{bind off: all}]}\n"
)


def _swollen(changed: dict[str, str], dice: random.Random) -> dict[str, str]:
    """A long run of one mark, thousands of names, many sizes of a large chart, grids in which no
    row is like another, hundreds of steps, many flat pieces, odd neighbours."""
    text = changed["pattern.yaml"]
    match dice.randrange(7):
        case 0:
            mark = dice.choice(MARKS)
            run = mark * (dice.choice((300, 4000, 19_000)) // len(mark))
            end = dice.choice(("", "*", "]", "{% endif %}", "{% endfor %}" * 30))
            texts = list(_PROSE.finditer(text))
            if not texts or dice.random() < 0.3:
                changed[f"templates/{dice.choice(TEMPLATES)}"] = run + end
                return changed
            chosen = dice.choice(texts)
            said = json.dumps(run + end, ensure_ascii=False)
            changed["pattern.yaml"] = text[: chosen.start(2)] + said + text[chosen.end(2) :]
        case 1:
            before, entry = dice.choice(NAMES)
            more = "\n".join(
                entry.replace("@", str(number)) for number in range(dice.choice((60, 900, 4000)))
            )
            changed["pattern.yaml"] = text.replace(f"{before}\n", f"{before}\n{more}\n", 1)
        case 2:
            sizes = "".join(f"  Z{n}: {{head: {40 + n / 4} cm}}\n" for n in range(38))
            changed["pattern.yaml"] = text.replace("sizes:\n", f"sizes:\n{sizes}", 1)
            for name in [each for each in changed if each.endswith(".grid")]:
                lines = changed[name].split("\n")
                wide = [line * dice.choice((1, 8, 25)) for line in lines if line]
                changed[name] = "\n".join(wide * dice.choice((1, 10, 60))) + "\n"
        case 3:
            for name in [each for each in changed if each.endswith(".grid")]:
                across, high = dice.choice(((8, 300), (48, 90), (96, 90), (200, 60)))
                characters = sorted(set(changed[name]) - {"\n"}) or ["."]
                lines = ["".join(dice.choices(characters, k=across)) for _ in range(high)]
                changed[name] = "\n".join(lines) + "\n"
        case 4:
            lines = text.split("\n")
            places = [at for at, line in enumerate(lines) if line.startswith("      - ")]
            if places:
                at = dice.choice(places)
                lines[at:at] = [lines[at]] * dice.choice((40, 160, 470))
                changed["pattern.yaml"] = "\n".join(lines)
        case 5:
            pieces = "".join(FLAT.replace("@", str(number)) for number in range(10, 100))
            changed["pattern.yaml"] = text.replace("pieces:\n", f"pieces:\n{pieces}", 1)
        case _:
            for name in dice.sample(NEIGHBOURS, 4):
                changed[name] = dice.choice(("", "....\n", text))
    return changed


def _slip(text: str, dice: random.Random) -> str:
    return dice.choice(_CHANGES)(text, dice)


def _other(name: str, text: str, dice: random.Random) -> str:
    if name.endswith(".grid"):
        return _grid(text, dice)
    return _template(text, dice) if name.endswith(".md") else picture(text, dice)


def _line(text: str, dice: random.Random) -> tuple[list[str], int]:
    lines = text.split("\n")
    return lines, dice.randrange(len(lines))


def _delete(text: str, dice: random.Random) -> str:
    lines, at = _line(text, dice)
    del lines[at : at + dice.choice((1, 1, 1, 2, 5))]
    return "\n".join(lines)


def _double(text: str, dice: random.Random) -> str:
    lines, at = _line(text, dice)
    block = lines[at : at + dice.choice((1, 1, 2, 4))]
    lines[at:at] = block * dice.choice((1, 1, 1, 2, 30))
    return "\n".join(lines)


def _move(text: str, dice: random.Random) -> str:
    lines, at = _line(text, dice)
    other = dice.randrange(len(lines))
    lines[at], lines[other] = lines[other], lines[at]
    return "\n".join(lines)


def _indent(text: str, dice: random.Random) -> str:
    lines, at = _line(text, dice)
    step = dice.choice((-4, -2, -1, 1, 2, 4))
    lines[at] = " " * step + lines[at] if step > 0 else lines[at][-step:]
    return "\n".join(lines)


def _number(text: str, dice: random.Random) -> str:
    found = list(_NUMBER.finditer(text))
    if not found:
        return text
    match = dice.choice(found)
    return text[: match.start()] + dice.choice(NUMBERS) + text[match.end() :]


def _token(text: str, dice: random.Random) -> str:
    """A token in the place of another one."""
    found = [match for match in _TOKEN.finditer(text) if not match[0].isspace()]
    if not found:
        return text
    into, out = dice.choice(found), dice.choice(found)
    return text[: into.start()] + out[0] + text[into.end() :]


def _drop_token(text: str, dice: random.Random) -> str:
    found = list(_TOKEN.finditer(text))
    if not found:
        return text
    match = dice.choice(found)
    return text[: match.start()] + text[match.end() :]


def _insert(text: str, dice: random.Random) -> str:
    at = dice.randrange(len(text) + 1)
    return text[:at] + dice.choice(FRAGMENTS) + text[at:]


def _value(text: str, dice: random.Random) -> str:
    """A fragment, or another line's value, as the value of a line."""
    lines, at = _line(text, dice)
    key, colon, _ = lines[at].partition(": ")
    if colon:
        other = dice.choice(lines).partition(": ")[2] or "x"
        lines[at] = f"{key}: {dice.choice((dice.choice(FRAGMENTS), other, dice.choice(NUMBERS)))}"
    return "\n".join(lines)


def _cut(text: str, dice: random.Random) -> str:
    return text[: dice.randrange(len(text) + 1)]


def _grid(text: str, dice: random.Random) -> str:
    lines, at = _line(text, dice)
    match dice.randrange(11):
        case 0:
            del lines[at]
        case 1:
            lines[at:at] = [lines[at]] * dice.choice((1, 1, 3, 60, 1000))
        case 2:
            lines = [line * dice.choice((2, 2, 3, 30, 300)) for line in lines]
        case 3:
            lines = [line[:1] for line in lines]
        case 4:
            width = max(map(len, lines), default=0)
            padded = [line.ljust(width, ".") for line in lines]
            lines = ["".join(column) for column in zip(*padded, strict=True)]
        case 5:
            lines = [line[::-1] for line in lines]
        case 6:
            old, new = dice.choice("".join(lines) or "."), dice.choice(GRID_CHARACTERS)
            lines = [line.replace(old, new) for line in lines]
        case 7:
            characters = "".join(sorted(set("".join(lines)))) or "."
            side = dice.choice((1, 2, 5, 24, 60))
            lines = ["".join(dice.choices(characters, k=side)) for _ in range(side)]
        case 8:
            return dice.choice(("\r\n", "\r", "\n\n", " \n", "\t\n")).join(lines)
        case _:
            place = dice.randrange(len(lines[at]) + 1)
            rest = lines[at][place + 1 :]
            lines[at] = lines[at][:place] + dice.choice(GRID_CHARACTERS) + rest
    return "\n".join(lines)


def _template(text: str, dice: random.Random) -> str:
    match dice.randrange(5):
        case 0:
            return prose(dice)
        case 1:
            lines, at = _line(text, dice)
            lines[at:at] = [prose(dice)]
            return "\n".join(lines)
        case _:
            return _slip(text, dice)


def picture(data: str, dice: random.Random) -> str:
    """Bytes that a bad disk or a bad line has changed."""
    at = dice.randrange(len(data) + 1)
    match dice.randrange(4):
        case 0:
            return data[:at]
        case 1:
            return data[:at] + data[at : at + 30] * dice.choice((2, 9)) + data[at + 30 :]
        case _:
            for _ in range(dice.choice((1, 1, 3, 20))):
                at = dice.randrange(len(data) + 1)
                data = data[:at] + chr(dice.randrange(256)) + data[at + 1 :]
            return data


_CHANGES: tuple[Callable[[str, random.Random], str], ...] = (
    *(_number,) * 5,
    *(_value,) * 4,
    *(_token,) * 4,
    *(_drop_token,) * 2,
    *(_delete,) * 3,
    *(_double,) * 2,
    _move,
    _indent,
    _insert,
    _insert,
    _cut,
)
