"""The look of every sheet: quiet paper, few colours, one per body, units on the axes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import matplotlib.pyplot as plt

from . import CAUTION

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

PAPER: Final = "#fbfaf7"
INK: Final = "#27313a"
RULE: Final = "#d9d5cc"
# One colour per thing drawn, the same on every sheet; apart in lightness, so that they stay apart in grey.
COLOURS: Final = {
    "total": INK,
    "wing": "#b9772e",
    "nose": "#1f7a78",
    "path": "#1f7a78",
    "wheel": "#5b6570",
    "low-passed": "#a23b56",
    "closed form": "#4a6fa5",
    "limit": "#b3261e",
}
# What the landing does to the steel changes its kind at these values.
STEEL_MARKS: Final = {
    "shakedown_exceedance": (1.0, "plastic with every wheel"),
    "surface_fatigue_index": (0.0, "surface yields"),
}
# Speeds or cases without a result.
MARGIN_SHADE: Final = "#e3d3d0"
# Crossings compared with each other, told apart by lightness and dashes too.
_CROSSINGS: Final = ("#27313a", "#b9772e", "#1f7a78", "#a23b56", "#4a6fa5", "#7a6a9c")
_CROSSING_DASHES: Final = ("-", (0, (7, 2)), (0, (4, 1.5)), (0, (6, 2, 1, 2)), (0, (2, 1.2)), (0, (1, 1)))


def colour(name: str) -> str:
    """Colour of a body or line; ink for names without one of their own."""
    return COLOURS.get(name, INK)


def crossing_colour(number: int) -> str:
    """Colour of a crossing of a comparison, by its number from 0 on."""
    return _CROSSINGS[number % len(_CROSSINGS)]


def crossing_dashes(number: int) -> str | tuple[float, tuple[float, ...]]:
    """Line of a crossing of a comparison, by its number from 0 on."""
    return _CROSSING_DASHES[number % len(_CROSSING_DASHES)]


def sheet(ax: Axes | None, xlabel: str, ylabel: str, title: str) -> Axes:
    """Axes in the house look, on a new figure unless `ax` is given, with the caution line at the foot."""
    if ax is None:
        _, ax = plt.subplots(figsize=(8.4, 4.4), layout="constrained", facecolor=PAPER)
    ax.set_facecolor(PAPER)
    ax.set_xlabel(xlabel, color=INK)
    ax.set_ylabel(ylabel, color=INK)
    ax.set_title(title, color=INK, loc="left", fontsize=11)
    ax.grid(True, color=RULE, linewidth=0.7)
    ax.set_axisbelow(True)
    ax.tick_params(colors=INK, length=3)
    for name, spine in ax.spines.items():
        spine.set_visible(name in ("left", "bottom"))
        spine.set_color(INK)
    caution(ax.get_figure(root=True))
    return ax


def caution(figure: Figure | None) -> None:
    """Write the caution line once at the foot of a figure."""
    gid = "wingnose-caution"
    if figure is None or any(text.get_gid() == gid for text in figure.texts):
        return
    engine = figure.get_layout_engine()
    if engine is not None:
        engine.set(rect=(0.0, 0.045, 1.0, 0.955))  # type: ignore[call-arg]
    figure.text(0.012, 0.012, CAUTION, fontsize=6.5, color=INK, alpha=0.8, gid=gid)


def legend(ax: Axes) -> None:
    """Legend in the house look, below nothing and over nothing important."""
    ax.legend(frameon=False, labelcolor=INK, fontsize=9, loc="best")


def legend_above(ax: Axes) -> None:
    """Legend in one row above the axes, right of the title: where lines and labels fill the axes."""
    handles, labels = ax.get_legend_handles_labels()
    if handles:
        ax.legend(handles, labels, frameon=False, labelcolor=INK, fontsize=8.5, ncols=len(handles), loc="lower right",
                  bbox_to_anchor=(1.0, 0.985), borderaxespad=0.0, handlelength=1.9, columnspacing=1.1)  # fmt: skip
