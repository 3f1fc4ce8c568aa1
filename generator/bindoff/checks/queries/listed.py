"""The list of queries: every sentence with a claim that nothing near it confirms."""

from collections.abc import Iterator, Sequence

from bindoff.checks.context import Context
from bindoff.checks.prose import Prose
from bindoff.checks.queries.compared import colours_doubted, comparisons_doubted
from bindoff.checks.queries.counted import notions_doubted
from bindoff.checks.queries.fabrics import fabrics_doubted, stitches_doubted, turns_doubted
from bindoff.checks.queries.measures import measures_doubted
from bindoff.checks.queries.numbers import numbers_doubted, ordinals_doubted
from bindoff.checks.queries.order import care_doubted, order_doubted, sizes_doubted
from bindoff.checks.queries.places import places_doubted
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
)
_WITH_ROWS = (TextUse.STEP, TextUse.TEXT)
_OF_NOTIONS: tuple[Doubts, ...] = (notions_doubted,)


class Query(Record):
    """A sentence from ``start`` to ``end`` of a text, and its doubts in their order."""

    prose: Prose
    start: int
    end: int
    doubts: tuple[Doubt, ...]

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
