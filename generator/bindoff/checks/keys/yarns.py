"""Yarns: category, length of the ball, names and fibres."""

from collections.abc import Iterator, Mapping

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.walk import gauges_of, steps_of, yarns_worked
from bindoff.craft.yarn_weights import category_for, yarn_weight
from bindoff.diagnostics import Severity
from bindoff.plan.yarnplan import balls_of, swatched
from bindoff.source.steps.say import SayStep
from bindoff.source.steps.work import WorkStep

_STOCKINETTE = ("stockinette", "stocking stitch", "st st")

# Metres in 100 g by category, as published lists give them, the widest of each; the lists disagree
# and none is a standard. ``None`` is an open end. Common practice, no source.
_METRES: Mapping[int, tuple[float | None, float | None]] = {
    0: (484, None),
    1: (360, 484),
    2: (242, 400),
    3: (182, 300),
    4: (120, 242),
    5: (80, 140),
    6: (None, 100),
    7: (None, 81),
}
_FAR_OFF = 1.5

_PERCENT = re.compile(r"(?<!\d)(\d+(?:\.\d+)?) ?%")
_ROUNDED_PERCENT = 1.5  # thirds are labelled 33, 33 and 33


@check(
    id="yarn.weight-gauge",
    title="A yarn's weight category suits the gauge",
    looks_at="the category of each hand-knitted yarn against the stockinette gauge it is knitted "
    "at (Craft Yarn Council, Standard Yarn Weight System); one category off is accepted",
    why="a knitter buys a substitute by the category; the wrong one never gives the gauge",
    severity=Severity.WARNING,
    remedy="Correct the yarn's `weight:` or the gauge; silence it if the fabric is meant so",
)
def weight_against_gauge(context: Context) -> Iterator[Finding]:
    """One finding for each yarn."""
    told: set[str] = set()
    for at in steps_of(context):
        machine = context.pattern.made.by == "machine" and at.piece.gauge is None
        written = context.pattern.gauges.get(at.piece.gauge or "") or context.pattern.gauge
        worked = written.worked.lower()
        if machine or (worked and not any(word in worked for word in _STOCKINETTE)):
            continue
        stitches = gauges_of(context, at)[0].stitches_per()
        fitting = [weight.number for weight in category_for(stitches)]
        for yarn in dict.fromkeys(yarn for loops in at.step.worked[0] for yarn, _ in loops):
            number = context.pattern.yarns[yarn].weight
            if yarn not in told and min(abs(number - each) for each in fitting) > 1:
                told.add(yarn)
                names = " or ".join(f"{yarn_weight(each).name} ({each})" for each in fitting)
                yield Finding(
                    f"`{yarn}` is {yarn_weight(number).name} ({number}), but {stitches:.3g} "
                    f"stitches over 10 cm call for {names}",
                    context.pattern.yarns[yarn].place.of("weight").span,
                    beside=(written.place.span,),
                )


@check(
    id="yarn.ball-length",
    title="A ball's length suits its weight category",
    looks_at="the metres in 100 g against the range usual for the category, half as much again at "
    "either end",
    why="all yarn amounts are counted in balls: a wrong length makes knitters run out or buy too "
    "much",
    severity=Severity.WARNING,
    remedy="Check grams and metres on the label, and the category",
)
def ball_length(context: Context) -> Iterator[Finding]:
    """One finding for each yarn."""
    for total in context.plan.yarn:
        metres = 100 * total.ball.metres_per_gram
        number = context.pattern.yarns[total.yarn].weight
        low, high = _METRES[number]
        if (low and metres < low / _FAR_OFF) or (high and metres > high * _FAR_OFF):
            usual = f"{low or ''}–{high or ''}".strip("–")
            word = "over" if high is None else "under" if low is None else "usually"
            yield Finding(
                f"`{total.yarn}` has {metres:.0f} m in 100 g; {yarn_weight(number).name} yarn "
                f"({number}) has {word} {usual}",
                context.pattern.yarns[total.yarn].place.of("ball").span,
            )


@check(
    id="yarn.same-name",
    title="Every yarn has a name of its own",
    looks_at="the names of all yarns",
    why="two yarns of one name can't be told apart in words, and the text edition has nothing else",
    severity=Severity.WARNING,
    remedy="Give one of them another name",
    needs=Needs.SOURCE,
)
def same_name(context: Context) -> Iterator[Finding]:
    """One finding for each repeated name."""
    seen: dict[str, str] = {}
    for key, yarn in context.pattern.yarns.items():
        first = seen.setdefault(yarn.name.strip().lower(), key)
        if first != key:
            yield Finding(
                f"`{first}` and `{key}` are both called {yarn.name}",
                yarn.place.of("name").span,
            )


@check(
    id="yarn.fibre",
    title="Every yarn says what it is made of",
    looks_at="`fibre:` of all yarns: it is there, and its percentages come to 100",
    why="fibre decides care, warmth and whether skin bears it; buyers of a substitute ask first",
    severity=Severity.WARNING,
    remedy="Write what the label says, such as 80 % wool, 20 % nylon",
    needs=Needs.SOURCE,
)
def fibre_given(context: Context) -> Iterator[Finding]:
    """One finding for each yarn."""
    for key, yarn in context.pattern.yarns.items():
        parts = [float(part) for part in _PERCENT.findall(yarn.fibre)]
        if not yarn.fibre.strip():
            place = yarn.place.key_span
            yield Finding(f"`{key}` has no fibre content", place)
        elif parts and abs(sum(parts) - 100) > _ROUNDED_PERCENT:
            place = yarn.place.of("fibre").span
            yield Finding(f"the fibres of `{key}` come to {sum(parts):g} %", place)


_NAMING = 4


@check(
    id="yarn.unsaid",
    title="Where steps name their yarn, all do",
    looks_at=f"pieces of several yarns in which {_NAMING} steps or more name the yarn of their "
    "rows and one does not",
    why="the step takes the yarn of the piece, and a stripe comes out in the wrong color",
    severity=Severity.NOTE,
    remedy="Name its yarn too, though it is the piece's own",
)
def yarn_unsaid(context: Context) -> Iterator[Finding]:
    """One finding for each piece."""
    for plan in context.plan.pieces:
        rows = [step for step in plan.steps if isinstance(step.step, WorkStep) and any(step.rounds)]
        unsaid = [step for step in rows if not (step.step.yarn or step.step.in_stripes)]
        begins = unsaid[:1] == rows[:1]  # in the yarn of the cast-on, from which nothing changes
        if len(unsaid) == 1 and not begins and len(rows) > _NAMING:
            name = context.pattern.yarns[unsaid[0].yarn].name
            written = unsaid[0].step
            counted = written.rounds is not None  # the yarn is written after it
            yield Finding(
                f"this step names no yarn, as all others of `{plan.key}` do, and takes {name}",
                written.place.of("rounds").span if counted else unsaid[0].span,
            )


# How far the loops of a swatch may lie from those that its gauge would have. Published amounts lie
# between 0.7 and 1.5 of ours (tests/bench/yarn.py); a slip of the pen is tenfold.
_SWATCH_LEAST, _SWATCH_MOST = 0.6, 1.6


@check(
    id="yarn.swatch",
    title="A weighed swatch is possible at its gauge, and large enough for its scale",
    looks_at="the yarn in a stitch of every weighed swatch against that of its gauge "
    f"({_SWATCH_LEAST:g} to {_SWATCH_MOST:g} times), and the doubt that its scale leaves against "
    "that of the fabric without a swatch",
    why="every amount of the yarn follows from those grams: one digit too many is ten balls",
    severity=Severity.WARNING,
    remedy="Weigh it again and count its stitches, width times rows; weigh a small one on a finer "
    "scale and say so under `scale:`",
)
def swatch_possible(context: Context) -> Iterator[Finding]:
    """One finding for each yarn."""
    for key, ball in balls_of(context.source).items():
        found = swatched(context.source, key, ball)
        written = context.pattern.yarns[key].swatch
        if found is None or written is None:
            continue
        weighed, reckoned = found
        times, doubt = weighed.mm / reckoned.mm, weighed.uncertainty
        if not _SWATCH_LEAST <= times <= _SWATCH_MOST:
            yield Finding(
                f"a stitch of the swatch took {weighed.mm:.1f} mm of yarn, {times:.2g} times the "
                f"{reckoned.mm:.1f} mm that its gauge gives",
                written.place.of("grams").span,
            )
        elif doubt > reckoned.uncertainty:
            yield Finding(
                f"{written.grams:g} g on a scale of {written.scale} leave {100 * doubt:.0f} % in "
                f"doubt, and without a swatch it would be {100 * reckoned.uncertainty:.0f} %",
                written.place.of("grams").span,
                "Weigh a larger swatch, or on a finer scale and say so under `scale:`",
            )


@check(
    id="yarn.uncounted",
    title="Yarn that words alone take is counted",
    looks_at="yarns that nothing but `say:` steps use, which don't say how much they take",
    why="nobody knows how much of it to buy, or whether a rest from the drawer will do",
    severity=Severity.WARNING,
    remedy="Add how much it takes beside `yarn:`, such as `takes: 3 m` or `takes: 2 g`",
)
def uncounted(context: Context) -> Iterator[Finding]:
    """One finding for each yarn, at the first step that names it."""
    said: dict[str, SayStep] = {}
    counted: set[str] = set()
    for at in steps_of(context):
        written = at.step.step
        if isinstance(written, SayStep) and written.takes is None:
            if written.yarn is not None:
                said.setdefault(written.yarn, written)
        else:
            counted.add(at.step.yarn)
        counted |= yarns_worked(at.step)
        counted |= {t.yarn for plan in at.step.pictures for t in plan.embroidery.threads}
    for key, step in said.items():
        if key not in counted:
            yield Finding(
                f"the yarn `{key}` is used in words alone, which don't say how much they take",
                step.place.of("yarn").span,
            )


CHECKS = (
    weight_against_gauge,
    ball_length,
    same_name,
    fibre_given,
    yarn_unsaid,
    swatch_possible,
    uncounted,
)
