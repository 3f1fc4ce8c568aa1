"""Files and tag trees of every edition, made once for all tests here."""

import os
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pikepdf
import pytest

from tests.accessibility import builds, machine, tag_tree


@pytest.fixture(scope="session")
def run_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that all processes of one run share, and no other run."""
    own = tmp_path_factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


@pytest.fixture(scope="session", autouse=True)
def outputs_built_once_a_run(run_folder: Path) -> None:
    """Whichever process comes first builds a demo with all its editions."""
    builds.share(run_folder)


@pytest.fixture(scope="session")
def saved(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str, str], Path]:
    """The path of an edition of a demo."""
    folder = tmp_path_factory.mktemp("editions")

    @cache
    def save(demo: str, edition: str) -> Path:
        path = folder / f"{demo}.{edition}.pdf"
        path.write_bytes(builds.pdf(demo, edition))
        return path

    return save


@pytest.fixture(scope="session")
def opened(saved: Callable[[str, str], Path]) -> Callable[[str, str], pikepdf.Pdf]:
    """An edition of a demo, to be looked at and not changed."""
    return cache(lambda demo, edition: pikepdf.open(saved(demo, edition)))


@pytest.fixture(scope="session")
def tree(
    saved: Callable[[str, str], Path], opened: Callable[[str, str], pikepdf.Pdf]
) -> Callable[[str, str], tag_tree.Node]:
    """The document element of an edition of a demo."""
    if machine.missing("pdfinfo"):
        pytest.skip(machine.reason("pdfinfo"))
    return cache(lambda demo, edition: tag_tree.read(saved(demo, edition), opened(demo, edition)))


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """Compare text with a reviewed file beside the tests; ``--update`` writes the file anew."""

    def compare(name: str, text: str) -> None:
        path = Path(__file__).parent / "golden" / name
        if request.config.getoption("--update", default=False):
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
        assert text == path.read_text(encoding="utf-8")

    return compare
