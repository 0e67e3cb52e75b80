"""Journals for tests, built of records without any text to read.

`event("died", on="2026-03-01", tank="a", group="x", count="~3")` types its values by the table of
kinds; a word that Python reserves takes an underscore behind it (`from_`, `as_`), a hyphen is
written as one (`all_young`). Every event stands on a line of its own, such as
`died: {group: x, count: ~3}`, and every value knows its place there, so that findings can be
drawn with the line they point at.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date

from filialog.findings import Finding
from filialog.findings.finding import Place
from filialog.findings.render import render_finding
from filialog.genetics import Condition, ConditionKind, Locus, LookRule, TraitModel
from filialog.journal.events import (
    Event,
    EventId,
    LookCount,
    LookSeen,
    Other,
    Parents,
    Part,
    Score,
    Sorting,
    Value,
)
from filialog.journal.keys import Shape
from filialog.journal.kinds import COMMON_KEYS, KIND_BY_NAME
from filialog.journal.quantities import Age, Count, Reading, When
from filialog.journal.records import (
    Edition,
    Entry,
    GroupPage,
    Journal,
    LinePage,
    Link,
    LinkTarget,
    Piece,
    Prose,
    Section,
    Settings,
    Species,
    TankPage,
    TraitPage,
)

__all__ = [
    "count",
    "day",
    "drawn",
    "entry",
    "event",
    "group_page",
    "journal",
    "line_of",
    "line_page",
    "link",
    "prose",
    "settings",
    "species",
    "tank_page",
    "trait_page",
    "when",
]


def day(text: str) -> date:
    """Return an ISO day."""
    return date.fromisoformat(text)


def when(text: str) -> When:
    """Return a day, or a window `first/last`."""
    first, _, last = text.partition("/")
    return When(earliest=day(first), latest=day(last or first), text=text)


def count(written: str | int) -> Count:
    """Return a count; `~n` reaches one below and one above, so that tests can count on it."""
    text = str(written)
    if text == "some":
        return Count(low=1, high=None, text=text)
    if match := re.fullmatch(r"(\d+)\+", text):
        return Count(low=int(match[1]), high=None, text=text)
    if match := re.fullmatch(r"~(\d+)", text):
        return Count(low=int(match[1]) - 1, high=int(match[1]) + 1, text=text)
    low, _, high = text.partition("-")
    return Count(low=int(low), high=int(high or low), text=text)


# --- values by shape ------------------------------------------------------------------------


def _names(value: object) -> tuple[str, ...]:
    return (value,) if isinstance(value, str) else tuple(str(one) for one in _list(value))


def _list(value: object) -> Sequence[object]:
    assert isinstance(value, Sequence)
    return value


def _table(value: object) -> Mapping[str, object]:
    assert isinstance(value, Mapping)
    return value


def _count(value: object) -> Count:
    assert isinstance(value, str | int)
    return count(value)


def _optional_count(table: Mapping[str, object], key: str) -> Count | None:
    return _count(table[key]) if key in table else None


def _parents(value: object) -> Parents:
    if isinstance(value, Mapping):
        return Parents(groups=_names(value["of"]), count=_optional_count(value, "count"))
    return Parents(groups=_names(value))


def _parts(value: object) -> tuple[Part, ...]:
    if isinstance(value, Mapping):
        return tuple(
            Part(group=name, count=None if number == "all" else _count(number))
            for name, number in value.items()
        )
    return tuple(Part(group=name, count=None) for name in _names(value))


def _look(value: object) -> LookSeen:
    if isinstance(value, Mapping):
        return LookSeen(left=str(value["left"]), right=str(value["right"]))
    return LookSeen(whole=str(value))


def _sortings(value: object) -> tuple[Sorting, ...]:
    found = []
    for name, said in _table(value).items():
        table = said if isinstance(said, Mapping) else {"count": said}
        found.append(
            Sorting(
                group=name,
                count=_optional_count(table, "count"),
                look=_look(table["look"]) if "look" in table else None,
                females=_optional_count(table, "females"),
                males=_optional_count(table, "males"),
            )
        )
    return tuple(found)


def _age(value: object) -> Age:
    days = int(str(value).removesuffix(" d"))
    return Age(low_days=days, high_days=days, text=str(value))


def _reading(value: object) -> Reading:
    number = float(str(value).split(" ", maxsplit=1)[0])
    return Reading(low=number, high=number, unit=str(value).partition(" ")[2], text=str(value))


_BY_SHAPE: Mapping[Shape, Callable[[object], Value]] = {
    Shape.FLAG: bool,
    Shape.NUMBER: lambda value: float(str(value)),
    Shape.COUNT: _count,
    Shape.DAY: lambda value: when(str(value)),
    Shape.AGE: _age,
    Shape.CHOICES: _names,
    Shape.GROUPS: _names,
    Shape.TEXTS: _names,
    Shape.PARENTS: _parents,
    Shape.PARTS: _parts,
    Shape.SORTED_INTO: _sortings,
    Shape.LOOK: _look,
    Shape.LOOKS: lambda value: tuple(
        LookCount(look=look, count=_count(number)) for look, number in _table(value).items()
    ),
    Shape.OTHERS: lambda value: tuple(
        Other(count=_count(_table(one)["count"]), note=str(_table(one)["note"]))
        for one in _list(value)
    ),
    Shape.SCORES: lambda value: tuple(
        Score(score=score, count=_count(number)) for score, number in _table(value).items()
    ),
    Shape.READING: _reading,
    Shape.TABLE: lambda value: tuple((name, str(said)) for name, said in _table(value).items()),
}
"""What is not listed is text."""


# --- how a value is written -----------------------------------------------------------------


def _written(value: object) -> str:
    """Write a value as a keeper would; the inverse of the above, near enough to be read."""
    match value:
        case bool():
            return "true" if value else "false"
        case Count() | When() | Age() | Reading():
            return value.text
        case Parents():
            names = value.groups[0] if len(value.groups) == 1 else _in_list(value.groups)
            return f"{{of: {names}, count: {value.count.text}}}" if value.count else names
        case LookSeen():
            return value.whole or f"{{left: {value.left}, right: {value.right}}}"
        case Other():
            return f"{{count: {value.count.text}, note: {value.note}}}"
        case tuple() if value and isinstance(value[0], Part | LookCount | Score | Sorting):
            return "{" + ", ".join(_pair(one) for one in value) + "}"
        case tuple() if value and isinstance(value[0], tuple):
            return "{" + ", ".join(f"{one[0]}: {one[1]}" for one in value) + "}"
        case tuple():
            return _in_list(value)
        case _:
            return str(value)


def _pair(value: object) -> str:
    match value:
        case Part():
            return f"{value.group}: {value.count.text if value.count else 'all'}"
        case LookCount():
            return f"{value.look}: {value.count.text}"
        case Score():
            return f"{value.score}: {value.count.text}"
        case Sorting():
            said = {
                "count": value.count,
                "look": value.look,
                "females": value.females,
                "males": value.males,
            }
            inner = ", ".join(f"{key}: {_written(one)}" for key, one in said.items() if one)
            return f"{value.group}: {{{inner}}}"
        case _:
            raise TypeError(value)


def _in_list(items: Sequence[object]) -> str:
    return "[" + ", ".join(_written(item) for item in items) + "]"


def _source(kind_name: str, values: Mapping[str, Value]) -> tuple[str, dict[str, tuple[int, int]]]:
    """Return the line of an event, with column and length of every value."""
    text = f"{kind_name}: {{"
    stretches: dict[str, tuple[int, int]] = {}
    for key, value in values.items():
        text += ("" if text.endswith("{") else ", ") + f"{key}: "
        written = _written(value)
        stretches[key] = (len(text) + 1, len(written))
        for found in re.finditer(r"([\w-]+):", written):
            inner = f"{key}.{found[1]}"
            stretches.setdefault(inner, (len(text) + 1 + found.start(), len(found[1])))
        text += written
    return text + "}", stretches


# --- events, entries, journals --------------------------------------------------------------


def event(
    kind: str,
    *,
    on: str,
    tank: str | None = None,
    entry: str | None = None,
    private: bool = False,
    withheld: bool = False,
    **said: object,
) -> Event:
    """Build an event; `journal` gives it its number and its line."""
    keys = {key.name: key for key in (*COMMON_KEYS, *KIND_BY_NAME[kind].own)}
    values: dict[str, Value] = {}
    for word, value in said.items():
        name = word.removesuffix("_").replace("_", "-")
        convert = _BY_SHAPE.get(keys[name].shape, str)
        values[name] = convert(value)
    return Event(
        id=EventId(entry or (f"{on} {tank}" if tank else on).replace("/", ".."), 0),
        kind_name=kind,
        when=when(on),
        tank=tank,
        private=private,
        withheld=withheld,
        values=values,
        place=Place(""),
        places={},
    )


def _placed(one: Event, entry_id: str, number: int) -> Event:
    path, line = f"diary/{entry_id}.md", number + 3
    _, stretches = _source(one.kind_name, one.values)
    return replace(
        one,
        id=EventId(entry_id, number),
        place=Place(path, line, 1, len(one.kind_name)),
        places={
            key: Place(path, line, column, length) for key, (column, length) in stretches.items()
        },
    )


def prose(*pieces: str | Link | Piece, plain: str = "") -> Prose:
    """Build prose of HTML, slots and pieces."""
    return Prose(
        pieces=tuple(
            piece if isinstance(piece, Piece) else Piece(content=piece) for piece in pieces
        ),
        plain=plain,
    )


def link(
    name: str, *, text: str = "", target: LinkTarget = LinkTarget.NAME, path: str = "diary/x.md"
) -> Link:
    """Build a slot in prose."""
    return Link(target=target, name=name, text=text or name, place=Place(path, 9, 5, len(name) + 4))


def entry(
    identifier: str,
    *events: Event,
    on: str,
    tank: str | None = None,
    title: str | None = None,
    private: bool = False,
    sections: Sequence[Section] = (),
) -> Entry:
    """Build an entry; its events take their numbers and lines from it."""
    return Entry(
        id=identifier,
        path=f"diary/{identifier}.md",
        title=title,
        when=when(on),
        tank=tank,
        private=private,
        sections=tuple(sections),
        events=tuple(_placed(one, identifier, number) for number, one in enumerate(events)),
    )


def _entries_of(events: Sequence[Event]) -> list[Entry]:
    by_entry: dict[str, list[Event]] = {}
    for one in events:
        by_entry.setdefault(one.id.entry, []).append(one)
    return [entry(name, *found, on=found[0].when.text) for name, found in by_entry.items()]


def settings(*, species: str | None = None, public: Sequence[str] = ()) -> Settings:
    """Build the settings of a journal."""
    return Settings(
        title="Rack",
        keeper="Wren",
        species=species,
        time_zone=None,
        address=None,
        about="",
        units=(),
        public=tuple(public),
    )


def journal(
    *parts: Event | Entry,
    tanks: Sequence[TankPage | str] = (),
    groups: Sequence[GroupPage] = (),
    lines: Sequence[LinePage] = (),
    traits: Sequence[TraitPage] = (),
    pictures: Sequence[str] = (),
    kind_of: Species | None = None,
    said: Settings | None = None,
) -> Journal:
    """Build a journal of entries and of events, which are put into an entry a day and tank."""
    entries = [part for part in parts if isinstance(part, Entry)]
    entries.extend(_entries_of([part for part in parts if isinstance(part, Event)]))
    pages = [tank_page(tank) if isinstance(tank, str) else tank for tank in tanks]
    return Journal(
        edition=Edition.KEEPER,
        settings=said or settings(),
        entries=tuple(sorted(entries, key=lambda one: (one.when.earliest, one.id))),
        tanks={page.name: page for page in pages},
        groups={page.name: page for page in groups},
        lines={page.name: page for page in lines},
        traits={page.model.name: page for page in traits},
        pictures=frozenset(pictures),
        species=kind_of,
    )


# --- pages of things ------------------------------------------------------------------------


def tank_page(name: str, *, private: bool = False, text: Prose | None = None) -> TankPage:
    """Build the page of a tank."""
    return TankPage(
        name=name,
        title=name,
        litres=None,
        length_cm=None,
        width_cm=None,
        height_cm=None,
        soil=None,
        filter=None,
        light=None,
        where=None,
        targets=(),
        private=private,
        prose=text or Prose(),
        place=Place(f"tanks/{name}.md"),
    )


def group_page(
    name: str,
    *,
    genotype: str | None = None,
    sex: str | None = None,
    private: bool = False,
    text: Prose | None = None,
) -> GroupPage:
    """Build the page of a group."""
    path = f"groups/{name}.md"
    return GroupPage(
        name=name,
        title=name,
        genotype=genotype,
        look=None,
        sex=sex,
        strain=None,
        private=private,
        prose=text or Prose(),
        place=Place(path),
        places={"genotype": Place(path, 2, 11), "sex": Place(path, 3, 6)},
    )


def line_page(
    name: str,
    *,
    goal: str | None = None,
    founders: Sequence[str] = (),
    traits: str | None = None,
    private: bool = False,
    text: Prose | None = None,
) -> LinePage:
    """Build the page of a line."""
    path = f"lines/{name}.md"
    return LinePage(
        name=name,
        title=name,
        goal=goal,
        founders=tuple(founders),
        traits=traits,
        scales=(),
        private=private,
        prose=text or Prose(),
        place=Place(path),
        places={
            "goal": Place(path, 2, 7),
            "founders": Place(path, 3, 11),
            "traits": Place(path, 4, 9),
        },
    )


def trait_page(name: str = "shine") -> TraitPage:
    """Build a trait model with one locus: dull is dominant to bright."""
    return TraitPage(
        model=TraitModel(
            name=name,
            loci=(Locus(name="shine", alleles=("D", "d")),),
            looks=(
                LookRule(
                    look="bright",
                    conditions=(Condition(locus="shine", kind=ConditionKind.HOM, alleles=("d",)),),
                ),
                LookRule(look="dull"),
            ),
        ),
        says="Dull is dominant.",
        source="made up",
        look_words=(),
        shipped=False,
        place=Place(f"traits/{name}.yaml"),
    )


def species(*, maturity_days: int = 60, low_days: int = 20, high_days: int = 40) -> Species:
    """Build an invented species."""
    return Species(
        identifier="brook-mite",
        name="Rivulus fictus",
        earliest_maturity_days=maturity_days,
        incubation_low_days=low_days,
        incubation_high_days=high_days,
        sources=(),
    )


# --- findings as text -----------------------------------------------------------------------


def line_of(of: Journal) -> Callable[[str, int], str | None]:
    """Return the function that gives the line of a journal's event by path and number."""
    lines = {
        (one.place.path, one.place.line): _source(one.kind_name, one.values)[0]
        for one in of.events()
    }
    return lambda path, line: lines.get((path, line))


def drawn(of: Journal, finding: Finding) -> str:
    """Draw a finding with the line of the journal it points at."""
    return render_finding(finding, line_of(of))
