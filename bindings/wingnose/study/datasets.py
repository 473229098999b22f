"""Answers of a sweep as an xarray Dataset: named dimensions, units and meaning on every variable.

A grid has one dimension per key, named by the last part of the key (``passage.speed_km_h`` -> ``speed_km_h``); points
have the dimension ``case`` with the keys as coordinates. Where a name is taken, the key is written in full with ``_``
for its dots; a measure of the same name as a coordinate is called ``result_<name>``. The full key stands in
``attrs["key"]``, the name of the measure in ``attrs["measure"]``. Cases that have no answer hold NaN; ``status`` says
which (0 not run, 1 done, 2 bad input, 3 could not compute) and ``failure`` why.
"""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from .._core import InputError, __commit__, __version__, io
from .._extras import need
from ._histories import HistoryArrays, add_histories

if TYPE_CHECKING:
    import os
    from collections.abc import Mapping, Sequence

    import xarray as xr
    from numpy.typing import NDArray

__all__ = ["open_dataset", "to_dataset"]

STATUS_MEANINGS = "not_run done bad_input could_not_compute"
# Names a dimension or coordinate may not take.
RESERVED = ("case", "sample", "status", "failure", "station_mm", "force_N", "force_wing_N", "force_nose_N")


@dataclasses.dataclass(frozen=True)
class Column:
    """Values of one key or measure, with what they mean."""

    values: NDArray[Any]
    unit: str
    description: str


@dataclasses.dataclass(frozen=True)
class Answers:
    """All a Dataset is made of, wherever it comes from. `axes` are empty for points."""

    axes: Mapping[str, Column]
    inputs: Mapping[str, Column]
    measures: Mapping[str, Column]
    status: NDArray[np.int8]
    failures: Mapping[int, str]
    attributes: Mapping[str, str]
    histories: HistoryArrays | None = None


def open_dataset(file: str | os.PathLike[str], *, histories: bool = True, load: bool = False) -> xr.Dataset:
    """A sweep file, finished or not, as a Dataset.

    Parameters
    ----------
    file : path
        Written by :func:`wingnose.study.sweep` or ``wingnose sweep``.
    histories : bool
        Take the stored force histories along, if there are any.
    load : bool
        Read the histories now; otherwise only the part that is used is read, when it is used.

    Returns
    -------
    xarray.Dataset
        See the head of this module for names. Force histories are in N in single precision with the dimension
        ``sample``; their coordinate ``station_mm`` has the dimensions of the cases too where these differ in it.

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
    stored = io.read_sweep_file(Path(file))
    arrays = HistoryArrays.of_file(Path(file), stored.status) if histories else None
    dataset = _dataset(_answers(stored, arrays))
    return dataset.load() if load else dataset


def to_dataset(stored: io.StoredSweep) -> xr.Dataset:
    """A stored sweep as a Dataset, without histories; see :func:`open_dataset`."""
    return _dataset(_answers(stored, None))


def dataset_of_rows(
    sweep: io.Sweep,
    values: NDArray[np.float64],
    status: NDArray[np.int8],
    failures: Mapping[int, str],
    histories: HistoryArrays | None,
) -> xr.Dataset:
    """The same of a sweep that is not stored: values [case, measure] in the order of ``io.sweep_measures()``."""
    columns = {
        key: Column(_typed(column), "-", "") if isinstance(column[0], str) else _known(sweep, key, column)
        for key, column in sweep.columns.items()
    }
    measures = {m.key: Column(values[:, i], m.unit, m.description) for i, m in enumerate(io.sweep_measures())}
    attributes = {
        "version": __version__,
        "commit": __commit__,
        "fingerprint": sweep.fingerprint,
        "case_text": sweep.document.base.source_text,
    }
    grid = sweep.grid
    return _dataset(
        Answers(columns if grid else {}, {} if grid else columns, measures, status, failures, attributes, histories)
    )


def _known(sweep: io.Sweep, key: str, values: Sequence[Any]) -> Column:
    info = sweep.document.key(key)
    return Column(_typed(values), info.unit, info.description)


def _answers(stored: io.StoredSweep, histories: HistoryArrays | None) -> Answers:
    def column(key: str, numbers: Mapping[str, io.StoredArray], texts: Mapping[str, Sequence[str]]) -> Column:
        if key in texts:
            return Column(_typed(texts[key]), "-", "")
        return Column(numbers[key].values, numbers[key].unit, numbers[key].description)

    def clean(c: Column) -> Column:
        return dataclasses.replace(c, description=c.description.removesuffix("; values along this axis"))

    axes = {key: clean(column(key, stored.axis_values, stored.axis_choices)) for key in stored.axes}
    inputs = {key: column(key, stored.inputs, stored.choices) for key in [*stored.inputs, *stored.choices]}
    measures = {m.key: column(m.key, stored.measures, {}) for m in io.sweep_measures() if m.key in stored.measures}
    measures |= {key: column(key, stored.measures, {}) for key in stored.measures if key not in measures}
    attributes = {name: getattr(stored, name) for name in ("version", "commit", "fingerprint", "case_text")}
    return Answers(axes, {} if axes else inputs, measures, stored.status, stored.failures, attributes, histories)


def _dataset(answers: Answers) -> xr.Dataset:
    xarray = need("xarray", "study", "A Dataset of a sweep")
    keys = list(answers.axes or answers.inputs)
    names = coordinate_names(keys)
    count = len(answers.status)
    if answers.axes:
        dims = tuple(names[key] for key in keys)
        shape = tuple(len(answers.axes[key].values) for key in keys)
        coords = {names[key]: (names[key], c.values, _attrs(key, c)) for key, c in answers.axes.items()}
    else:
        dims, shape = ("case",), (count,)
        coords = {names[key]: ("case", c.values, _attrs(key, c)) for key, c in answers.inputs.items()}
        coords["case"] = ("case", np.arange(count), {"long_name": "number of the case, from 0"})
    labels = {measure.key: measure.label for measure in io.sweep_measures()}
    variables: dict[str, Any] = {}
    for key, column in answers.measures.items():
        attrs = {"units": column.unit, "long_name": labels.get(key, key), "description": column.description}
        name = f"result_{key}" if key in coords else key
        variables[name] = (dims, column.values.reshape(shape), {**attrs, "measure": key})
    status = {"flag_values": np.arange(4, dtype=np.int8), "flag_meanings": STATUS_MEANINGS, "long_name": "status"}
    variables["status"] = (dims, answers.status.reshape(shape), status)
    failure = np.full(count, "", dtype=object)
    for number, reason in answers.failures.items():
        failure[number] = reason
    variables["failure"] = (dims, failure.reshape(shape), {"long_name": "why a case has no answer"})
    dataset: xr.Dataset = xarray.Dataset(variables, coords, {**answers.attributes, "caution": io.caution})
    return dataset if answers.histories is None else add_histories(dataset, answers.histories, dims, shape)


def coordinate_names(keys: Sequence[str]) -> dict[str, str]:
    """Short name of each key: its last part, or all of it where that is taken twice."""
    last = [key.rpartition(".")[2] for key in keys]
    return {
        key: name if last.count(name) == 1 and name not in RESERVED else key.replace(".", "_")
        for key, name in zip(keys, last, strict=True)
    }


def _attrs(key: str, column: Column) -> dict[str, str]:
    attrs = {"units": column.unit, "long_name": column.description, "key": key}
    return {name: text for name, text in attrs.items() if text}


def _typed(values: Sequence[Any]) -> NDArray[Any]:
    """Numbers as float64, true and false as flags, other text as text."""
    if {*values} <= {"true", "false"}:
        return np.array([value == "true" for value in values])
    if all(isinstance(value, str) for value in values):
        return np.array(values, dtype=str)
    return np.array(values, dtype=np.float64)


def check_measures(dataset: xr.Dataset, names: Sequence[str]) -> None:
    """Raise InputError for names that are no measures of a Dataset."""
    known = [str(name) for name, variable in dataset.data_vars.items() if "measure" in variable.attrs]
    for name in names:
        if name not in known:
            raise InputError(f"{name}: no measure of this sweep; allowed: {', '.join(known)}.")
