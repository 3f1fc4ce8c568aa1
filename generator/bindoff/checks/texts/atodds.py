"""What one place of a source says and another, by its structure, does not: terms, the order of
sizes, a piece likened to itself, where buttonholes are, things hung at so many places, tails that
are cut and then used, and whose size has the larger part."""

from collections.abc import Callable, Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, quoted, sentences
from bindoff.checks.texts.told.numbers import IN_WORDS, number_of
from bindoff.checks.texts.told.scene import parts_named, scene_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import yarns_worked
from bindoff.english import an
from bindoff.plan.steps.pick_up_along import PickedUp
from bindoff.remembered import once_each
from bindoff.source.steps.buttonholes import ButtonholesStep

_NUMBER = rf"(?:\d+|{IN_WORDS})"
_TERMS = phrase(
    r"\b(?:uses?|written in|given in|are in|are those of the|worked in|follows?|in) (?:the )?"
    r"(?-i:(US|U\.S\.|American|UK|U\.K\.|British|English))(?: (?:crochet|knitting))? terms\b"
    r"|\bterms (?:are|used are)(?: those of)?(?: the)? (?-i:(US|U\.S\.|American|UK|U\.K\."
    r"|British))\b"
)
_OTHER_TERMS = phrase(r"\b(?:if|learned|learnt|used to|instead|translate|called|would)\b")


def _of_terms(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """The country whose terms a text says it uses."""
    for found in sentence.said(_TERMS) if not _OTHER_TERMS.search(sentence.words) else ():
        said = "US" if (found[1] or found[2])[0] in "UA" and "K" not in found[0] else "UK"
        if said != context.pattern.terms:
            yield Finding(
                f"`{quoted(found)}` stands here, and the pattern has `terms: "
                f"{context.pattern.terms}`",
                sentence.place(found),
            )


_FIRST = (
    r"(?:comes?|is (?:named|given|written|told|printed)|stands?|are given|is|goes) first\b"
    r"(?! (?:worked|cast|knit|made))"
)
_FOR_FIRST = (
    r"\b(?:the )?first (?:figure|number|one|count)?(?: (?:is|are|stands?|given))* for (?:the )?"
)


def _of_first_size(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """The size that is said to come first."""
    names = tuple(context.source.sizes)
    if len(names) < len("ab") or sentence.prose.piece is not None:
        return
    every = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    pattern = re.compile(
        rf"\b(?:the )?({every})(?: sizes?| one| figures?| bag| version)?,? {_FIRST}"
        rf"|{_FOR_FIRST}(?:size )?({every})\b",
        re.IGNORECASE,
    )
    for found in sentence.said(pattern):
        if (found[1] or found[2]).lower() != names[0].lower():
            yield Finding(
                f"`{quoted(found)}` stands here, and {names[0]} comes first", sentence.place(found)
            )


_LARGE = r"(?:twice|double|more|half as much again)"
_LITTLE = r"(?:half|less|two thirds|a third|three quarters|fewer)"


def _of_amounts(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Of two sizes, which takes more yarn."""
    names = tuple(context.source.sizes)
    if len(names) != len("ab") or "yarn" not in sentence.words:
        return
    yarn = [sum(needs.needs[size].metres for needs in context.plan.yarn) for size in (0, 1)]
    if yarn[0] >= yarn[1]:
        return
    for name, wrong in ((names[1], _LITTLE), (names[0], _LARGE)):
        pattern = re.compile(
            rf"\b(?:the )?{re.escape(name)}(?: size| one)? (?:takes|needs|uses) (?:about |only "
            rf"|some )?{wrong}\b",
            re.IGNORECASE,
        )
        for found in sentence.said(pattern):
            yield Finding(
                f"`{quoted(found)}` stands here, and {names[1]} is the larger size",
                sentence.place(found),
            )


_LIKENED = (
    r"(?:(?:just |exactly )?(?:like|as (?:in|for|on|with)|than (?:in|for|on|with)|the same as)) "
    r"the "
)
_HAND = phrase(
    r"\bthe (left|right) ([a-z]+) (?:is|are) [^.;]{0,30}?\blike the (left|right)(?: one)?\b"
)


def _of_itself(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A piece that is said to be made like itself."""
    key = sentence.prose.piece
    if key is None or context.pattern.pieces[key].make > 1:
        return
    title = context.pattern.pieces[key].title.lower()
    likened = re.compile(
        rf"\b{_LIKENED}{re.escape(title)}\b(?! (?:neck|edge|side|band))", re.IGNORECASE
    )
    for found in sentence.said(likened) if len(title.split()) > 1 else ():
        yield Finding(f"`{quoted(found)}` stands in that very piece", sentence.place(found))
    side = re.search(r"\b(left|right)\b", title)
    for found in sentence.said(_HAND) if side else ():
        assert side is not None
        subject, other = found[1].lower(), found[3].lower()
        if subject != other and other == side[1] and found[2].lower() in title:
            yield Finding(
                f"`{quoted(found)}` stands in the {title}, which is made after the other",
                sentence.place(found),
            )


_HOLES_IN = phrase(
    r"\bbuttonholes? (?:are|is|lie|go|come|sit)(?: worked| knitted| made)? (?:in|on|along|into) the"
    r" (left|right)(?:[- ]hand)? (?:front )?(?:band|front|edge)\b"
)


def _of_buttonholes(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """The front that has the buttonholes."""
    sides = {
        found[1].lower()
        for piece in context.pattern.pieces.values()
        if any(isinstance(step, ButtonholesStep) for step in piece.steps)
        for found in [re.search(r"\b(left|right)\b", piece.title, re.IGNORECASE)]
        if found
    }
    for found in sentence.said(_HOLES_IN) if len(sides) == 1 and not sentence.supposes else ():
        if found[1].lower() not in sides:
            yield Finding(
                f"`{quoted(found)}` stands here, and they are worked in the {sides.copy().pop()} "
                f"one",
                sentence.place(found),
            )


_HUNG_AT = phrase(
    rf"\b(?:an?|one) (?:[a-z]+ )?(markers?|safety pins?|pins?)\b[^.;]{{0,60}}?\b(?:at|in|into|on"
    rf"|to) (?:each|every"
    rf"|all)(?: one)? of the ({_NUMBER}) (?:places|corners|points|spots|ends|edges|stitches)\b"
)
_EACH_EITHER = phrase(
    r"\b(?:safety )?(pins?|markers?)\b[^.;]{0,60}?[:,] ?(?:on|at) (?:each|both|either) (?:sides?"
    r"|ends?)\b[^.;]{0,40}?"
    r"\b(?:from|at) (?:either|both|each) (?:edges?|ends?|sides?)\b"
)


def _of_places(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """As many markers or pins are listed as there are places to hang one at."""
    for pattern, fixed in ((_HUNG_AT, 0), (_EACH_EITHER, 4)):
        for found in sentence.said(pattern):
            noun = found[1].lower().rstrip("s")
            places = fixed or number_of(found[2])
            yield from _listed(context, sentence, found, (noun, places))


def _listed(
    context: Context, sentence: Sentence, found: "re.Match[str]", wanted: tuple[str, int]
) -> Iterator[Finding]:
    noun, places = wanted
    counted = re.compile(rf"(?<![\d.])({_NUMBER}) (?:[\w-]+ ){{0,2}}?{noun}s?\b", re.IGNORECASE)
    listed = [
        (index, number_of(each[1]))
        for index, notion in enumerate(context.pattern.notions)
        for each in [counted.search(notion)]
        if each
    ]
    if len(listed) == 1 and listed[0][1] != places:
        index, number = listed[0]
        exact = "for the" in context.pattern.notions[index] or number < places
        if exact:
            yield Finding(
                f"`{quoted(found)}` takes {places}, and {number} {noun}s are listed",
                sentence.place(found),
                beside=(context.pattern.place.of("notions").of(index).span,),
            )


_CUT_TAIL = phrase(
    r"\bcut (?:off )?(?:the|that|this|its) (tail|end|yarn|thread)(?: off| short| close)?[.;,] "
    r"?(?:and |then )?"
    r"(?:use it|sew[^.;]{0,60}? with it|with it)\b"
)
_OUT_FIRST = phrase(
    r"\b(?:pull|take|unpick|remove|draw)(?: out)? (?:out )?the (?:waste|scrap|provisional) "
    r"(?:yarn|cast-on)"
    r"(?: out)?,? (?:and |and then |then |before you )(?:slip|put|place|pick up|take|catch"
    r"|transfer)\b"
    r"[^.;]{0,40}?\b(?:needles?|loops?|rows?|stitches)\b"
)
_PINS_FIRST = phrase(
    r"\b(?:take out|remove|pull out) all (?:of )?the (?:pins|markers|safety pins) before (?:you "
    r")?(?:sew|join|attach)"
)
_UNDONE = (
    (_CUT_TAIL, "what has been cut off is used after it"),
    (_OUT_FIRST, "the loops run as soon as nothing holds them"),
    (_PINS_FIRST, "they mark where to sew"),
)


_FARTHEST = 400
"""Characters: so far beyond its sentence the rest of a saying is looked for."""


def _of_order(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """What is taken away before the work that needs it."""
    end = sentence.start + len(sentence.words) + _FARTHEST
    text = sentence.prose.text[sentence.start : end]
    for pattern, why in _UNDONE:
        found = pattern.search(text)
        if found is None or found.start() >= len(sentence.words):
            continue
        before = sentence.words[: found.start()]
        if re.search(r"\b(?:not|never|don['’]t|if)\b", before, re.IGNORECASE):
            continue
        yield Finding(
            f"`{quoted(found)}`: {why}",
            sentence.prose.place(sentence.start + found.start(), sentence.start + found.end()),
            "Turn the two about",
        )


_COUNTING = phrase(r"\b(?:turning )?(?:ch|chains?)\b[^.;]{0,40}?\bcounts? as (?:the |an? |1 )")
_UNWORKED = phrase(
    r"\b(?:leav(?:e|ing)|skip(?:ping)?|without working(?: into)?|do not work (?:into|in)?|not "
    r"working)"
    r" (?:in(?:to)? )?the (?:top of the )?turning ch(?:ain)?s?\b(?: (?:un\w+|alone|free))?"
)
_TURNING = phrase(r"\bch (\d+),? (?:and turn,? |turn,? )?(?:skip|miss) the first\b")
_CHAINS_COUNT = phrase(
    r"\b(\d+) ch(?:ains?)?(?: at (?:a|the|each) (?:turn|beginning|start)\w*[^.;]{0,30}?)? count "
    r"as\b"
)


@once_each
def _turning_chains(context: Context) -> tuple[bool, frozenset[int], frozenset[int]]:
    """Whether texts count a turning chain as a stitch, the chains that are made to turn, and those
    that are counted."""
    texts = " ".join(prose.text for prose in context.prose)
    made = frozenset(int(each[1]) for each in _TURNING.finditer(texts))
    counted = frozenset(int(each[1]) for each in _CHAINS_COUNT.finditer(texts))
    return _COUNTING.search(texts) is not None, made, counted


def _of_turning_chains(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A turning chain that counts as a stitch is worked into, and is as long where it is told."""
    counts, made, counted = _turning_chains(context)
    for found in sentence.said(_UNWORKED) if counts else ():
        yield Finding(
            f"`{quoted(found)}`, and it counts as a stitch: each row loses one",
            sentence.place(found),
        )
    if len(made) == len(counted) == 1 and made != counted:
        for pattern in (_TURNING, _CHAINS_COUNT):
            for found in sentence.said(pattern):
                (other,) = counted if pattern is _TURNING else made
                yield Finding(
                    f"`{quoted(found)}` stands here, and elsewhere the turning chain is {other}",
                    sentence.place(found),
                )


_LAST_IN = phrase(
    r"\blast (?:\d+ |one )?(?:rows? |rounds? |stripe )?(?:of (?:them|these) )?(?:is |are |being "
    r")?in ([A-Z][\w’']+)"
)
_CUT_YARN = phrase(r"\b(?:cut|break(?: off)?|break) ([A-Z][\w’']+)\b")


def _of_last_yarn(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """The yarn that is cut at the end is the one that was last worked with."""
    names = {yarn.name for yarn in context.pattern.yarns.values()}
    for found in sentence.said(_CUT_YARN):
        before = sentence.prose.text[: sentence.start + found.start()]
        told = list(_LAST_IN.finditer(before))
        last = told[-1] if told else None
        if last is None or not {last[1], found[1]} <= names or last[1] == found[1]:
            continue
        between = before[last.end() :]
        if not any(re.search(rf"\b{re.escape(name)}\b", between) for name in names):
            yield Finding(
                f"`{quoted(found)}` stands here, and the last rows are in {last[1]}",
                sentence.place(found),
            )


_KINDS = (
    "hat cap beanie bonnet toque", "cowl snood", "scarf stole", "shawl shawlette kerchief",
    "sock socks", "mitten mittens mitts", "pullover sweater jumper gansey", "cardigan jacket",
    "vest waistcoat slipover", "blanket afghan", "cushion pillow", "headband", "bag",
)  # fmt: skip


def _of_kind(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """What the first sentence of the summary calls the thing that the title names."""
    if sentence.prose.path[:1] != ("summary",) or sentence.start > 0:
        return
    every = "|".join(" ".join(_KINDS).split())
    title = re.findall(rf"\b({every})\b", context.pattern.title.lower())
    found = re.match(
        rf"(?:An?|The|This) (?:[\w-]+ ){{0,4}}?({every})\b(?![-’'])", sentence.words, re.IGNORECASE
    )
    if len(title) == 1 and found is not None and _told_below(context, title[0]):
        group = next(each.split() for each in _KINDS if title[0] in each.split())
        if found[1].lower() not in group and f"{found[1].lower()}s" not in group:
            yield Finding(
                f"`{quoted(found)}` stands here, and the title has {an(title[0])}",
                sentence.place(found),
            )


def _told_below(context: Context, kind: str) -> bool:
    """Whether more than the title speaks of a kind; else it is the title that is wrong."""
    pieces = (f"{key} {piece.title}" for key, piece in context.pattern.pieces.items())
    texts = (prose.text for prose in context.prose if prose.path != ("title",))
    return any(re.search(rf"\b{kind}", text, re.IGNORECASE) for text in (*pieces, *texts))


_ROUND_TOOLS = (
    (phrase(r"\bcircular needles?\b"), "circular"),
    (phrase(r"\bdouble-pointed needles?\b|(?-i:\bDPNs?\b|\bdpns?\b)"), "double-pointed"),
)


def _of_tools(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A kind of needle that a step takes and no list has."""
    tools = " ".join(tool.name for tool in context.pattern.tools).lower()
    if "needle" not in tools or sentence.supposes or sentence.prose.piece is None:
        return
    if re.search(r"\bor\b|\bany\b|\bloops?\b", sentence.words):
        return
    for pattern, word in _ROUND_TOOLS:
        for found in sentence.said(pattern):
            if word not in tools.replace("dpn", "double-pointed"):
                yield Finding(
                    f"`{quoted(found)}` stands here, and none is listed",
                    sentence.place(found),
                    beside=(context.pattern.place.of("tools").span,),
                )


_BUTTONS = phrase(r"\bsew (?:on )?(?:the |all )?(?:\d+ )?buttons\b")
_BANDS = phrase(r"\b(?:work|knit|make|pick up) (?:the |both )?(?:button|front )?bands?\b")


def _of_bands(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Buttons that are sewn on before their band is there."""
    text = sentence.prose.text
    if sentence.start or sentence.prose.piece is not None:
        return
    buttons, bands = _BUTTONS.search(text), _BANDS.search(text)
    if buttons and bands and buttons.start() < bands.start():
        yield Finding(
            f"`{quoted(buttons)}` stands before `{quoted(bands)}`",
            sentence.prose.place(*buttons.span()),
            "Turn the two about",
        )


_ST_ST_SAID = re.compile(r"[Ss]t [Ss]t ?(?:=|\(|is |means|stands)|\([Ss]t [Ss]t\)")


def _of_st_st(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """The abbreviation of two words that lists of one word do not have."""
    found = re.search(r"(?<![\w-])[Ss]t st\b", sentence.words)
    if found is None or sentence.prose.piece is None:
        return
    if not any(_ST_ST_SAID.search(prose.text) for prose in context.prose):
        yield Finding(f"`{found[0]}` is nowhere explained", sentence.place(found))


_RATIO = phrase(
    rf"\b({_NUMBER})(?: stitches| sts)? (?:in|for|from|along|out of) (?:every|each) ({_NUMBER}) "
    rf"rows\b"
)
_RATIO_OFF = 0.15


def _of_ratio(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """How many stitches are picked up along so many rows, where the step next to it does so."""
    found = _RATIO.search(sentence.words)
    if found is None or not re.search(r"\bpick|\bstitches\b", sentence.words):
        return
    scene = scene_of(context, sentence.prose)
    steps = [scene.own] if scene.own is not None else [*scene.ahead[:1]]
    ratios: list[float] = []
    for step in steps:
        written = getattr(step.step, "pick_up_along", None) if step is not None else None
        if step is None or not isinstance(step.detail, PickedUp) or not written:
            continue
        for part, edge in zip(step.detail.parts, written, strict=False):
            rows = getattr(edge, "rows", None)
            if rows is not None:
                long = context.plan.measures.amount(rows).rounded
                ratios += [a / b for a, b in zip(part.stitches, long, strict=False) if b]
    told = number_of(found[1]) / max(number_of(found[2]), 1)
    if ratios and all(abs(told - each) > _RATIO_OFF for each in ratios):
        yield Finding(
            f"`{quoted(found)}` stands here, and about {ratios[0] * 4:.2g} in every 4 are picked "
            f"up",
            sentence.place(found),
        )


_UP = "hem welt ankle toe wrist bottom base foot"
_TOP = "neck shoulder shoulders crown top knee yoke"
_FROM_TO = phrase(r"\bfrom the ([a-z]+) (?:up |down )?to the ([a-z]+)\b")
_LOWER, _UPPER = phrase(r"\b(?:lower|bottom)\b"), phrase(r"\b(?:upper|top)\b")


def _of_way(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """The end at which a piece is begun, against headings that call their part lower and upper."""
    if not re.search(r"\b(?:knit\w*|work\w*|made|grows?)\b", sentence.words):
        return
    ways = set[bool]()
    for plan in context.plan.pieces:
        heads = [step.heading for step in plan.steps if step.heading]
        low = [i for i, head in enumerate(heads) if _LOWER.search(head)]
        high = [i for i, head in enumerate(heads) if _UPPER.search(head)]
        if low and high:
            ways.add(max(low) < min(high))
    for found in sentence.said(_FROM_TO) if len(ways) == 1 else ():
        one, other = found[1].lower(), found[2].lower()
        up = one in _UP.split() and other in _TOP.split()
        down = one in _TOP.split() and other in _UP.split()
        if (up or down) and up not in ways:
            yield Finding(
                f"`{quoted(found)}` stands here, and the headings go the other way",
                sentence.place(found),
            )


_USED_FOR = r"(?:is|are) (?:used )?for (?:the )?([a-z]+)(?:(?:,| and) (?:the )?([a-z]+))?"
_MADE_IN = phrase(
    r"\bthe ([a-z]+)s? (?:is|are) (?:worked |made |knitted |knit |done )?in ([A-Z][\w’']+)\b"
)


def _of_part_yarns(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """The yarn that a text gives to a section or a piece that none of its steps is worked in."""
    keys = {yarn.name: key for key, yarn in context.pattern.yarns.items()}
    if len(keys) < len("ab") or sentence.supposes or sentence.prose.piece is not None:
        return
    names = "|".join(map(re.escape, keys))
    claims = [
        (found, found[1], noun)
        for found in sentence.said(re.compile(rf"\b({names}) {_USED_FOR}"))
        for noun in (found[2], found[3])
        if noun
    ]
    claims += [(f, f[2], f[1]) for f in sentence.said(_MADE_IN) if f[2] in keys]
    for found, name, noun in claims:
        parts = parts_named(context, noun)
        worked = {yarn for part in parts for yarn in yarns_worked(*part.steps)}
        if worked and keys[name] not in worked:
            yield Finding(
                f"`{quoted(found)}` stands here, and the {noun} is worked in "
                f"{context.pattern.yarns[sorted(worked)[0]].name}",
                sentence.place(found),
            )


_Judge = Callable[[Context, Sentence], Iterator[Finding]]
_JUDGES: tuple[_Judge, ...] = (
    _of_terms, _of_first_size, _of_amounts, _of_itself, _of_buttonholes, _of_places, _of_order,
    _of_turning_chains, _of_last_yarn, _of_kind,
    _of_tools, _of_bands, _of_st_st, _of_ratio, _of_way, _of_part_yarns,
)  # fmt: skip


def at_odds(context: Context) -> Iterator[Finding]:
    """One finding for each sentence and thing."""
    for sentence in sentences(context):
        for judge in _JUDGES:
            yield from judge(context, sentence)
