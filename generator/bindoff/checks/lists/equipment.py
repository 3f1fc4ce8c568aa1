"""Needles and hooks that a text or a list tells, against what can be done with them."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.lists.ribneedles import ribs_on_larger
from bindoff.checks.lists.tools import knits
from bindoff.checks.sentencesof import Sentence, sentences, supposing
from bindoff.checks.texts.named.things import pads_fit
from bindoff.checks.texts.named.world import world_of
from bindoff.checks.texts.told.numbers import in_figures, number_of
from bindoff.checks.walk import (
    At,
    gauges_of,
    length_said,
    millimetres,
    step_told,
    steps_of,
)
from bindoff.diagnostics import Severity
from bindoff.english import how_many
from bindoff.plan.steps.common import HOOK
from bindoff.source.model import TextUse

_MM = r"(?<![\d.])(\d{1,2}(?:\.\d{1,2})?) ?mm"
_KINDS = (
    ("circular", re.compile(rf"{_MM} (?:circular|circ)\b", re.I), re.compile(r"\bcirc", re.I)),
    (
        "double-pointed",
        re.compile(rf"{_MM} (?:double[- ]pointed|dpns?\b)", re.I),
        re.compile(r"double[- ]pointed|\bdpn", re.I),
    ),
    ("hook", re.compile(rf"{_MM} (?:crochet )?hook\b", re.I), re.compile(r"\bhook", re.I)),
)
_SUPPOSED = supposing("spare", "second")
_CENTIMETRES = re.compile(
    r"(?<![\d.])(\d{1,2}(?:\.\d{1,2})?) ?cm (?:(?:straight|circular|double[- ]pointed|knitting"
    r"|crochet) )?(?:needles?|hooks?|dpns?)\b",
    re.IGNORECASE,
)
_CIRCULAR = re.compile(r"\bcircular\b[^.;]*?(?<![\d.])(\d{2,3}) ?(cm|in)\b", re.IGNORECASE)
_OTHER_WAYS = re.compile(
    r"\bmagic loop|\btwo circulars?\b|\btravell?ing loop|\bback and forth\b"
    r"|(?<!\ba )(?<!\bone )\brows?\b(?! of\b)",
    re.IGNORECASE,
)
_SET = re.compile(r"\bset of (four|five|4|5)\b", re.IGNORECASE)
_OVER = re.compile(
    r"\b(?:divide|share|spread|distribute|arrange|place|put)\b[^.;]{0,50}?\b(?:over|on|onto|among"
    r"|between) "
    r"(?:the )?(three|four|3|4) (?:double[- ]pointed )?(?:needles|dpns)\b",
    re.IGNORECASE,
)
_ALL_AROUND = re.compile(
    r"\bplac(?:e|ing) (?:a |one )?markers? (?:after )?every (\d+)(?: \([\d, ]+\))? (?:stitches"
    r"|sts)\b",
    re.IGNORECASE,
)
_LOOSER = 1.05  # a round stretches on a needle by a little; common practice, no source
_BUNCHED = 3.0  # on a needle a fabric takes a third of its width; common practice, no source


@check(
    id="tool.fit",
    title="The needles and hooks told can do what they are for",
    looks_at="a kind of needle or a hook that a text names in a size in which the lists have other "
    "kinds alone, sizes of needles in centimetres, circular needles that are longer than every "
    "round that is worked, and stitches divided over as many needles as a set has",
    why="the knitter buys a needle that can't be used, and finds out with the stitches on it",
    severity=Severity.WARNING,
    remedy="Correct the size, the kind or the length, in the text or in the list",
)
def tools_fit(context: Context) -> Iterator[Finding]:
    """One finding for each place."""
    for sentence in sentences(context, TextUse.STEP, TextUse.TEXT):
        if not _SUPPOSED.search(sentence.words):
            yield from _no_such_kind(context, sentence)
            yield from _one_too_few(context, sentence)
            yield from _markers(context, sentence)
    yield from pads_fit(world_of(context))
    yield from _circulars(context)
    yield from ribs_on_larger(context) if context.in_english else ()
    for tool in context.pattern.tools:
        found = _CENTIMETRES.search(tool.name)
        if found:
            yield Finding(
                f"`{found[0]}`: needles and hooks are as thick as so many millimetres",
                tool.place.of("name").span,
                f"Write `{found[1]} mm`",
            )


def _no_such_kind(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A circular needle, a double-pointed one or a hook that is listed in other sizes alone."""
    for kind, told, names in _KINDS:
        listed = [tool.name for tool in context.pattern.tools if names.search(tool.name)]
        sizes = {float(mm) for name in listed for mm in re.findall(_MM, name)}
        for found in sentence.said(told) if sizes else ():
            if float(found[1]) not in sizes:
                right = " and ".join(f"{mm:g} mm" for mm in sorted(sizes))
                what = kind if kind == "hook" else f"{kind} needle"
                yield Finding(
                    f"`{found[0]}` stands here, and the {what} listed is of {right}",
                    sentence.place(found),
                )


def _one_too_few(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Stitches on as many needles as the set has: one is needed to knit with."""
    for found in sentence.said(_OVER):
        told = int(found[1]) if found[1].isdigit() else number_of(found[1])
        for tool in context.pattern.tools:
            there = _SET.search(tool.name)
            has = (number_of(there[1]) or int(there[1])) if there else 0
            if has and has <= told:
                yield Finding(
                    f"the set has {how_many(has, 'needle')}, and the stitches are on "
                    f"{told}: one more is needed to knit with",
                    tool.place.of("name").span,
                )


def _markers(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Markers that a text has placed all around, of which the list has fewer."""
    at = step_told(context, sentence.prose) if sentence.prose.path[-1:] == ("say",) else None
    if at is None:
        return
    for found in sentence.said(_ALL_AROUND):
        needed = at.step.before[0].stitches // max(int(found[1]), 1)
        for index, notion in enumerate(context.pattern.notions):
            if re.search(r"\bmarkers?\b", notion, re.IGNORECASE):
                listed = sum(map(int, re.findall(r"\d+", in_figures(notion))))
                if 0 < listed < needed:
                    yield Finding(
                        f"`{found[0]}` takes {how_many(needed, 'marker')}, and {listed} are listed",
                        context.pattern.place.of("notions").of(index).span,
                    )


def _circulars(context: Context) -> Iterator[Finding]:
    """A circular needle that no round goes around, or the longest where it can't hold the rows."""
    knitting = [tool for tool in context.pattern.tools if knits(tool.name)]
    lengths = [
        (millimetres(float(found[1]), found[2]), f"`{found[1]} {found[2]}`", tool)
        for tool in knitting
        if (found := _CIRCULAR.search(tool.name))
    ]
    steps = [at for at in steps_of(context) if any(at.step.rounds)]
    widest = max((_width(context, at) for at in steps if not at.step.tubes), default=0.0)
    if not lengths or not widest:
        return
    round_only = not any(at.flat or at.step.tubes or HOOK in at.step.tools for at in steps)
    if round_only and not any(_OTHER_WAYS.search(each.text) for each in context.prose):
        for mm, length, tool in lengths:
            if mm > widest * _LOOSER:
                yield Finding(
                    f"{length} is longer than every round: the widest is "
                    f"{length_said(context, widest)} around",
                    tool.place.of("name").span,
                    "List a shorter circular needle, or say that it is worked with a long loop",
                )
    mm, length, tool = max(lengths, key=lambda each: each[0])
    if len(lengths) == len(knitting) and widest > _BUNCHED * mm:
        yield Finding(
            f"{length} cannot hold the widest row, which is {length_said(context, widest)}",
            tool.place.of("name").span,
            "List a longer circular needle",
        )


def _width(context: Context, at: At) -> float:
    """How wide a step is in the size in which it is widest, at its beginning or its end."""
    gauges = gauges_of(context, at)
    ends = zip(gauges, at.step.before, at.step.after, strict=True)
    return max(gauge.width_of(max(one.stitches, other.stitches)) for gauge, one, other in ends)


CHECKS = (tools_fit,)
