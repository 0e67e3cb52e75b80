"""What else could be behind a count that does not fit, each with its odds."""

import math
from collections.abc import Mapping, Sequence

from filialog.analysis.rows import RivalKind, RivalLine
from filialog.analysis.tallies import Classified
from filialog.genetics import (
    BroodComponents,
    ContradictionError,
    GenotypeLaw,
    Sex,
    TraitModel,
    brood_components,
    certain,
    format_genotype,
    living_genotypes,
)
from filialog.statistics import (
    Components,
    FittedRival,
    Rival,
    foreign_share,
    log_likelihood,
    relative_survival,
    rival_odds,
)

__all__ = ["SireLooks", "Sires", "rival_lines", "sire_looks"]

SireLooks = Mapping[BroodComponents, tuple[str, ...]]
"""What the young of the recorded dams with some sire can look like, and the genotypes of all
sires that give it."""

Sires = Sequence[tuple[Components, tuple[str, ...]]]
"""The same by the classes of a count."""

_DECIMALS = 6
"""Log likelihoods that agree to so many decimals are equal."""
_MOST_FITS = 200
"""More pairs of components than this are not fitted: a page can do without."""


def sire_looks(dams: GenotypeLaw, model: TraitModel) -> SireLooks:
    """Try every genotype a sire can have with the dams that were recorded."""
    found: dict[BroodComponents, list[str]] = {}
    for genotype in living_genotypes(model, Sex.MALE):
        try:
            components = brood_components(dams, certain(genotype), model)
        except ContradictionError:
            continue
        found.setdefault(components, []).append(format_genotype(genotype, model))
    return {components: tuple(names) for components, names in found.items()}


def rival_lines(
    seen: Classified, expected: Components, sires: Sires, *, one_sire: bool
) -> tuple[RivalLine, ...]:
    """Return the best explanation of each kind; with one sire none can have a part of the young."""
    looks = [label for label, _ in seen.classes]
    found = [
        _best_sire(seen.counts, expected, sires),
        None if one_sire else _best_sire_among(seen.counts, expected, sires),
        _best_survival(seen.counts, expected, looks),
    ]
    return tuple(one for one in found if one is not None)


def _best_sire(counts: Sequence[int], expected: Components, sires: Sires) -> RivalLine | None:
    """Return the sire that explains the count best if all young are his."""
    own = {tuple(map(float, shares)) for _, shares in expected}
    others = [
        (round(log_likelihood(counts, components), _DECIMALS), components, genotypes)
        for components, genotypes in sires
        if not {tuple(map(float, shares)) for _, shares in components} <= own
    ]
    if not others:
        return None
    log, components, genotypes = max(others, key=lambda one: one[0])
    if log == -math.inf:
        return None
    rival = Rival(name=" ".join(genotypes), components=components)
    (odds,) = rival_odds(counts, expected=expected, rivals=[rival])
    assert odds.log_ratio is not None
    return RivalLine(
        kind=RivalKind.ALL_SIRES, of=genotypes, estimate=None, low=None, high=None,
        log_ratio=odds.log_ratio,
    )  # fmt: skip


def _best_sire_among(counts: Sequence[int], expected: Components, sires: Sires) -> RivalLine | None:
    """Return the sire that explains the count best if a part of the young is his."""
    if len(expected) * sum(len(components) for components, _ in sires) > _MOST_FITS:
        return None
    fitted = [
        (one, names)
        for components, names in sires
        if (one := foreign_share(counts, expected, components)) is not None
        and 0.0 < one.estimate < 1.0
    ]
    if not fitted:
        return None
    # Where several do as well, the one that needs the fewest young.
    best, names = max(
        fitted, key=lambda one: (round(one[0].log_likelihood, _DECIMALS), -one[0].estimate)
    )
    return _line(RivalKind.SOME_SIRES, names, best)


def _best_survival(
    counts: Sequence[int], expected: Components, looks: Sequence[str]
) -> RivalLine | None:
    """Return the look whose worse survival explains the count best."""
    fitted = [
        (one, look)
        for place, look in enumerate(looks)
        if (one := relative_survival(counts, expected, place=place)) is not None
        and one.estimate < 1.0
    ]
    if not fitted:
        return None
    best, look = max(fitted, key=lambda one: round(one[0].log_likelihood, _DECIMALS))
    return _line(RivalKind.SURVIVAL, (look,), best)


def _line(kind: RivalKind, of: tuple[str, ...], fitted: FittedRival) -> RivalLine:
    return RivalLine(
        kind=kind, of=of, estimate=fitted.estimate, low=fitted.low, high=fitted.high,
        log_ratio=fitted.log_ratio,
    )  # fmt: skip
