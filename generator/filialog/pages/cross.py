"""A cross's page: dam × sire, what it should give, what it gave."""

from dataclasses import dataclass, replace

from markupsafe import Markup, escape

from filialog.analysis.rows import BroodTable, CrossRow, Level
from filialog.messages import short_when_text, when_text
from filialog.pages.book import TallyLine, tally_lines
from filialog.pages.gallery import PictureView, gallery
from filialog.pages.here import Here
from filialog.pages.parent_claims import parents_fact
from filialog.pages.parts import (
    Fact,
    Frame,
    LevelMark,
    fact,
    frame,
    generation_label,
    generation_words,
    level_mark,
    parents_html,
    parents_text,
)
from filialog.pages.strays import stray_facts
from filialog.pages.tables import ExpectedLine, TableView, expected_lines, table_view, verdict_text

__all__ = ["CrossView", "cross_title", "cross_view"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BroodLine:
    """A brood of the cross."""

    brood: Markup
    hatched: str
    tank: Markup
    mating: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureRow:
    """Pictures of the dams, the sires or the young."""

    heading: str
    pictures: tuple[PictureView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossView:
    """Everything a cross's page shows."""

    frame: Frame
    opening: Markup
    answer: Fact
    """The verdict on all broods together, or why there is none."""
    parents: tuple[Fact, ...]
    strays: tuple[Fact, ...]
    pictures: tuple[PictureRow, ...]
    generation: Fact
    expected: tuple[ExpectedLine, ...]
    observed: LevelMark
    inferred: LevelMark
    pooled: TableView
    has_chart: bool
    """True where a table has a drawing, which is explained once below them all."""
    by_brood: tuple[TableView, ...]
    broods: tuple[BroodLine, ...]
    tallies: tuple[TallyLine, ...]


def cross_title(here: Here, row: CrossRow) -> str:
    """Return the keeper's name of a cross, or its parents."""
    return row.name or pair_text(here, row)


def pair_text(here: Here, row: CrossRow) -> str:
    """Spell out `dam × sire` in plain text."""
    dams, sires = parents_text(here.words, row.dams), parents_text(here.words, row.sires)
    return here.words("cross.pair", dams=dams, sires=sires)


def cross_view(here: Here, subject: str) -> CrossView:
    """Return a cross's page."""
    words, row = here.words, here.results.cross(subject)
    pooled = here.results.cross_table(subject)
    opening = _opening(here, row)
    label = generation_label(words, row.generation)
    generation = words.rich("group.generation", label=label,
                            says=generation_words(words, row.generation))  # fmt: skip
    tables = [(name, here.results.table(name)) for name in row.broods]
    by_brood = tuple(
        table_view(
            here,
            table,
            heading=words.rich("cross.one-brood", brood=here.group(name)),
            label=words("cross.one-brood-label", brood=name),
            with_verdict=True,
            strays=here.results.strays(name),
        )
        for name, table in tables
        if len(tables) > 1 or table.table != pooled.table
    )
    strays = here.results.strays_of_cross(subject)
    together = table_view(
        here,
        pooled,
        heading=words.rich("cross.all-broods"),
        label=words("cross.all-broods-label"),
        with_verdict=False,
        strays=strays,
    )
    return CrossView(
        frame=frame(
            here,
            heading=cross_title(here, row),
            section="crosses",
            description=opening.striptags(),
        ),
        opening=opening,
        answer=_answer(here, pooled),
        parents=_parents(here, row),
        strays=stray_facts(here, strays),
        pictures=_pictures(here, row),
        generation=fact(here, generation, Level.INFERRED),
        expected=expected_lines(here, pooled),
        observed=level_mark(words, Level.OBSERVED),
        inferred=level_mark(words, Level.INFERRED),
        pooled=replace(together, explanations=())
        if any(view.explanations for view in by_brood)
        else together,
        has_chart=any(view.chart for view in (together, *by_brood)),
        by_brood=by_brood,
        broods=tuple(_brood(here, name) for name in row.broods),
        tallies=tuple(
            line
            for name in row.broods
            for line in tally_lines(here, here.results.group(name).tallies)
        ),
    )


def _opening(here: Here, row: CrossRow) -> Markup:
    words, number = here.words, len(row.broods)
    pair = words.rich("cross.pair", dams=parents_html(here, row.dams),
                      sires=parents_html(here, row.sires))  # fmt: skip
    if not number:
        when = when_text(words, row.when)
        return words.rich("cross.opening-none", pair=pair, when=when)
    when = when_text(words, row.when)
    return words.rich("cross.opening", number=number, pair=pair, n=number, when=when)


def _answer(here: Here, pooled: BroodTable) -> Fact:
    if pooled.table is None:
        why = here.words.rich("no-table", pick=pooled.why_none or "no-tally")
        return fact(here, why, Level.INFERRED)
    verdict = escape(verdict_text(here.words, pooled.table))
    return fact(here, verdict, Level.INFERRED, pooled.table.events)


def _parents(here: Here, row: CrossRow) -> tuple[Fact, ...]:
    return (parents_fact(here, "dams", row.dams), parents_fact(here, "sires", row.sires))


def _pictures(here: Here, row: CrossRow) -> tuple[PictureRow, ...]:
    """Return the newest picture of each parent group and each brood: parents beside young."""
    rows = []
    sides = [("dams", row.dams.groups), ("sires", row.sires.groups), ("young", row.broods)]
    if row.dams.groups == row.sires.groups:
        sides[:2] = [("parents", row.dams.groups)]
    for side, names in sides:
        newest = [picture for name in names for picture in tuple(here.pictures.of_group(name))[-1:]]
        if newest:
            heading = here.words("picture-of", pick=side)
            rows.append(PictureRow(heading=heading, pictures=gallery(here, newest)))
    return tuple(rows)


def _brood(here: Here, name: str) -> BroodLine:
    words, brood = here.words, here.results.brood(name)
    if brood is None:
        blank = words("table.unknown")
        return BroodLine(brood=here.group(name), hatched=blank, tank=escape(blank), mating=blank)
    return BroodLine(
        brood=here.group(name),
        hatched=short_when_text(words, brood.when),
        tank=here.tank(brood.tank) if brood.tank else words.rich("table.unknown"),
        mating=words("mating-short", pick=brood.mating),
    )
