"""The instructions cut into pieces and parts, each sentence with what it says."""

from collections.abc import Iterable, Iterator, Sequence

from bindoff import regex as re
from bindoff.draft.beginnings import casts_on, takes_stitches_up
from bindoff.draft.gathered import NamedRows
from bindoff.draft.headings import KNOWN_PARTS, NO_TITLES, WHOLE_PIECES, Heading, make_said
from bindoff.draft.labels import label_of
from bindoff.draft.lines import Origin
from bindoff.draft.passages import Passage
from bindoff.draft.rows import Readable
from bindoff.draft.runs import Part as ReadPart
from bindoff.draft.runs import steps
from bindoff.draft.sayings import BindOff, Gather, Leave, Plain, Prose, Saying, TakeUp
from bindoff.draft.sentences import clauses, saying, sentences
from bindoff.draft.steps import Sentence, Step, joined
from bindoff.draft.yarns import YarnSaid
from bindoff.records import Record


class Part(Record):
    """A heading of the instructions, nothing where there is none; its place; its steps."""

    heading: str
    place: Origin
    steps: tuple[Step, ...]


class PieceSaid(Record):
    """A piece: its title, how many are made, whether it is worked in the round, and its parts."""

    title: str
    make: int
    in_round: bool
    parts: tuple[Part, ...]


class Instructions(Record):
    """The pieces, and what stands after them that works no stitch: each part's paragraphs."""

    pieces: tuple[PieceSaid, ...]
    after: tuple[tuple[str, Origin], ...]


class _Raw(Record):
    """A part: its heading and where that stands, its sentences, each with a paragraph's number."""

    heading: Heading | None
    place: Origin
    said: tuple["_Said", ...]


class _Said(Record):
    text: str
    origin: Origin
    number: int | None
    paragraph: int


_STEP_NUMBER = re.compile(r"(?P<n>\d{1,2})[.)]\s+(?=\S)")
_IN_ROUND = re.compile(
    r"\b(?:in the round|rnds?|join(?:,| to| in| into| for|ing)[a-z ,]{0,40}\b(?:round|twist\w*)|"
    r"rounds?|crank)\b",
    re.IGNORECASE,
)
_FLAT = re.compile(r"\b(?:rows?|turn|back and forth)\b|\((?:rs|ws)\)", re.IGNORECASE)
_JOINS = re.compile(r"\bjoin\b[^.]{0,50}\b(?:round|rnd|twist\w*)\b", re.IGNORECASE)
_ENDS = re.compile(
    r"\b(?:graft|drops? off|three-needle|fasten off|bind off all|cast off all|"
    r"break (?:the )?yarn and leave|"
    r"leave (?:these |the |rem\w* |all )*(?:\d+ )?(?:sts|stitches) (?:on|live))\b|"
    r"\b(?:put|place|slip|leave)\b (?:the |these |all |rem\w* |live )*(?:\d[\d (),\[\]]*)?(?:sts|"
    r"stitches) (?:on(?:to)?|to) "
    r"(?:a |an? |the )?(?:\w+ ){0,2}(?:holder|waste yarn|spare needle)",
    re.IGNORECASE,
)
_MAKE_SENTENCE = re.compile(
    r"(?:make|knit|work) (?:2|two|both|3|three|4|four)(?: (?:alike|the same|of these))?\.?$",
    re.IGNORECASE,
)
_SECOND = re.compile(
    r"(?:make|knit|work) (?:another|a second|the second|the other|one more)\b.{0,40}"
    r"(?:\b(?:alike|same|in the same way|to match|as the first|exactly like|"
    r"as for first)\b.{0,20})?$|"
    r"work (?:exactly )?(?:as|like) (?:for )?(?:the )?first (?:one|[a-z]+)?\.?$|"
    r"second [a-z]+: (?:work )?(?:the same|as first).*",
    re.IGNORECASE,
)
_ONE_ON_EACH = re.compile(r"\b(?:on|for) (?:each|both)\b(?: (?P<what>[a-z]+))?", re.IGNORECASE)
_OPENING = 4
"""Sentences of a part in which a piece begins, if it does."""


def instructions_of(
    body: Iterable[Passage],
    sizes: int,
    readable: Readable,
    yarns: Sequence[YarnSaid],
    pattern: str,
    notes: Iterable[str],
) -> Instructions:
    """The pieces of the instructions of a ``pattern`` with that title; ``notes`` may say how many
    are made of its only piece."""
    told = [text for note in notes for _, text in sentences(note) if _MAKE_SENTENCE.match(text)]
    make = max((make_said(text) or 1 for text in told), default=1)
    raw = tuple(_parts(body))
    raw, after = _without_last_words(raw)
    hand = _Hand(
        _taking_up(yarns), {name.lower(): each.key for each in yarns for name in _names(each)}
    )
    pieces: list[PieceSaid] = []
    named: dict[str, tuple[object, ...]] = {}
    groups = tuple(_pieces(raw))
    for group in groups:
        pieces.append(
            _piece(group, sizes, readable, hand, pieces, len(groups) > 1, pattern, make, named)
        )
    return Instructions(tuple(pieces), after)


# ---------------------------------------------------------------- cutting


def _parts(body: Iterable[Passage]) -> Iterator[_Raw]:
    heading: Heading | None = None
    place, said, paragraph = Origin(1, ""), list[_Said](), 0
    for passage in (each for whole in body for each in _parted(whole)):
        if passage.heading:
            if heading or said:
                yield _Raw(heading, place, tuple(said))
            heading, place, said = passage.heading, Origin(passage.line, passage.written), []
            continue
        paragraph += 1
        step = _STEP_NUMBER.match(passage.text)
        text = passage.text[step.end() :] if step else passage.text
        shift = len(passage.text) - len(text)
        for start, sentence in sentences(text):
            words = passage.text[: start + shift + len(sentence)] if start == 0 else sentence
            origin = Origin(passage.line_at(start + shift), words)
            said.append(_Said(sentence, origin, int(step["n"]) if step else None, paragraph))
    if heading or said:
        yield _Raw(heading, place, tuple(said))


_LED = re.compile(r"^(?P<head>[A-Z][A-Za-z]+(?: [A-Za-z]+){0,2}): (?=\S)")


def _parted(passage: Passage) -> Iterator[Passage]:
    """A paragraph that begins with the name of a part as a heading and the rest: Crown: ..."""
    led = None if passage.heading else _LED.match(passage.text)
    words = led["head"].lower().split() if led else []
    if led is None or not {words[0], words[-1]} & KNOWN_PARTS or label_of(passage.text):
        yield passage
        return
    yield Passage(led["head"], passage.lines[:1], Heading(led["head"], 3), f"{led['head']}:")
    lines = tuple((max(0, start - led.end()), line) for start, line in passage.lines)
    yield Passage(passage.text[led.end() :], lines)


def _without_last_words(
    raw: tuple[_Raw, ...],
) -> tuple[tuple[_Raw, ...], tuple[tuple[str, Origin], ...]]:
    """The parts that work stitches, and the paragraphs of those after them that work none."""
    last = len(raw)
    while last > 1 and raw[last - 1].heading and not any(map(_knits, raw[last - 1].said)):
        last -= 1
    after = [each for part in raw[last:] for each in _paragraphs(part)]
    return raw[:last], tuple(after)


def _paragraphs(part: _Raw) -> Iterator[tuple[str, Origin]]:
    numbers = list(dict.fromkeys(each.paragraph for each in part.said))
    heading = part.place.text.strip("# ").rstrip(":")
    if not numbers:
        yield heading, part.place
    for number in numbers:
        inside = [each for each in part.said if each.paragraph == number]
        words = " ".join(each.origin.text for each in inside)
        first = f"{heading}: " if number == numbers[0] else ""
        yield f"{first}{words}", Origin(inside[0].origin.line, words)


def _knits(said: _Said) -> bool:
    """Whether a sentence works stitches that can be counted."""
    saying_ = saying(said.text, 1)
    if isinstance(saying_, Prose):
        return saying_.names_stitches or takes_stitches_up(said.text) or casts_on(said.text)
    return not isinstance(saying_, TakeUp | Gather | Leave)


def _pieces(raw: tuple[_Raw, ...]) -> Iterator[tuple[_Raw, ...]]:
    """The parts of each piece."""
    gathered: list[_Raw] = []
    for at, part in enumerate(raw):
        opening = part.said or (raw[at + 1].said if at + 1 < len(raw) else ())
        if gathered and _begins_piece(part, opening, gathered):
            yield tuple(gathered)
            gathered = []
        *before, part = _cut_in(part, gathered)
        for each in before:
            yield (*gathered, each)
            gathered = []
        gathered.append(part)
    if gathered:
        yield tuple(gathered)


def _cut_in(part: _Raw, gathered: list[_Raw]) -> Iterator[_Raw]:
    """A part, cut where stitches are cast on after all were bound off."""
    ended, start = _ended(gathered), 0
    heading, place = part.heading, part.place
    for at, said in enumerate(part.said):
        if ended and at > start and casts_on(said.text):
            yield _Raw(heading, place, part.said[start:at])
            start, ended, heading, place = at, False, None, Origin(said.origin.line, "")
        ended = ended or _is_end(said)
    yield _Raw(heading, place, part.said[start:])


def _begins_piece(part: _Raw, opening: tuple[_Said, ...], before: list[_Raw]) -> bool:
    if part.heading is None or not any(each.said for each in before):
        return False
    if part.heading.make:
        return True
    texts = [each.text for each in opening[:_OPENING]]
    casts, takes = any(map(casts_on, texts)), any(map(takes_stitches_up, texts))
    had = any(casts_on(each.text) for old in before for each in old.said)
    if casts and had:
        return True
    whole = set(re.findall(r"[a-z]+", part.heading.text.lower())) & WHOLE_PIECES
    return takes and (_ended(before) or (bool(whole) and had and "held" in " ".join(texts)))


def _ended(parts: Iterable[_Raw]) -> bool:
    last = [said for part in parts for said in part.said][-6:]
    return any(map(_is_end, last))


def _is_end(said: _Said) -> bool:
    return isinstance(saying(said.text, 1), BindOff | Gather | Leave) or bool(
        _ENDS.search(said.text)
    )


# ---------------------------------------------------------------- one piece


class _Hand(Record):
    """How a yarn is taken in hand, and the key of each by what the text calls it."""

    words: re.Pattern[str] | None
    keys: dict[str, str]


def _names(yarn: YarnSaid) -> tuple[str, ...]:
    single = yarn.key.upper() if len(yarn.key) <= 3 else yarn.key
    return (single, yarn.name)


def _taking_up(yarns: Sequence[YarnSaid]) -> re.Pattern[str] | None:
    """Words with which one of several yarns is taken in hand."""
    if len(yarns) < 2:
        return None
    letters = "|".join(re.escape(name) for each in yarns for name in _names(each) if name.isupper())
    names = "|".join(
        re.escape(name) for each in yarns for name in _names(each) if not name.isupper()
    )
    either = "|".join(filter(None, (letters, f"(?i:{names})" if names else "")))
    return re.compile(
        rf"\b(?i:using|with|(?:change|changing|switch|back) to|join|in) (?i:yarn |"
        rf"colou?r )?({either})\b"
    )


def _piece(
    parts: tuple[_Raw, ...],
    sizes: int,
    readable: Readable,
    hand: _Hand,
    before: list[PieceSaid],
    several: bool,
    pattern: str,
    make: int,
    named: dict[str, tuple[object, ...]],
) -> PieceSaid:
    words = " ".join(each.text for part in parts for each in part.said)
    in_round = _begins_in_round(words)
    made: list[Part] = []
    yarn, rounds, read = "", in_round, ReadPart()
    title = _title(parts, several)
    called = " ".join(
        (
            title,
            "" if several else pattern,
            *(part.heading.text for part in parts[:1] if part.heading and several),
        )
    ).lower()
    for part in parts:
        said: list[Sentence] = []
        for each in part.said:
            joins = not rounds and bool(_JOINS.search(each.text))
            rounds = rounds or joins
            for start, clause in clauses(each.text, sizes):
                for name in hand.words.findall(clause) if hand.words else ():
                    yarn = hand.keys.get(name.lower(), yarn)
                whole = clause == each.text
                bare = _without_yarn(clause, hand)
                origin = (
                    each.origin
                    if whole
                    else Origin(each.origin.line, _part_of(each, start, clause))
                )
                said.append(
                    Sentence(
                        _without_waste(_saying(clause, bare, sizes), each.text),
                        origin,
                        yarn,
                        rounds,
                        each.number,
                        joins,
                        clause,
                    )
                )
        heading = part.heading.text if part.heading else ""
        known: NamedRows = named  # type: ignore[assignment]
        read = steps(said, heading, called, read, readable, known)
        if heading and read.rows:
            named[heading.lower()] = read.rows
        made.append(Part(_shown(part.heading), part.place, tuple(joined(read.steps))))
    first = parts[0].heading
    return PieceSaid(
        title,
        _make(first, parts, before) if several else max(_make(first, parts, before), make),
        in_round,
        tuple(made),
    )


def _saying(clause: str, bare: str, sizes: int) -> Saying:
    """What a clause says; without the yarn it names, where only so it is understood."""
    said = saying(clause, sizes)
    if isinstance(said, Prose) and bare != clause:
        without = saying(bare, sizes)
        return said if isinstance(without, Prose) else without
    return said


def _without_yarn(clause: str, hand: _Hand) -> str:
    """A clause without the words that take a known yarn in hand: With CC, knit 4 rounds."""
    found = hand.words.search(clause) if hand.words else None
    if found is None:
        return clause
    before, after = clause[: found.start()].strip(), clause[found.end() :].strip(" ,")
    if not before and after:
        return f"{after[:1].upper()}{after[1:]}"
    return f"{before}." if before and after in ("", ".") else clause


_WASTE = re.compile(r"\b(?:change to|with|join|using|switch to) (?:the |some )?waste yarn\b", re.I)


def _without_waste(said: Saying, sentence: str) -> Saying:
    """Rows of waste yarn belong to no piece: they stay in words."""
    if isinstance(said, Plain) and _WASTE.search(sentence):
        return Prose(sentence, works=True, names_stitches=False)
    return said


def _shown(heading: Heading | None) -> str:
    """A heading with its remark, unless that says only how many are made."""
    if heading is None:
        return ""
    bare = heading.text.capitalize() if heading.text.isupper() else heading.text
    counted = heading.make or _ONE_ON_EACH.search(heading.remark)
    return bare if counted or not heading.remark else f"{bare} ({heading.remark})"


def _begins_in_round(words: str) -> bool:
    """How a piece is worked at first: as the first of its words says that tells it."""
    rounds, rows = _IN_ROUND.search(words), _FLAT.search(words)
    return rows is None or (rounds is not None and rounds.start() < rows.start())


def _part_of(each: _Said, start: int, clause: str) -> str:
    number = each.origin.text[: len(each.origin.text) - len(each.text)]
    return f"{number}{clause}" if start == 0 else clause


def _title(parts: tuple[_Raw, ...], several: bool) -> str:
    """What the heading calls the piece, nothing where that is the name of a part alone."""
    first = parts[0].heading
    if first is None or first.text.lower() in NO_TITLES:
        return ""
    title = first.text.capitalize() if first.text.isupper() else first.text
    whole = set(re.findall(r"[a-z]+", title.lower())) & WHOLE_PIECES
    if first.make or not parts[0].said or len(parts) == 1 or whole or first.remark:
        return title
    return title if several and first.strength == 1 and len(parts) < 3 else ""


def _make(first: Heading | None, parts: tuple[_Raw, ...], before: list[PieceSaid]) -> int:
    if first and first.make:
        return first.make
    if first and (each := _ONE_ON_EACH.search(first.remark)):
        what = (each["what"] or "").lower()
        pairs = [piece.make for piece in before if piece.make > 1]
        alike = [piece.make for piece in before if what and what in piece.title.lower()]
        return next(iter((*alike, *pairs)), 1)
    said = [each.text for part in parts for each in part.said]
    for text in said[:3]:
        if _MAKE_SENTENCE.match(text) and (make := make_said(text)):
            return make
    if any(_SECOND.match(text) for text in said[-4:]):
        return 2
    return next((piece.make for piece in before if piece.make == 2 and _held_from(said)), 1)


def _held_from(said: list[str]) -> bool:
    """Whether a piece goes on with stitches held of the one before, of which there are as many."""
    return any(takes_stitches_up(text) and "held" in text for text in said[:_OPENING])
