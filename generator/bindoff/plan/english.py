"""How many of what, in words; and the article before a noun."""


def how_many(count: int, noun: str) -> str:
    """``1 round``, ``2 live stitches``."""
    return f"{count} {noun if count == 1 else plural(noun)}"


def are(count: int, noun: str) -> str:
    """``1 marker is``, ``3 markers are``."""
    return f"{how_many(count, noun)} {'is' if count == 1 else 'are'}"


def often(count: int) -> str:
    """``once``, ``twice``, ``3 times``."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def verb(count: int, one: str, many: str) -> str:
    """The verb that goes with a count: ``one`` or ``many``."""
    return one if count == 1 else many


def an(noun: str) -> str:
    """``an infant``, ``a child``: the article goes by the first letter."""
    return f"{'an' if noun[:1].lower() in 'aeiou' else 'a'} {noun}"


def plural(noun: str) -> str:
    """``rounds``, ``stitches``."""
    return noun + ("es" if noun.endswith("ch") else "s")
