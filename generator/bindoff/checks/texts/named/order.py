"""Sections and pieces that a text puts in an order, against the order in which they are worked."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, quoted
from bindoff.checks.texts.named.world import World
from bindoff.records import Record
from bindoff.remembered import once_each
from bindoff.source.model import TextUse
from bindoff.source.steps.section import SectionStep


class _Stage(Record):
    """A word by which sections or pieces go, and the first and the last place of these among all;
    ``piece`` is the piece they are all in."""

    word: str
    said: "re.Pattern[str]"
    first: int
    last: int
    piece: str


_NO_STAGE = re.compile(
    r"the|and|for|first|second|third|last|left|right|upper|lower|main|end|start|part|rows"
    r"|rounds|of|with|row|round|edge|begin|next|plain|work|stitch|stitches|pattern|all"
    r"|both|side|sides"
)


@once_each
def _stages(context: Context) -> tuple[_Stage, ...]:
    """Every word that names sections, or pieces that have none, of one piece alone."""
    sections: dict[str, list[tuple[int, str]]] = {}
    pieces: dict[str, list[tuple[int, str]]] = {}
    whole: dict[str, list[tuple[int, str]]] = {}  # names of one word, which go before others
    count = 0
    for key, piece in context.pattern.pieces.items():
        names = [step.section for step in piece.steps if isinstance(step, SectionStep)]
        places = sections if names else pieces
        for name in names or [piece.title]:
            words = re.findall(r"[a-z]{3,}", name.lower())
            for word in words:
                if not _NO_STAGE.fullmatch(word):
                    places.setdefault(word.removesuffix("s"), []).append((count, key))
            if len(words) == 1 and names:
                whole.setdefault(words[0].removesuffix("s"), []).append((count, key))
            count += 1
    return tuple(
        _Stage(
            word,
            re.compile(rf"(?<![\w-]){re.escape(word)}s?(?![\w-])", re.IGNORECASE),
            min(place for place, _ in some),
            max(place for place, _ in some),
            some[0][1],
        )
        for word, some in (pieces | sections | whole).items()
        if len({key for _, key in some}) == 1
    )


_WORKED = (
    r"(?:worked|knitted|knit|made|put in|picked up|crocheted|added|begun|started|shaped|turned"
    r"|grows?|goes|runs?|works)"
)


_ENDS = re.compile(
    r"\bfrom (?:the |its |his |her |their )?(?P<from>[a-z]+)(?: (?:end|edge|tip))?"
    r" (?:up |down |over |out |on )?"
    r"to (?:the |its |his |her |their )?(?P<to>[a-z]+)\b"
    r"|\b(?:begins?|starts?|begun|started|beginning|starting|cast on) (?:at|with|from)"
    r" (?:the |its )(?P<begin>[a-z]+)\b"
    r"|\b(?:ends?|finish(?:es|ed)?|ending|finishing) (?:at|with|in) (?:the |its )(?P<end>[a-z]+)\b",
    re.IGNORECASE,
)
_OF_WORK = re.compile(rf"\b{_WORKED}\b|\bworks?\b", re.IGNORECASE)


def from_end_to_end(world: World, sentence: Sentence) -> Iterator[Finding]:
    """The end at which the work begins or ends, where a section there has that name."""
    if (
        sentence.supposes
        or sentence.prose.kind is TextUse.STEP
        or not _OF_WORK.search(sentence.words)
    ):
        return
    for found in sentence.said(_ENDS):
        for name, at_start in (("from", True), ("begin", True), ("to", False), ("end", False)):
            stage = _at_other_end(world.context, found[name] or "", at_start=at_start)
            if stage is not None:
                yield Finding(
                    f"`{quoted(found)}` stands here, and the {stage.word} is worked "
                    f"{'last' if at_start else 'first'}",
                    sentence.place(found),
                )
                break


def _at_other_end(context: Context, words: str, *, at_start: bool) -> _Stage | None:
    """The stage that words name, where it is the last of its piece and is said to be at its start,
    or the other way about."""
    stages = _stages(context)
    said = {word.removesuffix("s") for word in words.lower().split()}
    for stage in (each for each in stages if each.word in said):
        own = [each for each in stages if each.piece == stage.piece]
        first, last = min(e.first for e in own), max(e.last for e in own)
        if stage.first == stage.last == (last if at_start else first) and first < last:
            return stage
    return None


_THING = r"(?:the|its|his|her|both|each) ([a-z]+(?: [a-z]+)?)"
_DONE = rf"(?:{_WORKED}|done|finished|sewn|cast on)"
_PLACED = re.compile(
    rf"\b{_THING} (?:comes?|is|are|goes|gets)(?: {_DONE})?(?: \w+)? (first|last)"
    r"(?=[.,;:)]|$| (?:and|then|but|where|when|by|before|after|so|as|with|on)\b)"
    rf"|\b(first|last) comes? {_THING}\b"
    rf"|\b(?:begins?|starts?) (?:with|at) {_THING}\b(?= and|,|\.|;|$)"
    rf"|\b{_DONE} (first|last) (?:is|are|comes?) {_THING}\b",
    re.IGNORECASE,
)


def first_and_last(world: World, sentence: Sentence) -> Iterator[Finding]:
    """`The heel comes last`, `begin with the foot`."""
    for found in sentence.said(_PLACED):
        if sentence.supposes_before(found):
            continue
        words = found[1] or found[4] or found[5] or found[7]
        first = (found[2] or found[3] or found[6] or "first").lower() == "first"
        stage = _at_other_end(world.context, words, at_start=first)
        if stage is not None:
            yield Finding(
                f"`{quoted(found)}` stands here, and the {stage.word} is worked "
                f"{'last' if first else 'first'}",
                sentence.place(found),
            )
