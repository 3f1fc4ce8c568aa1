"""Parts and wholes in one sentence: equal shares of a count, and counts that add up to one."""

from collections.abc import Iterator, Sequence
from itertools import product

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.counts import Statement
from bindoff.checks.texts.told.numbers import NUMBER, Lists, number_of
from bindoff.checks.texts.told.scene import Scene
from bindoff.checks.texts.told.truths import flat, known, phrase
from bindoff.plan.worked import StepPlan
from bindoff.source.rowlang.syntax import Group, MoreTimes, Repeat

_WHOLE = phrase(rf"(?<![\w.,/–-])({NUMBER}) (?:\w+ )?(?:stitches|sts|loops)\b")
_SHARE = phrase(
    rf"(?<![\w.,/–-])({NUMBER})(?: (?:stitches|sts|loops|of them))? (?:are )?(?:on|for|from|in"
    rf"|at|to|along) (?:each|every|either)(?: of)?(?: the| your)?(?: ({NUMBER}))?"
    rf"(?: (?:first|last))?(?: ({NUMBER}))? (sides?|ends?|edges?|halves|half|sections?|wedges?"
    r"|segments?|needles?|fronts?|sleeves?|points?|parts?)\b(?! of (?:each|every|the \d)\b)"
)
_REST = phrase(
    r"\b(?:and|plus) (?:\d+ for )?(?:the|a|one|1) (?:\w+ )?(?:spine|middle|centre|center|stitch"
    r"|back|body|other|rest)\b"
)
_MORE_SHARES = phrase(
    rf" ?(?:, ?)?(?:and )?{NUMBER}(?: (?:stitches|sts))?(?: each)? (?:for|on|in|at) "
)
_PLACED = phrase(r" (?:at|on|for|along) the \w+")
"""Behind a count that is of one place, and not shared by others."""
_DIVIDED = phrase(
    rf"\b(?:over|between|on|among|to) ({NUMBER}) needles\b[^.;\d]*?({NUMBER})"
    r"(?: (?:stitches|sts))? (?:on|to|for) each\b"
)
_TWO = ("side", "end", "edge", "hal", "front", "sleeve")
_ADDED = phrase(
    rf"(?<![\w.,/–-])({NUMBER}) ([a-z]+): ({NUMBER}) (in|of|for|with) [^,.;:]{{2,20}}"
    rf"((?:, ?{NUMBER} \4 [^,.;:]{{2,20}}?)*),? and ({NUMBER}) \4\b"
)
_LAID = phrase(rf"\b(?:in|into|of) ({NUMBER}) rows of ({NUMBER})(?= squares|[,.;]| so\b| with\b)")


_TOTAL = phrase(
    rf"(?:[:,–—]|\b(?:and|so)) ?({NUMBER})(?: (?:stitches|sts))? (?:in all|in total|altogether)\b"
)
_NO_PART = phrase(
    r"^ ?(?:times|rows?|rounds?|rnds?|ridges?|cm|mm|in\b(?! (?:each|the))|needles?|st\b|nd\b|rd\b"
    r"|th\b|balls?|g\b|pieces|markers?|%)|^\w"
)
_IN_PAIRS = phrase(r"\b(?:each|both|either|every|two|twice)\b")
_FOR_EVERY = phrase(r"\b(?:for|in|of) every \d")
_EVEN_SHARE = phrase(
    rf"[,:] ({NUMBER})(?: (?:stitches|sts))? (?:from|on|for|in|between|at) (?:each|every)\b"
)
_MOST_PARTS = 4


def _sum(sentence: Sentence, lists: Lists, sizes: int) -> Iterator[Statement]:
    """A total that no way of counting its parts, once or once for each of a pair, comes to."""
    for found in _TOTAL.finditer(sentence.words):
        before = [*re.finditer(rf"(?<![\w.,/×–-]){NUMBER}", sentence.words[: found.start()])]
        if not 1 < len(before) <= _MOST_PARTS:
            continue
        loose = any(_NO_PART.match(sentence.words, each.end()) for each in before)
        if loose or _FOR_EVERY.search(sentence.words):
            continue
        parts = [_per_size(lists, sentence, *each.span(), sizes) for each in before]
        total = _per_size(lists, sentence, *found.span(1), sizes)
        often = range(1, _MOST_PARTS + 1) if _IN_PAIRS.search(sentence.words) else range(1, 2)
        ways = product(often, repeat=len(parts))
        first, *others = parts  # so many on each of so many come to their product
        if len(parts) == 2 and all(
            a * b == c for a, b, c in zip(first, *others, total, strict=True)
        ):
            continue
        if not any(
            all(
                sum(w * part[size] for w, part in zip(way, parts, strict=True)) == total[size]
                for size in range(sizes)
            )
            for way in ways
        ):
            at = sentence.start
            words = " and ".join(str(part[0]) for part in parts)
            wrong = f"{words} do not come to the last, however they are counted"
            yield Statement(at + before[0].start(), at + found.end(), 0, None, wrong)


def _even(sentence: Sentence, lists: Lists, sizes: int) -> Iterator[Statement]:
    """A share of a count that does not go into it."""
    for found in _EVEN_SHARE.finditer(sentence.words):
        wholes = list(_WHOLE.finditer(sentence.words, 0, found.start()))
        numbers = re.findall(rf"(?<![\w.,/×–-]){NUMBER}", sentence.words)
        if len(wholes) != 1 or len(numbers) != len((found, wholes)):
            continue
        whole = _per_size(lists, sentence, *wholes[0].span(1), sizes)
        share = _per_size(lists, sentence, *found.span(1), sizes)
        if any(
            some and all_ > some and all_ % some for all_, some in zip(whole, share, strict=True)
        ):
            at = sentence.start
            words = f"{whole[0]} can't be shared by so many each"
            yield Statement(at + found.start(1), at + found.end(), 0, None, words)


def _per_size(lists: Lists, sentence: Sentence, start: int, end: int, sizes: int) -> Sequence[int]:
    """A number of a sentence in each size."""
    listed = lists.between(sentence.start + start, sentence.start + end)
    if listed:
        return listed.figures
    return (number_of(sentence.words[start:end].strip()),) * sizes


def shares_told(
    context: Context, scene: Scene, sentence: Sentence, lists: Lists
) -> Iterator[Statement]:
    """Every share of a count, every sum, and pieces laid in rows, that do not come out."""
    sizes = len(context.source.sizes)
    yield from _sum(sentence, lists, sizes)
    yield from _even(sentence, lists, sizes)
    for found in _SHARE.finditer(sentence.words):
        wholes = _wholes(scene, sentence, found.start(), found[4].lower(), lists)
        told = next((number_of(g) for g in (found[2], found[3]) if g), 0)
        parts = {told} if told else _parts(scene, found[4].lower())
        shares = _figures(lists, sentence, found, context)
        if _MORE_SHARES.match(sentence.words, found.end()):
            continue
        wrong = _unequal(wholes, parts, shares, bool(_REST.search(sentence.words, found.end())))
        if wrong:
            at = sentence.start
            yield Statement(at + found.start(), at + found.end(), 0, None, wrong)
    for found in _DIVIDED.finditer(sentence.words) if scene.plan is not None else ():
        over = number_of(found[1])
        counts = [truths.plain(scene.live)]
        if scene.own is not None:
            counts += (*truths.leaves(scene.own, rows=False), truths.finds(scene.own))
        at = sentence.start
        truth = known("on each needle are", truths.shared(counts, [truths.alike(context, over)]))
        yield Statement(at + found.start(2), at + found.end(), number_of(found[2]), truth)
    for found in _ADDED.finditer(sentence.words):
        more = [number_of(each) for each in re.findall(rf"(?<![\w.]){NUMBER}", found[5])]
        every = [number_of(found[3]), *more, number_of(found[6])]
        if sum(every) != number_of(found[1]):
            at = sentence.start
            words = f"{' + '.join(map(str, every))} are {sum(every)} {found[2]}"
            yield Statement(at + found.start(), at + found.end(), 0, None, words)
    for found in _LAID.finditer(sentence.words):
        made = sum(piece.make for piece in context.pattern.pieces.values() if piece.make > 1)
        laid = number_of(found[1]) * number_of(found[2])
        if made > _MANY and laid != made:
            at = sentence.start
            words = f"that takes {laid} pieces, and {made} are made"
            yield Statement(at + found.start(), at + found.end(), 0, None, words)


_MANY = 3


def _figures(
    lists: Lists, sentence: Sentence, found: "re.Match[str]", context: Context
) -> Sequence[int]:
    """A share per size."""
    at = sentence.start
    listed = lists.between(at + found.start(), at + found.end(1))
    return listed.figures if listed else (number_of(found[1]),) * len(context.source.sizes)


def _wholes(
    scene: Scene, sentence: Sentence, before: int, noun: str, lists: Lists
) -> list[Sequence[int]]:
    """The counts, per size, that may be shared: the one before in the sentence, or those of the
    step."""
    told = list(_WHOLE.finditer(sentence.words, 0, before))
    if told:
        if _PLACED.match(sentence.words, told[-1].end()):
            return []
        if re.search(r"\d|\beach\b", sentence.words[told[-1].end() : before]):
            return []
        at = sentence.start
        listed = lists.between(at + told[-1].start(), at + told[-1].end(1))
        return [listed.figures if listed else (number_of(told[-1][1]),)]
    if scene.own is None or not noun.startswith(("needle", "hal")):
        return []
    found: list[Sequence[int]] = []
    for figures in (*truths.leaves(scene.own, rows=False), truths.finds(scene.own)):
        if all(len(some) == 1 for some in figures):
            found.append([next(iter(some)) for some in figures])
    return found


def _parts(scene: Scene, noun: str) -> set[int]:
    """Into how many parts something may be shared."""
    if noun.startswith(_TWO):
        return {2, 4}
    if noun.startswith(("section", "wedge", "segment")):
        return {each for step in scene.here for each in _repeated(step)} - {0}
    return {2, 3, 4, 5} if noun.startswith("needle") else set()


def _repeated(step: StepPlan) -> Iterator[int]:
    """How often a row of a step repeats its brackets."""
    for row in truths.all_rows(step):
        for part in flat(row.parts):
            if isinstance(part, Group) and isinstance(part.times, int):
                yield part.times
            elif isinstance(part, Repeat) and isinstance(part.until, MoreTimes):
                yield part.until.count + 1 if isinstance(part.until.count, int) else 0


def _unequal(
    wholes: Sequence[Sequence[int]], parts: set[int], shares: Sequence[int], rest: bool
) -> str:
    """What is wrong with shares of the first whole, if they fit none; empty else."""
    if not wholes or not parts:
        return ""
    for whole in wholes:
        every = list(whole) * (len(shares) if len(whole) == 1 else 1)
        for count in parts:
            over = [n - count * share for n, share in zip(every, shares, strict=False)]
            if rest and all(each > 0 for each in over) and len(set(over)) == 1:
                return ""
            if all(each in (0, 1) for each in over):
                return ""
    count = min(parts)
    firsts = [*wholes[0]] * (len(shares) if len(wholes[0]) == 1 else 1)
    pairs = zip(firsts, shares, strict=False)
    first = next((n for n, share in pairs if n // count != share), firsts[0])
    return f"{first} in {count} parts are {first // count} each"
