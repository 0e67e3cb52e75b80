"""Names for what an entry brings into being without naming it.

A brood of `hatched` without `brood`, and animals of `bought` or `present` without `group`,
are named by tank and day, `<tank>-<date>`: young first seen in tank fen on 2026-03-14 are
`fen-2026-03-14`. Without a tank the kind stands in its place. A second one of the same tank
and day, or a name that is taken, gets `-2`. `hatched` with `group` and without `brood` means
that group as its brood.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from filialog.journal.events import Event
from filialog.journal.keys import Shape
from filialog.journal.kinds import EVENT_KINDS
from filialog.journal.records import Entry

__all__ = ["with_names"]

_NEW_GROUP_KEYS = {
    kind.name: tuple(key.name for key in kind.own if key.shape is Shape.NEW_GROUP)
    for kind in EVENT_KINDS
}
_NAMED_BY = {"hatched": "brood", "bought": "group", "present": "group"}


def with_names(entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """Return the entries, in the same order, with every new group named."""
    taken = {name for entry in entries for event in entry.events for name in _new_names(event)}
    named: list[Entry] = []
    for entry in entries:
        if all(_has_name(event) for event in entry.events):
            named.append(entry)
            continue
        events = tuple(
            event if _has_name(event) else _named(event, taken) for event in entry.events
        )
        named.append(replace(entry, events=events))
    return tuple(named)


def _has_name(event: Event) -> bool:
    key = _NAMED_BY.get(event.kind_name)
    return key is None or event.has(key) or event.has("of")


def _new_names(event: Event) -> tuple[str, ...]:
    """Return the names that an event itself brings into being."""
    made = [
        name for key in _NEW_GROUP_KEYS[event.kind_name] if (name := event.text(key)) is not None
    ]
    if event.kind_name in _NAMED_BY and (group := event.text("group")) is not None:
        made.append(group)
    if event.kind_name == "sorted":
        made.extend(sorting.group for sorting in event.sortings())
    return tuple(made)


def _named(event: Event, taken: set[str]) -> Event:
    key = _NAMED_BY[event.kind_name]
    name = event.text("group") if key == "brood" else None
    if name is None:
        day = event.when.exact
        shown = day.isoformat() if day is not None else re.sub(r"[^\w-]", "", event.when.text)
        stem = f"{event.tank or event.kind_name}-{shown}"
        name, number = stem, 2
        while name in taken:
            name, number = f"{stem}-{number}", number + 1
        taken.add(name)
    return replace(event, values={**event.values, key: name})
