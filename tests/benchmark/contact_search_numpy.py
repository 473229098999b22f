"""Search for contact and the strips written plainly in NumPy and SciPy, on whole arrays.

The algorithms are those of the library (contact/patch_search.hpp, contact/strips.hpp) and work on tables and gaps it
hands over. Used by contact_search.py, which compares and times the two.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt
from scipy.interpolate import CubicSpline
from scipy.special import elliprd, elliprf

Field = npt.NDArray[np.float64]
ROW_SPACING, CONSIDERED, FLATTEST = 0.005, 0.0006, 0.2
MOST_STRIPS, STEEPEST, TINY = 56, 2.5, 1e-10


def cubic(f: float) -> Field:
    """Weights of four equidistant values at the share f between the second and third (Lagrange)."""
    return np.array([-f * (f - 1) * (f - 2) / 6, (f + 1) * (f - 1) * (f - 2) / 2, -(f + 1) * f * (f - 2) / 2,
                     (f + 1) * f * (f - 1) / 6])  # fmt: skip


class Body:
    """Rows of a body along the track, every row from its running edge on."""

    def __init__(self, stored: dict[str, Any], margin: int) -> None:
        rows = stored["rows"]
        self.begin, self.row, self.count, self.margin = stored["begin"], stored["row"], len(rows), margin
        self.edge = np.array([row["edge"] for row in rows])
        self.width = np.array([row["width"] for row in rows])
        columns = max(len(row["z"]) for row in rows) + 2 * margin + 4

        def padded(key: str) -> Field:
            return np.array([np.pad(row[key], (margin, columns - margin - len(row[key])), mode="edge") for row in rows])

        self.z, self.curvature = padded("z"), padded("curvature")

    def place(self, x: float, y0: float, spacing: float) -> tuple[int, Field, float, float]:
        p = np.clip((x - self.begin) / self.row, 0, self.count - 1)
        row = min(max(int(p) - 1, 0), self.count - 4)
        weight = cubic(p - row - 1)
        offset = (y0 - weight @ self.edge[row : row + 4]) / spacing
        return row, weight, float(offset), float(weight @ self.width[row : row + 4])

    def heights(self, place: tuple[int, Field, float, float], columns: Field) -> Field:
        row, weight, offset, _ = place
        start = offset + self.margin
        whole = int(np.floor(start))
        z = weight @ self.z[row : row + 4]
        return np.asarray(sum(c * z[whole - 1 + k + columns] for k, c in enumerate(cubic(start - whole))))

    def bend(self, place: tuple[int, Field, float, float], columns: Field) -> Field:
        row, weight, offset, _ = place
        p = offset + self.margin + columns
        whole = np.floor(p).astype(int)
        curvature = weight @ self.curvature[row : row + 4]
        return np.asarray(curvature[whole] + (p - whole) * (curvature[whole + 1] - curvature[whole]))


def search(wheel: dict[str, Field], body: Body, case: dict[str, Any]) -> tuple[Field, float, Field]:
    """Gap over the columns, level of first touch, and the patches at a height, one row each."""
    x, y0, roll, yaw, spacing = case["station"], case["y0"], case["roll"], case["yaw"], case["wheel"]["spacing"]
    front, h = case["wheel"]["front"], ROW_SPACING
    end = body.begin + body.row * (body.count - 1)
    centre = np.clip(x, body.begin + h, end - h)
    ahead = centre - x
    places = [body.place(at, y0, spacing) for at in (centre - h, centre, centre + h)]
    first = max(max(0, int(np.ceil(-p[2] - 1e-9))) for p in places)
    last = min(min(wheel["height"].size, int(np.floor(p[3] / spacing - p[2] + 1e-9)) + 1) for p in places)
    columns = np.arange(first, last)
    before, z, after = (body.heights(p, columns) for p in places)
    s = front + spacing * columns
    height, slope, second = (wheel[key][columns] for key in ("height", "slope", "second"))
    circle, cosine, bend = (wheel[key][columns] for key in ("circle", "cosine", "curvature"))
    gap = roll * (s + height * slope) - height - z
    keep = np.flatnonzero(gap <= gap.min() + 1.5 * CONSIDERED)
    cut = slice(keep[0], keep[-1] + 1)
    columns, before, z, after, s, slope, second, circle, cosine, bend, gap = (
        column[cut] for column in (columns, before, z, after, s, slope, second, circle, cosine, bend, gap)
    )
    z_x, z_xx = (after - before) / (2 * h), (after - 2 * z + before) / h**2
    arm = ahead + yaw * s
    linear = arm * circle + yaw * slope - yaw**2 * second * ahead - z_x
    curvature = np.maximum(FLATTEST * circle, circle - yaw**2 * second - z_xx)
    xi = np.clip(-linear / curvature, body.begin - centre, end - centre)
    gap = gap + 0.5 * arm**2 * circle + yaw * ahead * (slope - 0.5 * yaw * second * ahead)
    gap = gap + xi * (linear + 0.5 * curvature * xi)
    dx, tangent = ahead + xi, roll - slope + yaw * (ahead + xi) * second
    along, across = curvature * cosine, -body.bend(places[1], columns) - bend
    top = int(np.argmin(gap))
    turn = gap[top - 1] - 2 * gap[top] + gap[top + 1]
    level = -(gap[top] - 0.125 * (gap[top + 1] - gap[top - 1]) ** 2 / turn)
    y = y0 + spacing * columns
    closed = np.flatnonzero(case["height"] + gap < 0)
    runs = np.split(closed, np.flatnonzero(np.diff(closed) > 1) + 1)
    patches = [_patch(run, case["height"], y, s, gap, dx, tangent, along, across, spacing) for run in runs]
    return gap, float(level), np.array(patches)


def _patch(run: Field, height: float, y: Field, s: Field, gap: Field, dx: Field, tangent: Field, along: Field,
           across: Field, spacing: float) -> list[float]:  # fmt: skip
    k = int(run[np.argmin(gap[run])])
    a, b, c = gap[k - 1], gap[k], gap[k + 1]
    turn = a - 2 * b + c
    at = np.clip(0.5 * (a - c) / turn, -1, 1) if turn > 0 else 0.0
    lowest = b + 0.5 * at * ((c - a) + at * turn)
    n = k - 1 if at < 0 else k + 1

    def between(column: Field) -> float:
        return float(column[k] + abs(at) * (column[n] - column[k]))

    def end(inner: int, outer: int) -> float:
        closing, opening = height + gap[inner], height + gap[outer]
        return float(y[inner] + (outer - inner) * spacing * np.clip(-closing / (opening - closing), 0, 1))

    angle = np.arctan(between(tangent))
    rail = np.arctan(tangent[run[:-1]] - np.diff(gap[run]) / spacing)
    angles = np.concatenate((np.arctan(tangent[run]), rail))
    return [y[k] + spacing * at, between(dx), s[k] + spacing * at, angle, -(height + lowest) * np.cos(angle),
            between(along), between(across), end(run[0], run[0] - 1), end(run[-1], run[-1] + 1),
            np.ptp(angles)]  # fmt: skip


class Hertz:
    """Hertz's coefficients over ln(B / A): share laid in, length, approach."""

    def __init__(self) -> None:
        g = np.exp(-np.arange(0, 7.5, 1 / 48))
        K = elliprf(0, g**2, 1)
        one, two = elliprd(0, 1, g**2), elliprd(0, g**2, 1)
        ratio = np.log(one / two)
        m = np.cbrt(2 * (one + two) / 3 / np.pi)
        n, r = m * g, 2 * K / (np.pi * m)
        ratio = np.r_[-ratio[:0:-1], ratio]
        along, across, r = np.r_[n[:0:-1], m], np.r_[m[:0:-1], n], np.r_[r[:0:-1], r]
        share = np.exp(ratio) * across**2 / (r * (1 + np.exp(ratio)))
        self.at = CubicSpline(ratio, np.array([share, along**2 / r, r]).T)


class Abreast:
    """Displacement abreast of a line of half-elliptic pressure, over d / (a + d)."""

    def __init__(self) -> None:
        self.cells = 2048
        s = np.arange(1, self.cells) / self.cells
        q = (1 - s) ** 2 + s**2
        self.value = np.r_[0.0, 2 / 3 / np.sqrt(q) * elliprd(0, s**2 / q, 1), np.pi / 2]

    def __call__(self, a: Field, d: Field) -> Field:
        total = a + d
        u = d / total * self.cells
        table = a**2 / total * np.interp(u, np.arange(self.cells + 1), self.value)
        return np.where(u < 4, 2 * a * (np.log(4 * a / d) - 1), table)


def strips(line: dict[str, Any], columns: dict[str, Field], modulus: float, hertz: Hertz, abreast: Abreast) -> Field:
    """Force, vertical force, approach, peak pressure, area, half length, place of the pressure."""
    height = line["level"] - line["depth"]
    gap, slope = columns["gap"], columns["slope"]
    inside = np.flatnonzero(height + gap < 0)
    i = np.arange(max(inside[0] - 1, 0), min(inside[-1] + 2, gap.size))
    half = i[i + 1 < gap.size]
    outer = np.minimum(half + 2, gap.size - 1)
    y = np.r_[line["first_y"] + line["spacing"] * i, line["first_y"] + line["spacing"] * (half + 0.5)]
    order = np.argsort(y)
    middle = 0.0625 * (9 * (gap[half] + gap[half + 1]) - gap[np.maximum(half - 1, 0)] - gap[outer])

    def nodes(here: Field, halfway: Field) -> Field:
        return np.asarray(np.r_[here, halfway][order])

    y, overlap = y[order], -(height + nodes(gap[i], middle))
    slopes, dx, curvature = (
        nodes(column[i], 0.5 * (column[half] + column[half + 1]))
        for column in (columns["slope"], columns["dx"], columns["curvature_x"])
    )
    cosine = 1 / np.hypot(1, slopes)
    t = np.r_[0, np.cumsum(np.diff(y) / cosine[1:])]
    overlap = overlap * cosine
    approach = max(overlap.max(), line["depth"] / np.hypot(1, slope[line["top"]]))
    nearby = np.where(np.abs(t[:, None] - t) <= 0.0125, overlap, -np.inf).max(axis=1)
    nearby = np.maximum.accumulate(nearby + 0.010 * t) - 0.010 * t
    nearby = np.maximum.accumulate((nearby - 0.010 * t)[::-1])[::-1] + 0.010 * t
    nearby = nearby + (approach - overlap.max()) * np.clip(nearby / approach, 0, 1)
    separation = nearby - overlap

    def closed(share: float) -> tuple[Field, Field]:
        p = share * nearby - separation
        a, b, w = p[:-1], p[1:], np.diff(t)
        length = np.where((a > 0) & (b > 0), w, np.where((a > 0) | (b > 0), w * np.maximum(a, b) / np.abs(a - b), 0))
        mean = 0.5 * np.where((a > 0) & (b > 0), a + b, np.maximum(np.maximum(a, b), 0))
        return mean * length, length

    weight = np.maximum(0, 0.55 * nearby - separation)
    A = 0.5 * (weight @ curvature) / weight.sum()
    u = t - t[0]
    spread = weight @ u**2 - (weight @ u) ** 2 / weight.sum()
    skew = (weight @ (u * dx) - (weight @ u) * (weight @ dx) / weight.sum()) / spread

    def equal_area(share: float) -> float:
        return float(16 * (share * approach) ** 3 / (9 * closed(share)[0].sum() ** 2))

    def stiffness(one: float, two: float) -> float:
        return float(4 / 3 / (hertz.at(np.log(two / one))[2] ** 1.5 * np.sqrt(one + two)))

    s0 = 0.5
    f0 = hertz.at(np.log(equal_area(s0) / A))[0] - s0
    s1 = s0 + f0
    for _ in range(30):
        f1 = hertz.at(np.log(equal_area(s1) / A))[0] - s1
        if abs(f1) < 1e-10:
            break
        rate = (f1 - f0) / (s1 - s0)
        s0, f0, s1 = s1, f1, np.clip(s1 + (-f1 / rate if rate < -0.1 else f1), 0.05, 0.98)
    B = equal_area(s1)
    share, length_share, _ = hertz.at(np.log(B / A))
    A_strip = share * (A + B) / length_share
    steepness = stiffness(A, B) * A_strip * np.sqrt(B) * 1.5 / (np.pi * share**1.5)
    total = A * (1 + skew**2) + B
    difference = np.sqrt(max(0, total**2 - 4 * A * B))
    factor = 1.0 if skew**2 < 1e-8 else stiffness((total - difference) / 2, (total + difference) / 2) / stiffness(A, B)

    parts = t.size - 1
    per = max(1, (parts + 2 * MOST_STRIPS - 1) // (2 * MOST_STRIPS))
    start = np.arange(0, parts, 2 * per)
    stop, mid = np.minimum(start + 2 * per, parts), np.minimum(start + per, parts)
    area, width = closed(share)
    area, loaded = np.add.reduceat(area, start), np.add.reduceat(width, start)
    width = t[stop] - t[start]
    laid, closing = area / width, nearby[mid] - separation[mid]
    kept = (closing > 0) | (area > 0)
    laid, closing, width, loaded, mid = (column[kept] for column in (laid, closing, width, loaded, mid))
    length = np.sqrt(laid / A_strip)
    limit = STEEPEST * steepness * modulus
    distance = np.abs(t[mid][:, None] - t[mid])
    np.fill_diagonal(distance, width / (2 * np.e))
    pressure, influence = _pressures(length, closing, width, distance, limit, modulus, abreast)
    rest = closing - influence @ pressure
    more = rest > laid
    if more.any():
        length = np.where(more, np.sqrt(np.maximum(rest, 0) / A_strip), length)
        loaded = np.where(more, width, loaded)
        pressure, _ = _pressures(length, closing, width, distance, limit, modulus, abreast)
    c = factor * np.maximum(pressure, 0)
    force = 0.5 * np.pi * c * length**2 * width
    on = c > 0
    return np.array([force.sum(), force @ cosine[mid], approach, (c * length).max(), 2 * (length * width)[on].sum(),
                     length[on].max(), force @ y[mid] / force.sum()])  # fmt: skip


def _pressures(length: Field, closing: Field, width: Field, distance: Field, limit: float, modulus: float,
               abreast: Abreast) -> tuple[Field, Field]:  # fmt: skip
    """Slopes of the pressures that close the gap in the middle of every strip, by active sets."""
    live = length > 0
    influence = np.where(live, width / (np.pi * modulus) * abreast(np.where(live, length, 1.0), distance), 0.0)
    none, carries, opened, steepest = range(4)
    state = np.where(live, carries, none)
    for _ in range(20):
        slope = np.where(state == steepest, limit, 0.0)
        index = np.flatnonzero(state == carries)
        right = closing[index] - influence[index] @ slope
        slope[index] = np.linalg.solve(influence[np.ix_(index, index)], right)
        left = influence @ slope - closing
        now = np.where((state == carries) & (slope < 0), opened, state)
        now = np.where((state == carries) & (slope > limit), steepest, now)
        back = ((state == opened) & (left < -TINY)) | ((state == steepest) & (left > TINY))
        now = np.where(back, carries, now)
        if (now == state).all():
            return slope, influence
        state = now
    return np.clip(slope, 0, limit), influence
