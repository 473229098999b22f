"""
Case files and result files.
"""
from __future__ import annotations
import collections.abc
import numpy
import numpy.typing
import os
import typing
import wingnose._core.study
__all__: list[str] = ['StoredArray', 'StoredResult', 'case_reference', 'caution', 'estimates_json', 'geometry_json', 'measures_json', 'parse_case', 'read_case', 'read_result', 'result_reference', 'write_result']
class StoredArray:
    """
    One dataset of a result file.
    """
    def __repr__(self) -> str:
        ...
    @property
    def description(self) -> str:
        """
        meaning
        """
    @property
    def unit(self) -> str:
        """
        unit
        """
    @property
    def values(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        the numbers, in `unit`
        """
class StoredResult:
    """
    What a result file holds.
    """
    def __repr__(self) -> str:
        ...
    @property
    def arrays(self) -> dict[str, StoredArray]:
        """
        histories and path, keyed by dataset path
        """
    @property
    def attributes(self) -> dict[str, str]:
        """
        attributes of the file
        """
    @property
    def case_text(self) -> str:
        """
        the case file as read
        """
    @property
    def commit(self) -> str:
        """
        commit of that wingnose
        """
    @property
    def measure_descriptions(self) -> dict[str, str]:
        """
        meaning of every measure
        """
    @property
    def measure_units(self) -> dict[str, str]:
        """
        unit of every measure
        """
    @property
    def measures(self) -> dict[str, float]:
        """
        numbers by unit-bearing key, NaN where there is none
        """
    @property
    def schema_version(self) -> int:
        """
        version of the file layout
        """
    @property
    def texts(self) -> dict[str, list[str]]:
        """
        lists of text: warnings, notes, inputs, kinds of events
        """
    @property
    def version(self) -> str:
        """
        wingnose that wrote it
        """
def case_reference() -> str:
    """
    Markdown table of every key of a case file.
    """
def estimates_json(case: wingnose._core.study.Case, geometry: wingnose._core.study.Geometry, estimates: collections.abc.Sequence[wingnose._core.study.Estimate]) -> str:
    """
    The JSON object `wingnose estimate --json` prints.
    """
def geometry_json(case: wingnose._core.study.Case, geometry: wingnose._core.study.Geometry) -> str:
    """
    The JSON object `wingnose geometry --json` prints.
    """
def measures_json(case: wingnose._core.study.Case, result: wingnose._core.study.Result) -> str:
    """
    The JSON object `wingnose run --json` prints.
    """
def parse_case(toml_text: str, name: str = ..., folder: os.PathLike[str] | str | bytes = '.') -> wingnose._core.study.Case:
    """
    Case of TOML text; `folder` anchors relative paths.
    """
def read_case(file: os.PathLike[str] | str | bytes) -> wingnose._core.study.Case:
    """
    Case of a TOML case file; raises InputError with place and advice.
    """
def read_result(file: os.PathLike[str] | str | bytes) -> StoredResult:
    """
    Read a result file; raises InputError when it is not one of ours.
    """
def result_reference() -> str:
    """
    Markdown page of what a result file holds.
    """
def write_result(file: os.PathLike[str] | str | bytes, case: wingnose._core.study.Case, result: wingnose._core.study.Result) -> None:
    """
    Write a result to HDF5, all or nothing.
    """
caution: str = 'An engineering estimate for comparison; local standards and licensed engineers decide.'
