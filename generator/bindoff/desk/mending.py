"""Changes that would mend a finding, tried before they are offered; and silences with a reason."""

import json
from collections.abc import Iterable, Iterator

from bindoff.desk.edits import Edit
from bindoff.diagnostics import Diagnostic, Fix, PatternError, Severity, Span
from bindoff.files import Files
from bindoff.plan.plan import make_plan
from bindoff.records import replace
from bindoff.source.bundle import Source
from bindoff.source.read import read_source

_MOST_TRIED = 6  # findings; whoever has more mends these first


def with_sound_fixes(
    findings: Iterable[Diagnostic], files: Files, source_name: str, called: str
) -> tuple[Diagnostic, ...]:
    """Findings with those of their fixes after which their line has no error of a stage left.

    A fix is advice that was worked out from one line; only reading the pattern with it shows
    whether it is good advice here.
    """
    known = tuple(findings)
    tried = [each for each in known if each.fixes][:_MOST_TRIED]
    sound = {
        each: tuple(fix for fix in each.fixes if _mends(fix, each, files, source_name, called))
        for each in tried
    }
    return tuple(replace(each, fixes=sound.get(each, ())) if each.fixes else each for each in known)


def _mends(fix: Fix, finding: Diagnostic, files: Files, source_name: str, called: str) -> bool:
    span = fix.span or finding.span
    if span is None or finding.span is None:
        return False
    prefix = files.display("")
    name = span.file.removeprefix(prefix)
    try:
        text = changed(files.read_text(name), [Edit(span, fix.text)])
        make_plan(read_source(_With(files, name, text), source_name, called))
    except PatternError as error:
        lines = {finding.span.line, span.line}
        places = [each.span for each in error.findings if each.severity is Severity.ERROR]
        return not any(each and each.file == span.file and each.line in lines for each in places)
    return True


class _With(Files):
    """Files with another text for one of them."""

    def __init__(self, under: Files, name: str, text: str) -> None:
        super().__init__(under.name, under.display(""))
        self._under, self._changed, self._data = under, name, text.encode()

    def _names(self, folder: str) -> Iterable[str]:
        return self._under._names(folder)

    def _read(self, name: str, size: int) -> bytes:
        return self._data[:size] if name == self._changed else self._under._read(name, size)

    def _packaged(self, name: str) -> str | None:
        return self._under._packaged(name)


def changed(text: str, edits: Iterable[Edit]) -> str:
    """A text with changes that do not overlap; its lines end in a line feed."""
    starts = [0]
    for line in text.split("\n"):
        starts.append(starts[-1] + len(line) + 1)

    def at(line: int, column: int) -> int:
        return min(starts[min(line, len(starts)) - 1] + column - 1, len(text))

    places = [
        (at(e.span.line, e.span.column), at(e.span.end_line, e.span.end_column), e.text)
        for e in edits
    ]
    for start, end, new in sorted(places, reverse=True):
        text = text[:start] + new + text[end:]
    return text


def silencing(source: Source, check: str, because: str) -> Iterator[Edit]:
    """The change that silences a check with its reason, behind the silences there are."""
    entry = f"{{check: {check}, because: {json.dumps(because, ensure_ascii=False)}}}"
    place = source.pattern.place.of("silence")
    whole = source.pattern.place
    node = place.node
    lines = whole.lines
    if "silence" not in whole.node.children or not node.children:
        if "silence" in whole.node.children:  # nothing is written for it yet
            yield Edit(node.span, f"\n  - {entry}")
            return
        last = len(lines.starts)
        column = len(lines.line(last - 1)) + 1
        begin = "" if column == 1 else "\n"
        yield Edit(
            Span(place.span.file, last, column, last, column), f"{begin}silence:\n  - {entry}\n"
        )
        return
    last_entry = node.children[len(node.children) - 1]
    if place.text.startswith("["):
        end = last_entry.span
        at = Span(end.file, end.end_line, end.end_column, end.end_line, end.end_column)
        yield Edit(at, f", {entry}")
        return
    number = lines.number(max(last_entry.end - 1, last_entry.start))
    first = lines.line(lines.number(node.children[0].start))
    indent = first[: len(first) - len(first.lstrip())]
    column = len(lines.line(number)) + 1
    at = Span(place.span.file, number + 1, column, number + 1, column)
    yield Edit(at, f"\n{indent}- {entry}")
