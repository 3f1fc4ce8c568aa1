"""The sample, laid out and rendered once for all tests of the PDF."""

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from bindoff.render.pdf import PdfOptions, render_pdf
from bindoff.render.pdf.pages import Layout, lay_out
from tests.render.pdf import sample

OPTIONS = {
    "a4": PdfOptions(),
    "letter": PdfOptions(paper="letter"),
    "large": PdfOptions(theme="large-print"),
    "grey": PdfOptions(grey=True),
}


@cache
def _rendered(name: str) -> bytes:
    return render_pdf(sample.document(), OPTIONS[name])


@cache
def _laid_out(name: str) -> Layout:
    return lay_out(sample.document(), OPTIONS[name])


@pytest.fixture(scope="session")
def rendered() -> Callable[[str], bytes]:
    """The bytes of the sample with the named options."""
    return _rendered


@pytest.fixture(scope="session")
def laid_out() -> Callable[[str], Layout]:
    """The placed bands of the sample with the named options."""
    return _laid_out


@pytest.fixture
def saved(tmp_path: Path) -> Callable[[bytes], str]:
    """Write bytes to a file of its own and give the name."""

    def save(data: bytes) -> str:
        path = tmp_path / f"{len(list(tmp_path.iterdir()))}.pdf"
        path.write_bytes(data)
        return str(path)

    return save
