"""Needle and hook sizes. Millimetres come first: the numbered systems disagree with each other."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from bindoff.english import listed
from bindoff.records import Record


class Needle(Record):
    """A needle by its diameter in mm, with its US and old UK and Canadian number where it has one.

    ``us_also`` holds numbers that other lists give to the same diameter: print mm beside them.
    """

    mm: float
    us: str | None = None
    uk: str | None = None
    us_also: tuple[str, ...] = ()


class Hook(Record):
    """A hook by its diameter in mm, with its US letter and old UK number where it has one."""

    mm: float
    us: str | None = None
    uk: str | None = None


# Published comparison tables of knitting needles; the Craft Yarn Council's at 1.5 and 12.75 mm.
# From memory: both names of 1.25 and 1.75 mm, the 10¾ of 7 mm, and 12.75 mm itself.
NEEDLES = (
    Needle(1.25, "0000", "18"),
    Needle(1.5, "000", None, ("00",)),
    Needle(1.75, "00", "15"),
    Needle(2.0, "0", "14"),
    Needle(2.25, "1", "13"),
    Needle(2.5, "1½"),
    Needle(2.75, "2", "12"),
    Needle(3.0, "2½", "11"),
    Needle(3.25, "3", "10"),
    Needle(3.5, "4"),
    Needle(3.75, "5", "9"),
    Needle(4.0, "6", "8"),
    Needle(4.5, "7", "7"),
    Needle(5.0, "8", "6"),
    Needle(5.5, "9", "5"),
    Needle(6.0, "10", "4"),
    Needle(6.5, "10½", "3"),
    Needle(7.0, None, "2", ("10¾",)),
    Needle(7.5, None, "1"),
    Needle(8.0, "11", "0"),
    Needle(9.0, "13", "00"),
    Needle(10.0, "15", "000"),
    Needle(12.0, "17"),
    Needle(12.75, "17"),
    Needle(15.0, "19"),
    Needle(19.0, "35"),
    Needle(20.0, "36"),
    Needle(25.0, "50"),
)

# Published comparison tables of crochet hooks; the UK numbers of 3 and 7 mm, and 15 mm and above,
# from memory. Some lists call 2 mm B and 2.5 mm C: neither letter is given to those sizes here.
HOOKS = (
    Hook(2.0, None, "14"),
    Hook(2.25, "B-1", "13"),
    Hook(2.5),
    Hook(2.75, "C-2", "12"),
    Hook(3.0, None, "11"),
    Hook(3.25, "D-3", "10"),
    Hook(3.5, "E-4", "9"),
    Hook(3.75, "F-5"),
    Hook(4.0, "G-6", "8"),
    Hook(4.5, "7", "7"),
    Hook(5.0, "H-8", "6"),
    Hook(5.5, "I-9", "5"),
    Hook(6.0, "J-10", "4"),
    Hook(6.5, "K-10½", "3"),
    Hook(7.0, None, "2"),
    Hook(8.0, "L-11", "0"),
    Hook(9.0, "M/N-13", "00"),
    Hook(10.0, "N/P-15", "000"),
    Hook(12.0),
    Hook(15.0, "P/Q"),
    Hook(16.0, "Q"),
    Hook(19.0, "S"),
)

# Inches by centimetres as circular needles and their cables, and double-pointed ones, are sold.
# Common practice, no source; they are no conversions: 60 cm are 23.6 in, 100 cm 39.4 in.
SOLD_LENGTHS: Mapping[int, tuple[int, ...]] = MappingProxyType(
    {
        15: (6,),
        20: (8,),
        23: (9,),
        30: (12,),
        40: (16,),
        50: (20,),
        60: (24,),
        80: (32,),
        100: (40,),
        120: (47, 48),
        150: (60,),
    }
)


def needle(mm: float) -> Needle:
    """The needle of that diameter. Raises ``ValueError`` naming the nearest ones there are."""
    for size in NEEDLES:
        if abs(size.mm - mm) < 1e-6:
            return size
    raise ValueError(f"there is no {mm:g} mm needle; {_nearest([n.mm for n in NEEDLES], mm)}")


def hook(mm: float) -> Hook:
    """The hook of that diameter. Raises ``ValueError`` naming the nearest ones there are."""
    for size in HOOKS:
        if abs(size.mm - mm) < 1e-6:
            return size
    raise ValueError(f"there is no {mm:g} mm hook; {_nearest([h.mm for h in HOOKS], mm)}")


def _nearest(sizes: Sequence[float], mm: float) -> str:
    below = [size for size in sizes if size < mm]
    above = [size for size in sizes if size > mm]
    names = [f"{size:g} mm" for size in (*below[-1:], *above[:1])]
    return f"the nearest {'are' if len(names) > 1 else 'is'} {listed(names)}"
