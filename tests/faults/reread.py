"""Sentences of the second editor's patterns that were changed once more, wrongly or soundly.

What an editor would find at the changed line is ``found``, or ``missed`` today; ``sound`` ones say
what is so in other words. Common practice, no source.
"""

# ruff: noqa: E501 - a line of a pattern stays whole, as it is looked up

from tests.faults.seeding import Fault, Swap

_Change = tuple[str, str, str, str]

CHANGES: tuple[_Change, ...] = (
    ('gull-toy', 'Fill the belly firmly through the opening before you go on.', 'The body has 36 stitches here. Fill the belly firmly before you go on.', 'found'),
    ('gull-toy', '        times: 5\n        note: There are 5 stitches left.', '        times: 5\n        note: Decrease four times in all.', 'found'),
    ('gull-toy', '        times: 5\n        note: There are 5 stitches left.', '        times: 5\n        note: Work these two rows four times.', 'found'),
    ('gull-toy', '        times: 5\n        note: There are 5 stitches left.', '        times: 5\n        note: Each wing loses 8 stitches.', 'found'),
    ('gull-toy', 'with two flat wings', 'with three flat wings', 'found'),
    ('gull-toy', 'knitted in the round from the tail to the head', 'knitted in the round from the head to the tail', 'found'),
    ('gull-toy', '30 stitches remain.', 'You have 6 stitches fewer, 32 in all.', 'found'),
    ('gull-toy', 'The body has 48 stitches at its widest', 'The body has 44 stitches at its widest', 'found'),
    ('gull-toy', 'the head 36.', 'the wings 14.', 'found'),
    ('gull-toy', 'Close the tail, and pull', 'Sew the tail seam, and pull', 'sound'),
    ('pilot-jacket', 'Sew the sleeves to the sides, then the side and sleeve seams.', 'Sew the two sleeves to the sides, then the side and sleeve seams. The neckband takes 5 rows.', 'sound'),
    ('pilot-jacket', 'Leave the back neck stitches on a holder.', 'Leave the 24 back neck stitches on a holder.', 'found'),
    ('pilot-jacket', 'Change to the larger needles and work in stockinette.', 'Change to the larger needles and work in garter stitch.', 'found'),
    ('pilot-jacket', '      - section: Body\n      - say: Change to the larger needles and work in stockinette, as for the back.', '      - section: Body\n      - say: Change to the larger needles and work in stockinette, as for the right front.', 'sound'),
    ('pilot-jacket', 'begin at the lower corner of the right front.', 'begin at the neck of the right front.', 'found'),
    ('pilot-jacket', 'Join the shoulders first. With the smaller needles and right side facing, begin at the right front.', 'Join the shoulders first. With the smaller needles and wrong side facing, begin at the right front.', 'found'),
    ('pilot-jacket', 'Join the shoulders first. With the smaller needles and right side facing, begin at the right front.', 'Join the shoulders first. With the larger needles and right side facing, begin at the right front.', 'found'),
    ('pilot-jacket', 'With the smaller needles and right side facing, begin at the neck of the left front.', 'With the larger needles and right side facing, begin at the neck of the left front.', 'found'),
    ('pilot-jacket', 'drop shoulders, five buttons', 'raglan sleeves, five buttons', 'missed'),
    ('pilot-jacket', "as the pilots' children", "worked in one piece, as the pilots' children", 'found'),
    ('pilot-jacket', 'The rib is 14 rows deep on all pieces.', 'The rib is 6 cm (2¼ in) deep on all pieces.', 'missed'),
    ('pilot-jacket', '        times: 6\n', '        times: 6\n        note: Six stitches are decreased at the neck edge.\n', 'sound'),
    ('pilot-jacket', '        times: 6\n', '        times: 6\n        note: Eight stitches are decreased at the neck edge.\n', 'found'),
    ('pilot-jacket', '        times: 6\n', '        times: 6\n        note: Decrease in every fourth row.\n', 'found'),
    ('pilot-jacket', '      - bind off: all\n        how: in rib\n  buttonhole_band', '      - bind off: all\n        how: in rib\n        note: Seven rows of rib are worked before.\n  buttonhole_band', 'sound'),
    ('purser-vest', 'Divide for the neck.', 'Divide for the neck with the right side facing.', 'sound'),
    ('purser-vest', 'Divide for the neck.', 'Divide for the neck with the wrong side facing.', 'found'),
    ('purser-vest', 'up to the armholes.', 'up to the shoulders.', 'sound'),
    ('purser-vest', 'worked flat in two pieces', 'worked flat in three pieces', 'found'),
    ('purser-vest', 'with a deep V-neck', 'with a round neck', 'missed'),
    ('purser-vest', 'The ribs are worked\n  on the smaller needles.', 'The ribs are worked\n  on the larger needles.', 'missed'),
    ('purser-vest', 'Front and back are worked from the hem up.', 'Front and back are worked from the hem up, and the ribs have 16 rows.', 'found'),
    ('purser-vest', 'Sew the side seams and the\n  ends of the armbands.', 'Sew the sleeve seams.', 'found'),
    ('purser-vest', 'Press lightly under a damp cloth.', 'Graft the shoulders.', 'missed'),
    ('purser-vest', '3 stitch holders', '2 stitch holders', 'found'),
    ('oyster-stole', 'is worked six times across', 'is worked six times across, 10 stitches each time', 'sound'),
    ('oyster-stole', 'Row 8 is a wrong-side row', 'Row 7 is a wrong-side row', 'found'),
    ('oyster-stole', 'is purled between the edges', 'is knitted between the edges', 'missed'),
    ('oyster-stole', 'The chart is worked {{ passes }} times.', 'The chart is worked 44 (54) times.', 'sound'),
    ('oyster-stole', 'The chart is worked {{ passes }} times.', 'The chart is worked 44 times.', 'found'),
    ('oyster-stole', 'with a garter edge at each side.', 'with a garter edge of 4 stitches at each side.', 'missed'),
    ('oyster-stole', 'A narrow stole of oyster shells in lace', 'A narrow stole of oyster shells in cables', 'missed'),
    ('oyster-stole', '      - section: Second edge\n      - work: k all\n        rounds: 6\n', '      - section: Second edge\n      - work: k all\n        rounds: 6\n        note: Three ridges, as at the first edge.\n', 'sound'),
    ('oyster-stole', '      - section: Second edge\n      - work: k all\n        rounds: 6\n', '      - section: Second edge\n      - work: k all\n        rounds: 6\n        note: Six ridges, as at the first edge.\n', 'found'),
    ('deck-cloth', 'The cloth is a square of 45 stitches and 70 rows.', 'The cloth is a square of 45 stitches and 60 rows.', 'found'),
    ('deck-cloth', 'work a chain of 15 for', 'with Cord, work a chain of 15 for', 'found'),
    ('deck-cloth', 'Work these rows five times in all', 'Work these ten rows five times in all', 'found'),
    ('deck-cloth', 'Work these rows five times in all', 'Begin with a right-side row, and work these rows five times in all', 'found'),
    ('deck-cloth', 'sew its\n  end down at the corner', 'sew its\n  end down at the corner with sewing thread', 'found'),
    ('capstan-warmers', 'from the ankle to the knee.', 'from the ankle to the knee, and the ribs take 14 rounds each.', 'found'),
    ('capstan-warmers', 'Cut Spray.', 'Cut Spray. Four plain rounds follow.', 'sound'),
    ('capstan-warmers', 'Cut Spray.', 'Cut Spray. Six plain rounds follow.', 'found'),
    ('capstan-warmers', 'Change to the 3.5 mm needles.', 'Change to the 3.5 mm needles and work in k1, p1 rib.', 'found'),
    ('capstan-warmers', 'Join Spray, and work the 6 rounds of the chart once.', 'Join Spray, and work the 6 rounds of the chart twice.', 'found'),
    ('capstan-warmers', 'Keep the floats loose', 'The waves are 8 rounds high. Keep the floats loose', 'found'),
    ('capstan-warmers', 'two colors under the knee', 'two colors above the ankle', 'sound'),
    ('halyard-bag', '20 stitches wide\n  each', '20 stitches wide\n  and 154 rows long each', 'sound'),
    ('halyard-bag', 'of six flat strips', 'of six flat strips worked in the round', 'missed'),
    ('bunk-blanket', 'Cut Tide and join Shell.', 'Cut Tide and join Shell. Ten rows of garter stitch end the blanket.', 'sound'),
    ('bunk-blanket', 'Cut Tide and join Shell.', 'Cut Tide and join Shell. Ten ridges of garter stitch end the blanket.', 'found'),
    ('bunk-blanket', 'Place a marker after the first 5 and before the last 5 stitches.', 'Place a marker after the first 6 and before the last 6 stitches.', 'found'),
    ('bunk-blanket', 'until the blanket has {{ tiers }} times 20 rows above the edge.', 'until the blanket has {{ tiers }} times 24 rows above the edge.', 'found'),
    ('bunk-blanket', 'on a circular needle because', 'on double-pointed needles because', 'found'),
    ('jetty-bonnet', 'Eight rows make four garter ridges.', 'Four garter ridges.', 'sound'),
    ('jetty-bonnet', 'Eight rows make four garter ridges.', 'Five garter ridges.', 'found'),
    ('jetty-bonnet', 'The bonnet is worked flat from the face edge to the back.', 'The bonnet is worked flat from the back to the brim.', 'found'),
    ('jetty-bonnet', 'Sew the sides of the flap to the bound-off edges.', 'Sew the sides of the flap to the cast-on edge.', 'missed'),
    ('jetty-bonnet', 'Mark the two front corners.', 'Mark the three front corners.', 'missed'),
    ('galley-slippers', 'Place a marker for the start of the round.', 'Place a marker for the start of the round. Cut the yarn.', 'sound'),
    ('galley-slippers', 'as\n  long as your foot', 'as\n  long as your hand', 'missed'),
)  # fmt: skip


def fault_of(change: _Change) -> Fault:
    """A change as a fault of no check in particular."""
    base, before, after, _ = change
    return Fault(after, base, "", (Swap(before, after),))
