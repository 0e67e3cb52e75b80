"""Expected against observed: the table, its verdict in plain words, and how it was computed."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from filialog.analysis.rows import (
    Assumption,
    BroodTable,
    Level,
    LookLine,
    StrayRow,
    Table,
)
from filialog.journal.events import Other
from filialog.messages import (
    Words,
    count_text,
    decimal_text,
    either_text,
    list_text,
    p_value_text,
    share_text,
    signed_text,
)
from filialog.pages.addresses import COUNTS
from filialog.pages.drawing import ShareRow, shares_svg
from filialog.pages.here import Here
from filialog.pages.misfits import Explanation, explanations, odds_text
from filialog.pages.parts import Fact, fact
from filialog.statistics import MISFIT_BELOW, Judgement, Method, Verdict

__all__ = [
    "ExpectedLine",
    "TableLine",
    "TableView",
    "assumption_sentences",
    "coefficient_span",
    "expected_lines",
    "share_span",
    "table_view",
    "verdict_text",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class TableLine:
    """A look, expected and seen."""

    look: str
    expected_share: str
    expected: str
    observed: str
    difference: str
    interval: str
    exact_expected: str
    """The numbers once more, unrounded, for programs that read the page."""
    exact_low: str
    exact_high: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectedLine:
    """A look and the share it should have."""

    look: str
    share: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TableView:
    """The table of a brood or cross; `none` says why there is no table."""

    heading: Markup
    label: str
    """Plain words for the table as a whole."""
    exact_p: str
    """The p value, unrounded, for programs that read the page; empty where nothing was tested."""
    test: str
    """Name of the test: `exact` or `g-williams`; empty where nothing was tested."""
    none: str
    verdict: Fact | None
    remarks: tuple[str, ...]
    """What the count leaves out, what else could explain it."""
    explanations: tuple[Explanation, ...]
    """Only for a count that does not fit."""
    lines: tuple[TableLine, ...]
    chart: Markup
    chart_label: str
    sums: str
    own_p: Markup
    """Its own p value, with a link to all counts; empty where nothing was tested."""
    method: tuple[str, ...]
    """How it was computed, a sentence each."""


def table_view(
    here: Here,
    table: BroodTable,
    *,
    heading: Markup,
    label: str,
    with_verdict: bool,
    strays: Sequence[StrayRow],
) -> TableView:
    """Return a table ready to be shown, with its verdict where that does not stand elsewhere."""
    words, found = here.words, table.table
    if found is None:
        return TableView(
            heading=heading,
            label=label,
            exact_p="",
            test="",
            none=words("no-table", pick=table.why_none or "no-tally"),
            verdict=None,
            remarks=(),
            explanations=(),
            lines=(),
            chart=Markup(""),
            chart_label="",
            sums="",
            own_p=Markup(""),
            method=(),
        )
    return TableView(
        heading=heading,
        label=label,
        exact_p=repr(found.judgement.p_value) if _tested(found) else "",
        test=_test_name(found) if _tested(found) else "",
        none="",
        verdict=fact(here, escape(verdict_text(words, found)), Level.INFERRED, found.events)
        if with_verdict
        else None,
        remarks=_remarks(words, found),
        explanations=explanations(here, table, parents=_other_parents(words, found), strays=strays)
        if _is_misfit(found)
        else (),
        lines=tuple(_line(words, line) for line in found.lines),
        chart=_chart(words, found, label),
        chart_label=words("chart.title", label=label),
        sums=words("table.sums", number=found.sorted_number, n=found.sorted_number),
        own_p=_own_p(here, found),
        method=_method(words, table, found),
    )


def expected_lines(here: Here, table: BroodTable) -> tuple[ExpectedLine, ...]:
    """Return the shares that looks should have, before any count."""
    return tuple(
        ExpectedLine(look=look, share=share_span(here.words, low, high))
        for look, low, high in table.expected
    )


def share_span(words: Words, low: float, high: float, *, whole: bool = False) -> str:
    """Write a share, or the span between two."""
    first, last = share_text(words, low, whole=whole), share_text(words, high, whole=whole)
    return first if first == last else words("share.span", low=first, high=last)


def coefficient_span(words: Words, low: float, high: float) -> str:
    """Write a kinship or inbreeding coefficient, or the span between two."""
    first, last = (decimal_text(words, value, decimals=3) for value in (low, high))
    return first if first == last else words("number.span", low=first, high=last)


def assumption_sentences(words: Words, assumptions: tuple[Assumption, ...]) -> tuple[str, ...]:
    """Return a sentence for each thing taken for granted."""
    return tuple(words("assumption", pick=assumption.value) for assumption in assumptions)


def verdict_text(words: Words, table: Table) -> str:
    """Say in plain words what a count says about its expectation."""
    judgement = table.judgement
    more, rival = judgement.more_needed, _rival(words, table)
    match judgement.verdict:
        case Verdict.FITS:
            return words("verdict.fits")
        case Verdict.DOES_NOT_FIT:
            return words("verdict.does-not-fit")
        case Verdict.NOTHING_COUNTED if more:
            return words("verdict.nothing-counted-more", number=more, n=more)
        case Verdict.NOTHING_COUNTED:
            return words("verdict.nothing-counted")
        case Verdict.CANNOT_TELL:
            said = words("verdict.cannot-tell-rival", rival=rival) if rival else ""
            needed = _more_needed(words, table)
            opening = said or words("verdict.cannot-tell")
            return f"{opening} {needed}".strip()


def _more_needed(words: Words, table: Table) -> str:
    more, at_once = table.judgement.more_needed, table.more_at_once
    if not more:
        return ""
    if at_once is None or at_once <= more:
        return words("verdict.more", number=more, n=more)
    return words("verdict.more-at-once", n=more, at_once=at_once)


def _rival(words: Words, table: Table) -> str:
    pairs = [
        words("rival.pair", dam=dam, sire=sire) for dam, sire in table.rival_pairs
    ]  # fmt: skip
    return either_text(words, pairs)


def _remarks(words: Words, table: Table) -> tuple[str, ...]:
    remarks = []
    if table.unsorted:
        n = table.unsorted
        remarks.append(words("table.unsorted", number=n, n=n))
        remarks.extend(_sorted_in(words, table))
    if table.unexplained:
        listed = list_text(words, [_other(words, other) for other in table.unexplained])
        remarks.append(words("table.unexplained", animals=listed))
    if not _is_misfit(table):
        remarks.extend(_other_parents(words, table))
    return tuple(remarks)


def _sorted_in(words: Words, table: Table) -> tuple[str, ...]:
    """Say what the unsorted could make of the count at the worst, or of a misfit at the best."""
    misfit = _is_misfit(table)
    end = table.unsorted_best if misfit else table.unsorted_worst
    if end is None:
        return ()
    fits = end.p_value >= MISFIT_BELOW
    pick = ("misfit-fits" if fits else "misfit-stays") if misfit else ("fits" if fits else "turns")
    kind = "one" if table.unsorted == 1 else "all" if len(end.looks) == 1 else "some"
    looks = [words("unsorted-look", pick=kind, n=n, look=look) for look, n in end.looks]
    shares = [
        words("rival.share", look=look, share=share_text(words, share, whole=True))
        for look, share in end.shares
    ]
    given = {"looks": list_text(words, looks), "shares": list_text(words, shares)}
    n = table.unsorted
    return (words("unsorted-case", pick=pick, number=n, n=n, **given),)


def _is_misfit(table: Table) -> bool:
    return table.judgement.verdict is Verdict.DOES_NOT_FIT


def _other_parents(words: Words, table: Table) -> tuple[str, ...]:
    """Say what other parents would give, and how much better or worse they explain the count."""
    said = []
    if table.rival_shares and table.judgement.verdict is not Verdict.FITS:
        shares = [
            words("rival.share", look=look, share=share_text(words, share))
            for look, share in table.rival_shares
        ]
        rival = _rival(words, table) or words("rival.other")
        said.append(words("rival.would-give", rival=rival, shares=list_text(words, shares)))
    ratio = _ratio(words, table.judgement)
    if ratio and _tested(table):
        said.append(ratio)
    return tuple(said)


def _other(words: Words, other: Other) -> str:
    n = count_text(words, other.count)
    return words("tally.other", number=other.count, n=n, note=other.note)


def _ratio(words: Words, judgement: Judgement) -> str:
    ratio = judgement.best_rival_log_ratio
    if ratio is None:
        return ""
    side = "for" if ratio > 0 else "against"
    pick, times = odds_text(words, ratio, side=side)
    return words("rival-odds", pick=pick, n=times) if times else words("rival.even")


def _line(words: Words, line: LookLine) -> TableLine:
    return TableLine(
        look=line.look,
        expected_share=share_span(words, line.share_low, line.share_high),
        expected=decimal_text(words, line.expected, decimals=1),
        observed=str(line.observed),
        difference=signed_text(words, line.difference, decimals=1),
        interval=share_span(words, line.interval_low, line.interval_high, whole=True),
        exact_expected=repr(line.expected),
        exact_low=repr(line.interval_low),
        exact_high=repr(line.interval_high),
    )


def _tested(table: Table) -> bool:
    return table.judgement.verdict is not Verdict.NOTHING_COUNTED


def _own_p(here: Here, table: Table) -> Markup:
    if not _tested(table):
        return Markup("")
    p_value = p_value_text(here.words, table.judgement.p_value)
    link = here.link(here.words("counts.link"), COUNTS)
    return here.words.rich("table.own-p", p=p_value, counts=link)


def _test_name(table: Table) -> str:
    return "exact" if table.judgement.method is Method.EXACT else "g-williams"


def _chart(words: Words, table: Table, label: str) -> Markup:
    number = table.sorted_number
    rows = tuple(
        ShareRow(
            label=line.look,
            observed=line.observed / number if number else None,
            low=line.interval_low if number else None,
            high=line.interval_high if number else None,
            expected_low=line.share_low,
            expected_high=line.share_high,
        )
        for line in table.lines
    )
    if not rows:
        return Markup("")
    return shares_svg(
        rows,
        title=words("chart.title", label=label),
        describe=words("chart.describe"),
        axis_label=words("chart.axis"),
    )


def _method(words: Words, whole: BroodTable, table: Table) -> tuple[str, ...]:
    judgement = table.judgement
    sentences = [words("method.model", model=table.model)]
    if _tested(table):
        p_value = p_value_text(words, judgement.p_value)
        sentences.append(words("method.p-value", p=p_value))
        if judgement.method is Method.EXACT:
            sentences.append(words("method.exact"))
        else:
            statistic = judgement.statistic
            shown = words("method.infinite")
            if statistic is not None and math.isfinite(statistic):
                shown = decimal_text(words, statistic, decimals=2)
            sentences.append(words("method.g-williams", g=shown, df=judgement.df))
        sentences.append(words("method.interval"))
        if table.rivals:
            sentences.append(words("method.rivals"))
    if whole.heterogeneity_p is not None:
        p_value = p_value_text(words, whole.heterogeneity_p)
        verdict = "differ" if whole.heterogeneity_p < 0.05 else "agree"
        sentences.append(words("heterogeneity", pick=verdict, p=p_value))
    sentences.extend(assumption_sentences(words, table.assumptions))
    return tuple(sentences)
