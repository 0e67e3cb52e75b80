"""Where a page stands: links out of it, and the words it is written in."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from markupsafe import Markup, escape

from filialog.journal.events import Event, EventId
from filialog.journal.quantities import When
from filialog.journal.records import Entry
from filialog.messages import Words, list_text, short_when_text
from filialog.pages.addresses import (
    cross_address,
    entry_address,
    group_address,
    line_address,
    look_address,
    lot_address,
    relative,
    tank_address,
)
from filialog.pages.drawing import Swatch, swatches
from filialog.pages.pictures import Pictures
from filialog.pages.results import Results

__all__ = ["Here", "Reference", "References", "Site"]

_SHOWN_REFERENCES = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """A small link to the diary entry that a number rests on."""

    href: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class References:
    """The entries a number rests on: the first few, and the rest folded away."""

    shown: tuple[Reference, ...]
    rest: tuple[Reference, ...]
    more: str
    """Words on how many are folded away; empty where none are."""
    hidden: str
    """Words on entries that are not published; empty where all are."""


class Site:
    """All pages together: results, pictures, words, and which names have a page of their own."""

    def __init__(self, results: Results, words: Words, version: str, pictures: Pictures) -> None:
        self.results = results
        self.words = words
        self.version = version
        self.pictures = pictures
        self.entries: Mapping[str, Entry] = {entry.id: entry for entry in results.journal.entries}
        self.order: tuple[str, ...] = tuple(self.entries)
        self.position: Mapping[str, int] = {name: at for at, name in enumerate(self.order)}
        self.crosses: frozenset[str] = frozenset(results.crosses())
        self.lots: frozenset[str] = frozenset(results.lots())
        groups, tanks, lines = results.groups(), results.tanks(), results.lines()
        self._pages: Mapping[str, Mapping[str, str]] = {
            "group": {name: group_address(name) for name in groups},
            "tank": {name: tank_address(name) for name in tanks},
            "line": {name: line_address(name) for name in lines},
            "look": {name: look_address(name) for name in results.looks()},
        }

    @cached_property
    def swatches(self) -> Mapping[str, Swatch]:
        """The mark of every look: those of the trait models, and those recorded of a group."""
        recorded = (self.results.group(name).look for name in self.results.groups())
        whole = (look.whole for look in recorded if look is not None)
        return swatches((*self.results.looks(), *filter(None, whole)))

    def address_of(self, name: str, kinds: Iterable[str]) -> str | None:
        """Return the address of the first kind of thing that has this name, if any has."""
        for kind in kinds:
            address = self._pages[kind].get(name)
            if address is not None:
                return address
        return None


@dataclass(frozen=True, slots=True)
class Here:
    """A page's address, and links as seen from there."""

    site: Site
    address: str
    pictured: list[str] = field(default_factory=list, compare=False)
    """The pictures the page has asked for so far: the first of a page is fetched at once."""

    @property
    def pictures(self) -> Pictures:
        """The pictures that may be shown."""
        return self.site.pictures

    @property
    def results(self) -> Results:
        """The results all pages show."""
        return self.site.results

    @property
    def words(self) -> Words:
        """The words of the interface."""
        return self.site.words

    def to(self, address: str) -> str:
        """Return the link to an address of the site."""
        return relative(start=self.address, to=address)

    def link(self, text: str, address: str | None) -> Markup:
        """Return text as a link, or as it is where there is no page to link to."""
        if address is None or address == self.address:
            return escape(text)
        return Markup('<a href="{}">{}</a>').format(self.to(address), text)

    def group(self, name: str) -> Markup:
        """Return a group's name, linked where it has a page."""
        return self.link(name, self.site.address_of(name, ("group",)))

    def tank(self, name: str) -> Markup:
        """Return a tank's name, linked where it has a page."""
        return self.link(name, self.site.address_of(name, ("tank",)))

    def line(self, name: str) -> Markup:
        """Return a line's name, linked where it has a page."""
        return self.link(name, self.site.address_of(name, ("line",)))

    def look(self, name: str) -> Markup:
        """Return a look's name, linked where it has a page."""
        return self.link(name, self.site.address_of(name, ("look",)))

    def lot(self, name: str) -> Markup:
        """Return a lot's name, linked to its place on the page of offers."""
        return self.link(name, lot_address(name) if name in self.site.lots else None)

    def named(self, name: str, text: str | None = None) -> Markup:
        """Return a name of any kind, linked where it has a page."""
        address = self.site.address_of(name, ("group", "tank", "line"))
        return self.link(name if text is None else text, address)

    def cross(self, identifier: str, text: str | None = None) -> Markup:
        """Return a cross's name, linked where it has a page."""
        shown = text or self.results.cross(identifier).name or identifier
        address = cross_address(identifier) if identifier in self.site.crosses else None
        return self.link(shown, address)

    def groups(self, names: Sequence[str]) -> Markup:
        """Return several groups in a row."""
        return list_text(self.words, [self.group(name) for name in names])

    def event(self, identifier: EventId) -> Event | None:
        """Return an event that may be shown."""
        event = self.results.event(identifier)
        return None if event is None or event.withheld else event

    def entry(self, identifier: str) -> Reference | None:
        """Return the small link to an entry, where it is published."""
        entry = self.site.entries.get(identifier)
        if entry is None:
            return None
        return self._reference(entry, entry.when, entry.tank)

    def event_entry(self, identifier: EventId) -> Reference | None:
        """Return the small link to the entry of an event, where it may be shown."""
        event, entry = self.event(identifier), self.site.entries.get(identifier.entry)
        if event is None or entry is None:
            return None
        return self._reference(entry, event.when, event.tank)

    def references(self, events: Iterable[EventId]) -> References:
        """Return the small links to the entries that a result rests on, each once."""
        found: dict[str, Reference] = {}
        hidden = False
        for identifier in sorted(set(events)):
            reference = self.event_entry(identifier)
            if reference is None:
                hidden = True
            else:
                found.setdefault(identifier.entry, reference)
        every = tuple(found[entry] for entry in sorted(found, key=self.site.position.__getitem__))
        rest = every[_SHOWN_REFERENCES:]
        return References(
            shown=every[:_SHOWN_REFERENCES],
            rest=rest,
            more=self.words("references.more", n=len(rest)) if rest else "",
            hidden=self.words("references.hidden") if hidden else "",
        )

    def _reference(self, entry: Entry, when: When, tank: str | None) -> Reference:
        day = short_when_text(self.words, when)
        text = self.words("reference", day=day, tank=tank) if tank else day
        return Reference(href=self.to(entry_address(entry.id)), text=text)
