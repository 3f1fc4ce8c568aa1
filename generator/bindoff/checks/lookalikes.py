"""Real words that are not the ones meant: ``bind of``, ``garden stitch``, ``back and fourth``.

No dictionary finds them. Two kinds of rules know them by the words beside them. A *slot* is a place
in a phrase of the trade which few words fill (``with the right side …``): a word in it that looks
like one of these is a slip. A *pair* is a word that is taken for another, with the words beside it
that give it away. A rule is tried only on texts that have its words. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from functools import cache

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.prose import Prose
from bindoff.diagnostics import Severity, Span
from bindoff.records import Record
from bindoff.source.model import TextUse


class _Slot(Record):
    """A phrase that is looked for where one of ``words`` stands; its first group is the slot."""

    words: frozenset[str]
    phrase: str
    meant: tuple[str, ...]
    fine: frozenset[str]


class _Pair(Record):
    """A phrase that is wrong where one of ``words`` stands in it, and what is meant."""

    words: frozenset[str]
    phrase: str
    meant: str


def _slot(words: str, phrase: str, meant: str, fine: str = "") -> _Slot:
    return _Slot(frozenset(words.split()), phrase, tuple(meant.split()), frozenset(fine.split()))


def _pair(words: str, phrase: str, meant: str) -> _Pair:
    return _Pair(frozenset(words.split()), phrase, meant)


@cache
def _pattern(phrase: str) -> "re.Pattern[str]":
    """A phrase, compiled when a text first has its words: few patterns need them all."""
    return re.compile(phrase.replace(" ", r"\s+"), re.IGNORECASE)


_WORKED = (
    r"(?:it|them|piece|work|hat|cap|beanie|bonnet|socks?|stockings?|mittens?|mitts?|gloves?|scarf"
    r"|cowl|shawl|wrap|stole|blanket|cardigan|pullover|sweater|jumper|vest|square|cushion|swatch"
    r"|garment|slippers?|toy|bag)"
)
_DET = r"(?:the|a|an|your|this|that|those|these|its|each|every|\d+)"

_SLOTS = (
    _slot("stitch", r"\b([a-z]{5,}) stitch(?:es)?\b(?! (?:holder|marker))",
          "garter stocking stockinette basket duplicate blanket brioche herringbone",
          "larger after later greater basted"),
    _slot("side sides", r"\bwith (?:the )?(?:right|wrong) sides? ([a-z]{5,})\b", "facing"),
    _slot("facing", r"\bthe ([a-z]{4,}) sides? facing\b", "right wrong", "light other"),
    _slot("side", r"\b([a-z]{4,})[- ]side rows?\b", "right wrong"),
    _slot("rows row facing together",
          r"\b(?:right|wrong)[- ]([a-z]{4,5}) (?:rows?|facing|together)\b", "side", "sides"),
    _slot("the",
          rf"(?:^|[.;:,] |\b(?:then|and) )([a-z]{{4,6}}) the (?:finished |damp )?{_WORKED}\b",
          "soak wash block steam", "back wish weave"),
    _slot("use", r"\byarns? ([a-z]{3}) in use\b", "not"),
    _slot("weave", r"\bweave in (?:all |the |all the |your )?([a-z]{4,5})\b", "ends tails"),
    _slot("marker markers", r"\b([a-z]{4,6}) (?:a |the |another |all |both )?markers?\b",
          "place remove", "places placed"),
    _slot("pointed", r"\b([a-z]{5,})[- ]pointed\b", "double"),
    _slot("needle needles", r"\b([a-z]{5,}) needles?\b",
          "tapestry circular cable darning double-pointed", "doubled"),
    _slot("back", r"\bback and ([a-z]{5,6})\b", "forth"),
    _slot("toe shoulders underarm shoulder",
          r"\b([a-z]{5,}) (?:the )?(?:toe|shoulders?|underarms?)\b", "graft grafted grafting"),
    _slot("yarn yarns", r"\b([a-z]{4,6}) (?:the )?yarns? (?:not|loosely|along|behind)\b",
          "carry strand"),
    _slot("yarn", r"\byarn ([a-z]{4,5})s?\b(?! (?:the|a))", "over", "ever"),
    _slot("dry lay", r"\b(?:dry|lay) (?:it |them |the [a-z]+ )([a-z]{3,5})\b(?=[.,;]| to | and )",
          "flat", "that"),
    _slot("cast bind casts binds binding casting",
          r"\b(?:cast|casts|casting|bind|binds|binding) ([a-z]{2,3}) (?=\d|all|the|loosely|stitch"
          r"|sts|again|in pattern|in rib)", "off on", "out"),
    _slot("round", r"\b(?:join|joined|work|worked|knit|knitted) in the ([a-z]{5})\b", "round",
          "rounds"),
    _slot("live held remaining", r"\b(?:live|held|remaining) ([a-z]{5,9})\b", "stitches",
          "stitch"),
    _slot("slip slipped", r"\bslip (?:the )?(?:next |first |last |\d )?([a-z]{5,8}) "
          r"(?:knitwise|purlwise)\b", "stitch stitches"),
    _slot("right left", r"\b(?:right|left)[- ]hand ([a-z]{5,8})\b", "needle needles"),
    _slot("measurements", r"\b([a-z]{6,9}) measurements\b", "finished"),
)  # fmt: skip

_PAIRS = (
    _pair("from", r"\b(?:to|will|they|and|rows|stitches|rounds) (from) (?:an?|the) (?:ridge|ring|"
          r"tube|loop|point|pocket|picot|scallop|square|circle)\b(?! (?:to|of))", "form"),
    _pair("then", r"\b(?:more|less|fewer|larger|smaller|longer|shorter|wider|looser|tighter|"
          rf"narrower|higher|lower|rather|better|finer|thicker) (then) (?:{_DET}|it|for|in|is)\b",
          "than"),
    _pair("than", r"(?:^|[;,.] |\band )(than) (?:work|knit|purl|cast|bind|turn|join|break|cut|"
          r"repeat|sew|pick|slip|place|change|continue|fold|close|weave|wash|dry|the|k|p)\b",
          "then"),
    _pair("the", r"(?:, |\band |; )(the) (?:knit|purl|bind|cast|break|cut|sew|pick|slip|place|"
          r"repeat|turn) (?:\d|the|all|off|on|up|one|back|it)\b", "then"),
    _pair("then", r"\b(?:of|in|on|to|from|at|with|over|along|around|across) (then) (?!on\b)[a-z]+",
          "the"),
    _pair("of", r"\b(?:break|breaks|bound|binding|bind|slip|fasten|taken?) (of)\b(?! course)",
          "off"),
    _pair("of", r"\bcut (of) (?:the|all|yarn|each|\d)", "off"),
    _pair("off", r"\b(?:end|ends|beginning|start|middle|rest|half|number|length|width|edge|centre|"
          r"center|multiple|each|side) (off) (?:the|each|every|this|these|both|\d)\b"
          r"(?! (?:needle|hook|machine|stitches to))", "of"),
    _pair("though", r"\b(?:pull|draw|thread|slip|pass|put|bring|insert|knit|purl|work|weave|run|"
          r"needle|yarn|tail|end|sew|drawn|pulled)\b[^.;,]{0,30}? (though) (?:the|all|each|both|"
          r"last|every|a|these|it|them)\b", "through"),
    _pair("though", r"\b(though) (?:the )?(?:back loops?|both loops|both layers|all layers|"
          r"remaining|last \d|live)\b", "through"),
    _pair("thorough", r"\b(thorough) (?:the|all|each|both|last|every|a|these)\b", "through"),
    _pair("threw", r"\b(threw)\b", "through"),
    _pair("trough", r"\b(trough) (?:the|all|each|both|last|every|these)\b", "through"),
    _pair("steak steaks", r"\b(steaks?)\b(?=[^.]*\b(?:cut|sew|stitch\w*|machine|bridge|knit\w*)\b)"
          r"|\b(?:cut|sew|work|stitch\w*|knit)\b[^.]{0,30}\b(steaks?)\b", "steek"),
    _pair("it", r"\b(it['’]s) (?:own|edges?|sides?|ends?|middle|length|width|neck|stitches|"
          r"beginning|foot|top|lower|upper|first|last|hem|tail|shape|yarn|fold|wrong|right)\b",
          "its"),
    _pair("its", r"(?:^|[.;,] |\b(?:and|that|so|as|because|if) )(its) (?:an?|the|not|been|"
          r"important|best to|easier to|easiest to|worth)\b", "it's"),
    _pair("loose", r"\b(?:not|don['’]t|to|never|you|may|will) (loose) (?:a|the|any|your|count|"
          r"track|its|stitches)\b", "lose"),
    _pair("lose", r"\b(?:too|so|very|bind off|cast off|cast on|a) (lose)\b(?! (?:a|the|any))",
          "loose"),
    _pair("heal heals", r"\b(?:the|a|each|both|short-row|of|turn|turning|after|before) (heals?)\b"
          r"|\b(heal) (?:flap|turn|stitches|sts|cup|section|gusset)\b", "heel"),
    _pair("waist", r"\b(waist) yarn\b", "waste"),
    _pair("waste", r"\b(waste) (?:shaping|measurement|line|decreases|increases|edge)\b", "waist"),
    _pair("plane planes", r"\b(plane) (?:rows?|rounds?|knitting|stitches|colou?r|stocking\w*)\b",
          "plain"),
    _pair("rap", r"\b(rap) (?:and turn|the|yarn|it)\b", "wrap"),
    _pair("peace peaces", r"\b(?:the|each|both|one|flat|finished|two|a|this|in) (peaces?)\b",
          "piece"),
    _pair("brake", r"\b(brake)(?: off)? (?:the |your )?(?:yarn|off|[A-Z])", "break"),
    _pair("sow", r"\b(sow) (?:the|on|in|up|a|together|both|each)\b", "sew"),
    _pair("tow", r"\b(tow) (?:rows?|stitches|sts|rounds?|sides|more|colou?rs|needles|pieces)\b"
          r"|\b(?:the|graft|heel to|cuff to) (?:the )?(tow)\b(?![- ](?:rope|boat|path|line))",
          "two or toe"),
    _pair("pearl pearls", r"\b(pearl) (?:\d|all|to|one|two|every|side|bumps?|ridge|into|across|"
          r"rows?|together)\b|\bknit and (pearl)\b|\b(pearl) stitch\b", "purl"),
    _pair("maker makers", r"\b(?:stitch|place|placing|slip|remove|to|a|the|between|at|first|second|"
          r"before|after) (makers?)(?: and\b|,|\.|$| for the| in the| at the| on the)", "marker"),
    _pair("yolk yolks", r"\b(?:the|a|round|of|each|body|sleeves) (yolks?)\b(?! of)", "yoke"),
    _pair("chord chords", r"\b(?:i-|the |a |knitted |twisted |draw)(chords?)\b", "cord"),
    _pair("course", r"\b(course) (?:yarn|wool|fabric|gauge|fib)", "coarse"),
    _pair("alternative", r"\b(?:every|on|in|at|each|the) (alternative) (?:rows?|rounds?|sides?|"
          r"ends?)\b", "alternate"),
    _pair("decease deceased deceases deceasing",
          r"\b(deceas(?:e|ed|es|ing))\b", "decrease"),
    _pair("crotchet crotchets crotcheted", r"\b(crotchet(?:s|ed)?)\b", "crochet"),
    _pair("noodle noodles", r"\b(noodles?)\b(?=[^.]*\b(?:stitch|knit|yarn|mm)\b)", "needle"),
    _pair("gouge gouges", r"\b(gouges?)\b", "gauge"),
    _pair("whole", r"\b(?:button|eyelet|thumb|yarn over)[- ]?(wholes?)\b", "hole"),
    _pair("hole", r"\bthe (hole) (?:blanket|scarf|shawl|hat|piece|garment|round|row|length|thing|"
          r"pattern|chart|sweater|way)\b", "whole"),
    _pair("you", r"\b(you) (?:yarn|needles?|gauge|tension|hands?|work|size|stitches|swatch|foot|"
          r"head) (?:is|are|in|on|and|to|over|for|with)\b(?! (?:you|must|can))", "your"),
    _pair("your", r"\b(your) (?:are|will|have|need|can|may|should)\b(?! (?:yarn|needles))", "you"),
    _pair("to", r"\b(to) (?:tight|loose|tightly|loosely|many|few|much|short|wide|narrow|small|"
          r"large|big) (?:a |or |for |and |at |to |,|\.)", "too"),
    _pair("too", r"\b(?:back|up|down|change|return|on|work|knit|purl|join|decreases?|increases?) "
          r"(too) (?:the|end|last|marker|\d+|row|round|your)\b", "to"),
    _pair("there", r"\b(?:in|on|at|with|by|of|to|from|into) (there) (?:own|place|ends?|edges?|"
          r"sides?|middle|order|stitches)\b", "their"),
    _pair("their", r"\b(their) (?:are|is|will be|should be|were)\b", "there"),
    _pair("were", r"\b(were) (?:the (?:crown|heel|thumb|neck|chart|shaping) (?:begins|starts)|you "
          r"left off)\b", "where"),
    _pair("quite", r"\b(quite) (?:row|round|stitch)s?\b", "quiet"),
    _pair("stationary", r"\b(stationary) (?:shop|pad|paper)\b", "stationery"),
    _pair("end start beginning",
          r"\b(?:at|to|from|until|before) the ((?:end|start|beginning) (?:the|each|every)) (?:rows?"
          r"|rounds?|chart|piece|needle)\b", "end of the"),
)  # fmt: skip

_SAID = (TextUse.STEP, TextUse.TEXT, TextUse.HEAD, TextUse.ALT)
_LONG = 5  # a shorter word differs in one letter at most


@check(
    id="prose.lookalike",
    title="No word is taken for one that looks like it",
    looks_at="words of every text that look like the one meant where the words beside them tell "
    "which it is: bind of, garden stitch, back and fourth, more then the",
    why="a spelling program passes them, and the reader stops to think what is meant",
    severity=Severity.WARNING,
    remedy="Write the word that is meant",
    needs=Needs.SOURCE,
)
def lookalikes(context: Context) -> Iterator[Finding]:
    """One finding for each word."""
    if not context.in_english:
        return
    for prose in context.prose:
        if prose.kind in _SAID and " " in prose.text:
            words = frozenset(re.findall(r"[a-z]+", prose.text.lower()))
            for said, meant, place in (*_in_slots(prose, words), *_taken(prose, words)):
                yield Finding(
                    f"`{said}` stands here, and `{meant}` looks to be meant",
                    place,
                    f"Write `{meant}` if that is meant; silence this where the word is right",
                )


_Slip = tuple[str, str, Span]


def _in_slots(prose: Prose, words: frozenset[str]) -> Iterator[_Slip]:
    for slot in _SLOTS:
        for found, _ in prose.found(_pattern(slot.phrase)) if slot.words & words else ():
            word = found[1].lower()
            meant = _meant(word, slot.meant)
            if meant and word not in slot.fine:
                yield " ".join(found[0].split()).strip(" .,;:"), meant, prose.place(*found.span(1))


def _taken(prose: Prose, words: frozenset[str]) -> Iterator[_Slip]:
    for pair in _PAIRS:
        for found, _ in prose.found(_pattern(pair.phrase)) if pair.words & words else ():
            group = next(i for i, each in enumerate(found.groups(), 1) if each)
            said = " ".join(found[0].split()).strip(" .,;:")
            yield said, pair.meant, prose.place(*found.span(group))


def _meant(word: str, meant: Sequence[str]) -> str:
    """The word that looks like ``word``; empty where that is one of them or a form of it, or none
    looks like it."""
    if any(word.startswith(each) or each.startswith(word) for each in meant if len(each) > 3):
        return ""
    if word in meant:
        return ""
    for each in meant:
        letters = _letters_off(word, each)
        most = 2 if min(len(word), len(each)) >= _LONG and word[0] == each[0] else 1
        if letters <= most:
            return each
    return ""


def _letters_off(one: str, other: str) -> int:
    """How many letters are exchanged, left out, added, or changed about from one to the other."""
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, a in enumerate(one, 1):
        last, row = row, [i]
        for j, b in enumerate(other, 1):
            best = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (a != b))
            if i > 1 and j > 1 and a == other[j - 2] and one[i - 2] == b:
                best = min(best, before[j - 2] + 1)
            row.append(best)
        before = last
    return row[-1]


CHECKS = (lookalikes,)
