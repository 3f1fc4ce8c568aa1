"""Statements of a text held against the plan."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.prose import Prose
from bindoff.checks.sentencesof import TOLD
from bindoff.checks.told.charted import charts_told, rows_in_words
from bindoff.checks.told.counts import Statement, multiples_told, stitches_told
from bindoff.checks.told.numbers import in_figures
from bindoff.checks.told.rows import rows_told, times_told
from bindoff.checks.told.scene import scene_of, sentences, sizes_named
from bindoff.checks.told.things import things_told
from bindoff.checks.walk import sizes_said
from bindoff.records import Record


class Judged(Record):
    """A statement that was resolved, from ``start`` to ``end`` of its text; ``wrong`` says what is
    true, and is empty where it is right. ``of_chart`` says that it speaks of a chart."""

    start: int
    end: int
    wrong: str
    of_chart: bool = False


_ANY = re.compile(r"\d|\b(?:charts?|once|twice|thrice|every|each|all)\b", re.IGNORECASE)
"""What a text has that counts something, or speaks of rows by their sides."""


def judged(context: Context, prose: Prose) -> Iterator[Judged]:
    """Every number of a text that could be resolved, in the order of the text."""
    if prose.kind not in TOLD or not context.in_english:
        return
    text = in_figures(prose.text)
    if not _ANY.search(text):
        return
    scene = None
    for sentence in sentences(text):
        if sentence.supposes:
            yield Judged(sentence.start, sentence.start + len(sentence.text), "")
            continue
        scene = scene or scene_of(context, prose)
        charted = [
            held
            for each in charts_told(context, scene, sentence)
            for held in _held(context, prose, each, sentence.text, of_chart=True)
        ]
        yield from charted
        for told in (stitches_told, multiples_told, rows_told, times_told, things_told):
            for each in told(context, scene, sentence):
                if not any(other.start < each.end and each.start < other.end for other in charted):
                    yield from _held(context, prose, each, sentence.text)
    for each in rows_in_words(context, scene) if scene else ():
        yield Judged(_word_start(prose.text, each.start), each.end, each.other, of_chart=True)


def _held(
    context: Context, prose: Prose, each: Statement, sentence: str, *, of_chart: bool = False
) -> Iterator[Judged]:
    """A statement held against what is true; nothing of one that was not resolved."""
    if each.other or each.truth is not None:
        wrong = each.other or _wrong(context, each, sentence)
        yield Judged(_word_start(prose.text, each.start), each.end, wrong, of_chart)


def _word_start(written: str, start: int) -> int:
    """Where a word begins in a text, of which ``start`` is some character.

    A number in words has its figures at its end, as ``in_figures`` writes them.
    """
    while start and re.match(r"[\w-]", written[start - 1]) and written[start].isalpha():
        start -= 1
    return start


def _wrong(context: Context, each: Statement, sentence: str) -> str:
    """What is true, where the number is not."""
    truth = each.truth
    assert truth is not None
    sizes = sizes_named(context, sentence)
    right = truth.sizes_of(each.number) & set(sizes)
    if len(right) == len(sizes):
        return ""
    if right:
        return f"that is right for {sizes_said(context, right)} only"
    said = truth.said(sizes[0], each.number)
    where = f" in {sizes_said(context, sizes[:1])}" if len(context.source.sizes) > 1 else ""
    return f"{truth.of} {said}{where}"
