"""``bindoff guide``: the whole guide as a PDF and as text."""

from pathlib import Path

import click

from bindoff.commands.shared import say, stop
from bindoff.commands.wholefile import write_whole


@click.command(name="guide")
@click.option("--paper", type=click.Choice(("a4", "letter")), default="a4", show_default=True)
@click.option("--large-print", is_flag=True, help="Everything in 18 pt and more.")
@click.option("--out", default="build", show_default=True, help="Folder to write it in.")
def command(paper: str, large_print: bool, out: str) -> None:
    """Write the guide: every key, helper and row word with lines that work, as a PDF and as
    text."""
    from bindoff.guide.lines import guide_lines
    from bindoff.guide.pages import guide
    from bindoff.render.pdf import PdfOptions, render_pdf

    document = guide()
    options = PdfOptions(
        paper="letter" if paper == "letter" else "a4",
        theme="large-print" if large_print else "calm",
    )
    made = {
        f"bindoff-guide{'-large-print' if large_print else ''}"
        f"{'-letter' if paper == 'letter' else ''}.pdf": render_pdf(document, options),
        "bindoff-guide.txt": "".join(f"{line}\n" for line in guide_lines()).encode(),
    }
    folder = Path(out)
    for name, data in made.items():
        try:
            folder.mkdir(parents=True, exist_ok=True)
            write_whole(folder / name, data)
        except OSError as error:
            stop(
                f"`{folder / name}` can't be written: {error.strerror}",
                "Close it where it is open, or choose another folder with `--out`",
            )
        say(f"{folder / name}: written")
