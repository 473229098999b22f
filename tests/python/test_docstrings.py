"""Examples in docstrings are run, in all modules of the package."""

import doctest
import importlib
import pkgutil
from pathlib import Path

import pytest

import wingnose

ROOT = Path(__file__).resolve().parents[2]
MODULES = sorted(
    module.name
    for module in pkgutil.walk_packages(wingnose.__path__, "wingnose.")
    if "._core" not in module.name and not module.name.endswith("__main__")
)


def test_all_parts_of_the_package_are_looked_at():
    assert {"wingnose.plot.speeds", "wingnose.report", "wingnose.study.answers"} <= set(MODULES)


@pytest.mark.parametrize("name", ["wingnose", *MODULES])
def test_examples_do_what_they_say(name, monkeypatch):
    monkeypatch.chdir(ROOT)  # examples name profiles/demo.toml
    module = importlib.import_module(name)
    failed, _ = doctest.testmod(module, optionflags=doctest.NORMALIZE_WHITESPACE | doctest.ELLIPSIS)
    assert failed == 0
