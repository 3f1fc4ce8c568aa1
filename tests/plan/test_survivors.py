"""Which mutants need no test: guards made less strict, and those that are explained."""

from pathlib import Path

import pytest

from tests.plan.survivors import changed_lines, function_of, only_less_strict, read_explained

HERE = Path(__file__).parent
ROOT = HERE.parents[1]


@pytest.mark.parametrize(
    "diff",
    [
        "-for a, b in zip(one, two, strict=True):\n+for a, b in zip(one, two, strict=False):",
        "-for a, b in zip(one, two, strict=True):\n+for a, b in zip(one, two, strict=None):",
        "-for a, b in zip(one, two, strict=True):\n+for a, b in zip(one, two, ):",
        "-rest = dict(zip(one, two, strict=False))\n+rest = dict(zip(one, two, ))",
        "     zip(\n-        one, two, strict=True\n+        one, two, strict=False\n     )",
        "     zip(\n-        one, two, strict=True\n-    )\n+        one, two, )",
        "     zip(\n         two,\n-        strict=True,\n+        strict=None,\n     )",
        "     zip(\n         two,\n-        strict=True,\n-    )\n+        )",
        "-f(zip(one, two, strict=True), zip(three, four, strict=True))\n"
        "+f(zip(one, two, strict=True), zip(three, four, strict=False))",
    ],
)
def test_a_zip_that_is_less_strict_needs_no_entry(diff: str) -> None:
    assert only_less_strict(changed_lines(diff))


@pytest.mark.parametrize(
    "diff",
    [
        "-rest = dict(zip(one, two, strict=False))\n+rest = dict(zip(one, two, strict=True))",
        "-for a, b in zip(one, two, strict=True):\n+for a, b in zip(one, strict=True):",
        "-for a, b in zip(one, two, strict=True):\n+for a, b in zip(one, None, strict=True):",
        "-        one, two, strict=True\n-    )\n+        one, )",
        "-parts = f(one, two)\n+parts = f(one, )",
        "-parts = (one,)\n+parts = (one)",
    ],
)
def test_any_other_change_does(diff: str) -> None:
    assert not only_less_strict(changed_lines(diff))


def test_a_mutant_is_named_like_its_function() -> None:
    assert function_of("bindoff.plan.plan.x__book__mutmut_15") == "bindoff.plan.plan._book"
    assert function_of("bindoff.plan.plan.xǁPlanǁpiece__mutmut_2") == "bindoff.plan.plan.Plan.piece"


def test_what_is_explained_still_stands_in_the_code() -> None:
    """An explanation whose line is gone explains nothing any more."""
    for function, lines in read_explained((HERE / "survivors.md").read_text("utf-8")):
        module = function
        while not (file := ROOT / "generator" / f"{module.replace('.', '/')}.py").exists():
            module = module.rpartition(".")[0]
            assert module, function
        source = [line.strip() for line in file.read_text("utf-8").splitlines()]
        taken = [line[1:] for line in lines if line.startswith("-")]
        name = function.rpartition(".")[2]

        assert any(line.startswith(f"def {name}(") for line in source), function
        assert taken, function
        assert [line for line in taken if line not in source] == [], function
