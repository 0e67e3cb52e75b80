"""What of an event that is not published still counts in the book of the public edition.

Only names and numbers of what is published are left. Animals that went to a private group have
left, animals that came from one have come from outside: how many of a group are left stays right,
so that nothing is offered twice.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from filialog.findings.finding import Place
from filialog.journal.events import Event, Other, Value
from filialog.journal.keys import Shape
from filialog.journal.kinds import COMMON_KEYS, Books
from filialog.journal.ledger.cells import amount_of, sum_of
from filialog.journal.names import Names
from filialog.journal.quantities import Count, bounds_text

__all__ = ["Hidden", "names_in", "what_counts"]

_STOCK_KEYS = frozenset(
    {"group", "of", "count", "females", "males", "young", "from", "to", "as", "into", "parts"}
    | {"brood", "colony", "left"}
)
"""What a withheld event keeps: the names and numbers the book needs."""

_EVIDENCE_KEYS = frozenset(
    {"looks", "unsorted", "other", "how", "all", "all-young", "use", "age"}
    | {"dams", "sires", "cross", "mating"}
)
"""What it keeps besides where the keeper lets its kind count as a claim."""

_REOPENING = frozenset({"soil", "fitted", "cycle", "planted"})
"""Work on a tank that was taken down: without it the tank would stay closed."""

_NAMING = frozenset(
    {Shape.GROUP, Shape.GROUPS, Shape.NEW_GROUP, Shape.TANK, Shape.PLACE, Shape.PARENTS}
    | {Shape.PARTS, Shape.SORTED_INTO}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hidden:
    """Names that the public edition may not hold."""

    groups: frozenset[str]
    tanks: Mapping[str, str]
    """What stands for each in the book of the public edition."""
    lots: frozenset[str]
    """Lots of which only private events say what they hold."""
    links: frozenset[str]
    """Names of groups, tanks and lines that prose may not hold, case folded."""
    paths: frozenset[str]
    """Files of which nothing is published."""


def names_in(event: Event) -> Iterator[str]:
    """Give every name of a group or tank that an event's values hold."""
    if event.tank is not None:
        yield event.tank
    for key in (*COMMON_KEYS, *event.kind.own):
        if key.shape in _NAMING and key.name in event.values:
            yield from event.names(key.name)
            if (parents := event.parents(key.name)) is not None:
                yield from parents.groups
            yield from (part.group for part in event.parts(key.name))
            yield from (sorting.group for sorting in event.sortings(key.name))
    if event.kind.books is Books.CLOSES:
        yield from (name for name, _ in event.table("left"))


def what_counts(event: Event, *, hidden: Hidden, names: Names, claimed: bool) -> tuple[Event, ...]:
    """Return what of a hidden event still counts.

    `names` are those of the whole journal; `claimed` says that the keeper lets events of this
    kind count as claims, evidence included.
    """
    books = event.kind.books
    if event.kind.private:
        return ()
    if event.kind_name in _REOPENING:
        return (_bare(event, event.kind_name, {}, tank=hidden.tanks.get(event.tank or "")),)
    if books in (Books.NOTHING, Books.COUNTS) and not claimed:
        return ()
    keys = _STOCK_KEYS | _EVIDENCE_KEYS if claimed else _STOCK_KEYS
    values = {key: value for key, value in event.values.items() if key in keys}
    lot = event.text("lot")
    if lot is not None and not {"group", "of"} & values.keys():
        values["of"] = names.lots.get(lot, ())
    if "left" in values:
        values["left"] = ()
    if "other" in values:
        values["other"] = tuple(Other(count=other.count, note="") for other in event.others())
    if not claimed and (sortings := event.sortings()):
        values["into"] = tuple(replace(sorting, look=None) for sorting in sortings)
    for key in ("from", "to"):
        if (name := event.text(key)) is not None and name not in hidden.groups:
            values[key] = hidden.tanks.get(name, name)
    stripped = _bare(event, event.kind_name, values, tank=hidden.tanks.get(event.tank or ""))
    if not hidden.groups.intersection(names_in(stripped)):
        return (stripped,)
    if event.kind_name == "moved":
        stripped = replace(stripped, values=_with_groups_told_apart(stripped, names))
    return tuple(_without_groups(stripped, hidden.groups))


def _with_groups_told_apart(event: Event, names: Names) -> dict[str, Value]:
    """Return the values of a move with the groups that `from` and `to` name as what they are."""
    values = dict(event.values)
    for key, meant in (("from", "group"), ("to", "as")):
        name = event.text(key)
        if name is not None and name in names.groups and name not in names.tanks:
            del values[key]
            values.setdefault(meant, name)
    return values


def _bare(
    event: Event, kind: str, values: Mapping[str, Value], *, tank: str | None = None
) -> Event:
    """Return an event of which nothing can be shown; `tank` stands for its own."""
    return replace(
        event,
        kind_name=kind,
        tank=tank or event.tank,
        private=False,
        withheld=True,
        values=values,
        place=Place(""),
        places={},
    )


def _without_groups(event: Event, hidden: frozenset[str]) -> Iterator[Event]:
    """Give what an event that names hidden groups does to the others."""
    named = _groups(event)
    known = tuple(name for name in named if name not in hidden)
    match event.kind_name:
        case "sorted":
            yield from _sorted(event, hidden)
        case "joined":
            yield from _joined(event, hidden)
        case "chosen":
            yield from _went(event, known, event.text("into"), hidden)
        case "moved":
            yield from _moved(event, known, hidden)
        case _ if event.kind.books is Books.APPEARS:
            if not hidden.intersection((event.text("brood"), event.text("group"))):
                parents = ("dams", "sires", "cross")
                yield _bare(event, event.kind_name, _omit(event.values, parents))
        case _ if event.kind.books is Books.LEAVES and known:
            yield _bare(event, event.kind_name, _some_of(event, known))


def _groups(event: Event) -> tuple[str, ...]:
    """Name the groups that animals are taken from."""
    single = event.text("group")
    if event.kind_name in ("sorted", "chosen"):
        single = event.text("from") or single
    return (single,) if single is not None else event.names("of")


def _sorted(event: Event, hidden: frozenset[str]) -> Iterator[Event]:
    source = _groups(event)
    kept = tuple(one for one in event.sortings() if one.group not in hidden)
    if hidden.intersection(source):
        for one in kept:
            yield _gained(event, one.group, one.count)
        return
    if kept:
        yield _bare(event, event.kind_name, {**event.values, "into": kept})
    for one in event.sortings():
        if one.group in hidden:
            yield _lost(event, source, one.count or sum_of((one.females, one.males)))


def _joined(event: Event, hidden: frozenset[str]) -> Iterator[Event]:
    into = event.text("into")
    parts = event.parts()
    known = tuple(part for part in parts if part.group not in hidden)
    names = tuple(name for name in event.names("of") if name not in hidden)
    if into is None or into in hidden:
        for part in known:
            yield _lost(event, (part.group,), part.count)
        for name in names:
            yield _lost(event, (name,), None)
        return
    if {part.group for part in known} - {into} or set(names) - {into}:
        values: dict[str, Value] = {"into": into}
        values |= {"parts": known} if known else {"of": names}
        yield _bare(event, event.kind_name, values)
    for part in parts:
        if part.group in hidden:
            yield _gained(event, into, part.count)
    for name in event.names("of"):
        if name in hidden:
            yield _gained(event, into, None)


def _moved(event: Event, known: tuple[str, ...], hidden: frozenset[str]) -> Iterator[Event]:
    target = event.text("as")
    if target in hidden:
        if known or not _groups(event):
            yield _lost(event, known, amount_of(event), tank=event.text("from"))
    elif known:
        yield _bare(event, event.kind_name, _some_of(event, known))
    elif target is not None:
        yield _gained(event, target, amount_of(event), tank=event.text("to"))


def _went(
    event: Event, known: tuple[str, ...], target: str | None, hidden: frozenset[str]
) -> Iterator[Event]:
    if known:
        yield _lost(event, known, amount_of(event))
    elif target is not None and target not in hidden:
        yield _gained(event, target, amount_of(event))


def _lost(
    event: Event, groups: tuple[str, ...], count: Count | None, *, tank: str | None = None
) -> Event:
    values: dict[str, Value] = {"of": groups} if groups else {}
    if count is not None:
        values["count"] = count
    lost = _bare(event, "given", values, tank=tank)
    # Wherever they were: a group that is named needs no tank.
    return replace(lost, tank=None) if groups else lost


def _gained(event: Event, group: str, count: Count | None, *, tank: str | None = None) -> Event:
    values: dict[str, Value] = {"group": group}
    if count is not None:
        values["count"] = count
    return _bare(event, "bought", values, tank=tank)


def _some_of(event: Event, groups: tuple[str, ...]) -> dict[str, Value]:
    """Return the values of an event of which only some of the groups may be named."""
    values = _omit(event.values, ("group", "females", "males", "young"))
    values["of"] = groups
    if (count := amount_of(event)) is not None:
        values["count"] = Count(low=0, high=count.high, text=bounds_text(0, count.high))
    return values


def _omit(values: Mapping[str, Value], keys: Iterable[str]) -> dict[str, Value]:
    left_out = set(keys)
    return {key: value for key, value in values.items() if key not in left_out}
