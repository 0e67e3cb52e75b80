"""The public view of a journal: the one place where private things are left out.

Privacy fails closed. A private group takes everything that names it along; buyers, prices and
absences are private whatever is written. A private event that changes the stock still counts,
stripped of all but the number, so that nothing is offered twice; it is never shown or linked.
"""

from dataclasses import replace

from filialog.journal.events import Event
from filialog.journal.kinds import COMMON_KEYS, Books
from filialog.journal.names import names_of, origins_of, references_of
from filialog.journal.records import Edition, Entry, Journal, Prose, Section

__all__ = ["public_view"]

_STOCK_KEYS = frozenset(
    {"group", "of", "count", "females", "males", "young", "from", "to", "as", "into", "parts"}
    | {"lot", "brood", "colony"}
)
"""What a withheld event keeps: the names and numbers the book needs."""

_EVIDENCE_KEYS = frozenset({"looks", "unsorted", "how", "all", "age", "dams", "sires", "cross"})
"""What it keeps besides where the keeper lets its kind count as a claim."""


def public_view(journal: Journal) -> Journal:
    """Return the journal as it may be published."""
    hidden_groups = _private_groups(journal)
    hidden_tanks = frozenset(name for name, page in journal.tanks.items() if page.private)
    entries: list[Entry] = []
    withheld: list[Event] = []
    for entry in journal.entries:
        shown: list[Event] = []
        for event in entry.events:
            # Event numbers are addresses: a place is kept for what is left out.
            hidden = (
                entry.private
                or event.private
                or event.kind.private
                or _speaks_of(event, hidden_groups)
            )
            if not hidden:
                shown.append(_without_private_values(event))
            elif (stripped := _stripped(event, journal, hidden_groups)) is not None:
                withheld.append(stripped)
        if not entry.private and entry.tank not in hidden_tanks:
            entries.append(
                replace(
                    entry,
                    events=tuple(event for event in shown if event.tank not in hidden_tanks),
                    sections=tuple(
                        Section(tank=section.tank, prose=_public_prose(section.prose))
                        for section in entry.sections
                        if section.tank not in hidden_tanks
                    ),
                )
            )
            withheld.extend(
                stripped
                for event in shown
                if event.tank in hidden_tanks
                and (stripped := _stripped(event, journal, hidden_groups)) is not None
            )
        else:
            withheld.extend(
                stripped
                for event in shown
                if (stripped := _stripped(event, journal, hidden_groups)) is not None
            )
    return replace(
        journal,
        edition=Edition.PUBLIC,
        entries=tuple(entries),
        withheld=tuple(withheld),
        tanks={
            name: replace(page, prose=_public_prose(page.prose))
            for name, page in journal.tanks.items()
            if not page.private
        },
        groups={
            name: replace(page, prose=_public_prose(page.prose))
            for name, page in journal.groups.items()
            if not page.private and name not in hidden_groups
        },
        lines={
            name: replace(
                page,
                prose=_public_prose(page.prose),
                founders=tuple(group for group in page.founders if group not in hidden_groups),
            )
            for name, page in journal.lines.items()
            if not page.private
        },
    )


def _private_groups(journal: Journal) -> frozenset[str]:
    """Find groups with a private page, and those that only private events bring into being."""
    private_entries = {entry.id for entry in journal.entries if entry.private}
    hidden = {name for name, page in journal.groups.items() if page.private}
    for name, origins in names_of(journal).origins.items():
        if all(
            origin.event.private or origin.event.id.entry in private_entries for origin in origins
        ):
            hidden.add(name)
    return frozenset(hidden)


def _speaks_of(event: Event, groups: frozenset[str]) -> bool:
    named = {name for name, _ in references_of(event)} | {name for name, _ in origins_of(event)}
    return bool(named & groups)


def _without_private_values(event: Event) -> Event:
    always = {key.name for key in (*COMMON_KEYS, *event.kind.own) if key.always_private}
    if not always & event.values.keys():
        return event
    return replace(
        event, values={key: value for key, value in event.values.items() if key not in always}
    )


def _stripped(event: Event, journal: Journal, hidden_groups: frozenset[str]) -> Event | None:
    """Return what of a hidden event may still count, or None."""
    if event.kind.private or _speaks_of(event, hidden_groups):
        return None
    allowed = event.kind_name in journal.settings.public
    if event.kind.books in (Books.NOTHING, Books.COUNTS) and not allowed:
        return None
    keys = _STOCK_KEYS | _EVIDENCE_KEYS if allowed else _STOCK_KEYS
    return replace(
        event,
        private=False,
        withheld=True,
        values={key: value for key, value in event.values.items() if key in keys},
    )


def _public_prose(prose: Prose) -> Prose:
    if not any(piece.private for piece in prose.pieces):
        return prose
    return replace(prose, pieces=tuple(piece for piece in prose.pieces if not piece.private))
