"""The order inside a day: what is counted is counted before it is sorted out of the tray."""

from datetime import date

from tools.diaries import checked, diary_files


def _numbers(*events: str) -> tuple[dict[str, str], tuple[str, ...]]:
    """Keep the book of two broods and one day; return who is left, and the codes of findings."""
    day = "\n".join(f"2026-04-01 | {event}" for event in events)
    found = checked(
        diary_files(
            f"""
            2026-03-01 hazel | hatched: {{brood: b, count: 17+}}
            2026-03-02 rowan | hatched: {{brood: e, count: 12}}
            {day}
            """
        )
    )
    left = {holding.group: holding.count.text for holding in found.book.holdings(date(2026, 4, 1))}
    return left, tuple(finding.code for finding in found.findings)


def test_day__a_total_below_an_open_book_is_taken_before_the_sorting() -> None:
    """Read the other way round, any open book would agree with any count of what is left."""
    left, codes = _numbers(
        "counted: {brood: b, how: emptied, looks: {dull: 8, glowing: 7}}",
        "sorted: {from: b, into: {x: 8, y: 7}}",
    )

    assert left == {"e": "12", "x": "8", "y": "7"}
    assert codes == ("L204",)


def test_day__a_count_of_what_the_sorting_left_is_seen_as_such() -> None:
    left, codes = _numbers(
        "sorted: {from: e, into: {x: 7}}",
        "counted: {brood: e, how: emptied, count: 5}",
    )

    assert left["e"] == "5"
    assert left["x"] == "7"
    assert codes == ()


def test_day__a_count_and_a_death_agree_in_the_order_that_works() -> None:
    left, codes = _numbers(
        "died: {group: e, count: 1}",
        "counted: {brood: e, how: emptied, count: 11}",
        "sorted: {from: e, into: {x: 4}}",
    )

    assert left["e"] == "7"
    assert codes == ()
