"""The pedigree drawing.

The last generation stands at the left and its ancestors at the right: in a scroll box on a
phone the animal of the page is what shows first, a column is as narrow as its names, and the
many founders grow down the page, the way a phone scrolls. A pedigree drawn downwards would put
its widest generation across the narrow screen. Turned by a quarter, the nomenclature's rules
stay: mates share one line, sires above dams where no line has to cross for it, a double line
joins mates that are kin, and their young hang on that line.

A dam's line is solid, a sire's dashed, a set's member's dotted, so that sides show without
colour. Lines that join have a dot; lines that cross have none.
"""

from collections.abc import Sequence

from markupsafe import Markup

from filialog.pages.drawing.letters import text_width
from filialog.pages.drawing.pedigree_layout import (
    LABEL_SIZE,
    LINE_HEIGHT,
    LOOK_INDENT,
    NOTE_SIZE,
    Box,
    lay_out,
)
from filialog.pages.drawing.pedigree_node import PedigreeNode
from filialog.pages.drawing.pedigree_routes import Segment
from filialog.pages.drawing.svg import drawing, element, number
from filialog.pages.drawing.swatches import draw_swatch
from filialog.pages.drawing.symbols import DASHES, draw_symbol, go_on_dots, subject_arrow

__all__ = ["pedigree_svg"]

_STYLES = ("descent", "dam", "sire", "part", "related")
_FRAME = 3.0
"""From the widest words to the frame that shows the focus, in px."""
_TARGET = 24.0
"""Least height and width of what can be clicked, in px (WCAG 2.2, 2.5.8)."""


def pedigree_svg(nodes: tuple[PedigreeNode, ...], *, title: str, describe: str) -> Markup:
    """Return the pedigree of 1 to 400 nodes; each is drawn once, however many paths lead to it.

    The order of `nodes` does not matter. A parent that is no node is not drawn. DomainError: no
    or too many nodes, a key used twice, or an animal among its own ancestors.
    """
    layout = lay_out(nodes)
    lines = [
        element(
            "path", class_=f"d-line d-{style}", d=_path(layout.segments, style),
            stroke_dasharray=DASHES.get(style),
        )
        for style in _STYLES
        if any(segment.style == style for segment in layout.segments)
    ]  # fmt: skip
    dots = [element("circle", cx=dot.x, cy=dot.y, r=2.5) for dot in layout.dots]
    inside: list[Markup] = []
    if lines:
        inside.append(element("g", *lines, fill="none", stroke="currentColor"))
    if dots:
        inside.append(element("g", *dots, class_="d-joins"))
    return drawing(
        *inside,
        *(_node(box) for box in layout.boxes),
        kind="pedigree",
        title=title,
        describe=describe,
        width=layout.width,
        height=layout.height,
        has_links=any(node.href is not None for node in nodes),
        fits=False,
    )


def _path(segments: Sequence[Segment], style: str) -> str:
    ordered = sorted(
        (line.x1, line.y1, line.x2, line.y2) for line in segments if line.style == style
    )
    return "".join(
        f"M{number(x1)} {number(y1)}" + (f"H{number(x2)}" if y1 == y2 else f"V{number(y2)}")
        for x1, y1, x2, y2 in ordered
    )


def _node(box: Box) -> Markup:
    texts: list[Markup] = []
    base = box.text_top - 3.0
    for line in box.label:
        base += LINE_HEIGHT
        texts.append(
            element("text", line, class_="d-label", x=box.x, y=base, text_anchor="middle",
                    font_size=LABEL_SIZE)
        )  # fmt: skip
    for line in box.notes:
        base += LINE_HEIGHT
        texts.append(
            element("text", line, class_="d-note", x=box.x, y=base, text_anchor="middle",
                    font_size=NOTE_SIZE)
        )  # fmt: skip
    if box.look:
        texts += _look_row(box, base=base + LINE_HEIGHT)
    node = box.node
    parts = (node.label, node.number, *node.lines, node.look, *node.told)
    full = ", ".join(part for part in parts if part)
    top = box.y - box.symbol.reach_y
    width = max(box.width + 2 * _FRAME, _TARGET)
    content = (
        element("title", full),
        element("rect", class_="d-hit", x=box.x - width / 2, y=top, width=width,
                height=max(box.bottom - top, _TARGET), rx=4, fill="none"),
        *draw_symbol(box.symbol, x=box.x, y=box.y),
        *_beside(box),
        *texts,
    )  # fmt: skip
    kind = "d-node d-subject" if node.is_subject else "d-node"
    if node.href is None:
        return element("g", *content, class_=kind)
    return element("a", *content, class_=kind, href=node.href)


def _look_row(box: Box, *, base: float) -> list[Markup]:
    """Return the last line: the swatch of the look, and its name."""
    swatch = box.node.swatch
    if swatch is None:
        return [
            element("text", box.look, class_="d-note", x=box.x, y=base, text_anchor="middle",
                    font_size=NOTE_SIZE)
        ]  # fmt: skip
    left = box.x - (text_width(box.look, size=NOTE_SIZE) + LOOK_INDENT) / 2.0
    return [
        draw_swatch(swatch, x=left, y=base - 10.0),
        element("text", box.look, class_="d-note", x=left + LOOK_INDENT, y=base,
                font_size=NOTE_SIZE),
    ]  # fmt: skip


def _beside(box: Box) -> list[Markup]:
    """Return what stands beside the symbol: dots for what goes on, an arrow at the subject."""
    found: list[Markup] = []
    if box.node.goes_on:
        dots = go_on_dots(x=box.x + box.symbol.reach_x, y=box.y)
        found.append(element("g", *dots, class_="d-joins"))
    if box.node.is_subject:
        found.append(subject_arrow(box.symbol, x=box.x, y=box.y))
    return found
