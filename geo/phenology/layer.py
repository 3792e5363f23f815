"""The phenology layer of the season."""

import numpy as np
import xarray as xr

from geo.arrays import FloatArray, IntArray
from geo.phenology.stage import average_over_portions, mean_progress
from geo.phenology.thermal_time import thermal_days
from geo.reference.growth_stages import growth_stages
from geo.reference.number import values
from geo.season import variables as v
from geo.season.layer import Layer
from geo.season.today import today_of
from geo.season.visits import looks


def _compute(season: xr.Dataset) -> xr.Dataset:
    timing = values("growth_stages", "thermal time")
    stages = growth_stages().values()
    place = np.array([stage.progress for stage in stages])
    block, day, mean, offset, share = _observations(season)
    seen = looks(block, day, subject_count=season.sizes["block"], day_count=season.sizes["day"])
    elapsed = thermal_days(
        season.day_mean_temperature.values,
        base_temperature=timing["base_temperature"],
        reference_temperature=timing["reference_temperature"],
    ).cumsum(axis=1)
    progress = mean_progress(seen, mean, elapsed)

    def over_portions(of_stage: list[float]) -> FloatArray:
        scale = (place, np.array(of_stage))
        return average_over_portions(progress, seen, offset=offset, share=share, scale=scale)

    susceptibility = over_portions([stage.susceptibility for stage in stages])
    size = over_portions([stage.size for stage in stages])
    unseen = np.isnan(progress)
    today = today_of(season)
    newest = np.full(season.sizes["block"], -np.inf)
    np.maximum.at(newest, block, day)
    return xr.Dataset(
        {
            v.STAGE_PROGRESS.name: (v.STAGE_PROGRESS.dims, progress),
            v.STAGE_SUSCEPTIBILITY.name: (
                v.STAGE_SUSCEPTIBILITY.dims,
                np.where(unseen, timing["unknown_susceptibility"], susceptibility),
            ),
            # Unknown stage: taken as full size, so that no growth is blamed on the spray.
            v.ORGAN_SIZE.name: (v.ORGAN_SIZE.dims, np.where(unseen, 1.0, size)),
            v.DAYS_SINCE_STAGE_SEEN.name: (
                v.DAYS_SINCE_STAGE_SEEN.dims,
                np.where(np.isinf(newest), np.nan, np.maximum(today - newest, 0.0)),
            ),
        }
    )


def _observations(
    season: xr.Dataset,
) -> tuple[IntArray, IntArray, FloatArray, FloatArray, FloatArray]:
    """Return block, day, mean place, offsets and shares of each observation, sorted."""
    places = {code: stage.progress for code, stage in growth_stages().items()}
    place = np.array([places[code] for code in season.portion_stage.values.tolist()], dtype=float)
    where = np.stack([season.portion_block.values, season.portion_day.values], axis=1)
    visits, visit = np.unique(where, axis=0, return_inverse=True)
    weight = season.portion_share.values.astype(float)
    total = np.bincount(visit, weight, minlength=len(visits))
    mean = np.bincount(visit, weight * place, minlength=len(visits)) / total
    order = np.argsort(visit, kind="stable")
    position = np.empty_like(visit)
    first = np.searchsorted(visit[order], np.arange(len(visits)))
    position[order] = np.arange(visit.size) - first[visit[order]]
    shape = (len(visits), int(position.max(initial=0)) + 1)
    offset, share = np.zeros(shape), np.zeros(shape)
    offset[visit, position] = place - mean[visit]
    share[visit, position] = weight / total[visit]
    return visits[:, 0].astype(np.int64), visits[:, 1].astype(np.int64), mean, offset, share


PHENOLOGY = Layer(
    name="phenology",
    question="how far the bloom is",
    needs=(
        v.DAY_MEAN_TEMPERATURE,
        v.PORTION_BLOCK,
        v.PORTION_DAY,
        v.PORTION_STAGE,
        v.PORTION_SHARE,
        v.HOUR_DAY,
        v.IS_FORECAST,
    ),
    gives=(v.STAGE_PROGRESS, v.STAGE_SUSCEPTIBILITY, v.ORGAN_SIZE, v.DAYS_SINCE_STAGE_SEEN),
    compute=_compute,
)
