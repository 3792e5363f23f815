"""From a farm folder to today's two orders."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import xarray as xr

from geo.inputs import read_farm
from geo.pipeline.order import ORDER
from geo.reference import fungicides, growth_stages
from geo.reference.cultivars import cultivars
from geo.rounds import SprayOrder, plan_spray_order
from geo.scouting import ScoutingOrder, plan_scouting_order
from geo.season import Farm

Say = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Outcome:
    """
    What a run decided, and everything it decided it with.

    Attributes
    ----------
    farm : Farm
        As read.
    season : xarray.Dataset
        With the variables of every layer.
    spray : SprayOrder
        Today's spray order and the cannot-now list.
    scouting : ScoutingOrder
        Today's scouting order.
    """

    farm: Farm
    season: xr.Dataset
    spray: SprayOrder
    scouting: ScoutingOrder


def run(folder: Path, *, say: Say = lambda _: None) -> Outcome:
    """
    Return today's orders for a farm folder.

    Parameters
    ----------
    folder : pathlib.Path
        Holds ``farm.toml``.
    say : callable
        Told what is being worked on.

    Returns
    -------
    Outcome
        Ready to be written.

    Raises
    ------
    InputError
        If the farm cannot be used as it stands.
    """
    say("reading the farm")
    farm, season = read_farm(
        folder,
        materials=fungicides().keys(),
        cultivars=cultivars().keys(),
        stages=growth_stages().keys(),
    )
    settings = farm.settings
    season = season.assign_attrs(
        today=farm.today.isoformat(),
        horizon_days=settings.horizon_days,
        kernel=settings.kernel,
        rain_mode=settings.rain_mode,
    )
    for layer in ORDER:
        say(layer.question)
        season = layer.add_to(season)
    say("the two orders of the day")
    return Outcome(
        farm=farm,
        season=season,
        spray=plan_spray_order(farm, season),
        scouting=plan_scouting_order(farm, season),
    )
