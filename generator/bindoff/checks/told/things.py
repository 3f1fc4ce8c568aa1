"""Numbers of balls, sizes and markers in sentences."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.told import truths
from bindoff.checks.told.counts import Statement
from bindoff.checks.told.numbers import NUMBER, ORDINAL, number_of, ordinal_of
from bindoff.checks.told.scene import Scene
from bindoff.checks.told.truths import Figures, Truth, known, phrase
from bindoff.plan.steps.buttonholes import Buttonholes
from bindoff.plan.worked import StepPlan
from bindoff.source.rowlang.syntax import Marker, MarkerAct

_BALLS = phrase(rf"(?<![\w.,/–-])({NUMBER}) (?:balls?|skeins?|hanks?)\b(?: of ([A-Z][\w'’]*))?")
_BOUGHT = phrase(r"\b(?:takes?|needs?|buy|uses?|requires?|enough|with|from)\b[^.;]*$")
_SIZES = phrase(
    rf"(?<![\w.,/–-])({NUMBER}) sizes\b(?! (?:larger|smaller|up|down|bigger|too|apart"
    rf"|of (?:needle|hook|yarn|ball|marker|hole)))"
)
_MADE_IN = phrase(
    r"\b(?:comes?|written|made|given|graded|available|sized|knitted|worked)\b[^.;]*\b(?:in|for)"
    r"(?: all)?(?: of)?(?: the)? $|\ball(?: the)? $|\bin $"
)
_ALONE = phrase(r"^(?:[,:.;]|$| from | between | are (?:given|written)| in all\b)")
_MARKERS = phrase(rf"(?<![\w.,/–-])({NUMBER}) (?:stitch |removable |coloured |colored )?markers?\b")
_NTH_MARKER = phrase(rf"\bthe ((?!other|alternate){ORDINAL}) marker\b")
_PLACED = phrase(
    r"\b(?:place|placing|are|has|have|slip|slipping|move|the|use|hang|remove) (?:the |all )*$"
)


def things_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Every number of balls, sizes and markers in a sentence."""
    text, at = sentence.words, sentence.start
    for found in _BALLS.finditer(text):
        truth = _balls(context, text[: found.start()], found[2])
        yield Statement(at + found.start(), at + found.end(), number_of(found[1]), truth)
    for found in _SIZES.finditer(text):
        sizes = len(context.source.sizes)
        there = Truth("sizes there are", (truths.plain([sizes] * sizes),))
        left, right = text[: found.start()], text[found.end() :]
        alone = not left.strip() and _ALONE.search(right)
        truth = there if alone or _MADE_IN.search(left) else None
        yield Statement(at + found.start(), at + found.end(), number_of(found[1]), truth)
    for found in _HOLES.finditer(text):
        truth = _buttonholes(context)
        yield Statement(at + found.start(), at + found.end(), number_of(found[1]), truth)
    for found in _PIECES.finditer(text):
        number, words = [group for group in found.groups() if group][:2]
        truth = _made(context, scene, words)
        yield Statement(at + found.start(), at + found.end(), number_of(number), truth)
    for found in _NTH_MARKER.finditer(text):
        most = _markers(context, scene)
        number = ordinal_of(found[1])
        if most is not None and scene.plan is not None:
            last = max(n for each in most.figures for some in each for n in some)
            if number > last:
                words = f"there are {last} markers at most"
                yield Statement(at + found.start(), at + found.end(), 0, None, words)
    for found in _MARKERS.finditer(text):
        truth = _markers(context, scene) if _PLACED.search(text[: found.start()]) else None
        yield Statement(at + found.start(), at + found.end(), number_of(found[1]), truth)


_HOLES = phrase(rf"(?<![\w.,/–-])({NUMBER}) buttonholes\b")
_PIECES = phrase(
    rf"(?<![\w.,/–-])({NUMBER}) ((?:[a-z]+ )?[a-z]{{3,}})\b(?= (?:are|is|were)\b| and {NUMBER} )"
    rf"|\band ({NUMBER}) ((?:[a-z]+ )?[a-z]{{3,}})\b(?= (?:are|is)\b)"
    rf"|\bthe last ({NUMBER}) ((?:[a-z]+ )?[a-z]{{3,}})\b"
    rf"|\b(?:make|knit|work) ({NUMBER})(?: more)? ((?:[a-z]+ )?[a-z]{{3,}})(?= alike|[.,;]|$| in )"
)


def _buttonholes(context: Context) -> Truth | None:
    """The buttonholes of each step that makes some, and of all."""
    counts = [
        [each.number for each in step.detail.holes]
        for plan in context.plan.pieces
        for step in plan.steps
        if isinstance(step.detail, Buttonholes)
    ]
    if not counts:
        return None
    whole = [sum(some) for some in zip(*counts, strict=True)]
    return known("buttonholes there are", [*map(truths.plain, counts), truths.plain(whole)])


def _made(context: Context, scene: Scene, words: str) -> Truth | None:
    """How many are made of pieces whose title is, or ends in, what words name."""
    name = re.sub(r"\s+", " ", words.lower())
    pieces = {key: piece for key, piece in context.pattern.pieces.items() if piece.make}
    for noun in (name, name.split()[-1]):
        word = re.compile(rf"(?:.* )?{re.escape(noun.removesuffix('s'))}(?:s|es)?", re.IGNORECASE)
        starts = re.compile(rf"{re.escape(noun.removesuffix('s'))}(?:s|es)? (?:in|of) ", re.I)
        found = {
            k: p for k, p in pieces.items() if word.fullmatch(p.title) or starts.match(p.title)
        }
        if scene.plan is not None and scene.plan.key in found and len(found) > 1:
            found = {scene.plan.key: found[scene.plan.key]}
        if found:
            makes = [piece.make for piece in found.values()]
            counts = {*makes, sum(makes), len(makes)}
            return known(
                "of those are made", [truths.alike(context, each) for each in sorted(counts)]
            )
    return None


def _balls(context: Context, left: str, name: str | None) -> Truth | None:
    """The balls of the yarn that is named, or of each and of all."""
    if not _BOUGHT.search(left) or re.search(r"(?i)\b(?:another|extra|spare|more|about)\s+$", left):
        return None
    yarns = {yarn.name: key for key, yarn in context.pattern.yarns.items()}
    each = {total.yarn: truths.plain([n.balls for n in total.needs]) for total in context.plan.yarn}
    if name is not None:
        return known(f"of {name} it takes", [each[yarns[name]]]) if name in yarns else None
    counts = [[need.balls for need in total.needs] for total in context.plan.yarn]
    whole = truths.plain([sum(some) for some in zip(*counts, strict=True)])
    return known("balls it takes", [whole, *each.values()])


def _markers(context: Context, scene: Scene) -> Truth | None:
    """The markers that the rows of a section, a piece or the pattern place or have at one time."""
    steps: tuple[StepPlan, ...] = scene.section if scene.plan is not None else ()
    if not any(map(truths.has_markers, steps)):
        plans = [scene.plan] if scene.plan is not None else context.plan.pieces
        steps = tuple(step for plan in plans for step in plan.steps)
    placed = sum(
        isinstance(part, Marker) and part.act is MarkerAct.PLACE
        for step in steps
        for row in truths.all_rows(step)
        for part in truths.flat(row.parts)
    )
    if not placed:
        return None
    at_once = max(
        (len(level.markers) for step in steps for levels in step.levels for level in levels),
        default=0,
    )
    sizes = len(context.source.sizes)
    counts = {placed, placed + 1, at_once, at_once + 1 if at_once else 0}
    if any("start of the round" in notion for notion in context.pattern.notions):
        counts.add(placed + 1)
    else:
        counts.discard(placed + 1)
    figures: list[Figures] = [truths.plain([each] * sizes) for each in sorted(counts) if each]
    return known("markers there are", figures)
