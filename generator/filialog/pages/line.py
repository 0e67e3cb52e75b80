"""A line's page: how near its goal is, its story, and what each generation came to."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.line_rows import GoalState, LineRow
from filialog.analysis.rows import Level
from filialog.lineage import GenerationKind
from filialog.messages import count_text, day_text, share_text, when_text
from filialog.pages.addresses import GROUPS
from filialog.pages.gallery import PictureView, gallery, pictures_of_line
from filialog.pages.here import Here
from filialog.pages.line_chart import line_chart
from filialog.pages.line_figures import FiguresView, figures_view
from filialog.pages.line_tables import LineTable, band_table, brood_table, response_sentences
from filialog.pages.parts import (
    Fact,
    Frame,
    LevelMark,
    Term,
    capital,
    fact,
    frame,
    generation_label,
    generation_terms,
    level_mark,
)
from filialog.pages.prose import paths_in, prose_html

__all__ = ["LineView", "line_progress", "line_title", "line_view"]

_MOST_PICTURES = 6
_MOST_GROUPS = 50
"""More groups than these are for the list of groups."""

_WITH_NUMBER = {
    GoalState.REACHED,
    GoalState.NOT_YET,
    GoalState.MISSED,
    GoalState.CANNOT_TELL,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class GenerationGroups:
    """The groups of one generation."""

    generation: str
    groups: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class LineView:
    """Everything a line's page shows."""

    frame: Frame
    opening: str
    progress: str
    """How the newest brood came out; empty where the opening says it."""
    alive: Fact | None
    prose: Markup
    chart: Markup
    chart_label: str
    bands: LineTable | None
    """None for a line without broods."""
    broods: LineTable | None
    broods_heading: str
    older: Markup
    """Words on broods that are left out; empty where none are."""
    responses: tuple[Markup, ...]
    """What choosing did, a sentence each; none for a line without broods."""
    has_responses: bool
    """Whether any of them tells of graded young."""
    figures: FiguresView | None
    terms: tuple[Term, ...]
    """What the generation labels on the page mean."""
    pictures: tuple[PictureView, ...]
    by_generation: tuple[GenerationGroups, ...]
    groups_left_out: Markup
    """Words on groups that are left out; empty where none are."""
    founders: Markup
    scales: tuple[str, ...]
    inferred: LevelMark


def line_title(here: Here, name: str) -> str:
    """Return a line's name as shown."""
    page = here.results.journal.lines.get(name)
    return page.title if page is not None and page.title else name


def line_progress(here: Here, row: LineRow) -> str:
    """Say in one sentence how far a line has come."""
    words = here.words
    if not row.timeline:
        return words("line.no-broods")
    last = row.timeline[-1]
    label, hatched = generation_label(words, last.generation), when_text(words, last.when)
    if last.generation.kind is GenerationKind.ALTERNATIVES:
        label = words("generation.parents-a-set", label=label)
    brood = words("line.brood-named", brood=last.brood, generation=label, when=hatched)
    if row.goal is None:
        return words("line.newest", brood=brood)
    if last.goal_seen is None or last.number is None:
        return words("line.newest-uncounted", brood=brood)
    expected = last.goal_expected
    if expected in {0.0, 1.0} and last.goal_seen == last.number * expected:
        kind = "all" if expected else "none"
        return words("line-as-expected", pick=kind, brood=brood, n=last.number, goal=row.goal)
    seen = words(
        "line.newest-counted", brood=brood, seen=last.goal_seen, n=last.number, goal=row.goal
    )
    if last.goal_expected is None:
        return words("sentence.end", text=seen)
    share = share_text(words, last.goal_expected)
    return words("line.with-expected", seen=seen, share=share)


def line_view(here: Here, subject: str) -> LineView:
    """Return a line's page."""
    words, row = here.words, here.results.line(subject)
    page = here.results.journal.lines.get(subject)
    opening = _opening(here, row)
    broods, shown = brood_table(here, row)
    groups = [name for name in row.groups if here.site.address_of(name, ("group",)) is not None]
    newest = groups[-_MOST_GROUPS:]
    return LineView(
        frame=frame(
            here,
            heading=line_title(here, subject),
            section="lines",
            description=opening,
        ),
        opening=opening,
        progress="" if row.goal is None else line_progress(here, row),
        alive=None if row.goal_state in _WITH_NUMBER else _alive(here, row),
        prose=Markup("") if page is None else prose_html(here, page.prose),
        chart=line_chart(here, row, title=words("timeline.title", line=line_title(here, subject))),
        chart_label=words("timeline.title", line=line_title(here, subject)),
        bands=band_table(here, row) if row.bands else None,
        broods=broods if row.timeline else None,
        broods_heading=(
            words("line.by-brood")
            if shown == len(row.timeline)
            else words("line.by-brood-newest", n=shown, all=len(row.timeline))
        ),
        older=(
            Markup("")
            if shown == len(row.timeline)
            else words.rich("line.older", list=_list_of_groups(here))
        ),
        responses=response_sentences(here, row) if row.timeline else (),
        has_responses=any(band.responses for band in row.bands),
        figures=figures_view(words, row),
        terms=generation_terms(words, [here.results.group(name).generation for name in newest]),
        pictures=gallery(
            here,
            pictures_of_line(here, subject)[-_MOST_PICTURES:],
            without=() if page is None else paths_in([page.prose]),
        ),
        by_generation=_by_generation(here, newest),
        groups_left_out=(
            Markup("")
            if len(newest) == len(groups)
            else words.rich(
                "line.groups-newest", n=len(newest), all=len(groups), list=_list_of_groups(here)
            )
        ),
        founders=here.groups(row.founders),
        scales=_scales(here, row),
        inferred=level_mark(words, Level.INFERRED),
    )


def _opening(here: Here, row: LineRow) -> str:
    """Say in one sentence whether the goal is reached."""
    words = here.words
    if row.goal_state is GoalState.NO_GOAL:
        goal = words("line.no-goal")
        return words("line.opening", goal=goal, progress=line_progress(here, row))
    if row.goal_number is not None and row.goal_state in _WITH_NUMBER:
        wanted = words("line.wanted", number=row.goal_number, n=row.goal_number)
        if row.goal_by is not None:
            wanted = words("line.wanted-by", wanted=wanted, day=day_text(words, row.goal_by.latest))
        n = words("line.goal-unseen") if row.alive is None else count_text(words, row.alive)
        return words("line-goal", pick=row.goal_state.value, n=n, goal=row.goal, wanted=wanted)
    counted = next((one for one in row.timeline if one.brood == row.goal_brood), None)
    text = words(
        "line-goal",
        pick=row.goal_state.value,
        n=counted.number if counted is not None else 0,
        seen=counted.goal_seen if counted is not None else 0,
        brood=row.goal_brood,
        goal=row.goal,
    )
    if row.goal_by is None:
        return text
    return words("line.goal-by", text=text, day=day_text(words, row.goal_by.latest))


def _scales(here: Here, row: LineRow) -> tuple[str, ...]:
    words = here.words
    found = [
        words("line.scale", scale=scale, steps=words("list.comma").join(steps))
        for scale, steps in row.scales
    ]
    return (*found, words("line.scale-arithmetic")) if found else ()


def _alive(here: Here, row: LineRow) -> Fact | None:
    if row.alive is None or row.goal is None:
        return None
    n = count_text(here.words, row.alive)
    text = here.words.rich("line.alive", number=row.alive, n=n, goal=row.goal)
    return fact(here, capital(text), Level.INFERRED)


def _list_of_groups(here: Here) -> Markup:
    return here.link(here.words("line.list-of-groups"), GROUPS)


def _by_generation(here: Here, groups: Sequence[str]) -> tuple[GenerationGroups, ...]:
    found: dict[str, list[str]] = {}
    for name in groups:
        label = generation_label(here.words, here.results.group(name).generation)
        found.setdefault(label, []).append(name)
    return tuple(
        GenerationGroups(generation=label, groups=here.groups(names))
        for label, names in found.items()
    )
