"""One cause, one finding: a name that is wrong in many places is told of once."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from filialog.findings import Finding
from filialog.findings.finding import Mark, Place

__all__ = ["told_once"]

_SHOWN = 3


def told_once(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Put findings of the same words together: the first one points at the other places."""
    first: dict[tuple[str, str], Finding] = {}
    others: dict[tuple[str, str], dict[Place, None]] = {}
    for finding in findings:
        key = (finding.code, finding.message)
        if first.setdefault(key, finding).place != finding.place:
            others.setdefault(key, {})[finding.place] = None
    for key, finding in first.items():
        places = tuple(others.get(key, ()))
        more = len(places) - _SHOWN
        yield replace(
            finding,
            related=(
                *finding.related,
                *(Mark(place=place, says="the same name") for place in places[:_SHOWN]),
            ),
            notes=(*finding.notes, *((f"and at {more} more places",) if more > 0 else ())),
        )
