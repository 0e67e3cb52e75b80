"""Events of an entry, read by the table of kinds."""

from collections.abc import Mapping
from typing import NamedTuple

from filialog.findings.finding import Place
from filialog.findings.nearest import nearest_name
from filialog.journal.events import Value
from filialog.journal.keys import Key, Shape
from filialog.journal.kinds import COMMON_KEYS, EVENT_KINDS, EventKind
from filialog.journal.quantities import When
from filialog.reading.node import Kind, Node
from filialog.reading.pictures import find_path, report_missing_picture
from filialog.reading.privacy import seems_private
from filialog.reading.scalars import read_flag, report_empty
from filialog.reading.sheet import Sheet
from filialog.reading.values import CONVERTERS

__all__ = ["EventDraft", "read_events", "read_private"]

_KEYS: dict[str, dict[str, Key]] = {
    kind.name: {key.name: key for key in (*COMMON_KEYS, *kind.own)} for kind in EVENT_KINDS
}
_MEANT = {
    "amount": "count",
    "comment": "note",
    "date": "when",
    "day": "when",
    "father": "sires",
    "mother": "dams",
    "number": "count",
    "remark": "note",
    "time": "at",
    "total": "count",
}
_PRIVATE = "private"


class EventDraft(NamedTuple):
    """An event whose day and tank may still come from its entry."""

    kind: EventKind
    when: When | None
    """Its own day, where it has one."""
    tank: str | None
    """Its own tank, where it has one."""
    private: bool
    values: dict[str, Value]
    place: Place
    places: dict[str, Place]


def read_events(
    kind: EventKind, key_node: Node, value: Node, sheet: Sheet
) -> tuple[EventDraft, ...]:
    """Read the event, or the list of events, that stands behind the key of a kind."""
    if value.kind is Kind.LIST:
        if not value.items:
            report_empty(value, kind.name, sheet)
        drafts = (_event(kind, item, item, sheet) for item in value.items)
    else:
        drafts = (draft for draft in (_event(kind, key_node, value, sheet),))
    return tuple(draft for draft in drafts if draft is not None)


def read_private(key_node: Node, value: Node, sheet: Sheet) -> bool:
    """Read the key `private`; what is not plainly `false` keeps the item private."""
    key = Key(name=_PRIVATE, shape=Shape.FLAG, says="true keeps it out of the public edition")
    if value.kind is Kind.FLAG:
        return read_flag(value, key, sheet) is not False
    if value.kind is not Kind.REPORTED:
        written = f"`{value.text}`" if value.text else "what stands here"
        sheet.fault(
            "R205",
            key_node if value.kind is Kind.EMPTY else value,
            f"`private` cannot be {written}: the item is kept private",
            helps=("write `private: true`, or delete the key",),
        )
    return True


def report_private_like(key_node: Node, value: Node, sheet: Sheet, *, item: str) -> None:
    """Report a key that is not read and may have been meant to keep something private."""
    sheet.give_up(value)
    sheet.fault(
        "R205",
        key_node,
        f"`{key_node.text}` is no key: {item} is kept private",
        helps=("write `private: true`, or delete the key",),
    )


def _event(kind: EventKind, where: Node, value: Node, sheet: Sheet) -> EventDraft | None:
    if value.kind is Kind.MAP:
        pairs = value.pairs
    elif value.kind is Kind.REPORTED:
        return None
    elif value.kind is Kind.EMPTY:
        _report_blank(kind, where, sheet)
        return None
    elif value.kind is Kind.FLAG and value.text.casefold() == "true":
        pairs = ()
    else:
        bare = _bare(kind, value, sheet)
        if bare is None:
            return None
        pairs = (bare,)
    return _from_pairs(kind, where, pairs, sheet)


def _report_blank(kind: EventKind, where: Node, sheet: Sheet) -> None:
    sheet.fault(
        "R203",
        where,
        f"`{kind.name}` has no value and is not read",
        helps=(f"write `{kind.name}: {{}}` where nothing more is known, or delete the key",),
    )


def _bare(kind: EventKind, value: Node, sheet: Sheet) -> tuple[Node, Node] | None:
    """Return the key and value that a bare value stands for."""
    if value.kind is Kind.TEXT and kind.bare is not None:
        name = kind.bare
        if kind.name == "changed" and value.text.rstrip().endswith("%"):
            name = "percent"
        return value._replace(text=name), value
    helps = (f"as in `{kind.example}`",)
    if value.kind is Kind.FLAG:
        sheet.fault(
            "R202",
            value,
            f"`{kind.name}: {value.text}` records nothing",
            helps=("delete the key: what did not happen is left out",),
        )
    elif value.kind is Kind.LIST:
        sheet.fault("R202", value, f"`{kind.name}` has a list inside a list", helps=helps)
    else:
        sheet.fault(
            "R202",
            value,
            f"`{kind.name}` needs keys of its own, not `{value.text}`",
            helps=helps,
        )
    return None


def _from_pairs(
    kind: EventKind, where: Node, pairs: tuple[tuple[Node, Node], ...], sheet: Sheet
) -> EventDraft | None:
    keys = _KEYS[kind.name]
    path = sheet.path
    values: dict[str, Value] = {}
    places: dict[str, Place] = {}
    private = failed = False
    sheet.private = False
    for key_node, value in pairs:
        name = key_node.text
        key = keys.get(name)
        if name == _PRIVATE:
            private |= read_private(key_node, value, sheet)
            continue
        if key is None:
            failed = True
            private |= _unknown_key(kind, key_node, value, keys, sheet)
            continue
        read = CONVERTERS[key.shape](value, key, sheet)
        if read is None:
            failed = True
            continue
        values[name] = read
        places[name] = Place(path, value.line, value.column, value.length)
        if value.pairs or value.items:
            _inner_places(name, value, places, path)
    private |= sheet.private
    if "photo" in values:
        _find_pictures(values, places, sheet)
    if not _has_needs(kind, where, values, sheet, quiet=failed):
        for _, value in pairs:
            sheet.give_up(value)
        return None
    when, tank = values.pop("when", None), values.pop("tank", None)
    return EventDraft(
        kind,
        when if isinstance(when, When) else None,
        tank if isinstance(tank, str) else None,
        private,
        values,
        Place(path, where.line, where.column, where.length),
        places,
    )


def _inner_places(name: str, value: Node, places: dict[str, Place], path: str) -> None:
    """Keep where inner names stand, as `looks.plain` or `of.first-brood`."""
    for inner, inside in value.pairs:
        places[f"{name}.{inner.text}"] = Place(path, inner.line, inner.column, inner.length)
        if inside.items:
            _inner_places(name, inside, places, path)
        elif inside.kind is Kind.TEXT and inner.text in {"of", "group", "look", "left", "right"}:
            places[f"{name}.{inside.text}"] = Place(path, inside.line, inside.column, inside.length)
        elif inside.kind is Kind.MAP:
            for word, look in inside.pairs:
                if word.text == "look":
                    places[f"{name}.{inner.text}.look"] = Place(
                        path, look.line, look.column, look.length
                    )
    for item in value.items:
        if item.kind is Kind.TEXT:
            places[f"{name}.{item.text}"] = Place(path, item.line, item.column, item.length)


def _unknown_key(
    kind: EventKind, key_node: Node, value: Node, keys: Mapping[str, Key], sheet: Sheet
) -> bool:
    """Report a key that the kind does not take; True where it may have meant `private`."""
    name = key_node.text
    if seems_private(name):
        report_private_like(key_node, value, sheet, item="the event")
        return True
    sheet.give_up(value)
    meant = _MEANT.get(name.casefold())
    near = meant if meant in keys else nearest_name(name, keys)
    if near is not None:
        helps: tuple[str, ...] = (f"the nearest key is `{near}`: {keys[near].says}",)
    else:
        own = ", ".join(f"`{key.name}`" for key in kind.own) or "only the common keys"
        helps = (f"its own keys are {own}",)
    sheet.fault("R201", key_node, f"`{kind.name}` takes no `{name}`", helps=helps)
    return False


def _has_needs(
    kind: EventKind, where: Node, values: Mapping[str, Value], sheet: Sheet, *, quiet: bool
) -> bool:
    for needed in kind.needs:
        if any(name in values for name in needed):
            continue
        if not quiet:
            shown = " or ".join(f"`{name}`" for name in needed[:3])
            more = " or another reading" if len(needed) > 4 else ""
            sheet.fault(
                "R204",
                Place(sheet.path, where.line, where.column, where.length),
                f"`{kind.name}` needs {shown}{more}",
                helps=(f"as in `{kind.example}`",),
            )
        return False
    return True


def _find_pictures(values: dict[str, Value], places: dict[str, Place], sheet: Sheet) -> None:
    """Put paths relative to the journal for pictures; report those that are not there."""
    written = values["photo"]
    assert isinstance(written, tuple)
    found: list[str] = []
    for path in written:
        place = places.get(f"photo.{path}", places["photo"])
        there = find_path(str(path), sheet)
        if there is None:
            sheet.fault(
                "M103",
                place,
                f"`{path}` leads out of the journal",
                helps=("keep pictures below `photos/`",),
            )
        else:
            found.append(there)
            if there not in sheet.desk.pictures:
                report_missing_picture(there, place, sheet)
    values["photo"] = tuple(found)
