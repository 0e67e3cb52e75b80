"""No two things want the same address."""

import re
import unicodedata
from collections.abc import Iterator

from filialog.findings import Finding
from filialog.findings.finding import Mark, Place
from filialog.journal.events import Event
from filialog.journal.parents import named_crosses
from filialog.journal.records import Journal
from filialog.journal.rules.context import Context

__all__ = ["check", "folded_name"]


def check(context: Context) -> Iterator[Finding]:
    """Report names that differ only in case, accents or signs (N106)."""
    groups = context.names.origins
    yield from _collisions(
        "group", {name: _place(name, of=origins[0].event) for name, origins in groups.items()}
    )
    yield from _collisions(
        "cross",
        {
            name: cross.event.place_of("cross")
            for name, cross in named_crosses(context.journal).items()
        },
    )
    yield from _collisions("tank", _tanks(context.journal))
    yield from _collisions(
        "line", {name: page.place for name, page in context.journal.lines.items()}
    )


def _tanks(journal: Journal) -> dict[str, Place]:
    """Return where each tank has its page; where none has one, where each is named first."""
    places = {name: page.place for name, page in journal.tanks.items()}
    for event in journal.events() if not places else ():
        if event.tank is not None:
            places.setdefault(event.tank, event.place_of("tank"))
    return places


def folded_name(name: str) -> str:
    """Return what is left of a name in an address: letters and digits without case and accents."""
    folded = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", name).casefold())
    signs = [sign for sign in folded if not unicodedata.category(sign).startswith("M")]
    if any(not sign.isascii() and sign.isalnum() for sign in signs):
        return folded  # of letters that addresses cannot hold a digest stands for all signs
    return "-".join(re.split(r"[^a-z0-9]+", "".join(signs))).strip("-") or folded


def _place(group: str, *, of: Event) -> Place:
    """Return where the event that brings a group into being names it."""
    for key in ("group", "brood", "as", "into"):
        if of.text(key) == group:
            return of.place_of(key)
    return of.places.get(f"into.{group}", of.place)


def _collisions(kind: str, places: dict[str, Place]) -> Iterator[Finding]:
    first: dict[str, str] = {}
    for name, place in places.items():
        other = first.setdefault(folded_name(name), name)
        if other != name:
            yield Finding(
                code="N106",
                place=place,
                message=f"{kind} `{name}` and {kind} `{other}` would share one address",
                label="differs only in case, accents or signs",
                related=(Mark(place=places[other], says=f"`{other}` is named here"),),
                helps=("write the same name in the same way, or choose another",),
            )
