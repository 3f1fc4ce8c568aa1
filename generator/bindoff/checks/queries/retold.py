"""Numbers of a piece that is worked in words alone: its other sentences are all that can confirm
them."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.queries.sentence import Told, figures_of
from bindoff.checks.texts.told.numbers import ORDINAL, in_figures, lists_as_numbers, ordinal_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import told_in_words
from bindoff.records import Record
from bindoff.remembered import once_each

_NUMBER = re.compile(r"(?<![\w.,/])\d+(?![\d.,/]*\d|[\w%°])")
_LABEL = phrase(r"\b(?:rows?|rounds?|rnds?) (\d+)(?: ?\([^()]*\))?:")
_CHAINS = phrase(
    r"\b(?:(?:ch|chain|make|work) (?:a chain of )?|a chain of )(\d+)\b(?! (?:rows|rounds))"
    r"|\b(\d+) (?:chains|chain stitches|ch)\b"
)
_FROM_HOOK = phrase(rf"\b({ORDINAL}) (?:ch|chain)(?: stitch)? from (?:the )?hook\b")
_LARGE = 20
"""Smaller numbers come to each other by chance."""


class Retold(Record):
    """A number of a text at ``path`` from ``start`` on, for each size; ``label`` is that of a row,
    as in ``Row 2:``."""

    path: tuple[object, ...]
    start: int
    figures: tuple[int, ...]
    label: bool


def is_retold(told: Told, start: int, end: int) -> bool:
    """Whether another sentence of the piece tells the same number, or numbers that come to it."""
    if told.scene.prose.piece not in told_in_words(told.context):
        return False
    numbers, at = told.figures(start, end), told.sentence.start
    every = _numbers(told.context)
    path = tuple(told.scene.prose.path)
    here = [n for n in every if n.path == path and at <= n.start < at + len(told.words)]
    others = [n for n in every if n not in here and n.path[:2] == path[:2]]
    if any(each.figures == numbers for each in others):
        return True
    first, _ = told.whole(start, end)
    near = {n.figures for n in every if n.path == path and n.start != at + first} - {numbers}
    return _comes_of(numbers, near, {n.figures for n in every} - {numbers})


def is_row_in_words(told: Told, number: int) -> bool:
    """Whether a piece that is worked in words has a row of that number."""
    if told.scene.prose.piece not in told_in_words(told.context):
        return False
    labels = [each.figures[0] for each in _numbers(told.context) if each.label]
    return number in labels or number + 1 in labels


def _comes_of(
    numbers: Sequence[int], near: set[tuple[int, ...]], all_: set[tuple[int, ...]]
) -> bool:
    """Whether two others, one of them of the same text, come to a number in every size: one of
    them differs by size, or the number is too large for chance."""
    sure = min(numbers) >= _LARGE
    return any(
        sure or len({*one}) > 1 or len({*other}) > 1
        for one in near
        for other in _partners(numbers, one)
        if other in all_ and other != one
    )


def _partners(numbers: Sequence[int], one: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """What comes to a number with another one: by adding, taking away, multiplying, parting."""
    pairs = list(zip(numbers, one, strict=True))
    yield tuple(n - a for n, a in pairs)
    yield tuple(a - n for n, a in pairs)
    yield tuple(n + a for n, a in pairs)
    yield tuple(n * a for n, a in pairs)
    if all(a and n % a == 0 for n, a in pairs):
        yield tuple(n // a for n, a in pairs)
    if all(n and a % n == 0 for n, a in pairs):
        yield tuple(a // n for n, a in pairs)


@once_each
def _numbers(context: Context) -> tuple[Retold, ...]:
    return tuple(each for key in told_in_words(context) for each in _of_piece(context, key))


def _of_piece(context: Context, key: str) -> Iterator[Retold]:
    sizes = len(context.source.sizes)
    for prose in context.prose:
        if prose.piece != key:
            continue
        lists = lists_as_numbers(in_figures(prose.text), sizes)
        labels = {each.start(1) for each in _LABEL.finditer(lists.text)}
        for found in _NUMBER.finditer(lists.text):
            listed = lists.between(found.start(), found.end())
            start = listed.start if listed is not None else found.start()
            figures = figures_of(lists, *found.span(), sizes)
            yield Retold(tuple(prose.path), start, figures, found.start() in labels)


def on_chain(told: Told) -> Iterator[tuple[int, ...]]:
    """The stitches of a first row of crochet, by the chains that a text of the piece makes for it,
    and those chains: the chains that are skipped count as a stitch or do not."""
    sizes = len(told.context.source.sizes)
    for prose in told.context.prose:
        if prose.piece != told.scene.prose.piece:
            continue
        lists = lists_as_numbers(in_figures(prose.text), sizes)
        hook = _FROM_HOOK.search(lists.text)
        for chain in _CHAINS.finditer(lists.text) if hook is not None else ():
            made = figures_of(lists, *chain.span(1 if chain[1] else 2), sizes)
            skipped = ordinal_of(hook[1]) if hook is not None else 0
            for more in (1, 2):
                yield tuple(each - skipped + more for each in made)


def is_chain_for_row(told: Told, start: int, end: int) -> bool:
    """Whether so many chains come to a number that the piece tells, once some are skipped."""
    found = next((c for c in _CHAINS.finditer(told.words) if end in (c.end(1), c.end(2))), None)
    if found is None or told.scene.prose.piece not in told_in_words(told.context):
        return False
    known = {each.figures for each in _numbers(told.context)}
    hooks = [
        ordinal_of(each[1])
        for prose in told.context.prose
        if prose.piece == told.scene.prose.piece
        for each in _FROM_HOOK.finditer(prose.text)
    ]
    made = told.figures(start, end)
    return any(tuple(n - hook + more for n in made) in known for hook in hooks for more in (1, 2))
