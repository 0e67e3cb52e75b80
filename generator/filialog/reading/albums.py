"""Albums: what an `album.md` says of the pictures that lie beside it."""

import posixpath
from dataclasses import fields
from types import MappingProxyType

from filialog.findings.finding import Place
from filialog.findings.nearest import did_you_mean
from filialog.journal.events import Value
from filialog.journal.heads import Head
from filialog.journal.keys import Key, Shape
from filialog.journal.quantities import When
from filialog.journal.records import Album, PictureSaid, Prose
from filialog.reading.event_reader import read_private, report_private_like
from filialog.reading.front_matter import split_front_matter
from filialog.reading.node import Kind, Node
from filialog.reading.pictures import report_missing_picture
from filialog.reading.privacy import seems_private
from filialog.reading.prose import read_prose
from filialog.reading.sheet import Sheet
from filialog.reading.values import read_value
from filialog.reading.yaml_nodes import read_nodes

__all__ = ["ALBUM_HEAD", "read_album", "unreadable_album"]

ALBUM_HEAD = Head(
    name="album",
    where="photos/",
    keys=(
        Key(name="group", shape=Shape.GROUP, says="the group or named animal it shows"),
        Key(name="tank", shape=Shape.TANK, says="the tank it shows"),
        Key(name="look", shape=Shape.TEXT, says="the look it shows"),
        Key(
            name="side",
            shape=Shape.CHOICE,
            says="the side of the animal that is seen",
            choices=("left", "right", "above", "below", "front"),
        ),
        Key(name="date", shape=Shape.DAY, says="the day it shows"),
        Key(name="caption", shape=Shape.TEXT, says="words below it"),
        Key(name="alt", shape=Shape.TEXT, says="words in its place, for those who do not see it"),
        Key(name="private", shape=Shape.FLAG, says="true keeps it out of the public edition"),
    ),
)
"""Besides these an album takes `files:`, with the same keys by the name of a picture."""

_FILES = "files"
_KEYS = {key.name: key for key in ALBUM_HEAD.keys}
_FIELDS = tuple(field.name for field in fields(PictureSaid))


def read_album(sheet: Sheet) -> Album:
    """Read an album; where its keys cannot be read, all its pictures are private."""
    folder = posixpath.dirname(sheet.path)
    split = split_front_matter(sheet)
    if split is None:
        return unreadable_album(sheet.path)
    root = read_nodes(sheet, split.head, first_line=split.head_line) if split.head else None
    if root is None and split.head.strip():
        return unreadable_album(sheet.path)
    pairs = root.pairs if root is not None else ()
    whole = _said(tuple(pair for pair in pairs if pair[0].text != _FILES), sheet)
    files: dict[str, PictureSaid] = {}
    for key, value in pairs:
        if key.text == _FILES:
            for name, inside in _mapping(value, key, sheet):
                path = posixpath.join(folder, name.text.strip())
                if path not in sheet.desk.pictures:
                    report_missing_picture(path, sheet.place(name), sheet)
                files[path] = _filled(_of_file(name, inside, sheet), whole)
    return Album(
        folder=folder,
        whole=whole,
        files=MappingProxyType(dict(sorted(files.items()))),
        prose=read_prose(sheet, split.body, first_line=split.body_line),
        place=Place(sheet.path),
    )


def unreadable_album(path: str) -> Album:
    """Return an album that keeps its folder private: the finding is on the desk already."""
    return Album(
        folder=posixpath.dirname(path),
        whole=PictureSaid(private=True),
        files=MappingProxyType({}),
        prose=Prose(),
        place=Place(path),
    )


def _of_file(name: Node, value: Node, sheet: Sheet) -> PictureSaid:
    if value.kind is Kind.TEXT:  # `0231.jpg: two of the nine` says what is seen
        return PictureSaid(alt=value.text)
    if value.kind is Kind.EMPTY:
        return PictureSaid()
    pairs = _mapping(value, name, sheet)
    # What could not be read may have said `private`.
    return _said(pairs, sheet) if value.kind is Kind.MAP else PictureSaid(private=True)


def _mapping(value: Node, key: Node, sheet: Sheet) -> tuple[tuple[Node, Node], ...]:
    if value.kind not in {Kind.MAP, Kind.REPORTED, Kind.EMPTY}:
        sheet.fault(
            "R202",
            value,
            f"`{key.text}` needs keys of its own",
            helps=("as in `files: {0231.jpg: {look: pale, alt: one of nine, from above}}`",),
        )
    return value.pairs


def _said(pairs: tuple[tuple[Node, Node], ...], sheet: Sheet) -> PictureSaid:
    values: dict[str, Value] = {}
    private = False
    for key, value in pairs:
        name = key.text
        if name == "private":
            private |= read_private(key, value, sheet)
        elif name in _KEYS:
            read = read_value(value, _KEYS[name], sheet)
            if read is not None:
                values[name] = read
        elif seems_private(name):
            private = True
            report_private_like(key, value, sheet, item="the picture")
        else:
            sheet.give_up(value)
            helps = did_you_mean(name, (*_KEYS, _FILES), kind="key")
            sheet.fault("R201", key, f"an album takes no `{name}`", helps=helps)

    def text(name: str) -> str | None:
        value = values.get(name)
        return value if isinstance(value, str) and value else None

    day = values.get("date")
    return PictureSaid(
        group=text("group"),
        tank=text("tank"),
        look=text("look"),
        side=text("side"),
        date=day if isinstance(day, When) else None,
        caption=text("caption"),
        alt=text("alt"),
        private=private,
    )


def _filled(one: PictureSaid, whole: PictureSaid) -> PictureSaid:
    """Fill in what the folder says where a picture has no word of its own."""
    values = {name: getattr(one, name) or getattr(whole, name) for name in _FIELDS}
    return PictureSaid(**values)
