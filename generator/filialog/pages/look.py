"""Looks: a page for each, and the list of all with what was seen and is not explained."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import Level, LookRow, LookSeenIn, UnexplainedRow
from filialog.messages import count_text, list_text, share_text, short_when_text
from filialog.pages.addresses import look_address
from filialog.pages.gallery import PictureView, gallery, whole_animals
from filialog.pages.here import Here, Reference
from filialog.pages.parts import (
    Fact,
    Frame,
    LevelMark,
    fact,
    frame,
    is_misfit,
    level_mark,
    look_text,
)
from filialog.pages.tables import share_span

__all__ = ["LookView", "LooksView", "look_view", "looks_view"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelClaim:
    """What the trait file says, quoted, and what it leans on."""

    name: str
    look_says: str
    says: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GenotypeLine:
    """A genotype that shows the look."""

    genotype: str
    model: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenLine:
    """How often the look was seen from a cross."""

    cross: Markup
    seen: str
    share: str
    interval: str
    expected: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LookView:
    """Everything a look's page shows."""

    frame: Frame
    opening: str
    claims: tuple[ModelClaim, ...]
    genotypes: tuple[GenotypeLine, ...]
    shown_by: Markup
    must_show: Markup
    seen: tuple[SeenLine, ...]
    never_seen: Markup
    pictures: tuple[PictureView, ...]
    observed: LevelMark
    inferred: LevelMark
    claimed: LevelMark


@dataclass(frozen=True, slots=True, kw_only=True)
class LookCard:
    """A look in the list."""

    href: str
    name: str
    says: str
    seen: str
    pictures: tuple[PictureView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnexplainedLine:
    """Animals seen that no model explains."""

    day: str
    entry: Reference | None
    says: Fact


@dataclass(frozen=True, slots=True, kw_only=True)
class LooksView:
    """All looks, and what is not explained."""

    frame: Frame
    opening: str
    looks: tuple[LookCard, ...]
    unexplained: tuple[UnexplainedLine, ...]
    observed: LevelMark


def looks_view(here: Here, _: str) -> LooksView:
    """Return the list of looks."""
    words, names = here.words, here.results.looks()
    opening = words("list-empty", pick="looks")
    if names:
        opening = words("list-opening", pick="looks", number=len(names), n=len(names))
    return LooksView(
        frame=frame(
            here, heading=words("nav", pick="looks"), section="looks", description=opening
        ),
        opening=opening,
        looks=tuple(_card(here, name) for name in names),
        unexplained=tuple(
            _unexplained(here, row)
            for row in here.results.unexplained()
            if here.event(row.event) is not None
        ),
        observed=level_mark(words, Level.OBSERVED),
    )  # fmt: skip


def look_view(here: Here, subject: str) -> LookView:
    """Return a look's page."""
    words, row = here.words, here.results.look(subject)
    opening = _opening(here, row)
    seen = [one for one in row.seen_in if one.seen]
    never = [here.cross(one.cross) for one in row.seen_in if not one.seen]
    return LookView(
        frame=frame(here, heading=subject, section="looks", description=opening),
        opening=opening,
        claims=tuple(_claim(here, row, name) for name in row.models),
        genotypes=tuple(
            GenotypeLine(genotype=genotype, model=model) for model, genotype in row.genotypes
        ),
        shown_by=_groups(here, row.shown_by),
        must_show=_groups(here, [name for name in row.must_show if not _doubted(here, name)]),
        seen=tuple(_seen(here, one) for one in seen),
        never_seen=words.rich("look.never-in", crosses=list_text(words, never))
        if never
        else Markup(""),
        pictures=gallery(here, here.pictures.of_look(subject)),
        observed=level_mark(words, Level.OBSERVED),
        inferred=level_mark(words, Level.INFERRED),
        claimed=level_mark(words, Level.CLAIMED),
    )  # fmt: skip


def _groups(here: Here, names: Sequence[str]) -> Markup:
    known = [name for name in names if here.site.address_of(name, ("group",))]
    return here.groups(known) if known else Markup("")


def _doubted(here: Here, name: str) -> bool:
    """Say whether a count speaks against the parents from which the look follows."""
    known = here.site.address_of(name, ("group",)) is not None
    return known and is_misfit(here, here.results.group(name))


def _says(here: Here, row: LookRow) -> str:
    """Return the trait file's words on the look; empty where it has none."""
    for name in row.models:
        for look, says in here.results.journal.traits[name].look_words:
            if look == row.look and says:
                return says
    return ""


def _totals(row: LookRow) -> tuple[int, int]:
    return sum(one.seen for one in row.seen_in), sum(one.counted for one in row.seen_in)


def _opening(here: Here, row: LookRow) -> str:
    words, says = here.words, _says(here, row)
    seen, counted = _totals(row)
    first = words("look.is", look=row.look, says=says) if says else words("look.is-look")
    if not counted:
        return words("look.opening-uncounted", first=first)
    crosses = sum(1 for one in row.seen_in if one.seen)
    return words("look.opening", number=crosses, first=first, seen=seen, n=counted, crosses=crosses)


def _claim(here: Here, row: LookRow, name: str) -> ModelClaim:
    words, page = here.words, here.results.journal.traits[name]
    says = dict(page.look_words).get(row.look, "")
    source = words("model.no-source")
    if page.source:
        kept = "shipped" if page.shipped else "own"
        source = words("model-source", pick=kept, source=page.source)
    return ModelClaim(name=page.model.name, look_says=says, says=page.says, source=source)


def _seen(here: Here, one: LookSeenIn) -> SeenLine:
    words = here.words
    return SeenLine(
        cross=here.cross(one.cross),
        seen=words("look.n-of-m", seen=one.seen, n=one.counted),
        share=share_text(words, one.seen / one.counted, whole=True),
        interval=share_span(words, one.interval_low, one.interval_high, whole=True),
        expected=words("table.unknown")
        if one.expected is None
        else share_text(words, one.expected),
    )  # fmt: skip


def _card(here: Here, name: str) -> LookCard:
    words, row = here.words, here.results.look(name)
    seen, counted = _totals(row)
    told = words("look.not-counted")
    if counted:
        told = words("look.seen", seen=seen, n=counted)
    return LookCard(
        href=here.to(look_address(name)),
        name=name,
        says=_says(here, row),
        seen=told,
        pictures=gallery(here, whole_animals(here, here.pictures.of_look(name))[-1:]),
    )


def _unexplained(here: Here, row: UnexplainedRow) -> UnexplainedLine:
    words = here.words
    if row.look is None:
        what = words.rich("unexplained", pick="noted", note=row.note)
    elif row.look.whole is not None:
        what = words.rich("unexplained", pick="undeclared", note=row.look.whole)
    else:
        what = words.rich("unexplained", pick="half-sided", note=look_text(words, row.look))
    where = Markup("")
    if row.groups:
        where = words.rich("unexplained-place.of", groups=here.groups(row.groups))
    elif row.tank is not None:
        where = words.rich("unexplained-place.in", tank=here.tank(row.tank))
    text = words.rich("unexplained-told", n=count_text(words, row.count), where=where, what=what)
    return UnexplainedLine(
        day=short_when_text(words, row.when),
        entry=here.event_entry(row.event),
        says=fact(here, text, Level.OBSERVED),
    )
