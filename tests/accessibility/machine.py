"""Which programs this machine has. Tests of a missing one are left out, but not where CI runs."""

import os
import shutil

import pytest

PACKAGES = {
    "java": "default-jdk-headless",
    "lou_translate": "liblouis-bin",
    "pdfinfo": "poppler-utils",
    "qpdf": "qpdf",
}


def missing(program: str) -> bool:
    """Whether tests may be left out because ``program`` is not installed."""
    return shutil.which(program) is None and not os.environ.get("CI")


def needs(program: str) -> pytest.MarkDecorator:
    """Marks a test that is left out where ``program`` is missing."""
    return pytest.mark.skipif(missing(program), reason=reason(program))


def reason(program: str) -> str:
    """What to install."""
    return f"{program} is not installed: Debian has it in {PACKAGES[program]}"
