"""Every disease of every block as CSV: how large, which rank, how doubtful, what is already in."""

from collections.abc import Sequence
from pathlib import Path

import numpy as np

from geo.exports.farm_title import scenario_words
from geo.exports.files import write_text
from geo.exports.order_tables import LEVEL, as_csv
from geo.exports.page_classes import class_word
from geo.exports.page_risk import Risk
from geo.ranking.doubt import spread
from geo.season.farm import Farm
from geo.season.today import today_index
from geo.texts import phrase_of

# Column of the table and variable of the season; what is by day is taken today.
OF_BLOCK = {
    "hazard_index": "hazard_ahead",
    "already_in_days": "already_in",
    "to_come_days": "to_come",
    "days_since_look": "days_since_look",
    "days_since_stage_seen": "days_since_stage_seen",
    "rain_to_reapply_mm": "rain_to_reapply",
    "dry_days_to_reapply": "dry_days_to_reapply",
    "fruit_load": "quiescent_load",
    "fruit_load_of_late_rain": "late_load",
}
OF_TODAY = {
    "favourability_today": "favourability",
    "susceptible_share_today": "stage_susceptibility",
    "protection_left_today": "protection_left",
}
COLUMNS = (
    "farm",
    "today",
    "block_id",
    "name",
    "disease",
    "spray_rank",
    "scouting_rank",
    "class",
    "times_more_or_less",
    *OF_BLOCK,
    *OF_TODAY,
    "honesty_level",
    "scenario",
)


def write_risks(path: Path, *, farm: Farm, risks: Sequence[Risk]) -> None:
    """
    Write one row a disease and block.

    Parameters
    ----------
    path : pathlib.Path
        Of the CSV.
    farm : Farm
        For the blocks' names.
    risks : sequence of Risk
        Of each disease.
    """
    rows = [row for risk in risks for row in _rows(farm, risk)]
    write_text(path, as_csv(COLUMNS, rows))


def _rows(farm: Farm, risk: Risk) -> list[list[object]]:
    season, today = risk.season, today_index(risk.season)
    sprays = {entry.block: entry.rank for entry in risk.spray.entries}
    walks = {entry.block: entry.rank for entry in risk.scouting.entries}
    blocks = [str(block) for block in season["block"].values]
    names = [str(name) for name in farm.blocks.loc[blocks, "name"]]
    hazard, doubt = season["hazard_ahead"].values, season["doubt"].values
    within = np.where(np.isfinite(hazard) & (hazard > 0), spread(doubt), np.nan)
    columns = [
        *(season[name].values.tolist() for name in OF_BLOCK.values()),
        *(season[name].values[:, today].tolist() for name in OF_TODAY.values()),
    ]
    return [
        [
            farm.name, farm.today, block, names[place], risk.disease.name,
            sprays.get(block), walks.get(block), class_word(float(hazard[place])),
            float(within[place]), *(column[place] for column in columns), phrase_of(LEVEL),
            scenario_words(farm),
        ]
        for place, block in enumerate(blocks)
    ]  # fmt: skip
