"""Expected against observed: the table of a brood, and of all broods of a cross."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from filialog.analysis.looks import MODEL, parents_law
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD, BROODS_OF_CROSS
from filialog.analysis.rows import Assumption, BroodRow, BroodTable, LookLine, Table
from filialog.analysis.tallies import CLASSIFIED, Classified
from filialog.genetics import (
    ContradictionError,
    MatingShares,
    TraitModel,
    brood_components,
    cross,
    format_genotype,
    look_shares,
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
    dam = parents_law(reader, name, row.dams)
    sire = parents_law(reader, name, row.sires)
    if dam.law is None or sire.law is None:
        return None
    try:
        components = brood_components(dam.law, sire.law, model)
        average = look_shares(cross(dam.law, sire.law, model).young, model)
    except ContradictionError:
        return None
    assumptions = dict.fromkeys((*dam.assumptions, *sire.assumptions, Assumption.EQUAL_VIABILITY))
    if len(components) > 1:
        assumptions[_PAIRS[row.mating][0]] = None
    return Expectation(
        looks=looks_of_model(model),
        components=components,
        average=tuple(share for _, share in average),
        assumptions=tuple(assumptions),
    )


EXPECTATION: NodeKind[Expectation | None] = NodeKind("expectation", _expectation)
"""What a brood should show; None without model or parents."""

_PAIRS = {
    "one": (Assumption.ONE_PAIR,),
    "several": (Assumption.MANY_PAIRS,),
    "unknown": (Assumption.ONE_PAIR, Assumption.MANY_PAIRS),
}
"""What is assumed of the pairs behind a brood, by how many sires it can have."""


def _brood_table(reader: Reader, brood: str) -> BroodTable:
    expectation = reader.get(EXPECTATION, brood)
    row = reader.get(BROOD, brood)
    classified = reader.get(CLASSIFIED, brood)
    expected = expectation.ranges if expectation is not None else ()
    if expectation is None or classified is None or row is None:
        return BroodTable(
            subject=brood,
            table=None,
            why_none=_why_none(reader, brood, row, expectation),
            expected=expected,
            heterogeneity_p=None,
            broods=(brood,),
        )
    return BroodTable(
        subject=brood,
        table=_table(reader, brood, row.mating, expectation, classified),
        why_none=None,
        expected=expected,
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


def _cross_table(reader: Reader, cross_name: str) -> BroodTable:
    """Pool the broods of a cross that were put to the same classes."""
    broods = reader.get(BROODS_OF_CROSS, cross_name)
    pooled: list[tuple[str, Expectation, Classified]] = []
    for brood in broods:
        expectation = reader.get(EXPECTATION, brood)
        classified = reader.get(CLASSIFIED, brood)
        if expectation is None or classified is None:
            continue
        if pooled and (
            classified.classes != pooled[0][2].classes
            or expectation.components != pooled[0][1].components
        ):
            continue
        pooled.append((brood, expectation, classified))
    if not pooled:
        first = reader.get(BROOD_TABLE, broods[0])
        return BroodTable(
            subject=cross_name,
            table=None,
            why_none=first.why_none,
            expected=first.expected,
            heterogeneity_p=None,
            broods=(),
        )
    if len(pooled) == 1:
        brood = pooled[0][0]
        one = reader.get(BROOD_TABLE, brood)
        return BroodTable(
            subject=cross_name,
            table=one.table,
            why_none=None,
            expected=one.expected,
            heterogeneity_p=None,
            broods=(brood,),
        )
    brood, expectation, _ = pooled[0]
    together = Classified(
        classes=pooled[0][2].classes,
        counts=tuple(
            sum(counts) for counts in zip(*(one.counts for _, _, one in pooled), strict=True)
        ),
        unsorted=sum(one.unsorted for _, _, one in pooled),
        unexplained=tuple(other for _, _, one in pooled for other in one.unexplained),
        events=tuple(event for _, _, one in pooled for event in one.events),
    )
    # Several broods are several pairs: where pairs can differ, their average is expected.
    table = _table(reader, brood, "several", expectation, together)
    average = _by_class(expectation.average, expectation.looks, together)
    differences = brood_heterogeneity([one.counts for _, _, one in pooled], average)
    between = differences.heterogeneity_g
    return BroodTable(
        subject=cross_name,
        table=table,
        why_none=None,
        expected=expectation.ranges,
        heterogeneity_p=between.p_value if between is not None and between.df > 0 else None,
        broods=tuple(brood for brood, _, _ in pooled),
    )


CROSS_TABLE: NodeKind[BroodTable] = NodeKind("cross-table", _cross_table)
"""Expected against observed for all broods of a cross together."""


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
    rivals = _rivals(model, expectation, seen)
    shares_of_rivals = [shares for shares, _ in rivals]
    judged = {
        Assumption.ONE_PAIR: judge(seen.counts, mixture, shares_of_rivals),
        Assumption.MANY_PAIRS: judge(seen.counts, [(1.0, average)], shares_of_rivals),
    }
    # Where it is not known which holds, neither may be called wrong while the other is right.
    allowed = _PAIRS[mating] if len(mixture) > 1 else (Assumption.ONE_PAIR,)
    pairs = max(allowed, key=lambda one: judged[one].p_value)
    judgement = judged[pairs]
    assumptions: dict[Assumption, None] = dict.fromkeys(
        one
        for one in expectation.assumptions
        if one not in (Assumption.ONE_PAIR, Assumption.MANY_PAIRS)
    )
    if len(mixture) > 1:
        assumptions[pairs] = None
    rival = _remaining_rival(judgement)
    return Table(
        lines=_lines(seen, average, mixture),
        sorted_number=sum(seen.counts),
        unsorted=seen.unsorted,
        unexplained=seen.unexplained,
        judgement=judgement,
        rival_pairs=rivals[rival][1] if rival is not None else (),
        rival_shares=(
            tuple(
                (label, share)
                for (label, _), share in zip(seen.classes, rivals[rival][0], strict=True)
            )
            if rival is not None
            else ()
        ),
        assumptions=tuple(assumptions),
        model=model.name,
        events=seen.events,
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


def _rivals(
    model: TraitModel, expectation: Expectation, seen: Classified
) -> list[tuple[tuple[float, ...], tuple[tuple[str, str], ...]]]:
    """Return every other expectation that some pair of parents would give, by class."""
    own = {_by_class(shares, expectation.looks, seen) for _, shares in expectation.components}
    own.add(_by_class(expectation.average, expectation.looks, seen))
    found: dict[tuple[float, ...], list[tuple[str, str]]] = {}
    for mating in mating_shares(model):
        shares = _by_class(mating.shares, expectation.looks, seen)
        if shares not in own:
            found.setdefault(shares, []).extend(_pairs_in_words(mating))
    return [(shares, tuple(pairs)) for shares, pairs in sorted(found.items())]


def _pairs_in_words(mating: MatingShares) -> list[tuple[str, str]]:
    return [(format_genotype(one), format_genotype(other)) for one, other in mating.pairs]


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
