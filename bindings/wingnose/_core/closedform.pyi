"""
Formulas a handbook would use.
"""
from __future__ import annotations
import numpy
import numpy.typing
import typing
__all__: list[str] = ['ConstantSet', 'FoundationBeam', 'JointCase', 'JointForces', 'LinearCrossing', 'LinearCrossingResult', 'LumpedPeaks', 'LumpedTrack', 'P1_hertz', 'characteristic_length', 'constant_set', 'constant_sets', 'critical_speed', 'deflection', 'joint_forces', 'linear_crossing', 'lumped_peaks', 'lumped_track', 'moment', 'moving_load_factor', 'permissible_dip_angle', 'permissible_speed', 'pinned_pinned_frequency', 'point_stiffness']
class LumpedTrack:
    """
    Track as one mass on one spring and damper, per rail.
    
    Parameters
    ----------
    m_T2 : float
        kg
    k_T2 : float
        N/m
    c_T2 : float
        N s/m
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, m_T2: float, k_T2: float, c_T2: float) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> LumpedTrack:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def c_T2(self) -> float:
        """
        N s/m
        """
    @property
    def k_T2(self) -> float:
        """
        N/m
        """
    @property
    def m_T2(self) -> float:
        """
        kg
        """
class JointCase:
    """
    Input of the closed forms for P1 and P2.
    
    Parameters
    ----------
    static_load : float
        N per wheel
    unsprung_mass : float
        kg per wheel
    speed : float
        m/s
    dip_angle : float
        rad, total
    track : value
        lumped track
    k_H : float
        N/m, linearised contact stiffness
    m_e : float
        kg, effective rail mass for P1
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, static_load: float, unsprung_mass: float, speed: float, dip_angle: float, track: LumpedTrack, k_H: float = ..., m_e: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> JointCase:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def dip_angle(self) -> float:
        """
        rad, total
        """
    @property
    def k_H(self) -> float:
        """
        N/m, linearised contact stiffness
        """
    @property
    def m_e(self) -> float:
        """
        kg, effective rail mass for P1
        """
    @property
    def speed(self) -> float:
        """
        m/s
        """
    @property
    def static_load(self) -> float:
        """
        N per wheel
        """
    @property
    def track(self) -> LumpedTrack:
        """
        lumped track
        """
    @property
    def unsprung_mass(self) -> float:
        """
        kg per wheel
        """
class JointForces:
    """
    P1 and P2 after Jenkins et al. (1974).
    
    Attributes
    ----------
    P1 : float
        N
    P2 : float
        N
    M : float
        -, mass factor
    C : float
        -, damping factor
    K : float
        N s/m, stiffness factor
    f2 : float
        Hz, frequency of the P2 mode
    zeta : float
        -, its damping ratio
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def C(self) -> float:
        """
        -, damping factor
        """
    @property
    def K(self) -> float:
        """
        N s/m, stiffness factor
        """
    @property
    def M(self) -> float:
        """
        -, mass factor
        """
    @property
    def P1(self) -> float:
        """
        N
        """
    @property
    def P2(self) -> float:
        """
        N
        """
    @property
    def f2(self) -> float:
        """
        Hz, frequency of the P2 mode
        """
    @property
    def zeta(self) -> float:
        """
        -, its damping ratio
        """
class LumpedPeaks:
    """
    Exact peaks of the same lumps, static load included.
    
    Attributes
    ----------
    spring : float
        N, in the spring
    spring_and_damper : float
        N, on the ground
    contact : float
        N, between wheel and track
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def contact(self) -> float:
        """
        N, between wheel and track
        """
    @property
    def spring(self) -> float:
        """
        N, in the spring
        """
    @property
    def spring_and_damper(self) -> float:
        """
        N, on the ground
        """
class ConstantSet:
    """
    Named constants of a published standard.
    
    Attributes
    ----------
    name : str
        key
    track : value
        lumped track
    dip_angle : float
        rad the standard uses, 0 if not known
    limit : float
        N, 0 if not known
    source : str
        publication
    status : str
        how far to trust it
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def dip_angle(self) -> float:
        """
        rad the standard uses, 0 if not known
        """
    @property
    def limit(self) -> float:
        """
        N, 0 if not known
        """
    @property
    def name(self) -> str:
        """
        key
        """
    @property
    def source(self) -> str:
        """
        publication
        """
    @property
    def status(self) -> str:
        """
        how far to trust it
        """
    @property
    def track(self) -> LumpedTrack:
        """
        lumped track
        """
class FoundationBeam:
    """
    Beam on elastic foundation, per rail.
    
    Parameters
    ----------
    EI : float
        N m2
    k : float
        N/m2
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any]:
        ...
    def __init__(self, *, EI: float, k: float) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> FoundationBeam:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def EI(self) -> float:
        """
        N m2
        """
    @property
    def k(self) -> float:
        """
        N/m2
        """
class LinearCrossing:
    """
    Coned wheel over straight wing and nose.
    
    Parameters
    ----------
    rate : float
        N of 1:N
    conicity : float
        -
    ramp_slope : float
        -, rise of the nose
    wing_rise : float
        -, rise of the wing
    wing_height_at_0 : float
        m, wheel on the wing at x = 0
    nose_height_at_0 : float
        m, wheel on the nose ramp at x = 0
    wheel_radius : float
        m
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, rate: float, conicity: float, ramp_slope: float, wing_rise: float = ..., wing_height_at_0: float, nose_height_at_0: float, wheel_radius: float) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> LinearCrossing:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def conicity(self) -> float:
        """
        -
        """
    @property
    def nose_height_at_0(self) -> float:
        """
        m, wheel on the nose ramp at x = 0
        """
    @property
    def ramp_slope(self) -> float:
        """
        -, rise of the nose
        """
    @property
    def rate(self) -> float:
        """
        N of 1:N
        """
    @property
    def wheel_radius(self) -> float:
        """
        m
        """
    @property
    def wing_height_at_0(self) -> float:
        """
        m, wheel on the wing at x = 0
        """
    @property
    def wing_rise(self) -> float:
        """
        -, rise of the wing
        """
class LinearCrossingResult:
    """
    Transfer and dip angle in closed form.
    
    Attributes
    ----------
    transfer_station : float
        m
    dip_angle : float
        rad
    slope_before : float
        rad
    slope_after : float
        rad
    height_at_transfer : float
        m
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def dip_angle(self) -> float:
        """
        rad
        """
    @property
    def height_at_transfer(self) -> float:
        """
        m
        """
    @property
    def slope_after(self) -> float:
        """
        rad
        """
    @property
    def slope_before(self) -> float:
        """
        rad
        """
    @property
    def transfer_station(self) -> float:
        """
        m
        """
def P1_hertz(case: JointCase, C_H: float) -> float:
    """
    P1 (N) with the nonlinear Hertz spring `C_H` (N/m^1.5), by energy.
    """
def characteristic_length(beam: FoundationBeam) -> float:
    """
    (4 EI / k)^(1/4) in m.
    """
def constant_set(name: str) -> ConstantSet:
    """
    One named constant set; raises InputError listing the names.
    """
def constant_sets() -> list[ConstantSet]:
    """
    All named constant sets.
    """
def critical_speed(beam: FoundationBeam, mass_per_m: float) -> float:
    """
    m/s.
    """
def deflection(beam: FoundationBeam, load: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], x: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> typing.Any:
    """
    Deflection (m, downward) at distance `x` (m) under `load` (N).
    """
def joint_forces(case: JointCase) -> JointForces:
    """
    P1 and P2 at a dip, an estimate with stated assumptions.
    """
def linear_crossing(crossing: LinearCrossing) -> LinearCrossingResult:
    """
    Transfer and dip angle of a coned wheel.
    """
def lumped_peaks(case: JointCase) -> LumpedPeaks:
    """
    Exact peaks of wheel and lumped track after landing together.
    """
def lumped_track(beam: FoundationBeam, mass_per_m: float, damping_per_m: float) -> LumpedTrack:
    """
    Lumps equivalent under the load, from kg/m and N s/m2 of rail and bearers per rail.
    """
def moment(beam: FoundationBeam, load: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], x: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> typing.Any:
    """
    Bending moment (N m) at distance `x` (m) under `load` (N).
    """
def moving_load_factor(speed: float, critical_speed: float) -> float:
    """
    Amplification of the deflection under a moving constant load (-).
    """
def permissible_dip_angle(case: JointCase, P2_limit: float) -> float:
    """
    Total dip angle (rad) at which P2 reaches the limit (N).
    """
def permissible_speed(case: JointCase, P2_limit: float) -> float:
    """
    Speed (m/s) at which P2 reaches the limit (N).
    """
def pinned_pinned_frequency(EI: float, kappa_GA: float, rho_A: float, rho_I: float, spacing: float) -> float:
    """
    Pinned-pinned frequency (Hz) of a Timoshenko rail.
    """
def point_stiffness(beam: FoundationBeam) -> float:
    """
    N/m under the load.
    """
