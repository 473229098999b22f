"""A case that is cheap to answer, and a program that sweeps it, for the tests of sweeps."""

import os
import subprocess
import sys
from pathlib import Path

import wingnose

ROOT = Path(__file__).resolve().parents[2]


def cheap_case():
    """The demo case on a short stretch of a short, coarse track."""
    text = (ROOT / "profiles" / "demo.toml").read_text(encoding="utf-8")
    for there, here in {
        "from_m = -4": "from_m = -1",
        "to_m = 4": "to_m = 2",
        "spacing_mm = 600": "spacing_mm = 600\nbays = 20\ncut_off_Hz = 1500",
    }.items():
        assert there in text
        text = text.replace(there, here)
    return wingnose.parse_case(text, "short", ROOT / "profiles")


def long_sweep():
    """Cheap, and long enough to be stopped on the way: 600 cases of 150 chunks."""
    return wingnose.study.grid(
        cheap_case(),
        {"passage.speed_km_h": [60 + 4 * i for i in range(20)], "vehicle.static_load_kN": [70 + i for i in range(30)]},
        history_every=200,
    )


CHUNK = 4


def start(file, body):
    """A Python process that runs `body`, in which `plan`, `file` and `tell` (prints the cases done) are known."""
    script = (
        "import signal\nimport sys\nfrom pathlib import Path\nimport wingnose\nfrom study_cases import CHUNK, long_sweep\n"
        # A shell that runs the tests in the background lets all of them ignore Ctrl-C.
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "plan, file = long_sweep(), Path(sys.argv[1])\n"
        "def tell(done, total): print(done, flush=True)\n" + body
    )
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(Path(__file__).parent), *sys.path])}
    return subprocess.Popen(
        [sys.executable, "-c", script, str(file)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=environment,
        start_new_session=True,
    )


def wait_until_done(process, cases):
    """Read what `tell` prints until so many cases are done."""
    for line in process.stdout:
        if int(line) >= cases:
            return
    raise AssertionError(f"ended before {cases} cases: {process.stderr.read()}")
