"""Stripes of whole tubes against every plan there is: zones in yarns of their own, rounds that
nobody sees, wanted stripes, motifs, priced ends and carried yarns."""

from fractions import Fraction
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.plan.colour.embroidery import plan_embroidery
from bindoff.plan.picture import PicturePlan
from bindoff.plan.tube import TubePart
from tests.small_patterns import HEAD, plan_of

YARNS = ("slate", "foam", "red")


def tube(grid: str, zones: str, stripes: str, wishes: str) -> PicturePlan:
    """Six stitches around; lining and outside of 6 rounds each, 2 of brim and 1 gathered."""
    text = (
        HEAD
        + f"""\
made: {{by: machine, needles: 6}}
gauge: {{stitches: 10, rounds: 10}}
yarns:
  slate: {{name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}}
  foam: {{name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}}
  red: {{name: Red, colour: "#b3472f", weight: 4, ball: 100 g = 200 m}}
sizes:
  S: {{head: 24 cm}}
finished:
  Circumference: width(needles)
charts:
  waves:
    title: Waves
    grid: waves.grid
    legend: {{".": slate, "#": foam, "x": red}}
    alt: Waves.
pieces:
  cap:
    title: Cap
    yarn: slate
    tube: {{visible: 6 cm, brim: 2 cm, gather: 1 cm, yarns: {{{zones}}}, stripes: [{stripes}]}}
    motifs: [{{chart: waves, around: true, above rim: 2}}]
    colour plan: {{{wishes}}}
    steps:
      - stripes: from plan
      - embroider: from plan
      - gather: all
  strip:
    title: Strip in the other yarns
    worked: flat
    steps:
      - cast on: 4
      - work: k all
        yarn: foam
      - work: k all
        yarn: red
      - bind off: all
"""
    )
    (found,) = plan_of(text, grid).pieces[0].steps[0].tubes
    return found


def minutes(plan: PicturePlan, bases: list[str], change: str, end: str, carry: int) -> Fraction:
    """The time of a choice of yarns for all rounds, knitted and embroidered."""
    stitch, whole, one = Fraction("0.5"), Fraction(change), Fraction(end)
    total = Fraction(0)
    for number, yarn in enumerate(bases):
        if number and yarn != bases[number - 1]:
            rest = next((n for n, y in enumerate(reversed(bases[:number])) if y == yarn), None)
            carried = rest is not None and rest <= carry
            total += whole - 2 * one if carried else whole
    sewn = [
        [None if yarn == base else yarn for yarn in row]
        for row, base in zip(plan.colours.rounds, bases, strict=True)
    ]
    total += stitch * sum(yarn is not None for row in sewn for yarn in row)
    threads = plan_embroidery(sewn, YARNS, plan.embroidery.rule).threads
    return total + 2 * one * sum(thread.strands for thread in threads)


@settings(deadline=None, max_examples=25)
@given(
    st.lists(st.text(".#x", min_size=3, max_size=3), min_size=1, max_size=3),
    st.sampled_from(["", "lining: foam", "brim: red", "lining: red, brim: foam", "gather: foam"]),
    st.sampled_from(["", "{from: 5 rounds above rim, rounds: 1, yarn: red}"]),
    st.sampled_from(["2", "5"]),
    st.sampled_from(["0", "0.5", "1"]),
    st.integers(0, 3),
)
def test_no_choice_for_the_rounds_that_are_seen_takes_less_time(
    grid: list[str], zones: str, stripe: str, change: str, end: str, carry: int
) -> None:
    """What nobody sees and zones in their own yarn stay as they are; all else is tried."""
    wishes = f"minutes per change: {change}, minutes per end: {end}, carry: {carry}"
    plan = tube("\n".join(grid) + "\n", zones, stripe, wishes)
    outer, brim = plan.tube.segment(TubePart.OUTER), plan.tube.segment(TubePart.LINING_BRIM)
    assert outer is not None
    assert brim is not None
    own = dict(part.split(": ") for part in zones.split(", ") if part)

    def given_yarn(number: int) -> str | None:
        """The yarn of a round that is no choice."""
        if stripe and number == outer.first + 5:
            return "red"
        for segment in plan.tube.segments:
            if segment.first <= number <= segment.last:
                zone = {
                    TubePart.LINING_GATHER: "gather",
                    TubePart.LINING: "lining",
                    TubePart.LINING_BRIM: "brim",
                    TubePart.OUTER_BRIM: "brim",
                    TubePart.OUTER: "body",
                    TubePart.OUTER_GATHER: "gather",
                }[segment.part]
                hidden = segment not in (outer, brim)
                return own.get(zone, "slate" if hidden else None)
        raise AssertionError(number)

    numbers = range(1, plan.tube.total_rounds + 1)
    free = [(given_yarn(number), number in range(brim.first, brim.last + 1)) for number in numbers]
    choices = [(yarn,) if yarn else ("slate",) if of_brim else YARNS for yarn, of_brim in free]
    used = {yarn for row in plan.colours.rounds for yarn in row}
    ways = product(*(tuple(y for y in each if y in used) or each for each in choices))
    least = min(minutes(plan, list(bases), change, end, carry) for bases in ways)

    assert minutes(plan, list(plan.stripes.bases), change, end, carry) == least
    assert Fraction(plan.stripes.minutes).limit_denominator(1000) == least
    for number, base in zip(numbers, plan.stripes.bases, strict=True):
        assert given_yarn(number) in (None, base)
