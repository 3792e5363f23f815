"""A made round over the blocks of a farm: several sprayers, tanks, split blocks, a shed."""

from dataclasses import replace
from datetime import date, datetime, timedelta

import geopandas as gpd
import numpy as np
import shapely

from geo.rounds.day_round import DayRound, Ingredient, LeftOut, Load, SprayerDay, Stop
from geo.season.farm import Farm

HOSTILE_SPRAYER = 'Old <script>alert(1)</script> & "Big" tank'
BEES = "Bees may forage"
TANK_LITRES, ROWS, STOPS_A_LOAD = 2000.0, 24, 3
FIRST_HOUR = 6


def made_round(
    farm: Farm, *, stops: int = 12, sprayers: tuple[str, ...] = ("Airblast 1",), **changes: object
) -> DayRound:
    """Return a round that goes to the farm's blocks in turn, some of its parts changed."""
    day = farm.today
    planned = DayRound(
        day=day,
        materials=("sulfur",),
        sprayers=tuple(
            made_sprayer(farm, name, day=day, stops=stops, first=place * stops)
            for place, name in enumerate(sprayers)
        ),
        left_out=(
            LeftOut(farm.blocks.index[-1], 9, 1.24, "No time is left before the hours close."),
            LeftOut(farm.blocks.index[-2], 12, 0.31, "No open hours in a row are long enough."),
        ),
        avoided=12.5,
        bound=13.0,
        is_proven=False,
        ways="tracks",
        notes=("Spray volume is your own 900 L/ha.",),
    )
    return replace(planned, **changes)


def made_sprayer(
    farm: Farm,
    name: str,
    *,
    day: date,
    stops: int = 12,
    first: int = 0,
    amount: float | None = 5.25,
) -> SprayerDay:
    """Return a sprayer that takes three stops from each load."""
    start = datetime.combine(day, datetime.min.time()) + timedelta(hours=FIRST_HOUR)
    inside = gpd.GeoSeries(farm.blocks.representative_point(), crs=farm.crs).to_crs(4326)
    ids = list(map(str, farm.blocks.index))
    made = [_stop(number, ids, inside, start, first) for number in range(1, stops + 1)]
    loads = tuple(
        Load(
            number=number + 1,
            water="River pump" if number % 2 else "Shed tank",
            filled_from=start + timedelta(minutes=75 * number),
            filled_until=start + timedelta(minutes=75 * number + 15),
            litres=sum(stop.litres for stop in made if stop.load == number + 1),
            is_part=number == (stops - 1) // STOPS_A_LOAD,
            ingredients=(Ingredient("sulfur", amount, "" if amount is None else "kg"),),
        )
        for number in range((stops - 1) // STOPS_A_LOAD + 1)
    )
    return SprayerDay(
        sprayer=name,
        leaves=start - timedelta(minutes=20),
        returns=made[-1].finishes + timedelta(minutes=25),
        kilometres=7.36,
        spraying_hours=3.2,
        driving_hours=0.9,
        filling_hours=1.0,
        waiting_hours=0.25,
        loads=loads,
        stops=tuple(made),
        path=_path(farm, [(stop.longitude, stop.latitude) for stop in made]),
    )


def _stop(number: int, ids: list[str], inside: gpd.GeoSeries, start: datetime, first: int) -> Stop:
    # Every fourth stop goes on with the block before it, from the next load.
    place = (first + number - 1 - number // 4) % len(ids)
    starts = start + timedelta(minutes=20 * number)
    is_split = number % 4 in {0, 3}
    rows = (1, 14) if number % 4 == 3 else (15, ROWS) if number % 4 == 0 else (1, ROWS)
    return Stop(
        number=number,
        block=ids[place],
        rank=place + 2,
        load=(number - 1) // STOPS_A_LOAD + 1,
        first_row=rows[0],
        last_row=rows[1],
        rows_of_block=ROWS,
        litres=420.0 if is_split else 655.0,
        area=0.45 if is_split else 0.72,
        arrives=starts - timedelta(minutes=22 if number == 5 else 3),
        starts=starts,
        finishes=starts + timedelta(minutes=18),
        longitude=float(inside.iloc[place].x),
        latitude=float(inside.iloc[place].y),
        cautions=(BEES, "Wind near its upper limit") if number == 2 else (BEES,),
        re_entry_ends=starts + timedelta(hours=24, minutes=18),
        pre_harvest_ends=starts.date() + timedelta(days=1),
    )


def _path(farm: Farm, stops: list[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    sheds = farm.places[farm.places["kind"] == "shed"].to_crs(4326).geometry
    home = [tuple(shapely.get_coordinates(sheds.iloc[0])[0])] if len(sheds) else stops[:1]
    bends = np.array([*home, *stops, *home])
    return tuple((float(x), float(y)) for x, y in bends)
