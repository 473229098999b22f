"""
Couples contact, track and vehicle through time.
"""
from __future__ import annotations
import collections.abc
import enum
import numpy
import numpy.typing
import typing
import wingnose._core
import wingnose._core.contact
import wingnose._core.track
import wingnose._core.vehicle
__all__: list[str] = ['Event', 'EventKind', 'History', 'Method', 'Plan', 'Run', 'Settings', 'make_plan', 'simulate']
class Method(enum.Enum):
    """
    How the passage is integrated.
    """
    modal_exponential = ...
    runge_kutta = ...
class Settings:
    """
    One passage: sense, speed, stretch, step.
    
    Parameters
    ----------
    direction : value
        facing or trailing
    speed : float
        m/s, > 0
    from_ : float
        m, stretch covered by the reported wheel
    to : float
        m
    step : float
        s, also the sampling step of the history
    method : value
        integration method
    tolerance : float
        -, relative, adaptive method only
    reported_wheel : int
        index, leading wheel 0
    probes : bool
        record rail and bearer motion near the landing
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, direction: wingnose._core.Direction = ..., speed: float = ..., from_: float = ..., to: float = ..., step: float = ..., method: Method = ..., tolerance: float = ..., reported_wheel: int = ..., probes: bool = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Settings:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def direction(self) -> wingnose._core.Direction:
        """
        facing or trailing
        """
    @property
    def from_(self) -> float:
        """
        m, stretch covered by the reported wheel
        """
    @property
    def method(self) -> Method:
        """
        integration method
        """
    @property
    def probes(self) -> bool:
        """
        record rail and bearer motion near the landing
        """
    @property
    def reported_wheel(self) -> int:
        """
        index, leading wheel 0
        """
    @property
    def speed(self) -> float:
        """
        m/s, > 0
        """
    @property
    def step(self) -> float:
        """
        s, also the sampling step of the history
        """
    @property
    def to(self) -> float:
        """
        m
        """
    @property
    def tolerance(self) -> float:
        """
        -, relative, adaptive method only
        """
class EventKind(enum.Enum):
    """
    What happened.
    """
    lift_off = ...
    touch = ...
    transfer = ...
class Event:
    """
    A located event.
    
    Attributes
    ----------
    kind : value
        touch, lift-off or transfer
    body : str
        body touched or left; for a transfer the body that now carries more
    time : float
        s, time of the event
    station : float
        m, station of the axle at the event
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def body(self) -> str:
        """
        body touched or left; for a transfer the body that now carries more
        """
    @property
    def kind(self) -> EventKind:
        """
        touch, lift-off or transfer
        """
    @property
    def station(self) -> float:
        """
        m, station of the axle at the event
        """
    @property
    def time(self) -> float:
        """
        s, time of the event
        """
class History:
    """
    What happened to the reported wheel during one passage.
    
    Attributes
    ----------
    bodies : tuple[typing.Any, ...]
        names, order of body_force
    body_force : tuple[typing.Any, ...]
        N, one array per body
    rail_probe_station : float
        m
    bearer_probe_station : float
        m
    wheel_peaks : ndarray of float
        N, largest force of every wheel
    events : tuple[typing.Any, ...]
        touch, lift-off, transfer
    static_load : float
        N
    step : float
        s
    method : str
        how it was integrated
    time : ndarray of float
        s, time since the start, uniform
    station : ndarray of float
        m, station of the reported wheel's axle
    force : ndarray of float
        N, total contact force, not filtered
    wheel_height : ndarray of float
        m, height of the wheel, up, from static equilibrium over an undeflected track
    wheel_acceleration : ndarray of float
        m/s2, acceleration of the wheel, up
    rail_deflection : ndarray of float
        m, rail under the wheel, downward
    rail_acceleration : ndarray of float
        m/s2, rail at the fixed probe near the landing, downward
    bearer_acceleration : ndarray of float
        m/s2, bearer at the fixed probe near the landing, downward
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def bearer_acceleration(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m/s2, bearer at the fixed probe near the landing, downward
        """
    @property
    def bearer_probe_station(self) -> float:
        """
        m
        """
    @property
    def bodies(self) -> tuple[str, ...]:
        """
        names, order of body_force
        """
    @property
    def body_force(self) -> tuple[numpy.typing.NDArray[numpy.float64], ...]:
        """
        N, one array per body
        """
    @property
    def events(self) -> tuple[Event, ...]:
        """
        touch, lift-off, transfer
        """
    @property
    def force(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        N, total contact force, not filtered
        """
    @property
    def method(self) -> str:
        """
        how it was integrated
        """
    @property
    def rail_acceleration(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m/s2, rail at the fixed probe near the landing, downward
        """
    @property
    def rail_deflection(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, rail under the wheel, downward
        """
    @property
    def rail_probe_station(self) -> float:
        """
        m
        """
    @property
    def static_load(self) -> float:
        """
        N
        """
    @property
    def station(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, station of the reported wheel's axle
        """
    @property
    def step(self) -> float:
        """
        s
        """
    @property
    def time(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        s, time since the start, uniform
        """
    @property
    def wheel_acceleration(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m/s2, acceleration of the wheel, up
        """
    @property
    def wheel_height(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, height of the wheel, up, from static equilibrium over an undeflected track
        """
    @property
    def wheel_peaks(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        N, largest force of every wheel
        """
class Run:
    """
    One move over a plan: what a passage adds to what passages share.
    
    Parameters
    ----------
    direction : value
        facing or trailing
    speed : float
        m/s, 0.1 to 200
    reported_wheel : int
        index, leading wheel 0
    load : value
        N, static load of the reported wheel; None: as the vehicle has it
    method : value
        integration method
    tolerance : float
        -, relative, adaptive method only
    probes : bool
        record rail and bearer motion at fixed points
    probe_station : value
        m, where they lie; None: mid-way
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, direction: wingnose._core.Direction = ..., speed: float = ..., reported_wheel: int = ..., load: float | None = ..., method: Method = ..., tolerance: float = ..., probes: bool = ..., probe_station: float | None = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Run:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def direction(self) -> wingnose._core.Direction:
        """
        facing or trailing
        """
    @property
    def load(self) -> float | None:
        """
        N, static load of the reported wheel; None: as the vehicle has it
        """
    @property
    def method(self) -> Method:
        """
        integration method
        """
    @property
    def probe_station(self) -> float | None:
        """
        m, where they lie; None: mid-way
        """
    @property
    def probes(self) -> bool:
        """
        record rail and bearer motion at fixed points
        """
    @property
    def reported_wheel(self) -> int:
        """
        index, leading wheel 0
        """
    @property
    def speed(self) -> float:
        """
        m/s, 0.1 to 200
        """
    @property
    def tolerance(self) -> float:
        """
        -, relative, adaptive method only
        """
class Plan:
    """
    What passages share (wheel paths, laws of contact, track, vehicle); immutable, for any thread.
    """
    def __repr__(self) -> str:
        ...
    @property
    def from_(self) -> float:
        """
        m, stretch covered by the reported wheel
        """
    @property
    def step(self) -> float:
        """
        s
        """
    @property
    def to(self) -> float:
        """
        m
        """
    @property
    def wheels(self) -> int:
        """
        number of wheels
        """
def make_plan(paths: collections.abc.Sequence[wingnose._core.contact.WheelPath], track: wingnose._core.track.ModalTrack, vehicle: wingnose._core.vehicle.VehicleModel, steel: wingnose._core.contact.Elastic = ..., from_: float = ..., to: float = ..., step: float = ...) -> Plan:
    """
    What passages share.
    
    `paths`: one per wheel, leading first, or one that all wheels take; `track`: from `track.modal_track`; `vehicle`: from
    `vehicle.assemble`; `steel`: material of wheel and rail; `from_`, `to`: m, stretch covered by the reported wheel;
    `step`: s, also the sampling step of the history.
    """
def simulate(plan: Plan, run: Run = ...) -> History:
    """
    Run one passage; raises ComputeError when the motion does not stay finite.
    """
