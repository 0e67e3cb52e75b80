"""Expected against observed: the table of a brood, and of all broods of a cross."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from filialog.analysis.composition import COMPOSITION
from filialog.analysis.doubts import at_once, sorted_in
from filialog.analysis.looks import MODEL, parents_law
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD, BROODS_OF_CROSS
from filialog.analysis.pedigrees import PEDIGREE
from filialog.analysis.rivals import Sires, rival_lines, sire_looks
from filialog.analysis.rows import (
    Assumption,
    BroodRow,
    BroodTable,
    LookLine,
    Table,
)
from filialog.analysis.tallies import CLASSIFIED, Classified
from filialog.genetics import (
    ContradictionError,
    MatingShares,
    Sex,
    TraitModel,
    brood_components,
    format_genotype,
    looks_of_model,
    mating_shares,
)
from filialog.statistics import (
    Judgement,
    Verdict,
    brood_heterogeneity,
    judge,
    wilson_interval,
)

__all__ = ["BROOD_TABLE", "CROSS_TABLE", "EXPECTATION", "Expectation"]

Shares = tuple[Fraction, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Expectation:
    """What a brood should show: by look of the model, before any count."""

    looks: tuple[str, ...]
    components: tuple[tuple[Fraction, Shares], ...]
    """Each pair the parents can be, with its weight and the shares its brood has."""
    average: Shares
    """Shares over many pairs."""
    assumptions: tuple[Assumption, ...]

    @property
    def ranges(self) -> tuple[tuple[str, float, float], ...]:
        """Lowest and highest share of each look over the possible pairs."""
        return tuple(
            (
                look,
                float(min(shares[number] for _, shares in self.components)),
                float(max(shares[number] for _, shares in self.components)),
            )
            for number, look in enumerate(self.looks)
        )


def _expectation(reader: Reader, brood: str) -> Expectation | None:
    row = reader.get(BROOD, brood)
    name = reader.get(MODEL, brood)
    if row is None or name is None or not row.dams.groups or not row.sires.groups:
        return None
    model = reader.journal(f"trait model {name}").journal.traits[name].model
    composition = reader.get(COMPOSITION, brood)
    dam = parents_law(reader, name, composition.dams, Sex.FEMALE)
    sire = parents_law(reader, name, composition.sires, Sex.MALE)
    if dam.law is None or sire.law is None:
        return None
    try:
        components = brood_components(dam.law, sire.law, model)
    except ContradictionError:
        return None
    looks = looks_of_model(model)
    average = tuple(
        sum((weight * shares[number] for weight, shares in components), Fraction(0))
        for number in range(len(looks))
    )
    assumptions = dict.fromkeys((*dam.assumptions, *sire.assumptions))
    if not model.viability:
        assumptions[Assumption.EQUAL_VIABILITY] = None
    if len(components) > 1:
        assumptions[Assumption.BEFORE_COUNTS] = None
    return Expectation(
        looks=looks,
        components=components,
        average=average,
        assumptions=tuple(assumptions),
    )


EXPECTATION: NodeKind[Expectation | None] = NodeKind("expectation", _expectation)
"""What a brood should show; None without model or parents."""


def _brood_table(reader: Reader, brood: str) -> BroodTable:
    row = reader.get(BROOD, brood)
    expectation = reader.get(EXPECTATION, brood)
    seen = reader.get(CLASSIFIED, brood)
    table = None
    if row is not None and expectation is not None and seen is not None:
        table = _table(reader, brood, row.mating, expectation, seen)
    return BroodTable(
        subject=brood,
        table=table,
        why_none=_why_none(reader, brood, row, expectation) if table is None else None,
        expected=expectation.ranges if expectation is not None else (),
        heterogeneity_p=None,
        broods=(brood,),
    )


BROOD_TABLE: NodeKind[BroodTable] = NodeKind("brood-table", _brood_table)
"""Expected against observed for a brood."""


def _why_none(
    reader: Reader, brood: str, row: BroodRow | None, expectation: Expectation | None
) -> str:
    if reader.get(MODEL, brood) is None:
        return "no-model"
    if row is None or not row.dams.groups or not row.sires.groups:
        return "no-parents"
    return "no-tally" if expectation is not None else "contradiction"


def _cross_table(reader: Reader, identifier: str) -> BroodTable:
    """Pool the broods of a cross that were put to the same classes."""
    broods = reader.get(BROODS_OF_CROSS, identifier)
    pooled: list[tuple[str, Expectation, Classified]] = []
    for brood in broods:
        expectation = reader.get(EXPECTATION, brood)
        seen = reader.get(CLASSIFIED, brood)
        if expectation is None or seen is None:
            continue
        if not pooled or _alike((expectation, seen), pooled[0][1:]):
            pooled.append((brood, expectation, seen))
    if not pooled:
        return replace(reader.get(BROOD_TABLE, broods[0]), subject=identifier, broods=())
    brood, expectation, seen = pooled[0]
    if len(pooled) == 1:
        return replace(reader.get(BROOD_TABLE, brood), subject=identifier)
    together = _together(tuple(seen for _, _, seen in pooled))
    one_pair = _is_one_pair(reader, brood)
    between = None
    # Broods of different pairs may differ by right; only those that may not are compared.
    if one_pair or len(expectation.components) == 1:
        average = _by_class(expectation.average, expectation.looks, together)
        between = brood_heterogeneity(
            [seen.counts for _, _, seen in pooled], average
        ).heterogeneity_g
    mating = "one" if one_pair else "unknown"
    return BroodTable(
        subject=identifier,
        table=_table(reader, brood, mating, expectation, together),
        why_none=None,
        expected=expectation.ranges,
        heterogeneity_p=between.p_value if between is not None and between.df > 0 else None,
        broods=tuple(brood for brood, _, _ in pooled),
    )


CROSS_TABLE: NodeKind[BroodTable] = NodeKind("cross-table", _cross_table)
"""Expected against observed for all broods of a cross together."""


def _alike(one: tuple[Expectation, Classified], other: tuple[Expectation, Classified]) -> bool:
    return (
        one[0].components == other[0].components
        and one[0].average == other[0].average
        and one[1].classes == other[1].classes
    )


def _together(counted: Sequence[Classified]) -> Classified:
    return Classified(
        classes=counted[0].classes,
        counts=tuple(map(sum, zip(*(one.counts for one in counted), strict=True))),
        unsorted=sum(one.unsorted for one in counted),
        unexplained=tuple(other for one in counted for other in one.unexplained),
        events=tuple(event for one in counted for event in one.events),
    )


def _is_one_pair(reader: Reader, brood: str) -> bool:
    """Say whether the dam and the sire are single animals, the same for every brood."""
    composition = reader.get(COMPOSITION, brood)
    pedigree = reader.get(PEDIGREE)
    return all(
        len(side) == 1 and pedigree.pool(side[0]).size == 1
        for side in (composition.dams, composition.sires)
    )


_PAIRS = {
    "one": (Assumption.ONE_PAIR,),
    "several": (Assumption.MANY_PAIRS,),
    "unknown": (Assumption.ONE_PAIR, Assumption.MANY_PAIRS),
}
"""What is assumed of the pairs behind a brood, by how many sires it can have."""


def _table(
    reader: Reader, brood: str, mating: str, expectation: Expectation, seen: Classified
) -> Table:
    name = reader.get(MODEL, brood)
    assert name is not None
    model = reader.journal(f"trait model {name}").journal.traits[name].model
    average = _by_class(expectation.average, expectation.looks, seen)
    mixture = [
        (float(weight), _by_class(shares, expectation.looks, seen))
        for weight, shares in expectation.components
    ]
    rivals = _rivals(reader.get(_MATINGS, name), model, expectation, seen)
    shares_of_rivals = [shares for shares, _ in rivals]
    allowed = _PAIRS[mating] if len(mixture) > 1 else (Assumption.ONE_PAIR,)
    expected = {Assumption.ONE_PAIR: mixture, Assumption.MANY_PAIRS: [(1.0, average)]}
    judged = {one: judge(seen.counts, expected[one], shares_of_rivals) for one in allowed}
    # Where it is not known which holds, neither may be called wrong while the other is right.
    pairs = max(allowed, key=lambda one: judged[one].p_value)
    judgement = judged[pairs]
    assumptions = expectation.assumptions + ((pairs,) if len(mixture) > 1 else ())
    rival = _remaining_rival(judgement)
    worst, best = sorted_in(seen, {one: expected[one] for one in allowed}) or (None, None)
    return Table(
        lines=_lines(seen, average, mixture),
        sorted_number=sum(seen.counts),
        unsorted=seen.unsorted,
        unsorted_worst=worst,
        unsorted_best=best,
        unexplained=seen.unexplained,
        judgement=judgement,
        more_at_once=at_once(seen.counts, judgement, expected[pairs], shares_of_rivals),
        rival_pairs=rivals[rival][1] if rival is not None else (),
        rival_shares=(
            tuple(
                (label, share)
                for (label, _), share in zip(seen.classes, rivals[rival][0], strict=True)
            )
            if rival is not None
            else ()
        ),
        rivals=(
            rival_lines(
                seen, expected[pairs], _sires(reader, brood, model, seen), one_sire=mating == "one"
            )
            if judgement.verdict is Verdict.DOES_NOT_FIT
            else ()
        ),
        assumptions=assumptions,
        model=model.name,
        events=seen.events,
    )


def _sires(reader: Reader, brood: str, model: TraitModel, seen: Classified) -> Sires:
    """Return what the young of the recorded dams look like with any sire, by class."""
    name = reader.get(MODEL, brood)
    assert name is not None
    dams = parents_law(reader, name, reader.get(COMPOSITION, brood).dams, Sex.FEMALE).law
    looks = looks_of_model(model)
    if dams is None:
        return ()
    return tuple(
        ([(weight, _by_class(shares, looks, seen)) for weight, shares in components], genotypes)
        for components, genotypes in sire_looks(dams, model).items()
    )


def _remaining_rival(judgement: Judgement) -> int | None:
    """Return the rival worth telling of: the one that explains a misfit, or still stands."""
    if judgement.verdict is Verdict.DOES_NOT_FIT:
        return judgement.best_rival
    if judgement.verdict is Verdict.CANNOT_TELL:
        return judgement.nearest_rival
    return None


def _by_class(
    shares: Sequence[Fraction], looks: Sequence[str], seen: Classified
) -> tuple[float, ...]:
    by_look = dict(zip(looks, shares, strict=True))
    return tuple(
        float(sum((by_look[look] for look in joined), Fraction(0))) for _, joined in seen.classes
    )


def _matings(reader: Reader, model_name: str) -> tuple[MatingShares, ...]:
    return mating_shares(
        reader.journal(f"trait model {model_name}").journal.traits[model_name].model
    )


_MATINGS: NodeKind[tuple[MatingShares, ...]] = NodeKind("matings", _matings)


def _rivals(
    matings: Sequence[MatingShares], model: TraitModel, expectation: Expectation, seen: Classified
) -> list[tuple[tuple[float, ...], tuple[tuple[str, str], ...]]]:
    """Return every other expectation that some pair of parents would give, by class."""
    own = {_by_class(shares, expectation.looks, seen) for _, shares in expectation.components}
    own.add(_by_class(expectation.average, expectation.looks, seen))
    found: dict[tuple[float, ...], list[tuple[str, str]]] = {}
    for mating in matings:
        shares = _by_class(mating.shares, expectation.looks, seen)
        if shares not in own:
            found.setdefault(shares, []).extend(_pairs_in_words(mating, model))
    return [(shares, tuple(pairs)) for shares, pairs in sorted(found.items())]


def _pairs_in_words(mating: MatingShares, model: TraitModel) -> list[tuple[str, str]]:
    return [
        (format_genotype(one, model), format_genotype(other, model)) for one, other in mating.pairs
    ]


def _lines(
    seen: Classified,
    average: Sequence[float],
    mixture: Sequence[tuple[float, Sequence[float]]],
) -> tuple[LookLine, ...]:
    number = sum(seen.counts)
    lines = []
    for position, (label, _) in enumerate(seen.classes):
        shares = [shares[position] for _, shares in mixture]
        observed = seen.counts[position]
        if observed == 0 and max(shares) == 0.0:
            continue
        interval = wilson_interval(seen=observed, counted=number)
        lines.append(
            LookLine(
                look=label,
                share_low=min(shares),
                share_high=max(shares),
                expected=average[position] * number,
                observed=observed,
                difference=observed - average[position] * number,
                interval_low=interval.low,
                interval_high=interval.high,
            )
        )
    return tuple(lines)
