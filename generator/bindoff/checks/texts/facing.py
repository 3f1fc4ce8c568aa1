"""Right and wrong side, left and right, and the way a piece is worked, as texts tell them."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.prose import Prose
from bindoff.checks.sentencesof import quoted, sentences_of
from bindoff.checks.texts.named.judges import FROM_END, judged
from bindoff.checks.texts.told.scene import Scene, step_scenes
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import sizes_said
from bindoff.diagnostics import Severity
from bindoff.plan.steps.pick_up_along import PickedUp
from bindoff.source.model import TextUse
from bindoff.source.rowlang.syntax import Alter, CountChange

_SIDE = r"(right|wrong)[- ]sides?|(?-i:\b(RS|WS)\b)"
_BEGINS = phrase(
    rf"\b(?:start|begin)(?:s|ning|ing)?(?: again)? (?:with|on) (?:an? |the )?(?:\w+ row on the "
    rf")?(?:{_SIDE})(?: rows?)?\b"
    rf"|\b(?:the|this|your) (?:first|next|following) row (?:is|will be) (?:worked )?(?:on )?"
    rf"(?:an? |the )?(?:{_SIDE})"
    rf"|\bthis is (?:row \d+, |now )?an? (?:{_SIDE}) row\b"
    rf"|\b(?:with|having|and)(?: the)? (?:{_SIDE})(?: of (?:the )?[\w ]{{2,20}}?)? facing"
    r"(?! (?:each|one|out|in|up|down|together))"
    rf"|^\(?(?:{_SIDE}) facing[,:]"
)
_NEXT = phrase(r"\b(?:next|following) row\b")
_ENDS = phrase(
    rf"\bend(?:s|ing)?(?: (?:with|after|on|having worked)) (?:an? |the )?(?:{_SIDE})(?: rows?)?\b"
    rf"|\bthe last row (?:is|was|should be) (?:worked )?(?:on )?(?:an? |the )?(?:{_SIDE})"
)
_CLOSED = phrase(
    rf"\b(?:bind|cast) off(?: all(?: (?:the )?stitches)?)?(?: \w+){{0,2}} (?:on|with) (?:an? |the "
    rf")?(?:{_SIDE})(?: row| facing)?\b"
)


@check(
    id="prose.side",
    title="The side that a text names is the one that is worked",
    looks_at="right-side and wrong-side rows that a step is said to begin or end with, the side "
    "that faces, and left and right against the title, edges and stitches of the piece",
    why="a knitter who begins on the other side works the shaping at the wrong edge, or the purl "
    "side out",
    severity=Severity.WARNING,
    remedy="Name the side that the row is on: odd rows are right-side rows, and a side is that of "
    "the wearer",
)
def sides_hold(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    yield from _bound_off(context)
    for scene in step_scenes(context):
        yield from _faces(context, scene)
        yield from _hands(context, scene)


def _faces(context: Context, scene: Scene) -> Iterator[Finding]:
    """The side of the rows that a step begins and ends with."""
    here = [s for s in scene.here if any(s.rounds) or s.closes]
    if not here and scene.own is not None and scene.own.begins:
        here = [s for s in scene.coming if any(s.rounds)][:1]
    turned = [s.flat or all(p.flat for p in s.after) for s in here]
    if not here or not all(
        flat or isinstance(step.detail, PickedUp) for flat, step in zip(turned, here, strict=True)
    ):
        return
    first, text = here[0], scene.prose.text
    for found, place in scene.prose.found(_CLOSED):
        closing = next((s for s in here if s.closes and s.closes.by and not any(s.rounds)), None)
        if closing is not None:
            sides = [[each.wrong_side for each in closing.before]]
            yield from _other(context, found, place, sides, "bound off is")
    for found, place in scene.prose.found(_BEGINS):
        if _CLOSED.search(text) or re.search(r"(?i)\b(?:if|hold|together|sew|lay)\b", found[0]):
            continue
        sides = [[each.wrong_side for each in first.before]]
        if isinstance(first.detail, PickedUp) or first.begins:
            sides = [[False] * len(first.before)]
        if scene.own is not None and _NEXT.search(found[0]):
            # A note stands behind its step.
            sides.append([each.wrong_side for each in first.after])
        yield from _other(context, found, place, sides, "the first row here is")
    worked = [step for step in here if any(step.rounds)]
    if not worked and scene.own is None:
        worked = [step for step in scene.behind if any(step.rounds)][-1:]
    for found, place in scene.prose.found(_ENDS):
        sides = [[not each.wrong_side for each in step.after] for step in worked]
        yield from _other(context, found, place, sides, "the last row here is")


_ON_SIDE = phrase(rf"\b(?:on|with) (?:an? |the )?(?:{_SIDE})(?: row| facing)?\b(?! of)")


def _bound_off(context: Context) -> Iterator[Finding]:
    """The side that `how:` a piece is bound off names."""
    for prose in context.prose if context.in_english else ():
        if prose.kind is not TextUse.STEP or prose.path[-1] != "how" or prose.piece is None:
            continue
        step = context.plan.piece(prose.piece).steps[int(prose.path[3])]
        if step.flat and step.closes and step.closes.by and not any(step.rounds):
            for found, place in prose.found(_ON_SIDE):
                sides = [[each.wrong_side for each in step.before]]
                yield from _other(context, found, place, sides, "bound off is")


def _other(
    context: Context,
    found: "re.Match[str]",
    place: object,
    sides: Sequence[Sequence[bool]],
    what: str,
) -> Iterator[Finding]:
    """A finding where no step has the side in every size; ``sides`` are true for wrong sides."""
    said = next(group for group in found.groups() if group)
    wrong = said.lower() in ("wrong", "ws")
    missing = [
        {size for size, side in enumerate(each) if side is not wrong} for each in sides if each
    ]
    if not missing or min(map(len, missing)) == 0:
        return
    is_ = "a right-side row" if wrong else "a wrong-side row"
    yield Finding(
        f"`{quoted(found)}` stands here, and {what} {is_} in "
        f"{sizes_said(context, min(missing, key=len))}",
        place,  # type: ignore[arg-type]
    )


# ---------------------------------------------------------------- left and right

_NOUNS = (
    r"front|back|half|shoulder|sleeve|mitten|mitt|hand|armhole|edge|neck|band|strap|ear|wing|foot"
    r"|sock"
    r"|glove|flap|side of the neck|part|thumb|slipper|leg|arm|panel"
)
_HANDED = phrase(rf"\b(left|right)(?:-hand)?(?: (?:{_NOUNS}))+\b")
_BOTH = phrase(
    r"\b(?:like|as (?:for|on|with|in|at)|than (?:for|on|in|at)|match\w*|mirror\w*|revers\w*"
    r"|opposite|both|other|either|same)\b"
)
_ASIDE = phrase(r"\b(?:leave|leaves|waits?|rests?|holds?|held|put|place|slip|aside|later|then)\b")
_OPPOSITE = {"left": "right", "right": "left"}


def _hands(context: Context, scene: Scene) -> Iterator[Finding]:
    """Left and right against what the steps after a text name, and against the piece's title."""
    assert scene.plan is not None
    title = context.pattern.pieces[scene.plan.key].title
    for sentence in sentences_of(scene.prose):
        sides = {
            each.lower()
            for each in re.findall(r"(?i)\b(left|right)\b(?![- ]side\b)", sentence.words)
        }
        if len(sides) != 1 or _BOTH.search(sentence.words) or _ASIDE.search(sentence.words):
            continue
        for found in _HANDED.finditer(sentence.words):
            side = found[1].lower()
            anchors = tuple(_anchors(scene)) or (title,)
            there = _sides_of(" ".join(anchors)) or _sides_of(title)
            noun = found[0].split()[-1].lower()
            if there == {_OPPOSITE[side]} and _alike(noun, " ".join((*anchors, title))):
                start = sentence.start + found.start()
                named = next((a for a in anchors if _sides_of(a)), title)
                yield Finding(
                    f"`{quoted(found)}` stands here, and what follows is at `{named}`",
                    scene.prose.place(start, start + len(found[0])),
                )


def _alike(noun: str, names: str) -> bool:
    """Whether a part is among what other words name: a half, a front and a shoulder are beside
    each other, and have one side."""
    beside = {"half", "front", "back", "shoulder", "neck", "edge", "armhole", "part"}
    words = set(re.findall(r"[a-z]+", names.lower()))
    return noun in words or (noun in beside and bool(words & beside))


def _anchors(scene: Scene) -> Iterator[str]:
    """What the steps that a text goes before name by their sides: the edge picked up first, groups
    of stitches and joins. A later edge says nothing of where the work begins."""
    steps = scene.coming if scene.own is None else (scene.own,)
    for step in steps:
        if isinstance(step.detail, PickedUp):
            first = next(iter(step.detail.parts), None)
            if first is not None:
                yield first.edge or ", ".join(first.names)
            return
        held = getattr(step.step, "held", None)
        if held:
            yield str(held)
            return
        for name in ("join", "close"):
            if isinstance(value := getattr(step.step, name, None), str):
                yield value
        for row in step.all_rows:
            for part in row.parts:
                if isinstance(part, Alter) and part.change is CountChange.HOLD and part.group:
                    yield part.group


def _sides_of(words: str) -> set[str]:
    return {each.lower() for each in re.findall(r"(?i)\b(left|right)\b", words)}


# ---------------------------------------------------------------- the way it is worked

_ONE_WAY = phrase(
    r"\b(?:worked|knitted|knit|made|work)(?: \w+){0,5}? (?:from the ([a-z]+)s? (up|upwards?|down"
    r"|downwards?)\b|(top)[- ](down)\b|(bottom)[- ](up)\b|(?:the )?(toe|cuff|neck|hem)[- ](up"
    r"|down)\b)"
)
# Names of the lower and of the upper end of a piece as it is worn; common practice, no source.
_LOW = r"\b(?:hem|welt|lower|bottom|base|ankle|toe|cuff|wrist|rib|ribbing|brim|foot)\b"
_HIGH = r"\b(?:neck|neckband|shoulders?|crown|top|upper|yoke|knee|back neck|collar|armholes?)\b"


@check(
    id="prose.direction",
    title="A piece is worked the way the text says",
    looks_at="‘worked from the toe to the heel’, ‘from the hem up’ and ‘top down’ against the "
    "order of the sections and pieces of those names",
    why="a knitter who holds the drawing upside down shapes the wrong end, and can't tell where to "
    "try it on",
    severity=Severity.WARNING,
    remedy="Turn the sentence about, or the names of the sections",
)
def directions_hold(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    if not context.in_english:
        return
    yield from judged(context, FROM_END)
    for prose in context.prose:
        if prose.kind not in (TextUse.TEXT, TextUse.STEP) and prose.path != ("summary",):
            continue
        for found, place in prose.found(_ONE_WAY):
            word, way = [group.lower() for group in found.groups() if group]
            if _turned(context, prose, word, way):
                yield Finding(
                    f"`{quoted(found)}` stands here, and the pieces begin at the other end",
                    place,
                )


def _turned(context: Context, prose: Prose, word: str, way: str) -> bool:
    """Whether every piece whose sections tell it is worked the other way."""
    up = way.startswith("up")
    told: list[bool] = []
    for plan in context.plan.pieces:
        if prose.piece not in (None, plan.key):
            continue
        names = [step.heading.lower() for step in plan.steps if step.heading]
        low = [i for i, name in enumerate(names) if re.search(_LOW, name)]
        high = [i for i, name in enumerate(names) if re.search(_HIGH, name)]
        named = [
            i
            for i, name in enumerate(names)
            if re.search(rf"\b{re.escape(word.rstrip('s'))}", name)
        ]
        if low and high and max(low) < min(high):
            told.append(up)
        elif low and high and max(high) < min(low):
            told.append(not up)
        elif low and not high and word in ("top", "bottom") and len(names) > 1:
            told.append(up is (max(low) * 2 < len(names)))
        elif named and len(names) > 1:
            told.append(min(named) * 2 < len(names))
    return bool(told) and not any(told)


CHECKS = (sides_hold, directions_hold)
