"""Which yarn a part is said to be worked in, against the yarn that it is worked in."""

from collections.abc import Iterator, Mapping

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.checks.walk import steps_of
from bindoff.diagnostics import Severity
from bindoff.source.steps.section import SectionStep
from bindoff.source.steps.step import REMARKS

_WORD = r"[a-z][a-z-]+"
_VERB = r"(?:worked|knitted|knit|made|crocheted|done)"
_AND_MORE = rf"(?:(?:, (?:the )?{_WORD})*,? and (?:the )?{_WORD})?"
_ELSE = re.compile(
    r"\b(?:or|instead|if|unless|could|would|may|might|prefer|except|but|leftover|both|stripes?"
    r"|striped|alternat\w*)\b",
    re.IGNORECASE,
)


@check(
    id="prose.yarn",
    title="Parts are in the yarn that the text gives them",
    looks_at="`heel and cuff are worked in Line` in every text against the yarns of the sections "
    "and "
    "pieces of these names; a yarn that a step's note works with; and what is embroidered or sewn "
    "in one yarn here and in another there",
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
    parts = re.compile(
        rf"(?:^|[.;,:] |\b(?:the|whole|both) |\band )((?i:(?:the )?{_WORD}(?: "
        rf"{_WORD})?{_AND_MORE}))"
        rf" (?:is|are) (?:all )?(?:{_VERB} )?in ({names})(?![\w'’-])(?! (?:and|or|with)\b)"
    )
    worked = re.compile(
        rf"\b(?i:with|in)(?: (?i:the|your) [\w-]+(?: [\w-]+)?(?: and))? ({names}),? "
        r"(?i:work|knit|purl|cast|bind|crochet|graft)\b"
        rf"|\b(?i:work|knit|crochet)(?: \w+){{0,5}}? (?i:in|with) ({names})(?![\w'’-])(?! (?:and"
        rf"|or)\b)"
    )
    sections = _sections(context)
    for sentence in sentences(context):
        for found in _plainly(sentence, parts):
            yield from _other_part(context, sentence, found, keys, sections)
        if sentence.prose.path[-1] in REMARKS:
            for found in _plainly(sentence, worked):
                yield from _other_step(context, sentence, found, keys)
    yield from _two_yarns(context, names)


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
            yarns = {yarn for size in step.worked for loops in size for yarn, _ in loops}
            for name in {heading, piece.title.lower().strip()} - {""}:
                found.setdefault(name, set()).update(yarns)
    return found


def _other_part(
    context: Context,
    sentence: Sentence,
    found: "re.Match[str]",
    keys: Mapping[str, str],
    sections: Mapping[str, set[str]],
) -> Iterator[Finding]:
    for part in re.split(r",? and |, ", found[1].lower()):
        name = re.sub(r"^(?:(?:the|whole|both) )+", "", part.strip())
        yarns = sections.get(name) or sections.get(name.removesuffix("s"))
        if yarns and keys[found[2]] not in yarns:
            right = " and ".join(sorted(context.pattern.yarns[each].name for each in yarns))
            yield Finding(
                f"`{found[0].strip(' .,;:')}` stands here, and the {name} is in {right}",
                sentence.place(found),
            )
            return


def _other_step(
    context: Context, sentence: Sentence, found: "re.Match[str]", keys: Mapping[str, str]
) -> Iterator[Finding]:
    path = sentence.prose.path
    for at in steps_of(context):
        if (at.plan.key, at.index) != (sentence.prose.piece, path[3]):
            continue
        yarns = {yarn for size in at.step.worked for loops in size for yarn, _ in loops}
        yarns.add(at.step.yarn)
        name = found[1] or found[2]
        if keys[name] not in yarns:
            right = context.pattern.yarns[at.step.yarn].name
            yield Finding(
                f"`{found[0]}` stands here, and the step is in {right}", sentence.place(found)
            )


_MADE = r"(?:embroider(?:ed)?|sewn|stitched|chain-stitched|cross-stitched|outlined)"


def _two_yarns(context: Context, names: str) -> Iterator[Finding]:
    """What is embroidered in one yarn by one text, and in another by the next."""
    is_in = re.compile(
        rf"\b({_WORD})(?: \w+)? (?:is|are) (?:all )?{_MADE} (?:in|with) ({names})(?![\w'’-])"
    )
    in_yarn = re.compile(
        rf"\b(?i:with|in) ({names}),? (?:embroider|sew|stitch|outline)(?: on)?((?: [\w-]+){{1,4}})"
    )
    after = re.compile(
        rf"\b(?i:embroider|outline|stitch)((?: [\w-]+){{1,4}}?) (?:in|with) ({names})(?![\w'’-])"
    )
    told: dict[str, tuple[str, Sentence, re.Match[str]]] = {}
    for sentence in sentences(context):
        for pattern, noun, yarn in ((is_in, 1, 2), (in_yarn, 2, 1), (after, 1, 2)):
            for found in _plainly(sentence, pattern):
                for word in re.findall(r"[a-z]{3,}", found[noun].lower()):
                    if _SMALL_WORD.fullmatch(word):
                        continue
                    here = (found[yarn], sentence, found)
                    there = told.setdefault(word, here)
                    if there[0] != here[0]:
                        # The step is what is done; a text about it is more likely to be wrong.
                        of_step = sentence.prose.path[0] == "pieces"
                        wrong, right = (there, here) if of_step else (here, there)
                        yield Finding(
                            f"`{wrong[2][0].strip()}` stands here, and elsewhere it is in "
                            f"{right[0]}",
                            wrong[1].place(wrong[2]),
                        )
                        return


_SMALL_WORD = re.compile(
    r"the|and|two|three|four|one|both|each|its|his|her|small|little|short|long|satin|stitch(?:es)?"
    r"|face|with|over|for|from|chain|back|straight|french|knots?|lines?|around|along"
)

CHECKS = (yarns_said,)
