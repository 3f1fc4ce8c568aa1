"""What is sewn to what, from where to where, and which side is out."""

from collections.abc import Iterator, Mapping

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.sentencesof import Sentence, quoted, sentences
from bindoff.checks.texts.seamsneeded import seams_needed
from bindoff.checks.walk import At, section_of, steps_of
from bindoff.diagnostics import Severity
from bindoff.english import an
from bindoff.plan.steps.buttonholes import Buttonholes
from bindoff.plan.steps.pick_up_along import PickedUp

_WORD = r"[a-z][a-z-]{1,20}"
_NAME = rf"((?:{_WORD} )?{_WORD})"


@check(
    id="prose.made-up",
    title="Pieces are made up as they are made",
    looks_at="buttons sewn to the part or the side that has the buttonholes, or to one that there "
    "is not, and parts said to have buttonholes; seams from one end to another that they do not "
    "have; ends woven in on the right side; ribs and cables that are pressed; the end of a front "
    "at which stitches are picked up with the right side facing",
    why="a seam that is sewn to the wrong end has to be picked out, and a button cannot be closed",
    severity=Severity.WARNING,
    remedy="Name the part, the end or the side that is meant",
)
def made_up(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    holed, whole = _with_holes(context)
    side = _side_of_holes(context)
    for sentence in sentences(context):
        yield from tuple(_buttons(sentence, holed, whole)) or _at_side(context, sentence, side)
        yield from _seams(sentence)
        yield from _ends(sentence)
        yield from _pressed(sentence)
    yield from _picked_up(context)
    yield from seams_needed(context)


# ---------------------------------------------------------------- buttons and their holes

_SEWN_TO = re.compile(
    rf"\bbuttons?\b[^.;]{{0,40}}?\b(?:to|on|onto|along|down) (?:the |each )"
    rf"(?:(?:middle|edge|centre|center|inside|band|border) of the )?{_NAME}",
    re.IGNORECASE,
)
_HAS_HOLES = re.compile(
    rf"\b(?:the |an? )?{_NAME},? (?:(?:which|that) )?(?:has|have|with|carries|holds|takes) "
    r"(?:all )?(?:the |its )?(?:\d+ |two |three |four |five |six |seven )?buttonholes\b",
    re.IGNORECASE,
)
_BUTTON = re.compile(r"\bbuttons?\b", re.IGNORECASE)


def _with_holes(context: Context) -> tuple[frozenset[str], frozenset[str]]:
    """The names of pieces and sections with buttonholes, and of those without; names of both are in
    neither."""
    holed: set[str] = set()
    whole: set[str] = set()
    for at in steps_of(context):
        names = {at.piece.title.lower(), section_of(at).lower()} - {""}
        if isinstance(at.step.detail, Buttonholes):
            holed |= names
        elif any(at.step.rounds):
            whole |= names
    pieces = {at.piece.title.lower() for at in steps_of(context) if _holes(at)}
    return frozenset(holed), frozenset(whole - holed - pieces)


def _holes(at: At) -> bool:
    return isinstance(at.step.detail, Buttonholes)


def _named(words: str, names: frozenset[str]) -> str:
    """The name that words begin with, whole or but for its plural; empty for none."""
    return next((name for name in names if re.match(rf"{re.escape(name)}s?\b", words)), "")


def _buttons(sentence: Sentence, holed: frozenset[str], whole: frozenset[str]) -> Iterator[Finding]:
    if not holed or (not _BUTTON.search(sentence.words) and "buttonhole" not in sentence.words):
        return
    for found in sentence.said(_SEWN_TO):
        name = _named(found[1].lower(), holed)
        if name and not _named(found[1].lower(), whole):
            yield Finding(
                f"`{quoted(found)}` stands here, and the {name} has the buttonholes",
                sentence.place(found),
            )
    for found in sentence.said(_HAS_HOLES):
        name = _named(found[1].lower(), whole)
        if name:
            others = " and ".join(sorted(holed))
            yield Finding(
                f"`{quoted(found)}` stands here, and the buttonholes are in the {others}",
                sentence.place(found),
            )


_AT_SIDE = re.compile(
    r"\bbuttons?\b[^.;]{0,30}?\b(?:to|on|onto|along) the (left|right) (?:front|back|band|edge)\b",
    re.IGNORECASE,
)
_ON_PART = re.compile(
    r"\bbuttons? (?:to|on|onto|along) the (left|right) (front|back)\b", re.IGNORECASE
)
_SIDED = re.compile(r"\b(left|right)\b", re.IGNORECASE)


def _at_side(context: Context, sentence: Sentence, holes: str | None) -> Iterator[Finding]:
    """Buttons on the side that has the ``holes``, and on a part that no piece is."""
    titles = [piece.title.lower() for piece in context.pattern.pieces.values()]
    for found in sentence.said(_AT_SIDE):
        if found[1].lower() == holes:
            said = f"`{quoted(found)}` stands here, and that side has the buttonholes"
            yield Finding(said, sentence.place(found))
    for found in sentence.said(_ON_PART):
        side, part = found[1].lower(), found[2].lower()
        sided = any(title.startswith(("left ", "right ")) for title in titles)
        if sided and part in titles and f"{side} {part}" not in titles:
            said = f"there is no {side} {part}: the pieces are {', '.join(titles)}"
            yield Finding(said, sentence.place(found))


def _side_of_holes(context: Context) -> str | None:
    """The side whose edge has the buttonholes, where it is one alone."""
    sides = set[str]()
    for at in filter(_holes, steps_of(context)):
        edges = " ".join(
            prose.raw
            for prose in context.prose
            if prose.piece == at.plan.key and prose.path[-1:] == ("edge",)
        )
        sides |= {side.lower() for side in _SIDED.findall(f"{at.piece.title} {edges}")}
    return sides.pop() if len(sides) == 1 else None


# ---------------------------------------------------------------- seams and ends

# Between which ends a seam runs, on a garment worn upright; common practice, no source.
_ENDS_OF: Mapping[str, str] = {
    "sleeve": r"cuff|wrist|hem|underarm|armpit|armhole|lower edge|edge|elbow|cast-\w+ edge|bottom"
    r"|marker|top|shoulder|bound-\w+ edge|arm|body",
    "side": r"hem|welt|rib|ribbing|underarm|armhole|armpit|lower edge|bottom|edge|cuff|marker|top"
    r"|cast-\w+ edge|waist|split|slit|vent|brim|crown|heel|toe|corner|fold|opening",
    "shoulder": r"neck|neckline|neck edge|armhole|sleeve|edge|outside|outer|shoulder|point|collar",
}
_RUNS = re.compile(
    r"\b(sleeve|side|shoulder) seams?\b[^.;]{0,50}?\bfrom (?:the )?((?:[a-z-]+ )?[a-z-]+) (?:up "
    r"|down |over |out )?to (?:the )?((?:[a-z-]+ )?[a-z-]+)",
    re.IGNORECASE,
)
_PARTS = re.compile(
    r"\b(?:cuff|wrist|hem|underarm|armhole|neck|neckband|neckline|waist|hood|toe|heel|collar|thumb"
    r"|crown)\b",
    re.IGNORECASE,
)


def _seams(sentence: Sentence) -> Iterator[Finding]:
    for found in sentence.said(_RUNS):
        kind = found[1].lower()
        before = sentence.words[: found.end()].lower()
        if re.search(r"\b(?:raglan|and)\b[^.;]{0,15}\bseam", before):
            continue  # which may be one with another seam
        for end in (found[2].lower(), found[3].lower()):
            named = _PARTS.search(end)
            if named and not re.search(rf"\b(?:{_ENDS_OF[kind]})\b", end):
                yield Finding(
                    f"`{quoted(found)}` stands here, and {an(kind)} seam does not "
                    f"reach the {named[0].lower()}",
                    sentence.place(found),
                )


_WOVEN = re.compile(
    r"\b(?:weave|darn|run|work|hide|thread|sew|finish)\w*\b[^.;]{0,60}?\b(on|along|over|to) the "
    r"(?:right side|RS|outside)\b(?! of the (?:opening|seam))",
    re.IGNORECASE,
)
_AN_END = re.compile(r"\b(?:ends?|tails?)\b(?! (?:with|on an?|after)\b)", re.IGNORECASE)
_VERB_OF_END = re.compile(r"^(?:weav|darn|hid|run)", re.IGNORECASE)


def _ends(sentence: Sentence) -> Iterator[Finding]:
    """Ends that are woven in where they are seen."""
    if not sentence.prose.has(_AN_END):
        return
    for found in sentence.said(_WOVEN):
        if _VERB_OF_END.match(found[0]) and not re.search(r"\b(?:not|never)\b", sentence.words):
            yield Finding(
                f"`{quoted(found)}`: ends are woven in on the wrong side",
                sentence.place(found),
            )


_PRESS = re.compile(
    r"\b(?:press|iron)(?: (?:the|all|both|it|well|hard|firmly|flat|lightly))* (?:the )?"
    r"(cables?|ropes?|ribs?|ribbing|brioche|bobbles?|garter stitch)\b",
    re.IGNORECASE,
)


def _pressed(sentence: Sentence) -> Iterator[Finding]:
    """What loses its shape under an iron; common practice, no source."""
    for found in sentence.said(_PRESS):
        before = sentence.words[: found.start()]
        if not re.search(r"\b(?:not|never|don['’]t|avoid|nor|without)\b[^.;]*$", before, re.I):
            yield Finding(
                f"`{quoted(found)}`: {found[1].lower()} goes flat when it is pressed",
                sentence.place(found),
                "Leave it out, or say that it is to be left alone",
            )


# ---------------------------------------------------------------- which end is picked up first

_BEGINS_AT = re.compile(
    r"\b(?:begin(?:ning)?|start(?:ing)?)(?: at| from)(?: the)? "
    r"(lower edge|bottom(?: edge)?|hem|cast-on edge|neck(?: edge|line)?|top)\b",
    re.IGNORECASE,
)
_FACING = re.compile(r"\b(?:right side|RS)\b[^.;]{0,20}\bfacing\b", re.IGNORECASE)
_FRONT = re.compile(r"\b(left|right) front\b", re.IGNORECASE)


def _picked_up(context: Context) -> Iterator[Finding]:
    """The end of a front where picking up begins, with the right side facing.

    Stitches are picked up from right to left: up the right front as it is worn, down the left one.
    """
    for at in steps_of(context):
        detail = at.step.detail
        if not isinstance(detail, PickedUp) or len(detail.parts) != 1:
            continue
        front = _FRONT.search(detail.parts[0].edge or "")
        if front is None:
            continue
        low = front[1].lower() == "right"
        for prose in context.prose:
            if prose.piece != at.plan.key or prose.path[-1] not in ("say", "note"):
                continue
            if int(prose.path[3]) > at.index or not _FACING.search(prose.text):
                continue
            for found, place in prose.found(_BEGINS_AT):
                if (found[1].lower()[:3] not in ("nec", "top")) is not low:
                    right = "lower edge" if low else "neck"
                    yield Finding(
                        f"`{quoted(found)}` stands here, and with the right side "
                        f"facing the {front[0].lower()} is picked up from the {right}",
                        place,
                    )


CHECKS = (made_up,)
