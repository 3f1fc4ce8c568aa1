"""Loops, and the yarn they take."""

from collections.abc import Iterable, Iterator

from generator.document.phrases import listed
from generator.document.planwords.listing import Listing, Section, sized_listing
from generator.document.planwords.loops import by_state, loops_by_gauge, relaxation_of
from generator.document.voice import Voice
from generator.plan.gauge import Gauge
from generator.plan.yarn import LoopOrigin, Part, Relaxation


def yarn_section(voice: Voice) -> Section:
    """Loop lengths and where they come from, and what each part takes."""
    return Section(
        "Yarn",
        (
            "A stitch holds one loop length of yarn: l = √(Ks ÷ S), with S stitches in a cm² "
            "and Ks by how far the fabric has relaxed (Munden 1959); or what a weighed swatch "
            "took, where there is one.",
            *_loop_listings(voice),
            *_origins(voice),
            *_need_listings(voice),
        ),
    )


def _loop_listings(voice: Voice) -> Iterator[Listing]:
    """Loop length by relaxation state for each gauge."""
    plan = voice.plan
    for key in dict.fromkeys(loops.gauge for loops in loops_by_gauge(plan)):
        gauges = [size.gauges[key] for size in plan.measures.sizes]
        states = {state: [by_state(gauge, state) for gauge in gauges] for state in Relaxation}
        rows: list[tuple[str, Iterable[object]]] = [
            ("Stitches in a cm²", [f"{_density(gauge):.2f}" for gauge in gauges]),
            *(
                (f"{state.value.capitalize()}, Ks {state.ks:g}", [f"{mm:.1f}" for mm in figures])
                for state, figures in states.items()
            ),
        ]
        name = f"{voice.term['gauge']} {key}" if key else f"main {voice.term['gauge']}"
        yield sized_listing(voice, f"Loop length in mm at the {name}", rows)


def _density(gauge: Gauge) -> float:
    return gauge.stitches_per() * gauge.rounds_per() / 100


def _origins(voice: Voice) -> Iterator[str]:
    """Where each yarn's loop length comes from, and how sure it is."""
    said: dict[str, list[str]] = {}
    for loops in loops_by_gauge(voice.plan):
        for loop, gauge in zip(loops.loops, loops.gauges, strict=True):
            where = (
                f"a weighed swatch ({loop.mm:.1f} mm)"
                if loop.origin is LoopOrigin.SWATCH
                else f"stitch density, {relaxation_of(gauge).value}"
            )
            names = said.setdefault(f"{where}, give or take {loop.uncertainty:.0%}", [])
            if voice.yarn_names[loops.yarn] not in names:
                names.append(voice.yarn_names[loops.yarn])
    told = "; ".join(f"{listed(names)}: {where}" for where, names in said.items())
    yield f"Where the loop length comes from. {told}."


def _need_listings(voice: Voice) -> Iterator[Listing]:
    for total in voice.plan.yarn:
        parts = [{part.name: part.metres for part in need.parts} for need in total.needs]
        labels = {part: part.value.capitalize() for part in Part}
        labels[Part.RESERVE] += f", {max(need.uncertainty for need in total.needs):.0%}"
        ball = f"{total.ball.grams:g} g = {total.ball.metres:g} m"
        rows: list[tuple[str, Iterable[object]]] = [
            *(
                (label, [f"{each.get(part, 0.0):.1f}" for each in parts])
                for part, label in labels.items()
                if any(part in each for each in parts)
            ),
            ("In all, m", [f"{need.metres:.1f}" for need in total.needs]),
            ("In all, g", [f"{need.grams:.1f}" for need in total.needs]),
            (f"Balls of {ball}", [need.balls for need in total.needs]),
        ]
        yield sized_listing(voice, f"{voice.yarn_names[total.yarn]}, in metres", rows)
