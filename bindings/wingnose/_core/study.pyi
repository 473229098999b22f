"""
One case, all its steps.
"""
from __future__ import annotations
import collections.abc
import typing
import wingnose._core.assess
import wingnose._core.closedform
import wingnose._core.contact
import wingnose._core.crossing
import wingnose._core.passage
import wingnose._core.profile
import wingnose._core.track
import wingnose._core.vehicle
__all__: list[str] = ['Case', 'Estimate', 'Geometry', 'InputFile', 'Result', 'estimate', 'geometry', 'landing_station', 'run', 'scene', 'track_for']
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
    passage : value
        speed, stretch, step
    kinematics : value
        how slopes are read
    measures : value
        definitions of the measures
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
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, name: str = ..., excitation: wingnose._core.crossing.CrossingShape | wingnose._core.crossing.SectionedShape | wingnose._core.crossing.DippedJoint | wingnose._core.crossing.GivenPath = ..., wheel: wingnose._core.profile.WheelProfile = ..., lateral_offset: float = ..., rail_head: str = ..., rail_inclination: float = ..., vehicle: wingnose._core.vehicle.Vehicle, track: wingnose._core.track.Track = ..., steel: wingnose._core.contact.Elastic = ..., passage: wingnose._core.passage.Settings = ..., kinematics: wingnose._core.crossing.KinematicsOptions = ..., measures: wingnose._core.assess.MeasureOptions = ..., lumped: collections.abc.Sequence[wingnose._core.closedform.ConstantSet] = ..., inputs: collections.abc.Sequence[InputFile] = ..., source_text: str = ...) -> None:
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
    def excitation(self) -> wingnose._core.crossing.CrossingShape | wingnose._core.crossing.SectionedShape | wingnose._core.crossing.DippedJoint | wingnose._core.crossing.GivenPath:
        """
        CrossingShape, SectionedShape, DippedJoint or GivenPath
        """
    @property
    def inputs(self) -> tuple[InputFile, ...]:
        """
        files the case came from
        """
    @property
    def kinematics(self) -> wingnose._core.crossing.KinematicsOptions:
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
class Geometry:
    """
    The wheel path of a case and what it means.
    
    Attributes
    ----------
    path : value
        wheel path
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
    def crossing(self) -> wingnose._core.crossing.Crossing | None:
        """
        crossing, None for prescribed paths
        """
    @property
    def kinematics(self) -> wingnose._core.crossing.Kinematics:
        """
        transfer, dip, slopes
        """
    @property
    def path(self) -> wingnose._core.crossing.WheelPath:
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
def estimate(case: Case, geometry: Geometry) -> list[Estimate]:
    """
    Closed forms of a case, one per lumped track.
    """
def geometry(case: Case) -> Geometry:
    """
    Roll the wheel of a case over its crossing.
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
def scene(case: Case, geometry: Geometry, track: wingnose._core.track.ModalTrack) -> wingnose._core.passage.Scene:
    """
    Couple path, track and vehicle of a case for `simulate`.
    """
def track_for(case: Case) -> wingnose._core.track.Track:
    """
    The track of a case, long enough for all its wheels.
    """
