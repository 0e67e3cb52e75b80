"""What a genotype does: whether conditions hold, how many live, which looks are shown."""

from fractions import Fraction

from filialog.domain_error import DomainError
from filialog.genetics.trait_model import (
    Condition,
    ConditionKind,
    Genotype,
    Sex,
    ShownBy,
    TraitModel,
)

__all__ = [
    "chances_or_none",
    "genotype_words",
    "is_lethal",
    "look_chances",
    "sex_of",
    "sure_look",
    "survival",
]


def sex_of(genotype: Genotype, model: TraitModel) -> Sex | None:
    """Return the sex that a genotype makes; None in a model without sex chromosomes."""
    if model.sex is None:
        return None
    for locus, pair in zip(model.loci, genotype, strict=True):
        if locus.name == model.sex.locus:
            return Sex.FEMALE if _either_way(pair, model.sex.female) else Sex.MALE
    return None


def _either_way(pair: tuple[str, str], pairs: tuple[tuple[str, str], ...]) -> bool:
    return pair in pairs or pair[::-1] in pairs


def _holds(condition: Condition, pair: tuple[str, str], sex: Sex | None) -> bool:
    match condition.kind:
        case ConditionKind.HAS:
            return condition.alleles[0] in pair
        case ConditionKind.LACKS:
            return condition.alleles[0] not in pair
        case ConditionKind.HOM:
            return pair == (condition.alleles[0], condition.alleles[0])
        case ConditionKind.IS:
            return pair in {condition.alleles, condition.alleles[::-1]}
        case ConditionKind.SEX:
            return sex is not None and condition.alleles[0] == sex.value


def _all_hold(conditions: tuple[Condition, ...], genotype: Genotype, model: TraitModel) -> bool:
    at = {locus.name: pair for locus, pair in zip(model.loci, genotype, strict=True)}
    sex = sex_of(genotype, model)
    return all(_holds(condition, at[condition.locus], sex) for condition in conditions)


def survival(genotype: Genotype, model: TraitModel) -> Fraction:
    """Return which share of the animals of a genotype lives to be seen, 0 to 1.

    Examples
    --------
    >>> from filialog.genetics.trait_model import Locus, Viability
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> weak = Condition(locus="gene", kind=ConditionKind.HOM, alleles=("a",))
    >>> half = Viability(conditions=(weak,), share=Fraction(1, 2))
    >>> model = TraitModel(name="one", loci=(gene,), looks=(), viability=(half,))
    >>> survival((("a", "a"),), model), survival((("A", "a"),), model)
    (Fraction(1, 2), Fraction(1, 1))
    """
    if any(_all_hold(conditions, genotype, model) for conditions in model.lethal):
        return Fraction(0)
    share = Fraction(1)
    for entry in model.viability:
        if _all_hold(entry.conditions, genotype, model):
            share *= entry.share
    return share


def is_lethal(genotype: Genotype, model: TraitModel) -> bool:
    """Tell whether all animals of this genotype die before they can be seen."""
    return survival(genotype, model) == 0


def look_chances(genotype: Genotype, model: TraitModel) -> tuple[tuple[str, Fraction], ...]:
    """Return the looks that a genotype gives, with their probabilities.

    Parameters
    ----------
    genotype
        A genotype of the model: the animal's own, or that of its dam where the model
        is shown by the dam.
    model
        A model without problems, see `model_problems`.

    Returns
    -------
    tuple of (look, probability)
        Above 0 and together 1, by the first rule whose conditions all hold: one look,
        or several where penetrance is incomplete.

    Raises
    ------
    DomainError
        If no rule fits.

    Examples
    --------
    >>> from filialog.genetics.trait_model import Locus, LookRule
    >>> eye = Locus(name="eye", alleles=("O", "o"))
    >>> orange = Condition(locus="eye", kind=ConditionKind.HOM, alleles=("o",))
    >>> rules = (
    ...     LookRule(look="orange", conditions=(orange,), others=(("dark", Fraction(1, 5)),)),
    ...     LookRule(look="dark"),
    ... )
    >>> model = TraitModel(name="eye", loci=(eye,), looks=rules)
    >>> look_chances((("O", "o"),), model)
    (('dark', Fraction(1, 1)),)
    >>> look_chances((("o", "o"),), model)
    (('orange', Fraction(4, 5)), ('dark', Fraction(1, 5)))
    """
    chances = chances_or_none(genotype, model)
    if chances is None:
        raise DomainError("genotype", genotype_words(genotype), "one that a look rule fits")
    return chances


def chances_or_none(
    genotype: Genotype, model: TraitModel
) -> tuple[tuple[str, Fraction], ...] | None:
    """Return the looks that a genotype gives with their probabilities, None without a rule."""
    for rule in model.looks:
        if _all_hold(rule.conditions, genotype, model):
            rest = 1 - sum((share for _, share in rule.others), Fraction(0))
            chances: dict[str, Fraction] = {}
            for look, share in ((rule.look, rest), *rule.others):
                if share:
                    chances[look] = chances.get(look, Fraction(0)) + share
            return tuple(chances.items())
    return None


def sure_look(genotype: Genotype, model: TraitModel) -> str | None:
    """Return the one look that all animals of a genotype show.

    None where penetrance is incomplete, and in a model shown by the dam.
    """
    chances = look_chances(genotype, model)
    return chances[0][0] if len(chances) == 1 and model.shown_by is ShownBy.OWN else None


def genotype_words(genotype: Genotype) -> str:
    """Write a genotype locus by locus, without phase."""
    return " ".join("/".join(pair) for pair in genotype)
