"""The whole text read part by part: under each heading either facts or instructions."""

from bindoff import regex as re
from bindoff.draft.facts import GaugeSaid, SizesSaid, wearers_said
from bindoff.draft.head import Facts, facts_of
from bindoff.draft.lines import Leaving, lines_of
from bindoff.draft.passages import passages
from bindoff.draft.pieces import PieceSaid, instructions_of
from bindoff.draft.rows import readable_for
from bindoff.draft.topics import sorted_by_topic
from bindoff.draft.yarns import YarnSaid
from bindoff.records import Record, replace


class Said(Record):
    """All that a text says: its facts, its pieces, and the lines that are left out of the draft."""

    facts: Facts
    british: bool
    units: str
    wearers: tuple[str, ...]
    pieces: tuple[PieceSaid, ...]
    leavings: tuple[Leaving, ...]
    by_machine: bool = False
    needles: int | None = None

    @property
    def title(self) -> str:
        """What the text calls itself."""
        return self.facts.title

    @property
    def sizes(self) -> SizesSaid:
        """The sizes, one if it names none."""
        return self.facts.sizes

    @property
    def gauge(self) -> GaugeSaid | None:
        """The gauge, ``None`` where it says none."""
        return self.facts.gauge

    @property
    def yarns(self) -> tuple[YarnSaid, ...]:
        """The yarns in their order."""
        return self.facts.yarns


_BRITISH = re.compile(
    r"\b(?:tension|cast off|stocking stitch|double crochet into|moss stitch)\b", re.IGNORECASE
)
_CRANK = re.compile(r"\bcrank(?:ed|ing|s)?\b", re.IGNORECASE)
_NEEDLES = re.compile(r"\b(\d{2,3})[ -]needles?\b", re.IGNORECASE)


def read_text(text: str) -> Said:
    """What ``text`` says. Never raises: what can't be read is prose, or not there."""
    lines, left = lines_of(text)
    found = sorted_by_topic(tuple(passages(lines)))
    facts = facts_of(found.head)
    sizes = len(facts.sizes.names)
    british = bool(_BRITISH.search(text))
    readable = readable_for(sizes, british, tuple(yarn.key for yarn in facts.yarns))
    made = instructions_of(found.body, sizes, readable, facts.yarns, facts.title, facts.notes)
    about = (facts.title, *facts.summary, *facts.sizes.names, *(
        line.text for line in found.head if line.topic == "sizes"
    ))  # fmt: skip
    by_machine = bool(_CRANK.search(text))
    needles = _NEEDLES.search(text) if by_machine else None
    finishing = tuple(words for words, _ in made.after)
    origins = tuple(("finishing", origin) for _, origin in made.after)
    return Said(
        facts=replace(
            facts,
            finishing=(*finishing, *facts.finishing),
            origins=(*facts.origins, *origins),
        ),
        british=british,
        units=_units(text),
        wearers=wearers_said(" ".join(about)),
        pieces=made.pieces,
        leavings=tuple(sorted((*left, *facts.leavings), key=lambda each: each.number)),
        by_machine=by_machine,
        needles=int(needles[1]) if needles else None,
    )


def _units(text: str) -> str:
    """Which units the text gives its lengths in."""
    metric, imperial = (
        re.search(rf"\d ?{unit}", text, re.IGNORECASE)
        for unit in (r"cm\b", r"(?:in\b|inch|[\"”″])")
    )
    return (
        "imperial" if imperial and not metric else "metric" if metric and not imperial else "both"
    )
