"""Force histories of a sweep as variables of its Dataset, read from the file piece by piece or held in memory."""

from __future__ import annotations

import dataclasses
import importlib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    import xarray as xr

MEANING = {
    "force_N": "contact force of the reported wheel",
    "force_wing_N": "contact force on the wing rail",
    "force_nose_N": "contact force on the nose",
}


@dataclasses.dataclass(frozen=True)
class HistoryArrays:
    """Stations of the samples of each case (mm; NaN where there is none) and how to get rows of the forces (N)."""

    first: NDArray[np.float64]
    spacing: NDArray[np.float64]
    samples: int
    forces: Mapping[str, Callable[[NDArray[np.int64]], NDArray[np.float32]]]
    lazy: bool

    @staticmethod
    def of_file(file: Path, status: NDArray[np.int8]) -> HistoryArrays | None:
        """Of a sweep file; None where it stores no histories. Rows of chunks not finished are masked with NaN."""
        h5py = importlib.import_module("h5py")
        with h5py.File(file) as opened:
            if "history" not in opened:
                return None
            group = opened["history"]
            known = np.asarray(status) == 1
            first, spacing = (np.where(known, group[name][:], np.nan) for name in ("first_station_mm", "spacing_mm"))
            names = [name for name in MEANING if name in group]
            samples = group[names[0]].shape[1]

        def reader(name: str) -> Callable[[NDArray[np.int64]], NDArray[np.float32]]:
            def read(cases: NDArray[np.int64]) -> NDArray[np.float32]:
                rows = np.empty((len(cases), samples), np.float32)
                with h5py.File(file) as opened:
                    data = opened["history"][name]
                    for begin, end in _runs(cases):  # neighbours in one go
                        rows[begin:end] = data[cases[begin] : cases[end - 1] + 1]
                rows[~known[cases]] = np.nan
                return rows

            return read

        return HistoryArrays(first, spacing, samples, {name: reader(name) for name in names}, lazy=True)

    @staticmethod
    def of_answer(history: Any) -> HistoryArrays:
        """Of cases held in memory."""
        forces = {name: np.asarray(history[name].values, np.float32).__getitem__ for name in MEANING if name in history}
        samples = history["force_N"].shape[1]
        first, spacing = (history[name].values for name in ("first_station_mm", "spacing_mm"))
        return HistoryArrays(first, spacing, samples, forces, lazy=False)

    def stations(self, cases: NDArray[np.int64]) -> NDArray[np.float64]:
        """mm, of every sample of some cases."""
        along: NDArray[np.float64] = np.arange(self.samples) * self.spacing[cases, None]
        return self.first[cases, None] + along


def add_histories(dataset: xr.Dataset, arrays: HistoryArrays, dims: tuple[str, ...], shape: tuple[int, ...]) -> xr.Dataset:
    """The Dataset with forces along ``sample`` and the stations of the samples."""
    xarray = importlib.import_module("xarray")
    every = np.arange(int(np.prod(shape, dtype=np.int64)))

    def variable(rows: Any, dtype: Any, attrs: dict[str, str]) -> Any:
        values = (_lazy(rows, shape, arrays.samples, dtype) if arrays.lazy
                  else rows(every).astype(dtype, copy=False).reshape((*shape, arrays.samples)))  # fmt: skip
        return xarray.Variable((*dims, "sample"), values, attrs)

    for name, rows in arrays.forces.items():
        attrs = {"units": "N", "long_name": MEANING[name], "description": f"{MEANING[name]}, up; NaN behind its end"}
        dataset[name] = variable(rows, np.float32, attrs)
    attrs = {"units": "mm", "long_name": "station of the axle"}
    known = ~np.isnan(arrays.first)
    if known.any() and np.ptp(arrays.first[known]) == 0.0 and np.ptp(arrays.spacing[known]) == 0.0:
        station = xarray.Variable("sample", arrays.stations(np.flatnonzero(known)[:1])[0], attrs)
    else:
        station = variable(arrays.stations, np.float64, attrs)
    return dataset.assign_coords(station_mm=station)


def _runs(cases: NDArray[np.int64]) -> list[tuple[int, int]]:
    """Begin and end of neighbours in an increasing list."""
    cuts = np.flatnonzero(np.diff(cases) != 1) + 1
    edges = [0, *cuts.tolist(), len(cases)]
    return [(a, b) for a, b in zip(edges[:-1], edges[1:], strict=True) if b > a]


def _lazy(rows: Any, shape: tuple[int, ...], samples: int, dtype: Any) -> Any:
    """Array of xarray that asks `rows` for the cases needed, when they are needed."""
    indexing = importlib.import_module("xarray.core.indexing")
    backends = importlib.import_module("xarray.backends")

    class Rows(backends.BackendArray):  # type: ignore[misc, name-defined, unused-ignore]
        def __init__(self) -> None:
            self.shape = (*shape, samples)
            self.dtype = np.dtype(dtype)

        def __getitem__(self, key: Any) -> Any:
            return indexing.explicit_indexing_adapter(key, self.shape, indexing.IndexingSupport.OUTER, self.read)

        def read(self, key: tuple[Any, ...]) -> NDArray[Any]:
            cases = np.arange(int(np.prod(shape, dtype=np.int64))).reshape(shape)
            for axis in range(len(shape) - 1, -1, -1):  # from the last, so that dropped axes move none before them
                cases = cases[(slice(None),) * axis + (key[axis],)]
            flat, back = np.unique(cases, return_inverse=True)
            found = rows(flat)[back.reshape(-1)].reshape((*cases.shape, samples))
            return np.asarray(found[..., key[-1]], dtype=self.dtype)

    return indexing.LazilyIndexedArray(Rows())
