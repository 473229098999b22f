"""Every notebook runs from start to end in less than two minutes, and is stored without output."""

import os
import time
from pathlib import Path

import pytest

import wingnose

nbformat = pytest.importorskip("nbformat")
nbclient = pytest.importorskip("nbclient")

FOLDER = Path(__file__).resolve().parents[2] / "notebooks"
NOTEBOOKS = sorted(FOLDER.glob("*.ipynb"))
SECONDS = 120


def test_there_are_notebooks():
    assert {path.name[:2] for path in NOTEBOOKS} >= {"01", "02", "03", "05"}


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_notebook_is_stored_without_output_and_says_the_caution(path):
    notebook = nbformat.read(path, as_version=4)
    nbformat.validate(notebook)
    cells = [cell for cell in notebook.cells if cell.cell_type == "code"]
    assert cells
    assert all(cell.outputs == [] and cell.execution_count is None for cell in cells)
    texts = [cell.source for cell in notebook.cells if cell.cell_type == "markdown"]
    assert any(wingnose.CAUTION in text for text in texts)
    assert len(texts) >= len(cells) // 2, "a notebook explains what it shows"


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_notebook_runs_within_two_minutes(path, command_line, monkeypatch):
    # Also the notebooks that call the program find the one under test.
    monkeypatch.setenv("PATH", str(Path(command_line).parent) + os.pathsep + os.environ["PATH"])
    monkeypatch.setenv("MPLBACKEND", "module://matplotlib_inline.backend_inline")
    notebook = nbformat.read(path, as_version=4)
    client = nbclient.NotebookClient(
        notebook, timeout=SECONDS, kernel_name="python3", resources={"metadata": {"path": str(FOLDER)}}
    )
    begin = time.monotonic()
    client.execute()
    assert time.monotonic() - begin < SECONDS
    shown = [output for cell in notebook.cells if cell.cell_type == "code" for output in cell.outputs]
    assert any("image/png" in output.get("data", {}) for output in shown)
    assert not any(output.output_type == "stream" and output.name == "stderr" for output in shown), "a warning"
