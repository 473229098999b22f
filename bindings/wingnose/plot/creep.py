"""Sheets of the creep laws: force over creepage by every tangential law, beside exact rolling.

Creepages are drawn in permil, spin in 1/m; the values passed in are SI, as everywhere.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import matplotlib.pyplot as plt
import numpy as np
from matplotlib.axes import Axes
from numpy.typing import ArrayLike, NDArray

from .._core import contact as laws
from .._house import INK, PAPER, colour, legend, sheet

# One colour and dash per law.
_LINES = {
    "linear": (colour("wheel"), (0, (1, 1.4))),
    "cubic": (colour("closed form"), (0, (6, 2))),
    "Polach": (colour("wing"), (0, (6, 2, 1, 2))),
    "simplified": (colour("nose"), "-"),
}
_CREEPAGES = {
    "longitudinal": ("longitudinal creepage [permil]", 1e3, "longitudinal"),
    "lateral": ("lateral creepage [permil]", 1e3, "lateral"),
    "spin": ("spin [1/m]", 1.0, "lateral"),
}


class CreepCurves(NamedTuple):
    """Creep force over one creepage by every law, over the friction limit; opposed to the creepage positive."""

    creepage: NDArray[np.float64]  # -, or 1/m for spin
    forces: dict[str, NDArray[np.float64]]  # -, by law; "exact" too


def creep_law_differences(
    contact: laws.RollingContact,
    over: str,
    creepage: ArrayLike,
    *,
    friction: float = 0.3,
    poisson: float = 0.3,
    cells: int = 16,
) -> CreepCurves:
    """Creep force by every law and by exact rolling on the half-space, at the same creepages.

    `contact`: the ellipse, its force and material; `over`: "longitudinal", "lateral" or "spin": the creepage that is
    not zero; `creepage`: - (1/m for spin); `friction`: constant coefficient of friction; `poisson`: Poisson's ratio of
    `contact`'s material; `cells`: cells of the exact solver along and across, 16 unless more digits are wanted. Returns
    the component of the force against the creepage (spin: the lateral force it raises), over friction times load.

    Examples
    --------
    >>> from wingnose import contact, plot
    >>> ellipse = contact.rolling_contact(6e-3, 6e-3, 80e3)
    >>> curves = plot.creep_law_differences(ellipse, "longitudinal", [0.5e-3, 2e-3, 8e-3])
    >>> bool(abs(curves.forces["cubic"] - curves.forces["exact"]).max() < 0.05)
    True
    """
    values = np.asarray(creepage, dtype=np.float64)
    limit = friction * contact.normal_force
    forces = {name: values_of / limit for name, values_of in _laws_over(contact, over, values, friction).items()}
    young = 2.0 * contact.shear_modulus * (1.0 + poisson)
    mesh = laws.elliptic_mesh(contact.a, contact.b, contact.normal_force, cells, cells)
    matrix = laws.rolling_matrix(mesh, laws.Elastic(young=young, poisson=poisson))
    component = _CREEPAGES[over][2]
    exact = (laws.rolling_contact_field(matrix, friction, laws.Creepage(**{over: one})).force for one in values)
    forces["exact"] = np.array([-getattr(force, component) for force in exact]) / limit
    return CreepCurves(values, forces)


def creep_laws(
    axes: NDArray[np.object_] | None = None,
    *,
    semi_axes: Sequence[tuple[float, float]] = ((6e-3, 6e-3), (9e-3, 4e-3)),
    force: float = 80e3,
    friction: float = 0.3,
    points: int = 9,
    cells: int = 16,
    material: laws.Elastic | None = None,
) -> NDArray[np.object_]:
    """All creep laws over each creepage alone, with points of exact rolling and how far each law is from them.

    `axes`: where to draw, one row per ellipse and three columns, a new figure when left out; `semi_axes`: m, semi-axes
    along and across the track, one ellipse per row; `force`: N, normal; `friction`: constant coefficient of friction;
    `points`: points of exact rolling per panel; `cells`: cells of the exact solver along and across; `material`: steel
    when left out. Drawn: creepage against the force over friction times load. The legend tells the largest difference
    from the points, in friction times load.
    """
    steel = material if material is not None else laws.Elastic()
    if axes is None:
        _, axes = plt.subplots(len(semi_axes), 3, figsize=(12.6, 4.1 * len(semi_axes)), layout="constrained",
                               facecolor=PAPER, squeeze=False)  # fmt: skip
    for row, (a, b) in zip(axes, semi_axes, strict=True):
        contact = laws.rolling_contact(a, b, force, steel)
        for ax, over in zip(row, _CREEPAGES, strict=True):
            _creep_panel(ax, contact, over, friction, points, cells, steel)
    return axes


def _creep_panel(
    ax: Axes, contact: laws.RollingContact, over: str, friction: float, points: int, cells: int, steel: laws.Elastic
) -> None:
    label, scale, component = _CREEPAGES[over]
    saturated = _saturating(contact, over, friction)
    fine = np.linspace(0.0, saturated, 121)
    limit = friction * contact.normal_force
    drawn = {name: values / limit for name, values in _laws_over(contact, over, fine, friction).items()}
    places = np.linspace(0.0, saturated, points + 1)[1:]
    curves = creep_law_differences(contact, over, places, friction=friction, poisson=steel.poisson, cells=cells)
    kind = over.capitalize() + ("" if over == "spin" else " creepage")
    sheet(ax, label, f"{component} force over friction × load [-]",
          f"{kind}, semi-axes {contact.a * 1e3:g} × {contact.b * 1e3:g} mm")  # fmt: skip
    for name, values in drawn.items():
        shade, dashes = _LINES[name]
        words = name
        if name != "linear":
            words += f", at most {np.max(np.abs(curves.forces[name] - curves.forces['exact'])):.2f} off"
        ax.plot(fine * scale, values, color=shade, linestyle=dashes, linewidth=1.5, label=words)
    ax.plot(places * scale, curves.forces["exact"], linestyle="none", marker="o", markersize=4.5, color=INK,
            markerfacecolor=PAPER, label="exact rolling")  # fmt: skip
    top = max(float(np.max(curves.forces["exact"])), *(float(np.max(drawn[n])) for n in drawn if n != "linear"))
    ax.set_ylim(0.0, 1.62 * top)  # room for the legend over the lines
    ax.set_xlim(0.0, float(fine[-1]) * scale * 1.02)
    legend(ax, fontsize=8.5, loc="upper right")


def _laws_over(
    contact: laws.RollingContact, over: str, values: NDArray[np.float64], friction: float
) -> dict[str, NDArray[np.float64]]:
    none = np.zeros_like(values)
    columns = {name: values if name == over else none for name in _CREEPAGES}
    component = _CREEPAGES[over][2]
    linear = (laws.linear_creep_force(contact, laws.Creepage(**{over: one})) for one in values)
    found = {"linear": -np.array([getattr(force, component) for force in linear])}
    for name, law in (("cubic", laws.Cubic), ("Polach", laws.Polach), ("simplified", laws.Simplified)):
        of = law(friction=laws.Friction(mu0=friction))
        along, across, _ = laws.creep_forces(
            of, contact, columns["longitudinal"], columns["lateral"], columns["spin"], 20.0)  # fmt: skip
        found[name] = -(along if component == "longitudinal" else across)
    return found


def _saturating(contact: laws.RollingContact, over: str, friction: float) -> float:
    """A creepage well past the knee of the force."""
    linear, stiffness = contact.linear, contact.shear_modulus * contact.a * contact.b
    arm = float(np.sqrt(contact.a * contact.b)) if over == "spin" else 1.0
    coefficient = {"longitudinal": linear.C11, "lateral": linear.C22, "spin": linear.C23}[over]
    return 4.5 * (friction * contact.normal_force) / (stiffness * arm * coefficient)
