"""Pools and evidence written as one network of tables."""

from collections.abc import Iterable, Mapping, Sequence
from functools import reduce
from math import log
from typing import TYPE_CHECKING

from filialog.genetics.carriers.bases import BaseLaws, Variables
from filialog.genetics.carriers.blocks import CarrierBlock
from filialog.genetics.carriers.drawings import Draw, Slot, SlotLaw
from filialog.genetics.carriers.evidence import Evidence
from filialog.genetics.carriers.families import Family, FamilyState, families_of
from filialog.genetics.carriers.histories import Kind, Part
from filialog.genetics.carriers.matings import BroodPlan, ParentPlan, brood_plan
from filialog.genetics.carriers.pools import (
    BroodOf,
    CarrierPool,
    Parents,
    ordered,
)
from filialog.genetics.inference import Factor, Network
from filialog.genetics.trait_model import Sex, TraitModel

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["Compiled"]

_SEX = {"dam": Sex.FEMALE, "sire": Sex.MALE, "": None}


class Compiled:
    """One network for all pools, under one answer to what is not known of matings."""

    def __init__(
        self,
        model: TraitModel,
        blocks: Sequence[CarrierBlock],
        pools: Mapping[str, CarrierPool],
        evidence: Sequence[Evidence],
        *,
        sorted_pools: frozenset[str],
        unknown: Parents,
        joined: Mapping[str, int],
        last: str | None = None,
    ) -> None:
        self.model, self.blocks, self.pools = model, blocks, pools
        self.states: dict[str, int] = {}
        self.factors: list[Factor] = []
        self.log_scale = 0.0
        """What was taken out of the factors: to be added to the logarithm of the evidence."""
        self.impossible = False
        """Whether no way is left in which the counts can have come about."""
        self.member: dict[str, tuple[str, ...]] = {}
        """For each pool the variables of a member at random: one for each block, or with
        one block for each animal that it may be, see `mixed`."""
        self.mixed: dict[str, tuple[str, tuple[tuple[str, ...], ...]]] = {}
        """For pools whose member may be one of several animals the variable that tells which,
        and those animals, block by block."""
        self.fixed: dict[str, tuple[tuple[float, tuple[str, ...]], ...]] = {}
        """The same for pools where the chance of each of the animals depends on nothing."""
        self.choice: dict[str, tuple[str | None, tuple[str, ...]]] = {}
        """For each parent of a brood the variable that tells its pool, and the pools."""
        # What is only forecast draws last, so that it does not bear on what was.
        order = tuple(sorted(ordered(pools), key=lambda name: name == last))
        self.plans = _plans(pools, order, unknown)
        draws = [
            draw
            for plan in self.plans.values()
            for parent in (*plan.dams, *plan.sires)
            for draw in parent.draws
        ]
        self.families = families_of(
            model,
            pools,
            order,
            evidence=evidence,
            draws=draws,
            sorted_pools=sorted_pools,
            joined=joined,
        )
        alias = _aliases(self.plans, self.families)
        self.bases = BaseLaws(
            model,
            blocks,
            pools,
            plans=self.plans,
            degrees=_degrees(self.families),
            alias=alias,
        )
        self.exact = (
            all(family.exact for family in self.families)
            and all(plan.exact for plan in self.plans.values())
            and self.bases.exact
        )
        self.switches: dict[str, Family] = {}
        """The variables that tell which animal a draw took, each with its family."""
        others = all(plan.exact for plan in self.plans.values()) and self.bases.exact
        self.error = max([0.0 if others else 1.0, *(family.error for family in self.families)])
        """How probable it is at most, before any count, that what was left out matters to a
        number; 1 where that is not known."""
        self._slots: set[str] = set()
        self._picked: dict[str, tuple[Family, int, str | None]] = {}
        for number, family in enumerate(self.families):
            self._family(family, f"family {number}")
        for name in order:
            if name in self.plans:
                for parent in (*self.plans[name].dams, *self.plans[name].sires):
                    self._parent(parent)
        self.factors.extend(self.bases.factors(order))
        self.states.update(self.bases.states)
        for number, family in enumerate(self.families):
            self._members(family, f"family {number}")

    def network(self) -> Network:
        """Return the network."""
        return Network(cardinalities=self.states, factors=tuple(self.factors))

    def dam_and_sire(self, brood: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Return the variables of the first dam and the first sire of a brood, by block."""
        plan, blocks = self.plans[brood], range(len(self.blocks))
        return (
            tuple(self.bases.variable(plan.dams[0].name, block) for block in blocks),
            tuple(self.bases.variable(plan.sires[0].name, block) for block in blocks),
        )

    def _add(self, variables: Sequence[str], table: "Array") -> None:
        largest = float(table.max(initial=0.0))
        if largest > 0:
            self.log_scale += log(largest)
            table = table / largest
        self.factors.append(Factor(variables=tuple(variables), table=table))

    # --- counts and draws of a family

    def _family(self, family: Family, name: str) -> None:
        import numpy as np  # noqa: PLC0415

        if not family.states:
            self.impossible = True
            return
        many = len(family.states) > 1
        heaviest = max(state.weight for state in family.states)
        self.log_scale += log(heaviest.numerator) - log(heaviest.denominator)
        if many:
            self.states[name] = len(family.states)
            weights = np.array([float(state.weight / heaviest) for state in family.states])
            self.factors.append(Factor(variables=(name,), table=weights))
        for draw_number, draw in enumerate(family.draws):
            self._picked[draw.name] = (family, draw_number, name if many else None)
        kinds = [
            [
                *((kind, "", power) for kind, power in state.powers),
                *((slot.kind, slot.role, 0) for slot in _sure_slots(state)),
            ]
            for state in family.states
        ]
        for base in dict.fromkeys(kind.base for some in kinds for kind, _, _ in some):
            for block in range(len(self.blocks)):
                self._likelihood(base, block, kinds, name if many else None)
        for norm in family.norms:
            terms = [(given, kind, float(weight)) for given, kind, weight in norm.terms]
            variables, chance = self._chance(terms)
            positive = chance > 0
            table = np.where(positive, chance, 1.0) ** -norm.power * positive
            self._add(variables, table)
        for seen in family.at_least:
            variables, ratio = self._chance([(seen.given, seen.kind, 1.0)])
            if seen.number is None:
                self._add(variables, (ratio > 0).astype(float))
            else:
                from scipy.stats import binom  # noqa: PLC0415

                self._add(variables, binom.sf(seen.least - 1, seen.number, np.minimum(ratio, 1)))

    def _likelihood(
        self,
        base: str,
        block: int,
        kinds: Sequence[Sequence[tuple[Kind, str, int]]],
        family: str | None,
    ) -> None:
        """Multiply P(kind)^count into the network for one origin and one block."""
        import numpy as np  # noqa: PLC0415

        variables = self.bases.context(base, block)
        rows = []
        for some in kinds:
            row = np.zeros([self.bases.states[name] for name in variables])
            for kind, role, power in some:
                if kind.base == base:
                    chance = self.bases.chance(kind, _SEX[role], block)
                    with np.errstate(divide="ignore"):
                        logs = np.log(chance)
                    row = row + (power * np.where(chance > 0, logs, 0.0))
                    row = np.where((chance > 0) | (power < 0), row, -np.inf)
            rows.append(row)
        table = np.stack(rows)
        if not table.any():
            return
        largest = float(table.max())
        if largest == -np.inf:
            self.impossible = True
            return
        self.log_scale += largest
        table = np.exp(table - largest)
        if family is None:
            self.factors.append(Factor(variables=variables, table=table[0]))
        else:
            self.factors.append(Factor(variables=(family, *variables), table=table))

    def _chance(self, terms: Iterable[tuple[Kind, Kind, float]]) -> tuple[Variables, "Array"]:
        """Return weight · P(kind) / P(given), added up, over the parents of all origins."""
        import numpy as np  # noqa: PLC0415

        parts = []
        for given, kind, weight in terms:
            for_term: list[tuple[Variables, Array]] = [((), np.array(weight))]
            for block in range(len(self.blocks)):
                before = self.bases.chance(given, None, block)
                ratio = np.divide(
                    self.bases.chance(kind, None, block),
                    before,
                    out=np.zeros_like(before),
                    where=before > 0,
                )
                for_term.append((self.bases.context(kind.base, block), ratio))
            parts.append(for_term)
        scope = tuple(dict.fromkeys(v for term in parts for names, _ in term for v in names))
        place = {name: number for number, name in enumerate(scope)}
        shape = [self.bases.states[name] for name in scope]

        def spread(names: Variables, table: "Array") -> "Array":
            order = sorted(range(len(names)), key=lambda axis: place[names[axis]])
            wide = [1] * len(scope)
            for name in names:
                wide[place[name]] = self.bases.states[name]
            return table.transpose(order).reshape(wide)

        total = np.zeros(shape)
        for term in parts:
            total = total + reduce(np.multiply, [spread(*factor) for factor in term])
        return scope, total

    # --- animals

    def _slot(self, slot: Slot, block: int) -> str:
        """Return the variable of an animal, made when it is first asked for."""
        import numpy as np  # noqa: PLC0415

        kind = slot.kind
        name = f"{_slot_name(slot)}:{block}"
        if name not in self._slots:
            self._slots.add(name)
            self.states[name] = self.blocks[block].count
            table = self.bases.law(kind, _SEX[slot.role], block)
            if slot.mixed:
                laws = [
                    float(share) * self.bases.law(one, _SEX[slot.role], block)
                    for one, share in slot.mixed
                ]
                table = reduce(np.add, laws)
            variables = (*self.bases.context(kind.base, block), name)
            self.factors.append(Factor(variables=variables, table=table))
        return name

    def _parent(self, parent: ParentPlan) -> None:
        import numpy as np  # noqa: PLC0415

        choice = None
        if len(parent.draws) > 1:
            choice = f"{parent.name}/from"
            self.states[choice] = len(parent.draws)
            table = np.array([float(share) for share in parent.shares])
            self.factors.append(Factor(variables=(choice,), table=table))
        self.choice[parent.name] = (choice, tuple(draw.pool for draw in parent.draws))
        for place, draw in enumerate(parent.draws):
            if draw.name not in self._picked:
                continue
            family, number, state = self._picked[draw.name]
            self.switches[f"{draw.name}/which"] = family
            laws = [one.drawn[number] for one in family.states]
            slots = tuple(dict.fromkeys(slot for law in laws for slot, _ in law))
            given: list[tuple[str, int]] = [] if choice is None else [(choice, place)]
            index = f"{draw.name}/which"
            if len(slots) > 1:
                self._which(index, slots, laws, state, family.parts[number])
            for at, slot in enumerate(slots):
                chosen = [*given, (index, at)] if len(slots) > 1 else given
                self._select(parent.name, slot, chosen)

    def _select(
        self,
        target: str,
        slot: Slot,
        given: Sequence[tuple[str, int]],
    ) -> None:
        """Let a genotype be that of a slot, where the variables given have their values."""
        for block in range(len(self.blocks)):
            source, own_name = self._slot(slot, block), self.bases.variable(target, block)
            if source != own_name:
                self._equal(own_name, source, given, block)

    def _which(
        self,
        index: str,
        slots: Sequence[Slot],
        laws: Sequence[SlotLaw],
        state: str | None,
        parts: Sequence[Part],
    ) -> None:
        """Make the variable that tells which slot was chosen.

        From a mixture whose kinds were sorted since their shares were known it depends on
        how many of each kind there were.
        """
        import numpy as np  # noqa: PLC0415

        self.states[index] = len(slots)
        if any(part.given != part.kind for part in parts):
            tables = [self._chance([(part.given, part.kind, float(part.weight))]) for part in parts]
            variables, whole = self._chance(
                [(part.given, part.kind, float(part.weight)) for part in parts]
            )
            shares = np.stack([_widened(t, v, variables) + 0 * whole for v, t in tables], axis=-1)
            table = np.divide(
                shares,
                whole[..., None],
                out=np.full_like(shares, 1 / len(slots)),
                where=whole[..., None] > 0,
            )
            self.factors.append(Factor(variables=(*variables, index), table=table))
            return
        rows = np.array([[float(dict(law).get(slot, 0)) for slot in slots] for law in laws])
        if state is None:
            self.factors.append(Factor(variables=(index,), table=rows[0]))
        else:
            self.factors.append(Factor(variables=(state, index), table=rows))

    def _equal(
        self, target: str, source: str, given: Sequence[tuple[str, int]], block: int
    ) -> None:
        import numpy as np  # noqa: PLC0415

        count = self.blocks[block].count
        self.states[target] = count
        table = np.ones([*(self.states[name] for name, _ in given), count, count])
        table[tuple(value for _, value in given)] = np.eye(count)
        variables = (*(name for name, _ in given), source, target)
        self.factors.append(Factor(variables=variables, table=table))

    # --- members at random

    def _members(self, family: Family, name: str) -> None:
        for number, pool in enumerate(family.pools):
            laws = [state.members[number] for state in family.states]
            if laws:
                self._member(pool, family, laws, name)

    def _member(
        self,
        pool: str,
        family: Family,
        laws: Sequence[SlotLaw],
        name: str,
    ) -> None:
        slots = tuple(dict.fromkeys(slot for law in laws for slot, _ in law))
        blocks = range(len(self.blocks))
        if not slots:
            return
        if len(slots) == 1:
            self.member[pool] = tuple(self._slot(slots[0], block) for block in blocks)
            return
        parts = family.shares.get(pool, ())
        first = dict(laws[0])
        if all(dict(law) == first for law in laws) and all(p.given == p.kind for p in parts):
            self.fixed[pool] = tuple(
                (float(share), tuple(self._slot(slot, block) for block in blocks))
                for slot, share in first.items()
            )
            self.member[pool] = tuple(names[0] for _, names in self.fixed[pool])
            return
        which = f"{pool}/which member"
        self._which(which, slots, laws, name if len(laws) > 1 else None, parts)
        self.mixed[pool] = (
            which,
            tuple(tuple(self._slot(slot, block) for block in blocks) for slot in slots),
        )
        # Each animal is looked at alone: one variable for all would tie them together.
        self.member[pool] = tuple(
            self._if_chosen(pool, which, number, self._slot(slot, 0))
            for number, slot in enumerate(slots)
            if len(self.blocks) == 1
        )

    def _if_chosen(self, pool: str, which: str, number: int, animal: str) -> str:
        """Return a variable that is the animal's genotype if it is chosen, else one state more."""
        import numpy as np  # noqa: PLC0415

        name, count = f"{pool}/member {number}", self.blocks[0].count
        self.states[name] = count + 1
        table = np.zeros((self.states[which], count, count + 1))
        table[:, :, count] = 1.0
        table[number] = np.eye(count, count + 1)
        self.factors.append(Factor(variables=(which, animal, name), table=table))
        return name


def _slot_name(slot: Slot) -> str:
    kind = slot.kind
    parts = [
        "animal",
        kind.base,
        "" if kind.looks is None else "|".join(sorted(kind.looks)),
        "" if kind.genotypes is None else repr(sorted(kind.genotypes)),
        slot.role,
        "+".join(slot.pools),
        slot.number,
    ]
    return "\x1f".join(parts)


def _sure_slots(state: FamilyState) -> tuple[Slot, ...]:
    """Return the animals of which a draw is one for certain."""
    return tuple(dict.fromkeys(law[0][0] for law in state.drawn if len(law) == 1))


def _aliases(plans: Mapping[str, BroodPlan], families: Sequence[Family]) -> dict[str, str]:
    """Return the animal that each parent is for certain, for those that are."""
    only: dict[str, Slot] = {}
    for family in families:
        for number, draw in enumerate(family.draws):
            slots = {slot for state in family.states for slot, _ in state.drawn[number]}
            if len(slots) == 1:
                only[draw.name] = slots.pop()
    found: dict[str, str] = {}
    for plan in plans.values():
        of_brood: set[str] = set()
        for parent in (*plan.dams, *plan.sires):
            slot = only.get(parent.draws[0].name) if len(parent.draws) == 1 else None
            # An animal that is both dam and sire keeps two variables that are equal.
            if slot is not None and _slot_name(slot) not in of_brood:
                found[parent.name] = _slot_name(slot)
                of_brood.add(found[parent.name])
    return found


def _widened(table: "Array", names: Variables, scope: Variables) -> "Array":
    place = {name: number for number, name in enumerate(scope)}
    order = sorted(range(len(names)), key=lambda axis: place[names[axis]])
    wide = [1] * len(scope)
    for name, length in zip(names, table.shape, strict=True):
        wide[place[name]] = length
    return table.transpose(order).reshape(wide)


def _plans(
    pools: Mapping[str, CarrierPool], order: Sequence[str], unknown: Parents
) -> dict[str, BroodPlan]:
    plans: dict[str, BroodPlan] = {}
    dams: dict[str, list[Draw]] = {}
    with_each: dict[str, set[str]] = {}
    for name in order:
        origin = pools[name].origin
        if isinstance(origin, BroodOf):
            for other in origin.carried_with:
                with_each.setdefault(name, set()).add(other)
                with_each.setdefault(other, set()).add(name)
    for name in order:
        if isinstance(pools[name].origin, BroodOf):
            others = [
                draw for other in sorted(with_each.get(name, ())) for draw in dams.get(other, ())
            ]
            plan = brood_plan(pools[name], pools, unknown=unknown, not_dams=others)
            dams[name] = [draw for dam in plan.dams for draw in dam.draws]
            plans[name] = plan
    return plans


def _degrees(families: Sequence[Family]) -> dict[str, int]:
    """Return how often the shares of several parents of a brood are multiplied, by brood."""
    found: dict[str, int] = {}
    for family in families:
        for state in family.states:
            for base, degree in _degree_of(state).items():
                found[base] = max(found.get(base, 0), degree)
    return found


def _degree_of(state: FamilyState) -> dict[str, int]:
    found: dict[str, int] = {}
    for kind, power in state.powers:
        found[kind.base] = found.get(kind.base, 0) + abs(power)
    slots = dict.fromkeys(slot for law in state.drawn for slot, _ in law)
    for slot in slots:
        found[slot.kind.base] = found.get(slot.kind.base, 0) + 1
    for members in state.members:
        for slot, _ in members:
            found.setdefault(slot.kind.base, 0)
    return {base: degree + 1 for base, degree in found.items()}
