"""How many of what, in words."""


def how_many(count: int, noun: str) -> str:
    """``1 round``, ``2 live stitches``."""
    return f"{count} {noun if count == 1 else plural(noun)}"


def plural(noun: str) -> str:
    """``rounds``, ``stitches``."""
    return noun + ("es" if noun.endswith("ch") else "s")
