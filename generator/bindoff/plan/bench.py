"""What working a step needs: the live stitches of every size, the piece, and its rows."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from bindoff import regex as re
from bindoff.diagnostics import (
    MOST_FINDINGS,
    Diagnostic,
    PatternError,
    Span,
    fail,
    gathered,
)
from bindoff.english import listed
from bindoff.plan.established import NOTHING, Established, Knitter, PatternUse
from bindoff.plan.groups import Groups, Stretch
from bindoff.plan.levels import Level
from bindoff.plan.measures import MOST, Measures
from bindoff.plan.mirrored import NotMirrored, mirrored_rows, same_from_both_ends
from bindoff.plan.mismatch import mismatch, not_whole
from bindoff.plan.parts import NO_GAPS, Gaps
from bindoff.plan.persize import together
from bindoff.plan.picture import PicturePlan
from bindoff.plan.rowcount import (
    Counted,
    LiveStitches,
    RowMismatch,
    Trouble,
    count_on,
)
from bindoff.plan.shortrows import NONE_MISSED, Missed, missed_at
from bindoff.plan.shown import UNKNOWN, Shown
from bindoff.plan.stitchpatterns import Patterns
from bindoff.plan.worked import Detail, Loops, PiecePlan, Progress
from bindoff.records import Record, replace
from bindoff.source.piece import Piece
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.read import Words, read_row
from bindoff.source.rowlang.stitches import StitchBook
from bindoff.source.rowlang.syntax import (
    InPattern,
    Marker,
    MarkerAct,
    Row,
)
from bindoff.source.rowlang.uses import every_part, patterns_used
from bindoff.source.yamltree import Place


class State(Record):
    """One size while its piece is worked.

    ``held`` are stitches without a name that wait off the needles, ``groups`` those with one, of
    earlier pieces too. ``flat`` says that rows are turned at their ends. ``divided`` are the parts
    made by each row of the last step that named some. ``established`` are the stitch patterns on
    the needles, ``laid`` those that each row of the last step was worked in. ``levels`` are
    those after each row of the step that is worked.

    ``column`` is the stitch along which rounds are counted, empty for where the fewest were worked.
    ``begun`` is the height at which stitches were last taken up, where a length is measured from.
    ``start`` are the stitches of the first round while its loops are open at their foot.
    ``shown`` is the yarn that the live stitches show, where the pattern has a chart that slips
    them.
    """

    needle: LiveStitches
    rounds: int = 0
    held: int = 0
    column: str = ""
    start: int = 0
    begun: int = 0
    missed: Missed = NONE_MISSED
    gaps: Gaps = NO_GAPS
    wrong_side: bool = False
    flat: bool = False
    groups: Groups = ()
    established: Established = NOTHING
    laid: tuple[tuple[PatternUse, ...], ...] = ()
    divided: tuple[tuple[Stretch, ...], ...] = ()
    levels: tuple[Level, ...] = ()
    shown: Shown = UNKNOWN

    @property
    def live(self) -> int:
        """Stitches on the needles."""
        return self.needle.left + self.needle.right

    @property
    def height(self) -> int:
        """Rounds or rows of the piece, without those that are short where they are counted."""
        if self.column:
            return self.rounds - missed_at(self.missed, self.column, turned=self.wrong_side)
        return self.rounds - self.missed.most

    @property
    def progress(self) -> Progress:
        """The state as the plan records it."""
        return Progress(
            self.rounds,
            self.live,
            self.height,
            self.rounds - self.missed.fewest,
            self.wrong_side,
            self.flat,
            self.start,
            len(self.needle.left_markers) + len(self.needle.right_markers),
        )


MOST_IN_ALL = 100_000
"""Rounds of all pieces in all sizes at the most, as each is counted: 30 sizes of 3,000 rounds."""
MOST_LIVE = 100_000
"""Live stitches of a piece at the most."""
MOST_MARKERS = 500
"""Markers on the needles at the most."""

_OF_MARKERS = (Trouble.NO_MARKER, Trouble.PAST_MARKER, Trouble.ACROSS_MARKER)

States = tuple[State, ...]
Worked = tuple[tuple[Loops, ...], ...]
Outcome = tuple[Detail, States, Worked]
"""What a step was, where every size stands after it, and the loops of its rounds per size."""


def no_rounds(states: States) -> Worked:
    """No rounds worked, in any size."""
    return ((),) * len(states)


class Bench(Record):
    """What working the steps of one piece needs to look up."""

    measures: Measures
    key: str
    piece: Piece
    book: StitchBook
    tubes: tuple[PicturePlan, ...]
    patterns: Patterns
    before: tuple[PiecePlan, ...] = ()
    flat: bool = False

    @property
    def machine(self) -> bool:
        """Whether the piece is made on the machine."""
        return self.measures.source.pattern.on_machine(self.key)

    @property
    def slips(self) -> bool:
        """Whether the pattern has a chart that slips stitches of other yarns."""
        return any(chart.slipped for chart in self.measures.source.pattern.charts.values())

    @property
    def mirrored(self) -> bool:
        """Whether the piece is the mirror image of the one whose steps it has."""
        return self.piece.mirror_of is not None

    @property
    def row_word(self) -> str:
        """What a row is called."""
        return "row" if self.flat else "round"

    @property
    def sizes(self) -> tuple[str, ...]:
        """The names of the sizes."""
        return self.measures.source.sizes

    def span(self, index: int) -> Span:
        """The place of a step."""
        return self.piece.steps[index].place.span

    def rows(self, place: Place) -> tuple[Row, ...]:
        """The row or the list of rows written at ``place``, parsed; all their faults at once."""
        made: list[Row] = []
        findings: list[Diagnostic] = []
        for each in place.entries:
            try:
                made.append(self._row(each))
            except PatternError as error:
                findings.extend(error.findings)
                if len(findings) > MOST_FINDINGS:
                    break
        if findings:
            raise PatternError(gathered(findings))
        return self._from_the_other_end(tuple(made)) if self.mirrored else tuple(made)

    def _from_the_other_end(self, rows: tuple[Row, ...]) -> tuple[Row, ...]:
        """The rows of a mirrored piece; raises ``PatternError`` (``mirror.row``)."""
        sizes = [self.measures.numbers(size) for size in range(len(self.sizes))]
        try:
            return mirrored_rows(rows, self.book, sizes, self._alike, flat=self.flat)
        except NotMirrored as error:
            place = error.row.span or self.piece.place.key_span
            raise fail("mirror.row", f"in `{self.key}`, {error.why}", error.help, place) from None

    def _alike(self, part: InPattern) -> bool:
        """Whether a stitch pattern or chart looks the same from both ends."""
        rows = self.patterns.rows(part.name, chart=part.chart, flat=self.flat)
        return same_from_both_ends(rows, self.book)

    def row_in(self, name: str, place: Place) -> Row:
        """A row that is worked in the stitch pattern called ``name``, which is written there."""
        row = parse_row(
            f"in {name}",
            lambda start, end: place.text_span,
            self.book,
            patterns=self.patterns.names,
        )
        return self._from_the_other_end((row,))[0] if self.mirrored else row

    def _row(self, place: Place) -> Row:
        pattern = self.measures.source.pattern
        row = read_row(
            place.text,
            place.text_span,
            self.book,
            tuple(pattern.yarns),
            sizes=len(self.sizes),
            words=Words(pattern.vocabulary),
            patterns=self.patterns.names,
            spelled=pattern.abbreviations == "as written",
        )
        if row.reading is not None and row.reading.several:
            raise fail(
                "row.label",
                f"`{row.reading.several}` stands for several rows, and this is read as one",
                "Take the label out, and write the row where each of them is worked",
                row.span,
            )
        return row

    def refuse(self, found: Iterable[tuple[int, Diagnostic]]) -> None:
        """Raises a ``PatternError`` if anything was found; each with the index of its size."""
        findings = together(((self.sizes[size], each) for size, each in found), self.sizes)
        if findings:
            # Where nothing fits, the row is wrong; where a size doesn't, perhaps its own figure is.
            raise PatternError(
                each if each.sizes else replace(each, beside=()) for each in findings
            )

    def refuse_endless(self, index: int, states: States, rounds: Sequence[int]) -> None:
        """Raises a ``PatternError`` when so many ``rounds`` more, per size, are too many.

        Raises:
            PatternError: ``piece.rounds`` above ``MOST`` in a piece or ``MOST_IN_ALL`` in all.
        """
        here = [state.rounds + more for state, more in zip(states, rounds, strict=True)]
        help = "Check the number of rounds or times, and the measures it is made from"
        self.refuse(
            (
                size,
                Diagnostic(
                    "piece.rounds",
                    f"the piece comes to {count:,} {self.row_word}s, more than the {MOST:,} that "
                    "can be worked",
                    help,
                    self.span(index),
                ),
            )
            for size, count in enumerate(here)
            if count > MOST
        )
        in_all = sum(here) + sum(sum(piece.rounds) for piece in self.before)
        if in_all > MOST_IN_ALL:
            raise fail(
                "piece.rounds",
                f"all pieces in all sizes come to more than {MOST_IN_ALL:,} {self.row_word}s",
                help,
                self.span(index),
            )

    def nothing_live(self, index: int) -> Diagnostic:
        """The finding for a step that works stitches where none are."""
        return Diagnostic(
            "piece.none-live",
            "there are no live stitches to work",
            "Cast on before this step, or take it out",
            self.span(index),
        )

    def count(self, row: Row, state: State, numbers: Mapping[str, int]) -> Counted:
        """A row over the stitches of ``state``; raises ``RowMismatch``."""
        layer = self.knitter(row, state)
        return count_on(row, state.needle, numbers, self.book, flat=state.flat, layer=layer)

    def knitter(self, row: Row, state: State) -> Knitter | None:
        """Who works the row in the stitch patterns that stand on the needles; nobody where there
        are none."""
        zones = state.established.zones if state.established.live == state.live else ()
        if not zones and not patterns_used(row):
            return None
        return Knitter(self.patterns, zones, state.needle, state.wrong_side, state.flat)

    def misfit(self, error: RowMismatch, place: Span | None, size: int, state: State) -> Diagnostic:
        """The finding for the row at ``place`` that does not fit a size standing in ``state``."""
        named = self.measures.sizes[size].names.get(error.figures.number)
        if error.figures.trouble is Trouble.UNKNOWN_NUMBER and named is not None:
            return not_whole(error.figures, named)
        turned = state.needle.right or state.wrong_side
        word = "row" if turned else self.row_word
        amid = bool(state.needle.right)
        found = mismatch(error.figures, f"{word} {state.rounds + 1}", place, amid)
        found = replace(found, beside=tuple(self._typed(size, state.live)))
        return self._at_markers(found) if error.figures.trouble in _OF_MARKERS else found

    def _typed(self, size: int, figure: int) -> Iterator[Span]:
        """Where ``figure`` is typed for that size in a list for all sizes that the piece names."""
        names = frozenset(re.findall(r"\w+", self.piece.place.text))
        for name, measure in self.measures.source.pattern.measures.items():
            if name in names and measure.by_size and measure.formula(size).text == str(figure):
                yield measure.formula(size).span

    def _at_markers(self, found: Diagnostic) -> Diagnostic:
        """A finding about a marker: it names the lines that place and remove markers before it.

        A stitch that the tool itself would work across one is told at the marker: that is where
        it can be mended.
        """
        acts = [act for act in self._markers() if found.span and act.span and act.span < found.span]
        told = [
            f"{said} in line {', '.join(str(line) for line in lines)}"
            for what, said in ((MarkerAct.PLACE, "placed"), (MarkerAct.REMOVE, "removed"))
            if (lines := dict.fromkeys(a.span.line for a in acts if a.act is what and a.span))
        ]
        help = f"{found.help}; markers are {listed(told)}" if told else found.help
        placed = [act.span for act in acts if act.act is MarkerAct.PLACE]
        if found.id == "row.across-marker" and found.span in self._steps() and placed:
            line = found.span.line if found.span else 0
            return replace(
                found,
                message=f"{found.message}, which is placed here and still there in line {line}",
                help="Write `remove markers: true` on that step or `remove marker` in a row before "
                "it, or place it where the step works no stitch across it",
                span=placed[-1],
            )
        return replace(found, help=help)

    def _steps(self) -> list[Span]:
        return [self.span(index) for index in range(len(self.piece.steps))]

    def _markers(self) -> Iterator[Marker]:
        """Everything that the written rows of the piece do with markers, in order."""
        for step in self.piece.steps:
            for key in ("work", "taper", "plain"):
                if key not in step.model_fields_set:
                    continue
                try:
                    rows = self.rows(step.place.of(key))
                except PatternError:  # told at its own step
                    continue
                yield from (
                    part for row in rows for part in every_part(row) if isinstance(part, Marker)
                )
