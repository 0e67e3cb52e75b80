"""The front page: what the journal is, the rack as it stands, what is new."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import HoldingRow, Level
from filialog.journal.quantities import Count
from filialog.messages import count_text, day_text, short_when_text
from filialog.pages.addresses import ABOUT, DIARY, OFFERS, line_address, tank_address
from filialog.pages.diary import EntryCard, entry_card
from filialog.pages.gallery import PictureView, gallery, pictures_of_line
from filialog.pages.here import Here, Reference
from filialog.pages.line import line_progress, line_title
from filialog.pages.offers import OfferLine, offer_lines
from filialog.pages.parts import Frame, LevelLine, LevelMark, frame, level_lines, level_mark
from filialog.pages.readings import last_reading, readings_text
from filialog.pages.tank import holdings_html, tank_title

__all__ = ["FrontView", "LineCard", "TankCard", "front_view", "line_card", "tank_card"]

_LATEST = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class TankCard:
    """A tank on the rack: who is there, how many, the last readings."""

    href: str
    title: str
    where: str
    holdings: Markup
    total: str
    reading: str
    reading_day: str
    reading_entry: Reference | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LineCard:
    """A line and how far it has come."""

    href: str
    title: str
    progress: str
    pictures: tuple[PictureView, ...]
    """The newest of the line, or of its goal look; none where there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FrontView:
    """Everything the front page shows."""

    frame: Frame
    opening: str
    about: str
    rack: str
    tanks: tuple[TankCard, ...]
    lines: tuple[LineCard, ...]
    offers: tuple[OfferLine, ...]
    all_offers: str
    latest: tuple[EntryCard, ...]
    diary: str
    methods: str
    levels: tuple[LevelLine, ...]
    inferred: LevelMark


def front_view(here: Here, _: str) -> FrontView:
    """Return the front page."""
    words, results = here.words, here.results
    settings = results.journal.settings
    by_tank: dict[str, list[HoldingRow]] = {}
    for row in results.holdings(results.as_of):
        by_tank.setdefault(row.tank, []).append(row)
    opening = _opening(here)
    tanks = [name for name in results.tanks() if _open(here, name) or name in by_tank]
    newest = reversed(here.site.order[-_LATEST:])
    day = day_text(words, results.as_of)
    return FrontView(
        frame=frame(here, heading=settings.title, section="front", description=opening),
        opening=opening,
        about=settings.about,
        rack=words("front.rack-as-of", day=day),
        tanks=tuple(tank_card(here, name, by_tank.get(name, ())) for name in tanks),
        lines=tuple(line_card(here, name) for name in results.lines()),
        offers=offer_lines(here),
        all_offers=here.to(OFFERS),
        latest=tuple(entry_card(here, here.site.entries[name]) for name in newest),
        diary=here.to(DIARY),
        methods=here.to(ABOUT),
        levels=level_lines(words),
        inferred=level_mark(words, Level.INFERRED),
    )


def tank_card(here: Here, name: str, holdings: Sequence[HoldingRow]) -> TankCard:
    """Return a tank as a list shows it."""
    words, row = here.words, here.results.tank(name)
    page = here.results.journal.tanks.get(name)
    total = Count.of(0)
    for holding in holdings:
        total += holding.count
    reading = last_reading([item for item in row.readings if here.event(item.event) is not None])
    text = words("tank-card.no-reading")
    if reading is not None:
        text = readings_text(here, reading.readings)
    return TankCard(
        href=here.to(tank_address(name)),
        title=tank_title(here, name),
        where=page.where if page is not None and page.where else "",
        holdings=holdings_html(here, tuple(holdings)),
        total=words("tank-card.total", number=total, n=count_text(words, total))
        if len(holdings) > 1
        else "",
        reading=text,
        reading_day="" if reading is None else short_when_text(words, reading.when),
        reading_entry=None if reading is None else here.event_entry(reading.event),
    )


def line_card(here: Here, name: str) -> LineCard:
    """Return a line as a list shows it."""
    return LineCard(
        href=here.to(line_address(name)),
        title=line_title(here, name),
        progress=line_progress(here, here.results.line(name)),
        pictures=gallery(here, pictures_of_line(here, name)[-1:]),
    )


def _opening(here: Here) -> str:
    words, results = here.words, here.results
    journal = results.journal
    tanks = sum(_open(here, name) for name in results.tanks())
    groups, lines = len(results.groups()), len(results.lines())
    if not here.site.order:
        return words("front.empty")
    species = journal.species
    return words(
        "front.opening",
        keeper=journal.settings.keeper or words("front.a-keeper"),
        species=words("front.some-species") if species is None else species.name,
        tanks=words("front.tanks", number=tanks, n=tanks),
        groups=words("front.groups", number=groups, n=groups),
        lines=words("front.lines", number=lines, n=lines),
    )


def _open(here: Here, name: str) -> bool:
    return here.results.tank(name).closed is None
