"""Every group that is named has come into being somewhere in the diary."""

from collections.abc import Iterator

from filialog.findings import Finding, did_you_mean
from filialog.findings.finding import Place
from filialog.journal.events import Event
from filialog.journal.names import references_of
from filialog.journal.rules.context import Context
from filialog.journal.rules.mentions import told_once

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report names of groups that nothing brings into being (N101)."""
    yield from told_once(_findings(context))


def _findings(context: Context) -> Iterator[Finding]:
    """Names in text that could not be read may be of a group that was to come: it was told of."""
    known = context.names.groups
    unknown = known | context.journal.reported
    for event in context.journal.events():
        for name, place in references_of(event):
            if name not in unknown:
                yield _finding(name, _inner_place(event, name, place), known)
        if event.kind_name != "moved":
            continue
        # `from` and `to` of a move name a tank or a group.
        for key in ("from", "to"):
            target = event.text(key)
            if target is None or target in unknown or target in context.names.tanks:
                continue
            yield Finding(
                code="N102",
                place=event.place_of(key),
                message=f"`{target}` is neither a tank nor a group",
                label="no page in `tanks/` and no entry has this name",
                helps=did_you_mean(target, known | context.names.tanks, kind="name"),
            )
    for line in context.journal.lines.values():
        for name in line.founders:
            if name not in unknown:
                whole = line.places.get("founders", line.place)
                yield _finding(name, line.places.get(f"founders.{name}", whole), known)


def _inner_place(event: Event, name: str, place: Place) -> Place:
    """Return where a name stands within the value of a key, where that is known."""
    key = next((key for key, found in event.places.items() if found == place), "")
    return event.places.get(f"{key}.{name}", place)


def _finding(name: str, place: Place, known: frozenset[str]) -> Finding:
    return Finding(
        code="N101",
        place=place,
        message=f"group `{name}` is not known",
        label="no entry brings it into being",
        helps=did_you_mean(name, known, kind="group"),
    )
