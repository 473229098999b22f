"""
Case files, result files, sweeps.
"""
from __future__ import annotations
import collections.abc
import enum
import numpy
import numpy.typing
import os
import pathlib
import typing
import wingnose._core.assess
import wingnose._core.study
__all__: list[str] = ['CaseDocument', 'ComparisonFile', 'DamageReport', 'KeyInfo', 'KeyKind', 'Measure', 'PopulationFile', 'StoredArray', 'StoredResult', 'StoredSweep', 'Sweep', 'SweepChunk', 'SweepFile', 'SweepHistory', 'SweepRows', 'case_reference', 'caution', 'comparison_json', 'damage_json', 'estimates_json', 'geometry_json', 'measures_json', 'parse_case', 'parse_case_document', 'parse_comparison', 'parse_limit', 'parse_population', 'read_case', 'read_case_document', 'read_comparison', 'read_comparison_result', 'read_population', 'read_result', 'read_sweep', 'read_sweep_file', 'result_reference', 'speeds_json', 'steel_measures', 'sweep_measures', 'write_comparison', 'write_damage', 'write_result', 'write_speeds']
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
class KeyKind(enum.Enum):
    """
    What a key of a case file holds.
    """
    choice = ...
    flag = ...
    number = ...
    whole_number = ...
class KeyInfo:
    """
    A key of a case file that can vary.
    
    Attributes
    ----------
    key : str
        name with section and unit: "passage.speed_km_h"
    unit : str
        unit of its values
    description : str
        meaning
    kind : value
        number, whole_number, choice or flag
    choices : tuple
        of a choice
    least : float
        of a number, in `unit`
    most : float
        of a number, in `unit`
    cost : int
        what is computed anew: 0 reading, 1 passage, 2 wheel path, 3 track
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def choices(self) -> tuple[str, ...]:
        """
        of a choice
        """
    @property
    def cost(self) -> int:
        """
        what is computed anew: 0 reading, 1 passage, 2 wheel path, 3 track
        """
    @property
    def description(self) -> str:
        """
        meaning
        """
    @property
    def key(self) -> str:
        """
        name with section and unit: "passage.speed_km_h"
        """
    @property
    def kind(self) -> KeyKind:
        """
        number, whole_number, choice or flag
        """
    @property
    def least(self) -> float:
        """
        of a number, in `unit`
        """
    @property
    def most(self) -> float:
        """
        of a number, in `unit`
        """
    @property
    def unit(self) -> str:
        """
        unit of its values
        """
class CaseDocument:
    """
    A case file read once, from which many cases derive by other values of some keys.
    """
    def __getstate__(self) -> tuple[str, str, str]:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def key(self, name: str) -> KeyInfo:
        """
        One key that can vary; raises InputError for others.
        """
    def keys(self) -> list[KeyInfo]:
        """
        Every key that can vary.
        """
    def vary(self, values: collections.abc.Mapping[str, bool | float | str]) -> wingnose._core.study.Case:
        """
        The case with other values of some keys, in the units of the keys: {"passage.speed_km_h": 120}. Raises InputError for unknown keys, with the likely one, and for values out of range.
        """
    @property
    def base(self) -> wingnose._core.study.Case:
        """
        the case as the file says it
        """
    @property
    def folder(self) -> pathlib.Path:
        """
        relative names of files start here
        """
class ComparisonFile:
    """
    What a comparison file asks for.
    """
    @property
    def crossings(self) -> list[wingnose._core.study.ComparedCrossing]:
        """
        crossings with their cases
        """
    @property
    def options(self) -> wingnose._core.study.CompareOptions:
        """
        what to look at
        """
    @property
    def text(self) -> str:
        """
        the file as read
        """
    @property
    def wheels(self) -> wingnose._core.study.PopulationRecipe | wingnose._core.study.Population:
        """
        listed wheels, or how to draw them
        """
class DamageReport:
    """
    What `wingnose damage` tells.
    
    Parameters
    ----------
    steel : Steel
        Of wing and nose.
    options : DamageOptions
        As the damage was computed with.
    trail : ContactTrail
        Contacts of the case's own wheel.
    damage : Damage
        Of that wheel on new steel.
    traffic : TrafficDamage, optional
        Of a tonnage.
    tonnage : float
        kg, of the traffic.
    mix : Traffic, optional
        A mixed traffic; takes the place of `traffic` and `tonnage`.
    mix_text : str
        Its file as read.
    mix_inputs : sequence of InputFile
        Files it was read from.
    """
    def __init__(self, *, steel: wingnose._core.assess.Steel, options: wingnose._core.assess.DamageOptions, trail: wingnose._core.assess.ContactTrail, damage: wingnose._core.assess.Damage, traffic: wingnose._core.assess.TrafficDamage | None = None, tonnage: float = ..., mix: wingnose._core.study.Traffic | None = None, mix_text: str = ..., mix_inputs: collections.abc.Sequence[wingnose._core.study.InputFile] = []) -> None:
        ...
    @property
    def damage(self) -> wingnose._core.assess.Damage:
        """
        of that wheel on new steel
        """
    @property
    def options(self) -> wingnose._core.assess.DamageOptions:
        """
        as the damage was computed with
        """
    @property
    def steel(self) -> wingnose._core.assess.Steel:
        """
        of wing and nose
        """
    @property
    def tonnage(self) -> float:
        """
        kg, of the traffic
        """
    @property
    def traffic(self) -> wingnose._core.assess.TrafficDamage:
        """
        of a tonnage, or None
        """
    @property
    def trail(self) -> wingnose._core.assess.ContactTrail:
        """
        contacts of the case's own wheel
        """
class PopulationFile:
    """
    Which wheels a file asks for.
    """
    @property
    def inputs(self) -> list[wingnose._core.study.InputFile]:
        """
        files it was read from, with their checksums
        """
    @property
    def text(self) -> str:
        """
        the file as read
        """
    @property
    def wheels(self) -> wingnose._core.study.PopulationRecipe | wingnose._core.study.Population:
        """
        listed wheels, or how to draw them; see study.wheels_of
        """
class Sweep:
    """
    Which keys of a case vary and how.
    
    Parameters
    ----------
    document : CaseDocument
        The case whose keys vary.
    columns : dict of str to sequence
        Values of each key, in the unit of the key. Of a grid the dearer keys (KeyInfo.cost) are put first; the
        last varies fastest.
    grid : bool
        True: all combinations. False: points, one value per case in every column.
    probes : bool
        Record rail and bearer motion; cases then cannot advance eight at a time.
    history_every : int
        Store every n-th sample of the force histories; 0 none.
    """
    def __getstate__(self) -> tuple[typing.Any, typing.Any, bool, bool, int]:
        ...
    def __init__(self, document: CaseDocument, columns: dict[str, collections.abc.Sequence[bool | float | str]], *, grid: bool = ..., probes: bool = ..., history_every: int = ...) -> None:
        ...
    def __len__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def case(self, index: int) -> wingnose._core.study.Case:
        """
        one case; raises InputError where the values do not go together
        """
    def values(self, index: int) -> dict[str, float | str]:
        """
        values of one case, by key
        """
    @property
    def columns(self) -> dict[str, list[float | str]]:
        """
        values of each key, in the order in which they vary
        """
    @property
    def document(self) -> CaseDocument:
        """
        the case whose keys vary
        """
    @property
    def fingerprint(self) -> str:
        """
        checksum of all that decides the numbers
        """
    @property
    def grid(self) -> bool:
        """
        all combinations, or points
        """
    @property
    def history_every(self) -> int:
        """
        samples of histories stored, 0 none
        """
    @property
    def probes(self) -> bool:
        """
        rail and bearer motion recorded
        """
class Measure:
    """
    A number results are reported by.
    
    Attributes
    ----------
    key : str
        name with unit
    unit : str
        unit
    label : str
        short name in print
    description : str
        meaning
    decimals : int
        sensible in print
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def decimals(self) -> int:
        """
        sensible in print
        """
    @property
    def description(self) -> str:
        """
        meaning
        """
    @property
    def key(self) -> str:
        """
        name with unit
        """
    @property
    def label(self) -> str:
        """
        short name in print
        """
    @property
    def unit(self) -> str:
        """
        unit
        """
class SweepHistory:
    """
    Force histories kept of one case.
    """
    def __getstate__(self) -> tuple[float, float, numpy.typing.NDArray[numpy.float32], numpy.typing.NDArray[numpy.float32], numpy.typing.NDArray[numpy.float32]]:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def first_station(self) -> float:
        """
        m
        """
    @property
    def force(self) -> numpy.typing.NDArray[numpy.float32]:
        """
        N, total
        """
    @property
    def nose(self) -> numpy.typing.NDArray[numpy.float32]:
        """
        N; empty off crossings
        """
    @property
    def spacing(self) -> float:
        """
        m, from sample to sample
        """
    @property
    def wing(self) -> numpy.typing.NDArray[numpy.float32]:
        """
        N; empty off crossings
        """
class SweepRows:
    """
    What is kept of some consecutive cases of a sweep.
    """
    def __getstate__(self) -> tuple[int, int, numpy.typing.NDArray[numpy.float64], list[int], list[str], list[SweepHistory]]:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def begin(self) -> int:
        """
        first case
        """
    @property
    def end(self) -> int:
        """
        one behind the last case
        """
    @property
    def failures(self) -> list[str]:
        """
        per case, why it has no result; empty where it has one
        """
    @property
    def histories(self) -> list[SweepHistory]:
        """
        per case, when the sweep asks for them
        """
    @property
    def status(self) -> numpy.typing.NDArray[numpy.int8]:
        """
        per case: 0 not run, 1 done, 2 bad input, 3 could not compute
        """
    @property
    def values(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        numbers [case, measure] in the order of sweep_measures(), NaN where there is none
        """
class SweepChunk:
    """
    Consecutive cases stored together.
    
    Attributes
    ----------
    index : int
        of the chunk
    begin : int
        first case
    end : int
        one behind the last case
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def begin(self) -> int:
        """
        first case
        """
    @property
    def end(self) -> int:
        """
        one behind the last case
        """
    @property
    def index(self) -> int:
        """
        of the chunk
        """
class SweepFile:
    """
    The file of a sweep under way: made, or opened to go on. Use it in a `with` block.
    """
    def __enter__(self) -> SweepFile:
        ...
    def __exit__(self, type: typing.Any, value: typing.Any, traceback: typing.Any) -> None:
        ...
    def __init__(self, file: os.PathLike[str] | str | bytes, sweep: Sweep, cases_per_chunk: int = ...) -> None:
        ...
    def close(self) -> None:
        """
        Close the file.
        """
    def missing(self) -> list[SweepChunk]:
        """
        chunks not complete, in order
        """
    def write(self, chunk: SweepChunk, rows: SweepRows) -> None:
        """
        Store the rows of a chunk; it counts when this returns.
        """
    @property
    def cases_complete(self) -> int:
        """
        cases stored
        """
class StoredSweep:
    """
    A sweep file as stored, finished or not; without histories.
    """
    def __len__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def axes(self) -> list[str]:
        """
        keys of a grid, the last varies fastest; empty for points
        """
    @property
    def axis_choices(self) -> dict[str, list[str]]:
        """
        values along the axes that are texts
        """
    @property
    def axis_values(self) -> dict[str, StoredArray]:
        """
        values along the axes that are numbers
        """
    @property
    def case_text(self) -> str:
        """
        the case file as read
        """
    @property
    def cases_per_chunk(self) -> int:
        """
        cases stored together
        """
    @property
    def choices(self) -> dict[str, list[str]]:
        """
        texts put in, by key
        """
    @property
    def chunks(self) -> int:
        """
        number of chunks
        """
    @property
    def chunks_complete(self) -> int:
        """
        of these stored
        """
    @property
    def commit(self) -> str:
        """
        commit of that wingnose
        """
    @property
    def failures(self) -> dict[int, str]:
        """
        why cases have no result, by number of the case
        """
    @property
    def fingerprint(self) -> str:
        """
        checksum of all that decides the numbers
        """
    @property
    def inputs(self) -> dict[str, StoredArray]:
        """
        numbers put in, by key
        """
    @property
    def measures(self) -> dict[str, StoredArray]:
        """
        numbers by unit-bearing key, NaN where there is none
        """
    @property
    def status(self) -> numpy.typing.NDArray[numpy.int8]:
        """
        per case: 0 not run, 1 done, 2 bad input, 3 could not compute
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
def comparison_json(comparison: wingnose._core.study.Comparison) -> str:
    """
    The JSON object `wingnose compare --json` prints.
    """
def damage_json(case: wingnose._core.study.Case, report: DamageReport) -> str:
    """
    The JSON object `wingnose damage --json` prints.
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
def parse_case_document(toml_text: str, name: str = ..., folder: os.PathLike[str] | str | bytes = '.') -> CaseDocument:
    """
    The same from TOML text; `folder` anchors relative paths.
    """
def parse_comparison(toml_text: str, name: str = ..., folder: os.PathLike[str] | str | bytes = '.') -> ComparisonFile:
    """
    The same from text; `folder` anchors relative paths.
    """
def parse_limit(text: str, source: str = ...) -> wingnose._core.study.Limit:
    """
    A limit from text such as "p2_kN=200".
    """
def parse_population(toml_text: str, name: str = ..., folder: os.PathLike[str] | str | bytes = '.') -> PopulationFile:
    """
    The same from text; `folder` anchors relative paths.
    """
def read_case(file: os.PathLike[str] | str | bytes) -> wingnose._core.study.Case:
    """
    Case of a TOML case file; raises InputError with place and advice.
    """
def read_case_document(file: os.PathLike[str] | str | bytes) -> CaseDocument:
    """
    Case file to derive cases from; raises InputError as `read_case` does.
    """
def read_comparison(file: os.PathLike[str] | str | bytes) -> ComparisonFile:
    """
    What a TOML comparison file asks for.
    """
def read_comparison_result(file: os.PathLike[str] | str | bytes) -> StoredResult:
    """
    Read a stored comparison; raises InputError when it is none.
    """
def read_population(file: os.PathLike[str] | str | bytes) -> PopulationFile:
    """
    The wheels of a TOML file with the tables population, class and wheel of a comparison.
    """
def read_result(file: os.PathLike[str] | str | bytes) -> StoredResult:
    """
    Read a result file; raises InputError when it is not one of ours.
    """
def read_sweep(file: os.PathLike[str] | str | bytes) -> Sweep:
    """
    Sweep of a TOML sweep file.
    """
def read_sweep_file(file: os.PathLike[str] | str | bytes) -> StoredSweep:
    """
    Read a sweep file; raises InputError for others.
    """
def result_reference() -> str:
    """
    Markdown page of what a result file holds.
    """
def speeds_json(case: wingnose._core.study.Case, study: wingnose._core.study.SpeedStudy) -> str:
    """
    The JSON object `wingnose speeds --json` prints.
    """
def steel_measures() -> list[Measure]:
    """
    What speed studies and comparisons tell of the steel when asked to.
    """
def sweep_measures() -> list[Measure]:
    """
    What is stored of each case, in the order of the columns of SweepRows.values.
    """
def write_comparison(file: os.PathLike[str] | str | bytes, crossings: collections.abc.Sequence[wingnose._core.study.ComparedCrossing], comparison: wingnose._core.study.Comparison, source_text: str = ...) -> None:
    """
    Write a comparison to HDF5, all or nothing.
    """
def write_damage(file: os.PathLike[str] | str | bytes, case: wingnose._core.study.Case, report: DamageReport) -> None:
    """
    Write damage with its maps to HDF5, all or nothing.
    """
def write_result(file: os.PathLike[str] | str | bytes, case: wingnose._core.study.Case, result: wingnose._core.study.Result) -> None:
    """
    Write a result to HDF5, all or nothing.
    """
def write_speeds(file: os.PathLike[str] | str | bytes, case: wingnose._core.study.Case, study: wingnose._core.study.SpeedStudy) -> None:
    """
    Write a speed study to HDF5, all or nothing.
    """
caution: str = 'An engineering estimate for comparison; local standards and licensed engineers decide.'
