"""Specialist figures of a line by generation, each with what it means."""

from dataclasses import dataclass

from markupsafe import escape

from filialog.analysis.line_rows import FigureName, LineFigure, LineRow
from filialog.messages import Words, decimal_text
from filialog.pages.line_chart import band_name
from filialog.pages.line_tables import Cell, LineTable, TableRow
from filialog.pages.parts import Term
from filialog.pages.tables import share_span

__all__ = ["FiguresView", "figures_view"]

_SHARES = {FigureName.GENE_DIVERSITY, FigureName.FORECAST_5, FigureName.FORECAST_10}
_DECIMALS = {FigureName.MEAN_KINSHIP: 3}
_FORECASTS = {FigureName.FORECAST_5, FigureName.FORECAST_10}


@dataclass(frozen=True, slots=True, kw_only=True)
class FiguresView:
    """The figures of all generations, and what each means."""

    table: LineTable
    terms: tuple[Term, ...]


def figures_view(words: Words, row: LineRow) -> FiguresView | None:
    """Return the figures; None for a line without broods."""
    if not row.bands:
        return None
    heads = [band_name(words, band) for band in row.bands]
    columns = [{one.name: one for one in band.figures} for band in row.bands]
    return FiguresView(
        table=LineTable(
            corner=words("line.figure"),
            heads=tuple(heads),
            rows=tuple(
                TableRow(
                    name=escape(words("line-figure", pick=name.value)),
                    cells=tuple(
                        Cell(head=head, text=escape(_figure(words, column[name])))
                        for head, column in zip(heads, columns, strict=True)
                    ),
                )
                for name in FigureName
            ),
        ),
        terms=tuple(
            Term(
                name=words("line-figure", pick=name.value),
                says=words(
                    "line-figure-says",
                    pick="forecast" if name in _FORECASTS else name.value,
                ),
            )
            for name in FigureName
            if name is not FigureName.FORECAST_10
        ),
    )


def _figure(words: Words, one: LineFigure) -> str:
    if one.why_not is not None or one.low is None or one.high is None:
        return words("line-why-not", pick=one.why_not.value if one.why_not else "number-unknown")
    if one.name in _SHARES:
        return share_span(words, one.low, one.high, whole=True)
    decimals = _DECIMALS.get(one.name, 1)
    low, high = (decimal_text(words, end, decimals=decimals) for end in (one.low, one.high))
    return low if low == high else words("number.span", low=low, high=high)
