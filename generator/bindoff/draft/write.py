"""The source of a draft: keys in the order of the guide, and what isn't said left to fill in."""

import json
from collections.abc import Iterable, Iterator

from bindoff import regex as re
from bindoff.diagnostics import Diagnostic, Severity
from bindoff.draft.compose import PieceSaid, Said
from bindoff.draft.facts import YarnSaid
from bindoff.draft.figures import Names, in_prose, names_of
from bindoff.draft.passages import place
from bindoff.draft.runs import Step, Value, Words
from bindoff.records import Record


class Draft(Record):
    """The text of a source, what is to be looked at in the text it was made from, and how many
    steps were understood."""

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
    sizes = len(said.sizes.names)
    prose = [value.text for step in every for _, value in step.entries if isinstance(value, Words)]
    names = names_of((*prose, *said.notes, *said.finishing, *said.care), sizes)
    writer = _Writer(said, names, sizes)
    written = [
        *_head(said, date, called),
        *_materials(said),
        *_sizes(said, names),
        *writer.pieces(),
        *writer.block("finishing", said.finishing),
        *writer.block("care", said.care),
    ]
    kept = [step for step in every if step.kept]
    missing = [_missing(each, file) for each in written if isinstance(each, _Gap)]
    found = (*missing, *(_kept(step, file) for step in kept))
    steps = [step for step in every if step.entries[0][0] != "say"]
    source = "".join(f"{line}\n" for line in written if isinstance(line, str))
    return Draft(source, found, len(steps), len(kept))


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


def _short(words: str) -> str:
    return words if len(words) <= 90 else f"{words[:88].rstrip()} …"


# ---------------------------------------------------------------- head


def _head(said: Said, date: str, called: str) -> Lines:
    yield "# yaml-language-server: $schema=pattern.schema.json"
    yield "# A draft from a finished text. `bindoff check` says what is still to be filled in."
    yield f"title: {_text(said.title or called)}"
    yield from _or_left("designer", said.designer, "who designed it")
    yield 'version: "0.1"'
    yield f"date: {date}"
    yield from _or_left("summary", said.summary, "what it is")
    if said.wearers:
        yield f"wearer: [{', '.join(said.wearers)}]"
    else:
        yield _Gap("wearer", "Write `wearer:` with adult, child or infant")
        yield "wearer:                  # adult, child, infant: decides which cautions are printed"
    yield f"terms: {'UK' if said.british else 'US'}"
    yield f"units: {said.units}"
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


def _or_left(key: str, value: str, what: str) -> Lines:
    if not value:
        yield _Gap(f"words for {what}", f"Write `{key}:` in the draft")
    yield f"{key}: {_text(value)}" if value else f"{key}:"


def _materials(said: Said) -> Lines:
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
    if said.tools:
        yield ""
        yield "tools:"
        yield from (f"  - name: {_text(tool)}" for tool in said.tools)
    if said.notions:
        yield "notions:"
        yield from (f"  - {_text(notion)}" for notion in said.notions)


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


def _sizes(said: Said, names: Names) -> Lines:
    if said.sizes_line is None:
        yield _Gap("sizes", "Name them under `sizes:` if there are several")
    yield ""
    yield "sizes:                     # the body each is for, as far as the text says it"
    for number, name in enumerate(said.sizes.names):
        body = ", ".join(f"{part}: {values[number]}" for part, values in said.sizes.bodies)
        yield f"  {_text(name)}: {{{body}}}"
    if names:
        yield ""
        yield "measures:"
        yield from (f"  {name}: {_flow(values)}" for values, name in names.items())
    yield ""
    yield "finished:"
    if not said.finished:
        yield _Gap("finished measurement", "Write one under `finished:`")
        yield "  # such as Circumference: 52 cm"
    for name, values in said.finished:
        yield f"  {_text(name)}: {_flow(values)}"


# ---------------------------------------------------------------- pieces


class _Writer(Record):
    said: Said
    names: Names
    sizes: int

    def block(self, key: str, paragraphs: Iterable[str]) -> Iterator[str]:
        """Paragraphs of prose under a key, nothing where there are none."""
        texts = [in_prose(each, self.names, self.sizes) for each in paragraphs]
        if texts:
            yield ""
            apart = "\n\n".join(texts)
            yield f"{key}: {_text(apart)}"

    def pieces(self) -> Iterator[str]:
        """All pieces with their steps."""
        yield from self.block("notes", self.said.notes)
        yield ""
        yield "pieces:"
        taken: set[str] = set()
        for number, piece in enumerate(self.said.pieces, start=1):
            title = piece.title or (self.said.title if number == 1 else f"Piece {number}")
            key = _key(title)
            key = key if key not in taken else f"{key}_{number}"
            taken = {*taken, key}
            yield f"  {key}:"
            yield f"    title: {_text(title)}"
            if not piece.in_round:
                yield "    worked: flat"
            yield "    steps:"
            yield from self._steps(piece)
        if not self.said.pieces:
            yield "  piece: {title: Piece, steps: []}"

    def _steps(self, piece: PieceSaid) -> Iterator[str]:
        for part in piece.parts:
            if part.heading and part.heading != piece.title:
                yield f"      - section: {_text(part.heading)}"
            for step in part.steps:
                if step.kept:
                    yield f"      # line {step.line} of the text, not understood:"
                yield from self._step(step)

    def _step(self, step: Step) -> Iterator[str]:
        for number, (key, value) in enumerate(step.entries):
            lead = "      - " if number == 0 else "        "
            if key == "work" and isinstance(value, tuple):
                yield f"{lead}{key}:"
                yield from (f"          - {_text(str(row))}" for row in value)
            else:
                yield f"{lead}{key}: {self._value(value)}"

    def _value(self, value: Value) -> str:
        match value:
            case Words(text):
                return _text(in_prose(text, self.names, self.sizes))
            case tuple():
                return _flow(value)
            case _:
                return _text(value)


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
