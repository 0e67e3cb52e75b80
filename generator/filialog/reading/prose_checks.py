"""What must not slip through prose: private blocks that do not close, comments that show."""

import re
from collections.abc import Sequence

from markdown_it.token import Token

from filialog.findings.finding import Place
from filialog.reading.sheet import Sheet

__all__ = ["hidden_lines"]

_FENCE = re.compile(r"[>\s\-*+\d.)]*(:{2,})[ \t]*(\S.*)?$")
_COMMENT = re.compile(r"<!--")


def hidden_lines(
    sheet: Sheet, text: str, tokens: Sequence[Token], *, first_line: int
) -> int | None:
    """Return the line of the text from which all is private, None where no block went wrong.

    Privacy fails closed: every block of text that ends below this line, counted from 0, is
    private as a whole.
    """
    if "<!--" in text:
        _report_comments(sheet, text, first_line)
    if "::" not in text:
        return None
    lines = text.split("\n")
    opened: set[int] = set()
    closed: set[int] = set()
    faults: list[int] = []
    for token in tokens:
        if token.type != "container_private_open" or token.map is None:
            continue
        start, end = token.map
        opened.add(start)
        _check_word(sheet, lines[start], token.info, first_line + start)
        if end < len(lines) and _is_closing(lines[end]):
            closed.add(end)
        else:
            faults.append(start)
            _report_open(sheet, lines[start], first_line + start)
    for number, line in enumerate(lines):
        match = _FENCE.match(line)
        if match is None or number in opened or number in closed:
            continue
        if match[2] is None and len(match[1]) >= 3:
            faults.append(0)  # what it closes may have been meant to begin anywhere above
            _report_stray(sheet, match, first_line + number)
        elif match[2] is not None and match[2].casefold().startswith("priv"):
            faults.append(number)
            _report_unread(sheet, match, first_line + number)
    return min(faults, default=None)


def _is_closing(line: str) -> bool:
    stripped = line.strip(" \t>")
    return len(stripped) >= 3 and set(stripped) == {":"}


def _place(sheet: Sheet, source: str, line: int) -> Place:
    column = source.find(":")
    return Place(sheet.path, line, column + 1, max(1, len(source.rstrip()) - column))


def _check_word(sheet: Sheet, source: str, word: str, line: int) -> None:
    if word.strip() != "private":
        sheet.fault(
            "M108",
            _place(sheet, source, line),
            f"`{source.strip()}` is no block: what it holds is kept private",
            helps=("write `:::private` to open the block and `:::` to close it",),
        )


def _report_open(sheet: Sheet, source: str, line: int) -> None:
    sheet.fault(
        "M107",
        _place(sheet, source, line),
        "the private block is not closed: all text from here on is kept private",
        helps=("put a line `:::` where it ends, with the same indent",),
    )


def _report_stray(sheet: Sheet, match: re.Match[str], line: int) -> None:
    sheet.fault(
        "M107",
        _place(sheet, match.string, line),
        "`:::` closes a block that is not open: the whole text is kept private",
        helps=("put a line `:::private` where the private part begins",),
    )


def _report_unread(sheet: Sheet, match: re.Match[str], line: int) -> None:
    sheet.fault(
        "M108",
        _place(sheet, match.string, line),
        f"`{match.string.strip()}` opens no block here: all text from here on is kept private",
        helps=("write `:::private` at the beginning of a line of its own",),
    )


def _report_comments(sheet: Sheet, text: str, first_line: int) -> None:
    for number, line in enumerate(text.split("\n")):
        match = _COMMENT.search(line)
        if match is not None:
            sheet.fault(
                "M109",
                Place(sheet.path, first_line + number, match.start() + 1, 4),
                "a comment of HTML is shown as text on every page",
                helps=("delete it, or put the text between `:::private` and `:::`",),
            )
