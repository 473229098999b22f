"""
Normal contact after Hertz (1881).
"""
from __future__ import annotations
import typing
__all__: list[str] = ['Elastic', 'HertzPatch', 'HertzShape', 'hertz_patch', 'hertz_shape', 'hertz_stiffness']
class Elastic:
    """
    Elastic constants of wheel and rail (both of this material).
    
    Parameters
    ----------
    young : float
        Pa, Young's modulus
    poisson : float
        -, Poisson's ratio
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
        -, Poisson's ratio
        """
    @property
    def young(self) -> float:
        """
        Pa, Young's modulus
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
def hertz_patch(force: float, curvature_x: float, curvature_y: float, material: Elastic = ...) -> HertzPatch:
    """
    Contact patch of two smooth bodies after Hertz (1881).
    
    Parameters
    ----------
    force : float
        N, >= 0.
    curvature_x, curvature_y : float
        1/m, sum of both bodies' curvatures along and across, > 0.
    material : Elastic
        Steel by default.
    """
def hertz_shape(A: float, B: float) -> HertzShape:
    """
    Shape for half the relative curvatures `A`, `B` (1/m, > 0) in the two principal directions.
    """
def hertz_stiffness(curvature_x: float, curvature_y: float, material: Elastic = ...) -> float:
    """
    C_H (N/m^1.5) in F = C_H approach^1.5.
    """
