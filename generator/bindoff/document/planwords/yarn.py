"""Loops, and the yarn they take."""

from collections.abc import Iterable, Iterator

from bindoff.craft.fabric import FABRIC_YARN
from bindoff.craft.yarn_weights import YarnWeight, yarn_weight
from bindoff.document.planwords.listing import Listing, Section, sized_listing
from bindoff.document.units import (
    GRAMS_PER_OUNCE,
    METRES_PER_YARD,
    MM_PER_INCH,
    weight,
    yarn_length,
)
from bindoff.document.voice import Voice
from bindoff.english import listed
from bindoff.plan.gauge import Gauge
from bindoff.plan.loops import by_state, loops_by_gauge
from bindoff.plan.yarn import LoopOrigin, Purpose, Relaxation, fabric_grams_per_m2
from bindoff.plan.yarnplan import relaxation_of


def yarn_section(voice: Voice) -> Section:
    """Loop lengths and where they come from, and what each part takes."""
    return Section(
        "Yarn",
        (
            "A stitch holds one loop length of yarn: l = √(Ks ÷ S), with S stitches in a cm² "
            "and Ks by how far the fabric has relaxed (Munden 1959); or what a weighed swatch "
            "took, where there is one, carried to other gauges by the same rule. Each fabric has "
            "a factor beside plain knitting.",
            *_loop_listings(voice),
            *_origins(voice),
            _fabric_listing(voice),
            _thickness_listing(voice),
            *_need_listings(voice),
        ),
    )


def _loop_listings(voice: Voice) -> Iterator[Listing]:
    """Loop length by relaxation state for each gauge."""
    plan = voice.plan
    unit = "inches" if voice.units == "imperial" else "mm"
    for key in dict.fromkeys(loops.gauge for loops in loops_by_gauge(plan)):
        gauges = [size.gauges[key] for size in plan.measures.sizes]
        states = {state: [by_state(gauge, state) for gauge in gauges] for state in Relaxation}
        rows: list[tuple[str, Iterable[object]]] = [
            ("Stitches in a cm²", [f"{_density(gauge):.2f}" for gauge in gauges]),
            *(
                (
                    f"{state.value.capitalize()}, Ks {state.ks:g}",
                    [_loop_length(voice, mm) for mm in figures],
                )
                for state, figures in states.items()
            ),
        ]
        name = f"{voice.term['gauge']} {key}" if key else f"main {voice.term['gauge']}"
        yield sized_listing(voice, f"Loop length in {unit} at the {name}", rows)


def _density(gauge: Gauge) -> float:
    return gauge.stitches_per() * gauge.rounds_per() / 100


def _loop_length(voice: Voice, mm: float) -> str:
    return f"{mm / MM_PER_INCH:.2f}" if voice.units == "imperial" else f"{mm:.1f}"


def _origins(voice: Voice) -> Iterator[str]:
    """Where each yarn's loop length comes from, and how sure it is."""
    unit = "in" if voice.units == "imperial" else "mm"
    said: dict[str, list[str]] = {}
    for loops in loops_by_gauge(voice.plan):
        for loop, gauge in zip(loops.loops, loops.gauges, strict=True):
            where = (
                f"a weighed swatch ({_loop_length(voice, loop.mm)} {unit})"
                if loop.origin is LoopOrigin.SWATCH
                else f"stitch density, {relaxation_of(gauge).value}"
            )
            names = said.setdefault(f"{where}, give or take {loop.uncertainty:.0%}", [])
            if voice.yarn_names[loops.yarn] not in names:
                names.append(voice.yarn_names[loops.yarn])
    told = "; ".join(f"{listed(names)}: {where}" for where, names in said.items())
    yield f"Where the loop length comes from. {told}."


def _fabric_listing(voice: Voice) -> Listing:
    """The stitches of each yarn by fabric, in the first size, with factor, reserve and evidence."""
    rows = []
    for total in voice.plan.yarn:
        for each in total.needs[0].knitted:
            loop, rule = each.loop, FABRIC_YARN[each.loop.founded]
            rows.append(
                (
                    voice.yarn_names[total.yarn],
                    loop.fabric.value,
                    f"{each.stitches:,.0f}",
                    _loop_length(voice, loop.mm),
                    f"{loop.factor:.2f}",
                    f"{loop.uncertainty:.0%}",
                    f"{rule.evidence.value}: {rule.source}",
                )
            )
    unit = "in" if voice.units == "imperial" else "mm"
    return Listing(
        f"Yarn in a stitch by fabric, size {voice.sizes[0]}",
        ("Yarn", "Fabric", "Stitches", f"Loop, {unit}", "Factor", "Reserve", "Evidence"),
        "<<>>>><",
        tuple(rows),
    )


def _thickness_listing(voice: Voice) -> Listing:
    """How thick each yarn is, and how heavy plain fabric of it at the main gauge."""
    rows = []
    for total in voice.plan.yarn:
        loops = next(each for each in loops_by_gauge(voice.plan) if each.yarn == total.yarn)
        grams = sorted(
            fabric_grams_per_m2(_density(gauge), loop.mm, total.ball.tex)
            for loop, gauge in zip(loops.loops, loops.gauges, strict=True)
        )
        heavy = f"{grams[0]:.0f}"
        if heavy != f"{grams[-1]:.0f}":
            heavy += f" to {grams[-1]:.0f}"
        rows.append(
            (
                voice.yarn_names[total.yarn],
                yarn_length(100_000 / total.ball.tex, voice.units),
                f"{total.ball.tex:.0f}",
                f"{1000 / total.ball.tex:.1f}",
                heavy,
                *_tools_of(yarn_weight(voice.plan.source.pattern.yarns[total.yarn].weight)),
            )
        )
    return Listing(
        "Thickness of the yarns, to compare others with: tex is grams in a kilometre, Nm metres in "
        "a gram",
        (
            "Yarn",
            "Length of 100 g",
            "tex",
            "Nm",
            "g in a m² of plain fabric",
            "Needles of its weight, mm",
            "Hooks of its weight, mm",
        ),
        "<>>>>>>",
        tuple(rows),
    )


def _tools_of(weight: YarnWeight) -> tuple[str, str]:
    """The needles and hooks that are usual for a weight, in mm and by their US names."""
    needles = _range(weight.needle_mm_low, weight.needle_mm_high, weight.needle_us)
    return needles, _range(weight.hook_mm_low, weight.hook_mm_high, weight.hook_us)


def _range(low: float, high: float | None, us: tuple[str, str | None]) -> str:
    millimetres = f"{low:g} to {high:g}" if high else f"{low:g} and more"
    return f"{millimetres} (US {us[0]}{f' to {us[1]}' if us[1] else ''})"


def _need_listings(voice: Voice) -> Iterator[Listing]:
    """What each part takes, in metres, or in yards where the pattern prints inches alone."""
    unit, metres, word = (
        ("yd", METRES_PER_YARD, "yards") if voice.units == "imperial" else ("m", 1.0, "metres")
    )
    heavy, grams = ("oz", GRAMS_PER_OUNCE) if voice.units == "imperial" else ("g", 1.0)
    for total in voice.plan.yarn:
        parts = [{part.name: part.metres for part in need.parts} for need in total.needs]
        labels = {part: part.value.capitalize() for part in Purpose}
        most = max(need.uncertainty for need in total.needs)
        same = most - min(need.uncertainty for need in total.needs) < 0.005
        labels[Purpose.RESERVE] += f", {'' if same else 'up to '}{most:.0%}"
        ball = f"{weight(total.ball.grams, voice.units)} = "
        ball += yarn_length(total.ball.metres, voice.units)
        yards = [f"{need.metres / METRES_PER_YARD:.1f}" for need in total.needs]
        rows: list[tuple[str, Iterable[object]]] = [
            *(
                (label, [f"{each.get(part, 0.0) / metres:.1f}" for each in parts])
                for part, label in labels.items()
                if any(part in each for each in parts)
            ),
            (f"In all, {unit}", [f"{need.metres / metres:.1f}" for need in total.needs]),
            *((("In all, yd", yards),) if voice.units == "both" else ()),
            (f"In all, {heavy}", [f"{need.grams / grams:.1f}" for need in total.needs]),
            (f"Balls of {ball}", [need.balls for need in total.needs]),
        ]
        yield sized_listing(voice, f"{voice.yarn_names[total.yarn]}, in {word}", rows)
