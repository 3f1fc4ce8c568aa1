"""What sentences do that can hurt a child: for whom a thing is said to be, threads and parts that
come off, dangerous uses, and who turns the machine."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.hazardtable import Hazard, Place, hazards
from bindoff.checks.hazardwords import own_words
from bindoff.checks.leftin import left_in, tight_edges
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.diagnostics import Severity
from bindoff.english import an, listed
from bindoff.source.model import TextUse

_WHO = r"(?:an?|the|your|our|any|new|newborn|small|tiny|little|sleeping|first|every|each|both)"
_CLOTHES = (
    r"blankets?|bonnets?|hats?|caps?|booties?|bootees?|cardigans?|jackets?|sweaters?|jumpers?"
    r"|pullovers?"
    r"|mittens|mitts|socks|vests?|shawls?|wraps?|clothes|gifts?|presents?|showers?|toys?|rattles?"
    r"|layettes?"
    r"|cocoons?|sizes?"
)
_FOR_INFANT = re.compile(
    r"\b(?:prams?|perambulators?|cots?|cribs?|bassinets?|moses baskets?|strollers?|pushchairs?"
    r"|buggy|buggies|carrycots?|nursery|layettes?)\b(?! (?:cove|rock|street|lane|stitch))"
    rf"|\b(?:for|on|over|under|around) (?:{_WHO} )*(?:bab(?:y|ies)|newborns?"
    rf"|infants?)\b(?!['’ ]s? ?(?:alpaca|camel|yarn|wool|cable|rib))"
    rf"|\b(?:bab(?:y|ies)['’]?s?|newborns?['’]?s?|infants?['’]?s?) (?:{_CLOTHES})\b"
    r"|\b(?:in|for|over) (?:the|a|its|your) cradle\b(?! of)|\bunder (?:one|a|1) year\b|\b(?:first"
    r"|earliest) (?:weeks|months) of life\b"
    r"|\b(?:bab(?:y|ies)|newborns?|infants?) (?:is|are|can|will|likes?|loves?|wears?|lies|kicks)\b",
    re.IGNORECASE,
)
_FOR_CHILD = re.compile(
    rf"\bfor (?:{_WHO} |smaller |school |young )*(?:child(?:ren)?|toddlers?|kids?|boys?|girls?"
    rf"|schoolchild(?:ren)?|grandchild(?:ren)?)\b"
    rf"|\b(?:child(?:ren)?['’]s|toddlers?['’]?s?|kids['’]?|boys['’]|girls['’]) (?:{_CLOTHES})\b"
    r"|\bfor (?:very )?small (?:hands|heads|feet)\b"
    r"|\b(?:child(?:ren)?|toddlers?|kids?|little ones?|boys|girls) (?:will |also |all )?(?:loves?"
    r"|likes?|enjoys?) (?:to )?(?:wear\w*|carry\w*|play\w* with|cuddl\w*|swing\w*|hang\w*|chew\w*"
    r"|suck\w*|it\b|them\b)",
    re.IGNORECASE,
)
_NOT_FOR = re.compile(
    r"\b(?:unless|if|whether|older than|too (?:small|big|large|wide)|away from|reach of"
    r"|for a start|as soft as|like a|as if|once|remember|instead|would|could|grandm\w+|nap\w*"
    r"|beside)\b",
    re.IGNORECASE,
)


@check(
    id="wearer.words",
    title="The texts are about the wearer who is declared",
    looks_at="babies, prams and cots, and children, in the title, the summary, the notes and the "
    "finishing, against `wearer:`",
    why="the cautions follow from the wearer: a pram blanket for adults has none of those for "
    "babies",
    severity=Severity.WARNING,
    remedy="Add the wearer to `wearer:`, or correct the text",
    needs=Needs.SOURCE,
)
def wearer_said(context: Context) -> Iterator[Finding]:
    """One finding for each wearer who is not declared, at the first words."""
    wearers = set(context.pattern.wearer)
    for who, words, covered in (
        ("infant", _FOR_INFANT, {"infant"}),
        ("child", _FOR_CHILD, {"infant", "child"}),
    ):
        if wearers & covered or not wearers:
            continue
        for sentence in sentences(context, TextUse.TITLE, TextUse.HEAD, TextUse.TEXT):
            found = next(sentence.said(words), None)
            rest = found and sentence.words.replace(found[0], " ")
            if found and rest is not None and not _NOT_FOR.search(rest):
                declared = listed([an(each) for each in sorted(wearers)])
                yield Finding(
                    f"`{found[0].strip()}` is about {an(who)}, and the pattern is for {declared}",
                    sentence.place(found),
                    f"Add {who} to `wearer:`, which prints the cautions for it, or correct the "
                    f"text",
                    beside=(context.pattern.place.of("wearer").span,),
                )
                break


_STRANDS = (
    r"whiskers?|threads?|hairs?|manes?|strands?|antennae|feelers?|tentacles?|eyelashes|lashes"
    r"|beards?"
    r"|forelock|yarn ends|loops of yarn|tail of (?:yarn|threads|strands)"
)
_LOOSE = (
    r"(?:hang(?:s|ing)?|dangl(?:e|es|ing)|flutter(?:s|ing)?|stick(?:s|ing)? out|float(?:s|ing)?)"
    r"(?: (?:down|free(?:ly)?|loose(?:ly)?|out))?|(?:long and )?loose(?:ly)?(?! (?:stitch|knot"
    r"|twist))|unsewn|unsecured"
    r"|(?<!cut )(?:\d+(?:\.\d+)?|two|three|four|five|six|eight|ten) ?(?:cm|in|inches)"
)
_THREADS = re.compile(
    rf"\b(?:{_STRANDS})\b[^.;:]{{0,90}}?\b(?:{_LOOSE})(?:\b|$)"
    rf"|\bleave[sd]?\b[^.;:]{{0,40}}\b(?:{_STRANDS})\b[^.;:]{{0,40}}\b(?:long|loose|hanging|free)\b"
    r"|\bleft (?:hanging|dangling|loose|long)\b",
    re.IGNORECASE,
)
_TO_WORK = re.compile(
    r"\b(?:sew(?:ing|n)?(?! down)|seams?|graft\w*|weave|woven|darn\w*|tails? to|trim\w*|cut off"
    r"|drop\w*|carried"
    r"|wrong side|behind|inside|needles?|markers?|tension|floats?|knot\w*|couch\w*|flat"
    r"|fast(?:en\w*)?|secure\w*|catch)\b",
    re.IGNORECASE,
)
_CUT = re.compile(
    r"^\W*(?:then )?(?:cut|thread|trim|carry|strand|catch|weave|darn)\b", re.IGNORECASE
)
_TOY = re.compile(
    r"\b(?:toys?|dolls?|stuff(?:ed|ing)?|softies?|puppets?|rattles?|plush|teddy|seal|gull|whale"
    r"|bear|rabbit|cat"
    r"|mouse|fish|animals?|creatures?)\b",
    re.IGNORECASE,
)


@check(
    id="wearer.threads",
    title="No long thread hangs from a child's toy",
    looks_at="whiskers, hair, manes and other strands of toys for a child or an infant that are "
    "left long, loose or hanging",
    why="a thread that can be pulled out is swallowed, or closes around a finger",
    severity=Severity.WARNING,
    remedy="Sew them down flat along their length, or embroider them",
    needs=Needs.SOURCE,
)
def threads_sewn(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    for sentence in _of_toys(context):
        for found in sentence.said(_THREADS):
            if (
                not _hedged(sentence)
                and not _TO_WORK.search(found[0])
                and not _CUT.search(sentence.words)
            ):
                yield Finding(
                    f"`{found[0]}` leaves threads that a child pulls out", sentence.place(found)
                )
                break


_LET_GO = re.compile(
    r"\b(?:if|when|where|should)\b[^.;:]{0,40}?\b(?:moves?|gives?|wobbles?"
    r"|comes? (?:off|loose|away)|(?:is|are|gets?|works?) loose|loosens?)\b"
    r"[^.;:]{0,20}?[, ]+(?:just |you can |simply )?"
    r"(?:leave (?:it|them)|ignore|let it|never mind|that is (?:fine|no)|it does not matter)\b",
    re.IGNORECASE,
)


@check(
    id="wearer.parts",
    title="What is sewn to a child's toy stays on",
    looks_at="parts of toys for a child or an infant that are sewn on loosely, with a stitch or "
    "two, glued, or made to be taken off",
    why="what comes off goes into the mouth",
    severity=Severity.WARNING,
    remedy="Sew each part on twice around with doubled yarn, and pull at it",
    needs=Needs.SOURCE,
)
def parts_stay_on(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    own = own_words(context)
    for sentence in _of_toys(context):
        let_go = next((found.span() for found in sentence.said(_LET_GO)), None)
        told = hazards(sentence.words, own)
        weak = (span for row, span in told if row.kind == "parts")
        begin, end = let_go or next(weak, None) or (0, 0)
        if end:
            yield Finding(
                f"`{sentence.words[begin:end]}` lets a part come off a child's toy",
                sentence.part(begin, end),
            )


@check(
    id="wearer.uses",
    title="What a child wears or plays with is not put to a dangerous use",
    looks_at="sentences that have a piece for a child or an infant cover the face, take force over "
    "the head, bite into a limb, catch at play, go under the harness of a car seat or near fire, "
    "lay bare metal or loose dye where it is worn or sucked, that leave pins and markers in, or "
    "long or loose threads inside it; and for an infant, beds, naps and shed hair",
    why="what covers a face takes the breath, what catches strangles, and a thread closes around a "
    "finger; the cautions that are printed forbid it",
    severity=Severity.WARNING,
    remedy="Leave it off, or say how the child is kept safe; silence this where the words mean "
    "something harmless",
    needs=Needs.SOURCE,
)
def harmless_uses(context: Context) -> Iterator[Finding]:
    """One finding for each use in a sentence."""
    wearers = set(context.pattern.wearer)
    if not {"child", "infant"} & wearers:
        return
    own, of_toy = own_words(context), _is_toy(context)
    for sentence in sentences(context):
        told = hazards(sentence.words, own)
        asleep = any(row.kind == "sleep" for row, _ in told)  # told as an error
        uses: dict[str, tuple[Hazard, Place]] = {}
        for row, span in told:
            young = row.whom != "infant" or ("infant" in wearers and not asleep)
            elsewhere = of_toy and (row.whom == "worn" or row.kind == "parts")
            if row.kind in ("use", "parts") and young and not elsewhere:
                uses.setdefault(row.name, (row, span))
        for row, (begin, end) in uses.values():
            yield Finding(f"`{sentence.words[begin:end]}`: {row.harm}", sentence.part(begin, end))
    yield from tight_edges(context)
    yield from left_in(context)


def _of_toys(context: Context) -> Iterator[Sentence]:
    """The sentences of a pattern of a toy for a child or an infant."""
    if {"child", "infant"} & set(context.pattern.wearer) and _is_toy(context):
        yield from sentences(context)


def _is_toy(context: Context) -> bool:
    about = f"{context.pattern.title} {context.pattern.summary}"
    filled = any(re.search(r"\bstuffing|\bfill", each) for each in context.pattern.notions)
    return filled or _TOY.search(about) is not None


def _hedged(sentence: Sentence) -> bool:
    return sentence.supposes or sentence.warns


_CHILD = (
    r"(?:child(?:ren)?|kids?|toddlers?|little ones?|small ones?|sons?|daughters?|nieces?|nephews?"
    r"|grandchild(?:ren)?|grandson|granddaughter|pupils?|schoolchild(?:ren)?|boys?|girls?"
    r"|youngest|(?:small|little) hands)"
)
_TURN = (
    r"(?:crank\w*|turn\w* (?:the )?(?:handle|crank|machine)|run (?:the )?machine|work (?:the "
    r")?machine|use (?:the )?machine"
    r"|operat\w* (?:the )?machine|drive the machine)"
)
_CRANKS = re.compile(
    rf"\b{_CHILD}\b[^.;:]{{0,50}}?\b{_TURN}\b|\b{_TURN}\b[^.;:]{{0,40}}?\bby (?:an?|the|your) "
    rf"{_CHILD}\b"
    rf"|\b(?:let|have|ask) (?:your |the |a |an? \w+ )?{_CHILD}\b[^.;:]{{0,40}}?\b{_TURN}",
    re.IGNORECASE,
)
_WATCHED = re.compile(
    r"\b(?:supervis\w*|watch\w*|grown[- ]?ups?|adults?|beside|under (?:your|an?) eyes?|stay with"
    r"|sit with|together|an eye on|keep (?:your|their|its|all|small) (?:hands|fingers|hair)"
    r"|out of|away|fingers|hands clear|while you|when they are older|reach)\b",
    re.IGNORECASE,
)
_ALONE = re.compile(
    r"\b(?:alone|unattended|unsupervised|unwatched|(?:by|on) (?:him|her|it|them|their|his)(?:sel\w+"
    r"| own))\b",
    re.IGNORECASE,
)


@check(
    id="machine.child",
    title="No child is set to crank a machine alone",
    looks_at="sentences that let a child turn the handle of a knitting machine without a grown-up, "
    "in patterns made on one",
    why="needles and cams of a turning cylinder pinch and pierce small fingers",
    severity=Severity.WARNING,
    remedy="Keep children away from the machine, or say that a grown-up stays with them and keeps "
    "their hands clear",
    needs=Needs.SOURCE,
)
def child_at_the_crank(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    machines = (piece.made == "machine" for piece in context.pattern.pieces.values())
    if context.pattern.made.by != "machine" and not any(machines):
        return
    for sentence in sentences(context):
        for found in sentence.said(_CRANKS):
            watched = _WATCHED.search(sentence.words) and not _ALONE.search(sentence.words)
            if not _hedged(sentence) and not watched:
                yield Finding(f"`{found[0]}` sets a child to the machine", sentence.place(found))
                break


@check(
    id="maker.hands",
    title="No maker is told to put a hand in harm's way",
    looks_at="blades drawn toward the hand, points that stand up, lie on a seat or are held in the "
    "mouth, hands in steam or near turning parts, dust and fumes without a mask, and pain that is "
    "ignored",
    why="a slip of the blade, a scald or a strained hand ends the work; the cautions that are "
    "printed say how to avoid it",
    severity=Severity.WARNING,
    remedy="Say how it is done out of harm's way; silence this where the words mean something "
    "harmless",
    needs=Needs.SOURCE,
)
def hands_kept(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    own = own_words(context)
    for sentence in sentences(context):
        found = (each for each in hazards(sentence.words, own) if each[0].kind == "hands")
        for row, (begin, end) in found:
            yield Finding(f"`{sentence.words[begin:end]}`: {row.harm}", sentence.part(begin, end))
            break


CHECKS = (wearer_said, threads_sewn, parts_stay_on, harmless_uses, child_at_the_crank, hands_kept)
