"""Every tank that is named has a page, in a journal that has pages of tanks."""

from collections.abc import Iterator

from filialog.findings import Finding, did_you_mean
from filialog.findings.finding import Place
from filialog.journal.records import Entry
from filialog.journal.rules.context import Context
from filialog.journal.rules.mentions import told_once

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report tanks without a page (N102), each once."""
    yield from told_once(_findings(context))


def _findings(context: Context) -> Iterator[Finding]:
    known = context.names.tanks
    for entry in context.journal.entries:
        told: set[str] = set()
        for tank, place, label in _tanks_named(entry):
            if tank in known or tank in told or tank in context.journal.reported:
                continue
            told.add(tank)
            yield Finding(
                code="N102",
                place=place,
                message=f"tank `{tank}` is not known",
                label=label,
                helps=(
                    *did_you_mean(tank, known, kind="tank"),
                    f"or write a page for it: tanks/{tank}.md",
                ),
            )


def _tanks_named(entry: Entry) -> Iterator[tuple[str, Place, str]]:
    """Give the tanks an entry names, each with where, and with words for that place."""
    no_page = "no page in `tanks/` has this name"
    for event in entry.events:
        if event.tank is not None:
            if "tank" in event.places:
                yield event.tank, event.places["tank"], no_page
            else:
                yield event.tank, event.place, f"this is of `{event.tank}`, which has no page"
        for key in ("from", "to") if event.kind_name == "strayed" else ():
            if (name := event.text(key)) is not None:
                yield name, event.place_of(key), no_page
    for tank in (*(section.tank for section in entry.sections), entry.tank):
        if tank is not None:
            yield tank, Place(entry.path), no_page
