"""No two things want the same address."""

import unicodedata
from collections.abc import Iterator

from filialog.findings import Finding
from filialog.findings.finding import Mark, Place
from filialog.journal.rules.context import Context

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report names that differ only in case or in the way accents are written (N106)."""
    places: dict[str, Place] = {
        name: origins[0].event.place for name, origins in context.names.origins.items()
    }
    yield from _collisions("group", places)
    yield from _collisions(
        "tank", {name: page.place for name, page in context.journal.tanks.items()}
    )
    yield from _collisions(
        "line", {name: page.place for name, page in context.journal.lines.items()}
    )


def _collisions(kind: str, places: dict[str, Place]) -> Iterator[Finding]:
    first: dict[str, str] = {}
    for name, place in places.items():
        folded = unicodedata.normalize("NFKC", name).casefold().replace(" ", "-")
        other = first.setdefault(folded, name)
        if other != name:
            yield Finding(
                code="N106",
                place=place,
                message=f"{kind} `{name}` and {kind} `{other}` would share one address",
                label="differs only in case, spaces or accents",
                related=(Mark(place=places[other], says=f"`{other}` is named here"),),
                helps=("write the same name in the same way, or choose another",),
            )
