"""How wide words are, and how to make them fit, without knowing the reader's font.

The widths are those of a wide sans serif (measured on DejaVu Sans), rounded up, so that
words in most other fonts come out narrower than the place kept for them.
"""

import re
import unicodedata
from functools import cache

__all__ = ["fitted", "shortened", "text_width", "wrapped"]

_WIDTHS = {
    0.29: "'ijlIJ",
    0.34: " ,./:;\\|\u00a0\u2009\u202f",
    0.41: "f-()[]tr!",
    0.50: '"*_`·°–',
    0.55: "szc?",
    0.61: "LFkvxyPTYao",
    0.64: "eESbdghnpqu$0123456789{}",
    0.70: "KAVBRXZC",
    0.78: "UHNDG&",
    0.85: "OQw#+<=>^~×≥≤±",
    1.00: "MmW%@…—½",
}
_EM = {character: em for em, characters in _WIDTHS.items() for character in characters}
_BOLD = 1.15
_BREAKS = re.compile(r"(?<=[ \-_/.·,])")


@cache
def _em(character: str) -> float:
    plain = unicodedata.normalize("NFD", character)[0]
    if plain in _EM:
        return _EM[plain]
    if unicodedata.combining(plain):
        return 0.0
    if plain.islower() and not unicodedata.name(plain, "").startswith("CYRILLIC"):
        return 0.85
    return 1.1


def text_width(words: str, *, size: float, bold: bool = False) -> float:
    """Return the width in px to keep for one line of words at this font size."""
    return sum(_em(character) for character in words) * size * (_BOLD if bold else 1.0)


def shortened(words: str, *, width: float, size: float, bold: bool = False) -> str:
    """Return the words, cut with an ellipsis when they are wider than `width` px."""
    if text_width(words, size=size, bold=bold) <= width:
        return words
    room = width - text_width("…", size=size, bold=bold)
    end = 0
    while end < len(words) and text_width(words[: end + 1], size=size, bold=bold) <= room:
        end += 1
    return words[:end].rstrip() + "…"


def fitted(words: str, *, size: float, bold: bool = False) -> int:
    """Return the narrowest whole number of px that holds the words."""
    return int(text_width(words, size=size, bold=bold)) + 1


def wrapped(
    words: str, *, width: float, size: float, bold: bool = False, lines: int = 2
) -> tuple[str, ...]:
    """Return the words on at most `lines` lines, broken at signs, the last one cut if need be."""
    if text_width(words, size=size, bold=bold) <= width:
        return (words,)
    written: list[str] = []
    line = ""
    pieces = [piece for piece in _BREAKS.split(words) if piece]
    for index, piece in enumerate(pieces):
        if not line or text_width((line + piece).rstrip(), size=size, bold=bold) <= width:
            line += piece
            continue
        if len(written) == lines - 1:
            line += "".join(pieces[index:])
            break
        written.append(line.rstrip())
        line = piece
    written.append(line.rstrip())
    return tuple(shortened(part, width=width, size=size, bold=bold) for part in written)
