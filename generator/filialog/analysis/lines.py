"""The generation timeline of a line."""

from filialog.analysis.looks import MODEL, law_of_group
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD, BROODS
from filialog.analysis.pedigrees import FOUNDER_SHARES, GENERATION, INBREEDING, LINES_OF_GROUP
from filialog.analysis.rows import BroodTable, LineGeneration, LineRow
from filialog.analysis.tables import BROOD_TABLE
from filialog.genetics import look_of
from filialog.journal.quantities import Count
from filialog.journal.records import LinePage
from filialog.statistics import wilson_interval

__all__ = ["LINE"]


def _line(reader: Reader, name: str) -> LineRow:
    checked = reader.journal(f"line {name}")
    page = checked.journal.lines[name]
    groups = tuple(
        group for group in checked.names.origins if name in reader.get(LINES_OF_GROUP, group)
    )
    members = set(groups)
    broods = [brood for brood in reader.get(BROODS) if brood in members]
    return LineRow(
        line=name,
        goal=page.goal,
        founders=page.founders,
        groups=groups,
        timeline=tuple(_generation(reader, brood, page) for brood in broods),
        alive=_alive(reader, groups, page),
        model=page.traits if page.traits in checked.journal.traits else None,
    )


LINE: NodeKind[LineRow] = NodeKind("line", _line)
"""A line with its broods by day of hatching."""


def _generation(reader: Reader, brood: str, page: LinePage) -> LineGeneration:
    row = reader.get(BROOD, brood)
    assert row is not None
    found = reader.get(BROOD_TABLE, brood)
    table = found.table
    line = None
    if table is not None:
        line = next((one for one in table.lines if one.look == page.goal), None)
    number = table.sorted_number if table is not None else None
    goal_seen = line.observed if line is not None else (0 if number else None)
    if page.goal is None or not number:
        goal_seen = None
    interval = (
        wilson_interval(seen=goal_seen, counted=number)
        if goal_seen is not None and number
        else None
    )
    return LineGeneration(
        brood=brood,
        cross=row.cross,
        generation=reader.get(GENERATION, brood),
        when=row.when,
        number=number,
        goal_seen=goal_seen,
        goal_share=goal_seen / number if goal_seen is not None and number else None,
        interval_low=interval.low if interval is not None else None,
        interval_high=interval.high if interval is not None else None,
        goal_expected=_expected(found, page),
        inbreeding=reader.get(INBREEDING, brood),
        founder_shares=reader.get(FOUNDER_SHARES, brood),
        events=table.events if table is not None else (row.event,),
    )


def _expected(found: BroodTable, page: LinePage) -> float | None:
    """Return the expected share of the goal look; None where it is a range or unknown."""
    for look, low, high in found.expected:
        if look == page.goal and low == high:
            return low
    return None


def _alive(reader: Reader, groups: tuple[str, ...], page: LinePage) -> Count | None:
    """Count the animals on the book that show the goal look for certain."""
    if page.goal is None:
        return None
    checked = reader.journal("book at the end")
    total = Count.of(0)
    for group in groups:
        name = reader.get(MODEL, group)
        if name is None:
            continue
        model = checked.journal.traits[name].model
        law = law_of_group(reader, name, group).law
        if law is None or any(look_of(one, model) != page.goal for one, _ in law.probabilities):
            continue
        total = total + checked.book.number_of(group, checked.as_of)
    return total
