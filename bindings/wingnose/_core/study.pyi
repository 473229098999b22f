"""
One case, all its steps; many cases; sweeps.
"""
from __future__ import annotations
import collections.abc
import enum
import os
import typing
import wingnose._core
import wingnose._core.assess
import wingnose._core.closedform
import wingnose._core.contact
import wingnose._core.layout
import wingnose._core.passage
import wingnose._core.profile
import wingnose._core.track
__all__: list[str] = ['Estimate', 'Geometry', 'Instant', 'Outcome', 'Result', 'SharedParts', 'State', 'Sweep', 'SweepChunk', 'SweepFile', 'answer_cases', 'contact_trail', 'estimates_of', 'geometry_of', 'instant', 'landing_station', 'plan_of', 'read_sweep', 'result_of', 'run_many', 'run_of', 'steel_damage', 'track_for']
class Geometry:
    """
    The wheel path of a case and what it means.
    
    Attributes
    ----------
    path : value
        wheel path
    law : value
        law of contact along it, for E* = 1 Pa; None: ellipses
    crossing : value
        crossing, None for prescribed paths
    wheel : value
        profile, as rolled
    kinematics : value
        transfer, dip, slopes
    findings : tuple[typing.Any, ...]
        what was found
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def crossing(self) -> wingnose._core.layout.Crossing | None:
        """
        crossing, None for prescribed paths
        """
    @property
    def findings(self) -> tuple[wingnose._core.Finding, ...]:
        """
        what was found
        """
    @property
    def kinematics(self) -> wingnose._core.contact.Kinematics:
        """
        transfer, dip, slopes
        """
    @property
    def law(self) -> wingnose._core.contact.PathLaw:
        """
        law of contact along it, for E* = 1 Pa; None: ellipses
        """
    @property
    def path(self) -> wingnose._core.contact.WheelPath:
        """
        wheel path
        """
    @property
    def wheel(self) -> wingnose._core.profile.WheelProfile:
        """
        profile, as rolled
        """
class Estimate:
    """
    Closed forms of a case for one lumped track.
    
    Attributes
    ----------
    track_name : str
        which lumped track
    input : value
        values put in
    forces : value
        P1 and P2
    assumptions : str
        what the numbers rest on
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def assumptions(self) -> str:
        """
        what the numbers rest on
        """
    @property
    def forces(self) -> wingnose._core.closedform.JointForces:
        """
        P1 and P2
        """
    @property
    def input(self) -> wingnose._core.closedform.JointCase:
        """
        values put in
        """
    @property
    def track_name(self) -> str:
        """
        which lumped track
        """
class Result:
    """
    A passage: path, histories without copies, numbers.
    """
    def __repr__(self) -> str:
        ...
    @property
    def estimates(self) -> list[Estimate]:
        """
        closed forms
        """
    @property
    def findings(self) -> list[wingnose._core.Finding]:
        """
        what was found
        """
    @property
    def geometry(self) -> Geometry:
        """
        path and kinematics
        """
    @property
    def history(self) -> wingnose._core.passage.History:
        """
        what happened
        """
    @property
    def landing_on(self) -> str:
        """
        body landed on
        """
    @property
    def measures(self) -> dict[str, float | None]:
        """
        every number told, by the keys of `wingnose.quantities`, in their units
        """
class Instant:
    """
    An instant of a passage and what the bodies carry then.
    
    Attributes
    ----------
    time : float
        s
    station : float
        m, of the axle
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def loads(self) -> dict[str, float]:
        """
        N, vertical force by body
        """
    @property
    def moment(self) -> str:
        """
        transfer, landing or peak
        """
    @property
    def station(self) -> float:
        """
        m, of the axle
        """
    @property
    def time(self) -> float:
        """
        s
        """
class State(enum.Enum):
    """
    How far a case of many has come.
    """
    bad_input = ...
    could_not_compute = ...
    done = ...
    not_run = ...
class SharedParts:
    """
    Tracks and wheel paths that outlive one call; used by one call at a time.
    """
    def __init__(self) -> None:
        ...
class Outcome:
    """
    Answer of one case, or why there is none.
    """
    def __repr__(self) -> str:
        ...
    @property
    def failure(self) -> str:
        """
        why there is no answer
        """
    @property
    def findings(self) -> list[wingnose._core.Finding]:
        """
        what was found
        """
    @property
    def measures(self) -> dict[str, float | None]:
        """
        every number told, by key; None where there is none
        """
    @property
    def result(self) -> Result:
        """
        with path and history, when kept
        """
    @property
    def state(self) -> State:
        """
        how far it came
        """
class Sweep:
    """
    Which keys of a case vary and how.
    
    `columns`: values of each key, in the unit of the key; `grid`: all combinations, the dearer keys (KeyInfo.cost) put
    first and the last varying fastest, or points, one value per case in every column; `probes`: record rail and bearer
    motion (cases then cannot advance eight at a time); `steel`: what the landings do to the steel, too; `history_every`:
    store every n-th sample of the force histories, 0 none.
    """
    def __getstate__(self) -> tuple[typing.Any, typing.Any, bool, bool, bool, int]:
        ...
    def __init__(self, case: wingnose._core.Case, columns: dict[str, collections.abc.Sequence[bool | float | str]], *, grid: bool = ..., probes: bool = ..., steel: bool = ..., history_every: int = ...) -> None:
        ...
    def __len__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def case(self, index: int) -> wingnose._core.Case:
        """
        one case
        """
    def tree(self, rows: dict[str, typing.Any]) -> wingnose._core.Tree:
        """
        What a file of it would hold, with these rows of all cases.
        """
    def values(self, index: int) -> dict[str, float | str]:
        """
        values of one case, by key
        """
    @property
    def base(self) -> wingnose._core.Case:
        """
        the case whose keys vary
        """
    @property
    def columns(self) -> dict[str, list[float | str]]:
        """
        values of each key, in the order in which they vary
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
    def write(self, chunk: SweepChunk, rows: dict[str, typing.Any]) -> None:
        """
        Store the rows of a chunk; it counts when this returns.
        """
    @property
    def cases_complete(self) -> int:
        """
        cases stored
        """
def answer_cases(sweep: Sweep, begin: int, end: int, *, threads: int = ..., progress: collections.abc.Callable[[int, int], typing.Any] | None = None, parts: SharedParts | None = None) -> dict[str, typing.Any]:
    """
    Answer cases [begin, end) of a sweep.
    
    `threads`: 0 for one per core; `progress`: called with the number of cases done and their total; `parts`: tracks and
    wheel paths kept from call to call. Returns arrays by their path in a sweep file, one row per case: "measures/p2_kN",
    "status", "failure", "gravity", "findings", ... They do not depend on `threads` or on how a sweep is cut.
    """
def contact_trail(case: wingnose._core.Case, result: Result) -> wingnose._core.assess.ContactTrail:
    """
    Rolling contacts of a case around its landing, with its friction and law of creep.
    """
def estimates_of(case: wingnose._core.Case, geometry: Geometry) -> list[Estimate]:
    """
    Closed forms of a case, one per lumped track.
    """
def geometry_of(case: wingnose._core.Case) -> Geometry:
    """
    Roll the wheel of a case over its crossing.
    """
def instant(case: wingnose._core.Case, result: Result, at: str) -> Instant:
    """
    An instant of a passage: station of the axle and the force of every body.
    
    `case`: what was run; `result`: what came of it; `at`: "transfer" (both bodies carry the same), "landing" (first peak
    of the force) or "peak" (largest force on the body landed on). Returns time, station, forces. Raises ComputeError
    where the passage has no such instant.
    
    Examples
    --------
    >>> import wingnose
    >>> from wingnose import study
    >>> case = wingnose.read_case("profiles/demo.toml")
    >>> now = study.instant(case, study.result_of(case), "transfer")
    >>> round(now.loads["wing"] / now.loads["nose"], 1)
    1.0
    """
def landing_station(geometry: Geometry) -> float:
    """
    Where the wheel is expected to land (m); raises ComputeError where nothing says so.
    """
def plan_of(case: wingnose._core.Case, geometry: Geometry, track: wingnose._core.track.ModalTrack) -> wingnose._core.passage.Plan:
    """
    What passages of a case share: path, track and vehicle, for `passage.simulate`.
    """
def read_sweep(file: os.PathLike[str] | str | bytes) -> Sweep:
    """
    Sweep of a TOML sweep file.
    """
def result_of(case: wingnose._core.Case, track: wingnose._core.track.ModalTrack | None = None) -> Result:
    """
    Run one case through all steps, its values kept as they are.
    
    `case`: from `read_case`; `track`: modes of `track_for(case)` built before, to share them between cases. Returns
    geometry, history without copies, numbers, findings. For named arrays and files: `run`.
    """
def run_many(cases: collections.abc.Sequence[wingnose._core.Case], *, threads: int = ..., probes: bool = ..., steel: bool = ..., keep_history: bool = ..., progress: collections.abc.Callable[[int, int], typing.Any] | None = None, parts: SharedParts | None = None) -> list[Outcome]:
    """
    Run many cases, tracks and wheel paths shared among them.
    
    A case that fails does not stop the others. `threads`: 0 for one per core; `probes`: record rail and bearer motion
    (cases then cannot advance eight at a time); `steel`: what the landings do to the steel, too; `keep_history`: keep
    histories, wheel paths and crossings, about 1 MB per case; `progress`: called with the number of cases done and their
    total; `parts`: tracks and wheel paths kept from call to call. Returns one per case, in order: the same bits whatever
    the number of threads.
    """
def run_of(case: wingnose._core.Case, geometry: Geometry) -> wingnose._core.passage.Run:
    """
    Speed, direction and probes of a case, for `passage.simulate`.
    """
def steel_damage(case: wingnose._core.Case, result: Result) -> wingnose._core.assess.Damage:
    """
    What the passage of a case does to its new steel; raises ComputeError where there is no landing.
    """
def track_for(case: wingnose._core.Case) -> wingnose._core.track.Track:
    """
    The track of a case, long enough for all its wheels.
    """
