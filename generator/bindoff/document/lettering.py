"""How wide a label is, so that drawings can keep labels apart without a font at hand."""

from functools import lru_cache

CAP_HEIGHT = 0.72  # of the type size, rounded up
RING = 0.65  # of the type size: the radius of the ring around a letter
_BOLD = 1.09  # the widest growth of a Lato letter from regular to bold, but for the narrow ones
_STAND_IN = 7 / 6
_OTHER = 0.8  # any character not listed, on the wide side

# Advance widths of Lato Regular 2.0 in thousandths of the type size, rounded up to a few classes.
_CLASSES = (
    (280, " .,:;!|'’‘ijlI()"),
    (380, '[]{}frt-"“”′'),
    (440, "`*°Js"),
    (500, "?/\\_caxz"),
    (530, "vykeLé″"),
    (570, "gbdhnopquFS"),
    (590, "#$+0123456789<=>^~×–ET"),
    (650, "PZYRBX"),
    (730, "KCAV&½⅓G¼U"),
    (800, "¾DHNw—OQ"),
    (930, "%m@M"),
    (1040, "W"),
)
_WIDTHS = {letter: width / 1000 for width, letters in _CLASSES for letter in letters}


@lru_cache(maxsize=1 << 12)  # the same numbers are tried at many places and sizes of cells
def text_width(text: str, size: float, bold: bool = False) -> float:
    """An upper estimate of the width of ``text`` at ``size``, in the unit of ``size``.

    The letter widths are Lato's own. A sixth is added: a viewer without Lato sets the text in
    another face, and the common ones are up to that much wider.
    """
    width = sum(_WIDTHS.get(letter, _OTHER) for letter in text) * size * _STAND_IN
    return width * _BOLD if bold else width


def middle_of(text: str) -> float:
    """How far the middle of what is seen of ``text`` lies above its baseline, in ems of Lato Bold.

    A letter in a ring stands there, as the eye measures from the letter and not from its line.
    """
    top = 0.52 if set(text) <= set("acegmnopqrsuvwxyz") else 0.73
    low = -0.18 if set(text) & set("gjpqyQ") else 0.0
    return (top + low) / 2
