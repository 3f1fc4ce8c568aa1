"""What a pattern puts on a piece that could harm a child, told by classes of words.

Three classes. *Things* that are hazards wherever they stand (a pompom, a drawstring). Things whose
names mean other things too (a bell, a snap, a ribbon of waves): hazards where they are listed as
notions or put on, hung, threaded or closed with. And what the list can't know: anything that is
sewn, glued or clipped on and is no part of the knitting, threaded through it and no yarn, stuffed
in and no stuffing, or left to hang. These last are likely, and not sure.

16 CFR 1501 counts no yarn, fabric or elastic as a small part (1501.4), so what is worked of the
yarn, such as bobbles, is left out. EN 14682 and 16 CFR 1120 set limits on cords. Swallowed magnets
and button cells: 16 CFR 1262 and 1263, from memory. The rest: common practice, no source.
"""

import re
from collections.abc import Iterator, Mapping

from bindoff.checks.context import Context
from bindoff.checks.prose import Prose
from bindoff.checks.walk import tied_tops
from bindoff.diagnostics import Span
from bindoff.records import Record
from bindoff.source.denials import left_off
from bindoff.source.model import TextUse
from bindoff.source.steps.buttonholes import ButtonholesStep
from bindoff.source.steps.work import WorkStep


class Told(Record):
    """A word for a hazard, with its sentence. ``sure``: the word means nothing else here."""

    hazard: str
    word: str
    sentence: str
    place: Span
    sure: bool = True


_TIE = (
    r"(?:the|an?|two|four|2|4|both|each|every|one|long|short|chin|neck|ear[- ]?flaps?|side|back"
    r"|front|shoulder|waist|braided|twisted|knit|knitted|crochet|crocheted|cord|i-cord|ribbon)"
    r" ties?(?! (?:off|in|up|them|it|together)\b)"
)
_EDGES = r"(?![- ](?:bind|cast|edg|border|trim|hem|stitch|rib|increase|decrease))"
_OF_WEARER = r"(?:chin|neck|bonnet|hat|apron|hood|ear ?flap|mitten)[- ]?"

# Things that are hazards wherever they stand.
_THINGS: Mapping[str, str] = {
    "small parts": r"(?:snap |press |wooden |shell |toggle )?buttons?(?: ?bands?| ?holes?)?"
    r"(?![- ](?:cells?|batter|hole stitch|stitch|up\b|the\b))|buttonbands?|press[- ]?studs?|poppers"
    r"|zippers?"
    r"|beads?(?! (?:stitch|off|up|on the)\b)(?<!water beads)|beaded|sequins?|paillettes?|spangles?"
    r"|rhinestones?(?! (?:gr[ea]y|stitch|blue|white))"
    r"|(?:safety|plastic|hard|glass|toy|doll|animal|bought|googly|wiggle|wiggly) (?:eyes?|noses?)"
    r"|(?:jingle|cat|sleigh|little|tiny|brass) bells?|split pins?|keyrings?|key rings?|D-rings?"
    r"|brooch(?:es)?|(?<=with a )(?:safety|kilt|shawl) pins?|squeakers?"
    r"|(?:snap|metal|wooden) fasteners?|(?:snap|frog|metal|hook|toggle) closures?"
    r"|hooks?[ -]and[ -]eyes?"
    r"|(?:pacifier|dummy|soother) (?:holder|clip)s?|pipe cleaners?"
    r"|(?:craft|florist|beading|copper|thin|stiff|jewel\w+) wire"
    r"|(?:plastic|poly|doll|weighting) (?:pellets|granules)"
    r"|(?:dried|(?:bag|handful|cup) of) (?:rice|beans?|lentils?|peas)|(?:cherry|date|plum) stones"
    r"|(?:felt|satin|ribbon|fabric|plastic|silk) (?:bows?|flowers?)"
    r"|(?<=\ba )(?-i:pearl)\b(?! (?:stitch|cotton|yarn|gr[ea]y|white))|(?-i:pearls)",
    "cords": rf"draw[- ]?strings?|draw[- ]?cords?|shoe ?laces?|lanyards?|leash(?:es)?"
    rf"|(?<=with a )lace|{_TIE}"
    rf"|i-cords?{_EDGES}|(?:two|both|the) laces|tails? to (?:tie|knot)"
    rf"|{_OF_WEARER}(?:straps?|strings?|ties|cords?|elastic)"
    r"|straps? (?:under|below|around|behind) the (?:chin|neck|head)|cord (?:locks?|stoppers?)"
    r"|(?:twisted|braided|plaited|crocheted|knotted) (?:cords?|straps?|strings?|chains?|braids?)"
    + _EDGES
    + r"|(?:round|cord|hat) elastic|elastic cord|leather thongs?",
    "pompom": r"pom[- ]?po[mn]s?|(?:fur|yarn|wool|fluffy) poms?|tassels?|bobbles? of yarn"
    r"|(?:fluffy|furry|fur|yarn|woolly|fringed) (?:balls?|bobbles?)",
    "magnets": r"magnets?|neodymium"
    r"|magnetic(?= (?:clasp|closure|snap|button|disc|fasten|catch|clip)\w*)",
    "button cells": r"(?:button|coin)[- ](?:cells?|batter(?:y|ies))|(?-i:LEDs?)|fairy lights?"
    r"|tea lights?|light strings?|strings? of lights"
    r"|batter(?:y|ies)[- ](?:operated|powered|light|pack|case|holder|tea)",
}

# Things whose names mean something else too.
_PERHAPS: Mapping[str, str] = {
    "small parts": r"bells?|(?<!magnetic )(?:snaps?|clasps?)|charms?|toggles?|zips?|studs?|rivets?"
    r"|buckles?|badges?|(?:cork|wooden|felt|plastic) (?:balls?|rings?)",
    "cords": r"cords?|ribbons?|strings?|straps?|ties|elastics?|braids?|plaits?|thongs?|streamers?"
    r"|chains?",
    "pompom": r"fring(?:e[ds]?|ing)|bobbles?",
    "button cells": r"batter(?:y|ies)",
}
# In a list of what to buy these are bought; in a sentence they may be the wearer's, or a stitch.
_BOUGHT = re.compile(
    r"\b(?:eyes|noses?|gems?|crystals?|jewels?|shells?|coins?|mirrors?|marbles?|acorns?|rattles?)\b"
    r"(?! (?:stitch|chart|pattern))",
    re.IGNORECASE,
)
_NOT_A_THING = (
    r"(?![-–](?:free|less|shaped)\b)(?![- ](?:shaped|curve|sleeves?|cuffs?|bottom|rib|stitch(?:es)?"
    r"|cast|bind|edg\w+|border|trim|hem|yarn|pattern|hats?|cables?|panels?|space|loops?)\b)"
    # a ribbon of waves, a string of boats: a picture
    r"(?! of (?!satin|velvet|silk|ribbon|cord|leather|wood|elastic|yarn|beads|tassels|chain|\d))"
    r"(?!\w)"
)

_COUNT = (
    r"(?:(?:an?|the|one|two|three|four|five|six|each|some|your|both|several|a few|a dozen|a pair of"
    r"|another|\d+) )?"
)
_SEW = r"(?:sew|tack|stitch|attach|fasten|fix|glue|stick|screw|clip|pin|rivet|tie|knot|hook)"
_PUT = (
    rf"(?:{_SEW}|hang|dangle|add|put|insert|slip|push|hide|thread|pull|run|pass|weave|lace|draw"
    rf"|trim"
    r"|decorate|finish|close|secure|hold|top|join|set|slide|cut|make|braid|crochet|leave|let)"
)
_CLAUSE = r"(?:if|when|so|that|which|who|until|where|because|than|while)"
_PUT_ON = re.compile(
    rf"\b{_PUT}(?:s|es|ed|n|ing)?\b(?:(?!\b{_CLAUSE}\b)[^.;:!?]){{0,45}}$", re.IGNORECASE
)
_WITH_ONE = re.compile(rf"\b(?:with|by) {_COUNT}(?:[\w'’-]+ ){{0,2}}$", re.IGNORECASE)
_AS_VERB = re.compile(r"(?:\b(?:to|you|we|they|will|can|may|must|rounds|rows)|^\W*)\s$", re.I)

# A tool, or something done at a machine, with yarn or while drying.
_TOOL = re.compile(
    r"\bneedles?\b(?! (?:felted))|\bholds?\b|\bholding\b|\bheld\b|\bholders?\b|\blifelines?\b"
    r"|\bwaste\b|\bprovisional\b|\bmarkers?\b|\bflexible\b|\bmachine\b|\btable\b",
    re.IGNORECASE,
)

# Parts of the knitting, what it is made with, and words that stand for them.
_PART = re.compile(
    r"(?:edge|edging|flap|band|brim|seam|side|sleeve|cap|cuff|collar|hood|pocket|patch|motif|square"
    r"|strip|panel|piece|half|halve|end|tail|thread|yarn|strand|wool|lining|hem|facing|border"
    r"|gusset"
    r"|thumb|sole|ear|arm|leg|wing|fin|flipper|petal|leaf|leave|star|heart|label|tip|top|crown"
    r"|stitch|loop|opening|gap|hole|corner|shoulder|underarm|neckband|neck|heel|toe|body|back|front"
    r"|yoke|fold|layer|row|round|fabric|swatch|marker|mitten|hat|sock|toy|blanket|work|counter"
    r"|chart"
    r"|needle|hook|knot|ply|head|fish|boat|bird|letter|name|embroidery|cross|point|beak|tab"
    r"|underside|picot|bind-off|cast-on|cable|place|start|middle|cent(?:re|er)|width|height|length"
    r"|size|measurement|colou?r|weight|mistake|error|other)(?:e?s)?"
    r"|it|them|its|this|these|those|both|all|down|up|lower|upper|lace|together|following|next"
    r"|remaining|first|last|second|third|new|old"
)
_FILLING = re.compile(
    r"stuffing|fib(?:er|re)|wadding|batting|roving|fleece|wool|yarn|polyester|scraps|cotton|foam"
    r"|pad|cushion|tissue|paper|balloon|towel|filling|insert",
    re.IGNORECASE,
)
_NOUNS = rf"(?P<noun>{_COUNT}(?:[\w'’-]+ ){{0,3}}?[\w'’-]+)"
_BEFORE = r"(?:to|on|onto|into|in|at|along|around|across|inside|behind|between|below|near|with)"
_SEWN_ON = re.compile(
    rf"(?:^|[.,;:] |\b(?:and|then|to|or) ){_SEW}(?: on| in)? {_NOUNS} {_BEFORE}\b", re.IGNORECASE
)
_SEWN_IN = re.compile(
    rf"(?:^|[.,;:] |\b(?:and|then) )(?:{_SEW}|iron) (?:in|on) {_NOUNS}\W*$", re.IGNORECASE
)
_BRAIDED = re.compile(
    r"\b(?:braid|plait) (?P<noun>[^.;:!?]{0,30}\b(?:tails?|strands?|ends?|lengths?))\b",
    re.IGNORECASE,
)
_STUFFED = re.compile(
    r"\b(?:fill|stuff|weight|weigh)\w*\b[^.;:!?]{0,40}\bwith (?P<noun>[^.;:!?,]{2,40})",
    re.IGNORECASE,
)
_THREADED = re.compile(rf"\b(?:thread|run|pull|weave|lace|pass) {_NOUNS} through\b", re.IGNORECASE)
_HANGS = re.compile(
    r"\b(?P<noun>hang(?:s|ing)?|dangl(?:e|es|ing)) (?:(?:it|them|[\w ]{2,20}) )?"
    r"(?:from|down|free|loose|\d)",
    re.IGNORECASE,
)
_AT_WORK = re.compile(r"\b(?:weights?|markers?|combs?|clips?|cables?|ropes?)\b", re.IGNORECASE)
_QUANTITY = re.compile(
    r"^(?:(?:an?|the|one|two|\d+) )?(?:row|pair|bundle|set|line|bunch|dozen|few|handful|length"
    r"|piece|garland|cluster)s? of ",
    re.IGNORECASE,
)
_GLUED = re.compile(r"\b(?:glue|screw|rivet)\b", re.IGNORECASE)

# What is a cord only where it hangs, or holds the piece on: elsewhere a cable, a seam or a loop.
_WORN = re.compile(
    r"\b(?:(?:hang|dangl)\w*|(?:under|behind|around|round) (?:the|its|your) (?:chin|neck)"
    r"|(?:hold|keep|tie)\w* (?:it|them|the (?:hat|cap|bonnet|mitts|mittens)) on)\b",
    re.IGNORECASE,
)
_LOOSE = re.compile(
    r"(?<![\w-])(?:braids?|plaits?|chains?|strings?)(?! (?:cables?|stitch|patterns?|panels?|edg))"
    r"(?![-–\w])",
    re.IGNORECASE,
)
_LENGTHS = re.compile(
    r"\b(?:lengths?|chains?) of (?:chain|ribbon|cord|\d)|\bchain stitch, \d", re.IGNORECASE
)

# Only for those who are old enough.
_OLDER = re.compile(
    r"\b(?:adults?|grown[- ]?ups?|women|men|older (?:children|wearers))\b[^.;!?]*\bonly\b"
    r"|\bonly\b[^.;!?]*\b(?:adults?|grown[- ]?ups?|women|men|older (?:children|wearers))\b"
    r"|\bover (?:three|3)(?: years)?\b|\bfrom (?:three|3) years\b",
    re.IGNORECASE,
)
_SPRINGY = re.compile(r"\b(?:yarn|rib\w*|edge|fabric|knit\w*|is|are|very)\b[^.;]{0,20}$", re.I)
_NAMED = re.compile(
    r"(?:fringes?|zips?|straps?|ribbons?|elastic|bells?|clasps?|toggles?|snaps?)", re.IGNORECASE
)
_HEADINGS = re.compile(
    r"(?:(?<![\w-])[\w-]+ )?(?:ties?|cords?|strings|chin straps?)", re.IGNORECASE
)
_SENTENCE = re.compile(r"[^.;!?]+(?:\.(?=\d)[^.;!?]*)*[.;!?]?")
_BEADS = re.compile(r"\b(?:pb|slb|place bead)\b")


def _compiled(words: Mapping[str, str], after: str) -> Mapping[str, "re.Pattern[str]"]:
    return {
        hazard: re.compile(rf"(?<![\w-])(?:{each}){after}", re.IGNORECASE)
        for hazard, each in words.items()
    }


_SURE = _compiled(_THINGS, r"(?![-–](?:free|less)\b)(?!\w)")
_LIKELY = _compiled(_PERHAPS, _NOT_A_THING)


def told(context: Context) -> Iterator[Told]:
    """Every hazard that the source tells of: in its steps, then in its texts in their order."""
    for title, by, place in tied_tops(context):
        yield Told("cords", by, f"{title}: top closed by a {by}", place)
    yield from _worked(context)
    parts = {
        word.lower()
        for piece in context.pattern.pieces.values()
        for word in re.findall(r"[\w'’-]+", piece.title)
    }
    for prose in context.prose:
        if prose.kind in (TextUse.ALT, TextUse.GAUGE) or prose.path[:1] == ("tools",):
            continue
        if prose.kind is TextUse.TITLE:
            yield from _in_title(prose)
            continue
        for sentence in _SENTENCE.finditer(prose.text):
            if not _OLDER.search(sentence[0]):
                yield from _in_sentence(prose, sentence, frozenset(parts))


def _worked(context: Context) -> Iterator[Told]:
    """Buttonholes call for buttons, and beads are placed by rows, without a word for either."""
    for piece in context.pattern.pieces.values():
        for step in piece.steps:
            if isinstance(step, ButtonholesStep):
                place = step.place.of("buttonholes").span
                yield Told("small parts", "buttonholes", "buttonholes", place)
            rows = step.work if isinstance(step, WorkStep) else ()
            written = (rows,) if isinstance(rows, str) else rows
            if any(_BEADS.search(row) for row in written) and "pb" not in context.pattern.stitches:
                yield Told("small parts", "pb", "beads", step.place.of("work").span)


def _in_title(prose: Prose) -> Iterator[Told]:
    """Sections and pieces that are called by a hazard; the name of the pattern is only a name."""
    if prose.path == ("title",):
        return
    if _HEADINGS.fullmatch(prose.text.strip()):
        yield Told("cords", prose.text.strip(), prose.text, prose.span)
        return
    alone = _NAMED.fullmatch(prose.text.strip()) is not None
    for hazard, pattern in (*_SURE.items(), *(_LIKELY.items() if alone else ())):
        for found in pattern.finditer(prose.text):
            if not left_off(prose.text[: found.start()], prose.text[found.end() :]):
                yield Told(hazard, found[0], prose.text, prose.place(*found.span()))


def _in_sentence(prose: Prose, sentence: "re.Match[str]", parts: frozenset[str]) -> Iterator[Told]:
    words, start = sentence[0], sentence.start()

    def of(hazard: str, begin: int, end: int, *, sure: bool = True) -> Told:
        place = prose.place(start + begin, start + end)
        return Told(hazard, words[begin:end], words, place, sure)

    listed = prose.path[:1] == ("notions",)
    tool = _TOOL.search(words) is not None
    for hazard, pattern in _SURE.items():
        for found in pattern.finditer(words):
            if not _harmless(words, found, hazard, tool):
                yield of(hazard, *found.span())
    for hazard, pattern in _LIKELY.items():
        for found in pattern.finditer(words):
            put = listed or _is_put(words[: found.start()])
            if put and not _harmless(words, found, hazard, tool):
                yield of(hazard, *found.span(), sure="elastic" not in found[0].lower())
    if listed:
        for found in _BOUGHT.finditer(words):
            yield of("small parts", *found.span())
    lengths = None if tool else _LENGTHS.search(words)
    lengths = lengths or (_LOOSE.search(words) if _WORN.search(words) else None)
    if lengths and not left_off(words[: lengths.start()], ""):
        yield of("cords", *lengths.span())
    if not listed:
        for hazard, found in _unknown(words, parts):
            if not tool and not left_off(words[: found.start("noun")], words[found.end("noun") :]):
                yield of(hazard, found.start("noun"), found.end("noun"), sure=False)


def _harmless(words: str, found: "re.Match[str]", hazard: str, tool: bool) -> bool:
    if "elastic" in found[0].lower() and _SPRINGY.search(words[: found.start()]):
        return True
    pinned = "pin" in found[0].lower()
    if tool and (hazard == "cords" or pinned or hazard == "button cells"):
        return True
    return left_off(words[: found.start()], words[found.end() :])


def _is_put(before: str) -> bool:
    """Whether what follows ``before`` is a thing that is put on, or with which something is."""
    if _AS_VERB.search(before):
        return False
    return bool(_PUT_ON.search(before) or _WITH_ONE.search(before))


def _unknown(words: str, parts: frozenset[str]) -> Iterator[tuple[str, "re.Match[str]"]]:
    """What is sewn on, stuffed in, threaded through or left to hang, and is no part of the work."""
    for pattern in (_SEWN_ON, _SEWN_IN):
        for found in pattern.finditer(words):
            if _GLUED.search(found[0]) or not _known(found["noun"], parts):
                yield "small parts", found
    for found in _STUFFED.finditer(words):
        head = re.split(r"\b(?:of|that|which|and|until|to|so|from|in)\b", found["noun"])[0].split()
        if head and not _FILLING.search(head[-1]):
            yield "small parts", found
    for found in _THREADED.finditer(words):
        if not _known(found["noun"], parts):
            yield "cords", found
    for pattern in (_HANGS, _BRAIDED):
        for found in pattern.finditer(words):
            if not _AT_WORK.search(words):
                yield "cords", found


def _known(noun: str, parts: frozenset[str]) -> bool:
    """Whether ``noun`` ends, before any ``of``, in a part of the knitting or of its tools."""
    named = _QUANTITY.sub("", noun.lower()).split(" of ")[0].split()
    if named and _PRONOUN.fullmatch(named[-1]):
        return True
    return not named or named[-1] in parts or _PART.fullmatch(named[-1]) is not None


# What has been named before: nothing new is sewn on.
_PRONOUN = re.compile(r"ones?|it|them|these|those|each|both|all|others?|everything")
