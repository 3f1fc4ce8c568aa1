"""The hypothesis profile of mutation runs: few examples, and the same ones for every mutant."""

from hypothesis import settings

settings.register_profile(
    "mutants", derandomize=True, database=None, deadline=None, max_examples=40
)
