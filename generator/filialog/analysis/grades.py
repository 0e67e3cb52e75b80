"""Grades: the scores of a group on a scale, and what selection did to those of its young.

Steps of an ordered scale count as 1, 2, 3 and so on, worst first. That the steps lie equally far
apart is a convention without which no mean could be formed (common practice, no source).
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from filialog.analysis.composition import COMPOSITION
from filialog.analysis.line_rows import GradeMean, GradeRow
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD
from filialog.analysis.sources import EVENTS_OF_GROUP, ORIGINS
from filialog.journal.events import Event
from filialog.journal.records import Scale
from filialog.statistics import mean_interval

__all__ = [
    "BROODS_BEHIND",
    "grade_means",
    "grade_of",
    "grade_of_brood",
    "grade_of_chosen",
    "independent",
    "values_of",
]


def _broods_behind(reader: Reader, group: str) -> tuple[str, ...]:
    """Follow where the animals of a group were taken from, back to their broods."""
    found: set[str] = set()
    seen = {group}
    stack = [group]
    while stack:
        name = stack.pop()
        if reader.get(BROOD, name) is not None:
            found.add(name)
        for source in reader.get(COMPOSITION, name).sources:
            if source not in seen:
                seen.add(source)
                stack.append(source)
    rows = [row for name in found if (row := reader.get(BROOD, name)) is not None]
    return tuple(row.group for row in sorted(rows, key=lambda row: (row.when.earliest, row.group)))


BROODS_BEHIND: NodeKind[tuple[str, ...]] = NodeKind("broods-behind", _broods_behind)
"""The broods that animals of a group hatched in, earliest first; empty for bought stock."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scores:
    """What one grading says on a scale."""

    event: Event
    counts: tuple[tuple[str, int], ...]
    left_out: int

    @property
    def number(self) -> int:
        return sum(number for _, number in self.counts)


def _scores(event: Event, scale: Scale) -> _Scores:
    numbers = dict.fromkeys(scale.order, 0)
    left_out = 0
    for score in event.scores():
        if score.score in numbers and score.count.exact is not None:
            numbers[score.score] += score.count.exact
        else:
            left_out += 1
    return _Scores(event=event, counts=tuple(numbers.items()), left_out=left_out)


def _gradings(reader: Reader, group: str, scale: Scale) -> Iterator[_Scores]:
    for event in reader.get(EVENTS_OF_GROUP, group):
        if (
            event.kind_name == "graded"
            and event.text("group") == group
            and event.text("scale") == scale.name
        ):
            found = _scores(event, scale)
            if found.number:
                yield found


def values_of(counts: Sequence[tuple[str, int]]) -> list[float]:
    """Return one number for each animal: 1 for the worst step, 2 for the next, and so on."""
    return [
        float(place) for place, (_, number) in enumerate(counts, start=1) for _ in range(number)
    ]


def grade_of(reader: Reader, group: str, scale: Scale) -> GradeRow | None:
    """Return the grading of a group that counts: that of most animals, else the earliest.

    Repeated gradings of the same animals are not independent, so only one may speak.
    """
    found = list(_gradings(reader, group, scale))
    if not found:
        return None
    used = min(found, key=lambda one: (-one.number, one.event.when.earliest, one.event.id))
    mean = mean_interval(values_of(used.counts))
    return GradeRow(
        scale=scale.name,
        group=group,
        broods=reader.get(BROODS_BEHIND, group),
        event=used.event.id,
        when=used.event.when,
        counts=used.counts,
        number=mean.number,
        mean=mean.mean,
        low=mean.low,
        high=mean.high,
        error=mean.deviation / math.sqrt(mean.number) if mean.deviation else None,
        left_out=used.left_out,
    )


def grade_of_chosen(reader: Reader, group: str, scale: Scale) -> float | None:
    """Return the step that all animals of a group were chosen for, as a number."""
    steps = {step: float(place) for place, step in enumerate(scale.order, start=1)}
    found = {
        step
        for origin in reader.get(ORIGINS, group)
        if origin.event.kind_name == "chosen"
        for name, step in origin.event.table("for")
        if name == scale.name
    }
    return steps.get(found.pop()) if len(found) == 1 else None


def independent(reader: Reader, rows: Sequence[GradeRow]) -> tuple[GradeRow, ...]:
    """Leave out groups that were taken from another graded one: each animal counts once."""
    graded = {row.group for row in rows}
    return tuple(row for row in rows if not graded & set(_taken_from(reader, row.group)))


def _taken_from(reader: Reader, group: str) -> Iterator[str]:
    seen = {group}
    stack = [group]
    while stack:
        for source in reader.get(COMPOSITION, stack.pop()).sources:
            if source not in seen:
                seen.add(source)
                stack.append(source)
                yield source


def grade_of_brood(reader: Reader, brood: str, rows: Sequence[GradeRow]) -> GradeRow | None:
    """Choose the grading that speaks for one brood: its own, else that of its largest part.

    A part that was picked for breeding does not speak for the brood it was picked from.
    """
    own = [row for row in rows if row.broods == (brood,)]
    fit = [row for row in own if row.group == brood or not _is_chosen(reader, row.group)]
    return min(
        fit, key=lambda row: (row.group != brood, -row.number, row.when.earliest, row.group),
        default=None,
    )  # fmt: skip


def _is_chosen(reader: Reader, group: str) -> bool:
    """Say whether a group, or one it was taken from, was picked for breeding."""
    return any(
        origin.event.kind_name == "chosen"
        for name in (group, *_taken_from(reader, group))
        for origin in reader.get(ORIGINS, name)
    )


def grade_means(
    reader: Reader, scales: Sequence[Scale], rows: Sequence[GradeRow]
) -> tuple[GradeMean, ...]:
    """Return the mean of all animals graded in some groups, on each scale that has any."""
    found = []
    for scale in scales:
        kept = independent(
            reader,
            [row for row in rows if row.scale == scale.name and not _is_chosen(reader, row.group)],
        )
        if not kept:
            continue
        mean = mean_interval([value for row in kept for value in values_of(row.counts)])
        found.append(
            GradeMean(
                scale=scale.name,
                mean=mean.mean,
                low=mean.low,
                high=mean.high,
                number=mean.number,
                groups=tuple(row.group for row in kept),
            )
        )
    return tuple(found)
