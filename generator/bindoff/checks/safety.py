"""What a pattern tells the maker to do against the cautions that it prints.

The cautions are those in templates/safety: nothing small and nothing that ties for a child under
three, no cord at the neck, chin or hood of a child. Words alone can't prove that a thing is there,
so sentences that leave it off, hold stitches with it or name a needle's cord are left alone.
"""

from collections.abc import Iterator, Mapping

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.hazardtable import hazards
from bindoff.checks.hazardwords import Told, told
from bindoff.diagnostics import Severity
from bindoff.source.lengths import parse_length
from bindoff.source.model import TextUse

# At the waist and lower edge at most 3 in (75 mm) may hang out of the channel: 16 CFR 1120 with
# ASTM F1816, for upper outerwear of children; we take it as the most for any tie on a child.
FREE_END_MM = 75.0

_AT_NECK = re.compile(
    r"\b(?:neck\w*|hood\w*|chin|throat|collars?|ear[- ]?flaps?|bonnets?)\b",
    re.IGNORECASE,
)
_LENGTH = re.compile(
    r"(?<![\w./])(\d+(?:\.\d+)?|\d+ ?[½¼¾])[ -]?(mm|cm|inch(?:es)?|in)\b", re.IGNORECASE
)
_HANGS = re.compile(
    r"\bties?\b|\b(?:hang\w*|free|dangl\w*|beyond|outside|ends?|tails?|each side)\b", re.IGNORECASE
)
_SENTENCE = re.compile(r"[^.;!?]+(?:\.(?=\d)[^.;!?]*)*[.;!?]?")

_NONE_UNDER_THREE: Mapping[str, tuple[str, str]] = {
    "small parts": (
        "its own caution has no buttons, beads or other small parts for a child under three",
        "Embroider or knit it instead",
    ),
    "cords": (
        "its own caution has no ties or cords for a baby",
        "Make it hold without a tie, such as with a deeper rib",
    ),
    "pompom": (
        "its own caution has no pompom or tassel for a child under three",
        "Leave it off, or embroider something flat",
    ),
    "magnets": (
        "its own caution has none on anything for a child",
        "Leave it off: two that are swallowed can kill",
    ),
    "button cells": (
        "its own caution has none where a child can reach it",
        "Leave the light off",
    ),
    "sleep": (
        "its own caution has nothing loose where a baby sleeps",
        "Say what it is for while the baby is awake and watched",
    ),
}


@check(
    id="wearer.safety",
    title="A pattern does nothing that its cautions forbid",
    looks_at="buttons, beads, ties, cords, straps at the chin, pompoms, magnets and button cells "
    "in notions, titles, steps and texts, what `hazards:` declares, and sleep, when an infant is "
    "to wear the piece; magnets, cords and ties at the neck, chin or hood, and ends that hang over "
    "75 mm (16 CFR 1120), when a child is",
    why="a child chokes on what comes off and strangles in what ties; a caution that the same page "
    "contradicts protects nobody",
    severity=Severity.ERROR,
    remedy="Leave it off, or make it another way",
    needs=Needs.SOURCE,
)
def cautions_kept(context: Context) -> Iterator[Finding]:
    """One finding for each hazard, at the first word for it."""
    wearers = set(context.pattern.wearer)
    if not wearers & {"infant", "child"}:
        return
    found = [each for each in told(context) if each.sure]
    if "infant" in wearers:
        yield from _for_infants(context, [*found, *_asleep(context)])
    else:
        yield from _for_children(found)


def _for_infants(context: Context, found: list[Told]) -> Iterator[Finding]:
    for hazard, (caution, instead) in _NONE_UNDER_THREE.items():
        first = next(
            (each for each in found if each.hazard == hazard and not _fastened(context, each)), None
        )
        silence = "; if only older wearers get it, say so there, or silence this with the reason"
        if first:
            message = f"`{first.word}` on something for an infant: {caution}"
            yield Finding(message, first.place, instead + silence)
        elif hazard in context.pattern.hazards and not _fastens(context, found):
            index = context.pattern.hazards.index(hazard)
            yield Finding(
                f"`{hazard}` is declared for something that an infant wears: {caution}",
                context.pattern.place.of("hazards").of(index).span,
                instead + silence,
            )


# What closes a garment, and sentences that tell how it is kept on.
_FASTENING = re.compile(r"(?:button|snap|popper|press stud|toggle|fastener)", re.IGNORECASE)
_KEPT_ON = re.compile(
    r"\b(?:sew\w*|stitch\w*|attach\w*|secure\w*|fasten\w*|fix\w*)\b[^.;!?]*"
    r"\b(?:firm\w*|secure\w*|strong\w*|doubled?|twice|through (?:both|each|two)|tug\w*|pull\w*"
    r"|thread shank|backing|reinforc\w*|several times)\b"
    r"|\b(?:firm\w*|secure\w*|strong|doubled?)\b[^.;!?]*\b(?:sew\w*|thread|stitch\w*|attach\w*)\b"
    r"|\b(?:tug|pull)\w* (?:hard |firmly )?(?:at|on) (?:it|them|each|every)\b",
    re.IGNORECASE,
)


def _fastened(context: Context, each: Told) -> bool:
    """Whether it is a fastening, declared as a small part, and a text tells how it is kept on."""
    return (
        each.hazard == "small parts"
        and "small parts" in context.pattern.hazards
        and _FASTENING.search(each.word) is not None
        and any(
            _FASTENING.search(prose.text) and _KEPT_ON.search(prose.text) for prose in context.prose
        )
    )


def _fastens(context: Context, found: list[Told]) -> bool:
    return any(_fastened(context, each) for each in found)


@check(
    id="wearer.fastening",
    title="A baby's garment closes without buttons",
    looks_at="buttons, snaps and toggles on something for an infant, declared as small parts, "
    "whose sewing on is told so that they hold",
    why="a child under three swallows what comes off, however well it was sewn on; the document "
    "prints its caution",
    severity=Severity.WARNING,
    remedy="Close it another way, such as with knitted loops over knots; else silence this with "
    "the reason",
    needs=Needs.SOURCE,
)
def fastenings(context: Context) -> Iterator[Finding]:
    """One finding, at the first of them."""
    if "infant" in context.pattern.wearer:
        for each in told(context):
            if each.sure and _fastened(context, each):
                yield Finding(
                    f"`{each.word}` on something for an infant: sewn on well, it is a small part "
                    "still",
                    each.place,
                )
                return


def _for_children(found: list[Told]) -> Iterator[Finding]:
    magnet = next((each for each in found if each.hazard == "magnets"), None)
    if magnet:
        caution, instead = _NONE_UNDER_THREE["magnets"]
        yield Finding(f"`{magnet.word}` on something for a child: {caution}", magnet.place, instead)
    cords = [each for each in found if each.hazard == "cords"]
    at_neck = next((each for each in cords if _AT_NECK.search(each.sentence)), None)
    if at_neck:
        yield Finding(
            f"`{at_neck.word}` at the neck, chin or hood of a child: its own caution has no "
            "drawstring or tie there",
            at_neck.place,
            "Make it hold without a tie, such as with a button at the side or a deeper rib; "
            "silence this with the reason if it lies elsewhere",
        )
    for each in cords:
        length = next(_free_ends(each.sentence), None)
        if each is not at_neck and length:
            yield Finding(
                f"`{each.word}` with `{length}` to hang free on a child: at most "
                f"{FREE_END_MM:g} mm (3 in) may (16 CFR 1120)",
                each.place,
                "Make the ends shorter, or sew the cord down; silence this with the reason if "
                "nothing hangs",
            )
            return


def _free_ends(sentence: str) -> Iterator[str]:
    """Lengths over the limit in a sentence about ends that hang."""
    if _HANGS.search(sentence):
        for found in _LENGTH.finditer(sentence):
            unit = found[2].lower()
            written = f"{found[1]} {unit if unit in ('mm', 'cm') else 'in'}"
            if parse_length(written) > FREE_END_MM + 1.5:  # 3 in are 76.2 mm
                yield found[0]


def _asleep(context: Context) -> Iterator[Told]:
    """Sentences that have a baby sleep with the piece."""
    for prose in context.prose:
        if prose.kind in (TextUse.ALT, TextUse.GAUGE) or prose.path[:1] == ("tools",):
            continue
        for sentence in _SENTENCE.finditer(prose.text):
            words, start = sentence[0], sentence.start()
            spans = (span for row, span in hazards(words) if row.kind == "sleep")
            for begin, end in spans:
                place = prose.place(start + begin, start + end)
                yield Told("sleep", words[begin:end], words, place)


CHECKS = (cautions_kept, fastenings)
