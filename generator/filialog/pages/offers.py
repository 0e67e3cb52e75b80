"""What is on offer: a card for each lot, with what is known of it and how well."""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import GroupRow, Level, LotRow, LotState
from filialog.messages import count_text, list_text, short_when_text, when_text
from filialog.pages.addresses import lot_address, lot_mark
from filialog.pages.gallery import PictureView, gallery
from filialog.pages.genotype_claims import genotype_claim
from filialog.pages.here import Here, Reference
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
    look_text,
)
from filialog.pages.readings import last_reading, readings_text

__all__ = ["OfferLine", "OffersView", "offer_lines", "offers_view"]

_PICTURES_OF_A_LOT = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class LotGroup:
    """A group in a lot: what it is, where from, what it can hide."""

    name: Markup
    look: str
    generation: Fact
    parents: tuple[Fact, ...]
    cross: Markup
    genotype: Fact


@dataclass(frozen=True, slots=True, kw_only=True)
class LotCard:
    """A lot with all a buyer should know."""

    mark: str
    """Its place on the page."""
    heading: str
    state: str
    number: Fact
    note: str
    groups: tuple[LotGroup, ...]
    water: tuple[Fact, ...]
    water_none: str
    pictures: tuple[PictureView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PastLot:
    """A lot that is no more to be had."""

    mark: str
    heading: str
    groups: Markup
    offered: str
    day: str
    entry: Reference | None
    state: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OffersView:
    """Everything the page of offers shows."""

    frame: Frame
    opening: str
    lots: tuple[LotCard, ...]
    past: tuple[PastLot, ...]
    inferred: LevelMark
    claimed: LevelMark


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferLine:
    """A lot on the front page."""

    href: str
    title: str
    what: Markup
    number: str
    genotype: Fact


def offers_view(here: Here, _: str) -> OffersView:
    """Return the page of offers."""
    words, rows = here.words, _lots(here)
    now = [row for row in rows if _is_there(row)]
    opening = words("offers.none")
    if now:
        opening = words("offers.opening", number=len(now), n=len(now))
    return OffersView(
        frame=frame(
            here,
            heading=words("offers.heading"),
            section="offers",
            description=opening,
        ),
        opening=opening,
        lots=tuple(_card(here, row) for row in now),
        past=tuple(_past(here, row) for row in rows if not _is_there(row)),
        inferred=level_mark(words, Level.INFERRED),
        claimed=level_mark(words, Level.CLAIMED),
    )  # fmt: skip


def offer_lines(here: Here) -> tuple[OfferLine, ...]:
    """Return the lots that are to be had, for the front page."""
    return tuple(_line(here, row) for row in _lots(here) if _is_there(row))


def _lots(here: Here) -> list[LotRow]:
    """Return the lots whose offer may be shown, the newest first."""
    rows = [here.results.lot(name) for name in here.results.lots()]
    shown = [row for row in rows if here.event(row.event) is not None]
    return sorted(shown, key=lambda row: (row.when.latest, row.event), reverse=True)


def _is_there(row: LotRow) -> bool:
    return row.state in {LotState.OPEN, LotState.RESERVED}


def _rows(here: Here, row: LotRow) -> list[GroupRow]:
    """Return the rows of the groups that have a page."""
    names = [name for name in row.groups if here.site.address_of(name, ("group",))]
    return [here.results.group(name) for name in names]


def _what(here: Here, row: LotRow) -> Markup:
    """Say what they are: look, generation, group."""
    words = here.words
    told = []
    for group in _rows(here, row):
        label = generation_label(words, group.generation)
        look = _look(here, group)
        kind = "look" if look else "plain"
        told.append(
            words.rich("offer-what", pick=kind, look=look, generation=label,
                       group=here.group(group.group))
        )  # fmt: skip
    return list_text(words, told)


def _look(here: Here, group: GroupRow) -> str:
    if group.look is not None:
        return look_text(here.words, group.look)
    looks = {one.look for one in group.genotypes if one.probability > 0.0}
    return (looks.pop() or "") if len(looks) == 1 else ""


def _number(here: Here, row: LotRow) -> str:
    words = here.words
    told = [words("offer.number", number=row.left, n=count_text(words, row.left))]
    if row.reserved.high != 0:
        told.append(words("offer.promised", n=count_text(words, row.reserved)))
    return words("sentence.clause").join(told)


def _line(here: Here, row: LotRow) -> OfferLine:
    groups = _rows(here, row)
    claim = here.words.rich("genotype-unknown", pick="no-genotypes")
    return OfferLine(
        href=here.to(lot_address(row.lot)),
        title=row.lot,
        what=_what(here, row),
        number=_number(here, row),
        genotype=genotype_claim(here, groups[0])
        if groups
        else fact(here, claim, Level.INFERRED),
    )  # fmt: skip


def _card(here: Here, row: LotRow) -> LotCard:
    words = here.words
    number = words.rich("offer.offered", animals=_number(here, row),
                        when=when_text(words, row.when))  # fmt: skip
    shown = [
        picture
        for name in row.groups
        for picture in here.pictures.of_group(name)
    ]  # fmt: skip
    water = tuple(_water(here, row.tanks))
    return LotCard(
        mark=lot_mark(row.lot),
        heading=row.lot,
        state=words("lot-state", pick=row.state.value),
        number=fact(here, number, Level.INFERRED, row.events),
        note=row.note,
        groups=tuple(_group(here, group) for group in _rows(here, row)),
        water=water,
        water_none="" if water else words("offer.no-water"),
        pictures=gallery(here, shown[-_PICTURES_OF_A_LOT:]),
    )


def _group(here: Here, row: GroupRow) -> LotGroup:
    words = here.words
    label = generation_label(words, row.generation)
    says = generation_words(words, row.generation)
    generation = words.rich("group.generation", label=label, says=says)
    parents: tuple[Fact, ...] = ()
    cross = Markup("")
    if row.brood is not None:
        parents = tuple(
            parents_fact(here, side, found)
            for side, found in (("dams", row.brood.dams), ("sires", row.brood.sires))
        )
        cross = here.cross(row.brood.cross, words("group.to-table"))
    return LotGroup(
        name=here.group(row.group),
        look=_look(here, row) or words("look.unknown"),
        generation=fact(here, generation, Level.INFERRED),
        parents=parents,
        cross=cross,
        genotype=genotype_claim(here, row),
    )


def _water(here: Here, tanks: Iterable[str]) -> Iterable[Fact]:
    words = here.words
    for name in tanks:
        rows = here.results.tank(name).readings
        last = last_reading([one for one in rows if here.event(one.event) is not None])
        if last is not None:
            text = words.rich(
                "offer.water",
                tank=here.tank(name),
                when=when_text(words, last.when),
                readings=readings_text(here, last.readings),
            )
            yield fact(here, text, Level.OBSERVED, (last.event,))


def _past(here: Here, row: LotRow) -> PastLot:
    words = here.words
    offered = words("table.unknown") if row.offered is None else count_text(words, row.offered)
    return PastLot(
        mark=lot_mark(row.lot),
        heading=row.lot,
        groups=here.groups(row.groups),
        offered=offered,
        day=short_when_text(words, row.when),
        entry=here.event_entry(row.event),
        state=words("lot-state", pick=row.state.value),
    )
