"""What else could be behind a count that does not fit, and what the diary has to say for each."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from filialog.analysis.rows import BroodTable, RivalKind, RivalLine, StrayRow, Table, TallyRow
from filialog.messages import Words, count_text, decimal_text, either_text, share_text
from filialog.pages.here import Here, Reference
from filialog.pages.strays import stray_facts

__all__ = ["Explanation", "explanations", "odds_text"]

_MOST_ODDS = 1000.0
_EVEN = 1.15
"""Odds below this are told as `about as well`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation:
    """A way in which the count may have come about."""

    name: str
    says: tuple[Markup, ...]
    """What speaks for it or against it, a sentence each."""


def explanations(
    here: Here, whole: BroodTable, *, parents: Sequence[str], strays: Sequence[StrayRow]
) -> tuple[Explanation, ...]:
    """Return the explanations that remain; `parents` says what other parents would give."""
    words, table = here.words, whole.table
    if table is None:
        return ()
    told = (
        ("parents", [escape(text) for text in parents] or [words.rich("misfit.no-other-parents")]),
        ("stray", [*_strays(here, strays), *_sires(here, table)]),
        ("survival", _survival(here, whole, table)),
        ("sorting", _sorting(here, whole, table)),
    )
    return tuple(
        Explanation(name=words("misfit", pick=name), says=tuple(says)) for name, says in told
    )


def _strays(here: Here, strays: Sequence[StrayRow]) -> list[Markup]:
    words = here.words
    facts = stray_facts(here, [stray for stray in strays if stray.into])
    if not facts:
        return [words.rich("misfit-stray.none")]
    return [
        words.rich("misfit-stray.recorded", text=one.text, entries=_links(one.references.shown))
        for one in facts
    ]


def _sires(here: Here, table: Table) -> list[Markup]:
    """Say what another sire would explain, of all young or of a part of them."""
    words, said = here.words, []
    for line in table.rivals:
        sire, odds = either_text(words, line.of), _odds(words, line)
        share, low, high = _fitted(words, line)
        if line.kind is RivalKind.ALL_SIRES:
            said.append(words.rich("misfit-stray.all-sires", sire=sire, odds=odds))
        elif line.kind is RivalKind.SOME_SIRES:
            told = words.rich(
                "misfit-stray.some-sires", sire=sire, odds=odds, share=share, low=low, high=high
            )
            said.append(told)
    return said


def _short(words: Words, line: RivalLine) -> Markup:
    """Say what worse survival of a look would explain."""
    share, low, high = _fitted(words, line)
    return words.rich("misfit-survival.fitted", look=line.of[0], odds=_odds(words, line),
                      share=share, low=low, high=high)  # fmt: skip


def _fitted(words: Words, line: RivalLine) -> tuple[str, str, str]:
    """Write the number that was fitted, and the ends of its interval."""
    estimate, low, high = (
        words("misfit.no-limit")
        if end is None or math.isinf(end)
        else share_text(words, end, whole=True)
        for end in (line.estimate, line.low, line.high)
    )
    return estimate, low, high


def _odds(words: Words, line: RivalLine) -> str:
    """Say how much better or worse an explanation does than what was expected."""
    if math.isinf(line.log_ratio):
        return words("misfit-odds.only")
    side = "better" if line.log_ratio > 0 else "worse"
    pick, times = odds_text(words, line.log_ratio, side=side)
    return words("misfit-odds", pick=pick, n=times) if times else words("misfit-odds.even")


def odds_text(words: Words, log_ratio: float, *, side: str) -> tuple[str, str]:
    """Write how many times better or worse a count is explained, at most 1000.

    Returns the side, with `-many` where the most is passed, and the number; it is empty where
    the two explain the count about alike.
    """
    times = math.exp(min(abs(log_ratio), math.log(_MOST_ODDS)))
    if times < _EVEN:
        return side, ""
    if times >= _MOST_ODDS * 0.999:
        return f"{side}-many", decimal_text(words, _MOST_ODDS, decimals=0)
    return side, decimal_text(words, times, decimals=0 if times >= 10 else 1)


def _links(references: Iterable[Reference]) -> Markup:
    mark = Markup('<a class="ref" href="{}">{}</a>')
    return Markup("; ").join(mark.format(one.href, one.text) for one in references)


def _survival(here: Here, whole: BroodTable, table: Table) -> list[Markup]:
    words = here.words
    said = [
        words.rich("misfit-survival.not", look=line.look)
        for line in table.lines
        if line.observed and line.share_high == 0.0
    ]
    if not said:
        short = min(table.lines, key=lambda line: line.difference)
        said = [words.rich("misfit-survival.short", look=short.look)]
    said.extend(_short(words, line) for line in table.rivals if line.kind is RivalKind.SURVIVAL)
    for name in whole.broods:
        row = here.results.brood(name)
        tally = _used(here, name)
        if row is not None and row.count is not None and tally is not None:
            said.append(
                words.rich(
                    "misfit-survival.first-sight",
                    brood=here.group(name),
                    first=count_text(words, row.count),
                    then=count_text(words, tally.number),
                )
            )
    return said


def _used(here: Here, brood: str) -> TallyRow | None:
    found = here.results.group(brood).tallies
    shown = (tally for tally in found if tally.used and here.event(tally.event) is not None)
    return next(shown, None)


def _sorting(here: Here, whole: BroodTable, table: Table) -> list[Markup]:
    words = here.words
    said = []
    for name in whole.broods:
        times = sum(
            1
            for tally in here.results.group(name).tallies
            if tally.looks and here.event(tally.event) is not None
        )
        if times:
            told = words.rich(
                "misfit-sorting.counted", number=times, brood=here.group(name), n=times
            )
            said.append(told)
    if table.unsorted:
        said.append(words.rich("misfit-sorting.unsorted", number=table.unsorted, n=table.unsorted))
    return said or [words.rich("misfit-sorting.not-known")]
