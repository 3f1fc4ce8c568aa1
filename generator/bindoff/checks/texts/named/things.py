"""Notions: what texts use is listed, what is listed is used, and it fits."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import any_of, sentences
from bindoff.checks.texts.named.parts import compared
from bindoff.checks.texts.named.world import World
from bindoff.checks.texts.told.numbers import NUMBER, in_figures
from bindoff.checks.walk import millimetres
from bindoff.diagnostics import Span
from bindoff.plan.values import Kind
from bindoff.source.model import TextUse

# What is bought, as texts say it, and what in a list may stand for it. Common practice, no source.
_BOUGHT: tuple[tuple[str, str], ...] = (
    (
        r"(?<!-)buttons?(?![- ]?(?:band|hole|loop|border|side|edge|line|up\b))",
        r"button|fasten|toggle",
    ),
    (r"beads?", r"bead"),
    (r"sequins?", r"sequin"),
    (r"zip(?:per|fastener)?s?", r"zip"),
    (
        r"(?:snaps?|poppers?|press[- ](?:studs?|fasteners?))(?! (?:back|into|it|the|off))",
        r"snap|popper|stud|fasten",
    ),
    (r"toggles?", r"toggle|button"),
    (r"buckles?", r"buckle|clasp|fasten"),
    (r"clasps?", r"clasp|buckle|fasten|hook"),
    (r"hooks? and eyes?", r"hook|eye|fasten"),
    (r"velcro|hook-and-loop", r"velcro|hook|fasten"),
    (r"ribbons?", r"ribbon"),
    (
        r"elastic (?:thread|cord|band)"
        r"|(?:of|the|with|in) elastic(?= (?:through|in|around|to|is|of|long)|[.,;]|$)",
        r"elastic",
    ),
    (r"(?:cushion|pillow) (?:pads?|inserts?|forms?)", r"pad|insert|form|cushion|pillow"),
    (
        r"(?:toy )?(?:stuffing|filling|fibrefill|fiberfill|wadding|batting)(?! (?:firmly|it|them"
        r"|the))"
        r"|(?:fill|stuff)(?: (?:the|each|both|it|and|nose|head|body|belly|legs?|arms?|tail)){1,6}"
        r" (?:firmly|lightly|loosely|softly|tightly)",
        r"stuff|fill|wadding|batting|fleece|wool|scrap|pad|fib|foam",
    ),
    (
        r"(?:with|the|strong|doubled|matching|sewing) (?:sewing )?thread"
        r"(?! is (?:through|in|pulled))",
        r"thread",
    ),
    (r"safety pins?", r"pin|marker|holder"),
    (r"(?:rustproof|blocking|glass-headed|steel|with|the|T)[- ]pins", r"pin"),
    (r"blocking wires?|wires(?=[^.]{0,40}\bblock)", r"wire"),
    (r"blocking (?:mats?|boards?)", r"mat|board"),
    (r"cardboard", r"card"),
    (r"bells?", r"bell"),
    (r"D-rings?|(?:wooden|metal|plastic|curtain|teething) rings?", r"ring"),
    (r"(?:leather|bamboo|wooden|bag) handles?", r"handle|leather"),
    (r"(?:leather|suede|felt|latex) soles?", r"sole|leather|suede|felt|latex"),
    (
        r"(?:lining|backing) fabric|fabric lining|(?:in|put|sew|insert) the lining"
        r"(?! (?:to|of|layer|stitches|edge|rounds?|tube|at|over|under))",
        r"lining|linen|fabric|cloth|cotton|backing",
    ),
    (r"interfacing", r"interfacing"),
    (r"embroidery (?:thread|floss|cotton|wool)", r"embroidery|thread|floss|cotton|wool"),
    (r"(?:safety|plastic|toy) eyes", r"eyes"),
    (
        r"(?:sew|fix|stitch|attach)(?: on| in)? (?:the |an? )?(?:badges?|labels?|patch(?:es)?)",
        r"badge|label|patch|leather",
    ),
    (r"spare (?:\w+ )?needle", r"needle"),
    (
        r"in (?:the |an? )?(?:zipped |old |closed )*(?:pillow ?case|laundry bag|wash bag|net bag"
        r"|mesh bag)",
        r"pillowcase|pillow case|bag",
    ),
)
_TO_FELT_IN = len(_BOUGHT)
"""The last, a bag: one to felt in is listed, one to wash in is a thing of the household."""
_NEEDED = re.compile(
    r"\b(?:stuff\w*|fill\w*|wadding|batting|pins|wires?|mats?|boards?|pads?|inserts?|forms?)\b"
    r"|(?<!elastic )(?<!embroidery )thread",
    re.IGNORECASE,
)
_HAZARD = re.compile(r"button|bead|sequin|bell|ribbon|snap|popper|toggle|buckle|eyes|ring", re.I)
_FELTED = re.compile(r"\b(?:felt(?:ed|ing|s)?|fulled|fulling)\b")
_ANY = any_of(said for said, _ in _BOUGHT)


def things_used(world: World) -> Iterator[Finding]:
    """What the texts use and no list has; one finding for each thing."""
    context = world.context
    listed = " | ".join(world.lists)
    known = {
        which
        for which, (_, names) in enumerate(_BOUGHT, 1)
        if any(word in listed for word in names.split("|"))
    }
    if not _FELTED.search(world.said):
        known.add(_TO_FELT_IN)
    told: dict[int, list[tuple[str, Span]]] = {}
    for sentence in sentences(context, TextUse.STEP, TextUse.TEXT):
        for found in sentence.said(_ANY) if not sentence.supposes else ():
            which = found.lastindex or 0
            if world.warned and _HAZARD.search(found[0]):
                continue
            if which not in known and not compared(sentence.words[: found.start()]):
                told.setdefault(which, []).append((found[0], sentence.place(found)))
    for uses in told.values():
        words, place = uses[0]
        if (len(uses) > 1 or _NEEDED.search(words)) and context.pattern.notions:
            # What several sentences use, or no finishing does without, is meant: the list lacks it.
            place = context.pattern.place.of("notions").span
            message = f"the texts use `{words}`, and no list names what it takes"
        else:
            message = f"`{words}` stands here, and no list names what it takes"
        yield Finding(message, place, "Add it under `notions:`")


_PARTED = re.compile(rf"^({NUMBER}) [^:;,()\d]+[:,(] ?({NUMBER} (?:for|of|at|on)\b.*)$")
_PART_OF_LIST = re.compile(rf"(?<![\w.])({NUMBER}) (?:for|of|at|on)\b")


def lists_add_up(world: World) -> Iterator[Finding]:
    """So many things of which the list says what each is for, and that do not add up."""
    for index, notion in enumerate(world.context.pattern.notions):
        found = _PARTED.match(in_figures(notion).strip())
        parts = [int(each) for each in _PART_OF_LIST.findall(found[2])] if found else []
        each_one = found and re.search(r"\beach\b|\bevery\b", found[2])
        if found and len(parts) > 1 and not each_one and sum(parts) != int(found[1]):
            yield Finding(
                f"`{notion}` is listed, and {' + '.join(map(str, parts))} are {sum(parts)}",
                world.context.pattern.place.of("notions").of(index).span,
                "Correct one of the numbers",
            )


_MEASURED = re.compile(
    r"(?<!\d)(\d+(?:\.\d+)?)(?: ?(?:×|x|by) ?(\d+(?:\.\d+)?))? ?(cm|in\b|mm)", re.IGNORECASE
)
_PAD = re.compile(r"\b(?:pad|insert|cushion form|pillow form)s?\b", re.IGNORECASE)
_PAD_FITS = (0.9, 1.16)


def pads_fit(world: World) -> Iterator[Finding]:
    """A cushion pad that its cover does not fit: a cover is as large, or up to a seventh smaller;
    common practice, no source."""
    context = world.context
    real = [
        mm
        for measure in context.plan.measures.finished.values()
        if measure.kind is Kind.LENGTH
        for mm in measure.rounded
        if mm
    ]
    for index, notion in enumerate(context.pattern.notions if real else ()):
        found = _MEASURED.search(notion) if _PAD.search(notion) else None
        for figure in filter(None, (found[1], found[2])) if found else ():
            mm = millimetres(float(figure), found[3]) if found else 0
            if not any(_PAD_FITS[0] <= mm / each <= _PAD_FITS[1] for each in real):
                yield Finding(
                    f"`{notion}` is listed, and no finished measurement is near {figure}",
                    context.pattern.place.of("notions").of(index).span,
                    "List a pad as large as the cover, or a little larger",
                )
                break
