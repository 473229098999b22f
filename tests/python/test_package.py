"""What is shipped besides code: stubs that match, types that hold, examples that run."""

import doctest
import re
import subprocess
import sys
from importlib import metadata, resources
from pathlib import Path

import wingnose

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "bindings" / "wingnose"


def test_stubs_are_those_of_the_module(tmp_path):
    subprocess.run(
        [sys.executable, str(ROOT / "bindings" / "make_stubs.py"), str(tmp_path)], check=True, capture_output=True, timeout=300
    )
    made = {path.relative_to(tmp_path): path for path in sorted(tmp_path.rglob("*.pyi"))}
    kept = {path.relative_to(PACKAGE): path for path in sorted(PACKAGE.rglob("*.pyi"))}
    advice = "run: python bindings/make_stubs.py bindings/wingnose"
    assert made.keys() == kept.keys(), advice
    for name, path in made.items():
        assert path.read_text(encoding="utf-8") == kept[name].read_text(encoding="utf-8"), f"{name}: {advice}"


def test_the_package_says_it_is_typed_and_ships_its_stubs():
    shipped = resources.files(wingnose)
    assert (shipped / "py.typed").is_file()
    assert (shipped / "_core" / "__init__.pyi").is_file()


def test_one_version_everywhere():
    assert wingnose.__version__ == metadata.version("wingnose")
    for name, pattern in {
        "CMakeLists.txt": r"project\(wingnose VERSION ([\d.]+)",
        "pyproject.toml": r'(?m)^version = "([\d.]+)"',
        "CITATION.cff": r"(?m)^version: ([\d.]+)",
    }.items():
        found = re.search(pattern, (ROOT / name).read_text(encoding="utf-8"))
        assert found and found[1] == wingnose.__version__, name


def test_all_that_is_exported_exists():
    assert sorted(wingnose.__all__) == sorted(set(wingnose.__all__))
    for name in wingnose.__all__:
        assert hasattr(wingnose, name), name


def test_examples_in_the_developers_page_run():
    failed, tried = doctest.testfile(str(ROOT / "DEVELOPERS.md"), module_relative=False, optionflags=doctest.ELLIPSIS)
    assert tried > 0
    assert failed == 0
