"""What happened: an event of a diary entry and the values it can carry."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from filialog.findings.finding import Place
from filialog.journal.kinds import KIND_BY_NAME, EventKind
from filialog.journal.quantities import Age, Count, Reading, When

__all__ = [
    "Event",
    "EventId",
    "LookCount",
    "LookSeen",
    "Other",
    "Parents",
    "Part",
    "Score",
    "Sorting",
    "Value",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Parents:
    """The dams or the sires of a cross, as written."""

    groups: tuple[str, ...]
    """One group, or several of which some took part."""
    count: Count | None = None
    """How many animals took part, where written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A group, or part of one, that is joined with others."""

    group: str
    """The group."""
    count: Count | None
    """How many of it; None for all of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookSeen:
    """The look of an animal: one, or one for each side."""

    whole: str | None = None
    """The look of the whole animal."""
    left: str | None = None
    """The look of the left side of a half-sided animal."""
    right: str | None = None
    """The look of its right side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sorting:
    """One of the groups that a sorting brings into being."""

    group: str
    """Its name."""
    count: Count | None = None
    """How many animals."""
    look: LookSeen | None = None
    """The look they were sorted by."""
    females: Count | None = None
    """How many females."""
    males: Count | None = None
    """How many males."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookCount:
    """How many animals of a tally show one look."""

    look: str
    """A look, or a coarser class, of the trait model."""
    count: Count
    """How many."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """Animals of a tally that no declared look fits."""

    count: Count
    """How many."""
    note: str
    """What they look like."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """How many animals got one score."""

    score: str
    """A step of the scale."""
    count: Count
    """How many."""


Value = str | bool | float | Count | When | Age | Reading | Parents | LookSeen | tuple[object, ...]
"""The Python types that the shapes of keys are read into."""


@dataclass(frozen=True, slots=True, order=True)
class EventId:
    """The address of an event: its entry and its number in it."""

    entry: str
    """Identifier of the entry."""
    number: int
    """Position among the events of the entry, from 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One thing that happened, on a day, mostly in a tank."""

    id: EventId
    """Address within the journal."""
    kind_name: str
    """Name of its kind in the table of kinds."""
    when: When
    """The day, with bounds."""
    tank: str | None
    """The tank: its own `tank` key, or that of its entry or section."""
    private: bool
    """True keeps it out of the public edition; never true in the public view."""
    values: Mapping[str, Value]
    """The other values by key, of the Python type that the key's shape names."""
    withheld: bool = False
    """True in the public view for what counts although nothing of it may be shown or linked."""
    place: Place = field(compare=False)
    """Where it stands; moving a line changes no result."""
    places: Mapping[str, Place] = field(compare=False)
    """Where each value stands."""

    @property
    def kind(self) -> EventKind:
        """The row of the table of kinds."""
        return KIND_BY_NAME[self.kind_name]

    def place_of(self, key: str) -> Place:
        """Return where a value stands, or where the event does."""
        return self.places.get(key, self.place)

    def has(self, key: str) -> bool:
        """Say whether a value was written."""
        return key in self.values

    def text(self, key: str) -> str | None:
        """Return a text, name, choice or amount."""
        value = self.values.get(key)
        return value if isinstance(value, str) else None

    def flag(self, key: str) -> bool:
        """Return a flag; false where it was not written."""
        return self.values.get(key) is True

    def number(self, key: str) -> float | None:
        """Return a plain number."""
        value = self.values.get(key)
        return value if isinstance(value, float) else None

    def count(self, key: str = "count") -> Count | None:
        """Return a count of animals."""
        value = self.values.get(key)
        return value if isinstance(value, Count) else None

    def day(self, key: str) -> When | None:
        """Return a day."""
        value = self.values.get(key)
        return value if isinstance(value, When) else None

    def age(self, key: str = "age") -> Age | None:
        """Return an age."""
        value = self.values.get(key)
        return value if isinstance(value, Age) else None

    def reading(self, key: str) -> Reading | None:
        """Return a water reading."""
        value = self.values.get(key)
        return value if isinstance(value, Reading) else None

    def parents(self, key: str) -> Parents | None:
        """Return the dams or sires."""
        value = self.values.get(key)
        return value if isinstance(value, Parents) else None

    def look(self, key: str = "look") -> LookSeen | None:
        """Return a look."""
        value = self.values.get(key)
        return value if isinstance(value, LookSeen) else None

    def names(self, key: str) -> tuple[str, ...]:
        """Return one or several names or words as a tuple."""
        value = self.values.get(key)
        if isinstance(value, str):
            return (value,)
        return tuple(item for item in self._items(key) if isinstance(item, str))

    def parts(self, key: str = "parts") -> tuple[Part, ...]:
        """Return the parts of a joined group."""
        return tuple(item for item in self._items(key) if isinstance(item, Part))

    def sortings(self, key: str = "into") -> tuple[Sorting, ...]:
        """Return the groups a sorting makes."""
        return tuple(item for item in self._items(key) if isinstance(item, Sorting))

    def look_counts(self, key: str = "looks") -> tuple[LookCount, ...]:
        """Return a tally's looks."""
        return tuple(item for item in self._items(key) if isinstance(item, LookCount))

    def others(self, key: str = "other") -> tuple[Other, ...]:
        """Return a tally's unexplained animals."""
        return tuple(item for item in self._items(key) if isinstance(item, Other))

    def scores(self, key: str = "values") -> tuple[Score, ...]:
        """Return a grading's scores."""
        return tuple(item for item in self._items(key) if isinstance(item, Score))

    def table(self, key: str) -> tuple[tuple[str, str], ...]:
        """Return a table of texts."""
        return tuple(
            (str(item[0]), str(item[1]))
            for item in self._items(key)
            if isinstance(item, tuple) and len(item) == 2
        )

    def _items(self, key: str) -> tuple[object, ...]:
        value = self.values.get(key)
        return value if isinstance(value, tuple) else ()
