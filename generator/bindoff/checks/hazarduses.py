"""Uses that could harm a child: not what is put on a piece, but what is done with it.

A use has two kinds of words in one clause: what is done, and to or near what. What warns of it, or
takes the piece off in time, is left alone, as are faces that a piece has itself.

Sleep, loose bedding, weighted things and what lies over a baby: American Academy of Pediatrics,
policy on safe infant sleep, 2022 (it has no objection to wearable blankets). Thick clothes under
the harness of a car seat: the same, advice on car seats in winter, from memory. What catches at
play: U.S. Consumer Product Safety Commission, on cords at neck and hood. The rest: common practice,
no source.
"""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.sentencesof import Sentence
from bindoff.records import Record


class Use(Record):
    """A use and the harm of it; ``only_infants`` where older children come to none.

    ``said`` finds it in a sentence and ``safe`` what makes it none there; ``of_faces`` uses tell of
    a wearer's face, which is another thing on a toy.
    """

    name: str
    harm: str
    said: "re.Pattern[str]"
    safe: "re.Pattern[str]"
    only_infants: bool = False
    of_faces: bool = False


_CLAUSE = r"[^.;:!?]"
_WHOSE = (
    r"(?:the|a|an|its|their|his|her|your|my|(?:the |your |a )?(?:baby|child|infant|wearer)['’]s)"
)
_MOVED = (
    r"(?:pull|dr[ae]w|bring|brought|tug|fold|turn|roll|tuck|wrap|wear|wor[en]|slip|slide|slid|push"
    r"|f[ae]ll|com|came|reach|hang|hung|drop|sit|sat|lie|lay|rise|rose|stretch|drap|spread|go|goes"
    r"|close|fasten|button|lower|wind|wound|creep|ride|rid|extend|shade|snuggl)(?:s|es|ing|ed|n|e)?"
)
_FACE = (
    r"(?:face|eyes?|eyebrows?|brow and eyes|nose|nostrils|mouth|(?:upper )?lips?|lashes"
    r"|eyelashes|cheeks?|airways?)"
)
_BED = (
    r"(?:cots?|cot bed|cribs?|bassinets?|cradles?|moses baskets?|sleeping baskets?|carrycots?"
    r"|mattress(?:es)?|playpens?|bunks?|bed ?rails?|cot ?rails?|cot bars|bedside)"
)
_SLEEPER = (
    r"(?:bab(?:y|ies)|infants?|newborns?|child|toddlers?|little one|he|she|him|her|them|they)"
)

SLEEP_WORDS = rf"(?:sleep\w*|asleep|nap(?:s|ping|times?)?|nap times?|doz(?:e|es|ing)|{_BED})"
"""Words for where and when a baby sleeps."""

_TRIM = (
    r"(?:bobbles?|pom[- ]?poms?|flowers?|petals?|lea(?:f|ves)|stars?|bows?|ears?|noses?|eyes?"
    r"|buttons?"
    r"|badges?|balls?|tassels?|horns?|wings?|antlers?|tails?|charms?|appliqu[eé]s?|beaks?|fins?"
    r"|hearts?"
    r"|bells?|patch(?:es)?|spots?|spikes?|berr(?:y|ies)|acorns?)"
)
_NEVER = r"never|not|no|none|nor|nothing|without|avoid|instead|rather than|unless|cannot|n['’]t"
_TAKEN_OFF = (
    r"off|away|remove\w*|before|until|awake|out of|once|as soon as|under (?:your|an?) eyes?"
)
SLEEPS = re.compile(
    r"\bsleeping (?:baby|infant|newborn|child)\b"
    r"|\b(?:baby|infant|newborn|child)\b(?:(?!\b(?:never|not|no|until)\b|n['’]t\b)[^.;,:!?]){0,40}"
    r"\b(?:sleeps?|is asleep)\b"
    rf"|\b(?:{_BED}|bed)\b[^.;:!?]{{0,20}}\b(?:at|by|for|all|through the|during the) night\b"
    r"|\bsleeps?(?: \w+)? (?:in|under|on|with) (?:it|this|them|the (?:blanket|bonnet|hat|toy))\b"
    r"|\b(?:baby|infant|newborn|child) (?:\w+ )?(?:nods? off|dozes?|naps?|slumbers?)\b"
    rf"|\b(?:let|leave|have|lets)\b {_SLEEPER} (?:to )?(?:sleep|nap|doze|slumber|nod off)\b"
    r"|\b(?:at|for|by) (?:bedtime|nap ?times?|naps|the night)\b"
    r"|\b(?:to|for) sleep(?:ing)? (?:in|under)\b|\bovernight\b"
    r"|\b(?:warm|keeps?|kept|cosy|cozy|snug|worn|wears?|covers?)\b[^.;!?]{0,40}"
    r"\b(?:all|at|by|every|through the|during the) night\b",
    re.IGNORECASE,
)
"""A piece that is laid over a baby who sleeps, or worn in bed: said so plainly that it stops a
build."""

_BEDDED = re.compile(
    r"\b(?:during|through|in|to) (?:the |a )?(?:nap ?times?|naps?)\b"
    r"|\b(?:long|short|afternoon|morning|daytime) naps?\b|\bnaps? (?:in|under|on|with|outdoors)\b"
    r"|\b(?:lay|laid|tuck|put|place|leave|set|settle|hang|hung|tie|prop|pop|drape|spread|fit|line"
    rf"|loop|clip|fasten|bolster|nestle)(?:s|d|ed|ing)?\b{_CLAUSE}{{0,60}}?\b(?:in|into|on|onto"
    rf"|beside|over|round|around|across|above|along|to|from|of|inside) (?:{_WHOSE} )?"
    rf"(?:\w+['’]s )?(?:\w+ )?{_BED}\b"
    r"|\bswaddl\w+|\b(?:nests?|cocoons?|pods?|loungers?|papooses?) (?:for|around|of) (?:the "
    r"|your |a )?"
    rf"(?:{_SLEEPER}|pram|{_BED})\b"
    rf"|\b(?:across|above|between the bars of) (?:{_WHOSE} )?(?:{_BED}|pram|pushchair|buggy"
    rf"|changing mat)\b"
    rf"|\bover (?:{_WHOSE} )?(?:{_BED}|changing (?:mat|table))\b"
    r"|\b(?:keeps?|holds?|so that) (?:the |its |both |baby['’]s )?arms (?:stay |are |lie )?"
    r"(?:inside|in|down|still)\b"
    r"|\bweighted \w+|\b(?:wrap|bind|bundle|roll)\w* (?:him|her|them|it|(?:the |your )?baby)\b"
    r"[^.;:!?]{0,15}\b(?:tight\w*|snug\w*|firmly|arms)\b"
    rf"|\b(?:comforters?|friends?|companions?|sheep|lambs?|cushions?|pillows?|bumpers?|toys?"
    rf"|lovey|bolsters?|wedge)\b{_CLAUSE}{{0,25}}?"
    rf"\b(?:for|in|of|into|at) (?:{_WHOSE} )?{_BED}\b"
    rf"|\b(?:under|beneath|behind|around|round) (?:the |your )?(?:(?:baby|infant|newborn)['’]s"
    rf"|sleeping)"
    r" head\b"
    rf"|\b(?:{_SLEEPER}|it) (?:\w+ ){{0,2}}(?:sleeps?|naps?|dozes?|slumbers?)\b"
    rf"|\b(?:swing|dangl|sway|stretch|float|turn|twirl|hang)\w*\b{_CLAUSE}{{0,30}}?\b(?:across"
    rf"|over|above)"
    r" (?:the |its |a )?(?:pram|pushchair|stroller|buggy|playmat|changing table)\b",
    re.IGNORECASE,
)
SAFE_SLEEP = re.compile(
    r"\b(?:off|away|remove\w*|before|until|awake|once|as soon as)\b"
    r"|\b(?:knit|work|sew|finish|wash|count)\w*\b[^.;:!?]{0,30}\b(?:while|when|during)\b"
    r"|\b(?:name|colou?r|chart|motif|shade)\b",
    re.IGNORECASE,
)
"""What takes a piece off in time, or tells of other work than its use."""

USES = (
    Use(
        name="sleep",
        harm="nothing loose, weighted or tied belongs where a baby sleeps",
        said=_BEDDED,
        safe=SAFE_SLEEP,
        only_infants=True,
    ),
    Use(
        name="worn asleep",
        harm="a baby sleeps without hat, ties or anything that can slide over its face",
        said=re.compile(
            rf"\b(?:leave|left|keep|kept|stays?|staying) (?:it |them |the \w+ )?on\b"
            rf"{_CLAUSE}{{0,30}}\b{SLEEP_WORDS}\b",
            re.IGNORECASE,
        ),
        safe=re.compile(rf"\b(?:{_NEVER})\b", re.IGNORECASE),
        only_infants=True,
    ),
    Use(
        name="face",
        harm="what covers a child's face takes sight and breath",
        said=re.compile(
            rf"\b{_MOVED}\b{_CLAUSE}{{0,45}}?\b(?:over|across|up to|down to|past|below|beneath"
            rf"|above|in front of|as far as|onto|around|round)\b (?:{_WHOSE} )?(?:\w+ (?:and|or) )?"
            rf"(?:\w+ )?{_FACE}\b"
            rf"|\b(?:cover|hid|veil|shad|muffl)(?:e|es|s|ing"
            rf"|ed)? (?:up )?(?:{_WHOSE} )(?:\w+ (?:and"
            rf"|or) )?(?:{_FACE}|head and face)\b"
            rf"|\b(?:only|just|nothing but|except|all but) (?:{_WHOSE} )?(?:\w+ (?:and"
            rf"|or) )?{_FACE}"
            r"(?: \w+){0,2}? (?:shows?|showing|peeps?|peeping|peeks?|peeking|(?:are|is"
            r"|stays?) (?:free"
            r"|seen|visible|left|bare)|looks? out)\b"
            r"|\bcover(?:s|ing|ed)? (?:up )?(?:the |a |your )?(?:\w+ )?(?:pram|car ?seat|carrier"
            r"|pushchair"
            r"|stroller|buggy|cot|crib|bassinet|carrycot|cradle)\b"
            rf"|\b(?:slits?|slots?|holes?|openings?) (?:\w+ )?for (?:the )?{_FACE}\b"
            rf"|\b(?:none|no opening|no hole|nothing) for (?:the )?(?:mouth|nose)\b"
            r"|\bblindfolds?\b|\b(?:face|ski|eye|sleep) masks?\b"
            r"|\b(?:spread|drap|lay|laid|hang|hung|throw|put|clip|tie|fasten|us)(?:e|es|s|ing"
            r"|ed)?\b"
            rf"{_CLAUSE}{{0,40}}?\b(?:over|across) (?:{_WHOSE} )?(?:\w+ )?(?:pram|car ?seat|carrier"
            r"|pushchair|stroller|buggy|cot|crib|bassinet|carrycot|cradle|baby['’]s head)\b",
            re.IGNORECASE,
        ),
        safe=re.compile(
            r"\b(?:never|not|nor|without|avoid|instead|rather than|unless|cannot|n['’]t"
            r"|embroider\w*|stitch(?:es|ed)?|sew\w*|chart|motif|free of"
            r"|too (?:large|big|loose|wide))\b",
            re.IGNORECASE,
        ),
        of_faces=True,
    ),
    Use(
        name="car",
        harm="nothing thick lies under a harness, and nothing is worn there that covers or heats",
        said=re.compile(
            r"\b(?:car ?seats?|child seats?|booster(?: seats?)?|safety seats?|seat ?belts?"
            r"|harness(?:es)?(?! bells?)|five-point belts?|(?:baby|infant) seats?"
            r"|ride home|drive home|back seats?"
            r"|straps of the (?:seat|carrier|buggy)|(?:bicycle|bike) (?:seats?|trailers?)"
            r"|buckl\w+ (?:it|him|her|them|the child|the baby|baby)"
            r" (?:in|up))\b"
            rf"|\b(?:sleep|nap|doz|wear|wor|rid|travel)\w*\b{_CLAUSE}{{0,30}}?\b(?:in|for) (?:the"
            rf"|a)"
            r" (?:car|back seat)\b|\bcar (?:journeys?|rides?|trips?)\b",
            re.IGNORECASE,
        ),
        safe=re.compile(rf"\b(?:{_NEVER}|{_TAKEN_OFF}|knit\w* (?:it|this))\b", re.IGNORECASE),
    ),
    Use(
        name="play",
        harm="what is worn at the neck or hangs catches at play, and strangles",
        said=re.compile(
            r"\b(?:scar(?:f|ves)|cowls?|snoods?|capes?|ponchos?|ties|cords?|strings?|hoods?"
            r"|shawls?|fringes?"
            rf"|straps?|loops?|ribbons?|necks?)\b{_CLAUSE}{{0,80}}?\b(?:on (?:the|a|his|her|their)"
            r" (?:slides?|swings?|seesaw|bikes?|bicycles?|scooters?|roundabout|trampoline|escalator"
            r"|climbing (?:frame|wall)|ropes?|tricycle)|(?:for|while|when|at"
            r"|in) (?:the )?(?:climbing|cycling|playground"
            r"|swinging|sliding|sledging|skiing|scooting|trampolining|soft play|riding|trees))\b"
            rf"|\b(?:on|down|up) the (?:slides?|swings?|seesaw|trampoline"
            rf"|climbing \w+)\b{_CLAUSE}{{0,60}}?"
            r"\b(?:scar(?:f|ves)|cowls?|snoods?|capes?|ponchos?|ties|cords?|strings?|shawls?"
            r"|ribbons?|hats?)\b"
            rf"|\b(?:climb|swing|cycl|sledg)\w*\b{_CLAUSE}{{0,60}}?\b(?:scar(?:f|ves)|cowls?"
            rf"|snoods?"
            r"|capes?|ties|cords?|strings?|shawls?|ribbons?)\b",
            re.IGNORECASE,
        ),
        safe=re.compile(
            rf"\b(?:never|without|avoid|cannot|unless|don['’]t|do not|{_TAKEN_OFF})\b",
            re.IGNORECASE,
        ),
    ),
    Use(
        name="heat",
        harm="wool holds heat against the skin, damp wool lets it through, and synthetics melt",
        said=re.compile(
            rf"\b(?:us|warm|heat|put|pop|hold|wear|carr|lift|slip|place|dry|hang|set|toast|roast"
            rf"|cook"
            rf"|grab|tak|mak|giv|bak|keep|leav|serv|doubl|good|fit|lift"
            rf"|reach)\w*\b{_CLAUSE}{{0,60}}?\b(?:microwave"
            r"|ovens?|stoves?|hobs?|camp ?fires?|bonfires?|fireplaces?|candles?|tea ?lights"
            r"|sparklers?"
            r"|(?:naked|open) flames?|hot[- ]water bottles?|hand ?warmers?|heat ?packs?|wheat bags?"
            r"|pot ?holders?|oven (?:gloves?|mitts?)|pot grabbers?|(?:pot|pan|hot) (?:mats?"
            r"|pads?)|pan holders?|hot (?:\w+ )?(?:(?:sauce)?pans?|pots?|dishes|trays?|plates?"
            r"|things)|fire ?guards?|hearths?|log fires?"
            r"|wood ?burners?"
            r"|trivets?|kettles?|heaters?|hair ?dryers?|grills?|barbecues?|toasters?"
            r"|lanterns? with a"
            r" candle)\b",
            re.IGNORECASE,
        ),
        safe=re.compile(
            rf"\b(?:{_NEVER}|away|out of (?:reach|the way)|block\w*|dye\w*|colou?r\w*|named?"
            rf"|chart|glow|motif)\b",
            re.IGNORECASE,
        ),
    ),
    Use(
        name="points",
        harm="a pin or needle that stays in pierces whoever wears it",
        said=re.compile(
            rf"\b(?:leav|keep|kept|left|stay|remain)\w*\b{_CLAUSE}{{0,40}}?\b(?:pins?|needles?)\b"
            rf"{_CLAUSE}{{0,50}}?\b(?:wear\w*|worn|tri(?:es|ed)|try|child|baby|toddler|put(?:s"
            rf"|ting)?"
            r" (?:it|them) on|on (?:the|his|her) (?:head|foot|hand))\b"
            rf"|\b(?:try|tries|tried|put) (?:it|them"
            rf"|the \w+) on\b{_CLAUSE}{{0,50}}?\bwith the pins\b"
            r"|\b(?:hold|keep|fasten|secure|clos|pin)\w*\b[^.;:!?]{0,40}\b(?:straight|dressmak\w+"
            r"|sewing"
            r"|glass-headed) pins?\b[^.;:!?]{0,30}\b(?:on|while|when|instead)\b"
            r"|\b(?:hold|keep|fasten|clos|secur|prick|stick)\w*\b[^.;:!?]{0,40}\bwith (?:an?|two"
            r"|some|\d+)"
            r" (?:[\w'’-]+ ){0,2}pins?\b|\b(?:pins?|needles?)\b[^.;:!?]{0,20}\b(?:left|stays?"
            r"|remains?) in"
            r" (?:the|its|there|place|for good)\b|\bpins?\b[^.;:!?]{0,30}\bleave (?:it"
            r"|them) (?:there|in)\b",
            re.IGNORECASE,
        ),
        safe=re.compile(
            rf"\b(?:{_NEVER}|remove|count|away|reach|until (?:it|they|the (?:wool|piece|fabric))"
            rf"|while you|block\w*|dr(?:y|ies|ied))\b",
            re.IGNORECASE,
        ),
    ),
    Use(
        name="coming off",
        harm="what comes off goes into a mouth",
        said=re.compile(
            rf"\b{_TRIM}\b{_CLAUSE}{{0,60}}?\b(?:(?:only|just|simply|merely|barely|loosely|lightly)"
            r" (?:tied|tacked|pinned|clipped|knotted|hooked|glued|basted|pushed|slipped|buttoned"
            r"|sewn)"
            r"|(?:lift|come|pull|snap|clip|unbutton|pop|unhook|twist|slip)s? off\b(?! the)"
            r"|(?:unclip|detach|unbutton|unhook)(?:e?s)?\b(?! the)"
            r"|(?:can|may) (?:easily )?be (?:easily )?(?:swapped|changed|exchanged|removed|detached"
            r"|unclipped|taken off|pulled off|moved)"
            r"|you can (?:easily )?(?:swap|change|remove|detach|unclip|take|pull|move))\b"
            r"|\b(?:held|fixed|sewn|attached|caught)(?: on| down)? (?:by|with) (?:one|a single"
            r"|two|a couple of)"
            r" (?:stitch(?:es)?|threads?|knots?)"
            rf"|\bcan be (?:plucked|pulled out|picked off|torn off)"
            rf"|\b(?:detachable|removable|interchangeable|clip-on|stick-on) (?:[\w-]+ )?{_TRIM}\b",
            re.IGNORECASE,
        ),
        safe=re.compile(rf"\b(?:{_NEVER}|in the chart|motif)\b", re.IGNORECASE),
    ),
    Use(
        name="tools",
        harm="points and blades are no tools for small hands",
        said=re.compile(
            r"\b(?:let|have|give|hand|ask|help|teach|enlist)\w*\b[^.;:!?]{0,30}\b(?:child(?:ren)?"
            r"|toddlers?|small (?:fingers|hands|ones?|helpers?)|little (?:fingers|hands|ones?"
            r"|helpers?)"
            r"|kids?|daughters?|sons?|grandchild(?:ren)?)\b[^.;:!?]{0,50}\b(?:needles?|scissors"
            r"|pins?|hooks?"
            r"|kni(?:fe|ves)|cutters?|irons?|shears|awls?|glue gun|pliers|hammer)\b"
            r"|\b(?:needle|scissors|pins?)\b[^.;:!?]{0,30}\bfor (?:your |the |a )?(?:little one"
            r"|child|toddler)\b"
            r"|\b(?:irons?|scissors|needles?)\b[^.;:!?]{0,30}\bwhile (?:the |your |a )?(?:child"
            r"|toddler|little one)"
            r" (?:holds?|helps?)\b|\blet (?:her|him|them) (?:sew|cut|stitch|snip|pin)\b",
            re.IGNORECASE,
        ),
        safe=re.compile(
            rf"\b(?:{_NEVER}|watch\w*|beside|blunt|plastic|grown[- ]?ups?|adults?|help\w*|older)\b",
            re.IGNORECASE,
        ),
    ),
    Use(
        name="fluff",
        harm="loose hair is breathed in",
        said=re.compile(
            r"\b(?:fibres?|fibers?|fluff|hairs?|lint|fuzz|cloud|mohair"
            r"|angora)\b[^.;:!?]{0,30}\b(?:fl(?:y|ies)"
            r"|floats?|sheds?|shed|drifts?)\b"
            rf"[^.;:!?]{{0,40}}\b(?:{_BED}|{_SLEEPER}|face|nose|mouth)"
            rf"|\bsheds?\b[^.;:!?]{{0,40}}\b(?:face|baby"
            rf"|{_BED})\b",
            re.IGNORECASE,
        ),
        safe=re.compile(rf"\b(?:{_NEVER}|away|out of|off)\b", re.IGNORECASE),
    ),
    Use(
        name="threads",
        harm="a long or loose thread closes around a small finger or toe",
        said=re.compile(
            r"\b(?:long|uncaught|untrapped|unsecured|free|dangling) (?:floats?|loops|threads"
            r"|strands"
            r"|tails|ends) (?:are|is|lie|hang|run|stay|inside|on the inside|will|may|can|do)\b"
            r"|\b(?:floats?|loops|threads|strands|tails|ends)\b (?:run|lie|hang|are left|peep out"
            r"|peek out|stick"
            r" out)(?: free| loose| out)?\b(?! (?:across|over|along|behind) the back)"
            r"|\b(?:let|leave)\b[^.;:!?]{0,20}\bends\b (?:peep|peek|stick|poke) out\b"
            r"|\b(?:do not|don['’]t) (?:weave|darn|sew|catch|trap)(?: in)? the (?:ends|tails"
            r"|floats)\b"
            r"|\bloops of (?:[5-9]|[1-9]\d) cm\b"
            r"|\b(?:has|have|with|are) (?:long|uncaught|loose) floats\b"
            r"|\b(?:leav|let)\w*\b[^.;:!?]{0,30}\b(?:ends|tails|floats|threads|strands)\b"
            r"(?: of [^.;:!?]{1,30}?)? (?:\w+ )?(?:hang(?:ing)?|loose|dangling|free|unwoven"
            r"|as they are|uncaught|on the (?:outside|right side|front)|inside)\b"
            r"|\b(?:no need|not necessary|need not|don['’]t (?:need|have)) to (?:weave|trim|darn"
            r"|sew|catch"
            r"|trap) (?:in )?(?:the )?(?:ends|tails|floats)\b"
            r"|\b(?:floats?|strands?|yarns?|loops?)\b[^.;:!?]{0,25}\b(?:cross|span|run|over|of"
            r"|up to|across|behind|skip"
            r"|jump)\w* (?:over |across |behind )?(?:1\d|[89]|eight|nine|ten|eleven"
            r"|twelve) stitches\b",
            re.IGNORECASE,
        ),
        safe=re.compile(
            r"\b(?:caught|catch\w*|trap\w*|weav\w*|woven|never|avoid|until|later|seam(?:s|ing)?"
            r"|sewing"
            r"|for (?:now|later|the seams?)|fringe|gather\w*|graft\w*|not be|must not)\b",
            re.IGNORECASE,
        ),
    ),
)


def used(sentence: Sentence, *, infants: bool, toy: bool) -> Iterator[tuple[Use, "re.Match[str]"]]:
    """Every use in a sentence that could harm an infant, or a child; ``toy`` where faces are the
    piece's own."""
    for use in USES:
        if (use.only_infants and not infants) or (use.of_faces and toy):
            continue
        if use.name == "sleep" and SLEEPS.search(sentence.words):
            continue  # told as an error
        if use.safe.search(sentence.words) is None:
            for found in sentence.said(use.said):
                yield use, found
