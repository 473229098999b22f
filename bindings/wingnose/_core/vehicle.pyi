"""
Vehicle in the vertical plane, per rail.
"""
from __future__ import annotations
import collections.abc
import numpy
import numpy.typing
import typing
__all__: list[str] = ['Body', 'Mode', 'Suspension', 'Vehicle', 'VehicleModel', 'Wheel', 'assemble', 'modes', 'preset', 'preset_names', 'single_wheel', 'undamped_frequencies']
class Body:
    """
    Rigid body, per rail (half of the whole vehicle's values); x is its centre.
    
    Parameters
    ----------
    name : str
        unique name
    mass : float
        kg, 1 to 500000
    pitch_inertia : float
        kg m2, 0 to 1e+08
    x : float
        m, -200 to 50
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str, mass: float, pitch_inertia: float = ..., x: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Body:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def mass(self) -> float:
        """
        kg, 1 to 500000
        """
    @property
    def name(self) -> str:
        """
        unique name
        """
    @property
    def pitch_inertia(self) -> float:
        """
        kg m2, 0 to 1e+08
        """
    @property
    def x(self) -> float:
        """
        m, -200 to 50
        """
class Suspension:
    """
    Linear spring and damper between two bodies or a body and a wheel.
    
    Parameters
    ----------
    upper : str
        name
    lower : str
        name
    x : float
        m, -200 to 50
    stiffness : float
        N/m, 0 to 1e+09
    damping : float
        N s/m, 0 to 1e+07
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, upper: str, lower: str, x: float = ..., stiffness: float = ..., damping: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Suspension:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def damping(self) -> float:
        """
        N s/m, 0 to 1e+07
        """
    @property
    def lower(self) -> str:
        """
        name
        """
    @property
    def stiffness(self) -> float:
        """
        N/m, 0 to 1e+09
        """
    @property
    def upper(self) -> str:
        """
        name
        """
    @property
    def x(self) -> float:
        """
        m, -200 to 50
        """
class Wheel:
    """
    One wheel with its share of the unsprung mass; x is 0 for the leading one.
    
    Parameters
    ----------
    name : str
        unique name
    unsprung_mass : float
        kg, 10 to 20000
    x : float
        m, -200 to 0
    radius : float
        m, 0.15 to 1
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str, unsprung_mass: float, x: float = ..., radius: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Wheel:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def name(self) -> str:
        """
        unique name
        """
    @property
    def radius(self) -> float:
        """
        m, 0.15 to 1
        """
    @property
    def unsprung_mass(self) -> float:
        """
        kg, 10 to 20000
        """
    @property
    def x(self) -> float:
        """
        m, -200 to 0
        """
class Vehicle:
    """
    Vehicle in the vertical plane, per rail.
    
    Parameters
    ----------
    name : str
        name
    bodies : tuple[typing.Any, ...]
        sprung bodies
    wheels : tuple[typing.Any, ...]
        leading first
    suspensions : tuple[typing.Any, ...]
        springs and dampers
    source : str
        where the values come from
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str, bodies: collections.abc.Sequence[Body] = ..., wheels: collections.abc.Sequence[Wheel], suspensions: collections.abc.Sequence[Suspension] = ..., source: str = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Vehicle:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def bodies(self) -> tuple[Body, ...]:
        """
        sprung bodies
        """
    @property
    def name(self) -> str:
        """
        name
        """
    @property
    def source(self) -> str:
        """
        where the values come from
        """
    @property
    def suspensions(self) -> tuple[Suspension, ...]:
        """
        springs and dampers
        """
    @property
    def wheels(self) -> tuple[Wheel, ...]:
        """
        leading first
        """
class VehicleModel:
    """
    Matrices of a vehicle, wheels first, and its static wheel loads.
    
    Attributes
    ----------
    wheel_x : ndarray of float
        m
    static_load : ndarray of float
        N per wheel on level track
    coordinate : tuple[typing.Any, ...]
        names of the coordinates
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def C(self) -> typing.Annotated[numpy.typing.NDArray[numpy.float64], "[m, n]"]:
        """
        N s/m, ...
        """
    @property
    def K(self) -> typing.Annotated[numpy.typing.NDArray[numpy.float64], "[m, n]"]:
        """
        N/m, ...
        """
    @property
    def M(self) -> typing.Annotated[numpy.typing.NDArray[numpy.float64], "[m, n]"]:
        """
        kg, kg m2
        """
    @property
    def coordinate(self) -> tuple[str, ...]:
        """
        names of the coordinates
        """
    @property
    def static_load(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        N per wheel on level track
        """
    @property
    def wheel_x(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m
        """
    @property
    def wheels(self) -> int:
        """
        number of wheels
        """
class Mode:
    """
    One damped mode.
    
    Attributes
    ----------
    frequency : float
        Hz
    damping_ratio : float
        -
    dominant : str
        coordinate that moves most
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def damping_ratio(self) -> float:
        """
        -
        """
    @property
    def dominant(self) -> str:
        """
        coordinate that moves most
        """
    @property
    def frequency(self) -> float:
        """
        Hz
        """
def assemble(vehicle: Vehicle) -> VehicleModel:
    """
    Matrices and static loads; raises InputError on impossible tables.
    """
def modes(model: VehicleModel, wheels_held: bool = ...) -> list[Mode]:
    """
    Damped modes by ascending frequency (Hz).
    """
def preset(name: str) -> Vehicle:
    """
    A vehicle of the library; see `preset_names`.
    """
def preset_names() -> list[str]:
    """
    Names `preset` knows.
    """
def single_wheel(static_load: float, unsprung_mass: float, primary_stiffness: float, primary_damping: float, radius: float) -> Vehicle:
    """
    One wheel under its primary suspension that carries the rest of the load.
    
    `static_load`: N; `unsprung_mass`: kg; `primary_stiffness`: N/m; `primary_damping`: N s/m; `radius`: m.
    """
def undamped_frequencies(model: VehicleModel, wheels_held: bool = ...) -> numpy.typing.NDArray[numpy.float64]:
    """
    Undamped natural frequencies (Hz), ascending.
    """
