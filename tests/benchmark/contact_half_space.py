"""Half-space normal contact: this solver beside the same algorithm written plainly in NumPy and SciPy.

    python tests/benchmark/contact_half_space.py PROGRAM [--repeats 5]

PROGRAM is the built `wingnose_contact_benchmark`. It solves one wheel-rail contact on four grids and hands over its
gap fields; here the method of Polonsky and Keer (1999) as the paper states it (two convolutions by real transforms in
each iteration, start from an even pressure, one grid) solves the same fields to the same tolerance. Printed are
processor times of one core, iterations, and their ratio. Fails when the two peak pressures differ by more than 0.1 %.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import time
from typing import Any

for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(threads, "1")

import numpy as np
import numpy.typing as npt
from scipy import fft

Field = npt.NDArray[np.float64]


def influence(nx: int, ny: int, dx: float, dy: float) -> Field:
    """Integral of 1/r over a cell (m) at offsets wrapped to 2 ny x 2 nx (Love 1929)."""
    x = (np.arange(2 * nx) - nx) * dx
    y = ((np.arange(2 * ny) - ny) * dy)[:, None]

    def corner(a: Field, b: Field) -> Field:
        r = np.hypot(a, b)
        return np.asarray(a * np.log(b + r) + b * np.log(a + r))

    e, w, n, s = x + dx / 2, x - dx / 2, y + dy / 2, y - dy / 2
    return np.asarray(np.fft.ifftshift(corner(e, n) - corner(w, n) - corner(e, s) + corner(w, s)))


def polonsky_keer(
    gap: Field, dx: float, dy: float, force: float, modulus: float, tolerance: float
) -> tuple[Field, int]:
    """Pressure (Pa) and number of iterations."""
    ny, nx = gap.shape
    transform = fft.rfft2(influence(nx, ny, dx, dy)) / (np.pi * modulus)

    def deflect(p: Field) -> Field:
        return np.asarray(fft.irfft2(fft.rfft2(p, (2 * ny, 2 * nx)) * transform, (2 * ny, 2 * nx))[:ny, :nx])

    p = np.full_like(gap, force / (nx * ny * dx * dy))
    t = np.zeros_like(gap)
    delta, norm_before = 0.0, 1.0
    for iteration in range(1, 1000):
        g = gap + deflect(p)
        touching = p > 0.0
        g -= g[touching].mean()
        norm = float((g[touching] ** 2).sum())
        t = np.where(touching, g + delta * norm / norm_before * t, 0.0)
        norm_before = norm
        r = deflect(t)
        r -= r[touching].mean()
        tau = float((g * t)[touching].sum() / (r * t)[touching].sum())
        before = p
        p = np.where(touching, np.maximum(p - tau * t, 0.0), 0.0)
        overlap = (p == 0.0) & (g < 0.0)
        delta = 0.0 if overlap.any() else 1.0
        p = np.where(overlap, -tau * g, p)
        p *= force / (p.sum() * dx * dy)
        if np.abs(p - before).sum() * dx * dy / force < tolerance:
            return p, iteration
    raise RuntimeError("the method of Polonsky and Keer did not converge")


def main() -> int:
    """Run both, print the table."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("program")
    parser.add_argument("--repeats", type=int, default=5)
    arguments = parser.parse_args()
    answer = subprocess.run([arguments.program], check=True, capture_output=True, text=True).stdout
    measured: dict[str, Any] = json.loads(answer)
    print(f"load averages {' '.join(f'{x:.1f}' for x in os.getloadavg())}; processor times, median, one core")
    print("cells  grid   solve  convolve  stress plane    it.    peak  approach   area  smooth |    NumPy    it. ratio")
    print("         ms      ms        ms            ms              %        %       %       % |       ms")
    agree = True
    for size in measured["sizes"]:
        n = size["cells_per_side"]
        gap = np.array(size["gap_m"]).reshape(n, n)
        times = []
        for _ in range(arguments.repeats):
            start = time.process_time()
            pressure, iterations = polonsky_keer(
                gap, size["dx_m"], size["dy_m"], measured["force_N"], measured["combined_modulus_Pa"],
                measured["tolerance"],
            )
            times.append(time.process_time() - start)
        plain = 1e3 * float(np.median(times))
        ours = size["solve_cpu_ms"] + size["grid_cpu_ms"]  # the plain version makes its coefficients too
        print(f"{n:4d}  {size['grid_cpu_ms']:6.2f} {size['solve_cpu_ms']:7.2f} {size['convolution_cpu_ms']:9.3f}"
              f" {size['stress_plane_cpu_ms']:13.2f} {size['iterations']:7d}"
              f" {100 * size['peak_pressure_error']:+8.4f} {100 * size['approach_error']:+8.4f}"
                f" {100 * size['area_error']:+7.3f} {100 * size['smooth_area_error']:+7.3f} |"
              f" {plain:8.2f} {iterations:6d} {plain / ours:5.1f}")
        agree = agree and abs(pressure.max() / size["peak_pressure_Pa"] - 1.0) < 1e-3
    if not agree:
        print("the two solvers disagree on the peak pressure", file=sys.stderr)
    return 0 if agree else 1


if __name__ == "__main__":
    sys.exit(main())
