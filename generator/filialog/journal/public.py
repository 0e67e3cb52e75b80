"""The public view of a journal: the one place where private things are left out.

Privacy fails closed. A private page takes everything that names its group, tank or line along;
buyers, prices and absences are private whatever is written. A private event that changes the
stock still counts, stripped of all but the number, so that nothing is offered twice; it is never
shown or linked.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from html import unescape

from filialog.journal.events import Event, EventId
from filialog.journal.kinds import COMMON_KEYS
from filialog.journal.names import Names, Origin, names_of
from filialog.journal.parents import sides_of
from filialog.journal.public_pictures import with_public_pictures
from filialog.journal.records import Edition, Entry, Journal, Link, LinkTarget, Piece, Prose
from filialog.journal.withheld import Hidden, names_in, what_counts

__all__ = ["public_view"]

_LEFT_OUT = "\N{HORIZONTAL ELLIPSIS}"
"""Stands where a name was; no entry has it as its identifier."""

_PLAIN_LENGTH = 200


def public_view(journal: Journal) -> Journal:
    """Return the journal as it may be published."""
    names = names_of(journal)
    hidden = _hidden(journal, names)
    entries: list[Entry] = []
    withheld: list[Event] = []
    for entry in journal.entries:
        whole = entry.private or entry.tank in hidden.tanks
        # Event numbers are addresses: a place is kept for what is left out.
        shown = [event for event in entry.events if not (whole or _is_hidden(event, hidden))]
        numbers = {event.id for event in shown}
        for event in entry.events:
            if event.id not in numbers:
                claimed = event.kind_name in journal.settings.public
                left = what_counts(event, hidden=hidden, names=names, claimed=claimed)
                withheld.extend(_with_ids(left, whole=whole, first=len(withheld)))
        if not whole:
            entries.extend(_public_entry(entry, shown, hidden))
    public = replace(
        journal,
        edition=Edition.PUBLIC,
        entries=tuple(entries),
        withheld=tuple(withheld),
        reported=frozenset(),
        tanks={
            name: replace(page, prose=_public_prose(page.prose, hidden))
            for name, page in journal.tanks.items()
            if not page.private
        },
        groups={
            name: replace(page, prose=_public_prose(page.prose, hidden))
            for name, page in journal.groups.items()
            if name not in hidden.groups
        },
        lines={
            name: replace(
                page,
                prose=_public_prose(page.prose, hidden),
                founders=tuple(group for group in page.founders if group not in hidden.groups),
                places={key: place for key, place in page.places.items() if "." not in key},
            )
            for name, page in journal.lines.items()
            if not page.private
        },
    )
    return with_public_pictures(
        public, whole=journal, hidden_groups=hidden.groups, hidden_tanks=hidden.tanks
    )


def _with_ids(events: Iterable[Event], *, whole: bool, first: int) -> Iterator[Event]:
    """Give withheld events identifiers that hold no file name of a hidden entry.

    One event can leave several; only the first can keep the identifier it has.
    """
    for number, event in enumerate(events):
        if whole or number:
            yield replace(event, id=EventId(_LEFT_OUT, first + number))
        else:
            yield event


# --- what is hidden -------------------------------------------------------------------------


def _hidden(journal: Journal, names: Names) -> Hidden:
    tanks = [name for name, page in journal.tanks.items() if page.private]
    secret = {
        event.id
        for entry in journal.entries
        for event in entry.events
        if entry.private or event.private
    }
    groups = _hidden_groups(journal, names, secret)
    lines = [name for name, page in journal.lines.items() if page.private]
    places = [
        *(journal.tanks[name].place for name in tanks),
        *(journal.lines[name].place for name in lines),
        *(page.place for name, page in journal.groups.items() if name in groups),
    ]
    paths = {entry.path for entry in journal.entries if entry.private or entry.tank in tanks}
    return Hidden(
        groups=groups,
        tanks={name: f"{_LEFT_OUT}{number}" for number, name in enumerate(tanks, start=1)},
        lots=_hidden_lots(journal, names, groups, secret),
        links=frozenset(name.casefold() for name in (*groups, *tanks, *lines)),
        paths=frozenset(paths | {place.path for place in places}),
    )


def _hidden_groups(journal: Journal, names: Names, secret: Iterable[EventId]) -> frozenset[str]:
    """Find groups with a private page, those that only private events bring, and their young."""
    hidden = {name for name, page in journal.groups.items() if page.private}
    private = frozenset(secret)
    known = -1
    while known < len(hidden):
        known = len(hidden)
        for name, origins in names.origins.items():
            if name not in hidden and all(_comes_of(one, hidden, private) for one in origins):
                hidden.add(name)
    return frozenset(hidden)


def _comes_of(origin: Origin, hidden: set[str], private: frozenset[EventId]) -> bool:
    """Say whether an event that brings a group into being is private, or names a hidden source."""
    dams, sires = sides_of(origin.event)
    return origin.event.id in private or bool(hidden.intersection((*origin.sources, *dams, *sires)))


def _hidden_lots(
    journal: Journal, names: Names, groups: frozenset[str], secret: Iterable[EventId]
) -> frozenset[str]:
    private = frozenset(secret)
    told = {
        event.text("lot")
        for event in journal.events()
        if event.id not in private and (event.has("group") or event.has("of"))
    }
    return frozenset(
        lot for lot, held in names.lots.items() if lot not in told or groups.intersection(held)
    )


def _is_hidden(event: Event, hidden: Hidden) -> bool:
    return (
        event.private
        or event.kind.private
        or event.text("lot") in hidden.lots
        or any(name in hidden.groups or name in hidden.tanks for name in names_in(event))
    )


# --- what is shown --------------------------------------------------------------------------


def _public_entry(entry: Entry, events: Iterable[Event], hidden: Hidden) -> Iterator[Entry]:
    """Give an entry without what is private; nothing where nothing of it is left."""
    sections = [
        replace(section, prose=_public_prose(section.prose, hidden))
        for section in entry.sections
        if section.tank not in hidden.tanks
    ]
    kept = replace(
        entry,
        events=tuple(_without_private_values(event) for event in events),
        sections=tuple(section for section in sections if not section.prose.empty),
    )
    if kept.events or kept.sections or not (entry.events or entry.sections):
        yield kept


def _without_private_values(event: Event) -> Event:
    always = {key.name for key in (*COMMON_KEYS, *event.kind.own) if key.always_private}
    if not always & event.values.keys():
        return event
    return replace(
        event, values={key: value for key, value in event.values.items() if key not in always}
    )


def _public_prose(prose: Prose, hidden: Hidden) -> Prose:
    pieces = tuple(piece for piece in prose.pieces if not piece.private)
    shown = tuple(
        Piece(content=_LEFT_OUT)
        if isinstance(piece.content, Link) and _leads_to(piece.content, hidden)
        else piece
        for piece in pieces
    )
    if shown == pieces:
        return replace(prose, pieces=pieces)
    return Prose(pieces=shown, plain=_plain(shown))


def _leads_to(link: Link, hidden: Hidden) -> bool:
    """Say whether a link leads to what is hidden, in whatever spelling."""
    if link.target is not LinkTarget.NAME:
        return link.name in hidden.paths
    return link.name.casefold() in hidden.links


def _plain(pieces: Iterable[Piece]) -> str:
    """Return the first words of prose without marks, anew: the old ones hold a hidden name."""
    texts = (
        ("" if piece.content.target is LinkTarget.PICTURE else piece.content.text)
        if isinstance(piece.content, Link)
        else unescape(re.sub(r"<[^>]*>", "", piece.content))
        for piece in pieces
    )
    plain = " ".join("".join(texts).split())
    if len(plain) <= _PLAIN_LENGTH:
        return plain
    return plain[:_PLAIN_LENGTH].rsplit(" ", 1)[0].rstrip(f" ,;:{_LEFT_OUT}") + _LEFT_OUT
