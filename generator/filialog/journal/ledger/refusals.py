"""Findings of the book: what cannot have happened, and what is merely odd."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from filialog.findings.finding import Finding, Mark, Place
from filialog.journal.events import Event
from filialog.journal.ledger.book import Cell
from filialog.journal.ledger.page import BookPage
from filialog.journal.ledger.unknowns import Bounds, Sum
from filialog.journal.quantities import Count, bounds_text

__all__ = [
    "Refusal",
    "beyond_the_book",
    "closed_tank",
    "count_differs",
    "empty_tank",
    "left_in_closed_tank",
    "nowhere",
    "too_many",
    "wrong_tank",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """An event that cannot have happened as written, in the order of the day being tried."""

    event: Event
    tell: Callable[[], Finding]
    """Makes the finding, from the book as it is then: most orders are only tried."""


def too_many(
    event: Event,
    page: BookPage,
    cells: Sequence[Cell],
    count: Count,
    *,
    key: str | None = None,
) -> Refusal:
    """Refuse to take more animals than can be there; `key` is where the number stands."""

    def tell() -> Finding:
        groups = tuple(dict.fromkeys(cell[0] for cell in cells))
        low, high = page.unknowns.bounds(Sum.of(page.number(cell) for cell in cells))
        what = " and ".join(f"`{group}`" for group in groups)
        return Finding(
            code="L101",
            place=event.place_of(key or _key_of_number(event)),
            message=f"{event.kind_name}: {count.text} of {what}, more than can be there",
            label=f"on {event.when.text} the book has {bounds_text(max(low, 0), high)}",
            related=_last_events(page, groups),
            helps=(
                "correct the count or the name, or write down what is missing, such as a birth,"
                " a purchase or a move",
            ),
        )

    return Refusal(event=event, tell=tell)


def empty_tank(event: Event, tank: str | None) -> Refusal:
    """Refuse to take animals out of a tank that holds none."""
    finding = Finding(
        code="L101",
        place=event.place_of("from" if event.text("from") == tank else "tank"),
        message=f"{event.kind_name}: no animal is in tank `{tank}` on {event.when.text}",
        label="the book has 0",
        helps=("correct the tank or the date, or write down what is missing",),
    )
    return Refusal(event=event, tell=lambda: finding)


def nowhere(event: Event, page: BookPage, group: str) -> Refusal:
    """Animals of a group that has none left, or is not there yet."""

    def not_yet() -> Finding:
        origins = page.names.origins.get(group, ())
        return Finding(
            code="L103",
            place=_place_of_group(event),
            message=f"{event.kind_name}: group `{group}` is not there yet on {event.when.text}",
            label="used before it comes into being",
            related=tuple(
                Mark(
                    place=origin.event.place,
                    says=f"`{group}` comes into being on {origin.event.when.text}",
                )
                for origin in origins[:1]
            ),
            helps=("correct one of the two dates, or the name",),
        )

    def no_more() -> Finding:
        return Finding(
            code="L101",
            place=_place_of_group(event),
            message=f"{event.kind_name}: no `{group}` is left on {event.when.text}",
            label="the book has 0",
            related=_last_events(page, (group,)),
            helps=("correct the name or the date, or write down what is missing",),
        )

    return Refusal(event=event, tell=no_more if page.exists(group) else not_yet)


def wrong_tank(
    event: Event, page: BookPage, group: str, *, tank: str, there: Sequence[Cell]
) -> Refusal:
    """Animals taken from a tank where the book has none of them."""
    if not there:
        return nowhere(event, page, group)

    def tell() -> Finding:
        tanks = " and ".join(f"`{tank}`" for _, tank in there)
        return Finding(
            code="L102",
            place=_place_of_group(event),
            message=f"{event.kind_name}: `{group}` is not in tank `{tank}` on {event.when.text}",
            label=f"the book has it in {tanks}",
            related=_last_events(page, (group,)),
            helps=("name the tank it was in, or write down the move that is missing",),
        )

    return Refusal(event=event, tell=tell)


def closed_tank(event: Event, tank: str, closing: Event) -> Refusal:
    """Animals put into, or taken from, a tank that was taken down."""
    finding = Finding(
        code="L104",
        place=event.place_of(next((key for key in ("to", "from") if event.text(key) == tank), "")),
        message=f"{event.kind_name}: tank `{tank}` was taken down before {event.when.text}",
        label="no animal can be here",
        related=(Mark(place=closing.place, says=f"tank `{tank}` closed on {closing.when.text}"),),
        helps=(
            "correct one of the two dates, or write down that the tank is in use again,"
            " such as `cycle: begun`",
        ),
    )
    return Refusal(event=event, tell=lambda: finding)


def beyond_the_book(event: Event, there: int, missing: int) -> Finding:
    """More dead than a tank has animals: bodies are facts, so the rest is unaccounted."""
    where = f"in tank `{event.tank}`" if event.tank is not None else "in no named tank"
    return Finding(
        code="L203",
        place=event.place_of("count"),
        message=f"{event.kind_name} {where}: {missing} more than the book has there",
        label=f"the book has {there}",
        notes=("the difference is kept as unaccounted",),
        helps=("write down which group they were of, if another move is missing",),
    )


def left_in_closed_tank(event: Event, page: BookPage, groups: Sequence[str]) -> Finding:
    """Note that a tank was taken down with animals on its book."""
    names = ", ".join(f"`{group}`" for group in groups)
    return Finding(
        code="L205",
        place=event.place,
        message=f"tank `{event.tank}` is taken down with {names} still on its book",
        label="their whereabouts are unaccounted from here on",
        related=_last_events(page, groups),
        helps=("write down where they went, or `left: {young: some}`",),
    )


def count_differs(
    event: Event, *, groups: Sequence[str], counted: Count, book: Bounds, colony: bool
) -> Finding:
    """Note that a count disagrees with the book; shown on the pages, never an error."""
    found = book[1] is not None and counted.low > book[1]
    what = ", ".join(f"`{group}`" for group in groups) or f"tank `{event.tank}`"
    return Finding(
        code="L201" if found else "L204",
        place=event.place,
        message=f"{counted.text} counted of {what}, the book has {bounds_text(*book)}",
        label="more than on the book" if found else "fewer than on the book",
        notes=(
            "taken as unrecorded births of the colony"
            if found and colony
            else "the difference is kept as unaccounted and shown",
        ),
    )


def _last_events(page: BookPage, groups: Sequence[str]) -> tuple[Mark, ...]:
    marks = []
    for group in groups[:3]:
        posting = page.last_posting(group)
        if posting is None:
            continue
        place = page.place_of(posting.event)
        if place is not None:
            marks.append(
                Mark(
                    place=place,
                    says=f"`{group}` last {posting.kind_name} here, on {posting.when.text}",
                )
            )
    return tuple(marks)


def _key_of_number(event: Event) -> str:
    return next((key for key in ("count", "females", "males", "young") if event.has(key)), "group")


def _place_of_group(event: Event) -> Place:
    for key in ("group", "from", "of", "parts", "lot"):
        if event.has(key):
            return event.place_of(key)
    return event.place
