"""Parent sets against simulated tanks: the truth is always in them, and they are not much larger
than what a brute-force oracle cannot exclude from the same records.

The bound of 1.25 on the size is the project's own; `parentage_figures.py` prints the figures.
"""

import pytest

from filialog.journal.parentage import Claim
from simulation.parentage_figures import Figures, figures, judged, random_journals, written
from simulation.parentage_oracle import possible_parents
from simulation.tank_histories import History, tank_history

_RANK = {Claim.FIRM: 0, Claim.LIKELY: 1, Claim.SET: 2, Claim.UNKNOWN: 3}
"""How much a claim leaves open."""


def _assert_honest(found: Figures, *, at_least: int) -> None:
    print(found)
    assert found.broods >= at_least, found
    assert not found.misses, f"\n{found}"
    assert not found.overclaims, f"\n{found}\n{found.overclaims[:5]}"
    assert found.ratio <= 1.25, f"\n{found}"


def test_parent_sets__hold_the_truth_stay_small_and_are_firm_only_where_they_can_be() -> None:
    _assert_honest(figures(60), at_least=350)


@pytest.mark.long
def test_parent_sets__do_so_in_500_journals() -> None:
    _assert_honest(figures(500), at_least=3_000)


@pytest.mark.parametrize("seed", [144, 211, 450, 4336, 4836, 4989])
def test_parent_sets__hold_a_sire_of_an_earlier_tank_where_she_moved_with_eggs_since(
    seed: int,
) -> None:
    """Rare among random journals: sperm taken along, eggs laid from it, and then another move."""
    history = tank_history(seed)
    verdicts = judged(history, possible_parents(history.records))

    assert [one for one in verdicts if one.dam_missed or one.sire_missed] == []


@pytest.mark.parametrize("seed", [5931])
def test_parent_sets__hold_males_of_a_group_of_which_others_were_put_there_as_dams(
    seed: int,
) -> None:
    """Rare among random journals: the females of a mixed group are paired, its males follow."""
    history = tank_history(seed)
    verdicts = judged(history, possible_parents(history.records))

    assert [one for one in verdicts if one.dam_missed or one.sire_missed] == []


def test_parent_sets__miss_who_jumped_unseen_and_hardly_anyone_else() -> None:
    """Nothing in the records speaks of the jump; one that is still in a set is so by chance."""
    found = figures(60, stray="unrecorded")
    print(found)

    assert found.strayed >= 30, found
    others = [one for one in found.misses if not one.birth.strayed]
    assert 0 < len(found.misses) - len(others) < found.strayed, f"\n{found}"
    assert len(others) < 0.02 * found.broods, f"\n{found}"


def test_parent_sets__call_nothing_firm_that_a_stray_on_record_has_upset() -> None:
    found = figures(60, stray="recorded")

    assert found.strayed >= 30, found
    assert found.firm == 0, f"\n{found}"


@pytest.mark.parametrize("seed", [*range(40), 208, 274, 405])
def test_parent_sets__call_neither_side_firm_where_a_stray_got_in_before_the_hatching(
    seed: int,
) -> None:
    """The last three are journals of which the sires were somebody else's than of the book."""
    history = tank_history(seed, stray="recorded")
    strays = [record for record in history.records if record.kind == "strayed"]
    claims = _claims(history)
    for one in history.records:
        if one.kind == "hatched" and any(
            stray.first <= one.last and one.tank in (stray.tank, stray.to) for stray in strays
        ):
            assert Claim.FIRM not in claims[str(one.group)], one.group


@pytest.mark.parametrize("seed", [208, 274, 405])
def test_parent_sets__are_not_firm_about_the_sires_of_a_stray_with_eggs(seed: int) -> None:
    history = tank_history(seed, stray="recorded")
    verdicts = judged(history, possible_parents(history.records))
    missed = [one for one in verdicts if one.dam_missed or one.sire_missed]

    assert missed
    assert not any(one.firm_and_missed for one in missed), missed


def _claims(history: History) -> dict[str, tuple[Claim, Claim]]:
    results = written(history.records, history.tanks)
    rows = {birth.brood: results.brood(birth.brood) for birth in history.births}
    return {brood: (row.dams.claim, row.sires.claim) for brood, row in rows.items() if row}


def _without_strays(history: History) -> History:
    records = tuple(record for record in history.records if record.kind != "strayed")
    return History(seed=history.seed, tanks=history.tanks, records=records, births=history.births)


def test_parent_sets__claim_less_after_a_stray_that_was_written_down() -> None:
    lowered = 0
    for history, _ in random_journals(40, stray="recorded"):
        stray = next((record for record in history.records if record.kind == "strayed"), None)
        if stray is None:
            continue
        hatched = {one.group: one for one in history.records if one.kind == "hatched"}
        told, untold = _claims(history), _claims(_without_strays(history))
        for brood, claims in told.items():
            ranks = [
                (_RANK[now], _RANK[then]) for now, then in zip(claims, untold[brood], strict=True)
            ]
            where = (history.seed, brood, claims, untold[brood])
            assert all(now >= then for now, then in ranks), where
            if hatched[brood].last < stray.first:
                assert claims == untold[brood], where
            lowered += any(now > then for now, then in ranks)
    assert lowered > 10
