"""The profile of mutation runs: few examples, the same for every mutant, and not shrunk."""

from hypothesis import Phase, settings

settings.register_profile(
    "mutants",
    derandomize=True,
    database=None,
    deadline=None,
    max_examples=25,
    phases=(Phase.explicit, Phase.generate),
)
