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
SEW = r"(?:sew|tack|stitch|attach|fasten|fix|glue|stick|screw|clip|pin|rivet|tie|knot|hook|couch)"
_LAY = (
    r"(?:pour|pack|put|add|place|tuck|slip|slide|hide|drop|fold|fit|lay|push|close|tip|dab|shake"
    r"|scatter|press|wedge|perch|crimp|embed|enclose|seal|trap|set|insert|feed|spread|spoon|wrap"
    r"|roll"
    r"|pop|stow|squeeze|stash|nestle|bury|conceal|poke|jam|load|mount)"
)

SCENE = re.compile(
    r"\b(?:(?:sea|ice|moon|sun|sky|heather|grass|frost|dawn|dusk)(?![- ](?:green|blue|gr[ea]y|white"
    r"|yellow|purple|red|pink))|tide|surf|rain|dew|snow(?![- ]?globe)|gale|storm|clouds?"
    r"|(?<=the )wind|(?:north|south|east|west|sea) winds?"
    r"|morning|evening|summer|winter|autumn|childhood"
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
    r"|shaping|increase|decrease|gauge|hand|finger|ridge|rib|ribbing|stripe|picture|line|zone"
    r"|raglan"
    r"|armhole|handle|flag|bag|slipover|pullover|cardigan|sweater|jumper|vest|shawl|blanket|cushion"
    r"|flower|spot|scarf|cowl|bootie|bonnet|cover|bottom|part|section|bar|link|strand|column"
    r"|group|finger|tension"
    r"|turn|number|figure|word|date|note|crease|bulge|join|tube|spiral|purl|knit|bobble|crochet"
    r"|treble"
    r"|sc|dc|hdc)"
    r"(?:e?s)?"
    r"|it|them|its|this|these|those|both|all|down|up|lower|upper|lace|together|following|next"
    r"|remaining|first|last|second|third|new|old|everything|nothing|rest|out|off|hand|right|left"
    r"|wrong|foot"
    r"|feet|ruler|tape measure|mat|towel"
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
    r"fabric|towel|cotton|silk|fleece|linen|flannel|jersey|felt|lining|cloth|velvet|satin|tape|net|tulle"
    r"|(?:whip|back|over)?stitch(?:es)?|crochet|crab|picots?|rib\w*|garter|edging|border|band"
    r"|binding|sc|dc"
    r"|embroidery",
    re.IGNORECASE,
)
_WORKED = re.compile(
    r"(?:\w+ed|sewn|knit|drawn|in|at|on|of|to|not|no|placed|made|long|short|small|large|one|as"
    r"|where"
    r"|never|always|last|first|done|next|the same|about|\d)\b(?! \w+ (?:grains?|stones?))"
    r"|[^.;:!?]*\b(?:stitch(?:es)?"
    r"|knots?|bobbles?|yarn|wool|rows?|rounds?|apart|(?-i:[A-Z]\w+))\b",
    re.IGNORECASE,
)
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

# How something is done, or how often.
_HOW = re.compile(
    r"twice|thrice|again|once|flat|well|tight|loose|close|evenly|just|also|back|more|\w+ly",
    re.IGNORECASE,
)
_FEATURE = re.compile(
    r"(?:eyes?|nose|nostrils?|mouth|smile|whiskers?|claws?|teeth)(?: (?:flat|\w+ly))?$", re.I
)
_IN_YARN = re.compile(
    r"\b(?:with|in) (?:[\w-]+ ){0,3}(?:yarn|wool|thread|stitch(?:es)?|knots?|scraps?)\b"
    r"|\b(?:with|in) (?-i:[A-Z][\w-]+)",
    re.IGNORECASE,
)
_TO_SIZE = re.compile(
    r"\b(?:measur\w*|size|shape|dimensions?|dry|dries|damp|board|mat|towel|block\w*)\b",
    re.IGNORECASE,
)
_POURED = re.compile(
    r"\b(?:water|vinegar|soap|wash|wool|yarn|salt|detergent|starch|sugar|tea|dye|stitch\w*|rows?"
    r"|time"
    r"|rounds?|patience)\b",
    re.IGNORECASE,
)

_NOUNS = rf"(?P<noun>{COUNT}(?:[\w'’-]+ ){{0,3}}?[\w'’-]+)"
_BEGIN = r"(?:^|[.,;:] |\b(?:and|then|to|or) )"
_BEFORE = (
    r"(?:to|on|onto|into|in|at|along|around|across|inside|behind|between|below|near|with"
    r"|(?:down|over|up)(?= the))"
)
_THE_PLACE = r"(?:the|each|every|both|its|one) (?P<place>[\w-]+)"


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
    named = re.split(r" (?:of|to|facing|through) ", _QUANTITY.sub("", found["noun"].lower()))[
        0
    ].split()
    while len(named) > 1 and _HOW.fullmatch(named[-1]):
        named = named[:-1]
    last = named[-1] if named else ""
    return not last or named[0] == "off" or _is_part(last, parts) or bool(_PRONOUN.fullmatch(last))


def _is_part(word: str, parts: Set[str]) -> bool:
    return word.lower() in parts or _PARTS.fullmatch(word.lower()) is not None


def _sewn_well(found: "re.Match[str]", parts: Set[str]) -> bool:
    glued = re.search(r"\b(?:glue|screw|rivet)\b", found[0], re.IGNORECASE)
    pinned = re.search(r"\bpin\b", found[0], re.IGNORECASE) and _TO_SIZE.search(found.string)
    worked = _FEATURE.search(found["noun"]) and _IN_YARN.search(found.string)
    return bool(pinned or worked) or (not glued and _known(found, parts))


def _poured(found: "re.Match[str]", parts: Set[str]) -> bool:
    return _POURED.search(found["noun"]) is not None or _stuffing(found, parts)


def _cut_out(found: "re.Match[str]", parts: Set[str]) -> bool:
    return (
        _cloth(found, parts)
        or re.search(r"\b(?:ball|skein|hank|cone|here|there)\b", found[0]) is not None
    )


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


def _of_yarn(found: "re.Match[str]", parts: Set[str]) -> bool:
    return (
        _CLOTH.search(found["noun"]) is not None or _stuffing(found, parts) or _known(found, parts)
    )


def _made_of_work(found: "re.Match[str]", parts: Set[str]) -> bool:
    return _WORKED.match(found["noun"]) is not None or _of_yarn(found, parts)


def _of_a_place(found: "re.Match[str]", _: Set[str]) -> bool:
    return SCENE.search(found.string) is not None


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
        r"\b(?:line|wrap|cover|trim|decorate|face|edge|garnish|adorn|stud|encrust|dust|dot|sprinkle"
        r"|strew|scatter|pepper|embellish|deck|bejewel)(?:s|d|ed|ded)?\b[^.;:!?]{0,40}?\bwith"
        rf" {_NOUNS}(?=[.,;:!?]|$| (?:you|that|which|from|for)\b)",
        _cloth,
    ),
    _rule(
        "small parts",
        rf"\buse {_NOUNS} (?:as|for) (?:the |an? |its )?(?:ballast|weights?|filling|stuffing|eyes?"
        r"|nose|beak|teeth|claws?|clasps?|closures?|fastening|rattle)\b",
    ),
    _rule("small parts", rf"{_BEGIN}(?:set|put|add) {_NOUNS} (?:at|to) {_THE_PLACE}", _laid_in),
    _rule(
        "small parts",
        rf"{_BEGIN}(?:finish|top|end|crown) (?:(?:it|them|(?:the|each) [\w-]+) )?with {_NOUNS}"
        rf" (?:at|in|on) {_THE_PLACE}",
        _laid_in_here,
    ),
    _rule("small parts", rf"\b(?:suspend|hang|dangle) {_NOUNS} (?:from|at|off)\b"),
    _rule(
        "small parts",
        rf"\b(?:cut|snip|punch|carve|stamp|fashion)\b[^.;:!?]{{1,40}}?\b(?:from|out of) {_NOUNS}"
        r"(?=[.,;:!?]|$| (?:and|with|to)\b)",
        _cut_out,
    ),
    _rule(
        "small parts",
        r"\ban? (?:pinch|handful|spoonful|teaspoon|cup|scoop|capful|fistful|sachet|packet"
        r"|sprinkle|sprinkling"
        r"|dusting|pocketful) of (?P<noun>[^.;:!?,]{2,40})",
        _poured,
    ),
    _rule(
        "small parts",
        r"\b(?:is|are) (?:made (?:of|from)|cut from) (?P<noun>[^.;:!?,]{2,40})",
        _of_yarn,
    ),
    _rule(
        "small parts",
        r"\b(?:eyes?|nose|teeth|beak|claws?|horns?|whiskers|antennae|spines?|tusks?|ossicones)"
        r" (?:is|are) (?P<noun>[^.;:!?,]{2,40})",
        _made_of_work,
    ),
    _rule(
        "small parts",
        rf"\b(?:close|fasten|shut|snap|lock|secure|clos|latch)(?:e?s|ed|ing)?\b[^.;:!?]{{1,40}}?"
        rf"\bwith {_NOUNS}(?=[.,;:!?]|$)",
        _cloth,
    ),
    _rule("cords", rf"\b(?:thread|run|pull|weave|lace|pass|gather) {_NOUNS} through\b"),
    _rule(
        "cords",
        rf"^\W*{_NOUNS} (?:is|are) (?:woven|threaded|run|pulled|laced|passed|drawn)"
        r" (?:in and out|through|around)\b",
    ),
)
