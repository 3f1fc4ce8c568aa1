"""``bindoff words``: every word a row knows, or what one of them is."""

import json

import click

from bindoff.commands.shared import stop


@click.command(name="words")
@click.argument("word", nargs=-1, metavar="[WORD]")
@click.option(
    "--terms",
    type=click.Choice(("US", "UK")),
    default="US",
    show_default=True,
    help="Whose words crochet is read in.",
)
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
def command(word: tuple[str, ...], terms: str, as_json: bool) -> None:
    """List every word that a row knows, or explain WORD: a stitch with what it uses and makes, how
    it is worked on each side, its mirror partner and its chart symbol."""
    from bindoff.craft.stitches import standard_book
    from bindoff.source.rowlang import listing
    from bindoff.source.rowlang.stitches import Terms
    from bindoff.source.rowlang.vocabulary import Vocabulary

    book, asked = standard_book(Terms(terms)), " ".join(word)
    if not asked:
        click.echo(_dumped(listing.all_data(book)) if as_json else listing.all_words(book))
        return
    found = listing.entries(asked, book)
    if not found:
        near = Vocabulary(book, {}).near(asked.lower())
        help = f"Near it: {', '.join(near)}" if near else "List all words with `bindoff words`"
        stop(f"no row knows the word `{asked}`", help)
    if as_json:
        click.echo(_dumped([listing.as_data(entry, book) for entry in found]))
    else:
        click.echo("\n\n".join(listing.explained(entry, book) for entry in found))


def _dumped(data: object) -> str:
    return json.dumps(data, ensure_ascii=False, indent=1)
