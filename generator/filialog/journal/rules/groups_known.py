"""Every group that is named has come into being somewhere in the diary."""

from collections.abc import Iterator

from filialog.findings import Finding, did_you_mean
from filialog.journal.names import references_of
from filialog.journal.rules.context import Context

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report names of groups that nothing brings into being (N101)."""
    known = context.names.groups
    for event in context.journal.events():
        for name, place in references_of(event):
            if name not in known:
                yield Finding(
                    code="N101",
                    place=place,
                    message=f"group `{name}` is not known",
                    label="no entry brings it into being",
                    helps=did_you_mean(name, known, kind="group"),
                )
        if event.kind_name != "moved":
            continue
        # `from` and `to` of a move name a tank or a group.
        for key in ("from", "to"):
            place_name = event.text(key)
            if place_name is None or place_name in known or place_name in context.names.tanks:
                continue
            yield Finding(
                code="N102",
                place=event.place_of(key),
                message=f"`{place_name}` is neither a tank nor a group",
                label="not known",
                helps=did_you_mean(place_name, known | context.names.tanks, kind="name"),
            )
    for line in context.journal.lines.values():
        for name in line.founders:
            if name not in known:
                yield Finding(
                    code="N101",
                    place=line.places.get("founders", line.place),
                    message=f"group `{name}` is not known",
                    label="no entry brings it into being",
                    helps=did_you_mean(name, known, kind="group"),
                )
