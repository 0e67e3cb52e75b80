"""The oracle of parentage, on cases small enough to be settled by hand."""

import pytest

from simulation.parentage_oracle import ParentSets, TooManyWorldsError, possible_parents
from simulation.tank_histories import tank_history
from simulation.tank_records import Record, Share

_HATCH = 100
"""The day on which the young of most cases hatch: laid on day 69 to 85."""


def _bought(
    group: str, count: int, *, tank: str = "fen", females: int | None = None,
    males: int | None = None, day: int = 0,
) -> Record:  # fmt: skip
    return Record(
        kind="bought", first=day, last=day, tank=tank, group=group, low=count, high=count,
        females=females, males=males,
    )  # fmt: skip


def _moved(
    group: str, day: int, *, to: str, tank: str = "fen", until: int | None = None,
    count: int | None = None, berried: bool = False,
) -> Record:  # fmt: skip
    return Record(
        kind="moved", first=day, last=until or day, tank=tank, group=group, to=to, low=count,
        high=count, berried=berried,
    )  # fmt: skip


def _hatched(
    brood: str = "young", *, day: int = _HATCH, tank: str = "fen", dams: tuple[str, ...] = ()
) -> Record:
    return Record(
        kind="hatched", first=day, last=day, tank=tank, group=brood, low=3, high=3, dams=dams
    )


def _seen(kind: str, group: str, day: int, *, count: int = 1, tank: str = "fen") -> Record:
    return Record(kind=kind, first=day, last=day, tank=tank, group=group, low=count, high=count)


def _died(day: int, *, group: str | None = None, tank: str = "fen") -> Record:
    return Record(kind="died", first=day, last=day, tank=tank, group=group, low=1, high=1)


def _sets(dams: str, sires: str) -> ParentSets:
    return ParentSets(dams=frozenset(dams.split()), sires=frozenset(sires.split()))


_DUSK = _bought("dusk", 3, females=3)
_DAWN = _bought("dawn", 3, males=3)


def _young(*records: Record) -> ParentSets:
    return possible_parents(records)["young"]


def test_oracle__sexes_decide_the_side() -> None:
    assert _young(_DUSK, _DAWN, _hatched()) == _sets("dusk", "dawn")
    assert _young(_bought("noon", 2), _hatched()) == _sets("noon", "noon")
    assert _young(_bought("noon", 2), _DAWN, _hatched()) == _sets("noon", "noon dawn")


def test_oracle__one_animal_is_not_both_parents() -> None:
    assert _young(_bought("noon", 1), _hatched()) == _sets("", "")
    assert _young(_bought("noon", 1), _DAWN, _hatched()) == _sets("noon", "dawn")


@pytest.mark.parametrize(("left", "sires"), [(68, "late"), (69, "dawn late"), (85, "dawn late")])
def test_oracle__sires_were_there_when_the_eggs_were_laid(left: int, sires: str) -> None:
    came = _bought("late", 1, males=1, day=85)
    records = sorted(
        (_DUSK, _DAWN, _moved("dawn", left, to="tarn"), came), key=lambda one: one.first
    )

    assert _young(*records, _hatched()) == _sets("dusk", sires)


def test_oracle__who_came_too_late_is_no_sire() -> None:
    late = _bought("late", 1, males=1, day=86)

    assert _young(_DUSK, _DAWN, late, _hatched()) == _sets("dusk", "dawn")


@pytest.mark.parametrize(("first", "sires"), [(68, "dawn noon"), (67, "dawn noon"), (60, "noon")])
def test_oracle__a_window_of_a_move_counts_to_its_last_day(first: int, sires: str) -> None:
    records = (
        _DUSK, _DAWN, _bought("noon", 1, males=1),
        _moved("dawn", first, to="tarn", until=69 if first > 60 else 68),
    )  # fmt: skip

    assert _young(*records, _hatched()) == _sets("dusk", sires)


def test_oracle__a_female_moved_with_eggs_brings_the_sires_of_her_old_tank() -> None:
    noon = _bought("noon", 2, males=2, tank="tarn")
    moved = _moved("dusk", 90, to="tarn", count=1, berried=True)

    assert _young(_DUSK, _DAWN, noon, moved, _hatched(tank="tarn")) == _sets("dusk", "dawn")


def test_oracle__with_eggs_seen_on_the_way_the_laying_was_before() -> None:
    """Moved 28 days before the hatch: with eggs then, she laid in her old tank."""
    noon = _bought("noon", 2, males=2, tank="tarn")
    unmarked = _moved("dusk", 72, to="tarn", count=1)
    marked = _moved("dusk", 72, to="tarn", count=1, berried=True)

    assert _young(_DUSK, _DAWN, noon, unmarked, _hatched(tank="tarn")).sires == {"dawn", "noon"}
    assert _young(_DUSK, _DAWN, noon, marked, _hatched(tank="tarn")).sires == {"dawn"}


def test_oracle__sperm_of_the_old_tank_is_possible_for_the_first_brood_only() -> None:
    one = _bought("dusk", 1, females=1)
    noon = _bought("noon", 2, males=2, tank="tarn")
    moved, first = _moved("dusk", 60, to="tarn"), _hatched("first", day=65, tank="tarn")
    young = _hatched(tank="tarn")

    assert _young(one, _DAWN, noon, moved, young) == _sets("dusk", "dawn noon")
    assert _young(one, _DAWN, noon, moved, first, young) == _sets("dusk", "noon")


@pytest.mark.parametrize(("left", "sires"), [(40, "noon"), (41, "dawn noon")])
def test_oracle__sperm_can_be_of_a_male_who_left_before_her(left: int, sires: str) -> None:
    noon = _bought("noon", 2, males=2, tank="tarn")
    gone, moved = _moved("dawn", left, to="weir"), _moved("dusk", 50, to="tarn")

    assert _young(_DUSK, _DAWN, noon, gone, moved, _hatched(tank="tarn")) == _sets("dusk", sires)
    assert _young(_DUSK, _DAWN, gone, _bought("noon", 2, males=2, day=50), _hatched()).sires == {
        "noon"
    }


@pytest.mark.parametrize(("moved", "sires"), [(40, "noon"), (41, "dawn noon")])
def test_oracle__sperm_of_the_old_tank_lasts_four_weeks(moved: int, sires: str) -> None:
    noon = _bought("noon", 2, males=2, tank="tarn")
    records = (_DUSK, _DAWN, noon, _moved("dusk", moved, to="tarn"), _hatched(tank="tarn"))

    assert _young(*records) == _sets("dusk", sires)


def test_oracle__of_two_females_the_second_brood_can_be_a_first() -> None:
    two = _bought("dusk", 2, females=2)
    noon = _bought("noon", 2, males=2, tank="tarn")
    moved, first = _moved("dusk", 60, to="tarn"), _hatched("first", day=65, tank="tarn")

    found = _young(two, _DAWN, noon, moved, first, _hatched(tank="tarn"))

    assert found == _sets("dusk", "dawn noon")


def test_oracle__a_brood_carried_over_ends_what_earlier_tanks_gave() -> None:
    two = _bought("dusk", 2, females=2)
    noon = _bought("noon", 2, males=2, tank="tarn")
    late = _bought("late", 2, males=2, tank="weir")
    moved = _moved("dusk", 58, to="tarn")
    found = {}
    for berried in (False, True):
        singly = [
            _moved("dusk", day, tank="tarn", to="weir", count=1, berried=berried)
            for day in (60, 61)
        ]
        first, young = _hatched("first", day=64, tank="weir"), _hatched(tank="weir")
        found[berried] = _young(two, _DAWN, noon, late, moved, *singly, first, young)

    assert found[False].sires == {"dawn", "noon", "late"}
    assert found[True].sires == {"late"}


def test_oracle__who_was_young_at_the_move_took_no_sperm_along() -> None:
    noon = _bought("noon", 2, males=2, tank="tarn")

    def sires(day: int) -> frozenset[str]:
        girls = Share(group="girls", count=3, females=3)
        parted = Record(
            kind="sorted", first=30, last=30, tank="fen", group="first", shares=(girls,)
        )
        moved = _moved("girls", day, to="tarn")
        young = _hatched(day=110, tank="tarn")
        return _young(_DUSK, _DAWN, noon, _hatched("first", day=20), parted, moved, young).sires

    assert sires(79) == {"noon"}
    assert sires(80) == {"dawn", "noon"}


def test_oracle__who_moved_with_eggs_is_no_male() -> None:
    noon = _bought("noon", 1)
    there = _moved("noon", 20, to="tarn", berried=True)
    back = _moved("noon", 40, tank="tarn", to="fen")

    assert _young(_DUSK, _DAWN, noon, _hatched()).sires == {"dawn", "noon"}
    first = _hatched("first", day=30, tank="tarn")
    assert _young(_DUSK, _DAWN, noon, there, first, back, _hatched()).sires == {"dawn"}


@pytest.mark.parametrize(("hatched", "sires"), [(144, "dawn"), (145, "dawn boys")])
def test_oracle__nobody_breeds_before_the_sixtieth_day(hatched: int, sires: str) -> None:
    """Born on day 70, grown on 130, laid 15 days before the hatch at the latest."""
    girls = Share(group="girls", count=2, females=2)
    boys = Share(group="boys", count=1, males=1)
    parted = Record(
        kind="sorted", first=120, last=120, tank="fen", group="first", shares=(girls, boys)
    )
    gone = _moved("girls", 121, to="tarn")
    records = (_DUSK, _DAWN, _hatched("first", day=70), parted, gone, _hatched(day=hatched))

    assert _young(*records) == _sets("dusk", sires)


def test_oracle__who_turns_out_male_was_no_dam() -> None:
    noon = _bought("noon", 2)
    parted = Record(
        kind="sorted", first=130, last=130, tank="fen", group="noon",
        shares=(Share(group="boys", count=2, males=2),),
    )  # fmt: skip

    assert _young(_DUSK, noon, _hatched()) == _sets("dusk noon", "noon")
    assert _young(_DUSK, noon, _hatched(), parted) == _sets("dusk", "noon")


def test_oracle__an_unnamed_body_can_be_anyone_who_is_not_seen_alive_later() -> None:
    males = [_bought(name, 1, males=1) for name in ("dawn", "noon")]
    dusk, dead = _bought("dusk", 1, females=1), _died(20)

    assert _young(dusk, *males, dead, _hatched()) == _sets("dusk", "dawn noon")
    assert _young(dusk, *males, dead, dead, _hatched()) == _sets("", "")
    assert _young(_DUSK, *males, dead, dead, _hatched()) == _sets("dusk", "dawn noon")
    alive = [_moved(name, 110, to="tarn", count=1) for name in ("noon", "dusk")]
    assert _young(dusk, *males, dead, _hatched(), *alive) == _sets("dusk", "noon")


def test_oracle__a_body_of_two_groups_is_of_one_of_them() -> None:
    males = [_bought(name, 1, males=1) for name in ("dawn", "noon", "late")]
    dead = Record(kind="died", first=20, last=20, tank="fen", of=("dawn", "noon"), low=1, high=1)
    dawn = _moved("dawn", 110, to="tarn", count=1)

    assert _young(_DUSK, *males, dead, _hatched()).sires == {"dawn", "noon", "late"}
    assert _young(_DUSK, *males, dead, dead, _hatched()).sires == {"late"}
    assert _young(_DUSK, *males, dead, _hatched(), dawn).sires == {"dawn", "late"}


def test_oracle__one_of_two_groups_that_moved_can_be_of_either() -> None:
    noon = _bought("noon", 1, females=1)
    moved = Record(
        kind="moved", first=90, last=90, tank="fen", of=("dusk", "noon"), low=1, high=1, to="tarn"
    )

    assert _young(_DUSK, noon, _DAWN, moved, _hatched(tank="tarn")).dams == {"dusk", "noon"}
    seen = _seen("berried", "noon", 95)
    assert _young(_DUSK, noon, _DAWN, moved, seen, _hatched(tank="tarn")).dams == {"dusk"}


def test_oracle__more_females_seen_than_a_world_has_rule_it_out() -> None:
    noon = _bought("noon", 2, females=2)
    moved = Record(
        kind="moved", first=90, last=90, tank="fen", of=("dusk", "noon"), low=1, high=1, to="tarn"
    )
    seen = _seen("not-berried", "noon", 95, count=2)

    assert _young(_DUSK, noon, _DAWN, moved, seen, _hatched(tank="tarn")).dams == {"dusk"}


def test_oracle__a_named_body_is_of_its_group() -> None:
    males = [_bought(name, 1, males=1) for name in ("dawn", "noon")]

    assert _young(_DUSK, *males, _died(20, group="dawn"), _hatched()) == _sets("dusk", "noon")


def test_oracle__a_joined_group_keeps_who_was_in_it() -> None:
    joined = Record(
        kind="joined", first=90, last=90, tank="fen", new="mix",
        shares=(Share(group="dusk", count=None), Share(group="dawn", count=1)),
    )  # fmt: skip

    assert _young(_DUSK, _DAWN, joined, _hatched()) == _sets("mix", "dawn")


def test_oracle__looks_at_all_females_bound_the_laying() -> None:
    """Eggs hatched on day 100; a male came on day 80 and another left on day 75."""
    one = _bought("dusk", 1, females=1)
    early, late = _bought("dawn", 1, males=1), _bought("late", 1, males=1, day=80)
    gone = _moved("dawn", 75, to="tarn")
    records = (one, early, gone, late)

    assert _young(*records, _hatched()) == _sets("dusk", "dawn late")
    noon = _bought("noon", 2, females=2)
    seen = _seen("not-berried", "dusk", 95)
    assert _young(noon, *records, seen, _hatched()) == _sets("noon", "dawn late")
    assert _young(*records, _seen("not-berried", "dusk", 78), _hatched()).sires == {"late"}
    assert _young(*records, _seen("berried", "dusk", 78), _hatched()).sires == {"dawn"}
    assert _young(*records, _seen("not-berried", "dusk", 95), _hatched()) == _sets("", "")


def test_oracle__looks_at_some_females_bind_nothing() -> None:
    early, late = _bought("dawn", 1, males=1), _bought("late", 1, males=1, day=80)
    records = (_DUSK, early, _moved("dawn", 75, to="tarn"), late)

    for kind in ("berried", "not-berried"):
        for day in (78, 95):
            seen = _seen(kind, "dusk", day, count=2)
            assert _young(*records, seen, _hatched()) == _sets("dusk", "dawn late")


def test_oracle__eggs_seen_can_have_hatched_as_an_earlier_brood() -> None:
    one = _bought("dusk", 1, females=1)
    early, late = _bought("dawn", 1, males=1), _bought("late", 1, males=1, day=80)
    before = (one, early, _moved("dawn", 75, to="tarn"), late)
    records = (*before, _seen("berried", "dusk", 78), _hatched("first", day=82), _hatched(day=110))

    assert _young(*records).sires == {"late"}


def test_oracle__warmth_of_the_tank_narrows_the_laying() -> None:
    """At 22 °C eggs take 20 to 29 days within one degree and a day: laid on day 71 to 80."""
    reading = Record(kind="temperature", first=90, last=90, tank="fen", temperature_c=22.0)
    late = _bought("late", 1, males=1, day=81)

    assert _young(_DUSK, _DAWN, late, _hatched()).sires == {"dawn", "late"}
    assert _young(_DUSK, _DAWN, late, reading, _hatched()).sires == {"dawn"}
    elsewhere = Record(kind="temperature", first=90, last=90, tank="tarn", temperature_c=22.0)
    assert _young(_DUSK, _DAWN, late, elsewhere, _hatched()).sires == {"dawn", "late"}


def test_oracle__named_dams_leave_the_others_out() -> None:
    noon = _bought("noon", 2, females=2)

    assert _young(_DUSK, noon, _DAWN, _hatched()).dams == {"dusk", "noon"}
    assert _young(_DUSK, noon, _DAWN, _hatched(dams=("noon",))).dams == {"noon"}


def test_oracle__an_open_count_rules_nobody_out() -> None:
    some = Record(kind="bought", first=0, last=0, tank="fen", group="noon", low=1, high=2)

    assert _young(_DUSK, some, _hatched()) == _sets("dusk noon", "noon")


def test_oracle__gives_up_on_too_many_worlds() -> None:
    groups = [_bought(f"noon-{number}", 3) for number in range(6)]

    with pytest.raises(TooManyWorldsError):
        possible_parents([*groups, *(_died(day) for day in range(10, 16)), _hatched()])


def test_oracle__holds_the_truth_of_honest_histories() -> None:
    """Parents that the history had are parents that the records allow."""
    checked = 0
    for seed in range(60):
        history = tank_history(seed)
        try:
            sets = possible_parents(history.records)
        except TooManyWorldsError:
            continue
        for birth in history.births:
            checked += 1
            assert sets[birth.brood].dams & birth.dam, (seed, birth)
            assert all(sets[birth.brood].sires & sire for sire in birth.sires), (seed, birth)
    assert checked > 300
