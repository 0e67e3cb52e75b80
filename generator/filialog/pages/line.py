"""A line's page: goal, story, and what each generation came to."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import Level, LineGeneration, LineRow
from filialog.lineage import GenerationKind
from filialog.messages import (
    Words,
    count_text,
    decimal_text,
    list_text,
    share_text,
    short_when_text,
    when_text,
)
from filialog.pages.addresses import cross_address
from filialog.pages.drawing import TimelineMark, timeline_svg
from filialog.pages.gallery import PictureView, gallery, pictures_of_line
from filialog.pages.here import Here, References
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
from filialog.pages.tables import share_span
from filialog.pages.ticks import month_ticks

__all__ = ["LineView", "line_progress", "line_title", "line_view"]

_MOST_PICTURES = 6
_MOST_BANDS = 6
"""With more labels than this, broods share a band by how many generations they are from founders;
with more generations, several of them share one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GenerationLine:
    """A brood on the line's way."""

    brood: Markup
    generation: str
    hatched: str
    number: str
    seen: str
    share: str
    interval: str
    expected: str
    inbreeding: str
    founders: str
    references: References


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
    alive: Fact | None
    prose: Markup
    chart: Markup
    chart_label: str
    generations: tuple[GenerationLine, ...]
    terms: tuple[Term, ...]
    """What the generation labels on the page mean."""
    pictures: tuple[PictureView, ...]
    goal: Markup
    by_generation: tuple[GenerationGroups, ...]
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
    goal = words("line.goal", goal=row.goal) if row.goal else words("line.no-goal")
    opening = words("line.opening", goal=goal, progress=line_progress(here, row))
    return LineView(
        frame=frame(
            here,
            heading=line_title(here, subject),
            section="lines",
            description=opening,
        ),
        opening=opening,
        alive=_alive(here, row),
        prose=Markup("") if page is None else prose_html(here, page.prose),
        chart=_chart(here, row),
        chart_label=words("timeline.title", line=line_title(here, subject)),
        generations=tuple(_generation(here, item) for item in row.timeline),
        terms=generation_terms(
            words,
            [
                here.results.group(name).generation
                for name in row.groups
                if here.site.address_of(name, ("group",))
            ],
        ),
        pictures=gallery(
            here,
            pictures_of_line(here, subject)[-_MOST_PICTURES:],
            without=() if page is None else paths_in([page.prose]),
        ),
        goal=here.look(row.goal) if row.goal else Markup(""),
        by_generation=_by_generation(here, row.groups),
        founders=here.groups(row.founders),
        scales=tuple(
            words("line.scale", scale=scale.name, steps=words("list.comma").join(scale.order))
            for scale in (() if page is None else page.scales)
        ),
        inferred=level_mark(words, Level.INFERRED),
    )


def _alive(here: Here, row: LineRow) -> Fact | None:
    if row.alive is None or row.goal is None:
        return None
    n = count_text(here.words, row.alive)
    text = here.words.rich("line.alive", number=row.alive, n=n, goal=row.goal)
    return fact(here, capital(text), Level.INFERRED)


def _chart(here: Here, row: LineRow) -> Markup:
    words = here.words
    if not row.timeline:
        return Markup("")
    days = [item.when.earliest for item in row.timeline]
    first, last = min(days).replace(day=1), max(days)
    bands = _bands(words, row.timeline)
    marks = tuple(
        TimelineMark(
            label=item.brood,
            day=item.when.earliest,
            band=bands[item.brood],
            share=item.goal_share,
            low=item.interval_low,
            high=item.interval_high,
            expected=item.goal_expected,
            href=here.to(cross_address(item.cross)) if item.cross in here.site.crosses else None,
        )
        for item in row.timeline
    )
    axis = words("timeline.axis", goal=row.goal) if row.goal else words("timeline.axis-none")
    return timeline_svg(
        marks,
        first=first,
        last=last,
        tick_labels=month_ticks(words, first, last),
        title=words("timeline.title", line=line_title(here, row.line)),
        describe=words("timeline.describe"),
        axis_label=axis,
    )


def _bands(words: Words, timeline: Sequence[LineGeneration]) -> dict[str, str]:
    """Return the band of each brood: its generation, or several generations together."""
    labels = {item.brood: generation_label(words, item.generation) for item in timeline}
    if len(set(labels.values())) <= _MOST_BANDS:
        return labels
    known = [item.generation.most for item in timeline if item.generation.most is not None]
    width = -(-max(known, default=1) // _MOST_BANDS)
    members: dict[int | None, dict[str, None]] = {}
    places: dict[str, int | None] = {}
    for item in timeline:
        most = item.generation.most
        place = None if most is None else max(most - 1, 0) // width
        places[item.brood] = place
        members.setdefault(place, {})[labels[item.brood]] = None
    named: dict[int | None, str] = {}
    for place, codes in members.items():
        listed = words("sentence.clause").join(codes)
        if place is None:
            named[place] = words("timeline.band-unknown", labels=listed)
        elif width == 1:
            named[place] = words("timeline.band", n=place + 1, labels=listed)
        else:
            low, high = place * width + 1, (place + 1) * width
            named[place] = words("timeline.bands", low=low, high=high)
    return {brood: named[place] for brood, place in places.items()}


def _generation(here: Here, item: LineGeneration) -> GenerationLine:
    words = here.words
    blank = words("table.unknown")
    low, high = item.interval_low, item.interval_high
    inbreeding = item.inbreeding
    return GenerationLine(
        brood=here.group(item.brood),
        generation=generation_label(words, item.generation),
        hatched=short_when_text(words, item.when),
        number=blank if item.number is None else str(item.number),
        seen=blank if item.goal_seen is None else str(item.goal_seen),
        share=blank if item.goal_share is None else share_text(words, item.goal_share, whole=True),
        interval=blank if low is None or high is None else share_span(words, low, high, whole=True),
        expected=blank if item.goal_expected is None else share_text(words, item.goal_expected),
        inbreeding=blank if inbreeding is None else decimal_text(words, inbreeding, decimals=3),
        founders=list_text(
            words,
            [
                words(
                    "line.founder-share",
                    founder=share.founder or words("parents.unknown"),
                    share=share_text(words, share.share),
                )
                for share in item.founder_shares
            ],
        )
        or blank,
        references=here.references(item.events),
    )


def _by_generation(here: Here, groups: Sequence[str]) -> tuple[GenerationGroups, ...]:
    found: dict[str, list[str]] = {}
    for name in groups:
        if here.site.address_of(name, ("group",)) is not None:
            label = generation_label(here.words, here.results.group(name).generation)
            found.setdefault(label, []).append(name)
    return tuple(
        GenerationGroups(generation=label, groups=here.groups(names))
        for label, names in found.items()
    )
