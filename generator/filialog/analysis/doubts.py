"""What a table leaves open: the young without a look, and how many more would settle it."""

from collections.abc import Mapping, Sequence

from filialog.analysis.rows import Assumption, SortedIn
from filialog.analysis.tallies import Classified
from filialog.domain_error import DomainError
from filialog.statistics import (
    Components,
    Judgement,
    Shares,
    UnsortedBounds,
    outcome_count,
    unsorted_bounds,
    young_that_suffice,
)

__all__ = ["at_once", "sorted_in"]

_MOST_STEPS = 2_000_000
"""Plans that have to go through more outcomes than this are not made: a page can do without."""


def sorted_in(
    seen: Classified, expected: Mapping[Assumption, Components]
) -> tuple[SortedIn, SortedIn] | None:
    """Put the unsorted to looks so that the count fits least, and best.

    Only looks that the cross can give, or that were seen, are tried: a look that cannot be would
    make every count a misfit. Where several assumptions on the pairs are open, each end is that
    of the one under which it fits better, as in the table itself. None where nothing is unsorted,
    only one look is possible, or there are too many ways.
    """
    places = tuple(
        place
        for place, count in enumerate(seen.counts)
        if count or any(shares[place] for mixture in expected.values() for _, shares in mixture)
    )
    if not seen.unsorted or not sum(seen.counts) or len(places) < 2:
        return None
    try:
        bounds = [
            unsorted_bounds(seen.counts, [(seen.unsorted, places)], mixture)
            for mixture in expected.values()
        ]
    except DomainError:
        return None
    worst = max(bounds, key=lambda one: one.p_low)
    best = max(bounds, key=lambda one: one.p_high)
    return _end(seen, worst, best=False), _end(seen, best, best=True)


def _end(seen: Classified, bounds: UnsortedBounds, *, best: bool) -> SortedIn:
    counts = bounds.counts_at_p_high if best else bounds.counts_at_p_low
    added = [
        (label, count - before, count / sum(counts))
        for (label, _), count, before in zip(seen.classes, counts, seen.counts, strict=True)
        if count > before
    ]
    return SortedIn(
        looks=tuple((label, number) for label, number, _ in added),
        shares=tuple((label, share) for label, _, share in added),
        p_value=bounds.p_high if best else bounds.p_low,
    )


def at_once(
    counts: Sequence[int], judgement: Judgement, mixture: Components, rivals: Sequence[Shares]
) -> int | None:
    """Return how many more young, all counted at once, settle it with a chance of 90 %.

    None unless the verdict is open, where several expectations are, and where it would take long
    to find out.
    """
    nearest, more = judgement.nearest_rival, judgement.more_needed
    if nearest is None or not more or len(mixture) > 1:
        return None
    ((_, shares),) = mixture
    kinds = len({(float(a), float(b)) for a, b in zip(shares, rivals[nearest], strict=True) if a})
    most = 4 * more
    if most * outcome_count(animals=most, classes=kinds) > _MOST_STEPS:
        return None
    return young_that_suffice(counts, expected_shares=shares, rival_shares=rivals[nearest])
