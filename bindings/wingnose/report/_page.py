"""What all reports share: templates, figures as inline SVG, numbers and inputs in words."""

from __future__ import annotations

import html
import io as text_io
import math
import os.path
import re
from typing import TYPE_CHECKING, Any, NamedTuple

import matplotlib as mpl
import matplotlib.pyplot as plt

from .. import CAUTION
from .._extras import need
from ..plot.speeds import SPEED_MARK

if TYPE_CHECKING:
    from collections.abc import Callable

    from matplotlib.axes import Axes

# Drawn with the widths of DejaVu Sans; Verdana has nearly the same, so that labels fit wherever the page is opened.
_FONTS = "'DejaVu Sans', Verdana, Geneva, sans-serif"
_UNITS = {
    "km_h": "km/h",
    "mrad": "mrad",
    "MN_m2": "MN·m²",
    "MN_m": "MN/m",
    "kNs_m": "kN s/m",
    "kg_m2": "kg·m²",
    "kg_m": "kg/m",
    "GPa": "GPa",
    "MN": "MN",
    "kN": "kN",
    "kg": "kg",
    "mm": "mm",
    "um": "µm",
    "us": "µs",
    "ms": "ms",
    "Hz": "Hz",
    "m": "m",
}


class Figure(NamedTuple):
    """A drawing in a page, with what it shows in words."""

    svg: str
    caption: str
    wide: bool


class Entry(NamedTuple):
    """An input: what, and its value with unit."""

    label: str
    value: str


def render(template: str, **values: Any) -> str:
    """Fill a template of this package; all texts are escaped."""
    jinja2 = need("jinja2", "report", "a report")
    environment = jinja2.Environment(
        loader=jinja2.PackageLoader("wingnose.report", "templates"),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["number"] = number
    environment.filters["km_h"] = km_h
    environment.filters["signed"] = signed
    environment.filters["unit"] = unit
    environment.filters["sentence"] = sentence
    environment.filters["prose"] = prose
    return str(environment.get_template(template).render(caution=CAUTION, **values)) + "\n"


def figure(
    draw: Callable[[Axes], Axes], name: str, alternative: str, caption: str, size: tuple[float, float], *, wide: bool
) -> Figure:
    """Draw on Axes of the given size (inches) and return the drawing as SVG to stand in a page.

    `name` is set before all identifiers, so that several drawings can stand in one page; `alternative` says in words
    what is seen.
    """
    tiny = size[0] < 3.0
    style: dict[str, Any] = {
        "svg.fonttype": "none",
        "svg.hashsalt": name,
        "font.family": "DejaVu Sans",
        "font.size": 7.5 if tiny else 9.0,
    }
    with mpl.rc_context(style):  # type: ignore[arg-type]
        drawing, ax = plt.subplots(figsize=size, layout="constrained")
        try:
            draw(ax)
            for text in list(drawing.texts):  # the page carries the caution line once for all of its figures
                text.remove()
            engine = drawing.get_layout_engine()
            if engine is not None:
                engine.set(rect=(0.0, 0.0, 1.0, 1.0))  # type: ignore[call-arg]
            ax.set_title("", loc="left")  # the caption says it
            if tiny:
                _make_small(ax)
            target = text_io.StringIO()
            # Maps stand in it as pictures: fine enough for paper.
            drawing.savefig(target, format="svg", dpi=200, transparent=True, metadata={"Date": None, "Creator": None})
        finally:
            plt.close(drawing)
    return Figure(_inline(target.getvalue(), name, alternative), caption, wide)


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


def unit(name: str) -> str:
    """A unit in print; nothing for quantities without one."""
    return {"-": "", "m/s2": "m/s²", "mm3": "mm³", "1e-6": "10⁻⁶", "N s": "N s"}.get(name, name)


def sentence(text: str) -> str:
    """A text with a capital at its begin."""
    return text[:1].upper() + text[1:]


def prose(text: str) -> str:
    """A sentence of the program as a page prints it: capital, full stop, names in quotation marks.

    Examples
    --------
    >>> prose('by P2, median "worn" is last')
    'By P2, median “worn” is last.'
    """
    text = sentence(re.sub(r'"([^"]*)"', "“\\1”", text))
    return text if text.endswith((".", "!", "?", ":")) else text + "."


def entry(key: str, value: str) -> Entry:
    """A case key in words.

    Examples
    --------
    >>> entry("track.pad_stiffness_MN_m", "120")
    Entry(label='pad stiffness', value='120 MN/m')
    """
    name = key.rsplit(".", 1)[-1]
    for suffix, unit in _UNITS.items():
        if name.endswith("_" + suffix):
            return Entry(name.removesuffix("_" + suffix).replace("_", " "), f"{value} {unit}")
    return Entry(name.replace("_", " "), value)


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
            ax.legend(handles, [label[start:] for label in labels], frameon=False, fontsize=7, ncols=2, loc="lower left",
                      bbox_to_anchor=(0.0, 1.0), borderaxespad=0.1, handlelength=1.6, columnspacing=0.9)  # fmt: skip


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
    title = html.escape(alternative)
    return (
        f'<svg{attributes} role="img" aria-labelledby="{name}-title"><title id="{name}-title">{title}</title>'
        + body[head.end() :]
    )
