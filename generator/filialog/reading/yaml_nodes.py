"""Front matter to light nodes: the syntax of YAML, none of its guessing.

PyYAML's C parser gives events; everything beyond plain text, lists and mappings is refused
with a finding. Scalars stay text: whether `012` is a number is for the key to say.
"""

import re
from collections.abc import Callable
from typing import Protocol, cast

from yaml import YAMLError
from yaml._yaml import CParser
from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
)

from filialog.findings.finding import Mark, Place
from filialog.reading.node import Kind, Node
from filialog.reading.sheet import Sheet
from filialog.reading.yaml_faults import (
    NO_SPACE,
    report_decimal_comma,
    report_no_space,
    report_syntax,
)

__all__ = ["MAX_DEPTH", "MAX_NODES", "MAX_SIZE", "read_nodes"]

MAX_DEPTH = 20
"""Lists and mappings inside one another."""
MAX_NODES = 20_000
"""Values in one file."""
MAX_SIZE = 65_536
"""Bytes of front matter, or of a page that is nothing else."""

_PLAIN_KINDS = {
    **dict.fromkeys(("", "~", "null", "Null", "NULL"), Kind.EMPTY),
    **dict.fromkeys(("true", "True", "TRUE", "false", "False", "FALSE"), Kind.FLAG),
}
_BEGIN_A_NODE = {AliasEvent, MappingStartEvent, ScalarEvent, SequenceStartEvent}
_EATEN = re.compile(r"[ \t]*#[^\s#!]")
_EATEN_AFTER_TEXT = re.compile(r"[ \t]+#[^\s#!]")
_HEAD_OF_NUMBER = re.compile(r"[~<>]?[-−]?[0-9]+")
_TAIL_OF_NUMBER = re.compile(r"[0-9]+(?![\w.]*:)")
_SIGN_AND_DIGIT = re.compile(r"[>|][-+]?[0-9]")


class _Mark(Protocol):
    """A point of the text, both numbers from 0."""

    line: int
    column: int


class _Event(Protocol):
    """What the parser tells; which of the fields there are depends on the class."""

    start_mark: _Mark
    end_mark: _Mark
    anchor: str | None
    tag: str | None
    value: str
    style: str | None


class _RefusedError(Exception):
    """The rest of this document is not read; the finding is on the desk."""


def read_nodes(sheet: Sheet, text: str, *, first_line: int = 1) -> Node | None:
    """Return the mapping that a text holds; None, with findings, where it cannot be read.

    `first_line` is the line of the file on which the text begins. An empty text is an
    empty mapping.
    """
    size = len(text) if text.isascii() else len(text.encode())
    if size > MAX_SIZE:
        sheet.fault(
            "R108",
            Place(sheet.path, first_line),
            f"{size} bytes of keys and values; at most {MAX_SIZE} are read",
            helps=("split the file into several",),
        )
        sheet.give_up_text(text)
        return None
    composer = _Composer(sheet, text, first_line)
    try:
        root = composer.document()
    except _RefusedError:
        sheet.give_up_text(text)
        return None
    except YAMLError as error:
        report_syntax(sheet, error, first_line=first_line)
        sheet.give_up_text(text)
        return None
    if root is None or root.kind is Kind.EMPTY:
        return Node(Kind.MAP, "", first_line, 1, 1)
    if root.kind is Kind.MAP:
        return root
    _refuse_root(sheet, root)
    return None


def _refuse_root(sheet: Sheet, root: Node) -> None:
    if NO_SPACE.match(root.text):
        report_no_space(sheet, sheet.place(root), root.text)
        sheet.give_up(root)
    elif root.kind is not Kind.REPORTED:
        sheet.fault(
            "R116",
            root,
            "the keys and values cannot be told apart",
            helps=("write one `key: value` to a line, with a space after the colon",),
        )


class _Composer:
    """Builds nodes from events."""

    def __init__(self, sheet: Sheet, text: str, first_line: int) -> None:
        self.sheet = sheet
        self.offset = first_line
        self.nodes = 0
        self.hash_possible = "#" in text
        self.properties_possible = "&" in text or "!" in text
        self.event = cast("Callable[[], _Event]", CParser(text).get_event)

    def document(self) -> Node | None:
        """Return the one document of the text, None where there is none."""
        root: Node | None = None
        documents = 0
        while True:
            event = self.event()
            kind: type[object] = type(event)
            if kind is StreamEndEvent:
                return root
            if kind is DocumentStartEvent:
                documents += 1
                if documents > 1:
                    self.refuse(
                        "R109",
                        event,
                        "a second document begins here",
                        helps=("keep one document to a file",),
                    )
            elif kind in _BEGIN_A_NODE:
                root = self.node(event, 1)

    def node(self, event: _Event, depth: int) -> Node:
        """Return the node that an event begins."""
        kind: type[object] = type(event)
        if kind is ScalarEvent:
            return self.scalar(event)
        if kind is AliasEvent:
            self.refuse_anchor(event)
        self.check_properties(event)
        if depth > MAX_DEPTH:
            self.refuse("R107", event, f"more than {MAX_DEPTH} levels inside one another")
        if kind is MappingStartEvent:
            return self.mapping(event, depth)
        return self.sequence(event, depth)

    def check_properties(self, event: _Event) -> None:
        """Refuse anchors and tags."""
        if event.anchor is not None:
            self.refuse_anchor(event)
        if event.tag is not None:
            self.refuse(
                "R104",
                event,
                f"`{event.tag}` is a YAML tag; a journal has none",
                helps=("put text that begins with `!` in quotes",),
            )

    def scalar(self, event: _Event) -> Node:
        """Return a scalar."""
        if self.properties_possible:
            self.check_properties(event)
        text, start = event.value, event.start_mark
        line, column = start.line + self.offset, start.column
        if event.style:
            return self.quoted(event, text, line, column)
        kind = _PLAIN_KINDS.get(text, Kind.TEXT)
        if self.hash_possible:
            end = event.end_mark
            if self.hash_eats(end.line, end.column, empty=not text) and not text:
                kind = Kind.REPORTED
        return Node(kind, text, line, column + 1, len(text) or 1, (), (), True)

    def quoted(self, event: _Event, text: str, line: int, column: int) -> Node:
        """Return a scalar in quotes, or a text of several lines."""
        end = event.end_mark
        if event.style not in {">", "|"}:
            one_line = end.line + self.offset == line
            return Node(Kind.TEXT, text, line, column + 1, end.column - column if one_line else 1)
        header = self.sheet.line(line)[column:]
        if _SIGN_AND_DIGIT.match(header) is None:
            return Node(Kind.TEXT, text, line, column + 1, 1)
        self.sheet.fault(
            "R111",
            Place(self.sheet.path, line, column + 1, len(header.rstrip())),
            f"`{header.strip()}` is not read as a value: `{header[0]}` at the beginning "
            "opens a text of several lines",
            helps=(f'put it in quotes, as in `"{header.strip()}"`',),
        )
        return Node(Kind.REPORTED, text, line, column + 1, 1)

    def hash_eats(self, line: int, column: int, *, empty: bool) -> bool:
        """Report text behind `#` that looks as if it were meant."""
        rest = self.sheet.line(line + self.offset)[column:]
        match = (_EATEN if empty else _EATEN_AFTER_TEXT).match(rest)
        if match is None:
            return False
        at = column + match.end() - 1
        words = rest[match.end() - 2 :].rstrip()
        self.sheet.fault(
            "R113",
            Place(self.sheet.path, line + self.offset, at, len(words)),
            f"`{words}` is not read: `#` after a space begins a comment",
            helps=("put the whole value in quotes, or a space after `#` where a comment is meant",),
        )
        self.sheet.give_up_text(words)
        return True

    def sequence(self, event: _Event, depth: int) -> Node:
        """Return a list."""
        items: list[Node] = []
        while True:
            inner = self.event()
            kind: type[object] = type(inner)
            if kind is SequenceEndEvent:
                break
            items.append(self.node(inner, depth + 1))
        return self.container(Kind.LIST, event, inner, items=tuple(items))

    def mapping(self, event: _Event, depth: int) -> Node:
        """Return a mapping; a key that stands twice is reported and its second value dropped."""
        pairs: list[tuple[Node, Node]] = []
        seen: dict[str, Node] = {}
        while True:
            inner = self.event()
            kind: type[object] = type(inner)
            if kind is MappingEndEvent:
                break
            key = self.node(inner, depth + 1)
            value = self.node(self.event(), depth + 1)
            if (key.kind is not Kind.TEXT or key.text == "<<") and not self.key_fits(key, value):
                continue
            if value.kind is Kind.EMPTY and key.plain and self.slip(key, pairs):
                continue
            if key.text in seen:
                self.duplicate(key, value, seen[key.text])
                continue
            seen[key.text] = key
            pairs.append((key, value))
        return self.container(Kind.MAP, event, inner, pairs=tuple(pairs))

    def key_fits(self, key: Node, value: Node) -> bool:
        """Say whether a key is text; report it where it is not."""
        if key.kind is Kind.TEXT:
            if key.text == "<<" and key.plain:
                self.sheet.fault(
                    "R105",
                    key,
                    "`<<` merges mappings in YAML; a journal has no such thing",
                    helps=("write the keys out where they belong",),
                )
                self.sheet.give_up(value)
                return False
            return True
        if key.kind is not Kind.REPORTED:
            self.sheet.fault(
                "R106",
                key,
                "a key must be text",
                helps=("put the key in quotes, or write `key: value`",),
            )
        self.sheet.give_up(value)
        return False

    def slip(self, key: Node, pairs: list[tuple[Node, Node]]) -> bool:
        """Report a key that is the tail of a value: a decimal comma, a colon without space."""
        if pairs and _TAIL_OF_NUMBER.match(key.text):
            before_key, before = pairs[-1]
            if before.line == key.line and _HEAD_OF_NUMBER.fullmatch(before.text):
                pairs[-1] = (before_key, before._replace(kind=Kind.REPORTED))
                number = f"{before.text},{key.text}"
                place = Place(
                    self.sheet.path,
                    before.line,
                    before.column,
                    key.column + key.length - before.column,
                )
                report_decimal_comma(self.sheet, place, number)
                return True
        if NO_SPACE.match(key.text):
            report_no_space(self.sheet, self.sheet.place(key), key.text)
            self.sheet.give_up(key)
            return True
        return False

    def duplicate(self, key: Node, value: Node, first: Node) -> None:
        """Report a key that stands twice in one mapping."""
        self.sheet.give_up(value)
        self.sheet.fault(
            "R102",
            self.sheet.place(key),
            f"`{key.text}` stands here for the second time",
            label="this one is not read",
            related=(Mark(place=self.sheet.place(first), says="the first one"),),
            helps=(
                f"put both below one `{key.text}`, as a list with a hyphen before each, "
                "or delete one",
            ),
        )

    def container(
        self,
        kind: Kind,
        event: _Event,
        end: _Event,
        *,
        items: tuple[Node, ...] = (),
        pairs: tuple[tuple[Node, Node], ...] = (),
    ) -> Node:
        """Return a list or mapping with its place."""
        self.nodes += len(items) + 2 * len(pairs)
        if self.nodes > MAX_NODES:
            self.refuse("R108", event, f"more than {MAX_NODES} values in one file")
        start, stop = event.start_mark, end.end_mark
        one_line = stop.line == start.line
        length = max(1, stop.column - start.column) if one_line else 1
        return Node(kind, "", start.line + self.offset, start.column + 1, length, items, pairs)

    def refuse_anchor(self, event: _Event) -> None:
        """Refuse an anchor or an alias."""
        kind: type[object] = type(event)
        sign, word = ("*", "alias") if kind is AliasEvent else ("&", "anchor")
        self.refuse(
            "R103",
            event,
            f"`{sign}{event.anchor}` is a YAML {word}; a journal has none",
            helps=(f"put text that begins with `{sign}` in quotes",),
        )

    def refuse(
        self, code: str, event: _Event, message: str, *, helps: tuple[str, ...] = ()
    ) -> None:
        """Report what makes a document unreadable and leave it."""
        start, end = event.start_mark, event.end_mark
        length = end.column - start.column if end.line == start.line else 1
        self.sheet.fault(
            code,
            Place(self.sheet.path, start.line + self.offset, start.column + 1, max(1, length)),
            message,
            helps=helps,
        )
        raise _RefusedError
