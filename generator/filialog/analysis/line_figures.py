"""Specialist figures of a line on the day of each generation: kinship, founders, effective size."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from filialog.analysis.composition import COMPOSITION
from filialog.analysis.line_rows import FigureName, LineFigure, LineGeneration, WhyNot
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD, SEXES
from filialog.analysis.pedigrees import FOUNDER_SHARES, PEDIGREE
from filialog.analysis.rows import BroodRow
from filialog.journal.quantities import Count
from filialog.lineage import kinship_table
from filialog.lineage.effective_size import (
    effective_size_by_inbreeding_rate,
    effective_size_by_sex,
    inbreeding_rate,
)
from filialog.lineage.founders import effective_founders, founder_genome_equivalents_by_kinship
from filialog.lineage.heterozygosity import gene_diversity, heterozygosity_forecast

__all__ = ["line_figures"]

_AHEAD = {FigureName.FORECAST_5: 5, FigureName.FORECAST_10: 10}
"""Generations that the forecasts look ahead."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Between:
    """A figure known to lie between two ends."""

    low: float
    high: float


_Found = _Between | WhyNot


def line_figures(
    reader: Reader, broods: Sequence[LineGeneration], members: set[str]
) -> tuple[LineFigure, ...]:
    """Return the figures of a line on the day on which the last of some broods was seen.

    The line on that day is all groups with a founder of the line among their ancestors, as many
    of each as the book has at least.
    """
    there = _there(reader, broods[-1].when.latest.isoformat(), members)
    kinship = _mean_kinship(reader, there)
    sizes = _by_sex(reader, broods)
    found: dict[FigureName, _Found] = {
        FigureName.MEAN_KINSHIP: kinship,
        FigureName.GENE_DIVERSITY: _through(kinship, gene_diversity),
        FigureName.EFFECTIVE_FOUNDERS: _effective_founders(reader, there),
        FigureName.GENOME_EQUIVALENTS: _through(kinship, founder_genome_equivalents_by_kinship),
        FigureName.SIZE_BY_SEX: sizes,
        FigureName.SIZE_BY_RATE: _by_rate(broods),
    }
    for name, generations in _AHEAD.items():
        found[name] = _forecast(kinship, sizes, generations)
    return tuple(
        LineFigure(name=name, low=None, high=None, why_not=one)
        if isinstance(one, WhyNot)
        else LineFigure(name=name, low=one.low, high=one.high, why_not=None)
        for name, one in found.items()
    )


# --- who was there --------------------------------------------------------------------------


def _numbers_on(reader: Reader, day: str) -> tuple[tuple[str, int], ...]:
    checked = reader.journal(f"book on {day}")
    at = date.fromisoformat(day)
    return tuple(
        (group, number)
        for group in checked.names.origins
        if (number := checked.book.number_of(group, at).low)
    )


_NUMBERS_ON: NodeKind[tuple[tuple[str, int], ...]] = NodeKind("numbers-on", _numbers_on)
"""How many of each group the book has at least at the end of a day."""


def _there(reader: Reader, day: str, members: set[str]) -> tuple[tuple[str, int], ...]:
    return tuple(one for one in reader.get(_NUMBERS_ON, day) if one[0] in members)


def _mean_kinship(reader: Reader, there: Sequence[tuple[str, int]]) -> _Found:
    """Return the mean over all ordered pairs of animals, each with itself among them."""
    if not there:
        return WhyNot.NOBODY_THERE
    table = kinship_table(reader.get(PEDIGREE))
    low = high = 0.0
    for at, (group, number) in enumerate(there):
        own, mates = table.itself(group), table.mates(group)
        low += number * own.low
        high += number * own.high
        if number > 1:
            # A group of one animal on the pedigree can have grown by a slip of the book.
            pair = mates or own
            low += number * (number - 1) * pair.low
            high += number * (number - 1) * pair.high
        for other, others in there[:at]:
            pair = table.between(group, other)
            low += 2 * number * others * pair.low
            high += 2 * number * others * pair.high
    pairs = sum(number for _, number in there) ** 2
    return _Between(low=min(low / pairs, 1.0), high=min(high / pairs, 1.0))


def _through(found: _Found, law: Callable[[float], float]) -> _Found:
    """Put both ends of a figure through a law that rises or falls all the way."""
    if isinstance(found, WhyNot):
        return found
    ends = (law(found.low), law(found.high))
    return _Between(low=min(ends), high=max(ends))


def _effective_founders(reader: Reader, there: Sequence[tuple[str, int]]) -> _Found:
    """Return between which ends the number lies: a founder group as one animal, or as all of its.

    How many animals of a founder group left young is not recorded.
    """
    if not there:
        return WhyNot.NOBODY_THERE
    whole = sum(number for _, number in there)
    shares: dict[str, float] = {}
    for group, number in there:
        for row in reader.get(FOUNDER_SHARES, group):
            if row.founder is None:
                return WhyNot.PARENTS_UNKNOWN
            shares[row.founder] = shares.get(row.founder, 0.0) + row.share * number / whole
    total = sum(shares.values())
    even = {founder: share / total for founder, share in shares.items()}
    spread: list[float] = []
    for founder, share in even.items():
        animals = _most_ever(reader, founder)
        if animals is None:
            return WhyNot.NUMBER_UNKNOWN
        spread.extend([share / animals] * animals)
    return _Between(low=effective_founders(even.values()), high=effective_founders(spread))


def _most_ever(reader: Reader, group: str) -> int | None:
    """Return how many animals a group had at most at any time; None where that has no bound."""
    book = reader.journal(f"book of {group}").book
    numbers = [book.count(posting.after).high for posting in book.postings.get(group, ())]
    known = [number for number in numbers if number is not None]
    return max(1, *known) if known and len(known) == len(numbers) else None


# --- effective size -------------------------------------------------------------------------


def _by_sex(reader: Reader, broods: Sequence[LineGeneration]) -> _Found:
    """Return Ne from the fewest and the most animals of each sex that can have bred.

    At least one of each sex did. At most it was every animal of the parent groups, and one of
    each sex for a brood of one dam or one sire.
    """
    rows = [row for one in broods if (row := reader.get(BROOD, one.brood)) is not None]
    ends = []
    for sex in ("females", "males"):
        found = _breeders(reader, rows, sex)
        if found is None:
            return WhyNot.NUMBER_UNKNOWN
        ends.append(found)
    (fewest_f, most_f), (fewest_m, most_m) = ends
    return _Between(
        low=effective_size_by_sex(females=fewest_f, males=fewest_m),
        high=effective_size_by_sex(females=most_f, males=most_m),
    )


def _breeders(reader: Reader, rows: Sequence[BroodRow], sex: str) -> tuple[int, int] | None:
    sides = [(row, row.dams if sex == "females" else row.sires) for row in rows]
    if any(not side.groups for _, side in sides):
        return None
    certain = {side.groups[0] for _, side in sides if len(side.groups) == 1}
    numbers: dict[str, int | None] = {}
    for _, side in sides:
        for group in side.groups:
            numbers[group] = _number_of_sex(reader, group, sex)
    known = [number for number in numbers.values() if number is not None]
    most = sum(known) if len(known) == len(numbers) else None
    # The young of one hatching have one dam; one sire only where that is recorded.
    if sex == "females" or all(row.mating == "one" for row in rows):
        most = len(rows) if most is None else min(most, len(rows))
    if most is None:
        return None
    return max(1, min(_apart(reader, certain), most)), max(1, most)


def _apart(reader: Reader, groups: set[str]) -> int:
    """Count groups of which none holds animals of another."""
    return sum(not groups.intersection(reader.get(COMPOSITION, group).sources) for group in groups)


def _number_of_sex(reader: Reader, group: str, sex: str) -> int | None:
    """Return the most animals of one sex in a group; None where that has no bound."""
    sexes = reader.get(SEXES).get(group)
    count: Count | None = None
    if sexes is not None:
        count = sexes.female_count if sex == "females" else sexes.male_count
    if count is not None and count.high is not None:
        return count.high
    return _most_ever(reader, group)


def _by_rate(broods: Sequence[LineGeneration]) -> _Found:
    """Return Ne from the steady rise of inbreeding since the founders."""
    depths = [one.generation.most for one in broods if one.generation.most is not None]
    lows = [one.inbreeding_low for one in broods if one.inbreeding_low is not None]
    highs = [one.inbreeding_high for one in broods if one.inbreeding_high is not None]
    if len(depths) < len(broods) or len(lows) < len(broods) or len(highs) < len(broods):
        return WhyNot.PARENTS_UNKNOWN
    generations = sum(depths) / len(depths)
    if not generations:
        return WhyNot.NO_RISE
    sizes = [
        effective_size_by_inbreeding_rate(
            inbreeding_rate(before=0.0, after=sum(ends) / len(ends), generations=generations)
        )
        for ends in (lows, highs)
    ]
    known = [size for size in sizes if size is not None]
    if len(known) < len(sizes):
        return WhyNot.NO_RISE
    return _Between(low=min(known), high=max(known))


def _forecast(kinship: _Found, sizes: _Found, generations: int) -> _Found:
    """Return what is left of the founders' heterozygosity if the effective size stays."""
    if isinstance(kinship, WhyNot):
        return kinship
    if isinstance(sizes, WhyNot):
        return sizes
    ends = [
        heterozygosity_forecast(
            effective_size=size, generations=generations, start=gene_diversity(mean)
        )[-1]
        for size, mean in ((sizes.low, kinship.high), (sizes.high, kinship.low))
    ]
    return _Between(low=min(ends), high=max(ends))
