"""How sure a parent is, what lowers that, and what of it is published."""

import pytest

from filialog.journal import check_journal, public_view
from filialog.journal.parentage import (
    Claim,
    GroundKind,
)
from tools.diaries import checked, diary_files
from tools.parentage import PAIR, SPECIES, ground, kinds, parents_of


def test_claim__one_pair_alone_is_firm() -> None:
    parents = parents_of(PAIR + "2026-03-01 fen | hatched: {brood: young}")

    assert (parents.dams.claim, parents.sires.claim) == (Claim.FIRM, Claim.FIRM)
    assert (parents.dams.most, parents.sires.most, parents.mating) == (1, 1, "one")


def test_claim__one_group_of_several_is_likely() -> None:
    parents = parents_of(
        """
        2026-01-01 fen | bought: {group: dusk, females: 1}
        2026-01-01 fen | bought: {group: dawn, males: 3}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (parents.sires.claim, parents.sires.most) == (Claim.LIKELY, 3)
    assert parents.mating == "unknown"


def test_claim__several_groups_are_a_set() -> None:
    sires = parents_of(
        PAIR
        + """
        2026-01-01 fen | bought: {group: noon, males: 2}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.claim, sires.most) == (Claim.SET, 3)


@pytest.mark.parametrize("strayed", ["{from: tarn, to: fen}", "{from: fen, to: tarn}", "{to: fen}"])
def test_claim__is_lowered_by_an_open_stray_and_names_it(strayed: str) -> None:
    parents = parents_of(
        PAIR
        + f"""
        2026-02-01 fen | strayed: {strayed}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    )

    assert (parents.sires.groups, parents.sires.claim) == (("dawn",), Claim.LIKELY)
    assert parents.dams.claim is Claim.LIKELY
    stray = ground(parents.sires, GroundKind.STRAYED)
    assert [event.entry for event in stray.events] == ["003"]
    assert "003" in [event.entry for event in parents.sires.events]


@pytest.mark.parametrize(
    "what",
    [
        pytest.param(
            "2026-02-01 fen | strayed: {from: tarn, to: fen}\n"
            "2026-02-20 fen | strayed: {from: tarn, to: fen, cleared: true}",
            id="settled",
        ),
        pytest.param("2026-02-20 fen | strayed: {from: tarn, to: fen, cleared: true}", id="none"),
        pytest.param("2026-02-01 mire | strayed: {from: tarn, to: mire}", id="other tanks"),
        pytest.param("2026-03-20 fen | strayed: {from: tarn, to: fen}", id="later"),
    ],
)
def test_claim__is_not_lowered_by_a_stray_that_cannot_matter(what: str) -> None:
    sires = parents_of(PAIR + f"{what}\n2026-03-01 fen | hatched: {{brood: young}}").sires

    assert sires.claim is Claim.FIRM


def test_claim__what_the_keeper_named_is_lowered_by_a_stray_too() -> None:
    sires = parents_of(
        PAIR
        + """
        2026-02-01 fen | strayed: {from: tarn, to: fen}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: dawn}
        """
    ).sires

    assert (sires.groups, sires.claim, sires.named) == (("dawn",), Claim.LIKELY, True)


@pytest.mark.parametrize(
    "strayed",
    [
        pytest.param("2026-03-01 | strayed: {from: tarn, to: beck}", id="where it hatched"),
        pytest.param("2026-03-12 | strayed: {from: tarn, to: beck}", id="after she came"),
        pytest.param("2026-02-20 | strayed: {from: tarn, to: weir}", id="where the eggs were laid"),
    ],
)
@pytest.mark.parametrize("named", ["", ", dams: cedar, sires: alder"])
def test_claim__a_stray_that_can_touch_a_brood_lowers_both_sides(strayed: str, named: str) -> None:
    """A stranger with eggs, or her young, is a parent on both sides at once."""
    parents = parents_of(
        f"""
        2026-01-01 weir | bought: {{group: alder, count: 1, males: 1}}
        2026-01-01 weir | bought: {{group: cedar, count: 1, females: 1}}
        2026-01-01 tarn | bought: {{group: dogwood, count: 6, females: 6}}
        2026-01-01 tarn | bought: {{group: fir, count: 1, males: 1}}
        {strayed}
        2026-03-10 weir | moved: {{group: cedar, to: beck}}
        2026-03-15 beck | hatched: {{brood: young{named}}}
        """,
        tanks=("weir", "tarn", "beck"),
    )

    for side, group in ((parents.dams, "cedar"), (parents.sires, "alder")):
        assert (side.groups, side.claim) == ((group,), Claim.LIKELY)
        assert GroundKind.STRAYED in kinds(side)


@pytest.mark.parametrize(
    "strayed",
    [
        pytest.param("2026-03-16 | strayed: {from: tarn, to: beck}", id="after the hatching"),
        pytest.param("2026-03-12 | strayed: {from: tarn, to: weir}", id="after she had left"),
    ],
)
def test_claim__a_stray_that_cannot_touch_a_brood_lowers_neither_side(strayed: str) -> None:
    parents = parents_of(
        f"""
        2026-01-01 weir | bought: {{group: alder, count: 1, males: 1}}
        2026-01-01 weir | bought: {{group: cedar, count: 1, females: 1}}
        {strayed}
        2026-03-10 weir | moved: {{group: cedar, to: beck}}
        2026-03-15 beck | hatched: {{brood: young}}
        """,
        tanks=("weir", "tarn", "beck"),
    )

    assert (parents.dams.claim, parents.sires.claim) == (Claim.FIRM, Claim.FIRM)


@pytest.mark.parametrize(
    ("fitted", "claim"),
    [
        # What came as an egg or young has to grow up: 60 days.
        pytest.param("2025-12-01", Claim.LIKELY, id="long enough to grow up"),
        pytest.param("2026-01-15", Claim.FIRM, id="too late to matter"),
    ],
)
def test_claim__moved_equipment_brings_young_that_have_to_grow_up(
    fitted: str, claim: Claim
) -> None:
    sires = parents_of(
        f"""
        2025-11-01 tarn | fitted: {{item: sponge, what: filter}}
        2025-11-01 fen | bought: {{group: dusk, females: 1}}
        2025-11-01 fen | bought: {{group: dawn, males: 1}}
        {fitted} fen | fitted: {{item: sponge}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    ).sires

    assert sires.claim is claim


def test_claim__a_dam_that_came_with_eggs_can_have_an_outside_sire() -> None:
    sires = parents_of(
        """
        2026-01-01 fen | bought: {group: dawn, males: 1}
        2026-02-10 fen | bought: {group: dusk, females: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.claim) == (("dawn",), Claim.LIKELY)
    assert ground(sires, GroundKind.CAME_WITH_EGGS).groups == ("dusk",)


def test_claim__a_dam_bought_after_the_window_has_no_sire_here() -> None:
    sires = parents_of(
        """
        2026-01-01 fen | bought: {group: dawn, males: 1}
        2026-02-20 fen | bought: {group: dusk, females: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.claim) == ((), Claim.UNKNOWN)
    assert GroundKind.CAME_WITH_EGGS in kinds(sires)


def test_public__grounds_rest_on_no_private_entry() -> None:
    found = checked(
        diary_files(
            PAIR
            + """
            2026-02-01 fen | strayed: {from: tarn, to: fen, private: true}
            2026-02-05 fen | seen: {group: dusk, what: not-berried, private: true}
            2026-02-06 fen | measured: {temperature: 24 °C, private: true}
            2026-03-01 fen | hatched: {brood: young}
            """,
            settings=SPECIES + "public: [strayed, seen, measured]\n",
        )
    )
    whole = found.parentage.of("young")
    public = check_journal(public_view(found.journal)).parentage.of("young")

    assert whole is not None
    assert public is not None
    assert kinds(whole.sires) >= {GroundKind.STRAYED, GroundKind.NOT_YET_BERRIED}
    assert [event.entry for event in public.sires.events] == ["006"]
    assert kinds(public.sires) == {GroundKind.IN_TANK, GroundKind.BY_SPECIES}
