"""Inline SVG drawings.

In come frozen values with all words; out goes `Markup` without script or style, for a page
whose stylesheet holds `drawing.css`. The same numbers belong in a table below each drawing.
"""

from filialog.pages.drawing.pedigree import pedigree_svg
from filialog.pages.drawing.pedigree_layers import MAX_NODES
from filialog.pages.drawing.pedigree_node import PedigreeNode, Sex, Side
from filialog.pages.drawing.readings import ReadingPoint, readings_svg
from filialog.pages.drawing.share_scale import percent
from filialog.pages.drawing.shares import ShareRow, shares_svg
from filialog.pages.drawing.swatches import Swatch, swatch_svg, swatches
from filialog.pages.drawing.symbols import SAMPLES, Sample, symbol_svg
from filialog.pages.drawing.time_panels import (
    MOST_STACKED,
    PanelPoint,
    StackPanel,
    StackPart,
    ValuePanel,
)
from filialog.pages.drawing.timeline import TimelineMark, timeline_svg

__all__ = [
    "MAX_NODES",
    "MOST_STACKED",
    "SAMPLES",
    "PanelPoint",
    "PedigreeNode",
    "ReadingPoint",
    "Sample",
    "Sex",
    "ShareRow",
    "Side",
    "StackPanel",
    "StackPart",
    "Swatch",
    "TimelineMark",
    "ValuePanel",
    "pedigree_svg",
    "percent",
    "readings_svg",
    "shares_svg",
    "swatch_svg",
    "swatches",
    "symbol_svg",
    "timeline_svg",
]
