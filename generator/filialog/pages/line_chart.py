"""The drawing of a line: its broods along time, and what came of them on the same axis."""

from collections.abc import Sequence

from markupsafe import Markup

from filialog.analysis.line_rows import BandKind, GradeRow, LineBand, LineGeneration, LineRow
from filialog.messages import Words, decimal_text
from filialog.pages.addresses import cross_address
from filialog.pages.drawing import (
    MOST_STACKED,
    PanelPoint,
    StackPanel,
    StackPart,
    TimelineMark,
    ValuePanel,
    percent,
    timeline_svg,
)
from filialog.pages.here import Here
from filialog.pages.parts import generation_label
from filialog.pages.ticks import month_ticks

__all__ = ["band_name", "graded_groups", "line_chart"]

_MOST_LINKED = 20
"""Only so many of the newest broods lead somewhere: each takes several elements of the page."""
_SHARES = tuple((share, percent(share)) for share in (0.0, 0.5, 1.0))
_TOPS = (0.25, 0.5, 1.0)
"""Where the scale of inbreeding can end."""


def band_name(words: Words, band: LineBand) -> str:
    """Name a generation of a line: by its label, or by how far it is from the founders."""
    labels = tuple(dict.fromkeys(generation_label(words, one) for one in band.labels))
    listed = words("sentence.clause").join(labels)
    if band.kind is BandKind.LABEL:
        return listed
    if band.kind is BandKind.UNKNOWN:
        return words("timeline.band-unknown", labels=listed)
    if band.kind is BandKind.GENERATION:
        return words("timeline.band", n=band.low, labels=listed)
    return words("timeline.bands", low=band.low, high=band.high)


def graded_groups(row: LineRow, scale: str) -> tuple[GradeRow, ...]:
    """Return the gradings that enter the means of generations, each animal once."""
    used = {
        group
        for band in row.bands
        for mean in band.grades
        if mean.scale == scale
        for group in mean.groups
    }
    return tuple(one for one in row.grades if one.scale == scale and one.group in used)


def line_chart(here: Here, row: LineRow, *, title: str) -> Markup:
    """Return the drawing; empty where the line has no brood."""
    words = here.words
    if not row.timeline:
        return Markup("")
    days = [item.when.earliest for item in row.timeline]
    first, last = min(days).replace(day=1), max(days)
    bands = {brood: band_name(words, band) for band in row.bands for brood in band.broods}
    order = {name: at for at, name in enumerate(dict.fromkeys(bands.values()))}
    linked = {item.brood for item in row.timeline[-_MOST_LINKED:]}
    marks = [
        TimelineMark(
            label=item.brood,
            day=item.when.earliest,
            band=bands[item.brood],
            href=(
                here.to(cross_address(item.cross))
                if item.cross in here.site.crosses and item.brood in linked
                else None
            ),
        )
        for item in row.timeline
    ]
    return timeline_svg(
        tuple(sorted(marks, key=lambda mark: order[mark.band])),
        panels=tuple(_panels(words, row)),
        first=first,
        last=last,
        tick_labels=month_ticks(words, first, last),
        title=title,
        describe=words("timeline.describe"),
    )


def _panels(words: Words, row: LineRow) -> list[ValuePanel | StackPanel]:
    found: list[ValuePanel | StackPanel] = []
    if row.goal is not None:
        share = words("timeline.share", goal=row.goal)
        found.append(_of_shares(share, [_goal_point(item) for item in row.timeline]))
    found += [_of_grades(words, row, scale, steps) for scale, steps in row.scales]
    found.append(
        _of_shares(words("timeline.survival"), [_survival_point(item) for item in row.timeline])
    )
    stacked = _of_founders(words, row.timeline)
    if stacked is not None:
        found.append(stacked)
    inbreeding = _of_inbreeding(words, row.timeline)
    if inbreeding is not None:
        found.append(inbreeding)
    return [one for one in found if not isinstance(one, ValuePanel) or one.points]


def _of_shares(title: str, points: Sequence[PanelPoint | None]) -> ValuePanel:
    return ValuePanel(
        title=title,
        points=tuple(point for point in points if point is not None),
        bottom=0.0,
        top=1.0,
        steps=_SHARES,
    )


def _goal_point(item: LineGeneration) -> PanelPoint | None:
    if item.goal_share is None and item.goal_expected is None:
        return None
    return PanelPoint(
        mark=item.brood,
        value=item.goal_share,
        low=item.interval_low,
        high=item.interval_high,
        expected=item.goal_expected,
    )


def _survival_point(item: LineGeneration) -> PanelPoint | None:
    found = item.survival
    if found is None:
        return None
    if not found.base_total:
        return PanelPoint(mark=item.brood, value=found.share, at_most=True)
    return PanelPoint(mark=item.brood, value=found.share, low=found.low, high=found.high)


def _of_grades(words: Words, row: LineRow, scale: str, steps: Sequence[str]) -> ValuePanel:
    """Return the grades of groups; one of several broods stands at the newest of these."""
    return ValuePanel(
        title=words("timeline.grade", scale=scale, worst=steps[0], best=steps[-1]),
        points=tuple(
            PanelPoint(mark=one.broods[-1], value=one.mean, low=one.low, high=one.high)
            for one in graded_groups(row, scale)
        ),
        bottom=1.0,
        top=float(max(len(steps), 2)),
        steps=tuple((float(at), str(at)) for at in range(1, max(len(steps), 2) + 1)),
    )


def _of_founders(words: Words, timeline: Sequence[LineGeneration]) -> StackPanel | None:
    """Return the shares of the founders with most of them, and the others together."""
    sums: dict[str | None, float] = {}
    for item in timeline:
        for share in item.founder_shares:
            sums[share.founder] = sums.get(share.founder, 0.0) + share.share
    if not sums:
        return None
    ranked = sorted(sums, key=lambda one: (-sums[one], one is None, one or ""))
    kept = ranked if len(ranked) <= MOST_STACKED else ranked[: MOST_STACKED - 1]
    names = [one if one is not None else words("parents.unknown") for one in kept]
    if len(kept) < len(ranked):
        names.append(words("line.founder-others"))
    bars = []
    for item in timeline:
        own = {share.founder: share.share for share in item.founder_shares}
        shares = [own.pop(founder, 0.0) for founder in kept]
        if len(kept) < len(ranked):
            shares.append(sum(own.values()))
        bars.append(StackPart(mark=item.brood, shares=tuple(shares)))
    return StackPanel(title=words("timeline.founders"), names=tuple(names), bars=tuple(bars))


def _of_inbreeding(words: Words, timeline: Sequence[LineGeneration]) -> ValuePanel | None:
    known = [
        (item.brood, item.inbreeding_low, item.inbreeding_high)
        for item in timeline
        if item.inbreeding_low is not None and item.inbreeding_high is not None
    ]
    if not known:
        return None
    most = max(high for _, _, high in known)
    top = next(one for one in _TOPS if most <= one)
    return ValuePanel(
        title=words("timeline.inbreeding"),
        points=tuple(
            PanelPoint(mark=brood, value=low if low == high else None, low=low, high=high)
            for brood, low, high in known
        ),
        bottom=0.0,
        top=top,
        steps=tuple(
            (value, decimal_text(words, value, decimals=3)) for value in (0.0, top / 2, top)
        ),
    )
