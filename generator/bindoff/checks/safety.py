"""What a pattern tells the maker to do against the cautions that it prints.

The cautions are those in templates/safety: nothing small and nothing that ties for a child under
three, no cord at the neck, chin or hood of a child. Words alone can't prove that a thing is there,
so sentences that leave it off, hold stitches with it or name a needle's cord are left alone.
"""

import re
from collections.abc import Iterator, Mapping

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.prose import Prose
from bindoff.checks.walk import tied_tops
from bindoff.diagnostics import Severity, Span
from bindoff.records import Record
from bindoff.source.denials import left_off
from bindoff.source.lengths import parse_length
from bindoff.source.model import TextUse

# At the waist and lower edge at most 3 in (75 mm) may hang out of the channel: 16 CFR 1120 with
# ASTM F1816, for upper outerwear of children; we take it as the most for any tie on a child.
FREE_END_MM = 75.0

_TIE = (
    r"(?:the|an?|two|four|2|4|both|each|every|one|long|short|chin|neck|ear[- ]?flaps?|side|back"
    r"|front"
    r"|shoulder|waist|braided|twisted|knit|knitted|crochet|crocheted|cord|i-cord|ribbon) ties?"
    r"(?! (?:off|in|up|them|it|together)\b)"
)

_WORDS: Mapping[str, str] = {
    "small parts": r"(?:snap |press |wooden |shell |toggle )?(?:buttons?|fasteners)(?: ?bands?| "
    "?holes?)?"
    r"|buttonholes?|buttonbands?|toggles?|press studs?|poppers|beads?(?! stitch)|sequins?"
    r"|rhinestones?"
    r"|(?<=\ba )(?-i:pearl)\b(?! (?:stitch|cotton|yarn|gr[ea]y|white))|(?-i:pearls)"
    r"|(?:felt|satin|ribbon|fabric) (?:bows?|flowers?)|googly eyes|magnets?|button batter(?:y|ies)"
    r"|rivets?|jingle bells?|little bells?|safety eyes|glass eyes|charms?|brooch(?:es)?"
    r"|(?<=with a )(?:safety|kilt|shawl) pins?",
    "cords": r"(?:i-)?cords?(?![- ](?:bind|cast|edg|border|trim|hem|stitch|rib|increase|decrease))"
    r"|draw[- ]?strings?|draw[- ]?cords?|ribbons?(?! yarn)|shoe ?laces?"
    r"|(?:two|both|the) laces|tails? to (?:tie|knot)"
    rf"|{_TIE}|(?:chin|neck|bonnet|hat|apron|hood)[- ]?(?:straps?|strings?)"
    r"|straps? (?:under|below|around|behind) the (?:chin|neck|head)",
    "pompom": r"pom[- ]?po[mn]s?|bobbles? of yarn|tassels?|fringes?|fringed",
}
# What is a cord only where it hangs, or holds the piece on: elsewhere a cable, a seam or a loop.
_LOOSE = re.compile(
    r"(?<![\w-])(?:braids?|plaits?|chains?|strings?)(?! (?:cables?|stitch|patterns?|panels?|edg))"
    + r"(?![-–\w])",
    re.IGNORECASE,
)
_WORN = re.compile(
    r"\b(?:(?:hang|dangl)\w*|(?:under|behind|around|round) (?:the|its|your) (?:chin|neck)"
    r"|(?:hold|keep|tie)\w* (?:it|them|the (?:hat|cap|bonnet|mitts|mittens)) on)\b",
    re.IGNORECASE,
)
_HEADINGS = re.compile(r"\s*(?:[\w-]+ )?(?:ties?|cords?|strings|chin straps?)\s*", re.IGNORECASE)
_NOT_AS_PART = r"(?![-–](?:free|less)\b)(?!\w)"
_PATTERNS = {
    hazard: re.compile(rf"(?<![\w-])(?:{words}){_NOT_AS_PART}", re.IGNORECASE)
    for hazard, words in _WORDS.items()
}
_ANY = re.compile(
    r"button|fasten|toggle|stud|popper|bead|sequin|rhinestone|rivet|bell|eyes|charm|brooch|cord|draw"
    r"|ribbon|lace|tie|strap|string|tail|pom|bobble|tassel|fring|braid|plait|chain|pin|sleep|nap|bedtime|night|pearl|felt|satin|magnet|batter",
    re.IGNORECASE,
)

# Only for those who are old enough.
_OLDER = re.compile(
    r"\b(?:adults?|grown[- ]?ups?|women|men|older (?:children|wearers))\b[^.;!?]*\bonly\b"
    r"|\bonly\b[^.;!?]*\b(?:adults?|grown[- ]?ups?|women|men|older (?:children|wearers))\b"
    r"|\bover (?:three|3)(?: years)?\b|\bfrom (?:three|3) years\b",
    re.IGNORECASE,
)
# A cord that is a tool: of a needle, or one that holds stitches.
_TOOL = re.compile(
    r"\bneedles?\b|\bholds?\b|\bholding\b|\bheld\b|\bholders?\b|\blifelines?\b|\bwaste\b|\bprovisional\b"
    r"|\bmarkers?\b|\bflexible\b",
    re.IGNORECASE,
)
_AT_NECK = re.compile(
    r"\b(?:neck\w*|hood\w*|chin|throat|collars?|ear[- ]?flaps?|bonnets?)\b",
    re.IGNORECASE,
)
# A piece that is laid over a baby who sleeps, or worn in bed.
_ASLEEP = re.compile(
    r"\bsleeping (?:baby|infant|newborn|child)\b"
    r"|\b(?:baby|infant|newborn|child) (?:sleeps?|is asleep|to sleep|(?:can|may|will) sleep)\b"
    r"|\bsleeps?(?: \w+)? (?:in|under|on|with) (?:it|this|them|the (?:blanket|bonnet|hat|toy))\b"
    r"|\b(?:at|for|by) (?:bedtime|nap ?times?|naps|the night)\b"
    r"|\b(?:to|for) sleep(?:ing)? (?:in|under)\b|\bovernight\b"
    r"|\b(?:warm|keeps?|kept|cosy|cozy|snug|worn|wears?|covers?)\b[^.;!?]{0,40}"
    r"\b(?:all|at|by|every|through the|during the) night\b",
    re.IGNORECASE,
)
_TAKEN_OFF = re.compile(
    r"\b(?:off|away|remove\w*|before|until|awake)\b|\bonce\b|\bas soon as\b", re.IGNORECASE
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
    "sleep": (
        "its own caution has nothing loose where a baby sleeps",
        "Say what it is for while the baby is awake and watched",
    ),
}


class _Told(Record):
    """A word for a hazard, with its sentence."""

    hazard: str
    word: str
    sentence: str
    place: Span


@check(
    id="wearer.safety",
    title="A pattern does nothing that its cautions forbid",
    looks_at="buttons, beads, ties, cords, straps at the chin and pompoms in notions, titles, "
    "steps and texts, what `hazards:` declares, and sleep, when an infant is to wear the "
    "piece; cords and ties at the neck, chin or hood, and ends that hang over 75 mm (16 CFR 1120), "
    "when a child is",
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
    told = list(_told(context))
    if "infant" in wearers:
        yield from _for_infants(context, told)
    else:
        yield from _for_children(told)


def _for_infants(context: Context, told: list[_Told]) -> Iterator[Finding]:
    for hazard, (caution, instead) in _NONE_UNDER_THREE.items():
        found = next((each for each in told if each.hazard == hazard), None)
        silence = "; if only older wearers get it, say so there, or silence this with the reason"
        if found:
            message = f"`{found.word}` on something for an infant: {caution}"
            yield Finding(message, found.place, instead + silence)
        elif hazard in context.pattern.hazards:
            index = context.pattern.hazards.index(hazard)
            yield Finding(
                f"`{hazard}` is declared for something that an infant wears: {caution}",
                context.pattern.place.of("hazards").of(index).span,
                instead + silence,
            )


def _for_children(told: list[_Told]) -> Iterator[Finding]:
    cords = [each for each in told if each.hazard == "cords"]
    at_neck = next((each for each in cords if _AT_NECK.search(each.sentence)), None)
    if at_neck:
        yield Finding(
            f"`{at_neck.word}` at the neck, chin or hood of a child: its own caution has no "
            "drawstring or tie there",
            at_neck.place,
            "Make it hold without a tie, such as with a button at the side or a deeper rib; "
            "silence "
            "this with the reason if it lies elsewhere",
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


def _told(context: Context) -> Iterator[_Told]:
    for title, by, place in tied_tops(context):
        yield _Told("cords", by, f"{title}: top closed by a {by}", place)
    for prose in context.prose:
        if prose.kind in (TextUse.ALT, TextUse.GAUGE) or not prose.path or prose.path[0] == "tools":
            continue
        if not _ANY.search(prose.text):
            continue
        if prose.kind is TextUse.TITLE and _HEADINGS.fullmatch(prose.text):
            yield _Told("cords", prose.text.strip(), prose.text, prose.span)
        for sentence in _SENTENCE.finditer(prose.text):
            yield from _in_sentence(prose, sentence)


def _in_sentence(prose: Prose, sentence: "re.Match[str]") -> Iterator[_Told]:
    words = sentence[0]
    if _OLDER.search(words):
        return
    for hazard, pattern in _PATTERNS.items():
        for found in pattern.finditer(words):
            before, after = words[: found.start()], words[found.end() :]
            if left_off(before, after) or (hazard == "cords" and _TOOL.search(words)):
                continue
            if prose.path == ("title",) and hazard == "small parts":
                continue  # a name more likely than a thing
            yield _of(prose, hazard, sentence, found)
    loose = _LOOSE.search(words) if _WORN.search(words) else None
    if loose and not left_off(words[: loose.start()], ""):
        yield _of(prose, "cords", sentence, loose)
    asleep = None if _TAKEN_OFF.search(words) else _ASLEEP.search(words)
    if asleep and not left_off(words[: asleep.start()], ""):
        yield _of(prose, "sleep", sentence, asleep)


def _of(prose: Prose, hazard: str, sentence: "re.Match[str]", found: "re.Match[str]") -> _Told:
    start = sentence.start() + found.start()
    place = prose.place(start, start + len(found[0]))
    return _Told(hazard, found[0], sentence[0], place)


CHECKS = (cautions_kept,)
