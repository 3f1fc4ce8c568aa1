"""Every kind of step answers every question, and one more is added as DEVELOPERS.md says.

``FringeStep`` stands for a kind that somebody adds: its module of the plan and its words are here,
and a line in each list is all that the program is told of it.
"""

from collections.abc import Mapping
from dataclasses import MISSING, dataclass, fields, replace
from pathlib import Path
from types import MappingProxyType

import pytest

import bindoff.document.steps.registry as told
import bindoff.plan.steps.registry as worked
from bindoff.checks.allchecks import findings
from bindoff.document.back import TECHNIQUES
from bindoff.document.build import build_document
from bindoff.document.differencewords.sections import change_blocks
from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import join, paragraph
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks, texts
from bindoff.document.voice import Voice
from bindoff.files import MemoryFiles
from bindoff.plan.bench import Bench, Outcome, States
from bindoff.plan.differences.find import differences
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.rowfacts import row_facts
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.measures import Measures
from bindoff.plan.plan import Plan, make_plan
from bindoff.plan.rowbyrow import work_rows
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import HOOK
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, Hand, PiecePlan, WorkedStep
from bindoff.plan.yarn import Purpose
from bindoff.source.read import Source, read_source
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.registry import STEPS
from bindoff.source.steps.step import Step
from tests.small_patterns import CAP, FLAP, TUBE, WAVES, changed, plan_of

PACKAGE = Path(__file__).parents[2] / "generator" / "bindoff"

# ---------------------------------------------------------------- the kinds there are

each_model = pytest.mark.parametrize("model", STEPS.values(), ids=lambda model: model.__name__)


@pytest.mark.parametrize("stage", [worked.KINDS, told.WORDS], ids=["plan", "document"])
def test_each_stage_knows_all_kinds_of_the_source_and_no_others(
    stage: Mapping[type, object],
) -> None:
    assert set(stage) == set(STEPS.values())


@each_model
def test_a_kind_answers_every_question(model: type[Step]) -> None:
    """A question without an answer is a ``None``, as only a forced record has."""
    kind, words = worked.KINDS[model], told.WORDS[model]

    assert kind.model is words.model is model
    for record in (kind, kind.answers, words):
        assert [each.name for each in fields(record) if getattr(record, each.name) is None] == []


@pytest.mark.parametrize("record", [Kind, Answers, Words])
def test_no_question_is_answered_for_a_kind_that_does_not_say(record: type) -> None:
    """A default would be what a ``case _`` was: silence where somebody forgot."""
    assert [each.name for each in fields(record) if each.default is not MISSING] == []
    assert [each.name for each in fields(record) if each.default_factory is not MISSING] == []


def test_a_kind_has_a_file_of_one_name_in_each_stage() -> None:
    shared = {"__init__", "registry", "kind", "words", "nothing", "common", "live", "step"}
    source, plan, document = (
        {path.stem for path in (PACKAGE / stage / "steps").glob("*.py")} - shared
        for stage in ("source", "plan", "document")
    )

    assert source == plan == document
    assert len(plan) == len(STEPS)


@pytest.mark.parametrize("source", [CAP, TUBE, FLAP], ids=["cap", "tube", "flap"])
def test_techniques_that_steps_call_for_are_there(source: str) -> None:
    steps = [step for piece in plan_of(source).pieces for step in piece.steps]

    named = {name for step in steps for name in step.answers.techniques(step, False)}
    assert named <= set(TECHNIQUES)


# ---------------------------------------------------------------- one more, by the recipe


class FringeStep(Step):
    """Works one row and knots a fringe into it: the model, as ``source/steps`` would hold it."""

    fringe: str


@dataclass(frozen=True, slots=True)
class Fringed:
    """The row a fringe is knotted into, and the yarn of its knots (mm)."""

    row: Row
    knots_mm: float


_Fringe = WorkedStep[FringeStep, Fringed]


def _work(
    bench: Bench, index: int, step: FringeStep, yarn: str, states: States
) -> Outcome[Fringed]:
    (row,) = bench.rows(step.place.of("say"))
    after, rounds = work_rows(bench, index, yarn, states, [[row]] * len(states))
    return Fringed(row, 50_000.0), after, rounds


def _rows(step: _Fringe) -> tuple[Row, ...]:
    return (step.detail.row,)


def _thread(step: _Fringe, yarn: str, size: int) -> Mapping[Purpose, float]:
    return {Purpose.EDGING: step.detail.knots_mm} if yarn == step.yarn else {}


def _tools(step: _Fringe) -> tuple[str, ...]:
    return (HOOK,)


def _techniques(step: _Fringe, flat: bool) -> tuple[str, ...]:
    return ("crochet-edging",)


def _facts(measures: Measures, step: _Fringe, keys: Keys) -> Facts:
    return row_facts(measures, What.SHAPING_ROW, (step.detail.row,))


FRINGE = Kind(
    FringeStep,
    _work,
    Answers(
        rows=_rows,
        in_turn=False,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=nothing.stitches,
        closes=nothing.stitches,
        thread=_thread,
        tools=_tools,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=False,
        hand=Hand.WORKED,
    ),
)


def _tell(voice: Voice, piece: PiecePlan, step: _Fringe, new_yarn: bool) -> Blocks:
    return (paragraph(join("Knot a fringe into this round: ", voice.row(step.detail.row))),)


FRINGE_WORDS = Words(
    FringeStep,
    tell=_tell,
    in_full=named_in_full,
    leads={What.SHAPING_ROW: "the fringe is knotted into "},
    tells_rounds=True,
    tracks=no_tracks,
)

ROW = "k1, yo, cdd, yo, k to end"


@pytest.fixture
def registered(monkeypatch: pytest.MonkeyPatch) -> None:
    """The line of the new kind in the list of each stage, for one test."""
    monkeypatch.setattr(worked, "KINDS", MappingProxyType({**worked.KINDS, FringeStep: FRINGE}))
    monkeypatch.setattr(told, "WORDS", MappingProxyType({**told.WORDS, FringeStep: FRINGE_WORDS}))


def fringed(row: str = ROW) -> tuple[Source, MemoryFiles]:
    """The cap with a fringe before its end, written where the file has it under ``say``."""
    text = changed(CAP, ("      - gather: all\n", f'      - say: "{row}"\n      - gather: all\n'))
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    source = read_source(files)
    cap = source.pattern.pieces["cap"]
    *before, say, last = cap.steps
    steps = (*before, FringeStep(fringe=row).at(say.place), last)
    pieces = {"cap": cap.with_values({"steps": steps})}
    return replace(source, pattern=source.pattern.with_values({"pieces": pieces})), files


def plan_with(row: str = ROW) -> Plan:
    """The plan of the cap with a fringe."""
    return make_plan(fringed(row)[0])


def needed(plan: Plan, name: Purpose) -> list[float]:
    """The metres of slate for one purpose, per size."""
    (slate,) = (total for total in plan.yarn if total.yarn == "slate")
    return [part.metres for need in slate.needs for part in need.parts if part.name is name]


def test_the_recipe_names_the_files_of_a_kind_and_this_test() -> None:
    guide = (PACKAGE.parents[1] / "DEVELOPERS.md").read_text("utf-8")
    _, _, recipe = guide.partition("A new kind of step is three files of one name")
    recipe = recipe.partition("\n## ")[0]

    for stage in ("source", "plan", "document"):
        assert f"`{stage}/steps/<kind>.py`" in recipe
        assert f"`{stage}/steps/registry.py`" in recipe
        assert (PACKAGE / stage / "steps" / "registry.py").is_file()
    assert f"`tests/plan/{Path(__file__).name}`" in recipe


@pytest.mark.usefixtures("registered")
def test_a_new_kind_is_worked() -> None:
    *_, fringe, last = plan_with().piece("cap").steps

    assert fringe.rounds == (1, 1)
    assert [progress.stitches for progress in fringe.after] == [8, 8]
    assert last.before == fringe.after


@pytest.mark.usefixtures("registered")
def test_a_new_kind_takes_its_yarn() -> None:
    assert needed(plan_with(), Purpose.EDGING) == [50.0, 50.0]
    assert needed(plan_of(CAP), Purpose.EDGING) == []


@pytest.mark.usefixtures("registered")
def test_a_new_kind_is_told_with_its_abbreviations_and_techniques_explained() -> None:
    source, files = fringed()
    document, _ = build_document(make_plan(source), files)
    plain, _ = build_document(plan_of(CAP), files)
    said, before = (" ".join(texts(each.blocks)) for each in (document, plain))

    assert "Knot a fringe into this round: K1, yo, cdd, yo, k to end." in said
    assert "centred double decrease" in said.lower().replace("centered", "centred")
    assert "double decrease" not in before
    assert "Crochet" in said
    assert "Crochet" not in before


@pytest.mark.usefixtures("registered")
def test_a_new_kind_is_compared() -> None:
    found = differences(plan_with(), plan_with(ROW.replace("k1, yo", "k2tog, yo, yo")))
    said = " ".join(texts(change_blocks(found, 3)))

    assert "the fringe is knotted into “K2tog, yo, yo, cdd" in said
    assert "was “K1, yo, cdd" in said
    assert not differences(plan_with(), plan_with()).changes


@pytest.mark.usefixtures("registered")
def test_a_new_kind_is_checked() -> None:
    """The hook it needs is on no list; the checks know nothing of fringes."""
    source, files = fringed()
    plan = make_plan(source)
    missing = [
        f for f in findings(plan, *build_document(plan, files), files) if "hook" in f.message
    ]

    assert [finding.id for finding in missing] == ["tool.missing"]


def test_a_kind_that_no_list_names_is_not_passed_over() -> None:
    with pytest.raises(KeyError, match="FringeStep"):
        plan_with()
