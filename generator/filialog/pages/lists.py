"""The lists: all tanks, groups, crosses and lines."""

from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import Level
from filialog.messages import count_text, short_when_text
from filialog.pages.addresses import COUNTS, cross_address, group_address
from filialog.pages.cross import cross_title, pair_text
from filialog.pages.front import LineCard, TankCard, line_card, tank_card
from filialog.pages.group import group_title, is_carrier
from filialog.pages.here import Here
from filialog.pages.parts import (
    Frame,
    LevelMark,
    Term,
    frame,
    generation_label,
    generation_terms,
    level_mark,
    look_text,
)
from filialog.pages.tables import verdict_text

__all__ = [
    "CrossesView",
    "GroupsView",
    "LinesView",
    "TanksView",
    "crosses_view",
    "groups_view",
    "lines_view",
    "tanks_view",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class TanksView:
    """All tanks, each as it was after its last event."""

    frame: Frame
    opening: str
    tanks: tuple[TankCard, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupLine:
    """A group in the list."""

    href: str
    name: str
    generation: str
    look: str
    now: str
    day: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupsPart:
    """Some of the groups, under a heading."""

    mark: str
    heading: str
    groups: tuple[GroupLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupsView:
    """All groups."""

    frame: Frame
    opening: str
    parts: tuple[GroupsPart, ...]
    """Those on the book first, then those that are not any more."""
    terms: tuple[Term, ...]
    inferred: LevelMark


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossLine:
    """A cross in the list."""

    href: str
    title: str
    pair: str
    about: str
    verdict: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossesView:
    """All crosses."""

    frame: Frame
    opening: str
    counts: Markup
    """Link to the page of all counts."""
    crosses: tuple[CrossLine, ...]
    inferred: LevelMark


@dataclass(frozen=True, slots=True, kw_only=True)
class LinesView:
    """All lines."""

    frame: Frame
    opening: str
    lines: tuple[LineCard, ...]


def tanks_view(here: Here, _: str) -> TanksView:
    """Return the list of tanks."""
    names = here.results.tanks()
    opening = _opening(here, "tanks", len(names))
    cards = (tank_card(here, name, here.results.tank(name).holdings) for name in names)
    return TanksView(frame=_frame(here, "tanks", opening), opening=opening, tanks=tuple(cards))


def groups_view(here: Here, _: str) -> GroupsView:
    """Return the list of groups."""
    names = here.results.groups()
    opening = _opening(here, "groups", len(names))
    here_now: list[str] = []
    gone: list[str] = []
    for name in names:
        book = here.results.group(name).book
        (gone if book and book[-1].after.high == 0 else here_now).append(name)
    return GroupsView(
        frame=_frame(here, "groups", opening),
        opening=opening,
        parts=tuple(
            GroupsPart(
                mark=mark,
                heading=here.words("groups-part", pick=mark),
                groups=tuple(_group(here, name) for name in found),
            )
            for mark, found in (("on-the-book", here_now), ("gone", gone))
            if found
        ),
        terms=generation_terms(here.words, [here.results.group(name).generation for name in names]),
        inferred=level_mark(here.words, Level.INFERRED),
    )


def crosses_view(here: Here, _: str) -> CrossesView:
    """Return the list of crosses."""
    names = here.results.crosses()
    opening = _opening(here, "crosses", len(names))
    lines = tuple(_cross(here, name) for name in names)
    return CrossesView(
        frame=_frame(here, "crosses", opening),
        opening=opening,
        counts=here.link(here.words("counts.link"), COUNTS),
        crosses=lines,
        inferred=level_mark(here.words, Level.INFERRED),
    )


def lines_view(here: Here, _: str) -> LinesView:
    """Return the list of lines."""
    names = here.results.lines()
    opening = _opening(here, "lines", len(names))
    cards = tuple(line_card(here, name) for name in names)
    return LinesView(frame=_frame(here, "lines", opening), opening=opening, lines=cards)


def _opening(here: Here, kind: str, number: int) -> str:
    if number == 0:
        return here.words("list-empty", pick=kind)
    return here.words("list-opening", pick=kind, number=number, n=number)


def _frame(here: Here, kind: str, opening: str) -> Frame:
    heading = here.words("nav", pick=kind)
    return frame(here, heading=heading, section=kind, description=opening)


def _group(here: Here, name: str) -> GroupLine:
    words, row = here.words, here.results.group(name)
    last = row.book[-1] if row.book else None
    hidden = last is None or here.event(last.event) is None
    return GroupLine(
        href=here.to(group_address(name)),
        name=group_title(here, name),
        generation=generation_label(words, row.generation, carrier=is_carrier(row)),
        look=words("look.unknown") if row.look is None else look_text(words, row.look),
        now=words("table.unknown") if last is None else count_text(words, last.after),
        day=words("table.blank") if hidden or last is None else short_when_text(words, last.when),
    )


def _cross(here: Here, identifier: str) -> CrossLine:
    words, row = here.words, here.results.cross(identifier)
    pooled = here.results.cross_table(identifier)
    verdict = words("no-table", pick=pooled.why_none or "no-tally")
    if pooled.table is not None:
        verdict = verdict_text(words, pooled.table)
    return CrossLine(
        href=here.to(cross_address(identifier)),
        title=cross_title(here, row),
        pair=pair_text(here, row) if row.name else "",
        about=words(
            "cross.about",
            broods=words("cross.broods", number=len(row.broods), n=len(row.broods)),
            generation=generation_label(words, row.generation),
            day=short_when_text(words, row.when),
        ),
        verdict=verdict,
    )
