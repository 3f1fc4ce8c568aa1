"""Numbers of balls, sizes and markers in sentences."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.counts import Statement
from bindoff.checks.texts.told.numbers import NUMBER, number_of
from bindoff.checks.texts.told.scene import Scene
from bindoff.checks.texts.told.truths import Figures, Truth, known, phrase
from bindoff.english import how_many
from bindoff.plan.steps.buttonholes import Buttonholes
from bindoff.plan.worked import StepPlan
from bindoff.source.rowlang.syntax import Marker, MarkerAct

_BALLS = phrase(rf"(?<![\w.,/–-])({NUMBER}) (?:balls?|skeins?|hanks?)\b(?: of ([A-Z][\w'’]*))?")
_ENOUGH = phrase(
    r"^[^.;]{0,20}? (?:is|are|will be|do|will do|suffices?|should be) (?:enough|plenty"
    r"|sufficient)?\b"
)
_BOUGHT = phrase(r"\b(?:takes?|needs?|buy|uses?|requires?|enough|with|from)\b[^.;]*$")
_ARE_BOUGHT = phrase(
    r"[^.;]{0,30}?\b(?:are|is|will be) (?:needed|required|used|enough|plenty|taken|wanted)\b"
    r"|[^.;]{0,20}?\b(?:suffices?|will do)\b"
)
_SIZES = phrase(
    rf"(?<![\w.,/–-])({NUMBER}) (?:sizes|lengths(?= ?[.,;:]|$)|widths(?= ?[.,;:]|$))"
    r"(?!\w)(?! (?:larger|smaller|up|down|bigger|too|apart"
    rf"|of (?:needle|hook|yarn|ball|marker|hole)))"
)
_MADE_IN = phrase(
    r"\b(?:comes?|written|made|given|graded|available|sized|knitted|worked)\b[^.;]*\b(?:in|for)"
    r"(?: all)?(?: of)?(?: the)? $|\ball(?: the)? $|\bin $"
)
_ALONE = phrase(r"^(?:[,:.;]|$| from | between | are (?:given|written)| in all\b)")
_MARKERS = phrase(rf"(?<![\w.,/–-])({NUMBER}) (?:stitch |removable |coloured |colored )?markers?\b")
_PLACED = phrase(
    r"\b(?:place|placing|are|has|have|slip|slipping|move|the|use|hang|remove) (?:the |all )*$"
)


def things_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Every number of balls, sizes and markers in a sentence."""
    text, at = sentence.words, sentence.start
    for found in _BALLS.finditer(text):
        left = text[: found.start()]
        after = text[found.end() :]
        left += " enough " if _ENOUGH.search(after) or _ARE_BOUGHT.match(after) else ""
        truth = _balls(context, left, found[2])
        names = {yarn.name for yarn in context.pattern.yarns.values()}
        if found[2] and names and not any(found[2] in name.split() for name in names):
            words = f"no yarn is called {found[2]}"
            yield Statement(at + found.start(), at + found.end(), 0, None, words)
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
        asked = number_of(found[1]) > 1 and not _ANY_OF.search(text[: found.start()])
        truth = _made(context, scene, found[2].split()) if asked else None
        yield Statement(at + found.start(), at + found.end(), number_of(found[1]), truth)
    for found in _COLOURS.finditer(text):
        if number_of(found[1]) > len(context.pattern.yarns):
            yield Statement(at + found.start(), at + found.end(), 0, None, _yarns(context))
    for found in _MARKERS.finditer(text):
        truth = markers_there(context, scene) if _PLACED.search(text[: found.start()]) else None
        yield Statement(at + found.start(), at + found.end(), number_of(found[1]), truth)


_HOLES = phrase(rf"(?<![\w.,/–-])({NUMBER}) buttonholes\b")
_COLOURS = phrase(
    rf"(?<![\w.,/–-])({NUMBER})(?: (?!of)[a-z]+)? (?:colou?rs|yarns|shades)\b"
    r"(?! (?:in|at|together|per))"
)
_ANY_OF = phrase(
    r"\benough (?:to make |to knit |for |wool for |yarn for )$"
    r"|\b(?:no|any|each|every|between|another|other|about|or|than|by|at least"
    r"|most|spare|these|those) $"
)
_PIECES = phrase(rf"(?<![\w.,/–-])({NUMBER})((?: [a-z][\w-]*){{1,3}})")
_ENDS_NOUN = phrase(
    r"^(?:of|for|in|and|or|to|from|with|on|at|over|under|by|per|than|as|around|along|through|behind"
    r"|between|are|is|were|have|has|that|which|the|each|more|times|go|come|lie)$"
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


def _made(context: Context, scene: Scene, words: list[str]) -> Truth | None:
    """How many are made of pieces whose title is, or ends in, the first of ``words`` that names
    some."""
    pieces = {key: piece for key, piece in context.pattern.pieces.items() if piece.make}
    for noun in words:
        if _ENDS_NOUN.search(noun):
            return None
        one = re.escape(noun.lower().removesuffix("s"))
        word = re.compile(rf"(?:.* )?{one}(?:s|es)?|{one}(?:s|es)? (?:in|of) .*", re.IGNORECASE)
        found = {key: piece for key, piece in pieces.items() if word.fullmatch(piece.title)}
        if scene.plan is not None and scene.plan.key in found and len(found) > 1:
            found = {scene.plan.key: found[scene.plan.key]}
        if found:
            makes = [piece.make for piece in found.values()]
            counts = {*makes, sum(makes), len(makes)}
            return known(
                "of those are made", [truths.alike(context, each) for each in sorted(counts)]
            )
    return None


def _yarns(context: Context) -> str:
    return f"the pattern has {how_many(len(context.pattern.yarns), 'yarn')}"


def _balls(context: Context, left: str, name: str | None) -> Truth | None:
    """The balls of the yarn that is named, or of each and of all."""
    if not _BOUGHT.search(left) or re.search(r"(?i)\b(?:another|extra|spare|more|about)\s+$", left):
        return None
    yarns = {yarn.name: key for key, yarn in context.pattern.yarns.items()}
    each = {total.yarn: truths.plain([n.balls for n in total.needs]) for total in context.plan.yarn}
    if name is not None:
        key = yarns.get(name, name)
        if key in each:
            return known(f"of {name} it takes", [each[key]])
    counts = [[need.balls for need in total.needs] for total in context.plan.yarn]
    whole = truths.plain([sum(some) for some in zip(*counts, strict=True)])
    return known("balls it takes", [whole, *each.values()])


def markers_there(context: Context, scene: Scene) -> Truth | None:
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
