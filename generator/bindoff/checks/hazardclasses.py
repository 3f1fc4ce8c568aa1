"""Classes of things that a pattern puts on a piece and that could harm a child.

A class has words for *things*, which are hazards wherever they stand, and for *perhaps*: names that
mean something else too (a snap, a ribbon of waves), hazards where they are bought, put on, hung,
threaded or closed with. Each class is declared as one of the ``hazards:`` of a pattern, which says
what caution is printed.

16 CFR 1501 counts no yarn, fabric or elastic as a small part (1501.4), so what is worked of the
yarn, such as bobbles, is left out. EN 14682 and 16 CFR 1120 set limits on cords. Swallowed magnets
and button cells: 16 CFR 1262 and 1263, from memory. The rest: common practice, no source.
"""

from bindoff import regex as re
from bindoff.records import Record


class HazardClass(Record):
    """Regular expressions for what belongs to a class; an empty one matches nothing of its own."""

    name: str
    hazard: str
    things: str = ""
    perhaps: str = ""


_SPACE = re.compile(r"(?<![-\[]) (?![-\]])")


def _class(name: str, hazard: str, things: str = "", perhaps: str = "") -> HazardClass:
    """A class whose words may be hyphened (faux-fur), and are none of its things where they only
    give something its shape, size or stitch (a button-shaped motif, a bead-stitch edge)."""
    hyphened = [_SPACE.sub("[ -]", words) for words in (things, perhaps)]
    sure = (
        rf"(?:{hyphened[0]})(?![-–](?:shaped|like|style|sized?|stitch|dye\w*)\b)" if things else ""
    )
    return HazardClass(name, hazard, sure, hyphened[1])


_TIE = (
    r"(?:the|an?|two|four|2|4|both|each|every|one|long|short|chin|neck|ear[- ]?flaps?|side|back"
    r"|front|shoulder|waist|braided|twisted|knit|knitted|crochet|crocheted|cord|i-cord|ribbon)"
    r" ties?(?! (?:off|in|up|them|it|together)\b)"
)
# A chain is a cord where it has a length or ties something; else chains are stitches of crochet.
_CHAIN = (
    r"(?:long|\d+ ?(?:cm|in|inch|inches)(?: long)?) chains?"
    r"|chains? (?:of )?(?:about )?\d+(?:\.\d+)? ?(?:cm|in|inch(?:es)?)\b"
    r"|chains? (?:to tie|for (?:ties|tying)|as (?:a )?ties?|under|around the (?:neck|chin)|through)"
    r"|(?:hang|dangl|tie|knot)\w*(?: \w+){0,3} chains?"
)
_EDGES = r"(?![- ](?:bind|cast|edg|border|trim|hem|stitch|rib|increase|decrease))"
_OF_WEARER = r"(?:chin|neck|bonnet|hat|apron|hood|ear ?flap|mitten)[- ]?"
_LIGHTS = r"(?:fairy|tea|string|night|battery|tiny|little|small|twinkl\w+|blinking|flashing)"
_MADE_OF = r"(?:wooden|wood|plastic|glass|metal|brass|steel|shell|resin|cork|stone|ceramic|clay)"

CLASSES = (
    _class(
        "closures",
        "small parts",
        r"(?:snap |press |wooden |shell |toggle )?buttons?(?: ?bands?| ?holes?)?"
        r"(?![- ](?:cells?|batter|hole stitch|stitch|up\b|the\b))|buttonbands?|press[- ]?studs?"
        r"|poppers|closures|zippers?|brooch(?:es)?|(?<=with a )(?:safety|kilt|shawl) pins?"
        r"|(?:[\w-]+ )?fasteners?|(?:snap|frog|metal|hook|toggle|zip|clip|touch) closures?"
        r"|hooks?[ -]and[ -]eyes?(?: tapes?)?"
        r"|(?:hooks?[ -]and[ -]loops?|loops?[ -]and[ -]hooks?|self[- ]grip\w*|touch)"
        r" (?:fasten\w+|closures?|tapes?|strips?|dots?|tabs?|patch(?:es)?|squares?|straps?|coins?)"
        r"|(?:hook|loop|sticky) (?:side|part|half|strip)s? of the (?:tape|strip|fastener)"
        r"|(?:split|jump|curtain) ?rings?|split pins?|key ?rings?|D-rings?|carabiners?|grommets?"
        r"|(?:swivel|trigger|snap) (?:clips?"
        r"|hooks?)"
        r"|(?:pacifier|dummy|soother|braces?|suspender|garter) (?:holder|clip|grip)s?",
        r"(?<!magnetic )(?:snaps?|clasps?)|toggles?|zips?|studs?|rivets?|buckles?|poppers?"
        r"|hooks?[ -]and[ -]loops? \w+|(?:metal|brass|plastic) eyelets?|fastenings?|sliders?"
        r"|closures?|latch(?:es)?|pegs?",
    ),
    _class(
        "hard trims",
        "small parts",
        r"beads?(?! (?:stitch|off|up|on the)\b)(?<!water beads)|beaded|sequins?|paillettes?"
        r"|spangles?|glitter|tinsel|confetti|diamant\w+|cabochons?|gemstones?"
        r"|rhinestones?(?! (?:gr[ea]y|stitch|blue|white))"
        r"|(?:safety|plastic|hard|glass|toy|doll|animal|bought|googly|wiggle|wiggly)"
        r" (?:eyes?|noses?)"
        r"|(?:felt|satin|ribbon|fabric|plastic|silk) (?:bows?|flowers?)"
        r"|(?<=\ba )(?-i:pearl)\b(?! (?:stitch|cotton|yarn|gr[ea]y|white))|(?-i:pearls)",
        r"charms?|badges?|(?:eye)?lashes"
        rf"|(?:felt|{_MADE_OF}) (?:balls?|rings?|discs?|shapes?|letters?|figures?)",
    ),
    _class(
        "points and small metal",
        "small parts",
        r"(?:drawing|hat|kilt|bobby|curling|lapel|push|tie) ?pins?|thumb[- ]?tacks?|carpet tacks?"
        r"|(?:an?|two|three|four|a few|\d+) (?:tacks?|nails?|staples|screws?|bolts?|washers?"
        r"|ferrules?)"
        r"|(?:push|drive|hammer|press) (?:the )?(?:tacks?|nails?|staples)|cup hooks?|fish ?hooks?"
        r"|skewers?"
        r"|tooth ?picks?|cocktail sticks?|match ?sticks?|lolly sticks?|razor blades?|(?:cable"
        r"|zip) ties?"
        r"|clothes ?(?:pins?|pegs?)|(?:paper|bulldog|crocodile|hair|bull ?dog) ?(?:clips?|grips?"
        r"|slides?)"
        r"|curtain (?:rings?|hooks?|weights?)|bottle (?:caps?|tops?)|tin lids?|ferrules?"
        r"|eyelet rings?"
        r"|penn(?:y|ies)|[\w-]+[- ]pence(?: pieces?)?|dimes?|(?:penny|pound|cent) coins?",
        r"washers?|dowels?|coins?|tacks|nails|staples|screws|bolts|nuts|springs?",
    ),
    _class(
        "films",
        "small parts",
        r"(?<=inflate )(?:an?|the) balloons?|bubble ?wrap|cling ?(?:film|wrap)|bin (?:liners?"
        r"|bags?)",
        r"balloons?|(?:plastic|carrier|polythene|freezer|crisp|foil) (?:bags?|packets?|wrappers?)",
    ),
    _class(
        "feathers",
        "small parts",
        r"marabou|(?:ostrich|peacock|goose|duck|craft|real|dyed|loose) (?:feathers?|plumes?|down)"
        r"|feather (?:boas?|trims?|trimmings?)|bags? of feathers",
        r"feathers?(?![- ](?:and|light|weight|edg\w+|tips?))|plumes?|boas?",
    ),
    _class(
        "sound makers",
        "small parts",
        r"(?:jingle|cat|sleigh|little|tiny|brass|hand|door|goat) ?bells?|squeakers?"
        r"|(?:rattle|squeak\w*|jingle|sound|noise|voice|growl\w*) (?:inserts?|units?|box(?:es)?"
        r"|discs?|balls?|modules?|chips?|capsules?|makers?|elements?)"
        r"|music(?:al)?[- ]box(?:es)?|musical (?:movements?|works?)"
        r"|(?:crinkl[ey]|crinkling|crackl[ey]|crackling|rustling|noisy) (?:paper|film|foil|plastic"
        r"|cellophane|sheets?|fabric|material|inserts?)|cellophane",
        r"bells?|chimes?|squeaks?|cowbells?|whistles?|clappers?|growlers?|b(?:l?eep|uzz)ers?",
    ),
    _class(
        "fillings",
        "small parts",
        r"(?:plastic|poly\w*|doll|toy|weighting|weighted|glass|steel) (?:pellets|granules|beads)"
        r"|(?:dried|(?:bag|handful|cup) of) (?:rice|beans?|lentils?|peas|lavender)"
        r"|(?:cherry|date|plum) (?:stones|pits)|(?:buckwheat|millet|spelt|rice) (?:husks|hulls)"
        r"|ball bearings",
        r"(?-i:(?:split )?peas|beans|lentils|chickpeas|rice|barley|wheat|corn|seeds|grains?|kernels"
        r"|pips|peppercorns|marbles|pebbles|gravel|sand|chestnuts|nutshells|straw|sawdust|husks"
        r"|hulls|pellets|granules)",
    ),
    _class(
        "wires",
        "small parts",
        r"pipe cleaners?|(?:craft|florist|floral|beading|copper|thin|stiff|jewel\w+|millinery"
        r"|armature) wires?",
        r"(?<!blocking )(?<!barbed )wires?|(?:fishing|nylon) line|monofilament",
    ),
    _class(
        "cords",
        "cords",
        rf"draw[- ]?strings?|draw[- ]?cords?|lass(?:o|oes|os)|nooses?|tethers?|(?<=the )reins"
        rf"|reins of"
        rf"|macram[eé] cords?|(?:crocheted|twisted|plaited|braided|jute|cotton|hemp) ropes?"
        rf"|(?:shoe|boot|skate) ?(?:laces?|strings?)|lanyards?"
        rf"|leash(?:es)?|bungees?|(?<=with a )lace|{_TIE}"
        rf"|i-cords?{_EDGES}|(?:two|both|the) laces|tails? to (?:tie|knot)"
        rf"|{_OF_WEARER}(?:straps?|strings?|ties|cords?|elastic)"
        r"|(?:straps?|elastics?)(?: \w+){0,2} (?:under|below|around|round|behind) (?:the|its|your)"
        r" (?:chin|neck|head)|cord (?:locks?|stoppers?)"
        r"|(?:twisted|braided|plaited|crocheted|knotted) (?:cords?|straps?|lines?|leads?|strings?"
        r"|chains?"
        r"|braids?)" + _EDGES + r"|(?:round|cord|hat) elastic|elastic cord|leather thongs?",
        r"cords?|ribbons?|strings?|straps?|ties|elastics?|braids?|plaits?|thongs?|streamers?"
        rf"|{_CHAIN}|twine|(?:bias|ribbon"
        r"|twill|cotton) (?:tape|binding)|sash(?:es)?|laces|leads?|halters?|reins?",
    ),
    _class(
        "loose strands",
        "pompom",
        r"pom[- ]?po[mn]s?|(?:fur|yarn|wool|fluffy) poms?|tassels?|bobbles? of yarn"
        r"|(?:sew|tie|hang|knot|fasten|attach) (?:an?|the|two|some) bobbles?"
        r"|(?:fluffy|furry|fur|yarn|woolly|fringed) (?:balls?|bobbles?|poufs?|puffs?)|(?:balls?"
        r"|puffs?|tufts?|frills?) of (?:[\w-]+ )?(?:hair|fur|fluff|down)"
        r"|(?:faux|fake|fun|real|rabbit|fox) (?:fur|pelt)|pelts?|sheepskin|shearling"
        r"|swan['’]?s?[- ]down|fur (?:trims?|trimmings?|cuffs?|collars?|edging)"
        r"|(?:knot|loop|hook|tie|attach)(?: \w+){0,3} (?:strands|lengths|pieces|bundles)"
        r"(?: of (?:yarn|wool))? (?:along|into|through|in|onto|to) (?:the|each|every|both)"
        r"(?: [\w-]+)? (?:edges?|hem|border|ends?|corners?)",
        r"fring(?:e[ds]?|ing)|fur",
    ),
    _class(
        "magnets",
        "magnets",
        r"magnets?|neodymium"
        r"|magnetic(?= (?:clasp|closure|snap|button|disc|fasten|catch|clip|bead|ball|strip)\w*)",
    ),
    _class(
        "power",
        "button cells",
        r"(?:button|coin)[- ](?:cells?|batter(?:y|ies))|(?-i:LEDs?)"
        rf"|{_LIGHTS}[- ](?:lights?|lamps?|bulbs?)|light strings?|strings? of lights"
        r"|batter(?:y|ies)[- ](?:operated|powered|light|pack|case|box|holder|tea)"
        r"|(?-i:USB)[- ](?:powered|lights?|lamps?|heat\w+)|power[ -]?(?:banks?|packs?)"
        r"|flash ?lights?|solar (?:cells?|panels?)"
        r"|heat(?:ing|ed) (?:pads?|elements?|wires?|inserts?|mats?)"
        r"|(?:conductive|electric\w*|light-up) (?:threads?|yarns?|wires?|inserts?|modules?)",
        r"batter(?:y|ies)|lights(?! and)|electronics|trackers?|torch(?:es)?|bulbs?|sensors?"
        r"|speakers?|transmitters?",
    ),
)


def things_of(*hazards: str) -> str:
    """A regular expression for all things of these hazards, whatever a sentence does with them."""
    return "|".join(each.things for each in CLASSES if each.hazard in hazards and each.things)


BOUGHT = (
    r"\b(?:eyes|noses?|gems?|crystals?|jewels?|shells?|coins?|mirrors?|marbles?|acorns?|rattles?"
    r"|hook[- ]and[- ]loop|feathers?)\b(?! (?:stitch|chart|pattern))"
)
"""In a list these are bought; in a sentence they may be the wearer's, or a stitch."""
