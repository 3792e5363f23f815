"""Where does a walk begin: at which gate, or where no gate is drawn?"""

import shapely

from geo.errors import quoted, stop
from geo.scouting.order import ScoutingOrder
from geo.season.farm import Farm
from geo.texts import mark, phrase, phrase_of

MOST_GATES = 8  # our own choice: of more, those nearest to the first block are tried
# What a place is called that the user gave no name.
_UNNAMED = {"gate": mark("gate"), "shed": mark("shed")}


def starts_of(
    farm: Farm, order: ScoutingOrder, name: str | None = None
) -> tuple[tuple[tuple[str, shapely.Point], ...], str]:
    """
    Return where a walk may begin.

    Parameters
    ----------
    farm : Farm
        With its places.
    order : ScoutingOrder
        With one block at least.
    name : str, optional
        Of the gate, as typed; without it any gate will do.

    Returns
    -------
    tuple
        Name and point of each, and what is to be said of it: empty where there is a gate.

    Raises
    ------
    InputError
        If no gate has that name.
    """
    gates = _places(farm, "gate")
    if name is not None:
        found = tuple(gate for gate in gates if gate[0].casefold() == name.strip().casefold())
        if not found:
            fix = phrase("Gates of this farm: none is drawn among the places")
            if gates:
                named = ", ".join(gate for gate, _ in gates)
                fix = phrase("Gates of this farm: {gates}", gates=named)
            raise stop("E-GATE-UNKNOWN", "--from", phrase("no gate {name}", name=quoted(name)), fix)
        return found, ""
    first = farm.blocks.geometry.loc[order.entries[0].block]
    if gates:
        return tuple(sorted(gates, key=lambda gate: first.distance(gate[1]))[:MOST_GATES]), ""
    if sheds := _places(farm, "shed"):
        return sheds[:1], phrase(
            "No gate is drawn among the places: the walk begins at {place}.", place=sheds[0][0]
        )
    block = order.entries[0].block
    point = shapely.get_point(shapely.get_exterior_ring(shapely.get_parts(first)[0]), 0)
    return ((phrase("the edge of {block}", block=block), point),), phrase(
        "No gate is drawn among the places: the walk begins at the edge of {block}, and the way to "
        "it is not counted.",
        block=block,
    )


def _places(farm: Farm, kind: str) -> tuple[tuple[str, shapely.Point], ...]:
    is_its = (farm.places["kind"] == kind).to_numpy()
    return tuple(
        (str(name).strip() or phrase_of(_UNNAMED[kind]), shape.representative_point())
        for name, shape in zip(
            farm.places["name"][is_its], farm.places.geometry[is_its], strict=True
        )
    )
