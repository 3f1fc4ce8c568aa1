"""Sentences about the work, made by tables of wordings and places: right ones and wrong ones.

Each ``Speech`` is one kind of thing that technical editors read a pattern for (common practice, no
source). Its wordings hold ``{n}`` for a number, or a word, that each of its places makes right or
wrong. Wrong numbers are near the right one, or figures of the same pattern at another place.
"""

# ruff: noqa: E501 - a line of a pattern stays whole, as it is looked up

from collections.abc import Iterator
from dataclasses import dataclass

from bindoff.checks.texts.told.numbers import ONES
from bindoff.diagnostics import Severity
from bindoff.files import MemoryFiles
from tests.faults.seeding import Fault, Swap, checked, faulty, place_of, planted

WORDS = {number: word for word, number in ONES.items()}


@dataclass(frozen=True, slots=True)
class Place:
    """Where a sentence is put: in ``base``, ``before`` becomes ``after`` with ``§`` as the sentence.

    ``right`` and ``wrong`` are what stands for ``{n}`` there.
    """

    base: str
    before: str
    after: str
    right: tuple[str, ...]
    wrong: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Said:
    """One sentence at one place, and whether it is right."""

    kind: str
    base: str
    before: str
    after: str
    sentence: str
    right: bool


@dataclass(frozen=True, slots=True)
class Speech:
    """One kind of statement."""

    kind: str
    wordings: tuple[str, ...]
    places: tuple[Place, ...]

    def said(self, wording: str, turn: int) -> Iterator[Said]:
        """A wording at every place with every number of it, in figures and in turn in words."""
        for place in self.places:
            for right, numbers in ((True, place.right), (False, place.wrong)):
                for at, number in enumerate(numbers):
                    sentence = _with(wording, number, words=(at + turn) % 2 == 1)
                    after = place.after.replace("§", sentence)
                    yield Said(self.kind, place.base, place.before, after, sentence, right)


def made() -> Iterator[Said]:
    """Every wording at every place with every number of it."""
    for speech in SPEECHES:
        for turn, wording in enumerate(speech.wordings):
            yield from speech.said(wording, turn)


def odd() -> Iterator[Said]:
    """The sound sentences that look odd, each as a step of words at its place."""
    for base, before, sentences in ODD_BUT_SOUND:
        for sentence in sentences:
            words = f'      - say: "{sentence}"\n'
            heading = before.startswith("      - section")
            after = f"{before}{words}" if heading else f"{words}{before}"
            yield Said("odd", base, before, after, sentence, right=True)


@dataclass(frozen=True, slots=True)
class Heard:
    """What is said about a pattern with a sentence: whether at its place, and every id."""

    in_place: bool
    alarms: tuple[str, ...]


def outcome_of(said: Said) -> Heard:
    """What checking the pattern with the sentence says; notes left aside."""
    return heard_of(Fault(said.sentence, said.base, "", (Swap(said.before, said.after),)))


def heard_of(fault: Fault) -> Heard:
    """What checking a faulty pattern says, at the changed lines and elsewhere."""
    loud = [
        each for each in checked(MemoryFiles(faulty(fault))) if each.severity is not Severity.NOTE
    ]
    places = planted(fault)
    return Heard(
        any(place_of(each) in places for each in loud),
        tuple(f"{each.id}: {each.message}" for each in loud),
    )


def _with(wording: str, number: str, *, words: bool) -> str:
    """A wording with a number: in words where it is small and they are wished."""
    if words and number.isdigit() and int(number) in WORDS:
        number = WORDS[int(number)]
    text = wording.replace("{n}", number)
    return text[0].upper() + text[1:]


def _n(right: str, wrong: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    return tuple(right.split()), tuple(wrong.split())


def _say(base: str, before: str, right: str, wrong: str) -> Place:
    """A step of words before a step of the pattern."""
    return Place(base, before, f'      - say: "§"\n{before}', *_n(right, wrong))


def _note(base: str, step: str, right: str, wrong: str) -> Place:
    """A note after a step of the pattern."""
    return Place(base, step, f'{step}        note: "§"\n', *_n(right, wrong))


def _notes(base: str, before: str, right: str, wrong: str) -> Place:
    """A sentence among the notes, or the notes where the pattern has none."""
    return Place(base, before, f'notes: "§"\n\n{before}', *_n(right, wrong))


TOY_24 = "      - even: increase\n        to: 24\n"
TOY_36 = "      - even: increase\n        to: 36\n"
TOY_32 = "      - even: decrease\n        to: 32\n"
FLIPPER = "        to: 4\n        over: 8\n        every: 2\n        plain: [k all, k all]\n"
ARM = '      - taper: "k2, m1l, k to last 2, m1r, k2"\n'
CLOTH_EDGE = "      - section: Upper edge\n      - work: k all\n        rounds: 5\n"

SPEECHES = (
    Speech(
        "stitches now",
        (
            "there are {n} stitches now.",
            "you now have {n} stitches.",
            "{n} stitches on the needles.",
            "this leaves {n} stitches.",
            "you should have {n} stitches in all.",
            "{n} stitches are left.",
            "the round now has {n} stitches.",
            "check that there are {n} stitches on your needles.",
            "after this there are {n} stitches.",
        ),
        (
            _note("toy", TOY_24, "24", "22 26 23 48"),
            _note("toy", TOY_36, "36", "34 24 38"),
            _note("toy", TOY_32, "32", "34 16 30"),
            _note("toy", FLIPPER, "4", "5 6 8"),
            _say("toy", "      - section: Tail\n", "48", "46 32 36"),
        ),
    ),
    Speech(
        "stitches changed",
        (
            "the round increases {n} stitches.",
            "{n} stitches are increased.",
            "increase by {n} stitches, spread evenly.",
            "this round increases {n} stitches in all.",
        ),
        (
            _note("toy", TOY_24, "8", "6 10 16"),
            _note("toy", TOY_36, "12", "8 10 14"),
        ),
    ),
    Speech(
        "cast on",
        (
            "cast on {n} stitches loosely.",
            "with Fog, cast on {n} stitches.",
            "using a long tail, cast on {n} stitches.",
        ),
        (_say("toy", "      - cast on: flipper\n", "12", "10 14 8 48"),),
    ),
    Speech(
        "bind off",
        (
            "bind off the last {n} stitches.",
            "bind off the remaining {n} stitches.",
            "bind off all {n} stitches.",
        ),
        (
            Place(
                "toy",
                FLIPPER + "      - bind off: all\n",
                FLIPPER + '      - say: "§"\n      - bind off: all\n',
                *_n("4", "6 5 12"),
            ),
        ),
    ),
    Speech(
        "edge stitches",
        (
            "the borders are {n} stitches wide.",
            "keep {n} stitches at each side in garter stitch.",
            "there is a border of {n} stitches at each side.",
            "the edges take {n} stitches at each end.",
            "work the {n} edge stitches of each side in garter stitch.",
            "the first and last {n} stitches are the border.",
            "the {n}-stitch borders lie flat.",
        ),
        (
            _say("bunk-blanket", '      - work: "Row 1 (RS)', "5", "6 4 10 7"),
            _say("deck-cloth", "      - section: Upper edge\n", "3", "4 5 2"),
        ),
    ),
    Speech(
        "rows of a step",
        (
            "{n} rows of garter stitch.",
            "these are {n} rows.",
            "work {n} rows.",
            "knit {n} rows.",
            "knit every row for {n} rows.",
            "{n} rows in all.",
            "that is {n} rows of garter stitch in all.",
        ),
        (
            _note(
                "scarf",
                "      - section: First edge\n      - cast on: width\n      - work: k all\n        rounds: 4\n",
                "4",
                "5 3 6 8",
            ),
            _note("deck-cloth", CLOTH_EDGE, "5", "4 6 7"),
        ),
    ),
    Speech(
        "ridges",
        (
            "{n} garter ridges.",
            "that makes {n} ridges.",
            "you see {n} ridges on each side.",
            "work until there are {n} garter ridges.",
            "these rows give {n} ridges.",
        ),
        (
            _note(
                "blanket",
                "      - section: Lower border\n      - cast on: blanket\n      - work: k all\n        rounds: border_rows\n",
                "6",
                "12 5 7 8",
            ),
            _note(
                "scarf",
                "      - section: First edge\n      - cast on: width\n      - work: k all\n        rounds: 4\n",
                "2",
                "4 3 5",
            ),
        ),
    ),
    Speech(
        "rows of a part",
        (
            "the rib is {n} rows deep.",
            "the rib has {n} rows.",
            "each rib is {n} rows high.",
            "the rib takes {n} rows.",
        ),
        (
            Place(
                "pullover",
                "all else with the larger needles in Navy.",
                "all else with the larger needles in Navy. §",
                *_n("12", "10 14 11 60"),
            ),
            Place(
                "pilot-jacket", "The rib is 14 rows deep on all pieces.", "§", *_n("14", "12 16 13")
            ),
        ),
    ),
    Speech(
        "times",
        (
            "work these rows {n} times.",
            "work these 12 rows {n} times in all.",
            "repeat these rows {n} times in all.",
            "these rows are worked {n} times.",
        ),
        (
            Place(
                "deck-cloth",
                "      - say: Work these rows five times in all, keeping 3 stitches in garter stitch at each side.\n",
                '      - say: "§"\n',
                *_n("5", "4 6 3 7"),
            ),
        ),
    ),
    Speech(
        "shaping times",
        (
            "the decreases are worked {n} times.",
            "work the decrease row {n} times in all.",
            "the decrease row is repeated {n} times in all.",
        ),
        (_note("toy", FLIPPER, "4", "3 5 6"),),
    ),
    Speech(
        "every nth row",
        (
            "decrease at both ends of every {n} row.",
            "decrease in every {n} row.",
            "the decreases come in every {n} row.",
        ),
        (_note("toy", FLIPPER, "2nd second other", "4th third 6th"),),
    ),
    Speech(
        "multiple",
        (
            "the count is a multiple of {n}.",
            "cast on a multiple of {n} stitches.",
            "the pattern is worked over a multiple of {n} stitches.",
        ),
        (
            _say("scarf", "      - section: Lace\n", "10 5", "12 8"),
            _say("hat", "      - section: Crown\n", "8 4", "10 7"),
        ),
    ),
    Speech(
        "times across",
        (
            "the chart is worked {n} times across.",
            "work the repeat of the chart {n} times across each row.",
            "the ten stitches are worked {n} times side by side.",
        ),
        (_say("scarf", "      - chart: spray\n", "5", "4 6 10"),),
    ),
    Speech(
        "times of the chart",
        (
            "the chart is worked {n} times.",
            "work the 4 rows of the chart {n} times in all.",
            "work the chart {n} times, then the second edge.",
        ),
        (_say("scarf", "      - chart: spray\n", "40", "39 41 44"),),
    ),
    Speech(
        "rows of the chart",
        (
            "the chart has {n} rows.",
            "work the {n} rows of the chart over and over.",
            "a chart of {n} rows follows: this chart has {n} rows.",
            "rows 1 to {n} of the chart make a repeat.",
        ),
        (_say("scarf", "      - chart: spray\n", "4", "6 5 8"),),
    ),
    Speech(
        "row of the chart",
        (
            "the chart closes in row {n}.",
            "in row {n} of the chart the two lines meet.",
            "row {n} of the chart is the last one with yarn overs.",
            "end with row {n} of the chart.",
        ),
        (_say("scarf", "      - chart: spray\n", "3 1", "5 7 9"),),
    ),
    Speech(
        "stitches of the chart",
        (
            "the chart has {n} stitches.",
            "the chart is {n} stitches wide.",
            "the chart repeats over {n} stitches.",
            "the repeat is {n} stitches.",
        ),
        (_say("scarf", "      - chart: spray\n", "10", "9 12 11"),),
    ),
    Speech(
        "sides of the chart",
        (
            "row 3 of the chart is a {n}-side row.",
            "odd rows of the chart are {n}-side rows.",
            "row 1 is a {n}-side row of the chart.",
        ),
        (_say("scarf", "      - chart: spray\n", "right", "wrong"),),
    ),
    Speech(
        "side begun",
        (
            "begin with a {n}-side row.",
            "start with a {n}-side row.",
            "the next row is a {n}-side row.",
            "with the {n} side facing, go on.",
            "the first row is on the {n} side.",
        ),
        (
            _say(
                "vest",
                '      - work: ["bind off {underarm}, k to end", "bind off {underarm}, p to end"]\n',
                "right",
                "wrong",
            ),
            _say("scarf", "      - chart: spray\n", "right", "wrong"),
        ),
    ),
    Speech(
        "side ended",
        (
            "work as set, ending with a {n}-side row.",
            "work as set, ending after a {n}-side row.",
            "end with a {n}-side row.",
        ),
        (
            _note(
                "scarf",
                "      - section: First edge\n      - cast on: width\n      - work: k all\n        rounds: 4\n",
                "wrong",
                "right",
            ),
        ),
    ),
    Speech(
        "needles",
        (
            "change to the {n} needles.",
            "change to the {n} needles for what follows.",
            "switch to the {n} needles.",
            "now change back to the {n} needles.",
        ),
        (
            Place(
                "pullover",
                "      - section: Arm\n      - say: Change to the larger needles.\n",
                '      - section: Arm\n      - say: "§"\n',
                *_n("larger", "smaller"),
            ),
            Place(
                "capstan-warmers",
                "      - say: Change to the 3.5 mm needles.\n",
                '      - say: "§"\n',
                ("3.5 mm", "smaller"),
                ("4 mm", "larger"),
            ),
        ),
    ),
    Speech(
        "way",
        (
            "it is worked from the {n}.",
            "the leg warmers are knitted from the {n}.",
            "they are worked in the round from the {n}.",
            "worked from the {n}, both are alike.",
        ),
        (
            Place(
                "capstan-warmers",
                "Both leg warmers are worked alike, from the ankle to the knee.",
                "§",
                ("ankle to the knee", "ankle up"),
                ("knee to the ankle", "knee down"),
            ),
        ),
    ),
    Speech(
        "fabric",
        (
            "work in {n}.",
            "continue in {n}.",
            "now work on in {n}.",
            "from here on work in {n}.",
            "work even in {n} until all rows are done.",
        ),
        (
            Place(
                "purser-vest",
                "Change to the larger needles and continue in stocking stitch.",
                "Change to the larger needles. §",
                ("stocking stitch",),
                ("garter stitch", "k2, p2 rib", "moss stitch"),
            ),
            Place(
                "scarf",
                "      - section: Second edge\n",
                '      - section: Second edge\n      - say: "§"\n',
                ("garter stitch",),
                ("stocking stitch", "rib", "k1, p1 rib"),
            ),
            Place(
                "mitts",
                "      - say: Join to work in the round without twisting, and mark the start of the round.\n",
                '      - say: "Join to work in the round without twisting, and mark the start of the round. §"\n',
                ("k2, p2 rib", "rib", "ribbing"),
                ("stockinette", "garter stitch", "k1, p1 rib"),
            ),
        ),
    ),
    Speech(
        "shaping stitch",
        (
            "decrease with {n} at the edge.",
            "the decreases are worked as {n}.",
            "shape the edge by {n}.",
            "decreasing with {n}, shape the neck.",
        ),
        (
            Place(
                "purser-vest",
                "Join the yarn at the neck and work the right half as the left one, decreasing with ssk.",
                "Join the yarn at the neck. §",
                ("ssk",),
                ("k2tog",),
            ),
        ),
    ),
    Speech(
        "hand of a front",
        (
            "begin at the neck of the {n} front.",
            "pick up along the {n} front.",
            "start at the upper corner of the {n} front.",
            "join the yarn at the neck edge of the {n} front.",
        ),
        (
            Place(
                "pilot-jacket", "begin at the neck of the left front.", "§", ("left",), ("right",)
            ),
        ),
    ),
    Speech(
        "balls",
        (
            "the whole takes {n} balls.",
            "buy {n} balls of String.",
            "the cloth takes {n} balls in all.",
        ),
        (
            Place(
                "deck-cloth",
                "as you will wash the cloth.",
                "as you will wash the cloth. §",
                ("2",),
                ("3", "4"),
            ),
        ),
    ),
    Speech(
        "sizes",
        (
            "the pattern comes in {n} sizes.",
            "it is written for {n} sizes.",
            "made in {n} sizes.",
            "instructions are given for all {n} sizes.",
        ),
        (
            Place(
                "hat",
                "and can be folded up once.",
                "and can be folded up once. §",
                ("4",),
                ("3", "5"),
            ),
            Place(
                "purser-vest",
                "It is worn over a shirt, with a little ease.",
                "§",
                ("4",),
                ("3", "5", "6"),
            ),
        ),
    ),
    Speech(
        "markers",
        (
            "place {n} markers.",
            "there are {n} markers on the needles.",
            "slip the {n} markers as you come to them.",
        ),
        (Place("bunk-blanket", "Slip the markers as you come to them.", "§", ("2",), ("3", "4")),),
    ),
    Speech(
        "fibre",
        (
            "{n} shrinks in a hot wash.",
            "{n} yarn dries slowly: dry it flat.",
            "the {n} yarn is washed before it is worn.",
            "{n} keeps its shape.",
        ),
        (
            Place(
                "deck-cloth",
                "as you will wash the cloth.",
                "as you will wash the cloth. §",
                ("cotton",),
                ("wool", "linen", "silk"),
            ),
        ),
    ),
    Speech(
        "seam",
        (
            "sew the {n} seam.",
            "close the {n} seam.",
            "then sew the {n} seam and weave in the ends.",
        ),
        (Place("galley-slippers", "Sew the heel seam.", "§", ("heel", "back"), ("toe",)),),
    ),
)


# ---------------------------------------------------------------- sound, and odd at first sight

_TOY_SAY = "      - say: Fill the nose and the belly firmly.\n"
_HAT_BODY = "      - section: Body\n      - work: k all\n        rounds: plain\n"
_SCARF_LACE = "      - chart: spray\n"
_VEST_ARMHOLE = (
    '      - work: ["bind off {underarm}, k to end", "bind off {underarm}, p to end"]\n'
    "        note: The armholes begin here.\n"
)
_ARM = "      - section: Arm\n      - say: Change to the larger needles.\n"
_CLOTH_SAY = (
    "      - say: Work these rows five times in all, keeping 3 stitches in garter stitch at each "
    "side.\n"
)
_FLIPPER_SAY = "      - cast on: flipper\n"

ODD_BUT_SOUND: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    (
        "toy",
        _TOY_SAY,
        (
            "Divide the stitches over three needles, 16 on each.",
            "Fill it before you go on: 48 stitches are easier to fill through than 16.",
            "Count the stitches. If there are 47 or 49, look at the last increase round.",
            "The next round takes away a third of the 48 stitches.",
            "You decrease to 32 stitches in the next round.",
            "Leave 2 stitches unworked if you like a hole for the tail.",
            "After two more increase rounds you would have 72 stitches; this is enough.",
            "There are 42 rounds of belly now.",
            "Two rounds less make a shorter seal.",
            "With 48 stitches on the needles, work 42 rounds.",
            "The belly is done. From here on the stitches become fewer.",
            "Place 12 stitches on each of four needles.",
            "Try it on a bottle: the 14 cm (5½ in) of the belly should just cover it.",
            "Six rounds of the tail can be worked in Coal.",
            "Work one round more if your rounds are low.",
            "This is the widest part; the next one has 32 stitches.",
        ),
    ),
    (
        "toy",
        _FLIPPER_SAY,
        (
            "Cast on 12 stitches for each flipper, 24 in all.",
            "Make two of these.",
            "Leave a tail of 20 cm (8 in) for sewing.",
            "Flippers are flat pieces of 12 stitches and 20 rows.",
            "Work each flipper in Fog, or the two in two colors.",
            "The first 12 rows are plain, then the flipper narrows to 4 stitches.",
            "Decrease in every other row, four times in all.",
            "Each decrease row takes 2 stitches away.",
            "One ball is enough for 10 flippers.",
        ),
    ),
    (
        "hat",
        _HAT_BODY,
        (
            "Work even to the waves.",
            "Knit 10 (11, 12, 13) rounds, or more for a deeper hat.",
            "The body begins here, and the rib is 11 (11, 13, 14) rounds deep.",
            "Change to the 4.5 mm circular needle.",
            "Slip the marker in every round.",
            "In size M there are 104 stitches on the needle.",
            "For the smallest size you have 96 stitches.",
            "The chart goes around 24 (26, 28, 30) times.",
            "Between the ribs and the waves lie about 4 cm (1½ in) of plain knitting.",
            "Knit the first round plain, without any increase.",
            "The 4 stitches of the waves fit the stitch count of every size.",
            "If your head is small, leave out 2 rounds.",
            "The six rounds of the waves come next but one.",
            "Cut Foam after the last round of the chart.",
        ),
    ),
    (
        "scarf",
        _SCARF_LACE,
        (
            "Each row has 5 repeats of 10 stitches.",
            "Two yarn overs and two decreases keep the count at 50 stitches.",
            "The four rows are worked 40 times, 160 rows in all.",
            "A marker after every 10 stitches helps.",
            "Rows 2 and 4 are wrong-side rows.",
            "The scarf can be lengthened by 4 rows for each further repeat.",
            "Purl all wrong-side rows as the chart shows, on the wrong side.",
            "With the right side facing, read row 1 from right to left.",
            "Keep the first and last stitch of each row firm.",
            "After 20 repeats you are halfway.",
            "After 80 rows of lace half the scarf is done.",
            "One repeat takes 4 rows and 10 stitches.",
            "Work 8 repeats a day and it is done in 5 days.",
            "If a row ends with 49 stitches, a yarn over is missing.",
            "Every row of four is done when both lines have met.",
            "Begin with a right-side row, and end 160 rows later with a wrong-side one.",
            "The lace is 50 stitches wide.",
        ),
    ),
    (
        "vest",
        _VEST_ARMHOLE,
        (
            "Bind off in knit on the right side and in purl on the wrong side.",
            "The left armhole is the second one that is bound off.",
            "Each side loses 5 (6, 7) stitches.",
            "Bind off 5 (6, 7) stitches at the beginning of the next 2 rows.",
            "76 (80, 86) stitches remain.",
            "You have worked 86 rows.",
            "Mark both ends of this row, 36 cm (14¼ in) above the edge.",
            "A woman with narrow shoulders may bind off a stitch more on each side.",
            "The next row is a right-side row.",
            "Ending with a wrong-side row, work 46 (50, 54) rows after these two.",
        ),
    ),
    (
        "pullover",
        _ARM,
        (
            "Increase at both ends of the first row, 13 (14, 15, 16) times in all.",
            "The increases lean to both sides of two edge stitches.",
            "In size 4 years you have 60 stitches at the top.",
            "Keep 2 stitches plain at each edge.",
            "Work in stocking stitch from here on, and in Navy.",
            "Try the sleeve on: the arm of a child of six is about 30 cm (12 in) long.",
            "Both sleeves are worked alike; make the second one 2 rows longer if the other arm is.",
            "Ribs stay on the smaller needles; this is the last change.",
        ),
    ),
    (
        "deck-cloth",
        _CLOTH_SAY,
        (
            "The twelve rows make one repeat in height.",
            "After these rows there are 60 rows of basket weave.",
            "Blocks of three stitches stand over gaps of three.",
            "The cloth keeps its 45 stitches throughout.",
            "Row 6 is knitted all through, and so is row 12.",
            "Work 12 rows, then the same 12 rows again, until there are five blocks.",
            "Rows 1 to 6 make the first tier of blocks, rows 7 to 12 the second.",
            "A larger cloth takes 6 stitches more for each block.",
            "Keep the first and last 3 stitches of every row in garter stitch.",
            "Two blocks and the ground between them are 9 stitches wide.",
            "Begin with a wrong-side row.",
        ),
    ),
    (
        "pilot-jacket",
        "      - say: Leave the back neck stitches on a holder.\n",
        (
            "26 (28, 30) stitches are left for the back neck.",
            "The right shoulder is bound off first, then the left shoulder.",
            "Both shoulders are done, and the neck waits.",
            "Hold 26 (28, 30) stitches for the neckband.",
            "The stitches of the back neck are picked up again for the neckband.",
        ),
    ),
    (
        "purser-vest",
        "      - say: The left half first.\n",
        (
            "The right half waits; work the left half.",
            "Decrease 1 stitch at the neck edge of every right-side row.",
            "Turn, and leave the right half where it is.",
            "The left half ends in 46 rows.",
        ),
    ),
    (
        "capstan-warmers",
        "      - say: Change to the 4 mm needles.\n",
        (
            "Work the leg in stockinette.",
            "Increase at both sides of the start of the round.",
            "The leg grows towards the calf.",
            "Every increase round adds 2 stitches.",
            "Two stitches lie between the two increases.",
        ),
    ),
)
