"""The phenology layer of the season."""

from collections.abc import Sequence

import numpy as np
import xarray as xr

from geo.arrays import FloatArray, IntArray
from geo.phenology.doubt import POINT, logarithm_doubt, progress_doubt
from geo.phenology.flushes import Flushes, flushes
from geo.phenology.stage import average_over_portions, days_from_sight, mean_progress
from geo.phenology.thermal_time import thermal_days
from geo.reference.growth_stages import StageScale, growth_stages, stage_scale
from geo.reference.number import values
from geo.season import variables as v
from geo.season.disease import disease_key
from geo.season.layer import Layer
from geo.season.today import today_of
from geo.season.visits import looks
from geo.texts import mark

BLOCKS_AT_ONCE = 2000  # our own choice; the result does not depend on it


def _compute(season: xr.Dataset) -> xr.Dataset:
    """Take blocks in groups whose working arrays stay near the processor; each is by itself."""
    count = season.sizes["block"]
    if count <= BLOCKS_AT_ONCE:
        return _of_blocks(season)
    season = season[[variable.name for variable in PHENOLOGY.needs]]
    groups = [
        _of_blocks(_group(season, first, min(first + BLOCKS_AT_ONCE, count)))
        for first in range(0, count, BLOCKS_AT_ONCE)
    ]
    return xr.concat(groups, dim="block")


def _group(season: xr.Dataset, first: int, last: int) -> xr.Dataset:
    """Return a run of blocks with their own observations."""
    block = season.portion_block.values
    group = season.isel(block=slice(first, last), portion=(block >= first) & (block < last))
    return group.assign(portion_block=group.portion_block - first)


def _of_blocks(season: xr.Dataset) -> xr.Dataset:
    scale = stage_scale(disease_key(season))
    doubt = values("growth_stages", "stage doubt")
    seen = _seen(season, scale)
    progress, unsure = _of_flushes(season, scale, seen, doubt)
    mixture, newest = _mixtures(season, seen)

    def of_portion(place: FloatArray, unsure: FloatArray) -> list[FloatArray]:
        width = POINT * unsure
        susceptible = [
            at(one, scale.progress, scale.susceptibility)
            for one in (place - width, place, place + width)
        ]
        return [place, unsure, at(place, scale.progress, scale.size), *susceptible]

    of_flush = (progress, unsure)
    place, unsure, size, early, susceptibility, late = average_over_portions(
        of_flush, mixture, seen, of_portion=of_portion
    )
    if newest is not mixture:
        _, _, size, *_ = average_over_portions(of_flush, newest, seen, of_portion=of_portion)
    unseen = np.isnan(place)
    given = {
        v.STAGE_PROGRESS: place,
        v.STAGE_PROGRESS_DOUBT: unsure,
        v.STAGE_SUSCEPTIBILITY: np.where(unseen, scale.unknown_susceptibility, susceptibility),
        v.STAGE_DOUBT: np.where(
            unseen,
            doubt["unseen"],
            logarithm_doubt(early, susceptibility, late),
        ),
        # Unknown stage: taken as full size, so that no growth is blamed on the spray.
        v.ORGAN_SIZE: np.where(unseen, 1.0, size),
        v.DAYS_SINCE_STAGE_SEEN: _age(season, seen),
    }
    return xr.Dataset({variable.name: (variable.dims, array) for variable, array in given.items()})


def _seen(season: xr.Dataset, scale: StageScale) -> Flushes:
    """Return what was seen of the disease's organ; codes of other organs are left out."""
    known = growth_stages()
    stages = [known[code] for code in season.portion_stage.values.tolist()]
    is_its = np.array([stage.scale == scale.scale for stage in stages], dtype=bool)
    return flushes(
        season.portion_block.values[is_its],
        season.portion_day.values[is_its],
        flush=np.array([stage.flush for stage in stages], dtype=np.int64)[is_its],
        progress=np.array([stage.progress for stage in stages], dtype=float)[is_its],
        weight=season.portion_share.values[is_its].astype(float),
        begins_anew=scale.scale == "leaf",
    )


def _of_flushes(
    season: xr.Dataset, scale: StageScale, seen: Flushes, doubt: dict[str, float]
) -> tuple[FloatArray, FloatArray]:
    """Return place and doubt of each flush and day."""
    elapsed = thermal_days(
        season.day_mean_temperature.values,
        base_temperature=scale.base_temperature,
        reference_temperature=scale.reference_temperature,
    ).cumsum(axis=1)[seen.block]
    found = looks(
        seen.seen_flush,
        seen.seen_day,
        subject_count=len(seen.block),
        day_count=season.sizes["day"],
    )
    unsure = progress_doubt(
        days_from_sight(found, elapsed), when_seen=doubt["when_seen"], of_rate=doubt["of_rate"]
    )
    return mean_progress(found, seen.seen_progress, elapsed), unsure


def _mixtures(season: xr.Dataset, seen: Flushes) -> tuple[IntArray, IntArray]:
    """
    Return which visit's mixture holds on each day, and which for the size.

    Tissue of a flush that came later carries nothing of an earlier spray. So where several flushes
    were seen, sizes of all days are those of the newest mixture, followed back in time.
    """
    block_count, day_count = season.sizes["block"], season.sizes["day"]
    found = looks(seen.visit_block, seen.visit_day, subject_count=block_count, day_count=day_count)
    following = np.where(found.has_following, found.following, -1)
    mixture = np.where(found.has_last, found.last, following)
    has_several = np.bincount(seen.block, minlength=block_count) > 1
    if not has_several.any():
        return mixture, mixture
    newest = np.full(block_count, -1)
    newest[seen.visit_block] = np.arange(len(seen.visit_block))
    return mixture, np.where(has_several[:, None], newest[:, None], mixture)


def _age(season: xr.Dataset, seen: Flushes) -> FloatArray:
    newest = np.full(season.sizes["block"], -np.inf)
    np.maximum.at(newest, seen.visit_block, seen.visit_day)
    age = np.maximum(today_of(season) - newest, 0.0)
    return np.where(np.isinf(newest), np.nan, age)


def at(place: FloatArray, scale: Sequence[float], of_scale: Sequence[float]) -> FloatArray:
    """
    Return a property of the stages at given places, linear between them.

    Parameters
    ----------
    place : [d]
        Any shape.
    scale : [d]
        Places of the stages, in order.
    of_scale : [any]
        The property there.

    Returns
    -------
    [any]
        Shape of the places; beyond the scale its ends hold.
    """
    found: FloatArray = np.interp(place, scale, of_scale)
    return found


PHENOLOGY = Layer(
    name="phenology",
    question=mark("how far the organ that the disease attacks has grown"),
    needs=(
        v.DAY_MEAN_TEMPERATURE,
        v.PORTION_BLOCK,
        v.PORTION_DAY,
        v.PORTION_STAGE,
        v.PORTION_SHARE,
        v.HOUR_DAY,
        v.IS_FORECAST,
    ),
    gives=(
        v.STAGE_PROGRESS,
        v.STAGE_PROGRESS_DOUBT,
        v.STAGE_SUSCEPTIBILITY,
        v.STAGE_DOUBT,
        v.ORGAN_SIZE,
        v.DAYS_SINCE_STAGE_SEEN,
    ),
    compute=_compute,
)
