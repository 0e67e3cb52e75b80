"""Front matter and prose told apart."""

import re
from typing import NamedTuple

from filialog.findings.finding import Place
from filialog.reading.sheet import Sheet

__all__ = ["Split", "split_front_matter"]

_OPENING = re.compile(r"---[ \t]*(?:\n|\Z)")
_CLOSING = re.compile(r"^(?:---|\.\.\.)[ \t]*(?:\n|\Z)", re.MULTILINE)
_OTHER_DASHES = re.compile(r"(?:[–—−]{1,3}|-{2}|-{4,}|[ \t]+---)[ \t]*\n[ \t]*[\w-]+:")


class Split(NamedTuple):
    """The two parts of a file, with the numbers of their first lines."""

    head: str
    """Front matter; empty where there is none."""
    head_line: int
    body: str
    body_line: int


def split_front_matter(sheet: Sheet) -> Split | None:
    """Return both parts; None, with a finding, where front matter has no end or no beginning."""
    text = sheet.text
    opening = _OPENING.match(text)
    if opening is None:
        if _OTHER_DASHES.match(text):
            _refuse(sheet, "the first line is not the `---` that opens front matter")
            return None
        return Split("", 1, text, 1)
    closing = _CLOSING.search(text, opening.end())
    if closing is None:
        _refuse(sheet, "front matter is opened by `---` and never closed")
        return None
    head = text[opening.end() : closing.start()]
    return Split(head, 2, text[closing.end() :], 3 + head.count("\n"))


def _refuse(sheet: Sheet, message: str) -> None:
    sheet.fault(
        "R005",
        Place(sheet.path, 1, 1, max(1, len(sheet.line(1)))),
        message,
        helps=("put a line of three hyphens, `---`, before and after the keys",),
    )
    sheet.give_up_text(sheet.text)
