"""A tank's page: what it is, who lived there, its water."""

from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import HoldingRow, Level, Stay, TankRow, WaterChangeRow
from filialog.journal.records import TankPage
from filialog.messages import (
    count_text,
    day_text,
    decimal_text,
    list_text,
    reading_text,
    short_day_text,
    short_when_text,
)
from filialog.pages.gallery import PictureView, gallery
from filialog.pages.here import Here, Reference
from filialog.pages.parts import (
    Fact,
    Frame,
    LevelMark,
    LinkedRun,
    fact,
    frame,
    level_mark,
    mention_links,
)
from filialog.pages.prose import paths_in, prose_html
from filialog.pages.readings import Chart, ReadingTable, reading_charts, reading_table
from filialog.pages.telling import tell

__all__ = ["TankView", "holding_html", "holdings_html", "tank_title", "tank_view"]

_SHOWN = 8
"""Newest water changes that stand open."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedValue:
    """A property of the tank."""

    name: str
    value: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StayLine:
    """A group's time in the tank."""

    group: Markup
    since: str
    until: str
    brought_by: Reference | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeLine:
    """A water change."""

    day: str
    entry: Reference | None
    amount: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TankEvent:
    """Something that happened to the tank."""

    day: str
    entry: Reference | None
    sentence: Markup
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TankView:
    """Everything a tank's page shows."""

    frame: Frame
    opening: str
    closed: str
    holdings: tuple[Fact, ...]
    holdings_none: str
    total: str
    properties: tuple[NamedValue, ...]
    prose: Markup
    stays: tuple[StayLine, ...]
    pictures: tuple[PictureView, ...]
    charts: tuple[Chart, ...]
    readings: ReadingTable | None
    changes: tuple[ChangeLine, ...]
    earlier_changes: tuple[ChangeLine, ...]
    more_changes: str
    """Words on how many are folded away; empty where none are."""
    events: tuple[TankEvent, ...]
    mentions: LinkedRun
    observed: LevelMark
    inferred: LevelMark
    claimed: LevelMark


def tank_title(here: Here, name: str) -> str:
    """Return a tank's name as shown."""
    page = here.results.journal.tanks.get(name)
    return page.title if page is not None and page.title else name


def holding_html(here: Here, row: HoldingRow) -> Markup:
    """Write how many animals of a group are there."""
    words = here.words
    kind = "colony" if row.colony else "group"
    n = count_text(words, row.count)
    group = here.group(row.group)
    return words.rich("holding", pick=kind, number=row.count, n=n, group=group)


def holdings_html(here: Here, rows: tuple[HoldingRow, ...]) -> Markup:
    """Write who is in a tank in one row of words."""
    if not rows:
        return here.words.rich("holding.none")
    return list_text(here.words, [holding_html(here, row) for row in rows])


def tank_view(here: Here, subject: str) -> TankView:
    """Return a tank's page."""
    words, row = here.words, here.results.tank(subject)
    page = here.results.journal.tanks.get(subject)
    opening = _opening(here, row, page)
    changes = tuple(
        _change(here, change)
        for change in reversed(row.changes)
        if here.event(change.event) is not None
    )
    earlier = changes[_SHOWN:]
    return TankView(
        frame=frame(
            here,
            heading=tank_title(here, subject),
            section="tanks",
            description=opening,
        ),
        opening=opening,
        closed=words("tank.closed", day=day_text(words, row.closed)) if row.closed else "",
        holdings=tuple(
            fact(here, holding_html(here, holding), Level.INFERRED, holding.events)
            for holding in row.holdings
        ),
        holdings_none=words("tank.nobody"),
        total=_total(here, row),
        properties=() if page is None else _properties(here, page),
        prose=Markup("") if page is None else prose_html(here, page.prose),
        stays=tuple(_stay(here, stay) for stay in row.stays),
        pictures=gallery(
            here,
            here.pictures.of_tank(subject),
            without=() if page is None else paths_in([page.prose]),
        ),
        charts=reading_charts(here, row, page),
        readings=reading_table(here, row.readings),
        changes=changes[:_SHOWN],
        earlier_changes=earlier,
        more_changes=words("tank.earlier-changes", number=len(earlier), n=len(earlier))
        if earlier
        else "",
        events=_events(here, row),
        mentions=mention_links(here, row.mentions),
        observed=level_mark(words, Level.OBSERVED),
        inferred=level_mark(words, Level.INFERRED),
        claimed=level_mark(words, Level.CLAIMED),
    )


def _opening(here: Here, row: TankRow, page: TankPage | None) -> str:
    words = here.words
    first = words("tank.is-a-tank")
    if page is not None and page.litres is not None:
        litres = decimal_text(words, page.litres, decimals=1)
        first = words("tank.is-litres", n=litres)
    if page is not None and page.where:
        first = words("tank.placed", tank=first, where=page.where)
    if row.closed is not None:
        return words("tank.opening-closed", tank=first, day=day_text(words, row.closed))
    if row.last_day is None:
        return words("tank.opening-quiet", tank=first)
    day = day_text(words, row.last_day)
    if not row.holdings or row.total is None:
        return words("tank.opening-empty", tank=first, day=day)
    groups = len(row.holdings)
    return words(
        "tank.opening",
        number=groups,
        tank=first,
        day=day,
        n=count_text(words, row.total),
        animals=words("noun", pick="animal", number=row.total),
        groups=groups,
    )


def _total(here: Here, row: TankRow) -> str:
    words = here.words
    if row.total is None or row.last_day is None or len(row.holdings) < 2:
        return ""
    n, day = count_text(words, row.total), day_text(words, row.last_day)
    return words("tank.total", number=row.total, n=n, day=day)


def _properties(here: Here, page: TankPage) -> tuple[NamedValue, ...]:
    words = here.words
    sides = (page.length_cm, page.width_cm, page.height_cm)
    given = [decimal_text(words, side, decimals=1) for side in sides if side is not None]
    size = words("tank.size", sides=words("list.times").join(given)) if len(given) == 3 else None
    litres = page.litres
    values = (
        ("litres", None if litres is None else words("tank.litres-value",
                                                     n=decimal_text(words, litres, decimals=1))),
        ("size", size),
        ("soil", page.soil),
        ("filter", page.filter),
        ("light", page.light),
        ("where", page.where),
    )  # fmt: skip
    named = [
        NamedValue(name=words("tank-property", pick=name), value=value)
        for name, value in values
        if value
    ]
    named.extend(
        NamedValue(
            name=words("tank.target", quantity=words("quantity", pick=quantity)),
            value=reading_text(words, reading),
        )
        for quantity, reading in page.targets
    )
    return tuple(named)


def _stay(here: Here, stay: Stay) -> StayLine:
    """Return a stay; its days are left out where what brought the animals is not published."""
    words = here.words
    if stay.event is not None and here.event(stay.event) is None:
        blank = words("table.blank")
        return StayLine(group=here.group(stay.group), since=blank, until=blank, brought_by=None)
    until = words("tank.still-there")
    if stay.until is not None:
        until = short_day_text(words, stay.until)
    return StayLine(
        group=here.group(stay.group),
        since=short_day_text(words, stay.since),
        until=until,
        brought_by=None if stay.event is None else here.event_entry(stay.event),
    )


def _change(here: Here, change: WaterChangeRow) -> ChangeLine:
    words = here.words
    amounts = [
        words("amount", pick=name, n=decimal_text(words, amount, decimals=1))
        for name, amount in (("litres", change.litres), ("percent", change.percent))
        if amount is not None
    ]
    return ChangeLine(
        day=short_when_text(words, change.when),
        entry=here.event_entry(change.event),
        amount=words("list.comma").join(amounts) or words("amount", pick="unknown"),
    )


def _events(here: Here, row: TankRow) -> tuple[TankEvent, ...]:
    found = []
    for identifier in reversed(row.other_events):
        event = here.event(identifier)
        if event is None:
            continue
        line = tell(here, event)
        found.append(
            TankEvent(
                day=short_when_text(here.words, event.when),
                entry=here.event_entry(identifier),
                sentence=line.sentence,
                note=line.note,
            )
        )
    return tuple(found)
