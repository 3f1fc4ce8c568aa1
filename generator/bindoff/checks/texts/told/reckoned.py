"""What a text reckons before the reader's eyes: sums, products and differences that must come out.

The numbers are those of the text itself, so it is held where no step works a row: in crochet told
in words, and for machines.
"""

from collections.abc import Iterable, Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.prose import Prose
from bindoff.checks.sentencesof import TOLD
from bindoff.checks.texts.told.counts import Statement
from bindoff.checks.texts.told.numbers import NUMBER, Lists, in_figures, lists_as_numbers, number_of
from bindoff.checks.texts.told.scene import Scene
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import millimetres
from bindoff.plan.values import Kind
from bindoff.remembered import once_each

_N = rf"(?<![\w.,/×–-])({NUMBER})"
_ROWS = r"(?:rows?|rounds?|rnds?)"
_STS = r"(?:stitch(?:es)?|sts?|loops?|single crochets?|double crochets?|trebles?|sc|dc|tr|hdc)"

_GROUPS = phrase(
    rf"{_N} (?:{_STS}|of them)\b[^.;:()\d]{{0,60}}?(?:\b(?:over|on|onto|among|between) {NUMBER} "
    rf"needles)?"
    rf"[^.;:()\d]{{0,20}}?\b(?:in groups of|as|in lots of|in sets of|into groups of|:) ?"
    rf"({NUMBER}(?:, ?{NUMBER})*,? and {NUMBER})(?! ?(?:cm|in\b|mm|rows?|rounds?|times))"
)
"""A count and the groups that it is parted into."""
_SHARED_ROWS = phrase(
    rf"{_N} (?:{_STS}|of them)\b[^.;:\d]{{0,80}}? (?:in|into|on|onto|as) ({NUMBER})"
    rf" (?:equal )?(?:rows|groups|halves|lots|layers) of ({NUMBER})\b(?! (?:rows?|rounds?|cm|in\b))"
)
_MORE_ARE = phrase(
    rf"{_N}(?: (?:{_STS}))? (?:more|further|extra)\b(?! than)[^.;:\d]{{0,40}}?"
    rf"(?:: ?| which makes | that makes | and you have | makes | make | giving )({NUMBER})"
    rf" {_STS}\b"
)
"""So many more, and what they come to."""
_THAN_BEFORE = phrase(
    rf"{_N} {_STS}\b(?: (?:now|in all|left))?(?:,| and| or) (?:which (?:is|are) |that (?:is|are) )?"
    rf"({NUMBER})(?: {_STS})? (more|fewer|less) than (?:the|in the|at the|on the|after the|before"
    rf"|you"
    rf"|there|it)\b"
)
_CHANGES = phrase(
    rf"\b(adds?|gains?|grows? by|increas(?:es|ed) by|loses?|takes? (?:away|off)|decreas(?:es|ed) by"
    rf"|shrinks? by)"
    rf" ({NUMBER})(?: {_STS})?(?: (?:in all|each))?(?:: ?| to |, (?:which|that) (?:makes|leaves) "
    rf"|,? and you have )({NUMBER})(?: {_STS})?(?=[.,;]|$| {_STS})"
)
_PRODUCT = phrase(
    rf"{_N} {_ROWS}\b[^.;]{{0,60}}?({NUMBER}) times\b(?: in all| altogether| in total)?"
    rf"(?:[.,;:]|,? and)? ?(?:you (?:now )?have|which (?:is|are|makes)|that (?:is|are|makes)|making"
    rf"|giving|you will have|there are(?: now)?|for) (?:a total of )?({NUMBER}) {_ROWS}\b"
)
_MADE_OF = phrase(
    rf"{_N} {_ROWS} (?:of|in) [A-Za-z’' ]+?(?:, (?:counting|including) [^,.;]*)?"
    rf"((?:(?:,|,? and|,? then) {NUMBER}(?: {_ROWS})? (?:of|in) [A-Za-z’' ]+?)+)[.;:,] ?"
    rf"(?:these|the|in all|altogether|that is|which (?:is|makes|are)) ({NUMBER}) {_ROWS}\b"
)
_IN_EACH_MAKES = phrase(
    rf"\b({NUMBER}) {_STS} (?:in|into|from|for|along|to) (?:the (?:end|side|edge) of )?"
    rf"(?:each|every) (?:{_ROWS}|edge stitch|ridge),? (?:which|that|and it|it) (?:makes|is|are"
    rf"|gives)"
    rf" ({NUMBER})\b"
)
_CHAIN = phrase(
    rf"\b(?:ch|chain|make) ({NUMBER})(?: chains?| ch)?\b(?:(?!\bch(?:ain)? "
    rf"{NUMBER})[\s\S]){{0,160}}?"
    rf"\b(?:in|into) the ({NUMBER})(?:st|nd|rd|th) (?:ch\b|chain\b)[^.]{{0,20}}? from (?:the"
    rf"|your) hook"
    rf"[^.]{{0,200}}?(?:: ?|, | which (?:is|makes) |\()({NUMBER}) {_STS}\b"
)
_COUNTS = phrase(r"\bcounts? as\b|\bcounted as\b|\bcounting as\b")
_FIRST_LAST = phrase(
    rf"\bfirst (?:stitch|st|one)\b[^.;]{{0,60}}?\b(?:each of the )?next ({NUMBER}) {_STS}\b"
    rf"[^.;]{{0,60}}?\blast (?:stitch|st|one)\b"
)
_OF_EACH = phrase(
    rf"\b(?:of|for|in) each (?:colou?r|yarn|shade)(?: there (?:are|is)| you have| you work)? "
    rf"({NUMBER})"
    rf" {_ROWS}\b|\beach (?:colou?r|yarn|shade) (?:has(?: had)?|takes|gets) ({NUMBER}) {_ROWS}\b"
)
_TOTAL_ROWS = phrase(rf"\b(?:you have|which is|in all,?|there are(?: now)?) ({NUMBER}) {_ROWS}\b")
_AS_BEFORE = phrase(
    rf"\b(?:as for|like|as|same as|as in) (?:round|row|rnd) {NUMBER}[.,;:]? (?:you |and )?"
    rf"(?:now |will )?(?:end with|have|end up with|are left with|finish with) ({NUMBER}) {_STS}\b"
)
"""A row that is worked as the one before it, and what it comes to."""
_STAYS = phrase(
    rf"\b(?:there are|you have|this row has|each row has) ({NUMBER}) {_STS} in (?:this|each|every)"
    rf" {_ROWS}\b|\b({NUMBER}) {_STS} in (?:this|each|every) {_ROWS} and (?:in )?all (?:that|those)"
)
_WIDER = phrase(
    r"\b(\d+(?:\.\d+)?) ?(cm|in|inches) (?:wide|deep)\b[^.;]{0,60}?\b(?:measures?|is|comes? to) "
    r"(?:now |then |about )?(\d+(?:\.\d+)?) ?(?:x|×|by) ?(\d+(?:\.\d+)?)"
    r"(?: ?\((\d+(?:\.\d+)?) ?(?:x|×|by) ?(\d+(?:\.\d+)?)\))? ?(?:cm|in)\b"
)
"""An edging all around, and what the piece measures with it."""
_LOSS = ("los", "tak", "decr", "shr")
_MULTIPLE = phrase(
    rf"{_N}(?: {_STS})?(?: (?:are |is )?(?:now )?(?:left|remain|in all))?,? (?:each |all |which "
    rf"(?:is|are) |both )?"
    rf"(?:an? )?multiples? of ({NUMBER})(?:,? (?:and|plus) ({NUMBER})(?: more| over)?)?\b(?! "
    rf"?(?:cm|in\b))"
)
_SHORT_LIST = re.compile(
    r"(?<![\d.,/–-])(\d+) \((\d+(?:, ?\d+)*)\)(?! ?(?:cm|mm|in\b|inch|g\b|m\b|yd))"
)
_NEAR = 160
"""How far behind a change the next one like it may stand, in characters."""
_SLIP = 4
"""By how little a count that is meant to be another differs from it."""

PerSize = tuple[int, ...]


class _Text:
    """A text in figures, and what its numbers are in each size."""

    def __init__(self, prose: Prose, sizes: int) -> None:
        self.lists: Lists = lists_as_numbers(in_figures(prose.text), sizes)
        self.words = self.lists.text
        self.sizes = sizes

    def at(self, found: "re.Match[str]", group: int) -> PerSize:
        return self.figures(*found.span(group))

    def figures(self, start: int, end: int) -> PerSize:
        listed = self.lists.between(start, end)
        return (
            listed.figures if listed else (number_of(self.words[start:end].strip()),) * self.sizes
        )

    def every(self, start: int, end: int) -> list[PerSize]:
        """The numbers between two places."""
        spans = (
            each.span() for each in re.finditer(r"(?<![\w.])\d+(?![\w.]*\d)", self.words[start:end])
        )
        return [self.figures(start + a, start + b) for a, b in spans]

    def sentence_before(self, place: int) -> int:
        """Where the sentence of a place begins."""
        return (
            max((self.words.rfind(mark, 0, place) for mark in (". ", "; ", ": ")), default=-1) + 1
        )


def reckoned_in(context: Context, scene: Scene) -> Iterator[Statement]:
    """Every sum, product and difference of a text that does not come out."""
    prose = scene.prose
    if prose.kind not in TOLD or not re.search(r"\d|\b(?:two|three|four|six)\b", prose.text):
        return
    text = _Text(prose, len(context.source.sizes))
    yield from _partitions(text)
    yield from _more(text)
    yield from _multiples(text)
    yield from _one_short(text)
    yield from _differences(context, scene, text)
    yield from _products(text)
    yield from _crocheted(context, scene, text)
    yield from _each_colour(context, scene, text)
    yield from _bordered(context, text)
    yield from _around(text)


def _wrong(start: int, end: int, words: str) -> Statement:
    return Statement(start, end, 0, None, words)


def _said(figures: Sequence[int]) -> str:
    first, *others = figures
    if not others or len(set(figures)) == 1:
        return str(first)
    return f"{first} ({', '.join(map(str, others))})"


def _sum(parts: Iterable[PerSize]) -> PerSize:
    return tuple(map(sum, zip(*parts, strict=True)))


def _partitions(text: _Text) -> Iterator[Statement]:
    for found in _GROUPS.finditer(text.words):
        whole, parts = text.at(found, 1), text.every(*found.span(2))
        total = _sum(parts)
        if len(parts) > 1 and total != whole:
            yield _wrong(*found.span(2), f"{' + '.join(map(_said, parts))} are {_said(total)}")
    for found in _SHARED_ROWS.finditer(text.words):
        whole, groups, each = (text.at(found, group) for group in (1, 2, 3))
        total = tuple(a * b for a, b in zip(groups, each, strict=True))
        if total != whole:
            yield _wrong(*found.span(3), f"{_said(groups)} times {_said(each)} are {_said(total)}")
    for found in _MADE_OF.finditer(text.words):
        parts = [text.at(found, 1), *text.every(*found.span(2))]
        total, whole = _sum(parts), text.at(found, 3)
        if total != whole:
            yield _wrong(found.start(1), found.end(), f"the stripes come to {_said(total)} rows")


def _more(text: _Text) -> Iterator[Statement]:
    for found in _MORE_ARE.finditer(text.words):
        more, total = text.at(found, 1), text.at(found, 2)
        before = text.every(text.sentence_before(found.start()), found.start(1))
        if not before:
            continue
        ways = [*before, _sum(before), *(tuple(2 * n for n in each) for each in before)]
        if not any(_sum((way, more)) == total for way in ways):
            yield _wrong(
                found.start(1),
                found.end(),
                f"{_said(before[-1])} and these are {_said(_sum((before[-1], more)))}",
            )


def _multiples(text: _Text) -> Iterator[Statement]:
    """Numbers that are no multiples of what the same words say."""
    for found in _MULTIPLE.finditer(text.words):
        whole, over = text.at(found, 1), int(found[2])
        rest = int(found[3] or 0)
        wrong = [n for n in whole if over and n % over != rest % over]
        if wrong:
            yield _wrong(
                *found.span(2),
                f"{wrong[0]} is {wrong[0] // over} times {over} and {wrong[0] % over}",
            )


def _one_short(text: _Text) -> Iterator[Statement]:
    """A list for the sizes that lacks a figure, beside whole ones in its sentence."""
    for found in _SHORT_LIST.finditer(text.words) if text.sizes > len("ab") else ():
        figures = 1 + len(found[2].split(","))
        begin = text.sentence_before(found.start())
        end = text.words.find(". ", found.end())
        whole = [
            each
            for each in text.lists.lists
            if begin <= each.start and each.end <= (end if end > 0 else len(text.words))
        ]
        if figures == text.sizes - 1 and len(whole) > 1:
            yield _wrong(*found.span(), f"there are {figures} figures for {text.sizes} sizes")


def _differences(context: Context, scene: Scene, text: _Text) -> Iterator[Statement]:
    for found in _THAN_BEFORE.finditer(text.words):
        now, by = text.at(found, 1), text.at(found, 2)
        sign = -1 if found[3].lower() == "more" else 1
        counts = _counts_of_piece(scene)
        was = tuple(n + sign * d for n, d in zip(now, by, strict=True))
        if counts and was not in counts and now in counts:
            yield _wrong(
                found.start(2), found.end(3), f"that would be from {_said(was)}, which it never had"
            )
    for found in _CHANGES.finditer(text.words):
        by, now = text.at(found, 2), text.at(found, 3)
        sign = 1 if found[1].lower().startswith(_LOSS) else -1
        was = tuple(n + sign * d for n, d in zip(now, by, strict=True))
        facts = _counts_of_piece(scene) | _told_before(context, scene, found.start())
        if facts and was not in facts:
            words = f"that would be from {_said(was)}, which is told nowhere"
            yield _wrong(found.start(), found.end(), words)
        again = _AS_BEFORE.search(text.words, found.end(), found.end() + _NEAR)
        if again is not None:
            end = tuple(n - sign * d for n, d in zip(now, by, strict=True))
            if text.at(again, 1) != end:
                yield _wrong(
                    again.start(1), again.end(), f"{_said(now)} and {_said(by)} are {_said(end)}"
                )


def _counts_of_piece(scene: Scene) -> set[PerSize]:
    """All stitch counts of a piece, per size."""
    found: set[PerSize] = set()
    for step in scene.plan.steps if scene.plan is not None else ():
        for progress in (step.before, step.after):
            found.add(tuple(each.stitches for each in progress))
        if step.begins is not None:
            found.add(tuple(map(sum, zip(*step.begins.parts, strict=True))))
        for levels in zip(*step.levels, strict=False) if any(step.levels) else ():
            found.add(tuple(level.stitches for level in levels))
    return {each for each in found if all(each)}


def _told_before(context: Context, scene: Scene, place: int) -> set[PerSize]:
    """The numbers of all texts of a piece up to a place of one of them."""
    sizes = len(context.source.sizes)
    found: set[PerSize] = set()
    for prose in context.prose:
        if prose is scene.prose:
            text = _text_of(prose, sizes)
            found.update(text.every(0, place))
            break
        if prose.piece == scene.prose.piece:
            text = _text_of(prose, sizes)
            found.update(text.every(0, len(text.words)))
    return found


@once_each
def _text_of(prose: Prose, sizes: int) -> _Text:
    return _Text(prose, sizes)


def _products(text: _Text) -> Iterator[Statement]:
    for found in _PRODUCT.finditer(text.words):
        rows, times, total = (text.at(found, group) for group in (1, 2, 3))
        product = tuple(a * b for a, b in zip(rows, times, strict=True))
        if product != total:
            yield _wrong(
                found.start(3),
                found.end(),
                f"{_said(times)} times {_said(rows)} rows are {_said(product)}",
            )


def _facts(context: Context, scene: Scene) -> set[PerSize]:
    """Counts that a text told in words may go by: measures, and what its piece was said to have."""
    measures = context.plan.measures.named.values()
    found = {tuple(map(round, m.rounded)) for m in measures if m.kind is not Kind.LENGTH}
    found |= _counts_of_piece(scene)
    for plan in context.plan.pieces:
        for step in plan.steps:
            found.add(tuple(step.rounds))
            found.add(tuple(each.rounds for each in step.after))
    return {each for each in found if all(each)}


def _crocheted(context: Context, scene: Scene, text: _Text) -> Iterator[Statement]:
    for found in _CHAIN.finditer(text.words):
        chains, skipped, total = text.at(found, 1), int(found[2]) - 1, text.at(found, 3)
        lead = text.words[found.start() : found.end()]
        counted = 1 if _COUNTS.search(lead) else 0
        right = tuple(each - skipped + counted for each in chains)
        if right != total:
            yield _wrong(
                found.start(),
                found.end(),
                f"{_said(chains)} chains less {skipped} are "
                f"{_said(tuple(each - skipped for each in chains))}"
                + (f", and {_said(right)} with the one that counts" if counted else ""),
            )
    facts = _facts(context, scene)
    told = scene.plan is not None and not any(any(step.rounds) for step in scene.plan.steps)
    for found in _STAYS.finditer(text.words) if told else ():
        group = 1 if found[1] else 2
        count = text.at(found, group)
        near = _beside(facts, count)
        if count not in facts and near:
            yield _wrong(*found.span(group), f"the pattern has {_said(near)}")
    for found in _FIRST_LAST.finditer(text.words):
        inner = text.at(found, 1)
        whole = tuple(each + 2 for each in inner)
        near = _beside(facts, whole)
        if whole not in facts and near:
            words = f"with the first and the last these are {_said(whole)}, and there are "
            yield _wrong(found.start(1), found.end(1), words + _said(near))
    for found in _IN_EACH_MAKES.finditer(text.words):
        each, total = text.at(found, 1), text.at(found, 2)
        if all(n and t % n == 0 for n, t in zip(each, total, strict=True)):
            rows = tuple(t // n for n, t in zip(each, total, strict=True))
            if rows in facts:
                continue
        yield _wrong(found.start(), found.end(), "no number of rows comes to that")


def _beside(facts: set[PerSize], count: PerSize) -> PerSize | None:
    """The fact that a count misses by a little in every size."""
    for each in sorted(facts):
        if all(0 < abs(a - b) <= _SLIP for a, b in zip(each, count, strict=True)):
            return each
    return None


def _bordered(context: Context, text: _Text) -> Iterator[Statement]:
    """A piece with its edging, against the finished measures and twice the edging."""
    finished = [m for m in context.plan.measures.finished.values() if m.kind is Kind.LENGTH]
    for found in _WIDER.finditer(text.words) if len(finished) > 1 else ():
        band = millimetres(float(found[1]), found[2])
        figures = [(float(found[3]), float(found[4]))]
        if found[5]:
            figures.append((float(found[5]), float(found[6])))
        if len(figures) not in (1, text.sizes):
            continue
        for size, sides in enumerate(figures):
            for side in sides:
                mm = millimetres(side, found[2]) - 2 * band
                if not any(abs(m.rounded[size] - mm) <= _CLOSE_MM for m in finished):
                    nearest = min(finished, key=lambda m: abs(m.rounded[size] - mm)).rounded[size]
                    right = (nearest + 2 * band) / millimetres(1, found[2])
                    words = f"with the edging on both sides it is {right:.4g} {found[2]}"
                    yield _wrong(found.start(3), found.end(), words)
                    return


_CLOSE_MM = 8.0
_IN_END = phrase(
    rf"\b(?:({NUMBER}) {_STS}|{_STS}) in(?:to)? the (first|last) (?:stitch|st|one)\b"
    rf"|\b({NUMBER}) (?:of them )?in(?:to)? the (first|last)(?: (?:stitch|st|one))?\b"
)
_MAKES = phrase(rf"\b(?:which|that) (?:makes|is|are|gives) ({NUMBER})(?: {_STS})?(?=[.,;])")
_SAME_WAY = phrase(
    r"\b(?:lower|other|second|opposite|remaining)\b[^.;]{0,60}?\b(?:same way|alike|likewise|to "
    r"match)\b"
)
_ROUND_HAS = phrase(
    rf"\b(?:round|edging|border|edge) (?:now |then )?has ({NUMBER})(?: {_STS})?"
    rf"|\b(?:you have|there are) ({NUMBER}) {_STS} (?:all )?(?:around|in the round|in all)\b"
)


def _around(text: _Text) -> Iterator[Statement]:
    """A round about a rectangle: twice what is told of one edge, its corners and one side."""
    long, side, same = (each.search(text.words) for each in (_FIRST_LAST, _MAKES, _SAME_WAY))
    total = _ROUND_HAS.search(text.words)
    if not (long and side and same and total) or total.start() < side.start():
        return
    ends = [*_IN_END.finditer(text.words, max(long.start() - _NEAR, 0), long.end() + _NEAR)]
    corners = [text.at(each, 1 if each[1] else 3) for each in ends if each[1] or each[3]]
    if len(corners) != len("ab"):
        return
    whole = tuple(2 * n for n in _sum((*corners, text.at(long, 1), text.at(side, 1))))
    group = 1 if total[1] else 2
    if text.at(total, group) != whole:
        yield _wrong(
            *total.span(group), f"twice the edge with its corners and the side are {_said(whole)}"
        )


def _each_colour(context: Context, scene: Scene, text: _Text) -> Iterator[Statement]:
    """So many rows of each colour, against all rows that the same text tells."""
    for found in _OF_EACH.finditer(text.words):
        group = 1 if found[1] else 2
        each = text.at(found, group)
        totals = [text.at(some, 1) for some in _TOTAL_ROWS.finditer(text.words, 0, found.start())]
        yarns = len(context.pattern.yarns)
        if (
            totals
            and yarns > 1
            and not any(
                all(n * count == t for n, t in zip(each, totals[-1], strict=True))
                for count in range(2, yarns + 1)
            )
        ):
            shared = tuple(t // yarns for t in totals[-1])
            yield _wrong(
                found.start(),
                found.end(),
                f"{_said(totals[-1])} rows of {yarns} are {_said(shared)} each",
            )
