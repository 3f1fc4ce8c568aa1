"""Steps of a piece from the machine in words: needles in work, turns of the crank, closing."""

from collections.abc import Sequence

from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.document.openstart import open_start
from bindoff.document.phrases import counted, join, paragraph, running
from bindoff.document.stepphrases import unit_of, with_yarn
from bindoff.document.stripewords import WASTE_ROUNDS, closing_tail
from bindoff.document.tree import Blocks, Inlines, Strong
from bindoff.document.units import per_size, round_length
from bindoff.document.voice import Voice
from bindoff.english import plural
from bindoff.plan import yarn as method
from bindoff.plan.steps.cast_on import CastOn
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.plan.yarnends import leaves_open


def machine_cast_on(voice: Voice, piece: PiecePlan, step: StepPlan, detail: CastOn) -> Blocks:
    """Which needles are in work, how they get their first stitch, and what weighs them down.

    Weights, the gap between the edges and the look at the last needle are common practice, no
    source.
    """
    yarn, unit = voice.yarn_names[step.yarn], unit_of(voice, piece)
    waste = detail.method is method.CastOnKind.WASTE_YARN
    if unit == "round":
        needles = join("Bring all ", _stressed(per_size(detail.stitches)), " needles into work.")
        weights = "Hang the weights evenly around the tube."
    else:
        needles = _in_work(detail)
        weights = (
            "Hang the weights evenly, and a small one at each edge. Turn the crank one way for a "
            "row and back for the next. Before you turn back, see that the last needle at the edge "
            "has the yarn in its hook and has let go of the old stitch; move the small weights up "
            "as the panel grows."
        )
    tail = round_length(CRAFT_LENGTHS["tail"], voice.units)
    by_hand = (
        "once around each needle in work by hand, always the same way: every turn is a stitch."
    )
    first = f"Leaving a tail of {tail}, wind {yarn} {by_hand}"
    last = "Set the counter to 0."
    if waste:
        first = f"Wind smooth waste yarn {by_hand}"
        last = (
            f"Crank {WASTE_ROUNDS} {plural(unit)} with the waste yarn. Cut it, change to {yarn}, "
            f"leaving a tail of {tail}, and set the counter to 0."
        )
    return (
        paragraph(running(needles, first)),
        paragraph(weights),
        paragraph(running(last, open_start(voice, piece, step, detail.group))),
    )


def _in_work(detail: CastOn) -> Inlines:
    """The needles that knit, and those between the two edges: one at least."""
    rest = [has - used for has, used in zip(detail.needles, detail.stitches, strict=True)]
    needles = _stressed(counted(detail.stitches, "needle"))
    return running(
        join("Bring ", needles, " into work, side by side."),
        join("Leave ", counted(rest, "needle"), " empty between the two edges."),
    )


def _stressed(words: Inlines) -> Inlines:
    return (Strong(words),)


def cranked(
    voice: Voice, piece: PiecePlan, step: StepPlan, rounds: Sequence[int], new_yarn: bool
) -> Blocks:
    """So many turns of the crank, and what the counter shows after them."""
    shows = per_size([progress.rounds for progress in step.after])
    words = join("crank ", counted(rounds, unit_of(voice, piece)), ".")
    return (
        paragraph(
            running(
                with_yarn(voice, step, new_yarn, words),
                join("The counter then shows ", shows, "."),
            )
        ),
    )


def cranked_off(voice: Voice, piece: PiecePlan, step: StepPlan) -> str:
    """How the open stitches of a piece whose rounds or rows are cranked leave the machine before
    they are joined; empty where they were not on it."""
    if not leaves_open(piece, step):
        return ""
    unit = unit_of(voice, piece)
    tail = closing_tail(piece, step, voice.units, flat=unit == "row")
    leaving = f", leaving {tail}" if tail else ""
    return (
        f"Cut the yarn{leaving}. Crank {WASTE_ROUNDS} {plural(unit)} with waste yarn and take the "
        "piece off the machine."
    )


def bound_off(step: StepPlan) -> str:
    """How stitches are bound off at the machine; common practice, no source."""
    begins = "from the edge where the yarn is, " if step.flat else ""
    return (
        f"with a crochet hook, {begins}needle by needle, drawing each stitch through the one before"
    )
