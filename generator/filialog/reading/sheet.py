"""One file while it is being read: its text, and where its findings go."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from filialog.findings.finding import Finding, Mark, Place
from filialog.reading.node import Kind, Node

__all__ = ["Desk", "Sheet"]

_WORD = re.compile(r"\w[\w.'-]*")


@dataclass(slots=True, kw_only=True)
class Desk:
    """What all files of one reading share; filled while reading, dropped after it."""

    findings: list[Finding] = field(default_factory=list)
    """All that was noticed so far."""
    reported: set[str] = field(default_factory=set)
    """Words of text that could not be read: links to them stay quiet."""
    units: Mapping[str, str] = field(default_factory=dict)
    """The unit that a bare number takes, by quantity, as journal.yaml says."""
    settings_read: bool = True
    """False where journal.yaml could not be read: what it would have said is not missed."""
    pens_declared: bool = False
    """True where journal.yaml gives the factor of a ppm pen."""
    pen_missed: bool = False
    """True once a ppm reading without any declared pen was reported."""
    missed_tanks: set[str] = field(default_factory=set)
    """Words of file names that were reported as no tank."""
    pictures: frozenset[str] = frozenset()
    """Paths of the pictures that are there."""
    files: frozenset[str] = frozenset()
    """Paths of the text files that are there."""


class Sheet:
    """One file: its path and text, and the desk its findings are laid on."""

    __slots__ = ("_lines", "desk", "path", "private", "text")

    def __init__(self, *, path: str, text: str, desk: Desk) -> None:
        self.path = path
        self.text = text
        self.desk = desk
        self.private = False
        """Set by a key inside an event that seems to mean `private`; the event's reader asks."""
        self._lines: list[str] | None = None

    @property
    def lines(self) -> list[str]:
        """The lines of the file without their ends."""
        if self._lines is None:
            self._lines = self.text.split("\n")
        return self._lines

    def line(self, number: int) -> str:
        """Return a line by its number from 1; empty where there is none."""
        return self.lines[number - 1] if 0 < number <= len(self.lines) else ""

    def place(self, node: Node) -> Place:
        """Return where a node stands."""
        return Place(self.path, node.line, node.column, node.length)

    def fault(
        self,
        code: str,
        where: Node | Place,
        message: str,
        *,
        label: str = "",
        helps: Iterable[str] = (),
        notes: Iterable[str] = (),
        related: Iterable[Mark] = (),
    ) -> None:
        """Lay a finding on the desk; the words of a node that failed count as reported."""
        if isinstance(where, Node):
            self.give_up(where)
            where = self.place(where)
        self.desk.findings.append(
            Finding(
                code=code,
                place=where,
                message=message,
                label=label,
                related=tuple(related),
                notes=tuple(notes),
                helps=tuple(helps),
            )
        )

    def give_up(self, node: Node) -> None:
        """Count all words below a node as reported, so that links to them stay quiet."""
        if node.kind is Kind.TEXT:
            self.give_up_text(node.text)
        for item in node.items:
            self.give_up(item)
        for key, value in node.pairs:
            self.give_up(key)
            self.give_up(value)

    def give_up_text(self, text: str) -> None:
        """Count a stretch of text, and all its words, as reported."""
        words = _WORD.findall(text)
        self.desk.reported.update(words)
        stripped = text.strip()
        if stripped and len(stripped) <= 80:
            self.desk.reported.add(stripped)
