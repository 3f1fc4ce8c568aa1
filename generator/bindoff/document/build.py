"""The whole document of a plan, section after section."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff import regex as re
from bindoff.document.back import (
    care_section,
    chart_notes,
    closing_section,
    finishing_section,
    gauge_notes,
    notes_section,
    safety_section,
    step_notes,
    technique_section,
    told_at_charts,
)
from bindoff.document.chartpages import (
    ChartPage,
    chart_pages,
    chart_section,
)
from bindoff.document.drawn import USUALLY, Drawn
from bindoff.document.front import (
    abbreviation_section,
    cover,
    gauge_section,
    material_section,
    photo_section,
    size_section,
)
from bindoff.document.names import names_marked
from bindoff.document.piecepages import piece_blocks
from bindoff.document.rowwords import settled
from bindoff.document.stepwords import abbreviated_rows
from bindoff.document.stitchpatterns import pattern_rows, stitch_pattern_section
from bindoff.document.tree import Blocks, Document, from_source
from bindoff.document.typography import set_in_type
from bindoff.document.voice import Voice, voice_of
from bindoff.document.workedcharts import charted_rows
from bindoff.files import Files
from bindoff.plan.plan import Plan
from bindoff.source.model import TextUse
from bindoff.source.rowlang.syntax import Row
from bindoff.source.rowlang.uses import abbreviations_used
from bindoff.source.steps.section import SectionStep
from bindoff.source.texts import texts


def build_document(
    plan: Plan, files: Files, changes: Blocks = (), drawn: Drawn = USUALLY
) -> tuple[Document, tuple[ChartPage, ...]]:
    """The document and its charts; ``changes`` since another version stand among its last notes.

    Drawings are made as ``drawn`` says.

    Raises:
        PatternError: for prose that names what isn't there, or Markdown the tree has no node for.
    """
    voice = voice_of(plan)
    pattern = plan.source.pattern
    charts = chart_pages(voice, drawn)
    used = abbreviations_used(_rows(voice), plan.book)
    told = _told(plan, used)
    at_charts = told_at_charts(voice, used, _used_in_steps(voice)) if charts else []
    notes = step_notes(voice, files, drawn, used, at_charts)
    blocks = (
        *_asked_by(voice, "title", (cover(voice, drawn),)),
        *_asked_by(voice, "photos", photo_section(voice)),
        *_asked_by(voice, "sizes", size_section(voice, drawn)),
        *notes_section(voice, files),
        *_asked_by(voice, "yarns", material_section(voice, drawn)),
        *_asked_by(voice, "gauge", gauge_section(voice)),
        *gauge_notes(voice, files),
        *abbreviation_section(voice, (*told, *used), _stitches_told(plan)),
        *stitch_pattern_section(voice),
        *(block for piece in plan.pieces for block in piece_blocks(voice, piece, drawn, notes)),
        *chart_section(voice, charts, chart_notes(voice, files, drawn, used, at_charts)),
        *_asked_by(voice, "finishing", finishing_section(voice)),
        *technique_section(voice, files, drawn, used, at_charts),
        *care_section(voice, files),
        *_asked_by(voice, "wearer", safety_section(voice, files)),
        *closing_section(voice, files, changes),
    )
    document = Document(
        pattern.title,
        pattern.designer,
        language_of(voice),
        pattern.version,
        pattern.date,
        pattern.summary,
        voice.sizes,
        blocks,
        keywords=("knitting pattern", *pattern.keywords),
        rights=f"© {pattern.date[:4]} {pattern.designer}",
    )
    named = names_marked(document, set(_names(voice)), voice.prose_language)
    return set_in_type(named), charts


def _asked_by(voice: Voice, key: str, blocks: Blocks) -> Blocks:
    """A section, as what the key of that name asks for."""
    return from_source(blocks, voice.plan.source.pattern.place.of(key).span)


def _names(voice: Voice) -> Iterator[str]:
    """What the designer has named: sizes, yarns, charts, pieces and their sections."""
    pattern = voice.plan.source.pattern
    yield from voice.sizes
    yield from voice.yarn_names.values()
    yield from (chart.title for chart in pattern.charts.values())
    yield from (each.title for each in pattern.stitch_patterns.values() if each.title)
    for piece in voice.plan.pieces:
        yield pattern.pieces[piece.key].title
        steps = (each.step for each in piece.steps)
        yield from (step.section for step in steps if isinstance(step, SectionStep))


def language_of(voice: Voice) -> str:
    """The language tag of a document: most of its sentences are ours, in English.

    Those of the designer are marked if theirs is another.
    """
    return {"US": "en-US", "UK": "en-GB"}[voice.plan.source.pattern.terms]


def abbreviation_names(plan: Plan) -> Mapping[str, str]:
    """The full name of each abbreviation that the document of ``plan`` lists, for ``expanded``."""
    voice = voice_of(plan)
    found = {}
    for id in abbreviations_used(_rows(voice), plan.book):
        short, name, _ = voice.abbreviation(id)
        if plan.book.act(id) is None and voice.written(id) == f"{short}{{n}}":
            found[f"{short}{{n}}"] = f"{name} {{n}}"
        elif short != name:
            found[short] = name
    return found


# Knit and purl with their number, which nobody thinks of as in need of a word.
_COUNTED = re.compile(r"(?<![\w&/-])([kp])\d+(?![\w-])", re.IGNORECASE)


def _told(plan: Plan, used: Sequence[str]) -> tuple[str, ...]:
    """Knit and purl where the designer's words have k1 or p1 and no row has either."""
    words = (text.place.text for text in texts(plan.source.pattern) if text.use in _WORDS)
    found = {each[1].lower() for text in words for each in _COUNTED.finditer(text)}
    return tuple(id for id in ("k", "p") if id in found and id not in used)


def _stitches_told(plan: Plan) -> Mapping[str, str]:
    """What the designer's words shorten stitches to, as every list of the trade has it."""
    words = " ".join(text.place.text for text in texts(plan.source.pattern) if text.use in _WORDS)
    named = {"st": "stitch", "sts": "stitches"}
    found = {each[0] for each in _SHORT_STITCHES.finditer(words)}
    return {short: name for short, name in named.items() if short in found}


_SHORT_STITCHES = re.compile(r"(?<![\w&/-])sts?(?![\w-])")
_WORDS = (TextUse.STEP, TextUse.TEXT, TextUse.STITCH)


def _rows(voice: Voice) -> Iterator[Row]:
    """Every row that the document prints in abbreviations, as it prints it."""
    yield from _rows_of_steps(voice)
    yield from charted_rows(voice.plan)


def _rows_of_steps(voice: Voice) -> Iterator[Row]:
    """Those of steps and of stitch patterns, which no chart draws."""
    for piece in voice.plan.pieces:
        for step in piece.steps:
            yield from (settled(row, voice.numbers) for row in abbreviated_rows(step))
    yield from pattern_rows(voice.plan)


def _used_in_steps(voice: Voice) -> tuple[str, ...]:
    return abbreviations_used(_rows_of_steps(voice), voice.plan.book)
