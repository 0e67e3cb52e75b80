"""A group's page: where it comes from, what it can hide, what became of it."""

from dataclasses import dataclass

from markupsafe import Markup, escape

from filialog.analysis.rows import BroodRow, GroupRow, Level
from filialog.journal.events import EventId
from filialog.journal.quantities import Count
from filialog.journal.records import GroupPage
from filialog.lineage import GenerationKind, LabelVerdict, seller_label_conflict
from filialog.messages import (
    chance_text,
    count_text,
    decimal_text,
    list_text,
    share_text,
    short_when_text,
    when_text,
)
from filialog.pages.addresses import relatives_address
from filialog.pages.book import BookEntry, TallyLine, book_lines, tally_lines
from filialog.pages.carriers import CarrierView, carrier_views
from filialog.pages.gallery import PictureView, gallery
from filialog.pages.here import Here, References
from filialog.pages.parent_claims import parents_fact
from filialog.pages.parts import (
    Fact,
    Frame,
    LevelMark,
    LinkedRun,
    capital,
    fact,
    frame,
    generation_label,
    generation_words,
    is_half_sided,
    is_misfit,
    level_mark,
    look_text,
    mention_links,
    parents_html,
)
from filialog.pages.pedigree import PedigreeView, pedigree_view
from filialog.pages.prose import paths_in, prose_html
from filialog.pages.strays import stray_facts
from filialog.pages.tables import assumption_sentences, coefficient_span, verdict_text

__all__ = ["GroupView", "group_now", "group_opening", "group_title", "group_view", "is_carrier"]

_VERDICTS = {
    LabelVerdict.CLAIMS_NOTHING: "quoted",
    LabelVerdict.CANNOT_SAY: "open",
    LabelVerdict.AGREES: "agrees",
    LabelVerdict.OTHER_NUMBER: "other-number",
    LabelVerdict.OTHER_CROSS: "other-cross",
}


_TOLD_GENERATIONS = 3
"""Generations of ancestors whose completeness is told one by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberLine:
    """A name and its number."""

    name: Markup
    look: str
    number: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossUse:
    """A cross the group took part in."""

    cross: Markup
    generation: str
    broods: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupView:
    """Everything a group's page shows."""

    frame: Frame
    opening: Fact
    now: str
    generation: Fact
    label: Fact | None
    """What the seller called them, and whether that agrees."""
    strain: str
    prose: Markup
    parents: tuple[Fact, ...]
    mating: str
    verdict: Fact | None
    doubt: str
    """What a count that does not fit means for all that follows from the parents."""
    look: Fact | None
    half_sided: str
    """What a look of two halves says; empty for all other animals."""
    strays: tuple[Fact, ...]
    pictures: tuple[PictureView, ...]
    sexes: str
    """What is recorded of the sexes; empty where nothing is."""
    hidden: tuple[str, ...]
    carriers: tuple[CarrierView, ...]
    """What moved the chance to have an allele, and what would settle it."""
    contradiction: Fact | None
    genotypes: tuple[NumberLine, ...]
    genotypes_level: LevelMark
    genotypes_none: str
    genotypes_references: References
    assumptions: tuple[str, ...]
    pedigree: PedigreeView | None
    relatives: Markup
    """Link to the page that says how the group is related to the others."""
    founders: tuple[NumberLine, ...]
    completeness: str
    """How far back the record of its ancestors goes; empty for founders."""
    inbreeding: Fact
    observed: LevelMark
    inferred: LevelMark
    claimed: LevelMark
    crosses: tuple[CrossUse, ...]
    tallies: tuple[TallyLine, ...]
    book: tuple[BookEntry, ...]
    parts: Markup
    lines: Markup
    mentions: LinkedRun


def group_title(here: Here, name: str) -> str:
    """Return a group's name as shown."""
    page = here.results.journal.groups.get(name)
    return page.title if page is not None and page.title else name


def is_carrier(row: GroupRow) -> bool:
    """Say whether a group can hide alleles."""
    return not is_half_sided(row) and any(probability > 0.0 for _, probability in row.hidden)


def group_view(here: Here, subject: str) -> GroupView:
    """Return a group's page."""
    words, row = here.words, here.results.group(subject)
    page = here.results.journal.groups.get(subject)
    opening = group_opening(here, row)
    inbreeding = words.rich("inbreeding.unknown")
    if row.inbreeding is not None:
        low, high = row.inbreeding.low, row.inbreeding.high
        span = coefficient_span(words, low, high)
        inbreeding = words.rich("inbreeding", f=span)
        if span != coefficient_span(words, high, high):
            inbreeding = words.rich("inbreeding.range", f=span)
    label = generation_label(words, row.generation, carrier=is_carrier(row))
    code = words.rich("group.generation", label=label,
                      says=generation_words(words, row.generation))  # fmt: skip
    return GroupView(
        frame=frame(
            here,
            heading=group_title(here, subject),
            section="groups",
            description=opening.striptags(),
        ),
        opening=fact(here, opening, Level.OBSERVED, (row.origin_event,)),
        now=group_now(here, row),
        generation=fact(here, code, Level.INFERRED),
        label=_seller_label(here, row),
        strain=words("group.strain", strain=page.strain) if page and page.strain else "",
        prose=Markup("") if page is None else prose_html(here, page.prose),
        parents=_parents(here, row),
        mating=words("mating", pick=row.brood.mating) if row.brood else "",
        verdict=None if is_half_sided(row) else _verdict(here, row.brood),
        doubt=words("group.doubt") if is_misfit(here, row) and not is_half_sided(row) else "",
        look=_look(here, row),
        half_sided=words("group.half-sided") if is_half_sided(row) else "",
        strays=stray_facts(here, here.results.strays(subject)),
        pictures=gallery(
            here,
            here.pictures.of_group(subject),
            without=() if page is None else paths_in([page.prose]),
        ),
        sexes=_sexes(here, row, page),
        hidden=_hidden(here, row),
        carriers=carrier_views(here, row),
        contradiction=_contradiction(here, row),
        genotypes=tuple(
            NumberLine(
                name=escape(genotype.genotype),
                look=genotype.look or words("look.unknown"),
                number=chance_text(words, genotype.probability),
            )
            for genotype in row.genotypes
            if genotype.probability > 0.0 and not is_half_sided(row)
        ),
        genotypes_level=level_mark(words, row.genotypes_level),
        genotypes_none=_why_no_genotypes(here, row),
        genotypes_references=here.references(_evidence(row)),
        assumptions=assumption_sentences(words, row.assumptions),
        pedigree=pedigree_view(here, subject),
        relatives=here.link(
            words("relatives.link", group=subject), relatives_address(subject)
        ),
        founders=tuple(
            NumberLine(
                name=words.rich("parents.unknown") if share.founder is None
                else here.group(share.founder),
                look="",
                number=share_text(words, share.share),
            )
            for share in row.founder_shares
        ),
        completeness=_completeness(here, row),
        inbreeding=fact(here, inbreeding, Level.INFERRED),
        observed=level_mark(words, Level.OBSERVED),
        inferred=level_mark(words, Level.INFERRED),
        claimed=level_mark(words, Level.CLAIMED),
        crosses=tuple(_cross_use(here, cross) for cross in row.crosses),
        tallies=tally_lines(here, row.tallies),
        book=book_lines(here, row.book),
        parts=words.rich("group.parts", groups=here.groups(row.parts)) if row.parts else Markup(""),
        lines=_lines(here, row.lines),
        mentions=mention_links(here, row.mentions),
    )  # fmt: skip


def group_opening(here: Here, row: GroupRow) -> Markup:
    """Say in one sentence what a group is and where it comes from."""
    return capital(_opening(here, row))


def _opening(here: Here, row: GroupRow) -> Markup:
    words = here.words
    count = _first_count(row)
    young = row.brood is not None and row.brood.group == row.group
    noun = words("noun", pick="young" if young else "animal", number=2 if count is None else count)
    n = words("group.some") if count is None else count_text(words, count)
    when, kind = when_text(words, row.origin_when), row.origin
    if here.event(row.origin_event) is None:
        return words.rich("group-opening", pick="hidden", n=n, noun=noun)
    place = here.tank(row.origin_tank) if row.origin_tank else None
    where = words.rich("group.where", tank=place) if place is not None else Markup("")
    if young and row.brood is not None:
        return words.rich(
            "group-opening",
            pick="hatched",
            n=n,
            generation=_short_generation(here, row),
            dams=parents_html(here, row.brood.dams),
            sires=parents_html(here, row.brood.sires),
            when=when,
            where=where,
        )
    source = words("group.source", source=row.source) if row.source else ""
    if row.from_groups and kind in {"sorted", "moved", "chosen", "joined"}:
        look = ""
        if row.look is not None:
            sides = "halves" if is_half_sided(row) else "whole"
            look = words("group-as-look", pick=sides, look=look_text(words, row.look))
        groups = here.groups(row.from_groups)
        generation = _kind_of_animals(here, row, noun)
        return words.rich("group-opening", pick=kind, n=n, generation=generation, groups=groups,
                          look=look, when=when, where=where)  # fmt: skip
    pick = kind if kind in {"present", "bought"} else "appeared"
    return words.rich("group-opening", pick=pick, n=n, noun=noun, source=source, when=when,
                      where=where)  # fmt: skip


def group_now(here: Here, row: GroupRow) -> str:
    """Say how many are on the book after its last line."""
    if not row.book:
        return ""
    words, last = here.words, row.book[-1]
    n = count_text(words, last.after)
    if here.event(last.event) is None:
        return words("group.now-undated", n=n)
    if last.after.high == 0:
        return words("group.now-none", day=short_when_text(words, last.when))
    day = short_when_text(words, last.when)
    return words("group.now", n=n, day=day)


def _first_count(row: GroupRow) -> Count | None:
    if row.brood is not None and row.brood.group == row.group and row.brood.count is not None:
        return row.brood.count
    return next((line.change for line in row.book if line.gained and line.change), None)


def _kind_of_animals(here: Here, row: GroupRow, noun: str) -> str:
    """Name animals with their generation, such as `BC1 animals`; founders are just animals."""
    known = row.generation.is_simple and row.generation.kind is not GenerationKind.FOUNDER
    label = generation_label(here.words, row.generation)
    return here.words("group-kind", pick="known" if known else "open", label=label, noun=noun)


def _short_generation(here: Here, row: GroupRow) -> str:
    label = generation_label(here.words, row.generation)
    key = "known" if row.generation.is_simple else "open"
    return here.words("group-young", pick=key, label=label)


def _seller_label(here: Here, row: GroupRow) -> Fact | None:
    if row.seller_label is None:
        return None
    words = here.words
    pick = _VERDICTS[seller_label_conflict(row.seller_label, row.generation)]
    code = generation_label(words, row.generation)
    text = words.rich("seller-label", pick=pick, label=row.seller_label, code=code)
    return fact(here, text, Level.CLAIMED, (row.origin_event,))


def _parents(here: Here, row: GroupRow) -> tuple[Fact, ...]:
    if row.brood is None:
        return ()
    return (
        parents_fact(here, "dams", row.brood.dams),
        parents_fact(here, "sires", row.brood.sires),
    )


def _verdict(here: Here, brood: BroodRow | None) -> Fact | None:
    """Return the verdict on the looks of the brood, with a link to the whole table."""
    if brood is None:
        return None
    found = here.results.table(brood.group).table
    if found is None:
        return None
    words = here.words
    text = words.rich(
        "group.verdict",
        verdict=verdict_text(words, found),
        cross=here.cross(brood.cross, words("group.to-table")),
    )
    return fact(here, text, Level.INFERRED, found.events)


def _look(here: Here, row: GroupRow) -> Fact | None:
    looks = {genotype.look for genotype in row.genotypes if genotype.probability > 0.0}
    if row.look is None and len(looks) == 1 and (only := looks.pop()) is not None:
        text = here.words.rich("group.look-inferred", look=here.look(only))
        return fact(here, text, row.genotypes_level, _evidence(row))
    if row.look is None:
        return None
    look = look_text(here.words, row.look)
    named = escape(look) if row.look.whole is None else here.look(row.look.whole)
    text = here.words.rich("group.look", look=named)
    return fact(here, text, Level.OBSERVED, (row.origin_event,))


def _sexes(here: Here, row: GroupRow, page: GroupPage | None) -> str:
    """Say what is recorded of the sexes."""
    words = here.words
    if page is not None and page.sex is not None:
        return words("group.sex", pick=page.sex)
    written = [
        words("group.of-sex", pick=sex, number=count, n=count_text(words, count))
        for sex, count in (("female", row.females), ("male", row.males))
        if count is not None
    ]
    return words("group.sexes", sexes=list_text(words, written)) if written else ""


def _hidden(here: Here, row: GroupRow) -> tuple[str, ...]:
    """Say what a member can carry unseen; nothing where no genotype is known."""
    words = here.words
    if is_half_sided(row):
        return ()
    if row.genotypes and not is_carrier(row):
        return (words("group.hides-nothing"),)
    return tuple(
        words("group.hides", allele=allele, chance=chance_text(words, probability))
        for allele, probability in row.hidden
    )


def _why_no_genotypes(here: Here, row: GroupRow) -> str:
    if is_half_sided(row):
        return ""
    return here.words("group.no-genotypes") if row.model else here.words("group.no-model")


def _contradiction(here: Here, row: GroupRow) -> Fact | None:
    if not row.contradiction:
        return None
    text = here.words.rich("group.contradiction")
    if row.genotypes:
        text = here.words.rich("group.contradiction-of-counts")
    return fact(here, text, Level.INFERRED, row.contradiction)


def _lines(here: Here, lines: tuple[str, ...]) -> Markup:
    if not lines:
        return Markup("")
    named = list_text(here.words, [here.line(name) for name in lines])
    return here.words.rich("group.lines", lines=named)


def _evidence(row: GroupRow) -> tuple[EventId, ...]:
    """Return the events that the genotypes rest on: origin, and parents."""
    found = [row.origin_event]
    if row.brood is not None:
        found.extend((row.brood.event, *row.brood.dams.events, *row.brood.sires.events))
    return tuple(found)


def _cross_use(here: Here, identifier: str) -> CrossUse:
    words, row = here.words, here.results.cross(identifier)
    broods = here.groups(row.broods) if row.broods else words.rich("cross.no-broods")
    return CrossUse(
        cross=here.cross(identifier),
        generation=generation_label(words, row.generation),
        broods=broods,
    )


def _completeness(here: Here, row: GroupRow) -> str:
    """Say how far back the record goes; nothing for founders, whose pages say so."""
    words, found = here.words, row.completeness
    if not found.equivalent_generations:
        return ""
    told = [
        words("completeness-of", pick=str(back), share=share_text(words, share, whole=True))
        for back, share in enumerate(found.known, start=1)
        if back <= _TOLD_GENERATIONS and (share or back == 1)
    ]
    generations = decimal_text(words, found.equivalent_generations, decimals=2)
    return words("completeness", known=list_text(words, told), n=generations)
