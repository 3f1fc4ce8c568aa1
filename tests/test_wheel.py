"""The program as it is installed: a wheel in an environment of its own, used far from the checkout.

The environment borrows the libraries of this one, by a path that comes after its own packages; the
program and its templates come from the wheel, which the tests prove by changing them there.
"""

import os
import re
import shutil
import subprocess
import sys
import sysconfig
import tomllib
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


def call(*command: str | Path, folder: Path) -> subprocess.CompletedProcess[str]:
    """A command in an environment that knows nothing of the checkout; it must succeed."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    ended = subprocess.run(
        [str(part) for part in command],
        cwd=folder,
        env={**kept, "PIP_DISABLE_PIP_VERSION_CHECK": "1"},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert ended.returncode == 0, ended.stdout + ended.stderr
    return ended


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    pip = (sys.executable, "-m", "pip", "wheel", "--no-deps", "--no-build-isolation")
    call(*pip, "--wheel-dir", folder, ROOT, folder=folder)
    (found,) = folder.glob("bindoff-*.whl")
    return found


@pytest.fixture(scope="module")
def environment(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A fresh environment with the wheel in it."""
    folder = tmp_path_factory.mktemp("environment")
    call(sys.executable, "-m", "venv", "--without-pip", folder, folder=folder)
    python = folder / "bin" / "python"
    install = ("--python", python, "install", "--no-deps", "--no-index")
    call(sys.executable, "-m", "pip", *install, wheel, folder=folder)
    (packages,) = folder.glob("lib/python*/site-packages")
    (packages / "borrowed.pth").write_text(f"{sysconfig.get_path('purelib')}\n", encoding="utf-8")
    return folder


def test_the_wheel_holds_the_program_and_its_templates(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    templates = {
        f"bindoff/_templates/{path.relative_to(ROOT / 'templates').as_posix()}"
        for path in (ROOT / "templates").rglob("*")
        if path.is_file()
    }
    modules = {
        path.relative_to(ROOT / "generator").as_posix()
        for path in (ROOT / "generator/bindoff").rglob("*")
        if path.suffix in (".py", ".lark", ".toml", ".typed") and "__pycache__" not in path.parts
    }

    assert templates <= set(names)
    assert modules <= set(names)
    assert not any("__pycache__" in name for name in names)  # made where they are used
    assert not [name for name in names if name.startswith(("tests/", "patterns/"))]


def test_an_installer_of_tools_finds_one_command_and_all_it_needs(wheel: Path) -> None:
    """What ``pipx install`` and ``uv tool install`` go by: both were tried by hand with it."""
    archive = zipfile.ZipFile(wheel)
    (folder,) = {name.split("/")[0] for name in archive.namelist() if ".dist-info/" in name}
    told = archive.read(f"{folder}/METADATA").decode()
    needed = re.findall(r"^Requires-Dist: ([^;\n]*)$", told, flags=re.MULTILINE)
    written = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]

    assert sorted(needed) == sorted(written["dependencies"])
    assert not [each for each in needed if "@" in each or "/" in each]  # all are on the index
    assert archive.read(f"{folder}/entry_points.txt").decode().split("\n")[:2] == [
        "[console_scripts]",
        "bindoff = bindoff.cli:run",
    ]


def test_the_installed_command_tells_its_version(environment: Path, tmp_path: Path) -> None:
    written = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    (version,) = re.findall(r'^version = "(.*)"$', written, flags=re.MULTILINE)

    ended = call(environment / "bin" / "bindoff", "--version", folder=tmp_path)

    assert ended.stdout.strip().endswith(version)


def test_the_installed_command_starts_and_builds_a_pattern(
    environment: Path, tmp_path: Path
) -> None:
    bindoff = environment / "bin" / "bindoff"
    (templates,) = environment.glob("lib/python*/site-packages/bindoff/_templates")
    start = templates / "start" / "cowl" / "pattern.yaml"
    start.write_text(f"# from the wheel\n{start.read_text('utf-8')}", encoding="utf-8")
    care = templates / "notes" / "care.md"
    care.write_text(f"{care.read_text('utf-8')}\n\nDry it on a rail.\n", encoding="utf-8")

    call(bindoff, "new", "rail", folder=tmp_path)
    ended = call(bindoff, "build", "patterns/rail", folder=tmp_path)

    assert (
        (tmp_path / "patterns" / "rail" / "pattern.yaml")
        .read_text("utf-8")
        .startswith("# from the wheel\n")
    )
    assert "patterns/rail: built" in ended.stdout
    out = tmp_path / "build" / "rail"
    assert (out / "rail.pdf").read_bytes().startswith(b"%PDF-1.7")
    assert "Dry it on a rail." in (out / "rail.txt").read_text("utf-8")


@pytest.mark.skipif(shutil.which("bash") is None, reason="needs bash")
def test_bash_completes_the_installed_command(environment: Path, tmp_path: Path) -> None:
    bindoff = environment / "bin" / "bindoff"
    script = (
        f'PATH="{bindoff.parent}:$PATH"; source <(bindoff completion bash); '
        'COMP_WORDS=(bindoff compl); COMP_CWORD=1; _bindoff_completion bindoff; echo "$COMPREPLY"'
    )

    ended = call("bash", "-c", script, folder=tmp_path)

    assert ended.stdout.strip() == "completion"


@pytest.mark.parametrize("shell", ["zsh", "fish"])
def test_other_shells_have_their_lines(environment: Path, tmp_path: Path, shell: str) -> None:
    ended = call(environment / "bin" / "bindoff", "completion", shell, folder=tmp_path)

    assert "_BINDOFF_COMPLETE" in ended.stdout


def test_the_installed_program_is_not_the_checkout(environment: Path, tmp_path: Path) -> None:
    python = environment / "bin" / "python"
    where = "import bindoff, bindoff.files as f; print(bindoff.__file__, f.__file__)"

    ended = call(python, "-c", where, folder=tmp_path)

    assert all(path.startswith(str(environment)) for path in ended.stdout.split())
