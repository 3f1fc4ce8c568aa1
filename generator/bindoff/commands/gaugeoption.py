"""The option ``--gauge``, which several commands have."""

import click

from bindoff.source.statedgauge import FORM, StatedGauge, parse_gauges


def _stated(
    context: click.Context, option: click.Parameter, values: tuple[str, ...]
) -> tuple[StatedGauge, ...]:
    """The gauges of a command line; what is wrong with them is said as click says it."""
    try:
        return parse_gauges(values)
    except ValueError as error:
        raise click.BadParameter(str(error), context, option) from None


gauge_option = click.option(
    "--gauge",
    "gauges",
    multiple=True,
    callback=_stated,
    metavar="GAUGE",
    help=f"Work everything out at another gauge: {FORM}. A size or piece that has a gauge of its "
    "own keeps it, unless it is given one too: --gauge 'S = 23 x 31 / 10 cm'.",
)
