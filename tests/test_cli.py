"""The command as a designer meets it: what it says, what it leaves, how it ends."""

import json
import os
import subprocess
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from bindoff.cli import COMMANDS, main
from bindoff.commands.new import STARTERS
from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from bindoff.source.yamltree import read_yaml
from bindoff.source.yamlvalues import Located
from tests.bad_patterns import ALL, Bad
from tests.small_patterns import CAP, FLAP, TUBE, WAVES, changed

ROOT = Path(__file__).parents[1]


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments, catch_exceptions=False)


def shell(*arguments: str, folder: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """The command in a process of its own, as a shell starts it."""
    return subprocess.run(
        [sys.executable, "-c", "from bindoff.cli import main; main()", *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT / "generator"), **environment},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )


def write(folder: Path, text: str, grid: str = WAVES) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    (folder / "waves.grid").write_text(grid, encoding="utf-8")


def contents(folder: Path) -> Mapping[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.fixture(scope="module")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a pattern that was built once and is then spoilt in many ways."""
    folder = tmp_path_factory.mktemp("workshop")
    write(folder / "cap", CAP)
    (folder / "cap" / "photos").mkdir()
    here = Path.cwd()
    os.chdir(folder)
    try:
        result = run("build", "cap", "--out", "out")
    finally:
        os.chdir(here)
    assert result.exit_code == 0, result.output
    return folder


# ---------------------------------------------------------------- faults of a pattern


def test_alone_in_a_folder_with_patterns_the_command_names_the_desk(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert "bindoff desk` opens" not in " ".join(run().output.split())
    write(tmp_path / "patterns" / "cap", CAP)
    assert "bindoff desk` opens" in " ".join(run().output.split())
    assert "bindoff desk` opens" not in " ".join(run("--help").output.split())


@pytest.mark.parametrize("bad", ALL, ids=str)
def test_a_fault_is_named_where_it_is_with_what_to_do(
    bad: Bad, workshop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(workshop)
    write(workshop / "cap", bad.text, bad.grid)
    before = contents(workshop / "out")

    result = run("build", "cap", "--out", "out", "--json")

    (record,) = json.loads(result.output)
    told = [each for cause in record["findings"] for each in (cause, *cause["follows"])]
    finding = next(each for each in told if bad.says in each["message"])
    lines = (workshop / finding["file"]).read_text(encoding="utf-8").split("\n")
    line = lines[finding["line"] - 1]
    one_line = finding["line"] == finding["end_line"]
    marked = line[finding["column"] - 1 : finding["end_column"] - 1 if one_line else len(line)]
    assert result.exit_code == 1
    assert finding["id"] == bad.id
    assert finding["file"] == f"cap/{bad.file}"
    assert marked == bad.at or (not bad.at and len(marked) <= 1)
    assert bad.help in finding["help"]
    assert not finding["help"][0].islower()
    loud = [each for each in record["findings"] if each["severity"] == "error"]
    assert len(loud) == bad.count
    assert contents(workshop / "out") == before


@pytest.mark.parametrize("bad", ALL[::7], ids=str)
def test_a_fault_is_printed_with_its_place_its_line_and_a_marker(
    bad: Bad, workshop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(workshop)
    write(workshop / "cap", bad.text, bad.grid)

    result = run("build", "cap", "--out", "out")

    place = next(line for line in result.output.splitlines() if "-->" in line)
    file, line_number, column = place.split("--> ")[1].split(":")
    line = (workshop / file).read_text(encoding="utf-8").split("\n")[int(line_number) - 1]
    assert result.exit_code == 1
    assert int(column) >= 1
    assert f"{line_number} | {line}".rstrip().expandtabs(4) in result.output.expandtabs(4)
    assert "^" in result.output
    assert "help: " in result.output
    assert "Traceback" not in result.output


def test_no_fault_is_put_down_to_the_program(
    workshop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Faults of the program itself have an id of their own; bad input must never cause one."""
    monkeypatch.chdir(workshop)
    ids = {bad.id for bad in ALL}

    assert "command.fault" not in ids


JUNK = (
    "",
    "~",
    "[]",
    "{}",
    "[1, 2]",
    "{a: b}",
    "-1",
    "0",
    "1.5",
    "1e300",
    ".nan",
    ".inf",
    "99999999999",
    "true",
    '"{{ x }}"',
    '"{x}"',
    "0 cm",
    "9999999 cm",
    "1 / 0",
    '"*"',
    "all",
    "needles",
    "width(head)",
    '"*k2, p2; repeat from * to end"',
)


def values_of(node: Located) -> Iterator[Located]:
    """Every value of a source, the outer ones after those inside them."""
    for child in node.children.values():
        yield from values_of(child)
        yield child


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([CAP, TUBE, FLAP]), st.data(), st.sampled_from(JUNK))
def test_anything_in_the_place_of_any_value_is_taken_or_told(
    text: str, data: st.DataObject, junk: str
) -> None:
    """Never another error than findings, and every finding has a place and a help."""
    node = data.draw(st.sampled_from(list(values_of(read_yaml(text, "pattern.yaml").root))))
    spoilt = text[: node.start] + junk + text[node.end :]
    files = MemoryFiles({"pattern.yaml": spoilt, "waves.grid": WAVES})
    findings: tuple[Diagnostic, ...] = ()
    try:
        check_pattern(files, "pattern.yaml", "pattern")
    except PatternError as error:
        findings = error.findings

    assert all(finding.span and finding.help for finding in findings)


def test_sizes_that_fail_alike_are_one_finding(tmp_path: Path) -> None:
    write(tmp_path / "cap", changed(CAP, ("stitches(around, multiple = 8)", "[98, 98]")))

    result = run("check", str(tmp_path / "cap"))

    assert result.output.count("error[") == 1
    assert "size" not in result.output.split("\n")[0]


def test_every_fault_of_a_stage_is_told_at_once(tmp_path: Path) -> None:
    text = changed(CAP, ("title:", "titel:"), ("weight: 4", "weight: 44"), ("[adult]", "[cat]"))
    write(tmp_path / "cap", text)

    result = run("check", str(tmp_path / "cap"))

    assert result.output.count("error[") == 3
    assert f"{tmp_path / 'cap'}: 3 errors" in result.output


# ---------------------------------------------------------------- real processes


def test_a_binary_file_is_refused_in_a_shell(tmp_path: Path) -> None:
    (tmp_path / "cap").mkdir()
    (tmp_path / "cap" / "pattern.yaml").write_bytes(bytes(range(256)))

    ended = shell("build", "cap", folder=tmp_path)

    assert ended.returncode == 1
    assert "`pattern.yaml` is not a text file" in ended.stderr
    assert "cap/pattern.yaml:1:1" in ended.stderr
    assert ended.stdout == ""
    assert not (tmp_path / "build").exists()


def test_another_encoding_is_refused_in_a_shell(tmp_path: Path) -> None:
    (tmp_path / "cap").mkdir()
    (tmp_path / "cap" / "pattern.yaml").write_bytes("title: Café".encode("latin-1"))

    ended = shell("check", "cap", folder=tmp_path)

    assert ended.returncode == 1
    assert "Save it as plain text in UTF-8" in ended.stderr
    assert "Traceback" not in ended.stderr


def test_findings_are_printed_where_the_terminal_knows_few_letters(tmp_path: Path) -> None:
    write(tmp_path / "cap", changed(CAP, ("summary:", "sumáry…:")))

    ended = shell("check", "cap", folder=tmp_path, PYTHONIOENCODING="ascii")

    assert ended.returncode == 1
    assert "sum?ry" in ended.stderr
    assert "Traceback" not in ended.stderr


def test_a_good_pattern_builds_in_a_shell_and_says_what_it_wrote(tmp_path: Path) -> None:
    write(tmp_path / "flap", FLAP)

    ended = shell("build", "flap", folder=tmp_path)

    assert ended.returncode == 0, ended.stderr
    assert "flap: built" in ended.stdout
    for name in ("flap.pdf", "flap.txt", "numbers.json"):
        assert f"build/flap/{name}" in ended.stdout
        assert (tmp_path / "build" / "flap" / name).stat().st_size > 100


# ---------------------------------------------------------------- paths


@pytest.mark.parametrize(
    ("argument", "says", "help"),
    [
        ("nothing", "there is no folder or file `nothing`", "bindoff new NAME"),
        ("cpa", "there is no folder or file `cpa`", "Write `cap`"),
        ("empty", "the folder `empty` holds no `pattern.yaml`", "Name the folder of a pattern"),
        (
            ".",
            "the folder `.` holds no `pattern.yaml`",
            "Name one of the patterns inside it: `cap`",
        ),
        ("empty/pattern.yaml", "there is no folder or file", "bindoff new NAME"),
        ("", "the name of a pattern is empty", "Name the folder"),
    ],
)
def test_a_path_without_a_pattern(
    argument: str, says: str, help: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    write(tmp_path / "cap", CAP)
    (tmp_path / "empty").mkdir()

    result = run("build", argument)

    assert result.exit_code == 1
    assert says in result.output
    assert help in result.output
    assert not (tmp_path / "build").exists()


def test_the_source_file_itself_may_be_named(tmp_path: Path) -> None:
    write(tmp_path / "cap", CAP)

    assert run("check", str(tmp_path / "cap" / "pattern.yaml")).exit_code == 0


def test_a_bad_pattern_does_not_keep_a_good_one_from_being_checked(tmp_path: Path) -> None:
    write(tmp_path / "cap", changed(CAP, ("title:", "titel:")))
    write(tmp_path / "flap", FLAP)

    result = run("check", str(tmp_path / "cap"), str(tmp_path / "flap"))

    assert result.exit_code == 1
    assert f"{tmp_path / 'flap'}: sound" in result.output


def test_two_patterns_of_one_name_are_not_built_over_each_other(tmp_path: Path) -> None:
    write(tmp_path / "one" / "cap", CAP)
    write(tmp_path / "two" / "cap", FLAP)

    result = run("build", str(tmp_path / "one" / "cap"), str(tmp_path / "two" / "cap"))

    assert result.exit_code == 2
    assert "would both be built into `cap`" in result.output


def test_output_that_somebody_else_put_there_is_not_replaced(tmp_path: Path) -> None:
    write(tmp_path / "flap", FLAP)
    (tmp_path / "out" / "flap").mkdir(parents=True)
    (tmp_path / "out" / "flap" / "letter.txt").write_text("dear", encoding="utf-8")

    result = run("build", str(tmp_path / "flap"), "--out", str(tmp_path / "out"))

    assert result.exit_code == 1
    assert contents(tmp_path / "out" / "flap") == {"letter.txt": b"dear"}


# ---------------------------------------------------------------- the command line


@pytest.mark.parametrize(
    "arguments",
    [
        ("build",),
        ("bild", "cap"),
        ("build", "cap", "--papper", "a4"),
        ("build", "cap", "--paper", "a3"),
        ("new",),
        ("new", "a/b"),
        ("new", "../cap"),
        ("new", ""),
        ("new", "."),
        ("new", 'a"b'),
        ("schema", "--out", "."),
    ],
    ids=" ".join,
)
def test_a_wrong_command_line_ends_with_2(
    arguments: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)

    result = run(*arguments)

    assert result.exit_code == 2
    assert "Usage: " in result.output
    assert list(tmp_path.iterdir()) == []


def test_the_version_is_told_even_where_nothing_is_installed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("bindoff.cli.version_of", lambda name: "")
    uninstalled = run("--version")
    monkeypatch.setattr("bindoff.cli.version_of", lambda name: "12.3")
    installed = run("--version")

    assert (uninstalled.exit_code, installed.exit_code) == (0, 0)
    assert uninstalled.output == "bindoff, not installed: run from its source\n"
    assert installed.output == "bindoff, version 12.3\n"


def test_help_lists_every_command_with_what_it_is_for() -> None:
    output = " ".join(run("--help").output.split())

    assert all(name in output and what in output for name, what in COMMANDS.items())


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself(name: str) -> None:
    result = run(name, "-h")

    assert result.exit_code == 0
    assert result.output.startswith("Usage: ")


# ---------------------------------------------------------------- new and schema


def test_a_new_pattern_builds_as_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)

    started = run("new", "low-tide cowl")
    built = run("build", "patterns/low-tide cowl")

    assert started.exit_code == 0
    assert "bindoff build" in started.output
    assert built.exit_code == 0, built.output
    text = (tmp_path / "build" / "low-tide cowl" / "low-tide cowl.txt").read_text("utf-8")
    assert text.startswith("Low Tide Cowl\n")
    assert sorted(contents(tmp_path / "patterns")) == [
        "low-tide cowl/pattern.schema.json",
        "low-tide cowl/pattern.yaml",
        "low-tide cowl/waves.grid",
    ]


@pytest.mark.parametrize("starter", STARTERS)
def test_every_starter_is_sound_but_for_what_the_designer_fills_in(
    starter: str, tmp_path: Path
) -> None:
    started = run("new", "low tide", "--from", starter, "--in", str(tmp_path))
    assert started.exit_code == 0, started.output

    checked = run("check", str(tmp_path / "low tide"), "--json")

    assert checked.exit_code == 0, checked.output
    (pattern,) = json.loads(checked.output)
    assert [each["id"] for each in pattern["findings"]] == ["prose.unfinished"] * 3
    source = (tmp_path / "low tide" / "pattern.yaml").read_text("utf-8")
    assert len(source.splitlines()) < 160, "a starter is short"
    schema = json.loads((tmp_path / "low tide" / "pattern.schema.json").read_text("utf-8"))
    Draft202012Validator(schema).validate(read_yaml(source, "pattern.yaml").data)


def test_a_starter_of_two_words_may_have_a_dash(tmp_path: Path) -> None:
    run("new", "a", "--from", "machine cowl", "--in", str(tmp_path))
    run("new", "b", "--from", "machine-cowl", "--in", str(tmp_path))
    files = contents(tmp_path)
    assert len(files) == 4
    first = files["a/pattern.yaml"].replace(b'title: "A"', b'title: "B"')
    assert files["b/pattern.yaml"] == first


def test_a_new_pattern_never_replaces_one(tmp_path: Path) -> None:
    write(tmp_path / "cap", CAP)
    before = contents(tmp_path)

    result = run("new", "cap", "--in", str(tmp_path))

    assert result.exit_code == 1
    assert "is there already" in result.output
    assert contents(tmp_path) == before


def test_a_new_pattern_that_cannot_be_written_leaves_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")

    result = run("new", "cap", "--in", str(tmp_path / "file"))

    assert result.exit_code == 1
    assert "can't be written" in result.output
    assert sorted(contents(tmp_path)) == ["file"]


def test_the_schema_is_written_to_a_file(tmp_path: Path) -> None:
    result = run("schema", "--out", str(tmp_path / "schema.json"))

    assert result.exit_code == 0
    assert json.loads((tmp_path / "schema.json").read_text("utf-8")) == json.loads(
        run("schema").output
    )


def test_a_schema_that_cannot_be_written(tmp_path: Path) -> None:
    result = run("schema", "--out", str(tmp_path / "nowhere" / "schema.json"))

    assert result.exit_code == 1
    assert "can't be written" in result.output


# ---------------------------------------------------------------- faults of the program


def test_a_fault_of_the_program_is_told_as_such_and_stops_no_other_pattern(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path / "cap", CAP)
    write(tmp_path / "tube", TUBE)
    monkeypatch.setattr("bindoff.pipeline.make_plan", lambda source: 1 / 0)

    result = run("check", str(tmp_path / "cap"), str(tmp_path / "tube"))

    assert result.exit_code == 1
    assert result.output.count("error[command.fault]: the program failed with ZeroDivision") == 2
    assert "Traceback" not in result.output


def test_the_installed_command_says_all_and_keeps_its_exit_code() -> None:
    """It ends without taking itself apart, so nothing may be left unsaid by then."""
    for arguments, code in ((["words", "--json"], 0), (["check", "nowhere"], 1), (["nonsense"], 2)):
        command = [sys.executable, "-m", "bindoff", *arguments]
        done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False)
        assert done.returncode == code
        assert (done.stdout + done.stderr).endswith("\n")
    full = "import json; json.load(__import__('sys').stdin)"
    piped = f'{sys.executable} -m bindoff words --json | {sys.executable} -c "{full}"'
    subprocess.run(piped, shell=True, check=True, cwd=ROOT)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no full device here")
def test_what_cannot_be_said_is_no_success() -> None:
    with open("/dev/full", "w") as full:
        command = [sys.executable, "-m", "bindoff", "words"]
        done = subprocess.run(command, stdout=full, stderr=subprocess.DEVNULL, check=False)
    assert done.returncode != 0


@pytest.mark.parametrize("name", ["pattern.yml", "pattern.yaml.txt"])
def test_a_source_by_another_name_is_told_how_it_must_be_called(tmp_path: Path, name: str) -> None:
    folder = tmp_path / "cap"
    write(folder, CAP)
    (folder / "pattern.yaml").rename(folder / name)

    result = run("check", str(folder))

    assert result.exit_code == 1
    assert f"Rename its file `{name}` to `pattern.yaml`" in result.stderr


def test_casting_off_is_read_as_binding_off(tmp_path: Path) -> None:
    write(tmp_path / "us", changed(CAP, ("- gather: all", "- bind off: all")))
    write(tmp_path / "uk", changed(CAP, ("- gather: all", "- cast off: all")))

    us, uk = (run("check", str(tmp_path / name)) for name in ("us", "uk"))

    assert (us.exit_code, uk.exit_code) == (0, 0), uk.stderr
    assert us.stderr.count("\n") == uk.stderr.count("\n")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("{\\rtf1\\ansi title: Hat\\par }", "a rich-text file (RTF)"),
        ("<!DOCTYPE html><p>title: Hat</p>", "a web page (HTML)"),
        ("PK\x03\x04", "a word processor's or spreadsheet's file"),
    ],
)
def test_what_is_no_text_is_named(tmp_path: Path, text: str, kind: str) -> None:
    write(tmp_path / "cap", text)

    result = run("check", str(tmp_path / "cap"))

    assert result.exit_code == 1
    assert f"`pattern.yaml` is {kind}" in result.stderr
    assert "plain text" in result.stderr


def test_a_name_with_an_accent_is_found_however_it_is_stored(tmp_path: Path) -> None:
    write(tmp_path / "cap", changed(CAP, ("waves.grid", "véla.grid")))
    (tmp_path / "cap" / "waves.grid").rename(tmp_path / "cap" / "ve\u0301la.grid")

    result = run("check", str(tmp_path / "cap"))

    assert result.exit_code == 0, result.stderr


def test_a_spreadsheet_in_place_of_a_grid_is_told_as_one(tmp_path: Path) -> None:
    write(tmp_path / "cap", CAP)
    (tmp_path / "cap" / "waves.grid").write_text("#,.,#,.\n#,.,#\n", encoding="utf-8")

    result = run("check", str(tmp_path / "cap"))

    assert "looks like one of a spreadsheet" in result.stderr
    assert "grid from-sheet" in result.stderr


def test_a_finished_text_becomes_a_draft(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    text = (Path(__file__).parent / "draft" / "finished" / "kettle-lane-hat.txt").read_text("utf-8")
    (tmp_path / "Kettle lane hat.txt").write_text(text, encoding="utf-8")
    run = CliRunner().invoke(main, ["read", "Kettle lane hat.txt"])
    assert run.exit_code == 0
    assert "left in their own words: 0" in run.output
    folder = tmp_path / "patterns" / "kettle-lane-hat"
    assert sorted(path.name for path in folder.iterdir()) == ["pattern.schema.json", "pattern.yaml"]
    assert CliRunner().invoke(main, ["check", str(folder)]).exit_code == 0
    again = CliRunner().invoke(main, ["read", "Kettle lane hat.txt"])
    assert again.exit_code == 1
    assert "is there already" in again.output


def test_a_text_that_is_none_is_refused_in_words(tmp_path: Path) -> None:
    (tmp_path / "hat.docx").write_bytes(b"PK\x03\x04")
    run = CliRunner().invoke(main, ["read", str(tmp_path / "hat.docx")])
    assert run.exit_code == 1
    assert "word processor" in run.output
    assert "save that as a file of plain text" in " ".join(run.output.split())
    run = CliRunner().invoke(main, ["read", str(tmp_path / "nothing.txt")])
    assert run.exit_code == 1
    assert "can't be read" in run.output
