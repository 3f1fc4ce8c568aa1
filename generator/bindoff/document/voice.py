"""How a pattern speaks: its terms, units, yarn names and figures, ready for every section."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff.craft.bodies import Dimension, body
from bindoff.document.rowwords import Form, chart_name, respelled, words
from bindoff.document.terms import terms
from bindoff.document.tree import Inlines
from bindoff.document.units import Units, lengths, per_size
from bindoff.english import capital
from bindoff.plan.fit import fitted
from bindoff.plan.plan import Plan
from bindoff.plan.values import Kind, Measure
from bindoff.records import Record, replace
from bindoff.source.rowlang.stitches import Terms
from bindoff.source.rowlang.syntax import Row


class Voice(Record):
    """Words and figures of one pattern; ``values`` are what ``{{ name }}`` in prose prints.

    ``spelling`` has the designer's own abbreviation for stitches that are printed under it.
    """

    plan: Plan
    sizes: tuple[str, ...]
    units: Units
    term: Mapping[str, str]
    yarn_names: Mapping[str, str]
    values: Mapping[str, object]
    numbers: Mapping[str, tuple[int, ...]]
    spelling: Mapping[str, str]

    @property
    def prose_language(self) -> str:
        """The language of the designer's own words; empty where it is the document's, English."""
        return foreign(self.plan.source.pattern.language)

    def amid(self, words: str) -> str:
        """The designer's ``words`` inside a sentence: in English with a small first letter, but for
        a letter that stands alone or capitals; other languages keep theirs."""
        if self.prose_language or not words[1:2].islower():
            return words
        return words[:1].lower() + words[1:]

    def row(self, row: Row, size: int | None = None, form: Form = Form.SHORT) -> Inlines:
        """A row instruction in the house style, with its full stop; of one size or of all."""
        style = Terms(self.plan.source.pattern.terms)
        numbers = self.numbers
        if size is not None:
            numbers = {name: each[size : size + 1] for name, each in numbers.items()}
        return words(
            row,
            numbers,
            style,
            self.plan.book,
            form=form,
            yarns=self.yarn_names,
            patterns=self.pattern_names,
            spelling=self.spelling,
        )

    @property
    def pattern_names(self) -> Mapping[str, str]:
        """The printed name of each stitch pattern and chart that rows are worked in."""
        pattern = self.plan.source.pattern
        stitch = {key: self.pattern_name(key) for key in pattern.stitch_patterns}
        return {**stitch, **{chart_name(key): each.title for key, each in pattern.charts.items()}}

    def pattern_name(self, key: str) -> str:
        """The printed name of a stitch pattern."""
        return self.plan.source.pattern.stitch_patterns[key].title or capital(key)

    def measure(self, measure: Measure) -> Inlines:
        """A measure with its unit if it is a length, per size."""
        if measure.kind is Kind.LENGTH:
            return lengths(measure.rounded, self.units)
        return per_size([number(value) for value in measure.rounded])

    def abbreviation(self, id: str) -> tuple[str, str, str]:
        """A stitch or act by its id: abbreviation, full name, how it is worked."""
        style = Terms(self.plan.source.pattern.terms)
        book = self.plan.book
        entry = next((act for act in book.acts if act.id == id), None) or book[id]
        words = entry.us if style is Terms.US else entry.uk
        return self.spelling.get(id, words.abbreviation), words.name, entry.how_to

    def written(self, id: str) -> str:
        """What a row says for a stitch, with ``{n}`` where its number goes."""
        style = Terms(self.plan.source.pattern.terms)
        return respelled(self.plan.book[id].wording(style).written, self.spelling.get(id))


def foreign(language: str) -> str:
    """``language``, a BCP 47 tag, unless it is English, which documents are written in."""
    return "" if language.split("-")[0] == "en" else language


def number(value: float) -> str:
    """A figure without a unit: whole numbers in full, others to two decimals at most."""
    return f"{value:.2f}".rstrip("0").rstrip(".").replace("-", "−")


def voice_of(plan: Plan) -> Voice:
    """The voice of a plan's pattern."""
    pattern = plan.source.pattern
    measures = plan.measures
    numbers = [measures.numbers(size) for size in range(len(measures.sizes))]
    shared = [name for name in numbers[0] if all(name in each for each in numbers)]
    voice = Voice(
        plan,
        plan.source.sizes,
        pattern.units,
        terms(pattern.terms),
        {key: yarn.name for key, yarn in pattern.yarns.items()},
        {},
        {name: tuple(each[name] for each in numbers) for name in shared},
        dict(reversed(list(_spelled(plan)))),
    )
    values: dict[str, object] = {
        name: voice.measure(measure) for name, measure in measures.named.items()
    }
    values |= _bodies(voice, plan)
    needles = [count for size in voice.sizes if (count := pattern.needles(size))]
    if len(needles) == len(voice.sizes):
        values["needles"] = per_size(needles)
    values |= {"yarns": dict(voice.yarn_names), "terms": dict(voice.term)}
    return replace(voice, values=values)


def _spelled(plan: Plan) -> Iterator[tuple[str, str]]:
    """Stitches by their ids, with the designer's words for them, where these are printed."""
    for piece in plan.pieces:
        for step in piece.steps:
            for row in step.all_rows:
                yield from row.spelled


def _bodies(voice: Voice, plan: Plan) -> dict[str, object]:
    """Body measurements by the names formulas use."""
    return {name.replace(" ", "_"): lengths(mm, voice.units) for name, mm in body_rows(plan)}


def body_label(plan: Plan, name: str) -> str:
    """A body measurement with the place it is taken at, where all sizes have it from the tables;
    one around a part that is told the length of too says so."""
    if any(other == f"{name} length" for other, _ in body_rows(plan)):
        return f"{name}, around"
    sizes = plan.source.pattern.sizes.values()
    if any(name in size.body or size.like is None for size in sizes):
        return name
    dimension = Dimension(name)
    figures = [body(size.like).figure(dimension) for size in sizes if size.like is not None]
    taken = {figure.taken for figure in figures if figure is not None}
    return f"{name} ({taken.pop()})" if len(taken) == 1 and all(taken) else name


def body_rows(plan: Plan) -> list[tuple[str, Sequence[float]]]:
    """Body measurements that every size has and some formula reads: (name, mm per size)."""
    used, sizes = _read(plan), plan.measures.sizes
    written = {key for size in plan.source.pattern.sizes.values() for key in size.body}
    return [
        (name, [size.body[name] for size in sizes])
        for name in sizes[0].body
        if all(name in size.body for size in sizes)
        and (name in written or name.replace(" ", "_") in used)
    ]


def has_ease(plan: Plan) -> bool:
    """Whether the piece is made to the body: a formula reads a body measurement, or a finished
    measure goes around or along the same part."""
    bodies = dict(body_rows(plan))
    read = _read(plan)
    made_to = any(name.replace(" ", "_") in read for name in bodies)
    return made_to or any(True for _ in fitted(plan.measures.finished, bodies))


def _read(plan: Plan) -> frozenset[str]:
    """The names that formulas of measures and finished figures read."""
    measures = (*plan.measures.named.values(), *plan.measures.finished.values())
    return frozenset(
        name for measure in measures for value in measure.values for name, _ in value.inputs
    )
