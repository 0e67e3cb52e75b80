"""Parents of broods: who can have been dam and sire, and how well that is known."""

import pytest

from filialog.analysis.rows import BroodRow
from filialog.journal.parentage import Claim
from tools.diaries import results_of

_SPECIES = "species: neocaridina-davidi\n"
# The catalogue gives that species 60 days to maturity and 15 to 31 days to hatching.


def _brood(diary: str, brood: str = "young", settings: str = _SPECIES) -> BroodRow:
    row = results_of(diary, settings=settings).brood(brood)
    assert row is not None
    return row


def test_parents__named_outright_are_firm() -> None:
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-01-01 fen | bought: {group: dawn, count: 3}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: dawn}
        """
    )

    assert (row.dams.groups, row.dams.claim, row.dams.named) == (("dusk",), Claim.FIRM, True)
    assert (row.sires.groups, row.sires.claim, row.sires.named) == (("dawn",), Claim.FIRM, True)
    assert [event.entry for event in row.sires.events] == ["003"]


def test_parents__named_alternatives_are_a_set() -> None:
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-01-01 fen | bought: {group: dawn, count: 3}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: {of: [dusk, dawn]}}
        """
    )

    assert (row.sires.groups, row.sires.claim) == (("dusk", "dawn"), Claim.SET)


def test_parents__named_through_a_cross_rest_on_the_pairing() -> None:
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-01-01 fen | bought: {group: dawn, count: 3}
        2026-02-01 fen | paired: {dams: dusk, sires: dawn, cross: first}
        2026-03-01 fen | hatched: {brood: young, cross: first}
        """
    )

    assert row.cross == "first"
    assert (row.dams.groups, row.dams.claim) == (("dusk",), Claim.FIRM)
    assert [event.entry for event in row.dams.events] == ["004", "003"]


def test_parents__pairing_in_the_tank_is_likely() -> None:
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-01-01 fen | bought: {group: dawn, count: 3}
        2026-01-20 fen | paired: {dams: dusk, sires: dawn}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (row.dams.groups, row.dams.claim, row.dams.named) == (("dusk",), Claim.LIKELY, False)
    assert row.sires.groups == ("dawn",)
    assert row.cross == "dusk by dawn"
    assert [event.entry for event in row.dams.events] == ["004", "003"]


def test_parents__pairing_too_late_for_the_hatching_tells_only_who_is_female() -> None:
    """A pairing 10 days before cannot have led to young that take 15 days at least."""
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-01-01 fen | bought: {group: dawn, count: 3}
        2026-02-19 fen | paired: {dams: dusk, sires: dawn}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert row.dams.groups == ("dusk",)
    assert row.sires.groups == ("dawn", "dusk")
    assert [event.entry for event in row.sires.events] == ["004"]


def test_parents__pairing_of_animals_that_left_the_tank_says_nothing() -> None:
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-01-01 fen | bought: {group: dawn, count: 3}
        2026-01-05 fen | paired: {dams: dusk, sires: dawn}
        2026-02-01 fen | moved: {group: dusk, to: tarn}
        2026-02-01 fen | moved: {group: dawn, to: tarn}
        2026-02-01 fen | bought: {group: noon, count: 3}
        2026-07-01 fen | hatched: {brood: young}
        """
    )

    assert (row.dams.groups, row.sires.groups) == (("noon",), ("noon",))


def test_parents__one_group_in_the_tank_is_likely() -> None:
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-01-01 tarn | bought: {group: dawn, count: 3}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (row.dams.groups, row.dams.claim) == (("dusk",), Claim.LIKELY)
    assert (row.sires.groups, row.sires.claim) == (("dusk",), Claim.LIKELY)


def test_parents__several_groups_in_the_tank_are_a_set_named_after_the_brood() -> None:
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-01-01 fen | bought: {group: dawn, count: 3}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (row.dams.groups, row.dams.claim) == (("dawn", "dusk"), Claim.SET)
    assert row.cross == "parents of young"


@pytest.mark.parametrize(
    ("left", "sires"),
    [
        # Young first seen on 1 March hatched from 26 February on, and were conceived from
        # 26 January to 14 February.
        pytest.param("2026-01-25", ("dusk",), id="before the window"),
        pytest.param("2026-01-26", ("dawn", "dusk"), id="on its first day"),
        pytest.param("2026-02-14", ("dawn", "dusk"), id="last day"),
    ],
)
def test_parents__sires_were_there_at_conception(left: str, sires: tuple[str, ...]) -> None:
    row = _brood(
        f"""
        2026-01-01 fen | bought: {{group: dusk, count: 3}}
        2026-01-01 fen | bought: {{group: dawn, count: 3, males: 3}}
        {left} fen | moved: {{group: dawn, to: tarn}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    )

    assert row.sires.groups == sires


def test_parents__who_came_after_conception_is_no_sire() -> None:
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-02-15 fen | bought: {group: dawn, males: 3}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert row.sires.groups == ("dusk",)


def test_parents__a_female_moved_with_eggs_brings_the_sires_of_her_old_tank() -> None:
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, females: 3}
        2026-01-01 fen | bought: {group: dawn, males: 3}
        2026-01-01 tarn | bought: {group: noon, males: 3}
        2026-02-20 fen | moved: {group: dusk, count: 1, as: mother, to: nursery, berried: true}
        2026-03-01 nursery | hatched: {brood: young}
        """
    )

    assert row.dams.groups == ("mother",)
    assert row.sires.groups == ("dawn",)


@pytest.mark.parametrize(
    ("hatched", "dams"), [("2026-04-11", ("dusk",)), ("2026-04-12", ("dusk", "first"))]
)
def test_parents__animals_younger_than_earliest_maturity_are_left_out(
    hatched: str, dams: tuple[str, ...]
) -> None:
    """27 January, three days before they were seen, and 60 days to maturity is 28 March; eggs
    are fertilised 15 days before the hatching at the latest."""
    row = _brood(
        f"""
        2026-01-01 fen | bought: {{group: dusk, count: 3}}
        2026-01-30 fen | hatched: {{brood: first}}
        {hatched} fen | hatched: {{brood: young}}
        """
    )

    assert row.dams.groups == dams


def test_parents__sexes_recorded_decide_the_side() -> None:
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3, females: 3}
        2026-01-01 fen | bought: {group: dawn, count: 3, males: 3}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (row.dams.groups, row.sires.groups) == (("dusk",), ("dawn",))


def test_parents__nothing_in_the_tank_is_unknown() -> None:
    row = _brood(
        """
        2026-01-01 tarn | bought: {group: dusk, count: 3}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (row.dams.groups, row.dams.claim) == ((), Claim.UNKNOWN)
    assert (row.sires.groups, row.sires.claim) == ((), Claim.UNKNOWN)


def test_parents__without_a_tank_are_unknown() -> None:
    row = _brood(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-03-01 | hatched: {brood: young}
        """
    )

    assert row.dams.claim is Claim.UNKNOWN


def test_mating__one_male_alone_means_one_sire() -> None:
    diary = """
        2026-01-01 fen | bought: {{group: dusk, count: 3, females: 3}}
        2026-01-01 fen | bought: {{group: dawn, count: {males}, males: {males}}}
        2026-03-01 fen | hatched: {{brood: young, dams: dusk, sires: dawn}}
        """

    assert _brood(diary.format(males=1)).mating == "one"
    assert _brood(diary.format(males=2)).mating == "unknown"


def test_crosses__broods_of_the_same_named_parents_are_one_cross() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-01-01 fen | bought: {group: dawn, count: 3}
        2026-03-01 fen | hatched: {brood: one, dams: dusk, sires: dawn}
        2026-04-01 tarn | hatched: {brood: two, dams: dusk, sires: dawn}
        2026-05-01 tarn | hatched: {brood: back, dams: dawn, sires: dusk}
        2026-06-01 tarn | hatched: {brood: lost, dams: dawn}
        """
    )

    assert results.crosses() == ("dusk by dawn", "dawn by dusk", "parents of lost")
    assert results.cross("dusk by dawn").broods == ("one", "two")
    assert results.cross("dusk by dawn").name is None
    assert results.cross("dusk by dawn").when.text == "2026-03-01"
    assert results.group("dusk").crosses == ("dusk by dawn", "dawn by dusk")
    assert results.group("one").crosses == ()


def test_crosses__a_named_cross_begins_with_its_pairing() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-01-01 fen | bought: {group: dawn, count: 3}
        2026-02-01 fen | paired: {dams: dusk, sires: dawn, cross: first}
        2026-03-01 fen | hatched: {brood: one, cross: first}
        2026-04-01 fen | hatched: {brood: two, cross: first}
        """
    )

    cross = results.cross("first")
    assert (cross.name, cross.broods, cross.when.text) == ("first", ("one", "two"), "2026-02-01")
    assert (cross.dams.groups, cross.sires.groups) == (("dusk",), ("dawn",))
    assert cross.generation.code == "F1"
