"""The look of every sheet: quiet paper, few colours, one per body, units on the axes, words where least is covered."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

import matplotlib.pyplot as plt
import numpy as np
import xarray as xr
from matplotlib.axes import Axes
from matplotlib.cm import ScalarMappable
from matplotlib.figure import Figure
from numpy.typing import NDArray

from . import CAUTION, quantities
from ._reading import grave_words

PAPER: Final = "#fbfaf7"
INK: Final = "#27313a"
RULE: Final = "#d9d5cc"
# One colour per thing drawn, the same on every sheet; apart in lightness, so that they stay apart in grey.
COLOURS: Final = {
    "total": INK,
    "wing": "#b9772e",
    "nose": "#1f7a78",
    "wheel": "#5b6570",
    "low-passed": "#a23b56",
    "closed form": "#4a6fa5",
    "limit": "#b3261e",
}
# What stands at the foot of a figure.
CAUTION_LINE: Final = "wingnose-caution"
GRAVE_LINE: Final = "wingnose-grave"
# Behind words that lie on lines.
CLEAR: Final = {"facecolor": PAPER, "edgecolor": "none", "alpha": 0.8, "pad": 0.8}
# Speeds or cases without a result.
MARGIN_SHADE: Final = "#e3d3d0"
# Crossings compared with each other, told apart by lightness and dashes too.
_CROSSINGS: Final = ("#27313a", "#b9772e", "#1f7a78", "#a23b56", "#4a6fa5", "#7a6a9c")
_CROSSING_DASHES: Final = ("-", (0, (7, 2)), (0, (4, 1.5)), (0, (6, 2, 1, 2)), (0, (2, 1.2)), (0, (1, 1)))
# Width of a letter, as a mean over words, and height of a line, over the size of the letters.
_LETTER, _LINE = 0.5, 1.5


def colour(name: str) -> str:
    """Colour of a body or line; ink for names without one of their own."""
    return COLOURS.get(name, INK)


def crossing_line(number: int) -> dict[str, Any]:
    """Colour and dashes of a crossing of a comparison, by its number from 0 on."""
    return {"color": _CROSSINGS[number % len(_CROSSINGS)],
            "linestyle": _CROSSING_DASHES[number % len(_CROSSING_DASHES)]}  # fmt: skip


def sheet(ax: Axes | None, xlabel: str, ylabel: str, title: str, *answers: xr.DataTree) -> Axes:
    """Axes in the house look, on a new figure unless `ax` is given. At the foot of the figure stand the caution line
    and, of `answers` with a grave finding, a line that says so."""
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
    _foot(ax.get_figure(root=True), [words for answer in answers if (words := grave_words(answer))])
    return ax


def _foot(figure: Figure | None, grave: list[str]) -> None:
    """The caution once at the foot of a figure, and above it what is grave in what it shows, each once."""
    if figure is None:
        return
    lines = [text for text in figure.texts if text.get_gid() in (CAUTION_LINE, GRAVE_LINE)]
    if not lines:
        lines.append(figure.text(0.012, 0.012, CAUTION, fontsize=6.5, color=INK, alpha=0.8, gid=CAUTION_LINE))
    for words in dict.fromkeys(grave):
        if words not in [text.get_text() for text in lines]:
            lines.append(figure.text(0.012, 0.012 + 0.036 * len(lines), words, fontsize=7.5, color=COLOURS["limit"],
                                     weight="bold", gid=GRAVE_LINE))  # fmt: skip
    lift(figure, 0.009 + 0.036 * len(lines))


def lift(figure: Figure, foot: float) -> None:
    """Leave the lowest part of a figure (0 to 1) to its foot."""
    engine = figure.get_layout_engine()
    if engine is not None:
        engine.set(rect=(0.0, foot, 1.0, 1.0 - foot))  # type: ignore[call-arg]


def mark(ax: Axes, quantity: str, *, along: bool) -> list[float]:
    """Draw where a quantity changes in kind, across a value axis that lies `along` x or y; returns these values."""
    known = quantities.get(quantity)
    if known is None or known.mark is None:
        return []
    if along:
        upright(ax, known.mark, f" beyond: {known.beyond} ")
    else:
        ax.axhline(known.mark, color=colour("wheel"), linewidth=0.9, linestyle=(0, (1, 3)))
        ax.annotate(f"{known.beyond} above", (0.995, known.mark), xycoords=("axes fraction", "data"), ha="right",
                    va="bottom", color=colour("wheel"), fontsize=8, bbox=CLEAR)  # fmt: skip
    return [known.mark]


def upright(ax: Axes, at: float, words: str) -> None:
    """A limit across the axis of values, with words along it."""
    ax.axvline(at, color=colour("limit"), linewidth=1.1)
    ax.annotate(words, (at, 0.98), xycoords=("data", "axes fraction"), ha="right", va="top", rotation=90,
                color=colour("limit"), fontsize=8)  # fmt: skip


def legend(ax: Axes, **otherwise: Any) -> Axes:
    """Legend in the house look, below nothing and over nothing important unless said `otherwise`; returns the Axes."""
    ax.legend(**{"frameon": False, "labelcolor": INK, "fontsize": 9, "loc": "best", **otherwise})
    return ax


def colour_bar(ax: Axes, drawn: ScalarMappable, words: str, ends: str = "neither") -> None:
    """Scale of what is drawn in colours; `ends`: which of its ends are arrows."""
    bar = ax.figure.colorbar(drawn, ax=ax, pad=0.01, extend=ends)
    bar.set_label(words, color=INK)
    bar.outline.set_visible(False)
    bar.ax.tick_params(colors=INK, length=3)


def legend_above(ax: Axes) -> None:
    """Legend in one row above the axes, right of the title: where lines and labels fill the axes."""
    count = len(ax.get_legend_handles_labels()[0])
    if count:
        legend(ax, fontsize=8.5, ncols=count, loc="lower right", bbox_to_anchor=(1.0, 0.985), borderaxespad=0.0,
               handlelength=1.9, columnspacing=1.1)  # fmt: skip


def size_of(ax: Axes, words: str, fontsize: float) -> tuple[float, float]:
    """Width and height of words, as fractions of the Axes; before the layout is done, so only nearly."""
    figure = ax.get_figure(root=True)
    across, up = figure.get_size_inches() if figure is not None else (8.0, 4.0)
    box = ax.get_position()
    lines = words.split("\n")
    return (
        float(max(map(len, lines)) * _LETTER * fontsize / 72.0 / (across * box.width)),
        float(len(lines) * _LINE * fontsize / 72.0 / (up * box.height)),
    )


def freest(ax: Axes, boxes: Sequence[tuple[float, float, float, float]]) -> int:
    """Number of the box (left, lower, width, height, fractions of the Axes) that covers least of the lines. The first
    of equal ones; boxes that reach beyond the Axes come last."""
    drawn = _points(ax)
    covered = []
    for x, y, width, height in boxes:
        inside = (drawn[:, 0] > x) & (drawn[:, 0] < x + width) & (drawn[:, 1] > y) & (drawn[:, 1] < y + height)
        fits = 0.0 <= x and x + width <= 1.0 and 0.0 <= y and y + height <= 1.0
        covered.append(int(inside.sum()) + (0 if fits else drawn.shape[0] + 1))
    return int(np.argmin(covered))


def best_place(
    ax: Axes, wordings: Sequence[str], sides: Sequence[tuple[str, float]], heights: Sequence[float], fontsize: float
) -> tuple[str, str, float]:
    """Words, side and height (fraction of the Axes) that cover least: "left", beginning at a place along x (fraction),
    or "right", ending there, at some heights; the first of equal ones."""
    places = [(words, side, x, y) for words in wordings for side, x in sides for y in heights]
    sizes = {words: size_of(ax, words, fontsize) for words in wordings}
    boxes = [(x - sizes[words][0] * (side == "right"), y, *sizes[words]) for words, side, x, y in places]
    words, side, _, y = places[freest(ax, boxes)]
    return words, side, y


def _points(ax: Axes) -> NDArray[np.float64]:
    found = [np.empty((0, 2))]
    for line in ax.get_lines():
        data = np.asarray(line.get_xydata(), dtype=np.float64)
        if data.shape[0] < 2:
            continue
        along = np.linspace(0.0, data.shape[0] - 1.0, max(200, data.shape[0]))
        dense = np.column_stack([np.interp(along, np.arange(data.shape[0]), data[:, k]) for k in (0, 1)])
        dense = dense[np.all(np.isfinite(dense), axis=1)]
        found.append(ax.transAxes.inverted().transform(line.get_transform().transform(dense)))
    return np.concatenate(found)
