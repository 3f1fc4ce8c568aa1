"""Areas that mirror each other around the tube."""

from bindoff.plan.colour.embroidery import ThreadRule, plan_embroidery
from bindoff.plan.colour.mirror import mirror_pairs


def test_mirrored_areas_are_paired() -> None:
    shown = [[None if each == "." else each for each in "bb..a.bb"]]
    embroidery = plan_embroidery(shown, ("a", "b"), ThreadRule(16.0, 5.0), wraps=False)

    assert [area.cells for area in embroidery.areas] == [
        ((1, 4),),
        ((1, 1), (1, 2)),
        ((1, 7), (1, 8)),
    ]
    assert mirror_pairs(embroidery, 8, 4.5) == ((1, 2),)
    assert mirror_pairs(embroidery, 8, 4.0) == ()
