"""The source of a draft: keys in the order of the guide, and what isn't said left to fill in."""

import json
from collections.abc import Iterable, Iterator

from bindoff import regex as re
from bindoff.diagnostics import Diagnostic, Severity
from bindoff.draft.compose import Said
from bindoff.draft.figures import Names, in_prose, names_of
from bindoff.draft.lines import Leaving, Origin
from bindoff.draft.origins import remark, remarks, words_of
from bindoff.draft.passages import place
from bindoff.draft.pieces import PieceSaid
from bindoff.draft.steps import Edges, Row, Step, Value, Words
from bindoff.draft.yarns import YarnSaid
from bindoff.records import Record


class Draft(Record):
    """The text of a source, what is to be looked at in the text it was made from, and how many
    sentences of the instructions became steps, how many stand in their own words though they seem
    to work stitches."""

    source: str
    findings: tuple[Diagnostic, ...]
    understood: int
    kept: int


GREYS = ("#6b7280", "#d1d5db", "#374151", "#9ca3af", "#111827", "#e5e7eb")
"""Stand in for colors that no text tells: grays, so that they are seen not to be chosen."""


def draft(said: Said, file: str, date: str, called: str) -> Draft:
    """The source that ``said`` makes. ``date`` is that of the text, year-month-day; ``called`` is
    its title where it says none."""
    every = [step for piece in said.pieces for part in piece.parts for step in part.steps]
    facts = said.facts
    sizes = len(facts.sizes.names)
    prose = [value.text for step in every for _, value in step.entries if isinstance(value, Words)]
    names = names_of((*prose, *facts.notes, *facts.finishing, *facts.care), sizes)
    writer = _Writer(said, names, sizes)
    written = [
        "# yaml-language-server: $schema=pattern.schema.json",
        "# A draft from a finished text. `bindoff check` says what is still to be filled in.",
        *_about(said, "head", _head(said, date, called)),
        *_about(said, "gauge", _gauge(said)),
        *_about(said, "yarns", _yarns(said)),
        *_about(said, "tools", _tools(said)),
        *_about(said, "sizes", _sizes(said)),
        *_measures(names),
        *_about(said, "finished", _finished(said)),
        *writer.notes(),
        *writer.pieces(),
        *writer.after("finishing", facts.finishing),
        *writer.after("care", facts.care),
        *_left_out(said.leavings),
    ]
    kept = [step for step in every if step.kept]
    missing = [_missing(each, file) for each in written if isinstance(each, _Gap)]
    found = (*missing, *(_kept(step, file) for step in kept), *_leavings(said.leavings, file))
    understood = {origin for step in every if not step.is_prose for origin in step.origins}
    source = "".join(f"{line}\n" for line in written if isinstance(line, str))
    return Draft(source, found, len(understood), len(kept))


# ---------------------------------------------------------------- findings


class _Gap(Record):
    """What the text doesn't say and a source must, and what to do: it stands among the lines."""

    what: str
    help: str


Lines = Iterator[str | _Gap]


def _missing(gap: _Gap, file: str) -> Diagnostic:
    message = f"the text says no {gap.what}"
    return Diagnostic("draft.missing", message, gap.help, place(file, 1, ""), Severity.WARNING)


def _kept(step: Step, file: str) -> Diagnostic:
    words = next(value.text for _, value in step.entries if isinstance(value, Words))
    return Diagnostic(
        "draft.kept",
        f"this seems to work stitches and isn't understood: “{_short(words)}”; it stays in its own "
        "words, and nothing of it is counted",
        "Write it in the draft as a step, such as `work:` with `rounds:`",
        place(file, step.line, words),
        Severity.WARNING,
    )


def _leavings(leavings: tuple[Leaving, ...], file: str) -> Iterator[Diagnostic]:
    """A finding for each kind of lines that are left out."""
    for kind in dict.fromkeys(each.kind for each in leavings):
        those = [each for each in leavings if each.kind == kind]
        lines = ", ".join(str(each.number) for each in those[:_MOST_NAMED])
        more = f" and {len(those) - _MOST_NAMED} more" if len(those) > _MOST_NAMED else ""
        yield Diagnostic(
            "draft.left-out",
            f"{kind} are left out: line{'s' if len(those) > 1 else ''} {lines}{more}",
            "They stand as remarks at the end of the draft: move what belongs to the pattern",
            place(file, those[0].number, those[0].text),
            Severity.NOTE,
        )


_MOST_NAMED = 12


def _short(words: str) -> str:
    return words if len(words) <= 90 else f"{words[:88].rstrip()} …"


# ---------------------------------------------------------------- beside what they became


def _about(said: Said, block: str, lines: Lines) -> Lines:
    """A block of the draft, with what the text says otherwise in remarks above it."""
    made = list(lines)
    while made and made[0] == "":
        yield ""
        made = made[1:]
    origins = [origin for name, origin in said.facts.origins if name == block]
    yield from remarks(origins, (line for line in made if isinstance(line, str)), "")
    yield from made


def _left_out(leavings: tuple[Leaving, ...]) -> Lines:
    for kind in dict.fromkeys(each.kind for each in leavings):
        yield ""
        yield f"# Left out of the text, {kind}:"
        for each in leavings:
            if each.kind == kind:
                yield from remark(Origin(each.number, each.text), "")


# ---------------------------------------------------------------- head


def _head(said: Said, date: str, called: str) -> Lines:
    yield f"title: {_text(said.title or called)}"
    yield from _or_left("designer", said.facts.designer, "who designed it")
    yield 'version: "0.1"'
    yield f"date: {date}"
    yield from _or_left("summary", _sentences(said.facts.summary), "what it is")
    if said.wearers:
        yield f"wearer: [{', '.join(said.wearers)}]"
    else:
        yield _Gap("wearer", "Write `wearer:` with adult, child or infant")
        yield "wearer:                  # adult, child, infant: decides which cautions are printed"
    yield f"terms: {'UK' if said.british else 'US'}"
    yield f"units: {said.units}"
    if said.by_machine and said.needles is None:
        yield _Gap("number of needles of the machine", "Write `needles:` beside `by: machine`")
    if said.by_machine:
        yield f"made: {{by: machine, needles: {said.needles or ''}}}"


def _gauge(said: Said) -> Lines:
    yield ""
    yield "gauge:"
    gauge = said.gauge
    if gauge is None:
        yield _Gap("gauge", "Write `stitches:` and `rounds:` under `gauge:`")
        yield "  stitches:"
        yield "  rounds:"
        yield "  over: 10 cm"
        return
    yield f"  stitches: {gauge.stitches}"
    if gauge.rounds:
        yield f"  rounds: {gauge.rounds}"
    else:
        yield _Gap("rows or rounds of the gauge", "Write `rounds:` under `gauge:`")
        yield "  rounds:"
    yield f"  over: {gauge.over}"
    for key in ("state", "worked", "tool"):
        if value := getattr(gauge, key):
            yield f"  {key}: {_text(value)}"


def _sentences(parts: Iterable[str]) -> str:
    """Words that stood apart as sentences one after another."""
    return " ".join(part if part[-1] in ".!?…:;," else f"{part}." for part in parts)


def _or_left(key: str, value: str, what: str) -> Lines:
    if not value:
        yield _Gap(f"words for {what}", f"Write `{key}:` in the draft")
    yield f"{key}: {_text(value)}" if value else f"{key}:"


def _yarns(said: Said) -> Lines:
    yield ""
    yield "yarns:"
    if not said.yarns:
        yield _Gap("yarn", "Write a yarn under `yarns:`")
        yield "  main:"
        yield "    name:"
        yield "    colour: " + json.dumps(GREYS[0]) + "      # not in the text: choose one"
        yield "    weight:                # 0 lace to 7 jumbo"
        yield "    ball:                  # such as 100 g = 200 m"
    for number, yarn in enumerate(said.yarns):
        yield from _yarn(yarn, number)


def _tools(said: Said) -> Lines:
    if said.facts.tools:
        yield ""
        yield "tools:"
        yield from (f"  - name: {_text(tool)}" for tool in said.facts.tools)
    if said.facts.notions:
        yield "" if not said.facts.tools else "notions:"
        yield from () if said.facts.tools else ("notions:",)
        yield from (f"  - {_text(notion)}" for notion in said.facts.notions)


def _yarn(yarn: YarnSaid, number: int) -> Lines:
    yield f"  {_key(yarn.key)}:"
    yield f"    name: {_text(yarn.name)}"
    yield f"    colour: {json.dumps(GREYS[number % len(GREYS)])}      # not in the text: choose one"
    for key, what, hint in (
        ("weight", "weight", "0 lace to 7 jumbo"),
        ("ball", "ball's grams and meters", "such as 100 g = 200 m"),
    ):
        value = getattr(yarn, key)
        if value:
            yield f"    {key}: {value}"
        else:
            help = f"Write `{key}:` under `{_key(yarn.key)}:`, {hint}"
            yield _Gap(f"{what} of the yarn {yarn.name}", help)
            yield f"    {key}:                # {hint}"
    if yarn.fibre:
        yield f"    fibre: {_text(yarn.fibre)}"


def _sizes(said: Said) -> Lines:
    if said.facts.sizes_line is None:
        yield _Gap("sizes", "Name them under `sizes:` if there are several")
    yield ""
    yield "sizes:                     # the body each is for, as far as the text says it"
    for number, name in enumerate(said.sizes.names):
        body = ", ".join(f"{part}: {values[number]}" for part, values in said.sizes.bodies)
        yield f"  {_text(name)}: {{{body}}}"


def _measures(names: Names) -> Lines:
    if names:
        yield ""
        yield "measures:"
        yield from (f"  {name}: {_flow(values)}" for values, name in names.items())


def _finished(said: Said) -> Lines:
    yield ""
    yield "finished:"
    if not said.facts.finished:
        yield _Gap("finished measurement", "Write one under `finished:`")
        yield "  # such as Circumference: 52 cm"
    for name, values in said.facts.finished:
        yield f"  {_text(name)}: {_flow(values)}"


# ---------------------------------------------------------------- pieces


class _Writer(Record):
    said: Said
    names: Names
    sizes: int

    def after(self, key: str, paragraphs: tuple[str, ...]) -> Lines:
        """A block of prose with what the text says otherwise, such as its heading, above it."""
        return _about(self.said, key, self._block(key, paragraphs))

    def notes(self) -> Lines:
        """What a knitter reads first, in paragraphs."""
        return _about(self.said, "notes", self._block("notes", self.said.facts.notes))

    def _block(self, key: str, paragraphs: tuple[str, ...]) -> Lines:
        texts = [in_prose(each, self.names, self.sizes) for each in paragraphs]
        if texts:
            yield ""
            yield f"{key}: |-"
            for number, text in enumerate(texts):
                yield from ("",) if number else ()
                yield f"  {_one_line(text)}"
            told = [each for each in paragraphs if _says_figures_otherwise(each, self)]
            yield from (f"# {_plain(each)}" for each in told)

    def pieces(self) -> Iterator[str]:
        """All pieces with their steps."""
        yield ""
        yield "pieces:"
        taken: set[str] = set()
        for number, piece in enumerate(self.said.pieces, start=1):
            title = piece.title or (self.said.title if number == 1 else "") or f"Piece {number}"
            key = _key(title)
            key = key if key not in taken else f"{key}_{number}"
            taken = {*taken, key}
            yield f"  {key}:"
            yield f"    title: {_text(title)}"
            if piece.make > 1:
                yield f"    make: {piece.make}"
            if not piece.in_round:
                yield "    worked: flat"
            yield "    steps:"
            yield from self._steps(piece, title)
        if not self.said.pieces:
            yield "  piece: {title: Piece, steps: []}"

    def _steps(self, piece: PieceSaid, title: str) -> Iterator[str]:
        nothing = True
        for number, part in enumerate(piece.parts):
            heading = part.heading
            same = number == 0 and heading.casefold() == title.casefold()
            said = () if same or not heading else (f"      - section: {_text(heading)}",)
            beside = (*said, title, f"make {piece.make}")
            if part.heading:
                yield from remarks((part.place,), beside, "      ")
            yield from said
            nothing = nothing and not (said or part.steps)
            for step in part.steps:
                lines = tuple(self._step(step))
                if step.kept:
                    yield f"      # line {step.line} of the text, not understood:"
                    yield from remarks(step.origins, (*lines, *self._figures(step)), "      ")
                else:
                    yield from remarks(step.origins, (*lines, *self._figures(step)), "      ")
                yield from lines
        if nothing:
            yield "      []"

    def _figures(self, step: Step) -> Iterator[str]:
        """The figures of a step's prose, which stand among the measures."""
        for _, value in step.entries:
            if isinstance(value, Words) and not _says_figures_otherwise(value.text, self):
                yield value.text

    def _step(self, step: Step) -> Iterator[str]:
        for number, (key, value) in enumerate(step.entries):
            lead = "      - " if number == 0 else "        "
            match value:
                case Edges(edges):
                    yield f"{lead}{key}:"
                    yield from (f"          - {_edge(count, where)}" for count, where in edges)
                case (Row(text, label),):
                    yield f"{lead}{key}: {_text(text)}{_label(label)}"
                case (Row(), *_):
                    yield f"{lead}{key}:"
                    yield from (
                        f"          - {_text(row.text)}{_label(row.label)}"
                        for row in value
                        if isinstance(row, Row)
                    )
                case _:
                    yield f"{lead}{key}: {self._value(key, value)}"

    def _value(self, key: str, value: Value) -> str:
        match value:
            case Words(text):
                return _text(in_prose(text, self.names, self.sizes))
            case tuple():
                return _flow(value)
            case str():
                return _key(value) if key == "yarn" else _text(value)
            case Edges():
                raise AssertionError("edges stand in lines of their own")


def _says_figures_otherwise(text: str, writer: _Writer) -> bool:
    """Whether prose leaves out a word of ``text``: a length said again in another unit."""
    said = in_prose(text, writer.names, writer.sizes)
    listed = " ".join(
        str(value) for values, name in writer.names.items() if name in said for value in values
    )
    return not words_of(text) <= words_of(f"{said} {listed}")


def _edge(count: tuple[int, ...], where: str) -> str:
    return f"{{edge: {json.dumps(where, ensure_ascii=False)}, stitches: {_flow(count)}}}"


def _label(label: str) -> str:
    return f"      # {_plain(label)}" if label else ""


def _plain(text: str) -> str:
    return " ".join(text.split())


def _one_line(text: str) -> str:
    """A paragraph as a line of a block of text."""
    return _plain(text)


def _flow(values: tuple[object, ...]) -> str:
    """Figures: one alone where all are the same one, else a list in the order of sizes."""
    texts = [str(value) for value in values]
    return texts[0] if len(texts) == 1 else f"[{', '.join(texts)}]"


_BARE = re.compile(r"[A-Za-z][A-Za-z0-9 ]{0,60}")
_WORDS_OF_YAML = frozenset(["yes", "no", "on", "off", "true", "false", "null", "none", "y", "n"])


def _text(text: str) -> str:
    """A text as YAML, in quotes where it could be read as anything else."""
    if _BARE.fullmatch(text) and text.lower() not in _WORDS_OF_YAML and text == text.strip():
        return text
    return json.dumps(text, ensure_ascii=False)


def _key(text: str) -> str:
    """A short name of letters, digits and underscores, beginning with a letter."""
    key = re.sub(r"[^a-z0-9]+", "_", text.lower()).strip("_")
    return key if key[:1].isalpha() else f"piece_{key}".strip("_")
