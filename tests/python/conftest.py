"""One passage shared by all tests, and where things are."""

import shutil
from pathlib import Path

import pytest

import wingnose
from wingnose import study

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def demo_file():
    return ROOT / "profiles" / "demo.toml"


@pytest.fixture(scope="session")
def case(demo_file):
    return wingnose.read_case(demo_file)


@pytest.fixture(scope="session")
def result(case):
    """The values a passage is made of."""
    return study.result_of(case)


@pytest.fixture(scope="session")
def answer(case):
    """The same as named arrays."""
    return wingnose.run(case)


@pytest.fixture(scope="session")
def command_line():
    """The wingnose executable: that of the release build, or the one installed."""
    built = ROOT / "build" / "release" / "wingnose"
    found = str(built) if built.exists() else shutil.which("wingnose")
    if found is None:
        pytest.fail("the wingnose executable is not built; run ./quickstart.sh test, or put it on the PATH")
    return found
