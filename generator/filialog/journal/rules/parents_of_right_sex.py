"""Dams are not recorded as males only, nor sires as females only."""

from collections.abc import Iterator

from filialog.findings import Finding
from filialog.findings.finding import Mark
from filialog.journal.parentage import Side
from filialog.journal.rules.context import Context
from filialog.journal.sexes import sexes_of

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report parents whose recorded sex excludes them (P103)."""
    sexes = sexes_of(context.journal, context.names)
    for named in context.parents.values():
        sides: tuple[tuple[Side, tuple[str, ...]], ...] = (
            ("dams", named.dams),
            ("sires", named.sires),
        )
        for side, groups in sides:
            wrong = [
                group
                for group in groups
                if group in context.names.origins
                and not context.parentage.can_be(group, side, named.hatched)
            ]
            if not wrong or len(wrong) != len(groups):
                continue
            recorded = sexes.get(wrong[0])
            other = "males" if side == "dams" else "females"
            names = " and ".join(f"`{group}`" for group in wrong)
            where = named.events[-1] if named.events[-1].has(side) else named.hatched
            yield Finding(
                code="P103",
                place=where.place_of(side),
                message=f"{side} {names} of brood `{named.brood}` are recorded as {other} only",
                label=f"named as {side} here",
                related=(
                    (Mark(place=recorded.place, says=f"recorded as {other} here"),)
                    if recorded is not None and recorded.place is not None
                    else ()
                ),
                helps=("swap `dams` and `sires`, or correct the recorded sex",),
            )
