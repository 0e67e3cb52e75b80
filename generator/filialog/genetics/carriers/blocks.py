"""Linkage groups that must be counted together, as tables of floating-point numbers."""

from collections.abc import Iterable
from itertools import product
from typing import TYPE_CHECKING

from filialog.genetics.chromosomes import Chromosome
from filialog.genetics.genotype_law import GenotypeLaw
from filialog.genetics.model_tables import Block, tables_of
from filialog.genetics.showing import look_chances, sex_of
from filialog.genetics.trait_model import Genotype, Sex, TraitModel
from filialog.genetics.transmission import transmission

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["CarrierBlock", "blocks_of"]


class CarrierBlock:
    """One set of linkage groups: its genotypes, what they pass on, show and survive."""

    def __init__(self, model: TraitModel, groups: tuple[int, ...], *, shows: bool) -> None:
        import numpy as np  # noqa: PLC0415 - only computations pay for it

        self.model = model
        self.shows = shows
        """Whether looks depend on this block."""
        tables = [transmission(model, group) for group in groups]
        chromosomes: list[Chromosome] = [tables_of(model).chromosomes[group] for group in groups]
        self.places = tuple(sorted(place for one in chromosomes for place in one.places))
        self._rest = [
            (one.places, one.genotypes[0])
            for number, one in enumerate(tables_of(model).chromosomes)
            if number not in groups
        ]
        by_group = [tuple(sorted(one.places)) for one in chromosomes]
        self.genotypes = tuple(
            self._merged(parts, by_group) for parts in product(*(one.genotypes for one in tables))
        )
        """Genotypes of the loci at `places`."""
        young = np.ones((1, 1, 1))
        for table in tables:
            eggs, sperms = (np.array(rows, dtype=float) for rows in (table.eggs, table.sperms))
            count = len(table.genotypes)
            one = np.zeros((count, count, count))
            for egg, row in enumerate(table.unions):
                for sperm, genotype in enumerate(row):
                    one[:, :, genotype] += eggs[:, egg, None] * sperms[None, :, sperm]
            young = np.einsum("abc,xyz->axbycz", young, one).reshape(
                young.shape[0] * count, young.shape[1] * count, young.shape[2] * count
            )
        block = Block(tuple(chromosomes), model)
        living = np.array([block.living(g) / block.living_scale for g in self.genotypes])
        young = young * living
        whole = young.sum(axis=2, keepdims=True)
        self.young: Array = np.divide(young, whole, out=np.zeros_like(young), where=whole > 0)
        """By dam and sire the law of a living young; zeros where none can live."""
        self._number = {genotype: place for place, genotype in enumerate(self.genotypes)}
        self._looks: dict[frozenset[str], Array] = {}

    def _merged(self, parts: Iterable[Genotype], by_group: list[tuple[int, ...]]) -> Genotype:
        at = {
            place: pair
            for places, part in zip(by_group, parts, strict=True)
            for place, pair in zip(places, part, strict=True)
        }
        return tuple(at[place] for place in self.places)

    @property
    def count(self) -> int:
        """Number of genotypes."""
        return len(self.genotypes)

    def part(self, genotype: Genotype) -> Genotype:
        """Return the part of a genotype of the model that this block holds."""
        return tuple(genotype[place] for place in self.places)

    def full(self, genotype: Genotype) -> Genotype:
        """Return a genotype of the model with this part, the rest being anything."""
        pairs: list[tuple[str, str]] = [("", "")] * len(self.model.loci)
        for places, other in self._rest:
            for place, pair in zip(places, other, strict=True):
                pairs[place] = pair
        for place, pair in zip(self.places, genotype, strict=True):
            pairs[place] = pair
        return tuple(pairs)

    def chances(self, looks: frozenset[str]) -> "Array":
        """Return Pr(one of the looks | genotype) by genotype; ones where it does not matter."""
        import numpy as np  # noqa: PLC0415

        if looks not in self._looks:
            chances = np.ones(self.count)
            if self.shows:
                for place, genotype in enumerate(self.genotypes):
                    shown = look_chances(self.full(genotype), self.model)
                    chances[place] = float(sum(chance for look, chance in shown if look in looks))
            self._looks[looks] = chances
        return self._looks[looks]

    def among(self, genotypes: frozenset[Genotype]) -> "Array":
        """Return 1 for the genotypes that a declaration allows, else 0."""
        import numpy as np  # noqa: PLC0415

        allowed = {self.part(genotype) for genotype in genotypes}
        return np.array([float(genotype in allowed) for genotype in self.genotypes])

    def of_sex(self, sex: Sex) -> "Array | None":
        """Return 1 for the genotypes of a sex, else 0; None where the block does not decide it."""
        import numpy as np  # noqa: PLC0415

        system = self.model.sex
        if system is None or system.locus not in {self.model.loci[p].name for p in self.places}:
            return None
        return np.array(
            [float(sex_of(self.full(genotype), self.model) is sex) for genotype in self.genotypes]
        )

    def marginal(self, law: GenotypeLaw) -> "Array":
        """Return the law of the block's part under a law of the model."""
        import numpy as np  # noqa: PLC0415

        found = np.zeros(self.count)
        for genotype, probability in law.probabilities:
            found[self._number[self.part(genotype)]] += float(probability)
        return found


def blocks_of(model: TraitModel, *, joined: bool = False) -> tuple[CarrierBlock, ...]:
    """Return the blocks of a model: groups are tied by looks and by deaths that need both.

    With `joined` all groups are one block.
    """
    tables = tables_of(model)
    if joined:
        return (CarrierBlock(model, tuple(range(len(tables.groups))), shows=True),)
    asked = {condition.locus for rule in model.looks for condition in rule.conditions}
    if model.sex is not None and any(
        condition.kind.value == "sex" for rule in model.looks for condition in rule.conditions
    ):
        asked.add(model.sex.locus)
    number_of = {name: at for at, group in enumerate(tables.groups) for name in group.loci}
    shown = {number_of[name] for name in asked}
    sets = [
        {number_of[model.loci[place].name] for place in block.places} for block in tables.blocks
    ]
    touched = [one for one in sets if one & shown]
    rest = [one for one in sets if not one & shown]
    together = [(set().union(*touched), True)] if touched else []
    found = [*together, *((one, False) for one in rest)]
    return tuple(
        CarrierBlock(model, tuple(sorted(one)), shows=shows)
        for one, shows in sorted(found, key=lambda item: min(item[0]))
    )
