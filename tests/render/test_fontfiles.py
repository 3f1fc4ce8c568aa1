"""A program without its typefaces says which command installs them."""

import subprocess
import sys
from pathlib import Path

import pytest

from bindoff.diagnostics import PatternError
from bindoff.render.fontfiles import SERIF, font_bytes
from tests.small_patterns import CAP, WAVES


def test_a_package_that_is_not_there_is_named_with_the_command() -> None:
    with pytest.raises(PatternError) as caught:
        font_bytes("fontpkg_of_nobody", "Sans.ttf")
    (finding,) = caught.value.findings
    assert finding.id == "font.missing"
    assert "python -m pip install fontpkg-of-nobody" in finding.help
    assert font_bytes(SERIF, "IBMPlexSerif-Regular.ttf")[:4] == b"\x00\x01\x00\x00"


def test_a_build_without_them_tells_it_and_writes_nothing(tmp_path: Path) -> None:
    folder = tmp_path / "cap"
    folder.mkdir()
    (folder / "pattern.yaml").write_text(CAP, "utf-8")
    (folder / "waves.grid").write_text(WAVES, "utf-8")
    code = (
        "import sys; sys.modules['fontpkg_lato'] = None\n"
        "from bindoff.cli import main; main(['build', 'cap'])"
    )
    kept = f"pycache_prefix={tmp_path / 'kept'}"  # what an earlier run kept of them is elsewhere
    done = subprocess.run(
        [sys.executable, "-X", kept, "-c", code], cwd=tmp_path, capture_output=True, text=True
    )
    assert done.returncode == 1
    assert "font.missing" in done.stderr
    assert "pip install fontpkg-lato" in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "build").exists()
