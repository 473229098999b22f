"""
Contact: search for patches, normal laws, half-space solution.
"""
from __future__ import annotations
import enum
import numpy
import numpy.typing
import typing
import wingnose._core
import wingnose._core.layout
import wingnose._core.profile
__all__: list[str] = ['BodyContact', 'BodyPath', 'CreepCoefficients', 'CreepForce', 'Creepage', 'Cubic', 'Elastic', 'Ellipse', 'ForceLaw', 'Friction', 'HalfSpaceContact', 'HalfSpaceGrid', 'HalfSpaceSettings', 'HertzPatch', 'HertzShape', 'Kinematics', 'KinematicsOptions', 'LawDeviation', 'NormalContact', 'PatchSummary', 'PathLaw', 'PathOptions', 'PlainContact', 'Polach', 'PressureField', 'RollingContact', 'RollingField', 'RollingMatrix', 'RollingMesh', 'SearchAt', 'Simplified', 'Sliding', 'StationContact', 'Stress', 'StressPeak', 'Strip', 'Strips', 'Subsurface', 'WheelMotion', 'WheelPath', 'circular_contact_axis_stress', 'circular_contact_surface_stress', 'contact_at', 'creep_coefficients', 'creep_force', 'creep_forces', 'creepage', 'creepage_linearised', 'cubic_saturation', 'dipped_joint', 'ellipse_law', 'elliptic_mesh', 'extrapolated_coefficients', 'fit_force_law', 'friction_coefficient', 'given_path', 'grid_for_hertz', 'grid_mesh', 'half_space_coefficients', 'hertz_patch', 'hertz_shape', 'hertz_stiffness', 'kinematics', 'law_deviations', 'line_contact_stress', 'linear_creep_force', 'max_shear', 'plain_contact', 'plane_mesh', 'polach_dry', 'polach_saturation', 'polach_wet', 'quadratic_gap', 'roll', 'rolling_contact', 'rolling_contact_field', 'rolling_gap', 'rolling_matrix', 'solve_for_approach', 'solve_for_force', 'stress_at', 'strips_law', 'subsurface_stress', 'track_force', 'von_mises']
class BodyPath:
    """
    Rolling of one wheel on one body, over the stations of its WheelPath; height is -inf where the body is out of reach.
    
    Attributes
    ----------
    name : str
        body
    height : ndarray of float
        m, wheel on this body alone: taping-circle bottom over rail level
    contact_y : ndarray of float
        m, contact from the track centre line
    contact_dx : ndarray of float
        m, contact ahead (+x) of the axle
    wheel_y : ndarray of float
        m, contact on the wheel from its taping line
    angle : ndarray of float
        rad, contact angle in the cross-section
    curvature_x : ndarray of float
        1/m, sum of curvatures along the track
    curvature_y : ndarray of float
        1/m, sum of curvatures across the track
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def angle(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        rad, contact angle in the cross-section
        """
    @property
    def contact_dx(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, contact ahead (+x) of the axle
        """
    @property
    def contact_y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, contact from the track centre line
        """
    @property
    def curvature_x(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        1/m, sum of curvatures along the track
        """
    @property
    def curvature_y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        1/m, sum of curvatures across the track
        """
    @property
    def height(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, wheel on this body alone: taping-circle bottom over rail level
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
    bodies : tuple[typing.Any, ...]
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
    findings : tuple[typing.Any, ...]
        what to look at, how grave and where
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
    def findings(self) -> tuple[wingnose._core.Finding, ...]:
        """
        what to look at, how grave and where
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
        m, 0.001 to 1
    zone_tolerance : float
        m, 1e-06 to 0.002
    rim_margin : float
        m, 0 to 0.05
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
        m, 0 to 0.05
        """
    @property
    def slope_length(self) -> float:
        """
        m, 0.001 to 1
        """
    @property
    def zone_tolerance(self) -> float:
        """
        m, 1e-06 to 0.002
        """
class Elastic:
    """
    Elastic constants of wheel and rail (both of this material).
    
    Parameters
    ----------
    young : float
        Pa, 1e+09 to 1e+12
    poisson : float
        0 to 0.499
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any]:
        ...
    def __init__(self, *, young: float = ..., poisson: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def combined(self) -> float:
        """
        Combined modulus E* (Pa) of two bodies of this material.
        """
    def replace(self, **kwargs: typing.Any) -> Elastic:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def poisson(self) -> float:
        """
        0 to 0.499
        """
    @property
    def young(self) -> float:
        """
        Pa, 1e+09 to 1e+12
        """
class HertzShape:
    """
    Shape of a Hertz patch, independent of the load.
    
    Attributes
    ----------
    ratio : float
        -, minor over major semi-axis, in (0, 1]
    m : float
        -, coefficient of the major axis
    n : float
        -, coefficient of the minor axis
    r : float
        -, coefficient of the approach
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def m(self) -> float:
        """
        -, coefficient of the major axis
        """
    @property
    def n(self) -> float:
        """
        -, coefficient of the minor axis
        """
    @property
    def r(self) -> float:
        """
        -, coefficient of the approach
        """
    @property
    def ratio(self) -> float:
        """
        -, minor over major semi-axis, in (0, 1]
        """
class HertzPatch:
    """
    Elliptic contact patch.
    
    Attributes
    ----------
    a_x : float
        m, semi-axis along x
    a_y : float
        m, semi-axis across
    peak_pressure : float
        Pa
    approach : float
        m
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def a_x(self) -> float:
        """
        m, semi-axis along x
        """
    @property
    def a_y(self) -> float:
        """
        m, semi-axis across
        """
    @property
    def approach(self) -> float:
        """
        m
        """
    @property
    def peak_pressure(self) -> float:
        """
        Pa
        """
class Ellipse:
    """
    One Hertz ellipse per body, at its deepest point.
    
    Parameters
    ----------
    closing_depth : float
        m, at which the lateral curvature is read; rolled paths have always 55 um
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any]:
        ...
    def __init__(self, *, closing_depth: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Ellipse:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def closing_depth(self) -> float:
        """
        m, at which the lateral curvature is read; rolled paths have always 55 um
        """
class Strips:
    """
    All patches of a body by strips, non-elliptic (wingnose/contact/strips.hpp).
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[()]:
        ...
    def __init__(self) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
class ForceLaw:
    """
    Vertical force over vertical depth: F = d^1.5 (c0 + c1 sqrt(d) + c2 d).
    
    Parameters
    ----------
    c0 : float
        N/m^1.5
    c1 : float
        N/m^2
    c2 : float
        N/m^2.5
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, c0: float = ..., c1: float = ..., c2: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def depth(self, force: float, reach: float = ...) -> float:
        """
        m, at which the law carries a force (N, >= 0).
        """
    def force(self, depth: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], reach: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] = ...) -> typing.Any:
        """
        N at a depth (m); straight on beyond `reach` (m).
        """
    def replace(self, **kwargs: typing.Any) -> ForceLaw:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    def stiffness(self, depth: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], reach: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] = ...) -> typing.Any:
        """
        N/m at a depth (m).
        """
    @property
    def c0(self) -> float:
        """
        N/m^1.5
        """
    @property
    def c1(self) -> float:
        """
        N/m^2
        """
    @property
    def c2(self) -> float:
        """
        N/m^2.5
        """
class PathLaw:
    """
    The law of contact along the path of a wheel, for E* = 1 Pa.
    
    Attributes
    ----------
    reach : float
        m, depth beyond which forces go straight on
    searched : int
        stations at which strips were solved; 0 for ellipses
    worst_fit : float
        -, largest difference between fit and strips
    worst_body : str
        where that is
    worst_station : float
        m, where that is
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    def depth(self, body: int, force: float, material: Elastic = ...) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, [station of the path]: depth at which a body carries a force (N, >= 0); NaN where it cannot touch.
        """
    def force(self, body: int, depth: float, material: Elastic = ...) -> numpy.typing.NDArray[numpy.float64]:
        """
        N, [station of the path]: vertical force of a body (0, 1) at a vertical depth (m) below its first touch.
        """
    @property
    def reach(self) -> float:
        """
        m, depth beyond which forces go straight on
        """
    @property
    def searched(self) -> int:
        """
        stations at which strips were solved; 0 for ellipses
        """
    @property
    def worst_body(self) -> str:
        """
        where that is
        """
    @property
    def worst_fit(self) -> float:
        """
        -, largest difference between fit and strips
        """
    @property
    def worst_station(self) -> float:
        """
        m, where that is
        """
class SearchAt(enum.Enum):
    """
    Where a passage has its contact searched.
    """
    path = ...
    step = ...
class NormalContact:
    """
    What a normal law says about one body.
    
    Attributes
    ----------
    force : float
        N, normal
    vertical : float
        N, its vertical part
    approach : float
        m, normal, at the deepest point
    stiffness : float
        N/m, slope of force over approach
    peak_pressure : float
        Pa
    area : float
        m2
    half_length : float
        m, along the track
    half_width : float
        m, across
    y : float
        m, centre of the pressure from the track centre line
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def approach(self) -> float:
        """
        m, normal, at the deepest point
        """
    @property
    def area(self) -> float:
        """
        m2
        """
    @property
    def force(self) -> float:
        """
        N, normal
        """
    @property
    def half_length(self) -> float:
        """
        m, along the track
        """
    @property
    def half_width(self) -> float:
        """
        m, across
        """
    @property
    def peak_pressure(self) -> float:
        """
        Pa
        """
    @property
    def stiffness(self) -> float:
        """
        N/m, slope of force over approach
        """
    @property
    def vertical(self) -> float:
        """
        N, its vertical part
        """
    @property
    def y(self) -> float:
        """
        m, centre of the pressure from the track centre line
        """
class PressureField:
    """
    Half-space solution of one body: pressure without assuming a shape.
    
    Attributes
    ----------
    x : ndarray of float
        m, centres of the cells ahead of the axle
    y : ndarray of float
        m, centres of the rows from the track centre line
    angle : ndarray of float
        rad, contact angle of each row
    force : float
        N, normal
    vertical : float
        N
    half_length : float
        m
    half_width : float
        m
    mean_y : float
        m, centre of the pressure
    approach : float
        m, normal approach
    area : float
        m2, area of contact
    peak_pressure : float
        Pa, largest pressure
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def angle(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        rad, contact angle of each row
        """
    @property
    def approach(self) -> float:
        """
        m, normal approach
        """
    @property
    def area(self) -> float:
        """
        m2, area of contact
        """
    @property
    def force(self) -> float:
        """
        N, normal
        """
    @property
    def half_length(self) -> float:
        """
        m
        """
    @property
    def half_width(self) -> float:
        """
        m
        """
    @property
    def mean_y(self) -> float:
        """
        m, centre of the pressure
        """
    @property
    def peak_pressure(self) -> float:
        """
        Pa, largest pressure
        """
    @property
    def pressure(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Pa, [y, x]
        """
    @property
    def turn(self) -> float:
        """
        rad, change of the contact angle inside the contact; above 0.15 the half-space is stretched
        """
    @property
    def vertical(self) -> float:
        """
        N
        """
    @property
    def x(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, centres of the cells ahead of the axle
        """
    @property
    def y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, centres of the rows from the track centre line
        """
class LawDeviation:
    """
    Both fast laws beside the half-space solution for one lateral place.
    
    Attributes
    ----------
    lateral : float
        m, of the wheel's taping line
    ellipse : value
        one Hertz ellipse of the closed width
    strips : value
        strips solved together
    half_space : value
        the yardstick
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def ellipse(self) -> NormalContact:
        """
        one Hertz ellipse of the closed width
        """
    @property
    def half_space(self) -> PressureField:
        """
        the yardstick
        """
    @property
    def lateral(self) -> float:
        """
        m, of the wheel's taping line
        """
    @property
    def strips(self) -> NormalContact:
        """
        strips solved together
        """
class PatchSummary:
    """
    One contact patch.
    
    Attributes
    ----------
    body : str
        name of the body
    turn : float
        rad, change of the contact angle over what carries
    y : float
        m, centre of the pressure from the track centre line
    wheel_y : float
        m, centre of the pressure from the wheel's taping line
    dx : float
        m, centre of the pressure ahead of the axle
    angle : float
        rad, slope of the common tangent across the track
    force : float
        N, normal force
    approach : float
        m, normal approach at the deepest point
    half_length : float
        m, half length along the track
    half_width : float
        m, half width across, along the surface
    area : float
        m2, area of contact
    peak_pressure : float
        Pa, largest pressure
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def angle(self) -> float:
        """
        rad, slope of the common tangent across the track
        """
    @property
    def approach(self) -> float:
        """
        m, normal approach at the deepest point
        """
    @property
    def area(self) -> float:
        """
        m2, area of contact
        """
    @property
    def body(self) -> str:
        """
        name of the body
        """
    @property
    def dx(self) -> float:
        """
        m, centre of the pressure ahead of the axle
        """
    @property
    def force(self) -> float:
        """
        N, normal force
        """
    @property
    def half_length(self) -> float:
        """
        m, half length along the track
        """
    @property
    def half_width(self) -> float:
        """
        m, half width across, along the surface
        """
    @property
    def peak_pressure(self) -> float:
        """
        Pa, largest pressure
        """
    @property
    def turn(self) -> float:
        """
        rad, change of the contact angle over what carries
        """
    @property
    def wheel_y(self) -> float:
        """
        m, centre of the pressure from the wheel's taping line
        """
    @property
    def y(self) -> float:
        """
        m, centre of the pressure from the track centre line
        """
class Strip:
    """
    A strip of a patch along the rolling direction.
    
    Attributes
    ----------
    y : float
        m, middle of the strip from the track centre line
    width : float
        m, width across the track
    dx : float
        m, middle of the strip ahead of the axle
    half_length : float
        m, half length along the track
    pressure : float
        Pa, largest pressure of the strip
    force : float
        N, normal force of the strip
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def dx(self) -> float:
        """
        m, middle of the strip ahead of the axle
        """
    @property
    def force(self) -> float:
        """
        N, normal force of the strip
        """
    @property
    def half_length(self) -> float:
        """
        m, half length along the track
        """
    @property
    def pressure(self) -> float:
        """
        Pa, largest pressure of the strip
        """
    @property
    def width(self) -> float:
        """
        m, width across the track
        """
    @property
    def y(self) -> float:
        """
        m, middle of the strip from the track centre line
        """
class BodyContact:
    """
    What one body carries.
    
    Attributes
    ----------
    body : str
        name of the body
    vertical : float
        N, its share of the load or its force in the passage
    height : float
        m, of the taping circle's bottom under which it carries that
    strips : tuple[typing.Any, ...]
        pressure over the width
    field : value
        half-space pressure field, or None
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def body(self) -> str:
        """
        name of the body
        """
    @property
    def field(self) -> PressureField | None:
        """
        half-space pressure field, or None
        """
    @property
    def height(self) -> float:
        """
        m, of the taping circle's bottom under which it carries that
        """
    @property
    def strips(self) -> tuple[Strip, ...]:
        """
        pressure over the width
        """
    @property
    def vertical(self) -> float:
        """
        N, its share of the load or its force in the passage
        """
class StationContact:
    """
    A wheel standing at one station under a given load.
    
    Attributes
    ----------
    lateral : float
        m, of the taping line
    law : str
        law used
    instant : str
        of a passage; empty: a wheel that stands
    time : float
        s, of that instant
    patches : tuple[typing.Any, ...]
        patches, by body, then across
    bodies : tuple[typing.Any, ...]
        bodies that carry
    findings : tuple[typing.Any, ...]
        where the half-space is stretched
    station : float
        m, of the axle
    vertical : float
        N, vertical load on the wheel
    roll : float
        rad, of the wheel, + lifts its field side
    yaw : float
        rad, of the wheel, + turns it from x towards y
    height : float
        m, of the taping circle's bottom over z = 0, by the fast law that shares the load; in a passage of the body that carries most
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def bodies(self) -> tuple[BodyContact, ...]:
        """
        bodies that carry
        """
    @property
    def fields(self) -> dict[str, PressureField]:
        """
        pressure fields by body, where asked for
        """
    @property
    def findings(self) -> tuple[wingnose._core.Finding, ...]:
        """
        where the half-space is stretched
        """
    @property
    def height(self) -> float:
        """
        m, of the taping circle's bottom over z = 0, by the fast law that shares the load; in a passage of the body that carries most
        """
    @property
    def instant(self) -> str:
        """
        of a passage; empty: a wheel that stands
        """
    @property
    def lateral(self) -> float:
        """
        m, of the taping line
        """
    @property
    def law(self) -> str:
        """
        law used
        """
    @property
    def patches(self) -> tuple[PatchSummary, ...]:
        """
        patches, by body, then across
        """
    @property
    def roll(self) -> float:
        """
        rad, of the wheel, + lifts its field side
        """
    @property
    def station(self) -> float:
        """
        m, of the axle
        """
    @property
    def time(self) -> float:
        """
        s, of that instant
        """
    @property
    def vertical(self) -> float:
        """
        N, vertical load on the wheel
        """
    @property
    def yaw(self) -> float:
        """
        rad, of the wheel, + turns it from x towards y
        """
class Creepage:
    """
    Slip of the wheel over the rail per distance travelled, contact frame.
    
    Parameters
    ----------
    longitudinal : float
        -, positive when the wheel slides forward
    lateral : float
        -
    spin : float
        1/m
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, longitudinal: float = ..., lateral: float = ..., spin: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Creepage:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def lateral(self) -> float:
        """
        -
        """
    @property
    def longitudinal(self) -> float:
        """
        -, positive when the wheel slides forward
        """
    @property
    def spin(self) -> float:
        """
        1/m
        """
class CreepForce:
    """
    Tangential force on the wheel, contact frame.
    
    Parameters
    ----------
    longitudinal : float
        N
    lateral : float
        N
    moment : float
        N m, about the normal
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, longitudinal: float = ..., lateral: float = ..., moment: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> CreepForce:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def lateral(self) -> float:
        """
        N
        """
    @property
    def longitudinal(self) -> float:
        """
        N
        """
    @property
    def moment(self) -> float:
        """
        N m, about the normal
        """
class WheelMotion:
    """
    Motion of a wheelset and where one of its wheels touches.
    
    Parameters
    ----------
    speed : float
        m/s, > 0
    angular_speed : float
        rad/s, about the axle, positive when rolling
    rolling_radius : float
        m, > 0, axle to contact
    direction : value
        sense of travel
    contact_angle : float
        rad, slope of the common tangent plane across the track
    offset_y : float
        m, contact from the wheelset's centre
    offset_x : float
        m, contact ahead of the axle
    yaw : float
        rad, positive from x towards y
    lateral_speed : float
        m/s
    vertical_speed : float
        m/s, up
    yaw_rate : float
        rad/s
    roll_rate : float
        rad/s
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, speed: float, angular_speed: float, rolling_radius: float, direction: wingnose._core.Direction = ..., contact_angle: float = ..., offset_y: float = ..., offset_x: float = ..., yaw: float = ..., lateral_speed: float = ..., vertical_speed: float = ..., yaw_rate: float = ..., roll_rate: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> WheelMotion:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def angular_speed(self) -> float:
        """
        rad/s, about the axle, positive when rolling
        """
    @property
    def contact_angle(self) -> float:
        """
        rad, slope of the common tangent plane across the track
        """
    @property
    def direction(self) -> wingnose._core.Direction:
        """
        sense of travel
        """
    @property
    def lateral_speed(self) -> float:
        """
        m/s
        """
    @property
    def offset_x(self) -> float:
        """
        m, contact ahead of the axle
        """
    @property
    def offset_y(self) -> float:
        """
        m, contact from the wheelset's centre
        """
    @property
    def roll_rate(self) -> float:
        """
        rad/s
        """
    @property
    def rolling_radius(self) -> float:
        """
        m, > 0, axle to contact
        """
    @property
    def speed(self) -> float:
        """
        m/s, > 0
        """
    @property
    def vertical_speed(self) -> float:
        """
        m/s, up
        """
    @property
    def yaw(self) -> float:
        """
        rad, positive from x towards y
        """
    @property
    def yaw_rate(self) -> float:
        """
        rad/s
        """
class CreepCoefficients:
    """
    Linear creep coefficients; C32 = -C23.
    
    Attributes
    ----------
    C11 : float
        -
    C22 : float
        -
    C23 : float
        -
    C33 : float
        -
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def C11(self) -> float:
        """
        -
        """
    @property
    def C22(self) -> float:
        """
        -
        """
    @property
    def C23(self) -> float:
        """
        -
        """
    @property
    def C33(self) -> float:
        """
        -
        """
class RollingContact:
    """
    An elliptic contact as the creep laws see it.
    
    Attributes
    ----------
    a : float
        m, semi-axis along the rolling direction
    b : float
        m, semi-axis across
    normal_force : float
        N
    shear_modulus : float
        Pa
    linear : value
        its creep coefficients
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def a(self) -> float:
        """
        m, semi-axis along the rolling direction
        """
    @property
    def b(self) -> float:
        """
        m, semi-axis across
        """
    @property
    def linear(self) -> CreepCoefficients:
        """
        its creep coefficients
        """
    @property
    def normal_force(self) -> float:
        """
        N
        """
    @property
    def shear_modulus(self) -> float:
        """
        Pa
        """
class Friction:
    """
    Friction falling with the slip speed w (Polach 2005).
    
    Parameters
    ----------
    mu0 : float
        -, at rest
    A : float
        -, at very high slip speed over mu0
    B : float
        s/m, how fast it falls
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, mu0: float = ..., A: float = ..., B: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Friction:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def A(self) -> float:
        """
        -, at very high slip speed over mu0
        """
    @property
    def B(self) -> float:
        """
        s/m, how fast it falls
        """
    @property
    def mu0(self) -> float:
        """
        -, at rest
        """
class Cubic:
    """
    Cubic saturation (Vermeulen and Johnson 1964; Shen, Hedrick and Elkins 1983).
    
    Parameters
    ----------
    friction : value
        friction
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any]:
        ...
    def __init__(self, *, friction: Friction = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Cubic:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def friction(self) -> Friction:
        """
        friction
        """
class Polach:
    """
    Polach's law (2000, 2005).
    
    Parameters
    ----------
    friction : value
        friction
    kA : float
        -, reduction in the area of adhesion
    kS : float
        -, reduction in the area of slip
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, friction: Friction = ..., kA: float = ..., kS: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Polach:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def friction(self) -> Friction:
        """
        friction
        """
    @property
    def kA(self) -> float:
        """
        -, reduction in the area of adhesion
        """
    @property
    def kS(self) -> float:
        """
        -, reduction in the area of slip
        """
class Simplified:
    """
    Simplified theory in strips (Kalker 1982).
    
    Parameters
    ----------
    friction : value
        friction
    strips : int
        -, across the patch
    cells : int
        -, along each strip
    single_flexibility : bool
        one weighted flexibility
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, friction: Friction = ..., strips: int = ..., cells: int = ..., single_flexibility: bool = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Simplified:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def cells(self) -> int:
        """
        -, along each strip
        """
    @property
    def friction(self) -> Friction:
        """
        friction
        """
    @property
    def single_flexibility(self) -> bool:
        """
        one weighted flexibility
        """
    @property
    def strips(self) -> int:
        """
        -, across the patch
        """
class RollingField:
    """
    Tractions and slip of exact rolling, one value per cell.
    
    Attributes
    ----------
    force : value
        creep force
    friction_loss : float
        J per metre rolled (J for a shift)
    slip_area : float
        -, share that slips
    x : ndarray of float
        m
    y : ndarray of float
        m
    traction_x : ndarray of float
        Pa, on the wheel
    traction_y : ndarray of float
        Pa, on the wheel
    slip_x : ndarray of float
        -, relative slip (m for a shift)
    slip_y : ndarray of float
        -, relative slip (m for a shift)
    slides : ndarray of float
        -, 1 in slip, 0 in adhesion
    steps : int
        -, Newton steps
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def force(self) -> CreepForce:
        """
        creep force
        """
    @property
    def friction_loss(self) -> float:
        """
        J per metre rolled (J for a shift)
        """
    @property
    def slides(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        -, 1 in slip, 0 in adhesion
        """
    @property
    def slip_area(self) -> float:
        """
        -, share that slips
        """
    @property
    def slip_x(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        -, relative slip (m for a shift)
        """
    @property
    def slip_y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        -, relative slip (m for a shift)
        """
    @property
    def steps(self) -> int:
        """
        -, Newton steps
        """
    @property
    def traction_x(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Pa, on the wheel
        """
    @property
    def traction_y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Pa, on the wheel
        """
    @property
    def x(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m
        """
    @property
    def y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m
        """
class Sliding(enum.Enum):
    """
    Steady rolling or one rigid shift.
    """
    rolling = ...
    shift = ...
class RollingMesh:
    """
    Contact patch in strips of cells.
    
    Attributes
    ----------
    pressure : ndarray of float
        Pa, mean over each cell
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def pressure(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Pa, mean over each cell
        """
class RollingMatrix:
    """
    The tangential problem of a mesh, ready for creepages.
    """
    @property
    def cells(self) -> int:
        """
        -, of the mesh
        """
class HalfSpaceGrid:
    """
    Grid of cells and its influence coefficients (Love 1929), centred on the origin.
    
    `nx`, `ny`: cells along and across the track, 4 to 4096; `dx`, `dy`: m, pitches. Fields have the shape (ny, nx).
    """
    def __init__(self, nx: int, ny: int, dx: float, dy: float) -> None:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def dx(self) -> float:
        """
        m, pitch along the track
        """
    @property
    def dy(self) -> float:
        """
        m, pitch across
        """
    @property
    def nx(self) -> int:
        """
        Cells along the track.
        """
    @property
    def ny(self) -> int:
        """
        Cells across.
        """
    @property
    def x(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, cell centres along the track
        """
    @property
    def y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, cell centres across
        """
class HalfSpaceSettings:
    """
    When the half-space solver stops.
    
    Parameters
    ----------
    tolerance : float
        -, change of the pressure in a step, sum |dp| / sum p
    max_iterations : int
        on the finest grid
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any]:
        ...
    def __init__(self, *, tolerance: float = ..., max_iterations: int = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> HalfSpaceSettings:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def max_iterations(self) -> int:
        """
        on the finest grid
        """
    @property
    def tolerance(self) -> float:
        """
        -, change of the pressure in a step, sum |dp| / sum p
        """
class HalfSpaceContact:
    """
    Contact of two half-spaces.
    """
    @property
    def approach(self) -> float:
        """
        m, from the datum of the gap
        """
    @property
    def area(self) -> float:
        """
        m2, cells under pressure
        """
    @property
    def force(self) -> float:
        """
        N
        """
    @property
    def iterations(self) -> int:
        """
        on the finest grid
        """
    @property
    def mismatch(self) -> float:
        """
        m, largest gap or overlap left
        """
    @property
    def peak_pressure(self) -> float:
        """
        Pa, largest cell value
        """
    @property
    def pressure(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Pa, shape (ny, nx)
        """
    @property
    def residual(self) -> float:
        """
        -, change of the pressure in the last step
        """
    @property
    def smooth_area(self) -> float:
        """
        m2, edge drawn through the cells
        """
    @property
    def touches_edge(self) -> bool:
        """
        True when the grid is too small and the result is not to be used
        """
class Stress:
    """
    Stresses in one point, tension positive; z is the depth.
    
    Parameters
    ----------
    xx : float
        Pa
    yy : float
        Pa
    zz : float
        Pa
    xy : float
        Pa
    yz : float
        Pa
    zx : float
        Pa
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, xx: float = ..., yy: float = ..., zz: float = ..., xy: float = ..., yz: float = ..., zx: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Stress:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def xx(self) -> float:
        """
        Pa
        """
    @property
    def xy(self) -> float:
        """
        Pa
        """
    @property
    def yy(self) -> float:
        """
        Pa
        """
    @property
    def yz(self) -> float:
        """
        Pa
        """
    @property
    def zx(self) -> float:
        """
        Pa
        """
    @property
    def zz(self) -> float:
        """
        Pa
        """
class StressPeak:
    """
    Largest value and where it is.
    
    Attributes
    ----------
    value : float
        Pa
    x : float
        m
    y : float
        m
    depth : float
        m
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def depth(self) -> float:
        """
        m
        """
    @property
    def value(self) -> float:
        """
        Pa
        """
    @property
    def x(self) -> float:
        """
        m
        """
    @property
    def y(self) -> float:
        """
        m
        """
class Subsurface:
    """
    Equivalent stresses with depth.
    
    Attributes
    ----------
    depth : ndarray of float
        m
    von_mises : ndarray of float
        Pa, largest at each depth
    max_shear : ndarray of float
        Pa, largest at each depth
    worst_von_mises : value
        largest of all
    worst_shear : value
        largest of all
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def depth(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m
        """
    @property
    def max_shear(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Pa, largest at each depth
        """
    @property
    def von_mises(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Pa, largest at each depth
        """
    @property
    def worst_shear(self) -> StressPeak:
        """
        largest of all
        """
    @property
    def worst_von_mises(self) -> StressPeak:
        """
        largest of all
        """
def circular_contact_axis_stress(peak_pressure: float, radius: float, z: float, poisson: float = ...) -> Stress:
    """
    Stress on the axis of a circular contact: Johnson (1985) eq. 3.45.
    """
def circular_contact_surface_stress(peak_pressure: float, radius: float, r: float, poisson: float = ...) -> Stress:
    """
    Stress on the surface of a circular contact, xx radial: Johnson (1985) eqs. 3.42 and 3.43.
    """
def contact_at(crossing: wingnose._core.layout.Crossing, wheel: wingnose._core.profile.WheelProfile, station: float, force: float, *, law: str = ..., lateral_offset: float = ..., roll: float = ..., yaw: float = ..., wheel_radius: float = ..., cells: int = ..., material: Elastic = ...) -> StationContact:
    """
    Patches of a wheel that stands at one station of a crossing.
    
    `crossing`: bodies to stand on; `wheel`: wheel profile; `station`: m, of the axle; `force`: N, vertical load, > 0;
    `law`: "ellipse", "strips" or "half-space"; `lateral_offset`: m, shift of the wheelset, + towards the crossing; `roll`,
    `yaw`: rad, of the wheel, up to 0.1; `wheel_radius`: m, at the taping line; `cells`: cells of the half-space pressure
    fields on either side (0: none beside a fast law); `material`: steel by default. Returns patches and, where asked
    for, pressure fields.
    """
def creep_coefficients(axis_ratio: float, poisson: float) -> CreepCoefficients:
    """
    Kalker's table interpolated in a/b (0.001 to 1000, printed from 0.1 to 10) and Poisson's ratio (0 to 0.5).
    """
def creep_force(law: Cubic | Polach | Simplified, contact: RollingContact, creepage: Creepage, speed: float) -> CreepForce:
    """
    Creep force by Cubic, Polach or Simplified; `speed` in m/s.
    """
def creep_forces(law: Cubic | Polach | Simplified, contact: RollingContact, longitudinal: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], lateral: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], spin: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], speed: float) -> tuple[numpy.typing.NDArray[numpy.float64], numpy.typing.NDArray[numpy.float64], numpy.typing.NDArray[numpy.float64]]:
    """
    Creep forces over many creepages.
    
    `longitudinal`, `lateral`: -, one per force wanted; `spin`: 1/m; `speed`: m/s, > 0, for friction that falls with the
    slip speed. Returns longitudinal and lateral force (N), moment (N m) on the wheel.
    """
def creepage(motion: WheelMotion) -> Creepage:
    """
    Creepages of the wheel, exact rigid-body kinematics (Kalker 1990).
    """
def creepage_linearised(motion: WheelMotion, nominal_radius: float) -> Creepage:
    """
    The usual closed form, linear in yaw and rates; `nominal_radius` (m) is speed over angular speed.
    """
def cubic_saturation(u: float) -> float:
    """
    Force over its limit for the linear force over its limit.
    """
def dipped_joint(joint: wingnose._core.layout.DippedJoint, contact: PlainContact, options: PathOptions) -> WheelPath:
    """
    Wheel path over a dipped joint.
    """
def ellipse_law(path: WheelPath) -> PathLaw:
    """
    One ellipse per body from the curvatures of a path (Hertz 1881).
    """
def elliptic_mesh(a: float, b: float, normal_force: float, along: int = ..., across: int = ...) -> RollingMesh:
    """
    Hertz ellipse, semi-axes `a` along and `b` across (m), force in N.
    """
def extrapolated_coefficients(axis_ratio: float, poisson: float, cells: int = ...) -> CreepCoefficients:
    """
    Half-space coefficients extrapolated from `cells` and half as many.
    """
def fit_force_law(depth: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], force: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], reach: float = ...) -> ForceLaw:
    """
    Convex law nearest to samples of force (N, >= 0) over depth (m, rising, up to `reach`).
    """
def friction_coefficient(friction: Friction, slip_speed: float) -> float:
    """
    Friction (-) at a slip speed (m/s).
    """
def given_path(path: wingnose._core.layout.GivenPath, contact: PlainContact, options: PathOptions) -> WheelPath:
    """
    Wheel path through given points.
    """
def grid_for_hertz(nx: int, ny: int, patch: HertzPatch, margin: float = ...) -> HalfSpaceGrid:
    """
    Grid `margin` times as long and wide as a Hertz patch.
    """
def grid_mesh(pressure: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], x0: float, y0: float, dx: float, dy: float) -> RollingMesh:
    """
    Any patch: pressures (Pa, [along, across]) on a regular grid whose first cell is centred at (x0, y0) (m).
    """
def half_space_coefficients(axis_ratio: float, poisson: float, along: int, across: int) -> CreepCoefficients:
    """
    Coefficients computed from the half-space on one mesh, without slip.
    """
def hertz_patch(force: float, curvature_x: float, curvature_y: float, material: Elastic = ...) -> HertzPatch:
    """
    Contact patch of two smooth bodies after Hertz (1881).
    
    `force`: N, >= 0; `curvature_x`, `curvature_y`: 1/m, sum of both bodies' curvatures along and across, > 0; `material`:
    steel by default.
    """
def hertz_shape(A: float, B: float) -> HertzShape:
    """
    Shape for half the relative curvatures `A`, `B` (1/m, > 0) in the two principal directions.
    """
def hertz_stiffness(curvature_x: float, curvature_y: float, material: Elastic = ...) -> float:
    """
    C_H (N/m^1.5) in F = C_H approach^1.5.
    """
def kinematics(path: WheelPath, crossing: wingnose._core.layout.Crossing, wheel: wingnose._core.profile.WheelProfile, options: KinematicsOptions = ...) -> Kinematics:
    """
    Transfer, dip and slopes of a path; `crossing` may be None for prescribed paths.
    """
def law_deviations(wheel: wingnose._core.profile.WheelProfile, rail: wingnose._core.profile.RailHead, lateral_offset: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], force: float, *, wheel_radius: float = ..., cells: int = ..., material: Elastic = ...) -> list[LawDeviation]:
    """
    Both fast normal laws beside the half-space solution over lateral shifts of a wheel on plain rail.
    
    `wheel`: wheel profile; `rail`: rail head as it lies, its gauge point at half the gauge; `lateral_offset`: m, shifts
    of the wheelset, + towards the field side; `force`: N, vertical, > 0; `wheel_radius`: m, at the taping line; `cells`:
    cells of the half-space grid on either side; `material`: steel by default. Returns one per shift.
    """
def line_contact_stress(peak_pressure: float, half_width: float, x: float, z: float, poisson: float = ...) -> Stress:
    """
    Stress under a line contact: McEwen (1949), Johnson (1985) eq. 4.49.
    """
def linear_creep_force(contact: RollingContact, creepage: Creepage) -> CreepForce:
    """
    Creep force of full adhesion (Kalker 1967).
    """
def max_shear(stress: Stress) -> float:
    """
    Largest shear stress (Pa) in any plane.
    """
def plain_contact(wheel: wingnose._core.profile.WheelProfile, rail: wingnose._core.profile.RailHead, wheel_radius: float) -> PlainContact:
    """
    Where and how a wheel of the radius (m) touches a plain rail.
    """
def plane_mesh(a: float, force_per_width: float, along: int = ...) -> RollingMesh:
    """
    Line contact of half length `a` (m), force in N/m.
    """
def polach_saturation(u: float, kA: float = ..., kS: float = ...) -> float:
    """
    Force over its limit for the linear force over its limit.
    """
def quadratic_gap(grid: HalfSpaceGrid, curvature_x: float, curvature_y: float) -> numpy.typing.NDArray[numpy.float64]:
    """
    Gap (m) of two bodies whose curvatures (1/m) along and across add up to these.
    """
def roll(crossing: wingnose._core.layout.Crossing, wheel: wingnose._core.profile.WheelProfile, options: PathOptions) -> WheelPath:
    """
    Roll a rigid wheel over a crossing (rolling envelope per body).
    """
def rolling_contact(a: float, b: float, normal_force: float, material: Elastic = ...) -> RollingContact:
    """
    Contact with semi-axes `a` along and `b` across (m), force in N, for the creep laws.
    """
def rolling_contact_field(matrix: RollingMatrix, mu: float, creepage: Creepage) -> RollingField:
    """
    Exact rolling with friction (Kalker 1990), constant friction `mu`.
    """
def rolling_gap(grid: HalfSpaceGrid, lateral: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], rolling_radius: float) -> numpy.typing.NDArray[numpy.float64]:
    """
    Gap (m) of a wheel of `rolling_radius` (m) over cross-sections `lateral` (m, one value per row) apart.
    """
def rolling_matrix(mesh: RollingMesh, material: Elastic = ..., sliding: Sliding = ...) -> RollingMatrix:
    """
    The dense matrix of a mesh; the same for any creepage.
    """
def solve_for_approach(grid: HalfSpaceGrid, gap: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], approach: float, material: Elastic = ..., settings: HalfSpaceSettings = ..., initial_pressure: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] | None = None) -> HalfSpaceContact:
    """
    As `solve_for_force`, at a given approach (m) of distant points, counted from the datum of the gap.
    """
def solve_for_force(grid: HalfSpaceGrid, gap: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], force: float, material: Elastic = ..., settings: HalfSpaceSettings = ..., initial_pressure: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] | None = None) -> HalfSpaceContact:
    """
    Pressure between two bodies with any gap under a given force (Polonsky and Keer 1999).
    
    `gap`: m, undeformed distance of the surfaces, any datum; `force`: N, > 0; `material`: steel by default, both bodies;
    `initial_pressure`: Pa, a first guess.
    """
def stress_at(grid: HalfSpaceGrid, pressure: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], x: float, y: float, z: float, shear_x: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] | None = None, shear_y: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] | None = None, poisson: float = ...) -> Stress:
    """
    Stress in one point (m), z >= 0 the depth.
    """
def strips_law(path: WheelPath, crossing: wingnose._core.layout.Crossing, wheel: wingnose._core.profile.WheelProfile) -> PathLaw:
    """
    Strips searched along a path: all patches of each body, the wheel held as the path was rolled.
    
    `path`: rolled over this crossing; `crossing`: from the room layout; `wheel`: with which the path was rolled.
    """
def subsurface_stress(grid: HalfSpaceGrid, pressure: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], depths: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], shear_x: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] | None = None, shear_y: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] | None = None, poisson: float = ...) -> Subsurface:
    """
    Largest equivalent stresses with depth under pressure and shear.
    
    `pressure`: Pa, pushing into the body; `depths`: m, increasing, >= 0; `shear_x`, `shear_y`: Pa, acting on the body
    along +x and +y; `poisson`: Poisson's ratio.
    """
def track_force(force: CreepForce, normal: float, contact_angle: float, direction: wingnose._core.Direction = ...) -> typing.Annotated[list[float], "FixedSize(3)"]:
    """
    (Fx, Fy, Fz) (N) on the wheel in the frame of the crossing, `normal` (N) included.
    """
def von_mises(stress: Stress) -> float:
    """
    Equivalent stress (Pa) after von Mises.
    """
polach_dry: Polach
polach_wet: Polach
