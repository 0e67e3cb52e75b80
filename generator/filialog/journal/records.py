"""What a journal holds: its settings, entries and pages of things, as read."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from filialog.findings.finding import Place
from filialog.genetics import TraitModel
from filialog.journal.events import Event
from filialog.journal.quantities import Reading, When

__all__ = [
    "Album",
    "Edition",
    "Entry",
    "Goal",
    "GroupPage",
    "Journal",
    "LinePage",
    "Link",
    "LinkTarget",
    "PictureSaid",
    "Piece",
    "Prose",
    "Scale",
    "Section",
    "Settings",
    "Species",
    "TankPage",
    "TraitPage",
]


class Edition(StrEnum):
    """The two compilations of one journal."""

    KEEPER = "keeper"
    """Everything."""
    PUBLIC = "public"
    """Only what may be published."""


class LinkTarget(StrEnum):
    """What a link slot in prose stands for."""

    NAME = "name"
    """A group, tank or line named in double brackets."""
    PICTURE = "picture"
    """A picture of the journal."""
    FILE = "file"
    """Another file of the journal, by relative path."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A slot in prose that a page fills: a name, a picture or a file of the journal."""

    target: LinkTarget
    """What kind of thing."""
    name: str
    """The name, or the path relative to the journal."""
    text: str
    """The words to show; for a picture its alternative text."""
    place: Place = field(compare=False)
    """Where it stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A stretch of safe HTML, or a link slot, and whether it is private."""

    content: str | Link
    """HTML with every tag and sign of the keeper's text escaped, or a slot."""
    private: bool = False
    """True inside a `:::private` block."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prose:
    """Markdown turned into safe HTML with link slots between the pieces."""

    pieces: tuple[Piece, ...] = ()
    """In reading order; private blocks are whole pieces, so leaving them out keeps HTML valid."""
    plain: str = ""
    """The first words of the public text without marks, for lists and summaries."""

    @property
    def links(self) -> tuple[Link, ...]:
        """All slots, private ones included."""
        return tuple(piece.content for piece in self.pieces if isinstance(piece.content, Link))

    @property
    def empty(self) -> bool:
        """True where there is no prose at all."""
        return not self.pieces


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """The prose of an entry, or the part of it that belongs to one tank."""

    tank: str | None
    """The tank, or None for the entry as a whole."""
    prose: Prose
    """The text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One diary entry: a day, mostly a tank, prose and events."""

    id: str
    """Identifier, from the file's path below `diary/`; also its address."""
    path: str
    """The file, relative to the journal."""
    title: str | None
    """The keeper's title, if any."""
    when: When
    """The day."""
    tank: str | None
    """The tank, where the entry is about one."""
    private: bool
    """True keeps the whole entry out of the public edition."""
    sections: tuple[Section, ...]
    """Prose for the whole entry first, then by tank."""
    events: tuple[Event, ...]
    """What happened, in the order written."""

    @property
    def tanks(self) -> tuple[str, ...]:
        """All tanks the entry speaks of, in a fixed order."""
        named = {event.tank for event in self.events} | {part.tank for part in self.sections}
        return tuple(sorted(name for name in {*named, self.tank} if name is not None))


@dataclass(frozen=True, slots=True, kw_only=True)
class TankPage:
    """What a tank is: dimensions, soil, place, target ranges."""

    name: str
    title: str
    litres: float | None
    """Litres as the keeper gives them."""
    length_cm: float | None
    width_cm: float | None
    height_cm: float | None
    soil: str | None
    filter: str | None
    light: str | None
    where: str | None
    """Its place on the rack, in the keeper's words."""
    targets: tuple[tuple[str, Reading], ...]
    """Target range by quantity."""
    private: bool
    prose: Prose
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupPage:
    """What the keeper says of a group or a named animal."""

    name: str
    title: str
    genotype: str | None
    """The genotype the keeper takes the group to have."""
    look: str | None
    sex: str | None
    strain: str | None
    private: bool
    prose: Prose
    place: Place = field(compare=False)
    places: Mapping[str, Place] = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """A scale that animals are graded on."""

    name: str
    order: tuple[str, ...]
    """Steps from worst to best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Goal:
    """What a line is bred for."""

    look: str
    number: int | None = None
    """Animals of that look wanted at the same time, 1 or more; None where not said."""
    by: When | None = None
    """The day they are wanted by; None where not said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LinePage:
    """What a line is: animals bred towards one look over generations."""

    name: str
    title: str
    goal: str | None
    """The look bred for."""
    goal_number: int | None = None
    """Animals of that look wanted at the same time; None where not said."""
    goal_by: When | None = None
    """The day they are wanted by; None where not said."""
    founders: tuple[str, ...]
    """Groups the line began with."""
    traits: str | None
    """Name of its trait model."""
    scales: tuple[Scale, ...]
    private: bool
    prose: Prose
    place: Place = field(compare=False)
    places: Mapping[str, Place] = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class TraitPage:
    """A trait model with the keeper's words about it."""

    model: TraitModel
    says: str
    """What it claims, in one sentence."""
    source: str
    """Where the claim comes from."""
    look_words: tuple[tuple[str, str], ...]
    """What each look looks like."""
    shipped: bool
    """True for a model of the shipped catalogue."""
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """Facts of a species that computations lean on, each with where it comes from."""

    identifier: str
    """Name in the shipped catalogue."""
    name: str
    """Scientific name."""
    earliest_maturity_days: int
    """Days from hatching before which no animal can have bred."""
    incubation_low_days: int
    """Fewest days from fertilisation to hatching."""
    incubation_high_days: int
    """Most days from fertilisation to hatching."""
    brood_low: int | None = None
    """Fewest young of an ordinary brood, 1 or more; None where no figure is known."""
    brood_high: int | None = None
    """Most young of an ordinary brood."""
    brood_source: str = ""
    """Where the size of a brood comes from, in words; empty where no figure is known."""
    sources: tuple[tuple[str, str], ...]
    """Where each value comes from, in words, by its name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The journal as a whole."""

    title: str
    keeper: str
    species: str | None
    """Identifier of the species in the shipped catalogue."""
    time_zone: str | None
    address: str | None
    """Base address the site is published at, if known."""
    about: str
    """A sentence or two for the front page."""
    units: tuple[tuple[str, str], ...]
    """Unit that a bare number takes, by quantity."""
    public: tuple[str, ...]
    """Claims that may be published although they rest on private entries, by kind."""
    kits: tuple[tuple[str, str], ...] = ()
    """Test kits and pens in the keeper's words, by name."""
    pens: tuple[tuple[str, float], ...] = ()
    """Factor from µS/cm to the ppm a pen shows, by name of the pen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Journal:
    """One keeper's journal, whole."""

    edition: Edition
    """Which view of it this is."""
    settings: Settings
    entries: tuple[Entry, ...]
    """By first possible day, then identifier."""
    tanks: Mapping[str, TankPage]
    groups: Mapping[str, GroupPage]
    lines: Mapping[str, LinePage]
    traits: Mapping[str, TraitPage]
    pictures: frozenset[str]
    """Paths of the pictures that are there."""
    species: Species | None
    """Facts of the species kept, from the shipped catalogue."""
    reported: frozenset[str] = frozenset()
    """Words of text that could not be read: an unknown name among them has its finding already."""
    withheld: tuple[Event, ...] = ()
    """In the public view: private events that still count, never shown."""
    albums: "tuple[Album, ...]" = ()
    """What is said of pictures beside them, by folder."""

    def events(self) -> tuple[Event, ...]:
        """All events that count, by entry."""
        shown = (event for entry in self.entries for event in entry.events)
        return (*shown, *self.withheld)


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureSaid:
    """What the keeper says of a picture, or of all pictures of a folder."""

    group: str | None = None
    tank: str | None = None
    look: str | None = None
    side: str | None = None
    """`left`, `right`, `above`, `below` or `front`: the side of the animal that is seen."""
    date: When | None = None
    """The day it shows."""
    caption: str | None = None
    """Words below it."""
    alt: str | None = None
    """Words in its place, for those who do not see it."""
    private: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Album:
    """What an `album.md` says of the pictures of its folder."""

    folder: str
    """The folder, relative to the journal."""
    whole: PictureSaid
    """Said of all pictures of the folder that have no word of their own."""
    files: Mapping[str, PictureSaid]
    """Said of single pictures, by path relative to the journal, the folder's word filled in."""
    prose: Prose
    place: Place = field(compare=False)
