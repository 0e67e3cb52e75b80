"""Bytes to text: UTF-8 or a finding; signs that hide or turn text are shown, never passed on."""

import re

from filialog.findings.finding import Place
from filialog.reading.sheet import Desk, Sheet

__all__ = ["MAX_FILE_BYTES", "read_text"]

MAX_FILE_BYTES = 1_048_576
"""A text file of a journal may be this long; common practice, no source."""

_MAGIC = (b"\xff\xd8\xff", b"\x89PNG", b"GIF8", b"RIFF", b"PK\x03\x04", b"%PDF", b"\x1f\x8b")
_ODD = re.compile(
    r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufeff\ufffe\uffff]"
)
_TURNS = re.compile(r"[\u202a-\u202e\u2066-\u2069]")


def read_text(*, path: str, data: bytes, desk: Desk) -> Sheet | None:
    """Return the file as a sheet, or None with a finding where it holds no readable text.

    All line ends become line feeds, so that every later step counts lines alike.
    """
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        _refuse(
            desk,
            "R002",
            Place(path),
            "the file is saved as UTF-16; a journal is kept in UTF-8",
            "save it again with the encoding UTF-8",
        )
        return None
    if data.startswith(_MAGIC) or data[:8192].count(0) > 2:
        _refuse(
            desk,
            "R003",
            Place(path),
            "the file is not text",
            "keep pictures below `photos/` with the ending of their kind",
        )
        return None
    if len(data) > MAX_FILE_BYTES:
        _refuse(
            desk,
            "R007",
            Place(path),
            f"the file has {len(data)} bytes; at most {MAX_FILE_BYTES} are read",
            "split it into several files",
        )
        return None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = _one_line_end(error.object[: error.start].decode("utf-8", "replace"))
        line = before.count("\n") + 1
        value = error.object[error.start]
        _refuse(
            desk,
            "R002",
            Place(path, line, len(before) - before.rfind("\n")),
            f"byte {error.start + 1} of the file, 0x{value:02x} on line {line}, is not UTF-8",
            "save the file again with the encoding UTF-8",
        )
        return None
    return _without_odd_signs(path=path, text=_one_line_end(text), desk=desk)


def _one_line_end(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text


def _without_odd_signs(*, path: str, text: str, desk: Desk) -> Sheet:
    """Report each kind of odd sign once and put U+FFFD in the place of every one."""
    sheet = Sheet(path=path, text=text, desk=desk)
    if _ODD.search(text) is None:
        return sheet
    seen: set[str] = set()
    for number, line in enumerate(sheet.lines, start=1):
        for match in _ODD.finditer(line):
            sign = match.group()
            if sign in seen:
                continue
            seen.add(sign)
            does = "turns the direction of the text" if _TURNS.match(sign) else "cannot be seen"
            sheet.fault(
                "R006",
                Place(path, number, match.start() + 1),
                f"the sign U+{ord(sign):04X} {does}",
                notes=("it is shown as U+FFFD on every page",),
                helps=("delete it; such signs often come along with copied text",),
            )
    return Sheet(path=path, text=_ODD.sub("\ufffd", text), desk=desk)


def _refuse(desk: Desk, code: str, place: Place, message: str, way_out: str) -> None:
    Sheet(path=place.path, text="", desk=desk).fault(code, place, message, helps=(way_out,))
