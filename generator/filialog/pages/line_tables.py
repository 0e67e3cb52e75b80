"""The tables of a line: its generations, its broods, and what choosing did."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from filialog.analysis.line_rows import (
    GradeMean,
    GradeRow,
    LineBand,
    LineGeneration,
    LineRow,
    ResponseRow,
    SurvivalRow,
    WhyNot,
)
from filialog.analysis.rows import FounderShareRow
from filialog.messages import (
    Words,
    decimal_text,
    list_text,
    share_text,
    short_when_text,
)
from filialog.pages.here import Here
from filialog.pages.line_chart import band_name
from filialog.pages.parts import generation_label
from filialog.pages.tables import coefficient_span, share_span

__all__ = ["Cell", "LineTable", "TableRow", "band_table", "brood_table", "response_sentences"]

_MOST_BROODS = 15
_MOST_RESPONSES = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A cell with the head of its column, which stands before it where there is no room."""

    head: str
    text: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class TableRow:
    """A row."""

    name: Markup
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineTable:
    """A table, which is a list on a narrow screen."""

    corner: str
    """Head of the first column."""
    heads: tuple[str, ...]
    rows: tuple[TableRow, ...]


def _table(
    corner: str, heads: Sequence[str], rows: Sequence[tuple[Markup, list[str]]]
) -> LineTable:
    return LineTable(
        corner=corner,
        heads=tuple(heads),
        rows=tuple(
            TableRow(
                name=name,
                cells=tuple(
                    Cell(head=head, text=escape(text))
                    for head, text in zip(heads, cells, strict=True)
                ),
            )
            for name, cells in rows
        ),
    )


def band_table(here: Here, row: LineRow) -> LineTable:
    """Return the generations of a line."""
    words = here.words
    heads = [words("line.column-broods"), *_common_heads(words, row)]
    return _table(
        words("line.column-generation"),
        heads,
        [
            (escape(band_name(words, band)), [str(len(band.broods)), *_common(here, row, band)])
            for band in row.bands
        ],
    )


def brood_table(here: Here, row: LineRow) -> tuple[LineTable, int]:
    """Return the newest broods of a line, and how many these are."""
    words = here.words
    shown = row.timeline[-_MOST_BROODS:]
    heads = [words("line.column-hatched"), *_common_heads(words, row)]
    return _table(
        words("line.column-brood"),
        heads,
        [
            (
                here.group(item.brood),
                [
                    words(
                        "line.cell-hatched",
                        generation=generation_label(words, item.generation),
                        when=short_when_text(words, item.when),
                    ),
                    *_common(here, row, item),
                ],
            )
            for item in shown
        ],
    ), len(shown)


def _common_heads(words: Words, row: LineRow) -> list[str]:
    heads = []
    if row.goal is not None:
        heads += [words("line.column-goal", goal=row.goal), words("line.column-expected")]
    heads += [words("line.column-grade", scale=scale) for scale, _ in row.scales]
    return [
        *heads,
        words("line.column-survival"),
        words("line.column-inbreeding"),
        words("line.column-founders"),
    ]


def _common(here: Here, row: LineRow, item: LineBand | LineGeneration) -> list[str]:
    words = here.words
    blank = words("table.unknown")
    cells = []
    if row.goal is not None:
        cells += [_goal(here, item), _expected(words, item)]
    for scale, _ in row.scales:
        grades: tuple[GradeMean | GradeRow, ...] = item.grades
        found = next((one for one in grades if one.scale == scale), None)
        cells.append(blank if found is None else _grade(words, found))
    why = item.why_no_survival if isinstance(item, LineGeneration) else None
    cells.append(_survival(words, item.survival, why))
    low, high = item.inbreeding_low, item.inbreeding_high
    cells.append(blank if low is None or high is None else coefficient_span(words, low, high))
    cells.append(_founders(words, item.founder_shares) or blank)
    return cells


def _goal(here: Here, item: LineBand | LineGeneration) -> Markup:
    """Return how many showed the goal look; the count of a brood leads to its entry."""
    words = here.words
    low, high = item.interval_low, item.interval_high
    if item.goal_share is None or low is None or high is None:
        return words.rich("table.unknown")
    counted = words.rich("line.cell-counted", seen=item.goal_seen, n=item.number)
    entry = None
    if isinstance(item, LineGeneration):
        entry = next(filter(None, (here.event_entry(event) for event in item.events)), None)
    if entry is not None:
        counted = Markup('<a href="{}">{}</a>').format(entry.href, counted)
    return words.rich(
        "line.cell-goal",
        counted=counted,
        share=share_text(words, item.goal_share, whole=True),
        span=share_span(words, low, high, whole=True),
    )


def _expected(words: Words, item: LineBand | LineGeneration) -> str:
    if item.goal_expected is None:
        return words("table.unknown")
    return share_text(words, item.goal_expected)


def _grade(words: Words, found: GradeMean | GradeRow) -> str:
    mean = decimal_text(words, found.mean, decimals=2)
    if found.low is None or found.high is None:
        return words("line.cell-grade-bare", mean=mean, n=found.number)
    low, high = (decimal_text(words, end, decimals=2) for end in (found.low, found.high))
    return words("line.cell-grade", mean=mean, low=low, high=high, n=found.number)


def _survival(words: Words, found: SurvivalRow | None, why: WhyNot | None) -> str:
    if found is None:
        return words("line-survival-why", pick=why.value) if why else words("table.unknown")
    share = share_text(words, found.share, whole=True)
    if not found.base_total:
        return words(
            "line.cell-survival-most", survivors=found.survivors, base=found.base, share=share
        )
    span = share_span(words, found.low, found.high, whole=True)
    return words(
        "line.cell-survival", survivors=found.survivors, base=found.base, share=share, span=span
    )


def _founders(words: Words, shares: Sequence[FounderShareRow]) -> str:
    return list_text(
        words,
        [
            words(
                "line.founder-share",
                founder=share.founder or words("parents.unknown"),
                share=share_text(words, share.share, whole=True),
            )
            for share in shares
        ],
    )


# --- what choosing did ----------------------------------------------------------------------


def response_sentences(here: Here, row: LineRow) -> tuple[Markup, ...]:
    """Tell of each graded group of young what its parents were chosen for, the newest first."""
    words = here.words
    if not row.scales:
        return (words.rich("line.no-scale"),)
    found = [one for band in reversed(row.bands) for one in reversed(band.responses)]
    if not found:
        return (words.rich("line.no-grades"),)
    # What can be said stands before what cannot.
    found.sort(key=lambda one: (one.why_not is not None) + (one.selection is None))
    several = len(row.scales) > 1
    return tuple(_response(here, one, name_scale=several) for one in found[:_MOST_RESPONSES])


def _response(here: Here, one: ResponseRow, *, name_scale: bool) -> Markup:
    words = here.words
    kind = "found" if one.why_not is None else one.why_not.value
    text = words.rich(
        "line-response",
        pick=kind,
        group=here.group(one.group),
        selection=_steps(words, one.selection),
        response=_steps(words, one.response),
        heritability=_steps(words, one.heritability),
        span=_span(words, one),
        parents=here.groups(one.ungraded),
    )
    if one.several and one.why_not is None:
        text += words.rich("line.response-set")
    if name_scale:
        text = words.rich("line.response-scale", scale=one.scale) + Markup(" ") + text
    return text


def _steps(words: Words, value: float | None) -> str:
    return "" if value is None else decimal_text(words, value, decimals=2)


def _span(words: Words, one: ResponseRow) -> str:
    if one.low is None or one.high is None:
        return words("line.response-no-span")
    low, high = (decimal_text(words, end, decimals=2) for end in (one.low, one.high))
    return words("line.response-span", low=low, high=high)
