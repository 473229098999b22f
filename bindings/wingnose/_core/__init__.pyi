"""
Wheel-rail contact and impact loads at railway crossings: the compiled rooms. SI units everywhere.
"""
from __future__ import annotations
import enum
import os
import pathlib
import typing
from . import profile
from . import layout
from . import contact
from . import track
from . import vehicle
from . import closedform
from . import passage
from . import assess
from . import study
from . import answers
__all__: list[str] = ['Case', 'ComputeError', 'Direction', 'Finding', 'InputError', 'InputFile', 'KeyInfo', 'KeyKind', 'Quantity', 'Tree', 'answers', 'assess', 'caution', 'check_target', 'closedform', 'contact', 'json', 'layout', 'parse_case', 'passage', 'profile', 'quantities', 'read_case', 'read_tree', 'reference', 'study', 'track', 'vehicle', 'write_tree']
class InputError(ValueError):
    """
    A file, key or argument that cannot be: says where, the value, what is allowed and what to do.
    """
class ComputeError(RuntimeError):
    """
    A sound question that has no answer: says why.
    """
class Direction(enum.Enum):
    """
    Sense of a move over the crossing.
    """
    facing = ...
    trailing = ...
class Finding:
    """
    What a reader must know beside the numbers.
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __init__(self, kind: str, what: str, where: str = ...) -> None:
        ...
    def __reduce__(self) -> tuple[type, tuple[str, str, str]]:
        ...
    def __repr__(self) -> str:
        ...
    def __str__(self) -> str:
        ...
    @property
    def advice(self) -> str:
        """
        what to do
        """
    @property
    def gravity(self) -> str:
        """
        note, warning or grave
        """
    @property
    def kind(self) -> str:
        """
        such as "rim_contact"
        """
    @property
    def what(self) -> str:
        """
        what was found
        """
    @property
    def where(self) -> str:
        """
        where it holds; empty: everywhere
        """
class Quantity:
    """
    A number a passage is told by.
    """
    def __repr__(self) -> str:
        ...
    @property
    def beyond(self) -> str:
        """
        what happens beyond it
        """
    @property
    def compared(self) -> bool:
        """
        `compare` tells it
        """
    @property
    def decimals(self) -> int:
        """
        sensible in print
        """
    @property
    def key(self) -> str:
        """
        name, with its unit as the last part
        """
    @property
    def label(self) -> str:
        """
        name in print
        """
    @property
    def limited(self) -> bool:
        """
        may be a limit
        """
    @property
    def mark(self) -> float | None:
        """
        value beyond which something else happens, or None
        """
    @property
    def meaning(self) -> str:
        """
        meaning
        """
    @property
    def of_steel(self) -> bool:
        """
        what the landing does to the steel
        """
    @property
    def per_si(self) -> float:
        """
        units in one SI unit
        """
    @property
    def section(self) -> str:
        """
        part of an answer
        """
    @property
    def swept(self) -> bool:
        """
        a column of sweeps
        """
    @property
    def unit(self) -> str:
        """
        unit
        """
class Tree:
    """
    An answer as named arrays with unit and meaning, in groups.
    """
    @property
    def attributes(self) -> dict[str, str]:
        """
        name of the case, version, ...
        """
    @property
    def groups(self) -> list[typing.Any]:
        """
        path, title, layout and arrays of each group; an array is name, dims, values (None: not read) and attributes
        """
    @property
    def kind(self) -> str:
        """
        run, speeds, comparison, ...
        """
class KeyKind(enum.Enum):
    """
    What a key of a case file holds.
    """
    choice = ...
    flag = ...
    number = ...
    whole_number = ...
class KeyInfo:
    """
    A key of a case file that can vary.
    
    Attributes
    ----------
    key : str
        name with section and unit: "passage.speed_km_h"
    unit : str
        unit of its values
    meaning : str
        meaning
    kind : value
        number, whole_number, choice or flag
    choices : tuple[typing.Any, ...]
        of a choice
    least : float
        of a number, in `unit`
    most : float
        of a number, in `unit`
    cost : int
        what is computed anew: 0 reading, 1 passage, 2 wheel path, 3 track
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def choices(self) -> tuple[str, ...]:
        """
        of a choice
        """
    @property
    def cost(self) -> int:
        """
        what is computed anew: 0 reading, 1 passage, 2 wheel path, 3 track
        """
    @property
    def key(self) -> str:
        """
        name with section and unit: "passage.speed_km_h"
        """
    @property
    def kind(self) -> KeyKind:
        """
        number, whole_number, choice or flag
        """
    @property
    def least(self) -> float:
        """
        of a number, in `unit`
        """
    @property
    def meaning(self) -> str:
        """
        meaning
        """
    @property
    def most(self) -> float:
        """
        of a number, in `unit`
        """
    @property
    def unit(self) -> str:
        """
        unit of its values
        """
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
    All a user asked for, validated.
    
    ``case["passage.speed_km_h"]`` is a value in the unit of its key, ``case.vary({"passage.speed_km_h": 120})`` a changed
    copy. What the choices amount to is told in SI by the properties. ``Case()`` has the default of every key.
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getitem__(self, key: str) -> typing.Any:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __init__(self) -> None:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def all_keys(self) -> dict[str, tuple[str, str]]:
        """
        Every key the case rests on, given or default: its value as a case file says it, and its unit.
        """
    def key(self, name: str) -> KeyInfo:
        """
        One key that can vary; raises InputError for others.
        """
    def keys(self) -> list[KeyInfo]:
        """
        Every key that can vary.
        """
    def replace(self, **kwargs: typing.Any) -> Case:
        """
        The case with parts a program made: name, excitation (of the room layout), profile (WheelProfile), vehicle, track, steel.
        """
    def vary(self, values: dict[str, bool | float | str]) -> Case:
        """
        The case with other values of some keys, in the units of the keys. Raises InputError for unknown keys, with the likely one, and for values out of range.
        """
    @property
    def damage(self) -> assess.DamageOptions:
        """
        how damage is computed
        """
    @property
    def excitation(self) -> layout.CrossingShape | layout.SectionedShape | layout.DippedJoint | layout.GivenPath:
        """
        CrossingShape, SectionedShape, DippedJoint or GivenPath
        """
    @property
    def folder(self) -> pathlib.Path:
        """
        relative names of files start here
        """
    @property
    def inputs(self) -> list[InputFile]:
        """
        files the case came from
        """
    @property
    def kinematics(self) -> contact.KinematicsOptions:
        """
        how slopes are read
        """
    @property
    def material(self) -> contact.Elastic:
        """
        elastic constants of wheel and rail
        """
    @property
    def measures(self) -> assess.MeasureOptions:
        """
        definitions of the measures
        """
    @property
    def name(self) -> str:
        """
        name
        """
    @property
    def normal_law(self) -> contact.Ellipse | contact.Strips:
        """
        law of contact of the passage
        """
    @property
    def profile(self) -> profile.WheelProfile:
        """
        WheelProfile, as rolled
        """
    @property
    def steel(self) -> assess.Steel:
        """
        Steel of wing and nose
        """
    @property
    def text(self) -> str:
        """
        the case file as read, before anything was varied
        """
    @property
    def track(self) -> track.Track:
        """
        Track, with its rail
        """
    @property
    def vehicle(self) -> vehicle.Vehicle:
        """
        Vehicle, with its wheels
        """
def check_target(file: os.PathLike[str] | str | bytes) -> None:
    """
    Raise InputError where an answer cannot be stored.
    """
def json(tree: Tree) -> str:
    """
    The JSON object the command line prints.
    """
def parse_case(toml_text: str, name: str = ..., folder: os.PathLike[str] | str | bytes = '.') -> Case:
    """
    Case of TOML text; `folder` anchors relative paths.
    """
def quantities() -> dict[str, Quantity]:
    """
    Every number a passage is told by, by key, in the order of print.
    """
def read_case(file: os.PathLike[str] | str | bytes) -> Case:
    """
    Case of a TOML case file; raises InputError with place and advice.
    """
def read_tree(file: os.PathLike[str] | str | bytes, all: bool = ...) -> Tree:
    """
    An answer of a file of any kind; `all` False: without the long arrays. Raises InputError for other files.
    """
def reference(json: bool = ...) -> str:
    """
    Reference page: keys, numbers told, findings, what files hold.
    """
def write_tree(file: os.PathLike[str] | str | bytes, tree: Tree) -> None:
    """
    Store an answer in HDF5, all or nothing.
    """
__commit__: str
__version__: str
caution: str = 'An engineering estimate for comparison; local standards and licensed engineers decide.'
