"""What can be wrong with a trait model, found before it is used."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from filialog.genetics.trait_model import (
    ConditionKind,
    TraitModel,
    living_genotypes,
    look_or_none,
    looks_of_model,
)

__all__ = ["ModelProblem", "ProblemKind", "model_problems"]


class ProblemKind(Enum):
    """What can be wrong with a trait model."""

    NO_LOCUS = "no locus"
    NO_ALLELE = "no allele"
    BAD_NAME = "name cannot be written"
    DUPLICATE_NAME = "duplicate name"
    UNKNOWN_LOCUS = "unknown locus"
    UNKNOWN_ALLELE = "unknown allele"
    WRONG_ALLELE_COUNT = "wrong number of alleles"
    UNKNOWN_LOOK = "unknown look"
    LOOK_NOT_SHOWN = "look not shown"
    GENOTYPE_WITHOUT_LOOK = "genotype without look"
    ALL_LETHAL = "all genotypes lethal"


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelProblem:
    """One thing that is wrong with a trait model."""

    kind: ProblemKind
    """What is wrong."""

    subject: str
    """The name or genotype concerned."""

    detail: str
    """The fault in one sentence, lower case, without full stop."""


def model_problems(model: TraitModel) -> tuple[ModelProblem, ...]:
    """Return everything that is wrong with a model, in a fixed order.

    Looks and genotypes are held against one another only when all names are right.

    Parameters
    ----------
    model
        Any model.

    Returns
    -------
    tuple of ModelProblem
        Empty when the other functions of this room may be used with the model.

    Examples
    --------
    >>> from filialog.genetics.trait_model import Condition, Locus, LookRule
    >>> eye = Locus(name="eye", alleles=("O", "o"))
    >>> orange = Condition(locus="eye", kind=ConditionKind.HOM, alleles=("o",))
    >>> model = TraitModel(
    ...     name="eye", loci=(eye,), looks=(LookRule(look="orange", conditions=(orange,)),)
    ... )
    >>> [problem.detail for problem in model_problems(model)]
    ['no look rule fits genotype `O/O`', 'no look rule fits genotype `O/o`']
    """
    problems = tuple(_name_problems(model)) + tuple(_reference_problems(model))
    return problems or tuple(_look_problems(model))


def _repeated(names: Iterator[str]) -> list[str]:
    return [name for name, times in Counter(names).items() if times > 1]


def _name_problems(model: TraitModel) -> Iterator[ModelProblem]:
    if not model.loci:
        yield ModelProblem(
            kind=ProblemKind.NO_LOCUS, subject=model.name, detail="the model has no locus"
        )
    for name in _repeated(locus.name for locus in model.loci):
        yield ModelProblem(
            kind=ProblemKind.DUPLICATE_NAME,
            subject=name,
            detail=f"locus `{name}` is declared more than once",
        )
    for locus in model.loci:
        if not locus.alleles:
            yield ModelProblem(
                kind=ProblemKind.NO_ALLELE,
                subject=locus.name,
                detail=f"locus `{locus.name}` has no allele",
            )
        for allele in dict.fromkeys(locus.alleles):
            if allele in {"", "-"} or "/" in allele or allele.split() != [allele]:
                yield ModelProblem(
                    kind=ProblemKind.BAD_NAME,
                    subject=allele,
                    detail=f"allele `{allele}` cannot be written in a genotype: a name has "
                    "no space and no `/`, and `-` stands for any allele",
                )
    # Genotypes are written by alleles alone, so a name must tell its locus.
    for name in _repeated(allele for locus in model.loci for allele in locus.alleles):
        yield ModelProblem(
            kind=ProblemKind.DUPLICATE_NAME,
            subject=name,
            detail=f"allele `{name}` is declared more than once",
        )
    classes = (*looks_of_model(model), *(coarse.name for coarse in model.coarse))
    for name in _repeated(iter(classes)):
        yield ModelProblem(
            kind=ProblemKind.DUPLICATE_NAME,
            subject=name,
            detail=f"`{name}` names more than one look or class of looks",
        )


def _reference_problems(model: TraitModel) -> Iterator[ModelProblem]:
    alleles = {locus.name: locus.alleles for locus in model.loci}
    for conditions in (*(rule.conditions for rule in model.looks), *model.lethal):
        for condition in conditions:
            if condition.locus not in alleles:
                yield ModelProblem(
                    kind=ProblemKind.UNKNOWN_LOCUS,
                    subject=condition.locus,
                    detail=f"the model has no locus `{condition.locus}`",
                )
                continue
            wanted = 2 if condition.kind is ConditionKind.IS else 1
            if len(condition.alleles) != wanted:
                yield ModelProblem(
                    kind=ProblemKind.WRONG_ALLELE_COUNT,
                    subject=condition.locus,
                    detail=f"`{condition.kind.value}` at locus `{condition.locus}` names "
                    f"{len(condition.alleles)} alleles instead of {wanted}",
                )
            for allele in condition.alleles:
                if allele not in alleles[condition.locus]:
                    yield ModelProblem(
                        kind=ProblemKind.UNKNOWN_ALLELE,
                        subject=allele,
                        detail=f"locus `{condition.locus}` has no allele `{allele}`",
                    )
    looks = looks_of_model(model)
    for coarse in model.coarse:
        for look in coarse.looks:
            if look not in looks:
                yield ModelProblem(
                    kind=ProblemKind.UNKNOWN_LOOK,
                    subject=look,
                    detail=f"class `{coarse.name}` joins `{look}`, which is no look of the model",
                )


def _look_problems(model: TraitModel) -> Iterator[ModelProblem]:
    living = living_genotypes(model)
    if not living:
        yield ModelProblem(
            kind=ProblemKind.ALL_LETHAL,
            subject=model.name,
            detail="every genotype of the model is lethal",
        )
        return
    shown = {genotype: look_or_none(genotype, model) for genotype in living}
    for look in looks_of_model(model):
        if look not in shown.values():
            yield ModelProblem(
                kind=ProblemKind.LOOK_NOT_SHOWN,
                subject=look,
                detail=f"no living genotype shows `{look}`",
            )
    for genotype in living:
        if shown[genotype] is None:
            written = " ".join("/".join(pair) for pair in genotype)
            yield ModelProblem(
                kind=ProblemKind.GENOTYPE_WITHOUT_LOOK,
                subject=written,
                detail=f"no look rule fits genotype `{written}`",
            )
