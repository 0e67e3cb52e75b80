"""The generation timeline of a line."""

from collections.abc import Callable, Mapping, Sequence

from filialog.analysis.carriers import law_of_group
from filialog.analysis.grades import grade_means, grade_of, grade_of_brood
from filialog.analysis.line_bands import Band, bands_of
from filialog.analysis.line_figures import line_figures
from filialog.analysis.line_response import responses_of
from filialog.analysis.line_rows import (
    GoalState,
    GradeRow,
    LineBand,
    LineGeneration,
    LineRow,
    SurvivalRow,
)
from filialog.analysis.looks import MODEL
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD, BROODS
from filialog.analysis.pedigrees import FOUNDER_SHARES, GENERATION, INBREEDING, LINES_OF_GROUP
from filialog.analysis.rows import BroodTable, FounderShareRow
from filialog.analysis.survival import SURVIVAL, survival_of_all
from filialog.analysis.tables import BROOD_TABLE
from filialog.genetics import sure_look
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
    grades = _grades(reader, groups, page)
    timeline = tuple(
        _generation(reader, brood, page, grades) for brood in reader.get(BROODS) if brood in members
    )
    alive = _alive(reader, groups, page)
    newest = next((one for one in reversed(timeline) if one.goal_seen is not None), None)
    rows = {one.brood: one for one in timeline}
    bands = bands_of([(one.brood, one.generation) for one in timeline])
    return LineRow(
        line=name,
        goal=page.goal,
        goal_number=page.goal_number,
        goal_by=page.goal_by,
        goal_state=_goal_state(page, alive, newest, as_of=checked.as_of.toordinal()),
        goal_brood=newest.brood if newest is not None else None,
        founders=page.founders,
        groups=groups,
        timeline=timeline,
        bands=tuple(
            _together(reader, band, rows, page, grades=grades, members=members) for band in bands
        ),
        scales=tuple((scale.name, scale.order) for scale in page.scales),
        grades=grades,
        alive=alive,
        model=page.traits if page.traits in checked.journal.traits else None,
    )


LINE: NodeKind[LineRow] = NodeKind("line", _line)
"""A line with its broods by day of hatching, and its generations."""


def _grades(reader: Reader, groups: Sequence[str], page: LinePage) -> tuple[GradeRow, ...]:
    found = [
        row
        for scale in page.scales
        for group in groups
        if (row := grade_of(reader, group, scale)) is not None
    ]
    return tuple(sorted(found, key=lambda row: (row.when.earliest, row.event, row.scale)))


def _generation(
    reader: Reader, brood: str, page: LinePage, grades: Sequence[GradeRow]
) -> LineGeneration:
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
    inbreeding = reader.get(INBREEDING, brood)
    survival = reader.get(SURVIVAL, brood)
    graded = (
        grade_of_brood(reader, brood, [one for one in grades if one.scale == scale.name])
        for scale in page.scales
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
        inbreeding_low=inbreeding.low if inbreeding is not None else None,
        inbreeding_high=inbreeding.high if inbreeding is not None else None,
        founder_shares=reader.get(FOUNDER_SHARES, brood),
        grades=tuple(one for one in graded if one is not None),
        survival=survival if isinstance(survival, SurvivalRow) else None,
        why_no_survival=None if isinstance(survival, SurvivalRow) else survival,
        events=table.events if table is not None else (row.event,),
    )


def _together(
    reader: Reader,
    band: Band,
    rows: Mapping[str, LineGeneration],
    page: LinePage,
    *,
    grades: Sequence[GradeRow],
    members: set[str],
) -> LineBand:
    broods = [rows[name] for name in band.broods]
    counted = [one for one in broods if one.goal_seen is not None and one.number]
    number = sum(one.number or 0 for one in counted)
    seen = sum(one.goal_seen or 0 for one in counted)
    interval = wilson_interval(seen=seen, counted=number) if number else None
    inside = set(band.broods)
    graded = [row for row in grades if row.broods and inside.issuperset(row.broods)]
    return LineBand(
        kind=band.kind,
        labels=band.labels,
        low=band.low,
        high=band.high,
        broods=band.broods,
        first=broods[0].when,
        last=broods[-1].when,
        number=number or None,
        goal_seen=seen if number else None,
        goal_share=seen / number if number else None,
        interval_low=interval.low if interval is not None else None,
        interval_high=interval.high if interval is not None else None,
        goal_expected=_expected_together(counted),
        grades=grade_means(reader, page.scales, graded),
        survival=survival_of_all([one.survival for one in broods if one.survival is not None]),
        inbreeding_low=_end([one.inbreeding_low for one in broods], min),
        inbreeding_high=_end([one.inbreeding_high for one in broods], max),
        founder_shares=_mean_shares(broods),
        responses=responses_of(reader, page.scales, graded),
        figures=line_figures(reader, broods, members),
    )


def _expected_together(counted: Sequence[LineGeneration]) -> float | None:
    """Return the expected share among all young counted; None where that of a brood is unknown."""
    number = sum(one.number or 0 for one in counted)
    known = [
        one.goal_expected * (one.number or 0) for one in counted if one.goal_expected is not None
    ]
    return min(1.0, sum(known) / number) if number and len(known) == len(counted) else None


def _end(
    values: Sequence[float | None], choose: Callable[[Sequence[float]], float]
) -> float | None:
    """Return the least or greatest value; None where one is unknown."""
    known = [value for value in values if value is not None]
    return choose(known) if len(known) == len(values) else None


def _mean_shares(broods: Sequence[LineGeneration]) -> tuple[FounderShareRow, ...]:
    sums: dict[str | None, float] = {}
    for one in broods:
        for share in one.founder_shares:
            sums[share.founder] = sums.get(share.founder, 0.0) + share.share
    return tuple(
        FounderShareRow(founder=founder, share=total / len(broods))
        for founder, total in sorted(sums.items(), key=lambda item: (item[0] is None, item[0]))
    )


def _expected(found: BroodTable, page: LinePage) -> float | None:
    """Return the expected share of the goal look; None where it is a range or unknown."""
    for look, low, high in found.expected:
        if look == page.goal and low == high:
            return low
    return None


def _goal_state(
    page: LinePage, alive: Count | None, newest: LineGeneration | None, *, as_of: int
) -> GoalState:
    if page.goal is None:
        return GoalState.NO_GOAL
    if page.goal_number is None:
        if newest is None:
            return GoalState.UNCOUNTED
        if newest.goal_seen == newest.number:
            return GoalState.ALL
        return GoalState.SOME if newest.goal_seen else GoalState.NONE
    if alive is None:
        return GoalState.CANNOT_TELL
    if alive.low >= page.goal_number:
        return GoalState.REACHED
    if alive.high is None or alive.high >= page.goal_number:
        return GoalState.CANNOT_TELL
    past = page.goal_by is not None and page.goal_by.latest.toordinal() < as_of
    return GoalState.MISSED if past else GoalState.NOT_YET


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
        if law is None or any(sure_look(one, model) != page.goal for one, _ in law.probabilities):
            continue
        total = total + checked.book.number_of(group, checked.as_of)
    return total
