"""What counts tell of hidden carriers, in words: what moved a chance, and what would settle it."""

from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import CarrierChange, CarrierRow, ClearingRow, GroupRow, Level
from filialog.messages import Words, either_text, list_text, share_text
from filialog.pages.here import Here
from filialog.pages.parts import Fact, fact, is_half_sided

__all__ = ["CarrierView", "carrier_views"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CarrierView:
    """One allele that members of a group can have."""

    heading: str
    main: Fact | None
    """What moved its chance most; None where no count did."""
    changes: tuple[Fact, ...]
    """All that moved it, in the order of days; empty where the first says it all."""
    clearing: str
    """The test cross that would settle it; empty where it is settled, or none is left."""


def carrier_views(here: Here, row: GroupRow) -> tuple[CarrierView, ...]:
    """Return what counts tell of each allele; nothing of an animal of two halves."""
    if is_half_sided(row):
        return ()
    alive = not row.book or row.book[-1].after.high != 0
    return tuple(_view(here, one, alive=alive) for one in row.carriers)


def _view(here: Here, row: CarrierRow, *, alive: bool) -> CarrierView:
    told = [_change(here, row.allele, one) for one in row.changes]
    counted = [one for one in row.changes if one.kind in {"tally", "all"}]
    most = max(counted, key=lambda one: abs(one.after - one.before), default=None)
    main = told[row.changes.index(most)] if most is not None else None
    return CarrierView(
        heading=here.words("carrier.all", allele=row.allele),
        main=main,
        changes=tuple(told) if len(told) > 1 else (),
        clearing=(
            _clearing(here.words, row.allele, row.clearing) if row.clearing and alive else ""
        ),
    )


def _change(here: Here, allele: str, change: CarrierChange) -> Fact:
    words = here.words
    counts = [words("carrier.count", n=number, look=look) for look, number in change.counts]
    mates = Markup("")
    if change.mates:
        mates = words.rich("carrier.mates", mates=here.groups(change.mates))
    group = here.group(change.group)
    before, after = share_text(words, change.before), share_text(words, change.after)
    if change.kind == "tally":
        text = words.rich("carrier-change.tally", counts=list_text(words, counts), group=group,
                          mates=mates, allele=allele, before=before, after=after)  # fmt: skip
    else:
        text = words.rich("carrier-change", pick=change.kind, group=group, allele=allele,
                          before=before, after=after)  # fmt: skip
    return fact(here, text, Level.INFERRED, change.events)


def _clearing(words: Words, allele: str, row: ClearingRow) -> str:
    return words(
        "carrier.clear",
        allele=allele,
        tester=row.tester,
        looks=either_text(words, row.looks),
        young=either_text(words, [str(young) for _, young in row.young]),
        sure=either_text(words, [share_text(words, sure) for sure, _ in row.young]),
    )
