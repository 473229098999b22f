"""Search for contact and the strips written plainly in NumPy and SciPy, on whole arrays.

The algorithms are those of the library (contact/search, contact/normal/strips.hpp) and work on shapes and gaps it hands
over. Used by contact_search.py, which compares and times the two.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt
from scipy.interpolate import CubicSpline
from scipy.special import elliprd, elliprf

Field = npt.NDArray[np.float64]
SECTION_SPACING, CONSIDERED, STRIDE, WHEEL_REACH, LEAST_SHARE = 0.005, 0.00075, 4, 0.057, 0.2
MOST_STRIPS, STEEPEST, TINY = 56, 2.5, 1e-10


class Nose:
    """A generated nose by its section at one station, as the library draws it (layout/generated_nose.hpp)."""

    def __init__(self, stored: dict[str, Any]) -> None:
        n = stored
        self.begin, self.end, self.rate = n["point_thickness"] * n["rate"], n["length"], n["rate"]
        self.edge, self.setback, self.head = 0.5 * n["gauge"] + n["setback"], n["setback"], n["head_width"]
        self.shoulder, self.crown, self.bend = n["shoulder_radius"], n["crown_place"] - n["setback"], n["crown_radius"]
        self.depth, self.rest = n["start_depth"], n["ramp_end_depth"]
        self.ramp = [n["rate"] * n[key] for key in ("ramp_start_thickness", "ramp_end_thickness", "full_thickness")]
        self.rounding = min(n["ramp_rounding"], self.ramp[1] - self.ramp[0], self.ramp[2] - self.ramp[1])

    def kink(self, s: float) -> float:
        half = 0.5 * self.rounding
        if abs(s) >= half:
            return max(s, 0.0)
        u = s / half
        return half * (15 / 16 * u**2 * (1 / 2 - u**2 / 6 + u**4 / 30) + 0.5 * u + 5 / 32)

    def top(self, x: float) -> float:
        low, end, full = self.ramp
        steep, flat = (self.depth - self.rest) / (end - low), self.rest / (full - end)
        return -self.depth + steep * (self.kink(x - low) - self.kink(x - end)) + flat * (
            self.kink(x - end) - self.kink(x - full)
        )

    def width(self, x: float) -> float:
        return min(x / self.rate - 2 * self.setback, self.head)

    def heights(self, x: float, eta: Field) -> Field:
        metal = x / self.rate - 2 * self.setback
        a, b = self.shoulder, 0.5 * 0.95 * metal
        r = 0.5 * (a + b - np.hypot(a - b, 0.002))
        crown = 0.5 * (0.5 * metal + self.crown - np.hypot(0.5 * metal - self.crown, 0.004))
        e = np.clip(eta, 0, self.width(x))

        def drop(d: Field) -> Field:
            return np.asarray(r - np.sqrt(r**2 - np.maximum(r - d, 0) ** 2))

        return self.top(x) - 0.5 / self.bend * (e - crown) ** 2 - drop(e) - drop(metal - e)


def search(wheel: dict[str, Any], nose: Nose, case: dict[str, Any]) -> tuple[Field, float, Field]:
    """Gap over the columns, level of first touch, and the patches at a height, one row each."""
    x, roll, yaw, h, R = case["station"], case["roll"], case["yaw"], SECTION_SPACING, wheel["radius"]
    front, spacing = wheel["front"], wheel["spacing"]
    low, high = max(-WHEEL_REACH, nose.begin - x), min(WHEEL_REACH, nose.end - x)
    ahead = float(np.clip(case["ahead"], low + h, high - h))
    y0 = case["lateral"] + yaw * ahead + front
    places = [x + ahead - h, x + ahead, x + ahead + h]
    first = max(0, int(np.ceil((nose.edge - y0) / spacing - 1e-9)))
    over = min(int(np.floor((nose.edge + nose.width(at) - y0) / spacing + 1e-9)) + 1 for at in places)
    columns = np.arange(first, min(wheel["height"].size, over))
    s, H, p, q = _rolled(wheel, roll, columns)
    coarse = np.unique(np.append(columns[::STRIDE], columns[-1])) - first
    rough = -nose.heights(places[1], y0 + spacing * columns[coarse] - nose.edge) - H[coarse]
    near = np.flatnonzero(rough <= rough.min() + CONSIDERED)
    cut = slice(coarse[max(near[0] - 1, 0)], coarse[min(near[-1] + 1, coarse.size - 1)] + 1)
    columns, s, H, p, q = (column[cut] for column in (columns, s, H, p, q))
    r, u, shift = R + H + roll * s, yaw * ahead + s, yaw * h
    F = []
    for k, at in enumerate(places):
        a = ahead + (k - 1) * h
        Q = (a / r) ** 2
        fall = yaw * u * (a + 0.5 * yaw * u) / np.sqrt(R**2 - a**2)
        turned = H - (k - 1) * shift * p + 0.5 * ((k - 1) * shift) ** 2 * q
        z = nose.heights(at, y0 + spacing * columns - nose.edge)
        F.append(z + turned - 0.5 * r * Q * (1 + 0.25 * Q * (1 + 0.5 * Q)) - fall)
    slope_x, bend = (F[2] - F[0]) / (2 * h), (F[0] - 2 * F[1] + F[2]) / h**2
    curvature = np.maximum(LEAST_SHARE / r, -bend)
    xi = np.clip(slope_x / curvature, low - ahead, high - ahead)
    gap = -(F[1] + xi * (slope_x - 0.5 * curvature * xi))
    dx = ahead + xi
    tangent = yaw * (xi * q + (dx + yaw * u) / np.sqrt(R**2 - ahead**2)) - p
    along = curvature / np.sqrt(1 + tangent**2)
    top = int(np.argmin(gap))
    turn = gap[top - 1] - 2 * gap[top] + gap[top + 1]
    level = -(gap[top] - 0.125 * (gap[top + 1] - gap[top - 1]) ** 2 / turn)
    y = y0 + spacing * columns
    closed = np.flatnonzero(case["height"] + gap < 0)
    runs = np.split(closed, np.flatnonzero(np.diff(closed) > 1) + 1)
    patches = [_patch(run, case["height"], y, s, gap, dx, tangent, along, spacing) for run in runs]
    return gap, float(level), np.array(patches)


def _rolled(wheel: dict[str, Any], roll: float, columns: Field) -> tuple[Field, Field, Field, Field]:
    """Place, height, slope and second derivative of the wheel's section, turned by the roll."""
    s = wheel["front"] + wheel["spacing"] * columns
    h, p, q = (wheel[key][columns] for key in ("height", "slope", "second"))
    moved = roll * h
    return s, h - moved * (p - 0.5 * moved * q) - roll * s, (p - moved * q) * (1 - roll * p) - roll, q


def _patch(run: Field, height: float, y: Field, s: Field, gap: Field, dx: Field, tangent: Field, along: Field,
           spacing: float) -> list[float]:  # fmt: skip
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
            between(along), end(run[0], run[0] - 1), end(run[-1], run[-1] + 1),
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
