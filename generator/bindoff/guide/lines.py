"""The guide as lines for a terminal, where examples stand as they are typed."""

import textwrap
from collections.abc import Iterable, Iterator

from bindoff import regex as re
from bindoff.craft.entry import Terms
from bindoff.craft.stitches import standard_book
from bindoff.english import listed
from bindoff.files import packaged_template
from bindoff.guide.keys import Group, KeyHelp, groups
from bindoff.guide.titles import group_title, place_of
from bindoff.guide.topics import GAUGES_OF_THEIR_OWN, HELPERS, TOPICS, Helper, Topic
from bindoff.source.rowlang.listing import all_words

WIDTH = 80


def topic_lines(topic: Topic) -> Iterator[str]:
    """A chapter: its prose, then each group of keys."""
    yield topic.title.upper()
    yield ""
    prose = packaged_template(f"guide/{topic.name}.md") or ""
    yield from _wrapped(prose.replace("**", ""), "")
    for name in topic.groups:
        yield from _group(groups()[name])
    if topic.name == "measures":
        yield from _helpers()
    if topic.name == "rows":
        yield ""
        yield from all_words(standard_book(Terms.US)).splitlines()


def guide_lines(topics: Iterable[Topic] = TOPICS) -> Iterator[str]:
    """All chapters, a blank line between them."""
    for number, topic in enumerate(topics):
        if number:
            yield from ("", "")
        yield from topic_lines(topic)


def key_lines(keys: Iterable[KeyHelp]) -> Iterator[str]:
    """Some keys, each with the place where it may stand."""
    for number, key in enumerate(keys):
        if number:
            yield ""
        yield f"{place_of(key.group)}, {group_title(groups()[key.group])}"
        yield from _entry(key)


def _group(group: Group) -> Iterator[str]:
    yield ""
    yield group_title(group)
    yield from _wrapped(_bare(group.says), "  ")
    for key in group.keys:
        yield from _entry(key)


def _entry(key: KeyHelp) -> Iterator[str]:
    yield ""
    yield f"  {key.key}:{' (must be there)' if key.required else ''}"
    choices = f" One of: {listed(key.choices, 'or')}." if len(key.choices) > 1 else ""
    yield from _wrapped(_bare(key.says) + choices, "      ")
    if any(key.example):
        yield from (f"      | {line}" for line in key.example)


def helper_lines(name: str) -> tuple[str, ...]:
    """A helper of formulas by its name; none where there is none of it."""
    found = next((each for each in HELPERS if name in each.names), None)
    return () if found is None else ("Helpers of formulas", *_helper(found))


def _helpers() -> Iterator[str]:
    yield from ("", "Helpers of formulas")
    for each in HELPERS:
        yield from _helper(each)
    yield ""
    yield from _wrapped(GAUGES_OF_THEIR_OWN, "  ")


def _helper(helper: Helper) -> Iterator[str]:
    yield ""
    yield f"  {', '.join(helper.names)}"
    yield from _wrapped(helper.gives, "      ")
    yield f"      | {helper.example}"


def _bare(text: str) -> str:
    return re.sub(r"``?", "", text)


def _wrapped(text: str, margin: str) -> list[str]:
    return textwrap.wrap(
        " ".join(text.split()), WIDTH, initial_indent=margin, subsequent_indent=margin,
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip
