"""What all animals of all pools carry, given everything that is known of them together."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import product
from typing import TYPE_CHECKING, TypeVar

from filialog.domain_error import DomainError
from filialog.genetics.carriers.compiled import Compiled
from filialog.genetics.carriers.evidence import Evidence, check_evidence
from filialog.genetics.carriers.matings import UNKNOWN_PARENT
from filialog.genetics.carriers.pools import (
    BroodOf,
    CarrierPool,
    FounderPool,
    FrequencyPoint,
    JoinedOf,
    PoolShare,
    TakenFrom,
    check_pools,
)
from filialog.genetics.carriers.scenarios import (
    Assumption,
    Scenario,
    assumptions_of,
    blocks_needed,
    scenarios,
)
from filialog.genetics.genotype_law import GenotypeLaw, law_of
from filialog.genetics.inference import (
    ImpossibleEvidenceError,
    Limits,
    Marginals,
    TooLargeError,
    joint,
    marginals,
)
from filialog.genetics.inference.contradictions import smallest_contradiction
from filialog.genetics.pools import pool_law
from filialog.genetics.trait_model import Genotype, TraitModel

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = [
    "Assumption",
    "CarrierLaw",
    "Change",
    "ContradictoryEvidenceError",
    "Posterior",
    "posterior",
]

_FORECAST = "\x1fforecast"
_MOST_PIECES = 24

_LADDER = Limits(cells=20_000_000, only_trees=True)
"""What a tree may take before fewer draws of the pools in it are joined."""
_FEWER_JOINED = {5: 3, 4: 3, 3: 2, 2: 1}

_Found = TypeVar("_Found")


class ContradictoryEvidenceError(Exception):
    """The evidence cannot be true together; `labels` are a minimal set of it."""

    def __init__(self, labels: tuple[str, ...]) -> None:
        named = ", ".join(labels) if labels else "the pools alone"
        super().__init__(f"evidence of probability 0: {named}")
        self.labels = labels


@dataclass(frozen=True, slots=True, kw_only=True)
class CarrierLaw:
    """How likely each genotype is, in floating point."""

    probabilities: tuple[tuple[Genotype, float], ...]
    """Each possible genotype with its probability, together 1, sorted."""

    def probability(self, genotype: Genotype) -> float:
        """Return the probability of one genotype, 0 when it is not possible."""
        return dict(self.probabilities).get(genotype, 0.0)

    def carries(self, allele: str) -> float:
        """Return the probability of at least one copy of an allele."""
        return sum(p for genotype, p in self.probabilities if any(allele in g for g in genotype))

    def exact(self) -> GenotypeLaw:
        """Return the same law in fractions that add up to 1, for crosses."""
        parts = {genotype: Fraction(p) for genotype, p in self.probabilities}
        total = sum(parts.values(), Fraction(0))
        return law_of({genotype: part / total for genotype, part in parts.items()})


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What one piece of evidence did to a probability."""

    label: str
    """The piece."""
    before: float
    """The probability without it and those after it."""
    after: float
    """The probability with it."""


@dataclass(slots=True, kw_only=True)
class _Run:
    compiled: Compiled
    found: Marginals
    joined: Mapping[str, int]
    """For the first pool of families of which fewer draws are joined their number."""
    laws: dict[str, CarrierLaw] = field(default_factory=dict)


class Posterior:
    """The laws of all pools given all evidence. Made by `posterior`."""

    def __init__(
        self,
        model: TraitModel,
        pools: Mapping[str, CarrierPool],
        evidence: tuple[Evidence, ...],
        last: Limits,
    ) -> None:
        self._model, self._pools, self._evidence = model, pools, evidence
        self._last = last
        self._blocks = blocks_needed(model, pools, evidence)
        self._scenarios = scenarios(pools)
        self._joined: dict[int, Mapping[str, int]] = {}
        self._sorts = frozenset(
            name
            for name, pool in pools.items()
            if isinstance(pool.origin, TakenFrom) and pool.origin.look is not None
        )
        try:
            self._runs = [self._run(one, evidence, self._sorts) for one in self._scenarios]
        except ImpossibleEvidenceError:
            raise ContradictoryEvidenceError(self._contradiction()) from None

    @property
    def exact(self) -> bool:
        """Whether all numbers are exact but for rounding, under the assumptions."""
        return all(run.compiled.exact and run.found.exact for run in self._runs)

    @property
    def error(self) -> float:
        """How far a probability may be off; 0 where all is exact.

        It is no bound. Where draws from a pool are taken as separate animals it is the
        chance, before any count, that one of them is an animal that was drawn otherwise too;
        where messages went round loops, what the engine estimates; 1 where nothing is known.
        """
        return min(1.0, max(max(run.found.error, run.compiled.error) for run in self._runs))

    @property
    def log_evidence(self) -> float:
        """Natural logarithm of the probability of the evidence, of the first answer."""
        return self._runs[0].found.log_evidence + self._runs[0].compiled.log_scale

    @property
    def assumptions(self) -> tuple[Assumption, ...]:
        """What was taken for granted."""
        found: set[Assumption] = set()
        for pool in self._pools.values():
            found |= assumptions_of(pool, self._pools)
        if not all(run.compiled.exact for run in self._runs):
            found.add(Assumption.SOME_DRAWS)
        return tuple(one for one in Assumption if one in found)

    def law_of(self, pool: str) -> CarrierLaw:
        """Return the law of a member of a pool at random; a DomainError for an unknown pool."""
        self._check(pool)
        return self._law(self._runs[0], pool)

    def range_of(self, pool: str, genotypes: Iterable[Genotype]) -> tuple[float, float]:
        """Return the least and greatest probability of some genotypes over all answers.

        The answers are those to questions that the record leaves open: whether there was
        one parent or several, and how joined pools share their members.
        """
        self._check(pool)
        wanted = tuple(dict.fromkeys(genotypes))
        found = [
            sum(self._law(run, pool).probability(genotype) for genotype in wanted)
            for run in self._runs
        ]
        return min(found), max(found)

    def pair_law(
        self, dam_pool: str, sire_pool: str
    ) -> tuple[tuple[tuple[Genotype, Genotype], float], ...]:
        """Return the joint law of a dam and a sire drawn from two pools, or from one."""
        for pool in (dam_pool, sire_pool):
            self._check(pool)
        origin = BroodOf(dams=(PoolShare(pool=dam_pool),), sires=(PoolShare(pool=sire_pool),))
        pools = dict(self._scenarios[0].pools)
        pools[_FORECAST] = CarrierPool(name=_FORECAST, origin=origin)
        scenario = replace(self._scenarios[0], pools=pools)

        def of_pair(compiled: Compiled, limits: Limits) -> "Array":
            dam, sire = compiled.dam_and_sire(_FORECAST)
            return joint(compiled.network(), (*dam, *sire), limits=limits)

        _, table, _ = self._solved(scenario, self._evidence, self._sorts, of_pair)
        counts = [block.count for block in self._blocks]
        rows = []
        for numbers in product(*(range(count) for count in (*counts, *counts))):
            probability = float(table[numbers])
            if probability > 0:
                half = len(counts)
                pair = (self._genotype(numbers[:half]), self._genotype(numbers[half:]))
                rows.append((pair, probability))
        return tuple(sorted(rows))

    def parents_of(self, brood: str) -> tuple[tuple[str, str, float], ...]:
        """Return (dam pool, sire pool, probability) of the first dam and sire of a brood.

        This is inferred from genotypes, and is never written back into the record.
        """
        self._check(brood)
        run = self._runs[0]
        if brood not in run.compiled.plans:
            raise DomainError("brood", brood, "a pool that is the young of parents")
        plan = run.compiled.plans[brood]
        choices = [run.compiled.choice[plan.dams[0].name], run.compiled.choice[plan.sires[0].name]]
        names = [name for name, _ in choices if name is not None]
        table = joint(run.compiled.network(), names) if names else None
        rows = []
        for dam, sire in product(*(range(len(pools)) for _, pools in choices)):
            at = tuple(
                number
                for number, (name, _) in zip((dam, sire), choices, strict=True)
                if name is not None
            )
            probability = 1.0 if table is None else float(table[at])
            rows.append((choices[0][1][dam], choices[1][1][sire], probability))
        return tuple(rows)

    def explained(self, pool: str, allele: str, *, least: float = 0.0005) -> tuple[Change, ...]:
        """Return the evidence that moved the chance of a member to carry an allele.

        Parameters
        ----------
        pool
            The pool.
        allele
            An allele of the model.
        least
            Changes smaller than this are left out.

        Returns
        -------
        tuple of Change
            The pieces nearest to the pool, at most 24, added one after the other in the
            order of their labels to all others, which are in from the start.
        """
        self._check(pool)
        if all(allele not in (*locus.alleles, *locus.absent_from) for locus in self._model.loci):
            raise DomainError("allele", allele, "one of the model")
        near = self._nearest(pool)
        kept = [piece for piece in self._evidence if piece not in near]
        before = self._carried(pool, allele, kept)
        changes = []
        for piece in near:
            kept.append(piece)
            after = self._carried(pool, allele, kept)
            if abs(after - before) >= least:
                changes.append(Change(label=piece.label, before=before, after=after))
            before = after
        return tuple(changes)

    # --- how

    def _check(self, pool: str) -> None:
        if pool not in self._pools:
            raise DomainError("pool", pool, "a pool that is listed")

    def _solved(
        self,
        scenario: Scenario,
        evidence: Sequence[Evidence],
        sorts: frozenset[str],
        ask: Callable[[Compiled, Limits], _Found],
    ) -> tuple[Compiled, _Found, Mapping[str, int]]:
        """Join as many draws of each pool as leave trees that fit, then ask.

        Where no fewer can be joined the engine goes its own ways.
        """
        joined = dict(self._joined.get(scenario.number, {}))
        while True:
            compiled = self._compiled(scenario, evidence, sorts, joined)
            try:
                return compiled, ask(compiled, _LADDER), joined
            except TooLargeError as too_large:
                families = [
                    family
                    for name, family in compiled.switches.items()
                    if name in too_large.variables and family.joined > 1
                ]
            if not families:
                return compiled, ask(compiled, self._last), joined
            most = max(family.joined for family in families)
            joined.update(
                (family.pools[0], _FEWER_JOINED[most])
                for family in families
                if family.joined == most
            )

    def _compiled(
        self,
        scenario: Scenario,
        evidence: Sequence[Evidence],
        sorts: frozenset[str],
        joined: Mapping[str, int],
    ) -> Compiled:
        pools = dict(scenario.pools)
        if any(
            isinstance(one.origin, BroodOf) and not (one.origin.dams and one.origin.sires)
            for one in pools.values()
        ):
            point = FrequencyPoint(weight=Fraction(1), law=pool_law(self._model))
            pools[UNKNOWN_PARENT] = CarrierPool(
                name=UNKNOWN_PARENT, origin=FounderPool(points=(point,))
            )
        compiled = Compiled(
            self._model,
            self._blocks,
            pools,
            evidence,
            sorted_pools=sorts,
            unknown=scenario.unknown,
            joined=joined,
            last=_FORECAST,
        )
        if compiled.impossible:
            raise ImpossibleEvidenceError(())
        return compiled

    def _run(
        self,
        scenario: Scenario,
        evidence: Sequence[Evidence],
        sorts: frozenset[str],
        wanted: str | None = None,
    ) -> _Run:
        def of_members(compiled: Compiled, limits: Limits) -> Marginals:
            names = [
                name
                for pool, variables in compiled.member.items()
                if wanted is None or pool == wanted
                for name in variables
            ]
            return marginals(compiled.network(), limits=limits, wanted=names)

        compiled, found, joined = self._solved(scenario, evidence, sorts, of_members)
        if wanted is None:
            self._joined.setdefault(scenario.number, joined)
        return _Run(compiled=compiled, found=found, joined=joined)

    def _law(self, run: _Run, pool: str) -> CarrierLaw:
        if pool not in run.laws:
            table = self._table(run, pool)
            rows = [
                (self._genotype(numbers), float(table[numbers]))
                for numbers in product(*(range(length) for length in table.shape))
            ]
            kept = tuple(sorted((genotype, p) for genotype, p in rows if p > 0))
            run.laws[pool] = CarrierLaw(probabilities=kept)
        return run.laws[pool]

    def _table(self, run: _Run, pool: str) -> "Array":
        """Return the law of a member at random, one axis for each block."""
        import numpy as np  # noqa: PLC0415

        compiled = run.compiled
        variables = compiled.member[pool]
        if pool in compiled.fixed:
            fixed: Array = np.sum(
                [
                    share * np.array(run.found.of(names[0]))
                    if len(names) == 1
                    else share * joint(compiled.network(), names)
                    for share, names in compiled.fixed[pool]
                ],
                axis=0,
            )
            return fixed
        if pool in compiled.mixed and len(self._blocks) == 1:
            summed: Array = np.sum([run.found.of(name)[:-1] for name in variables], axis=0)
            return summed
        if pool in compiled.mixed:
            which, animals = compiled.mixed[pool]
            together: Array = np.sum(
                [
                    joint(compiled.network(), (which, *animal))[number]
                    for number, animal in enumerate(animals)
                ],
                axis=0,
            )
            return together
        if len(variables) == 1:
            return np.array(run.found.of(variables[0]))
        return joint(compiled.network(), variables)

    def _genotype(self, numbers: Sequence[int]) -> Genotype:
        pairs: list[tuple[str, str]] = [("", "")] * len(self._model.loci)
        for block, number in zip(self._blocks, numbers, strict=True):
            for place, pair in zip(block.places, block.genotypes[number], strict=True):
                pairs[place] = pair
        return tuple(pairs)

    def _carried(self, pool: str, allele: str, evidence: Sequence[Evidence]) -> float:
        run = self._run(self._scenarios[0], evidence, self._sorts, pool)
        return self._law(run, pool).carries(allele)

    def _nearest(self, pool: str) -> list[Evidence]:
        """Return the pieces of evidence nearest in the pedigree, in the order of their labels."""
        links: dict[str, set[str]] = {name: set() for name in self._pools}
        for name, one in self._pools.items():
            match one.origin:
                case BroodOf(dams=dams, sires=sires):
                    sources = [share.pool for share in (*dams, *sires)]
                case TakenFrom(pool=source):
                    sources = [source]
                case JoinedOf(parts=parts):
                    sources = [part.pool for part in parts]
                case FounderPool():
                    sources = []
            for source in sources:
                links[name].add(source)
                links[source].add(name)
        distance = {pool: 0}
        ring = [pool]
        while ring:
            ring = sorted({far for name in ring for far in links[name]} - set(distance))
            distance.update(dict.fromkeys(ring, max(distance.values()) + 1))
        near = [piece for piece in self._evidence if piece.pool in distance]
        near.sort(key=lambda piece: (distance[piece.pool], piece.label))
        return sorted(near[:_MOST_PIECES], key=lambda piece: piece.label)

    def _contradiction(self) -> tuple[str, ...]:
        """Find a minimal set of evidence, sorts among it by the names of their pools."""
        pieces: dict[str, Evidence | str] = {piece.label: piece for piece in self._evidence}
        for name in sorted(self._sorts):
            pieces.setdefault(name, name)

        def holds(kept: frozenset[str]) -> bool:
            chosen = [pieces[label] for label in sorted(kept)]
            evidence = [piece for piece in chosen if not isinstance(piece, str)]
            sorts = frozenset(piece for piece in chosen if isinstance(piece, str))
            try:
                for scenario in self._scenarios:
                    self._run(scenario, evidence, sorts, "")
            except ImpossibleEvidenceError:
                return False
            return True

        return smallest_contradiction(sorted(pieces), holds)


def posterior(
    model: TraitModel,
    pools: Sequence[CarrierPool],
    evidence: Sequence[Evidence] = (),
    *,
    only_trees: bool = False,
) -> Posterior:
    """Return what all animals of all pools carry, given all evidence together.

    Parameters
    ----------
    model
        A model without problems.
    pools
        All pools; each source of a pool is itself listed.
    evidence
        Tallies, declared genotypes and looks, each with a label of its own. Each animal
        enters one tally only.
    only_trees
        True refuses what no tree can hold, which bounds the time; False lets the engine
        approximate it, which can take minutes.

    Returns
    -------
    Posterior
        Laws of members, pairs and parents, with the assumptions.

    Raises
    ------
    DomainError
        If pools or evidence do not fit together or with the model.
    ContradictoryEvidenceError
        If the evidence has probability 0.
    TooLargeError
        If no tree holds it and `only_trees` is set.

    Notes
    -----
    The parents of a brood are animals drawn from pools; a brood enters as one multinomial
    factor; draws from a pool of n coincide with the probability that n gives; counts of a
    joined pool are convolved over its parts. The network of all this is solved exactly on
    a junction tree [1]_. Where that would be too large, fewer draws of the families in it
    are joined: of 5 the first 3, 2 or 1, the others being animals apart, each of the kinds
    that the pool has. Only then the engine approximates; see `Posterior.exact` and `error`.

    References
    ----------
    .. [1] Lauritzen & Sheehan (2003) Graphical models for genetic analyses.
       Statistical Science 18:489-514.

    Examples
    --------
    A plain brother of a recessive is a carrier with probability 2/3; nine plain young
    with a recessive dam change that:

    >>> from filialog.genetics import Condition, ConditionKind, Locus, LookRule, certain
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> fancy = Condition(locus="gene", kind=ConditionKind.HOM, alleles=("a",))
    >>> rules = (LookRule(look="fancy", conditions=(fancy,)), LookRule(look="plain"))
    >>> model = TraitModel(name="one", loci=(gene,), looks=rules)
    >>> def known(name, pair):
    ...     point = FrequencyPoint(weight=Fraction(1), law=certain((pair,)))
    ...     return CarrierPool(name=name, origin=FounderPool(points=(point,)), size=1)
    >>> def young(name, dam, sire, size=None):
    ...     pairs = {"dams": (PoolShare(pool=dam),), "sires": (PoolShare(pool=sire),)}
    ...     return CarrierPool(name=name, origin=BroodOf(**pairs), size=size)
    >>> pools = [known("m", ("A", "a")), known("f", ("A", "a")), young("he", "f", "m", 1),
    ...     known("tester", ("a", "a")), young("test", "tester", "he")]
    >>> from filialog.genetics.carriers.evidence import SeenLook, TallyEvidence
    >>> he_is = SeenLook(label="he", pool="he", look="plain")
    >>> nine = TallyEvidence(label="test", pool="test", looks=(("plain", 9),))
    >>> found = posterior(model, pools, [he_is, nine])
    >>> round(found.law_of("he").probability((("A", "a"),)), 6)
    0.003891
    >>> [(one.label, round(one.before, 3), round(one.after, 3))
    ...     for one in found.explained("he", "a")]
    [('he', 0.75, 0.667), ('test', 0.667, 0.004)]
    """
    named = check_pools(tuple(pools), model)
    last = Limits(only_trees=only_trees)
    return Posterior(model, named, check_evidence(evidence, named, model), last)
