"""The equations of one passage integrated by SciPy's solve_ivp: what a careful script with a general library costs.

Reads the model that ``wingnose_benchmark --export FOLDER`` wrote, so modes, path, contact and vehicle are the same
numbers; only the integration differs. Nothing is wasted on purpose: mode shapes are cubics evaluated by one matrix
product, the modes are one complex vector, and the scalar contact equation is solved in plain floats.
"""

import argparse
import bisect
import json
import math
import os
import time
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # one core, like the program it is compared with

import numpy as np
from scipy.integrate import solve_ivp
from scipy.signal import butter, filtfilt


class Passage:
    """Right-hand side of the passage and its contact force, for state (z as complex pairs, vehicle)."""

    def __init__(self, folder: Path) -> None:
        header = json.loads((folder / "model.json").read_text(encoding="utf-8"))
        numbers = np.fromfile(folder / "model.bin")

        def array(name: str) -> np.ndarray:
            entry = header["arrays"][name]
            size = math.prod(entry["shape"])
            return numbers[entry["offset"] : entry["offset"] + size].reshape(entry["shape"])

        self.header = header
        n = header["modes"]  # padding left out
        self.modes = n
        self.eigenvalue = array("lambda_re")[:n] + 1j * array("lambda_im")[:n]
        theta = array("theta_re")[:, :, :n] + 1j * array("theta_im")[:, :, :n]
        # [element][power, (re, im) pairs]: one real matrix product gives all mode shapes at a place.
        self.theta = list(np.ascontiguousarray(theta).view(float))
        self.node = array("node_m").tolist()
        grid = np.linspace(0.0, 1.0, array("residual_m_per_N").shape[1])
        self.residual = [np.polyfit(grid, r, 6).tolist() for r in array("residual_m_per_N")]
        self.rate = array("vehicle_rate")
        self.input = array("vehicle_input")[:, 0]
        self.station = array("path_station_m").tolist()
        self.height = array("path_height_m").tolist()
        self.stiffness = array("contact_stiffness_N_per_m15").tolist()
        self.static_load = header["static_load_N"]
        self.speed = header["speed_m_s"]
        self.start = header["from_m"]
        self.force = float(array("initial_force_N")[0, 0])  # also the first guess of the next contact solution

        # At rest on the track, but moving with the slope the wheel starts on.
        shape, _ = self.track_at(self.start)
        displacement = array("initial_displacement_m")[:, 0]
        velocity = np.full(displacement.size, self.speed * self.slope(self.start))
        self.initial = np.concatenate(
            [(-shape * self.force / self.eigenvalue).view(float), displacement, velocity]
        )

    def track_at(self, x: float) -> tuple[np.ndarray, float]:
        """Mode shapes [modes] and residual compliance (m/N) at station x."""
        e = bisect.bisect_right(self.node, x) - 1
        s = (x - self.node[e]) / (self.node[e + 1] - self.node[e])
        s2 = s * s
        shape = (np.array((1.0, s, s2, s2 * s)) @ self.theta[e]).view(complex)
        residual = 0.0
        for coefficient in self.residual[e]:
            residual = residual * s + coefficient
        return shape, residual

    def slope(self, x: float) -> float:
        i = bisect.bisect_right(self.station, x) - 1
        return (self.height[i + 1] - self.height[i]) / (self.station[i + 1] - self.station[i])

    def contact(self, t: float, y: np.ndarray) -> tuple[np.ndarray, float]:
        """Mode shapes at the wheel and the contact force F = C max(0, d - R F)^1.5 (N)."""
        x = self.start + self.speed * t
        shape, residual = self.track_at(x)
        modal = (shape @ y[: 2 * self.modes].view(complex)).real
        i = bisect.bisect_right(self.station, x) - 1
        r = (x - self.station[i]) / (self.station[i + 1] - self.station[i])
        height = self.height[i] + r * (self.height[i + 1] - self.height[i])
        c = self.stiffness[i] + r * (self.stiffness[i + 1] - self.stiffness[i])
        d = height - float(modal) - float(y[2 * self.modes])
        if d <= 0.0:
            self.force = 0.0
            return shape, 0.0
        ceiling = d / residual if residual > 0.0 else math.inf
        force = min(max(self.force, 0.0), ceiling)
        for _ in range(50):
            root = math.sqrt(max(0.0, d - residual * force))
            change = (c * root**3 - force) / (1.0 + 1.5 * c * root * residual)
            force = min(max(force + change, 0.0), ceiling)
            if abs(change) <= 1e-9 * force + 1e-6:
                break
        self.force = force
        return shape, force

    def __call__(self, t: float, y: np.ndarray) -> np.ndarray:
        n2 = 2 * self.modes
        shape, force = self.contact(t, y)
        dy = np.empty(y.size)
        dz = dy[:n2].view(complex)
        np.multiply(self.eigenvalue, y[:n2].view(complex), out=dz)
        dy[:n2] += force * shape.view(float)  # real by real: a complex product would take three times as long
        dy[n2:] = self.rate @ y[n2:] + self.input * (force - self.static_load)
        return dy

    def measures(self, t: np.ndarray, y: np.ndarray) -> tuple[float, float]:
        """First peak and P2 (N) of the force history, defined as in wingnose/assess/measures.hpp."""
        h = self.header
        states = np.ascontiguousarray(y.T)
        force = np.array([self.contact(at, state)[1] for at, state in zip(t, states, strict=True)])
        landing = (h["landing_m"] - self.start) / self.speed
        i = int(landing / h["step_s"]) + 1
        while not force[i - 1] < force[i] >= force[i + 1]:
            i += 1
        before, here, after = force[i - 1 : i + 2]
        first = here + (before - after) ** 2 / (8.0 * (2.0 * here - before - after))
        slow = filtfilt(*butter(h["p2_order"], h["p2_cut_off_Hz"], fs=1.0 / h["step_s"]), force)
        after_landing = (t > landing) & (t < landing + h["window_s"])
        return float(first), float(slow[after_landing].max())


def integrate(passage: Passage, method: str, rtol: float) -> dict[str, float | str]:
    """One integration; times of solve_ivp alone, without reading the model and without the measures."""
    h = passage.header
    samples = int((h["to_m"] - h["from_m"]) / (h["speed_m_s"] * h["step_s"]) + 1e-9) + 1
    times = np.arange(samples) * h["step_s"]
    n2 = 2 * passage.modes
    # Modal coordinates, displacements and velocities are of very different size: each has its own absolute tolerance.
    m = (passage.initial.size - n2) // 2
    scale = np.concatenate(
        [np.full(n2, np.abs(passage.initial[:n2]).max()), np.full(m, 1e-3), np.full(m, 0.1)]
    )
    wall, processor = time.perf_counter(), time.process_time()
    solution = solve_ivp(
        passage,
        (0.0, times[-1]),
        passage.initial,
        method=method,
        t_eval=times,
        rtol=rtol,
        atol=1e-2 * rtol * scale,
    )
    wall, processor = time.perf_counter() - wall, time.process_time() - processor
    if not solution.success:
        raise RuntimeError(f"solve_ivp {method}, rtol {rtol:g}: {solution.message}")
    first, p2 = passage.measures(times, solution.y)
    return {
        "method": method,
        "rtol": rtol,
        "wall_s": wall,
        "processor_s": processor,
        "evaluations": int(solution.nfev),
        "first_peak_N": first,
        "p2_N": p2,
    }


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path, help="where wingnose_benchmark --export wrote the model")
    parser.add_argument("--json", type=Path, help="write the results there")
    parser.add_argument("--repeats", type=int, default=1, help="runs per setting, the quickest counts")
    arguments = parser.parse_args()
    passage = Passage(arguments.folder)
    results = []
    for method, rtol in (("RK45", 1e-4), ("RK45", 1e-5), ("DOP853", 1e-2), ("DOP853", 1e-3), ("DOP853", 1e-5)):
        runs = [integrate(passage, method, rtol) for _ in range(arguments.repeats)]
        best = min(runs, key=lambda run: run["processor_s"])
        results.append(best)
        print(
            f"solve_ivp {method:6s} rtol {rtol:.0e}  {best['processor_s']:7.2f} s CPU  {best['wall_s']:7.2f} s wall"
            f"  {best['evaluations']:7d} evaluations  P1 {best['first_peak_N'] / 1e3:.3f} kN"
            f"  P2 {best['p2_N'] / 1e3:.3f} kN",
            flush=True,
        )
    if arguments.json:
        arguments.json.write_text(json.dumps(results, indent=1), encoding="utf-8")


if __name__ == "__main__":
    main()
