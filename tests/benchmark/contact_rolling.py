"""Tangential contact: the creep laws and the rolling solver beside the same algorithms written plainly in NumPy.

    python tests/benchmark/contact_rolling.py PROGRAM [--repeats 5]

PROGRAM is the built `wingnose_rolling_benchmark`. In NumPy: Kalker's simplified theory marched over the cells with all
strips as one array; rolling without slip by a dense solve on the same strips (mirrored halves not folded); and rolling
with slip by the same Newton steps (Alart and Curnier 1991) on the whole arrays. Printed are processor times of one core
and their ratio. Fails when results differ by more than rounding; times are taken after that.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import time
from collections.abc import Callable
from typing import Any

for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(threads, "1")

import numpy as np
import numpy.typing as npt

Field = npt.NDArray[np.float64]


def simplified(L: Field, a: float, b: float, load: float, mu: float, creep: Field, n: int, m: int) -> Field:
    """Creep force (N, N) of the simplified theory, n strips of m cells."""
    theta = (np.arange(n) + 0.5) * np.pi / n - np.pi / 2
    y, width, lead = b * np.sin(theta), b * np.cos(theta) * np.pi / n, a * np.cos(theta)
    peak = 2 * load / (np.pi * a * b) * np.cos(theta) ** 2
    p, total = np.zeros((2, n)), np.zeros((2, n))
    for k in range(m):
        t, step = (k + 0.5) / m, (0.5 if k == 0 else 1.0) / m
        h, x = 2 * lead * step, lead - 2 * lead * (t - step / 2)
        slip = np.array([creep[0] / L[0] - creep[2] * y / L[2], creep[1] / L[1] + creep[2] * x / L[2]])
        p = p - h * slip
        bound = mu * peak * 4 * t * (1 - t) / (1 + 0.5 / m**2)
        p = p * np.minimum(1.0, bound / np.maximum(np.hypot(p[0], p[1]), 1e-300))
        total += p
    return np.asarray((total * width * 2 * lead / m).sum(axis=1))


class Mesh:
    """n strips of n uniform cells over an ellipse, the strips as wide as each other."""

    def __init__(self, a: float, b: float, n: int) -> None:
        edge = np.linspace(-1, 1, n + 1)
        primitive = 0.5 * (edge * np.sqrt(1 - edge**2) + np.arcsin(edge))
        half = a * np.diff(primitive) / np.diff(edge)
        self.n, self.edge = n, edge
        self.y = np.repeat(b * 0.5 * (edge[1:] + edge[:-1]), n)
        self.hx, self.hy = np.repeat(2 * half / n, n), 2 * b / n
        self.x = np.repeat(half, n) - self.hx * (np.tile(np.arange(n), n) + 0.5)

    def pressure(self, load: float) -> Field:
        """Mean Hertz pressure of every cell (Pa)."""
        n, edge = self.n, self.edge
        share = 0.75 * (np.diff(edge) - np.diff(edge**3) / 3)
        t = 1 - 2 * np.arange(n + 1) / n
        primitive = (t * np.sqrt(np.maximum(0, 1 - t**2)) + np.arcsin(t)) / np.pi
        return np.asarray(load * np.outer(share, -np.diff(primitive)).ravel() / (self.hx * self.hy))

    def slip(self, nu: float) -> Field:
        """Slip over a step of one cell under unit tractions, times the shear modulus: [x then y, x then y]."""

        def displacement(at: Field) -> tuple[Field, Field, Field]:
            one = two = cross = np.zeros((self.n**2, self.n**2))
            for sx in (-0.5, 0.5):
                for sy in (-0.5, 0.5):
                    X = at[:, None] - self.x + sx * self.hx
                    Y = self.y[:, None] - self.y + sy * self.hy
                    sign = 4 * sx * sy
                    one = one + sign * X * np.arcsinh(Y / np.maximum(np.abs(X), 1e-300))
                    two = two + sign * Y * np.arcsinh(X / np.maximum(np.abs(Y), 1e-300))
                    cross = cross - sign * np.hypot(X, Y)
            return ((1 - nu) * one + two) / np.pi, (one + (1 - nu) * two) / np.pi, nu * cross / np.pi

        here, ahead = displacement(self.x), displacement(self.x + self.hx)
        xx, yy, xy = (one - other for one, other in zip(here, ahead, strict=True))
        return np.block([[xx, xy], [xy, yy]])


def coefficients(ratio: float, nu: float, n: int) -> Field:
    """C11, C22, C23, C33 of rolling without slip: uniform tractions on n strips of n cells."""
    a = np.sqrt(ratio)
    mesh = Mesh(a, 1 / a, n)
    x, y, hx, zero = mesh.x, mesh.y, mesh.hx, np.zeros(n * n)
    right = [np.r_[hx, zero], np.r_[zero, hx], np.r_[-y * hx, (x + hx / 2) * hx]]
    p = np.linalg.solve(mesh.slip(nu), -np.array(right).T)
    area, px, py = hx * mesh.hy, p[: n * n], p[n * n :]
    moment = area @ (x[:, None] * py - y[:, None] * px)
    return np.array([-area @ px[:, 0], -area @ py[:, 1], 0.5 * (moment[1] - area @ py[:, 2]), -moment[2]])


def rolling(slip_matrix: Field, mesh: Mesh, bound: Field, creep: Field) -> Field:
    """Creep force (N, N, N m) of rolling with slip, by Newton steps over all cells."""
    S, n = slip_matrix, mesh.x.size
    w = np.r_[mesh.hx * (creep[0] - creep[2] * mesh.y), mesh.hx * (creep[1] + creep[2] * (mesh.x + mesh.hx / 2))]
    diagonal = np.diag(S)
    r = 0.2 / (diagonal[:n] + diagonal[n:])
    p = np.zeros(2 * n)
    for _ in range(100):
        slip = w + S @ p
        q = p.reshape(2, n) - r * slip.reshape(2, n)
        size = np.hypot(q[0], q[1])
        stick, slide = np.flatnonzero(size <= bound), np.flatnonzero(size > bound)
        along = q[:, slide] / size[slide]
        across = np.array([-along[1], along[0]])
        own, over = p.reshape(2, n)[:, slide], size[slide] / (bound[slide] * r[slide])
        change = np.zeros((2, n))
        change[:, slide] = (bound[slide] - (own * along).sum(axis=0)) * along
        residual = -(slip + S @ change.ravel())
        both = np.r_[stick, n + stick]
        columns = np.hstack([S[:, both], S[:, slide] * across[0] + S[:, n + slide] * across[1]])
        K = np.vstack([columns[both], across[0][:, None] * columns[slide] + across[1][:, None] * columns[n + slide]])
        last = np.arange(both.size, both.size + slide.size)
        K[last, last] += over - 1 / r[slide]
        right = np.r_[residual[both], across[0] * residual[slide] + across[1] * residual[n + slide]]
        right[both.size :] += across[0] * slip[slide] + across[1] * slip[n + slide] - over * (across * own).sum(axis=0)
        z = np.linalg.solve(K, right)
        change[0, stick] += z[: stick.size]
        change[1, stick] += z[stick.size : both.size]
        change[:, slide] += z[both.size :] * across
        p += change.ravel()
        if np.abs(change).max() <= 1e-7 * bound.max():
            area, px, py = mesh.hx * mesh.hy, p[:n], p[n:]
            return np.array([area @ px, area @ py, area @ (mesh.x * py - mesh.y * px)])
    raise RuntimeError("the rolling contact did not settle")


def timed(work: Callable[[], Field], repeats: int) -> tuple[Field, float]:
    result, times = work(), []
    for _ in range(repeats):
        start = time.process_time()
        result = work()
        times.append(time.process_time() - start)
    return result, float(np.median(times))


def main() -> int:
    """Run both, print the tables."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("program")
    parser.add_argument("--repeats", type=int, default=5)
    arguments = parser.parse_args()
    answer = subprocess.run([arguments.program], check=True, capture_output=True, text=True).stdout
    measured: dict[str, Any] = json.loads(answer)
    a, b, load, mu = (measured[key] for key in ("a_m", "b_m", "load_N", "mu"))
    creep = np.array(measured["creepage"])
    G, C = 210e9 / 2.6, measured["coefficients"][-1]["C"]
    agree = True
    print(f"load averages {' '.join(f'{x:.1f}' for x in os.getloadavg())}; processor times, median, one core")
    print(f"{'law':26s} {'us':>9s} {'NumPy us':>10s} {'ratio':>7s}")
    print(f"{'table of coefficients':26s} {measured['table_cpu_us']:9.3f}")
    for law in measured["laws"]:
        line = f"{law['name']:26s} {law['cpu_us']:9.3f}"
        if law["name"].startswith("simplified"):
            n = int(law["name"].split()[1])
            L = np.array([8 * a / (3 * G * C[0]), 8 * a / (3 * G * C[1]), np.pi * a**2 / (4 * G * C[2] * np.sqrt(a * b))])
            force, plain = timed(lambda L=L, n=n: simplified(L, a, b, load, mu, creep, n, n), 20 * arguments.repeats)
            # The flexibilities here come from the computed coefficients, not the table: near, not equal.
            agree = agree and bool(np.all(np.abs(force - law["force"][:2]) < 0.01 * mu * load))
            line += f" {1e6 * plain:10.1f} {1e6 * plain / law['cpu_us']:7.0f}"
        print(line)
    print(f"\n{'no slip, cells':26s} {'ms':>9s} {'NumPy ms':>10s} {'ratio':>7s}")
    for row in measured["coefficients"]:
        n = row["cells"]
        values, plain = timed(lambda n=n: coefficients(a / b, 0.3, n), arguments.repeats)
        agree = agree and bool(np.allclose(values, row["C"], rtol=1e-8))
        print(f"{n:4d} x {n:<19d} {row['cpu_ms']:9.2f} {1e3 * plain:10.2f} {1e3 * plain / row['cpu_ms']:7.1f}")
    names = ("matrix ms", "NumPy ms", "ratio", "solve ms", "NumPy ms", "ratio", "steps")
    columns = "".join(f"{name:>10s}" for name in names)
    print(f"\n{'rolling, cells':14s}{columns}")
    for row in measured["rolling"]:
        n = row["cells"]
        mesh = Mesh(a, b, n)
        bound = mu * mesh.pressure(load)
        matrix, plain_matrix = timed(lambda mesh=mesh: mesh.slip(0.3) / G, arguments.repeats)
        force, plain = timed(lambda m=matrix, mesh=mesh, bound=bound: rolling(m, mesh, bound, creep), arguments.repeats)
        scale = mu * load * np.array([1.0, 1.0, np.sqrt(a * b)])
        agree = agree and bool(np.all(np.abs(force - row["force"]) < 1e-6 * scale))
        print(f"{n:4d} x {n:<7d}{row['matrix_cpu_ms']:10.2f}{1e3 * plain_matrix:10.2f}"
              f"{1e3 * plain_matrix / row['matrix_cpu_ms']:10.1f}{row['solve_cpu_ms']:10.2f}{1e3 * plain:10.2f}"
              f"{1e3 * plain / row['solve_cpu_ms']:10.1f}{row['steps']:10d}")  # fmt: skip
    if not agree:
        print("the two implementations disagree", file=sys.stderr)
    return 0 if agree else 1


if __name__ == "__main__":
    sys.exit(main())
