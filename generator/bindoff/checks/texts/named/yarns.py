"""Yarns, as texts name them: there is such a yarn, and the work at that place is in it."""

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from itertools import pairwise

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, supposing
from bindoff.checks.texts.named.parts import compared
from bindoff.checks.texts.named.world import World
from bindoff.checks.texts.told.scene import Scene, parts_of, scene_of
from bindoff.checks.walk import yarns_worked
from bindoff.records import Record
from bindoff.remembered import once_each
from bindoff.source.model import TextUse
from bindoff.source.steps.say import SayStep

_CAPITAL = r"[A-Z][a-z'’]{2,}"
_WORK = (
    r"(?i:(?:work|knit|purl|cast|bind|join|change|switch|break|cut|carr|strand|embroider|sew|graft"
    r"|pick|crochet|strip|hold|use|using|made)\w*|is|are|else is|rest is|all)"
)
_GOES_ON = (
    r"(?=[.,;)]|$| (?:and|for|until|only|throughout|alone|to|over|on|by|in|again|alternat"
    r"|together)\b)"
)
_ELSE = supposing("except", "leftover", "without")


_NEAR = re.compile(r"\b(?:in|to|with|of) ([A-Z][a-z]{3,})\b")
_ALIKE = 0.75  # two of the four letters that differ are another word; one is a slip


class _Named(Record):
    """How the yarns of a pattern are named: each by its key, one of them, some of them together,
    and words that stand where one is named."""

    keys: Mapping[str, str]
    one: "re.Pattern[str]"
    some: "re.Pattern[str]"
    any: "re.Pattern[str]"


@once_each
def yarn_names(context: Context) -> _Named:
    """The yarns of a pattern as texts name them."""
    keys = {yarn.name: key for key, yarn in context.pattern.yarns.items()}
    names = "|".join(re.escape(name) for name in sorted(keys, key=len, reverse=True))
    other = rf"((?!(?:{names})(?![\w-])){_CAPITAL})(?![\w-])"
    return _Named(
        keys,
        re.compile(rf"(?<![\w-])({names})(?![\w'’-])"),
        re.compile(rf"(?<![\w-])(?:{names})(?:(?:,|,? and|,? or) (?:{names}))*(?![\w'’-])"),
        re.compile(
            rf"\b(?:{names})(?:,| and| or|, and) {other}{_GOES_ON}"
            rf"|\b(?:in|with|of) {other} (?:and|or) (?:{names})(?![\w-])"
            rf"|\b(?i:join|rejoin|cut|break)(?i: off| in)? {other}"
            rf"|\b{_WORK}(?: (?!the\b)[a-z]+){{0,3}}? (?:in|with|to) {other}"
            rf"{_GOES_ON}"
            rf"|\b(?i:change|switch)\b(?:[^.;]|\.\d){{0,40}}?"
            rf" (?:and|back|again)(?: to)? {other}{_GOES_ON}"
            rf"|\b(?i:lengths?|strands?|balls?|skeins?|tails?|scraps?|bits?|rounds?|rnds?|rows?"
            rf"|stripes?|bands?|stitches) of {other}{_GOES_ON}"
        ),
    )


def yarns_named(world: World, sentence: Sentence) -> Iterator[Finding]:
    """Every name that stands where a yarn's does, and is none of anything."""
    named = yarn_names(world.context)
    for found in _NEAR.finditer(sentence.words):
        known = re.search(rf"\b{re.escape(found[1].lower())}", world.called)
        close = () if known else get_close_matches(found[1], named.keys, n=1, cutoff=_ALIKE)
        for name in close:
            start, end = (sentence.start + each for each in found.span(1))
            yield Finding(
                f"there is no yarn called `{found[1]}`; `{name}` is one",
                sentence.prose.place(start, end),
            )
    for found in named.any.finditer(sentence.words):
        group = found.lastindex or 0
        word = found[group].lower()
        told = len(re.findall(rf"\b{re.escape(word)}\b", world.said))
        near = get_close_matches(found[group], named.keys, n=1, cutoff=_ALIKE)
        if told == 1 and not near and not re.search(rf"\b{re.escape(word)}\b", world.called):
            start, end = found.span(group)
            yield Finding(
                f"there is no yarn called `{found[group]}`",
                sentence.prose.place(sentence.start + start, sentence.start + end),
            )


# ---------------------------------------------------------------- the yarns of a part

# Words by which a sentence is about ends, seams and embroidery, or about some rows of a part.
_OF_SOME = re.compile(
    r"\b(?:sew|seam|weav|graft|darn|tail|end|close|gather|tack|baste|whip|stitch|embroider"
    r"|duplicate|outline|fringe|tassel|pompom|cord|ties?\b|edging|crochet|mark|hold|thread"
    r"|(?:rows?|rounds?|rnds?|stripes?|striped|ridges?|alternat\w*|both|charts?|motifs?"
    r"|dots?|lines?|background|ground|first|last|other|until|cells?|squares?|pattern|float|strand"
    r"|as|like|begin\w*|start\w*|from|change|switch|join|up to|before|after)\b)",
    re.IGNORECASE,
)
_ASSERTS = re.compile(r"\b(?:in|with|of|for|uses?|takes?|is|are|makes?)\b", re.IGNORECASE)
_NO_PART = re.compile(
    r"the|and|for|first|second|third|last|left|right|upper|lower|main|end|start|part|of"
)


class _Part(Record):
    """A part that has a name, and the yarns it is worked in."""

    name: str
    said: "re.Pattern[str]"
    yarns: frozenset[str]


@once_each
def _parts(context: Context) -> tuple[_Part, ...]:
    """Every piece and section by its name and by each word of it, the longest first."""
    whole: dict[str, set[str]] = {}
    inside: dict[str, set[str]] = {}
    for part in parts_of(context):
        name = re.sub(r"^(?:the|both|two) ", "", part.name.lower().strip())
        whole.setdefault(name, set()).update(yarns_worked(*part.steps))
        for word in re.findall(r"[a-z]{3,}", name):
            if not _NO_PART.fullmatch(word):
                inside.setdefault(word.removesuffix("s"), set()).update(yarns_worked(*part.steps))
    yarns = inside | whole
    return tuple(
        _Part(
            name,
            re.compile(
                r"(?:^\W*|\b(?:the|both|each|all|two|every|an?|whole|and|or) |, )(?:whole )?"
                rf"{re.escape(name.removesuffix('s'))}s?\b"
                r"(?! (?!(?:is|are|in)\b)[a-z]+ (?:is|are|in)\b)",
                re.IGNORECASE,
            ),
            frozenset(some),
        )
        for name, some in sorted(yarns.items(), key=lambda each: -len(each[0]))
        if some
    )


def yarns_of_parts(world: World, sentence: Sentence) -> Iterator[Finding]:
    """A yarn said of a part that is worked in others."""
    named = yarn_names(world.context)
    if len(named.keys) < 2 or sentence.supposes:
        return
    for words, first, found in _stretches(sentence.words, named.some):
        if _OF_SOME.search(words) or _ELSE.search(words) or not _ASSERTS.search(words):
            continue
        used = {named.keys[name] for name in named.one.findall(found[0])}
        for part in _parts(world.context):
            told = None if used <= part.yarns else part.said.search(words)
            if told:
                spans = (found.span(), (first + told.start(), first + told.end()))
                start, end = (
                    sentence.start + min(s for s, _ in spans),
                    sentence.start + max(e for _, e in spans),
                )
                yield Finding(
                    f"`{' '.join(words.split()).strip(' .,;:')}` stands here, and the {part.name} "
                    f"is in {called(world, part.yarns)}",
                    sentence.prose.place(start, end),
                )
                break


def _stretches(words: str, named: "re.Pattern[str]") -> Iterator[tuple[str, int, "re.Match[str]"]]:
    """The stretches of a sentence that have one yarn, or some named together, each: its words,
    where they begin, and what was found in them."""
    founds = list(named.finditer(words))
    cuts = [0] if founds else []
    for one, other in pairwise(founds):
        between = words[one.end() : other.start()]
        mark = re.search(r"[,;:.(]| (?:and|but|while|with|then|to) ", between)
        cuts.append(one.end() + (mark.start() if mark else len(between) // 2))
    for found, start, end in zip(founds, cuts, (*cuts[1:], len(words)), strict=False):
        first = max(start, *(words.rfind(mark, start, found.start()) + 1 for mark in ";:("))
        last = re.compile(r"[;:]|$").search(words, found.end(), end)
        yield words[first : last.start() if last else end], first, found


# ---------------------------------------------------------------- the yarns of a place

_TAKEN = re.compile(
    r"\b(?:with|in|using|use|take|change to|switch to|join|pick up|thread|to|yarn)"
    r"(?: (?:the|your|an?|both) (?:[\w.-]+ ){0,4}?(?:needles?|hook) and)?"
    r"(?: (?:the|a|new|another|doubled?|single|strand|length|ball|of|end|yarn|in|back|long|one"
    r"|two|both)){0,4} $",
    re.IGNORECASE,
)
_LEFT = re.compile(
    r"\b(?:cut|break|drop|leave|fasten|carry|strand|let)\b(?:(?! and | then )[^.;,])*$",
    re.IGNORECASE,
)
_TO_COME = re.compile(r"\b(?:last|later|then|at the end)\b", re.IGNORECASE)
_CHANGED = re.compile(r"\b(?:change|switch|join)(?: back)?(?: in)?(?: to)? $", re.IGNORECASE)


def yarns_at_steps(world: World, sentence: Sentence) -> Iterator[Finding]:
    """A yarn that the text of a step takes up, and neither the step nor those ahead have."""
    named = yarn_names(world.context)
    told = sentence.prose.kind is TextUse.STEP and sentence.prose.path[-1] != "how"
    if len(named.keys) < 2 or not told or sentence.supposes or _ELSE.search(sentence.words):
        return
    mentions = list(sentence.said(named.one))
    for found in mentions:
        before = sentence.words[: found.start()]
        there = _there(world.context, sentence, next_only=_CHANGED.search(before) is not None)
        if _TO_COME.search(before):
            there |= yarns_worked(*scene_of(world.context, sentence.prose).coming)
        taken = _TAKEN.search(before) and not _LEFT.search(before) and not compared(before)
        if there and taken and named.keys[found[1]] not in there:
            yield Finding(
                f"`{found[1]}` stands here, and the work at this place is in "
                f"{called(world, there)}",
                sentence.place(found),
            )


def _there(context: Context, sentence: Sentence, *, next_only: bool) -> set[str]:
    """The yarns of the step of a text, or of those ahead of it, or of the next one alone; a text
    that takes a length of yarn is about that yarn."""
    scene: Scene = scene_of(context, sentence.prose)
    if scene.plan is None:
        return set()
    step = scene.plan.steps[int(sentence.prose.path[3])]
    if isinstance(step.step, SayStep) and step.step.takes is not None:
        return {step.yarn}
    if next_only and scene.own is None and isinstance(step.step, SayStep):
        return yarns_worked(*[each for each in scene.coming if any(each.rounds)][:1])
    own = () if isinstance(step.step, SayStep) else (step,)
    found = yarns_worked(*scene.here, *own) | {each.yarn for each in (*scene.here, *own)}
    for each in scene.plan.steps:
        found |= {thread.yarn for made in each.pictures for thread in made.embroidery.threads}
    return found if scene.own is not None else found | yarns_worked(*scene.coming)


def called(world: World, yarns: set[str] | frozenset[str]) -> str:
    """The names of yarns, as a finding tells them."""
    return " and ".join(sorted(world.context.pattern.yarns[key].name for key in yarns))
