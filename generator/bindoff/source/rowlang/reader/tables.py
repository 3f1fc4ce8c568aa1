"""What the trade writes, and our one form for it: tables of patterns, read from first to last.

In a pattern ``<N>`` is a number, ``<S>`` a word for stitches, ``<M>`` one for a marker, ``<R>`` one
for a row; ``<W>`` is where a word ends. A saying is listed only where it has one meaning; what
could be two fabrics is left as it stands and refused by the strict reader. Sayings of the trade:
common practice, no source.
"""

from bindoff import regex as re

Table = tuple[tuple[re.Pattern[str], str], ...]

_SHORT = {
    "<N>": r"(\d+|\{[^{}]*\})",
    "<S>": r"(?:stitches|stitch|sts|st)\b",
    "<M>": r"(?:markers?|mk|m)\b",
    "<R>": r"(?:rows?|rounds?|rnds?)\b",
    "<W>": r"(?![\w-])",
}


_SPACE = re.compile(
    r"\[[^\]]*\]|\(\?<[!=][^)]*\)| \??"
)  # not those of a set or of what goes before


def pattern(text: str) -> re.Pattern[str]:
    """``text`` with its short forms written out; a space stands for any space or none."""
    text = _SPACE.sub(lambda found: " ?" if found[0][0] == " " else found[0], text)
    for short, full in _SHORT.items():
        text = text.replace(short, full)
    return re.compile(text)


def _table(*rows: tuple[str, str]) -> Table:
    return tuple((pattern(text), made) for text, made in rows)


SIGNS = _table(
    (r"[\u2018\u2019\u02bc\u00b4]", "'"),
    (r"[\u00a0\u202f\u2009\s]+", " "),
    (r"\u00d7", "x"),
    (r"\s*(?:[\u2014\u2013\u2212]|--)\s*(?![^{}]*\})", " \u2013 "),
    (r"\s+-\s+(?![^{}]*\})", " \u2013 "),
)
"""Signs of print, as a keyboard has them; a dash between words as a sign of its own."""

_ONES = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
NUMBER_WORDS = {word: number for number, word in enumerate(_ONES, start=1)}
TENS = {word: 10 * number for number, word in enumerate(_TENS, start=2)}

# ---------------------------------------------------------------- remarks that change nothing

REMARKS = _table(
    (
        r"[,;]?\s*\(\s*(?:the )?(?:spine|edge|selvedge|selvage|seam|centre|center|steek|border|"
        r"middle)(?: <S>)?\s*\)",
        "",
    ),
    (
        r"[,;]?\s*\b(?:and )?(?:slipping|passing) (?:all |the )*markers?<W>"
        r"(?: (?:as|when|where) (?:you|they) (?:come to them|meet them|go|come up|appear|are met|"
        r"reach them))?",
        "",
    ),
    (r"[,;]?\s*\b(?:and )?(?:slip|sl|sm|pass) (?:the )?marker,? if there is (?:1|one|any)\b", ""),
    (
        r"[,;]?\s*\b(?:being careful|taking care|and take care|take care) not to twist"
        r"(?: (?:the )?(?:sts|stitches|cast[- ]on|round|work|them|it))?\b",
        "",
    ),
    (
        r"[,;]?\s*\((?:this )?(?:does|do) not count(?: as (?:a |1 |the first )?"
        r"(?:st|stitch|sc|dc|hdc|htr|tr)| as anything)?\)",
        "",
    ),
    (r"[,;]?\s*\bworking (?:in|into) (?:each|every) <S>", ""),
)
"""Remarks about what is so anyway. A remark that is not here is not dropped: it may say more."""

JOINTS = _table(
    (r"[,;]?\s*(?<!up )\band then\b,?", ", "),
    (r"(?<!^)[,;]?\s*\bthen\b,?", ", "),
    (r"^\s*(?:then|now)\b,?", ""),
    (r"\bwrap(?: (?:and|&)|,) turn\b|\bwrap next <S>,? (?:and )?turn\b", "w&t"),
)

# ---------------------------------------------------------------- stitches

OLD = _table(
    (r"\b(?:pass|draw|lift) (?:the )?(?:slipped|slip|sl) (?:stitch|st) over<W>", "psso"),
    (r"\b(?:knit|k) plain\b", "knit"),
    (r"\b(?:seamed|seam|pearl)\b", "purl"),
    (r"\bplain\b", "knit"),
    (r"\bnarrow once\b|\bnarrow\b|\bn<W>", "k2tog"),
    (r"\b(?:throw |put )?(?:the )?(?:thread|yarn|wool|cotton) over\b|\bover<W>(?! the\b)", "yo"),
    (r"\bo<W>", "yo"),
    (r"\b(?:make 1|m 1|m1)<W>", "yo"),
    (r"\b(?:slip|sl) (?:and|&) (?:bind|b)<W>", "skp"),
)
"""The words of old texts, each with one meaning in them and another or none today.

The pattern says that it speaks so (``vocabulary: old``). Source: knitting books of the nineteenth
century, from memory.
"""

_YARN = r"(?:bring|take|move|bringing|taking)? ?(?:the )?(?:working )?yarn"
_TO_FRONT = rf"\b(?:yf|yft|ytf|yif|{_YARN} ?(?:to|in) (?:the )?front)"
_TO_BACK = rf"\b(?:yb|ybk|ytb|yib|{_YARN} ?(?:to|in) (?:the )?back)<W>"

STITCHES = _table(
    (r"\bthrough (?:the )?back (?:of )?(?:the )?(?:loops?|<S>)", "tbl"),
    (r"\bthrough (?:the )?back<W>", "tbl"),
    (r"\b(k|p)(?:nit|url)?\s*(\d)\s*(?:<S>)?\s*(?:together|tog|t)[\s-]*tbl\b", r"\1\2tog tbl"),
    (r"\b(k|p)(?:nit|url)?\s*(\d)\s*(?:(?:<S>)\s*)?(?:together|tog|t)<W>", r"\1\2tog"),
    (r"\b(?:sl|slip)[ ,-]+(?:sl|slip)[ ,-]+(?:sl|slip)[ ,-]+(?:k|knit)<W>(?! ?\d)", "sssk"),
    (r"\b(?:sl|slip)[ ,-]+(?:sl|slip)[ ,-]+(?:k|knit)<W>(?! ?\d)", "ssk"),
    (r"\b(?:sl|slip)[ ,-]+(?:sl|slip)[ ,-]+(?:p|purl)<W>(?! ?\d)", "ssp"),
    (
        r"\b(?:sl|slip|s) ?2(?: <S>)?(?: ?(?:tog|together|at once))(?: (?:knitwise|kwise|"
        r"as if to k(?:nit)?(?: ?2 ?tog(?:ether)?)?))?[ ,-]+(?:k|knit) ?1[ ,-]+"
        r"(?:p2sso|pass (?:the )?(?:2 )?(?:slipped|sl) <S> over)<W>",
        "s2kp",
    ),
    (r"\bsl ?2-k ?1-p2sso\b", "s2kp"),
    (
        r"\b(?:pass|draw|lift) (?:the )?(?:slipped|slip|sl) (?:stitch|st) over(?: (?:it|knit "
        r"(?:stitch|st)|the knit (?:stitch|st)))?<W>",
        "psso",
    ),
    (r"\b(sl? ?\d)-(k ?\d(?:tog)?)-(psso|p2sso)\b", r"\1, \2, \3"),
    (r"\bs ?(\d)(?![\w/])", r"sl\1"),
    (r"\bas if to knit\b|\bknit-wise\b|\bk-wise\b", "knitwise"),
    (r"\bas if to purl\b|\bpurl-wise\b|\bp-wise\b", "purlwise"),
    (r"\b(?:with|holding) (?:the )?yarn (?:held )?(?:in|at|to) (?:the )?front<W>", "wyif"),
    (r"\b(?:with|holding) (?:the )?yarn (?:held )?(?:in|at|to) (?:the )?back<W>", "wyib"),
    # The yarn goes to the other side, a stitch is slipped, and it goes back: no stitch is made.
    (rf"{_TO_FRONT}, ?(?:sl|slip) ?(\d*)(?: <S>)?(?: p(?:url)?-?wise)?, ?{_TO_BACK}", r"sl\1 wyif"),
    (rf"{_TO_BACK}, ?(?:sl|slip) ?(\d*)(?: <S>)?(?: p(?:url)?-?wise)?, ?{_TO_FRONT}", r"sl\1 wyib"),
    (r"\b(?:make|m) 1 (?:left|l)<W>", "m1l"),
    (r"\b(?:make|m) 1 (?:right|r)<W>", "m1r"),
    (r"\b(?:make|m) 1 (?:purlwise|purl|p)<W>", "m1p"),
    (r"\bm1-(l|r|p|lp|rp)\b", r"m1\1"),
    (r"\b(?:make|m) 1(?: <S>)?<W>(?! ?(?:in|into|knitwise)\b)", "m1"),
    (r"\byarn (?:over|forward|round needle|round the needle)<W>", "yo"),
    (r"\byarn over (?:needle )?twice\b|\bdouble yo\b|\byo ?x ?2<W>|\byo2\b", "yo twice"),
    (
        r"\b(k|p)(?:nit|url)?(?: ?1)? (?:(?:in|into|through) )?(?:the )?(?:front|f) (?:and|&) "
        r"(?:the )?(?:back|b)(?: loops?)? of (?:the )?",
        r"\1fb in ",
    ),
    (
        r"\b(k|p)(?:nit|url)?(?: ?1)? ?(?:(?:in|into|through) )?(?:the )?(?:front|f) ?(?:and|&) ?"
        r"(?:the )?(?:back|b)(?: loops?)?<W>",
        r"\1fb",
    ),
    (r"\b(k|p)1fb<W>", r"\1fb"),
    (
        r"\b(k|p)(?:nit|url)? (?:in|into) (?:the )?back(?: loops?)? of (?:each|every) <S>",
        r"\1 tbl to end",
    ),
    (r"\b(k|p)(?:nit|url)? (?:in|into) (?:the )?back(?: loops?)? of (?:the )?next <S>", r"\11 tbl"),
    (r"\bplace (?:a |1 )?<M>", "pm"),
    (
        r"\b(?:slm|(?:sl|slip|pass) (?:the |a |1 )?(?:next |first |second |\d(?:st|nd|rd|th) )?"
        r"<M>)",
        "sm",
    ),
    (r"\bremove (?:the |a |1 )?<M>", "remove marker"),
    (
        r"\b(?:slip|place|put|leave|transfer) (?:the )?(?:next )?<N>(?: <S>)? (?:on|onto|on to|to) "
        r"(?:a |the )?(?:stitch |st )?(?:holder|waste yarn|spare needle|scrap yarn)<W>",
        r"hold \1 stitches",
    ),
    (r"(?<=[)\]]) all (?=(?:in|into)\b)", " "),
    (r"\b([kp]\d*)-tbl\b", r"\1 tbl"),
    (r"^(\W*)(k|p|knit|purl) (?:the )?first <N> <S>", r"\1\2 \3"),
    (r"\b(k|p|knit|purl) (?:the )?next <N> <S>", r"\1 \2"),
    (r"^(\W*)using\b", r"\1with"),
    (r"\[([^\[\]*]*)\] ((?:in|into) (?:the )?(?:next|same|1) <S>)", r"(\1) \2"),
    (r"^(\W*)(?:slip|sl) (?:the )?(?:first|next) <S>", r"\1sl1"),
    (r"\b(?:slip|sl) (?:the )?next <S>", "sl1"),
    (r"\b(?:slip|sl) (?:the )?next <N> <S>", r"sl \1"),
    (
        r"^(\W*(?:bind|cast) off|\W*bo|\W*co|\W*cast on) <N>(?: <S>)? (?:at|from) (?:the )?"
        r"(?:beginning|beg|start)<W>(?: of (?:the |this )*<R>)?(?! of\b)",
        r"\1 \2 stitches",
    ),
    (r"\b((?:bind|cast) off|bo) (?:the )?next <N>(?: <S>)?", r"\1 \2 stitches"),
)
"""Stitches by another spelling. Each has one fabric, whoever writes it."""

# ---------------------------------------------------------------- how far and how often

_REMAIN = r"(?:are |is )?(?:remaining|remains|remain|rem|left)\b"
_NEEDLE = r"(?: (?:on|in) (?:the |your )?(?:left |lh |left-hand )?(?:needles?|<R>))?"
_END = r"(?:the )?end(?: of (?:the |this )?(?:<R>|needle))?<W>"
_TO = r"\b(?:up to|to|until|til|till)"
_NEAR = r"(?:before|from|of|short of)"

GOALS = _table(
    (
        rf"{_TO} (?:there (?:are|is) |you have )?(?:only )?(?:the )?(?:last )?<N>(?: <S>)? "
        rf"{_REMAIN}{_NEEDLE}(?: (?:before|to) (?:the )?end)?",
        r"to last \1 stitches",
    ),
    (rf"{_TO} (?:within )?(?:the )?(?:last )?<N>(?: <S>)? {_NEAR} {_END}", r"to last \1 stitches"),
    (rf"{_TO} (?:within )?(?:the )?last <N>(?: ?<S>)?", r"to last \1 stitches"),
    (rf"{_TO} (?:within )?(?:the )?last <S>", "to last stitch"),
    (
        rf"{_TO} (?:within )?<N>(?: <S>)? {_NEAR} (?:the )?(?:last|final) <M>",
        r"to \1 stitches before last marker",
    ),
    (rf"{_TO} (?:you (?:come to|reach) )?(?:the )?(?:last|final) <M>", "to last marker"),
    (
        rf"{_TO} (?:within )?<N>(?: <S>)? {_NEAR} (?:the )?(?:next |last )?(?:gap|turn(?:ing "
        r"point)?|wrapped <S>)<W>",
        r"to \1 stitches before gap",
    ),
    (
        rf"{_TO} (?:(?:work|knit|purl) )?<N>(?: <S>)? (?:past|beyond|after) (?:the )?(?:next |last "
        r")?(?:gap|turn(?:ing point)?|wrapped <S>)<W>",
        r"to \1 stitches past last turn",
    ),
    (
        rf"{_TO} (?:you (?:come to|reach) )?(?:the )?(?:next |last )?(?:gap|turn(?:ing point)?|"
        r"wrapped <S>)<W>",
        "to gap",
    ),
    (
        rf"{_TO} (?:within )?<N>(?: <S>)? {_NEAR} (?:the )?(?:next )?<M>",
        r"to \1 stitches before marker",
    ),
    (rf"{_TO} (?:you (?:come to|reach) )?(?:the )?(?:next )?<M>", "to marker"),
    (rf"{_TO} {_END}", "to end"),
    (
        r"\b(?:all )?(?:the )?(?:way )?(?:around|across)\b(?: (?:the |this )?<R>|"
        r" (?:all )?(?:the |these )?<S>)?",
        "around",
    ),
    (r"\ball (?:the way )?round\b", "around"),
    (r"(\b<S>) round<W>", r"\1 around"),
    (r"\b(?:the )?(?:rest|remainder)(?: of (?:the )?(?:<R>|<S>))?<W>", "to end"),
    (r"(?<!each )(?<!every )\b(?:all )?(?:the )?rem(?:aining)? <S>", "to end"),
    (r"^\s*(k|p)\W*$", r"\1 to end"),
    (
        r"^\s*((?:with [a-z][\w-]*[,:]? )?)(knit|purl|k|p) "
        r"(?:back|(?:1|a|this|next) <R>|(?:all|every|each) <S>)\W*$",
        r"\1\2 to end",
    ),
    (r"\baround (to (?:last|marker|\d))", r"\1"),
    (r"\b(to end|around),? (?:to end|around)\b", r"\1"),
    (r"\bto end of (?:the )?<R>", "to end"),
)

TIMES = _table(
    (r"\b(?:another|a further) <N> times?\b", r"\1 more times"),
    (r"<N> times? more\b", r"\1 more times"),
    (r"\b(?:for )?(?:a )?total of <N> times?\b", r"\1 times in all"),
    (r"<N> times? (?:in total|altogether|total)\b", r"\1 times in all"),
    (r"\bthrice\b", "3 times"),
    (r"(?<=[\])*]) ?x ?<N><W>", r" \1 times"),
    (r"(?<=[\])*]) ?<N> ?x<W>", r" \1 times"),
    (r"\b([a-z](?:\w*[a-z])?) ?(\d+)x<W>", r"\1 \2 times"),
    (r"\b([a-z](?:\w*[a-z])?) x ?(\d+)<W>", r"\1 \2 times"),
    (r"\bwork from (?=\*)", "repeat from "),
    (r"\brep(?:eat)?s?\b(?=\.)\.?|\brep(?:eat)?<W>", "repeat"),
    (r"\brepeat (?:from|between) ?\* ?(?:(?:-|\u2013|to|and) ?\*|'?s<W>)", "repeat from *"),
    (r"\brepeat ?\* ?(?:(?:-|\u2013|to) ?\*|'?s<W>)", "repeat from *"),
    (r"\brepeat (?=[(\[])", ""),
    (r"\bwork (?=[*(\[]|\d+ (?:sc|hdc|dc|htr|tr|dtr)\b)", ""),
    (r"\bwork (?=(?:[kp] ?\d+[ ,]*){2,}rib\b)", ""),
    (r"(^|[,;*(\[] ?)(\d+) (k|p|knit|purl)<W>(?! ?\d)", r"\1\3 \2"),
)

CLEANING = _table(
    (r"\s*\.(?=\s*\S)", ","),
    (r"\s+\u2013\s+", ", "),
    (r",?\s*(?<!up )\band\b", ", "),
    (r"(?:[,;]\s*)+(?=[,;])", ""),
    (r"([(\[*])\s*[,;]", r"\1"),
    (r"^[\s,;]+|[\s,;.]+$", ""),
)

TIDYING = _table(
    (r"[ ]+(?=[,;\])])", ""),
    (r"(?<=[\[(])\s+", ""),
    (r"(?<!from )\*\s+", "*"),
    (r"(?<=from \*)(?=[^\s,])", " "),
    (r",(?=[^\s])", ", "),
    (r"\blast 1 stitch(?:es)?\b", "last stitch"),
    (r"(?<![\w{])1 stitches\b", "1 stitch"),
    (r"\s{2,}", " "),
)
"""The last touches, for the designer who is shown how a row is read."""
