"""What a run decided for a made cooperative, laid out side by side to any number of blocks."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TypeVar

import geopandas as gpd
import numpy as np
import pandas as pd
import xarray as xr

from geo.arrays import AnyArray, FloatArray, IntArray
from geo.bench.many_blocks import (
    CELL_M,
    HALO_M,
    SEED,
    SPACING_M,
    SYSTEM,
    make_many_blocks,
    many_outlines,
)
from geo.exports.page_risk import Risk
from geo.pipeline.run import Outcome, run
from geo.rounds.materials import Labelled
from geo.rounds.order import CannotNow, NotRanked, NotWorth, SprayEntry, SprayOrder
from geo.scouting.order import ScoutingEntry, ScoutingOrder
from geo.season.farm import Farm
from geo.windows.open_hours import Windows

SIDE = 50  # blocks along a piece that the whole job is run on
PIECE = SIDE * SIDE
# Standard deviation of the logarithm of what makes the numbers of each piece its own.
OWN = 0.1
# Dimensions along which several places may belong to one block, and the variable that says which.
OF_BLOCKS = {
    "spray": "spray_block",
    "portion": "portion_block",
    "visit": "visit_block",
    "arrival": "arrival_block",
    "cover": "cover_block",
}
HAZARDS = ("hazard", "hazard_ahead", "already_in", "to_come", "favourability")

Entry = TypeVar("Entry", SprayEntry, CannotNow, NotWorth, NotRanked, ScoutingEntry)


@dataclass(frozen=True)
class Pages:
    """
    What the map page of many blocks is made from.

    Attributes
    ----------
    farm : Farm
        Outlines and names.
    risks : list of Risk
        Of each disease, the chosen one first.
    windows : Windows
        In which hours which rule closes which block.
    materials : tuple of Labelled
        What the rules say of each material.
    """

    farm: Farm
    risks: list[Risk]
    windows: Windows
    materials: tuple[Labelled, ...]


def one_piece() -> Outcome:
    """
    Run the whole job on one piece of the cooperative.

    Returns
    -------
    Outcome
        Of `PIECE` blocks.
    """
    with TemporaryDirectory() as folder:
        make_many_blocks(Path(folder), PIECE)
        return run(Path(folder))


def laid_out(piece: Outcome, count: int) -> Pages:
    """
    Lay a piece out side by side, until there are enough blocks.

    Parameters
    ----------
    piece : Outcome
        As `one_piece` gives it.
    count : int
        Blocks wanted.

    Returns
    -------
    Pages
        Hazards differ from piece to piece by a little chance, and blocks stand in another order in
        each, so that nothing repeats within the window in which deflate looks. Sentences are those
        of the piece: of so many real blocks more would differ.
    """
    shuffled = _shuffled(count)
    of_piece = shuffled.ravel()[:count]
    ids = [f"B{number:06d}" for number in range(count)]
    noise = np.random.default_rng(SEED).lognormal(0.0, OWN, count)
    farm = _farm(piece.farm, ids, of_piece)
    order = sorted(piece.seasons, key=lambda key: key != piece.farm.settings.disease)
    stands = np.argsort(shuffled, axis=1) + PIECE * np.arange(len(shuffled))[:, None]
    places = dict(zip(map(str, piece.season["block"].values), stands.T.tolist(), strict=True))
    place = {block: [at for at in own if at < count] for block, own in places.items()}
    risks = [
        Risk(
            _season(piece.seasons[key], ids, shuffled, noise),
            _spray(piece.orders[key].spray, ids, place, noise),
            _scouting(piece.orders[key].scouting, ids, place, noise),
        )
        for key in order
    ]
    materials = tuple(
        replace(
            one,
            open_from=tuple(one.open_from[at] for at in of_piece),
            closed_by=tuple(one.closed_by[at] for at in of_piece),
            uses=tuple(one.uses[at] for at in of_piece),
            cautions=tuple(one.cautions[at] for at in of_piece),
        )
        for one in piece.materials
    )
    return Pages(farm, risks, _windows(piece.windows, of_piece), materials)


def _shuffled(count: int) -> IntArray:
    """Return which block of the piece stands at each place: pieces are rows, the first as it is."""
    chance = np.random.default_rng(SEED)
    rows = [np.arange(PIECE), *(chance.permutation(PIECE) for _ in range(-(-count // PIECE) - 1))]
    return np.array(rows)


def _farm(farm: Farm, ids: list[str], of_piece: IntArray) -> Farm:
    number = np.arange(len(ids))
    # Pieces stand in rows of their own, each of `SIDE` by `SIDE` blocks.
    shapes = gpd.GeoSeries(many_outlines(PIECE)[of_piece], crs=SYSTEM)
    right, up = _piece_places(number // PIECE, len(ids))
    moved = gpd.GeoSeries(
        [
            shape
            for piece in range(int(number[-1]) // PIECE + 1)
            for shape in shapes[number // PIECE == piece].translate(
                SIDE * SPACING_M * right[piece * PIECE], SIDE * SPACING_M * up[piece * PIECE]
            )
        ],
        crs=SYSTEM,
    ).to_crs(farm.crs)
    blocks = farm.blocks.iloc[of_piece].set_axis(pd.Index(ids, name="block_id"))
    blocks = blocks.set_geometry(moved.values)
    blocks["name"] = [f"Member {place // 25 + 1}, plot {place % 25 + 1}" for place in number]
    return replace(farm, blocks=blocks)


def _piece_places(piece: IntArray, count: int) -> tuple[IntArray, IntArray]:
    """Return how many pieces to the right and up each piece stands."""
    across = int(np.ceil(np.sqrt(np.ceil(count / PIECE))))
    up, right = np.divmod(piece, across)
    return right, up


def _season(
    season: xr.Dataset, ids: list[str], shuffled: IntArray, noise: FloatArray
) -> xr.Dataset:
    count, pieces = len(ids), len(shuffled)
    stands = np.argsort(shuffled, axis=1) + PIECE * np.arange(pieces)[:, None]
    places = {dim: _places(stands, season[owner].values, count) for dim, owner in OF_BLOCKS.items()}
    season = season.drop_dims(["source", "wind_pair", "splash_pair", "edge", "point"])
    taken = {dim: place % season.sizes[dim] for dim, place in places.items()}
    laid = season.isel({"block": shuffled.ravel()[:count], **taken}).assign_coords(block=ids)
    for dim, owner in OF_BLOCKS.items():
        laid[owner] = (dim, stands[places[dim] // season.sizes[dim], laid[owner].to_numpy()])
    source = stands[places["arrival"] // season.sizes["arrival"], laid["arrival_source"].to_numpy()]
    laid["arrival_source"] = ("arrival", np.minimum(source, count - 1))
    for name in HAZARDS:
        laid[name] = laid[name] * xr.DataArray(noise, dims="block")
    laid["favourability"] = laid["favourability"].clip(max=1.0)
    return _with_ground(laid, places["cover"] // season.sizes["cover"], count, pieces)


def _places(stands: IntArray, owner: IntArray, count: int) -> IntArray:
    """Return places along a dimension, pieces one after the other, as far as there are blocks."""
    return np.flatnonzero(stands[:, owner].ravel() < count)


def _with_ground(season: xr.Dataset, piece: IntArray, count: int, pieces: int) -> xr.Dataset:
    """Lay the cells of the ground side by side as the blocks are."""
    cells, rim = round(SIDE * SPACING_M / CELL_M), round(HALO_M / CELL_M)
    columns = season.sizes["column"]
    right, up = _piece_places(np.arange(pieces), count)
    grids = {
        str(name): season[name].transpose("row", "column").to_numpy()
        for name in season.data_vars
        if set(season[name].dims) == {"row", "column"}
    }
    row, column = np.divmod(season["cover_cell"].values, columns)
    wide, high = columns + cells * int(right.max()), season.sizes["row"] + cells * int(up.max())
    # Rows run southward, pieces northward.
    row, column = row + cells * (up.max() - up[piece]), column + cells * right[piece]
    season = season.drop_dims(["row", "column"])
    across, down = (
        np.where(np.arange(size) < rim, np.arange(size), rim + (np.arange(size) - rim) % cells)
        for size in (wide, high)
    )
    for name, grid in grids.items():
        season[name] = (("row", "column"), grid[np.ix_(down, across)])
    season["cover_cell"] = ("cover", row * wide + column)
    north = season.attrs["grid_north"] + CELL_M * cells * int(up.max())
    return season.assign_attrs(grid_north=north)


def _spray(
    order: SprayOrder, ids: list[str], place: dict[str, list[int]], noise: FloatArray
) -> SprayOrder:
    entries = [
        replace(entry, hazard=entry.hazard * own, per_hour=entry.per_hour * own)
        for entry, own in _each(order.entries, ids, place, noise)
    ]
    entries.sort(key=lambda entry: -entry.per_hour)
    return replace(
        order,
        reference_block=ids[(place[order.reference_block] or [0])[0]],
        entries=tuple(replace(entry, rank=rank) for rank, entry in enumerate(entries, start=1)),
        cannot_now=tuple(entry for entry, _ in _each(order.cannot_now, ids, place, noise)),
        not_worth=tuple(entry for entry, _ in _each(order.not_worth, ids, place, noise)),
        not_ranked=tuple(entry for entry, _ in _each(order.not_ranked, ids, place, noise)),
    )


def _scouting(
    order: ScoutingOrder, ids: list[str], place: dict[str, list[int]], noise: FloatArray
) -> ScoutingOrder:
    entries = [
        replace(entry, score=entry.score * own, stake=entry.stake * own)
        for entry, own in _each(order.entries, ids, place, noise)
    ]
    entries.sort(key=lambda entry: -entry.score)
    ranked = (replace(entry, rank=rank) for rank, entry in enumerate(entries, start=1))
    return replace(order, entries=tuple(ranked))


def _each(
    entries: Sequence[Entry], ids: list[str], place: dict[str, list[int]], noise: FloatArray
) -> list[tuple[Entry, float]]:
    """Return the entries of every piece under the ids of their own blocks, with their noise."""
    return [
        (replace(entry, block=ids[at]), float(noise[at]))
        for entry in entries
        for at in place[entry.block]
    ]


def _windows(windows: Windows, of_piece: IntArray) -> Windows:
    def rows(values: AnyArray) -> AnyArray:
        return values if len(values) == 1 else values[of_piece]

    return replace(
        windows,
        is_closed=windows.is_closed[of_piece],
        hot_days=windows.hot_days[of_piece],
        # The page tells which rule closes, not by which value: those would be gigabytes.
        gates=tuple(
            replace(gate, is_closed=rows(gate.is_closed), value=np.zeros((1, 0)))
            for gate in windows.gates
        ),
    )
