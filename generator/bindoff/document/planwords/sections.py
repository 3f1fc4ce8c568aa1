"""The plan in words and tables."""

from bindoff.document.planwords.bodies import body_measures
from bindoff.document.planwords.fit import crown_sections, fit_section, needle_section
from bindoff.document.planwords.floats import chart_section
from bindoff.document.planwords.listing import Section
from bindoff.document.planwords.stripes import tube_section
from bindoff.document.planwords.yarn import yarn_section
from bindoff.document.voice import voice_of
from bindoff.plan.coloured import charts_of, tubes_of
from bindoff.plan.needlefit import crowns_of, tube_on_needles
from bindoff.plan.plan import Plan


def plan_sections(plan: Plan) -> tuple[Section, ...]:
    """The plan in words and tables: fit, tubes, charts in colour, yarn."""
    voice = voice_of(plan)
    fit = fit_section(voice)
    needles = tube_on_needles(plan, body_measures(plan))
    tubes = [tube_section(voice, tube) for tube in tubes_of(plan)]
    charts = [chart_section(voice, chart) for chart in charts_of(plan)]
    return (
        *((fit,) if fit else ()),
        *((needle_section(voice, needles),) if needles else ()),
        *crown_sections(voice, crowns_of(plan)),
        *tubes,
        *charts,
        yarn_section(voice),
    )
