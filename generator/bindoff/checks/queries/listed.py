"""The list of queries: every sentence with a claim that nothing near it confirms."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.prose import Prose
from bindoff.checks.queries.amounts import ages_doubted, balls_doubted, size_order_doubted
from bindoff.checks.queries.called import fits_doubted, kinds_doubted, terms_doubted
from bindoff.checks.queries.compared import colours_doubted, comparisons_doubted
from bindoff.checks.queries.counted import notions_doubted
from bindoff.checks.queries.crocheted import turns_of_crochet_doubted
from bindoff.checks.queries.fabrics import fabrics_doubted, stitches_doubted, turns_doubted
from bindoff.checks.queries.harms import edges_doubted, harms_doubted
from bindoff.checks.queries.likeness import likeness_doubted, odd_rows_doubted, readings_doubted
from bindoff.checks.queries.measures import measures_doubted
from bindoff.checks.queries.numbers import numbers_doubted, ordinals_doubted
from bindoff.checks.queries.order import care_doubted, joined_doubted, order_doubted, sizes_doubted
from bindoff.checks.queries.places import places_doubted
from bindoff.checks.queries.ratios import multiples_doubted, rates_doubted
from bindoff.checks.queries.sentence import Doubt, Doubts, Told
from bindoff.checks.queries.sides import sides_doubted
from bindoff.checks.queries.techniques import techniques_doubted
from bindoff.checks.queries.tools import needles_doubted
from bindoff.checks.queries.written import misread, rows_written
from bindoff.checks.queries.yarns import yarns_doubted
from bindoff.checks.sentencesof import TOLD, Sentence, sentences_of
from bindoff.checks.texts.told.judged import judged
from bindoff.checks.texts.told.numbers import in_figures, lists_as_numbers
from bindoff.checks.texts.told.scene import scene_of
from bindoff.diagnostics import Diagnostic, Severity, Span
from bindoff.english import how_many
from bindoff.records import Record
from bindoff.source.model import TextUse

_OF_SENTENCES: tuple[Doubts, ...] = (
    numbers_doubted,
    ordinals_doubted,
    measures_doubted,
    yarns_doubted,
    places_doubted,
    sides_doubted,
    fabrics_doubted,
    stitches_doubted,
    turns_doubted,
    techniques_doubted,
    order_doubted,
    care_doubted,
    sizes_doubted,
    comparisons_doubted,
    colours_doubted,
    needles_doubted,
    misread,
    multiples_doubted,
    rates_doubted,
    likeness_doubted,
    odd_rows_doubted,
    readings_doubted,
    turns_of_crochet_doubted,
    joined_doubted,
    balls_doubted,
    ages_doubted,
    size_order_doubted,
    kinds_doubted,
    fits_doubted,
    terms_doubted,
    harms_doubted,
    edges_doubted,
)
_WHITE = re.compile(r"\s+")
_WITH_ROWS = (TextUse.STEP, TextUse.TEXT)
_OF_NOTIONS: tuple[Doubts, ...] = (notions_doubted,)


class Query(Record):
    """A sentence from ``start`` to ``end`` of a text, and its doubts in their order."""

    prose: Prose
    start: int
    end: int
    doubts: tuple[Doubt, ...]

    @property
    def parts(self) -> tuple[tuple[str, bool], ...]:
        """The sentence as it is written, on one line: its parts, and which of them are claims."""
        raw = self.prose.raw
        claimed = {i for each in self.doubts for i in range(each.start, each.end)}
        cuts = groupby(range(self.end - self.start), lambda at: at in claimed)
        return tuple(
            (_WHITE.sub(" ", "".join(raw[self.start + at] for at in places)), is_claim)
            for is_claim, places in cuts
        )

    @property
    def span(self) -> Span:
        """The place of the whole sentence."""
        return self.prose.place(self.start, self.end)

    @property
    def diagnostic(self) -> Diagnostic:
        """As findings are told: at the first claim, with the places of the others."""
        whys = dict.fromkeys(doubt.why for doubt in self.doubts)
        at = dict.fromkeys((each.start, each.end) for each in self.doubts)
        first, *others = [self.prose.place(self.start + a, self.start + b) for a, b in at]
        message = "; ".join(whys)
        return Diagnostic(
            "query", message, "", first, Severity.NOTE, beside=tuple(dict.fromkeys(others))
        )


class Queries(Record):
    """All that is asked of a pattern, and how many sentences were read."""

    asked: tuple[Query, ...]
    read: int

    @property
    def heading(self) -> str:
        """What the list is, for whoever reads it."""
        if not self.read:
            return "No queries: no sentence was read, as sentences are read in English alone."
        if not self.asked:
            return (
                f"No queries: the source confirms every claim in the {self.read} sentences of this "
                "pattern."
                if self.read > 1
                else "No queries: the source confirms the one sentence of this pattern."
            )
        claims = "holds a claim" if len(self.asked) == 1 else "hold claims"
        return (
            f"Queries: {how_many(len(self.asked), 'sentence')} of {self.read} {claims} that "
            "nothing in the source confirms. They may well be right; read each against the work, "
            "as no check can."
        )


def queries_of(context: Context) -> Queries:
    """Every sentence of the designer's own words that holds a claim nothing confirms."""
    told = tuple(told_of(context))
    read = sum(each.scene.prose.kind in TOLD for each in told)
    return Queries(tuple(_asked(told)), read)


def _asked(every: Sequence[Told]) -> Iterator[Query]:
    for told in every:
        of = _OF_SENTENCES if told.scene.prose.kind in TOLD else _OF_NOTIONS
        doubts = {doubt for each in of for doubt in each(told)}
        if doubts:
            start = told.sentence.start
            ordered = sorted(doubts, key=lambda doubt: (doubt.start, doubt.end, doubt.why))
            yield Query(told.scene.prose, start, start + len(told.words), tuple(ordered))


def told_of(context: Context) -> Iterator[Told]:
    """Every sentence, and every line of the notions, with what the checks have proved of it."""
    if not context.in_english:
        return
    for prose, held in judged(context):
        if prose.kind not in TOLD and prose.path[:1] != ("notions",):
            continue
        lists = lists_as_numbers(in_figures(prose.text), len(context.source.sizes))
        scene = scene_of(context, prose)
        written = rows_written(context, scene) if prose.kind in _WITH_ROWS else ()
        proved = (
            *((each.start, each.end) for each in held if not each.wrong),
            *((each.start, each.end) for each in written if not each.wrong),
        )
        for whole in sentences_of(prose):
            end = whole.start + len(whole.words)
            sentence = Sentence(prose, lists.text[whole.start : end], whole.start)
            yield Told(context, scene, sentence, lists, tuple(_within(proved, sentence)), written)


def _within(proved: Sequence[tuple[int, int]], sentence: Sentence) -> Iterator[tuple[int, int]]:
    """The parts of a sentence that are proved: what runs on to its full stop has been left alone,
    as it supposes something."""
    first, last = sentence.start, sentence.start + len(sentence.words)
    for start, end in proved:
        inside = start < last and first < end
        if inside and not (end >= last and (sentence.words[-1] in ".;!?" or sentence.supposes)):
            yield start, end
