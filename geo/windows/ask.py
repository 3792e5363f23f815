"""Ask every rule about every block and forecast hour."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import xarray as xr

from geo.arrays import FloatArray, IntArray
from geo.reference.number import numbers
from geo.season.farm import Farm
from geo.season.label import Label
from geo.texts import phrase
from geo.windows.ask_label import label_gates, rules_not_asked
from geo.windows.ask_material import SULFUR, heat_gate_by_hour, material_gates, planned
from geo.windows.ask_places import place_gates
from geo.windows.ask_weather import weather_gates
from geo.windows.forecast import Forecast, forecast_of
from geo.windows.gate import Gate, Rule
from geo.windows.open_hours import Windows, closed_by_any
from geo.windows.rules import TABLE, heat_limit
from geo.windows.sulfur_heat import HeatGate, sulfur_heat_gate


def spray_windows(farm: Farm, season: xr.Dataset) -> Windows:
    """
    Return in which hours the planned material may be sprayed.

    Parameters
    ----------
    farm : Farm
        Settings, labels, crews and places.
    season : xarray.Dataset
        Of a disease of panicles, whose stages tell of bloom; with the layers up to phenology.

    Returns
    -------
    Windows
        Of at most the next five days.
    """
    forecast = forecast_of(farm, season)
    return _of_tank(farm, season, forecast, _of_every_tank(farm, forecast))


def windows_of_labels(farm: Farm, season: xr.Dataset) -> Iterator[tuple[Label, Windows]]:
    """
    Ask every rule about each material of the user's own label file, alone in the tank.

    Parameters
    ----------
    farm : Farm
        Settings, labels, crews and places.
    season : xarray.Dataset
        As for `spray_windows`.

    Yields
    ------
    Label
        A row of the file.
    Windows
        Of its material. What holds for every tank is asked once.
    """
    if not farm.labels:
        return
    forecast = forecast_of(farm, season)
    common = _of_every_tank(farm, forecast)
    for label in farm.labels:
        settings = replace(farm.settings, material=label.material, mixed_with="")
        yield label, _of_tank(replace(farm, settings=settings), season, forecast, common)


def _of_every_tank(farm: Farm, forecast: Forecast) -> tuple[Gate, ...]:
    return (*place_gates(farm, forecast), *weather_gates(forecast))


def _of_tank(
    farm: Farm, season: xr.Dataset, forecast: Forecast, common: tuple[Gate, ...]
) -> Windows:
    gates: list[Gate] = []
    heat = _heat(farm, season) if SULFUR in planned(farm) else None
    if heat is not None:
        column = forecast.day - _today(farm, season)
        gates.append(heat_gate_by_hour(_heat_rule(farm), heat, column))
    gates += label_gates(farm, season, forecast)
    gates += material_gates(farm, season, forecast)
    asked = (*gates, *common)
    hot_days, month_days = _month(farm, season)
    return Windows(
        start=forecast.start,
        hour=forecast.hour,
        gates=asked,
        is_closed=closed_by_any(
            asked, block_count=season.sizes["block"], hour_count=len(forecast.start)
        ),
        not_asked=rules_not_asked(farm),
        heat=heat,
        hot_days=hot_days,
        month_days=month_days,
    )


def _today(farm: Farm, season: xr.Dataset) -> int:
    first = season["day"].values[0].astype("datetime64[D]")
    return int((np.datetime64(farm.today) - first).astype(int))


def _heat_rule(farm: Farm) -> Rule:
    limit, standing = heat_limit(farm)
    title = phrase(
        "Sulfur and heat: closed if the high of the day of the spray, or of any of the three days "
        "after it, is at or above the limit; unknown is closed"
    )
    return Rule("sulfur-heat", title, limit, "degC", standing, short=phrase("Sulfur and heat"))


def _heat(farm: Farm, season: xr.Dataset) -> HeatGate:
    """Return the heat rule for today, in column 0, and the known days after it."""
    maximum = season["day_maximum_temperature"].values[:, _today(farm, season) :]
    if not maximum.shape[1]:  # no forecast: today itself is unknown
        maximum = np.full((season.sizes["block"], 1), np.nan)
    return _asked_of(farm, maximum)


def _asked_of(farm: Farm, maximum: FloatArray) -> HeatGate:
    limit, _ = heat_limit(farm)
    days_after = int(numbers(TABLE)["sulfur", "heat_days_after"].value)
    return sulfur_heat_gate(maximum, limit=limit, days_after=days_after)


def _month(farm: Farm, season: xr.Dataset) -> tuple[IntArray, int]:
    """Return what the heat rule costs: the days of this month that heat closes, by block."""
    gate = _asked_of(farm, season["day_maximum_temperature"].values)
    month = season["day"].values.astype("datetime64[M]") == np.datetime64(farm.today, "M")
    is_hot = gate.is_closed & ~np.isnan(gate.closing_value)
    return is_hot[:, month].sum(axis=1), int(month.sum())
