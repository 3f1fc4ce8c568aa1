"""US and UK spelling of the same word, by rule. Ordinary spelling; common practice, no source."""

from collections.abc import Iterator, Mapping

from bindoff import regex as re

# What a UK spelling is in the US: each rule is tried alone, and a dictionary says whether it holds.
_UK_TO_US = tuple(
    (re.compile(uk), us)
    for uk, us in (
        (r"our(?=$|s|ed|ing|er|able|ful|less|hood|ly|y|ite)", "or"),
        (r"(?<=[bcdghpt])re(?=s?$)", "er"),
        (r"(?<=[bcdghpt])r(?=ed$|ing$)", "er"),
        (r"is(?=e$|es$|ed$|ing$|er$|ers$|ation$|ations$)", "iz"),
        (r"ys(?=e$|es$|ed$|ing$|er$|ers$)", "yz"),
        (r"ll(?=ed$|ing$|er$|ers$|en$)", "l"),
        (r"l(?=s?$|ful$|ment$|ments$)", "ll"),
        (r"ogue(?=s?$)", "og"),
        (r"ence(?=s?$)", "ense"),
        (r"ae|oe", "e"),
        (r"oul(?=d|t)", "ol"),
        (r"os(?=y$|ier$|iest$|ily$|iness$)", "oz"),
        (r"grey", "gray"),
        (r"jeweller", "jewelr"),
        (r"yre(?=s?$)", "ire"),
        (r"ough(?=s?$)", "ow"),
        (r"wool?len", "woolen"),
        (r"pyjama", "pajama"),
        (r"vedge", "vage"),
        (r"kerb", "curb"),
        (r"amme(?=s?$)", "am"),
        (r"moust", "must"),
    )
)

_UK_TO_US_ALONE: Mapping[str, str] = {
    "ageing": "aging",
    "aluminium": "aluminum",
    "artefact": "artifact",
    "artefacts": "artifacts",
    "cheque": "check",
    "draught": "draft",
    "draughts": "drafts",
    "draughty": "drafty",
    "judgement": "judgment",
    "manoeuvre": "maneuver",
    "nought": "naught",
    "practise": "practice",
    "practised": "practiced",
    "practising": "practicing",
    "sceptical": "skeptical",
    "skilful": "skillful",
    "spelt": "spelled",
    "storey": "story",
    "storeys": "stories",
    "sulphur": "sulfur",
    "wilful": "willful",
}

US_TO_UK: Mapping[str, str] = {
    "aluminum": "aluminium",
    "analyze": "analyse",
    "behavior": "behaviour",
    "caliber": "calibre",
    "canceled": "cancelled",
    "catalog": "catalogue",
    "cozier": "cosier",
    "cozy": "cosy",
    "defense": "defence",
    "enroll": "enrol",
    "flavor": "flavour",
    "fulfill": "fulfil",
    "harbor": "harbour",
    "harbors": "harbours",
    "honor": "honour",
    "humor": "humour",
    "labeled": "labelled",
    "labeling": "labelling",
    "labor": "labour",
    "liter": "litre",
    "liters": "litres",
    "luster": "lustre",
    "meager": "meagre",
    "miter": "mitre",
    "mitered": "mitred",
    "mold": "mould",
    "molded": "moulded",
    "mustache": "moustache",
    "neighbor": "neighbour",
    "neighboring": "neighbouring",
    "neighbors": "neighbours",
    "odor": "odour",
    "offense": "offence",
    "parlor": "parlour",
    "plow": "plough",
    "skillful": "skilful",
    "skeptical": "sceptical",
    "splendor": "splendour",
    "theater": "theatre",
    "traveled": "travelled",
    "traveling": "travelling",
    "unraveled": "unravelled",
    "unraveling": "unravelling",
    "vapor": "vapour",
    "woolen": "woollen",
}
"""Words that are spelled so in the US alone, with the UK's spelling; those in -ize are both's."""


def us_forms(word: str) -> Iterator[str]:
    """What ``word`` may be in US spelling, if it is a UK one."""
    if word in _UK_TO_US_ALONE:
        yield _UK_TO_US_ALONE[word]
    for uk, us in _UK_TO_US:
        form = uk.sub(us, word)
        if form != word:
            yield form
