"""
Surfaces along the track and the kinematic passage over them.
"""
from __future__ import annotations
import collections.abc
import enum
import numpy
import numpy.typing
import typing
import wingnose._core
import wingnose._core.profile
__all__: list[str] = ['Body', 'BodyPath', 'Crossing', 'CrossingShape', 'DippedJoint', 'GivenPath', 'JointShape', 'Kinematics', 'KinematicsOptions', 'Modifier', 'PathOptions', 'PlainContact', 'Section', 'SectionedBody', 'SectionedShape', 'WheelPath', 'dipped_joint', 'from_sections', 'generate', 'given_path', 'kinematics', 'plain_contact', 'roll']
class Modifier:
    """
    Smooth (C2) wear or weld repair of a running surface.
    
    Parameters
    ----------
    body : str
        "wing" or "nose"
    station : float
        m, centre along the route
    length : float
        m, full length
    depth : float
        m, > 0 removes, < 0 adds
    eta : float
        m, centre across, from the running edge
    width : float
        m, full width across, 0 for the whole width
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, body: str, station: float, length: float, depth: float, eta: float = ..., width: float = ...) -> None:
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
        m, > 0 removes, < 0 adds
        """
    @property
    def eta(self) -> float:
        """
        m, centre across, from the running edge
        """
    @property
    def length(self) -> float:
        """
        m, full length
        """
    @property
    def station(self) -> float:
        """
        m, centre along the route
        """
    @property
    def width(self) -> float:
        """
        m, full width across, 0 for the whole width
        """
class CrossingShape:
    """
    Common (acute) crossing from the few numbers a drawing states.
    
    Parameters
    ----------
    name : str
        name
    rate : float
        N of 1:N, right-angle method, 4 to 60
    gauge : float
        m
    flangeway : float
        m
    wing_knuckle_radius : float
        m, rounding of the knuckle in plan
    wing_run : float
        m, length of wing behind the knuckle
    wing_edge_radius : float
        m
    wing_cross_slope : float
        -, negative falls to the field side
    wing_head : str
        "flat" or the name of a rail head
    wing_inclination : float
        rad, only for a sectioned head
    wing_lift : float
        m
    wing_lift_begin : float
        m, where the lift starts
    wing_lift_run : float
        m, length over which it is reached
    nose_point_thickness : float
        m, where the nose begins
    nose_start_depth : float
        m, top of the nose below z = 0 at its point
    nose_ramp_end_thickness : float
        m, where full height is reached
    nose_ramp_start_thickness : float
        m
    nose_ramp_rounding : float
        m, length over which the ramp end is rounded
    nose_setback : float
        m, faces behind the gauge lines
    nose_shoulder_radius : float
        m
    nose_crown_radius : float
        m
    nose_length : float
        m, modelled length behind the theoretical point
    nose_ramp_end_depth : float
        m, top of the nose below z = 0 where the ramp ends
    nose_full_thickness : float
        m, where the rest of the height is reached
    wing_begin : float
        m, where the modelled run-in begins
    wing_run_in_edge_radius : float
        m, rounding of the edge on the run-in
    wing_crown_radius : float
        m, crown of the run-in head; 0: flat
    wing_flat_offset : float
        m, run-out at which the crown has faded
    crown_place : float
        m, highest line from the gauge line
    head_width : float
        m, width of the head used for running
    modifiers : tuple
        wear and repair
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str = ..., rate: float = ..., gauge: float = ..., flangeway: float = ..., wing_knuckle_radius: float = ..., wing_run: float = ..., wing_edge_radius: float = ..., wing_cross_slope: float = ..., wing_head: str = ..., wing_inclination: float = ..., wing_lift: float = ..., wing_lift_begin: float = ..., wing_lift_run: float = ..., nose_point_thickness: float = ..., nose_start_depth: float = ..., nose_ramp_end_thickness: float = ..., nose_ramp_start_thickness: float = ..., nose_ramp_rounding: float = ..., nose_setback: float = ..., nose_shoulder_radius: float = ..., nose_crown_radius: float = ..., nose_length: float = ..., nose_ramp_end_depth: float = ..., nose_full_thickness: float = ..., wing_begin: float = ..., wing_run_in_edge_radius: float = ..., wing_crown_radius: float = ..., wing_flat_offset: float = ..., crown_place: float = ..., head_width: float = ..., modifiers: collections.abc.Sequence[Modifier] = ...) -> None:
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
        m, highest line from the gauge line
        """
    @property
    def flangeway(self) -> float:
        """
        m
        """
    @property
    def gauge(self) -> float:
        """
        m
        """
    @property
    def head_width(self) -> float:
        """
        m, width of the head used for running
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
        m
        """
    @property
    def nose_full_thickness(self) -> float:
        """
        m, where the rest of the height is reached
        """
    @property
    def nose_length(self) -> float:
        """
        m, modelled length behind the theoretical point
        """
    @property
    def nose_point_thickness(self) -> float:
        """
        m, where the nose begins
        """
    @property
    def nose_ramp_end_depth(self) -> float:
        """
        m, top of the nose below z = 0 where the ramp ends
        """
    @property
    def nose_ramp_end_thickness(self) -> float:
        """
        m, where full height is reached
        """
    @property
    def nose_ramp_rounding(self) -> float:
        """
        m, length over which the ramp end is rounded
        """
    @property
    def nose_ramp_start_thickness(self) -> float:
        """
        m
        """
    @property
    def nose_setback(self) -> float:
        """
        m, faces behind the gauge lines
        """
    @property
    def nose_shoulder_radius(self) -> float:
        """
        m
        """
    @property
    def nose_start_depth(self) -> float:
        """
        m, top of the nose below z = 0 at its point
        """
    @property
    def rate(self) -> float:
        """
        N of 1:N, right-angle method, 4 to 60
        """
    @property
    def wing_begin(self) -> float:
        """
        m, where the modelled run-in begins
        """
    @property
    def wing_cross_slope(self) -> float:
        """
        -, negative falls to the field side
        """
    @property
    def wing_crown_radius(self) -> float:
        """
        m, crown of the run-in head; 0: flat
        """
    @property
    def wing_edge_radius(self) -> float:
        """
        m
        """
    @property
    def wing_flat_offset(self) -> float:
        """
        m, run-out at which the crown has faded
        """
    @property
    def wing_head(self) -> str:
        """
        "flat" or the name of a rail head
        """
    @property
    def wing_inclination(self) -> float:
        """
        rad, only for a sectioned head
        """
    @property
    def wing_knuckle_radius(self) -> float:
        """
        m, rounding of the knuckle in plan
        """
    @property
    def wing_lift(self) -> float:
        """
        m
        """
    @property
    def wing_lift_begin(self) -> float:
        """
        m, where the lift starts
        """
    @property
    def wing_lift_run(self) -> float:
        """
        m, length over which it is reached
        """
    @property
    def wing_run(self) -> float:
        """
        m, length of wing behind the knuckle
        """
    @property
    def wing_run_in_edge_radius(self) -> float:
        """
        m, rounding of the edge on the run-in
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
    sections : tuple
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
    rate : float
        N of 1:N
    gauge : float
        m
    noise : float
        m, measurement noise per point
    bodies : tuple
        wing and nose
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str = ..., rate: float = ..., gauge: float = ..., noise: float = ..., bodies: collections.abc.Sequence[SectionedBody]) -> None:
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
        m
        """
    @property
    def name(self) -> str:
        """
        name
        """
    @property
    def noise(self) -> float:
        """
        m, measurement noise per point
        """
    @property
    def rate(self) -> float:
        """
        N of 1:N
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
class BodyPath:
    """
    Rolling of one wheel on one body, over the stations of its WheelPath.
    
    Attributes
    ----------
    name : str
        body
    height : ndarray of float
        m, -inf where the body is out of reach
    contact_y : ndarray of float
        m, from the track centre line
    contact_dx : ndarray of float
        m, contact ahead (+x) of the axle
    wheel_y : ndarray of float
        m, contact on the wheel from its taping line
    angle : ndarray of float
        rad, contact angle
    curvature_x : ndarray of float
        1/m, sum of longitudinal curvatures
    curvature_y : ndarray of float
        1/m, sum of lateral curvatures
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def angle(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        rad, contact angle
        """
    @property
    def contact_dx(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, contact ahead (+x) of the axle
        """
    @property
    def contact_y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, from the track centre line
        """
    @property
    def curvature_x(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        1/m, sum of longitudinal curvatures
        """
    @property
    def curvature_y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        1/m, sum of lateral curvatures
        """
    @property
    def height(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, -inf where the body is out of reach
        """
    @property
    def name(self) -> str:
        """
        body
        """
    @property
    def wheel_y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, contact on the wheel from its taping line
        """
class WheelPath:
    """
    Path of a rigid wheel's centre, body by body.
    
    Attributes
    ----------
    station : ndarray of float
        m, strictly increasing
    bodies : tuple
        one or two
    excitation : str
        kind of path
    landing : value
        m, kink of a prescribed path, or None
    wheel_radius : float
        m
    lateral_offset : float
        m, shift of the wheelset to +y
    roll : float
        rad, + lifts the wheel's field side
    yaw : float
        rad, + turns the wheel from x to y
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def bodies(self) -> tuple[BodyPath, ...]:
        """
        one or two
        """
    @property
    def excitation(self) -> str:
        """
        kind of path
        """
    @property
    def landing(self) -> float | None:
        """
        m, kink of a prescribed path, or None
        """
    @property
    def lateral_offset(self) -> float:
        """
        m, shift of the wheelset to +y
        """
    @property
    def roll(self) -> float:
        """
        rad, + lifts the wheel's field side
        """
    @property
    def station(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, strictly increasing
        """
    @property
    def wheel_radius(self) -> float:
        """
        m
        """
    @property
    def yaw(self) -> float:
        """
        rad, + turns the wheel from x to y
        """
class PathOptions:
    """
    What is rolled, and how finely.
    
    Parameters
    ----------
    lateral_offset : float
        m, shift of the wheelset to +y
    from_ : float
        m, first station
    to : float
        m, last station
    pitch : float
        m, spacing of stations
    wheel_radius : float
        m
    roll : float
        rad, -0.03 to 0.03, + lifts the wheel's field side
    yaw : float
        rad, -0.03 to 0.03, + turns the wheel from x to y
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, lateral_offset: float = ..., from_: float, to: float, pitch: float = ..., wheel_radius: float = ..., roll: float = ..., yaw: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> PathOptions:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def from_(self) -> float:
        """
        m, first station
        """
    @property
    def lateral_offset(self) -> float:
        """
        m, shift of the wheelset to +y
        """
    @property
    def pitch(self) -> float:
        """
        m, spacing of stations
        """
    @property
    def roll(self) -> float:
        """
        rad, -0.03 to 0.03, + lifts the wheel's field side
        """
    @property
    def to(self) -> float:
        """
        m, last station
        """
    @property
    def wheel_radius(self) -> float:
        """
        m
        """
    @property
    def yaw(self) -> float:
        """
        rad, -0.03 to 0.03, + turns the wheel from x to y
        """
class PlainContact:
    """
    Contact of a wheel on plain rail.
    
    Parameters
    ----------
    curvature_x : float
        1/m
    curvature_y : float
        1/m
    angle : float
        rad
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, curvature_x: float, curvature_y: float, angle: float) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> PlainContact:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def angle(self) -> float:
        """
        rad
        """
    @property
    def curvature_x(self) -> float:
        """
        1/m
        """
    @property
    def curvature_y(self) -> float:
        """
        1/m
        """
class JointShape(enum.Enum):
    """
    Form of a dipped joint.
    """
    kink = ...
    quadratic = ...
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
class Kinematics:
    """
    What a wheel path means before any force acts.
    
    Attributes
    ----------
    transfer_station : value
        m, where the bodies' heights cross, or None
    nose_thickness : value
        m, at transfer, or None
    contact_y_wing : value
        m, at transfer, or None
    contact_y_nose : value
        m, at transfer, or None
    zone_begin : value
        m, transfer zone, or None
    zone_end : value
        m, transfer zone, or None
    dip_depth : float
        m, >= 0
    slope_before : float
        rad, in the sense of travel
    slope_after : float
        rad, in the sense of travel
    dip_angle : float
        rad, |slope before| + |slope after|
    warnings : tuple
        what to doubt
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def contact_y_nose(self) -> float | None:
        """
        m, at transfer, or None
        """
    @property
    def contact_y_wing(self) -> float | None:
        """
        m, at transfer, or None
        """
    @property
    def dip_angle(self) -> float:
        """
        rad, |slope before| + |slope after|
        """
    @property
    def dip_depth(self) -> float:
        """
        m, >= 0
        """
    @property
    def nose_thickness(self) -> float | None:
        """
        m, at transfer, or None
        """
    @property
    def slope_after(self) -> float:
        """
        rad, in the sense of travel
        """
    @property
    def slope_before(self) -> float:
        """
        rad, in the sense of travel
        """
    @property
    def transfer_station(self) -> float | None:
        """
        m, where the bodies' heights cross, or None
        """
    @property
    def warnings(self) -> tuple[str, ...]:
        """
        what to doubt
        """
    @property
    def zone_begin(self) -> float | None:
        """
        m, transfer zone, or None
        """
    @property
    def zone_end(self) -> float | None:
        """
        m, transfer zone, or None
        """
class KinematicsOptions:
    """
    How slopes and zones are read from a path.
    
    Parameters
    ----------
    direction : value
        facing or trailing
    slope_length : float
        m, length of the straight fits
    zone_tolerance : float
        m, height difference that counts as transfer zone
    rim_margin : float
        m, from the field face that counts as rim contact
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, direction: wingnose._core.Direction = ..., slope_length: float = ..., zone_tolerance: float = ..., rim_margin: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> KinematicsOptions:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def direction(self) -> wingnose._core.Direction:
        """
        facing or trailing
        """
    @property
    def rim_margin(self) -> float:
        """
        m, from the field face that counts as rim contact
        """
    @property
    def slope_length(self) -> float:
        """
        m, length of the straight fits
        """
    @property
    def zone_tolerance(self) -> float:
        """
        m, height difference that counts as transfer zone
        """
def dipped_joint(joint: DippedJoint, contact: PlainContact, options: PathOptions) -> WheelPath:
    """
    Wheel path over a dipped joint.
    """
def from_sections(shape: SectionedShape) -> Crossing:
    """
    Crossing lofted through measured sections.
    """
def generate(shape: CrossingShape) -> Crossing:
    """
    Crossing of a CrossingShape; raises InputError on impossible shapes.
    """
def given_path(path: GivenPath, contact: PlainContact, options: PathOptions) -> WheelPath:
    """
    Wheel path through given points.
    """
def kinematics(path: WheelPath, crossing: Crossing, wheel: wingnose._core.profile.WheelProfile, options: KinematicsOptions = ...) -> Kinematics:
    """
    Transfer, dip and slopes of a path; `crossing` may be None for prescribed paths.
    """
def plain_contact(wheel: wingnose._core.profile.WheelProfile, rail: wingnose._core.profile.RailHead, wheel_radius: float) -> PlainContact:
    """
    Where and how a wheel of the radius (m) touches a plain rail.
    """
def roll(crossing: Crossing, wheel: wingnose._core.profile.WheelProfile, options: PathOptions) -> WheelPath:
    """
    Roll a rigid wheel over a crossing (rolling envelope per body).
    """
