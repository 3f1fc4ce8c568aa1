"""Sides, edges and directions: no source says where something lies on the finished piece."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.sentencesof import quoted
from bindoff.checks.texts.named.world import names_in, world_of
from bindoff.checks.texts.told.truths import all_rows, flat, phrase
from bindoff.remembered import once_each
from bindoff.source.rowlang.syntax import Alter

_PLACES = phrase(
    r"\b(?:left(?=[- ](?:front|back|hand|side|edge|end|corner|shoulder|sleeve|neck|foot|mitten|leg"
    r"|arm|half|needle|of)\b)|(?:(?:in)?to|on|at|from) the left\b"
    r"|right(?![- ]sides?\b| through| away| size| up\b| down\b| out\b| after| before| above"
    r"| below| beside)"
    r"|(?:at|on|in|of|to|from) the (?:front|back)(?! (?:of (?:the|a) (?:work|stitch|loop|hand))"
    r"| edge)"
    r"|top|bottom|upper|lower|base|tip|inside|outside|inner|outer|above|below|underneath|beneath"
    r"|(?:cast[- ](?:on|off)|bound[- ]off|neck|armhole|long|short) edges?"
    r"|upwards?|downwards?|outwards?|inwards?|sideways|lengthwise|crosswise|horizontally|vertically"
    r"|at the (?:end|beginning) of the pattern|overleaf|bottom up|top down|clockwise|forehead|nape"
    r"|(?:half|middle|end|start) of the \w+ is the \w+)\b"
)
_USUAL = phrase(
    r"\b(?:weav\w*|darn\w*|hide|knot|fasten|run)\b[^.;]*\binside\b|\binside out\b"
    r"|\b(?:push|fold|tuck)\w*[^.;]*\blining[^.;]*|\blining,? pushed inside"
    r"|\b(?:no )?(?:left|right),? (?:and|or) (?:no )?(?:left|right)\b(?! [a-z]+s? \w+)"
    r"|\b(?:begin|start|work|knit|crochet|cast on)\w*\b[^.;]*?\b(?:at|from) (?:the|its) (?:lower"
    r"|bottom)\b|\b(?:from )?(?:the )?bottom up\b|\babove and below\b|\binside(?! out)\b"
    r"|\bthe outer \d+|\b(?:size|sizes|one|ones) (?:above|below)\b"
    r"|\b(?:twist\w*|as|than) the cast-on edge\b"
    r"|\bright[- ]sides? (?:up|down|in|out)\b"
    r"|\b(?:from|since|above) the cast-on edge\b|\b(?:see|as|none|the (?:size|one)) above\b"
)
"""What is so in any pattern; common practice, no source."""
_OF_STITCHES = phrase(
    r"\bread\b|\bfront and back of (?:a|the) (?:same )?(?:stitch|loop)|\bat the back of the work"
    r"|\b(?:in|at|to) (?:the )?(?:front|back) of the (?:work|loop)|\bcarr(?:y|ied)\b[^.;]* at the"
    r" back|back loops?|\byarn in (?:front|back)"
    r"|\btop of (?:the|a) (?:\w+ )?(?:ch|chain|stitch|round's ch)\b"
)
_LIES = phrase(
    r"\b(?:(?:is|are)(?: (?:in|at|on|near))?|(?:lies?|sits?) (?:in|at|on|near))"
    r" the (?:upper|lower|top|bottom|left|right|opening)\b(?: \w+)?"
)
"""Where something is said to lie, by whatever name that place goes."""
_TURNED = phrase(r"\bturn (?:\w+ ){1,3}(?:inside|right side) out\b")
_ALIKE = phrase(r"\b(?:same|opposite) (?:sides?|ends?|edges?|directions?|halves|half|corners?)\b")
_BODY = (
    r"(?:ankle|knee|wrist|elbow|neck|shoulder|hem|toes?|heel|cuff|tip|brim|crown|top|bottom|thumb"
    r"|fingers?|nape|chin|forehead|waist|underarm)"
)
_WAY = phrase(rf"\bfrom (?:the )?{_BODY} (?:up |down )?to (?:the )?{_BODY}\b")
_MORE = (
    (_LIES, phrase(r"\bmirror\w*")),
    (_TURNED, phrase(r"^turn (?:the|it|all|both)\b[^.;]{0,20} right side out\.?$")),
    (_ALIKE, phrase(r"\bnot\b")),
    (_WAY, phrase(r"\b(?:seams?|sew\w*|clos\w+)\b")),
)
_SIDED = phrase(r"\b(?:left|right)\b(?: \w+)?|\b\w+ edges?\b")
_FILLER = "·"
"""Stands for every character of a name, and is no space."""


def places_doubted(told: Told) -> Iterator[Doubt]:
    """Each place or direction."""
    if told.scene.prose.path[-1] in ("edge", "along"):
        return
    words = _masked(told)
    if _OF_STITCHES.search(words):
        return
    usual = [each.span() for each in _USUAL.finditer(words)]
    for found in _PLACES.finditer(words):
        known = any(start <= found.start() < end for start, end in usual)
        if not known and not told.is_proved(*found.span()):
            yield Doubt(*found.span(), f"nothing says that it is `{quoted(found)}`")
    for pattern, unless in _MORE:
        for found in pattern.finditer(told.words) if not unless.search(told.words) else ():
            if not told.is_proved(*found.span()):
                said = " ".join(told.written_at(*found.span()).split())
                yield Doubt(*found.span(), f"nothing says that it is `{said}`")


def _masked(told: Told) -> str:
    """The words with the names of the source blanked out: `the lower back` is a piece."""
    near = _near(told)

    def blank(found: "re.Match[str]") -> str:
        sided = near and _SIDED.search(found[0])
        known = not sided or " ".join(sided[0].lower().split()) in near
        return _FILLER * len(found[0]) if known else found[0]

    return _names(told.context).sub(blank, told.words)


def _near(told: Told) -> str:
    """The names at the place of a text: of its piece, its section, and what the steps of it hold,
    take up or pick up along."""
    scene = told.scene
    if scene.plan is None:
        return ""
    index = int(scene.prose.path[3])
    steps = scene.plan.steps
    heading = next((step.heading for step in reversed(steps[: index + 1]) if step.heading), "")
    names = [heading, told.context.pattern.pieces[scene.plan.key].title]
    for step in (steps[index], *scene.here, *scene.ahead):
        names += names_in(step.step)
        for row in all_rows(step):
            names += [part.group or "" for part in flat(row.parts) if isinstance(part, Alter)]
    return " | ".join(names).lower()


@once_each
def _names(context: Context) -> "re.Pattern[str]":
    names = {name for name in world_of(context).names if len(name) > 2}
    names |= {piece.title.lower() for piece in context.pattern.pieces.values()}
    called = world_of(context).called
    for side in ("left", "right", "upper", "lower", "front", "back"):
        names |= set(re.findall(rf"\\b{side} [a-z]+\\b", called))
    every = "|".join(
        re.escape(each).replace(r"\ ", r"\s+") for each in sorted(names, key=len, reverse=True)
    )
    return re.compile(rf"(?i)(?<!\bright )(?<!\bwrong )(?<![\w-])(?:{every})s?(?![\w-])")
