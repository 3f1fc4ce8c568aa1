"""Seams that texts or pieces need, and that nothing sews; how many stitches a seam takes."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, quoted, sentences
from bindoff.checks.texts.told.numbers import in_figures, lists_as_numbers
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import parts_of, steps_of
from bindoff.diagnostics import Span
from bindoff.plan.steps.pick_up_along import PickedUp
from bindoff.source.model import TextUse
from bindoff.source.rowlang.syntax import Alter, CountChange

_KIND = r"(side|shoulder|sleeve|raglan|underarm|thumb|toe|crown|gusset|cent(?:re|er) back)"
_NAMED = phrase(
    rf"\b(?:at|from|over|across|past|above|below|of|along|on|into|to|after|with) (?:the |each "
    rf"|both )(?:(?:top|end|foot|bottom|middle|beginning) of (?:the |each ))?{_KIND} seams?\b"
)
_SEWS = phrase(
    r"\b(?:sew\w*|seaming|seamed|stitching|join\w*|graft\w*|clos(?:e|es|ed|ing)|mattress"
    r"|backstitch\w*|whip\w*|overcast\w*|set in|3-needle|three-needle|crochet\w*"
    r"|(?:bind\w*|bound|cast\w*) off [^.;]{0,40}together|made up|make up)\b"
    r"|(?:^|\b(?:and|then|to|now) |, )(?:seam|stitch|oversew)\b"
)
_ANY = phrase(
    r"\b(?:all|remaining|other)(?: the)?(?: [a-z]+)? seams\b|\b(?:the|both|long) seams\b"
    r"|\btogether\b|\bpieces\b|\b(?:back|front)s? (?:to|and) (?:the )?(?:front|back)"
)
"""Sewing that names no seam, and may be any."""


def seams_needed(context: Context) -> Iterator[Finding]:
    """Each seam that is taken for sewn and is not, and each that has other stitches."""
    if not context.in_english:
        return
    told = list(sentences(context, TextUse.STEP, TextUse.TEXT))
    sewing = [each for each in told if _SEWS.search(each.words)]
    for sentence in told:
        if "seam" in sentence.words:
            yield from _counted(context, sentence)
    if not any(at.flat for at in steps_of(context)) or _joined(context):
        return
    if any(_ANY.search(each.words) for each in sewing):
        return
    yield from _taken_for_sewn(told, sewing)
    yield from _open_between(context, sewing)


def _joined(context: Context) -> bool:
    """Whether a step joins pieces."""
    closed = (at.step.closes for at in steps_of(context))
    return any(each is not None and (each.to is not None or each.halved) for each in closed)


def _taken_for_sewn(told: list[Sentence], sewing: list[Sentence]) -> Iterator[Finding]:
    """A seam that a text names as a place, and no text sews."""
    seen = set[str]()
    for sentence in told:
        for found in sentence.said(_NAMED) if "seam" in sentence.words else ():
            kind = found[1].lower()
            sewn = any(_of(kind).search(each.words) for each in sewing)
            if not sewn and kind not in seen and not sentence.supposes:
                seen.add(kind)
                yield Finding(
                    f"`{quoted(found)}` stands here, and no text sews it",
                    sentence.place(found),
                    "Say where the seam is sewn, before the step that needs it",
                )


def _of(kind: str) -> "re.Pattern[str]":
    """What a sentence that sews a seam calls it: a side is one of the fabric, too."""
    return phrase(r"\bside (?:seams?|edges?)\b|\bsides\b" if kind == "side" else rf"\b{kind}")


def _open_between(context: Context, sewing: list[Sentence]) -> Iterator[Finding]:
    """Stitches picked up in the round across held ones of two flat pieces, between which no text
    sews a seam: at a neck those of the shoulders."""
    homes = {
        part.group: at.plan.key
        for at in steps_of(context)
        for row in at.step.all_rows
        for part in parts_of(row)
        if isinstance(part, Alter) and part.change is CountChange.HOLD and part.group and at.flat
    }
    for at in steps_of(context):
        detail = at.step.detail
        if not isinstance(detail, PickedUp) or any(each.flat for each in at.step.after):
            continue
        of = {homes[name] for part in detail.parts for name in part.names if name in homes}
        neck = any("neck" in name for part in detail.parts for name in part.names)
        if len(of) < 2 or not neck or any("shoulder" in each.words.lower() for each in sewing):
            continue
        titles = " and ".join(context.pattern.pieces[key].title.lower() for key in sorted(of))
        yield Finding(
            f"stitches are picked up in the round across {titles}, and no text sews the shoulders",
            _first_text(context, at.plan.key, at.index) or at.step.span,
            "Say that the shoulder seams are sewn first",
            beside=(at.step.span,),
        )


def _first_text(context: Context, key: str, index: int) -> Span | None:
    """The text between steps that stands right before a step."""
    for prose in context.prose:
        if prose.piece == key and prose.path[-1] == "say" and int(prose.path[3]) == index - 1:
            return prose.span
    return None


# ---------------------------------------------------------------- how many stitches it takes

_COUNTED = phrase(
    r"\bseams?,? (?:of |over |along |across )?(?:the )?(\d+) (?:stitches|sts)\b(?: each| long)?"
)


def _counted(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """The stitches of a seam, which are those of an edge: cast on, bound off or left live."""
    sizes = len(context.source.sizes)
    lists = lists_as_numbers(in_figures(sentence.words), sizes)
    for found in _COUNTED.finditer(lists.text) if not sentence.supposes else ():
        listed = lists.between(found.start(), found.end(1))
        figures = listed.figures if listed else (int(found[1]),) * sizes
        edges = _edges(context)
        off = [size for size in range(sizes) if figures[size] not in edges[size]]
        if len(off) == sizes:
            said = " ".join(sentence.words[found.start() : found.end()].split())
            yield Finding(
                f"`{said}` stands here, and no edge that is cast on or bound off has so many",
                sentence.place(found),
            )


def _edges(context: Context) -> list[set[int]]:
    """The stitches of every edge, per size."""
    found: list[set[int]] = [set() for _ in context.source.sizes]
    for at in steps_of(context):
        step = at.step
        for size, some in enumerate(found):
            if step.closes is not None:
                some |= {step.closes.stitches[size]}
            if step.begins is not None and step.begins.by is not None:
                some |= {part[size] for part in step.begins.parts}
                some |= {sum(part[size] for part in step.begins.parts)}
            for level in step.levels[size] if step.levels else ():
                some |= {level.cast_on, level.bound_off}
    return found
