"""What else could be behind a count that does not fit, and what the diary has to say for each."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from filialog.analysis.rows import BroodTable, StrayRow, Table, TallyRow
from filialog.messages import count_text
from filialog.pages.here import Here, Reference
from filialog.pages.strays import stray_facts

__all__ = ["Explanation", "explanations"]


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
        ("stray", _strays(here, strays)),
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
