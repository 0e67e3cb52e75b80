"""What a page says of a stray: when, from where, whether it was settled."""

from collections.abc import Iterable

from filialog.analysis.rows import Level, StrayRow
from filialog.messages import when_text
from filialog.pages.here import Here
from filialog.pages.parts import Fact, capital, fact

__all__ = ["stray_facts"]


def stray_facts(here: Here, strays: Iterable[StrayRow]) -> tuple[Fact, ...]:
    """Return a sentence for each stray, with a link to the entry that records it."""
    return tuple(
        _fact(here, stray) for stray in strays if here.event(stray.event) is not None
    )  # fmt: skip


def _fact(here: Here, stray: StrayRow) -> Fact:
    words = here.words
    other = words.rich("stray-other.somewhere")
    if stray.other_tank is not None:
        other = here.tank(stray.other_tank)
    said = words.rich(
        "stray",
        pick="into" if stray.into else "out-of",
        when=when_text(words, stray.when),
        tank=here.tank(stray.tank),
        other=other,
    )
    settled = words.rich("stray-after.open")
    if stray.cleared is not None:
        settled = words.rich("stray-after.settled", when=when_text(words, stray.cleared))
    meaning = words.rich("stray-means", pick="into" if stray.into else "out-of")
    text = words.rich("stray-told", said=said, settled=settled, meaning=meaning)
    events = [stray.event]
    if stray.cleared_by is not None and here.event(stray.cleared_by) is not None:
        events.append(stray.cleared_by)
    return fact(here, capital(text), Level.OBSERVED, events)
