"""The book of a group as lines of a table, and its tallies."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import BookLine, TallyRow
from filialog.journal.quantities import Age
from filialog.messages import (
    age_text,
    count_text,
    either_text,
    list_text,
    short_when_text,
)
from filialog.pages.here import Here, Reference

__all__ = ["BookEntry", "TallyLine", "book_lines", "tally_lines"]

_MINUS = "\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True, kw_only=True)
class BookEntry:
    """A line of the book: what changed, and how many there were after."""

    day: str
    entry: Reference | None
    what: Markup
    change: str
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TallyLine:
    """A count by look."""

    day: str
    entry: Reference | None
    subject: Markup
    number: str
    looks: str
    about: str
    """How they were counted, how old they were, whether the count is in the table."""


def book_lines(here: Here, book: Sequence[BookLine]) -> tuple[BookEntry, ...]:
    """Return the book of a group, oldest line first."""
    return tuple(_book_line(here, line) for line in book)


def tally_lines(here: Here, tallies: Sequence[TallyRow]) -> tuple[TallyLine, ...]:
    """Return the tallies that may be shown, oldest first."""
    return tuple(_tally(here, tally) for tally in tallies if here.event(tally.event) is not None)


def _book_line(here: Here, line: BookLine) -> BookEntry:
    words = here.words
    after = count_text(words, line.after)
    if here.event(line.event) is None:
        what, blank = words.rich("book.hidden"), words("table.blank")
        return BookEntry(day=blank, entry=None, what=what, change=blank, after=after)
    return BookEntry(
        day=short_when_text(words, line.when),
        entry=here.event_entry(line.event),
        what=_what(here, line),
        change=_change(here, line),
        after=after,
    )


def _what(here: Here, line: BookLine) -> Markup:
    words = here.words
    clauses = [words.rich("kind", pick=line.kind_name)]
    if line.tank is not None and line.to_tank is not None:
        start, end = here.tank(line.tank), here.tank(line.to_tank)
        clauses.append(words.rich("book.from-to", tank=start, to=end))
    elif line.to_tank is not None:
        clauses.append(words.rich("book.to", to=here.tank(line.to_tank)))
    elif line.tank is not None:
        clauses.append(words.rich("book.in", tank=here.tank(line.tank)))
    if line.other_group is not None:
        side = "from-group" if line.gained else "to-group"
        clauses.append(words.rich("book-other", pick=side, group=here.group(line.other_group)))
    if line.shared_with and line.gained and line.unaccounted is None:
        # Animals that came from several groups, not one animal of unknown group.
        groups = list_text(words, [here.group(name) for name in line.shared_with])
        clauses.append(words.rich("book.from-several", groups=groups))
    elif line.shared_with:
        groups = either_text(words, [here.group(name) for name in line.shared_with])
        clauses.append(words.rich("book.shared", groups=groups))
    if line.unaccounted is not None:
        n = count_text(words, line.unaccounted)
        side = "found" if line.gained else "missing"
        clauses.append(words.rich("book-unaccounted", pick=side, n=n))
    joiner = Markup(words("list.comma"))  # noqa: S704 - the catalogue's own words
    return joiner.join(clauses)


def _change(here: Here, line: BookLine) -> str:
    """Write how many came or went; a move of the group as it is has no sign."""
    if line.change is None or line.change.high == 0:
        return here.words("table.blank")
    number = count_text(here.words, line.change)
    if line.to_tank is not None and line.other_group is None:
        return number
    return f"+{number}" if line.gained else f"{_MINUS}{number}"


def _tally(here: Here, tally: TallyRow) -> TallyLine:
    words = here.words
    place = here.tank(tally.tank) if tally.tank else words.rich("water.somewhere")
    return TallyLine(
        day=short_when_text(words, tally.when),
        entry=here.event_entry(tally.event),
        subject=words.rich("tally.all-young", tank=place)
        if tally.group is None
        else here.group(tally.group),
        number=words("tally.total", n=count_text(words, tally.number))
        if tally.total
        else words("tally.so-many-at-least", n=count_text(words, tally.number)),
        looks=_looks(here, tally),
        about=words(
            "tally.about",
            how=words("tally-how", pick=tally.how or "not-said"),
            age=_age(here, tally),
            used=words("tally.used")
            if tally.used
            else words("tally-not-used", pick=tally.why_not_used or "another-tally"),
        ),
    )


def _age(here: Here, tally: TallyRow) -> str:
    words = here.words
    if tally.age is not None:
        return age_text(words, tally.age)
    if tally.age_days_computed is None:
        return words("table.unknown")
    low, high = tally.age_days_computed
    age = age_text(words, Age(low_days=low, high_days=high, text=""))
    return words("tally.age-computed", age=age)


def _looks(here: Here, tally: TallyRow) -> str:
    words = here.words
    parts = [
        words("tally.look", n=count_text(words, count), look=look) for look, count in tally.looks
    ]
    parts.extend(
        words("tally.other", number=other.count, n=count_text(words, other.count), note=other.note)
        for other in tally.other
    )
    if tally.unsorted is not None and tally.unsorted.high != 0:
        parts.append(words("tally.unsorted", n=count_text(words, tally.unsorted)))
    return list_text(words, parts) if parts else words("tally.no-looks")
