"""The vocabulary of bloom, protection, spores, infection and rank."""

from geo.season.dimensions import (
    ARRIVAL,
    BAND,
    BLOCK,
    COLUMN,
    COMPASS,
    DAY,
    FACTOR,
    ROW,
    RULE,
    SOURCE,
    SPLASH_PAIR,
    SPOT,
    SPRAY,
    WIND_PAIR,
)
from geo.season.variable import Variable
from geo.texts import mark

# phenology ------------------------------------------------------------------------------------
STAGE_PROGRESS = Variable(
    "stage_progress", "d", (BLOCK, DAY), "Mean place on the organ's scale of reference days"
)
STAGE_PROGRESS_DOUBT = Variable(
    "stage_progress_doubt", "d", (BLOCK, DAY), "Standard deviation of that place, NaN if none", 0
)
STAGE_SUSCEPTIBILITY = Variable(
    "stage_susceptibility", "1", (BLOCK, DAY), "Susceptible share of the organ by stage", 0, 1
)
STAGE_DOUBT = Variable(
    "stage_doubt",
    "1",
    (BLOCK, DAY),
    "Standard deviation of that share's logarithm, as the stage is unsure",
    0,
)
ORGAN_SIZE = Variable(
    "organ_size", "1", (BLOCK, DAY), "Size of the organ as a share of full size", 0, 1
)
DAYS_SINCE_STAGE_SEEN = Variable(
    "days_since_stage_seen", "d", (BLOCK,), "Age of the newest stage observation, NaN if none", 0
)

# protection -----------------------------------------------------------------------------------
PROTECTION_LEFT = Variable(
    "protection_left", "1", (BLOCK, DAY), "Share of infections the sprays still prevent", 0, 0.95
)

SPRAY_LEFT = Variable(
    "spray_left", "1", (SPRAY,), "Share of infections a spray still prevents now", 0, 1
)
RAIN_TO_REAPPLY = Variable(
    "rain_to_reapply",
    "mm",
    (BLOCK,),
    "Rain that brings protection down to the reapply line; NaN without a spray",
    0,
)
DRY_DAYS_TO_REAPPLY = Variable(
    "dry_days_to_reapply",
    "d",
    (BLOCK,),
    "Days without rain or growth that bring it there; NaN without a spray",
    0,
)
CURED = Variable(
    "cured", "1", (BLOCK, DAY), "Share of young hidden infections that the day's sprays stop", 0, 1
)
CURED_AGE = Variable("cured_age", "d", (BLOCK, DAY), "How old those may be; 0 for protectants", 0)

# dispersal ------------------------------------------------------------------------------------
# Near pairs of block and source: `geo.dispersal.exchange` says what the parts are.
WIND_PAIR_BLOCK = Variable("wind_pair_block", "1", (WIND_PAIR,), "Block a near source gives to", 0)
WIND_PAIR_SOURCE = Variable("wind_pair_source", "1", (WIND_PAIR,), "That source", 0)
WIND_PAIR_SHARE = Variable(
    "wind_pair_share",
    "1",
    (WIND_PAIR,),
    "What wind brings from it, were all of its tissue shedding spores",
    0,
    1.0001,
)
WIND_PAIR_STILL = Variable(
    "wind_pair_still", "1", (WIND_PAIR,), "Part that the far grid brings whatever the wind"
)
WIND_PAIR_TURNING = Variable(
    "wind_pair_turning", "1", (WIND_PAIR,), "Part that the far grid brings with the wind"
)
SPLASH_PAIR_BLOCK = Variable(
    "splash_pair_block", "1", (SPLASH_PAIR,), "Block that rain splashes spores into", 0
)
SPLASH_PAIR_SOURCE = Variable("splash_pair_source", "1", (SPLASH_PAIR,), "Their source", 0)
SPLASH_PAIR_SHARE = Variable(
    "splash_pair_share",
    "1",
    (SPLASH_PAIR,),
    "What splash brings from it, were all of its tissue shedding spores",
    0,
    1.0001,
)

# infection ------------------------------------------------------------------------------------
LATENT_DAYS = Variable(
    "latent_days", "d", (), "Shortest latent period, infinite where infection stays quiescent", 0
)
LATENCY_RATE = Variable(
    "latency_rate", "d-1", (BLOCK, DAY), "Share of the latent period that the day completes", 0
)
SPORE_RELEASE = Variable(
    "spore_release", "1", (BLOCK, DAY), "What heat leaves of the spores that are shed", 0, 1
)
EVENT_RAIN = Variable(
    "event_rain", "mm", (DAY,), "Largest total of a rain up to the day, where it brings conidia", 0
)
FAVOURABILITY_AT_SPOT = Variable(
    "favourability_at_spot", "1", (SPOT, DAY), "Share of a perfect day at a weather spot", 0, 1.0001
)
FAVOURABILITY = Variable(
    "favourability", "1", (BLOCK, DAY), "Share of a perfect day for the disease", 0, 1
)
SITE_FAVOURABILITY = Variable(
    "site_favourability", "1", (BLOCK, DAY), "The same without the cool pool", 0, 1
)
SEASON_FAVOURABILITY_GRID = Variable(
    "season_favourability_grid",
    "1",
    (ROW, COLUMN),
    mark("Mean share of a perfect mildew day at each cell, from the first day to today"),
    0,
    1,
)
CULTIVAR_SUSCEPTIBILITY = Variable(
    "cultivar_susceptibility", "1", (BLOCK,), "Prior rating of the cultivars present", 0, 1
)
CULTIVAR_DOUBT = Variable(
    "cultivar_doubt", "1", (BLOCK,), "Standard deviation of the logarithm of that rating", 0
)
AGE_SUSCEPTIBILITY = Variable(
    "age_susceptibility", "1", (BLOCK,), "Weight of the trees' age: neutral until published", 0
)

# epidemic -------------------------------------------------------------------------------------
SPORULATING = Variable(
    "sporulating", "1", (SOURCE, DAY), "Share of a source's tissue that sheds spores", 0, 1.0001
)
HIDDEN_INFECTION = Variable(
    "hidden_infection",
    "1",
    (BLOCK, DAY),
    "Share of the tissue infected but not visible",
    0,
    1.0001,
)
NEW_INFECTION = Variable(
    "new_infection", "1", (BLOCK, DAY), "Share of the tissue newly infected on the day", 0, 1.0001
)
COUNT_WORTH = Variable(
    "count_worth", "1", (BLOCK, DAY), "Counted organs that the shedding share is worth", 0
)
HOME_INOCULUM = Variable(
    "home_inoculum",
    "1",
    (BLOCK, DAY),
    "Spores of the block and the background, in multiples of the background",
    0,
)
INCOMING_INOCULUM = Variable(
    "incoming_inoculum",
    "1",
    (BLOCK, DAY),
    "Spores from other sources on the map, in multiples of the background",
    0,
)
HAZARD = Variable("hazard", "1", (BLOCK, DAY), "Daily hazard index of the disease on its organ", 0)
ALREADY_IN = Variable(
    "already_in",
    "d",
    (BLOCK,),
    "Hidden infection, in days of hazard index 1 that bring it",
    0,
)
TO_COME = Variable(
    "to_come", "d", (BLOCK,), "Infection expected on the days ahead, in the same unit", 0
)
ARRIVAL_BLOCK = Variable("arrival_block", "1", (ARRIVAL,), "Block that today's spores reached", 0)
ARRIVAL_SOURCE = Variable("arrival_source", "1", (ARRIVAL,), "Source that shed them", 0)
ARRIVAL_SHARE = Variable(
    "arrival_share", "1", (ARRIVAL,), "Share of all spores that reach the block today", 0, 1.0001
)
ARRIVAL_REST = Variable(
    "arrival_rest", "1", (BLOCK,), "Share of the small and far sources together", 0, 1.0001
)
ARRIVAL_HOME = Variable("arrival_home", "1", (BLOCK,), "Share of the block itself", 0, 1.0001)
ARRIVAL_BACKGROUND = Variable(
    "arrival_background", "1", (BLOCK,), "Share from everywhere beyond the map", 0, 1.0001
)
ARRIVAL_FROM_BAND = Variable(
    "arrival_from_band", "1", (BLOCK, BAND), "Share from other outlines, by distance", 0, 1.0001
)
ARRIVAL_FROM_COMPASS = Variable(
    "arrival_from_compass",
    "1",
    (BLOCK, COMPASS),
    "Share from other outlines, by the side they lie on",
    0,
    1.0001,
)

# rules ----------------------------------------------------------------------------------------
RULE_READING = Variable(
    "rule_reading", "any", (RULE, BLOCK, DAY), "What a rival rule says, in that rule's own unit", 0
)

# ranking --------------------------------------------------------------------------------------
FACTORS = Variable("factors", "1", (BLOCK, FACTOR), "The eight factors of the hazard to come", 0)
HAZARD_AHEAD = Variable(
    "hazard_ahead", "1", (BLOCK,), "Mean daily hazard index over the days ahead", 0
)
DAYS_SINCE_LOOK = Variable(
    "days_since_look", "d", (BLOCK,), "Days since panicles were last counted, NaN if never", 0
)
DOUBT = Variable("doubt", "1", (BLOCK,), "Standard deviation of the logarithm of that hazard", 0)
QUIESCENT_LOAD = Variable(
    "quiescent_load", "1", (BLOCK,), "Hazard on fruit added up since fruit set; NaN elsewhere", 0
)
LATE_LOAD = Variable(
    "late_load", "1", (BLOCK,), "What heavy rains of the last month weigh on top of it", 0
)
