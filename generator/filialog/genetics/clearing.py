"""Test crosses: how many plain young clear a suspect, and with which mate they tell most."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, factorial, log, prod

from filialog.domain_error import DomainError
from filialog.genetics.broods import brood_components
from filialog.genetics.genotype_law import ContradictionError, GenotypeLaw, certain
from filialog.genetics.trait_model import Genotype, TraitModel, looks_of_model

__all__ = [
    "MateValue",
    "YoungNeeded",
    "animals_to_keep",
    "carrier_after_plain_young",
    "chance_of_all_plain",
    "rank_mates",
    "young_to_clear",
]

_MOST_OUTCOMES = 20_000


@dataclass(frozen=True, slots=True, kw_only=True)
class YoungNeeded:
    """How many plain young clear a suspect."""

    young: int
    """Whole number of young, 1 or more."""
    without_rounding: float
    """The same before rounding up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MateValue:
    """What young with one mate would tell of a suspect."""

    mate: str
    """Name of the mate."""
    information_bits: float
    """Expected information about whether the suspect carries, 0 to 1 bit."""
    sure_share: float
    """Probability that the brood decides the question for certain, 0 to 1."""


def _share(quantity: str, value: Fraction) -> Fraction:
    if not 0 <= value <= 1:
        raise DomainError(quantity, value, "0 to 1")
    return Fraction(value)


def _confidence(value: Fraction) -> Fraction:
    if not 0 < value < 1:
        raise DomainError("confidence", value, "above 0 and below 1")
    return Fraction(value)


def _below(share: Fraction, limit: Fraction) -> int:
    """Return the least n with share^n at most the limit, exactly."""
    number = max(1, ceil(log(limit) / log(share)) - 1)
    while share**number > limit:
        number += 1
    return number


def young_to_clear(*, plain_if_carrier: Fraction, confidence: Fraction) -> YoungNeeded:
    """Return how many young, all plain, clear a suspect.

    Parameters
    ----------
    plain_if_carrier
        Share of plain young that the mate and a carrier have, 0 to below 1: 1/2 with a
        recessive mate, 3/4 with a carrier.
    confidence
        Probability with which a carrier would have shown itself, above 0 and below 1.

    Returns
    -------
    YoungNeeded
        The least number n for which plain_if_carrier^n is at most 1 - confidence.

    Raises
    ------
    DomainError
        If a number is out of range, or all young of a carrier are plain as well.

    Notes
    -----
    The number is exact: with a carrier as mate 99 % needs 17 young and 99.9 % needs 25,
    for (3/4)^16 = 0.01002 and (3/4)^24 = 0.001003, although 16 and 24 are often printed.

    Examples
    --------
    >>> young_to_clear(plain_if_carrier=Fraction(1, 2), confidence=Fraction(95, 100)).young
    5
    >>> young_to_clear(plain_if_carrier=Fraction(3, 4), confidence=Fraction(99, 100)).young
    17
    """
    share, wanted = _share("share of plain young", plain_if_carrier), _confidence(confidence)
    if share == 1:
        raise DomainError("share of plain young of a carrier", share, "below 1")
    if share == 0:
        return YoungNeeded(young=1, without_rounding=0.0)
    return YoungNeeded(
        young=_below(share, 1 - wanted), without_rounding=log(1 - wanted) / log(share)
    )


def chance_of_all_plain(plain_if_carrier: Iterable[Fraction]) -> Fraction:
    """Return the probability that every young of a carrier is plain.

    Parameters
    ----------
    plain_if_carrier
        For each young the share of plain young that its dam and sire have if the suspect
        carries, 0 to 1; mates may differ.

    Raises
    ------
    DomainError
        If a share is out of range.

    Examples
    --------
    >>> chance_of_all_plain([Fraction(1, 2), Fraction(3, 4)])
    Fraction(3, 8)
    """
    return prod(
        (_share("share of plain young", one) for one in plain_if_carrier), start=Fraction(1)
    )


def carrier_after_plain_young(
    *, prior: Fraction, plain_if_carrier: Fraction, young: int
) -> Fraction:
    """Return the probability that a suspect carries after young that were all plain.

    Parameters
    ----------
    prior
        Probability that it carries before the test, 0 to 1.
    plain_if_carrier
        Share of plain young if it carries, 0 to 1; if it does not, all are plain.
    young
        Number of young, 0 or more, all plain.

    Raises
    ------
    DomainError
        If a number is out of range, or plain young were impossible.

    References
    ----------
    .. [1] Bayes T. (1763) Phil. Trans. R. Soc. 53:370-418 (the rule; from memory).

    Examples
    --------
    A plain brother of a recessive, nine plain young with a recessive mate:

    >>> carrier_after_plain_young(
    ...     prior=Fraction(2, 3), plain_if_carrier=Fraction(1, 2), young=9)
    Fraction(1, 257)
    """
    before = _share("probability before the test", prior)
    if not young >= 0:
        raise DomainError("number of young", young, "0 or more")
    carrier = before * _share("share of plain young", plain_if_carrier) ** young
    if carrier + 1 - before == 0:
        raise DomainError("plain young", young, "none, as none can be plain")
    return carrier / (carrier + 1 - before)


def animals_to_keep(*, share: Fraction, confidence: Fraction) -> int:
    """Return how many animals to keep so that at least one is of a kind.

    Parameters
    ----------
    share
        Probability that one animal is of the kind, above 0, at most 1.
    confidence
        Probability wanted that one or more of those kept are, above 0 and below 1.

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> animals_to_keep(share=Fraction(2, 3), confidence=Fraction(95, 100))
    3
    """
    if not 0 < share <= 1:
        raise DomainError("share of the kind", share, "above 0, at most 1")
    wanted = _confidence(confidence)
    return 1 if share == 1 else _below(1 - Fraction(share), 1 - wanted)


def rank_mates(
    model: TraitModel,
    suspect: GenotypeLaw,
    mates: Mapping[str, GenotypeLaw],
    *,
    carriers: Sequence[Genotype],
    young: int,
    suspect_is_dam: bool = False,
) -> tuple[MateValue, ...]:
    """Return the mates of a test cross, the one whose young tell most first.

    Parameters
    ----------
    model
        A model without problems.
    suspect
        Law of the suspect's genotype before the test.
    mates
        Law of each mate that is at hand, by name.
    carriers
        The genotypes that count as carriers.
    young
        Number of young that would be counted by look, 1 or more.
    suspect_is_dam
        Whether the suspect is the dam, as linkage and sex chromosomes may need.

    Returns
    -------
    tuple of MateValue
        By expected information [1]_, the mean fall of the entropy of "carries or not" over
        all outcomes; equal ones by name. A mate that can have no living young with the
        suspect tells 0.

    Raises
    ------
    DomainError
        If there are no young, or too many outcomes to go through.

    References
    ----------
    .. [1] Lindley D.V. (1956) On a measure of the information provided by an experiment.
       Ann. Math. Statist. 27:986-1005 (from memory).

    Examples
    --------
    >>> from filialog.genetics.trait_model import Condition, ConditionKind, Locus, LookRule
    >>> from filialog.genetics.genotype_law import law_of
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> fancy = Condition(locus="gene", kind=ConditionKind.HOM, alleles=("a",))
    >>> rules = (LookRule(look="fancy", conditions=(fancy,)), LookRule(look="plain"))
    >>> model = TraitModel(name="one", loci=(gene,), looks=rules)
    >>> clear, carrier, fancy = (("A", "A"),), (("A", "a"),), (("a", "a"),)
    >>> he = law_of({clear: Fraction(1, 3), carrier: Fraction(2, 3)})
    >>> mates = {"sister": he, "fancy": certain(fancy), "clear": certain(clear)}
    >>> ranked = rank_mates(model, he, mates, carriers=[carrier], young=6)
    >>> [(one.mate, round(one.information_bits, 2)) for one in ranked]
    [('fancy', 0.85), ('sister', 0.28), ('clear', 0.0)]
    """
    looks = len(looks_of_model(model))
    if not young >= 1:
        raise DomainError("number of young", young, "1 or more")
    outcomes = factorial(young + looks - 1) // (factorial(young) * factorial(looks - 1))
    if outcomes > _MOST_OUTCOMES:
        raise DomainError("number of outcomes", outcomes, f"at most {_MOST_OUTCOMES}")
    wanted = frozenset(carriers)
    values = [
        _value(
            name, suspect, law, model, carriers=wanted, young=young, suspect_is_dam=suspect_is_dam
        )
        for name, law in mates.items()
    ]
    return tuple(sorted(values, key=lambda one: (-round(one.information_bits, 12), one.mate)))


def _value(
    name: str,
    suspect: GenotypeLaw,
    mate: GenotypeLaw,
    model: TraitModel,
    *,
    carriers: frozenset[Genotype],
    young: int,
    suspect_is_dam: bool,
) -> MateValue:
    # Whether it carries or not, with the shares of the looks that its young then follow.
    parts: list[tuple[bool, float, tuple[float, ...]]] = []
    for genotype, probability in suspect.probabilities:
        pair = (certain(genotype), mate) if suspect_is_dam else (mate, certain(genotype))
        try:
            components = brood_components(*pair, model)
        except ContradictionError:
            continue
        for weight, shares in components:
            chance = float(probability * weight)
            parts.append((genotype in carriers, chance, tuple(map(float, shares))))
    whole = sum(chance for _, chance, _ in parts)
    if not whole:
        return MateValue(mate=name, information_bits=0.0, sure_share=0.0)
    carrying = sum(chance for carries, chance, _ in parts if carries) / whole
    left, sure = 0.0, 0.0
    for counts in _outcomes(young, len(looks_of_model(model))):
        ways = factorial(young) // prod(map(factorial, counts))
        both = [0.0, 0.0]
        for carries, chance, followed in parts:
            likely = prod(share**n for share, n in zip(followed, counts, strict=True))
            both[carries] += chance / whole * ways * likely
        total = sum(both)
        if total:
            left += total * _entropy(both[1] / total)
            sure += total if 0.0 in both else 0.0
    return MateValue(
        mate=name,
        information_bits=max(0.0, _entropy(carrying) - left),
        sure_share=min(1.0, sure),
    )


def _entropy(share: float) -> float:
    return -sum(p * log(p) / log(2) for p in (share, 1 - share) if p > 0)


def _outcomes(young: int, looks: int) -> Iterator[tuple[int, ...]]:
    if looks == 1:
        yield (young,)
        return
    for first in range(young + 1):
        for rest in _outcomes(young - first, looks - 1):
            yield (first, *rest)
