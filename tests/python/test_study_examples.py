"""Examples in the docstrings of sweeps run."""

import doctest
import importlib

import pytest
from study_cases import ROOT

MODULES = [
    "wingnose.study.sampling",
    "wingnose.study.datasets",
    "wingnose.study.running",
    "wingnose.sensitivity",
    "wingnose.optimise",
]


@pytest.mark.parametrize("name", MODULES)
def test_examples_in_docstrings_run(name, monkeypatch):
    monkeypatch.chdir(ROOT)
    failed, tried = doctest.testmod(importlib.import_module(name), optionflags=doctest.ELLIPSIS)
    assert tried > 0
    assert failed == 0
