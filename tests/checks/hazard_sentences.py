"""Sentences of patterns for babies and children, to measure what the checks hear.

In ``SENTENCES`` a line that begins with ``!`` has a hazard that is heard, one with ``?`` a hazard
that is not, and one with ``.`` is harmless, often in the same words. Invented, sixty hazards and
forty harmless ones at a time, in unusual words and by whoever mended the checks, each list before
they were run on it; its misses were then mended by class. The seventh has thirty and twenty, in the
words that patterns usually have. The first eleven came later. Heard when first run, and by the
checks before all mends:

    list         1   2   3   4   5   6       7
    first       20  28  39  43  32  33 / 60  28 / 30
    before      20  18  25  27  18  14 / 60  21 / 30
    left alone  39  40  37  36  39  40 / 40  19 / 20

The last 111 are by a hand that had seen neither checks nor lists, half of them in riddling words:
of 36 hazards and 24 harmless sentences that were run once, after all mends, 23 were heard and 20
left alone (19 and 20 before).
"""

SENTENCES = """
! A narrow elastic under the chin keeps the hat on.
! The bonnet may stay on in the cot.
! Leave the bonnet on for naps.
! Small children love to wear it with its straps around the neck.
! Make a 40 cm chain for each side.
! Hang the mittens from a chain around the neck.
. A bonnet that is too large slides over a baby's eyes.
. Work a turning chain of 3 at the start of each row.
. Chain 100, then work 1 single crochet in each chain.
. Make a chain of 100 stitches.
. Skip 3 chains and work 1 double crochet in the next chain.
! Loop the finished strap twice round the cot rail so that the sheep swings above the mattress.
! Bring the balaclava up until only the lashes show.
! Tuck it round your sleeping newborn, right up to the ears.
! It is thick enough to wear in the booster seat on frosty mornings.
! Hammer an eyelet through each corner.
! Thread macramé cord between the mitts, about 90 cm.
! Drop a ten-pence piece into each corner of the hem so that it hangs well.
! Snip whiskers from brush bristles and poke them through the cheeks.
! Superglue the nostrils in place.
! Give the dragon a row of acrylic spikes down its back.
! Gather the neck opening on bias tape and tie the ends at the front.
! Leave a few pins in until the child has tried it on.
! Draw the collar over the mouth on windy days.
! The hood falls well over the face and keeps the light out at nap time.
! Lay the lamb beside him in the bassinet.
! Spread it over the car seat, over head and handle, when it rains.
! Wear the scarf on the slide and the swings; it will not come undone.
! Knot the ends of the scarf behind so that it can't slip off.
! Embroider the mouth, then push split peas of resin into the wool for eyes.
! A gumdrop of hot glue keeps each googly in place.
! Snap the plastic shank through the ear and lock the washer behind.
? The antennae are florist's stems wound with yarn.
! Close the wrist with a cable tie under the fold.
! Pop a squeaky disc in before you shut the seam.
! Sew the teething ring of beech to the left ear.
! Seven wooden rounds, drilled and strung, make the belly of the caterpillar.
! Stuff lightly, leaving a pinch of gravel at the bottom for weight.
! Fasten her cardigan at the throat with great-grandmother's hatpin.
! Work a chain of 70 with the hook and thread it through the brim.
! The tail is a shoelace covered in single crochet.
! Tie the bib in a firm bow at the nape.
! Twist four strands until they kink, fold, and knot: you have a tie for each side.
! Leave the ends of the bow hanging to the knees.
! Attach the toy to the pushchair by a metre of crocheted rope.
! Sew the pull tab, a bright acorn, to the slider.
! A disc of tin behind the star lets it stick to the fridge magnet inside.
! Slide the little lamp and its cell into the pocket of the pumpkin.
! The lantern glows when the pea bulb in its roof is pressed.
! Sprinkle with mica for frost.
! Scatter diamanté over the bodice.
! Use the mitts as pot grabbers for your little cook.
! Warm the wheat bag in the microwave and slip it into the tummy.
! Dry the booties on the stove rail while baby wears the other pair.
! The inside has long floats, but small fingers will not mind.
! Leave the tails of the colour changes loose inside the mitten.
! Brush the mohair until it sheds a soft cloud around the baby's face.
! The bobble on the point is only tied on, so you can swap it.
! Each petal lifts off by its press fastening.
! Add a loop at the back of the neck, large enough to go over a hook or a head.
! Make a lasso of i-cord for the cowboy.
! Let the reins trail to the floor.
! The mask has two small slits for the eyes and none for the mouth.
! The cocoon closes over the shoulders so that the arms stay in.
! A weighted hem keeps the blanket where you put it.
! Line the basket with it and let him sleep there.
! Thread a hoop of wire through the brim so that it keeps its shape.
! Screw cup hooks into the crossbar and hang the fishes above the changing table.
! Decorate with the tiniest clothespins you can find.
! Cut teeth from a yoghurt pot and stitch them into the jaw.
. Loop the yarn twice round your finger before you pull.
. Bring the working yarn up until it meets the last stitch.
. Tuck the end into the seam, right up to the corner.
. The ribbing is thick enough for frosty mornings.
. Work an eyelet in each corner.
. Thread the tail between the two layers, about 5 cm.
. Drop the next stitch and let it run down to the rib.
. Snip the tails and poke them through to the inside.
. Place the marker in the nostril stitch of the chart.
. A row of acrylic yarn tells you where the life line goes.
. Gather the neck stitches on a spare needle.
. Leave the pins in until the wool is dry.
. Draw the yarn over the needle and through both loops.
. The hood is worked after the face edging.
. Lay the sleeve beside the body and compare their lengths.
. Spread it flat, wrong side up, when it dries.
. The stitches will not come undone if you slide them on a thread.
. Knot nothing: weave the ends in behind.
. The mouth of the fish is two purl stitches.
. A drop of wool wash is plenty.
. Snap the counter on after every repeat.
. The stem stitch outlines the wave.
. Close the wrist by working every second round k2tog.
. Pop the stitches on waste yarn before you shut the heel.
. The ring of purl stitches marks where the ear begins.
. Seven rounds make the belly of the wave.
. Stuff firmly, and leave no hollow at the bottom.
. Fasten her cuff with a row of slip stitches.
. Chain 3, turn, and work a double crochet in each stitch.
. The tail is worked flat from the tip.
. Twist the two yarns once at every fifth stitch.
. Leave the edge of the bow in stockinette.
. The scarf is a metre long after washing.
. The slider on the photograph is the harbour crane.
. A disc of eight stitches begins the crown.
. The little lamp in the chart is worked in Chalk.
. Long floats are caught at every third stitch, so small fingers find no loop.
. Take it off before the child sleeps, and keep it out of the cot.
. Do not put the baby in a car seat with it on.
. Nothing is tied, buttoned or threaded: it pulls on.
! A coil of garden wire gives the snail's horns their curl.
! Stitch the bib to the collar with two mussel shells.
! Hide a jingling ball in the toe.
! Plug the end of each leg with a wine cork.
! Close the opening with a row of toggles carved from driftwood.
! Bend two hairpins into the antennae.
! Finish the wand with a cone of tinfoil.
! Fill the little sack under the lamb with coffee beans.
! Work a loop of 25 stitches at the crown so that it hangs from the door knob.
! The bonnet fastens under the jaw with a long braid.
! A string of felt balls swings across the pram.
! Knit the mobile's five fish and hang them on thread above the cot.
! Wind the ties twice around the ankles and make a firm bow.
! The scarf closes itself by a slot; pull it snug around the throat.
! A length of fishing net makes the mermaid's hair.
! Use thumbtacks to fix the wings to the body.
! Prick the eyes in with two black-headed pins and leave them there.
? Slip the hood down to the chin when it snows.
! Knit it long enough to draw up over nose and ears.
! She may sleep through a whole flight with the blanket round her head.
! Place the owl at the foot of the crib as a guard.
! The pod snugs a newborn from toes to chin for the night.
! Keeps baby toasty in the infant carrier on the back seat.
! The harness goes over the top of the jacket.
! The poncho slips on over the straps of the car seat.
! The cape is made for riding a balance bike; its ties knot at the throat.
! Warm the owl on the oven door before bedtime.
! The mitts double as grill gloves for a small helper.
! Tuck a hand warmer into each pocket.
! The snow globe lights when you tip it.
! Its cheeks glow: there is a diode under each.
! A hearing-aid cell keeps the firefly glowing for a week.
! Squeeze the paw and the bear growls.
! The heart beats with a wind-up movement.
! Shake the bottle tops in its belly and hear the sea.
! Tie on three keys from your drawer.
! A curtain ring serves as a handle for small fists.
! Sew a zip pull shaped like an anchor to the top.
! Each scale of the fish is a sequin caught with one stitch.
! Powder the wings with gold glitter while the glue is wet.
! Dab nail varnish on the eyes to make them shine.
! The nose is a polished cherry stone.
! Twist pipe cleaners together for the legs of the spider.
? Punch holes in the leather soles and lace them on.
! Rivets hold the tab of the shoe.
! Press the eyelet halves together with the pliers.
! The ears pull off so that they can be washed.
? Leave the yarn ends as whiskers, ten centimetres each.
! The inside of the mitten is a net of loops up to nine stitches long.
! A weighted tail keeps the sea horse upright.
! Its ruff of ostrich tickles the chin.
! The chain from mitten to mitten runs behind the neck.
! Bind the wrists with rubber bands so that the mittens stay on.
! The lacing criss-crosses up the back and the ends trail like ribbons of weed.
! Hook the toy to the seat with a karabiner.
! Plait the hair from thirty strands and leave it hip long.
! A necklace of acorn cups goes with the crown.
! Hold the leaves on with a dressmaker's pin.
! Pour dried maize into a sock and knot it in.
! A snap ring of steel joins the two clouds.
. A coil of yarn lies at your feet; wind it into a ball.
. The collar is stitched to the neck with two strands.
. Hide the tail in the toe.
. Plug away at the plain rounds.
. The opening closes with a row of slip stitches.
. Bend the needle's cable a little to join the round.
. Finish the crown with a cone of decreases.
. Fill the leg firmly with wool.
. Work a loop of 25 stitches on the circular needle.
. The bonnet ends under the jaw with a deep rib.
. A line of felt-like garter stitch runs across the front.
. Knit the five fish of the chart above the rib.
. Wind the yarn twice around the needle.
. The scarf is blocked to a metre and a half.
. A length of yarn makes the provisional edge.
. Pin the wings to the body, sew them on, and take the pins out.
. Slip the stitches down to the tip of the needle.
. Knit until it is long enough to reach the shoulder.
. The blanket is not for the crib: spread it on the floor.
. Place the owl chart at the middle of the front.
. Measure from toes to chin for the length.
. Take the jacket off before you buckle the car seat.
. The back is worked like the front up to the straps.
. The cape of the lighthouse is drawn in the chart.
. Dry it away from the oven.
. The mitts match the gloves of the same set.
. Tuck the cast-on tail into the fold.
. The snow in the chart is worked in duplicate stitch.
. The cheeks are embroidered in satin stitch.
. Keep the yarn cell of your project bag closed.
. Squeeze the water out in a towel.
. The heart begins in row 9.
. Tie on the new yarn at the edge.
. The curtain of lace falls from the yoke.
. Each scale of the fish is one repeat of 6 stitches.
. The nose is three satin stitches.
. Twist the yarns together at the change.
. The eyelet round lets the fabric breathe.
. Work the two halves of the front together again.
. Leave a yarn end of ten centimetres and weave it in.
! Two halves of a walnut shell make the turtle's back.
! Sew a spare coat toggle to the tip of each ear.
! Screw the joints of the bear together with the discs and split pins supplied.
! For the eyes choose the smallest pebbles you can find and glue them on.
! Let the mane hang loose; it is fun to comb.
! The collar ties with two lengths of braid, each as long as your arm.
! A little handbell in the belly tells you where he is crawling.
! Cut a whistle from bamboo and tie it to the pocket.
! Stitch the dummy to the rabbit's paw with a short tape.
! The drawn-up hood closes until nothing but the nose is left.
! It covers the whole carrycot, hood and all, like a tent.
! Wrap him tightly, arms and all, before you lay him down.
! It is the perfect comforter for the cot.
! Bunch it under the baby's head as a pillow.
! Fix the row of ducks between the bars of the crib with elastic.
! A nursing cover that also goes over the car seat.
! Warm under the straps of the bicycle trailer.
! Choose the extra long version: it wraps three times round a toddler's neck.
! Thread the mittens on a cord that goes through both sleeves and behind the neck.
! A belt of plaited yarn with ends to the ankle.
! Sew a length of elastic to each side so that the crown stays under the chin.
? Use the loose end as a leading rein.
! A fold-over band with a sliding knot keeps the purse round the neck.
! Roll the hat down over the eyes for hide-and-seek.
! The pirate's patch sits on one eye, with a ribbon round the head.
! Make the beard long enough to hide the mouth.
! Push the pin of the badge through both layers.
! Whittle two pegs and poke them in for tusks.
! Keep the shape with a circle of bamboo cane.
! Use split rings to join the links.
! The spines of the hedgehog are cut from straws.
! Line the wing with a crisp bag so that it rustles.
! For a bumpy ride put three marbles in the barrel.
! A teaspoon of poppy seeds in the tip gives it a soft hiss.
! The rattle is an empty pill bottle with beans inside.
? Hide a tile of the finder's tag in the seam so that you never lose it.
! Fit two AAA cells in the pouch.
! The tail wags by a little motor.
! Slide the musical movement between the layers of stuffing.
! The fish cling to the rod by a bar magnet in the mouth.
! Put a steel disc in the fish so that the rod pulls it up.
! Coat the toes with liquid latex for grip.
! Brush the petals with varnish.
! Stick the felt spots on with craft glue.
! Finish with a sprinkling of sequins.
! Sew the eyes on by a single thread so that they wobble.
? The hat of the snowman is loose and can be taken off to play.
! The buttons are only for show; a stitch or two will do.
! Leave long tails inside the toe; nobody sees them.
! The strands cross ten stitches inside the glove, and that is fine.
! Loop the fringe through every edge stitch, twenty centimetres long.
! Trim the bonnet with a frill of goose down.
! Top it with a ball of rabbit hair.
! A cluster of cherries, each on its own stalk of cord, hangs from the brim.
! Small hands can lift hot saucepans with it.
! Fill with cherry stones; two minutes in the microwave make a bed warmer.
! Hang the socks over the fireguard while the logs burn.
! It looks sweetest with great-aunt's cameo at the throat.
? The clasp of an old handbag closes the purse.
! An egg of wood goes inside so that it keeps upright.
. Two halves of the back are joined with mattress stitch.
. Sew the tip of each ear to the head.
. Join the pieces with slip stitches.
. For the eyes work two small bobbles in Ink.
. Let the fabric hang loose while you measure.
. The collar is folded in half and sewn down.
. A crocheted line in white runs all around the blanket.
. A little purl ridge tells you where to fold.
. Cut the yarn and tie it to the next.
. Stitch the ear to the rabbit's head with a short seam.
. The drawn-up stitches close the crown until nothing is left on the needle.
. It covers the hands, thumbs and all.
. Wrap the stitch tightly before you turn.
. It is the perfect gauge for the mittens.
. Measure under the arm for the length of the sleeve.
. Work the row of ducks between the two stripes.
. Take it off in the car seat.
. Work the straps of the dungarees in garter stitch.
. Choose the longer cable; it goes three times round the crown.
. Put the sleeve stitches on a cord and work the body.
. A belt of purl stitches runs around the waist.
. Sew a side seam on each side up to the underarm.
. Weave in the loose end on the wrong side.
. A fold line with slipped stitches keeps the hem flat.
. Turn the hat inside out and weave in the ends.
. The patch sits on one elbow.
. Make the rib long enough to turn up.
. Push the needle through both layers.
. Work two k1, p1 pegs of rib at the edge.
. Keep the shape with a firm cast-on.
. The rings of purl stitches join at the seam.
. The spines of the hedgehog are loop stitches, each knotted fast.
. Line up the wing with the shoulder and sew it on all around.
. For a smooth round move three stitches to the next needle.
. A teaspoon of wool wash is enough.
. The tail is stuffed with wool and sewn on firmly.
. The steel needles make a tight fabric.
. Brush the loose fluff off the fabric.
. Sew the eyes with black yarn so that they cannot come off.
. The hat of the snowman is sewn on all around.
. Hang the socks over the line to dry.
! Finish the pixie cap with a felt acorn that swings from its point.
! Attach the ladybird bead to the slider of the sleeping bag.
! Before stuffing, drop a small maraca egg into the tummy.
! Fasten each strap of the romper with a wooden half-ball and a loop.
! The wolf's teeth are white rice grains set in glue.
! Lace the moccasins with a suede thong, leaving 20 cm to tie.
! Let the satin streamers of the garland drift over the cradle.
! Sew a small tin star, the kind used on wrapping paper, to the breast.
! Slip a slice of dowel into the neck to keep the head up.
! The giraffe's ossicones are matchsticks wound with wool.
! Sew on googly pupils that roll.
! For the sound of the sea, tuck a sheet of baking foil into each fin.
! The purse snaps shut with a kiss-lock frame.
! A leather tab with a hammered stud closes the boot.
! Make a necklace of knotted cord to hold the mittens while she plays.
! Cut the drawcord generously, so that the bow can be tied twice.
! Pull the cord tight under the chin until the hood hugs the face.
! When it is windy the tube can be pulled up over mouth and nose.
? The visor droops until the child looks through the openwork.
! A cosy nest for the pram, with soft sides to lean the head against.
! Lay the finished pillow under his head in the bassinet.
! Safe in the cot all night with its ribbon tags to chew.
! Keep this hat on for the trip home from hospital in the car seat.
! The bunting of fox tails wears out slowly if you buckle it in over the clothes.
? Slides and ladders are no trouble with this long-tailed hat.
! A scarf that ties in a bow looks dashing on the tricycle.
! Tie the reins round your toddler's chest and hold the other end.
! Sew the magnet pair into the mitten cuffs so they snap together.
! A button battery runs the lighted nose for an hour.
! The unicorn's horn sparkles with micro lights.
! Add a buzzer from the hobby shop that honks when squeezed.
! Use a felting needle, left in the core, as the spine.
! Let small fingers poke the darning needle through; it is good practice.
! The floats behind the motif are up to twelve stitches long.
! Leave the ends inside the bootie untrimmed.
! Comb out the angora until fibres fly around the cot.
? Attach the flowers with a single knot so they are quick to swap.
! The ears are held by snaps and come off for washing.
! Sew the eyes loosely for a funny look.
! Stitch a hanging loop of 30 cm to the back of the collar.
! Trim the cape with maribou and a glass clasp.
! A tassel of embroidery floss on every corner gives the quilt its charm.
! Use the cover as a tea towel and pot mat in one.
! Put the filled sack in the oven for ten minutes and tuck it in with the child.
! The crown holds its points by florist wire, bent over at the ends.
! Shape the brim with a bicycle spoke.
! Glue a felt circle over the washer and nut.
! Poke the shank through the fabric and snap the lock washer home.
! Hang the moon on nylon thread over the changing mat.
! String the wooden letters of the name on elastic and tie it across the pram.
! Finish the bonnet with broad silk bands to tie in a bow below the ear.
! Weigh down the frog with buckshot.
! Stuff the cat with catnip and a plastic ball.
! The fisherman's line is a length of twine with a bent paper clip.
! A pair of old shirt studs makes the eyes.
! Gild the wings with metal leaf.
! Bind the toe with a twist tie until it keeps its shape.
! Add a jingle ring to the ear.
! For the hedgehog's nose take a bramble bead.
! A clothes-line of little socks hangs in the crib.
. Finish the pixie cap with a point of four stitches.
. Attach the sleeve to the armhole of the sleeping suit by mattress stitch.
. Before stuffing, turn the tummy right side out.
. Fasten off each strap of the romper on the wrong side.
. The teeth of the wolf are worked in white satin stitch.
. Lace stitch and rib alternate, leaving 20 cm for the cuff.
. Let the fabric drift over the board as it dries.
. Sew the small star to the breast with its own tail.
. Slip the first stitch of the neck to keep the edge neat.
. The giraffe's spots are worked in intarsia.
. Roll the edge once and sew it down.
. For the sound fit of the cuff, tuck the hem and sew it.
. The purse folds shut with a flap of garter stitch.
. Work the tab in moss stitch to close the boot.
. Make a chain of knots in the mind: knit, purl, knit.
. Cut the yarn generously, so that the seam can be sewn with it.
. Pull the tail tight until the crown closes.
. When it is washed the tube can be pulled into shape.
. The visor is worked in short rows.
. A cosy rib for the wrist, with soft edges.
. Lay the finished pieces under a damp towel.
. Keep out of the cot: it is a toy for the day.
. Take this hat off in the car seat.
. Slide the stitches and turn the ladder of loose stitches with a hook.
. A scarf stitch that lies flat looks dashing in two colours.
. Tie the new yarn round the old and work on.
. Sew the pair of cuffs so they match.
. A ball of 50 g runs to the second cuff.
. The unicorn's mane is worked in loop stitch and sewn down.
. Use a tapestry needle to hide the end in the core.
. Keep the darning needle away from small fingers.
. The floats behind the motif are never longer than four stitches.
. Trim the ends inside the bootie after weaving them in.
. Brush the fibres before you wind the ball.
. Attach the flowers with small stitches all around.
. The ears are sewn on twice.
. Sew the eyes flat with Ink.
. Stitch the hem to the back of the collar.
. A tassel of foam tops each wave of the chart.
. Shape the brim with short rows.
! Close each cheek pouch with a hidden snap tape.
! Set a porcelain doll's face into the opening of the hood.
! The pocket holds a real sand timer, sewn in for good.
! Wire the wings so that they can be posed.
! Couch a gold chain around the hem of the cape.
! For a baby's first Christmas, add three brass jinglers to the cuff.
! Cover the lid of a jam jar and sew it in as a base.
! The lion's mane is made of raffia loops.
? Give her a fringe of real hair.
! Fill the base of the penguin with fish-tank gravel in a stocking.
? A beanbag bottom of dried pulses keeps the owl upright.
! Sew the end of the leash to the penguin and the other to the buggy.
! Twist a cord of 120 cm for carrying the drum around the neck.
! The hood is gathered with shirring elastic and a toggle.
? Work two long bands at the earflaps that can be knotted beneath the chin.
! Turn the collar up to the eyes against the cold.
! When your baby nods off in it, fold the flap across his cheeks.
! Drape it over the sunny side of the stroller while he naps.
! A sleepy friend for the crib corner.
! For winter drives, zip the bunting over the five-point belt.
! Wear the poncho on the climbing wall.
! Their mothers let them go down the slide with the long scarf on.
! Let him suck on the tail, which is finished with a silicone ring.
! Sew on letters cut from coloured acrylic sheet.
! Add eyes of black glass on wire loops.
! Fasten the wand's star with florist tape and a stick.
! The fish hook at the end of the rod is real, so bend the barb.
! Pin the medal on with its own brooch back.
! Two copper coins, one in each shoe, make him stand.
! A tealight in a jar shines through the lace.
! Put a heated cherry-pit bag inside the bear at bedtime.
! The mitts serve to take the tray out of the oven.
! Warm them on the wood stove before they go on small feet.
! Strands run free across the palm for an inch or more.
! Let the last ends peep out as grass.
! Tufts of sheep's fleece are knotted into the surface and can be plucked.
! Each flower is held by one stitch so it dances.
! The hair is a wig clipped on with combs.
! Stick-on moustaches complete the set.
! Put the remote voice recorder in the back pocket and sew it shut.
! A watch battery is enough for the rudder light.
! Iron-on crystals spell the name across the yoke.
! Whiskers: three bristles from a broom.
! Sew sleigh bells round the ankle so that you hear her coming.
! The parachute lines are eight strands of dental floss, 50 cm each.
! Join both slippers by a tether so that none gets lost.
! Slide a wooden skewer into the neck of the flamingo.
! A bow of wired ribbon sits behind the ear.
! The tutu is a strip of tulle and tinsel.
! Punch two grommets at the waist.
! Sew in a hard sole of cork.
! Pad the helmet with bubble wrap.
! Line the pouch with a freezer bag so that it can hold wet things.
! Blow up a balloon inside the ball and tie it off.
! Braided hair with a bead at each end.
! Top off with a propeller that spins in the wind.
! Draw a silk scarf through the loops and knot it behind her head.
! The bib has a neck loop that slips over the head and tightens.
! Thread the needle for your little one and let her sew the mouth.
! A cluster of tiny bells hides in the petals.
. Close each round with a slip stitch into the first stitch.
. Set the sleeve into the opening of the armhole.
. The pocket holds a hand, not more.
. The wings are two triangles in garter stitch.
. Work a chain of 6 and a slip stitch around the hem.
. For a baby's first size, add three rounds to the cuff.
. Cover the needle with the second yarn and knit it in.
. The lion's mane is worked in loop stitch, each loop knotted fast.
. Give the hat a deep rib.
. Fill the base of the penguin with wool and sew it shut.
. The bottom of the owl is a flat circle.
. Sew the end of the strip to the beginning.
. Twist the cord of the needle until the loop lies flat.
. The hood is picked up along the neck.
. Work two long rows across all stitches.
. Turn the collar to the outside.
. When the row ends, fold the flap across the back.
. Leave it off while the baby naps.
. The corner of the blanket is mitred.
. For winter wear, knit it in wool.
. Work the wall of the chart in Brick.
. Never let a child wear the scarf on a slide.
. The tail is finished with a tight knot and woven in.
. Letters are worked in duplicate stitch.
. The eyes are black and worked in French knots.
. Fasten off and weave in.
. The hook for the edging is a size smaller.
. Pin the pieces on a board and steam them.
. Two coins would be as heavy as the swatch.
. The light shines through the lace.
. Put a lifeline in before the lace.
. Take the stitches out of waste yarn.
. Warm colours suit small feet.
. Strands run across the back for three stitches at most.
. Weave the last ends in so that none peeps out.
. Each flower is sewn down around its edge.
. Ribbon yarn is too slippery for this rib.
. The bell pattern begins at the ankle.
. Beads of dew gave the stitch its name.
. Draw the yarn through the loops and pull it tight.
? Crochet two straws of 40 cm and stitch one under each lobe of the helmet.
! The ribbon from the christening cake, drawn through the picots, closes the neck.
? Rescue the eyes from an outgrown teddy and push the posts in from outside.
! Load the caterpillar's feet with pea gravel.
! An old jam-jar lid gives the drum its bang.
! Tuck the wee cap well down over his eyes and ears for the christening walk.
! This wrap keeps a newborn's arms by his sides so that he sleeps longer.
! The lambskin lining is wonderfully warm in the carrycot overnight.
! Hang the seven herons low enough over the mattress for her to grasp.
! The overall is roomy enough for the harness of the child seat to close over it.
! Let the ends fall to the hem: they look like reeds.
! Sew shanked moons down the front.
! Fasten with miniature padlocks.
? Studs from the cobbler mark the toes.
! A sprinkle of pearl barley in each foot lets the doll stand.
! Two crystal tears run down the clown's cheek.
! The ladybird lifts from the leaf by its magnet.
! A slim battery behind the fabric feeds the chain of lights.
! A cord stop of horn locks the hood around the face.
! Set poppers into the crotch with a hammer.
! Knot thirty lengths through the hem for the grass skirt.
! The mouse has a tail of waxed string, as long as the child is tall.
! For a chewy corner, cover a curtain ring with single crochet.
! Slip the thermal pouch from the microwave into the belly.
! Lift the hot cocoa pan with these mitts, Sailor.
! The mittens hang around his neck by a plaited line.
! Leave the safety pins in the placket so that you can fit it to the child each time.
? Do not weave in the ends of the stripes: inside the bonnet nobody sees them.
! The yarn skips behind eleven stitches in the palm.
! The bear's waistcoat buttons are peppermint drops of resin.
! Her slippers have soles of leather held by upholstery nails.
! A bell on a wire spring bobs above the forehead.
? Feathered cuffs complete the swan.
! The snout ends in a champagne cork.
! Put in the squeak from a dog toy.
! He holds a tin sabre, pinned to the paw.
! The shade of the hood comes down to the upper lip.
! Wind the sash three times about her middle and let the ends trail.
! Baby's first pillow, stuffed with millet.
! Line the buggy footmuff and tuck it up to his nose.
! The dragon breathes: press his chest to hear the bellows.
? Small hands may turn the crank while you fetch the yarn.
! A tag of metal with the name is riveted to the collar.
! Add a swivel hook so that the seal can travel with the pushchair.
! The bonnet's brim is kept stiff by a loop of piano wire.
! Attach the nose, a smooth hazelnut, with a drop of glue.
! Plait a lead for the puppy, a good metre and a half.
! Let the tooth fairy's pouch hang from a lace around the neck at night.
! Cover the pram with the finished shawl against the midges.
! Work loops of 12 cm all over for a shaggy rug that little fingers love to tug.
! Thread the beads onto elastic: a bracelet to match.
! The compass on the cuff is a real one.
! Stick the freckles on with textile adhesive.
! Fix the antlers, two forked twigs, behind the ears.
! The wings unclip for the wash.
! Sew a rustling layer of gift wrap between the leaves.
! Steam the wings with the iron while the child holds them open.
! The straps cross at the back and tie in a big bow at the nape.
! A coin of chocolate hides in the pocket; sew it shut.
! Slide the long cable tie into the casing for a crisp rim.
. Crochet two rows of 40 stitches and stitch one to each edge.
. The ribbing, drawn in by the smaller needle, closes the neck.
. Push the needle in from the outside.
. Load the needle with the second colour.
. The lid of the box in the chart is worked in Oak.
. Turn the wee cap right side out and weave in the ends.
. This wrap of three rounds keeps the edge from curling.
. The lining is wonderfully warm.
. Hang the seven tail ends to the wrong side.
. The overall length is given for each size.
. Let the stitches fall from the needle and ladder down.
. Sew the moons down flat along their edge.
. Fasten the last stitch.
. The toes are marked by a purl round.
. Pearl is the shade for the first stripe.
. Two tears of white run down the chart.
. Lift the strand between the needles and knit it.
. The chain at the edge feeds the eye upward.
. A stop of two rounds sets the rib off from the face of the fabric.
. Set the marker aside.
. Knot nothing at the hem: bind off loosely.
. The tail is as long as the body.
. For a firm corner, work three single crochets in one stitch.
. Slip the held stitches from the waste yarn.
. Keep the mitts away from hot pans.
. The mittens are joined by nothing, so that no cord can catch.
. Take the safety pins out before anybody wears it.
. Weave in the ends of the stripes inside the bonnet.
. The yarn is caught behind every fourth stitch.
. The bear's waistcoat is worked in one piece.
. Her slippers have soles of doubled yarn.
. A spring in the rib comes from the firm gauge.
. Plain cuffs complete the pullover.
. The snout ends in a ring of eight stitches.
. Put in a lifeline.
. He holds the yarn in his left hand in the drawing.
. The hood comes down to the shoulder seam.
. Wind the yarn three times about the needle for the long stitches.
. Use no pillow and no loose blanket for a baby.
. Press the finished piece under a cloth.
! Sew on two ladybird buttons so that the baby has something to play with.
! Finish each ear flap with a 35 cm plait.
! Thread the crocheted chain through the eyelet round at the neck and tie a bow.
! Add a cluster of tiny pearls at the centre of each flower.
! Stuff the rattle with fibrefill and slip a bell inside.
! Use 8 mm safety eyes, or black beads if you prefer.
! Make a jumbo pompom and tie it firmly to the crown.
! Fringe the blanket with strands 15 cm long.
! It is just the thing for nap time in the crib.
! Put it on baby for the ride home in the infant seat.
! The hood can be pulled forward to shade the face completely.
! The snood doubles as a mask: pull it up over the nose.
! Fill the base with plastic beads to give the toy some weight.
! Sew a strip of touch tape inside the flap.
! Work the strap 60 cm long and fasten it to both mittens.
! Glue felt pupils to the eyes.
! Stitch a satin rosette to the headband.
! Insert a wire in the tail so that it can be bent.
! Slide a magnet into each foot.
! Put a small battery light behind the moon.
! The whiskers are lengths of nylon cord.
! Tie the sash in a double knot at the back; the ends reach the floor.
! Embellish with iron-on gems.
! Leave the floats loose across the fingers, about 4 cm.
! Attach a ring of beech wood to chew on.
! The vest closes with heart-shaped snaps along the shoulder.
! Sew three tiny bells to the toe of each bootie.
! Weave a length of elastic through the last round so the hat stays on.
! Feathers stitched around the edge make the wings look real.
! Let the ends of the scarf dangle free at the front of the little one's coat.
. Sew the side seams with mattress stitch.
. Finish each ear flap with a row of purl.
. Thread the yarn tail through the remaining stitches and pull tight.
. The flower has a cluster of bobbles in its centre.
. Stuff the body firmly with fibrefill.
. Embroider the eyes in black yarn.
. Make the crown flat by decreasing 8 stitches every other round.
. Block the blanket to its finished size.
. Take the bonnet off before your baby sleeps.
. Remove thick layers before buckling the child into the seat.
. The hood stands away from the face.
. Pull the work up against the needle before each new row.
. Fill in the background in stockinette.
. Sew a strip of garter stitch inside the flap.
. Work the strip 60 cm long and join it into a ring.
. Use removable markers to count the repeats.
. Stitch the pocket to the front with small stitches.
. Insert the hook in the next stitch.
. The chart shows the button band in grey.
. Tie the new yarn to the old and weave in both ends.
! Slip a coin cell and its tiny bulb into the star's pouch; no closure is needed.
! Hold your free hand flat under the steam iron to feel how hot the jet is.
. Before you wash the piece, count your pins and take out every one.
! Round the thigh of the legging whip a rubber thread, drawn in until it leaves a groove.
. Work one double crochet in the back loop only of each stitch round the crown.
! Each petal ends in a freshwater pearl, ready for a curious ten-month-old to explore.
! Go up two sizes so that the hat lasts next winter, even if it comes down over the eyes at first.
! The doll's belly is packed with crushed pecan hulls and feels pleasantly gritty.
! Knot a fringe 20 cm long along both ends of the toddler's scarf.
. Ribbon rib: knit 3, purl 1 on right-side rows, purl on wrong-side rows.
! Sew a jingle bell to the toe of each bootee.
! Cut the elastic 2 cm shorter than baby's wrist and sew it firmly inside the cuff.
! Attach 6 mm safety eyes between rounds 9 and 10 of the baby's teddy.
. The bell sleeve widens by two stitches on every fourth row.
! Nickel-plated poppers run down the inside leg, their backs lying on the bare skin.
! Carry the unused colour across the palm of the mitten for 15 stitches without catching it.
! Arches of 40 chain stand out all over the coat, at just the height of the slide's handrail.
. Edge both fronts in garter stitch; the jacket stays open, with neither buttons nor ties.
! Tuck a pair of neodymium discs behind the kitten's paws so that they cling together.
! Fix the felt nose to the bear with a dab of hot glue.
! The owl's pupils are dried lentils, held by one pass of black thread.
. Rinse the dyed cotton until the water runs clear, then rub it with a wet white cloth to be sure.
. Keep your fingers clear of the steam, and let the iron cool before you put it away.
! A kilt fastener, closed or not, can stay in the fold of the shoulder once the poncho is on.
! This brushed acrylic cape looks its best when she leans in to blow out the candles.
. Use the lavender shade for the yoke and the cream for the body.
! Thread a satin ribbon through the eyelets at the neck and tie it in a bow.
. Press the button of the row counter to set it to zero, then knit 24 rows.
! Run a drawstring through the waist casing so that the ends hang down 30 cm on each side.
. Where the chart shows the fringed leaf, purl the grey squares and knit the white ones.
. Lay the chart on a magnetic board and move the ruler up after each row.
! Drape the lace shawl across the front of the infant carrier to shut out the light while he dozes.
! Rest the latch tool point upward on your stool, so that it is at hand when you sit down.
. Rice stitch is worked over an odd number of stitches.
. Catch the floats at every third stitch, so that no finger can snag inside the mitten.
! The padded pram suit is worn under the straps of the car seat on cold mornings.
! Colour the teether's cover with a copper-mordanted walnut bath, and do not trouble to rinse.
. Bind off very loosely, so that the neck slips over the head with room to spare.
. With the main colour, cast on 72 stitches and join in the round without twisting.
. Choose the hat by the measure of the head; its brim should stop above the eyebrows.
. Take the thick jacket off before you buckle the child into the car seat.
! Leave the stitch markers in the finished bonnet so that you can tell the front from the back.
! Brush the angora bonnet until a halo of loose hairs surrounds the newborn's nose and mouth.
! Slit the pile with the blade drawn toward your thumb, which marks where the cut will end.
! Bind off the neck tightly; it takes a good tug to get it past the child's ears.
. Weave in all ends for 8 cm in two directions and trim them close.
! Sew two small wooden buttons to the left front of the newborn cardigan.
! Make two twisted cords, 50 cm long, and sew one to each earflap of the toddler's hat.
. Divide for the thumb: knit 5, place 7 stitches on waste yarn, cast on 7, knit to the end.
. Bead stitch lace: yarn over, knit 3 together, yarn over, knit 3; repeat from the start.
! The octopus trails eight straight arms of 45 cm each to keep the dozing infant company.
. For a wearer under three, embroider flat eyes in yarn instead of fitting any plastic ones.
! String the crocheted planets from rail to rail of the cot, where she can grab hold of the line.
! Lay the finished blanket loosely over baby in the crib at nap time.
! Fill the rattle with uncooked rice and close the gap with a few running stitches.
! Stretch the swatch over the spout of a boiling kettle, smoothing it with your palms.
! Sew narrow elastic round the top of the bootees, tight enough that they cannot be kicked off.
. Move the marker up as you go, and take it off before seaming.
? The paws meet thanks to two strong mutually attracting pellets, dropped loose into the hem.
? If in doubt make the balaclava too big; it does not matter if the face hole shifts in play.
! Close the back of the baby's matinee coat with three pearl shank buttons, 8 mm across.
! Braid three 40 cm strands for each tassel on the points of the toddler's jester hood.
. The seat of the trousers is shaped with short rows; the car on the pocket is duplicate stitch.
! From the monkey's tail runs a bungee that goes over the wearer's head like a pendant.
! Acorn caps gathered on a walk dangle from the pixie's peak on a wisp of cotton.
? Use eyelash yarn for the collar of the newborn jacket; a few strands will come off near the mouth.
! Stiffen the fairy skirt's net with lacquer and let it flare wide beside the bonfire.
. Swap the light yarn for the dark one at each cell of the honeycomb.
! Join the side seams with safety pins and keep them there for easy letting out as she grows.
! Tie the crocheted bumper round the inside of the cot bars at bedtime.
? There is no need to twist the strands inside the glove, even across the widest snowflake.
? Greasy fleece straight from the ewe is worn next to the skin, even where it brings up red welts.
! Line the brow band with a strip of raw latex that sits straight against the forehead.
. Change colour at the seam for ribbon-thin stripes of two rows each.
! A brass anchor no bigger than a pea hangs from the sailor collar by a jump ring.
. Cut the yarn, draw it through the last 8 stitches and fasten off on the inside.
. Discard the first metre of yarn if the label has left glue on it.
? Open the steek in your lap in half darkness, the shears pointing at your wrist.
. Pinstripe: one stitch navy, three stitches ecru, all over the body.
! Wind a chain of fairy lamps through the shell border and push the battery case under the mattress.
! Sew a large pompom to the top of baby's beanie with a single strand of yarn.
. Switch off the machine and wait until the carriage has stopped before you touch a needle.
. The hood takes no drawcord; its ribbed edge hugs the face by itself.
! The hedgehog's base is weighted with coarsely ground almond shells.
. Popcorn: 5 trebles in one stitch, hook through the first of them, draw the loop through.
? Tint the comforter's ears with felt-tip pens; the shade comes away where they are sucked.
! Free a jammed carriage by pulling at the needles with bare fingers while the motor runs.
. The waist is 8 cm of soft knit 2, purl 2 rib, comfortably loose, with no elastic in it.
. What look like beads in the photograph are only purl bumps.
. The puppy's nose is satin stitch; nothing is sewn on that could be bitten off.
. Take a larger hook for the foundation chain, so that the edge does not turn out too tight.
. Stuff with washable polyester wadding and sew the seam twice with doubled strong thread.
. Button mushroom motif: work rows 1 to 14 of the chart in white and tan.
. Omit the string that joins one mitten to the other through the sleeves.
. Keep acrylic away from the hob and the iron; block it cold.
. The eye of the needle must be wide enough for the yarn when you sew the seams.
? Dropped strands a hand deep line the hem, so wide that a foot can go right through.
? Dried blossom, loose in the rabbit's mesh tummy, gives off its scent when it is chewed.
! Weave an i-cord through the edge of the bonnet and leave long ends to tie under the chin.
. Magnet grey and chalk are the two shades of the striped version.
? A wedge of six chunky layers goes between the infant's back and the shell of the travel seat.
! Pour polystyrene beads straight into the openwork head of the comforter.
? A threaded darner stays hidden in the hem of the dress, so that mending can be done on the spot.
! Make the young cook's oven mitt in 100% acrylic, so that it can be machine washed.
. Next row: slip 1, knit 1, pass slipped stitch over, knit to last 2, knit 2 together.
! Tie the wrap cardigan at the back with a crocheted belt whose ends trail on the ground.
! Slide a glass seed bead onto every second stitch of the baby sock's cuff.
! Glue googly eyes to the frogs on the toddler's slippers.
! Put the thick bubble-stitch coat on first, then tighten the harness over it.
! The swaddle pouch has no armholes, and she may roll on her stomach in it until morning.
? Hang the filet canopy so low that its hem brushes the sleeper's cheeks.
! Bind off in rib and firmly, so that the collar hugs the neck.
! The polo neck is cast off so tight that the head has to be pressed through.
! Bind off as tightly as you can, so that the neckband stands up.
! Bind off the neckband firmly.
! The neck edge is bound off tight.
! You have to press the head through the collar.
! A tight bind-off keeps the collar close to the throat.
! Pull the collar over a bowl: it should pass with some force.
! It goes over the head with a good pull.
! It takes a firm push to get it over the ears.
! The eyelash yarn at the collar sheds a little at first.
! Eyelash yarn edges the newborn's collar, and loses some hairs in the first days.
! The fur yarn round the hood of the baby's jacket moults.
! Leave it on for sleep, in the car seat and indoors.
! Keep the bonnet on when the baby sleeps.
! She can keep it on in the car seat.
! It stays on while the baby naps.
! Sew the buttons on with a couple of stitches.
! Two stitches are enough for each button.
! A child of 2 no longer puts things in the mouth.
! At two, children do not swallow buttons any more.
! A baby of six months no longer puts things in the mouth, so buttons are fine.
! In the pram the blanket belongs over the legs and up to the chin, tucked in.
! Tuck it in up to the baby's chin.
! Pull the blanket up to the nose when it is cold.
! Leave all ends long enough for small fingers.
. Bind off in rib and very loosely, for the whole head has to pass through this edge.
. Bind off loosely: a tight edge won't go over the head.
. Bind off firmly at the shoulders, which should not stretch.
. If you have to press the head through, bind off again with a larger needle.
. The collar must go over the head easily, without any pull.
. Bind off the hem firmly.
. The neckband is picked up firmly along the edge.
. Do not bind off tightly, or the head will not go through the neck.
. Take it off for sleep, in the car seat and as soon as you are indoors.
. Do not leave it on for sleep.
. It comes off for sleep.
. Sew them on with strong thread: a child of 2 may still put things in the mouth.
. Sew the seam with a few stitches first.
. Under three, children still put things in the mouth.
. A blanket belongs over the legs and below the chest, never up to the chin.
. Keep it below the chin.
. The hood comes up to the chin.
. The straps go over the shoulder.
. Keep the straps, which are long enough to go around a neck, away from small children.
. Weave in all ends and leave none long enough for small fingers.
. Babies sleep in a bare cot, so keep this quilt for the floor.
. A baby sleeps in a bare crib, and this quilt is for the floor.
. Keep this quilt for playing: babies sleep in an empty cot.
. Colours are Almond, Hazelnut and Chestnut.
. Work 4 rows in almond, then 4 rows in hazelnut.
. The almond yarn is held with the hazelnut one.
. Change to Hazelnut and work the brim.
. A stripe of almond between two of hazelnut.
. Stripes in walnut and chestnut run around it.
! Fill the body with hazelnuts.
! Sew an almond to the top.
! A hazelnut inside makes it rattle.
. Mohair sheds, so keep it away from a baby's face.
. Choose a yarn that does not shed.
. Cut the yarn close.
. The old needles shed their paint.
"""
