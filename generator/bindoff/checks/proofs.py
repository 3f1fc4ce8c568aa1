"""What reading, planning and composing a pattern prove on the way; always on, never silenced.

A stage that can't go on says so under one of these ids. They are listed beside the checks so that
the list is the whole truth; a test holds that every id of the program is declared.
"""

from collections.abc import Mapping

from bindoff.records import Record


class Proof(Record):
    """An id that a stage raises: what holds when it does not, and why that matters.

    Raises ``ValueError`` when a text is missing.
    """

    id: str
    stage: str
    holds: str
    why: str

    def __post_init__(self) -> None:
        if not all((self.id, self.stage, self.holds, self.why)):
            raise ValueError(f"the proof {self.id!r} is not described")


def _family(stage: str, why: str, holds: Mapping[str, str]) -> tuple[Proof, ...]:
    """Proofs of one stage that matter for one reason."""
    return tuple(Proof(id, stage, each, why) for id, each in holds.items())


def _each(stage: str, holds: Mapping[str, tuple[str, str]]) -> tuple[Proof, ...]:
    """Proofs of one stage that each matter for a reason of its own."""
    return tuple(Proof(id, stage, *texts) for id, texts in holds.items())


FILES = _family(
    "Files",
    "a pattern that reads other files than the designer means, or half of one, prints nonsense",
    {
        "file.missing": "every file that is named is there",
        "file.unreadable": "every file can be read",
        "file.too-large": "no file is too large to be a pattern",
        "file.encoding": "every text is in UTF-8, so that no sign is lost",
        "file.binary": "a file of text holds text",
        "file.kind": "a word processor's file or a web page is no text",
        "file.name": "no name leads out of the pattern's folder",
        "file.exists": "no file that is there is written over unasked",
        "file.unwritable": "a file that is to be written can be written",
    },
)

SYNTAX = _family(
    "Source: YAML",
    "a value that is read as another one reaches the knitter as a wrong figure; a slip is shown "
    "where it stands, in plain words",
    {
        "yaml.syntax": "the file is YAML",
        "yaml.empty": "the file says something",
        "yaml.top-level": "its top level names things",
        "yaml.character": "no invisible character stands in it",
        "yaml.tab": "no tab stands where spaces must",
        "yaml.no-break-space": "no space that looks like one but is none indents a line",
        "yaml.indentation": "indentation tells what belongs to what",
        "yaml.missing-colon": "every name has its colon and a space",
        "yaml.second-colon": "a text with a colon is in quotes",
        "yaml.no-name": "every value has a name",
        "yaml.no-value": "every name in braces has a value",
        "yaml.twice": "no name is given twice, so that none is lost",
        "yaml.list-place": "a list stands where a list can stand",
        "yaml.dash": "every dash that starts a list is followed by a space",
        "yaml.open-quote": "quotation marks are closed",
        "yaml.after-quote": "nothing follows a closed quotation mark",
        "yaml.needs-quotes": "a text that begins with a sign is in quotes",
        "yaml.backslash": "a backslash in quotes means something",
        "yaml.block-text": "a text of several lines is begun rightly",
        "yaml.open-bracket": "brackets and braces are closed",
        "yaml.missing-comma": "entries in brackets are parted by commas",
        "yaml.comment": "no part of a text is lost as a comment",
        "yaml.second-document": "the file holds one pattern",
        "yaml.directive": "no line gives orders to the reader of the file",
        "yaml.merge": "no value is merged unseen into another",
        "yaml.loop": "no value stands inside itself",
        "yaml.limit": "the file keeps within bounds that any pattern has",
    },
)

SHAPE = _family(
    "Source: what may be said",
    "a key that nobody reads, or a missing one, silently leaves something out of the pattern",
    {
        "source.missing": "everything that must be given is given",
        "source.nothing": "what is given has something in it",
        "source.unknown-key": "every key is one that is read",
        "source.choice": "where there is a choice, one of the choices is made",
        "source.format": "colours and dates are written as they must be",
        "source.value": "every value is of the right kind and within its bounds",
        "source.step": "every step says what to do",
        "source.two-steps": "every step does one thing",
        "source.long": "the source says no more than a pattern can",
        "source.more": "all that is wrong can be listed",
        "source.photo": "a photograph is a picture that can be printed",
        "step.rounds-and-times": "a step says once how long it is worked",
    },
)

NAMES = _family(
    "Source: names that meet",
    "a name that leads nowhere leaves the knitter without a yarn, a chart or a figure",
    {
        "source.unknown-yarn": "every yarn that is named is listed",
        "source.unknown-chart": "every chart that is named is there",
        "source.unknown-gauge": "every gauge that is named is there",
        "source.unknown-piece": "every piece that another hangs from is there",
        "source.unknown-size": "every size that is named is there",
        "source.picture-and-motifs": "a tube has a picture or motifs, and not both",
        "source.no-picture": "a step that follows the colour plan has a picture to follow",
        "source.machine-needles": "a piece made on a machine knows its number of needles",
        "source.no-stripes": "what is embroidered is knitted first",
        "source.mirror": "a piece mirrors another that has steps and is made before it",
        "source.legend-key": "every key of a legend is one character",
        "source.legend-meaning": "every character of a legend means something",
        "source.grid-character": "every character of a grid is in its legend",
        "source.size-measurement": "every size has the measurements that the others have",
        "source.measure-name": "every measure has a name that formulas can use",
        "row.stitch-name": "a stitch of the designer's own has a name that rows can use",
        "row.stitch-taken": "no stitch of the designer's own hides a known one",
        "row.stitch-partner": "a partner of a designer's stitch is a stitch of the same count",
        "row.stitch-symbol": "the symbol of a designer's stitch is drawn, as wide as the stitch",
        "pattern.row": "the rows of a stitch pattern can be repeated, and follow each other",
        "pattern.multiple": "the multiple that is said of a stitch pattern is that of its rows",
        "row.stitch-empty": "a stitch of the designer's own uses or makes a stitch",
    },
)

GRIDS = _family(
    "Source: grids",
    "a chart whose rounds differ in width, or that holds what nobody sees, can't be counted",
    {
        "grid.empty": "a grid has stitches",
        "grid.too-large": "a grid is no larger than a chart can be",
        "grid.sheet": "a grid is not a spreadsheet with marks between its cells",
        "grid.ragged": "all rounds of a grid have the same number of stitches",
        "grid.blank-line": "no empty line stands inside a grid",
        "grid.trailing-space": "no round ends in stitches that nobody sees",
        "grid.tab": "no tab stands in a grid",
        "grid.invisible-character": "every stitch of a grid can be seen",
        "grid.combined-character": "every stitch of a grid is one character",
        "grid.marks": "the marks beside the repeat stand at the same places in every round",
        "grid.columns": "the columns that a chart says are those of its grid",
        "grid.kind": "the grid of a chart is a text file, no spreadsheet and no picture",
    },
)

PICTURES = _family(
    "Source: pictures turned into grids",
    "a grid read from a blurred or unknown picture has stitches that nobody drew",
    {
        "image.unknown": "the file is a picture of a known kind",
        "image.broken": "the picture is whole",
        "image.animated": "the picture is one picture",
        "image.too-large": "the picture is not too large to read",
        "image.transparent": "every stitch of the picture has a colour",
        "image.colours": "the picture has no more colours than yarns can be",
        "image.stitches": "the picture divides into the stitches asked for",
        "image.rounds": "the picture divides into the rounds asked for",
        "image.lines": "the lines of a chart part whole cells of one colour each",
        "image.background": "the background of the picture is one of the yarns",
        "image.yarns": "there are yarns to take the colours from",
    },
)

SHEETS = _family(
    "Source: spreadsheets turned into grids",
    "a grid of half a spreadsheet has stitches that nobody drew, and nobody sees which",
    {
        "sheet.unknown": "the file is a spreadsheet of a known kind",
        "sheet.broken": "the spreadsheet is whole",
        "sheet.too-large": "the chart is no larger than a grid can be",
        "sheet.title": "it is said which sheet of the workbook is meant",
        "sheet.empty": "something is written or coloured in the sheet",
        "sheet.way": "it is clear whether the values or the colours of the cells count",
        "sheet.cell": "every cell holds a yarn, a stitch, or one character",
        "sheet.fill": "every cell has a colour, and each colour a yarn of its own",
    },
)

FIGURES = _family(
    "Source: lengths and formulas",
    "a length without its unit, or a formula that means something else, makes every size wrong",
    {
        "length.malformed": "a length is a figure and a unit",
        "length.without-unit": "every length has its unit",
        "length.unknown-unit": "every unit is one that is known",
        "length.none": "every length that is measured is above nought",
        "length.too-large": "no length is larger than cloth can be",
        "ball.malformed": "a ball is so many grams and so many metres",
        "ball.unknown-unit": "a ball is weighed and measured in known units",
        "ball.out-of-range": "a ball has a weight and a length that can be",
        "formula.syntax": "every formula can be read",
        "formula.character": "every sign in a formula means something",
        "formula.figure": "every figure in a formula can be read",
        "formula.unclear-fraction": "no fraction can be read in two ways",
        "formula.name": "every name in a formula is spelt as names are",
        "formula.unknown-name": "every name in a formula is there",
        "formula.unknown-helper": "every helper in a formula is there",
        "formula.loop": "no measure needs itself",
        "formula.arguments": "every helper gets what it needs",
        "formula.argument-order": "values without a name come before those with one",
        "formula.argument-twice": "no value is given to a helper twice",
        "formula.kinds": "lengths are added to lengths and counts to counts",
        "formula.kind": "like is compared with like",
        "formula.length": "a count of stitches is made from a length",
        "formula.count": "every count can be made from its length",
        "formula.multiple": "every multiple is above nought",
        "formula.zero": "nothing is divided by nought",
        "formula.too-large": "no result is larger than cloth can be",
        "formula.too-long": "no formula is too long to be checked by eye",
        "formula.too-deep": "no formula has too many parts inside each other",
    },
)

ROWS = _family(
    "Source: the row language",
    "a row that can be read in two ways is knitted in the wrong one",
    {
        "row.empty": "every row says something",
        "row.character": "every sign in a row means something",
        "row.unreadable": "every row can be read: brackets are closed, repeats are ended",
        "row.comma": "commas part the stitches of a row",
        "row.unknown-stitch": "every stitch is in the book or declared",
        "row.mixed-terms": "the crochet of a row is in US terms or in UK terms",
        "row.two-readings": "a row can be read in one way",
        "row.unclear-word": "no word of a row has two meanings or leaves the stitch open",
        "row.unknown-yarn": "every yarn in a row is one of the pattern's",
        "row.yarn-place": "a yarn stands where it says what it is for",
        "row.number": "every number belongs to a stitch that takes one",
        "row.no-number": "every stitch says how often, or how far",
        "row.nought": "no stitch is worked nought times",
        "row.long": "no row is longer than can be read",
        "row.large": "no number is larger than a row can be",
        "row.name": "every computed number has a name that can be read",
        "row.how": "every way of working fits its stitch",
        "row.nested": "brackets stand no deeper than a reader can follow",
        "row.star-inside": "no repeat from * stands in another",
        "row.times": "a repeat says whether it is so often in all or more",
        "row.into-one": "what is worked into one stitch can be",
        "row.not-crochet": "places such as in each stitch follow crochet stitches",
        "row.after-turn": "nothing follows the turn of a row",
        "row.double": "a double stitch is made where the work is turned",
        "row.open-repeat": "a repeat says how far it goes, or the words after it tell",
        "row.sizes": "figures listed in a row are as many as the pattern has sizes",
        "row.in-pattern": "a row names its stitches, so that they can be counted",
        "row.unknown-pattern": "every stitch pattern and chart that is worked in is declared",
        "row.pattern-inside": "a stitch pattern is worked in outside repeats and brackets",
        "row.pattern-goal": "a row says how far it is worked in pattern",
        "row.removing": "a row says at which place a marker is removed",
        "row.manner": "no remark is lost that a row has no place for",
        "row.chain-count": "no chain may be counted as a stitch or not",
        "row.chain-space": "crochet is worked into places that can be counted",
        "row.turning-chain": "no chain stands for a stitch",
        "row.label": "a row's label stands for that row only",
    },
)

STITCHES = _each(
    "Plan: stitch by stitch",
    {
        "row.stated": (
            "every count that is written after a row is what the row leaves, in every size",
            "either the row or the count is wrong, and the knitter can't tell which",
        ),
        "row.left-over": (
            "every repeat divides the stitches it has to fill, in every size",
            "a knitter of that size has stitches left over at the end of the round, and no words",
        ),
        "row.no-room": (
            "every repeat has room at least once",
            "in the smallest size the repeat would eat the edge stitches",
        ),
        "row.too-many": (
            "no row uses more stitches than are on the needles",
            "the knitter runs out of stitches in the middle of the row",
        ),
        "row.too-few": (
            "every row says what to do with all stitches",
            "the last stitches of the row are left without words",
        ),
        "row.no-marker": (
            "every marker that is named lies ahead",
            "the knitter looks for a marker that was never placed",
        ),
        "row.no-gap": (
            "every gap that is named was left by a turn, and lies ahead",
            "the knitter looks for a gap that is not there",
        ),
        "row.past-gap": (
            "no row reaches the gap of a turn sooner than it says",
            "the row could not be turned or shaped where it is told to",
        ),
        "row.twice-double": (
            "a double stitch is made once, at the turn or by the next row",
            "every count after it would be one stitch out",
        ),
        "row.side": (
            "a row that is called a right-side row is one, and so for the wrong side",
            "shaping and patterns would be worked on the back of the fabric",
        ),
        "row.not-established": (
            "where a row is worked in pattern, a pattern has begun on all these stitches",
            "the knitter is sent to a pattern that nobody has named there",
        ),
        "row.pattern-cut": (
            "a stitch pattern begins and ends between two of its stitches",
            "half a decrease or half a cross can't be worked, and the count goes wrong",
        ),
        "row.pattern-fit": (
            "a stitch pattern begins on a number of stitches that its repeats fit",
            "its rows can't be worked as they are written",
        ),
        "row.pattern-side": (
            "the right-side rows of a stitch pattern are worked on the right side",
            "the pattern would show its back in some rows",
        ),
        "row.past-marker": (
            "no row reaches a marker sooner than it says",
            "the shaping would land on the wrong side of the marker",
        ),
        "row.across-marker": (
            "no stitch is worked over both sides of a marker",
            "a decrease across the marker moves it, and every later round with it",
        ),
        "row.endless": ("every repeat uses stitches", "a repeat that uses none never ends"),
        "row.unknown-number": (
            "every computed number in a row is there, and whole",
            "the row would be printed with a gap",
        ),
        "row.negative-number": (
            "no computed number in a row is below nought",
            "nobody can knit minus two stitches; one size's figures are too small for the row",
        ),
        "chart.width": (
            "what the first row of a chart uses divides the stitches it is worked over, in "
            "every size",
            "the last repeat of the round would be cut off",
        ),
        "chart.count": (
            "every row of a chart uses the stitches that the row before it makes",
            "the repeats would no longer lie above each other, and the last one be cut off",
        ),
        "chart.cells": (
            "a stitch over several cells of a chart has all of them",
            "nobody could tell where the stitch begins",
        ),
        "chart.bind-off": (
            "a row of a chart that binds off has a stitch after it",
            "the last stitch bound off could be lifted over nothing, and would come undone",
        ),
        "chart.side": (
            "a chart in rows begins on a right-side row",
            "the whole chart would show on the wrong side, or its rows be read the wrong way",
        ),
        "chart.across": (
            "a chart whose place hangs on markers says how often it is worked side by side",
            "nobody could tell how many stitches are the chart's",
        ),
        "chart.slipped": (
            "every line of a mosaic or slip-stitch chart can be worked in one yarn",
            "a slipped stitch would have to show a yarn that it never had",
        ),
        "chart.turn": (
            "each row of a chart begins where the one before it turns, and the last turns at its "
            "end",
            "stitches would be worked twice or left out, and nobody could say which",
        ),
        "chart.ground": (
            "what the first line of a mosaic or slip-stitch chart slips shows the yarn that is "
            "drawn",
            "a slipped stitch keeps the yarn of the row before the chart, whatever the chart shows",
        ),
        "chart.intarsia": (
            "a chart in intarsia is worked in rows",
            "in rounds every yarn would hang on the wrong side of its area when it is needed again",
        ),
        "chart.odd": (
            "a chart in rows that is repeated has an even number of them",
            "every other pass would show on the wrong side",
        ),
        "piece.none-live": (
            "there are stitches to work, gather or bind off",
            "a step without stitches works nothing: one went missing before it",
        ),
        "piece.embroider-first": (
            "a tube is knitted before it is embroidered",
            "nobody can embroider what is not there yet",
        ),
        "piece.embroider-twice": (
            "a tube is embroidered in one step",
            "the knitter would embroider the same stitches again, and buy the yarn for it twice",
        ),
        "piece.no-embroidery": (
            "what the stripes leave of a picture is embroidered",
            "the picture would stay unfinished",
        ),
        "row.not-whole": (
            "a number in a row is a whole one",
            "nobody can knit half a stitch, or a length in centimetres, in a row",
        ),
        "piece.still-live": (
            "no new stitches are begun while others are live",
            "stitches would be left on the needles and run down",
        ),
        "piece.held": (
            "as many stitches come back as were held",
            "the thumb or sleeve starts with another count than it is shaped for",
        ),
        "buttonholes.room": (
            "the buttonholes and a stitch between each two fit into the band",
            "neighboring holes would run into one",
        ),
        "buttonholes.hole": (
            "a row with a buttonhole leaves as many stitches as it finds",
            "the band would grow wider or narrower with every button",
        ),
        "buttonholes.over": (
            "a buttonhole of a yarn over is as wide as the stitches it takes",
            "the count after the row would be another than the pattern says",
        ),
        "machine.bind-off": (
            "a piece from the machine is bound off as it can be there",
            "the edge is worked with two needles, and the stitches hang on the machine",
        ),
        "piece.open-loops": (
            "loops that are taken up later were cast on so that they stay open",
            "the edge would have to be picked out stitch by stitch",
        ),
        "piece.ring": (
            "a cast-on that makes a ring begins a piece in the round",
            "rows can't be turned where there is no edge",
        ),
        "step.until": (
            "a piece is not longer yet than the length it is worked to",
            "the knitter is told to work to a length that is passed already",
        ),
        "mirror.row": (
            "every row of a mirrored piece can be read from its other end",
            "stitches would be bound off where no yarn is, or at the wrong edge",
        ),
        "mirror.chart": (
            "a chart worked in a mirrored piece is the same from both ends",
            "one front would show the picture of the other, and lean the same way",
        ),
        "pickup.edge": (
            "an edge along which stitches are picked up has a name and one length",
            "nobody could tell where the stitches are picked up, or how many",
        ),
        "pickup.piece": (
            "the piece of an edge is made before, and has as many rows",
            "the band would be picked up along rows that are not there",
        ),
        "pickup.held": (
            "stitches knitted between picked-up ones are named by what they are held for",
            "nobody could tell which held stitches come between the edges",
        ),
        "pickup.total": (
            "the stitches of all edges come to the number that is asked for",
            "the first row of a band would not fit what was picked up",
        ),
        "pickup.rows": (
            "no row of an edge has two stitches, and no two rows together are skipped",
            "the band flares, or holes stand along its edge",
        ),
        "piece.group-unknown": (
            "stitches that are taken up by name are held under it by then",
            "a sleeve or finger would begin with stitches that nobody has",
        ),
        "piece.group-taken": (
            "stitches held under a name are taken up once",
            "the second time there is nothing left to put on the needles",
        ),
        "piece.group-left": (
            "stitches held under a name are taken up by the end of the last piece",
            "a sleeve or finger that is never worked unravels",
        ),
        "piece.group-held": (
            "no stitches are held under a name for which others still wait",
            "nobody could tell which of the two a later step means",
        ),
        "piece.group-copies": (
            "a piece that is made several times has a group of held stitches for each time",
            "the second sleeve would have no stitches to begin with",
        ),
        "piece.group-unlike": (
            "the groups that one piece begins with have the same count, in every size",
            "the rows are counted for one of them, and would not fit the other",
        ),
        "step.stripes": (
            "the stripes of a step have rounds in every size, and alone say its yarns",
            "nobody could tell which yarn a round is worked in",
        ),
        "step.repeat-last": (
            "rows that are repeated at the end are there, and an end is named",
            "nobody could tell how often they are worked",
        ),
        "row.way": (
            "work that is joined in the round was flat, and the other way about",
            "the knitter can't tell whether the work is turned",
        ),
        "piece.ways": (
            "all sizes change between flat and round in one place",
            "the rows after it would be told for some sizes only",
        ),
        "together.long": (
            "shapings that run together end within their rows, in every size",
            "one size would be told to shape in a row that is not there",
        ),
        "together.work": (
            "what is shaped beside others has a fixed number of stitches",
            "nobody could tell where one shaping ends and the plain stitches begin",
        ),
        "together.plain": (
            "between shapings that run together lies one stitch throughout",
            "a pattern would be cut at another place in each row",
        ),
        "step.parts": (
            "as many parts are named as stay on the needles where a row divides",
            "the counts would be printed beside the wrong names",
        ),
        "piece.rounds": (
            "the pieces have no more rounds than can be worked",
            "a slip in a number of rounds would be printed as if it were meant",
        ),
        "piece.stitches": (
            "no more stitches are live than a needle can hold",
            "an increase that is repeated in every round would be printed as if it were meant",
        ),
        "piece.no-markers": (
            "where all markers are taken off, there are some",
            "the knitter looks for markers that were never placed, or are off already",
        ),
        "piece.markers": (
            "no more markers are on the needles than a person can keep apart",
            "a marker that is placed again in every round would be printed as if it were meant",
        ),
        "piece.patterns": (
            "no more stretches of stitch patterns are on the needles than a person can keep apart",
            "a pattern that is begun anew in every stretch would be printed as if it were meant",
        ),
        "piece.bind-off": (
            "no more stitches are bound off than are live",
            "the next row would start from a count that is not there",
        ),
        "piece.parts": (
            "no flat row works across stitches that were bound off in the middle of a row before",
            "the yarn is at one part, and the other can't be worked without a second ball",
        ),
        "piece.join": (
            "what a piece is joined to has live stitches or open loops by then",
            "there would be nothing to join to",
        ),
        "piece.join-count": (
            "two edges that are joined have the same number of stitches, in every size",
            "loops would be left over at the end of the join",
        ),
        "piece.never-joined": (
            "stitches that are left live for a join are joined",
            "they would run down",
        ),
        "piece.unfinished": (
            "every piece ends with no stitch live or held",
            "a piece that is not bound off, or a thumb that is never worked, unravels",
        ),
        "even.direction": (
            "an increase goes up and a decrease goes down, in every size",
            "one size would be told to increase to fewer stitches",
        ),
        "even.nothing": (
            "there are stitches to shape",
            "a step without stitches shapes nothing: one went missing before it",
        ),
        "even.with": (
            "evenly spread shaping is done with a stitch that changes the count by one",
            "the count after the round would be another than the one printed",
        ),
        "even.room": (
            "evenly spread shaping has room in one round",
            "two decreases would fall on the same stitch",
        ),
        "taper.change": (
            "a shaping row changes the count by the same number each time, in every size",
            "the pace of the shaping could not be said in one line",
        ),
        "taper.count": (
            "the steps of a taper come to its count, in every size",
            "the next part starts from another count than it is written for",
        ),
        "taper.direction": (
            "a row that decreases comes to fewer stitches, one that increases to more",
            "the shaping would never come to its count",
        ),
        "taper.side": (
            "shaping in rows begins on a right-side row",
            "all decreases would fall on the wrong side, where they lean the other way",
        ),
        "taper.room": (
            "a taper has rows enough for its shaping, in every size",
            "the piece would be longer than stated, or wider at its end",
        ),
        "edging.sides": (
            "an edge that goes all around has sides, and corners between them",
            "nobody could tell where its corners are worked",
        ),
        "cord.stitches": (
            "a cord is worked of few stitches",
            "over more of them the yarn behind leaves the cord open",
        ),
        "cord.side": (
            "a cord begins on the right side",
            "it would show its wrong side all around",
        ),
        "crown.wedges": (
            "the count before a crown divides into its wedges, in every size",
            "the wedges of the crown would be unequal and its top crooked",
        ),
        "crown.start": (
            "a crown begins with more stitches than it ends with",
            "there would be nothing to decrease",
        ),
        "crown.top": (
            "the stitches at the top are the same in each wedge",
            "the wedges could not all be decreased alike",
        ),
        "crown.with": (
            "a crown is decreased with a stitch that makes one of two",
            "the counts of the crown would be others than those printed",
        ),
        "crown.sizes": (
            "all sizes have the same wedges, so that one list of rounds serves them",
            "the table of the crown could not be read for any size",
        ),
    },
)

MEASURES = _family(
    "Plan: measures",
    "a figure that one size lacks, or that is no whole number, leaves that size without its row",
    {
        "gauge.beyond": "a stitch of every gauge is as large as a stitch can be",
        "amount.sizes": "every list of figures has one for each size",
        "amount.mixed": "a measure is of one kind in all sizes",
        "amount.length": "a count stands where a count is due",
        "amount.no-length": "a length stands where a length is due",
        "amount.whole": "every count is a whole number, in every size",
        "amount.large": "no count is larger than can be worked",
        "amount.small": "no count is too small, in any size",
        "measure.lacking": "every size has what its formulas ask for",
        "measure.needles": "the number of needles is given where a formula asks for it",
        "measure.taken": "no measure hides a body measurement",
        "size.unknown-body": "every standard body that is named is in the tables",
    },
)

TUBES = _family(
    "Plan: tubes, stripes and yarn",
    "the needles of a machine are fixed: what does not fit them can't be made at all",
    {
        "tube.needles": "a folded tube has a number of needles",
        "machine.needles": "no piece from a machine has more stitches than it has needles, a tube "
        "has one on each, and a panel leaves one empty",
        "machine.cast-on": "a piece is cast on in a way that its machine, or a hand, can do",
        "machine.row": "a piece from the machine asks for nothing but plain rows",
        "tube.lining-short": "a lining that is gathered reaches the top of the outside",
        "piece.no-ring": "the top that is closed is that of a ring",
        "tube.stripe-place": "a wanted stripe says how far from which edge it lies",
        "tube.stripe-outside": "a wanted stripe lies on the part of the tube that it names",
        "tube.stripes-meet": "no two wanted stripes lie in one round",
        "tube.stripe-in-picture": "no wanted stripe lies in a round of the picture",
        "tube.large": "a folded tube has no more stitches than can be planned",
        "picture.width": "a picture goes around the tube a whole number of times",
        "picture.height": "a picture is no higher than what is seen of the tube, in every size",
        "picture.mirror": "a mirrored picture has two equal halves to lie on",
        "motif.height": "a motif is no higher than the part of the tube that it lies on",
        "motif.width": "a motif is no wider than the tube",
        "motif.around": "a motif repeated around a tube fills it a whole number of times",
        "motif.stitch": "a motif begins at a stitch that the round has",
        "motif.split": "no motif lies across the start of the round",
        "motif.overlap": "no two motifs lie in one place",
        "picture.round-start": "rounds of a mirrored picture start where its front does",
        "picture.yarn": "every character of a picture is a yarn",
        "stripe.impossible": "the stripes can be planned as the colour plan asks",
        "stripe.minimum": "the shortest stripe is a round or more",
        "stripe.float-limit": "the limit of floats can be kept",
        "stripe.one-feed": "no round of two yarns is asked of a machine that feeds one",
        "stripe.fixed-round": "every round that is wanted in one yarn is one of the tube's",
        "stripe.stranded-round": "every stranded round is one of the tube's",
        "stripe.time": "the times of the colour plan are times that can be",
        "stripe.unknown-yarn": "the colour plan names yarns of the picture",
        "stripe.no-base": "some yarn is left to be the base",
        "stripe.fixed-base": "a fixed base is one of the yarns that may be",
        "strand.short": "a strand is longer than its two tails",
        "yarn.takes": "what a text takes of a yarn is a length or a weight",
        "yarn.unused": "every yarn that is listed is used, so that nobody buys it for nothing",
    },
)

DOCUMENT = _family(
    "Document",
    "what can't be set is lost to the reader; it is said here, with its place, and not left out",
    {
        "prose.name": "every figure that a text prints is there",
        "prose.braces": "what stands in double braces can be printed",
        "prose.character": "no character of a text is half a character",
        "prose.empty": "nothing in a text is without words",
        "prose.heading": "headings of a text keep their order",
        "prose.long": "no text is longer than several pages",
        "prose.link": "every link of a text leads somewhere",
        "prose.markdown": "a text uses no more of Markdown than all outputs can show",
        "prose.paragraphs": "a text of one line is one paragraph",
        "chart.empty": "a chart has stitches and they have a size",
        "chart.ragged": "all rows of a chart have the same width",
        "chart.key": "every stitch of a chart is in its key",
        "chart.drawing": "every symbol of a chart can be drawn",
        "chart.one-symbol": "no symbol of a chart stands for two things",
        "chart.span": "a symbol over several stitches has that many",
        "chart.mark": "boxes and lines lie within their chart",
        "chart.base": "the band of base colours has one for each row",
        "symbol.same": "no two yarns have the same symbol",
        "symbol.too-few": "there is a symbol for every yarn",
        "schematic.rows": "a schematic that follows from rows has rows",
        "schematic.size": "no part of a schematic is longer than the whole",
    },
)

OUTPUT = _family(
    "Outputs",
    "a page that lacks a letter or a part of a table is worse than none",
    {
        "font.glyph": "the fonts have every sign that is printed",
        "font.missing": "the fonts that pages are set in are installed",
        "pdf.layout": "every part fits its page",
        "pdf.link": "every link inside the document has its aim",
        "pdf.photo": "every photograph can be printed",
        "pdf.photo-soft": "every photograph is sharp at the size it is printed",
        "png.size": "no preview is larger than a screen can show",
        "braille.missing": "liblouis is installed where braille is asked for",
        "braille.failed": "liblouis gives back a braille line for each line of text",
        "pack.photo-small": "a cover picture for a shop is not enlarged",
        "output.name": "every output has a name that all systems take",
        "output.foreign": "no folder of someone else's is replaced",
        "output.busy": "no other build writes to the folder at the same time",
        "output.refused": "the outputs can be written",
        "output.held": "no other program holds an output open that is to be replaced",
        "output.stale": "all that lies among the outputs was made of the pattern as it is",
    },
)

COMMANDS = _family(
    "Commands",
    "a command that can't do what was asked says so, and writes nothing",
    {
        "preview.chart": "the chart that is to be shown is there",
        "preview.character": "every character that is to be shown has a colour",
        "preview.too-large": "the preview is no larger than a screen",
        "regauge.unknown": "the gauge that is to be changed is there",
        "regauge.kept": "the other gauge can be written into the pattern",
        "regauge.tool": "a tool is given with the other gauge",
        "regauge.nearest": "the pattern can be made at the other gauge as it is",
        "regauge.proportions": "the other gauge keeps the proportions of a picture",
        "build.ended": "a build that runs beside others comes to its end",
        "command.no-pattern": "the folder that is named holds a pattern",
        "command.no-size": "the size that an edition is asked for is there",
        "command.no-card": "a card is asked for where a tube is knitted by a stripe plan",
        "draft.kind": "the text of a finished pattern is plain text",
        "draft.encoding": "the text of a finished pattern has an encoding that is known",
        "draft.long": "the text of a finished pattern is no longer than a book",
        "draft.empty": "the text of a finished pattern says something",
        "draft.missing": "what a source must have is in the text of the pattern",
        "draft.kept": "what works stitches in the text of a pattern is understood",
        "draft.left-out": "every line of the text of a pattern belongs to the pattern",
        "desk.answer": "every answer of the form for a first pattern can be used",
        "desk.comments": "the file of comments beside a pattern can be read",
        "command.memory": "there is enough memory for what was asked",
        "command.fault": "the program does not fail; if it does, the pattern is not to blame",
    },
)

SILENCES = _family(
    "Silences",
    "a silence that is misspelt, stale or not allowed hides what it should not",
    {
        "silence.unknown": "every check that is silenced is there",
        "silence.proof": "nothing of this list is silenced",
        "silence.unneeded": "every check that is silenced would find something",
    },
)

PROOFS: tuple[Proof, ...] = (
    *FILES,
    *SYNTAX,
    *SHAPE,
    *NAMES,
    *GRIDS,
    *PICTURES,
    *SHEETS,
    *FIGURES,
    *ROWS,
    *MEASURES,
    *STITCHES,
    *TUBES,
    *DOCUMENT,
    *OUTPUT,
    *COMMANDS,
    *SILENCES,
)
