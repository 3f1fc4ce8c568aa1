"""The files of the typefaces, which come with two packages of their own."""

from importlib import import_module
from pathlib import Path

from bindoff.diagnostics import fail

SANS, SERIF = "fontpkg_lato", "fontpkg_ibm_plex_serif"


def font_bytes(package: str, file: str) -> bytes:
    """The bytes of a file of a font package, ``SANS`` or ``SERIF``.

    Raises ``PatternError`` with id ``font.missing`` where the package is not installed.
    """
    try:
        folder = Path(str(import_module(package).__file__)).parent
        return (folder / "files" / file).read_bytes()
    except (ModuleNotFoundError, FileNotFoundError):
        name = package.replace("_", "-")
        raise fail(
            "font.missing",
            f"the typefaces of the package `{name}` are not installed",
            f"Type `python -m pip install {name}`, with the Python that bindoff runs in",
        ) from None
