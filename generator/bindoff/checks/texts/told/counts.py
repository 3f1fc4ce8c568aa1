"""Numbers of stitches in sentences, resolved to the place that they speak of."""

from collections.abc import Iterable, Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.numbers import NUMBER, number_of
from bindoff.checks.texts.told.scene import Part as NamedPart
from bindoff.checks.texts.told.scene import Scene, parts_named
from bindoff.checks.texts.told.truths import Figures, Truth, known, phrase
from bindoff.plan.worked import StepPlan
from bindoff.records import Record
from bindoff.source.rowlang.syntax import CountChange


class Statement(Record):
    """A number in a sentence, from ``start`` to ``end`` of the text, and what it may be.

    Without a ``truth`` it could not be resolved; ``other`` says what is wrong besides a number.
    """

    start: int
    end: int
    number: int
    truth: Truth | None
    other: str = ""


_STITCHES = phrase(
    rf"(?<![\w.,/–-])({NUMBER})((?:[- ](?:edge|border|garter|selvedge|end|live|held|picked-up"
    r"|front|back|centre|center|middle|neck|shoulder|sleeve|gusset|heel|thumb|remaining|more|fewer"
    r"|other|underarm))*)"
    r"[- ](stitch(?:es)?|sts?)\b"
)
_NOT_WORK = phrase(
    r"^(?: and [\w-]+ (?:rows|rounds))? (?:over|per|to (?:10|an?)|in (?:10|4)|= |between)\b"
    r"|^ (?:apart|or so|at a time|at most|at least)\b|^\s*/|^ ?x "
)
_COMPARED = phrase(
    r"^ (?:more|fewer|less|wider|narrower|too|past|beyond|before|after the|further)\b"
)
_DELTA = phrase(
    r"\b(?:in|de)creas(?:e|es|ed|ing)(?: by| of| away)? $|\b(?:gr[eo]wn?|shr[aiu]nk)s? by $"
    r"|\b(?:loses?|gains?|takes away|adds) $"
    r"|\b(?:in|de)creas(?:e|es|ed|ing) (?:\w+ )?times(?: \w+)?, $"
)
_DELTA_AFTER = phrase(
    r"^ (?:(?:are|is|have been|were|be) )?(?:now )?(?:(?:in|de)creased|gained|lost|fewer|more)\b"
    r"|^ (?:go|goes|are made|are added|are taken (?:away|off)|are worked away|disappear|come) "
    r"(?:away |off )?(?:in|on|with) (?:each|every)\b"
)
_IN_ALL = phrase(r"^,? (?:in all|in total|altogether|all told)\b")
_LAST_ONES = phrase(r"\b(?:the|these|all|through|remaining|last) $")
_AND_THE_REST = phrase(r"^[^.;]{0,60}\b(?:the other|the rest|the others|another)\b")
_ALONE_BEFORE = phrase(r"^\W*$")
_ALONE_AFTER = phrase(
    r"^\W*$|^,? (?:again|now|left|remain\w*|in all|in total|altogether)\b(?! for)"
)
_DONE_AFTER = phrase(
    r"^[^.;:]{0,40}? (?:are|is) (?:then |now )?(cast on|bound off|cast off|picked up|held)\b"
)
_SIDES = phrase(
    r"^,? (?:(?:wide|deep) )?(?:at|on|along|by|from|in) (?:each|both|either|every|the two) "
    r"(?:sides?|ends?|edges?|fronts?)\b"
)
_EDGE_AFTER = phrase(
    r"^ (?:(?:wide|deep) )?(?:(?:in|of) (?:garter|moss|seed|stocking|stockinette|rib|plain)\S*(?: "
    r"stitch)? )?"
    r"(?:at|on|along|by|in) (?:each|both|either|every|the two) (?:sides?|ends?|edges?|fronts?)\b"
    r"(?! of (?:the|this|its|each|every|a) (?:\w+ )?(?:spine|markers?|cent(?:re|er)|middle|stitch"
    r"|panel|chart|seam)| (?:are|is|forms?|makes?|becomes?)\b)"
)
_EDGE_BEFORE = phrase(
    r"\b(?:edges?|borders?|selvedges?|edgings?|side bands?|frame)"
    r"(?: (?:at|on|along) (?:each|both|either) (?:sides?|ends?))?"
    r"(?: (?:is|are|measures?|takes?|counts?|has|have|of|each|all))+ $"
    r"|\bkeep(?:ing)?(?: (?:the|your))?(?: (?:first|last|outer|edge|border))?(?: and(?: the)? "
    r"last)? $"
    r"|\bfirst and(?: the)? last $"
)
_EDGE_OF = phrase(r"^ (?:wide )?(?:garter |rib |plain )?(?:borders?|edges|edgings?|selvedges?)\b")
_EDGE_NOUN = phrase(r"^[- ](?:edge|border|selvedge)")
_ACT = phrase(
    r"\b(cast on|casting on|bind off|binding off|cast off|casting off|pick up(?: and (?:knit"
    r"|purl))?"
    r"|picking up|holds?|slip|put|place|leave|join) (?:(?!\d)[^.;:,(]){0,40}$"
)
_ON_HOLD = phrase(r"^[^.;:]{0,50}\b(?:holders?|hold|waste yarn|scrap yarn|spare|aside|thread)\b")
_LIVE_BEFORE = phrase(
    r"(?:\b(?:there (?:are|will be|should be)|(?:you )?(?:should )?(?:now )?have|leaves?|leaving"
    r"|(?:round|row|piece|work|needle|it) (?:now |then )?has|remain|giving|making|makes|a total of"
    r"|in total|with|on the needles?:?|down to|up to|back to"
    r"|(?:decreas|increas|reduc)\w+ to|until|till|=)(?: (?:now|then|still|only|all|just|the|a "
    r"total of))*"
    r"|: ) ?$"
)
_LIVE_AFTER = phrase(
    r"^ (?:(?:are |is )?(?:now |still )?(?:left|remain(?:s|ing)?|stay|on (?:the|your) needles?)"
    r"|now|in all|in total|altogether|all told|are there)\b(?! (?:to|for|before|at (?:each|both)"
    r"|unworked))"
)
_LIVE_NOT = phrase(
    r"^(?: (?:now|left|remain|are left|remaining))?"
    r" (?:for|before|after|at (?:each|both|either|the)|with"
    r"|on (?:each|either|both|every|one|a|hold|waste"
    r"|the (?:left|right|other|first|second|third|holder|front|back))|between|in (?:each|the "
    r"repeat|every)"
    r"|unworked|unwrapped|untouched|past|of|wide|each|either|as|along"
    r"|are (?:knit|purl|worked|held))\b"
)
_BETWEEN_MARKERS = phrase(r"\bbetween (?:the |these |two )*markers\b")
_EACH_NEEDLE = phrase(
    r"^ (?:on|to|for) (?:each|every)(?: of (?:the|your|\d+)(?: \w+)?)?(?: \w+)? needles?\b"
)
_WIDE = phrase(r"^ (?:wide|across|around)\b")
_SUBJECT = phrase(
    r"\b(?:the|each|every|both|all) ([a-z]+(?: [a-z]+)?) (?:is|are|has|have|is worked (?:over|on)"
    r"|are worked (?:over|on)|measures?|counts?|begins? (?:with|on)|starts? (?:with|on)|ends? "
    r"(?:with|on)) "
    r"(?:now |all |each |only )?$"
)
_WIDEST = phrase(r"^ at (?:its|their|the) (?:widest|fullest)\b")
_HERE = phrase(r"^ (?:here|now|at this point|by now|so far)\b")
_MARKED = phrase(r"\b(?:markers?|garter|keep\w*|borders?|edges?)\b")
_GOES_ON = phrase(
    rf"(?<=\s)the ([a-z]+(?: [a-z]+)?)(?:, [^,.;]{{1,30}},)? (?:only |has |have )?({NUMBER})"
    r"(?=[.,;]|$| at | and )"
)
_MULTIPLE = phrase(
    rf"\bmultiples? of ({NUMBER})(?! ?(?:cm|mm|in\b|rows?|rounds?))(?: (?:stitch(?:es)?|sts?))?"
)
_PLUS = phrase(rf"^,? (?:plus|and) ({NUMBER})(?: (?:more|over|extra|stitches|edge)\b|(?=[,.;]|$))")
_REPEAT = phrase(r"\brepeats?(?: (?:is|are|of|has|over|takes))? (?:over |across )?$")
_ENDS_WORD = phrase(
    r"\b(?:first|last|next|outer|other|following)(?: (?:and|or) (?:the )?(?:first|last))? $"
)
_ENDS_WITH = phrase(r"\b(?:begin|end|start)(?:s|ning|ing)?(?: and (?:begin|end|start)s?)? with $")
_ONE_IN_EACH = phrase(r"^ (?:in|into|from|through|for|between) (?:each|every)\b")
_EACH_TIME = phrase(r"\b(?:each|every) (?:time|repeat|repetition)\b")
_VAGUE = phrase(
    r"\b(?:about|some|around|almost|nearly|roughly|or|to|than|every|another|up to|by) $"
)


_ACTS_OF = {
    "cast on": "cast on",
    "bound off": "bind off",
    "cast off": "cast off",
    "picked up": "pick up",
    "held": "hold",
}


def stitches_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Every number of stitches in a sentence."""
    for found in _STITCHES.finditer(sentence.words):
        left, right = sentence.words[: found.start()], sentence.words[found.end() :]
        truth = _resolved(context, scene, left, found[2], right, number_of(found[1]))
        at = sentence.start
        yield Statement(at + found.start(), at + found.end(), number_of(found[1]), truth)
        if truth is not None and _SUBJECT.search(left):
            yield from _elided(context, scene, sentence, found.end())


def multiples_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """What the count of stitches is said to be a multiple of."""
    for found in _MULTIPLE.finditer(sentence.words):
        steps = scene.here or _piece(scene, context)
        right = sentence.words[found.end() :]
        truth = _multiple(context, steps, number_of(found[1]), right)
        at = sentence.start
        yield Statement(at + found.start(), at + found.end(), number_of(found[1]), truth)


def _elided(context: Context, scene: Scene, sentence: Sentence, start: int) -> Iterator[Statement]:
    """Numbers that go on after one of another part: ``the body has 48 stitches, the head 36``."""
    for found in _GOES_ON.finditer(sentence.words, start):
        truth = _of_part(context, scene, found[1], sentence.words[found.end() :])
        at = sentence.start
        yield Statement(at + found.start(), at + found.end(), number_of(found[2]), truth)


_BOTH_ENDS = phrase(r"\bfirst and (?:the )?last $")
_OF_A_HEEL = phrase(r"\b(?:heel|gusset)\b")


def _resolved(
    context: Context, scene: Scene, left: str, kind: str, right: str, number: int
) -> Truth | None:
    """What the stitches are that stand between two parts of a sentence."""
    if _NOT_WORK.search(right) or _COMPARED.search(right):
        return None
    if _ENDS_WITH.search(left) or _ONE_IN_EACH.search(right):
        return None
    here = scene.here
    if re.search(r"(?i)\bmultiples?\s+of\s+$", left):
        return None
    if _REPEAT.search(left):
        return known("the repeat is over", truths.repeat_counts(context, _piece(scene, context)))
    sides = _SIDES.search(right) is not None
    delta = _DELTA.search(left) or _DELTA_AFTER.search(right)
    if delta or kind.split()[-1:] in (["more"], ["fewer"]):
        if kind.strip() in ("more", "fewer") and not delta:
            return None
        each_time = _EACH_TIME.search(left) is not None
        steps = (scene.own,) if scene.own else (*scene.behind, *scene.coming)
        steps = steps or tuple(_piece(scene, context))
        changed = [each for step in steps for each in truths.changes(step)]
        if _IN_ALL.match(right) and scene.own:
            changed += truths.changed_since(scene.behind, scene.own)
        if each_time or not here:
            changed += [each for step in steps for each in truths.changes_of_list(step)]
        figures = [*truths.halves(changed), *changed] if sides else changed
        return known("the count changes by", figures)
    closing = scene.own if scene.own and not any(scene.own.rounds) else None
    if _EACH_NEEDLE.search(right):
        return None
    last_ones = _LAST_ONES.search(left) and not _BOTH_ENDS.search(left)
    if closing and closing.closes and last_ones and not _LIVE_NOT.search(right):
        return known("closed are", [truths.plain(closing.closes.stitches)])
    if _ALONE_BEFORE.search(left) and _ALONE_AFTER.search(right) and not kind:
        return _live(scene, left, right)
    if done := _DONE_AFTER.search(right):
        by = _acted(context, scene, _ACTS_OF[done[1].lower()], right)
        if by is not None:
            return by
    if _AND_THE_REST.search(right):
        return None
    if (act := _ACT.search(left)) and (by := _acted(context, scene, act[1].lower(), right)):
        return by
    if (
        _EDGE_AFTER.search(right)
        or _EDGE_BEFORE.search(left)
        or _EDGE_NOUN.search(kind)
        or _EDGE_OF.search(right)
    ):
        if _DELTA.search(left) or _ACT.search(left):
            return None
        return known("at an edge are", truths.edge_counts(context, _piece(scene, context)))
    if scene.plan is not None and _HERE.search(right):
        return _live(scene, left, right)
    if _ENDS_WORD.search(left) and _MARKED.search(left + right):
        return known("at an edge are", truths.edge_counts(context, _piece(scene, context)))
    if (found := _SUBJECT.search(left)) and not _ENDS_WORD.search(left):
        part = _of_part(context, scene, found[1], right)
        if part is not None or _WIDE.search(right):
            return part
    if _ENDS_WORD.search(left) or (
        _VAGUE.search(left) and not re.search(r"(?i)(?:down|up|creas\w+)\s+to\s+$", left)
    ):
        return None
    if _OF_A_HEEL.search(kind):
        return None  # short rows leave others beside them
    if _BETWEEN_MARKERS.search(left):
        return None
    if (_LIVE_BEFORE.search(left) or _LIVE_AFTER.search(right)) and not _LIVE_NOT.search(right):
        return _live(scene, left, right)
    return None


def _piece(scene: Scene, context: Context) -> Sequence[StepPlan]:
    """The steps of the piece that a text stands in, or of all."""
    return scene.plan.steps if scene.plan is not None else truths.all_steps(context)


def _live(scene: Scene, left: str, right: str) -> Truth | None:
    """The stitches on the needles at a step or between two."""
    if scene.plan is None:
        return None
    figures: list[Figures] = []
    if scene.own is not None:
        told_once = scene.own.answers.in_turn and set(scene.own.rounds) == {len(scene.own.rows)}
        figures += truths.leaves(scene.own, rows=told_once and len(scene.own.rows) > 1)
    elif not scene.ahead and re.search(r"(?i)\bto\s+$", left):
        return None
    else:
        figures.append(truths.plain(scene.live))
        for step in scene.ahead:
            figures += truths.leaves(step, rows=True)
    return known("on the needles are", figures)


def _acted(context: Context, scene: Scene, act: str, right: str) -> Truth | None:
    """The stitches that a step casts on, binds off, picks up or holds."""
    if scene.plan is None or re.search(r"^\s+in (?:all|total)\b", right):
        return None
    steps = scene.here if scene.own is not None else (*scene.behind, *scene.coming)
    figures: list[Figures] = []
    if act.startswith(("cast on", "casting on")):
        figures += truths.altered(context, steps, CountChange.CAST_ON)
        figures += _begun(steps)
        said = "cast on are"
    elif act.startswith(("bind", "cast", "casting")):
        figures += truths.altered(context, steps, CountChange.BIND_OFF)
        figures += [truths.plain(s.closes.stitches) for s in steps if s.closes and s.closes.by]
        said = "bound off are"
    elif act.startswith("pick"):
        kinds = (CountChange.PICK_UP, CountChange.PICK_UP_PURL)
        figures += truths.altered(context, steps, *kinds)
        figures += _begun(steps)
        said = "picked up are"
    elif act.startswith("hold") or _ON_HOLD.search(right):
        figures += truths.altered(context, steps, CountChange.HOLD)
        figures += [truths.plain(s.closes.stitches) for s in steps if s.closes]
        said = "held are"
    else:
        return None
    return known(said, figures)


def _begun(steps: Iterable[StepPlan]) -> Iterator[Figures]:
    for step in steps:
        if step.begins is not None:
            yield truths.plain([sum(part) for part in zip(*step.begins.parts, strict=True)])
            yield from map(truths.plain, step.begins.parts)
            if step.begins.new:
                yield truths.plain(step.begins.new)


def _of_part(context: Context, scene: Scene, noun: str, right: str) -> Truth | None:
    """The stitches of a piece or a section that a sentence names."""
    name = noun.split()[-1]
    patterns = context.pattern.stitch_patterns
    if any(name in f"{key} {each.title}".lower() for key, each in patterns.items()):
        return None  # a block of the pattern, or what is worked in it
    parts = parts_named(context, name, scene.plan.key if scene.plan else None)
    if not parts:
        return None
    counts = [*part_counts(context, parts, widest=bool(_WIDEST.search(right)))]
    charted = (step for part in parts for step in part.steps if step.charts)
    counts += truths.repeat_counts(context, charted)
    if scene.own is not None:  # which may part its row into what is called so
        counts += truths.numbers_in(context, scene.own)
    return known(f"the {name} has", counts)


def part_counts(context: Context, parts: Iterable[NamedPart], *, widest: bool) -> Iterator[Figures]:
    """The counts that parts of a name have; at their widest alone, if wished."""
    for part in parts:
        every = [each for step in part.steps for each in truths.leaves(step, rows=True)]
        if not widest:
            yield from every
            continue
        sizes = truths.each_size(context)
        yield truths.plain([max((n for f in every for n in f[s]), default=0) for s in sizes])


def _multiple(context: Context, steps: Iterable[StepPlan], number: int, right: str) -> Truth | None:
    """The multiples that the stitches cast on are: those of ``number`` if it is one."""
    plus = _PLUS.search(right)
    over = number_of(plus[1]) if plus else 0
    every = [each for step in steps for each in truths.leaves(step, rows=False)]
    if not every or number < 1:
        return None
    fits = any(
        all(some and any(n % number == over % number for n in some) for some in each)
        for each in every
    )
    if fits:
        return Truth("", (tuple(frozenset({number}) for _ in context.source.sizes),))
    repeats = known("the repeat is over", truths.repeat_counts(context, steps))
    if plus and repeats and any(number in some for each in repeats.figures for some in each):
        edges = {n for each in truths.edge_counts(context, steps) for some in each for n in some}
        counts = {n for each in every for some in each for n in some}
        rests = {(n - 2 * edge) % number for n in counts for edge in (0, *edges)}
        if over % number not in rests:
            return Truth("the rest is", (truths.alike(context, *rests),))
    return repeats
