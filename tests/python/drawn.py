"""What every sheet must be, its lines by their names, and answers with single values changed."""

import re

import numpy as np
import xarray
from matplotlib.axes import Axes

import wingnose

GRAVE = {
    "gravity": "grave",
    "kind": "flange_contact",
    "where": "wing, stations 1 to 2 mm",
    "what": "the flange carries the wheel <hard>",
    "advice": "give a smaller offset",
}


def check_sheet(ax):
    """Units on the axes, the caution once."""
    assert isinstance(ax, Axes)
    for label in (ax.get_xlabel(), ax.get_ylabel()):
        assert not label or re.search(r"\[[^\]]+\]$", label), label
    assert ax.get_xlabel() and ax.get_title(loc="left")
    assert [text.get_text() for text in ax.figure.texts].count(wingnose.CAUTION) == 1
    ax.figure.canvas.draw()
    return ax


def line(ax, start):
    return next(item for item in ax.get_lines() if item.get_label().startswith(start))


def labels(ax):
    return {item.get_label() for item in ax.get_lines() if not item.get_label().startswith("_")}


def words(ax):
    return [text.get_text() for text in ax.figure.texts]


def column(answer, path, **at):
    return answer[path].isel(at).values


def changed(answer, values):
    """An answer with some variables of it changed: path to values, or to a function of the old ones."""
    nodes = {node.path: node.to_dataset(inherit=False).copy(deep=True) for node in answer.subtree}
    for path, new in values.items():
        node, _, name = path.rpartition("/")
        old = nodes[f"/{node}"][name]
        nodes[f"/{node}"][name] = (old.dims, np.asarray(new(old.values.copy()) if callable(new) else new), old.attrs)
    return _tree(answer, nodes)


def with_grave(answer):
    """An answer with a grave finding more, the last of its list."""
    nodes = {node.path: node.to_dataset(inherit=False).copy(deep=True) for node in answer.subtree}
    found = nodes["/findings"]
    nodes["/findings"] = xarray.Dataset(
        {key: ("finding", np.append(found[key].values, [text]).astype(object)) for key, text in GRAVE.items()}
    )
    return _tree(answer, nodes)


def _tree(answer, nodes):
    made = xarray.DataTree.from_dict(nodes, name=answer.name)
    made.attrs = answer.attrs
    return made
