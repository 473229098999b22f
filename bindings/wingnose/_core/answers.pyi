"""
Answers of the studies as trees.
"""
from __future__ import annotations
import collections.abc
import os
import typing
import wingnose._core
__all__: list[str] = ['Wheels', 'compare', 'compare_file', 'contact', 'damage', 'estimate', 'geometry', 'read_wheels', 'run', 'speeds', 'track_response']
class Wheels:
    """
    Wheels that roll, each with the weight it has in traffic.
    """
    def __init__(self, table: dict[str, collections.abc.Sequence[bool | float | str]], classes: collections.abc.Mapping[str, wingnose._core.Case] = {}) -> None:
        ...
    def __len__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    @property
    def table(self) -> list[dict[str, float | str]]:
        """
        one row per wheel: name, class, weight and the keys it sets
        """
def compare(crossings: collections.abc.Sequence[tuple[str, wingnose._core.Case]], wheels: Wheels, options: collections.abc.Mapping[str, bool | float | str], threads: int, progress: collections.abc.Callable[[int, int], typing.Any] | None) -> wingnose._core.Tree:
    ...
def compare_file(file: os.PathLike[str] | str | bytes, threads: int, progress: collections.abc.Callable[[int, int], typing.Any] | None) -> wingnose._core.Tree:
    ...
def contact(case: wingnose._core.Case, at: str | None, station: float | None, load: float | None, law: str, cells: int, roll: float | None, yaw: float | None) -> wingnose._core.Tree:
    ...
def damage(case: wingnose._core.Case, tonnage: float | None, stages: int, threads: int, progress: collections.abc.Callable[[int, int], typing.Any] | None, wheels: Wheels | None = None) -> wingnose._core.Tree:
    ...
def estimate(case: wingnose._core.Case) -> wingnose._core.Tree:
    ...
def geometry(case: wingnose._core.Case) -> wingnose._core.Tree:
    ...
def read_wheels(file: os.PathLike[str] | str | bytes) -> Wheels:
    """
    Wheels of a TOML file with [population], [[class]] or [[wheel]], listed or drawn.
    """
def run(case: wingnose._core.Case) -> wingnose._core.Tree:
    ...
def speeds(case: wingnose._core.Case, from_: float, to: float, step: float, limits: collections.abc.Sequence[tuple[str, str]], today: float | None, proposed: float | None, steel: bool, threads: int, progress: collections.abc.Callable[[int, int], typing.Any] | None = None) -> wingnose._core.Tree:
    ...
def track_response(case: wingnose._core.Case) -> wingnose._core.Tree:
    ...
