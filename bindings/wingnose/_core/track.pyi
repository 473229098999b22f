"""
Track under one rail: description, matrices, modes, answers.
"""
from __future__ import annotations
import collections.abc
import numpy
import numpy.typing
import typing
__all__: list[str] = ['Assembly', 'ModalTrack', 'RailProperties', 'RailZone', 'Seat', 'SeatOverride', 'Track', 'assemble', 'modal_receptance', 'modal_track', 'receptance', 'static_deflection', 'steel_rail']
class RailProperties:
    """
    Timoshenko beam properties of one rail.
    
    Parameters
    ----------
    EI : float
        N m2, 100000 to 1e+08
    kappa_GA : float
        N, 1e+06 to 1e+11
    rho_A : float
        kg/m, 5 to 500
    rho_I : float
        kg m, 0 to 10
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, EI: float = ..., kappa_GA: float = ..., rho_A: float = ..., rho_I: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> RailProperties:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def EI(self) -> float:
        """
        N m2, 100000 to 1e+08
        """
    @property
    def kappa_GA(self) -> float:
        """
        N, 1e+06 to 1e+11
        """
    @property
    def rho_A(self) -> float:
        """
        kg/m, 5 to 500
        """
    @property
    def rho_I(self) -> float:
        """
        kg m, 0 to 10
        """
class RailZone:
    """
    A stretch where the rail differs, such as the casting of a crossing.
    
    Parameters
    ----------
    begin : float
        m
    end : float
        m
    rail : value
        its properties
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, begin: float, end: float, rail: RailProperties = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> RailZone:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def begin(self) -> float:
        """
        m
        """
    @property
    def end(self) -> float:
        """
        m
        """
    @property
    def rail(self) -> RailProperties:
        """
        its properties
        """
class Seat:
    """
    One rail seat: pad, bearer (half a sleeper), ballast; losses in the frequency domain.
    
    Parameters
    ----------
    pad_stiffness : float
        N/m, 1e+06 to 5e+09
    pad_damping : float
        N s/m, 0 to 1e+06
    pad_loss : float
        0 to 2
    bearer_mass : float
        kg, 1 to 2000
    ballast_stiffness : float
        N/m, 1e+06 to 5e+09
    ballast_damping : float
        N s/m, 0 to 2e+06
    ballast_loss : float
        0 to 2
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, pad_stiffness: float = ..., pad_damping: float = ..., pad_loss: float = ..., bearer_mass: float = ..., ballast_stiffness: float = ..., ballast_damping: float = ..., ballast_loss: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Seat:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def ballast_damping(self) -> float:
        """
        N s/m, 0 to 2e+06
        """
    @property
    def ballast_loss(self) -> float:
        """
        0 to 2
        """
    @property
    def ballast_stiffness(self) -> float:
        """
        N/m, 1e+06 to 5e+09
        """
    @property
    def bearer_mass(self) -> float:
        """
        kg, 1 to 2000
        """
    @property
    def pad_damping(self) -> float:
        """
        N s/m, 0 to 1e+06
        """
    @property
    def pad_loss(self) -> float:
        """
        0 to 2
        """
    @property
    def pad_stiffness(self) -> float:
        """
        N/m, 1e+06 to 5e+09
        """
class SeatOverride:
    """
    A seat that differs from the others.
    
    Parameters
    ----------
    station : float
        m, the nearest seat is replaced
    seat : value
        what it becomes
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any]:
        ...
    def __init__(self, *, station: float, seat: Seat = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> SeatOverride:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def seat(self) -> Seat:
        """
        what it becomes
        """
    @property
    def station(self) -> float:
        """
        m, the nearest seat is replaced
        """
class Track:
    """
    Track under one rail.
    
    Parameters
    ----------
    rail : value
        the rail
    zones : tuple[typing.Any, ...]
        stretches where the rail differs
    seat : value
        every rail seat
    overrides : tuple[typing.Any, ...]
        seats that differ
    centre : float
        m, middle of the model
    spacing : float
        m, 0.2 to 2
    first_seat : float
        m, -2 to 2
    bays : int
        10 to 400
    elements_per_bay : int
        2 to 40
    cut_off : float
        Hz, 200 to 50000
    rail_loss : float
        0 to 1
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, rail: RailProperties = ..., zones: collections.abc.Sequence[RailZone] = ..., seat: Seat = ..., overrides: collections.abc.Sequence[SeatOverride] = ..., centre: float = ..., spacing: float = ..., first_seat: float = ..., bays: int = ..., elements_per_bay: int = ..., cut_off: float = ..., rail_loss: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Track:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def bays(self) -> int:
        """
        10 to 400
        """
    @property
    def centre(self) -> float:
        """
        m, middle of the model
        """
    @property
    def cut_off(self) -> float:
        """
        Hz, 200 to 50000
        """
    @property
    def elements_per_bay(self) -> int:
        """
        2 to 40
        """
    @property
    def first_seat(self) -> float:
        """
        m, -2 to 2
        """
    @property
    def overrides(self) -> tuple[SeatOverride, ...]:
        """
        seats that differ
        """
    @property
    def rail(self) -> RailProperties:
        """
        the rail
        """
    @property
    def rail_loss(self) -> float:
        """
        0 to 1
        """
    @property
    def seat(self) -> Seat:
        """
        every rail seat
        """
    @property
    def spacing(self) -> float:
        """
        m, 0.2 to 2
        """
    @property
    def zones(self) -> tuple[RailZone, ...]:
        """
        stretches where the rail differs
        """
class Assembly:
    """
    Finite-element matrices of a track.
    """
    def __repr__(self) -> str:
        ...
    @property
    def dofs(self) -> int:
        """
        number of degrees of freedom
        """
    @property
    def node(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, stations of the rail nodes
        """
    @property
    def seat_station(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, stations of the rail seats
        """
class ModalTrack:
    """
    Complex modes of a track with residual compliance; built once and shared by all passages.
    """
    def __repr__(self) -> str:
        ...
    def residual_at(self, x: float) -> float:
        """
        Residual compliance (m/N) at station `x` (m).
        """
    @property
    def assembly(self) -> Assembly:
        """
        the matrices it came from
        """
    @property
    def begin(self) -> float:
        """
        m, first station
        """
    @property
    def bilinearity_error(self) -> float:
        """
        -, largest relative error of the modal static compliance
        """
    @property
    def decay(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        rad/s, real parts of the eigenvalues (padded)
        """
    @property
    def end(self) -> float:
        """
        m, last station
        """
    @property
    def highest_frequency(self) -> float:
        """
        Hz, highest mode kept
        """
    @property
    def modes(self) -> int:
        """
        number of complex modes
        """
def assemble(track: Track) -> Assembly:
    """
    Matrices of a track; raises InputError on impossible values.
    """
def modal_receptance(track: ModalTrack, x: float, frequency: float) -> complex:
    """
    Point receptance (m/N, complex) at `x` (m) and one frequency (Hz) from the modes; viscous damping only.
    """
def modal_track(track: Track) -> ModalTrack:
    """
    Modes of a track for time stepping; takes some tenths of a second, so build it once per track.
    """
def receptance(assembly: Assembly, x: float, frequency: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> numpy.typing.NDArray[numpy.complex128]:
    """
    Point receptance of the rail, direct solution with loss factors.
    
    `assembly`: from `assemble`; `x`: m, station of force and answer; `frequency`: Hz. Returns m/N.
    """
def static_deflection(assembly: Assembly, load: float, x_load: float, at: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> numpy.typing.NDArray[numpy.float64]:
    """
    Static deflection of the rail.
    
    `assembly`: from `assemble`; `load`: N, downward; `x_load`: m, where it acts; `at`: m, where the deflection is wanted.
    Returns m, downward positive.
    """
def steel_rail(area: float, inertia: float, mass_per_m: float, kappa: float = ...) -> RailProperties:
    """
    Properties of a steel rail from its area (m2), inertia (m4), mass (kg/m) and shear coefficient (-).
    """
