"""All that is known of a group."""

from fractions import Fraction

from filialog.analysis.carrier_evidence import CARRIERS
from filialog.analysis.carriers import law_of_group
from filialog.analysis.composition import COMPOSITION, PARTS, look_of_group
from filialog.analysis.looks import MODEL, Law
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import (
    BROOD,
    BROODS_OF_CROSS,
    CROSSES_OF_GROUP,
    NAMED_CROSSES,
    SEXES,
)
from filialog.analysis.pedigrees import (
    COMPLETENESS,
    FOUNDER_SHARES,
    GENERATION,
    INBREEDING,
    LINES_OF_GROUP,
)
from filialog.analysis.rows import (
    Assumption,
    BookLine,
    BroodRow,
    CarrierRow,
    CrossRow,
    GenotypeRow,
    GroupRow,
)
from filialog.analysis.sources import MENTIONS, ORIGINS
from filialog.analysis.tallies import TALLIES
from filialog.genetics import (
    GenotypeLaw,
    TraitModel,
    genotype_rows,
    is_lethal,
    look_chances,
    pool_law,
)
from filialog.journal.ledger import Posting
from filialog.journal.parentage import ParentSet
from filialog.journal.quantities import When
from filialog.lineage import GenerationKind

__all__ = ["CROSS", "GROUP", "hidden_alleles", "is_prior"]


def _group(reader: Reader, group: str) -> GroupRow:
    origins = reader.get(ORIGINS, group)
    first = origins[0].event
    checked = reader.journal(f"group {group}")
    sexes = reader.get(SEXES).get(group)
    model_name = reader.get(MODEL, group)
    law = Law(law=None)
    genotypes: tuple[GenotypeRow, ...] = ()
    hidden: tuple[tuple[str, float], ...] = ()
    carriers: tuple[CarrierRow, ...] = ()
    if model_name is not None:
        model = checked.journal.traits[model_name].model
        law = law_of_group(reader, model_name, group)
        # Of animals of which nothing is known, the prior would read like a finding.
        if law.law is not None and not is_prior(law, model):
            genotypes = tuple(
                GenotypeRow(genotype=row.text, probability=float(row.probability), look=row.look)
                for row in genotype_rows(law.law, model)
            )
            hidden = hidden_alleles(law.law, model)
            carriers = reader.get(CARRIERS, f"{model_name}/{group}")
    generation = reader.get(GENERATION, group)
    inbreeding = reader.get(INBREEDING, group)
    assumptions = dict.fromkeys(law.assumptions)
    if generation.kind is not GenerationKind.FOUNDER:
        assumptions[Assumption.UNRELATED_FOUNDERS] = None
        assumptions[Assumption.DIFFERENT_ANIMALS] = None
    return GroupRow(
        group=group,
        origin=first.kind_name,
        origin_event=first.id,
        origin_when=first.when,
        origin_tank=first.tank,
        source=first.text("source"),
        seller_label=first.text("label"),
        from_groups=reader.get(COMPOSITION, group).sources,
        brood=_brood_behind(reader, group),
        colony=group in checked.book.colonies,
        look=look_of_group(reader, group),
        females=sexes.female_count if sexes is not None else None,
        males=sexes.male_count if sexes is not None else None,
        generation=generation,
        inbreeding=inbreeding,
        founder_shares=reader.get(FOUNDER_SHARES, group),
        genotypes=genotypes,
        genotypes_level=law.level,
        contradiction=law.contradiction,
        hidden=hidden,
        carriers=carriers,
        model=model_name,
        assumptions=tuple(assumptions),
        completeness=reader.get(COMPLETENESS, group),
        crosses=reader.get(CROSSES_OF_GROUP, group),
        parts=reader.get(PARTS, group),
        tallies=reader.get(TALLIES, group),
        book=tuple(_book_line(reader, posting) for posting in checked.book.postings.get(group, ())),
        mentions=reader.get(MENTIONS, group),
        lines=reader.get(LINES_OF_GROUP, group),
    )


GROUP: NodeKind[GroupRow] = NodeKind("group", _group)
"""All that is known of a group."""


def _brood_behind(reader: Reader, group: str) -> BroodRow | None:
    """Return the brood a group is, or is a part of; None for joined and founder groups."""
    seen: set[str] = set()
    while group not in seen:
        seen.add(group)
        brood = reader.get(BROOD, group)
        if brood is not None:
            return brood
        components = reader.get(COMPOSITION, group).components
        if len(components) != 1 or components[0].source is None:
            return None
        group = components[0].source
    return None


def is_prior(law: Law, model: TraitModel) -> bool:
    """Say whether nothing was put in but that alleles are equally frequent."""
    known = {Assumption.FOUNDER_GENOTYPE_CLAIMED, Assumption.FOUNDER_LOOK_ONLY}
    return not known & set(law.assumptions) and law.law == pool_law(model)


def hidden_alleles(law: GenotypeLaw, model: TraitModel) -> tuple[tuple[str, float], ...]:
    """Return alleles a member can carry unseen, with the probability that it does.

    An allele is hidden in a genotype whose look would be the same with a second copy of the
    other allele in its place. Where there is no second chromosome nothing can hide.
    """
    single = {
        position: {*locus.absent_from, *(locus.alleles if _is_sex(locus.name, model) else ())}
        for position, locus in enumerate(model.loci)
    }
    found: dict[str, Fraction] = {}
    for genotype, probability in law.probabilities:
        for position, (one, other) in enumerate(genotype):
            if one == other or {one, other} & single[position]:
                continue
            for hidden, shown in ((one, other), (other, one)):
                twin = (*genotype[:position], (shown, shown), *genotype[position + 1 :])
                if is_lethal(twin, model):
                    continue
                if look_chances(twin, model) == look_chances(genotype, model):
                    found[hidden] = found.get(hidden, Fraction(0)) + probability
    order = [allele for locus in model.loci for allele in locus.alleles]
    return tuple((allele, float(found[allele])) for allele in order if allele in found)


def _is_sex(locus: str, model: TraitModel) -> bool:
    return model.sex is not None and model.sex.locus == locus


def _book_line(reader: Reader, posting: Posting) -> BookLine:
    book = reader.journal(f"book of {posting.group}").book
    change = book.count(posting.change) if posting.change is not None else None
    return BookLine(
        event=posting.event,
        when=posting.when,
        kind_name=posting.kind_name,
        tank=posting.tank,
        to_tank=posting.to_tank,
        other_group=posting.other_group,
        change=None if posting.unaccounted else change,
        gained=posting.gained,
        after=book.count(posting.after),
        shared_with=posting.shared_with,
        unaccounted=change if posting.unaccounted else None,
    )


def _cross(reader: Reader, identifier: str) -> CrossRow:
    broods = [
        row
        for brood in reader.get(BROODS_OF_CROSS, identifier)
        if (row := reader.get(BROOD, brood)) is not None
    ]
    named = reader.get(NAMED_CROSSES).get(identifier)
    when = [row.when for row in broods]
    if named is not None:
        when.append(named.event.when)
    return CrossRow(
        identifier=identifier,
        name=named.name if named is not None else None,
        dams=_widest([row.dams for row in broods]),
        sires=_widest([row.sires for row in broods]),
        broods=tuple(row.group for row in broods),
        when=min(when, key=_earliest),
        generation=reader.get(GENERATION, broods[0].group),
    )


CROSS: NodeKind[CrossRow] = NodeKind("cross", _cross)
"""A cross with its broods."""


def _widest(sets: list[ParentSet]) -> ParentSet:
    """Return the parents of a cross: broods of one cross share them unless the book says more."""
    return max(sets, key=lambda one: len(one.groups))


def _earliest(when: When) -> str:
    return when.earliest.isoformat()
