"""What analysis hands to pages: result rows, each with its level and the events it rests on.

Rows carry numbers, names and enumerated reasons; sentences are made of them by pages.
"""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from filialog.journal.events import EventId, LookSeen, Other
from filialog.journal.parentage import ParentSet
from filialog.journal.quantities import Age, Count, Reading, When
from filialog.lineage import Completeness, Generation, KinshipRange
from filialog.statistics import Judgement, Verdict

__all__ = [
    "Assumption",
    "BookLine",
    "BroodRow",
    "BroodTable",
    "CarrierChange",
    "CarrierRow",
    "ClearingRow",
    "CountLine",
    "CountsRow",
    "CrossRow",
    "FounderShareRow",
    "GenotypeRow",
    "GroupRow",
    "HoldingRow",
    "Level",
    "LookLine",
    "LookRow",
    "LookSeenIn",
    "LotRow",
    "LotState",
    "Mention",
    "ReadingRow",
    "RivalKind",
    "RivalLine",
    "SortedIn",
    "Stay",
    "StrayRow",
    "Table",
    "TallyRow",
    "TankRow",
    "UnexplainedRow",
    "WaterChangeRow",
]


class Level(StrEnum):
    """How a result is known."""

    OBSERVED = "observed"
    """Seen and written down."""
    INFERRED = "inferred"
    """Computed from what was seen."""
    CLAIMED = "claimed"
    """Said by the keeper or a seller, not shown by the journal."""


class Assumption(StrEnum):
    """What a computed result takes for granted; pages have one sentence for each."""

    FOUNDER_GENOTYPE_CLAIMED = "founder-genotype-claimed"
    """The keeper's genotype of founders is taken as given."""
    FOUNDER_LOOK_ONLY = "founder-look-only"
    """Founders' genotypes: equal allele frequencies, conditioned on their look."""
    FOUNDER_UNKNOWN = "founder-unknown"
    """Founders' genotypes: equal allele frequencies, nothing else known."""
    EITHER_PHASE = "either-phase"
    """Founders with linked loci: coupling and repulsion by the allele frequencies."""
    PARENTS_EQUALLY_LIKELY = "parents-equally-likely"
    """Each group of a parent set is taken as equally likely."""
    ONE_PAIR = "one-pair"
    """One dam and one sire per brood."""
    MANY_PAIRS = "many-pairs"
    """Many dams or sires: the average of the possible pairs."""
    EQUAL_VIABILITY = "equal-viability"
    """All looks survive alike until the count."""
    BLIND_SPLIT = "blind-split"
    """Animals were moved or picked blind to their genotype."""
    UNRELATED_FOUNDERS = "unrelated-founders"
    """Founders are taken as unrelated and not inbred."""
    ONE_BY_ONE = "one-by-one"
    """Animals are taken one by one: what brood mates and other young tell of parents whose
    genotype is not certain is not used."""
    PARTS_ALIKE = "parts-alike"
    """The numbers that were joined are not all known: each part counts alike."""
    RETURNED_LEFT_OUT = "returned-left-out"
    """Young that went back into a group of their ancestors are left out of what it can be."""
    DIFFERENT_ANIMALS = "different-animals"
    """References to a group of several are taken as different animals."""
    BEFORE_COUNTS = "before-counts"
    """What a brood should show rests on its parents as recorded, not on any count of young."""
    COUNTS_LEFT_OUT = "counts-left-out"
    """Entries contradict each other, so what counts of young tell is left out."""
    COMPLETE_SORT = "complete-sort"
    """A sort by look whose number is known took every animal of that look."""
    ONE_PARENT_TAKEN = "one-parent-taken"
    """Not known whether a brood has one parent of a sex or several: one is taken."""
    SEVERAL_PARENTS_TAKEN = "several-parents-taken"
    """Not known whether a brood has one parent of a sex or several: one does not fit."""
    APPROXIMATE = "approximate"
    """Too many possibilities to go through: some stand for all, so numbers are near, not exact."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldingRow:
    """How many animals of a group are in a tank on a day."""

    group: str
    tank: str
    count: Count
    colony: bool
    """True where the group breeds unrecorded: there may be more."""
    events: tuple[EventId, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BookLine:
    """One line of the book of a group: what changed, and how many there were after."""

    event: EventId
    when: When
    kind_name: str
    tank: str | None
    to_tank: str | None
    """For a move."""
    other_group: str | None
    """The group animals came from or went to, where it is another one."""
    change: Count | None
    """How many animals came (`gained`) or went; None where only a look or sex was noted."""
    gained: bool
    after: Count
    """How many animals of the group were on the book after that day, all tanks together."""
    shared_with: tuple[str, ...]
    """Other groups the animals can have been of: the event names only a tank or several groups."""
    unaccounted: Count | None
    """Animals missing (or, where gained, found) when the book was compared with a count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stay:
    """A group's time in a tank."""

    group: str
    tank: str
    since: date
    until: date | None
    """First day on which none can have been left; None where they may still be there."""
    event: EventId | None
    """What brought them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BroodRow:
    """A brood: the young of one cross from one hatching (or one cloud of several)."""

    group: str
    when: When
    tank: str | None
    cross: str
    """Identifier of the cross."""
    dams: ParentSet
    sires: ParentSet
    mating: str
    """`one`, `several` or `unknown`: how many sires it can have."""
    count: Count | None
    """Young at the first sight."""
    event: EventId


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossRow:
    """A cross: dams put to sires, and the broods that came of it."""

    identifier: str
    name: str | None
    """The keeper's name for it."""
    dams: ParentSet
    sires: ParentSet
    broods: tuple[str, ...]
    when: When
    """The first pairing or hatching."""
    generation: Generation
    """Of the young."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TallyRow:
    """A count of a brood or group by look."""

    event: EventId
    when: When
    group: str | None
    """The brood or group; None for all young of a tank."""
    tank: str | None
    how: str | None
    """`looked`, `netted`, `photo`, `emptied`; None where not said."""
    total: bool
    """True where it is a total, not a `so many at least`."""
    age: Age | None
    age_days_computed: tuple[int, int] | None
    """Age at the count from the hatching date, fewest and most days."""
    looks: tuple[tuple[str, Count], ...]
    """In the order of the trait model; looks not listed by the keeper are there with 0."""
    other: tuple[Other, ...]
    unsorted: Count | None
    number: Count
    """All animals counted."""
    used: bool
    """True for the tally that enters the table of its brood."""
    why_not_used: str | None
    """`kept-out`, `claimed`, `no-looks`, `no-model`, `not-exact`, `not-a-brood`,
    `another-tally`; None where used."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookLine:
    """One look of an expected-vs-observed table."""

    look: str
    share_low: float
    """Expected share in [0, 1]; equal to `share_high` where it is one number."""
    share_high: float
    expected: float
    """Expected number of animals among those sorted, at the average share."""
    observed: int
    """Animals seen."""
    difference: float
    """Observed less expected."""
    interval_low: float
    """Wilson 95 % interval of the observed share."""
    interval_high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SortedIn:
    """A way in which the unsorted of a count can be put to looks."""

    looks: tuple[tuple[str, int], ...]
    """How many of them are put to each look; looks that get none are left out."""
    shares: tuple[tuple[str, float], ...]
    """What share of all animals those looks have then."""
    p_value: float
    """p value of the count with them."""


class RivalKind(StrEnum):
    """What kind of other explanation of a count is meant."""

    ALL_SIRES = "all-sires"
    """All young are of another sire, with the dams recorded."""
    SOME_SIRES = "some-sires"
    """A part of the young is of another sire, with the dams recorded."""
    SURVIVAL = "survival"
    """One look survives less well until the count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RivalLine:
    """Another explanation of a count that does not fit, the best of its kind."""

    kind: RivalKind
    of: tuple[str, ...]
    """The look; or genotypes of a sire, as text, that explain the count alike."""
    estimate: float | None
    """Share of the young, or survival beside the other looks, that explains the count best."""
    low: float | None
    """Lower end of its 95 % likelihood interval."""
    high: float | None
    log_ratio: float
    """Natural log of its likelihood over that of the expectation; infinite where the expectation
    cannot give the count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Expected against observed, for one brood or a whole cross."""

    lines: tuple[LookLine, ...]
    """By the order of the trait model; only looks expected or seen."""
    sorted_number: int
    """Animals put to a look."""
    unsorted: int
    """Animals counted but not put to a look."""
    unsorted_worst: SortedIn | None
    """The unsorted put to looks so that the count fits least; None where it makes no difference
    or there are too many ways."""
    unsorted_best: SortedIn | None
    """The same, so that it fits best."""
    unexplained: tuple[Other, ...]
    """Animals no look of the model fits: in the number counted, out of the test."""
    judgement: Judgement
    more_at_once: int | None
    """So many more young, counted all at once, settle it with a chance of 90 %; None where
    nothing is open or it was not computed."""
    rival_pairs: tuple[tuple[str, str], ...]
    """Parents' genotypes, as text, that the best rival stands for; empty where none is left."""
    rival_shares: tuple[tuple[str, float], ...]
    """Expected share by look under the best rival."""
    rivals: tuple[RivalLine, ...]
    """What else could be behind a count that does not fit, the best of each kind."""
    assumptions: tuple[Assumption, ...]
    model: str
    """Name of the trait model."""
    events: tuple[EventId, ...]
    """The tallies it rests on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BroodTable:
    """What there is to say about a brood's looks, or a cross's."""

    subject: str
    """Brood or cross."""
    table: Table | None
    why_none: str | None
    """`no-tally`, `no-model`, `no-parents`, `contradiction`; None where there is a table."""
    expected: tuple[tuple[str, float, float], ...]
    """Expected share by look, lowest and highest, also before any count; empty without model."""
    heterogeneity_p: float | None
    """p of the differences between broods of a cross; None for one brood."""
    broods: tuple[str, ...]
    """Broods that entered."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CountLine:
    """The count of a brood, as one of many."""

    brood: str
    cross: str
    """Identifier of its cross."""
    when: When
    """When the brood was first seen."""
    number: int
    """Animals put to a look, 1 or more."""
    p_value: float
    """Its own p value."""
    adjusted_p: float
    """The p value with allowance for the number of counts (Benjamini and Hochberg)."""
    stands_out: bool
    """True where it does at a rate of 1 false one in 20."""
    verdict: Verdict
    events: tuple[EventId, ...]
    """The tallies it rests on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CountsRow:
    """All counts of broods side by side."""

    lines: tuple[CountLine, ...]
    """By p value, the smallest first."""
    misfits: int
    """How many do not fit, each taken by itself."""
    standing: int
    """How many of those stand out with allowance for the number of counts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GenotypeRow:
    """A genotype a member of a group can have."""

    genotype: str
    probability: float
    look: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FounderShareRow:
    """What part of a group's genes comes from a founder group, on average."""

    founder: str | None
    """None for unknown parents."""
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Mention:
    """A diary entry that speaks of a thing."""

    entry: str
    when: When
    in_prose: bool
    """True where it is linked in the text, false where only an event names it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CarrierChange:
    """What one piece of evidence did to the chance that a member has an allele."""

    kind: str
    """`tally`, `look` or `genotype`; `all` where the pieces are too many to tell apart."""
    group: str
    """The group that was counted, seen or claimed."""
    counts: tuple[tuple[str, int], ...]
    """Looks counted, each with its number."""
    mates: tuple[str, ...]
    """The other parents, where the group asked of was itself a parent."""
    before: float
    after: float
    events: tuple[EventId, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearingRow:
    """A test cross that would settle whether an animal carries an allele."""

    tester: str
    """Genotype of the mate."""
    looks: tuple[str, ...]
    """Looks that only young of a carrier show."""
    young: tuple[tuple[float, int], ...]
    """How surely a carrier would have shown itself, and the number of young for that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CarrierRow:
    """How likely a member of a group has an allele, and why."""

    allele: str
    before: float
    """By descent as recorded."""
    chance: float
    """Given all counts."""
    changes: tuple[CarrierChange, ...]
    """In the order of days."""
    clearing: ClearingRow | None


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupRow:
    """Everything computed about a group."""

    group: str
    origin: str
    """`present`, `bought`, `hatched`, `sorted`, `moved`, `chosen`, `joined`."""
    origin_event: EventId
    origin_when: When
    origin_tank: str | None
    source: str | None
    """Where bought animals came from."""
    seller_label: str | None
    """The seller's words on the generation, quoted."""
    from_groups: tuple[str, ...]
    """Groups it was split or joined from."""
    brood: BroodRow | None
    """Where it is a brood, or part of one, that brood."""
    colony: bool
    look: LookSeen | None
    """The look they were bought, sorted or recorded as."""
    females: Count | None
    males: Count | None
    generation: Generation
    inbreeding: KinshipRange | None
    """Expected coefficient of a member, in [0, 1]; None where it cannot be said."""
    founder_shares: tuple[FounderShareRow, ...]
    genotypes: tuple[GenotypeRow, ...]
    """By the order of the model; empty without a trait model."""
    genotypes_level: Level
    contradiction: tuple[EventId, ...]
    """Not empty where looks and parents cannot both be right."""
    hidden: tuple[tuple[str, float], ...]
    """Alleles it can carry unseen, with the probability that a member carries one."""
    carriers: tuple[CarrierRow, ...]
    """Alleles whose chance counts have moved, or that are still open."""
    model: str | None
    assumptions: tuple[Assumption, ...]
    completeness: Completeness
    """How far back its ancestors are known."""
    crosses: tuple[str, ...]
    """Crosses it was a parent of."""
    parts: tuple[str, ...]
    """Groups split from it or joined into."""
    tallies: tuple[TallyRow, ...]
    book: tuple[BookLine, ...]
    mentions: tuple[Mention, ...]
    lines: tuple[str, ...]
    """Lines it belongs to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingRow:
    """Water readings of a tank on a day."""

    event: EventId
    when: When
    readings: tuple[tuple[str, Reading], ...]
    before_change: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterChangeRow:
    """A water change."""

    event: EventId
    when: When
    litres: float | None
    percent: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class TankRow:
    """Everything computed about a tank."""

    tank: str
    stays: tuple[Stay, ...]
    last_day: date | None
    """The day of the last event in it."""
    holdings: tuple[HoldingRow, ...]
    """Who was there at the end of that day."""
    total: Count | None
    """All animals of the tank then."""
    readings: tuple[ReadingRow, ...]
    changes: tuple[WaterChangeRow, ...]
    other_events: tuple[EventId, ...]
    """Soil, equipment, plants, treatments and the like."""
    mentions: tuple[Mention, ...]
    closed: date | None


class LotState(StrEnum):
    """What the book says of a lot that was put on offer."""

    OPEN = "open"
    """Animals of it are there and not promised."""
    RESERVED = "reserved"
    """All that are left of it are promised."""
    SOLD = "sold"
    """Animals of it went to others, and none is left to be had."""
    GONE = "gone"
    """None is on the book any more, and none went to others as this lot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LotRow:
    """A lot that was put on offer, as it stands on the last day of the journal."""

    lot: str
    groups: tuple[str, ...]
    """The groups its animals are of."""
    event: EventId
    """The newest offer of it."""
    when: When
    """The day of that offer."""
    note: str
    """The keeper's words on it; empty where there are none."""
    offered: Count | None
    """Animals on offer; None where not said."""
    reserved: Count
    """Animals of it promised since and not handed over yet."""
    handed_over: Count
    """Animals sold or given as this lot since the offer."""
    on_book: Count
    """Animals of its groups on the book on the last day."""
    left: Count
    """Animals of the lot that are still there, promised ones among them."""
    state: LotState
    tanks: tuple[str, ...]
    """Tanks in which animals of its groups are on the last day."""
    events: tuple[EventId, ...]
    """The offer and what followed it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookSeenIn:
    """How often a look was seen among the young of a cross."""

    cross: str
    broods: tuple[str, ...]
    seen: int
    """Young that showed it in the tallies used."""
    counted: int
    """Young put to a look in these tallies, at least 1."""
    interval_low: float
    """Wilson 95 % interval of the share."""
    interval_high: float
    expected: float | None
    """Expected share; None where it is a range or unknown."""
    events: tuple[EventId, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LookRow:
    """Everything computed about a look."""

    look: str
    models: tuple[str, ...]
    """Trait models that know it; empty where none does."""
    genotypes: tuple[tuple[str, str], ...]
    """Model and genotype that shows it, in the order of the model."""
    shown_by: tuple[str, ...]
    """Groups recorded as showing it: bought, sorted, taken or described so."""
    must_show: tuple[str, ...]
    """Other groups whose members show it if their parents are right."""
    seen_in: tuple[LookSeenIn, ...]
    """By the first hatching of the cross."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnexplainedRow:
    """Animals seen whose look no trait model explains."""

    event: EventId
    when: When
    tank: str | None
    groups: tuple[str, ...]
    """The brood or group they were seen in, or the one they form."""
    count: Count
    note: str
    """What they look like, in the keeper's words; empty for a half-sided animal."""
    look: LookSeen | None
    """The two sides of a half-sided animal, or a look no model knows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StrayRow:
    """An animal that may have got where a group was, while it was there."""

    event: EventId
    when: When
    tank: str
    """The tank of the group."""
    into: bool
    """True where the stranger got into this tank, false where it got out of it."""
    other_tank: str | None
    """The other tank, where named."""
    cleared: When | None
    """When the matter was settled; None where it is open."""
    cleared_by: EventId | None
