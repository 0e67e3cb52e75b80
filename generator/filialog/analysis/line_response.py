"""What selection of the parents did to the grade of their young: response and heritability."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from filialog.analysis.composition import COMPOSITION
from filialog.analysis.grades import grade_of, grade_of_chosen, independent
from filialog.analysis.line_rows import GradeRow, ResponseRow, WhyNot
from filialog.analysis.nodes import Reader
from filialog.analysis.parentage import BROOD
from filialog.analysis.rows import BroodRow
from filialog.analysis.sources import ORIGINS
from filialog.genetics.heritability import selection_step
from filialog.journal.records import Scale

__all__ = ["responses_of"]

_NOTHING = 1e-9
"""A selection differential below this is that of parents not chosen by grade."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Graded:
    """The grade of a parent group, and of the animals it was chosen from."""

    own: float
    before: float
    before_group: str
    before_error: float | None
    """Standard error of the mean they were chosen from; None where it is not known."""


def responses_of(
    reader: Reader, scales: Sequence[Scale], rows: Sequence[GradeRow]
) -> tuple[ResponseRow, ...]:
    """Return the response of each graded group of young, on each scale, each animal once."""
    return tuple(
        _response(reader, scale, row)
        for scale in scales
        for row in independent(reader, [row for row in rows if row.scale == scale.name])
    )


def _response(reader: Reader, scale: Scale, row: GradeRow) -> ResponseRow:
    broods = [found for name in row.broods if (found := reader.get(BROOD, name)) is not None]
    sides = [(one.dams.groups, one.sires.groups) for one in broods]
    parents = tuple(dict.fromkeys(name for side in sides for groups in side for name in groups))
    several = any(len(groups) > 1 for side in sides for groups in side)
    grades = {name: _grade_of_parent(reader, name, scale) for name in parents}
    ungraded = tuple(name for name, grade in grades.items() if grade is None)
    why_not = None
    if any(not groups for side in sides for groups in side):
        why_not = WhyNot.PARENTS_UNKNOWN
    elif ungraded:
        why_not = WhyNot.PARENTS_NOT_GRADED
    step = None
    if why_not is None:
        known = {name: grade for name, grade in grades.items() if grade is not None}
        weights = _weights(broods)
        step = selection_step(
            mean_before=sum(weight * known[name].before for name, weight in weights.items()),
            mean_chosen=sum(weight * known[name].own for name, weight in weights.items()),
            mean_young=row.mean,
            error_before=_error(weights, known),
            error_young=row.error,
        )
        if abs(step.differential) < _NOTHING:
            why_not = WhyNot.NOT_CHOSEN
    shown = step if why_not is None else None
    return ResponseRow(
        scale=scale.name,
        group=row.group,
        parents=parents,
        selection=step.differential if step is not None else None,
        response=step.response if step is not None else None,
        heritability=shown.heritability if shown is not None else None,
        low=shown.low if shown is not None else None,
        high=shown.high if shown is not None else None,
        several=several,
        ungraded=ungraded,
        why_not=why_not,
    )


def _weights(broods: Sequence[BroodRow]) -> dict[str, float]:
    """Return what part of the genes of some broods each parent group gave, each of a set alike."""
    found: dict[str, float] = {}
    for one in broods:
        for side in (one.dams, one.sires):
            for name in side.groups:
                share = 1.0 / len(side.groups) / 2.0 / len(broods)
                found[name] = found.get(name, 0.0) + share
    return found


def _error(weights: Mapping[str, float], grades: Mapping[str, _Graded]) -> float | None:
    """Return the standard error of the mean before selection; a group graded once errs once."""
    by_group: dict[str, float] = {}
    errors: dict[str, float] = {}
    for name, weight in weights.items():
        grade = grades[name]
        if grade.before_error is None:
            return None
        by_group[grade.before_group] = by_group.get(grade.before_group, 0.0) + weight
        errors[grade.before_group] = grade.before_error
    return math.hypot(*(weight * errors[group] for group, weight in by_group.items()))


def _grade_of_parent(reader: Reader, group: str, scale: Scale) -> _Graded | None:
    """Return the grade of a parent group; animals netted blind have that of where they were.

    One that was chosen for a step has that step; what it was chosen from is the group it was
    taken from.
    """
    graded = grade_of(reader, group, scale)
    itself = None
    if graded is not None:
        itself = _Graded(
            own=graded.mean, before=graded.mean, before_group=group, before_error=graded.error
        )
    kinds = {origin.event.kind_name for origin in reader.get(ORIGINS, group)}
    sources = reader.get(COMPOSITION, group).sources
    if len(sources) != 1 or not kinds <= {"chosen", "moved"}:
        return itself
    if kinds == {"moved"}:
        return itself or _grade_of_parent(reader, sources[0], scale)
    own = graded.mean if graded is not None else grade_of_chosen(reader, group, scale)
    source = grade_of(reader, sources[0], scale)
    if own is None or source is None:
        return None
    return _Graded(own=own, before=source.mean, before_group=sources[0], before_error=source.error)
