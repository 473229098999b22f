"""Answers as ``xarray.DataTree``: one shape for what was just computed and for files of every kind."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ._core import Finding, InputError, Tree, __commit__, __version__, caution, check_target, read_tree, write_tree

if TYPE_CHECKING:
    import xarray as xr


def to_datatree(tree: Tree) -> xr.DataTree:
    """The DataTree of an answer of the compiled core: its groups as nodes, its arrays as variables.

    Each variable has ``units``, ``long_name`` and ``description``; an array named like its dimension is its coordinate.
    ``attrs`` of the root: ``answer`` (run, speeds, comparison, ...), name, version, caution.
    """
    import xarray

    nodes: dict[str, Any] = {"/": xarray.Dataset()}
    for path, title, _, arrays in tree.groups:
        variables = {
            name: xarray.Variable(dims, values, attrs) for name, dims, values, attrs in arrays if values is not None
        }
        node = xarray.Dataset({name: v for name, v in variables.items() if v.dims != (name,)}, attrs={"title": title})
        nodes["/" + path] = node.assign_coords({name: v for name, v in variables.items() if v.dims == (name,)})
    made: xr.DataTree = xarray.DataTree.from_dict(nodes, name=tree.kind)
    made.attrs = {"answer": tree.kind, "version": __version__, "commit": __commit__, **tree.attributes, "caution": caution}
    return made


def open(file: str | os.PathLike[str]) -> xr.DataTree:
    """An answer stored in a file of any kind: a run, a speed study, a comparison, a contact, a damage, a sweep.

    ``file``: HDF5, written by a command with ``-o`` or by a function with ``file=``. Returns the tree that function
    returned; ``wingnose keys`` lists what each kind holds. Raises InputError for other files, for those of a newer
    layout, and for damaged ones.

    Examples
    --------
    >>> import tempfile, pathlib, wingnose
    >>> folder = tempfile.TemporaryDirectory()
    >>> file = pathlib.Path(folder.name, "run.h5")
    >>> answer = wingnose.run(wingnose.read_case("profiles/demo.toml"), file=file)
    >>> again = wingnose.open(file)
    >>> again.attrs["answer"], again["measures/p2_kN"].attrs["units"]
    ('run', 'kN')
    >>> float(again["measures/p2_kN"]) == float(answer["measures/p2_kN"])
    True
    >>> folder.cleanup()
    """
    tree = read_tree(Path(file))
    try:
        return to_datatree(tree)
    except (ValueError, TypeError) as error:
        raise InputError(f'result file "{file}" does not fit together ({error}); take a sound copy of it') from error


def findings(answer: xr.DataTree, *, gravity: str | None = None) -> list[Finding]:
    """What a reader of an answer must know beside its numbers, in the order of print; of one `gravity` ("note",
    "warning" or "grave") when given."""
    if gravity not in (None, "note", "warning", "grave"):
        raise InputError(f"gravity: {gravity!r} is not allowed; allowed: note, warning or grave.")
    if "findings" not in answer.children:
        return []
    node = answer["findings"]
    found = [Finding(*map(str, row)) for row in zip(*(node[key].values for key in ("kind", "what", "where")), strict=True)]
    return [one for one in found if gravity in (None, one.gravity)]


def stored(make: Callable[[], Tree], file: str | os.PathLike[str] | None) -> xr.DataTree:
    """The DataTree of an answer, which is written to a file where one is given; whether it can be is found out before
    anything is computed."""
    if file is None:
        return to_datatree(make())
    if not os.fspath(file):
        raise InputError('file: "" is not allowed; allowed: the name of a file such as "result.h5".')
    check_target(Path(file))
    tree = make()
    write_tree(Path(file), tree)
    return to_datatree(tree)
