"""What does each part of `run.json` tell? The words stand in the file itself."""

from geo.texts import mark

PARTS = {
    "farm": mark("name of the farm"),
    "made_scenario": mark("whether the farm is made up"),
    "today": mark("local day of the last measured hour"),
    "language": mark("in which its sentences are, by its tag"),
    "zone": mark("time zone, by its IANA name"),
    "crs": mark("metric coordinate system that everything was computed in"),
    "honesty_level": mark("how far the numbers may be taken at their word"),
    "asked": mark("job and options of the command"),
    "software": mark(
        "versions that computed; the same versions, files and options give the same files"
    ),
    "parameter_set": mark("SHA-256 of each of the tool's tables of published and assumed numbers"),
    "parameters": mark("each number of those tables that is read singly, with standing and source"),
    "settings": mark("each setting as it was used"),
    "settings_standing": mark("which settings the user set, and which are the tool's own defaults"),
    "layers": mark("what was computed, in its order"),
    "files": mark("each file that was read: bytes, SHA-256, rows used and set aside"),
    "outputs": mark("each file that this job wrote beside this one: bytes, SHA-256"),
    "later": mark(
        "each file that a round, a walk or drawings asked for alone wrote beside this one after "
        "this job: bytes, SHA-256, what was asked, day, and which of the files read differ by then"
    ),
    "weather": mark("hours of weather, UTC, and how stations share the farm"),
    "cool_pools": mark("the two numbers of the cool pools, 90 % bounds, and the share of prior"),
    "ground": mark("how far the heights may be off, and blocks whose ground is poorly known"),
    "issues": mark("what was noted, repaired or set aside on reading"),
    "spray_order": mark("blocks of today's order against the chosen disease, first to last"),
    "avoidable_ha_days": mark(
        "hectare-days of index 1 that a spray today keeps out of each of them"
    ),
    "cannot_now": mark("blocks that a rule closes"),
    "within_hours_today": mark("blocks of the order that the sprayer hours of today reach"),
    "not_worth_it_now": mark("open blocks that a spray would hardly help"),
    "notes_of_the_day": mark("what the order says of itself"),
    "rules_not_asked": mark("rules that could not be asked, and why"),
    "scouting_order": mark("blocks to look at, first to last"),
    "factors": mark("the eight factors of each block for the chosen disease"),
    "hazard_ahead": mark("their product: the mean hazard index of the days ahead"),
    "diseases": mark("factors, hazard, orders and protection left of each disease"),
}
