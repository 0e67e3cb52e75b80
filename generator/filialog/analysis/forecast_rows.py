"""Rows of a forecast: what the young of a pairing would be, before anybody is put together."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from filialog.analysis.relation_rows import RelationRow
from filialog.analysis.rows import Assumption, GenotypeRow, Level
from filialog.genetics import Sex
from filialog.journal.events import EventId
from filialog.journal.quantities import Count
from filialog.lineage import Generation

__all__ = [
    "ForecastRow",
    "GenotypeForecast",
    "HiddenForecast",
    "LookForecast",
    "Obstacle",
    "PairRow",
    "ParentRow",
    "SexForecast",
]


class Obstacle(StrEnum):
    """Why the looks of the young cannot be forecast."""

    NO_MODEL = "no-model"
    """No trait model speaks of the parents."""
    MODELS_DIFFER = "models-differ"
    """The parents are spoken of by different trait models."""
    GENOTYPE_NOT_READ = "genotype-not-read"
    """A parent written as a genotype does not fit the model."""
    NOTHING_KNOWN = "nothing-known"
    """Nothing bears on the genotype of a parent."""
    CONTRADICTION = "contradiction"
    """What is recorded of a parent cannot all be right."""
    BARREN = "barren"
    """No young of these parents would live."""
    NOT_A_DAM = "not-a-dam"
    """A group named as dams holds no females by what was recorded."""
    NOT_A_SIRE = "not-a-sire"
    """A group named as sires holds no males by what was recorded."""
    ONE_ANIMAL = "one-animal"
    """Dam and sire are the same single animal."""
    NOT_YET = "not-yet"
    """A group does not exist yet on the day."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ParentRow:
    """A group that can give the dam or the sire, or a genotype written in its place."""

    name: str
    """The group, or the genotype as written."""
    written: bool
    """True for a genotype that stands for an animal that is not in the journal."""
    weight: float
    """Probability that the parent is of this group, in (0, 1]."""
    genotypes: tuple[GenotypeRow, ...]
    """What it can be; empty where nothing is known or no model speaks of it."""
    level: Level
    count: Count | None
    """Animals of the group on the book that day; None for a written genotype."""
    adult_from: date | None
    """First day on which its animals can breed, where that is still to come."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookForecast:
    """A look among the young of the pairing."""

    look: str
    low: float
    """Lowest share in [0, 1] over the pairs the parents can be."""
    high: float
    """Highest share."""
    average: float
    """Share over many pairs."""
    brood_low: float | None
    """Young of the look in a small brood of the species at the lowest share."""
    brood_high: float | None
    """Young of the look in a large brood of the species at the highest share."""
    young_to_see: int | None
    """Young of one pair among which at least one shows it with probability 0.95 or more;
    None where no number is enough, because too many of the possible pairs never give it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GenotypeForecast:
    """A genotype among the living young."""

    genotype: str
    probability: float
    """Over many pairs, in (0, 1]."""
    look: str | None
    """The look it shows; None where it is not certain."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HiddenForecast:
    """An allele that young of one look carry unseen."""

    look: str | None
    """The look; None for all young, where their look is that of the dam's genotype."""
    allele: str
    share: float
    """Share of the young of that look that carry it unseen, in (0, 1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SexForecast:
    """One sex of the young, in a model with sex chromosomes."""

    sex: Sex
    share: float
    """Share of the living young, in (0, 1]."""
    looks: tuple[tuple[str, float], ...]
    """Share of each look within the sex; empty where the dam's genotype gives the look."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PairRow:
    """How a group of dams and a group of sires are related."""

    dam: str
    sire: str
    relation: RelationRow
    """What the sire is to the dam."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ForecastRow:
    """What the young of a pairing would be."""

    dams: tuple[ParentRow, ...]
    sires: tuple[ParentRow, ...]
    obstacle: Obstacle | None
    """What stands in the way of forecasting looks; None where nothing does."""
    concerns: tuple[str, ...]
    """The groups, models or words that the obstacle is about."""
    contradiction: tuple[EventId, ...]
    """Events that cannot all be right."""
    model: str | None
    looks: tuple[LookForecast, ...]
    """In the order of the model, looks that no pair gives left out; empty with an obstacle."""
    one_expectation: bool
    """True where every pair the parents can be gives the same shares."""
    genotypes: tuple[GenotypeForecast, ...]
    hidden: tuple[HiddenForecast, ...]
    sexes: tuple[SexForecast, ...]
    """Empty in a model without sex chromosomes."""
    dead_share: float
    """Share of the eggs that die because of their genotype, in [0, 1]."""
    dead: tuple[tuple[str, float], ...]
    """The genotypes that die, each with its share of all eggs."""
    pairs: tuple[PairRow, ...]
    inbreeding: tuple[float, float] | None
    """Lowest and highest coefficient of the young over the possible pairs; None where ancestors
    are not known."""
    inbreeding_average: float | None
    """Over many pairs, each brood of unknown mating taken to have one sire."""
    generation: Generation | None
    """Of the young; None where a parent is a written genotype."""
    brood_size: tuple[int, int] | None
    """Young of an ordinary brood of the species."""
    brood_source: str
    species: str | None
    level: Level
    assumptions: tuple[Assumption, ...]
    events: tuple[EventId, ...]
    """How the parents and their ancestors came to be, the parents' own first."""
    claims: tuple[str, ...]
    """Groups among them whose page claims a genotype."""
