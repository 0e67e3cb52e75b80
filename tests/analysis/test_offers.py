"""Lots: what is left of an offer by the book, and in which state it is."""

import pytest

from filialog.analysis.rows import LotRow, LotState
from filialog.journal.quantities import Count
from tools.diaries import results_of

_STOCK = "2026-01-01 fen | bought: {group: dusk, count: 20}\n"


def _lot(*lines: str, public: bool = False) -> LotRow:
    results = results_of(_STOCK + "\n".join(lines), public=public)
    (name,) = results.lots()
    return results.lot(name)


def _bounds(count: Count) -> tuple[int, int | None]:
    return count.low, count.high


def test_lot__freshly_offered_is_open_and_whole() -> None:
    lot = _lot("2026-03-01 fen | offered: {lot: one, group: dusk, count: 8, note: bold}")

    assert (lot.state, lot.groups, lot.note) == (LotState.OPEN, ("dusk",), "bold")
    assert _bounds(lot.left) == (8, 8)
    assert _bounds(lot.on_book) == (20, 20)
    assert lot.tanks == ("fen",)


@pytest.mark.parametrize(
    ("events", "state", "left", "reserved"),
    [
        (["reserved: {lot: one, count: 3}"], LotState.OPEN, (8, 8), (3, 3)),
        (["reserved: {lot: one, count: 8}"], LotState.RESERVED, (8, 8), (8, 8)),
        (["reserved: {lot: one}"], LotState.RESERVED, (8, 8), (8, 8)),
        (["sold: {lot: one, group: dusk, count: 5}"], LotState.OPEN, (3, 3), (0, 0)),
        (
            ["reserved: {lot: one, count: 5}", "sold: {lot: one, group: dusk, count: 5}"],
            LotState.OPEN,
            (3, 3),
            (0, 0),
        ),
        (["sold: {lot: one, group: dusk, count: 8}"], LotState.SOLD, (0, 0), (0, 0)),
        (["given: {lot: one, group: dusk, count: 9}"], LotState.SOLD, (0, 0), (0, 0)),
        (["died: {group: dusk, count: 20}"], LotState.GONE, (0, 0), (0, 0)),
        (["died: {group: dusk, count: 15}"], LotState.OPEN, (5, 5), (0, 0)),
    ],
)
def test_lot__follows_the_book(
    events: list[str], state: LotState, left: tuple[int, int], reserved: tuple[int, int]
) -> None:
    later = [f"2026-04-0{day} fen | {event}" for day, event in enumerate(events, start=1)]
    lot = _lot("2026-03-01 fen | offered: {lot: one, group: dusk, count: 8}", *later)

    assert (lot.state, _bounds(lot.left), _bounds(lot.reserved)) == (state, left, reserved)


def test_lot__of_unknown_number_keeps_its_bounds() -> None:
    lot = _lot("2026-03-01 fen | offered: {lot: one, group: dusk, count: 8+}")
    assert _bounds(lot.left) == (8, 20)
    lot = _lot("2026-03-01 fen | offered: {lot: one, group: dusk}")
    assert _bounds(lot.left) == (20, 20)
    lot = _lot(
        "2026-03-01 fen | offered: {lot: one, group: dusk, count: 8}",
        "2026-03-02 fen | sold: {lot: one, group: dusk, count: 2-4}",
    )
    assert _bounds(lot.left) == (4, 6)


def test_lot__offered_again_counts_from_the_newest_offer() -> None:
    lot = _lot(
        "2026-03-01 fen | offered: {lot: one, group: dusk, count: 4}",
        "2026-03-02 fen | sold: {lot: one, group: dusk, count: 4}",
        "2026-04-01 fen | offered: {lot: one, group: dusk, count: 6}",
    )

    assert (lot.state, _bounds(lot.left), _bounds(lot.handed_over)) == (
        LotState.OPEN, (6, 6), (0, 0),
    )  # fmt: skip


def test_lot__of_one_of_several_groups_adds_their_numbers() -> None:
    lot = _lot(
        "2026-02-01 fen | bought: {group: dawn, count: 5}",
        "2026-03-01 fen | offered: {lot: one, of: [dusk, dawn], count: 30}",
    )

    assert lot.groups == ("dusk", "dawn")
    assert _bounds(lot.on_book) == (25, 25)
    assert _bounds(lot.left) == (25, 25)


def test_lot__a_private_sale_still_lowers_what_is_left() -> None:
    lot = _lot(
        "2026-03-01 fen | offered: {lot: one, group: dusk, count: 8}",
        "2026-03-02 fen | sold: {lot: one, group: dusk, count: 5, private: true}",
        public=True,
    )

    # Of which lot they were is not published: it may have lost none of them, or all.
    assert _bounds(lot.left) == (3, 8)
    assert _bounds(lot.on_book) == (15, 15)


def test_lot__private_offer_is_no_lot_of_the_public_edition() -> None:
    line = "2026-03-01 fen | offered: {lot: one, group: dusk, count: 8, private: true}"

    assert results_of(_STOCK + line).lots() == ("one",)
    assert results_of(_STOCK + line, public=True).lots() == ()


def test_lot__sale_without_an_offer_is_none() -> None:
    assert (
        results_of(_STOCK + "2026-03-02 fen | sold: {lot: x, group: dusk, count: 5}").lots() == ()
    )
