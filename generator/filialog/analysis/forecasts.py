"""What the young of any pairing would be: looks, what they hide, and how the parents are kin."""

import json
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction
from itertools import product

from filialog.analysis.carriers import LAW, law_of_group
from filialog.analysis.composition import COMPOSITION
from filialog.analysis.forecast_rows import (
    ForecastRow,
    GenotypeForecast,
    HiddenForecast,
    LookForecast,
    Obstacle,
    PairRow,
    ParentRow,
    SexForecast,
)
from filialog.analysis.groups import hidden_alleles, is_prior
from filialog.analysis.looks import MODEL, Law, parents_law
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import SEXES
from filialog.analysis.pedigrees import FOUNDER_SHARES, PEDIGREE
from filialog.analysis.relations import relation_row
from filialog.analysis.rows import Assumption, GenotypeRow, Level
from filialog.analysis.sources import EVENTS, ORIGINS
from filialog.analysis.tables import Expectation
from filialog.analysis.tanks import HOLDINGS
from filialog.domain_error import DomainError
from filialog.genetics import (
    ContradictionError,
    GenotypeLaw,
    LawRow,
    Sex,
    ShownBy,
    TraitModel,
    as_parent,
    brood_components,
    condition_on_genotypes,
    condition_on_look,
    condition_on_sex,
    cross,
    format_genotype,
    genotype_rows,
    look_shares,
    looks_of_model,
    mixture,
    parse_genotype,
    pool_law,
    sex_of,
    summarise,
    survival,
)
from filialog.journal.births import first_births
from filialog.journal.events import EventId
from filialog.journal.parentage import Side
from filialog.journal.quantities import Count
from filialog.lineage import (
    Brood,
    Generation,
    Pedigree,
    Pool,
    RelationshipKind,
    Share,
    generation_label,
    kinship_table,
    relationship,
)

__all__ = ["FORECAST", "forecast_subject", "young_to_see_one"]

_SURE = Fraction(95, 100)
_MOST_YOUNG = 10**9
_EXACT_YOUNG = 400
"""Up to so many young the probability is a fraction, so that no rounding tips the scales."""
_MOST_GENOTYPES = 9
"""Of two loci with two alleles each: as many rows are read at a glance."""
_YOUNG = ", young"
"""The pool of the young; names of groups hold no comma."""


def forecast_subject(*, dams: Sequence[str], sires: Sequence[str], model: str | None) -> str:
    """Return the subject of a forecast; a name with a slash is a genotype written out."""
    return json.dumps([list(dict.fromkeys(dams)), list(dict.fromkeys(sires)), model])


def young_to_see_one(components: Iterable[tuple[Fraction, Fraction]]) -> int | None:
    """Return how many young of one pair show a look at least once with probability 0.95.

    In come the weight of each pair the parents can be, together 1, and the share of the look
    among its young. None where no number is enough.

    >>> young_to_see_one([(Fraction(1), Fraction(1, 4))])
    11
    """
    every = [(weight, 1 - share) for weight, share in components]
    never = sum((weight for weight, miss in every if miss == 1), Fraction(0))
    parts = [(weight, miss) for weight, miss in every if miss < 1]
    # The chance that none shows it comes down to that of the pairs that never give it.
    left = 1 - _SURE - never
    if left < 0 or (left == 0 and any(miss for _, miss in parts)):
        return None

    def enough(young: int) -> bool:
        if young <= _EXACT_YOUNG:
            return sum((w * miss**young for w, miss in parts), Fraction(0)) <= left
        none_seen = sum(
            float(w) * math.exp(young * math.log1p(float(miss - 1))) for w, miss in parts if miss
        )
        return none_seen <= float(left)

    high = 1
    while not enough(high):
        high *= 2
        if high > _MOST_YOUNG:
            return None
    low = high // 2
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if enough(middle) else (middle, high)
    return high


# --- the parents ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """The dams, or the sires."""

    side: Side
    sex: Sex
    names: tuple[str, ...]
    weights: tuple[Fraction, ...]
    by_number: bool
    """True where the book knows the number of each group."""

    @property
    def groups(self) -> tuple[str, ...]:
        return tuple(name for name in self.names if not _is_written(name))


def _is_written(name: str) -> bool:
    return "/" in name


def _side(reader: Reader, side: Side, names: tuple[str, ...]) -> _Side:
    counts = [None if _is_written(name) else _number(reader, side, name) for name in names]
    numbers = [count for count in counts if count]
    by_number = len(numbers) == len(names)
    numbers = numbers if by_number else [1] * len(names)
    return _Side(
        side=side,
        sex=Sex.FEMALE if side == "dams" else Sex.MALE,
        names=names,
        weights=tuple(Fraction(number, sum(numbers)) for number in numbers),
        by_number=by_number,
    )


def _number(reader: Reader, side: Side, group: str) -> int | None:
    """Return how many animals of a group can be the parent, where the book knows exactly."""
    count = _on_book(reader, group).exact
    sexes = reader.get(SEXES).get(group)
    if count is None or sexes is None or sexes.female_count is None or sexes.male_count is None:
        return count
    females, males = sexes.female_count.exact, sexes.male_count.exact
    if females is None or males is None or females + males != count:
        return count
    return females if side == "dams" else males


def _on_book(reader: Reader, group: str) -> Count:
    day = reader.journal("day").as_of
    total = Count.of(0)
    for row in reader.get(HOLDINGS, day.isoformat()):
        if row.group == group:
            total += row.count
    return total


def _law(reader: Reader, model_name: str, name: str, sex: Sex) -> Law:
    """Return what a parent of a group, or of a written genotype, can be."""
    if not _is_written(name):
        return parents_law(reader, model_name, (name,), sex, by=LAW)
    model = _model(reader, model_name)
    law = condition_on_genotypes(pool_law(model), parse_genotype(name, model))
    return Law(law=as_parent(law, model, sex), level=Level.CLAIMED)


def _side_law(reader: Reader, model_name: str, side: _Side) -> Law:
    laws = [_law(reader, model_name, name, side.sex) for name in side.names]
    parts = [
        (weight, one.law)
        for weight, one in zip(side.weights, laws, strict=True)
        if one.law is not None
    ]
    assumptions = dict.fromkeys(known for one in laws for known in one.assumptions)
    if len(laws) > 1 and not side.by_number:
        assumptions[Assumption.PARENTS_EQUALLY_LIKELY] = None
    return Law(
        law=mixture(parts) if len(parts) == len(laws) else None,
        assumptions=tuple(assumptions),
        contradiction=next((one.contradiction for one in laws if one.law is None), ()),
    )


def _model(reader: Reader, name: str) -> TraitModel:
    return reader.journal(f"trait model {name}").journal.traits[name].model


def _parent_rows(reader: Reader, model_name: str | None, side: _Side) -> tuple[ParentRow, ...]:
    checked = reader.journal("births and species")
    births = first_births(checked.names, checked.descent)
    species = checked.journal.species
    rows = []
    for name, weight in zip(side.names, side.weights, strict=True):
        law = _known_law(reader, model_name, name, side.sex)
        birth = births.get(name)
        adult: date | None = None
        if birth is not None and species is not None:
            adult = birth[0] + timedelta(days=species.earliest_maturity_days)
        genotypes: tuple[GenotypeRow, ...] = ()
        if law is not None and law.law is not None and model_name is not None:
            genotypes = tuple(
                GenotypeRow(genotype=row.text, probability=float(row.probability), look=row.look)
                for row in _law_rows(law.law, _model(reader, model_name))
            )
        rows.append(
            ParentRow(
                name=name,
                written=_is_written(name),
                weight=float(weight),
                genotypes=genotypes,
                level=_level(reader, model_name, name),
                count=None if _is_written(name) else _on_book(reader, name),
                adult_from=adult if adult is not None and adult > checked.as_of else None,
            )
        )
    return tuple(rows)


def _level(reader: Reader, model_name: str | None, name: str) -> Level:
    """Say how the genotype of a parent is known; its own claim counts, not that of ancestors."""
    if _is_written(name):
        return Level.CLAIMED
    return Level.INFERRED if model_name is None else law_of_group(reader, model_name, name).level


def _law_rows(law: GenotypeLaw, model: TraitModel) -> tuple[LawRow, ...]:
    """Return a law genotype by genotype, or in fewer rows where that is many."""
    rows = genotype_rows(law, model)
    return rows if len(rows) <= _MOST_GENOTYPES else summarise(law, model)


def _known_law(reader: Reader, model_name: str | None, name: str, sex: Sex) -> Law | None:
    """Return what a parent can be; None where nothing bears on it."""
    if model_name is None:
        return None
    try:
        law = _law(reader, model_name, name, sex)
    except DomainError:  # a genotype that the model does not know
        return None
    model = _model(reader, model_name)
    prior = Law(law=pool_law(model), assumptions=law.assumptions)
    of_sex = as_parent(pool_law(model), model, sex)
    same = law.law == of_sex and is_prior(prior, model)
    return None if same and not _is_written(name) else law


# --- what stands in the way -----------------------------------------------------------------

_Blocked = tuple[Obstacle, tuple[str, ...]]


def _model_name(reader: Reader, sides: Sequence[_Side], wanted: str | None) -> str | _Blocked:
    if wanted is not None:
        return wanted
    groups = [name for side in sides for name in side.groups]
    named = {reader.get(MODEL, group) for group in groups}
    names = sorted(filter(None, named))
    if not groups:
        traits = reader.journal("trait models").journal.traits
        names = sorted(name for name, page in traits.items() if not page.shipped)
    if len(names) == 1:
        return names[0]
    return (Obstacle.MODELS_DIFFER, tuple(names)) if names else (Obstacle.NO_MODEL, ())


def _impossible(reader: Reader, sides: Sequence[_Side]) -> _Blocked | None:
    """Say what keeps animals of these groups from being put together at all."""
    checked = reader.journal("sexes, origins and sizes")
    groups = dict.fromkeys(name for side in sides for name in side.groups)
    for group in groups:
        if min(origin.event.when.earliest for origin in reader.get(ORIGINS, group)) > checked.as_of:
            return Obstacle.NOT_YET, (group,)
    # Somebody who could have parented young hatched on the newest day can be a parent now.
    past = [one for one in reader.get(EVENTS) if one.when.earliest <= checked.as_of]
    for side in sides:
        wrong = [
            one for one in side.groups if not checked.parentage.can_be(one, side.side, past[-1])
        ]
        if wrong:
            which = Obstacle.NOT_A_DAM if side.side == "dams" else Obstacle.NOT_A_SIRE
            return which, tuple(wrong)
    dams, sires = (side.names for side in sides)
    if dams == sires and len(dams) == 1 and not _is_written(dams[0]):
        found = relationship(reader.get(PEDIGREE), dams[0], sires[0])
        if found.kind is RelationshipKind.SAME_ANIMAL:
            return Obstacle.ONE_ANIMAL, dams
    return None


def _unknown_genotypes(reader: Reader, model: str, sides: Sequence[_Side]) -> _Blocked | None:
    for side in sides:
        for name in side.names:
            if _is_written(name):
                try:
                    _law(reader, model, name, side.sex)
                except DomainError as error:
                    return Obstacle.GENOTYPE_NOT_READ, (name, str(error))
    unknown = dict.fromkeys(
        name
        for side in sides
        for name in side.names
        if _known_law(reader, model, name, side.sex) is None
    )
    return (Obstacle.NOTHING_KNOWN, tuple(unknown)) if unknown else None


# --- the row --------------------------------------------------------------------------------


def _forecast(reader: Reader, subject: str) -> ForecastRow:
    dam_names, sire_names, wanted = json.loads(subject)
    sides = (
        _side(reader, "dams", tuple(dam_names)),
        _side(reader, "sires", tuple(sire_names)),
    )
    model = _model_name(reader, sides, wanted)
    row = _without_looks(reader, model if isinstance(model, str) else None, sides)
    blocked = _impossible(reader, sides)
    if blocked is None and isinstance(model, str):
        blocked = _unknown_genotypes(reader, model, sides)
    elif blocked is None and not isinstance(model, str):
        blocked = model
    if blocked is not None:
        return replace(row, obstacle=blocked[0], concerns=blocked[1])
    assert isinstance(model, str)
    dam, sire = (_side_law(reader, model, side) for side in sides)
    if dam.law is None or sire.law is None:
        lacking = dam if dam.law is None else sire
        names = (sides[0] if dam.law is None else sides[1]).groups
        return replace(
            row,
            obstacle=Obstacle.CONTRADICTION,
            concerns=names,
            contradiction=lacking.contradiction,
        )
    try:
        return _with_looks(row, _model(reader, model), dam, sire)
    except ContradictionError:
        return replace(row, obstacle=Obstacle.BARREN)


FORECAST: NodeKind[ForecastRow] = NodeKind("forecast", _forecast)
"""What the young of a pairing would be; the subject is made by `forecast_subject`."""


def _without_looks(reader: Reader, model: str | None, sides: tuple[_Side, _Side]) -> ForecastRow:
    """Return all of a row that does not hang on genotypes."""
    species = reader.journal("species").journal.species
    size = None
    if species is not None and species.brood_low is not None and species.brood_high is not None:
        size = species.brood_low, species.brood_high
    inbreeding, average = _inbreeding(reader, sides)
    events, claims = _rests_on(reader, [name for side in sides for name in side.groups])
    return ForecastRow(
        dams=_parent_rows(reader, model, sides[0]),
        sires=_parent_rows(reader, model, sides[1]),
        obstacle=None,
        concerns=(),
        contradiction=(),
        model=model,
        looks=(),
        one_expectation=False,
        genotypes=(),
        hidden=(),
        sexes=(),
        dead_share=0.0,
        dead=(),
        pairs=_pairs(reader, sides),
        inbreeding=inbreeding,
        inbreeding_average=average,
        generation=_generation(reader, sides),
        brood_size=size,
        brood_source=species.brood_source if species is not None else "",
        species=species.name if species is not None else None,
        level=Level.INFERRED,
        assumptions=(Assumption.UNRELATED_FOUNDERS, Assumption.DIFFERENT_ANIMALS),
        events=events,
        claims=claims,
    )


def _with_looks(row: ForecastRow, model: TraitModel, dam: Law, sire: Law) -> ForecastRow:
    assert dam.law is not None
    assert sire.law is not None
    components = brood_components(dam.law, sire.law, model)
    born = cross(dam.law, sire.law, model)
    assumptions = dict.fromkeys((*dam.assumptions, *sire.assumptions))
    if len(components) > 1:
        assumptions[Assumption.ONE_PAIR] = None
    if not model.viability:
        assumptions[Assumption.EQUAL_VIABILITY] = None
    looks = looks_of_model(model)
    expectation = Expectation(
        looks=looks,
        components=components,
        average=tuple(
            sum((weight * shares[number] for weight, shares in components), Fraction(0))
            for number in range(len(looks))
        ),
        assumptions=tuple(assumptions),
    )
    return replace(
        row,
        looks=_looks(expectation, row.brood_size),
        one_expectation=len(components) == 1,
        genotypes=tuple(
            GenotypeForecast(genotype=one.text, probability=float(one.probability), look=one.look)
            for one in _law_rows(born.young, model)
        ),
        hidden=_hidden(born.young, model),
        sexes=_sexes(born.young, model),
        dead_share=float(born.dead_share),
        dead=_dead(dam.law, sire.law, model) if born.dead_share else (),
        assumptions=(*expectation.assumptions, *row.assumptions),
    )


def _looks(expectation: Expectation, size: tuple[int, int] | None) -> tuple[LookForecast, ...]:
    rows = []
    for number, (look, low, high) in enumerate(expectation.ranges):
        if high == 0.0:
            continue
        rows.append(
            LookForecast(
                look=look,
                low=low,
                high=high,
                average=float(expectation.average[number]),
                brood_low=low * size[0] if size is not None else None,
                brood_high=high * size[1] if size is not None else None,
                young_to_see=young_to_see_one(
                    (weight, shares[number]) for weight, shares in expectation.components
                ),
            )
        )
    return tuple(rows)


def _hidden(young: GenotypeLaw, model: TraitModel) -> tuple[HiddenForecast, ...]:
    if model.shown_by is ShownBy.DAM:
        return tuple(
            HiddenForecast(look=None, allele=allele, share=share)
            for allele, share in hidden_alleles(young, model)
        )
    return tuple(
        HiddenForecast(look=look, allele=allele, share=share)
        for look, chance in look_shares(young, model)
        if chance
        for allele, share in hidden_alleles(condition_on_look(young, model, [look]), model)
    )


def _sexes(young: GenotypeLaw, model: TraitModel) -> tuple[SexForecast, ...]:
    if model.sex is None:
        return ()
    rows = []
    for sex in Sex:
        share = sum((p for g, p in young.probabilities if sex_of(g, model) is sex), Fraction(0))
        if share == 0:
            continue
        looks: tuple[tuple[str, float], ...] = ()
        if model.shown_by is ShownBy.OWN:
            of_sex = condition_on_sex(young, model, sex)
            looks = tuple((look, float(p)) for look, p in look_shares(of_sex, model) if p)
        rows.append(SexForecast(sex=sex, share=float(share), looks=looks))
    return tuple(rows)


def _dead(dam: GenotypeLaw, sire: GenotypeLaw, model: TraitModel) -> tuple[tuple[str, float], ...]:
    """Return the genotypes that die, with the share of all eggs that die of each."""
    eggs = cross(dam, sire, replace(model, lethal=(), viability=())).young
    return tuple(
        (format_genotype(genotype, model), float(share * (1 - survival(genotype, model))))
        for genotype, share in eggs.probabilities
        if survival(genotype, model) < 1
    )


# --- lineage --------------------------------------------------------------------------------


def _pairs(reader: Reader, sides: tuple[_Side, _Side]) -> tuple[PairRow, ...]:
    pedigree = reader.get(PEDIGREE)
    return tuple(
        PairRow(dam=dam, sire=sire, relation=relation_row(relationship(pedigree, dam, sire)))
        for dam, sire in product(sides[0].groups, sides[1].groups)
    )


def _inbreeding(
    reader: Reader, sides: tuple[_Side, _Side]
) -> tuple[tuple[float, float] | None, float | None]:
    """Return the bounds of the inbreeding of the young, and its mean over the pairs."""
    for side in sides:
        if side.groups != side.names:
            return None, None
        shares = (row for group in side.groups for row in reader.get(FOUNDER_SHARES, group))
        if any(row.founder is None for row in shares):
            return None, None
    table = kinship_table(reader.get(PEDIGREE))
    weighted = [
        (float(w * v), table.between(dam, sire))
        for dam, w in zip(sides[0].names, sides[0].weights, strict=True)
        for sire, v in zip(sides[1].names, sides[1].weights, strict=True)
    ]
    low = min(found.low for _, found in weighted)
    high = max(found.high for _, found in weighted)
    return (low, high), sum(weight * found.high for weight, found in weighted)


def _generation(reader: Reader, sides: tuple[_Side, _Side]) -> Generation | None:
    if any(side.groups != side.names for side in sides):
        return None
    dams, sires = (
        tuple(
            Share(pool=name, weight=weight)
            for name, weight in zip(side.names, side.weights, strict=True)
        )
        for side in sides
    )
    young = Pool(name=_YOUNG, origin=Brood(dams=dams, sires=sires))
    return generation_label(Pedigree(pools=(*reader.get(PEDIGREE).pools, young)), _YOUNG)


def _rests_on(reader: Reader, groups: Sequence[str]) -> tuple[tuple[EventId, ...], tuple[str, ...]]:
    """Return the events that made the groups and their ancestors, and the pages that claim."""
    seen = dict.fromkeys(groups)
    waiting = list(seen)
    events: dict[EventId, None] = {}
    claims = []
    for group in waiting:
        events.update(dict.fromkeys(origin.event.id for origin in reader.get(ORIGINS, group)))
        page = reader.journal(f"page of {group}").journal.groups.get(group)
        if page is not None and page.genotype is not None:
            claims.append(group)
        new = [one for one in reader.get(COMPOSITION, group).behind if one not in seen]
        seen.update(dict.fromkeys(new))
        waiting.extend(new)
    return tuple(events), tuple(claims)
