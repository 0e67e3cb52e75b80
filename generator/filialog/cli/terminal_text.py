"""Plain text for a terminal: paragraphs, headings and tables that keep to its width."""

import shutil
import textwrap
import unicodedata
from collections.abc import Sequence

__all__ = ["heading_lines", "paragraph_lines", "table_lines", "terminal_width"]

_WIDTH_UNKNOWN = 80
_NARROWEST = 40
_WIDEST = 100
_INDENT = "  "
_GAP = 3


def terminal_width() -> int:
    """Return how many columns to write in: those of the terminal, 80 where it is unknown."""
    columns = shutil.get_terminal_size((_WIDTH_UNKNOWN, 24)).columns
    return min(_WIDEST, max(_NARROWEST, columns))


def heading_lines(text: str) -> list[str]:
    """Return a heading with the blank line before it."""
    return ["", text]


def paragraph_lines(text: str, *, width: int, indent: bool = False) -> list[str]:
    """Return a text in lines of a width; what hangs below a heading is set in."""
    first = _INDENT if indent else ""
    return textwrap.wrap(
        text,
        width,
        initial_indent=first,
        subsequent_indent=f"{first}{_INDENT}" if indent else "",
        break_on_hyphens=False,
    )


def table_lines(
    head: Sequence[str], rows: Sequence[Sequence[str]], *, width: int, left: int = 1
) -> list[str]:
    """Return a table in columns, or one value a line where the columns are too wide.

    The first columns, as many as `left`, begin at the left; the numbers of the others end at the
    right.
    """
    every = [head, *rows]
    widths = [max(_columns(row[number]) for row in every) for number in range(len(head))]
    if len(_INDENT) + sum(widths) + _GAP * (len(widths) - 1) <= width:
        return [_row(row, widths, left) for row in every]
    lines = []
    for name, *values in rows:
        lines.extend(paragraph_lines(name, width=width, indent=True))
        for label, value in zip(head[1:], values, strict=True):
            lines.extend(paragraph_lines(f"{_INDENT}{label}: {value}", width=width, indent=True))
    return lines


def _row(row: Sequence[str], widths: Sequence[int], left: int) -> str:
    cells = []
    for number, (cell, wide) in enumerate(zip(row, widths, strict=True)):
        blank = " " * (wide - _columns(cell))
        cells.append(cell + blank if number < left else blank + cell)
    return (_INDENT + (" " * _GAP).join(cells)).rstrip()


def _columns(text: str) -> int:
    """Return how many columns a terminal takes for a text."""
    return sum(
        0
        if unicodedata.combining(sign)
        else 2
        if unicodedata.east_asian_width(sign) in {"W", "F"}
        else 1
        for sign in text
    )
