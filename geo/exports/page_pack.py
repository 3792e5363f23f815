"""Which parts of the page's data are long columns, to be told as few letters?"""

from collections.abc import Mapping
from typing import Any

from geo.exports.pack import Pack


def packed(data: dict[str, Any]) -> tuple[dict[str, Any], str]:
    """
    Return the page's data with its long columns apart.

    Parameters
    ----------
    data : dict
        As `geo.exports.page_data.page_data` and its like give it.

    Returns
    -------
    dict
        Ready for JSON.
    str
        The columns it refers to.
    """
    pack = Pack()
    lean = dict(data)
    for name in ("blocks", "coolest", "neighbours", "windows"):
        if name in lean:
            lean[name] = _long(pack, lean[name])
    lean["diseases"] = [_disease(pack, one) for one in data["diseases"]]
    if "materials" in lean:
        materials = lean["materials"]
        lean["materials"] = materials | {
            "words": pack.column(materials["words"]),
            "materials": [_long(pack, one) for one in materials["materials"]],
        }
    return lean, pack.text


def _long(pack: Pack, part: Mapping[str, Any]) -> dict[str, Any]:
    """Put what there is of each block; what there is of each hour or rule stays as it is."""
    short = ("weekdays", "days", "clock", "rules", "not_asked", "status")
    return {name: one if name in short else pack.column(one) for name, one in part.items()}


def _arrays(pack: Pack, part: object) -> object:
    return pack.column(part) if isinstance(part, Mapping) else part


def _disease(pack: Pack, disease: dict[str, Any]) -> dict[str, Any]:
    spray = disease["spray"]
    told = {name: pack.rows(spray[name]) for name in ("entries", "apart", "cannot", "unranked")}
    lean = disease | {
        "blocks": pack.column(disease["blocks"]),
        "sources": pack.column(disease["sources"]),
        "events": {name: _arrays(pack, one) for name, one in disease["events"].items()},
        "spray": spray | told,
        "scouting": pack.rows(disease["scouting"]),
    }
    if disease.get("since"):
        lean["since"] = pack.column(disease["since"])
    return lean
