"""Reading a pedigree drawing back from its bytes, and what must hold of its geometry."""

import itertools
import math
import re
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from filialog.pages.drawing.letters import text_width
from filialog.pages.drawing.swatches import SWATCH_SIZE

__all__ = ["Drawn", "check_geometry", "connected", "number_of", "read_back"]

Rect = tuple[float, float, float, float]
Line = tuple[float, float, float, float]
_ROUNDING = 0.11


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One node as the drawing shows it."""

    title: str
    href: str | None
    hit: Rect
    shape: str
    centre: tuple[float, float]
    half: tuple[float, float]
    texts: tuple[Rect, ...]
    """Where words can stand, a look among them."""
    extras: tuple[Rect, ...]
    """The swatch of the look, the dots of what goes on, the arrow."""
    dashed: Rect | None

    def chord(self, offset: float, *, upright: bool) -> float:
        """Return half of what a level or upright line cuts from the shape at an offset."""
        across, along = (self.half[0], self.half[1]) if upright else (self.half[1], self.half[0])
        part = abs(offset) / across
        if part >= 1:
            return 0.0
        if self.shape == "rect":
            return along
        return along * (math.sqrt(1 - part * part) if self.shape == "ellipse" else 1 - part)


def number_of(element: ET.Element, name: str) -> float:
    """Return an attribute that is a number."""
    return float(element.attrib[name])


def _rect(element: ET.Element) -> Rect:
    x, y = number_of(element, "x"), number_of(element, "y")
    return x, y, x + number_of(element, "width"), y + number_of(element, "height")


def _text_box(element: ET.Element) -> Rect:
    size = number_of(element, "font-size")
    bold = element.attrib["class"] == "d-label"
    half = text_width(element.text or "", size=size, bold=bold) / 2
    x, y = number_of(element, "x"), number_of(element, "y")
    if "text-anchor" not in element.attrib:
        x += half
    return x - half, y - size * 0.9, x + half, y + size * 0.24


def _extra(element: ET.Element) -> Rect | None:
    """Return the box of a part beside the symbol; None for any other part."""
    kind = element.attrib.get("class", "").split()
    if "d-look" in kind:
        x, y = map(float, re.findall(r"[\d.]+", element.attrib["transform"]))
        return x, y, x + SWATCH_SIZE, y + SWATCH_SIZE
    if "d-joins" in kind:
        spots = [
            (number_of(dot, "cx"), number_of(dot, "cy"), number_of(dot, "r")) for dot in element
        ]
        return (
            min(x - r for x, _, r in spots), min(y - r for _, y, r in spots),
            max(x + r for x, _, r in spots), max(y + r for _, y, r in spots),
        )  # fmt: skip
    if "d-arrow" in kind:
        numbers = [
            float(spot) for part in element for spot in re.findall(r"[\d.]+", part.attrib["d"])
        ]
        return min(numbers[::2]), min(numbers[1::2]), max(numbers[::2]), max(numbers[1::2])
    return None


def _drawn(element: ET.Element) -> Drawn:
    hit, dashed = None, None
    shape, centre, half = "", (0.0, 0.0), (0.0, 0.0)
    for part in element:
        kind = part.attrib.get("class", "")
        if kind == "d-hit":
            hit = _rect(part)
        elif kind == "d-set":
            dashed = _rect(part)
        elif kind.startswith("d-symbol"):
            shape = part.tag
            if shape == "rect":
                x1, y1, x2, y2 = _rect(part)
            elif shape == "ellipse":
                centre = (number_of(part, "cx"), number_of(part, "cy"))
                half = (number_of(part, "rx"), number_of(part, "ry"))
                continue
            else:
                spots = [float(spot) for spot in re.findall(r"[\d.]+", part.attrib["d"])]
                x1, x2 = min(spots[::2]), max(spots[::2])
                y1, y2 = min(spots[1::2]), max(spots[1::2])
            centre, half = ((x1 + x2) / 2, (y1 + y2) / 2), ((x2 - x1) / 2, (y2 - y1) / 2)
    assert hit is not None
    return Drawn(
        title=element.findtext("title") or "",
        href=element.attrib.get("href"),
        hit=hit,
        shape=shape,
        centre=centre,
        half=half,
        texts=tuple(
            _text_box(text) for text in element.iter("text") if text.attrib["class"] != "d-number"
        ),
        extras=tuple(box for part in element if (box := _extra(part)) is not None),
        dashed=dashed,
    )


def read_back(svg: str) -> tuple[list[Drawn], list[Line], ET.Element]:
    """Return the nodes and lines of a drawing, and its tree."""
    root = ET.fromstring(svg)
    nodes = [
        _drawn(element) for element in root if "d-node" in element.attrib.get("class", "").split()
    ]
    lines: list[Line] = []
    for path in root.iter("path"):
        if not path.attrib.get("class", "").startswith("d-line"):
            continue
        pieces = re.findall(r"M([\d.]+) ([\d.]+)([HV])([\d.]+)", path.attrib["d"])
        assert "".join(f"M{x} {y}{way}{end}" for x, y, way, end in pieces) == path.attrib["d"]
        for x, y, way, end in pieces:
            x1, y1, to = float(x), float(y), float(end)
            x2, y2 = (to, y1) if way == "H" else (x1, to)
            lines.append((min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)))
    return nodes, lines, root


def overlap(one: Rect, other: Rect) -> bool:
    """Tell whether two rectangles, or a line and one, share more than an edge."""
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return wide > _ROUNDING and high > _ROUNDING


def cuts_box(line: Line, box: Rect) -> bool:
    """Tell whether a line runs inside a box."""
    inner = (box[0] + _ROUNDING, box[1] + _ROUNDING, box[2] - _ROUNDING, box[3] - _ROUNDING)
    return min(line[2], inner[2]) >= max(line[0], inner[0]) and min(line[3], inner[3]) >= max(
        line[1], inner[1]
    )


def cuts_symbol(line: Line, node: Drawn) -> bool:
    """Tell whether a line runs inside the outline of a symbol, be it the one it leads to."""
    if node.dashed is not None:
        return cuts_box(line, node.dashed)
    (cx, cy), level = node.centre, line[1] == line[3]
    if level:
        reach = node.chord(line[1] - cy, upright=False) - 2 * _ROUNDING
        return reach > 0 and min(line[2], cx + reach) > max(line[0], cx - reach)
    reach = node.chord(line[0] - cx, upright=True) - 2 * _ROUNDING
    return reach > 0 and min(line[3], cy + reach) > max(line[1], cy - reach)


def check_geometry(svg: str) -> None:
    """Assert that nothing in a drawing lies on anything else, nor outside of the drawing."""
    nodes, lines, root = read_back(svg)
    page = (0.0, 0.0, number_of(root, "width"), number_of(root, "height"))
    for one, other in itertools.combinations(nodes, 2):
        assert not overlap(one.hit, other.hit), (one.title, other.title)
    for node in nodes:
        for text in node.texts:
            assert text[0] >= node.hit[0] - 1
            assert text[2] <= node.hit[2] + 1
            assert node.hit[1] <= text[1] <= text[3] <= node.hit[3] + 0.5
        for box in node.extras:
            assert node.hit[0] - 1 <= box[0] <= box[2] <= node.hit[2] + 1, (box, node)
            assert node.hit[1] <= box[1] <= box[3] <= node.hit[3] + 0.5, (box, node)
        for one_text, other_text in itertools.combinations((*node.texts, *node.extras), 2):
            assert not overlap(one_text, other_text), node
        for line in lines:
            assert not cuts_symbol(line, node), (line, node)
            boxes = (*node.texts, *node.extras)
            assert not any(cuts_box(line, box) for box in boxes), (line, node)
    for box in [*(node.hit for node in nodes), *lines]:
        assert page[0] <= box[0] <= box[2] <= page[2]
        assert page[1] <= box[1] <= box[3] <= page[3]
    for first, second in itertools.combinations(lines, 2):
        level = first[1] == first[3] == second[1] == second[3]
        upright = first[0] == first[2] == second[0] == second[2]
        if level:
            assert min(first[2], second[2]) <= max(first[0], second[0]), (first, second)
        if upright:
            assert min(first[3], second[3]) <= max(first[1], second[1]), (first, second)


def _on(spot: tuple[float, float], line: Line) -> bool:
    """Tell whether a spot lies on a line, give or take half the distance of a double line."""
    near = 1.6
    return (
        line[0] - near <= spot[0] <= line[2] + near
        and line[1] - _ROUNDING <= spot[1] <= line[3] + _ROUNDING
    )


def _touch(one: Line, other: Line) -> bool:
    """Tell whether an end of one line lies on the other; a plain crossing does not touch."""
    return any(
        _on(end, target)
        for line, target in ((one, other), (other, one))
        for end in (line[:2], line[2:])
    )


def connected(svg: str) -> list[tuple[str, ...]]:
    """Return which nodes each connected set of lines joins, as `child KEY` and `parent KEY`.

    Lines connect where one ends on the other, or where they cross under a dot.
    """
    nodes, lines, tree = read_back(svg)
    dots = [(number_of(dot, "cx"), number_of(dot, "cy")) for dot in tree.iter("circle")]
    group = list(range(len(lines)))

    def root(index: int) -> int:
        while group[index] != index:
            index = group[index]
        return index

    for one, other in itertools.combinations(range(len(lines)), 2):
        dotted = any(_on(dot, lines[one]) and _on(dot, lines[other]) for dot in dots)
        if dotted or _touch(lines[one], lines[other]):
            group[root(one)] = root(other)
    found: dict[int, set[str]] = {}
    for index, line in enumerate(lines):
        ends = found.setdefault(root(index), set())
        if line[1] != line[3]:
            continue
        for node in nodes:
            cx, cy = node.centre
            if abs(line[1] - cy) > node.half[1]:
                continue
            box = node.dashed
            reach = (box[2] - cx) if box else node.chord(line[1] - cy, upright=False)
            if abs(line[0] - (cx + reach)) < 0.3:
                ends.add(f"child {node.title}")
            if abs(line[2] - (cx - reach)) < 0.3:
                ends.add(f"parent {node.title}")
    return sorted(tuple(sorted(ends)) for ends in found.values())
