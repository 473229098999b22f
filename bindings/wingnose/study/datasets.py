"""Answers of a sweep as an xarray Dataset: named dimensions, units and meaning on every variable.

A grid has one dimension per key, named by the last part of the key (``passage.speed_km_h`` -> ``speed_km_h``); points
have the dimension ``case`` with the keys as coordinates. Where a name is taken, the key is written in full with ``_``
for its dots; a quantity of the same name as a coordinate is called ``result_<name>``. The full key stands in
``attrs["key"]``, that of a quantity in ``attrs["measure"]``. Cases that have no answer hold NaN; ``status`` says which
(0 not run, 1 done, 2 bad input, 3 could not compute) and ``failure`` why. ``gravity`` is that of the gravest finding of
a case (0 none or a note, 1 a warning, 2 grave), ``findings`` their kinds.
"""

from __future__ import annotations

import dataclasses
import importlib
import os
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from .._core import InputError, read_tree
from .._core.study import State
from .._tree import to_datatree

if TYPE_CHECKING:
    import xarray as xr

# Names a dimension or coordinate may not take.
RESERVED = ("case", "sample", "status", "failure", "gravity", "findings", "station_mm", "force_N", "force_wing_N",
            "force_nose_N")  # fmt: skip


def open_dataset(file: str | os.PathLike[str], *, histories: bool = True, load: bool = False) -> xr.Dataset:
    """A sweep file, finished or not, as a Dataset; see the head of this module for names.

    ``histories``: take the stored force histories along, if there are any, in N in single precision with the dimension
    ``sample``; their coordinate ``station_mm`` has the dimensions of the cases too where these differ in it. ``load``:
    read them now; otherwise only the part that is used is read, when it is used.

    Examples
    --------
    >>> import tempfile, pathlib, wingnose
    >>> folder = tempfile.TemporaryDirectory()
    >>> file = pathlib.Path(folder.name, "speeds.h5")
    >>> plan = wingnose.study.grid("profiles/demo.toml", {"passage.speed_km_h": [80, 120]})
    >>> _ = wingnose.study.sweep(plan, file, progress=False)
    >>> forces = wingnose.study.open_dataset(file)["p2_kN"]
    >>> forces.dims, forces.attrs["units"], bool(forces.sel(speed_km_h=120) > forces.sel(speed_km_h=80))
    (('speed_km_h',), 'kN', True)
    >>> folder.cleanup()
    """
    answer: Any = to_datatree(read_tree(Path(file), all=False))
    if answer.attrs["answer"] != "sweep":
        raise InputError(f'"{file}" is not a sweep file; give one made by "wingnose sweep", or use wingnose.open.')
    status = answer["status"].values
    dataset = to_dataset(answer, HistoryArrays.of_file(Path(file), status) if histories else None)
    return dataset.load() if load else dataset


def to_dataset(answer: Any, histories: HistoryArrays | None = None) -> xr.Dataset:
    """A sweep of :func:`wingnose.open` as a Dataset, without histories; see :func:`open_dataset`."""
    import xarray

    keys = [str(key) for key in answer["case/columns"].values]
    names = coordinate_names(keys)
    count = answer["status"].size
    grid = answer.attrs.get("plan", "grid" if "axes" in answer.children else "points") == "grid"
    columns = {key: answer["axes" if grid else "input"][key] for key in keys}
    coords: dict[str, Any] = {}
    for key, column in columns.items():
        meaning = column.attrs["description"].removesuffix("; values along this axis")
        attrs = {"units": column.attrs.get("units", ""), "long_name": meaning, "key": key}
        known = {name: text for name, text in attrs.items() if text}
        coords[names[key]] = (names[key] if grid else "case", _typed(column.values), known)
    if grid:
        dims = tuple(names[key] for key in keys)
        shape = tuple(columns[key].size for key in keys)
    else:
        dims, shape = ("case",), (count,)
        coords["case"] = ("case", np.arange(count), {"long_name": "number of the case, from 0"})
    variables: dict[str, Any] = {}
    for key, measure in answer["measures"].data_vars.items():
        attrs = {each: measure.attrs[each] for each in ("units", "long_name", "description")} | {"measure": str(key)}
        variables[f"result_{key}" if key in coords else str(key)] = (dims, measure.values.reshape(shape), attrs)
    flags = {"status": [state.name for state in State], "gravity": ["note", "warning", "grave"]}
    for name, meanings in flags.items():
        attrs = {"flag_values": np.arange(len(meanings), dtype=np.int8), "flag_meanings": " ".join(meanings)}
        values = np.nan_to_num(answer[name].values) if name in answer else np.zeros(count)
        variables[name] = (dims, values.astype(np.int8).reshape(shape), {**attrs, "long_name": name})
    for name, words in (("failure", "why a case has no answer"), ("findings", "kinds of what was found")):
        texts = answer[name].values if name in answer else np.full(count, "", dtype=object)
        variables[name] = (dims, texts.reshape(shape), {"long_name": words})
    attributes = {name: answer.attrs.get(name, "") for name in ("version", "commit", "fingerprint", "caution")}
    dataset = xarray.Dataset(variables, coords, {**attributes, "case_text": str(answer["case/text"].values)})
    return dataset if histories is None else add_histories(dataset, histories, dims, shape)


def coordinate_names(keys: Sequence[str]) -> dict[str, str]:
    """Short name of each key: its last part, or all of it where that is taken twice."""
    last = [key.rpartition(".")[2] for key in keys]
    return {
        key: name if last.count(name) == 1 and name not in RESERVED else key.replace(".", "_")
        for key, name in zip(keys, last, strict=True)
    }


def _typed(values: NDArray[Any]) -> NDArray[Any]:
    """Numbers as float64, true and false as flags, other text as text."""
    if values.dtype != object:
        return np.asarray(values, dtype=np.float64)
    return values == "true" if {*values.tolist()} <= {"true", "false"} else values.astype(str)


def check_measures(dataset: xr.Dataset, names: Sequence[str]) -> None:
    """Raise InputError for names that are no quantities of a Dataset."""
    known = [str(name) for name, variable in dataset.data_vars.items() if "measure" in variable.attrs]
    for name in names:
        if name not in known:
            raise InputError(f"{name}: no measure of this sweep; allowed: {', '.join(known)}.")


@dataclasses.dataclass(frozen=True)
class HistoryArrays:
    """Stations of the samples of each case (mm; NaN where there is none), how to get rows of the forces (N), and what
    these are."""

    first: NDArray[np.float64]
    spacing: NDArray[np.float64]
    samples: int
    forces: Mapping[str, Callable[[NDArray[np.int64]], NDArray[np.float32]]]
    meanings: Mapping[str, str]
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
            meanings = {name: str(group[name].attrs["description"]) for name in RESERVED if name in group}
            samples = group["force_N"].shape[1]

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

        return HistoryArrays(first, spacing, samples, {name: reader(name) for name in meanings}, meanings, lazy=True)

    @staticmethod
    def of_answer(history: Any) -> HistoryArrays:
        """Of cases held in memory."""
        meanings = {name: history[name].attrs["description"] for name in RESERVED if name in history}
        forces = {name: np.asarray(history[name].values, np.float32).__getitem__ for name in meanings}
        samples = history["force_N"].shape[1]
        first, spacing = (history[name].values for name in ("first_station_mm", "spacing_mm"))
        return HistoryArrays(first, spacing, samples, forces, meanings, lazy=False)

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
        words = arrays.meanings[name]
        attrs = {"units": "N", "long_name": words.partition(",")[0], "description": words}
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
