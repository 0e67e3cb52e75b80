"""Result rows of a line: its broods, its generations, and what came of them."""

from dataclasses import dataclass
from enum import StrEnum

from filialog.analysis.rows import FounderShareRow
from filialog.journal.events import EventId
from filialog.journal.quantities import Count, When
from filialog.lineage import Generation

__all__ = [
    "BandKind",
    "FigureName",
    "GoalState",
    "GradeMean",
    "GradeRow",
    "LineBand",
    "LineFigure",
    "LineGeneration",
    "LineRow",
    "ResponseRow",
    "SurvivalRow",
    "WhyNot",
]


class GoalState(StrEnum):
    """How far a line is from its goal on the last day of the journal."""

    NO_GOAL = "no-goal"
    REACHED = "reached"
    """As many animals of the look are there as were wanted."""
    NOT_YET = "not-yet"
    MISSED = "missed"
    """The day has passed, and as many are not there."""
    CANNOT_TELL = "cannot-tell"
    """As many may be there, or may not."""
    ALL = "all"
    """No number is wanted: all young of the newest brood counted by look showed it."""
    SOME = "some"
    NONE = "none"
    UNCOUNTED = "uncounted"
    """No number is wanted, and no brood was counted by look."""


class WhyNot(StrEnum):
    """What is missing for a figure."""

    PARENTS_UNKNOWN = "parents-unknown"
    PARENTS_NOT_GRADED = "parents-not-graded"
    NOT_CHOSEN = "not-chosen"
    """The parents were no better or worse than what they were taken from."""
    ONE_COUNT = "one-count"
    """No count of all of them after an earlier one."""
    LATER_HIGHER = "later-higher"
    """The later count is the higher one: the earlier ones were not of all."""
    NOT_EXACT = "not-exact"
    """The number of those that left is not exactly known."""
    NOBODY_THERE = "nobody-there"
    """No animal of the line is on the book on that day."""
    NUMBER_UNKNOWN = "number-unknown"
    """How many animals bred is not known."""
    NO_RISE = "no-rise"
    """Inbreeding did not rise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeRow:
    """One grading of a group, its steps taken as 1, 2, 3 and so on, worst first."""

    scale: str
    group: str
    broods: tuple[str, ...]
    """The broods they are of, earliest first; empty for bought stock."""
    event: EventId
    when: When
    counts: tuple[tuple[str, int], ...]
    """Animals by step, worst first."""
    number: int
    """Animals graded, 1 or more."""
    mean: float
    """In steps."""
    low: float | None
    """Lower end of the t interval of the mean; None where there is no spread to judge by."""
    high: float | None
    error: float | None
    """Standard error of the mean; None where there is no spread to judge by."""
    left_out: int
    """Scores left out: of a step the scale does not have, or of no exact number; in kinds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeMean:
    """The mean grade of a generation on one scale."""

    scale: str
    mean: float
    low: float | None
    high: float | None
    number: int
    groups: tuple[str, ...]
    """The graded groups, each animal once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SurvivalRow:
    """How many of the young first counted were alive at the last full count."""

    base: int
    """The most young known to have been there at once at an earlier count."""
    base_total: bool
    """True where that count was of all of them; else there were at least so many."""
    survivors: int
    """Alive at the last full count, with those that had left alive before it."""
    low: float
    """Wilson 95 % interval of the share."""
    high: float
    events: tuple[EventId, ...]

    @property
    def share(self) -> float:
        """The share that was alive; where the base is `at least`, it is at most this."""
        return self.survivors / self.base


@dataclass(frozen=True, slots=True, kw_only=True)
class ResponseRow:
    """What selection of the parents did to the grade of their young, on one scale."""

    scale: str
    group: str
    """The graded young."""
    parents: tuple[str, ...]
    selection: float | None
    """Selection differential: mean of the parents less that of the groups they were taken
    from, both sides averaged, in steps; None with `why_not`."""
    response: float | None
    """Mean of the young less that of the groups their parents were taken from, in steps."""
    heritability: float | None
    """Realised heritability: response by selection differential."""
    low: float | None
    high: float | None
    several: bool
    """True where the parents are a set, of which each counts alike."""
    ungraded: tuple[str, ...]
    """Parents whose grade is not known."""
    why_not: WhyNot | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LineGeneration:
    """A brood of a line on its generation timeline."""

    brood: str
    cross: str
    generation: Generation
    when: When
    number: int | None
    """Animals put to a look in its used tally."""
    goal_seen: int | None
    goal_share: float | None
    interval_low: float | None
    interval_high: float | None
    goal_expected: float | None
    """Expected share of the goal look."""
    inbreeding_low: float | None
    """Expected inbreeding coefficient; None where a parent is unknown."""
    inbreeding_high: float | None
    """Equal to the lower one where it is one number."""
    founder_shares: tuple[FounderShareRow, ...]
    grades: tuple[GradeRow, ...]
    """The gradings that speak for this brood alone, one for a scale."""
    survival: SurvivalRow | None
    why_no_survival: WhyNot | None
    events: tuple[EventId, ...]


class FigureName(StrEnum):
    """A specialist figure of a line on the day of a generation."""

    MEAN_KINSHIP = "mean-kinship"
    GENE_DIVERSITY = "gene-diversity"
    EFFECTIVE_FOUNDERS = "effective-founders"
    GENOME_EQUIVALENTS = "genome-equivalents"
    SIZE_BY_SEX = "size-by-sex"
    SIZE_BY_RATE = "size-by-rate"
    FORECAST_5 = "forecast-5"
    FORECAST_10 = "forecast-10"


@dataclass(frozen=True, slots=True, kw_only=True)
class LineFigure:
    """One figure, or why there is none."""

    name: FigureName
    low: float | None
    high: float | None
    """Equal to the lower one where it is one number."""
    why_not: WhyNot | None


class BandKind(StrEnum):
    """How the broods of a band belong together."""

    LABEL = "label"
    """They have one generation label."""
    GENERATION = "generation"
    """They are as many generations from the founders."""
    GENERATIONS = "generations"
    """Their number of generations from the founders lies in a range."""
    UNKNOWN = "unknown"
    """A parent is unknown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LineBand:
    """Broods of a line that stand together as a generation."""

    kind: BandKind
    labels: tuple[Generation, ...]
    """Their labels, each once."""
    low: int | None
    """Least number of generations from the founders that the band takes."""
    high: int | None
    broods: tuple[str, ...]
    """By day of hatching."""
    first: When
    last: When
    number: int | None
    """Young put to a look, all broods together; None where there are none."""
    goal_seen: int | None
    goal_share: float | None
    interval_low: float | None
    interval_high: float | None
    goal_expected: float | None
    """Expected share among them; None where that of a counted brood is unknown."""
    grades: tuple[GradeMean, ...]
    survival: SurvivalRow | None
    """All broods with one, together."""
    inbreeding_low: float | None
    inbreeding_high: float | None
    founder_shares: tuple[FounderShareRow, ...]
    """Mean over the broods, each alike."""
    responses: tuple[ResponseRow, ...]
    figures: tuple[LineFigure, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineRow:
    """Everything computed about a line."""

    line: str
    goal: str | None
    goal_number: int | None
    """Animals of the goal look wanted at the same time."""
    goal_by: When | None
    goal_state: GoalState
    goal_brood: str | None
    """The newest brood counted by look, where the state rests on it."""
    founders: tuple[str, ...]
    groups: tuple[str, ...]
    """Groups with a founder of the line among their ancestors."""
    timeline: tuple[LineGeneration, ...]
    """By day of hatching."""
    bands: tuple[LineBand, ...]
    """Its generations, by the first brood of each."""
    scales: tuple[tuple[str, tuple[str, ...]], ...]
    """Scales with their steps, worst first."""
    grades: tuple[GradeRow, ...]
    """Every grading of its groups that counts, by day."""
    alive: Count | None
    """Animals of the goal look on the book on the last day of the journal."""
    model: str | None
