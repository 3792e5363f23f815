"""Read a page's data back with zlib and numpy: another way than the page's own scripts."""

import base64
import json
import re
import zlib
from typing import Any

import numpy as np

RAW_DEFLATE = -15


def data_of(html: str) -> Any:
    """Return everything a page's scripts know, long columns as lists."""
    found = {
        name: re.search(rf'id="page-{name}">(.*?)</script>', html, re.DOTALL)
        for name in ("data", "columns")
    }
    assert found["data"]
    assert found["columns"]
    return _opened(json.loads(found["data"][1]), found["columns"][1])


def opened(lean: Any, text: str) -> Any:
    """Return packed data as it was."""
    return _opened(json.loads(json.dumps(lean)), text)


def _opened(part: Any, text: str) -> Any:
    if isinstance(part, list):
        return [_opened(one, text) for one in part]
    if not isinstance(part, dict):
        return part
    if "is" in part:
        return {
            "array": _array,
            "numbers": _numbers,
            "texts": _texts,
            "rows": _rows,
            "pairs": _pairs,
            "steps": _steps,
        }[part["is"]](part, text)
    return {name: _opened(one, text) for name, one in part.items()}


def _raw(at: list[int], text: str) -> bytes:
    raw = zlib.decompress(base64.b64decode(text[at[0] : at[1]]), RAW_DEFLATE)
    assert len(raw) == at[2]
    return raw


def _array(spec: dict[str, Any], text: str) -> np.ndarray:
    kind = np.dtype("<" + spec["kind"])
    planes = np.frombuffer(_raw(spec["at"], text), np.uint8).reshape(kind.itemsize, -1)
    return np.ascontiguousarray(planes.T).view(kind).ravel()


def _whole(spec: dict[str, Any], text: str) -> list[int | None]:
    planes = np.frombuffer(_raw(spec["at"], text), np.uint8).reshape(-1, max(spec["of"], 1))
    codes = sum(plane.astype(int) << 8 * place for place, plane in enumerate(planes))
    told: list[int | None] = []
    last = 0
    for code in codes.tolist() if spec["of"] else []:
        if code == 0:
            told.append(None)
            continue
        value = (code - 1) // 2 if code % 2 else -code // 2
        last = last + value if spec["step"] else value
        told.append(last)
    return told


def _numbers(spec: dict[str, Any], text: str) -> list[float | None]:
    whole = _whole(spec["whole"], text)
    tens = spec["tens"]
    powers = [tens] * len(whole) if isinstance(tens, int) else _whole(tens, text)
    return [
        None if value is None else float(f"{value}e{power}") if power else value
        for value, power in zip(whole, powers, strict=True)
    ]


def _texts(spec: dict[str, Any], text: str) -> list[str | None]:
    raw = b"".join(_raw(chunk, text) for chunk in spec["chunks"])
    told: list[str | None] = []
    at = 0
    for length in _whole(spec["lengths"], text):
        told.append(None if length is None else raw[at : at + length].decode())
        at += length or 0
    if "which" in spec:
        told = [told[place] for place in _whole(spec["which"], text) if place is not None]
    assert len(told) == spec["of"]
    return told


def _rows(spec: dict[str, Any], text: str) -> list[dict[str, Any]]:
    columns = {name: _opened(one, text) for name, one in spec["columns"].items()}
    return [
        {name: column[place] for name, column in columns.items()} for place in range(spec["of"])
    ]


def _pairs(spec: dict[str, Any], text: str) -> list[list[list[float]]]:
    counts, away, share = (_numbers(spec[name], text) for name in ("counts", "away", "share"))
    pairs = iter(zip(away, share, strict=True))
    return [
        [[block + away, share] for away, share in (next(pairs) for _ in range(int(count or 0)))]
        for block, count in enumerate(counts)
    ]


def _steps(spec: dict[str, Any], text: str) -> np.ndarray:
    told = np.array(_whole(spec["whole"], text)).reshape(spec["days"], -1).T
    code = np.cumsum(told, axis=1) + np.array(spec["middle"])
    values = spec["lowest"] * np.exp(spec["step"] * (code - 2.0))
    return np.select([code < 1, code == 1], [np.nan, 0.0], values)
