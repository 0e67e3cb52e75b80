"""What was seen or declared of pools: the pieces of evidence."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.genetics.carriers.pools import CarrierPool
from filialog.genetics.trait_model import Genotype, TraitModel, looks_in_class

__all__ = ["Declared", "Evidence", "SeenLook", "TallyEvidence"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TallyEvidence:
    """A count by look of animals of one pool. Each animal enters one tally only."""

    label: str
    """Name by which contradictions and explanations call it."""
    pool: str
    """The pool, as it was before anything was taken from it."""
    looks: tuple[tuple[str, int], ...]
    """Looks or classes of looks, each with its count, 0 or more. Among the animals
    counted here every look that is not listed was seen 0 times."""
    unsorted: int = 0
    """Animals counted but not classified: compatible with every look. They make the pool
    no smaller and tell nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Declared:
    """All animals of a pool have one of some genotypes."""

    label: str
    """Name by which contradictions and explanations call it."""
    pool: str
    """The pool or animal."""
    genotypes: tuple[Genotype, ...]
    """The genotypes, such as `parse_genotype` returns."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenLook:
    """All animals of a pool show a look."""

    label: str
    """Name by which contradictions and explanations call it."""
    pool: str
    """The pool or animal."""
    look: str
    """A look, or a class of looks."""


Evidence = TallyEvidence | Declared | SeenLook


def check_evidence(
    evidence: Iterable[Evidence], pools: Mapping[str, CarrierPool], model: TraitModel
) -> tuple[Evidence, ...]:
    """Return the pieces in the order of their labels; a DomainError where one does not fit."""
    found = tuple(sorted(evidence, key=lambda piece: piece.label))
    labels = [piece.label for piece in found]
    if len(set(labels)) != len(labels):
        twice = next(label for label in labels if labels.count(label) > 1)
        raise DomainError("label", twice, "one that no other piece of evidence has")
    for piece in found:
        if piece.pool not in pools:
            raise DomainError(f"pool of {piece.label}", piece.pool, "a pool that is listed")
        match piece:
            case SeenLook(look=look):
                looks_in_class(look, model)
            case TallyEvidence():
                _check_tally(piece, pools[piece.pool].size, model)
            case Declared(genotypes=genotypes):
                for genotype in genotypes:
                    names = [len(pair) for pair in genotype]
                    if names != [2] * len(model.loci):
                        raise DomainError(
                            f"genotype of {piece.label}", genotype, "one of the model"
                        )
    return found


def _check_tally(tally: TallyEvidence, size: int | None, model: TraitModel) -> None:
    for look, count in tally.looks:
        looks_in_class(look, model)
        if not count >= 0:
            raise DomainError(f"count of {look} in {tally.label}", count, "0 or more")
    if not tally.unsorted >= 0:
        raise DomainError(f"unsorted of {tally.label}", tally.unsorted, "0 or more")
    counted = sum(count for _, count in tally.looks) + tally.unsorted
    if size is not None and counted > size:
        raise DomainError(f"count of {tally.label}", counted, f"at most {size}")
