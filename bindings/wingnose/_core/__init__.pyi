"""
Wheel-rail contact and impact loads at railway crossings: the compiled rooms. SI units everywhere.
"""
from __future__ import annotations
import enum
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
from . import io
__all__: list[str] = ['ComputeError', 'Direction', 'InputError', 'assess', 'closedform', 'contact', 'io', 'layout', 'passage', 'profile', 'study', 'track', 'vehicle']
class InputError(ValueError):
    pass
class ComputeError(RuntimeError):
    pass
class Direction(enum.Enum):
    """
    Sense of a move over the crossing.
    """
    facing = ...
    trailing = ...
__commit__: str
__version__: str
