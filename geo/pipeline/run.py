"""From a farm folder to today's two orders."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import xarray as xr

from geo.inputs import read_farm
from geo.pipeline.order import OF_A_DISEASE, OF_THE_CHOSEN, SHARED
from geo.reference import fungicides, growth_stages
from geo.reference.cultivars import cultivars
from geo.reference.diseases import DISEASES, Disease
from geo.rounds import Labelled, SprayOrder, labelled_materials, plan_spray_order
from geo.scouting import ScoutingOrder, plan_scouting_order
from geo.season import Farm
from geo.season.disease import FIRST, season_of_disease
from geo.texts import phrase, phrase_of
from geo.windows import Windows, spray_windows

Say = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Orders:
    """
    What is decided today about one disease.

    Attributes
    ----------
    spray : SprayOrder
        Today's spray order and the cannot-now list.
    scouting : ScoutingOrder
        Today's scouting order.
    """

    spray: SprayOrder
    scouting: ScoutingOrder


@dataclass(frozen=True, slots=True)
class Outcome:
    """
    What a run decided, and everything it decided it with.

    Attributes
    ----------
    farm : Farm
        As read.
    seasons : dict of str to xarray.Dataset
        By the disease's key: with the variables of every layer. What diseases share is the very
        same array in each.
    orders : dict of str to Orders
        By the disease's key.
    windows : Windows
        In which hours the planned material may be sprayed, and which rule closes the others.
    materials : tuple of Labelled
        What the rules say of each material of the user's label file.
    """

    farm: Farm
    seasons: dict[str, xr.Dataset]
    orders: dict[str, Orders]
    windows: Windows
    materials: tuple[Labelled, ...] = ()

    @property
    def season(self) -> xr.Dataset:
        """
        Return the season of the disease that the settings choose.

        Returns
        -------
        xarray.Dataset
            Ranked.
        """
        return self.seasons[self.farm.settings.disease]

    @property
    def spray(self) -> SprayOrder:
        """
        Return the spray order of today against that disease.

        Returns
        -------
        SprayOrder
            With its cannot-now list.
        """
        return self.orders[self.farm.settings.disease].spray

    @property
    def scouting(self) -> ScoutingOrder:
        """
        Return the scouting order of today for that disease.

        Returns
        -------
        ScoutingOrder
            First to last.
        """
        return self.orders[self.farm.settings.disease].scouting


def run(folder: Path, *, say: Say = lambda _: None) -> Outcome:
    """
    Return today's orders for a farm folder, disease by disease.

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
    farm, season = read(folder, say=say)
    return decided(farm, season, say=say)


def read(folder: Path, *, say: Say = lambda _: None) -> tuple[Farm, xr.Dataset]:
    """
    Return a farm and its season as the layers take it.

    Parameters
    ----------
    folder : pathlib.Path
        Holds ``farm.toml``.
    say : callable
        Told what is being worked on.

    Returns
    -------
    Farm
        As read.
    xarray.Dataset
        The season as read, with the settings that layers heed among its attributes.

    Raises
    ------
    InputError
        If the farm cannot be used as it stands.
    """
    say(phrase("reading the farm"))
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
        wind_rose=settings.wind_rose,
        rain_mode=settings.rain_mode,
        **{
            name: value
            for name in ("sprayer", "reapply_line")
            if (value := getattr(settings, name)) is not None
        },
        wetness_rule=settings.wetness_rule,
    )
    return farm, season


def decided(farm: Farm, season: xr.Dataset, *, say: Say = lambda _: None) -> Outcome:
    """
    Return today's orders for a season, disease by disease.

    Parameters
    ----------
    farm : Farm
        For the settings.
    season : xarray.Dataset
        As `read` gives it, or with something supposed about it.
    say : callable
        Told what is being worked on.

    Returns
    -------
    Outcome
        Pure: the same for the same farm and season.
    """
    for layer in SHARED:
        say(phrase_of(layer.question))
        season = layer.add_to(season)
    seasons = {
        disease.key: _of_disease(season, disease, farm.settings.disease, say=say)
        for disease in DISEASES
    }
    say(phrase("which rule closes which hour"))
    windows = spray_windows(farm, seasons[FIRST])
    say(phrase("the orders of the day"))
    orders = {
        key: Orders(plan_spray_order(farm, of_it, windows), plan_scouting_order(farm, of_it))
        for key, of_it in seasons.items()
    }
    return Outcome(
        farm=farm,
        seasons=seasons,
        orders=orders,
        windows=windows,
        materials=labelled_materials(farm, seasons[FIRST]),
    )


def _of_disease(season: xr.Dataset, disease: Disease, chosen: str, *, say: Say) -> xr.Dataset:
    season = season_of_disease(season, disease.key)
    for layer in (*OF_A_DISEASE, *(OF_THE_CHOSEN if disease.key == chosen else ())):
        say(f"{phrase_of(disease.name)}: {phrase_of(layer.question)}")
        season = layer.add_to(season)
    return season
