"""Lists of figures for two sizes, and shares of a count, in the texts."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.derived import follows
from bindoff.checks.engine import Finding, check
from bindoff.checks.figures import known_figures
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.checks.sizes import bodies
from bindoff.checks.told.judged import judged
from bindoff.diagnostics import Severity
from bindoff.plan.values import Kind

_PAIR = re.compile(
    r"(?<![\d.,(/–-])(?<!\d )(\d+(?:\.\d+)?) \((\d+(?:\.\d+)?)\)"
    r"(?=\s+((?:(?!times|cm|in\b)\w+ )?(?:stitch(?:es)?|sts?|rounds?|rnds?|rows?)|cm|in"
    r"|inch(?:es)?|times)(?![\w²]))"
)
_OF_A_CHART = re.compile(r"\b(?:charts?|repeats?)\b", re.IGNORECASE)
_MEASURED_CM = 0.6


@check(
    id="prose.pairs",
    title="Lists of two figures are those of the two sizes",
    looks_at="figures typed as 120 (152) stitches, 48 (72) rounds, 54.5 (69) cm or, of a chart, "
    "15 (19) times, in every text of a pattern in two sizes",
    why="the knitter of the larger size follows a figure of nothing",
    severity=Severity.WARNING,
    remedy="Correct the figure, or print both from their measure, as {{ name }} in double braces",
)
def two_sizes(context: Context) -> Iterator[Finding]:
    """One finding for each list."""
    if len(context.source.sizes) != 2:
        return
    known = known_figures(context)
    measures = context.plan.measures.finished.values()
    finished = [tuple(mm / 10 for mm in m.rounded) for m in measures if m.kind is Kind.LENGTH]
    finished += [tuple(mm / 10 for mm in figures) for _, figures in bodies(context)]
    for sentence in sentences(context):
        for found in _PAIR.finditer(sentence.words):
            figures, unit = (float(found[1]), float(found[2])), found[3].lower().split()[-1]
            after = sentence.words[found.end() :]
            if unit == "times":
                if not _OF_A_CHART.search(sentence.words):
                    continue
                right = figures in known.of("numbers")
            elif unit in ("cm", "in") or unit.startswith("inch"):
                cm = 1.0 if unit == "cm" else 2.54
                off = _MEASURED_CM * cm
                right = follows(context, figures, after) or any(
                    all(abs(a * cm - b) <= off for a, b in zip(figures, row, strict=True))
                    for row in finished
                )
            else:
                what = "stitches" if unit.startswith("st") else "rounds"
                right = figures in known.of(what) or follows(context, figures, after)
            if not right and not _resolved(context, sentence, found.end()):
                yield Finding(
                    f"`{found[0]} {unit}` stands here, and no computed figures are these",
                    sentence.place(found),
                )


def _resolved(context: Context, sentence: Sentence, end: int) -> bool:
    """Whether figures that end there are told to be other ones at the step they speak of."""
    at = sentence.start + end
    told = (each for each in judged(context, sentence.prose) if each.wrong)
    return any(each.start < at <= each.end + 1 for each in told)


CHECKS = (two_sizes,)
