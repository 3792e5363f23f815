"""The long columns of the page as few letters: whole numbers in planes of bytes, deflated."""

import base64
import zlib
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from geo.arrays import AnyArray, IntArray
from geo.exports.pack_steps import EXACT_BLOCKS, LOWEST, Steps, on_its_side, stepped

Spec = dict[str, Any]
RAW_DEFLATE, BEST = -15, 9
CHUNK_ROWS = 512  # texts that are inflated together
MOST_DECIMALS, MOST_WHOLE, FIGURES = 6, 2**30, 6
# Texts that recur so often on average are told by their place among the different ones.
RECURS = 3


class Pack:
    """The text that holds the columns, and what tells where each of them is."""

    def __init__(self) -> None:
        self._parts: list[str] = []
        self._length = 0

    @property
    def text(self) -> str:
        """
        Return all columns.

        Returns
        -------
        str
            Base64 of one deflated stretch after the other.
        """
        return "".join(self._parts)

    def column(self, value: object) -> object:
        """
        Return what stands for a column among the page's data.

        Parameters
        ----------
        value : any
            An array; a list of texts, of numbers, or of rows with the same keys; a list of short
            lists of [place, share]; steps; or a mapping of such. Anything else is told as it is.

        Returns
        -------
        any
            Ready for JSON.
        """
        if isinstance(value, Mapping):
            return {name: self.column(one) for name, one in value.items()}
        if isinstance(value, Steps):
            return self._steps(value)
        if isinstance(value, np.ndarray):
            return self._array(value)
        if not isinstance(value, list):
            return value
        return self._list(value)

    def rows(self, rows: Sequence[Mapping[str, Any]]) -> Spec:
        """
        Return what stands for a table.

        Parameters
        ----------
        rows : sequence of mapping
            All with the same keys.

        Returns
        -------
        dict
            Ready for JSON: a column for each key.
        """
        names = list(rows[0]) if rows else ["block"]
        columns = {name: self._list([row[name] for row in rows]) for name in names}
        return {"is": "rows", "of": len(rows), "columns": columns}

    def _list(self, values: list[Any]) -> Spec:
        if values and all(isinstance(value, list) for value in values):
            return self._pairs(values)
        first = next((value for value in values if value is not None), None)
        return self._texts(values) if isinstance(first, str) else self._numbers(values)

    def _put(self, raw: bytes) -> list[int]:
        """Return where a stretch begins and ends in the text, and how long it is inflated."""
        squeeze = zlib.compressobj(BEST, zlib.DEFLATED, RAW_DEFLATE)
        text = base64.b64encode(squeeze.compress(raw) + squeeze.flush()).decode()
        self._parts.append(text)
        self._length += len(text)
        return [self._length - len(text), self._length, len(raw)]

    def _planes(self, values: AnyArray) -> list[int]:
        """Put the first bytes of all numbers before the second ones, and so on."""
        flat = np.ascontiguousarray(values).ravel()
        return self._put(flat.view(np.uint8).reshape(-1, flat.itemsize).T.tobytes())

    def _array(self, values: AnyArray) -> Spec:
        return {"is": "array", "kind": values.dtype.str[1:], "at": self._planes(values)}

    def _whole(self, values: IntArray, known: AnyArray) -> Spec:
        """Put whole numbers: as they are or by their steps, whichever takes fewer letters."""
        before, length = list(self._parts), self._length
        found: list[tuple[int, Spec, list[str], int]] = []
        for by_step in (False, True):
            self._parts, self._length = list(before), length
            told = values[known]
            told = np.diff(told, prepend=0) if by_step else told
            code = np.zeros(values.size, dtype=np.uint32)
            # Signs into the last bit; 0 is what is not known.
            code[known] = ((told << 1) ^ (told >> 63)) + 1
            size = max(1, -(-int(code.max(initial=0)).bit_length() // 8))
            planes = code.astype("<u4").view(np.uint8).reshape(-1, 4).T[:size]
            spec = {
                "is": "whole",
                "of": values.size,
                "step": by_step,
                "at": self._put(planes.tobytes()),
            }
            found.append((self._length, spec, self._parts, self._length))
        _, spec, self._parts, self._length = min(found, key=lambda one: one[0])
        return spec

    def _numbers(self, values: Sequence[float | bool | None]) -> Spec:
        numbers = np.array([np.nan if value is None else value for value in values], dtype=float)
        known = np.isfinite(numbers)
        told = numbers[known]
        whole = np.zeros(numbers.size, dtype=np.int64)
        for decimals in range(MOST_DECIMALS + 1):
            scaled = np.round(told * 10.0**decimals)
            if np.all(scaled / 10.0**decimals == told) and np.all(np.abs(scaled) < MOST_WHOLE):
                whole[known] = scaled
                return {"is": "numbers", "tens": -decimals, "whole": self._whole(whole, known)}
        size = np.where(told == 0.0, 1.0, np.abs(told))
        tens = np.floor(np.log10(size)).astype(np.int64) - (FIGURES - 1)
        mantissa = np.round(told / 10.0**tens).astype(np.int64)
        for _ in range(FIGURES - 1):
            ends_in_zero = (mantissa % 10 == 0) & (mantissa != 0)
            mantissa, tens = np.where(ends_in_zero, mantissa // 10, mantissa), tens + ends_in_zero
        whole[known] = mantissa
        powers = np.zeros(numbers.size, dtype=np.int64)
        powers[known] = tens
        return {
            "is": "numbers",
            "tens": self._whole(powers, known),
            "whole": self._whole(whole, known),
        }

    def _texts(self, texts: Sequence[str | None]) -> Spec:
        places: dict[str | None, int] = {}
        which = np.array([places.setdefault(text, len(places)) for text in texts], dtype=np.int64)
        spec: Spec = {"is": "texts", "of": len(texts), "rows": CHUNK_ROWS}
        told = list(texts)
        if len(places) * RECURS <= len(texts):
            told = list(places)
            spec["which"] = self._whole(which, np.ones(which.size, dtype=bool))
        coded = [None if text is None else text.encode() for text in told]
        lengths = np.array([0 if text is None else len(text) for text in coded], dtype=np.int64)
        spec["lengths"] = self._whole(lengths, np.array([text is not None for text in coded]))
        spec["chunks"] = [
            self._put(b"".join(text or b"" for text in coded[first : first + CHUNK_ROWS]))
            for first in range(0, len(coded), CHUNK_ROWS)
        ]
        return spec

    def _pairs(self, lists: Sequence[Sequence[Sequence[float]]]) -> Spec:
        """Put short lists of [place, share], the place by how far it is from the list's own."""
        counts = np.array([len(one) for one in lists])
        own = np.repeat(np.arange(counts.size), counts)
        flat = np.array([pair for one in lists for pair in one], dtype=float).reshape(-1, 2)
        return {
            "is": "pairs",
            "counts": self._numbers(counts.tolist()),
            "away": self._numbers((flat[:, 0] - own).tolist()),
            "share": self._numbers(flat[:, 1].tolist()),
        }

    def _steps(self, steps: Steps) -> Spec:
        if len(steps.values) <= EXACT_BLOCKS:
            return self._array(on_its_side(steps.values.astype("<f4"), steps))
        told = stepped(steps)
        return {
            "is": "steps",
            "days": told.middle.size,
            "middle": told.middle.tolist(),
            "lowest": LOWEST,
            "step": told.step,
            "whole": self._whole(told.away.ravel(), np.ones(told.away.size, dtype=bool)),
        }
