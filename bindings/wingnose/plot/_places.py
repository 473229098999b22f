"""Where words in a sheet cover least of what is drawn."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import NDArray

# Width of a letter, as a mean over words, and height of a line, over the size of the letters.
_LETTER, _LINE = 0.5, 1.5


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
