"""Writes s1002_hollow_measured.csv, an invented measured wheel: S1002 (zones of UIC 510-2 / EN 13715) with a hollow of
2 mm, seen by an invented device with 2 micrometres of noise normal to the surface. Only the standard library; the seed is
fixed, so the file can be made again: python3 make_s1002_hollow_measured.py
"""

import math
import pathlib
import random

HOLLOW_DEPTH, HOLLOW_WIDTH, HOLLOW_CENTRE = 2.0, 64.0, 4.0  # mm
NOISE = 0.002  # mm, standard deviation normal to the surface
PITCH = 0.25  # mm, mean; the spacing varies by a tenth of it
SEED = 20260117

ZONE_C = [-4.320221063e3, -1.038384026e3, -1.065501873e2, -6.051367875, -2.054332446e-1, -4.169739389e-3,
          -4.687195829e-5, -2.252755540e-7]
ZONE_B = [0.0, -3.358537058e-2, 1.565681624e-3, -2.810427944e-5, 5.844240864e-8, -1.562379023e-8, 5.309217349e-15,
          -5.957839843e-12, 2.646656573e-13]


def s1002(y):
    """Height of the unworn profile, mm."""
    if y >= 32.15796:
        return 1.364323640 - 0.06666666667 * y
    if y >= -26.0:
        return sum(c * y**k for k, c in enumerate(ZONE_B))
    if y >= -35.0:
        return sum(c * y**k for k, c in enumerate(ZONE_C))
    if y >= -38.426669071:
        return 16.446 - math.sqrt(13.0**2 - (y + 26.210665) ** 2)
    if y >= -39.764473993:
        return -93.576667419 - 2.747477419 * y
    if y >= -49.662510381:
        return 8.834924130 + math.sqrt(20.0**2 - (y + 58.558326413) ** 2)
    if y >= -62.764705882:
        return 16.0 + math.sqrt(12.0**2 - (y + 55.0) ** 2)
    return 9.519259302 + math.sqrt(20.5**2 - (y + 49.5) ** 2)


def worn(y):
    """Height of the hollow profile, mm."""
    u = 2.0 * (y - HOLLOW_CENTRE) / HOLLOW_WIDTH
    return s1002(y) - (HOLLOW_DEPTH * (1.0 - u * u) ** 3 if abs(u) < 1.0 else 0.0)


def gauss(source):
    """Box-Muller, so that the numbers do not depend on a library's own method."""
    return math.sqrt(-2.0 * math.log(1.0 - source.random())) * math.cos(2.0 * math.pi * source.random())


def main():
    source = random.Random(SEED)
    rows = ["y_mm,height_mm"]
    y = 58.0  # the device scans from the field side to the flange
    while y > -68.0:
        slope = (worn(y + 1e-4) - worn(y - 1e-4)) / 2e-4
        off = NOISE * gauss(source)  # normal to the surface
        rows.append(f"{y:.4f},{worn(y) + off * math.hypot(1.0, slope):.4f}")
        y -= PITCH * (0.9 + 0.2 * source.random())
    path = pathlib.Path(__file__).with_name("s1002_hollow_measured.csv")
    path.write_text("\n".join(rows) + "\n", encoding="ascii")


if __name__ == "__main__":
    main()
