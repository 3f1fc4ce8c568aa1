"""One build of a prepared document by one engine, in this process: the work of ``documents``.

    python -m tests.bench.once ENGINE FOLDER

``FOLDER`` holds the same document as a tree, as a page of HTML and as a typesetter's source.
"""

import sys
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bindoff.document.tree import Document

TREE, PAGE, SOURCE = "tree.pickle", "page.html", "page.typ"


def bindoff(folder: Path) -> None:
    """All outputs of the tree, put into a folder as the command does."""
    import pickle

    from bindoff.render.output import publish

    document = pickle.loads((folder / TREE).read_bytes())
    publish(outputs(document), folder / "bindoff")


def outputs(document: "Document") -> Mapping[str, bytes]:
    """The tagged PDF, the text and every drawing as SVG."""
    from bindoff.render.pdf import render_pdf
    from bindoff.render.svg import render_svg
    from bindoff.render.text import render_text

    drawings = (
        render_svg(drawing, f"Figure {number}", alt)
        for number, (drawing, alt) in enumerate(_drawings(document), start=1)
    )
    return {
        "out.pdf": render_pdf(document),
        "out.txt": render_text(document).encode(),
        **{f"charts/{number}.svg": svg.encode() for number, svg in enumerate(drawings)},
    }


def _drawings(document: "Document") -> Iterator[tuple]:  # type: ignore[type-arg]
    from bindoff.document.drawing import Drawing
    from bindoff.document.tree import Figure

    for block in document.blocks:
        if isinstance(block, Figure) and isinstance(block.picture, Drawing):
            yield block.picture, block.alt


def html(folder: Path) -> None:
    """The tagged PDF of the page of HTML."""
    import weasyprint

    page = weasyprint.HTML(filename=str(folder / PAGE))
    page.write_pdf(str(folder / "html.pdf"), pdf_variant="pdf/ua-1", pdf_tags=True)


def typesetter(folder: Path) -> None:
    """The tagged PDF of the typesetter's source."""
    import typst

    typst.compile(
        str(folder / SOURCE),
        output=str(folder / "typesetter.pdf"),
        font_paths=[str(folder)],
        ignore_system_fonts=True,
        pdf_standards="ua-1",
    )


ENGINES: Mapping[str, Callable[[Path], None]] = {
    "bindoff": bindoff,
    "html": html,
    "typesetter": typesetter,
}

if __name__ == "__main__":
    ENGINES[sys.argv[1]](Path(sys.argv[2]))
