"""The head of a pattern: version and dates, contact, skill."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.diagnostics import Severity
from bindoff.english import listed

_REACHES = re.compile(r"@|\w\.\w|\d|,|\n")
_COPYRIGHT = re.compile(
    r"(?:©|\(c\)|\bcopyright(?: ©)?) ?(?:\d{4} ?[-–] ?)?(\d{4})\b", re.IGNORECASE
)
_FIRST = re.compile(r"0(\..*)?|1(\.0)*")


@check(
    id="version.changes",
    title="The current version says what it changed",
    looks_at="`version:` against the versions under `changes:`; a first version needs none",
    why="a knitter with an older copy can't tell whether the correction concerns the size in hand",
    severity=Severity.WARNING,
    remedy="Add an entry for the version under `changes:`",
    needs=Needs.SOURCE,
)
def version_in_changes(context: Context) -> Iterator[Finding]:
    """One finding at most."""
    pattern = context.pattern
    listed = [change.version for change in pattern.changes]
    first = not listed and _FIRST.fullmatch(pattern.version)
    if pattern.version not in listed and not first:
        place = pattern.place.of("version").span
        yield Finding(f"no change is listed for version {pattern.version}", place)


@check(
    id="version.date",
    title="The dates of versions are in order",
    looks_at="the dates under `changes:` against `date:`: none is later, and the current version's "
    "is the same",
    why="readers compare dates to find the newest copy",
    severity=Severity.WARNING,
    remedy="Correct one of the two dates",
    needs=Needs.SOURCE,
)
def dates_in_order(context: Context) -> Iterator[Finding]:
    """One finding for each date."""
    pattern = context.pattern
    for change in pattern.changes:
        place = change.place.of("date").span
        if change.date > pattern.date:
            yield Finding(f"the change of {change.date} is later than the pattern itself", place)
        elif change.version == pattern.version and change.date != pattern.date:
            yield Finding(
                f"version {change.version} is of {change.date} here, and of {pattern.date} above",
                place,
            )


@check(
    id="head.contact",
    title="A contact is given",
    looks_at="`contact:`: there is one, with an address, a site, a number or a name at a site",
    why="a knitter who finds a mistake has nobody to ask",
    severity=Severity.WARNING,
    remedy="Add `contact:`, such as an e-mail address",
    needs=Needs.SOURCE,
)
def contact_given(context: Context) -> Iterator[Finding]:
    """One finding at most."""
    if not context.pattern.contact.strip():
        yield Finding("the pattern gives no contact", context.pattern.place.of("designer").key_span)
    elif not _REACHES.search(context.pattern.contact):
        yield Finding(
            f"nobody is reached by `{context.pattern.contact.strip()}`",
            context.pattern.place.of("contact").span,
            "Write an e-mail or postal address, a site or a number",
        )


@check(
    id="head.copyright",
    title="The year of the copyright is one of the versions'",
    looks_at="© and a year in `licence:` against the years of `date:` and `changes:`",
    why="a year that was left over from another pattern, or not yet come, puts the right in doubt",
    severity=Severity.NOTE,
    remedy="Write the year of a version, or add the older version under `changes:`",
    needs=Needs.SOURCE,
)
def copyright_year(context: Context) -> Iterator[Finding]:
    """One finding for each year; the last of several is that of the version."""
    pattern = context.pattern
    years = {pattern.date[:4], *(change.date[:4] for change in pattern.changes)}
    for prose in context.prose:
        for found, place in prose.found(_COPYRIGHT) if prose.path[:1] == ("licence",) else ():
            if found[1] not in years:
                told = listed(sorted(years))
                yield Finding(f"© {found[1]} stands here, and the versions are of {told}", place)


@check(
    id="head.skill",
    title="The skill that is needed is stated",
    looks_at="`skill:`",
    why="a beginner buys what can't be finished, or a skilled knitter what bores",
    severity=Severity.NOTE,
    remedy="Add `skill:`, with what the knitter has to know",
    needs=Needs.SOURCE,
)
def skill_given(context: Context) -> Iterator[Finding]:
    """One finding at most."""
    if not context.pattern.skill.strip():
        yield Finding("the pattern states no skill", context.pattern.place.of("title").key_span)


CHECKS = (version_in_changes, dates_in_order, contact_given, copyright_year, skill_given)
