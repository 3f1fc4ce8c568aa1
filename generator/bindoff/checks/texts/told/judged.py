"""Statements of a text held against the plan."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.prose import Prose
from bindoff.checks.sentencesof import TOLD, Sentence, sentences_of
from bindoff.checks.texts.told.charted import charts_told, rows_in_words
from bindoff.checks.texts.told.claimed import claims_told
from bindoff.checks.texts.told.counts import Statement, multiples_told, stitches_told
from bindoff.checks.texts.told.crocheted import crochet_told
from bindoff.checks.texts.told.features import features_told
from bindoff.checks.texts.told.numbers import Lists, in_figures, lists_as_numbers
from bindoff.checks.texts.told.reckoned import reckoned_in
from bindoff.checks.texts.told.rows import rows_told, times_told
from bindoff.checks.texts.told.rowsides import rowsides_told
from bindoff.checks.texts.told.scene import scene_of, sizes_named
from bindoff.checks.texts.told.shares import shares_told
from bindoff.checks.texts.told.sided import sides_told
from bindoff.checks.texts.told.things import things_told
from bindoff.checks.walk import sizes_said
from bindoff.records import Record
from bindoff.remembered import once_each


class Judged(Record):
    """A statement that was resolved, from ``start`` to ``end`` of its text; ``wrong`` says what is
    true, and is empty where it is right. ``of_chart`` says that it speaks of a chart."""

    start: int
    end: int
    wrong: str
    of_chart: bool = False


_SHARE = re.compile(
    r"\b(?:(?<!each )(?<!every )half(?:way)?(?! an hour)|halves|leave out|leaving out)\b"
    r"(?! (?:of the )?(?:front|back))",
    re.IGNORECASE,
)
"""What stands beside a part of a figure, or one that is left off: another one."""
_ANY = re.compile(
    r"\d|[- ]sides?\b|\bRS\b|\bWS\b|\blean|\bslant|creas|\b(?:charts?|once|twice|thrice|every"
    r"|each|all|odd|even|rows)\b",
    re.IGNORECASE,
)
"""What a text has that counts something, or speaks of rows by their sides."""


@once_each
def judged(context: Context) -> tuple[tuple[Prose, tuple[Judged, ...]], ...]:
    """Each text with every number of it that could be resolved, in its order."""
    return tuple((prose, tuple(_in_text(context, prose))) for prose in context.prose)


def _in_text(context: Context, prose: Prose) -> Iterator[Judged]:
    if prose.kind not in TOLD or not context.in_english:
        return
    lists = lists_as_numbers(in_figures(prose.text), len(context.source.sizes))
    if not _ANY.search(lists.text):
        return
    scene = None
    for whole in sentences_of(prose, lists.text):
        sentence = None if _SHARE.search(whole.words) else whole.plainly
        end = whole.start + len(whole.words)
        if sentence is None:
            yield Judged(whole.start, end, "")
            continue
        if len(sentence.words) < len(whole.words):
            yield Judged(sentence.start + len(sentence.words), end, "")
        scene = scene or scene_of(context, prose)
        charted = [
            held
            for each in (
                *charts_told(context, scene, sentence),
                *features_told(context, scene, sentence),
            )
            for held in _held(context, prose, lists, each, sentence, of_chart=True)
        ]
        yield from charted
        resolved = list(charted)
        for each in shares_told(context, scene, sentence, lists):
            yield from _held(context, prose, lists, each, sentence)
        for told in (
            stitches_told,
            multiples_told,
            rows_told,
            times_told,
            things_told,
            sides_told,
            rowsides_told,
            crochet_told,
        ):
            for each in told(context, scene, sentence):
                if not any(other.start < each.end and each.start < other.end for other in charted):
                    held = tuple(_held(context, prose, lists, each, sentence))
                    resolved += held
                    yield from held
        for each in claims_told(context, scene, sentence):
            if not any(other.start < each.end and each.start < other.end for other in resolved):
                yield from _held(context, prose, lists, each, sentence)
    for each in reckoned_in(context, scene or scene_of(context, prose)):
        inside = (one.start for one in lists.lists if one.start <= each.start < one.end)
        start = next(inside, _word_start(prose.text, each.start))
        yield Judged(start, each.end, each.other)
    for each in rows_in_words(context, scene or scene_of(context, prose)):
        yield Judged(_word_start(prose.text, each.start), each.end, each.other, of_chart=True)


def _held(
    context: Context,
    prose: Prose,
    lists: Lists,
    each: Statement,
    sentence: Sentence,
    *,
    of_chart: bool = False,
) -> Iterator[Judged]:
    """A statement held against what is true; nothing of one that was not resolved."""
    if each.other or each.truth is not None:
        listed = lists.between(each.start, each.end)
        wrong = each.other or _wrong(context, each, sentence, listed.figures if listed else ())
        start = _word_start(prose.text, each.start)
        yield Judged(min(start, listed.start) if listed else start, each.end, wrong, of_chart)


def _word_start(written: str, start: int) -> int:
    """Where a word begins in a text, of which ``start`` is some character.

    A number in words has its figures at its end, as ``in_figures`` writes them.
    """
    while start and re.match(r"[\w-]", written[start - 1]):
        if not written[start].isalpha() and written[start] != "-":
            break
        start -= 1
    return start


def _wrong(context: Context, each: Statement, sentence: Sentence, figures: tuple[int, ...]) -> str:
    """What is true, where the number is not, or one of the ``figures`` for the sizes."""
    truth = each.truth
    assert truth is not None
    if figures:
        sizes = tuple(range(len(figures)))
    else:
        sizes = sizes_named(context, sentence.words, each.start - sentence.start)
    right = truth.sizes_of(figures or (each.number,) * len(context.source.sizes)) & set(sizes)
    if len(right) == len(sizes):
        return ""
    if right and not figures:
        return f"that is right for {sizes_said(context, right)} only"
    wrong = next(size for size in sizes if size not in right)
    said = truth.said(wrong, figures[wrong] if figures else each.number)
    where = f" in {sizes_said(context, [wrong])}" if len(context.source.sizes) > 1 else ""
    return f"{truth.of} {said}{where}"
