"""What can be wrong with a trait model, found before it is used."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from filialog.genetics.chromosomes import genotype_count
from filialog.genetics.genotype_text import format_genotype
from filialog.genetics.model_tables import all_genotypes, living_genotypes
from filialog.genetics.showing import chances_or_none, is_lethal
from filialog.genetics.trait_model import (
    Condition,
    ConditionKind,
    Sex,
    TraitModel,
    looks_of_model,
)

__all__ = ["MOST_GENOTYPES", "ModelProblem", "ProblemKind", "model_problems"]

MOST_GENOTYPES = 10_000
"""A model with more of them is not computed."""


class ProblemKind(Enum):
    """What can be wrong with a trait model."""

    NO_LOCUS = "no locus"
    TOO_MANY_GENOTYPES = "too many genotypes"
    NO_ALLELE = "no allele"
    BAD_NAME = "name cannot be written"
    DUPLICATE_NAME = "duplicate name"
    UNKNOWN_LOCUS = "unknown locus"
    UNKNOWN_ALLELE = "unknown allele"
    WRONG_ALLELE_COUNT = "wrong number of alleles"
    UNKNOWN_LOOK = "unknown look"
    UNKNOWN_SEX = "unknown sex"
    UNKNOWN_CHROMOSOME = "unknown sex chromosome"
    BAD_SHARE = "share out of range"
    BAD_RECOMBINATION = "recombination out of range"
    LOCUS_IN_TWO_GROUPS = "locus in two groups"
    NOT_ON_SEX_CHROMOSOME = "locus apart from the sex chromosomes"
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
    problems = (
        *_name_problems(model),
        *_reference_problems(model),
        *_share_problems(model),
        *_linkage_problems(model),
    )
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


def _condition_sets(model: TraitModel) -> Iterator[tuple[Condition, ...]]:
    yield from (rule.conditions for rule in model.looks)
    yield from model.lethal
    yield from (entry.conditions for entry in model.viability)


def _reference_problems(model: TraitModel) -> Iterator[ModelProblem]:
    for conditions in _condition_sets(model):
        for condition in conditions:
            yield from _condition_problems(condition, model)
    looks = looks_of_model(model)
    for coarse in model.coarse:
        for look in coarse.looks:
            if look not in looks:
                yield ModelProblem(
                    kind=ProblemKind.UNKNOWN_LOOK,
                    subject=look,
                    detail=f"class `{coarse.name}` joins `{look}`, which is no look of the model",
                )


def _condition_problems(condition: Condition, model: TraitModel) -> Iterator[ModelProblem]:
    loci = {locus.name: locus for locus in model.loci}
    if condition.kind is ConditionKind.SEX:
        known = model.sex is not None and model.sex.locus == condition.locus
        if not known or condition.alleles not in {(sex.value,) for sex in Sex}:
            yield ModelProblem(
                kind=ProblemKind.UNKNOWN_SEX,
                subject=condition.locus,
                detail=f"`{' '.join(condition.alleles)}` can be asked of sex chromosomes only, "
                "as `female` or `male`",
            )
        return
    if condition.locus not in loci:
        yield ModelProblem(
            kind=ProblemKind.UNKNOWN_LOCUS,
            subject=condition.locus,
            detail=f"the model has no locus `{condition.locus}`",
        )
        return
    locus = loci[condition.locus]
    wanted = 2 if condition.kind is ConditionKind.IS else 1
    if len(condition.alleles) != wanted:
        yield ModelProblem(
            kind=ProblemKind.WRONG_ALLELE_COUNT,
            subject=condition.locus,
            detail=f"`{condition.kind.value}` at locus `{condition.locus}` names "
            f"{len(condition.alleles)} alleles instead of {wanted}",
        )
    carried = (*locus.alleles, *(locus.absent_from if wanted == 2 else ()))
    for allele in condition.alleles:
        if allele not in carried:
            yield ModelProblem(
                kind=ProblemKind.UNKNOWN_ALLELE,
                subject=allele,
                detail=f"locus `{condition.locus}` has no allele `{allele}`",
            )


def _share_problems(model: TraitModel) -> Iterator[ModelProblem]:
    for rule in model.looks:
        shares = [share for _, share in rule.others]
        if any(not 0 <= share <= 1 for share in shares) or sum(shares) > 1:
            yield ModelProblem(
                kind=ProblemKind.BAD_SHARE,
                subject=rule.look,
                detail=f"the shares of the looks beside `{rule.look}` are not 0 to 1 together",
            )
    for entry in model.viability:
        if not 0 <= entry.share <= 1:
            yield ModelProblem(
                kind=ProblemKind.BAD_SHARE,
                subject=" ".join(condition.locus for condition in entry.conditions),
                detail=f"a share of {entry.share} cannot live; it is 0 to 1",
            )


def _linkage_problems(model: TraitModel) -> Iterator[ModelProblem]:
    names = [locus.name for locus in model.loci]
    for name in _repeated(name for group in model.linkage for name in group.loci):
        yield ModelProblem(
            kind=ProblemKind.LOCUS_IN_TWO_GROUPS,
            subject=name,
            detail=f"locus `{name}` has more than one place in the linkage groups",
        )
    for group in model.linkage:
        for name in group.loci:
            if name not in names:
                yield ModelProblem(
                    kind=ProblemKind.UNKNOWN_LOCUS,
                    subject=name,
                    detail=f"the model has no locus `{name}`",
                )
        written = " ".join(group.loci)
        wanted = max(0, len(group.loci) - 1)
        for whose, fractions in (
            ("dams", group.dam_recombination),
            ("sires", group.sire_recombination),
        ):
            if len(fractions) != wanted:
                yield ModelProblem(
                    kind=ProblemKind.BAD_RECOMBINATION,
                    subject=written,
                    detail=f"`{written}` needs {wanted} recombination fractions in {whose}, "
                    f"one between each locus and the next, and has {len(fractions)}",
                )
            for fraction in fractions:
                if not 0 <= fraction <= Fraction(1, 2):
                    yield ModelProblem(
                        kind=ProblemKind.BAD_RECOMBINATION,
                        subject=written,
                        detail=f"a recombination fraction of {_decimal(fraction)} in {whose} "
                        "cannot be; it is 0 to 0.5",
                    )
    yield from _sex_problems(model)


def _decimal(fraction: Fraction) -> str:
    return f"{float(fraction):.6g}"


def _sex_problems(model: TraitModel) -> Iterator[ModelProblem]:
    chromosomes: tuple[str, ...] = ()
    linked: tuple[str, ...] = ()
    if model.sex is not None:
        sex_locus = model.sex.locus
        chromosomes = next((one.alleles for one in model.loci if one.name == sex_locus), ())
        linked = next((one.loci for one in model.linkage if sex_locus in one.loci), ())
        if not chromosomes:
            yield ModelProblem(
                kind=ProblemKind.UNKNOWN_LOCUS,
                subject=sex_locus,
                detail=f"the model has no locus `{sex_locus}`",
            )
    for locus in model.loci:
        for chromosome in locus.absent_from:
            if chromosome not in chromosomes:
                yield ModelProblem(
                    kind=ProblemKind.UNKNOWN_CHROMOSOME,
                    subject=locus.name,
                    detail=f"locus `{locus.name}` names `{chromosome}`, which is no sex "
                    "chromosome of the model",
                )
        if locus.absent_from and chromosomes and locus.name not in linked:
            yield ModelProblem(
                kind=ProblemKind.NOT_ON_SEX_CHROMOSOME,
                subject=locus.name,
                detail=f"locus `{locus.name}` lies on a sex chromosome and has no place in its "
                "linkage group",
            )


def _look_problems(model: TraitModel) -> Iterator[ModelProblem]:
    number = genotype_count(model)
    if number > MOST_GENOTYPES:
        yield ModelProblem(
            kind=ProblemKind.TOO_MANY_GENOTYPES,
            subject=model.name,
            detail=f"the loci give {number} genotypes; at most {MOST_GENOTYPES} are computed",
        )
        return
    living = tuple(g for g in all_genotypes(model) if not is_lethal(g, model))
    if not living_genotypes(model):
        yield ModelProblem(
            kind=ProblemKind.ALL_LETHAL,
            subject=model.name,
            detail="every genotype of the model is lethal",
        )
        return
    shown = {genotype: chances_or_none(genotype, model) for genotype in living}
    seen = {look for genotype in living_genotypes(model) for look, _ in shown[genotype] or ()}
    for look in looks_of_model(model):
        if look not in seen:
            yield ModelProblem(
                kind=ProblemKind.LOOK_NOT_SHOWN,
                subject=look,
                detail=f"no living genotype shows `{look}`",
            )
    for genotype in living:
        if shown[genotype] is None:
            written = format_genotype(genotype, model)
            yield ModelProblem(
                kind=ProblemKind.GENOTYPE_WITHOUT_LOOK,
                subject=written,
                detail=f"no look rule fits genotype `{written}`",
            )
