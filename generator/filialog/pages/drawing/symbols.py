"""The pedigree symbols: their outline as geometry, and as SVG.

Shapes follow the standardised human pedigree nomenclature (Bennett et al. 1995, revised 2008
and 2022; from memory): square for male, circle for female, diamond for unknown, the number of
individuals inside, a diagonal stroke from lower left to upper right for the deceased, an arrow
from the lower left at the one the drawing is about, a double line between mates that are kin. The
dashed box round a parent set, the dotted line and the three dots are additions of ours.
"""

import math
from dataclasses import dataclass
from typing import Literal, get_args

from markupsafe import Markup

from filialog.domain_error import DomainError
from filialog.pages.drawing.letters import shortened, text_width
from filialog.pages.drawing.pedigree_node import PedigreeNode, Sex
from filialog.pages.drawing.svg import element

__all__ = [
    "DASHES",
    "SAMPLES",
    "Sample",
    "Symbol",
    "draw_symbol",
    "go_on_dots",
    "subject_arrow",
    "symbol_of",
    "symbol_svg",
]

Sample = Literal[
    "subject", "female", "male", "unknown", "several", "deceased", "set",
    "dam", "sire", "part", "related", "goes-on",
]  # fmt: skip
SAMPLES: tuple[Sample, ...] = get_args(Sample)

DASHES: dict[str, str] = {"sire": "6 3", "part": "1.5 3"}
"""Line patterns by side, so that no colour is needed to tell sides; a dam's line is solid."""

_HALF = 13.0
_HALF_DIAMOND = 15.0
_DIGIT = 11.0
_MAX_NUMBER = 46.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Symbol:
    """The outline of one symbol, centred on its own origin."""

    sex: Sex
    """The shape."""
    half_width: float
    """Half the width of the shape, in px."""
    half_height: float
    """Half the height of the shape, in px."""
    number: str
    """The text inside, cut to fit; empty for one animal."""
    is_set: bool
    """Whether a dashed box stands round the shape."""
    deceased: bool
    """Whether a stroke crosses the shape."""

    @property
    def reach_x(self) -> float:
        """Half the width of all that is drawn."""
        return self.half_width + (4.0 if self.is_set or self.deceased else 0.0)

    @property
    def reach_y(self) -> float:
        """Half the height of all that is drawn."""
        return self.half_height + (4.0 if self.is_set or self.deceased else 0.0)

    def edge_x(self, dy: float) -> float:
        """Return how far from the centre a level line at `dy` meets the outline."""
        if self.is_set:
            return self.reach_x
        part = min(abs(dy) / self.half_height, 1.0)
        if self.sex == "male":
            return self.half_width
        if self.sex == "female":
            return self.half_width * math.sqrt(1.0 - part * part)
        return self.half_width * (1.0 - part)


def symbol_of(node: PedigreeNode) -> Symbol:
    """Return the symbol that a node needs, widened for the number inside it."""
    inside = shortened(node.number or "", width=_MAX_NUMBER, size=_DIGIT)
    room = text_width(inside, size=_DIGIT) / 2.0
    if node.sex == "male":
        half_height, needed = _HALF, room + 3.0
    elif node.sex == "female":
        half_height, needed = _HALF, room / 0.94 + 2.0
    else:
        half_height, needed = _HALF_DIAMOND, room / 0.73 + 2.0
    return Symbol(
        sex=node.sex,
        half_width=max(half_height, math.ceil(needed)),
        half_height=half_height,
        number=inside,
        is_set=node.is_set,
        deceased=node.deceased,
    )


def draw_symbol(symbol: Symbol, *, x: float, y: float) -> list[Markup]:
    """Return the elements of the symbol, centred on a point."""
    w, h = symbol.half_width, symbol.half_height
    parts: list[Markup] = []
    if symbol.is_set:
        parts.append(
            element(
                "rect", class_="d-set", x=x - symbol.reach_x, y=y - symbol.reach_y,
                width=2 * symbol.reach_x, height=2 * symbol.reach_y,
                rx=3, fill="none", stroke="currentColor", stroke_dasharray="4 3",
            )
        )  # fmt: skip
    paint = {"class_": f"d-symbol d-{symbol.sex}", "fill": "none", "stroke": "currentColor"}
    if symbol.sex == "male":
        parts.append(element("rect", x=x - w, y=y - h, width=2 * w, height=2 * h, **paint))
    elif symbol.sex == "female":
        parts.append(element("ellipse", cx=x, cy=y, rx=w, ry=h, **paint))
    else:
        corners = element("path", d=_polygon((x - w, y), (x, y - h), (x + w, y), (x, y + h)),
                          **paint)  # fmt: skip
        parts.append(corners)
    if symbol.number:
        parts.append(
            element("text", symbol.number, class_="d-number", x=x, y=y + 4, text_anchor="middle",
                    font_size=_DIGIT)
        )  # fmt: skip
    if symbol.deceased:
        parts.append(
            element("line", class_="d-struck", x1=x - w - 4, y1=y + h + 4, x2=x + w + 4,
                    y2=y - h - 4, stroke="currentColor")
        )  # fmt: skip
    return parts


def _polygon(*corners: tuple[float, float]) -> str:
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in corners) + "Z"


def go_on_dots(*, x: float, y: float) -> list[Markup]:
    """Return three dots to the right of a point."""
    return [element("circle", cx=x + step, cy=y, r=1.6) for step in (6.0, 11.5, 17.0)]


def subject_arrow(symbol: Symbol, *, x: float, y: float) -> Markup:
    """Return the arrow that points at a symbol centred on a point, from its lower left."""
    tip_y = y + 8.0
    tip_x = x - symbol.edge_x(8.0) - 2.0
    corners = _polygon((tip_x, tip_y), (tip_x - 7.0, tip_y - 0.5), (tip_x - 2.5, tip_y + 5.5))
    return element(
        "g",
        element("path", d=f"M{tip_x - 11:.1f} {tip_y + 5.5:.1f}L{tip_x - 4:.1f} {tip_y + 2:.1f}"),
        element("path", d=corners, fill="currentColor", stroke="none"),
        class_="d-arrow",
        fill="none",
        stroke="currentColor",
    )


def symbol_svg(sample: Sample) -> Markup:
    """Return one symbol or line as a small picture for a legend, hidden from screen readers.

    The legend's words stand beside it in the page.
    """
    if sample not in SAMPLES:
        raise DomainError("legend sample", sample, ", ".join(SAMPLES))
    if sample in {"dam", "sire", "part", "related"}:
        levels = (18.5, 21.5) if sample == "related" else (20.0,)
        inside = [
                element("line", class_=f"d-line d-{sample}", x1=2, y1=y, x2=42, y2=y,
                        stroke="currentColor", stroke_dasharray=DASHES.get(sample))
                for y in levels
        ]  # fmt: skip
    elif sample == "goes-on":
        inside = go_on_dots(x=10, y=20)
    else:
        known: dict[str, Sex] = {"female": "female", "male": "male"}
        node = PedigreeNode(
            key="",
            label="",
            sex=known.get(sample, "unknown"),
            number="12" if sample == "several" else None,
            is_set=sample == "set",
            deceased=sample == "deceased",
        )
        symbol = symbol_of(node)
        inside = draw_symbol(symbol, x=22, y=20)
        if sample == "subject":
            inside.append(subject_arrow(symbol, x=22, y=20))
    return element(
        "svg", *inside, class_="d-sample", aria_hidden="true", width=44, height=40,
        viewBox="0 0 44 40", fill="currentColor",
    )  # fmt: skip
