"""Every number of the work in a sentence is a claim: some fact near its place must confirm it.

What a number counts is told by the noun behind it; a number that goes on from another, as in `311
stitches: 155 before the spine, 1, and 155 after it`, counts the same. A number of anything else,
as hours or pages, is no claim.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.counts import Statement
from bindoff.checks.texts.told.numbers import NUMBER, number_of
from bindoff.checks.texts.told.scene import Scene, parts_named, parts_of
from bindoff.checks.texts.told.truths import Figures, Truth, known, phrase
from bindoff.plan.steps.buttonholes import Buttonholes
from bindoff.plan.steps.crown import Crowned
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.records import Record
from bindoff.remembered import once_each

Collect = Callable[[Context, Sequence[StepPlan]], Iterable[Figures]]

_BETWEEN = (
    r"(?:[- ](?!(?:of|in|on|to|and|or|for|at|from|the|an?|each|every|by|with|per|times|more than"
    r"|rows?|rounds?|rnds?|ridges?|stitch(?:es)?|sts?|cm|mm|inch(?:es)?|is|are|x)\b)[a-z][\w’'-]*){0,2}"
)
# A number, and what may stand between it and its noun.
_FREE = r"(?<![\w.,/×–-])(?<!\d\s)(?<!/\s)"
_KINDS: Mapping[str, "re.Pattern[str]"] = {
    "stitches": phrase(
        rf"{_FREE}({NUMBER}){_BETWEEN}[- ](?:stitches|sts|loops|stitch(?! (?:rows?|rounds?|ridges?"
        r"|holders?|markers?|patterns?|bands?|borders?|edges?)))\b"
    ),
    "rows": phrase(rf"{_FREE}({NUMBER}){_BETWEEN}[- ](?:rows?|rounds?|rnds?)\b(?! of \d)"),
    "counted": phrase(
        rf"\b(?:counter|dial)\b[^.;]{{0,25}}? (?:stands? (?:at|on)|shows?|reads?|is (?:at|on)|says?"
        rf"|reaches|at) ({NUMBER})(?!\w)"
    ),
    "ridges": phrase(rf"{_FREE}({NUMBER}){_BETWEEN}[- ]ridges?\b"),
    "times": phrase(
        rf"{_FREE}({NUMBER}){_BETWEEN} repeats\b"
        rf"|\bafter ({NUMBER})(?= of (?:them|these))"
    ),
    "sections": phrase(
        rf"{_FREE}({NUMBER}){_BETWEEN} (?:sections|wedges|segments|points|petals)\b"
    ),
    "shapings": phrase(rf"{_FREE}({NUMBER}){_BETWEEN} (?:decreases|increases)\b"),
    "stripes": phrase(rf"{_FREE}({NUMBER}){_BETWEEN} (?:stripes\b|bands (?:of|in)\b)"),
    "ropes": phrase(
        rf"{_FREE}({NUMBER}){_BETWEEN} (?:ropes|cables|plaits)\b"
        r"(?= (?:around|across|side by side)\b)"
    ),
}
_GOES_ON = phrase(
    rf"(?<!\(){_FREE}({NUMBER})(?! ?(?:cm|mm|m|g|in(?=[).,;:]| \(|$))\b)"
    r"(?= (?:before|after|in|on|at|for|each (?:for|on|at|in)|between|from"
    r"|of (?:them|these|those)|(?:are |is )?(?:now )?(?:left|gone)|remain\w*|more"
    r"|of each)\b|[,.;:]|$)"
)
_WORKED = phrase(
    rf"\bby ({NUMBER})(?= (?:in|on|with) (?:each|every))"
    r"|\b(?:cast(?: on| off)?|bind(?: off)?|knit|purl|slip|pick up|hold|increase|decrease)(?: the"
    rf"| another| next)* ({NUMBER})(?= (?:in|on|at|for|from|off|again|and"
    r"|(?:more|of them) )|[,.;:]|$)(?! (?:rows?|rounds?|times|cm|in(?=[).,;:]|$)))"
)
_BARE = phrase(
    rf"\b(?:adds|leaves|takes (?:away|off)) ({NUMBER})"
    r"(?= (?:to|of|in|from) (?!an?\b|\d)[a-z]|[,.;]|$)"
    rf"|\bto the ({NUMBER})(?= (?:of|at|in|on|for|from) the [a-z])"
    rf"|\bgraft\w* ({NUMBER})(?= (?:stitches |sts |loops )?(?:to|with))"
)
"""A number of stitches that its verb or its place tells."""
_NOUN = 15
"""How far behind `rows` stands what they do, as in `eighty rows of increases`."""
_FAR = 30
"""How far behind a number another may go on from it, in characters."""
_LABEL = phrase(
    r"\b(?:rows?|rounds?|rnds?|sizes?|steps?|charts?|needles?|markers?|sections?|pages?|versions?"
    r"|parts?|pieces?|no\.?|number|figures?|under|over|age[ds]?|to|or|by|of|×|x|than) (?:\d+,? "
    r"(?:and|to|or|,) )*$"
)
"""Before a number that is a name, an age or a limit."""
_OTHER_WORK = phrase(
    r"\b(?:sew\w*|embroider\w*|satin|backstitch\w*|swatch\w*|fringe\w*|tassels?|pompoms?|tack\w*"
    r"|overcast\w*|duplicate|whip\w*|plait\w*|crochet\w*|chains?|hook|cardboard|lining|zip|button"
    r"|felt\w*|ends|tails?|if you|as many|multiples?|weav\w+|darn\w*|graft\w*|gauge"
    r"|(?:over|to|per|in) \d+ ?(?:cm|in))\b"
)
_SWATCH = phrase(r"\bswatch\w*\b")
_SWATCHED = 90
"""Characters of the sentence before, which may say that this one is about a swatch."""
_LOOSELY = phrase(
    r"\b(?:every|each|another|about|some|around|almost|nearly|roughly|or|than|further|least|most"
    r"|any|both|between|within|last|first|next|other|in case|extra|spare|skip|leave out|out of"
    r"|ridges [^.;]* is|to|by|as|for|\d,|\d,? and) $"
)
_PASSING = phrase(
    r"^ (?:apart|(?:(?:are |is )?left )?un(?:wrapped|worked)|at a time"
    r"|or (?:so|more|fewer|two|three)|further|later|before|after|away|past|in from|from"
    r"|to (?:spare|10|5|2|4|1|the|an?)|over|per|too|less|fewer|wide|high|tall"
    r"|in (?:10|4|5|an?)"
    r"|between|together|beyond|above|below|at (?:most|least)|make|measure|give|wider|longer"
    r"|shorter|narrower|deeper|larger|smaller|higher|is|equal|every|even|past"
    r"|more|than|(?:on|for|in) each of|(?:for|in|from) (?:every|each) \d+|of the \d+)\b|^\s*[/=(×x]"
)
_OF_A_HEEL = phrase(r"\b(?:heel|gusset|(?:un)?wrapped|turned|double)\b")
"""Short rows leave others beside them."""
_EACH_ROW = phrase(
    r"\b(?:grows?|shrinks?|increases?|decreases?|gains?|loses?|takes? away|adds?"
    r"|goes (?:down|up))\b[^.;]*\b(?:in|on|with) (?:every|each)\b"
    r"|\b(?:every|each)\b[^.;]* (?:takes? away|adds?|gains?|loses?)\b"
)
_WIDE_HIGH = phrase(r"^ (?:wide|high|tall|across)\b")
_ARE_IN = phrase(r"^ (?:is|are|were) (?:worked |knitted |all )?in [A-Z]")
_TO_REPEAT = phrase(r"^ (?:to|in|of) (?:the|each|every|one|a)(?: (?:chart|pattern))? repeat\b")
_OF_ROWS = phrase(r"^ of (?:the|these|those|its)(?: \d+)? (?:rows|rounds|rnds)\b")
_ABOVE = phrase(r"^ (?:above|from|beyond|past|since|after) the ([a-z]+)\b(?! (?:edge|round|row))")
_UP_A_COLUMN = phrase(r"^ (?:up|down|in) (?:an?|the|each|every) (?:\w+ )?column\b")
_EACH_FOLLOWS = phrase(r"^ (?:in|on|with) (?:each|every)\b")
_SHARED = phrase(r"\b(?:in|on|for|from|between) (?:each|every)\b")
_TIMES_OVER = phrase(rf"(?:(?<![\w.])({NUMBER}) )?\btimes $")
_SO_FAR = phrase(r"\b(?:before|so far|already|above)\b")
_HALVED = phrase(
    r"\b(?:each|every|both|either|half|halves|sides?|ends?|edges?|per|two|2|fronts?|backs?|between"
    r"|beside|other|apart|with an?|share\w*|divid\w*|middle|cent(?:re|er)|first|last|before|after"
    r"|alternate)\b"
)
"""Words of a sentence in which a number may be that of one of two sides."""
_FOR_EACH = phrase(r"\b(?:each|every|both|per)\b[^.;]*$")
_SHAPING = phrase(r"\b(?:increase|decrease|increasing|decreasing|shaping|shaped)\b")
_IN_ALL = phrase(r"^ (?:in all|in total|altogether|all together)\b")
_CROSSING = phrase(r"\b(?:to|on|from) (?:a|the) (?:cable|spare) needle\b")
_SCOPED = phrase(r"^ (?:to|in|of|on|for) (?:the|each|every|one|a)\b")
_STRIPE = phrase(r"\b(?:stripes?|bands?)\b[^.;,]{0,30}$")
_GRAFTS = phrase(r"\bgraft\w* \d")
_DOUBLED = phrase(
    r"\b(?:lies|lying|lie|laid|lay|folded|fold|worn)\b[^.;]{0,20}\b(?:flat|double|doubled"
    r"|in (?:half|two))\b|\b(?:flat|folded|doubled) (?:it|they)\b"
)
_LEAST_WIDE = 10
"""What is narrower may be a motif, which goes by no name."""
_LEAST, _LEAST_ANYWHERE = 2, 4
"""The smallest number that is held: in a piece, and of the whole pattern."""


class Claim(Record):
    """A number from ``start`` to ``end`` of a sentence, and what it counts. ``sure`` says that no
    word beside it makes it another."""

    start: int
    end: int
    number: int
    kind: str
    sure: bool = False


def claims_of(words: str) -> list[Claim]:
    """Every claim of a sentence, in its order."""
    found: list[Claim] = []
    for kind, pattern in _KINDS.items():
        for each in pattern.finditer(words):
            written = next(filter(None, each.groups()))
            if not any(c.start <= each.start() < c.end for c in found):
                found.append(Claim(*each.span(), number_of(written), kind))
    for pattern in (_WORKED, _BARE):
        for each in pattern.finditer(words):
            start, end = each.span(each.lastindex or 0)
            if not any(c.start <= start < c.end for c in found):
                number = number_of(words[start:end])
                found.append(Claim(start, end, number, "stitches", pattern is _BARE))
    found.sort(key=lambda claim: claim.start)
    for each in _GOES_ON.finditer(words):
        before = [claim for claim in found if claim.end <= each.start()]
        inside = any(c.start <= each.start() < c.end for c in found)
        if before and not inside and before[-1].kind == "stitches":
            between = words[before[-1].end : each.start()]
            near = len(between) <= _FAR and " then " not in between
            if near and not _LABEL.search(words[: each.start()]):
                found.append(Claim(*each.span(), number_of(each[1]), before[-1].kind))
    return sorted(found, key=lambda claim: claim.start)


def claims_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Every claim of a sentence with the facts that may confirm it."""
    if scene.prose.path[:1] == ("changes",):
        return
    before = scene.prose.text[max(0, sentence.start - _SWATCHED) : sentence.start]
    swatched = _SWATCH.search(before) is not None
    other = swatched or _OTHER_WORK.search(sentence.words) is not None
    claims = claims_of(sentence.words)
    if not other:
        yield from _sums(sentence, claims)
    for claim in claims:
        loosely = other and not claim.sure
        if loosely and (swatched or _OTHER_WORK.search(_clause(sentence.words, claim))):
            continue
        left, right = sentence.words[: claim.start], sentence.words[claim.end :]
        loose = _LOOSELY.search(left) or _PASSING.search(right)
        if _CROSSING.search(sentence.words) and claim.kind == "stitches":
            loose = None
        if left.rstrip().endswith(" by") and _EACH_FOLLOWS.search(right):
            loose = None
        if claim.sure or (claim.kind == "rows" and _ARE_IN.search(right)):
            loose = None
        of_waste = claim.kind == "rows" and truths.WASTE.search(sentence.words)
        if of_waste or _adds_up(sentence, claims, claim):
            continue
        if _TO_REPEAT.search(right) or _WIDE_HIGH.search(right) or _TIMES_OVER.search(left):
            loose = None
        loose = loose or _OF_A_HEEL.search(sentence.words[claim.start : claim.end])
        least = _LEAST if scene.plan is not None or _SCOPED.search(right) else _LEAST_ANYWHERE
        beyond = _beyond(context, scene, right) if claim.kind == "rows" else None
        loose = None if beyond else loose
        if claim.number < least or (loose and claim.kind != "times"):
            continue
        truth = beyond or _truth(context, scene, sentence, claim)
        yield Statement(
            sentence.start + claim.start, sentence.start + claim.end, claim.number, truth
        )


_ENDS_CLAUSE = re.compile(r"[:;—]|,\s(?:and|but|then|so|while)\s|,\s(?=cranked|worked|knitted)")


def _clause(words: str, claim: Claim) -> str:
    """The part of a sentence in which a claim stands."""
    before = [each.end() for each in _ENDS_CLAUSE.finditer(words, 0, claim.start)]
    after = _ENDS_CLAUSE.search(words, claim.end)
    return words[before[-1] if before else 0 : after.start() if after else len(words)]


def _beyond(context: Context, scene: Scene, right: str) -> Truth | None:
    """The rows since the end of a part that has been worked: ``54 rounds above the welt``."""
    found = _ABOVE.match(right)
    if found is None or scene.plan is None:
        return None
    steps = scene.plan.steps
    parts = parts_named(context, found[1], scene.plan.key)
    inside = [part.steps[-1] for part in parts if part.steps and part.steps[-1] in steps]
    here = int(scene.prose.path[3])
    after = [step.after for step in (*steps[here : here + 1], *scene.coming)]
    before = [step.before for step in (*steps[here : here + 1], *scene.coming)]
    figures = [
        truths.plain([max(b.height - a.height, 0) for a, b in zip(end.after, reached, strict=True)])
        for end in inside
        if steps.index(end) < here
        for reached in (*after, *before)
    ]
    return known(f"rows above the {found[1]} there are", figures)


def _adds_up(sentence: Sentence, claims: Sequence[Claim], claim: Claim) -> bool:
    """Whether a number is that of several things, of which each takes one told before: `12 for
    each, 24 in all`."""
    left, right = sentence.words[: claim.start], sentence.words[claim.end :]
    if not (_FOR_EACH.search(left) and _IN_ALL.search(right)):
        return False
    before = [each.number for each in claims if each.start < claim.start]
    return any(each and claim.number > each and claim.number % each == 0 for each in before)


_PARTS_FOLLOW = phrase(r"^(?: (?:in all|in total|altogether|now|left|remain))? ?[:–—]")
_MANY_TIMES = phrase(r"\b(?:each|every|both|times|twice|either|per|or)\b|\(")


def _sums(sentence: Sentence, claims: Sequence[Claim]) -> Iterator[Statement]:
    """A number whose parts follow it, and do not add up to it."""
    for index, whole in enumerate(claims):
        parts = claims[index + 1 :]
        rest = sentence.words[whole.end :]
        if (
            len(parts) < _LEAST
            or not _PARTS_FOLLOW.search(rest)
            or _MANY_TIMES.search(rest)
            or len(re.findall(NUMBER, rest)) != len(parts)
            or {part.kind for part in parts} != {whole.kind}
        ):
            continue
        numbers = [part.number for part in parts]
        if sum(numbers) != whole.number:
            words = f"{' + '.join(map(str, numbers))} are {sum(numbers)}"
            start, end = parts[0].start, parts[-1].end
            yield Statement(sentence.start + start, sentence.start + end, 0, None, words)


def _truth(context: Context, scene: Scene, sentence: Sentence, claim: Claim) -> Truth | None:
    steps = near(context, scene, sentence)
    if not steps:
        return None
    right = sentence.words[claim.end :]
    if _WIDE_HIGH.search(right):
        measured = tuple(truths.drawn(context, steps, across=claim.kind == "stitches"))
        if claim.kind == "stitches" and _DOUBLED.search(sentence.words):
            whole = collected(context, "stitches", *steps)
            return known("lying double it is", truths.halves(whole))
        if claim.kind == "rows" and _STRIPE.search(sentence.words, 0, claim.start):
            return known("stripes are", truths.stripe_heights(context, steps))
        drawn = known("it is", measured)
        if drawn is not None or claim.number < _LEAST_WIDE:
            return drawn
    left = sentence.words[: claim.start]
    if claim.kind == "stitches" and (over := _TIMES_OVER.search(left)) and over[1]:
        shares = truths.shared(
            _stitches(context, steps), [truths.alike(context, number_of(over[1]))]
        )
        steps = scene.plan.steps if scene.plan is not None else steps
        return known("the repeat is over", [*truths.repeat_counts(context, steps), *shares])
    if claim.kind == "stitches" and _UP_A_COLUMN.search(right):
        rows = [*_rows(context, (*scene.behind, *steps) if scene.own else steps)]
        return known("rows there are", [*rows, *truths.halves(rows)])
    if claim.kind == "stitches" and _TO_REPEAT.search(right):
        return known("the repeat is over", truths.repeat_counts(context, steps))
    if claim.kind == "times" and _OF_ROWS.search(right):
        return known("times it is worked", (f for s in steps for f in truths.times_of_step(s)))
    if right.startswith(" between") and scene.own and isinstance(scene.own.detail, Buttonholes):
        gaps = tuple(frozenset(each.gaps[1:-1]) for each in scene.own.detail.holes)
        return known("between buttonholes are", [gaps])
    if claim.kind == "stitches" and _CROSSING.search(sentence.words):
        crossed = known("a crossing takes", truths.crossed(context, steps))
        if crossed is not None:
            return crossed
    if claim.kind == "stitches" and _EACH_ROW.search(sentence.words):
        figures = list(map(truths.each_row, steps))
        said = "each row changes the count by"
    else:
        figures = [*collected(context, claim.kind, *steps)]
        said = _SAID[claim.kind]
    if claim.sure and _GRAFTS.search(sentence.words):
        live = [truths.plain([each.stitches for each in step.before]) for step in steps]
        live += [truths.plain([each.open_start for each in step.before]) for step in steps]
        return known("grafted are", truths.halves([each for each in live if any(each)]))
    if claim.kind == "stitches" and _HALVED.search(sentence.words):
        figures += tuple(truths.halves(tuple(figures)))
    if claim.kind == "rows":
        figures += truths.rows_of_a_sort(context, steps, sentence.words, right)
    if claim.kind == "rows" and _SHAPING.search(sentence.words, claim.start, claim.end + _NOUN):
        figures.append(truths.shaping_rows((*scene.behind, *steps) if scene.own else steps))
    if claim.kind == "stitches" and _SHARED.search(sentence.words, claim.end):
        parts = [each for each in _sections(context, steps) if any(each)]
        figures += tuple(truths.shared(tuple(figures), parts))
    if claim.kind == "stitches" and scene.own is not None:
        beside = (*scene.behind[-1:], *scene.coming[:1])
        figures += [f for step in beside for f in truths.leaves(step, rows=False)]
        if scene.plan is not None and not any(scene.own.rounds):  # it tells what the count is for
            figures += truths.edge_counts(context, scene.plan.steps)
            figures += truths.repeat_counts(context, scene.plan.steps)
    return known(said, figures)


@once_each
def collected(context: Context, kind: str, *steps: StepPlan) -> tuple[Figures, ...]:
    """What is known of a kind at some steps."""
    return tuple(each for each in _COLLECT[kind](context, steps) if any(each))


def near(context: Context, scene: Scene, sentence: Sentence) -> Sequence[StepPlan]:
    """The steps that a sentence may speak of, the nearest alone."""
    if scene.own is not None:
        return (*scene.behind, scene.own) if _SO_FAR.search(sentence.words) else (scene.own,)
    if scene.plan is not None:
        return (*scene.behind, *scene.coming) or scene.plan.steps
    parts = parts_of(context)
    nouns = "|".join(re.escape(part.name.split()[-1]) for part in parts if part.name)
    named = [
        step
        for part in parts
        if re.search(rf"(?i)\bthe {re.escape(part.name)}\b(?! (?:{nouns})\b)", sentence.words)
        for step in part.steps
    ]
    return named or truths.all_steps(context)


def _stitches(context: Context, steps: Sequence[StepPlan]) -> Iterator[Figures]:
    counts: list[Figures] = []
    for step in steps:
        counts += truths.leaves(step, rows=truths.few(step))
        counts.append(truths.finds(step))
        counts += truths.changes(step)
        counts += truths.changes_of_list(step)
        counts += truths.numbers_in(context, step)
        counts += truths.between_edges(context, step)
        marked = [truths.plain(each) for each in truths.between_markers(step)]
        counts += marked if truths.few(step) else truths.between_last_markers(step)
    counts += truths.edge_counts(context, steps)
    counts += truths.repeat_counts(context, steps)
    counts += truths.crossed(context, steps)
    counts += truths.drawn(context, steps, across=True)
    yield from counts


def _rows(context: Context, steps: Sequence[StepPlan]) -> Iterator[Figures]:
    yield from truths.drawn(context, steps, across=False)
    yield from truths.rounds_of(steps)
    for step in steps:
        yield truths.plain([each.rounds for each in step.after])
        yield from truths.intervals_of(step)
        yield from map(truths.plain, truths.shapings(step))
    for start in range(1, len(steps)):
        yield from truths.rounds_of(steps[start:])


def _times(context: Context, steps: Sequence[StepPlan]) -> Iterator[Figures]:
    counts: list[Figures] = []
    for step in steps:
        counts += truths.times_of_step(step)
        counts += truths.across_of(step)
        counts += truths.repeated(context, step)
    yield from counts


def _sections(context: Context, steps: Sequence[StepPlan]) -> Iterator[Figures]:
    for step in steps:
        yield from truths.across_of(step)
        yield from truths.repeated(context, step)
        if isinstance(step.detail, Crowned):
            yield truths.alike(context, step.detail.crown.wedges)
        for each in step.levels[:1]:
            marks = {len(level.markers) for level in each}
            yield truths.alike(context, *marks, *(mark + 1 for mark in marks))


def _shapings(context: Context, steps: Sequence[StepPlan]) -> Iterator[Figures]:
    for step in steps:
        yield from truths.changes(step)
        yield from truths.repeated(context, step)
        yield from map(truths.plain, truths.shapings(step))


def _stripes(context: Context, steps: Sequence[StepPlan]) -> Iterator[Figures]:
    """The stripes of each piece: all, those of a yarn, and those of all but one."""
    for plan in context.plan.pieces:
        runs = [truths.colour_runs(plan, size) for size in truths.each_size(context)]
        mains = [truths.main_of(plan, size) for size in truths.each_size(context)]
        alike = {*_alike(plan)}
        counts = tuple(
            frozenset({*_counts_of(each), len(each) - each.count(main), *alike}) - {0}
            for each, main in zip(runs, mains, strict=True)
        )
        yield from (counts, *truths.halves([counts]))
    for step in steps:
        if step.answers.in_turn:
            listed = [truths.runs_of([step], size) for size in truths.each_size(context)]
            worked = [[yarn for yarn, _ in each] for each in listed]
            yield tuple(frozenset(_counts_of(each)) - {0} for each in worked)


_FEWEST = 4
"""Stripes, so that some lie between two ends."""


def _alike(plan: PiecePlan) -> Iterator[int]:
    """The stripes between the first and the last of a piece, where these all are of one height and
    an end, as a cuff, is of another, in some size."""
    for size in range(len(plan.steps[0].worked)):
        high = [rows for _, rows in truths.runs_of(plan.steps, size)]
        if len(high) >= _FEWEST and len({*high[1:-1]}) == 1:
            yield len(high) - (high[0] != high[1]) - (high[-1] != high[1])


def _counts_of(runs: Sequence[str]) -> Iterator[int]:
    for yarn in {*runs}:
        yield runs.count(yarn)
        yield len(runs) - runs.count(yarn)
    yield len(runs)


def _ropes(context: Context, steps: Sequence[StepPlan]) -> Iterator[Figures]:
    for step in steps:
        across = [*truths.across_of(step), *truths.repeated(context, step)]
        yield from across
        for number in truths.crossings(context, step):
            yield truths.alike(context, number)
            for each in across:
                yield tuple(frozenset(n * number for n in some) for some in each)


_COLLECT: Mapping[str, Collect] = {
    "stitches": _stitches,
    "rows": _rows,
    "counted": _rows,
    "ridges": truths.ridges_of,
    "times": _times,
    "sections": _sections,
    "shapings": _shapings,
    "stripes": _stripes,
    "ropes": _ropes,
}
_SAID: Mapping[str, str] = {
    "stitches": "here are",
    "rows": "rows there are",
    "counted": "rows there are",
    "ridges": "ridges there are",
    "times": "times it is worked",
    "sections": "there are",
    "shapings": "shaped are",
    "stripes": "stripes there are",
    "ropes": "crossings side by side are",
}
