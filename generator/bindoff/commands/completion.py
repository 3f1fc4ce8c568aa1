"""``bindoff completion``: the lines by which a shell completes commands, options and patterns."""

import click
from click.shell_completion import get_completion_class

SHELLS = ("bash", "zsh", "fish")


@click.command(name="completion")
@click.argument("shell", type=click.Choice(SHELLS))
def command(shell: str) -> None:
    """Print what a SHELL needs to complete commands, options and patterns as you type.

    Write it into a file that the shell reads when it starts; the guide in README.md says which.
    """
    from bindoff.cli import main

    kind = get_completion_class(shell)
    assert kind is not None
    click.echo(kind(main, {}, "bindoff", "_BINDOFF_COMPLETE").source(), nl=False)
