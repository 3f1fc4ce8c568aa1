"""YAML's faults of syntax in plain words, for a reader who knits and doesn't program."""

import json
from collections.abc import Callable

import yaml

from bindoff import regex as re
from bindoff.diagnostics import Diagnostic, Fix, Span
from bindoff.records import Record
from bindoff.source.places import Lines

_VALUE = re.compile(r"\s*(?:-\s+)*(?:[^\s:#\"'\[{][^:]*:\s+)?(?P<value>\S.*)?")
_NAME_AND_COLON = re.compile(r"\s*+(?:-\s++)*+\S[^:]*+:(?:\s++|$)")
_LONGEST_EXAMPLE = 60
_LONGEST_NAME = 1024  # YAML looks no further for the colon behind a name


class Fault(Record):
    """A fault as the parser saw it: offsets of the place and of what was being read there.

    ``quoted`` is the last quoted text that ran over several lines: when a quote is left open,
    the fault shows only where the next quote ends it.
    """

    lines: Lines
    problem: str
    at: int
    since: int
    quoted: tuple[int, int] | None

    @property
    def character(self) -> str:
        """The character at the fault; empty at the end of the file."""
        return self.lines.text[self.at : self.at + 1]

    @property
    def spot(self) -> Span:
        """The place of that character."""
        return self.lines.span(self.at, self.at + len(self.character.strip("\n")))


def explain(
    error: yaml.MarkedYAMLError, lines: Lines, quoted: tuple[int, int] | None
) -> Diagnostic:
    """The finding for what PyYAML (either of its parsers) calls ``error``."""
    at = _offset(error.problem_mark, lines)
    since = _offset(error.context_mark, lines) if error.context_mark else at
    fault = Fault(lines, error.problem or "", at, since, quoted)
    wording = f"{error.context or ''}: {fault.problem}"
    for pattern, handler in _HANDLERS:
        if pattern.search(wording):
            return handler(fault)
    return Diagnostic(
        "yaml.syntax",
        f"this can't be read as YAML ({fault.problem})",
        "Compare the line with those around it: indentation, colons, quotes and brackets",
        fault.spot,
    )


def second_document(lines: Lines, at: int) -> Diagnostic:
    """The finding for a file that goes on after its document has ended."""
    return Diagnostic(
        "yaml.second-document",
        "the pattern ends before this place, but the file goes on",
        "Keep one pattern in a file: remove the lines that are only `---` or `...`",
        lines.line_span(lines.number(at)),
    )


def needs_quotes(lines: Lines, at: int) -> Diagnostic:
    """The finding for a text whose first character means something else to YAML."""
    end = lines.end(lines.number(at))
    return Diagnostic(
        "yaml.needs-quotes",
        f"a text that starts with {lines.text[at : at + 1]} must be in quotes",
        _in_quotes(lines.text[at:end].rstrip()),
        lines.span(at, max(end, at)),
        fixes=_quoting(lines, at, end),
    )


def _offset(mark: yaml.Mark | None, lines: Lines) -> int:
    """A mark's offset, held inside the text: a mark at the end of a file may lie past it."""
    return min(mark.index, len(lines.text)) if mark else 0


def _in_quotes(text: str) -> str:
    """Advice to put ``text`` in the quotes that suit it."""
    if len(text) <= _LONGEST_EXAMPLE:
        for quote in ('"', "'"):
            if quote not in text and "\\" not in text:
                return f"Put the whole text in quotes: `{quote}{text}{quote}`"
    return "Put the whole text in quotes"


def _quoting(lines: Lines, start: int, end: int) -> tuple[Fix, ...]:
    """The fix that puts what stands from ``start`` to ``end`` in quotes."""
    text = lines.text[start:end].rstrip()
    quoted = json.dumps(text, ensure_ascii=False) if "'" in text else f"'{text}'"
    if '"' not in text and "\\" not in text:
        quoted = f'"{text}"'
    return (Fix("Put quotes around it", quoted, lines.span(start, start + len(text))),)


def _closing(lines: Lines, start: int, quote: str) -> tuple[Fix, ...]:
    """The fix that closes a quote at the end of the line it is opened in."""
    end = lines.end(lines.number(start))
    end = start + len(lines.text[start:end].rstrip())
    return (Fix(f"Add {quote} at the end of the line", quote, lines.span(end, end)),)


def _open_quote(fault: Fault) -> Diagnostic:
    lines, quote = fault.lines, fault.lines.text[fault.since : fault.since + 1]
    return Diagnostic(
        "yaml.open-quote",
        f"the text that starts with {quote} here is never closed",
        f"Add {quote} at the end of the text",
        lines.span(fault.since, lines.end(lines.number(fault.since))),
        fixes=_closing(lines, fault.since, quote),
    )


def _escape(fault: Fault) -> Diagnostic:
    start = max(fault.lines.text.rfind("\\", 0, fault.at + 1), 0)
    return Diagnostic(
        "yaml.backslash",
        "a backslash between double quotes has a meaning of its own, and this one has none",
        "Write two backslashes, or put the text in single quotes (') instead of \"",
        fault.lines.span(start, start + 2),
    )


def _tab(fault: Fault) -> Diagnostic:
    return Diagnostic(
        "yaml.tab",
        "a tab stands where only spaces may stand",
        "Replace the tab with spaces",
        fault.spot,
        fixes=(Fix("Write two spaces for the tab", "  "),),
    )


def _first_character(fault: Fault) -> Diagnostic:
    return _tab(fault) if fault.character == "\t" else needs_quotes(fault.lines, fault.at)


def _started_as_code(fault: Fault) -> Diagnostic:
    return needs_quotes(fault.lines, fault.since)


def _text_on_marker_line(fault: Fault) -> Diagnostic:
    lines, marker = fault.lines, fault.lines.text[fault.since : fault.since + 1]
    return Diagnostic(
        "yaml.block-text",
        f"`{marker}` announces a text on the lines below, but something follows it here",
        f"Start the text on the next line, indented; or, if `{marker}` belongs to the text, "
        "put all of it in quotes",
        lines.span(fault.at, lines.end(lines.number(fault.at))),
    )


def _stray_colon(fault: Fault) -> Diagnostic:
    lines, number = fault.lines, fault.lines.number(fault.at)
    before = lines.text[lines.starts[number] : fault.at]
    first = _NAME_AND_COLON.match(before)
    if first or len(before) > _LONGEST_NAME:
        return Diagnostic(
            "yaml.second-colon",
            "a colon and a space stand inside a text that is not in quotes",
            _in_quotes(lines.line(number)[first.end() if first else 0 :].rstrip()),
            fault.spot,
            fixes=_quoting(lines, lines.starts[number] + first.end(), lines.end(number))
            if first
            else (),
        )
    above = next(
        (n for n in range(number - 1, -1, -1) if lines.line(n).strip()[:1] not in ("", "#")), None
    )
    if above is None:
        return _missing_name(fault)
    if not _NAME_AND_COLON.match(lines.line(above)):
        return _missing_colon_in(lines, above)
    return Diagnostic(
        "yaml.indentation",
        "this line is indented deeper than the line above, which already has a value",
        "Start both lines with the same number of spaces",
        lines.line_span(number),
    )


def _missing_colon(fault: Fault) -> Diagnostic:
    return _missing_colon_in(fault.lines, fault.lines.number(fault.since))


def _missing_colon_in(lines: Lines, number: int) -> Diagnostic:
    text = lines.line(number).strip()
    shown = text if len(text) <= _LONGEST_EXAMPLE else text[:_LONGEST_EXAMPLE] + "…"
    if ":" in text:
        message = f"a space is missing after the colon in `{shown}`"
    else:
        message = f"`{shown}` has no colon, so it names no value"
    help = "Write a name, a colon, a space and the value, as in `title: Breakwater Hat`"
    return Diagnostic(
        "yaml.missing-colon",
        message,
        help + _no_break_space(text),
        lines.line_span(number),
        fixes=_space_after_colon(lines, number),
    )


def _space_after_colon(lines: Lines, number: int) -> tuple[Fix, ...]:
    """The fix for ``title:Hat``."""
    colon = lines.line(number).find(":")
    at = lines.starts[number] + colon + 1
    return (Fix("Put a space after the colon", " ", lines.span(at, at)),) if colon > 0 else ()


def _missing_name(fault: Fault) -> Diagnostic:
    return Diagnostic(
        "yaml.no-name",
        "no name stands before this colon",
        "Write a name before the colon, or put the text in quotes",
        fault.spot,
    )


def _list_place(fault: Fault) -> Diagnostic:
    return Diagnostic(
        "yaml.list-place",
        "a list can't start here, behind something else",
        "Start the list on a new line, each entry with a dash and a space; or put the text in "
        "quotes if the dash belongs to it",
        fault.spot,
    )


def _bracket(fault: Fault) -> Diagnostic:
    lines = fault.lines
    opener = lines.text[fault.since : fault.since + 1]
    closer = {"[": "]", "{": "}"}.get(opener)
    if closer is None:
        return _no_value(fault)
    if fault.character and lines.number(fault.at) == lines.number(fault.since):
        return Diagnostic(
            "yaml.missing-comma",
            f"a comma or `{closer}` is missing before this place",
            f"Separate entries with a comma and end them with `{closer}`",
            fault.spot,
        )
    end = lines.end(lines.number(fault.since))
    if " #" in lines.text[fault.since : end]:
        help = "Put a colour in quotes: ` #` makes the rest of the line a comment"
    else:
        help = f"Add `{closer}` where the entries end"
    return Diagnostic(
        "yaml.open-bracket",
        f"`{opener}` is never closed",
        help,
        lines.span(fault.since, end),
    )


def _no_value(fault: Fault) -> Diagnostic:
    if not fault.character:
        return Diagnostic(
            "yaml.open-bracket",
            "a bracket is still open at the end of the file",
            "Close every `[` with `]` and every `{` with `}`",
            fault.spot,
        )
    return Diagnostic(
        "yaml.no-value",
        f"a value is due where `{fault.character.strip() or 'the line end'}` stands",
        "Write the value, or put the text in quotes if this character belongs to it",
        fault.spot,
    )


def _structure(fault: Fault) -> Diagnostic:
    lines, number = fault.lines, fault.lines.number(fault.at)
    start = lines.starts[number]
    value = _VALUE.match(lines.line(number))
    if fault.quoted and lines.number(fault.quoted[1]) == number:
        return _quote_closed_late(fault, fault.quoted)
    if value and value["value"] and start + value.start("value") < fault.at:
        first = start + value.start("value")
        if lines.text[first] in "\"'":
            return _after_quote(fault, first)
        if lines.text[first] in "[{*&!":
            return needs_quotes(lines, first)
    if fault.character == ":":
        return _missing_name(fault)
    return _indentation(fault)


def _after_quote(fault: Fault, first: int) -> Diagnostic:
    lines = fault.lines
    end = lines.end(lines.number(fault.at))
    return Diagnostic(
        "yaml.after-quote",
        "the text goes on after its closing quote",
        _in_quotes(lines.text[first:end].rstrip()),
        lines.span(fault.at, end),
        fixes=_quoting(lines, first, end),
    )


def _quote_closed_late(fault: Fault, quoted: tuple[int, int]) -> Diagnostic:
    lines, quote = fault.lines, fault.lines.text[quoted[0]]
    return Diagnostic(
        "yaml.open-quote",
        f"the text that starts with {quote} here is closed only in line "
        f"{lines.number(quoted[1]) + 1}, in the middle of another text",
        f"Add {quote} at the end of the text",
        lines.span(quoted[0], lines.end(lines.number(quoted[0]))),
        fixes=_closing(lines, quoted[0], quote),
    )


def _indentation(fault: Fault) -> Diagnostic:
    lines, number = fault.lines, fault.lines.number(fault.at)
    text = lines.line(number)
    column = fault.at - lines.starts[number]
    aligned = column == fault.since - lines.starts[lines.number(fault.since)]
    if aligned and text.lstrip().startswith("-"):
        message = "a list entry stands between lines of the form `name: value`"
        help = "Indent the list under its name, or remove the dash"
    elif aligned:
        message = "a line without a dash stands between the entries of a list"
        help = "Start the line with a dash and a space, or indent it under the entry above"
    else:
        message = "the spaces at the start of this line match none of the lines above"
        help = "Give lines that belong together the same number of spaces at the start"
    return Diagnostic(
        "yaml.indentation", message, help + _no_break_space(text), lines.line_span(number)
    )


def _directive(fault: Fault) -> Diagnostic:
    return Diagnostic(
        "yaml.directive",
        "a line that starts with % speaks to another YAML program",
        "Remove the line",
        fault.lines.line_span(fault.lines.number(fault.at)),
    )


def _too_deep(fault: Fault) -> Diagnostic:
    return Diagnostic(
        "yaml.limit", "this is nested far too deep", "Use fewer brackets and levels", fault.spot
    )


def _no_break_space(text: str) -> str:
    """What to add to the advice on a line that holds a space which YAML takes for a letter."""
    return "; this line has a no-break space: type plain spaces" if "\u00a0" in text else ""


# The parser written in C and the one in Python word the same fault differently.
_HANDLERS: tuple[tuple[re.Pattern[str], Callable[[Fault], Diagnostic]], ...] = tuple(
    (re.compile(pattern), handler)
    for pattern, handler in (
        ("quoted scalar: found unexpected (end of stream|document)", _open_quote),
        ("quoted scalar: ", _escape),
        ("tab character", _tab),
        ("cannot start any token", _first_character),
        ("(alias|anchor|tag|directive): |tag handle", _started_as_code),
        ("block scalar: ", _text_on_marker_line),
        ("mapping values are not allowed", _stray_colon),
        ("find expected ':'", _missing_colon),
        ("sequence entries are not allowed", _list_place),
        ("flow (sequence|mapping|node): ", _bracket),
        ("node content", _no_value),
        ("incompatible YAML", _directive),
        ("nesting depth", _too_deep),
        ("<document start>", lambda fault: second_document(fault.lines, fault.at)),
        ("block (mapping|collection): ", _structure),
    )
)
