"""Rounds in tubes, rows in flat pieces."""

from collections.abc import Iterator, Set

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.prose import Prose
from bindoff.checks.walk import steps_of, told_in_words
from bindoff.diagnostics import Severity
from bindoff.plan.steps.common import HOOK
from bindoff.source.model import TextUse
from bindoff.source.rowlang.syntax import Turn

_FLAT_WORDS = re.compile(
    r"(?:^|[.;,:]\s*|\b(?:and|then)\s+)(?P<turn>turn)(?=\s*(?:[.;,]|and\b|the work\b|$))"
    r"|\b(?:next|every|each|last|first|this|other|\d+)\s+(?:right[- ]side |wrong[- ]side )?rows?\b"
    r"(?! of (?:\d|(?:two|three|four|five|six|seven|eight|nine|ten|twelve|the)\b|squares|blocks"
    r"|motifs|strips|triangles))"
    r"|\b(?:right|wrong)[- ]side rows?\b|\brows? of (?:knit|purl|stockinette|rib)",
    re.IGNORECASE,
)
_PICKED_UP = re.compile(
    r"\b(?:\d+ |stitch(?:es)? )(?:in|for|from|out of) (?:every )?$", re.IGNORECASE
)
_LOOPS = re.compile(r" (?:of loops|onto (?:a|the|each) )", re.IGNORECASE)
_ROUND_WORDS = re.compile(
    r"\b(?:next|every|each|last|first|this|other|\d+)\s+rounds?\b|\bstart of the round\b"
    r"|\bbeginning of the round\b|\bjoin\b[^.]*\bin the round\b|\bwork(?:ed)? in the round\b",
    re.IGNORECASE,
)


@check(
    id="wording.rows-in-tube",
    title="A tube is worked in rounds, in words too",
    looks_at="rows, turning and right or wrong side in the steps of pieces worked in the round",
    why="a knitter who is told to turn in a tube works a slit, or a row the wrong way",
    severity=Severity.WARNING,
    remedy="Say round, and don't turn; or make the piece `worked: flat`",
)
def rows_in_tube(context: Context) -> Iterator[Finding]:
    """One finding for each text."""
    yield from _words(context, "round", _FLAT_WORDS, "is said in a piece worked in the round")


@check(
    id="wording.rounds-in-panel",
    title="A flat piece is worked in rows, in words too",
    looks_at="rounds and joining in the steps of pieces worked flat",
    why="a knitter who joins a flat piece has a tube, and rips it back",
    severity=Severity.WARNING,
    remedy="Say row, and don't join; or make the piece `worked: round`",
)
def rounds_in_panel(context: Context) -> Iterator[Finding]:
    """One finding for each text."""
    yield from _words(context, "flat", _ROUND_WORDS, "is said in a piece worked flat")


def _words(context: Context, worked: str, words: "re.Pattern[str]", what: str) -> Iterator[Finding]:
    edged = {
        ("pieces", at.plan.key, "steps", at.index)
        for at in steps_of(context)
        if HOOK in at.step.tools
    }
    short = {
        (at.plan.key, at.index)
        for at in steps_of(context)
        if any(isinstance(part, Turn) for row in at.step.all_rows for part in row.parts)
    }
    edgings = {
        (at.plan.key, near)
        for at in steps_of(context)
        if HOOK in at.step.tools
        for near in (at.index, at.index + 1)
    }
    mixed = {plan.key for plan in context.plan.pieces if len(plan.ways) > 1}
    in_words = told_in_words(context)
    for prose in context.prose:
        if prose.kind is not TextUse.STEP or prose.path[:4] in edged:
            continue
        if _beside(prose, short if worked == "round" else edgings):
            continue
        piece = context.pattern.pieces[prose.piece or ""]
        rows = (each for each in prose.found(words) if not _of_others(prose.text, each[0]))
        found = (
            next(rows, None)
            if piece.worked == worked and prose.piece not in mixed | in_words
            else None
        )
        if found:
            said = (found[0].groupdict().get("turn") or found[0][0]).strip()
            yield Finding(f"`{said}` {what}", found[1])


def _of_others(text: str, found: "re.Match[str]") -> bool:
    """Whether rows are those of an edge along which stitches are picked up, or of loops."""
    return bool(_PICKED_UP.search(text[: found.start()]) or _LOOPS.match(text, found.end()))


def _beside(prose: Prose, steps: Set[tuple[str, int]]) -> bool:
    """Whether a text stands at one of the steps, or right before it."""
    index = int(prose.path[3]) if prose.path[2:3] == ("steps",) else -2
    return any((prose.piece, at) in steps for at in (index, index + 1))


@check(
    id="wording.gauge",
    title="Gauge goes by one word",
    looks_at="`gauge` in the texts of a pattern in UK terms, which prints it as tension, and "
    "`tension` for it in one in US terms",
    why="two words for one thing make a reader look for the second thing",
    severity=Severity.NOTE,
    remedy="Use the word of the declared terms",
    needs=Needs.SOURCE,
)
def one_word_for_gauge(context: Context) -> Iterator[Finding]:
    """One finding, at the first such word; a machine's tension is another thing."""
    if context.pattern.made.by == "machine":
        return
    words = _GAUGE if context.pattern.terms == "UK" else _TENSION
    for prose in context.prose:
        for found, place in () if prose.path == ("title",) else prose.found(words):
            yield Finding(
                f"`{found[found.lastindex or 0]}` is not the word that this pattern prints for it",
                place,
            )
            return


# Gauges of other things, and the tool that needles are measured with.
_GAUGE = re.compile(
    r"(?<!\btide )(?<!\brain )(?<!\bsteam )(?<!\bpressure )(?<!\bdepth )(?<!\bwind )(?<!\bneedle )"
    r"(?<!\bwire )\b(gauges?)\b",
    re.IGNORECASE,
)
_TENSION = re.compile(
    r"\b(?:check|measure|obtain|match|stated|given|correct) (?:the |your |this )?(tension)\b"
    r"|\b(tension (?:square|swatch|sample))\b",
    re.IGNORECASE,
)

CHECKS = (rows_in_tube, rounds_in_panel, one_word_for_gauge)
