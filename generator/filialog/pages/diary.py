"""The diary: its index, its months, its entries."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from filialog.analysis.rows import Level
from filialog.journal.events import Event
from filialog.journal.records import Entry
from filialog.messages import list_text, month_text, short_when_text, when_text
from filialog.pages.addresses import entry_address, month_address
from filialog.pages.gallery import PictureView, gallery
from filialog.pages.here import Here, Reference, Site
from filialog.pages.parts import Frame, LevelMark, frame, level_mark
from filialog.pages.prose import paths_in, prose_html
from filialog.pages.readings import EntryReadings, entry_readings
from filialog.pages.telling import EventLine, tell

__all__ = [
    "DiaryView",
    "EntryCard",
    "EntryView",
    "MonthView",
    "ProsePart",
    "diary_view",
    "entry_card",
    "entry_heading",
    "entry_view",
    "month_view",
    "months",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryCard:
    """An entry in a list: its day, its name, its first words."""

    href: str
    day: str
    title: str
    words: str
    recorded: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthLink:
    """A month in the diary's index."""

    href: str
    text: str
    entries: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DiaryYear:
    """A year in the diary's index."""

    year: str
    months: tuple[MonthLink, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DiaryView:
    """The diary by year and month, newest first."""

    frame: Frame
    opening: str
    years: tuple[DiaryYear, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthView:
    """The entries of a month, oldest first."""

    frame: Frame
    opening: str
    entries: tuple[EntryCard, ...]
    before: Reference | None
    after: Reference | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ProsePart:
    """The keeper's text on one tank, or on the whole."""

    heading: Markup
    html: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordedPart:
    """What was recorded of one tank."""

    tank: Markup
    events: tuple[EventLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryView:
    """A diary entry."""

    frame: Frame
    opening: Markup
    prose: tuple[ProsePart, ...]
    recorded: tuple[RecordedPart, ...]
    pictures: tuple[PictureView, ...]
    pictures_missing: str
    """Words on pictures an event names that cannot be shown; empty where there are none."""
    readings: EntryReadings | None
    observed: LevelMark
    month: Reference
    before: Reference | None
    after: Reference | None


def months(site: Site) -> tuple[tuple[int, int], ...]:
    """Return the years and months that have entries, oldest first."""
    return tuple(sorted({_month_of(entry) for entry in site.entries.values()}))


def diary_view(here: Here, _: str) -> DiaryView:
    """Return the index of the diary."""
    words = here.words
    numbers: dict[tuple[int, int], int] = {}
    for entry in here.site.entries.values():
        numbers[_month_of(entry)] = numbers.get(_month_of(entry), 0) + 1
    years = []
    newest_first = sorted(numbers, reverse=True)
    for year, found in groupby(newest_first, key=lambda item: item[0]):
        links = [
            MonthLink(
                href=here.to(month_address(year=year, month=month)),
                text=words("month", pick=str(month)),
                entries=words("diary.entries", number=numbers[year, month], n=numbers[year, month]),
            )
            for _, month in found
        ]
        years.append(DiaryYear(year=str(year), months=tuple(links)))
    opening = words("diary.empty")
    if here.site.order:
        opening = words(
            "diary.opening",
            number=len(here.site.order),
            n=len(here.site.order),
            first=when_text(words, here.site.entries[here.site.order[0]].when),
            last=when_text(words, here.site.entries[here.site.order[-1]].when),
        )
    heading = words("nav", pick="diary")
    return DiaryView(
        frame=frame(here, heading=heading, section="diary", description=opening),
        opening=opening,
        years=tuple(years),
    )


def month_view(here: Here, subject: str) -> MonthView:
    """Return a month of the diary; the subject is written `2026-03`."""
    words = here.words
    wanted = (int(subject[:4]), int(subject[5:7]))
    entries = [entry for entry in here.site.entries.values() if _month_of(entry) == wanted]
    heading = month_text(words, year=wanted[0], month=wanted[1])
    opening = words("month-page.opening", number=len(entries), n=len(entries), month=heading)
    every = months(here.site)
    at = every.index(wanted)
    return MonthView(
        frame=frame(here, heading=heading, section="diary", description=opening),
        opening=opening,
        entries=tuple(entry_card(here, entry) for entry in entries),
        before=_month_link(here, every[at - 1]) if at else None,
        after=_month_link(here, every[at + 1]) if at + 1 < len(every) else None,
    )


def entry_view(here: Here, subject: str) -> EntryView:
    """Return a diary entry."""
    words, site = here.words, here.site
    entry = site.entries[subject]
    at = site.position[subject]
    heading = entry_heading(here, entry)
    tanks = [here.tank(name) for name in entry.tanks]
    when = when_text(words, entry.when)
    opening = words.rich("entry.opening-day", when=when)
    if tanks:
        opening = words.rich("entry.opening", when=when, tanks=list_text(words, tanks))
    shown = [event for event in entry.events if not event.withheld]
    prose = tuple(
        ProsePart(
            heading=words.rich("entry.prose")
            if section.tank is None
            else words.rich("entry.prose-tank", tank=here.tank(section.tank)),
            html=prose_html(here, section.prose),
        )
        for section in entry.sections
        if not section.prose.empty
    )
    missing = _missing(here, shown)
    return EntryView(
        frame=frame(
            here,
            heading=heading,
            section="diary",
            description=_summary(entry) or words("entry.description", when=when),
        ),
        opening=opening,
        prose=prose,
        pictures=gallery(
            here,
            here.pictures.of_entry(subject),
            without=paths_in(section.prose for section in entry.sections),
        ),
        pictures_missing=words("entry.pictures-missing", number=missing, n=missing)
        if missing
        else "",
        recorded=_recorded(here, entry, shown),
        readings=entry_readings(here, shown),
        observed=level_mark(words, Level.OBSERVED),
        month=_month_link(here, _month_of(entry)),
        before=_neighbour(here, at - 1) if at else None,
        after=_neighbour(here, at + 1) if at + 1 < len(site.order) else None,
    )


def _missing(here: Here, events: Iterable[Event]) -> int:
    """Count the pictures that events name and that cannot be shown."""
    paths = dict.fromkeys(path for event in events for path in event.names("photo"))
    return sum(here.pictures.of_path(path) is None for path in paths)


def entry_heading(here: Here, entry: Entry) -> str:
    """Return the keeper's title, or the day and tank."""
    if entry.title:
        return entry.title
    day = short_when_text(here.words, entry.when)
    return here.words("reference", day=day, tank=entry.tank) if entry.tank else day


def entry_card(here: Here, entry: Entry) -> EntryCard:
    """Return an entry as a list shows it."""
    words = here.words
    kinds = dict.fromkeys(event.kind_name for event in entry.events if not event.withheld)
    names = [words("kind", pick=name) for name in kinds]
    day = short_when_text(words, entry.when)
    title = entry.title or (words("entry.of-tank", tank=entry.tank) if entry.tank else "")
    return EntryCard(
        href=here.to(entry_address(entry.id)),
        day=day,
        title=title or words("entry.untitled"),
        words=_summary(entry),
        recorded=words("entry.recorded", kinds=list_text(words, names)) if names else "",
    )


def _recorded(here: Here, entry: Entry, events: Iterable[Event]) -> tuple[RecordedPart, ...]:
    by_tank: dict[str, list[EventLine]] = {}
    for event in events:
        by_tank.setdefault(event.tank or "", []).append(tell(here, event, day=entry.when))
    only = len(by_tank) == 1 and next(iter(by_tank)) == (entry.tank or "")
    return tuple(
        RecordedPart(
            tank=Markup("")
            if only
            else here.words.rich("entry.recorded-tank", tank=here.tank(tank))
            if tank
            else here.words.rich("entry.recorded-anywhere"),
            events=tuple(lines),
        )
        for tank, lines in by_tank.items()
    )


def _summary(entry: Entry) -> str:
    return next((part.prose.plain for part in entry.sections if part.prose.plain), "")


def _month_of(entry: Entry) -> tuple[int, int]:
    return entry.when.earliest.year, entry.when.earliest.month


def _month_link(here: Here, month: tuple[int, int]) -> Reference:
    return Reference(
        href=here.to(month_address(year=month[0], month=month[1])),
        text=month_text(here.words, year=month[0], month=month[1]),
    )


def _neighbour(here: Here, at: int) -> Reference:
    entry = here.site.entries[here.site.order[at]]
    heading = entry_heading(here, entry)
    return Reference(href=here.to(entry_address(entry.id)), text=heading)
