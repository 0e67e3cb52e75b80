"""What the members of a group can carry, given everything that was counted and seen.

`PRIOR_LAW` says what follows from parents, looks and claims as they are recorded; `LAW` adds
what all counts of young tell, of parents, brood mates and everything related to them.
"""

from dataclasses import dataclass, replace

from filialog.analysis.carrier_pools import CARRIER_RECORD, KINDREDS, CarrierRecord
from filialog.analysis.looks import PRIOR_LAW, Law, united
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.rows import Assumption
from filialog.domain_error import DomainError
from filialog.genetics import GenotypeLaw
from filialog.genetics.carriers import Assumption as Taken
from filialog.genetics.carriers import (
    BroodOf,
    CarrierLaw,
    CarrierPool,
    ContradictoryEvidenceError,
    Parents,
    PoolShare,
    Posterior,
    TooLargeError,
    posterior,
)
from filialog.journal.events import EventId

__all__ = ["LAW", "POSTERIOR", "Kindred", "law_of_group"]

_SAME = 1e-9
"""Probabilities as near as this to those by descent are those: counts have not moved them."""

_MOST_ERROR = 0.005
"""Estimated error of an approximation beyond which it is not used."""

_TAKEN = {
    Taken.SOME_DRAWS: Assumption.APPROXIMATE,
    Taken.COMPLETE_SORTS: Assumption.COMPLETE_SORT,
}
"""What an answer from all evidence takes for granted besides what descent does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kindred:
    """What all evidence together says of the groups of a kindred."""

    found: Posterior | None
    """None where there is no evidence to add, or where it contradicts itself."""
    record: CarrierRecord
    contradiction: tuple[EventId, ...] = ()
    """The entries that cannot all be right."""
    number: Parents = Parents.ONE
    """How many parents a brood was taken to have where that is not known."""


def _posterior(reader: Reader, subject: str) -> Kindred:
    model_name, _, _ = subject.partition("/")
    model = reader.journal(f"trait model {model_name}").journal.traits[model_name].model
    record = reader.get(CARRIER_RECORD, subject)
    if not record.pieces:
        return Kindred(found=None, record=record)
    labels: tuple[str, ...] = ()
    # Of broods that can have one parent or several, one is taken unless that is impossible.
    for number in (Parents.ONE, Parents.SEVERAL):
        pools = tuple(_with_parents(pool, number) for pool in record.pools)
        try:
            found = posterior(model, pools, record.evidence, only_trees=True)
        except (DomainError, TooLargeError):
            # Numbers that do not fit together are findings of the book; what no tree holds would
            # take minutes to be approximated badly. Descent still holds.
            return Kindred(found=None, record=record)
        except ContradictoryEvidenceError as error:
            labels = labels or error.labels
        else:
            if found.error > _MOST_ERROR:
                return Kindred(found=None, record=record)
            return Kindred(found=found, record=record, number=number)
        if not any(_is_open(pool) for pool in record.pools):
            break
    events = dict.fromkeys(event for label in labels for event in record.pieces[label].events)
    return Kindred(found=None, record=record, contradiction=tuple(events))


def _is_open(pool: CarrierPool) -> bool:
    return isinstance(pool.origin, BroodOf) and (
        Parents.UNKNOWN in (pool.origin.mating, pool.origin.cloud)
    )


def _with_parents(pool: CarrierPool, number: Parents) -> CarrierPool:
    """Return a pool with one parent or several, where it is not known which."""
    if not isinstance(pool.origin, BroodOf) or not _is_open(pool):
        return pool
    origin = pool.origin
    mating = number if origin.mating is Parents.UNKNOWN else origin.mating
    cloud = number if origin.cloud is Parents.UNKNOWN else origin.cloud
    several = Parents.SEVERAL
    return replace(
        pool,
        origin=replace(
            origin,
            dams=_open_shares(origin.dams) if cloud is several else origin.dams,
            sires=_open_shares(origin.sires) if mating is several else origin.sires,
            mating=mating,
            cloud=cloud,
        ),
    )


def _open_shares(parents: tuple[PoolShare, ...]) -> tuple[PoolShare, ...]:
    return tuple(replace(one, share=None) for one in parents)


POSTERIOR: NodeKind[Kindred] = NodeKind("posterior", _posterior)
"""All evidence of a kindred together, subject `model/first group of the kindred`."""


def _law(reader: Reader, subject: str) -> Law:
    model_name, _, group = subject.partition("/")
    before = reader.get(PRIOR_LAW, subject)
    first = reader.get(KINDREDS, model_name)[group][0]
    kindred = reader.get(POSTERIOR, f"{model_name}/{first}")
    if kindred.contradiction:
        if before.law is None:
            return before
        return replace(
            before,
            contradiction=kindred.contradiction,
            assumptions=united(before.assumptions, (Assumption.COUNTS_LEFT_OUT,)),
        )
    if kindred.found is None or before.law is None:
        return before
    assumptions = tuple(one for one in before.assumptions if one is not Assumption.ONE_BY_ONE)
    after = kindred.found.law_of(group)
    if _same(before.law, after):
        return replace(before, assumptions=assumptions)
    taken = [_TAKEN[one] for one in kindred.found.assumptions if one in _TAKEN]
    if any(_is_open(pool) for pool in kindred.record.pools):
        one = kindred.number is Parents.ONE
        taken.append(Assumption.ONE_PARENT_TAKEN if one else Assumption.SEVERAL_PARENTS_TAKEN)
    if kindred.record.cut or not kindred.found.exact:
        taken.append(Assumption.APPROXIMATE)
    return replace(before, law=after.exact(), assumptions=united(assumptions, tuple(taken)))


LAW: NodeKind[Law] = NodeKind("genotypes", _law)
"""Genotypes of a member of a group given all evidence, subject `model/group`."""


def law_of_group(reader: Reader, model_name: str, group: str) -> Law:
    """Return what genotypes a member of a group can have under a model, given all evidence."""
    return reader.get(LAW, f"{model_name}/{group}")


def _same(before: GenotypeLaw, after: CarrierLaw) -> bool:
    known = {genotype: float(share) for genotype, share in before.probabilities}
    found = dict(after.probabilities)
    return all(
        abs(known.get(genotype, 0.0) - found.get(genotype, 0.0)) <= _SAME
        for genotype in {*known, *found}
    )
