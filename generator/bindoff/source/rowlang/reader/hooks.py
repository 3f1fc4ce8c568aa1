"""Crochet as patterns write it, put into places: ``sc in next 3 stitches``, ``2 sc in corner``."""

from bindoff import regex as re
from bindoff.craft.book import Craft, StitchBook
from bindoff.source.rowlang.reader.tables import pattern
from bindoff.source.rowlang.reader.written import Template, Written

_HOOK = r"(sl st|[a-z][a-z0-9]*)"
_STOP = r"(?= ?(?:[,;.)\]*]|$))"

Rule = tuple[re.Pattern[str], Template]


def in_places(written: Written, book: StitchBook) -> Written:
    """``written`` with its crochet in our form; ``book`` says which words are crochet."""
    for rule, template in _WORDS:
        written = written.sub(rule, template)
    written = written.sub(_COUNTED_CHAIN, lambda match: _counted_chain(match, book))
    if not any(_is_hook(word, book) for word in re.findall(r"sl st|[a-z][a-z0-9]*", written.text)):
        return written
    shaped = _one_stitch(written.text, book)
    for rule, template in (*_shaping(shaped), *_places(book)):
        written = written.sub(rule, template)
    return written


_COUNTED_CHAIN = re.compile(r"\bch (\d+) as stitch\b")


def _counted_chain(match: re.Match[str], book: StitchBook) -> str | None:
    """``ch 3 as stitch`` as ``ch 3 as dc``: a chain stands for the stitch of its height."""
    known = (f"ch {match[1]} as {stitch}" for stitch in ("sc", "hdc", "dc", "tr"))
    found = next((entry for id in known if (entry := book.get(id))), None)
    return None if found is None else found.wording(book.terms).written


def _is_hook(word: str, book: StitchBook) -> bool:
    found = book.find(word) or book.foreign(word)
    return found is not None and found.craft is Craft.CROCHET


_WORDS: tuple[Rule, ...] = (
    (pattern(r"\b(?:sl|slip) (?:st|stitch)(?= (?:in|into|to|across|around)\b)"), "sl st"),
    (pattern(r"\bss(?= (?:in|into|to|across|around)\b)|(?<=with )(?:an? )?ss<W>"), "sl st"),
    (
        pattern(
            r"\b(?:in|into|to) (?:the )?(?:top of (?:the )?)?(?:(?:beg|beginning|first|turning) ?)?"
            r"ch(?:ain)?[ -]?\d+(?! ?sp)<W>"
        ),
        "in first stitch",
    ),
    (pattern(r"\b(?:in|into) (?:the )?first (?:sc|hdc|dc|htr|tr|dtr)<W>"), "in first stitch"),
    (
        pattern(
            r"\b(in|into) (?:the )?last (?:<S>|(?:sc|hdc|dc|htr|tr)<W>)(?= ?[,;.]? ?(?:turn\W*)?$)"
        ),
        "in next stitch",
    ),
    (
        pattern(
            r"(?<=[a-z]) ?[,;.]? \b(?:and )?join(?:ed)?(?: (?:rnd|round))?(?: with)?(?: an?| 1)? "
            r"(?:sl st|slip st|slip stitch|ss)(?: (?:in|into|to|at) (?:the )?(?:top of (?:the )?)?"
            r"(?:first|beg|beginning) (?:[a-z]+))?<W>"
        ),
        ", sl st in first stitch",
    ),
    (
        pattern(r"\b(?:sl st|slip st|slip stitch|ss) (?:in|into|to) (?:the )?first [a-z]+ to join"),
        "sl st in first stitch",
    ),
    (pattern(r"\b(?:sl st|slip st|slip stitch|ss) to join<W>"), "sl st in first stitch"),
    (pattern(r"(?:reverse|rev) (sc|dc)\b"), r"r\1"),
    (
        pattern(
            r"\b(?:chain|ch) ?(\d+) ?[(,;:\u2013]? ?(?:which |this )?(?:counts?|counting|standing) "
            r"(?:as|for) (?:an? |the |1 |your )?(?:first )?(sc|hdc|dc|htr|tr|dtr)<W>(?: <S>)? ?\)?"
        ),
        r"ch \1 as \2",
    ),
    (
        pattern(
            r"\b(?:chain|ch) ?(\d+) ?[(,;:\u2013]? ?(?:which |this )?(?:counts?|counting) as "
            r"(?:an? |the |1 |your )?(?:first )?<S> ?\)?"
        ),
        r"ch \1 as stitch",
    ),
    (
        pattern(r"\bin (?:the )?same <S> as (?:join(?:ing)?|sl st|ss|ch(?:ain)?)<W>"),
        "in same stitch",
    ),
    (
        pattern(r"\b(?:in|into) (?:the )?(?:same|base of (?:the )?ch(?: ?\d+)?) ?(?:<S>|place)"),
        "in same stitch",
    ),
    (
        pattern(r"\b(?:ch|chain)[ -]?3[ -]picot\b"),
        "picot",
    ),
    (
        pattern(
            r"\bch 3,? (?:and )?(?:sl st|ss) in (?:the )?(?:3rd|first) ch(?:ain)? from (?:the )?"
            r"hook<W>"
        ),
        "picot",
    ),
    (
        pattern(r"\b(?:in|into) (?:each|every) (?:ch|chain)(?:[ -]?\d+)?[ -]?(?:sps?|spaces?)<W>"),
        "in each chain space",
    ),
    (
        pattern(
            r"\b(?:in|into) (?:the )?(?:next )?((?:ch|chain)(?:[ -]?\d+)?[ -]?(?:sps?|spaces?))<W>"
        ),
        "in next chain space",
    ),
    (pattern(r"\bcrab (?:st|stitch)\b"), "crab"),
    (pattern(r"(?<!next )(?<!each )(?<!same )\b(?:chain|ch) ?(\d+)<W>"), r"ch \1"),
    (pattern(r"(^|[,;*(\[] ?)(\d+) (?:chain|ch)<W>"), r"\1ch \2"),
)


def _one_stitch(text: str, book: StitchBook) -> str | None:
    """The one sort of crochet stitch in ``text`` that can be made two of, or ``None``."""
    words = set(re.findall(r"[a-z][a-z0-9]*", text))
    known = {word for word in words if _is_hook(word, book) and _shapes(word, book)}
    return known.pop() if len(known) == 1 else None


def _shapes(word: str, book: StitchBook) -> bool:
    found = book.find(word) or book.foreign(word)
    return found is not None and book.get(f"{found.id}2tog") is not None


def _shaping(stitch: str | None) -> tuple[Rule, ...]:
    """``inc`` and ``dec`` where the row has one sort of stitch."""
    if stitch is None:
        return ()
    return (
        (
            pattern(r"\b(?:increase|inc) in (?:the )?next<W>(?: ?<S>)?"),
            f"2 {stitch} in next stitch",
        ),
        (pattern(r"\binc<W>(?! ?\w)"), f"2 {stitch} in next stitch"),
        (pattern(r"\bdec(?: over (?:the )?next 2 <S>)?<W>(?! ?\w)"), f"{stitch}2tog"),
    )


def _places(book: StitchBook) -> tuple[Rule, ...]:
    def hooks(text: str, template: str, plain: bool = False) -> Rule:
        """A rule for where the first word that is a stitch is crochet."""
        rule = pattern(text.replace("<H>", _HOOK))

        def made(match: re.Match[str]) -> str | None:
            found = book.find(match[1]) or book.foreign(match[1])
            if found is None or found.craft is not Craft.CROCHET or (plain and found.counted):
                return None
            return template

        return rule, made

    return (
        (pattern(r"\b(?:skip|sk|miss) (?:the )?next(?: ?<S>)<W>"), "skip 1"),
        (pattern(r"\b(?:skip|sk|miss) (?:the )?(?:next )?<N>(?: <S>)?"), r"skip \1"),
        hooks(r"(?<![\w{])(?<!ch )(?<!skip )1 <H>(?= ?(?:in|into|[,;.)\]*]|$))", r"\1"),
        _foundation(book),
        hooks(
            r"\b<H> (?:in|into) (?:the )?(?:first|next) <S>,? \1 (?:in|into) (?:the )?same "
            r"(?:<S>|place)",
            r"2 \1 in next stitch",
        ),
        hooks(
            r"\b<H> (?:in|into) (?:the )?next <S>,? ?(?:and )?(?:in |into )?each <S>",
            r"\1 in each stitch",
        ),
        hooks(
            r"\b<H> (?:in|into) (?:each|every) (?:of )?(?:the )?(?:next )?<N> <S>",
            r"\1 in next \2 stitches",
        ),
        (
            pattern(r"\b(in|into) (?:each|every) (?:rem(?:aining)? )?(?:<S>|sc\b|hdc\b|dc\b|tr\b)"),
            "in each stitch",
        ),
        (pattern(r"\b(in|into) (?:the )?next(?: ?<S>)?" + _STOP), "in next stitch"),
        (
            pattern(r"(to last stitch,? (?:\d+ )?[a-z0-9]+ in) (?:the )?last <S>"),
            r"\1 next stitch",
        ),
        hooks(rf"\b<H> (?:in|into) (?:the )?next <N>(?: <S>|{_STOP})", r"\1 in next \2 stitches"),
        hooks(r"(?<!\d )\b<H> (\d+)" + _STOP, r"\1 in next \2 stitches", plain=True),
        (pattern(r"(in each stitch)(?: to end)?,? around\b"), r"\1 to end"),
        (pattern(r"(in each stitch) to end,? to end\b"), r"\1 to end"),
        (pattern(r"(<S>)[,;.]? (?:join|join rnd|join round)[\s.]*$"), r"\1, sl st in first stitch"),
        (
            pattern(r"(to end)[,;.]? (?:join|join rnd|join round)[\s.]*$"),
            r"\1, sl st in first stitch",
        ),
    )


def _foundation(book: StitchBook) -> Rule:
    """Single crochet that begins in the second chain: the skipped one never counts."""

    def made(match: re.Match[str]) -> str | None:
        found = book.find(match[1]) or book.foreign(match[1])
        return r"skip 1, \1 in each chain" if found is not None and found.id == "sc" else None

    return pattern(
        rf"\b{_HOOK} (?:in|into) (?:the )?2nd (?:ch|chain) from (?:the )?hook,? ?"
        r"(?:and )?(?:\1 )?(?:(?:in|into) )?(?:each|every) (?:rem(?:aining)? )?(?:ch|chain)<W>"
    ), made
