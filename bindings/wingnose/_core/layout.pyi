"""
Surfaces along the track and the kinematic passage over them.
"""
from __future__ import annotations
import collections.abc
import enum
import numpy
import numpy.typing
import typing
__all__: list[str] = ['Body', 'Crossing', 'CrossingShape', 'DippedJoint', 'GivenPath', 'JointShape', 'Modifier', 'Section', 'SectionedBody', 'SectionedShape', 'from_sections', 'generate']
class Modifier:
    """
    Smooth (C2) wear or weld repair of a running surface; depth > 0 removes.
    
    Parameters
    ----------
    body : str
        "wing" or "nose"
    station : float
        m, -100 to 100
    length : float
        m, 0.01 to 20
    depth : float
        m, -0.02 to 0.02
    eta : float
        m, 0 to 0.3
    width : float
        m, 0 to 0.5
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, body: str, station: float = ..., length: float, depth: float = ..., eta: float = ..., width: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Modifier:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def body(self) -> str:
        """
        "wing" or "nose"
        """
    @property
    def depth(self) -> float:
        """
        m, -0.02 to 0.02
        """
    @property
    def eta(self) -> float:
        """
        m, 0 to 0.3
        """
    @property
    def length(self) -> float:
        """
        m, 0.01 to 20
        """
    @property
    def station(self) -> float:
        """
        m, -100 to 100
        """
    @property
    def width(self) -> float:
        """
        m, 0 to 0.5
        """
class CrossingShape:
    """
    Common (acute) crossing from the few numbers a drawing states.
    
    Parameters
    ----------
    name : str
        name
    wing_head : str
        "flat" or the name of a rail head
    modifiers : tuple[typing.Any, ...]
        wear and repair
    rate : float
        4 to 60
    gauge : float
        m, 1.425 to 1.47
    flangeway : float
        m, 0.02 to 0.12
    wing_knuckle_radius : float
        m, 0.01 to 200
    wing_run : float
        m, 0 to 20
    wing_edge_radius : float
        m, 0.001 to 0.03
    wing_cross_slope : float
        -0.2 to 0.2
    wing_inclination : float
        rad, -0.1 to 0.1
    wing_lift : float
        m, -0.02 to 0.02
    wing_lift_begin : float
        m, -5 to 5
    wing_lift_run : float
        m, 0.02 to 10
    nose_point_thickness : float
        m, 0.001 to 0.1
    nose_start_depth : float
        m, 0 to 0.03
    nose_ramp_end_thickness : float
        m, 0.005 to 0.3
    nose_ramp_start_thickness : float
        m, 0 to 0.1
    nose_ramp_rounding : float
        m, 0.001 to 5
    nose_setback : float
        m, 0 to 0.01
    nose_shoulder_radius : float
        m, 0.002 to 0.03
    nose_crown_radius : float
        m, 0.05 to 100
    nose_length : float
        m, 0.1 to 100
    wing_begin : float
        m, -50 to -0.1
    wing_run_in_edge_radius : float
        m, 0.001 to 0.03
    nose_ramp_end_depth : float
        m, 0 to 0.03
    nose_full_thickness : float
        m, 0.005 to 0.5
    wing_crown_radius : float
        m, 0 to 100
    wing_flat_offset : float
        m, 0.005 to 0.2
    crown_place : float
        m, 0.005 to 0.12
    head_width : float
        m, 0.03 to 0.12
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str = ..., wing_head: str = ..., modifiers: collections.abc.Sequence[Modifier] = ..., rate: float = ..., gauge: float = ..., flangeway: float = ..., wing_knuckle_radius: float = ..., wing_run: float = ..., wing_edge_radius: float = ..., wing_cross_slope: float = ..., wing_inclination: float = ..., wing_lift: float = ..., wing_lift_begin: float = ..., wing_lift_run: float = ..., nose_point_thickness: float = ..., nose_start_depth: float = ..., nose_ramp_end_thickness: float = ..., nose_ramp_start_thickness: float = ..., nose_ramp_rounding: float = ..., nose_setback: float = ..., nose_shoulder_radius: float = ..., nose_crown_radius: float = ..., nose_length: float = ..., wing_begin: float = ..., wing_run_in_edge_radius: float = ..., nose_ramp_end_depth: float = ..., nose_full_thickness: float = ..., wing_crown_radius: float = ..., wing_flat_offset: float = ..., crown_place: float = ..., head_width: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> CrossingShape:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def crown_place(self) -> float:
        """
        m, 0.005 to 0.12
        """
    @property
    def flangeway(self) -> float:
        """
        m, 0.02 to 0.12
        """
    @property
    def gauge(self) -> float:
        """
        m, 1.425 to 1.47
        """
    @property
    def head_width(self) -> float:
        """
        m, 0.03 to 0.12
        """
    @property
    def modifiers(self) -> tuple[Modifier, ...]:
        """
        wear and repair
        """
    @property
    def name(self) -> str:
        """
        name
        """
    @property
    def nose_crown_radius(self) -> float:
        """
        m, 0.05 to 100
        """
    @property
    def nose_full_thickness(self) -> float:
        """
        m, 0.005 to 0.5
        """
    @property
    def nose_length(self) -> float:
        """
        m, 0.1 to 100
        """
    @property
    def nose_point_thickness(self) -> float:
        """
        m, 0.001 to 0.1
        """
    @property
    def nose_ramp_end_depth(self) -> float:
        """
        m, 0 to 0.03
        """
    @property
    def nose_ramp_end_thickness(self) -> float:
        """
        m, 0.005 to 0.3
        """
    @property
    def nose_ramp_rounding(self) -> float:
        """
        m, 0.001 to 5
        """
    @property
    def nose_ramp_start_thickness(self) -> float:
        """
        m, 0 to 0.1
        """
    @property
    def nose_setback(self) -> float:
        """
        m, 0 to 0.01
        """
    @property
    def nose_shoulder_radius(self) -> float:
        """
        m, 0.002 to 0.03
        """
    @property
    def nose_start_depth(self) -> float:
        """
        m, 0 to 0.03
        """
    @property
    def rate(self) -> float:
        """
        4 to 60
        """
    @property
    def wing_begin(self) -> float:
        """
        m, -50 to -0.1
        """
    @property
    def wing_cross_slope(self) -> float:
        """
        -0.2 to 0.2
        """
    @property
    def wing_crown_radius(self) -> float:
        """
        m, 0 to 100
        """
    @property
    def wing_edge_radius(self) -> float:
        """
        m, 0.001 to 0.03
        """
    @property
    def wing_flat_offset(self) -> float:
        """
        m, 0.005 to 0.2
        """
    @property
    def wing_head(self) -> str:
        """
        "flat" or the name of a rail head
        """
    @property
    def wing_inclination(self) -> float:
        """
        rad, -0.1 to 0.1
        """
    @property
    def wing_knuckle_radius(self) -> float:
        """
        m, 0.01 to 200
        """
    @property
    def wing_lift(self) -> float:
        """
        m, -0.02 to 0.02
        """
    @property
    def wing_lift_begin(self) -> float:
        """
        m, -5 to 5
        """
    @property
    def wing_lift_run(self) -> float:
        """
        m, 0.02 to 10
        """
    @property
    def wing_run(self) -> float:
        """
        m, 0 to 20
        """
    @property
    def wing_run_in_edge_radius(self) -> float:
        """
        m, 0.001 to 0.03
        """
class Section:
    """
    One measured cross-section, ordered across from the running edge.
    
    Parameters
    ----------
    station : float
        m
    y : ndarray of float
        m
    z : ndarray of float
        m
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, station: float, y: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], z: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Section:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def station(self) -> float:
        """
        m
        """
    @property
    def y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m
        """
    @property
    def z(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m
        """
class SectionedBody:
    """
    A body given by sections.
    
    Parameters
    ----------
    name : str
        "wing" or "nose"
    sections : tuple[typing.Any, ...]
        in order of station
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str, sections: collections.abc.Sequence[Section]) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> SectionedBody:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def name(self) -> str:
        """
        "wing" or "nose"
        """
    @property
    def sections(self) -> tuple[Section, ...]:
        """
        in order of station
        """
class SectionedShape:
    """
    A crossing given by measured sections.
    
    Parameters
    ----------
    name : str
        name
    bodies : tuple[typing.Any, ...]
        wing and nose
    rate : float
        4 to 60
    gauge : float
        m, 1.425 to 1.47
    noise : float
        m, 0 to 0.001
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str = ..., bodies: collections.abc.Sequence[SectionedBody], rate: float = ..., gauge: float = ..., noise: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> SectionedShape:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def bodies(self) -> tuple[SectionedBody, ...]:
        """
        wing and nose
        """
    @property
    def gauge(self) -> float:
        """
        m, 1.425 to 1.47
        """
    @property
    def name(self) -> str:
        """
        name
        """
    @property
    def noise(self) -> float:
        """
        m, 0 to 0.001
        """
    @property
    def rate(self) -> float:
        """
        4 to 60
        """
class Body:
    """
    One named running surface of a crossing.
    """
    def __repr__(self) -> str:
        ...
    def height(self, x: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], y: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> typing.Any:
        """
        Heights z (m) at stations `x` and lateral positions `y` (m); NaN off the body.
        """
    def section(self, x: float, points: int = ...) -> tuple[numpy.typing.NDArray[numpy.float64], numpy.typing.NDArray[numpy.float64]]:
        """
        Cross-section at station `x` (m): y and z (m) across the body; empty arrays where it does not exist.
        """
    @property
    def name(self) -> str:
        """
        "wing" or "nose"
        """
    @property
    def x_begin(self) -> float:
        """
        m, first station
        """
    @property
    def x_end(self) -> float:
        """
        m, last station
        """
class Crossing:
    """
    A crossing as a set of named running surfaces.
    """
    def __repr__(self) -> str:
        ...
    def nose_thickness(self, x: float) -> float:
        """
        Nose thickness (m) at station `x` (m).
        """
    @property
    def bodies(self) -> tuple[Body, ...]:
        """
        wing, nose
        """
    @property
    def gauge(self) -> float:
        """
        m
        """
    @property
    def name(self) -> str:
        """
        name
        """
    @property
    def rate(self) -> float:
        """
        N of 1:N
        """
class JointShape(enum.Enum):
    """
    Form of a dipped joint.
    """
    kink = ...
    quadratic = ...
    sine = ...
class DippedJoint:
    """
    A dipped rail joint, the excitation P1 and P2 were defined for.
    
    Parameters
    ----------
    dip_angle : float
        rad, total, > 0
    half_length : float
        m, ramp length each side
    shape : value
        kink or quadratic
    at : float
        m, station of the joint
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, dip_angle: float, half_length: float, shape: JointShape = ..., at: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> DippedJoint:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def at(self) -> float:
        """
        m, station of the joint
        """
    @property
    def dip_angle(self) -> float:
        """
        rad, total, > 0
        """
    @property
    def half_length(self) -> float:
        """
        m, ramp length each side
        """
    @property
    def shape(self) -> JointShape:
        """
        kink or quadratic
        """
class GivenPath:
    """
    A wheel path given by points, joined by straight lines.
    
    Parameters
    ----------
    station : ndarray of float
        m, increasing
    height : ndarray of float
        m
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any]:
        ...
    def __init__(self, *, station: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], height: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> GivenPath:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def height(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m
        """
    @property
    def station(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, increasing
        """
def from_sections(shape: SectionedShape) -> Crossing:
    """
    Crossing lofted through measured sections.
    """
def generate(shape: CrossingShape) -> Crossing:
    """
    Crossing of a CrossingShape; raises InputError on impossible shapes.
    """
