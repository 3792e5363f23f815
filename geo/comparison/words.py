"""What must be said beside every comparison."""

from geo.texts import mark

NO_CHECK = mark(
    "No untreated check is named, so no efficacy can be told: little disease after a spray may be "
    "the weather's doing. Where you can spare a few trees, leave them unsprayed, map them as a "
    "block of their own, count both on the same days and name that block with --untreated."
)
ONE_CHECK = mark(
    "One check, not repeated: the interval knows the counts and the clumping on trees, not how "
    "much two pieces of ground differ anyway. A check on lower ground or nearer to a source has "
    "more disease than the block without any spray having worked."
)
CONFOUNDED = mark(
    "Cultivar and place go together here: blocks of one cultivar also share ground, weather and "
    "sprays. A difference is not proof that a cultivar is more or less susceptible; the same trees "
    "side by side would be."
)
SPANS = mark(
    "Areas grow with the days between the first and the last look: hold the mean over those days "
    "against another block's, and only where both were looked at over the same days."
)
