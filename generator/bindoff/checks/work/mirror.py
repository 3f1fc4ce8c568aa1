"""Left against right: mirrored pieces, and the two ends of a shaping row."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import At, parts_of, steps_of
from bindoff.checks.work.chartpairs import charts_exchanged
from bindoff.checks.work.edgework import shaped, unanswered
from bindoff.diagnostics import Severity
from bindoff.plan.mirrored import NotMirrored, Sizes, mirrored
from bindoff.plan.steps.taper import Tapered
from bindoff.plan.worked import PiecePlan
from bindoff.source.rowlang.stitches import Craft, Lean, Side, StitchBook
from bindoff.source.rowlang.syntax import Fill, Group, Part, Repeat, Row, Work

_SIDE = re.compile(r"\b(left|right)\b", re.IGNORECASE)


@check(
    id="piece.mirror",
    title="Left and right pieces mirror each other",
    looks_at="pieces whose names differ in left and right: the rows and stitches they end with; "
    "of flat pieces what is won and lost at each edge, which the other piece answers at its other "
    "edge in the same row or the one beside it; in the round the rows that are not the same from "
    "both ends",
    why="two left hands, or a jacket with two left fronts",
    severity=Severity.WARNING,
    remedy="Mirror the row: read it from its end, with k2tog for ssk and m1r for m1l",
)
def mirrored_pieces(context: Context) -> Iterator[Finding]:
    """One finding for each pair of pieces, at the first step that is not mirrored."""
    for left, right in _pairs(context):
        flat = all(context.pattern.pieces[each.key].worked == "flat" for each in (left, right))
        book = context.plan.book
        numbers = context.plan.measures.numbers
        sizes = [numbers(size) for size in range(len(context.source.sizes))]
        if flat:
            found = _unlike_edges(context, left, right)
        else:
            found = _unlike_rows(left, right, book, sizes)
        exchanged = tuple(charts_exchanged(context, left, right))
        yield from exchanged
        if exchanged:
            continue
        if found:
            yield found
        elif not _end_alike(left, right, slack=int(flat)):
            yield Finding(
                f"`{left.key}` and `{right.key}` do not end with the same stitches and "
                f"{'rows' if flat else 'rounds'}",
                context.pattern.pieces[right.key].place.key_span,
                "Check the number of rows of each step against the other piece",
            )


def _end_alike(left: PiecePlan, right: PiecePlan, slack: int) -> bool:
    """Whether both end with the same stitches, and rounds that differ by ``slack`` at most."""
    one, other = (
        next((step.after for step in reversed(plan.steps) if any(step.rounds)), ())
        for plan in (left, right)
    )
    return len(one) == len(other) and all(
        mine.stitches == theirs.stitches and abs(mine.rounds - theirs.rounds) <= slack
        for mine, theirs in zip(one, other, strict=True)
    )


def _unlike_rows(
    left: PiecePlan, right: PiecePlan, book: StitchBook, sizes: Sizes
) -> Finding | None:
    """The first row of two tubes that is shaped alike and not from the other end."""
    pairs = zip(_shaping(left, book), _shaping(right, book), strict=False)
    for index, (row, partner) in enumerate(pairs):
        mirror = partner == _image(row, book, sizes) or row == _image(partner, book, sizes)
        if partner != row and not mirror:
            return None
        if partner == row and not mirror:
            return Finding(
                f"`{right.key}` shapes like `{left.key}` and does not mirror it: both have the "
                f"same row as number {index + 1} of their shaping",
                partner.span,
            )
    return None


def _unlike_edges(context: Context, left: PiecePlan, right: PiecePlan) -> Finding | None:
    """The first stitches won or lost at an edge that the other piece does not answer."""
    for size in range(len(context.source.sizes)):
        one, other = shaped(context, left, size), shaped(context, right, size)
        if one is None or other is None:
            return None
        wrong = unanswered(one, other)
        if wrong is not None:
            mine, theirs = wrong
            said = [
                f"`{plan.key}` {each or 'shapes nothing at its edges'}"
                for plan, each in ((left, mine), (right, theirs))
            ]
            place = theirs.span if theirs else None
            return Finding(
                f"`{right.key}` does not mirror `{left.key}`: in size "
                f"{context.source.sizes[size]} {said[0]}, and {said[1]}",
                place or context.pattern.pieces[right.key].place.key_span,
                "A mirrored piece shapes its other edge: what one does where right-side rows "
                "begin, the other does where wrong-side rows begin, a row sooner or later; "
                "k2tog and ssk change places",
            )
    return None


def _pairs(context: Context) -> Iterator[tuple[PiecePlan, PiecePlan]]:
    """Pieces called left and right of the same thing."""
    lefts: dict[str, PiecePlan] = {}
    rights: dict[str, PiecePlan] = {}
    for plan in context.plan.pieces:
        name = f"{plan.key.replace('_', ' ')} {context.pattern.pieces[plan.key].title}".lower()
        side = _SIDE.search(name)
        if side:
            group = lefts if side[1] == "left" else rights
            group[_SIDE.sub("", name)] = plan
    yield from ((lefts[name], rights[name]) for name in lefts if name in rights)


def _shaping(plan: PiecePlan, book: StitchBook) -> list[Row]:
    """The rows of a piece that change its stitches, in order."""
    return [
        row
        for step in plan.steps
        for row in step.rows
        if any(isinstance(part, Work) and _shapes(book, part) for part in parts_of(row))
    ]


def _shapes(book: StitchBook, part: Work) -> bool:
    stitch = book[part.stitch]
    return stitch.craft is Craft.KNIT and stitch.shapes


def _image(row: Row, book: StitchBook, sizes: Sizes) -> Row | None:
    """The row read from its other end; ``None`` where it can't be."""
    try:
        return mirrored(row, book, sizes)
    except NotMirrored:
        return None


@check(
    id="shaping.lean",
    title="The two ends of a shaping row lean against each other",
    looks_at="rows of a taper with an even number of leaning decreases or increases: the first "
    "against the last, and so on inward",
    why="decreases that lean the same way on both sides make the piece slant and its two edges "
    "look different",
    severity=Severity.WARNING,
    remedy="Use ssk for k2tog, or m1r for m1l, at one of the ends; silence it for a spiral",
)
def leaning_rows(context: Context) -> Iterator[Finding]:
    """One finding for each taper."""
    for at in steps_of(context):
        if not isinstance(at.step.detail, Tapered):
            yield from _leaning_ends(context, at)
            continue
        parts = list(parts_of(at.step.detail.shaping))
        leaning = [
            part
            for part in parts
            if isinstance(part, Work)
            and _lean(context, part, Side.RIGHT) in (Lean.LEFT, Lean.RIGHT)
        ]
        if not at.flat and _in_sections(parts, leaning):
            continue
        if len(leaning) % 2 or any(part.times != 1 for part in leaning):
            continue
        half = len(leaning) // 2
        for first, last in zip(leaning[:half], leaning[: half - 1 : -1], strict=True):
            if not _apart(parts, first, last):
                continue
            if any(_lean(context, first, s) is _lean(context, last, s) for s in _sides(at)):
                yield Finding(
                    f"`{first.stitch}` and `{last.stitch}` lean the same way at both ends of the "
                    "row",
                    last.span or at.step.span,
                )
                break


def _leaning_ends(context: Context, at: At) -> Iterator[Finding]:
    """A flat row that shapes once before what fills it and once behind, both leaning one way."""
    asked = at.flat and at.step.answers.in_turn and not _in_garter(context.plan.book, at)
    for row in at.step.rows if asked else ():
        filled = [index for index, part in enumerate(row.parts) if isinstance(part, Fill)]
        leaning = [
            (index, part)
            for index, part in enumerate(row.parts)
            if isinstance(part, Work)
            and part.times == 1
            and _lean(context, part, Side.RIGHT) in (Lean.LEFT, Lean.RIGHT)
        ]
        if len(filled) != 1 or len(leaning) != len("ab") or len(row.parts) != len("abcde"):
            continue
        (first, one), (last, other) = leaning
        both = all(_lean(context, one, s) is _lean(context, other, s) for s in (Side.RIGHT,))
        if first < filled[0] < last and both and first == len(row.parts) - 1 - last:
            yield Finding(
                f"`{one.stitch}` and `{other.stitch}` lean the same way at both ends of the row",
                other.span or at.step.span,
            )
            return


def _in_garter(book: StitchBook, at: At) -> bool:
    """Whether all rows of a list are knitted but for their shaping: garter stitch hides a lean."""
    worked = [part for row in at.step.rows for part in parts_of(row) if isinstance(part, Work)]
    plain = {part.stitch for part in worked if not _shapes(book, part)}
    fills = {f.stitch for r in at.step.rows for f in parts_of(r) if isinstance(f, Fill)}
    return len(at.step.rows) > 1 and plain | fills == {"k"}


def _in_sections(parts: list[Part], leaning: list[Work]) -> bool:
    """Whether a round shapes in sections that are alike, as a crown in a spiral does."""
    groups = [part for part in parts if isinstance(part, Group) and part.times != 1]
    inside = [part for group in groups for part in group.parts]
    return len({part.stitch for part in leaning}) == 1 and any(
        each is part for each in leaning for part in inside
    )


def _apart(parts: list[Part], first: Work, last: Work) -> bool:
    """Whether there is a stretch between two stitches, so that each stands at an end of it."""
    between = parts[_index(parts, first) + 1 : _index(parts, last)]
    return any(isinstance(part, Fill | Repeat) for part in between)


def _index(parts: list[Part], wanted: Work) -> int:
    return next(index for index, part in enumerate(parts) if part is wanted)


def _lean(context: Context, part: Work, side: Side) -> Lean | None:
    return context.plan.book.worked(part.stitch, part.how).leans(side)


def _sides(at: At) -> set[Side]:
    """The sides on which the shaping rows of a taper are worked, in any size."""
    assert isinstance(at.step.detail, Tapered)
    if not at.flat:
        return {Side.RIGHT}
    return {
        Side.WRONG if (before.rounds + number) % 2 == 0 else Side.RIGHT
        for before, taper in zip(at.step.before, at.step.detail.tapers, strict=True)
        for number in taper.shaping_rounds("first")
    }


_PAIRED = re.compile(
    r"(?:the )?(?:plain )?(?:sock|mitten|mitt|glove|slipper|bootee|legwarmer|leg warmer"
    r"|wrist warmer|sleeve)",
    re.IGNORECASE,
)
_SECOND = re.compile(
    r"\b(?:second|other|another|twice|pair|two|2|both(?! \w+ are)) (?:\w+ )?"
    r"(?:socks?|mittens?|mitts?|gloves?"
    r"|slippers?|bootees?|leg ?warmers?|sleeves?|hand|foot|one|alike|the same)\b|\btwice\b",
    re.IGNORECASE,
)


@check(
    id="piece.pair",
    title="What is worn in pairs is made twice",
    looks_at="a piece called sock, mitten, mitt, glove, slipper, bootee, legwarmer or sleeve, and "
    "no more: `make: 2`, or a text that tells of the second one",
    why="the yarn is reckoned for one, and the knitter is told to make one",
    severity=Severity.WARNING,
    remedy="Write `make: 2` in the piece, or say in a text how the second one is made",
)
def made_twice(context: Context) -> Iterator[Finding]:
    """One finding for each piece."""
    told = any(True for prose in context.prose for _ in prose.found(_SECOND))
    for piece in context.pattern.pieces.values():
        if piece.make == 1 and not told and _PAIRED.fullmatch(piece.title.strip()):
            yield Finding(
                f"`{piece.title}` is made once, and it takes two of it",
                piece.place.of("make" if "make" in piece.model_fields_set else "title").span,
            )


_FRONT = re.compile(r"\b(left|right) front\b", re.IGNORECASE)
_AT_NECK = re.compile(r"\bneck\b|\bv-?neck", re.IGNORECASE)


@check(
    id="piece.centre",
    title="A front is shaped for the neck at the middle of the wearer",
    looks_at="flat pieces called left front or right front that are worked up from the hem: the "
    "edge at which the sections called neck shape them. Seen from the right side the wearer's left "
    "front has its middle at the end of right-side rows",
    why="with the neck at the side seam it is the other front, and there are two of one kind",
    severity=Severity.WARNING,
    remedy="Shape the other end of the row, with the decrease that leans the other way",
)
def neck_at_centre(context: Context) -> Iterator[Finding]:
    """One finding for each front, at the first step that shapes the wrong edge."""
    for plan in context.plan.pieces:
        piece = context.pattern.pieces[plan.key]
        side = _FRONT.search(piece.title)
        if side is None or piece.mirror_of or piece.worked != "flat":
            continue
        edges = shaped(context, plan, 0)
        heading, headings = "", 0
        for step in plan.steps if edges else ():
            heading, headings = step.heading or heading, headings + bool(step.heading)
            if headings < 2:
                continue  # worked down from its neck, it lies the other way up
            first, last = step.before[0].rounds, step.after[0].rounds
            there = {each.edge for each in edges or () if first < each.row <= last}
            if _AT_NECK.search(heading) and there and there != {"left", "right"}:
                if there != {side[1].lower()}:
                    yield Finding(
                        f"the neck of the {side[0].lower()} is shaped at its {there.pop()} edge as "
                        "seen from the right side, which is the side seam",
                        step.span,
                    )
                break


CHECKS = (neck_at_centre, mirrored_pieces, leaning_rows, made_twice)
