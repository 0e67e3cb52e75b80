"""Tanks, holdings, the book of groups, and what is said where."""

from datetime import date

from filialog.analysis import JournalResults
from filialog.journal.events import EventId
from tools.diaries import results_of

_DIARY = """
    2026-01-01 fen | present: {group: dusk, count: 10}
    2026-01-10 fen | measured: {ph: 6.4, temperature: 22}
    2026-01-10 fen | changed: {litres: 2}
    2026-01-12 fen | soil: {new: true, what: clay}
    2026-02-01 fen | moved: {group: dusk, count: 4, as: away, to: tarn}
    2026-02-10 tarn | died: {group: away, count: 1}
    2026-03-01 tarn | sold: {group: away, count: 3}
    2026-03-05 fen | counted: {group: dusk, count: 5, how: emptied}
"""


def _results() -> JournalResults:
    return results_of(_DIARY)


def test_stays__say_from_when_to_when_a_group_was_there() -> None:
    stays = [(one.group, one.since, one.until) for one in _results().tank("tarn").stays]

    assert stays == [("away", date(2026, 2, 1), date(2026, 3, 1))]
    fen = _results().tank("fen").stays
    assert [(one.group, one.until) for one in fen] == [("dusk", None)]
    assert fen[0].event == EventId("001", 0)


def test_holdings__are_those_of_the_day() -> None:
    results = _results()

    def held(day: date) -> list[tuple[str, str, int | None]]:
        return [(row.tank, row.group, row.count.exact) for row in results.holdings(day)]

    assert held(date(2025, 12, 31)) == []
    assert held(date(2026, 1, 1)) == [("fen", "dusk", 10)]
    assert held(date(2026, 2, 1)) == [("tarn", "away", 4), ("fen", "dusk", 6)]
    assert held(results.as_of) == [("fen", "dusk", 5)]


def test_tank__shows_the_end_of_its_own_last_day() -> None:
    tank = _results().tank("tarn")

    assert (tank.last_day, tank.holdings, tank.total) == (date(2026, 3, 1), (), None)
    fen = _results().tank("fen")
    assert fen.total is not None
    assert fen.total.exact == 5


def test_tank__readings_changes_and_work_are_listed() -> None:
    tank = _results().tank("fen")

    (reading,) = tank.readings
    assert [(name, one.value) for name, one in reading.readings] == [
        ("ph", 6.4),
        ("temperature", 22.0),
    ]
    assert [change.litres for change in tank.changes] == [2.0]
    assert tank.other_events == (EventId("004", 0),)
    assert [mention.entry for mention in tank.mentions] == [
        "001",
        "002",
        "003",
        "004",
        "005",
        "008",
    ]


def test_tank__closed_has_its_day() -> None:
    results = results_of(f"{_DIARY}\n2026-04-01 tarn | closed: {{note: shelf needed}}")

    assert results.tank("tarn").closed == date(2026, 4, 1)
    assert results.tank("fen").closed is None


def test_tank__nothing_ever_happened_in_is_empty() -> None:
    results = results_of(_DIARY, tanks=("fen", "tarn", "unused"))

    tank = results.tank("unused")
    assert (tank.stays, tank.last_day, tank.holdings, tank.total) == ((), None, (), None)


def test_book__lines_tell_every_change_and_what_was_left() -> None:
    results = _results()

    lines = [
        (line.kind_name, line.gained, line.change and line.change.exact, line.after.exact)
        for line in results.group("dusk").book
    ]
    assert lines == [("present", True, 10, 10), ("moved", False, 4, 6), ("counted", False, None, 5)]
    last = results.group("dusk").book[-1]
    assert last.unaccounted is not None
    assert last.unaccounted.exact == 1
    moved = results.group("away").book[0]
    assert (moved.other_group, moved.to_tank, moved.tank) == ("dusk", None, "tarn")


def test_mentions__say_where_a_group_is_spoken_of() -> None:
    mentions = _results().group("away").mentions

    assert [(one.entry, one.in_prose) for one in mentions] == [
        ("005", False),
        ("006", False),
        ("007", False),
    ]


def test_withheld__events_count_but_cannot_be_fetched() -> None:
    diary = f"{_DIARY}\n2026-03-06 fen | sold: {{group: dusk, count: 2, private: true}}"
    keeper, public = results_of(diary), results_of(diary, public=True)

    hidden = EventId("009", 0)
    assert keeper.event(hidden) is not None
    assert public.event(hidden) is None
    assert public.group("dusk").book[-1].event == hidden
    assert [row.count.exact for row in public.holdings(public.as_of)] == [3]
    assert "009" not in [mention.entry for mention in public.group("dusk").mentions]


def test_private_group__takes_what_names_it_along() -> None:
    diary = """
        2026-01-01 fen | bought: {group: dusk, count: 9}
        2026-01-01 fen | bought: {group: secret, count: 9, private: true}
        2026-02-01 fen | paired: {dams: secret, sires: dusk, cross: first}
        2026-03-01 tarn | hatched: {brood: young, cross: first}
        2026-04-01 tarn | sorted: {from: young, into: {keep: {count: 2, look: dull}}}
    """
    results = results_of(diary, public=True)

    assert results.groups() == ("dusk", "young", "keep")
    young = results.brood("young")
    assert young is not None
    assert "secret" not in young.dams.groups
    assert [results.group(name).group for name in results.groups()] == list(results.groups())


def test_withheld__sort_gives_no_look_away() -> None:
    sort = "{from: dusk, into: {keep: {count: 2, look: glowing}}, private: true}"
    diary = f"""
        2026-01-01 fen | bought: {{group: dusk, count: 9}}
        2026-02-01 fen | sorted: {sort}
        2026-02-02 fen | moved: {{group: dusk, count: 1, as: keep}}
    """
    public = results_of(diary, public=True).group("keep")

    assert public.look is None
    assert public.genotypes == ()
