"""Left and right, and the sides of rows, as texts tell them beside what is worked."""

from collections.abc import Iterator
from itertools import pairwise

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.checks.texts.shoulders import shoulders_told
from bindoff.checks.texts.thumbs import thumbs_told
from bindoff.checks.walk import At, charts_worked, parts_of, step_told, steps_of
from bindoff.diagnostics import Severity
from bindoff.source.model import TextUse
from bindoff.source.rowlang.syntax import Alter, CountChange, Fill, Row, Work
from bindoff.source.steps.step import REMARKS
from bindoff.source.steps.work import WorkStep

_SIDED = re.compile(r"\b(?:left|right)\b", re.IGNORECASE)
_OF_ONE = re.compile(
    r"\bfor the (?:left|right)\b|\b(?:left|right) (?:hand|foot|mitt\w*|socks?|gloves?|slippers?"
    r"|sleeves?|fronts?|ones?|thumbs?|ears?|wings?|warmers?|wristers?|legs?|arms?|cuffs?)\b"
    r"(?! needle)",
    re.IGNORECASE,
)
_EXCEPT = re.compile(
    r"\b(?:but|except|apart|save|only|charts?|leans?|decreases?|increases?|cables?|stitch(?:es)?"
    r"|if|would|unless)\b",
    re.IGNORECASE,
)
_PAIR = (
    r"(?:(?:right|left) and (?:the )?(?:left|right)|both(?: \w+)?|the two(?: \w+)?|the pair|they"
    r"|the (?:second|other)(?: one| \w+)?)"
)
_MIRRORED = re.compile(
    rf"\b{_PAIR} (?:is|are) (?:each other's |a |the )?(?:mirror(?:ed| images?)|reversed|different"
    rf"|not (?:the same|alike|identical))\b"
    rf"|\b{_PAIR} (?:mirrors?|differs?)\b"
    r"|\bthe (?:left|right)(?: \w+){0,2} (?:mirrors?|is (?:the |a )?mirror(?:ed)?(?: image)?(?: "
    r"of)?"
    r"|is (?:the )?reverse(?:d)?(?: of)?) the (?:left|right|other)\b"
    r"|\bmirror each other\b"
    r"|\bthere is an? (?:left|right) (?:\w+ )?and an? (?:left|right)\b",
    re.IGNORECASE,
)
_FOR_ONE = re.compile(
    r"\bone for the (left|right)\b[^.]{0,80}\b(?:mirrored|reversed?|mirror image)\b", re.IGNORECASE
)


@check(
    id="prose.hands",
    title="Left and right in the text are those of the work",
    looks_at="pairs made alike that are said to be mirrored, the order of left and right parts, "
    "the shoulder at which rounds begin, increases at the beginning and the end, sole and instep "
    "by half rounds, the way a chart is read, and rows on the right or the wrong side that change "
    "the count",
    why="a sleeve comes out on the other side, or a heel on the top of the foot",
    severity=Severity.WARNING,
    remedy="Exchange the two, or correct the rows",
)
def hands_told(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    yield from shoulders_told(context) if context.in_english else ()
    alike = _made_alike(context)
    for sentence in sentences(context):
        for found in _MIRRORED.finditer(sentence.words) if alike else ():
            if not _EXCEPT.search(sentence.words):
                yield _unlike(f"`{found[0]}` stands here, and the two", sentence, found)
        for found in _FOR_ONE.finditer(sentence.words) if _is_twice(context, sentence) else ():
            yield _unlike(f"`one for the {found[1]}` stands here, and the two", sentence, found)
        yield from _in_order(context, sentence)
        yield from _begins(context, sentence)
        yield from _halves(context, sentence)
        yield from _read(context, sentence)
        yield from thumbs_told(context, sentence)
        if sentence.prose.kind is TextUse.STEP and sentence.prose.path[-1] in REMARKS:
            at = step_told(context, sentence.prose)
            if at is not None:
                yield from _at_ends(at, sentence)
                yield from _on_side(at, sentence)


def _unlike(said: str, sentence: Sentence, found: "re.Match[str]") -> Finding:
    remedy = "Add a piece with `mirror of:`, or say that both are alike"
    return Finding(f"{said} are made alike", sentence.place(found), remedy)


def _made_alike(context: Context) -> bool:
    """Whether one piece is made twice, or all pieces are, and no text or key tells a left from a
    right one."""
    made = [piece.make for piece in context.pattern.pieces.values()]
    pairs = made.count(2) == 1 or min(made) > 1
    steps = (prose for prose in context.prose if prose.kind is TextUse.STEP)
    of_one = any(_OF_ONE.search(each.text) for each in steps)
    return pairs and not _sided(context) and not of_one


def _is_twice(context: Context, sentence: Sentence) -> bool:
    """Whether the piece of a sentence, or one of the pattern, is made twice, and none has sides."""
    pieces, key = context.pattern.pieces, sentence.prose.piece
    made = [piece.make for piece in pieces.values()] if key is None else [pieces[key].make]
    return max(made) > 1 and not _sided(context)


def _sided(context: Context) -> bool:
    pieces = context.pattern.pieces.items()
    return any(piece.mirror_of or _SIDED.search(f"{key} {piece.title}") for key, piece in pieces)


def _held(context: Context, key: str) -> list[tuple[At, Row, str]]:
    """The named stitches that a piece holds, in the order of its rows."""
    return [
        (at, row, part.group)
        for at in steps_of(context)
        if at.plan.key == key
        for row in at.step.rows
        for part in parts_of(row)
        if isinstance(part, Alter) and part.change is CountChange.HOLD and part.group
    ]


_ORDER = re.compile(
    r"\b(?:in order|the order is|sections are|parts are|in turn|one after)\b", re.IGNORECASE
)


def _in_order(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Two parts of one name in the order in which a row holds them."""
    key = sentence.prose.piece
    if key is None or not _ORDER.search(sentence.words):
        return
    groups = [group for _, _, group in _held(context, key)]
    for one, other in pairwise(dict.fromkeys(groups)):
        first, second = (
            re.search(rf"\b{re.escape(g)}\b", sentence.words, re.I) for g in (one, other)
        )
        same = one.split()[-1] == other.split()[-1]
        if first and second and same and first.start() > second.start():
            yield Finding(
                f"`{second[0]}` stands before `{first[0]}`, and the rows hold the {one} first",
                sentence.place(second),
            )


_AT_SHOULDER = re.compile(
    r"\b(?:round|rounds|marker|it|start|beginning)\b[^.;]{0,40}?\b(?:sits|is|begins?|starts?|lies"
    r"|falls)"
    r"(?: \w+)? (?:at|on) the (left|right) (?:back (?:shoulder|raglan)|shoulder at the back|back "
    r"of the shoulder)",
    re.IGNORECASE,
)


def _begins(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """The shoulder at the back where rounds begin. Rounds run to the knitter's left, which over a
    back seen from outside is the wearer's left: from the right shoulder to the left sleeve."""
    key = sentence.prose.piece
    for found in sentence.said(_AT_SHOULDER) if key else ():
        held = [each for each in _held(context, key or "") if _SIDED.match(each[2])]
        written = held[0][0].step.step if held else None
        parts = written.parts if isinstance(written, WorkStep) else None
        if parts and parts.strip().lower().startswith("back") and not held[0][0].flat:
            side = held[0][2].split()[0]
            if side == found[1].lower():
                other = "right" if side == "left" else "left"
                yield Finding(
                    f"`{found[0]}`, and rounds that go over the back to the {held[0][2]} begin at "
                    f"the {other} shoulder",
                    sentence.place(found),
                )


_HALVES = re.compile(
    r"\bfirst half of (?:the|each|every) (?:round|stitches)(?: \w+)? (?:is|are|makes?|forms?"
    r"|belongs? to|goes (?:on|over)|lies on)"
    r" (?:the )?(sole|instep|top of the foot|heel|upper foot|bottom of the foot)\b",
    re.IGNORECASE,
)


def _halves(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Sole and instep, against the half of the round that is held for the heel."""
    for found in sentence.said(_HALVES):
        keys = [sentence.prose.piece] if sentence.prose.piece else list(context.pattern.pieces)
        rows = [row for key in keys for _, row, name in _held(context, key or "") if "heel" in name]
        firsts = {isinstance(row.parts[0], Alter) for row in rows}
        if len(firsts) == 1:
            below = found[1].lower() in ("sole", "heel", "bottom of the foot")
            heel_first = firsts.pop()
            if below is not heel_first:
                which = "first" if heel_first else "second"
                yield Finding(
                    f"`{found[0]}` stands here, and the heel is made of the {which} half",
                    sentence.place(found),
                )


_LEFT_TO_RIGHT = re.compile(
    r"\b(?:read|reads|worked|followed)\b[^.;]{0,20}\bfrom (?:the )?left to (?:the )?right\b",
    re.IGNORECASE,
)
_TOP_DOWN = re.compile(
    r"\bcharts?\b[^.;]{0,60}?\b(?:read|worked|followed)\b[^.;]{0,60}?\bfrom (?:the )?top (?:down"
    r"|to)",
    re.IGNORECASE,
)
_OTHER_READING = re.compile(
    r"\b(?:wrong[- ]side|WS|even|left[- ]hand\w*|mirror\w*|return|back again|purl"
    r"|other)\b",
    re.IGNORECASE,
)


_READ_ON = re.compile(
    r"\bfrom (?:the )?(right|left) to (?:the )?(?:left|right),? (?:on|in|for) (?:the |all |every )?"
    r"(?:(right|wrong)[- ]side|(?-i:(?=RS|WS)(RS|WS)))(?: rows?)?\b",
    re.IGNORECASE,
)


def _read(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """The way in which charts worked in the round are read."""
    for found in sentence.said(_TOP_DOWN):
        yield Finding(
            f"`{found[0]}` stands here, and its rows are numbered and worked from the bottom up",
            sentence.place(found),
        )
    for found in sentence.said(_LEFT_TO_RIGHT):
        worked = list(charts_worked(context))
        rounds = worked and not any(at.flat for at, _ in worked)
        if rounds and not _OTHER_READING.search(sentence.words):
            yield Finding(
                f"`{found[0]}` stands here, and in the round every round is read from right to "
                f"left",
                sentence.place(found),
            )
    for found in _READ_ON.finditer(sentence.words) if "chart" in sentence.prose.text else ():
        worked = list(charts_worked(context))
        flat = worked and all(at.flat for at, _ in worked)
        to_left = found[1].lower() == "right"
        right_side = (found[2] or found[3]).lower() in ("right", "rs")
        mirrored = re.search(r"\bleft[- ]handed|\bmirror", sentence.words, re.IGNORECASE)
        if flat and to_left is not right_side and not mirrored:
            way = "right to left" if right_side else "left to right"
            yield Finding(
                f"`{found[0]}` stands here, and rows of that side are read from {way}",
                sentence.place(found),
            )


_AT_ENDS = re.compile(
    r"\b(?:the |an? )?(\w+) (?:comes?|is|are|stands?|goes|go|lies|sits?|worked|falls?)(?: "
    r"worked)? (?:at|on) (?:the|its) "
    r"(beginning|start|end) of (?:an?|each|every|the) \w+,? (?:and |with )?(?:the |an? )?(\w+)"
    r"(?: (?:comes?|is|stands?|goes))? at (?:its|the) (beginning|start|end)\b",
    re.IGNORECASE,
)


def _at_ends(at: At, sentence: Sentence) -> Iterator[Finding]:
    """Two stitches of a row, of which one is said to stand at the beginning of its part."""
    for found in sentence.said(_AT_ENDS):
        one, other = found[1].lower(), found[3].lower()
        if (found[2].lower() == "end") is (found[4].lower() == "end"):
            continue
        for row in at.step.rows:
            stitches = [p.stitch for p in parts_of(row) if isinstance(p, Work | Fill)]
            if one in stitches and other in stitches and one != other:
                first = stitches.index(one) < stitches.index(other)
                if first is (found[2].lower() == "end"):
                    yield Finding(
                        f"`{found[0]}` stands here, and the row has {one} and {other} the other "
                        "way about",
                        sentence.place(found),
                    )
                break


_SHAPED_ON = re.compile(
    r"\b(?:every|each|all|on|in)(?: the)?(?: other| second| fourth)? (right|wrong)[- ]side rows? "
    r"(?:\w+ )?(?:takes? (?:away|off)|decreases?"
    r"|increases?|loses?|gains?|adds?|grows?|is shaped|shape|makes?)\b"
    r"|\b(?:decreases?|increases?|shaping|decreasing|increasing)\b(?: \w+){0,4}? (?:on|in)(?: the"
    r"| every| each| all)? (right|wrong)[- ]side rows?\b",
    re.IGNORECASE,
)


def _on_side(at: At, sentence: Sentence) -> Iterator[Finding]:
    """On which side a flat step changes its count: odd rows are on the right side."""
    if not at.flat:
        return
    for found in sentence.said(_SHAPED_ON):
        shaped: set[str] = set()
        for size, rows in enumerate(at.step.worked):
            before = at.step.before[size]
            counts = [before.stitches, *(sum(count for _, count in loops) for loops in rows)]
            changed = (i for i, (a, b) in enumerate(pairwise(counts), 1) if a != b)
            shaped |= {"right" if (before.rounds + i) % 2 else "wrong" for i in changed}
        said = (found[1] or found[2]).lower()
        if len(shaped) == 1 and said not in shaped:
            yield Finding(
                f"`{found[0]}` stands here, and the step changes its count on the "
                f"{shaped.pop()} side",
                sentence.place(found),
            )


CHECKS = (hands_told,)
