"""Small rules of English: counts in words, the article, lists, and how a sentence begins and ends.

Common ground: every stage says its words by these.
"""

from collections.abc import Iterable

from bindoff import regex as re


def how_many(count: int, noun: str) -> str:
    """``1 round``, ``2 live stitches``."""
    return f"{count} {noun if count == 1 else plural(noun)}"


def are(count: int, noun: str) -> str:
    """``1 marker is``, ``3 markers are``."""
    return f"{how_many(count, noun)} {'is' if count == 1 else 'are'}"


def times(count: int) -> str:
    """``once``, ``twice``, ``3 times``."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


_FORM = re.compile(r"\bthis many (?P<noun>\w+): (?P<count>\d+)\b")


def counted_in_order(words: str) -> str:
    """``Knit 8 rounds`` for ``Knit this many rounds: 8``, which is only said of several sizes."""

    def order(found: re.Match[str]) -> str:
        count, noun = int(found["count"]), found["noun"]
        if noun == "times":
            return times(count)
        ends = (noun.removesuffix("s"), noun.removesuffix("es"))
        singular = next((end for end in ends if plural(end) == noun), None)
        return how_many(count, singular) if singular else found[0]

    return _FORM.sub(order, words)


def verb(count: int, one: str, many: str) -> str:
    """The verb that goes with a count: ``one`` or ``many``."""
    return one if count == 1 else many


def an(noun: str) -> str:
    """``an infant``, ``a child``: the article goes by the first letter."""
    return f"{'an' if noun[:1].lower() in 'aeiou' else 'a'} {noun}"


def plural(noun: str) -> str:
    """``rounds``, ``stitches``."""
    return noun + ("es" if noun.endswith("ch") else "s")


def ordinal(number: int) -> str:
    """``second``, ``third``, ``4th``, ``22nd``."""
    if number in (1, 2, 3):
        return ("first", "second", "third")[number - 1]
    ends = {1: "st", 2: "nd", 3: "rd"} if number // 10 % 10 != 1 else {}
    return f"{number}{ends.get(number % 10, 'th')}"


def listed(words: Iterable[str], last: str = "and") -> str:
    """``a, b and c``."""
    found = list(words)
    if len(found) < 2:
        return "".join(found)
    return f"{', '.join(found[:-1])} {last} {found[-1]}"


def capital(words: str) -> str:
    """``words`` with a large first letter."""
    return words[:1].upper() + words[1:]


def ended(words: str) -> str:
    """``words`` with a full stop if they have no end mark of their own."""
    return words if not words or words.rstrip('"”’)]')[-1:] in (*".!?:;,…",) else f"{words}."


_INITIAL = re.compile(r"(?<=\b[^\W\d_]\.) (?=\w)")


def name_in_one(name: str) -> str:
    """A name with its initials bound to what follows: no line and no sentence ends after them."""
    return _INITIAL.sub("\u00a0", name)
