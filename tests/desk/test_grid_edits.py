"""Edits of a grid's text, as the page reckons them, by the script beside this one."""

import shutil
import subprocess
from importlib.resources import files
from pathlib import Path

import pytest


@pytest.mark.skipif(shutil.which("node") is None, reason="needs node")
def test_edits_change_what_they_should_and_nothing_else() -> None:
    module = files("bindoff").joinpath("desk", "web", "src", "painter-grid.js")
    script = Path(__file__).with_name("grid_edits.mjs")
    command = ["node", str(script), str(module)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.stderr == ""
    assert int(done.stdout) > 1500
