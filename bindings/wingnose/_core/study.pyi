"""
One case, all its steps; many cases.
"""
from __future__ import annotations
import collections.abc
import enum
import numpy
import numpy.typing
import typing
import wingnose._core.assess
import wingnose._core.closedform
import wingnose._core.contact
import wingnose._core.layout
import wingnose._core.io
import wingnose._core.passage
import wingnose._core.profile
import wingnose._core.track
import wingnose._core.vehicle
__all__: list[str] = ['Case', 'ChoiceSpread', 'ClosedFormSpeed', 'CompareOptions', 'ComparedCrossing', 'Comparison', 'Difference', 'Estimate', 'Geometry', 'InputFile', 'Instant', 'Limit', 'LimitAnswer', 'LimitOutcome', 'Member', 'NormalSpread', 'Observed', 'Outcome', 'Population', 'PopulationRecipe', 'Quantity', 'Ranking', 'Result', 'Sampling', 'SharedParts', 'SpeedFailure', 'SpeedInterval', 'SpeedPoint', 'SpeedStudy', 'State', 'Statistic', 'StatisticKind', 'SteelMeasures', 'Traffic', 'TrafficMember', 'UniformSpread', 'Variation', 'Verdict', 'WheelClass', 'WheelGroup', 'answer_cases', 'compare', 'contact_at_instant', 'contact_standing', 'contact_trail', 'damage', 'draw', 'estimate', 'geometry', 'instant', 'landing_station', 'run', 'run_many', 'scene', 'study_speeds', 'track_for', 'traffic', 'wheels_of']
class InputFile:
    """
    A file a case was read from.
    
    Attributes
    ----------
    role : str
        what it gave
    path : str
        where it was
    sha256 : str
        checksum of its content
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def path(self) -> str:
        """
        where it was
        """
    @property
    def role(self) -> str:
        """
        what it gave
        """
    @property
    def sha256(self) -> str:
        """
        checksum of its content
        """
class Case:
    """
    All a user asked for, in SI, validated.
    
    Parameters
    ----------
    name : str
        name
    excitation : value
        CrossingShape, SectionedShape, DippedJoint or GivenPath
    wheel : value
        wheel profile
    lateral_offset : float
        m
    roll : float
        rad, -0.03 to 0.03, + lifts the wheel's field side; on crossings
    yaw : float
        rad, -0.03 to 0.03, + turns the wheel from x to y; on crossings
    rail_head : str
        plain rail of prescribed paths
    rail_inclination : float
        rad
    vehicle : value
        vehicle
    track : value
        track
    steel : value
        material of wheel and rail
    normal_law : value
        contact.Ellipse() or contact.Strips(), of the passage
    contact_search : value
        contact.SearchAt.path or .step: beforehand, or at every step of the passage
    passage : value
        speed, stretch, step
    kinematics : value
        how slopes are read
    measures : value
        definitions of the measures
    grade : value
        steel of wing and nose, for damage
    damage : value
        how damage is computed
    lumped : tuple
        constant sets to report; empty: derived from the track
    inputs : tuple
        files the case came from
    source_text : str
        the case file as read
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str = ..., excitation: wingnose._core.layout.CrossingShape | wingnose._core.layout.SectionedShape | wingnose._core.layout.DippedJoint | wingnose._core.layout.GivenPath = ..., wheel: wingnose._core.profile.WheelProfile = ..., lateral_offset: float = ..., roll: float = ..., yaw: float = ..., rail_head: str = ..., rail_inclination: float = ..., vehicle: wingnose._core.vehicle.Vehicle, track: wingnose._core.track.Track = ..., steel: wingnose._core.contact.Elastic = ..., normal_law: wingnose._core.contact.Ellipse | wingnose._core.contact.Strips = ..., contact_search: wingnose._core.contact.SearchAt = ..., passage: wingnose._core.passage.Settings = ..., kinematics: wingnose._core.layout.KinematicsOptions = ..., measures: wingnose._core.assess.MeasureOptions = ..., grade: wingnose._core.assess.Steel = ..., damage: wingnose._core.assess.DamageOptions = ..., lumped: collections.abc.Sequence[wingnose._core.closedform.ConstantSet] = ..., inputs: collections.abc.Sequence[InputFile] = ..., source_text: str = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Case:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def contact_search(self) -> wingnose._core.contact.SearchAt:
        """
        contact.SearchAt.path or .step: beforehand, or at every step of the passage
        """
    @property
    def damage(self) -> wingnose._core.assess.DamageOptions:
        """
        how damage is computed
        """
    @property
    def excitation(self) -> wingnose._core.layout.CrossingShape | wingnose._core.layout.SectionedShape | wingnose._core.layout.DippedJoint | wingnose._core.layout.GivenPath:
        """
        CrossingShape, SectionedShape, DippedJoint or GivenPath
        """
    @property
    def grade(self) -> wingnose._core.assess.Steel:
        """
        steel of wing and nose, for damage
        """
    @property
    def inputs(self) -> tuple[InputFile, ...]:
        """
        files the case came from
        """
    @property
    def kinematics(self) -> wingnose._core.layout.KinematicsOptions:
        """
        how slopes are read
        """
    @property
    def lateral_offset(self) -> float:
        """
        m
        """
    @property
    def lumped(self) -> tuple[wingnose._core.closedform.ConstantSet, ...]:
        """
        constant sets to report; empty: derived from the track
        """
    @property
    def measures(self) -> wingnose._core.assess.MeasureOptions:
        """
        definitions of the measures
        """
    @property
    def name(self) -> str:
        """
        name
        """
    @property
    def normal_law(self) -> wingnose._core.contact.Ellipse | wingnose._core.contact.Strips:
        """
        contact.Ellipse() or contact.Strips(), of the passage
        """
    @property
    def passage(self) -> wingnose._core.passage.Settings:
        """
        speed, stretch, step
        """
    @property
    def rail_head(self) -> str:
        """
        plain rail of prescribed paths
        """
    @property
    def rail_inclination(self) -> float:
        """
        rad
        """
    @property
    def roll(self) -> float:
        """
        rad, -0.03 to 0.03, + lifts the wheel's field side; on crossings
        """
    @property
    def source_text(self) -> str:
        """
        the case file as read
        """
    @property
    def steel(self) -> wingnose._core.contact.Elastic:
        """
        material of wheel and rail
        """
    @property
    def track(self) -> wingnose._core.track.Track:
        """
        track
        """
    @property
    def vehicle(self) -> wingnose._core.vehicle.Vehicle:
        """
        vehicle
        """
    @property
    def wheel(self) -> wingnose._core.profile.WheelProfile:
        """
        wheel profile
        """
    @property
    def yaw(self) -> float:
        """
        rad, -0.03 to 0.03, + turns the wheel from x to y; on crossings
        """
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
    kinematics : value
        transfer, dip, slopes
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
    def kinematics(self) -> wingnose._core.layout.Kinematics:
        """
        transfer, dip, slopes
        """
    @property
    def law(self) -> wingnose._core.contact.PathLaw:
        """
        law of contact along it, for E* = 1 Pa; None: ellipses
        """
    @property
    def path(self) -> wingnose._core.layout.WheelPath:
        """
        wheel path
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
    All answers of one case.
    
    Attributes
    ----------
    geometry : value
        path and kinematics
    history : value
        what happened
    measures : value
        what it means
    estimates : tuple
        closed forms beside it
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def estimates(self) -> tuple[Estimate, ...]:
        """
        closed forms beside it
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
    def measures(self) -> wingnose._core.assess.Measures:
        """
        what it means
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
        why there is no result
        """
    @property
    def result(self) -> Result:
        """
        kinematics, measures and closed forms; histories and paths when kept
        """
    @property
    def state(self) -> State:
        """
        how far it came
        """
class NormalSpread:
    """
    A normal distribution, cut off where asked; in the unit of its key.
    
    Parameters
    ----------
    mean : float
        before it is cut off
    deviation : float
        standard deviation, above 0
    from_ : float
        cut off here
    to : float
        cut off here
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, mean: float = ..., deviation: float = ..., from_: float = ..., to: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> NormalSpread:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def deviation(self) -> float:
        """
        standard deviation, above 0
        """
    @property
    def from_(self) -> float:
        """
        cut off here
        """
    @property
    def mean(self) -> float:
        """
        before it is cut off
        """
    @property
    def to(self) -> float:
        """
        cut off here
        """
class UniformSpread:
    """
    A uniform distribution; in the unit of its key.
    
    Parameters
    ----------
    from_ : float
        least value
    to : float
        greatest value
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any]:
        ...
    def __init__(self, *, from_: float = ..., to: float = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> UniformSpread:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def from_(self) -> float:
        """
        least value
        """
    @property
    def to(self) -> float:
        """
        greatest value
        """
class ChoiceSpread:
    """
    Some values with weights; in the unit of their key.
    
    Parameters
    ----------
    values : tuple
        numbers or texts
    weights : ndarray of float
        one per value, 0 or more
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any]:
        ...
    def __init__(self, *, values: collections.abc.Sequence[float | str], weights: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> ChoiceSpread:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def values(self) -> tuple[float | str, ...]:
        """
        numbers or texts
        """
    @property
    def weights(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        one per value, 0 or more
        """
class Variation:
    """
    How a key of the cases varies over a population.
    
    Parameters
    ----------
    key : str
        such as "passage.speed_km_h"
    spread : value
        its distribution
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any]:
        ...
    def __init__(self, *, key: str, spread: NormalSpread | UniformSpread | ChoiceSpread) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Variation:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def key(self) -> str:
        """
        such as "passage.speed_km_h"
        """
    @property
    def spread(self) -> NormalSpread | UniformSpread | ChoiceSpread:
        """
        its distribution
        """
class WheelClass:
    """
    Wheels alike in profile, known by one name.
    
    Parameters
    ----------
    name : str
        short name
    share : float
        of the population, against the other classes
    wheel : value
        a case that lends its wheel; None: the first crossing's
    variations : tuple
        of this class alone
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str, share: float = ..., wheel: wingnose._core.io.CaseDocument | None = ..., variations: collections.abc.Sequence[Variation] = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> WheelClass:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def name(self) -> str:
        """
        short name
        """
    @property
    def share(self) -> float:
        """
        of the population, against the other classes
        """
    @property
    def variations(self) -> tuple[Variation, ...]:
        """
        of this class alone
        """
    @property
    def wheel(self) -> wingnose._core.io.CaseDocument | None:
        """
        a case that lends its wheel; None: the first crossing's
        """
class Member:
    """
    One wheel of a population.
    
    Parameters
    ----------
    name : str
        Its name in reports.
    wheel_class : int
        Index of its class.
    weight : float
        How often such a wheel comes, in any unit.
    values : dict of str to value
        Keys of cases it sets, in their units.
    """
    def __init__(self, *, name: str, wheel_class: int = ..., weight: float = ..., values: collections.abc.Mapping[str, bool | float | str] = {}) -> None:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def name(self) -> str:
        """
        its name in reports
        """
    @property
    def values(self) -> dict[str, float | str]:
        """
        keys of cases it sets, in their units
        """
    @property
    def weight(self) -> float:
        """
        how often such a wheel comes
        """
    @property
    def wheel_class(self) -> int:
        """
        index of its class
        """
class Population:
    """
    Wheels that roll over every crossing of a comparison.
    
    Parameters
    ----------
    classes : tuple
        wheel classes
    members : tuple
        wheels with their weights
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any]:
        ...
    def __init__(self, *, classes: collections.abc.Sequence[WheelClass], members: collections.abc.Sequence[Member]) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Population:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def classes(self) -> tuple[WheelClass, ...]:
        """
        wheel classes
        """
    @property
    def members(self) -> tuple[Member, ...]:
        """
        wheels with their weights
        """
class Sampling(enum.Enum):
    """
    How wheels are drawn.
    """
    simple = ...
    stratified = ...
class PopulationRecipe:
    """
    Wheels to be drawn from distributions with a seed.
    
    Parameters
    ----------
    classes : tuple
        wheel classes
    variations : tuple
        of all classes
    count : int
        wheels
    seed : int
        the same seed draws the same wheels
    sampling : value
        stratified or simple
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, classes: collections.abc.Sequence[WheelClass], variations: collections.abc.Sequence[Variation] = ..., count: int = ..., seed: int = ..., sampling: Sampling = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> PopulationRecipe:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def classes(self) -> tuple[WheelClass, ...]:
        """
        wheel classes
        """
    @property
    def count(self) -> int:
        """
        wheels
        """
    @property
    def sampling(self) -> Sampling:
        """
        stratified or simple
        """
    @property
    def seed(self) -> int:
        """
        the same seed draws the same wheels
        """
    @property
    def variations(self) -> tuple[Variation, ...]:
        """
        of all classes
        """
class Observed(enum.Enum):
    """
    What is observed of each passage; SI units.
    """
    crack_damage = ...
    dip_angle = ...
    fatigue_index = ...
    friction_energy = ...
    lost_contact = ...
    nose_thickness = ...
    p2 = ...
    peak_nose = ...
    peak_pressure = ...
    peak_total = ...
    shakedown = ...
    t_gamma = ...
    transfer_station = ...
    wear_volume = ...
class StatisticKind(enum.Enum):
    """
    What is taken of a quantity over the wheels.
    """
    mean = ...
    quantile = ...
    share_above_zero = ...
class Statistic:
    """
    A number taken of one quantity over the wheels.
    
    Attributes
    ----------
    of : value
        the quantity
    kind : value
        what is taken
    level : float
        of a quantile
    higher_is_better : bool
        as a criterion
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def higher_is_better(self) -> bool:
        """
        as a criterion
        """
    @property
    def key(self) -> str:
        """
        name with unit, as stored
        """
    @property
    def kind(self) -> StatisticKind:
        """
        what is taken
        """
    @property
    def label(self) -> str:
        """
        name in print
        """
    @property
    def level(self) -> float:
        """
        of a quantile
        """
    @property
    def of(self) -> Observed:
        """
        the quantity
        """
    @property
    def per_si(self) -> float:
        """
        value in `unit` = value in SI times this
        """
    @property
    def unit(self) -> str:
        """
        unit in print and files
        """
class Ranking:
    """
    Crossings by one criterion.
    
    Attributes
    ----------
    criterion : value
        what is ranked by
    values : ndarray of float
        per crossing, SI
    order : tuple
        crossings, best first
    apart : tuple
        per place but the last: clearly better than the next
    places : tuple
        per crossing: 1 for the best
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def apart(self) -> tuple[bool, ...]:
        """
        per place but the last: clearly better than the next
        """
    @property
    def criterion(self) -> Statistic:
        """
        what is ranked by
        """
    @property
    def order(self) -> tuple[int, ...]:
        """
        crossings, best first
        """
    @property
    def places(self) -> tuple[int, ...]:
        """
        per crossing: 1 for the best
        """
    @property
    def values(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        per crossing, SI
        """
class Difference:
    """
    A crossing less the first one.
    
    Attributes
    ----------
    crossing : int
        number of the crossing
    statistic : value
        what differs
    value : float
        SI
    low : float
        lower end of the interval, SI
    high : float
        upper end of the interval, SI
    higher : float
        share of wheels that are higher
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def crossing(self) -> int:
        """
        number of the crossing
        """
    @property
    def high(self) -> float:
        """
        upper end of the interval, SI
        """
    @property
    def higher(self) -> float:
        """
        share of wheels that are higher
        """
    @property
    def low(self) -> float:
        """
        lower end of the interval, SI
        """
    @property
    def statistic(self) -> Statistic:
        """
        what differs
        """
    @property
    def value(self) -> float:
        """
        SI
        """
class WheelGroup:
    """
    Some of the wheels: a class, or a half by speed or load.
    
    Attributes
    ----------
    name : str
        which
    members : tuple
        numbers of the wheels
    share : float
        of the weight compared
    rankings : tuple
        one per criterion
    flips : tuple
        per criterion: another crossing is clearly best here
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def flips(self) -> tuple[bool, ...]:
        """
        per criterion: another crossing is clearly best here
        """
    @property
    def members(self) -> tuple[int, ...]:
        """
        numbers of the wheels
        """
    @property
    def name(self) -> str:
        """
        which
        """
    @property
    def rankings(self) -> tuple[Ranking, ...]:
        """
        one per criterion
        """
    @property
    def share(self) -> float:
        """
        of the weight compared
        """
class ComparedCrossing:
    """
    A crossing with its case.
    
    Attributes
    ----------
    name : str
        short name
    document : value
        its case
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __init__(self, name: str, document: wingnose._core.io.CaseDocument) -> None:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def document(self) -> wingnose._core.io.CaseDocument:
        """
        its case
        """
    @property
    def name(self) -> str:
        """
        short name
        """
class CompareOptions:
    """
    What a comparison is to look at.
    
    Parameters
    ----------
    thin_nose : float
        m, a transfer onto a thinner nose is early
    confidence : float
        of the intervals
    resamples : int
        of the bootstrap
    seed : int
        of the bootstrap
    envelope_step : float
        m
    envelope_from : float
        m
    envelope_to : float
        m
    thickness_step : float
        m, bins of nose thickness
    thickness_to : float
        m, last bin
    steel : bool
        what the landings do to the steel, too
    paths : bool
        keep wheel paths of typical wheels
    inputs : tuple
        files it was asked with, to be told with the answer
    threads : int
        0: one per core
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, thin_nose: float = ..., confidence: float = ..., resamples: int = ..., seed: int = ..., envelope_step: float = ..., envelope_from: float = ..., envelope_to: float = ..., thickness_step: float = ..., thickness_to: float = ..., steel: bool = ..., paths: bool = ..., inputs: collections.abc.Sequence[InputFile] = ..., threads: int = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> CompareOptions:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def confidence(self) -> float:
        """
        of the intervals
        """
    @property
    def envelope_from(self) -> float:
        """
        m
        """
    @property
    def envelope_step(self) -> float:
        """
        m
        """
    @property
    def envelope_to(self) -> float:
        """
        m
        """
    @property
    def inputs(self) -> tuple[InputFile, ...]:
        """
        files it was asked with, to be told with the answer
        """
    @property
    def paths(self) -> bool:
        """
        keep wheel paths of typical wheels
        """
    @property
    def resamples(self) -> int:
        """
        of the bootstrap
        """
    @property
    def seed(self) -> int:
        """
        of the bootstrap
        """
    @property
    def steel(self) -> bool:
        """
        what the landings do to the steel, too
        """
    @property
    def thickness_step(self) -> float:
        """
        m, bins of nose thickness
        """
    @property
    def thickness_to(self) -> float:
        """
        m, last bin
        """
    @property
    def thin_nose(self) -> float:
        """
        m, a transfer onto a thinner nose is early
        """
    @property
    def threads(self) -> int:
        """
        0: one per core
        """
class Comparison:
    """
    Crossings compared. Everything else stands in its file: see io.write_comparison.
    """
    def __repr__(self) -> str:
        ...
    def observed(self, crossing: int, of: Observed) -> numpy.typing.NDArray[numpy.float64]:
        """
        A quantity of every wheel on one crossing, SI; NaN where there is none.
        """
    @property
    def beyond_shakedown(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        per crossing: share of the wheels beyond elastic shakedown; NaN where not asked for
        """
    @property
    def beyond_surface_flow(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        per crossing: share of the wheels with a surface fatigue index above 0; NaN where not asked for
        """
    @property
    def compared(self) -> list[bool]:
        """
        per wheel: computed on all crossings
        """
    @property
    def crossings(self) -> list[str]:
        """
        names of the crossings; the first is the reference
        """
    @property
    def dependence(self) -> list[str]:
        """
        what the ranking depends on, in sentences
        """
    @property
    def differences(self) -> list[Difference]:
        """
        crossings less the first one
        """
    @property
    def dropped(self) -> float:
        """
        share of the weight not compared
        """
    @property
    def effective_count(self) -> float:
        """
        equal wheels that would say as much
        """
    @property
    def groups(self) -> list[WheelGroup]:
        """
        rankings within some of the wheels
        """
    @property
    def inputs(self) -> list[InputFile]:
        """
        every file it rests on
        """
    @property
    def notes(self) -> list[str]:
        """
        what a reader must know beside the numbers
        """
    @property
    def options(self) -> CompareOptions:
        """
        as asked for
        """
    @property
    def population(self) -> Population:
        """
        the wheels
        """
    @property
    def rankings(self) -> list[Ranking]:
        """
        one per criterion
        """
    @property
    def steel_assumptions(self) -> list[str]:
        """
        what the numbers of the steel rest on
        """
    @property
    def warnings(self) -> list[str]:
        """
        early transfers onto a thin nose, by name
        """
class TrafficMember:
    """
    One wheel of a mixed traffic; numbers are NaN where it failed.
    
    Attributes
    ----------
    failure : str
        why there is no damage; empty: there is
    speed : float
        m/s
    static_load : float
        N
    lateral_offset : float
        m
    wheels : float
        of this kind in the traffic, 0 where it failed
    peak_pressure : float
        Pa, of one such wheel
    shakedown : float
        -, exceedance of one such wheel over new steel
    fatigue_index : float
        -, surface, likewise
    t_gamma : float
        N (J/m), largest
    friction_energy : float
        J, of one such wheel
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def failure(self) -> str:
        """
        why there is no damage; empty: there is
        """
    @property
    def fatigue_index(self) -> float:
        """
        -, surface, likewise
        """
    @property
    def friction_energy(self) -> float:
        """
        J, of one such wheel
        """
    @property
    def lateral_offset(self) -> float:
        """
        m
        """
    @property
    def peak_pressure(self) -> float:
        """
        Pa, of one such wheel
        """
    @property
    def shakedown(self) -> float:
        """
        -, exceedance of one such wheel over new steel
        """
    @property
    def speed(self) -> float:
        """
        m/s
        """
    @property
    def static_load(self) -> float:
        """
        N
        """
    @property
    def t_gamma(self) -> float:
        """
        N (J/m), largest
        """
    @property
    def wheels(self) -> float:
        """
        of this kind in the traffic, 0 where it failed
        """
class Traffic:
    """
    A mixed traffic over one crossing and what it does to the steel.
    
    Attributes
    ----------
    population : value
        wheels and their weights
    members : tuple
        one per wheel of the population
    steel : value
        of wing and nose
    tonnage : float
        kg
    failed : int
        wheels of the population without damage
    failed_share : float
        of the weight
    damage : value
        TrafficDamage; its notes say which wheels failed
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def damage(self) -> wingnose._core.assess.TrafficDamage:
        """
        TrafficDamage; its notes say which wheels failed
        """
    @property
    def failed(self) -> int:
        """
        wheels of the population without damage
        """
    @property
    def failed_share(self) -> float:
        """
        of the weight
        """
    @property
    def members(self) -> tuple[TrafficMember, ...]:
        """
        one per wheel of the population
        """
    @property
    def population(self) -> Population:
        """
        wheels and their weights
        """
    @property
    def steel(self) -> wingnose._core.assess.Steel:
        """
        of wing and nose
        """
    @property
    def tonnage(self) -> float:
        """
        kg
        """
class Quantity(enum.Enum):
    """
    What can be limited; SI units.
    """
    bearer_acceleration = ...
    dip_angle = ...
    dynamic_factor = ...
    first_peak = ...
    lost_contact = ...
    minimum_force = ...
    p2 = ...
    p2_dynamic_factor = ...
    peak_nose = ...
    peak_pressure = ...
    peak_total = ...
    peak_wing = ...
    rail_acceleration = ...
    shakedown = ...
    t_gamma = ...
class LimitOutcome(enum.Enum):
    """
    What the speeds of a range say of a limit.
    """
    broken_at_lowest = ...
    found = ...
    not_reached = ...
class Limit:
    """
    A limit on one quantity, with where it comes from.
    
    Parameters
    ----------
    quantity : value
        what is limited
    value : float
        in the SI unit of the quantity
    source : str
        standard or rule; empty: not named
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, quantity: Quantity, value: float, source: str = ...) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def replace(self, **kwargs: typing.Any) -> Limit:
        """
        A copy with the given fields changed; the value itself stays as it is.
        """
    @property
    def quantity(self) -> Quantity:
        """
        what is limited
        """
    @property
    def source(self) -> str:
        """
        standard or rule; empty: not named
        """
    @property
    def value(self) -> float:
        """
        in the SI unit of the quantity
        """
class SteelMeasures:
    """
    What one passage does to the steel of wing and nose.
    
    Attributes
    ----------
    peak_pressure : float
        Pa, largest elastic Hertz pressure
    shakedown : float
        -, largest exceedance; above 1 is plastic
    fatigue_index : float
        -, largest; above 0 the surface yields
    t_gamma : float
        N, largest
    crack_damage : float
        -, per wheel, largest of the crack function
    friction_energy : float
        J, of the whole stretch
    wear_volume : float
        m3, of the whole stretch
    change_of_angle : float
        rad, largest inside a patch
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def change_of_angle(self) -> float:
        """
        rad, largest inside a patch
        """
    @property
    def crack_damage(self) -> float:
        """
        -, per wheel, largest of the crack function
        """
    @property
    def fatigue_index(self) -> float:
        """
        -, largest; above 0 the surface yields
        """
    @property
    def friction_energy(self) -> float:
        """
        J, of the whole stretch
        """
    @property
    def peak_pressure(self) -> float:
        """
        Pa, largest elastic Hertz pressure
        """
    @property
    def shakedown(self) -> float:
        """
        -, largest exceedance; above 1 is plastic
        """
    @property
    def t_gamma(self) -> float:
        """
        N, largest
        """
    @property
    def wear_volume(self) -> float:
        """
        m3, of the whole stretch
        """
class SpeedPoint:
    """
    One speed of a study.
    
    Attributes
    ----------
    speed : float
        m/s
    measures : value
        of the passage
    estimates : tuple
        closed forms at this speed
    dip_angle : float
        rad, the same at all speeds
    steel : value
        what the landing does to it; None unless asked for
    steel_failure : str
        why it is not known though asked for
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def dip_angle(self) -> float:
        """
        rad, the same at all speeds
        """
    @property
    def estimates(self) -> tuple[Estimate, ...]:
        """
        closed forms at this speed
        """
    @property
    def measures(self) -> wingnose._core.assess.Measures:
        """
        of the passage
        """
    @property
    def speed(self) -> float:
        """
        m/s
        """
    @property
    def steel(self) -> SteelMeasures | None:
        """
        what the landing does to it; None unless asked for
        """
    @property
    def steel_failure(self) -> str:
        """
        why it is not known though asked for
        """
class SpeedInterval:
    """
    Scanned speeds in a row.
    
    Attributes
    ----------
    from_ : float
        m/s, first
    to : float
        m/s, last
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def from_(self) -> float:
        """
        m/s, first
        """
    @property
    def to(self) -> float:
        """
        m/s, last
        """
class ClosedFormSpeed:
    """
    What the closed form answers to a limit on P2.
    
    Attributes
    ----------
    track_name : str
        which lumped track
    speed : value
        m/s; None when it has no answer
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def speed(self) -> float | None:
        """
        m/s; None when it has no answer
        """
    @property
    def track_name(self) -> str:
        """
        which lumped track
        """
class LimitAnswer:
    """
    What a range of speeds says of one limit.
    
    Attributes
    ----------
    outcome : value
        found, not_reached or broken_at_lowest
    speed : value
        m/s, highest speed that keeps it, when found
    first_broken : value
        m/s, lowest scanned speed that breaks it
    first_broken_not_computed : bool
        the passage at that speed failed
    kept_again : tuple
        above the first break: the limit is not monotone in speed
    estimates : tuple
        closed forms, limits on P2 only
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def estimates(self) -> tuple[ClosedFormSpeed, ...]:
        """
        closed forms, limits on P2 only
        """
    @property
    def first_broken(self) -> float | None:
        """
        m/s, lowest scanned speed that breaks it
        """
    @property
    def first_broken_not_computed(self) -> bool:
        """
        the passage at that speed failed
        """
    @property
    def kept_again(self) -> tuple[SpeedInterval, ...]:
        """
        above the first break: the limit is not monotone in speed
        """
    @property
    def outcome(self) -> LimitOutcome:
        """
        found, not_reached or broken_at_lowest
        """
    @property
    def speed(self) -> float | None:
        """
        m/s, highest speed that keeps it, when found
        """
class SpeedFailure:
    """
    A scanned speed without a passage.
    
    Attributes
    ----------
    speed : float
        m/s
    reason : str
        why
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def reason(self) -> str:
        """
        why
        """
    @property
    def speed(self) -> float:
        """
        m/s
        """
class Verdict:
    """
    All limits together.
    
    Attributes
    ----------
    outcome : value
        found, not_reached or broken_at_lowest
    speed : value
        m/s, lowest over the limits, when found
    governs : value
        index of the limit that gives it
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def governs(self) -> int | None:
        """
        index of the limit that gives it
        """
    @property
    def outcome(self) -> LimitOutcome:
        """
        found, not_reached or broken_at_lowest
        """
    @property
    def speed(self) -> float | None:
        """
        m/s, lowest over the limits, when found
        """
class SpeedStudy:
    """
    One case over a range of speeds.
    """
    def __repr__(self) -> str:
        ...
    @property
    def answers(self) -> list[LimitAnswer]:
        """
        one per limit
        """
    @property
    def failures(self) -> list[SpeedFailure]:
        """
        speeds without a passage; no limit counts as kept there
        """
    @property
    def friction(self) -> float:
        """
        -, likewise
        """
    @property
    def geometry(self) -> Geometry:
        """
        wheel path, the same at all speeds
        """
    @property
    def limits(self) -> list[Limit]:
        """
        as asked for
        """
    @property
    def notes(self) -> list[str]:
        """
        what a reader must know beside the numbers
        """
    @property
    def permissible(self) -> Verdict:
        """
        all limits together
        """
    @property
    def points(self) -> list[SpeedPoint]:
        """
        by rising speed
        """
    @property
    def proposed(self) -> int | None:
        """
        index of the proposed speed in `points`
        """
    @property
    def range(self) -> tuple[float, float, float]:
        """
        m/s: from, to, step
        """
    @property
    def steel(self) -> bool:
        """
        whether the points tell of the steel
        """
    @property
    def steel_assumptions(self) -> list[str]:
        """
        what the numbers of the steel rest on
        """
    @property
    def steel_name(self) -> str:
        """
        of wing and nose; empty where it was not asked for
        """
    @property
    def today(self) -> int | None:
        """
        index of today's speed in `points`
        """
    @property
    def warnings(self) -> list[str]:
        """
        what must not be overlooked
        """
def answer_cases(sweep: wingnose._core.io.Sweep, begin: int, end: int, *, threads: int = ..., progress: collections.abc.Callable[[int, int], None] | None = None, parts: SharedParts | None = None) -> wingnose._core.io.SweepRows:
    """
    Answer cases [begin, end) of a sweep.
    
    Parameters
    ----------
    sweep : Sweep
        What varies.
    begin, end : int
        First case, and one behind the last.
    threads : int
        0: one per core.
    progress : callable, optional
        Called with the number of cases done and their total.
    parts : SharedParts, optional
        Tracks and wheel paths kept from call to call.
    
    Returns
    -------
    SweepRows
        Numbers, status and failures. They do not depend on `threads` or on how a sweep is cut.
    """
def compare(crossings: collections.abc.Sequence[ComparedCrossing], population: Population, *, options: CompareOptions = ..., progress: collections.abc.Callable[[int, int], None] | None = None) -> Comparison:
    """
    Several crossings under one population of wheels; the first is the reference. Ctrl-C ends it in order. Raises InputError for impossible comparisons, ComputeError when no wheel could be computed on all crossings.
    """
def contact_at_instant(case: Case, result: Result, at: str, *, law: str = ..., cells: int = ..., roll: float | None = None, yaw: float | None = None) -> wingnose._core.contact.StationContact:
    """
    Patches and pressure fields of the wheel at an instant of its passage, every body under its own force.
    
    Parameters
    ----------
    case : Case
        What was run.
    result : Result
        What came of it.
    at : str
        "transfer", "landing" or "peak", as in `instant`.
    law : str
        "ellipse", "strips" or "half-space", of the patches.
    cells : int
        Cells of the half-space pressure fields on either side, 16 to 512; 0 for none beside a fast law.
    roll, yaw : float, optional
        rad, of the wheel, -0.1 to 0.1; those of the case when not given.
    
    Returns
    -------
    StationContact
        Patches, bodies and pressure fields.
    """
def contact_standing(case: Case, geometry: Geometry, station: float | None = None, load: float | None = None, *, law: str = ..., cells: int = ..., roll: float | None = None, yaw: float | None = None) -> wingnose._core.contact.StationContact:
    """
    Patches and pressure fields of the wheel of a case standing at one station, the bodies sharing its load.
    
    Parameters
    ----------
    case : Case
        Wheel, material, lateral place.
    geometry : Geometry
        Of the case.
    station : float, optional
        m, of the axle; where the wheel goes from one body to the other when left out.
    load : float, optional
        N, vertical; the static load of the reported wheel when left out.
    law, cells, roll, yaw
        As in `contact_at_instant`.
    
    Returns
    -------
    StationContact
        Patches, bodies and pressure fields.
    """
def contact_trail(case: Case, result: Result) -> wingnose._core.assess.ContactTrail:
    """
    Rolling contacts of a case around its landing, with its friction and law of creep.
    """
def damage(case: Case, result: Result) -> wingnose._core.assess.Damage:
    """
    What the passage of a case does to its new steel; raises ComputeError where there is no landing.
    """
def draw(recipe: PopulationRecipe) -> Population:
    """
    The wheels of a recipe. Raises InputError for impossible ones.
    """
def estimate(case: Case, geometry: Geometry) -> list[Estimate]:
    """
    Closed forms of a case, one per lumped track.
    """
def geometry(case: Case) -> Geometry:
    """
    Roll the wheel of a case over its crossing.
    """
def instant(case: Case, result: Result, at: str) -> Instant:
    """
    An instant of a passage: station of the axle and the force of every body.
    
    Parameters
    ----------
    case : Case
        What was run.
    result : Result
        What came of it.
    at : str
        "transfer" (both bodies carry the same), "landing" (first peak of the force) or "peak" (largest force on the body
        landed on).
    
    Returns
    -------
    Instant
        Time, station, forces. Raises ComputeError where the passage has no such instant.
    
    Examples
    --------
    >>> import wingnose
    >>> from wingnose import study
    >>> case = wingnose.read_case("profiles/demo.toml")
    >>> now = study.instant(case, wingnose.run(case), "transfer")
    >>> round(now.loads["wing"] / now.loads["nose"], 1)
    1.0
    """
def landing_station(geometry: Geometry) -> float:
    """
    Where the wheel is expected to land (m); raises ComputeError where nothing says so.
    """
def run(case: Case, track: wingnose._core.track.ModalTrack | None = None) -> Result:
    """
    Run one case through all steps.
    
    Parameters
    ----------
    case : Case
        From `read_case` or made in Python.
    track : ModalTrack, optional
        Modes of `track_for(case)` built before, to share them between cases.
    
    Returns
    -------
    Result
        Geometry, history, measures and closed forms.
    """
def run_many(cases: collections.abc.Sequence[Case], *, threads: int = ..., probes: bool = ..., keep_history: bool = ..., progress: collections.abc.Callable[[int, int], None] | None = None, parts: SharedParts | None = None) -> list[Outcome]:
    """
    Run many cases, tracks and wheel paths shared among them.
    
    Parameters
    ----------
    cases : sequence of Case
        What to run. A case that fails does not stop the others.
    threads : int
        0: one per core.
    probes : bool
        Record rail and bearer motion; cases then cannot advance eight at a time.
    keep_history : bool
        Keep histories, wheel paths and crossings; about 1 MB per case.
    progress : callable, optional
        Called with the number of cases done and their total.
    parts : SharedParts, optional
        Tracks and wheel paths kept from call to call.
    
    Returns
    -------
    list of Outcome
        One per case, in order; the same bits whatever the number of threads.
    """
def scene(case: Case, geometry: Geometry, track: wingnose._core.track.ModalTrack) -> wingnose._core.passage.Scene:
    """
    Couple path, track and vehicle of a case for `simulate`.
    """
def study_speeds(case: Case, from_: float, to: float, step: float, limits: collections.abc.Sequence[Limit] = [], *, today: float | None = None, proposed: float | None = None, threads: int = ..., steel: bool = ...) -> SpeedStudy:
    """
    Scan a range of speeds and solve for the highest that keeps the limits.
    
    Parameters
    ----------
    case : Case
        Its own speed is not used.
    from_, to, step : float
        m/s; `to` is always scanned.
    limits : sequence of Limit
        What must be kept.
    today, proposed : float, optional
        m/s, scanned besides and compared.
    threads : int
        0: one per core.
    steel : bool
        What the landings do to the steel, too; a limit on it asks for that.
    
    Returns
    -------
    SpeedStudy
        Points by rising speed, and what they say of each limit.
    """
def track_for(case: Case) -> wingnose._core.track.Track:
    """
    The track of a case, long enough for all its wheels.
    """
def traffic(document: wingnose._core.io.CaseDocument, population: Population, *, tonnage: float, stages: int = ..., steel: wingnose._core.assess.Steel | None = None, damage: wingnose._core.assess.DamageOptions | None = None, threads: int = ..., progress: collections.abc.Callable[[int, int], None] | None = None) -> Traffic:
    """
    Let a mixed traffic roll over the crossing of a case and add up what it does to the steel.
    
    Parameters
    ----------
    document : CaseDocument
        A case that runs over a crossing.
    population : Population
        Wheels with their weights.
    tonnage : float
        kg, of all axles; 1 MGT is 1e9 kg.
    stages : int
        1 to 1000, between which the steel hardens.
    steel : Steel, optional
        Otherwise that of the case.
    damage : DamageOptions, optional
        Otherwise those of the case.
    threads : int
        0: one per core.
    progress : callable, optional
        Called with what is done of a total.
    
    Returns
    -------
    Traffic
        Wheels that could not be computed are counted in `failed` and named in the notes.
    """
def wheels_of(wheels: PopulationRecipe | Population) -> Population:
    """
    Wheels of a file: listed ones as they are, a recipe drawn.
    """
