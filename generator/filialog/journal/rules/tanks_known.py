"""Every tank that is named has a page, in a journal that has pages of tanks."""

from collections.abc import Iterator

from filialog.findings import Finding, did_you_mean
from filialog.findings.finding import Place
from filialog.journal.rules.context import Context

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report tanks without a page (N102); the entry is reported once, not its events."""
    known = context.names.tanks
    reported: set[tuple[str, str]] = set()
    for entry in context.journal.entries:
        for event in entry.events:
            tank = event.tank
            if tank is None or tank in known or (entry.path, tank) in reported:
                continue
            reported.add((entry.path, tank))
            yield _finding(tank, event.places.get("tank", event.place), known)
        for section in entry.sections:
            tank = section.tank
            if tank is not None and tank not in known and (entry.path, tank) not in reported:
                reported.add((entry.path, tank))
                yield _finding(tank, Place(entry.path), known)
        for event in entry.events:
            if event.kind_name == "strayed":
                for key in ("from", "to"):
                    name = event.text(key)
                    if name is not None and name not in known:
                        yield _finding(name, event.place_of(key), known)


def _finding(tank: str, place: Place, known: frozenset[str]) -> Finding:
    return Finding(
        code="N102",
        place=place,
        message=f"tank `{tank}` is not known",
        label="no page in `tanks/` has this name",
        helps=(
            *did_you_mean(tank, known, kind="tank"),
            f"or write a page for it: tanks/{tank}.md",
        ),
    )
