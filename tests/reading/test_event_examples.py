"""The example of every kind of event, as the handbook will print it, can be read."""

import pytest

from filialog.journal.kinds import EVENT_KINDS, EventKind
from filialog.reading import read_journal


@pytest.mark.parametrize("kind", EVENT_KINDS, ids=lambda kind: kind.name)
def test_example__of_a_kind_is_read_without_a_finding(kind: EventKind) -> None:
    entry = f"---\ndate: 2026-03-14\ntank: first-tank\n{kind.example}\n---\n"

    read = read_journal(
        {"journal.yaml": b"title: Examples\n", "diary/2026-03-14.md": entry.encode()},
        pictures=(),
        catalogue={},
    )

    assert read.findings == ()
    assert read.journal is not None
    (event,) = read.journal.entries[0].events
    assert event.kind_name == kind.name
