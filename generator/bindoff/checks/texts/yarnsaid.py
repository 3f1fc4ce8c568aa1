"""Which yarn a part is said to be worked in, against the yarn that it is worked in."""

from collections.abc import Iterator, Mapping

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.sentencesof import Sentence, sentences, supposing
from bindoff.checks.texts.named.judges import IN_YARN, judged
from bindoff.checks.texts.told.numbers import number_of
from bindoff.checks.walk import yarns_worked
from bindoff.diagnostics import Severity
from bindoff.records import Record
from bindoff.source.steps.section import SectionStep

_VERB = r"(?:worked|knitted|knit|made|crocheted|done)"
_ELSE = supposing("except", "leftover", "but", "both", "stripes?", "striped", r"alternat\w*")


@check(
    id="prose.yarn",
    title="Parts are in the yarn that the text gives them",
    looks_at="`heel and cuff are worked in Line` in every text against the yarns of the sections "
    "and pieces of these names, and a yarn that a step's note works with",
    why="a part comes out in the wrong color, and the yarn for another runs short",
    severity=Severity.WARNING,
    remedy="Name the yarn that the steps have",
)
def yarns_said(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    keys = {yarn.name: key for key, yarn in context.pattern.yarns.items()}
    if len(keys) < 2:
        return
    names = "|".join(re.escape(name) for name in sorted(keys, key=len, reverse=True))
    closed = re.compile(
        rf"\b(?i:graft|gather|close)(?: up| off)? (?i:(?:the|each|both) )?([a-z]+)s?\b"
        rf"(?: \w+){{0,4}}? (?:with|in|using) (?:the (?:tail|end) of )?({names})(?![\w'’-])"
    )
    sections = _sections(context)
    told = _Said(
        main=re.compile(
            rf"\b({names}) (?:is|as) the main colou?r|\b({names}) (?:is (?:used )?)?for (?:most"
            rf"|nearly all|almost all)\b|\bmain colou?r(?: is|,| \() ?({names})(?![\w'’-])"
        ),
        first=re.compile(
            rf"\bin ({names}) for (?:the )?(?:first |next |last )?(\w+) (?:rows|rounds)\b"
        ),
    )
    for sentence in sentences(context):
        yield from _otherwise(context, sentence, told, keys)
        for found in _plainly(sentence, closed):
            yield from _other_part(context, sentence, found, found[1], keys[found[2]], sections)
    yield from judged(context, IN_YARN)
    yield from _on_tubes(context, names, keys)


def _on_tubes(context: Context, names: str, keys: Mapping[str, str]) -> Iterator[Finding]:
    """The yarn of the stripes of a tube, and of the motifs that are embroidered on it."""
    stripes = {
        each.yarn
        for piece in context.pattern.pieces.values()
        if piece.tube is not None
        for each in piece.tube.stripes
    }
    yarns_of = {"stripes": stripes, "stripe": stripes}
    for piece in context.pattern.pieces.values():
        for key in {motif.chart for motif in piece.motifs}:
            chart = context.pattern.charts[key]
            used = set(map(str, chart.legend.values())) & set(keys.values())
            yarns_of[chart.title.lower()] = used - {piece.yarn}
    nouns = "|".join(re.escape(each) for each, yarns in yarns_of.items() if yarns)
    if not nouns:
        return
    told = re.compile(
        rf"\b(?i:({nouns})) (?:is|are) (?:then |all )?({_VERB}|{_MADE}) (?:in|with) "
        rf"({names})(?![\w'’-])"
    )
    for sentence in sentences(context):
        for found in sentence.said(told) if not sentence.supposes else ():
            if found[1].lower() not in ("stripe", "stripes") and found[2].lower().startswith("kni"):
                yield Finding(
                    f"`{found[0]}` stands here, and it is embroidered afterwards",
                    sentence.place(found),
                )
                continue
            right = yarns_of[found[1].lower()]
            if keys[found[3]] not in right:
                said = " and ".join(sorted(context.pattern.yarns[each].name for each in right))
                verb = "are" if found[1].lower().endswith("s") else "is"
                yield Finding(
                    f"`{found[0]}` stands here, and the {found[1].lower()} {verb} in {said}",
                    sentence.place(found),
                )


class _Said(Record):
    """The ways in which sentences give a yarn to the pattern, to a part, to a step, to some
    rows."""

    main: "re.Pattern[str]"
    first: "re.Pattern[str]"


def _otherwise(
    context: Context,
    sentence: Sentence,
    told: _Said,
    keys: Mapping[str, str],
) -> Iterator[Finding]:
    """A yarn said to be the main one, or that of some rows, and is not."""
    for found in _plainly(sentence, told.main):
        main = _main(context)
        if main and keys[next(filter(None, found.groups()))] != main:
            name = context.pattern.yarns[main].name
            yield Finding(
                f"`{found[0]}` stands here, and most is worked in {name}", sentence.place(found)
            )
    for found in _plainly(sentence, told.first):
        rows = number_of(found[2])
        runs = set(_runs(context, keys[found[1]]))
        if rows and runs and rows not in runs:
            right = " or ".join(map(str, sorted(runs)))
            yield Finding(
                f"`{found[0]}` stands here, and {found[1]} is worked for {right}",
                sentence.place(found),
            )


def _main(context: Context) -> str:
    """The yarn of which by far the most stitches are made; empty where two are near."""
    counts: dict[str, int] = {}
    for plan in context.plan.pieces:
        make = context.pattern.pieces[plan.key].make
        for step in plan.steps:
            for loops in step.worked[0] if step.worked else ():
                for yarn, made in loops:
                    counts[yarn] = counts.get(yarn, 0) + made * make
    most = sorted(counts, key=lambda yarn: -counts[yarn])
    return most[0] if most and counts[most[0]] > _FAR * sum(counts.values()) else ""


_FAR = 0.55


def _runs(context: Context, yarn: str) -> Iterator[int]:
    """For how many rows on end a piece is worked in a yarn alone, in every size, step by step and
    all told."""
    for plan in context.plan.pieces:
        for size in range(len(context.source.sizes)):
            run = 0
            for step in plan.steps:
                if not step.rounds[size]:
                    continue
                if yarns_worked(step) != {yarn}:
                    run = 0
                    continue
                run += step.rounds[size]
                yield from (step.rounds[size], run)


def _plainly(sentence: Sentence, pattern: "re.Pattern[str]") -> Iterator["re.Match[str]"]:
    """What a sentence says without a choice or a condition near by."""
    for found in sentence.said(pattern):
        if not _ELSE.search(sentence.words, max(found.start() - 60, 0), found.end() + 15):
            yield found


def _sections(context: Context) -> Mapping[str, set[str]]:
    """The yarns of each section and piece, by its name in lower case."""
    found: dict[str, set[str]] = {}
    for plan in context.plan.pieces:
        piece = context.pattern.pieces[plan.key]
        heading = ""
        for step in plan.steps:
            if isinstance(step.step, SectionStep):
                heading = step.step.section.lower().strip()
            for name in {heading, piece.title.lower().strip()} - {""}:
                found.setdefault(name, set()).update(yarns_worked(step))
    return found


def _other_part(
    context: Context,
    sentence: Sentence,
    found: "re.Match[str]",
    parts: str,
    yarn: str,
    sections: Mapping[str, set[str]],
) -> Iterator[Finding]:
    for part in re.split(r",? and |, ", parts.lower()):
        name = re.sub(r"^(?:(?:the|whole|both) )+", "", part.strip())
        yarns = sections.get(name) or sections.get(name.removesuffix("s"))
        if not yarns:
            # The heel is its flap, its turn and its gusset.
            begun = [some for each, some in sections.items() if each.startswith(f"{name} ")]
            yarns = set().union(*begun)
        if yarns and yarn not in yarns:
            right = " and ".join(sorted(context.pattern.yarns[each].name for each in yarns))
            yield Finding(
                f"`{found[0].strip(' .,;:')}` stands here, and the {name} is in {right}",
                sentence.place(found),
            )
            return


_MADE = r"(?:embroider(?:ed)?|sewn|stitched|chain-stitched|cross-stitched|outlined)"


CHECKS = (yarns_said,)
