"""The profile of mutation runs: few examples, the same for every mutant, and not shrunk."""

from hypothesis import HealthCheck, Phase, settings

settings.register_profile(
    "mutants",
    derandomize=True,
    database=None,
    deadline=None,
    max_examples=25,
    phases=(Phase.explicit, Phase.generate),
    # the tool calls tests of a class from runs of its own, and mutants may be slow
    suppress_health_check=(HealthCheck.differing_executors, HealthCheck.too_slow),
)
