"""Numbers that words reckon with: shares on needles, so many of so many, rows to a length, and
stitches of crochet on a chain."""

from collections.abc import Sequence

from bindoff import regex as re
from bindoff.checks.queries.sentence import Told, are_among, figures_of, steps_near
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.claimed import collected
from bindoff.checks.texts.told.numbers import ORDINAL, in_figures, lists_as_numbers, ordinal_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import millimetres, told_in_words
from bindoff.plan.picture import piece_gauges

_OVER = phrase(r"\b(\d+) (?:needles|tips)[^.;]*$")
_ON_EACH = phrase(r"^(?: stitches)?,? (?:on|for) each(?: of (\d+))?\b")
_NEEDLES = phrase(r"^ needles\b[^.;]*? (\d+) on each")
_EACH_OF = phrase(r"\bon each of $")
_OF = phrase(r"^(?: \w+){0,2} (?:of|times) (?:the )?(\d+)(?: and (\d+) more)?")
_LABEL = phrase(r"\b(?:rows?|rounds?|rnds?) (?:\d+(?:,| (?:to|and|or)) )*$")
_MAKES = phrase(
    r"^ (stitches|sts|rows|rounds|ridges) (?:to|make|are|=|over|in) (\d+(?:\.\d+)?) ?(cm|in)"
)
_CHAINS = phrase(
    r"\b(?:(?:ch|chain|make|work) (?:a chain of )?|a chain of )(\d+)\b(?! (?:rows|rounds))"
    r"|\b(\d+) (?:chains|chain stitches|ch)\b"
)
_FROM_HOOK = phrase(rf"\b({ORDINAL}) (?:ch|chain)(?: stitch)? from (?:the )?hook\b")
_HOOK = phrase(r"\bfrom (?:the )?hook\b")
_CLOSE = 0.04


def is_reckoned(told: Told, start: int, end: int) -> bool:
    """Whether what a sentence reckons with a number comes to a fact that is near."""
    if _LABEL.search(told.words[:start]):
        return _has_row(told, int(told.words[start:end]))
    return (
        _makes_length(told, start, end)
        or _is_share(told, start, end)
        or _is_product(told, start, end)
        or told.figures(start, end) in _on_chain(told)
        or _is_told_again(told, start, end)
    )


def _is_told_again(told: Told, start: int, end: int) -> bool:
    """Whether another sentence of a piece that is worked in words alone tells the same number."""
    piece = told.scene.prose.piece
    if piece is None or piece not in told_in_words(told.context):
        return False
    number = re.compile(rf"(?<![\w.,/]){told.words[start:end]}(?![\d.,/]*\d)")
    own = (told.sentence.start, told.sentence.start + len(told.words))
    return any(
        prose is not told.scene.prose or not own[0] <= found.start() < own[1]
        for prose in told.context.prose
        if prose.piece == piece
        for found in number.finditer(in_figures(prose.text))
    )


def _on_chain(told: Told) -> list[tuple[int, ...]]:
    """The stitches of a first row of crochet, by the chains that a text of the piece makes for it:
    the chains that are skipped count as a stitch or do not."""
    found: list[tuple[int, ...]] = []
    sizes = len(told.context.source.sizes)
    for prose in told.context.prose:
        if prose.piece != told.scene.prose.piece or not prose.has(_HOOK):
            continue
        lists = lists_as_numbers(in_figures(prose.text), sizes)
        hook = _FROM_HOOK.search(lists.text)
        for chain in _CHAINS.finditer(lists.text) if hook is not None else ():
            made = figures_of(lists, *chain.span(1 if chain[1] else 2), sizes)
            skipped = ordinal_of(hook[1]) if hook is not None else 0
            found += [tuple(each - skipped + more for each in made) for more in (1, 2)]
    return found


def _has_row(told: Told, number: int) -> bool:
    """Whether a list or a chart near has so many rows."""
    steps = steps_near(told)
    rows = [len(step.rows) for step in steps]
    rows += [chart.grid.rows for step in steps for chart in step.charts]
    return number <= max(rows, default=0)


def _makes_length(told: Told, start: int, end: int) -> bool:
    """Whether so many stitches or rows come to the length that is told of them."""
    found = _MAKES.search(told.words[end:])
    if found is None:
        return False
    mm = millimetres(float(found[2]), found[3])
    number = int(told.words[start:end]) * (2 if found[1].lower() == "ridges" else 1)
    gauges = [
        gauge
        for piece in told.context.pattern.pieces.values()
        for gauge in piece_gauges(told.context.plan.measures, piece)
    ]
    wide = found[1].lower().startswith("st")
    return any(
        abs((gauge.width_of(number) if wide else gauge.height_of(number)) - mm) <= _CLOSE * mm
        for gauge in gauges
    )


def _is_share(told: Told, start: int, end: int) -> bool:
    """Whether so many stitches on each of some needles, or needles with so many each, are all."""
    left, right = told.words[:start], told.words[end:]
    if needles := _NEEDLES.search(right):
        one = told.figures(end + needles.start(1), end + needles.end(1))
        return _is_count(told, [n * int(told.words[start:end]) for n in one])
    over, each = _OVER.search(left), _ON_EACH.search(right)
    shares = (each and each[1]) or (over and each and over[1])
    if shares:
        return _is_count(told, [n * int(shares) for n in told.figures(start, end)])
    return _EACH_OF.search(left) is not None and right.startswith(" needles")


def _is_product(told: Told, start: int, end: int) -> bool:
    """Whether so many of so many, as in `17 repeats of 8`, come to a count that is near."""
    found = _OF.search(told.words[end:])
    if found is None:
        return False
    each, more = told.figures(end + found.start(1), end + found.end(1)), int(found[2] or 0)
    pairs = zip(told.figures(start, end), each, strict=True)
    return _is_count(told, [n * k + more for n, k in pairs])


def _is_count(told: Told, numbers: Sequence[int]) -> bool:
    steps = tuple(steps_near(told))
    facts = [
        each for kind in ("stitches", "rows") for each in collected(told.context, kind, *steps)
    ]
    facts += [each for step in steps for each in truths.leaves(step, rows=True)]
    return are_among(numbers, facts)
