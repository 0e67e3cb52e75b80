"""What a page says of the parents on one side of a brood: who, how well known, and why."""

from collections.abc import Iterator

from filialog.analysis.rows import Level
from filialog.journal.parentage import Claim, Ground, GroundKind, ParentSet
from filialog.journal.quantities import When
from filialog.messages import either_text, list_text, short_when_text
from filialog.pages.here import Here
from filialog.pages.parts import Fact, fact, parents_html

__all__ = ["claim_level", "claim_text", "parents_fact"]


def parents_fact(here: Here, side: str, parents: ParentSet) -> Fact:
    """Return one sentence on one side, `dams` or `sires`, with the entries it rests on."""
    text = here.words.rich(
        "parents-side",
        pick=side,
        groups=parents_html(here, parents),
        claim=claim_text(here, side, parents),
    )
    return fact(here, text, claim_level(parents), parents.events)


def claim_level(parents: ParentSet) -> Level:
    """Return the level of a parent set: named by the keeper, or found by the book."""
    return Level.CLAIMED if parents.named else Level.INFERRED


def claim_text(here: Here, side: str, parents: ParentSet) -> str:
    """Say how well the parents of one side are known, and why, as the end of a sentence."""
    parts = [_head(here, side, parents)]
    for ground in parents.grounds:
        # An entry that may not be shown gives no date away, nor that it is there.
        if all(here.event(event) is not None for event in ground.events):
            parts.extend(_ground_text(here, parents, ground))
    return "; ".join(dict.fromkeys(parts))


def _head(here: Here, side: str, parents: ParentSet) -> str:
    words, number = here.words, len(parents.groups)
    if parents.claim is Claim.UNKNOWN or not number:
        return words("claim-unknown")
    if parents.named:
        return words("claim-named", number=number)
    if any(ground.kind is GroundKind.PUT_TOGETHER for ground in parents.grounds):
        which = "put-together"
    elif number > 1:
        which = "several"
    else:
        which = "animal" if parents.most == 1 else "group"
    there = next((one for one in parents.grounds if one.kind is GroundKind.IN_TANK), None)
    where = _where(here, there)
    if side == "dams":
        return words("claim-dams", pick=which, n=number, where=where)
    head = words("claim-sires", pick=which, n=number, where=where)
    days = _days(here, there)
    return f"{head} {days}" if days else head


def _where(here: Here, ground: Ground | None) -> str:
    if ground is None or not ground.tanks:
        return here.words("claim-where-unknown")
    return here.words("claim-where", tanks=either_text(here.words, ground.tanks))


def _days(here: Here, ground: Ground | None) -> str:
    """Name the window; nothing where it would tell the day of a private hatching."""
    if ground is None or ground.first is None or ground.last is None:
        return ""
    if any(here.event(event) is None for event in ground.events):
        return ""
    first, last = (short_when_text(here.words, When.on(day)) for day in (ground.first, ground.last))
    return here.words("claim-days", first=first, last=last)


def _ground_text(here: Here, parents: ParentSet, ground: Ground) -> Iterator[str]:
    words, kind = here.words, ground.kind
    if kind in (GroundKind.NAMED, GroundKind.IN_TANK, GroundKind.PUT_TOGETHER):
        return
    if kind in (GroundKind.BY_SPECIES, GroundKind.BY_TEMPERATURE):
        bounds = {one.kind for one in parents.grounds}
        if ground.days is not None and GroundKind.BERRIED not in bounds:
            low, high = ground.days
            yield words("claim-ground", pick=kind.value, low=low, high=high)
        return
    day = short_when_text(words, When.on(ground.first)) if ground.first is not None else ""
    yield words(
        "claim-ground",
        pick=kind.value,
        day=day,
        tank=list_text(words, ground.tanks),
        groups=list_text(words, ground.groups),
    )
