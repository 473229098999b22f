"""What all reports share: templates, figures as inline SVG, numbers and inputs in words."""

from __future__ import annotations

import html
import io as text_io
import math
import os.path
import re
from collections.abc import Callable
from typing import Any, NamedTuple, TypeAlias

import matplotlib as mpl
import matplotlib.pyplot as plt
import xarray as xr
from matplotlib.axes import Axes
from matplotlib.figure import Figure as Figure_

from .. import CAUTION
from .._extras import need
from .._house import GRAVE_LINE, lift
from .._reading import gravest_first, title, unit
from ..plot.speeds import SPEED_MARK

# Drawn with the widths of DejaVu Sans; Verdana has nearly the same, so that labels fit wherever the page is opened.
_FONTS = "'DejaVu Sans', Verdana, Geneva, sans-serif"
# Width and height in inches.
_SIZES = {"wide": (7.6, 3.1), "half": (4.9, 3.1), "": (2.75, 2.25)}


class Figure(NamedTuple):
    """A drawing in a page, with what it shows in words; size: "wide", "half" or "" for a third of the width."""

    svg: str
    caption: str
    size: str


class Cell(NamedTuple):
    """A cell of a table; mark: "best", "broken" or nothing; below: a second line."""

    text: str
    mark: str = ""
    below: str = ""


class Head(NamedTuple):
    """Head of a column; left: its cells are words."""

    text: str
    unit: str = ""
    left: bool = False


def left(*texts: str) -> list[Head]:
    """Heads of columns of words."""
    return [Head(text, left=True) for text in texts]


class Row(NamedTuple):
    """A row of a table, the first cell is its head."""

    cells: list[Cell | str]
    marked: bool = False


class Table(NamedTuple):
    """A table; wide: heads of rows may break into lines."""

    name: str
    heads: list[Head]
    rows: list[Row]
    foot: str = ""
    kind: str = "table"


class Figures(NamedTuple):
    """Drawings side by side."""

    shown: list[Figure]
    kind: str = "figures"


class Words(NamedTuple):
    """Sentences: a list, a paragraph ("p"), a heading ("h3"), or a text as it stands in a file ("pre")."""

    texts: list[str]
    kind: str = "list"


class Entry(NamedTuple):
    """What, and its value with unit."""

    label: str
    value: str


class Entries(NamedTuple):
    """Entries below each other; fine: in small print."""

    entries: list[Entry]
    fine: bool = False
    kind: str = "entries"


class Groups(NamedTuple):
    """Entries in columns, each group under its name."""

    groups: list[tuple[str, list[Entry]]]
    kind: str = "groups"


Block: TypeAlias = Table | Figures | Words | Entries | Groups


class Section(NamedTuple):
    """A part of a page; together: on paper it is not parted."""

    name: str
    title: str
    blocks: list[Block]
    small: bool = False
    together: bool = False


class Answer(NamedTuple):
    """The answer at the top: a headline and sentences below it; tone: "kept", "broken" or "open"."""

    tone: str
    headline: str
    sentences: list[str]


def render(heading: str, about: list[str], answer: Answer, found: xr.DataTree, sections: list[Section]) -> str:
    """The page of an answer: heading, answer, findings with the gravest first, sections; all texts are escaped."""
    jinja2 = need("jinja2", "report", "a report")
    loader = jinja2.PackageLoader("wingnose.report", "templates")
    environment = jinja2.Environment(loader=loader, autoescape=True, undefined=jinja2.StrictUndefined,
                                     trim_blocks=True, lstrip_blocks=True)  # fmt: skip
    page = environment.get_template("page.html.j2").render(
        title=heading, about=about, answer=answer, findings=told(found), caution=CAUTION,
        sections=[section for section in sections if section.blocks])  # fmt: skip
    return f"{page}\n"


def told(found: xr.DataTree) -> dict[str, list[str]]:
    """What was found by its gravity, in sentences: each kind once, with all that was found of it and where."""
    blocks = {}
    for gravity, several in gravest_first(found).items():
        kinds: dict[tuple[str, str], dict[str, list[str]]] = {}
        for one in several:
            places = kinds.setdefault((one.kind, one.advice), {}).setdefault(one.what, [])
            places += [one.where] if one.where else []
        blocks[gravity] = [
            prose("; ".join([": ".join(filter(None, ["; ".join(places), what])) for what, places in whats.items()]
                            + ([advice] if advice else [])))
            for (_, advice), whats in kinds.items()
        ]  # fmt: skip
    return blocks


def column(variable: xr.DataArray, head: str = "") -> tuple[Head, list[str]]:
    """A variable as a column of a table: name, unit and decimals are its own."""
    attrs = variable.attrs
    if variable.dtype.kind not in "fiu":
        as_unit, is_number = variable.name == "value_unit", str(variable.name).endswith("_text")
        texts = [unit(str(one)) if as_unit else printed(str(one)) for one in variable.values]
        return Head(head or attrs["long_name"], left=not is_number), texts
    texts = [number(float(one), int(attrs["decimals"])) for one in variable.values]
    return Head(head or attrs["long_name"], unit(attrs.get("units", "-"))), texts


def side_by_side(name: str, columns: list[tuple[Head, list[str]]], foot: str = "") -> Table:
    """A table of columns."""
    rows = [Row(list(cells)) for cells in zip(*(texts for _, texts in columns), strict=True)]
    return Table(name, [head for head, _ in columns], rows, foot)


def printed_columns(node: xr.DataTree) -> list[tuple[Head, list[str]]]:
    """The columns of a node that the program prints, too."""
    return [column(one) for one in node.data_vars.values() if one.attrs.get("detail") == "printed" and one.ndim == 1]


def figure(
    draw: Callable[[Axes], Axes], name: str, alternative: str, caption: str, size: str = "half", height: float = 0.0
) -> Figure:
    """Draw on Axes and return the drawing as SVG to stand in a page. `name` is set before all identifiers, so that
    several drawings can stand in one page; `alternative` says in words what is seen; `size` is that of the
    :class:`Figure`, `height` (inches) other than usual."""
    tiny = size == ""
    width, usual = _SIZES[size]
    style: dict[str, Any] = {"svg.fonttype": "none", "svg.hashsalt": name, "font.family": "DejaVu Sans",
                             "font.size": 7.5 if tiny else 9.0}  # fmt: skip
    with mpl.rc_context(style):  # type: ignore[arg-type]
        drawing, ax = plt.subplots(figsize=(width, height or usual), layout="constrained")
        try:
            draw(ax)
            _lower_the_foot(drawing, tiny)
            ax.set_title("", loc="left")  # the caption says it
            if tiny:
                _make_small(ax)
            target = text_io.StringIO()
            # Maps stand in it as pictures: fine enough for paper.
            drawing.savefig(target, format="svg", dpi=200, transparent=True, metadata={"Date": None, "Creator": None})
        finally:
            plt.close(drawing)
    return Figure(_inline(target.getvalue(), name, alternative), caption, size)


def number(value: float, decimals: int = 1) -> str:
    """A number in print; a dash when there is none."""
    return "–" if not math.isfinite(value) else f"{value:.{decimals}f}".replace("-", "−")


def signed(value: float, decimals: int = 1) -> str:
    """A difference in print, always with its sign."""
    if not math.isfinite(value):
        return "–"
    text = f"{value:+.{decimals}f}"
    return text[1:] if float(text) == 0.0 else text.replace("-", "−")


def fine_decimals(value: float) -> int:
    """Decimals that show three digits of a value, however small.

    Examples
    --------
    >>> fine_decimals(0.0123), fine_decimals(2.5), fine_decimals(1500.0)
    (4, 2, 0)
    """
    size = abs(value)
    return 2 if size == 0.0 or not math.isfinite(size) else max(0, 2 - math.floor(math.log10(size)))


def km_h(value: float) -> str:
    """A permissible speed in print, cut and not rounded: it must not grow."""
    if not math.isfinite(value):
        return "–"
    return f"{math.floor(value * 10.0 + 1e-6) / 10.0:.1f}".removesuffix(".0")


def prose(text: str) -> str:
    """A sentence of the program as a page prints it: capital, full stop, names in quotation marks.

    Examples
    --------
    >>> prose('by P2, median "worn" is last')
    'By P2, median “worn” is last.'
    """
    text = title(re.sub(r'"([^"]*)"', "“\\1”", text))
    return text if text.endswith((".", "!", "?", ":")) else text + "."


def printed(text: str) -> str:
    """A number of the program in print, with a minus sign for its hyphen and a dash for none."""
    return "–" if text == "none" else re.sub(r"^-(?=\d)", "−", text)


def _lower_the_foot(drawing: Figure_, tiny: bool) -> None:
    """The page carries the caution once for all of its figures; what is grave stays, at the very foot."""
    grave = [text for text in drawing.texts if text.get_gid() == GRAVE_LINE]
    for text in drawing.texts[:]:
        if text not in grave:
            text.remove()
    line = 0.15 / drawing.get_figheight()
    for place, text in enumerate(grave):
        text.set_y(0.1 * line + place * line)
        text.set_fontsize(6.5)
        text.set_text(text.get_text().partition(";")[0] if tiny else text.get_text())
    lift(drawing, line * len(grave))


def _make_small(ax: Axes) -> None:
    for text in list(ax.texts):
        if text.get_gid() == SPEED_MARK:
            text.remove()
    for text in [ax.xaxis.label, ax.yaxis.label, *ax.texts]:
        text.set_fontsize(7.5)
    found = ax.get_legend()
    if found is not None:
        handles, labels = ax.get_legend_handles_labels()
        found.remove()
        if len(handles) > 1:
            start = len(os.path.commonprefix(labels))
            ax.legend(handles, [label[start:] for label in labels], frameon=False, fontsize=7, ncols=2,
                      loc="lower left", bbox_to_anchor=(0.0, 1.0), borderaxespad=0.1, handlelength=1.6,
                      columnspacing=0.9)  # fmt: skip


def _inline(svg: str, name: str, alternative: str) -> str:
    body = svg[svg.index("<svg") :]
    body = re.sub(r"<metadata>.*?</metadata>", "", body, flags=re.DOTALL)
    known: set[str] = set()

    def own_id(found: re.Match[str]) -> str:
        # Marks of equal shape are defined anew for every line, under one name: the first one serves all.
        first = found[1] not in known
        known.add(found[1])
        return f' id="{name}-{found[1]}"' if first else ""

    body = re.sub(r'\sid="([^"]+)"', own_id, body)
    body = re.sub(r"url\(#([^)]+)\)", rf"url(#{name}-\1)", body)
    body = re.sub(r'xlink:href="#([^"]+)"', rf'href="#{name}-\1"', body)
    body = re.sub(r'\s+xmlns(:\w+)?="[^"]*"', "", body)  # HTML knows both
    body = body.replace("'DejaVu Sans'", _FONTS)
    head = re.match(r"<svg([^>]*)>", body)
    if head is None:
        return body
    attributes = re.sub(r'\s(width|height)="[^"]*"', "", head[1])
    words = f'<title id="{name}-title">{html.escape(alternative)}</title>'
    return f'<svg{attributes} role="img" aria-labelledby="{name}-title">{words}{body[head.end() :]}'
