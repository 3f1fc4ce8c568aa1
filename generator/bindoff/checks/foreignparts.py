"""What no list of hazards can know: things put on or into a piece that are no part of knitting.

A sentence gives them away by what it does with them: they are sewn, glued or clipped on, stuffed or
laid in, lined with, threaded through, left to hang, weighed out, or used as an eye or a clasp. What
is named there, and ends in no part of a piece, no fabric and no stuffing, is likely to be a hazard.
Likely only: the words for parts are ours.
"""

from collections.abc import Callable, Iterator, Set

from bindoff import regex as re
from bindoff.records import Record

COUNT = (
    r"(?:(?:an?|the|one|two|three|four|five|six|each|some|your|both|several|a few|a dozen|a pair of"
    r"|another|\d+) )?"
)
SEW = r"(?:sew|tack|stitch|attach|fasten|fix|glue|stick|screw|clip|pin|rivet|tie|knot|hook)"
_LAY = (
    r"(?:pour|pack|put|add|place|tuck|slip|slide|hide|drop|fold|fit|lay|push|close|tip|dab|shake"
    r"|scatter|press|wedge|perch|crimp|embed|enclose|seal|trap|set|insert|feed|spread|spoon|wrap|roll)"
)

SCENE = re.compile(
    r"\b(?:(?:sea|ice|moon|sun|sky|heather|grass|frost|dawn|dusk)(?![- ](?:green|blue|gr[ea]y|white"
    r"|yellow|purple|red|pink))|tide|surf|rain|dew|snow|gale|storm|clouds?|(?<=the )wind"
    r"|(?:north|south|east|west|sea) winds?|morning|evening|summer|winter|autumn|childhood"
    r"|memor(?:y|ies)|fog|mist|reeds?|trees?|forest|woods|meadows?|fields?|hills?|cliffs?|dunes?"
    r"|beach|shore|coast|islands?|bay|harbou?r|quay|pier|port|town|village|city|streets?|chapel"
    r"|church|lighthouse|boats?|ships?|masts?|sails|fire|shed|regatta|festival|market"
    r"|fair(?![- ]isle)|visitors?|walkers|passers-by)\b",
    re.IGNORECASE,
)
"""Words for what is seen at a place or told of it."""

# Parts of the knitting, what it is made with, and words that stand for them.
_PARTS = re.compile(
    r"(?:edge|edging|flap|band|brim|seam|side|sleeve|cap|cuff|collar|hood|pocket|patch|motif|square"
    r"|strip|panel|piece|half|halve|end|tail|thread|yarn|strand|wool|lining|hem|facing|border"
    r"|gusset|thumb|sole|ear|arm|leg|wing|fin|flipper|petal|leaf|leave|star|heart|label|tip|top"
    r"|crown|stitch|loop|opening|gap|hole|corner|shoulder|underarm|neckband|neck|heel|toe|body|back"
    r"|front|yoke|fold|layer|row|round|fabric|swatch|marker|mitten|hat|sock|toy|blanket|work"
    r"|counter|chart|needle|hook|knot|ply|head|fish|boat|bird|letter|name|embroidery|cross|point"
    r"|beak|tab|underside|picot|bind-off|cast-on|cable|place|start|middle|cent(?:re|er)|width"
    r"|height|length|size|measurement|colou?r|weight|mistake|error|other|beginning|repeat|pattern"
    r"|shaping|increase|decrease|gauge|hand|finger|ridge|rib|ribbing|stripe|picture|line|zone|raglan"
    r"|armhole|turn|number|figure|word|date|note|crease|bulge|join|tube|spiral|purl|knit|bobble|crochet|treble"
    r"|sc|dc|hdc)"
    r"(?:e?s)?"
    r"|it|them|its|this|these|those|both|all|down|up|lower|upper|lace|together|following|next"
    r"|remaining|first|last|second|third|new|old|everything|nothing|rest|out|off|hand|right|left|wrong|foot"
    r"|feet"
)
_INTO = re.compile(
    r"sack|bag|ball|belly|tummy|paw|body|lantern|pouch|tunnel|casing|channel|cavity|lens",
    re.IGNORECASE,
)
_FILLING = re.compile(
    r"stuffing|fib(?:er|re)|wadding|batting|roving|fleece|wool|yarn|polyester|scraps|cotton|foam"
    r"|pad|cushion|tissue|paper|balloon|towel|filling|insert",
    re.IGNORECASE,
)
_CLOTH = re.compile(
    r"fabric|cotton|silk|fleece|linen|flannel|jersey|felt|lining|cloth|velvet|satin|tape|net|tulle"
    r"|(?:whip|back|over)?stitch(?:es)?|crochet|crab|picots?|rib\w*|garter|edging|border|band|binding|sc|dc"
    r"|embroidery",
    re.IGNORECASE,
)
_AT_WORK = re.compile(r"\b(?:weights?|markers?|combs?|clips?|cables?|ropes?)\b", re.IGNORECASE)
_QUANTITY = re.compile(
    r"^(?:(?:an?|the|one|two|\d+) )?(?:row|pair|bundle|set|line|bunch|dozen|few|handful|length"
    r"|piece|garland|cluster|cup|bag|spoonful)s? of ",
    re.IGNORECASE,
)
_PART_OF = re.compile(
    r"^(?:about |nearly )?(?:(?:an?|the|one|two|three) )?(?:rest|remainder|half|thirds?|quarters?"
    r"|most|some|all|bit) of ",
    re.IGNORECASE,
)
# What has been named before: nothing new is sewn on.
_PRONOUN = re.compile(r"ones?|it|them|these|those|each|both|all|others?|everything")

_NOUNS = rf"(?P<noun>{COUNT}(?:[\w'’-]+ ){{0,3}}?[\w'’-]+)"
_BEGIN = r"(?:^|[.,;:] |\b(?:and|then|to|or) )"
_BEFORE = r"(?:to|on|onto|into|in|at|along|around|across|inside|behind|between|below|near|with)"
_THE_PLACE = r"(?:the|each|every|both|its|one) (?P<place>[\w-]+)"
_HARD = (
    r"(?:glass|plastic|wooden|metal|resin|ceramic|porcelain|rubber|silicone|enamel(?:led)?|leather"
    r"|tin|brass|copper|steel|mother-of-pearl|magnetic)"
)
_OF_TOOLS = (
    r"needles?|hooks?|holders?|markers?|boards?|tables?|bowls?|rods?|rulers?|combs?|jars?|bags?"
    r"|yarns?|threads?|stripes?|sheen|look|gr[ea]y|blue|green|red|brown|floors?|stairs|spoons?"
    r"|hangers?|points?|tips?|gloves?|trays?|weights?|shades?|colou?rs?|counters?|dpns?"
)


class _Rule(Record):
    """What ``pattern`` finds as ``noun`` is a ``hazard``, unless ``harmless``."""

    hazard: str
    pattern: "re.Pattern[str]"
    harmless: Callable[["re.Match[str]", Set[str]], bool]


def foreign(words: str, parts: Set[str]) -> Iterator[tuple[str, "re.Match[str]"]]:
    """Every likely hazard in a sentence, with the match of its ``noun``; ``parts`` are words for
    the pieces of this pattern."""
    for rule in _RULES:
        for found in rule.pattern.finditer(words):
            if not rule.harmless(found, parts):
                yield rule.hazard, found


def _known(found: "re.Match[str]", parts: Set[str]) -> bool:
    """Whether it ends, before any ``of`` or ``to``, in a part of the knitting or of its tools."""
    named = re.split(r" (?:of|to) ", _QUANTITY.sub("", found["noun"].lower()))[0].split()
    return not named or _is_part(named[-1], parts) or _PRONOUN.fullmatch(named[-1]) is not None


def _is_part(word: str, parts: Set[str]) -> bool:
    return word.lower() in parts or _PARTS.fullmatch(word.lower()) is not None


def _sewn_well(found: "re.Match[str]", parts: Set[str]) -> bool:
    glued = re.search(r"\b(?:glue|screw|rivet)\b", found[0], re.IGNORECASE)
    return not glued and _known(found, parts)


def _stuffing(found: "re.Match[str]", _: Set[str]) -> bool:
    noun = _PART_OF.sub("", found["noun"])
    head = re.split(r"\b(?:of|that|which|and|until|to|so|from|in)\b", noun)[0].split()
    return not head or _FILLING.search(head[-1]) is not None


def _laid_in(found: "re.Match[str]", parts: Set[str]) -> bool:
    place = found["place"]
    inside = place is None or _is_part(place, parts) or _INTO.fullmatch(place) is not None
    pinned = re.search(r"\bpins?$", found["noun"], re.IGNORECASE)  # it marks a place
    filled = _FILLING.search(found["noun"])
    return not inside or _known(found, parts) or filled is not None or pinned is not None


def _laid_in_here(found: "re.Match[str]", parts: Set[str]) -> bool:
    return _laid_in(found, parts) or _of_a_place(found, parts)


def _cloth(found: "re.Match[str]", parts: Set[str]) -> bool:
    return _CLOTH.fullmatch(found["noun"].split()[-1]) is not None or _known(found, parts)


def _at_work(found: "re.Match[str]", _: Set[str]) -> bool:
    return _AT_WORK.search(found.string) is not None


def _of_a_place(found: "re.Match[str]", _: Set[str]) -> bool:
    return SCENE.search(found.string) is not None


def _never(_: "re.Match[str]", __: Set[str]) -> bool:
    return False


def _rule(
    hazard: str, pattern: str, harmless: Callable[["re.Match[str]", Set[str]], bool] = _known
) -> _Rule:
    return _Rule(hazard, re.compile(pattern, re.IGNORECASE), harmless)


_RULES = (
    _rule("small parts", rf"{_BEGIN}{SEW}(?: on| in)? {_NOUNS} {_BEFORE}\b", _sewn_well),
    _rule("small parts", rf"{_BEGIN}(?:{SEW}|iron) (?:in|on) {_NOUNS}\W*$", _sewn_well),
    _rule(
        "small parts",
        r"\b(?:fill|stuff|weight|weigh)\w*\b[^.;:!?]{0,40}\bwith (?P<noun>[^.;:!?,]{2,40})",
        _stuffing,
    ),
    _rule(
        "small parts",
        rf"\b(?:prop|stiffen)\w*\b[^.;:!?]{{2,40}}?\bwith {_NOUNS}(?=[.,;:!?]|$)",
        _cloth,
    ),
    _rule(
        "small parts",
        rf"{_BEGIN}{_LAY}(?: in)? {_NOUNS}(?: (?:with|that|which|full of)\b[^.,;:!?]{{1,40}}?)?"
        rf" (?:inside\b|into\b|(?:in|behind|beneath|under|between|on|onto) {_THE_PLACE})",
        _laid_in,
    ),
    _rule(
        "small parts",
        rf"^\W*{_NOUNS} (?:goes|go|fits?|sits?|(?:is|are) (?:set|placed|hidden|fixed|tucked))"
        rf" (?:in|inside|behind|under|at|on|between|into) {_THE_PLACE}",
        _laid_in,
    ),
    _rule(
        "small parts",
        r"\b(?:line|wrap|cover|trim|decorate|face|edge|garnish|adorn)\b[^.;:!?]{2,40}?\bwith"
        rf" {_NOUNS}(?=[.,;:!?]|$)",
        _cloth,
    ),
    _rule(
        "small parts",
        r"\b(?:holds?|contains?|takes|gets?) (?:about )?"
        r"(?:\d+(?:\.\d+)? ?(?:g|kg|ml|oz|grams|cups?)|an? (?:cup|handful|spoonful|bag|packet))"
        r" of (?P<noun>[^.;:!?,]{2,40})",
        _stuffing,
    ),
    _rule(
        "small parts",
        rf"\buse {_NOUNS} (?:as|for) (?:the |an? |its )?(?:ballast|weights?|filling|stuffing|eyes?"
        r"|nose|beak|teeth|claws?|clasps?|closures?|fastening|rattle)\b",
    ),
    _rule(
        "small parts",
        r"\b(?P<noun>(?:for|makes?|with|gives?|gets?) an? (?:[\w-]+ )?(?:sound|noise|click|rattle"
        r"|squeak|jingle|crackle|rustle|tinkle))\b",
        _never,
    ),
    _rule(
        "small parts",
        rf"\b(?P<noun>{_HARD} (?!(?:{_OF_TOOLS})\b)[a-z]+)\b[^.;:!?]{{0,25}}"
        rf"\b(?:(?:at|on|to|in|behind|inside|from) {_THE_PLACE}|hangs?|keeps?|holds?|closes?|shut)"
        r"\b",
        _never,
    ),
    _rule(
        "small parts",
        rf"\b(?:close|fasten|hold|trim|finish|button|shut)\b[^.;:!?]{{2,40}}\bwith {COUNT}"
        rf"(?P<noun>{_HARD} (?!(?:{_OF_TOOLS})\b)[a-z]+)",
        _never,
    ),
    _rule(
        "small parts",
        rf"\b(?:with|add|use|sew|on|attach) (?P<noun>{COUNT}[\w-]+ (?:made |cut )?(?:of|from)"
        rf" (?:{_HARD}|horn|bone|wood|shell|film|card|silver)\b)",
        _never,
    ),
    _rule(
        "small parts",
        r"\b(?P<noun>(?:rattles?|jingles?|tinkles?|clinks?|squeaks?|crackles?|rustles?)"
        r" (?:in|inside|when|as|with|at|because)\b)",
        _of_a_place,
    ),
    _rule("small parts", rf"{_BEGIN}(?:set|put|add) {_NOUNS} (?:at|to) {_THE_PLACE}", _laid_in),
    _rule(
        "small parts",
        rf"{_BEGIN}(?:finish|top|end|crown) (?:(?:it|them|(?:the|each) [\w-]+) )?with {_NOUNS}"
        rf" (?:at|in|on) {_THE_PLACE}",
        _laid_in_here,
    ),
    _rule("small parts", r"\b(?P<noun>glued (?:down|on|in|to|over|behind))\b", _never),
    _rule("small parts", rf"\b(?:suspend|hang|dangle) {_NOUNS} (?:from|at|off)\b"),
    _rule("cords", rf"\b(?:thread|run|pull|weave|lace|pass) {_NOUNS} through\b"),
    _rule(
        "cords",
        rf"^\W*{_NOUNS} (?:is|are) (?:woven|threaded|run|pulled|laced|passed|drawn)"
        r" (?:in and out|through|around)\b",
    ),
    _rule(
        "cords",
        r"\b(?P<noun>hang(?:s|ing)?|dangl(?:e|es|ing)) (?:(?:it|them|[\w ]{2,20}) )?"
        r"(?:from|down|free|loose|\d)",
        _at_work,
    ),
    _rule(
        "cords",
        r"\b(?:braid|plait) (?P<noun>[^.;:!?]{0,30}\b(?:tails?|strands?|ends?|lengths?))\b",
        _at_work,
    ),
)
