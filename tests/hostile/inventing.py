"""Rows, formulas, legends and prose made up from the words that a pattern may use."""

import random

STITCHES = (
    "k", "p", "sl", "k2tog", "k3tog", "p2tog", "ssk", "ssp", "sssk", "skp", "sk2p", "s2kp", "cdd",
    "psso", "yo", "m1", "m1l", "m1r", "kfb", "pfb", "mb", "sc", "ch", "dc", "hdc", "sl st", "knot",
    "2/2 RC", "3/3 LC", "1/1 RPC", "99/99 RC", "0/0 LC",
)  # fmt: skip
HOWS = ("purlwise", "knitwise", "wyib", "wyif", "tbl", "in slate", "with foam", "slate", "twice")
TARGETS = (
    "to end", "to end of round", "around", "all", "to last 3", "to last 3 sts", "to last stitch",
    "to marker", "to 2 before marker", "to 9999 before marker", "to corner", "to last 0",
)  # fmt: skip
WHOLES = (
    "pm", "sm", "rm", "turn", "w&t", "cast on 3", "pick up and knit 5", "bind off 2", "bind off",
    "hold 4 stitches", "hold to marker", "(k1, yo, k1) in next stitch", "fasten off",
    "3 sc in corner", "sc in each stitch to corner", "sc in each row-end", "bind off to end",
    "hold {half} stitches", "cast on {cast_on}", "sl st in first stitch", "sc in each chain",
)  # fmt: skip
NAMES = (
    "head", "around", "cast_on", "depth", "needles", "neck", "half", "wide", "narrow", "visible",
    "brim", "hand", "chest", "hip", "gusset", "cuff", "x",
)  # fmt: skip
FIGURES = (
    "0", "1", "2", "3", "4", "7", "8", "10", "12", "30", "96", "99", "1000", "0.5", "1.25", "5 cm",
    "21 cm", "1 m", "8 1/4 in", "2½ in", "95 %", "110%", "8 stitches", "12 rounds", "3 yd", "½",
)  # fmt: skip
HELPERS = (
    "stitches", "stitches_up", "stitches_down", "rounds", "rounds_up", "rows", "rows_down", "width",
    "height", "count", "nearest", "up", "down", "min", "max", "hand_stitches", "hand_width",
)  # fmt: skip
PROSE = (
    "{{ cast_on }}", "{{ sizes }}", "{{ depth }} and {{ depth }}", "{% if adult %}x{% endif %}",
    "# A heading", "###### Too deep", "- one\n- two\n  - three", "1. one\n2. two", "9999999999. x",
    "[here](https://ebbstow.example)", "[here](javascript:alert)", "[a](#nowhere)", "![x](p.png)",
    "**strong *both***", "`code`", "<b>x</b>", "> said", "---", "a\\\nb", "a  \nb", "| a |\n|---|",
    '"quoted" and \'single\'', "5 - 6", "20x30", "...", "Łódź, Ωμέγα, Чайка", "\u00ad", "\u2028",
    "a\u0301\u0302\u0303", "x" * 400, "k2tog then ssk", "US 7 (4.5 mm)", "&amp; & <", "{# note #}",
)  # fmt: skip


def row(dice: random.Random, depth: int = 3) -> str:
    """A row; mostly one that can be read."""
    parts = [_part(dice, depth) for _ in range(dice.choice((1, 1, 2, 3, 4, 6)))]
    return ", ".join(parts)


def _part(dice: random.Random, depth: int) -> str:
    kind = dice.randrange(10 if depth else 6)
    stitch = dice.choice(STITCHES)
    match kind:
        case 0 | 1:
            return f"{stitch}{dice.choice(('', '', '1', '2', '3', '8', '99', '{half}', '0'))}"
        case 2:
            return f"{stitch} {dice.choice(HOWS)}"
        case 3 | 4:
            return f"{stitch} {dice.choice(TARGETS)}"
        case 5:
            return dice.choice(WHOLES)
        case 6:
            return f"*{row(dice, depth - 1)}; repeat from * to end"
        case 7:
            until = dice.choice(("twice more", "9 times", "to last 4", "{half} more times"))
            return f"*{row(dice, depth - 1)}; repeat from * {until}"
        case 8:
            return f"[{row(dice, depth - 1)}] {dice.choice(('twice', '3 times', '9999 times'))}"
        case _:
            return f"({row(dice, depth - 1)}) {dice.choice(TARGETS)}"


def formula(dice: random.Random, depth: int = 3) -> str:
    """A formula; often one that comes to a figure."""
    if not depth or dice.random() < 0.2:
        return dice.choice(dice.choice((NAMES, FIGURES)))
    one, two = formula(dice, depth - 1), formula(dice, depth - 1)
    match dice.randrange(8):
        case 0 | 1 | 2:
            return f"{one} {dice.choice('+-*/')} {two}"
        case 3 | 4:
            more = dice.choice(("", "", ", multiple = 4", ", multiple = 8, plus = 2", f", {two}"))
            return f"{dice.choice(HELPERS)}({one}{more})"
        case 5:
            return f"({one})"
        case 6:
            sign = dice.choice(("<", "<=", "==", "!=", ">"))
            return f"{one} if {two} {sign} {dice.choice(FIGURES)} else {two}"
        case _:
            return f"-{one}"


def prose(dice: random.Random) -> str:
    """Words for a reader, with marks among them."""
    parts = [dice.choice(PROSE) for _ in range(dice.choice((1, 1, 2, 3)))]
    return dice.choice((" ", "\n", "\n\n")).join(parts)


def legend(dice: random.Random, yarns: tuple[str, ...]) -> dict[str, object]:
    """What grid characters mean: yarns, stitches, or both."""
    found: dict[str, object] = {}
    for character in dice.sample((".", "#", "~", "w", "r", "y", "k", "-", "/", "🧶", "é"), 4):
        yarn, stitch = dice.choice(yarns or ("slate",)), dice.choice(STITCHES)
        both = {"yarn": yarn, "stitch": stitch}
        found[character] = dice.choice((yarn, yarn, stitch, both))
    return found
