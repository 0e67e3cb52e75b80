"""Looks that are counted, sorted or aimed at belong to a trait model."""

from collections.abc import Iterator

from filialog.findings import Finding, did_you_mean
from filialog.findings.finding import Place
from filialog.genetics import looks_of_model
from filialog.journal.events import Event
from filialog.journal.records import Journal
from filialog.journal.rules.context import Context
from filialog.journal.rules.mentions import told_once

__all__ = ["check", "known_looks"]


def known_looks(journal: Journal) -> frozenset[str]:
    """Return all looks and coarser classes of the journal's trait models."""
    found: set[str] = set()
    for page in journal.traits.values():
        found.update(looks_of_model(page.model))
        found.update(coarse.name for coarse in page.model.coarse)
    return frozenset(found)


def check(context: Context) -> Iterator[Finding]:
    """Report looks no model explains (N103); they are kept and listed as unexplained."""
    yield from told_once(_findings(context))


def _findings(context: Context) -> Iterator[Finding]:
    known = known_looks(context.journal)
    if not known:
        return
    quiet = known | context.journal.reported
    for event in context.journal.events():
        for look, place in _looks_named(event):
            if look not in quiet:
                label = "kept in the counts, listed as unexplained"
                yield _finding(look, place, known, label=label)
    for line in context.journal.lines.values():
        if line.goal is not None and line.goal not in quiet:
            place = line.places.get("goal.look", line.places.get("goal", line.place))
            yield _finding(line.goal, place, known, label="no young can be expected to show it")


def _looks_named(event: Event) -> Iterator[tuple[str, Place]]:
    for line in event.look_counts():
        yield line.look, event.places.get(f"looks.{line.look}", event.place_of("looks"))
    for sorting in event.sortings():
        if sorting.look is not None and sorting.look.whole is not None:
            place = event.places.get(f"into.{sorting.group}.look", event.place_of("into"))
            yield sorting.look.whole, place
    seen = event.look()
    if seen is not None:
        for look in (seen.whole, seen.left, seen.right):
            if look is not None:
                yield look, event.places.get(f"look.{look}", event.place_of("look"))


def _finding(look: str, place: Place, known: frozenset[str], *, label: str) -> Finding:
    return Finding(
        code="N103",
        place=place,
        message=f"no trait model has the look `{look}`",
        label=label,
        helps=did_you_mean(look, known, kind="look"),
    )
