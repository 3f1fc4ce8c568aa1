"""Many patterns in one command: their order, those that fail, those that did not change."""

import gc
import json
import os
import signal
import subprocess
import sys
import tracemalloc
from collections.abc import Callable, Mapping
from multiprocessing import get_start_method
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from bindoff import catalogue
from bindoff.catalogue import (
    FEW,
    BuildState,
    Built,
    Job,
    Request,
    build,
    build_all,
    default_workers,
    program,
)
from bindoff.cli import main
from bindoff.files import packaged_template
from bindoff.render.output import STATE
from bindoff.render.pdf import PdfOptions
from tests.small_patterns import CAP, WAVES, changed

RECORD = f"out/{STATE}/cap.json"
UNSOUND = changed(CAP, ("repeat from * to end", "repeat from * to nowhere"))


@pytest.fixture(autouse=True)
def _work_in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """And as one program, though somebody may edit it while the tests run."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("bindoff.commands.build.program", lambda: "1")


def write(name: str, text: str = CAP) -> str:
    """A pattern in the folder ``name``; returns the name."""
    folder = Path(name)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "pattern.yaml").write_text(text, "utf-8")
    (folder / "waves.grid").write_text(WAVES, "utf-8")
    return name


def job(name: str = "cap", program: str = "1", **options: Any) -> Job:
    return Job(name, "out", Request(PdfOptions(**options)), program)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


def contents(folder: str) -> Mapping[str, bytes]:
    paths = [path for path in Path(folder).rglob("*") if path.is_file()]
    return {str(path): path.read_bytes() for path in paths if path.suffix != ".lock"}


# ---------------------------------------------------------------- several at a time


def test_two_at_a_time_make_the_same_files_as_one_told_in_the_same_order() -> None:
    names = [write(name) for name in ("zinnia", "aster", "mallow")]

    alone = list(build_all([Job(name, "one", Request(), "1") for name in names], 1))
    together = list(build_all([Job(name, "two", Request(), "1") for name in names], 2))

    assert [result.argument for result in together] == names
    assert {result.state for result in (*alone, *together)} == {BuildState.BUILT}
    two = {name.removeprefix("two"): data for name, data in contents("two").items()}
    one = {name.removeprefix("one"): data for name, data in contents("one").items()}
    assert two == one
    assert len(one) >= 3 * 5


def test_a_pattern_that_fails_stops_no_other_and_is_named_at_the_end() -> None:
    good = [write(name) for name in ("aster", "broom")]
    bad = write("mallow", UNSOUND)

    result = run("build", good[0], bad, good[1], "--jobs", "2", "--out", "out")

    assert result.exit_code == 1
    assert [line for line in result.stdout.splitlines() if "built" in line] == [
        "aster: built",
        "broom: built",
        "3 patterns: 2 built, 1 failed",
    ]
    assert "mallow/pattern.yaml:" in result.stderr
    assert result.stderr.endswith("\nfailed: mallow\n")
    assert sorted(path.name for path in Path("out").iterdir() if path.name != STATE) == good


def test_a_long_list_is_counted_and_names_no_files() -> None:
    names = [write(f"cap-{number}") for number in range(FEW + 1)]

    result = run("build", *names, "--out", "out")

    said = [f"cap-{at}: built ({at + 1} of {FEW + 1})" for at in range(FEW + 1)]
    assert result.stdout.splitlines() == [*said, f"{FEW + 1} patterns: {FEW + 1} built"]


@pytest.mark.skipif(get_start_method() != "fork", reason="where to keep it is set before the fork")
def test_what_helpers_worked_out_is_kept_for_the_next_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "pycache_prefix", str(tmp_path / "compiled"))
    titles = [("Quay Cap", f"{word} Cap") for word in ("Xqyz", "Zyqx")]  # measured nowhere else
    names = [write(f"cap{at}", changed(CAP, title)) for at, title in enumerate(titles)]

    assert run("build", *names, "--jobs", "2").exit_code == 0

    assert [path.stem for path in (tmp_path / "compiled").rglob("fonts.*.kept")]


@pytest.mark.skipif(get_start_method() != "fork", reason="the fault is planted before the fork")
def test_a_pattern_that_brings_its_process_down_is_found_and_stops_no_other(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    names = [write(name) for name in ("aster", "mallow", "broom", "heath")]
    sound = catalogue._anew

    def deadly(job: Job, *rest: Any) -> Built:
        if job.argument == "broom":
            os.kill(os.getpid(), signal.SIGKILL)  # as a system does that has no memory left
        return sound(job, *rest)

    monkeypatch.setattr(catalogue, "_anew", deadly)
    results = list(build_all([job(name) for name in names], 2))

    assert [result.argument for result in results] == names
    assert [result.state for result in results] == [
        BuildState.FAILED if name == "broom" else BuildState.BUILT for name in names
    ]
    (finding,) = results[2].findings
    assert finding.id == "build.ended"
    assert "memory" in finding.message


def test_a_few_patterns_take_one_processor_and_many_take_all(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1, 5}, raising=False)

    assert [default_workers(number) for number in (0, 1, FEW, FEW + 1, 200)] == [1, 1, 1, 3, 3]


def test_building_on_and_on_takes_no_more_memory() -> None:
    """What a build leaves behind is less than a hundredth of what it takes meanwhile.

    What the last few builds worked out is kept until as many others have followed. Each build ends
    with a collection, which empties the interpreter's lists of free tuples: one that was made
    before the tracing began and is used again would count as nothing until it is given back.
    """
    write("cap")
    build(job())
    again = Job("cap", "out", Request(), "1", force=True)
    tracemalloc.start()
    for _ in range(10):
        build(again)
        gc.collect()
    before, _ = tracemalloc.get_traced_memory()
    build(again)
    gc.collect()
    after, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()

    assert after - before < peak / 100


# ---------------------------------------------------------------- the same name


def test_two_patterns_of_one_name_are_refused_before_anything_is_built() -> None:
    result = run("build", write("a/cap"), write("b/Cap"), "--out", "out")

    assert result.exit_code == 2
    assert "`Cap`" in result.stderr
    assert not Path("out").exists()


def test_a_pattern_that_is_named_twice_is_built_once() -> None:
    write("cap")

    result = run("build", "cap", "cap/", "cap/pattern.yaml", str(Path("cap").absolute()))

    assert result.exit_code == 0
    assert result.stdout.count("built\n") == 1


# ---------------------------------------------------------------- unchanged patterns


def test_an_unchanged_pattern_is_left_as_it_is_and_says_so() -> None:
    write("cap")
    run("build", "cap", "--out", "out")
    before = contents("out")
    times = [Path(name).stat().st_mtime_ns for name in before]

    result = run("build", "cap", "--out", "out")

    assert (result.exit_code, result.stdout) == (0, "cap: unchanged\n")
    assert contents("out") == before
    assert [Path(name).stat().st_mtime_ns for name in before] == times


def test_an_unchanged_pattern_loads_no_more_than_it_needs() -> None:
    write("cap")
    run("build", "cap", "--out", "out")
    script = (
        "import sys\n"
        "import bindoff.commands.build\n"
        "from bindoff.cli import main\n"
        "bindoff.commands.build.program = lambda: '1'\n"
        "try: main(['build', 'cap', '--out', 'out'])\n"
        "except SystemExit: pass\n"
        "late = {'jinja2', 'lark', 'pikepdf', 'PIL', 'pydantic', 'reportlab', 'uharfbuzz'}\n"
        "print(sorted(late & set(sys.modules)))\n"
    )
    here = Path(__file__).parents[1]
    done = subprocess.run(
        [sys.executable, "-c", script],
        env={**os.environ, "PYTHONPATH": str(here / "generator")},
        capture_output=True,
        text=True,
        check=True,
    )

    assert done.stdout == "cap: unchanged\n[]\n"


def test_a_build_loads_no_writer_that_is_not_asked_for() -> None:
    write("cap")
    script = (
        "import sys\n"
        "from bindoff.cli import main\n"
        "try: main(['build', 'cap', '--out', 'out'])\n"
        "except SystemExit: pass\n"
        "late = ('render.web', 'render.braille', 'render.zipped', 'document.testsheets')\n"
        "print([name for name in late if f'bindoff.{name}' in sys.modules])\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script],
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[1] / "generator")},
        capture_output=True,
        text=True,
        check=True,
    )

    assert done.stdout.splitlines()[-1] == "[]"


def test_what_was_found_is_told_again_though_nothing_is_built() -> None:
    write("cap")
    (Path("cap") / "left-over.grid").write_text(WAVES, "utf-8")

    first, second = build(job()), build(job())

    assert (first.state, second.state) == (BuildState.BUILT, BuildState.UNCHANGED)
    assert "grid.unused" in {finding.id for finding in first.findings}
    assert second.findings == first.findings
    assert second.paths == first.paths
    assert second.looked_at == first.looked_at


def test_places_are_told_as_the_user_writes_the_path_now() -> None:
    write("cap")
    (Path("cap") / "left-over.grid").write_text(WAVES, "utf-8")
    absolute = str(Path("cap").absolute())

    first, second = build(job(absolute)), build(job())

    assert second.state is BuildState.UNCHANGED
    then = {finding.span.file for finding in first.findings if finding.span}
    now = {finding.span.file for finding in second.findings if finding.span}
    assert "cap/pattern.yaml" in now
    assert then == {str(Path(file).absolute()) for file in now}
    assert str(Path.cwd()) not in Path(RECORD).read_text("utf-8")


def append(name: str, text: str) -> Callable[[], None]:
    def change() -> None:
        path = Path(name)
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("a", encoding="utf-8") as file:
            file.write(text)

    return change


def own_template() -> None:
    text = packaged_template("notes/gauge.md")
    assert text is not None
    append("cap/templates/notes/gauge.md", text)()


CHANGES = [
    pytest.param(append("cap/pattern.yaml", "\n# a remark\n"), id="the source"),
    pytest.param(append("cap/waves.grid", "........\n"), id="a grid"),
    pytest.param(append("cap/other.grid", WAVES), id="a grid that no chart names"),
    pytest.param(own_template, id="a template of its own"),
    pytest.param(append("out/cap/cap.txt", "scribbled"), id="an output changed"),
    pytest.param(Path("out/cap/cap.pdf").unlink, id="an output deleted"),
    pytest.param(Path(RECORD).unlink, id="the record deleted"),
    pytest.param(append(RECORD, "]"), id="the record damaged"),
    pytest.param(
        lambda: Path(RECORD).write_text('{"builds": {"a": 3}}') and None,
        id="the record of another kind",
    ),
    pytest.param(
        lambda: Path(RECORD).write_text("[" * 100_000) and None, id="the record of brackets"
    ),
]


@pytest.mark.parametrize("change", CHANGES)
def test_a_pattern_is_built_again_once_anything_changed(change: Callable[[], None]) -> None:
    write("cap")
    build(job())
    before = set(contents("out"))
    change()

    assert build(job()).state is BuildState.BUILT
    assert set(contents("out")) == before
    assert build(job()).state is BuildState.UNCHANGED


@pytest.mark.parametrize(
    "other",
    [job(paper="letter"), job(theme="large-print"), job(grey=True), job(program="2")],
    ids=["paper", "large print", "grey", "program"],
)
def test_a_pattern_is_built_again_with_other_options_or_another_program(other: Job) -> None:
    write("cap")
    build(job())

    assert build(other).state is BuildState.BUILT
    same_program = other.program == job().program
    assert build(job()).state is (BuildState.UNCHANGED if same_program else BuildState.BUILT)


def test_force_builds_an_unchanged_pattern() -> None:
    write("cap")
    run("build", "cap", "--out", "out")

    assert run("build", "cap", "--out", "out", "--force").stdout.startswith("cap: built\n")


def test_what_editors_leave_and_a_new_date_change_nothing() -> None:
    write("cap")
    build(job())
    append("cap/.pattern.yaml.swp", "swap")()
    append("cap/pattern.yaml~", "copy")()
    os.utime("cap/pattern.yaml", (1, 1))

    assert build(job()).state is BuildState.UNCHANGED


def test_a_fault_that_is_put_right_by_taking_it_back_needs_no_build() -> None:
    write("cap")
    build(job())
    write("cap", UNSOUND)
    before = contents("out")

    assert build(job()).state is BuildState.FAILED
    assert contents("out") == before
    write("cap")
    assert build(job()).state is BuildState.UNCHANGED


def test_a_changed_program_is_noticed(monkeypatch: pytest.MonkeyPatch) -> None:
    """The digest tells a module, a template and a library of another version apart."""
    for top, name in (("tool", "a.py"), ("words", "notes/a.md")):
        append(f"{top}/{name}", "1")()
    monkeypatch.setattr(catalogue, "package_folder", lambda: Path("tool"))
    monkeypatch.setattr(catalogue, "template_folder", lambda: Path("words"))
    found = [program(), program()]
    append("tool/__pycache__/a.pyc", "compiled")()
    found.append(program())
    assert len(set(found)) == 1

    append("tool/a.py", "2")()
    found.append(program())
    append("words/notes/a.md", "2")()
    found.append(program())
    monkeypatch.setattr(catalogue, "version_of", lambda _: "99")
    found.append(program())
    assert len(set(found)) == 4


def test_json_says_what_came_of_each_pattern() -> None:
    names = [write("cap"), write("mallow", UNSOUND)]
    run("build", "cap", "--out", "out")

    result = run("build", *names, "--out", "out", "--json")

    cap, mallow = json.loads(result.stdout)
    assert (cap["pattern"], cap["state"]) == ("cap", "unchanged")
    assert "out/cap/cap.pdf" in cap["result"]
    assert (mallow["pattern"], mallow["state"], mallow["result"]) == ("mallow", "failed", None)
    assert "error" in {finding["severity"] for finding in mallow["findings"]}


def test_an_earlier_version_that_is_compared_counts_as_well() -> None:
    write("cap")
    write("old", changed(CAP, ("rounds: 8", "rounds: 9")))
    compared = Job("cap", "out", Request(changes="old"), "1")

    assert build(compared).state is BuildState.BUILT
    assert build(compared).state is BuildState.UNCHANGED
    append("old/pattern.yaml", "\n# a remark\n")()
    assert build(compared).state is BuildState.BUILT
    assert build(job()).state is BuildState.BUILT
