"""The whole text read part by part: under each heading either facts or instructions."""

from collections.abc import Iterable, Iterator

from bindoff import regex as re
from bindoff.craft.entry import Terms
from bindoff.craft.stitches import standard_book
from bindoff.diagnostics import PatternError, Span
from bindoff.draft.facts import (
    TOOL,
    GaugeSaid,
    SizesSaid,
    YarnSaid,
    bodies_said,
    finished_said,
    gauge_said,
    sizes_said,
    wearers_said,
    yarn_said,
)
from bindoff.draft.passages import Passage, passages
from bindoff.draft.runs import Readable, Sentence, Step, joined, steps
from bindoff.draft.sentences import BindOff, CastOn, Gather, saying, sentences
from bindoff.records import Record
from bindoff.source.rowlang.read import read_row


class Part(Record):
    """A heading of the instructions, nothing before the first, and the steps under it."""

    heading: str
    steps: tuple[Step, ...]


class PieceSaid(Record):
    """A piece: its title, whether it is worked in the round, and its parts."""

    title: str
    in_round: bool
    parts: tuple[Part, ...]


class Said(Record):
    """All that a text says, sorted. ``unplaced``: lines of facts that no fact was found in."""

    title: str
    designer: str
    summary: str
    british: bool
    units: str
    sizes: SizesSaid
    sizes_line: int | None
    wearers: tuple[str, ...]
    gauge: GaugeSaid | None
    yarns: tuple[YarnSaid, ...]
    tools: tuple[str, ...]
    notions: tuple[str, ...]
    finished: tuple[tuple[str, tuple[str, ...]], ...]
    notes: tuple[str, ...]
    finishing: tuple[str, ...]
    care: tuple[str, ...]
    pieces: tuple[PieceSaid, ...]


_TOPICS = (
    ("sizes", "sizes?|sizing|to fit"),
    ("gauge", "gauge|tension|stitch gauge"),
    ("yarn", "yarns?|wool"),
    ("materials", "materials|you(?: will|’ll|'ll)? need|requirements|supplies|what you need"),
    ("tools", "needles?|hooks?|tools|equipment|notions|haberdashery|other materials|extras"),
    ("finished", "finished (?:measurements?|size|dimensions?|circumference|width|length|height|"
     "chest|bust|depth)|measurements?|dimensions"),
    ("abbreviations", "abbreviations?|key"),
    ("notes", "(?:pattern |designer[’']?s? )?notes?|construction|special (?:stitches|techniques)"),
    ("finishing", "finishing|making up|to make up|to finish|assembly|to complete"),
    ("care", "care|washing"),
    ("designer", "design(?:er|ed)?(?: by)?|by|author"),
)  # fmt: skip
_TOPIC = tuple(
    (name, re.compile(rf"(?:{words})\b(?P<colon> ?[:.=–-]| (?=[A-Z\d(])|$)", re.IGNORECASE))
    for name, words in _TOPICS
)
_BY = re.compile(r"(?:a pattern |designed? )?by (?P<name>[A-Z][\w.’' -]{1,60})$", re.IGNORECASE)
_BRITISH = re.compile(
    r"\b(?:tension|cast off|stocking stitch|double crochet into|moss stitch)\b", re.I
)
_IN_ROUND = re.compile(
    r"\b(?:in the round|rnds?|join(?:,| to| in| into| for|ing)[a-z ,]{0,40}\b(?:round|twist\w*)|"
    r"rounds?)\b",
    re.IGNORECASE,
)
_FLAT = re.compile(r"\b(?:rows?|turn|\(?[rw]s\)?)\b", re.IGNORECASE)


def _topic(text: str) -> tuple[str, str]:
    """The topic with which a line or a heading begins, and the rest of it; else no topic."""
    bare = text.strip("* ")
    for name, words in _TOPIC:
        if found := words.match(bare):
            keeps = name in ("finished",)
            return name, bare if keeps else bare[found.end() :].strip(" :.*–-=")
    return "", text


class _Line(Record):
    topic: str
    text: str
    passage: Passage


def read_text(text: str) -> Said:
    """What ``text`` says. Never raises: what can't be read is prose, or not there."""
    found = list(passages(text))
    head, body = _sorted(found)
    by_topic = {
        name: [line for line in head if line.topic == name]
        for name in ("", *(name for name, _ in _TOPICS))
    }
    british = bool(_BRITISH.search(text))
    sizes, sizes_line = _sizes(by_topic["sizes"], head)
    count = len(sizes.names)
    lines = [*by_topic["materials"], *by_topic["yarn"], *by_topic["tools"]]
    yarn_lines = [(line, yarn) for line in lines if (yarn := _yarn(line.text))]
    others = [line for line in lines if line not in [each for each, _ in yarn_lines]]
    gauges = [gauge for line in by_topic["gauge"] if (gauge := gauge_said(line.text))]
    gauges += [gauge for line in head if (gauge := gauge_said(line.text))]
    finished = [each for line in by_topic["finished"] for each in finished_said(line.text, count)]
    bodies = {
        part: values
        for line in (*by_topic["sizes"], *by_topic[""])
        for part, values in bodies_said(line.text, count)
    }
    title, designer, summary = _opening(found, by_topic[""], by_topic["designer"])
    words = " ".join((title, summary, *(line.text for line in by_topic["sizes"])))
    readable = _readable(count, british)
    return Said(
        title=title.title() if title.isupper() or title == title.capitalize() else title,
        designer=designer,
        summary=summary,
        british=british,
        units=_units(text),
        sizes=SizesSaid(sizes.names, tuple(bodies.items())),
        sizes_line=sizes_line,
        wearers=wearers_said(words),
        gauge=gauges[0] if gauges else None,
        yarns=tuple(yarn for _, yarn in yarn_lines),
        tools=tuple(_item(line.text) for line in others if TOOL.search(line.text)),
        notions=tuple(_item(line.text) for line in others if not TOOL.search(line.text)),
        finished=tuple(dict(finished).items()),
        notes=tuple(line.text for line in by_topic["notes"] if line.text),
        finishing=tuple(line.text for line in by_topic["finishing"] if line.text),
        care=tuple(line.text for line in by_topic["care"] if line.text),
        pieces=tuple(_pieces(body, count, readable, tuple(yarn.key for _, yarn in yarn_lines))),
    )


def _sorted(found: list[Passage]) -> tuple[list[_Line], list[Passage]]:
    """Lines of facts with their topics, and the instructions: headings and what stands under."""
    head: list[_Line] = []
    body: list[Passage] = []
    topic, instructing = "", False
    for number, passage in enumerate(found):
        said, rest = _topic(passage.text)
        if passage.is_heading:
            topic = said
            instructing = not said and (number > 0 or _begins_work(found[number + 1 : number + 3]))
            if instructing:
                body.append(passage)
            elif said and rest and said != "finished":
                head.append(_Line(said, rest, passage))
            continue
        if instructing:
            body.append(passage)
        elif said:
            if rest:
                head.append(_Line(said, rest, passage))
            else:
                topic = said
        else:
            head.append(_Line(topic, passage.text, passage))
    return head, body


def _units(text: str) -> str:
    """Which units the text gives its lengths in."""
    metric, imperial = (
        re.search(rf"\d ?{unit}", text, re.IGNORECASE)
        for unit in (r"cm\b", r"(?:in\b|inch|[\"”″])")
    )
    return (
        "imperial" if imperial and not metric else "metric" if metric and not imperial else "both"
    )


def _begins_work(after: Iterable[Passage]) -> bool:
    return any(
        isinstance(saying(text, 1), CastOn) for each in after for _, text in sentences(each.text)
    )


def _item(text: str) -> str:
    return re.sub(r"^[-*•–] ", "", text).strip().rstrip(".")


def _yarn(text: str) -> YarnSaid | None:
    return None if TOOL.search(text) else yarn_said(text)


def _sizes(lines: list[_Line], head: list[_Line]) -> tuple[SizesSaid, int | None]:
    for line in lines:
        if said := sizes_said(line.text):
            return said, line.passage.line
    for line in head:
        if line.text.lower().startswith("one size"):
            return SizesSaid(("One size",)), line.passage.line
    return SizesSaid(("One size",)), None


def _opening(
    found: list[Passage], loose: list[_Line], designers: list[_Line]
) -> tuple[str, str, str]:
    """The title, the designer and the summary: what stands before all topics."""
    title = found[0].text.strip(" *") if found else ""
    designer = designers[0].text if designers else ""
    summary: list[str] = []
    for line in loose:
        if line.passage is found[0]:
            continue
        if by := _BY.match(line.text):
            designer = designer or by["name"]
        elif not any(bodies_said(line.text, 1)) and len(line.text.split()) > 3:
            summary.append(line.text)
    return title, designer, " ".join(summary)


def _readable(sizes: int, british: bool) -> Readable:
    """Asks the reader of rows whether it can read one."""
    book = standard_book(Terms("UK" if british else "US"))

    def can_read(row: str) -> bool:
        if len(row) > 1000:
            return False
        try:
            read_row(row, Span("", 1, 1, 1, 1 + len(row)), book, sizes=sizes)
        except PatternError:
            return False
        return True

    return can_read


def _pieces(
    body: list[Passage], sizes: int, readable: Readable, yarns: tuple[str, ...]
) -> Iterator[PieceSaid]:
    """The pieces: a new one begins where stitches are cast on after all were bound off."""
    taken_up = _taking_up(yarns)
    yarn = ""
    parts: list[tuple[str, list[Sentence]]] = []
    ended = False
    title = ""
    for passage in body:
        if passage.is_heading:
            parts.append((passage.text, []))
            continue
        for start, text in sentences(passage.text):
            for named in taken_up.findall(text) if taken_up else ():
                yarn = named.lower()
            said = Sentence(text, saying(text, sizes), passage.line_at(start), yarn)
            if isinstance(said.said, CastOn) and ended:
                heading = parts.pop() if parts and not parts[-1][1] else ("", [])
                yield _piece(title, parts, readable)
                parts, ended, title = [heading], False, heading[0]
            if not parts:
                parts.append(("", []))
            parts[-1][1].append(said)
            ended = ended or isinstance(said.said, BindOff | Gather)
    if parts:
        yield _piece(title, parts, readable)


def _taking_up(yarns: tuple[str, ...]) -> re.Pattern[str] | None:
    """Words with which one of several yarns is taken in hand."""
    if len(yarns) < 2:
        return None
    names = "|".join(map(re.escape, yarns))
    return re.compile(rf"\b(?:using|with|change to|changing to|join|in) ({names})\b", re.IGNORECASE)


def _piece(title: str, parts: list[tuple[str, list[Sentence]]], readable: Readable) -> PieceSaid:
    words = " ".join(each.text for _, said in parts for each in said)
    rounds, rows = len(_IN_ROUND.findall(words)), len(_FLAT.findall(words))
    in_round = rounds >= rows
    made = tuple(
        Part(heading, tuple(joined(steps(said, in_round, readable))))
        for heading, said in parts
        if heading or said
    )
    only = parts[0][0] if len(parts) == 1 else ""
    return PieceSaid(title or only, in_round, made)
