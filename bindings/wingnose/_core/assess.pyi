"""
What a history means, and what it does to the steel.
"""
from __future__ import annotations
import collections.abc
import enum
import numpy
import numpy.typing
import typing
import wingnose._core
import wingnose._core.contact
import wingnose._core.passage
import wingnose._core.profile
__all__: list[str] = ['ContactShape', 'ContactTrail', 'CrackFunction', 'CreepTheory', 'Damage', 'DamageMap', 'DamageOptions', 'MeasureOptions', 'ShakedownMap', 'Steel', 'SteelAlong', 'TrafficDamage', 'TrafficStage', 'TrafficWheel', 'WearMap', 'WorkHardening', 'archard_volume', 'contact_trail', 'crack_damage', 'damage', 'damage_of_traffic', 'energy_wear_rate', 'for_tonnage', 'from_brinell', 'low_pass_zero_phase', 'measure', 'shear_yield', 'steel', 'steel_along', 'steel_names', 'surface_fatigue_index', 'wear_coefficient', 'wear_hardness']
class MeasureOptions:
    """
    Definitions behind the measures.
    
    Parameters
    ----------
    p2_cut_off : float
        Hz, 20 to 2000
    p2_order : int
        1 to 8
    first_peak_window : float
        s, 0.0001 to 0.05
    first_peak_prominence : float
        0 to 10
    window : float
        s, 0.001 to 1
    window_length : float
        m, 0 to 5
    impulse_window : float
        s, 0.0001 to 1
    acceleration_cut_off : float
        Hz, 20 to 10000
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, p2_cut_off: float = ..., p2_order: int = ..., first_peak_window: float = ..., first_peak_prominence: float = ..., window: float = ..., window_length: float = ..., impulse_window: float = ..., acceleration_cut_off: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> MeasureOptions:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def acceleration_cut_off(self) -> float:
        """
        Hz, 20 to 10000
        """
    @property
    def first_peak_prominence(self) -> float:
        """
        0 to 10
        """
    @property
    def first_peak_window(self) -> float:
        """
        s, 0.0001 to 0.05
        """
    @property
    def impulse_window(self) -> float:
        """
        s, 0.0001 to 1
        """
    @property
    def p2_cut_off(self) -> float:
        """
        Hz, 20 to 2000
        """
    @property
    def p2_order(self) -> int:
        """
        1 to 8
        """
    @property
    def window(self) -> float:
        """
        s, 0.001 to 1
        """
    @property
    def window_length(self) -> float:
        """
        m, 0 to 5
        """
class WorkHardening:
    """
    State a steel hardens to under traffic, k(n) = k_0 + (k_s - k_0) (1 - exp(-n / n_0)).
    
    Parameters
    ----------
    shear_yield : float
        Pa, reached after many wheels
    hardness : float
        Pa, likewise
    wheels : float
        that bring 63 % of the gain
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, shear_yield: float = ..., hardness: float = ..., wheels: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> WorkHardening:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def hardness(self) -> float:
        """
        Pa, likewise
        """
    @property
    def shear_yield(self) -> float:
        """
        Pa, reached after many wheels
        """
    @property
    def wheels(self) -> float:
        """
        that bring 63 % of the gain
        """
class Steel:
    """
    A steel of rails and crossings.
    
    Parameters
    ----------
    name : str
        grade
    proof_stress : float
        Pa, 0.2 % offset, in tension
    tensile_strength : float
        Pa
    hardness : float
        Pa, Brinell number times 9.80665e6
    hardening : value
        WorkHardening, or None for a steel that keeps its yield
    trust : str
        where its numbers come from
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str = ..., proof_stress: float = ..., tensile_strength: float = ..., hardness: float = ..., hardening: WorkHardening | None = ..., trust: str = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Steel:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def hardening(self) -> WorkHardening | None:
        """
        WorkHardening, or None for a steel that keeps its yield
        """
    @property
    def hardness(self) -> float:
        """
        Pa, Brinell number times 9.80665e6
        """
    @property
    def name(self) -> str:
        """
        grade
        """
    @property
    def proof_stress(self) -> float:
        """
        Pa, 0.2 % offset, in tension
        """
    @property
    def tensile_strength(self) -> float:
        """
        Pa
        """
    @property
    def trust(self) -> str:
        """
        where its numbers come from
        """
class ContactShape(enum.Enum):
    """
    Of the shakedown limit; the line is the lower one.
    """
    circle = ...
    line = ...
class ShakedownMap:
    """
    Limits of the load factor p0 / k over the traction coefficient (Johnson 1989).
    
    `shape`: line contact is exact and the lower one.
    """
    def __init__(self, shape: ContactShape = ...) -> None:
        ...
    def elastic_shakedown(self, traction: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> typing.Any:
        """
        Load factor below which residual stresses end yielding.
        """
    def first_yield(self, traction: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> typing.Any:
        """
        Load factor below which nothing ever yields.
        """
    @property
    def shape(self) -> ContactShape:
        """
        line or circle
        """
class WearMap:
    """
    Wear coefficients over slip speed and pressure (Jendel 2002, middles of bands).
    
    Parameters
    ----------
    mild_up_to : float
        m/s
    mild_from : float
        m/s
    seizure_from : float
        -, pressure over hardness
    wear_mild : float
        0 to 1
    wear_severe : float
        0 to 1
    wear_seizure : float
        0 to 1
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, mild_up_to: float = ..., mild_from: float = ..., seizure_from: float = ..., wear_mild: float = ..., wear_severe: float = ..., wear_seizure: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> WearMap:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def mild_from(self) -> float:
        """
        m/s
        """
    @property
    def mild_up_to(self) -> float:
        """
        m/s
        """
    @property
    def seizure_from(self) -> float:
        """
        -, pressure over hardness
        """
    @property
    def wear_mild(self) -> float:
        """
        0 to 1
        """
    @property
    def wear_seizure(self) -> float:
        """
        0 to 1
        """
    @property
    def wear_severe(self) -> float:
        """
        0 to 1
        """
class CrackFunction:
    """
    Crack initiation per wheel over T-gamma (Burstow 2004, R260).
    
    Parameters
    ----------
    threshold : float
        J/m, none below
    peak : float
        J/m, most here
    balance : float
        J/m, wear takes cracks away beyond
    top : float
        -, per wheel, at the peak
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, threshold: float = ..., peak: float = ..., balance: float = ..., top: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> CrackFunction:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def balance(self) -> float:
        """
        J/m, wear takes cracks away beyond
        """
    @property
    def peak(self) -> float:
        """
        J/m, most here
        """
    @property
    def threshold(self) -> float:
        """
        J/m, none below
        """
    @property
    def top(self) -> float:
        """
        -, per wheel, at the peak
        """
class CreepTheory(enum.Enum):
    """
    Law of the creep force that spins the wheel up.
    """
    cubic = ...
    polach = ...
    simplified = ...
class DamageOptions:
    """
    How the damage of a passage is computed.
    
    Parameters
    ----------
    creep_law : value
        law of the creep force; wear keeps to the simplified theory
    shakedown_shape : value
        line or circle
    run_in : bool
        wear at the pressure a place settles at, not above shakedown limit times k
    wear : value
        wear coefficients
    cracks : value
        crack function
    friction : float
        0 to 1
    friction_ratio : float
        0.01 to 1
    friction_decay : float
        s/m, 0 to 100000
    adhesion_reduction : float
        0.01 to 1
    slip_reduction : float
        0.01 to 1
    spin_inertia : float
        kg m2, 0.001 to 1e+09
    before : float
        m, 0.001 to 100
    after : float
        m, 0.001 to 100
    least_force : float
        N, 0.001 to 1e+06
    strips : int
        3 to 400
    cells : int
        3 to 400
    map_x : float
        m, 0.0001 to 0.1
    map_y : float
        m, 1e-05 to 0.05
    wear_depth_limit : float
        m, 1e-06 to 1
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, creep_law: CreepTheory = ..., shakedown_shape: ContactShape = ..., run_in: bool = ..., wear: WearMap = ..., cracks: CrackFunction = ..., friction: float = ..., friction_ratio: float = ..., friction_decay: float = ..., adhesion_reduction: float = ..., slip_reduction: float = ..., spin_inertia: float = ..., before: float = ..., after: float = ..., least_force: float = ..., strips: int = ..., cells: int = ..., map_x: float = ..., map_y: float = ..., wear_depth_limit: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> DamageOptions:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def adhesion_reduction(self) -> float:
        """
        0.01 to 1
        """
    @property
    def after(self) -> float:
        """
        m, 0.001 to 100
        """
    @property
    def before(self) -> float:
        """
        m, 0.001 to 100
        """
    @property
    def cells(self) -> int:
        """
        3 to 400
        """
    @property
    def cracks(self) -> CrackFunction:
        """
        crack function
        """
    @property
    def creep_law(self) -> CreepTheory:
        """
        law of the creep force; wear keeps to the simplified theory
        """
    @property
    def friction(self) -> float:
        """
        0 to 1
        """
    @property
    def friction_decay(self) -> float:
        """
        s/m, 0 to 100000
        """
    @property
    def friction_ratio(self) -> float:
        """
        0.01 to 1
        """
    @property
    def least_force(self) -> float:
        """
        N, 0.001 to 1e+06
        """
    @property
    def map_x(self) -> float:
        """
        m, 0.0001 to 0.1
        """
    @property
    def map_y(self) -> float:
        """
        m, 1e-05 to 0.05
        """
    @property
    def run_in(self) -> bool:
        """
        wear at the pressure a place settles at, not above shakedown limit times k
        """
    @property
    def shakedown_shape(self) -> ContactShape:
        """
        line or circle
        """
    @property
    def slip_reduction(self) -> float:
        """
        0.01 to 1
        """
    @property
    def spin_inertia(self) -> float:
        """
        kg m2, 0.001 to 1e+09
        """
    @property
    def strips(self) -> int:
        """
        3 to 400
        """
    @property
    def wear(self) -> WearMap:
        """
        wear coefficients
        """
    @property
    def wear_depth_limit(self) -> float:
        """
        m, 1e-06 to 1
        """
class ContactTrail:
    """
    Rolling contacts of one wheel along one crossing: all that does not depend on the steel.
    
    One value per contact and step of the history, by time, then body; `step_time` and `angular_speed` have one per step.
    Wheelset runs straight; the wheel's spin speed follows from its inertia.
    """
    def __len__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def angular_speed(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        rad/s, of the wheel at the start of every step
        """
    @property
    def bodies(self) -> tuple[str, ...]:
        """
        names of the bodies
        """
    @property
    def body(self) -> numpy.typing.NDArray[numpy.int64]:
        """
        index into `bodies`, per contact
        """
    @property
    def by_strips(self) -> bool:
        """
        patches by strips, several per body; otherwise one ellipse per body
        """
    @property
    def change_of_angle(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        rad, across the patch
        """
    @property
    def contact_angle(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        rad
        """
    @property
    def direction(self) -> wingnose._core.Direction:
        """
        facing or trailing
        """
    @property
    def duration(self) -> float:
        """
        s, of one step
        """
    @property
    def friction_power(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        W
        """
    @property
    def half_length(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, semi-axis along the track
        """
    @property
    def half_width(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, semi-axis across
        """
    @property
    def lateral_force(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        N, on the wheel across
        """
    @property
    def longitudinal_creepage(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        -
        """
    @property
    def longitudinal_force(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        N, on the wheel along travel
        """
    @property
    def material(self) -> wingnose._core.contact.Elastic:
        """
        elastic constants
        """
    @property
    def normal_force(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        N
        """
    @property
    def peak_pressure(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Pa, elastic
        """
    @property
    def rolling_radius(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m
        """
    @property
    def speed(self) -> float:
        """
        m/s
        """
    @property
    def spin(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        1/m
        """
    @property
    def step_time(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        s, start of every step
        """
    @property
    def time(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        s
        """
    @property
    def x(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, station of the patch
        """
    @property
    def y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, from the track centre line
        """
    @property
    def yaw(self) -> float:
        """
        rad, of the wheel, held all along
        """
class DamageMap:
    """
    Damage of one body over its running surface, plan view.
    
    Arrays have the shape (len(x), len(y)). Sums of densities times `cell_area` are the amounts. Of one passage the counts
    of wheels are 0 or 1.
    """
    def __repr__(self) -> str:
        ...
    @property
    def beyond_shakedown(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        wheels whose contact there lay beyond elastic shakedown
        """
    @property
    def beyond_surface_flow(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        wheels with a surface fatigue index above 0 there
        """
    @property
    def body(self) -> str:
        """
        name of the body
        """
    @property
    def cell_area(self) -> float:
        """
        m2, that a node stands for
        """
    @property
    def friction_energy(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        J/m2
        """
    @property
    def peak_pressure(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Pa, largest seen
        """
    @property
    def wear_depth(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m
        """
    @property
    def wheels(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        wheels that loaded the node
        """
    @property
    def x(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, stations of the nodes
        """
    @property
    def y(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        m, nodes from the track centre line
        """
class Damage:
    """
    What one passage does to the steel.
    """
    def __repr__(self) -> str:
        ...
    @property
    def findings(self) -> tuple[wingnose._core.Finding, ...]:
        """
        what a reader must know
        """
    @property
    def friction_energy(self) -> float:
        """
        J, of the whole stretch
        """
    @property
    def maps(self) -> tuple[DamageMap, ...]:
        """
        one per body
        """
    @property
    def measures(self) -> dict[str, float | None]:
        """
        largest values and sums, by the keys of `wingnose.quantities`, in their units
        """
    @property
    def places(self) -> dict[str, tuple[str, float, float, float]]:
        """
        where the largest values are reached: body, station (m), y (m), time (s)
        """
    @property
    def wear_volume(self) -> float:
        """
        m3
        """
class SteelAlong:
    """
    What each contact of a trail means for the steel it meets, in the order of the trail.
    
    Attributes
    ----------
    wheels : ndarray of float
        that have loaded the place before
    shear_yield : ndarray of float
        Pa, there
    hardness : ndarray of float
        Pa, there
    traction : ndarray of float
        -, creep over normal force
    load_factor : ndarray of float
        -, p0 / k
    shakedown_limit : ndarray of float
        -, of the load factor
    shakedown : ndarray of float
        -, load factor over its limit
    fatigue_index : ndarray of float
        -, surface
    t_gamma : ndarray of float
        N (J/m)
    crack_damage : ndarray of float
        -, per wheel
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def crack_damage(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        -, per wheel
        """
    @property
    def fatigue_index(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        -, surface
        """
    @property
    def hardness(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Pa, there
        """
    @property
    def load_factor(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        -, p0 / k
        """
    @property
    def shakedown(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        -, load factor over its limit
        """
    @property
    def shakedown_limit(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        -, of the load factor
        """
    @property
    def shear_yield(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Pa, there
        """
    @property
    def t_gamma(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        N (J/m)
        """
    @property
    def traction(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        -, creep over normal force
        """
    @property
    def wheels(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        that have loaded the place before
        """
class TrafficWheel:
    """
    Wheels alike: one passage and how many of them run.
    
    `trail`: of the passage; `wheels`: how many of this kind; `load`: N, static, needed for a tonnage.
    """
    def __init__(self, trail: ContactTrail, wheels: float = ..., load: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def load(self) -> float:
        """
        N, static
        """
    @property
    def trail(self) -> ContactTrail:
        """
        of the passage
        """
    @property
    def wheels(self) -> float:
        """
        how many of this kind
        """
class TrafficStage:
    """
    State of the steel in one stage of a traffic: shakedown is the exceedance of its limit, fatigue_index that of the surface.
    
    Attributes
    ----------
    wheels : float
        -, wheels after the stage, from the beginning
    shear_yield : float
        Pa, yield in shear in the stage, of the place loaded most so far
    hardness : float
        Pa, hardness, likewise
    shakedown : float
        -, largest of all wheels in the stage
    fatigue_index : float
        -, largest of all wheels in the stage
    wear_depth : float
        m, deepest node after the stage
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def fatigue_index(self) -> float:
        """
        -, largest of all wheels in the stage
        """
    @property
    def hardness(self) -> float:
        """
        Pa, hardness, likewise
        """
    @property
    def shakedown(self) -> float:
        """
        -, largest of all wheels in the stage
        """
    @property
    def shear_yield(self) -> float:
        """
        Pa, yield in shear in the stage, of the place loaded most so far
        """
    @property
    def wear_depth(self) -> float:
        """
        m, deepest node after the stage
        """
    @property
    def wheels(self) -> float:
        """
        -, wheels after the stage, from the beginning
        """
class TrafficDamage:
    """
    What a traffic does to the steel, the shape taken as unchanged.
    
    Attributes
    ----------
    wheels : float
        in all
    friction_energy : float
        J
    wear_volume : float
        m3
    crack_damage : float
        -, sum of each wheel's largest: an upper bound
    beyond_shakedown : float
        wheels beyond shakedown somewhere
    beyond_surface_flow : float
        wheels with a fatigue index above 0 somewhere
    maps : tuple[typing.Any, ...]
        one per body
    stages : tuple[typing.Any, ...]
        by time
    findings : tuple[typing.Any, ...]
        what a reader must know
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def beyond_shakedown(self) -> float:
        """
        wheels beyond shakedown somewhere
        """
    @property
    def beyond_surface_flow(self) -> float:
        """
        wheels with a fatigue index above 0 somewhere
        """
    @property
    def crack_damage(self) -> float:
        """
        -, sum of each wheel's largest: an upper bound
        """
    @property
    def findings(self) -> tuple[wingnose._core.Finding, ...]:
        """
        what a reader must know
        """
    @property
    def friction_energy(self) -> float:
        """
        J
        """
    @property
    def maps(self) -> tuple[DamageMap, ...]:
        """
        one per body
        """
    @property
    def stages(self) -> tuple[TrafficStage, ...]:
        """
        by time
        """
    @property
    def wear_volume(self) -> float:
        """
        m3
        """
    @property
    def wheels(self) -> float:
        """
        in all
        """
def archard_volume(coefficient: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], force: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], distance: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], hardness: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> typing.Any:
    """
    Worn volume K N s / H (m3): N, m, Pa.
    """
def contact_trail(history: wingnose._core.passage.History, path: wingnose._core.contact.WheelPath, wheel: wingnose._core.profile.WheelProfile, landing_station: float, material: wingnose._core.contact.Elastic = ..., options: DamageOptions = ...) -> ContactTrail:
    """
    Contacts of one passage around its landing.
    
    `history`: with its bodies; `path`: that of the history; `wheel`: that of the path;
    `landing_station`: m, of the axle; `material`: of wheel and rail; `options`: friction, stretch, strips. Returns
    places, patches, creepages, forces.
    """
def crack_damage(t_gamma: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], function: CrackFunction = ...) -> typing.Any:
    """
    Crack damage of one wheel (-) at T-gamma (N, J/m); 1 is a crack that can be seen.
    """
def damage(trail: ContactTrail, steel: Steel, options: DamageOptions = ..., before: collections.abc.Sequence[DamageMap] | None = None) -> Damage:
    """
    What a passage does to a steel.
    
    `trail`: of the passage; `steel`: of wing and nose; `options`: as the trail was made with; `before`: maps of the
    traffic so far, whose wheels harden the steel (left out: new steel). Returns peaks, sums and maps.
    """
def damage_of_traffic(traffic: collections.abc.Sequence[TrafficWheel], steel: Steel, options: DamageOptions = ..., stages: int = ...) -> TrafficDamage:
    """
    Damage of many wheels over one crossing, the steel hardening between stages.
    
    `traffic`: kinds of wheels and how many of each; `steel`: of wing and nose; `options`: as the trails were made with;
    `stages`: 1 to 1000; each carries the same share of the traffic. Returns sums, maps, and the stages one by one.
    """
def energy_wear_rate(t_gamma_over_area: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> typing.Any:
    """
    Mass lost per distance and area (kg/m/m2) over T-gamma / A (N/m2), Braghin et al. (2006).
    """
def for_tonnage(mix: collections.abc.Sequence[TrafficWheel], tonnage: float) -> list[TrafficWheel]:
    """
    The same mix with so many wheels that their axles weigh `tonnage` (kg) in all; 1 MGT is 1e9 kg.
    """
def from_brinell(number: float) -> float:
    """
    Brinell number to Pa.
    """
def low_pass_zero_phase(signal: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], step: float, cut_off: float, order: int = ...) -> numpy.typing.NDArray[numpy.float64]:
    """
    Butterworth low pass, forward and back (no phase shift).
    
    `signal`: uniform samples; `step`: s between samples; `cut_off`: Hz, per pass; `order`: order per pass.
    """
def measure(history: wingnose._core.passage.History, landing_station: float, options: MeasureOptions = ...) -> dict[str, float | None]:
    """
    Numbers of a history whose wheel lands near `landing_station` (m), by the keys of `wingnose.quantities`, in their units; None where there is none.
    """
def shear_yield(steel: Steel, wheels: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] = 0.0) -> typing.Any:
    """
    Yield in shear (Pa) at a place so many wheels have loaded.
    """
def steel(name: str) -> Steel:
    """
    A grade known by name; raises InputError for others.
    """
def steel_along(trail: ContactTrail, steel: Steel, options: DamageOptions = ..., before: collections.abc.Sequence[DamageMap] | None = None, share: float = ...) -> SteelAlong:
    """
    What each contact of a passage means for the steel it meets.
    
    `trail`: of the passage; `steel`: of wing and nose; `options`: as the trail was made with; `before`: maps of the
    traffic so far, whose wheels harden the steel; `share`: of that traffic which has rolled when the passage comes.
    Returns one value per contact of the trail.
    """
def steel_names() -> list[str]:
    """
    The grades known by name, softest first.
    """
def surface_fatigue_index(traction: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], a: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], b: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], shear_yield: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], force: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> typing.Any:
    """
    f - 2 pi a b k / (3 F) (Ekberg, Kabo and Andersson 2002): semi-axes in m, yield in Pa, force in N; above 0 the surface yields.
    """
def wear_coefficient(slip_speed: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], pressure: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], hardness: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], map: WearMap = ...) -> typing.Any:
    """
    Archard's K (-) at a slip speed (m/s), pressure and hardness (Pa).
    """
def wear_hardness(steel: Steel, wheels: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] = 0.0) -> typing.Any:
    """
    Hardness (Pa) at a place so many wheels have loaded.
    """
