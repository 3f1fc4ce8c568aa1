"""Facts and instructions of a text told apart: each line before the instructions has its topic."""

from collections.abc import Sequence

from bindoff import regex as re
from bindoff.draft.beginnings import casts_on, picks_up_so_many, takes_stitches_up
from bindoff.draft.passages import Passage
from bindoff.draft.sentences import sentences
from bindoff.records import Record

TOPICS = (
    ("sizes", "sizes?|sizing|to fit"),
    ("gauge", "gauge|tension|stitch gauge"),
    ("yarn", "yarns?|wool"),
    ("materials", "materials|(?:what )?you(?: will|’ll|'ll)? need|requirements|supplies"),
    ("tools", "needles?|hooks?|tools|equipment|notions|haberdashery|other materials|extras"),
    ("finished", "finished (?:measurements?|sizes?|dimensions?|circumference|width|length|height|"
     "chest|bust|depth)|(?:actual |knitted )?measurements?|dimensions"),
    ("abbreviations", "abbreviations?(?: used)?|key|short forms|terms(?: used)?|glossary"),
    ("notes", "(?:pattern |designer[’']?s? |general )?(?:notes?|remarks|hints|tips)|construction|"
     "special (?:stitches|techniques)|before you (?:start|begin)"),
    ("finishing", "finishing|making up|to make up|to finish|assembly|to complete|making-up|"
     "sewing up|seaming|putting (?:it )?together"),
    ("care", "care|washing|aftercare"),
    ("designer", "design(?:er|ed)?(?: by)?|by|author|(?:a )?pattern by"),
)  # fmt: skip
_TOPIC = tuple(
    (
        name,
        re.compile(
            rf"(?:{words})\b(?P<mark>\s*[:.=–]\s*|\s+-\s+|$|\s(?=[\d(])|(?-i:\s(?=[A-Z])))",
            re.IGNORECASE,
        ),
    )
    for name, words in TOPICS
)
_TOPIC_AS_HEADING = tuple(
    (name, re.compile(rf"(?:{words})\b", re.IGNORECASE)) for name, words in TOPICS
)
_WITH_MORE = re.compile(
    r"(?P<topic>yarns?|materials|needles?|tools)\b[^:]{1,30}:(?P<rest>.*)", re.I
)


_THINGS = ("yarn", "materials", "tools")


class HeadLine(Record):
    """A line that is no instruction: its topic, its words without the topic's, and its passage.

    ``opening`` before the first topic.
    """

    topic: str
    text: str
    passage: Passage
    opening: bool = False


class Sorted(Record):
    """The lines of facts, and the instructions with their headings."""

    head: tuple[HeadLine, ...]
    body: tuple[Passage, ...]


def topic_of(text: str) -> tuple[str, str]:
    """The topic with which a line begins, and the rest of it; else no topic."""
    bare = text.strip("* ")
    for name, words in _TOPIC:
        if found := words.match(bare):
            return name, bare if name == "finished" else bare[found.end() :].strip(" :.*–-=")
    if (found := _WITH_MORE.match(bare)) and len(bare.split()) < 12:
        return ("materials" if found["topic"][0] in "mM" else
                "yarn" if found["topic"][0] in "yY" else "tools"), bare  # fmt: skip
    return "", text


def _heading_topic(text: str) -> str:
    return next((name for name, words in _TOPIC_AS_HEADING if words.match(text)), "")


def sorted_by_topic(found: Sequence[Passage]) -> Sorted:
    """Lines of facts with their topics, and the instructions: headings and what stands under."""
    head: list[HeadLine] = []
    body: list[Passage] = []
    topic, opening, instructing = "", True, False
    for number, passage in enumerate(found):
        if passage.heading:
            said = _heading_topic(passage.text)
            if said == "finishing" and _picks_up(_under(found, number)):
                said = ""
            if not said and _instructs(found, number, bool(body)):
                instructing = True
                body.append(passage)
                continue
            instructing = False
            of_its_own = passage.heading.strength < 3 or passage.written.endswith(":")
            if number > 0 and (said or (of_its_own and not opening)):
                topic = said or "notes"
            opening = opening and not said
            head.append(_of_heading(said, topic, passage, opening))
            continue
        said, rest = topic_of(passage.text)
        last = said in ("finishing", "care") and rest and ":" in passage.text[:30]
        if instructing and last and not _picks_up([passage]):
            head.append(HeadLine(said, rest, passage))
            topic, instructing = said, False
            continue
        if instructing:
            body.append(passage)
            continue
        if said and (topic not in ("notes", "finishing", "abbreviations") or ":" in passage.text):
            opening = opening and said == "designer"
            head.append(HeadLine(said, rest, passage))
            topic = said if not rest else "" if topic in _THINGS and said not in _THINGS else topic
        elif not body and topic != "notes" and _starts(passage):
            instructing = True
            body.append(passage)
        else:
            head.append(HeadLine(topic, passage.text, passage, opening))
    return Sorted(tuple(head), tuple(body))


def _of_heading(said: str, topic: str, passage: Passage, opening: bool) -> HeadLine:
    """The line of a heading that begins no instructions: nothing of it but its topic counts, or
    it is words like any others."""
    if not said:
        return HeadLine(topic, passage.written, passage, opening)
    rest = passage.written.strip("# ") if said == "finished" else topic_of(passage.written)[1]
    return HeadLine(said, "" if rest == passage.written else rest, passage)


def _starts(passage: Passage) -> bool:
    """Whether a paragraph under no heading of its own begins the instructions."""
    return any(casts_on(text) for _, text in sentences(passage.text))


def _instructs(found: Sequence[Passage], number: int, ever: bool) -> bool:
    """Whether a heading that is no topic begins instructions."""
    heading = found[number].heading
    under = _under(found, number)
    if number == 0:
        return bool(under) and _casts_on(under[:1]) and under[0] != found[-1]
    if ever or (heading is not None and heading.make):
        return True
    return _casts_on(under)


def _under(found: Sequence[Passage], number: int) -> list[Passage]:
    """What stands under a heading; under the next one, where nothing does."""
    under: list[Passage] = []
    for passage in found[number + 1 :]:
        if passage.heading and under:
            break
        if passage.heading and _heading_topic(passage.text):
            break
        if not passage.heading:
            under.append(passage)
    return under


def _picks_up(passages: Sequence[Passage]) -> bool:
    return any(picks_up_so_many(text) for each in passages for _, text in sentences(each.text))


def _casts_on(passages: Sequence[Passage]) -> bool:
    return any(
        casts_on(text) or takes_stitches_up(text)
        for each in passages
        if not topic_of(each.text)[0]
        for _, text in sentences(each.text)
    )
