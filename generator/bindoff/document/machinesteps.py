"""Steps of a piece from the machine in words: needles in work, turns of the crank, closing."""

from collections.abc import Sequence

from bindoff.document.phrases import counted, figures, join, paragraph, running
from bindoff.document.stepphrases import counts, unit_of, with_yarn
from bindoff.document.stripewords import WASTE_ROUNDS
from bindoff.document.tree import Blocks, Inlines
from bindoff.document.units import per_size
from bindoff.document.voice import Voice
from bindoff.plan import yarn as method
from bindoff.plan.steps.cast_on import CastOn
from bindoff.plan.worked import PiecePlan, StepPlan


def machine_cast_on(voice: Voice, piece: PiecePlan, step: StepPlan, detail: CastOn) -> Blocks:
    """Which needles are in work, how they get their first stitch, and what weighs them down.

    Weights, the gap between the edges and the look at the last needle are common practice, no
    source.
    """
    yarn, unit = voice.yarn_names[step.yarn], unit_of(voice, piece)
    tube = unit == "round"
    if detail.method is method.CastOnKind.WASTE_YARN:
        first = join(
            f"Cast on these needles with waste yarn and crank {WASTE_ROUNDS} {unit}s. "
            f"Set the counter to 0 and change to {yarn}."
        )
    else:
        first = join(
            f"Wind {yarn} once around each needle in work by hand, always the same way. Set the "
            "counter to 0."
        )
    if tube:
        return (
            paragraph("Take all ", counts(detail.stitches), ", one a needle, into work."),
            paragraph(running(first, "Hang the weights evenly around the tube.")),
        )
    return (
        paragraph(running(_in_work(detail), first)),
        paragraph(
            "Hang the weights evenly, and a small one at each edge. Turn the crank one way for a "
            "row and back for the next. Before each turn, see that the last needle at the edge "
            "has the yarn in its hook and has let go of the old stitch; move the small weights up "
            "as the panel grows."
        ),
    )


def _in_work(detail: CastOn) -> Inlines:
    rest = [has - used for has, used in zip(detail.needles, detail.stitches, strict=True)]
    needles = join("Bring needles into work for ", counts(detail.stitches), ", side by side.")
    if not any(rest):
        return needles
    words = "Those out of work are the gap between the two edges: "
    return running(needles, join(words, figures(rest), "."))


def cranked(
    voice: Voice, piece: PiecePlan, step: StepPlan, rounds: Sequence[int], new_yarn: bool
) -> Blocks:
    """So many turns of the crank, and what the counter shows after them."""
    shows = per_size([progress.rounds for progress in step.after])
    words = join("crank ", counted(rounds, unit_of(voice, piece)), ".")
    return (
        paragraph(
            running(with_yarn(voice, step, new_yarn, words), join("The counter shows ", shows, "."))
        ),
    )


MACHINE_BIND_OFF = (
    "with a crochet hook from needle to needle, drawing each stitch through the one before"
)
"""How stitches are bound off at the machine; common practice, no source."""
