"""Placing things in a row: each as near as can be to where it wants to be, none too close."""

from collections.abc import Sequence

__all__ = ["spread"]


def spread(
    wanted: Sequence[float],
    gaps: Sequence[float],
    *,
    weights: Sequence[float] | None = None,
    low: float | None = None,
    high: float | None = None,
) -> list[float]:
    """Return places in the given order, at least `gaps` apart, with the least squared shift.

    Taking away the summed gaps leaves isotonic regression, which pooling adjacent violators
    solves exactly (Ayer et al. 1955, from memory). `gaps[i]` lies between i and i + 1. With
    bounds the places stay inside them as long as all gaps together fit.
    """
    if not wanted:
        return []
    weighted = weights if weights is not None else [1.0] * len(wanted)
    offsets = [0.0]
    for gap in gaps:
        offsets.append(offsets[-1] + gap)
    blocks: list[tuple[float, float, int]] = []  # weight, weight × place, members
    for want, weight, offset in zip(wanted, weighted, offsets, strict=True):
        block = (weight, weight * (want - offset), 1)
        while blocks and blocks[-1][1] * block[0] >= block[1] * blocks[-1][0]:
            last = blocks.pop()
            block = (last[0] + block[0], last[1] + block[1], last[2] + block[2])
        blocks.append(block)
    bases = [moment / weight for weight, moment, members in blocks for _ in range(members)]
    if high is not None:
        bases = [min(base, high - offsets[-1]) for base in bases]
    if low is not None:
        bases = [max(base, low) for base in bases]
    return [base + offset for base, offset in zip(bases, offsets, strict=True)]
