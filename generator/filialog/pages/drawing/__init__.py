"""Inline SVG drawings.

In come frozen values with all words; out goes `Markup` without script or style, for a page
whose stylesheet holds `drawing.css`. The same numbers belong in a table below each drawing.
"""

from filialog.pages.drawing.pedigree import pedigree_svg
from filialog.pages.drawing.pedigree_node import PedigreeNode, Sex, Side
from filialog.pages.drawing.readings import ReadingPoint, readings_svg
from filialog.pages.drawing.shares import ShareRow, shares_svg
from filialog.pages.drawing.symbols import SAMPLES, Sample, symbol_svg
from filialog.pages.drawing.timeline import TimelineMark, timeline_svg

__all__ = [
    "SAMPLES",
    "PedigreeNode",
    "ReadingPoint",
    "Sample",
    "Sex",
    "ShareRow",
    "Side",
    "TimelineMark",
    "pedigree_svg",
    "readings_svg",
    "shares_svg",
    "symbol_svg",
    "timeline_svg",
]
