"""
What a history means.
"""
from __future__ import annotations
import numpy
import numpy.typing
import typing
import wingnose._core.passage
__all__: list[str] = ['MeasureOptions', 'Measures', 'low_pass_zero_phase', 'measure']
class MeasureOptions:
    """
    Definitions behind the measures.
    
    Parameters
    ----------
    p2_cut_off : float
        Hz
    p2_order : int
        order per pass, applied forward and back
    first_peak_window : float
        s after landing
    first_peak_prominence : float
        -, of its rise over the force before the landing
    window : float
        s after landing in which peaks are sought
    acceleration_cut_off : float
        Hz
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, typing.Any, typing.Any, typing.Any, typing.Any, typing.Any]:
        ...
    def __init__(self, *, p2_cut_off: float = ..., p2_order: int = ..., first_peak_window: float = ..., first_peak_prominence: float = ..., window: float = ..., acceleration_cut_off: float = ...) -> None:
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
        Hz
        """
    @property
    def first_peak_prominence(self) -> float:
        """
        -, of its rise over the force before the landing
        """
    @property
    def first_peak_window(self) -> float:
        """
        s after landing
        """
    @property
    def p2_cut_off(self) -> float:
        """
        Hz
        """
    @property
    def p2_order(self) -> int:
        """
        order per pass, applied forward and back
        """
    @property
    def window(self) -> float:
        """
        s after landing in which peaks are sought
        """
class Measures:
    """
    What a history means.
    
    Attributes
    ----------
    landing_body : str
        "nose" facing, "wing" trailing, "path" for prescribed paths
    landing_time : float
        s
    landing_station : float
        m
    first_peak : value
        N, or None where no peak stands out
    first_peak_delay : value
        s after landing, or None
    p2 : float
        N
    p2_delay : float
        s after landing
    p2_cut_off : float
        Hz
    peak_total : float
        N
    peak_total_station : float
        m
    peak_nose : value
        N, or None
    peak_wing : value
        N, or None
    dynamic_transfer_station : value
        m, where the body landed on first carries more, or None
    overlap_length : float
        m, both bodies loaded at once
    lost_contact : float
        s, without any contact
    minimum_force : float
        N
    impulse : float
        N s, above the static load after landing
    force_before_landing : float
        N
    static_load : float
        N
    dynamic_factor : float
        -, peak_total / static_load
    p2_dynamic_factor : float
        -, p2 / static_load
    rail_acceleration : value
        m/s2, or None
    bearer_acceleration : value
        m/s2, or None
    notes : tuple
        what to know about these numbers
    """
    __hash__: typing.ClassVar[None] = None  # type: ignore[assignment]
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def bearer_acceleration(self) -> float | None:
        """
        m/s2, or None
        """
    @property
    def dynamic_factor(self) -> float:
        """
        -, peak_total / static_load
        """
    @property
    def dynamic_transfer_station(self) -> float | None:
        """
        m, where the body landed on first carries more, or None
        """
    @property
    def first_peak(self) -> float | None:
        """
        N, or None where no peak stands out
        """
    @property
    def first_peak_delay(self) -> float | None:
        """
        s after landing, or None
        """
    @property
    def force_before_landing(self) -> float:
        """
        N
        """
    @property
    def impulse(self) -> float:
        """
        N s, above the static load after landing
        """
    @property
    def landing_body(self) -> str:
        """
        "nose" facing, "wing" trailing, "path" for prescribed paths
        """
    @property
    def landing_station(self) -> float:
        """
        m
        """
    @property
    def landing_time(self) -> float:
        """
        s
        """
    @property
    def lost_contact(self) -> float:
        """
        s, without any contact
        """
    @property
    def minimum_force(self) -> float:
        """
        N
        """
    @property
    def notes(self) -> tuple[str, ...]:
        """
        what to know about these numbers
        """
    @property
    def overlap_length(self) -> float:
        """
        m, both bodies loaded at once
        """
    @property
    def p2(self) -> float:
        """
        N
        """
    @property
    def p2_cut_off(self) -> float:
        """
        Hz
        """
    @property
    def p2_delay(self) -> float:
        """
        s after landing
        """
    @property
    def p2_dynamic_factor(self) -> float:
        """
        -, p2 / static_load
        """
    @property
    def peak_nose(self) -> float | None:
        """
        N, or None
        """
    @property
    def peak_total(self) -> float:
        """
        N
        """
    @property
    def peak_total_station(self) -> float:
        """
        m
        """
    @property
    def peak_wing(self) -> float | None:
        """
        N, or None
        """
    @property
    def rail_acceleration(self) -> float | None:
        """
        m/s2, or None
        """
    @property
    def static_load(self) -> float:
        """
        N
        """
def low_pass_zero_phase(signal: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], step: float, cut_off: float, order: int = ...) -> numpy.typing.NDArray[numpy.float64]:
    """
    Butterworth low pass, forward and back (no phase shift).
    
    Parameters
    ----------
    signal : array_like
        Uniform samples.
    step : float
        s between samples.
    cut_off : float
        Hz, per pass.
    order : int
        Order per pass.
    """
def measure(history: wingnose._core.passage.History, landing_station: float, options: MeasureOptions = ...) -> Measures:
    """
    Measures of a history whose wheel lands near `landing_station` (m).
    """
