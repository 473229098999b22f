"""
Plane cross-sections: wheel profiles, rail heads, rail sections.
"""
from __future__ import annotations
import numpy
import numpy.typing
import typing
__all__: list[str] = ['Bump', 'Curve', 'CurvePoint', 'Hollow', 'RailHead', 'RailSection', 'WheelProfile', 'cone', 'hollow_worn', 'measured_wheel', 'rail_head', 'rail_section', 'rail_section_names', 's1002']
class CurvePoint:
    """
    Value (m), slope (-) and signed curvature (1/m) of a curve at one y.
    """
    def __repr__(self) -> str:
        ...
    @property
    def curvature(self) -> float:
        """
        1/m, positive where the curve bends upward
        """
    @property
    def slope(self) -> float:
        """
        -
        """
    @property
    def value(self) -> float:
        """
        m
        """
class Bump:
    """
    Smooth (C2) addition to a curve; depth > 0 removes material.
    
    Parameters
    ----------
    depth : float
        m, largest change of the value
    width : float
        m, full width
    centre : float
        m, middle in y
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, depth: float, width: float, centre: float) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Bump:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def centre(self) -> float:
        """
        m, middle in y
        """
    @property
    def depth(self) -> float:
        """
        m, largest change of the value
        """
    @property
    def width(self) -> float:
        """
        m, full width
        """
class Curve:
    """
    Plane curve z(y), y and z in m, the form of all cross-sections.
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __call__(self, y: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> numpy.typing.NDArray[numpy.float64]:
        """
        Heights (m) at `y` (m); outside the range the value at the end is returned.
        """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[list[tuple[float, float, int, typing.Annotated[list[float], "FixedSize(9)"], float]], list[Bump]]:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def at(self, y: float) -> CurvePoint:
        """
        Value, slope and curvature at one `y` (m).
        """
    def with_bump(self, bump: Bump) -> Curve:
        """
        The same curve with one more smooth addition.
        """
    @property
    def back(self) -> float:
        """
        m, largest y
        """
    @property
    def front(self) -> float:
        """
        m, smallest y
        """
class WheelProfile:
    """
    Wheel cross-section: growth of the rolling radius over y, both in m, y from the taping line to the field side.
    
    Parameters
    ----------
    name : str
        name of the profile
    curve : value
        height over y
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str, curve: Curve) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def at(self, y: float) -> CurvePoint:
        """
        Value, slope and curvature at one `y` (m).
        """
    def height(self, y: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> numpy.typing.NDArray[numpy.float64]:
        """
        Growth of the rolling radius (m) at `y` (m), positive towards the flange tip.
        """
    def replace(self, **kwargs: typing.Any) -> WheelProfile:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def curve(self) -> Curve:
        """
        height over y
        """
    @property
    def name(self) -> str:
        """
        name of the profile
        """
    @property
    def y_max(self) -> float:
        """
        m, field face
        """
    @property
    def y_min(self) -> float:
        """
        m, flange back side
        """
class Hollow:
    """
    Hollow wear of a tread: loss of rolling radius at its centre.
    
    Parameters
    ----------
    depth : float
        m, 0 to 0.01
    width : float
        m, 0.005 to 0.12
    centre : float
        m, -0.04 to 0.06
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, depth: float = ..., width: float = ..., centre: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Hollow:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def centre(self) -> float:
        """
        m, -0.04 to 0.06
        """
    @property
    def depth(self) -> float:
        """
        m, 0 to 0.01
        """
    @property
    def width(self) -> float:
        """
        m, 0.005 to 0.12
        """
class RailHead:
    """
    Rail head: z over y in m, after inclination, from the gauge to the field side.
    
    Parameters
    ----------
    name : str
        name of the rail
    curve : value
        z over y
    status : str
        how far the shape is to be trusted
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str, curve: Curve, status: str) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> RailHead:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def curve(self) -> Curve:
        """
        z over y
        """
    @property
    def name(self) -> str:
        """
        name of the rail
        """
    @property
    def status(self) -> str:
        """
        how far the shape is to be trusted
        """
class RailSection:
    """
    Bending properties of one rail.
    
    Parameters
    ----------
    name : str
        name of the rail
    area : float
        m2
    mass_per_m : float
        kg/m
    inertia : float
        m4, about the horizontal axis
    status : str
        how far the values are to be trusted
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str, area: float, mass_per_m: float, inertia: float, status: str) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> RailSection:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def area(self) -> float:
        """
        m2
        """
    @property
    def inertia(self) -> float:
        """
        m4, about the horizontal axis
        """
    @property
    def mass_per_m(self) -> float:
        """
        kg/m
        """
    @property
    def name(self) -> str:
        """
        name of the rail
        """
    @property
    def status(self) -> str:
        """
        how far the values are to be trusted
        """
def cone(conicity: float) -> WheelProfile:
    """
    Straight tread of the given conicity (for example 1/20), no flange.
    """
def hollow_worn(base: WheelProfile, hollow: Hollow) -> WheelProfile:
    """
    A profile with a smooth hollow in its tread.
    """
def measured_wheel(y: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], height: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], noise: float, name: str = ...) -> WheelProfile:
    """
    Wheel profile fitted to measured points.
    
    `y`, `height`: m, points in the wheel frame, either order; `noise`: m, standard deviation of the measurement, > 0;
    `name`: name of the profile. Raises InputError: points not finite, too few, of implausible scale or not single-valued.
    """
def rail_head(name: str, inclination: float = ...) -> RailHead:
    """
    Head of a standard rail.
    
    `name`: such as "60E1"; `inclination`: rad, positive leans the head towards the track centre.
    """
def rail_section(name: str) -> RailSection:
    """
    Bending properties of a standard rail.
    """
def rail_section_names() -> list[str]:
    """
    Names `rail_section` knows.
    """
def s1002() -> WheelProfile:
    """
    S1002 wheel profile (UIC 510-2 / EN 13715), flange 28 mm high and 32.5 mm thick.
    """
