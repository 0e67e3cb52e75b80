"""The nearest known name to a mistyped one."""

from collections.abc import Iterable
from difflib import get_close_matches

__all__ = ["did_you_mean", "nearest_name"]


def nearest_name(name: str, known: Iterable[str]) -> str | None:
    """Return the known name most like `name`, or None when none is near."""
    by_folded = {candidate.casefold(): candidate for candidate in sorted(known)}
    close = get_close_matches(name.casefold(), sorted(by_folded), n=1, cutoff=0.6)
    return by_folded[close[0]] if close else None


def did_you_mean(name: str, known: Iterable[str], *, kind: str) -> tuple[str, ...]:
    """Return the help lines for an unknown name: the nearest one, or what there is."""
    names = sorted(set(known))
    near = nearest_name(name, names)
    if near is not None:
        return (f"the nearest {kind} is `{near}`",)
    if not names:
        return (f"the journal has no {kind} yet",)
    shown = ", ".join(f"`{known_name}`" for known_name in names[:8])
    more = f" and {len(names) - 8} more" if len(names) > 8 else ""
    return (f"known: {shown}{more}",)
