"""Descent: free of loops, in a fixed order, with the loops that cannot be told apart."""

import random
import sys
from datetime import date, timedelta

import pytest

from filialog.analysis import JournalResults
from filialog.journal import CheckedJournal, check_journal
from filialog.journal.births import first_births
from filialog.journal.descent import Descent, descent_of
from filialog.journal.events import Event
from filialog.journal.names import names_of
from filialog.journal.parents import named_parents
from tools.journals import event, journal, species

_STOCK = event("present", on="2026-01-01", tank="fen", group="stock", count="10")


def _checked(*events: Event) -> CheckedJournal:
    return check_journal(journal(_STOCK, *events))


def _descent(*events: Event) -> Descent:
    return _checked(*events).descent


def _edges(descent: Descent) -> set[tuple[str, str, bool]]:
    return {
        (group, step.source, step.parent) for group, back in descent.steps.items() for step in back
    }


def _hatched(on: str, brood: str, *, dams: str, sires: str = "stock") -> Event:
    return event("hatched", on=on, tank="fen", brood=brood, dams=dams, sires=sires, count="8")


def _joined(on: str, part: str, *, into: str) -> Event:
    return event("joined", on=on, tank="fen", parts={part: "2"}, into=into)


def _chosen(on: str, source: str, *, into: str) -> Event:
    return event("chosen", on=on, tank="fen", from_=source, into=into, count="3")


def _assert_in_order(descent: Descent) -> None:
    position = {group: number for number, group in enumerate(descent.order)}
    assert sorted(position) == sorted(descent.steps)
    for group, back in descent.steps.items():
        assert all(position[step.source] < position[group] for step in back)


# --- loops that are no contradiction ---------------------------------------------------------


def test_young__put_back_with_their_parents_are_no_error() -> None:
    events = (
        _hatched("2026-03-01", "young", dams="stock"),
        _joined("2026-06-01", "young", into="stock"),
    )
    checked = _checked(*events)

    assert checked.findings == ()
    assert checked.descent.impossible == ()
    assert _edges(checked.descent) == {("young", "stock", True)}
    _assert_in_order(checked.descent)
    row = JournalResults(checked).brood("young")
    assert row is not None
    assert row.dams.groups == ("stock",)


def test_young__put_back_on_the_day_they_hatched_are_no_error() -> None:
    descent = _descent(
        _hatched("2026-03-01", "young", dams="stock"),
        _joined("2026-03-01", "young", into="stock"),
    )

    assert descent.impossible == ()


def test_grandchildren__put_back_with_the_first_parents_are_no_error() -> None:
    checked = _checked(
        _hatched("2026-03-01", "young", dams="stock"),
        _hatched("2026-06-01", "grandchildren", dams="young"),
        _joined("2026-09-01", "grandchildren", into="stock"),
    )

    assert checked.findings == ()
    assert ("stock", "grandchildren", False) not in _edges(checked.descent)
    assert ("young", "stock", True) in _edges(checked.descent)


def test_animals__put_back_into_the_group_they_were_taken_from_are_no_error() -> None:
    checked = _checked(
        _chosen("2026-02-01", "stock", into="best"),
        _joined("2026-03-01", "best", into="stock"),
    )

    assert checked.findings == ()
    assert _edges(checked.descent) == {("best", "stock", False)}
    results = JournalResults(checked)
    assert [results.group(name).group for name in results.groups()] == ["stock", "best"]
    assert [row.count.exact for row in results.holdings(checked.as_of)] == [1, 9]


def test_animals__that_went_to_and_fro_many_times_give_results() -> None:
    events: list[Event] = []
    for number in range(1, 7):
        events.append(_chosen(f"2026-02-{2 * number:02}", "stock", into="best"))
        events.append(_joined(f"2026-02-{2 * number + 1:02}", "best", into="stock"))
    checked = _checked(*events)

    assert checked.findings == ()
    assert set(checked.descent.order) == {"stock", "best"}
    assert JournalResults(checked).group("best").from_groups == ("stock",)


def test_group__that_gains_of_itself_has_no_step_to_itself() -> None:
    descent = _descent(
        event("joined", on="2026-02-01", tank="fen", parts={"stock": "all"}, into="stock")
    )

    assert descent.steps["stock"] == ()
    assert descent.impossible == ()


# --- loops that cannot be --------------------------------------------------------------------


def _codes(checked: CheckedJournal) -> list[str]:
    return [finding.code for finding in checked.findings if finding.code.startswith("P")]


def test_loop__of_two_broods_is_impossible_and_names_both_entries() -> None:
    checked = _checked(
        _hatched("2026-03-01", "one", dams="two"), _hatched("2026-08-01", "two", dams="one")
    )

    (loop,) = checked.descent.impossible
    assert {step.source for step in loop} == {"one", "two"}
    assert _codes(checked) == ["P101"]
    (finding,) = checked.findings
    places = {finding.place.path, *(mark.place.path for mark in finding.related)}
    assert places == {"diary/2026-03-01 fen.md", "diary/2026-08-01 fen.md"}
    _assert_in_order(checked.descent)


def test_loop__of_three_broods_is_one_finding() -> None:
    checked = _checked(
        _hatched("2026-03-01", "one", dams="three"),
        _hatched("2026-06-01", "two", dams="one"),
        _hatched("2026-09-01", "three", dams="two"),
    )

    assert _codes(checked) == ["P101"]
    (finding,) = (one for one in checked.findings if one.code == "P101")
    assert len(finding.related) == 2


def test_loop__two_apart_are_two_findings() -> None:
    checked = _checked(
        _hatched("2026-03-01", "a", dams="b"),
        _hatched("2026-04-01", "b", dams="a"),
        _hatched("2026-05-01", "c", dams="d"),
        _hatched("2026-06-01", "d", dams="c"),
    )

    assert _codes(checked) == ["P101", "P101"]


def test_loop__through_a_group_taken_before_the_hatching_is_impossible() -> None:
    """The dams were chosen from the brood before it hatched, so no later mixing explains it."""
    checked = _checked(
        _chosen("2026-02-01", "young", into="best"), _hatched("2026-03-01", "young", dams="best")
    )

    assert "P101" in _codes(checked)
    assert len(checked.descent.impossible) == 1


def test_loop__of_a_brood_with_itself_is_impossible() -> None:
    checked = _checked(_hatched("2026-03-01", "one", dams="one"))

    assert _codes(checked) == ["P101"]
    assert _edges(checked.descent) == {("one", "stock", True)}
    _assert_in_order(checked.descent)


# --- order and size --------------------------------------------------------------------------


def _chain(length: int) -> list[Event]:
    first = date(2000, 1, 1)
    events = [event("present", on="2000-01-01", tank="a", group="g0000", count="9")]
    for number in range(1, length):
        source, group = f"g{number - 1:04}", f"g{number:04}"
        on = (first + timedelta(days=90 * number)).isoformat() if number < 200 else "2050-01-01"
        if number % 2:
            made = event("hatched", on=on, tank="a", brood=group, dams=source, sires=source)
        else:
            made = event("chosen", on=on, tank="a", from_=source, into=group, count="3")
        events.append(made)
    return events


def test_chain__of_3000_groups_needs_no_deep_recursion() -> None:
    limit = sys.getrecursionlimit()
    whole = journal(*_chain(3000))
    names = names_of(whole)
    sys.setrecursionlimit(250)
    try:
        descent = descent_of(names, named_parents(whole, names))
        births = first_births(names, descent)
    finally:
        sys.setrecursionlimit(limit)

    assert len(descent.order) == len(births) == 3000
    assert descent.order[0] == "g0000"
    assert descent.impossible == ()
    _assert_in_order(descent)


def test_chain__of_loops_through_parents_needs_no_deep_recursion() -> None:
    events = [
        *_chain(3000),
        event("hatched", on="2050-01-02", tank="a", brood="g0001", dams="g2999"),
    ]
    whole = journal(*(one for one in events if one.text("group") != "g0000"))
    names = names_of(whole)
    descent = descent_of(names, named_parents(whole, names))

    _assert_in_order(descent)


def _random_events(seed: int) -> list[Event]:
    source = random.Random(seed)
    names = [f"g{number}" for number in range(8)]
    events = []
    for number in range(16):
        one, other = source.sample(names, 2)
        on = f"2026-{source.randint(2, 9):02}-{number + 1:02}"
        kind = source.choice(("hatched", "chosen", "joined"))
        if kind == "hatched":
            events.append(_hatched(on, one, dams=other))
        elif kind == "chosen":
            events.append(_chosen(on, other, into=one))
        else:
            events.append(_joined(on, other, into=one))
    return events


@pytest.mark.parametrize("seed", range(60))
def test_order__is_that_of_descent_whatever_loops_there_are(seed: int) -> None:
    """A second way: no group can be reached from itself by the steps that are left."""
    descent = _descent(*_random_events(seed))

    _assert_in_order(descent)
    for loop in descent.impossible:
        assert any(step.parent for step in loop)


@pytest.mark.parametrize("seed", range(20))
def test_order__does_not_depend_on_the_order_of_writing(seed: int) -> None:
    events = _random_events(seed)
    written = list(events)
    random.Random(seed).shuffle(written)
    one, other = _descent(*events), _descent(*written)

    assert one.order == other.order
    assert _edges(one) == _edges(other)
    assert one.impossible == other.impossible


# --- first births ----------------------------------------------------------------------------


def _births(*events: Event) -> dict[str, date | None]:
    checked = check_journal(journal(_STOCK, *events, kind_of=species()))
    births = first_births(checked.names, checked.descent)
    return {group: found[0] if found is not None else None for group, found in births.items()}


def test_first_births__follow_animals_through_every_sorting() -> None:
    births = _births(
        _hatched("2026-03-01", "young", dams="stock"),
        _chosen("2026-05-01", "young", into="best"),
        event("moved", on="2026-06-01", tank="fen", group="best", count="1", as_="one"),
    )

    hatched = date(2026, 3, 1)
    assert births == {"stock": None, "young": hatched, "best": hatched, "one": hatched}


def test_first_births__of_a_mixture_are_the_first_of_its_parts() -> None:
    births = _births(
        _hatched("2026-03-01", "a", dams="stock"),
        _hatched("2026-04-01", "b", dams="stock"),
        event("joined", on="2026-05-01", tank="fen", parts={"a": "1", "b": "1"}, into="c"),
        event("joined", on="2026-05-02", tank="fen", parts={"a": "1", "stock": "1"}, into="d"),
    )

    assert births["c"] == date(2026, 3, 1)
    assert births["d"] is None
