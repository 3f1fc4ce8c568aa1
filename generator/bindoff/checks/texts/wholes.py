"""What a text says of the whole: what it is, in how many pieces, how much yarn, which sizes.

Each finder takes a sentence and tells what the rest of the pattern contradicts.
"""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.prose import Prose
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.checks.texts.named.nouns import any_noun, kinds_of, noun_of
from bindoff.checks.texts.named.world import world_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import length_said, millimetres, sizes_said, steps_of
from bindoff.diagnostics import Span
from bindoff.english import an
from bindoff.plan.values import Kind, Measure
from bindoff.source.model import TextUse
from bindoff.source.steps.section import SectionStep


def of_the_whole(context: Context) -> Iterator[Finding]:
    """Everything that some sentence says of the whole and that is not so."""
    for sentence in sentences(context):
        for find in (
            _in_one_piece,
            _part_of_a_ball,
            _listed_sizes,
            _washed,
            _blocked,
            _needles_held,
        ):
            yield from find(context, sentence)
    yield from _headings(context)
    yield from _title(context)


# ---------------------------------------------------------------- pieces

_ONE_PIECE = phrase(
    r"\b(?:(?:knit(?:ted)?|worked|made|crocheted|all)\b[^.;]{0,25}?\bin (?:one|a single|1) piece"
    r"|seamless(?:ly)?|without (?:a|any) seams?|there are no seams)\b"
    r"(?! (?:to|up to|until|as far|from [^.;]{1,30} to)\b)"
)


_OF_A_PART = phrase(
    r"\b(?:body|bands?|back and (?:both )?fronts|fronts and back|yoke|hood|collar|each|sleeves?)\b"
)


def _in_one_piece(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """One piece, where several flat ones are cast on and sewn together."""
    if sentence.prose.kind not in (TextUse.HEAD, TextUse.TEXT) or sentence.supposes:
        return
    flat = {at.plan.key for at in steps_of(context) if at.step.begins and at.step.begins.by}
    flat = {key for key in flat if context.pattern.pieces[key].worked == "flat"}
    seamed = re.compile(r"\b(?:sew|sewn|seams?)\b", re.IGNORECASE)
    if len(flat) < 3 or not any(seamed.search(each.text) for each in context.prose):
        return
    if _OF_A_PART.search(sentence.words):
        return  # it speaks of one of the pieces
    titles = "|".join(re.escape(p.title.lower()) for p in context.pattern.pieces.values())
    subject = re.compile(rf"(?i)\b(?:the|each|both) (?:{titles})s?\b[^.;,]*$")
    for found in sentence.said(_ONE_PIECE):
        if subject.search(sentence.words[: found.start()]):
            continue
        yield Finding(
            f"`{' '.join(found[0].split())}` stands here, and {len(flat)} pieces are cast on",
            sentence.place(found),
        )


# ---------------------------------------------------------------- yarn

_PARTS = {"half": 0.5, "third": 1 / 3, "quarter": 0.25, "two thirds": 2 / 3, "three quarters": 0.75}
_OF_A_BALL = phrase(
    r"\b(?:less than )?(?:an? |one )?(two[- ]thirds|three[- ]quarters|half|third|quarter)"
    r"(?: of)? an? (?:ball|skein|hank|cone)(?: of ([A-Z][\w'’-]*))?(?! (?:more|extra|less)\b)"
)
_SERVES = phrase(
    r"\b(?:enough|suffice\w*|needs?|needed|takes?|taken|plenty|required?|requires|uses?|used"
    r"|will do|makes?|knits?)\b"
)
_NEARLY = 1.1
"""What is told of a ball is told roundly."""


def _part_of_a_ball(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A part of a ball that is called enough, where some size takes more of it."""
    if not _SERVES.search(sentence.words) or sentence.supposes:
        return
    names = {yarn.name: key for key, yarn in context.pattern.yarns.items()}
    for found in sentence.said(_OF_A_BALL):
        key = names.get(found[2] or "")
        totals = [each for each in context.plan.yarn if key in (None, each.yarn)]
        if re.search(
            r"(?i)\b(?:over|than|about|left|leaves|another|spare|and) $",
            sentence.words[: found.start()],
        ):
            continue
        part = _PARTS[re.sub(r"[-\s]+", " ", found[1].lower())]
        short = [
            size
            for size, _ in enumerate(context.source.sizes)
            if totals and all(t.needs[size].grams > _NEARLY * part * t.ball.grams for t in totals)
        ]
        if short:
            grams = min(t.needs[short[-1]].grams for t in totals)
            yield Finding(
                f"`{' '.join(found[0].split())}` stands here, and it takes {grams:.0f} g in "
                f"{sizes_said(context, short[-1:])}",
                sentence.place(found),
            )


# ---------------------------------------------------------------- sizes

_GIVEN_AS = re.compile(
    r"\b(?:figures?|numbers?|sizes?|counts?|instructions?|directions?)\b[^.;:]{0,40}?"
    r"\b(?:as|stand|read|given|written|order|for)\b",
    re.IGNORECASE,
)


def _listed_sizes(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A list such as S (M, L) that has another name where a size stands."""
    names = tuple(context.source.sizes)
    if len(names) < 2 or not _GIVEN_AS.search(sentence.words):
        return
    first = {re.escape(names[0]), re.escape(_bare(names[0]))}
    listed = re.compile(rf"(?<![\w–-])(?:{'|'.join(sorted(first, reverse=True))}) ?\(([^()]+)\)")
    for found in listed.finditer(sentence.words):
        told = [each.strip() for each in re.split(r",? and |, | or ", found[1])]
        if len(told) != len(names) - 1:
            continue
        for index, (one, name) in enumerate(zip(told, names[1:], strict=True), 1):
            known = {name.lower(), _bare(name).lower()}
            if one.lower() not in known and _may_be_a_size(one, names):
                yield Finding(
                    f"`{one}` stands here, and the {_TH.get(index, 'last')} size in brackets is "
                    f"`{name}`",
                    sentence.part(*found.span()),
                    beside=(_of_size(context, name),),
                )
                break


_TH = {1: "first", 2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth"}


def _of_size(context: Context, name: str) -> Span:
    return context.pattern.place.of("sizes").of(name).span


def _bare(name: str) -> str:
    """The name of a size without the unit of its age."""
    return re.sub(r"\s*(?:months?|years?|mths?|yrs?|cm|in)$", "", name, flags=re.IGNORECASE)


def _may_be_a_size(word: str, names: tuple[str, ...]) -> bool:
    """Whether a word looks like the names of the sizes: numbers where all are numbers."""
    if word in names:
        return False  # in another order: another check tells it
    if all(re.match(r"\d", name) for name in names):
        return re.fullmatch(r"\d+(?:[–-]\d+)?", word) is not None
    return re.fullmatch(r"[A-Z0-9][\w-]*", word) is not None


# ---------------------------------------------------------------- care

_NOT_WASHED = phrase(
    r"\b(?:dry[- ]clean(?:ed)? only|only (?:be )?dry[- ]cleaned|do not wash|never wash|never wet"
    r"|must not (?:be washed|get wet|be wetted)|do not (?:wet|soak)|not (?:be )?wash(?:ed|able))\b"
)
_WASHED = phrase(
    r"(?:^|[.;,] |\band |\bthen )(?:hand[- ]?wash|machine[- ]?wash|wash|soak|wet|rinse)"
    r" (?:it|them|the|this|your|both|each|by|in|at|and)\b"
)


def _washed(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """What must never be wetted, where another text washes it."""
    for found in _NOT_WASHED.finditer(sentence.words) if not sentence.supposes else ():
        if re.search(
            r"(?i)\b(?:with|before|until|until it|too|more|hot|in the machine)\b",
            sentence.words[found.end() :][:25],
        ):
            continue
        for prose in context.prose:
            if prose.path[:1] in (("finishing",), ("care",)) and prose is not sentence.prose:
                for _, place in prose.found(_WASHED):
                    yield Finding(
                        f"`{' '.join(found[0].split())}` stands here, and it is washed elsewhere",
                        sentence.place(found),
                        beside=(place,),
                    )
                    return


# ---------------------------------------------------------------- measures

_LONG = r"\d{1,4}(?:\.\d{1,3})?"
_FIGURE = rf"(?<!\d)({_LONG})(?: ?\(({_LONG}(?:, ?{_LONG}){{0,30}})\))? ?(cm|in|inches)"
_BESIDE = r"(?: ?\([^()]{0,200}\))?"
_BLOCKED = phrase(
    rf"{_FIGURE}{_BESIDE} (wide|across|long|high|deep|tall)(?: and|,| by| ×)? {_FIGURE}{_BESIDE}"
    r" (wide|across|long|high|deep|tall)\b"
)
_TO_SIZE = phrase(
    r"\b(?:block|pin|stretch|ease|pat|dry|lay|finished|pull)\w*\b(?![^.;]*\b(?:strap|pocket|band"
    r"|flap|swatch|cord|handle|each|edging)s?\b)"
)
_CLOSE = 0.03


def _blocked(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A width and a length told together, where `finished:` has others by those names."""
    for found in _BLOCKED.finditer(sentence.words) if not sentence.supposes else ():
        if not _TO_SIZE.search(sentence.words[: found.start()]):
            continue
        first, second = found.groups()[:4], found.groups()[4:]
        told = {_way(each[3]): each for each in (first, second)}
        if told.keys() != {"width", "length"}:
            continue
        finished = {way: each for way in told if (each := _finished(context, way)) is not None}
        if finished.keys() != told.keys():
            continue
        mm = {way: _lengths(each[0], each[1], each[2]) for way, each in told.items()}
        sizes = range(len(context.source.sizes))
        for way, other in (("width", "length"), ("length", "width")):
            listed = [mm[way][min(size, len(mm[way]) - 1)] for size in sizes]
            own, wrong = finished[way].rounded, finished[other].rounded
            span = finished[way].span
            beside = (span,) if span is not None else ()
            if len(mm[way]) == len(sizes) and any(
                abs(listed[s] - own[s]) > _CLOSE * own[s] for s in sizes
            ):
                yield Finding(
                    f"`{' '.join(found[0].split())}` stands here, and the finished {way} is "
                    f"{', '.join(length_said(context, each) for each in own)}",
                    sentence.place(found),
                    beside=beside,
                )
                break
            if (
                len(mm[way]) == len(sizes)
                and own != wrong
                and all(abs(listed[s] - wrong[s]) < abs(listed[s] - own[s]) / 2 for s in sizes)
            ):
                yield Finding(
                    f"`{' '.join(found[0].split())}` stands here, and width and length have "
                    "changed places",
                    sentence.place(found),
                )
                break


def _way(word: str) -> str:
    return "width" if word.lower() in ("wide", "across") else "length"


def _finished(context: Context, way: str) -> Measure | None:
    """The finished width or length of the whole; nothing where none is called so."""
    labels = {"width": ("width",), "length": ("length", "height", "depth")}[way]
    for label, measure in context.plan.measures.finished.items():
        if label.lower().removeprefix("finished ") in labels and measure.kind is Kind.LENGTH:
            return measure
    return None


def _lengths(first: str, more: str | None, unit: str) -> list[float]:
    figures = [first, *(more.split(",") if more else ())]
    return [millimetres(float(each), unit) for each in figures]


# ---------------------------------------------------------------- needles

_FIVE = {"three": 3, "four": 4, "five": 5, "3": 3, "4": 4, "5": 5}
_SET_OF = re.compile(r"\bset of (three|four|five|[345](?!\.\d| ?mm))\b", re.IGNORECASE)
_HELD_ON = phrase(r"\b(?:on|over|onto|between|among)(?: each of| to)? (three|four|3|4) needles\b")


def _needles_held(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Stitches on so many needles of a set that none is left to knit with."""
    listed = [
        (_FIVE[found[1].lower()], tool)
        for tool in context.pattern.tools
        for found in _SET_OF.finditer(tool.name)
    ]
    if not listed or sentence.supposes:
        return
    most, tool = max(listed, key=lambda each: each[0])
    for found in _HELD_ON.finditer(sentence.words):
        held = _FIVE[found[1].lower()]
        if held >= most:
            yield Finding(
                f"`{' '.join(found[0].split())}` stands here, and of the set of {most} that is "
                "listed none is left to knit with",
                sentence.place(found),
                beside=(tool.place.span,),
            )


# ---------------------------------------------------------------- names

_SURE_PARTS = frozenset(
    {"thumb", "heel", "toe", "instep", "sole", "palm", "knuckle", "raglan", "armhole", "sleeve"}
    | {"yoke", "ankle", "underarm", "bust", "crown", "visor", "earflap"}
)


def _headings(context: Context) -> Iterator[Finding]:
    """A heading that is a part of another kind of piece, and that nothing else speaks of."""
    world = world_of(context)
    if not context.in_english or not world.kinds:
        return
    for key, piece in context.pattern.pieces.items():
        kinds = {*kinds_of(f"{key} {piece.title}")} or world.kinds
        for step in piece.steps:
            if not isinstance(step, SectionStep):
                continue
            for found in any_noun().finditer(step.section):
                noun = noun_of(found[1])
                told = sum(len(noun.forms.findall(p.raw)) for p in context.prose)
                told += sum(
                    len(noun.forms.findall(t)) for t in (*world.lists, context.pattern.title)
                )
                if noun.word in _SURE_PARTS and not noun.kinds & (kinds | world.kinds) and told < 2:
                    yield Finding(
                        f"`{step.section}` heads this part, and nothing else in the pattern knows "
                        f"of {an(noun.word)}",
                        step.place.of("section").span,
                    )


_ALIKE = (
    "hat cap beanie bonnet toque tam beret",
    "cowl snood neckwarmer",
    "scarf stole wrap shawl shawlette kerchief",
    "sock stocking",
    "mitten mitt glove",
    "pullover sweater jumper gansey",
    "cardigan jacket coat",
    "vest waistcoat slipover",
    "blanket afghan throw",
    "cushion pillow",
    "bag pouch tote purse",
)
_NOUN = re.compile(rf"\b({'|'.join(' '.join(_ALIKE).split())})s?\b", re.IGNORECASE)


def _title(context: Context) -> Iterator[Finding]:
    """A title that names another thing than every other text, the summary and the pieces do."""
    title = context.pattern.title
    named = _families(title)
    if not context.in_english or len(named) != 1:
        return
    pieces = " ".join(f"{key} {p.title}" for key, p in context.pattern.pieces.items())
    summary = _families(context.pattern.summary)
    others = summary & (_families(pieces) or summary)
    rest: set[str] = set()
    for prose in context.prose:
        if not _is_title(prose):
            rest |= _families(prose.text)
    if others and not named & (rest | _families(pieces)):
        said, word = _NOUN.search(title), next(iter(sorted(others)))
        assert said is not None
        texts = _NOUN.search(f"{context.pattern.summary} {pieces}")
        yield Finding(
            f"`{title}` is the title, and all texts speak of {an((texts or said)[1].lower())}",
            context.pattern.place.of("title").span,
            f"Name it by one word throughout: {word.split()[0]}, if that is meant",
        )


def _is_title(prose: Prose) -> bool:
    return prose.path == ("title",)


def _families(text: str) -> set[str]:
    """The things that a text names, each as all words for such a thing."""
    return {
        family
        for found in _NOUN.finditer(text)
        for family in _ALIKE
        if found[1].lower() in family.split()
    }
