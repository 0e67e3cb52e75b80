"""Which evidence moved the chance that animals carry an allele, and what would settle it."""

from collections.abc import Iterator
from fractions import Fraction

from filialog.analysis.carrier_pools import KINDREDS, Piece, PieceKind
from filialog.analysis.carriers import LAW, POSTERIOR, Kindred
from filialog.analysis.looks import PRIOR_LAW
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD
from filialog.analysis.rows import CarrierChange, CarrierRow, ClearingRow
from filialog.genetics import (
    ContradictionError,
    Genotype,
    GenotypeLaw,
    TraitModel,
    certain,
    cross,
    format_genotype,
    is_lethal,
    look_chances,
    young_to_clear,
)
from filialog.genetics.carriers import BroodOf, Change, Parents
from filialog.journal.events import EventId

__all__ = ["CARRIERS"]

_CONFIDENCES = (Fraction(95, 100), Fraction(99, 100), Fraction(999, 1000))

_SETTLED = Fraction(1, 1000)
"""Where the chance to carry is no more than that, no test cross is told of."""

_MOST_WORK = 600
"""Pools times pieces of evidence up to which each piece is taken out once to see what it did."""


def _carriers(reader: Reader, subject: str) -> tuple[CarrierRow, ...]:
    model_name, _, group = subject.partition("/")
    model = reader.journal(f"trait model {model_name}").journal.traits[model_name].model
    before, after = reader.get(PRIOR_LAW, subject).law, reader.get(LAW, subject).law
    if before is None or after is None:
        return ()
    kindred = reader.get(POSTERIOR, f"{model_name}/{reader.get(KINDREDS, model_name)[group][0]}")
    rows = []
    for position, locus in enumerate(model.loci):
        for allele in locus.alleles:
            chance = _having(after, position, allele)
            if not any(_hidden_pairs(before, position, allele, model)):
                continue
            changes: tuple[CarrierChange, ...] = ()
            if before != after:
                moved = (float(_having(before, position, allele)), float(chance))
                changes = _changes(reader, kindred, group, allele, moved)
            clearing = None
            if _SETTLED < chance < 1 and model.sex is None:
                clearing = _clearing(after, position, allele, model)
            if changes or clearing is not None:
                rows.append(
                    CarrierRow(
                        allele=allele,
                        before=float(_having(before, position, allele)),
                        chance=float(chance),
                        changes=changes,
                        clearing=clearing,
                    )
                )
    return tuple(rows)


CARRIERS: NodeKind[tuple[CarrierRow, ...]] = NodeKind("carriers", _carriers)
"""Alleles whose chance counts moved, or that are still open; subject `model/group`."""


def _having(law: GenotypeLaw, position: int, allele: str) -> Fraction:
    shares = (share for genotype, share in law.probabilities if allele in genotype[position])
    return sum(shares, Fraction(0))


def _twin(genotype: Genotype, position: int, allele: str) -> Genotype:
    return (*genotype[:position], (allele, allele), *genotype[position + 1 :])


def _shown_alike(one: Genotype, other: Genotype, model: TraitModel) -> bool:
    return not is_lethal(other, model) and look_chances(one, model) == look_chances(other, model)


def _hidden_pairs(
    law: GenotypeLaw, position: int, allele: str, model: TraitModel
) -> Iterator[tuple[Genotype, str]]:
    """Give genotypes that hide an allele, each with the allele that stands before it."""
    for genotype in law.genotypes():
        one, two = genotype[position]
        if one != two and allele in (one, two):
            shown = two if one == allele else one
            if _shown_alike(genotype, _twin(genotype, position, shown), model):
                yield genotype, shown


# --- what moved it --------------------------------------------------------------------------


def _changes(
    reader: Reader,
    kindred: Kindred,
    group: str,
    allele: str,
    moved: tuple[float, float],
) -> tuple[CarrierChange, ...]:
    """Return what each piece of evidence did; of all together where that is too much work."""
    record = kindred.record
    if kindred.found is None:
        return ()
    several = any(
        isinstance(pool.origin, BroodOf)
        and Parents.SEVERAL in (pool.origin.mating, pool.origin.cloud, kindred.number)
        for pool in record.pools
    )
    work = len(record.pools) * len(record.evidence) * (10 if several else 1)
    if work > _MOST_WORK:
        return (_all_together(reader, kindred, group, moved),)
    found = [
        (record.pieces[change.label], change) for change in kindred.found.explained(group, allele)
    ]
    if all(piece.kind is not PieceKind.TALLY for piece, _ in found):
        return ()
    return tuple(
        _change(reader, piece, change, group)
        for piece, change in found
        if piece.kind is not PieceKind.DESCENT
    )


def _all_together(
    reader: Reader, kindred: Kindred, group: str, moved: tuple[float, float]
) -> CarrierChange:
    """Return what all evidence did, with the counts of the group and of its own young."""
    events: dict[EventId, None] = {}
    for piece in kindred.record.pieces.values():
        row = reader.get(BROOD, piece.group) if piece.kind is PieceKind.TALLY else None
        if row is not None and group in (piece.group, *row.dams.groups, *row.sires.groups):
            events.update(dict.fromkeys(piece.events))
    return CarrierChange(
        kind="all",
        group=group,
        counts=(),
        mates=(),
        before=moved[0],
        after=moved[1],
        events=tuple(events),
    )


def _change(reader: Reader, piece: Piece, change: Change, group: str) -> CarrierChange:
    row = reader.get(BROOD, piece.group) if piece.counts else None
    mates: tuple[str, ...] = ()
    if row is not None and group in row.dams.groups:
        mates = row.sires.groups
    elif row is not None and group in row.sires.groups:
        mates = row.dams.groups
    return CarrierChange(
        kind=piece.kind.value,
        group=piece.group,
        counts=piece.counts,
        mates=mates,
        before=change.before,
        after=change.after,
        events=piece.events,
    )


# --- what would settle it -------------------------------------------------------------------


def _clearing(
    law: GenotypeLaw, position: int, allele: str, model: TraitModel
) -> ClearingRow | None:
    """Return the test cross with a mate that has the allele twice; None where it tells nothing."""
    worst: tuple[Fraction, Genotype, tuple[str, ...]] | None = None
    for genotype, shown in _hidden_pairs(law, position, allele, model):
        tester = _twin(genotype, position, allele)
        if is_lethal(tester, model):
            return None
        clear = _young_looks(_twin(genotype, position, shown), tester, model)
        carried = _young_looks(genotype, tester, model)
        told = tuple(look for look in carried if look not in clear)
        plain = 1 - sum((carried[look] for look in told), Fraction(0))
        if plain == 1:
            return None
        if worst is None or plain > worst[0]:
            worst = (plain, tester, told)
    if worst is None:
        return None
    plain, tester, told = worst
    return ClearingRow(
        tester=format_genotype(tester, model),
        looks=told,
        young=tuple(
            (float(one), young_to_clear(plain_if_carrier=plain, confidence=one).young)
            for one in _CONFIDENCES
        ),
    )


def _young_looks(one: Genotype, other: Genotype, model: TraitModel) -> dict[str, Fraction]:
    try:
        young = cross(certain(one), certain(other), model).young
    except ContradictionError:
        return {}
    found: dict[str, Fraction] = {}
    for genotype, share in young.probabilities:
        for look, chance in look_chances(genotype, model):
            if chance:
                found[look] = found.get(look, Fraction(0)) + share * chance
    return found
