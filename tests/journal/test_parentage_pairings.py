"""What a pairing says of the parents of a brood, and what it does not."""

import pytest

from filialog.journal.parentage import (
    Claim,
    GroundKind,
)
from tools.parentage import kinds, parents_of


def test_pairing__leaves_out_nobody_else_in_the_tank() -> None:
    parents = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, count: 3}
        2025-11-01 fen | bought: {group: dawn, count: 3}
        2025-11-01 fen | bought: {group: noon, count: 3}
        2026-01-20 fen | paired: {dams: dusk, sires: dawn}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    # What was put there as dams is no sire, and the other way round.
    assert parents.dams.groups == ("dusk", "noon")
    assert parents.sires.groups == ("dawn", "noon")
    assert GroundKind.PUT_TOGETHER not in kinds(parents.dams) | kinds(parents.sires)


def test_pairing__is_told_of_where_only_those_put_together_were_there() -> None:
    parents = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, count: 3}
        2025-11-01 fen | bought: {group: dawn, count: 3}
        2026-01-20 fen | paired: {dams: dusk, sires: dawn}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (parents.dams.groups, parents.sires.groups) == (("dusk",), ("dawn",))
    assert GroundKind.PUT_TOGETHER in kinds(parents.dams) & kinds(parents.sires)


def test_pairing__does_not_leave_out_recorded_males_of_the_tank() -> None:
    """Two males were in fen all the time; `gorse` is the one that was put to the females."""
    sires = parents_of(
        """
        2026-01-01 tarn | bought: {group: cedar, count: 6-7}
        2026-01-01 weir | bought: {group: gorse, count: 1, females: 0, males: 1}
        2026-01-22 tarn | moved: {group: cedar, to: fen}
        2026-02-02 fen | sorted: {into: {cedar-f: {females: 4}, cedar-m: {males: 2}}, from: cedar}
        2026-02-21 fen | moved: {group: cedar-f, to: tarn}
        2026-03-15 tarn | moved: {group: cedar-f, to: fen}
        2026-03-15 weir | moved: {group: gorse, to: fen}
        2026-03-15 fen | paired: {dams: cedar-f, sires: gorse}
        2026-04-20 fen | hatched: {brood: young}
        """,
        tanks=("tarn", "weir", "fen"),
    ).sires

    assert {"cedar-m", "gorse"} <= set(sires.groups)
    assert sires.claim is Claim.SET


def test_pairing__of_a_part_in_one_tank_says_nothing_of_the_rest_in_another() -> None:
    """The part of `mix` in tarn was put there as dams; `one` came from the rest in mere."""
    parents = parents_of(
        """
        2026-01-01 mere | bought: {group: alder, count: 5-6}
        2026-01-01 mere | bought: {group: birch, count: 6, females: 6, males: 0}
        2026-01-01 fen | bought: {group: cedar, count: 3, females: 0, males: 3}
        2026-01-01 weir | bought: {group: dogwood, count: 4-5}
        2026-01-13 mere | joined: {parts: [alder, birch], into: mix}
        2026-02-09 mere | moved: {group: mix, count: 1, females: 1, to: weir, berried: true}
        2026-02-15 weir | moved: {group: mix, to: tarn}
        2026-02-15 fen | moved: {group: cedar, to: tarn}
        2026-02-15 tarn | paired: {dams: mix, sires: cedar}
        2026-02-24 weir | moved: {group: dogwood, count: 3, to: fen}
        2026-03-02 fen | moved: {group: dogwood, count: 2, to: mere, as: dogwood-3}
        2026-03-15 mere | hatched: {brood: first, count: 4-6}
        2026-04-30 mere | moved: {of: [first, dogwood-3], count: 1, to: tarn, as: one}
        2026-05-18 tarn | hatched: {brood: young}
        """,
        tanks=("mere", "fen", "weir", "tarn"),
    )

    assert {"cedar", "dogwood-3", "mix"} <= set(parents.sires.groups)


_PUT_THERE_IN_PART = """
    2026-01-01 tarn | bought: {group: alder, count: 6%s}
    2026-01-01 weir | bought: {group: birch, count: 2, females: 0, males: 2}
    2026-01-18 tarn | moved: {group: alder, to: weir}
    2026-02-10 weir | moved: {group: alder, count: 3, to: mere}
    2026-02-10 weir | moved: {group: birch, to: mere}
    2026-02-10 mere | paired: {dams: alder, sires: birch}
    2026-03-22 weir | moved: {group: alder, to: mere}
    2026-05-14 mere | hatched: {brood: young, count: 2}
"""


@pytest.mark.parametrize("sexes", [", females: 4, males: 2", ""])
def test_pairing__does_not_sex_those_of_the_name_that_came_later(sexes: str) -> None:
    parents = parents_of(_PUT_THERE_IN_PART % sexes, tanks=("tarn", "weir", "mere"))

    assert parents.sires.groups == ("alder", "birch")
    assert parents.dams.groups == ("alder",)


def test_pairing__does_not_sex_recorded_males_of_a_mixed_group() -> None:
    sires = parents_of(
        """
        2026-01-01 fen | bought: {group: alder, count: 6, females: 4, males: 2}
        2026-01-01 fen | bought: {group: birch, count: 2, males: 2}
        2026-01-01 fen | joined: {parts: [alder], into: mix}
        2026-01-10 fen | paired: {dams: mix, sires: birch}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("birch", "mix")


@pytest.mark.parametrize("dams", ["{of: dusk, count: 1}", "[dusk, dawn]"])
def test_pairing__of_some_or_of_a_group_on_both_sides_sexes_nobody(dams: str) -> None:
    sires = parents_of(
        f"""
        2025-11-01 fen | bought: {{group: dusk, count: 3}}
        2025-11-01 fen | bought: {{group: dawn, count: 3}}
        2026-01-20 fen | paired: {{dams: {dams}, sires: [dawn, dusk]}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
        if dams.startswith("[")
        else f"""
        2025-11-01 fen | bought: {{group: dusk, count: 3}}
        2025-11-01 fen | bought: {{group: dawn, count: 3}}
        2026-01-20 fen | paired: {{dams: {dams}, sires: dawn}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    ).sires

    assert sires.groups == ("dawn", "dusk")


def test_pairing__of_animals_that_left_says_nothing() -> None:
    parents = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, count: 3}
        2025-11-01 fen | bought: {group: dawn, count: 3}
        2025-11-01 fen | bought: {group: noon, count: 3}
        2025-11-20 fen | paired: {dams: dusk, sires: dawn}
        2025-12-01 fen | moved: {group: dusk, to: tarn}
        2025-12-01 fen | moved: {group: dawn, to: tarn}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (parents.dams.groups, parents.sires.groups) == (("noon",), ("noon",))


def test_pairing__says_nothing_of_who_came_later() -> None:
    sires = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, count: 3}
        2025-11-01 fen | bought: {group: dawn, count: 3}
        2026-01-20 fen | paired: {dams: dusk, sires: dawn}
        2026-02-01 fen | bought: {group: noon, males: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn", "noon")


def test_pairing__holds_under_the_name_animals_have_now() -> None:
    dams = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, count: 3}
        2025-11-01 fen | bought: {group: dawn, count: 3}
        2026-01-20 fen | paired: {dams: dusk, sires: dawn}
        2026-02-01 fen | chosen: {from: dusk, into: queen, count: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).dams

    assert dams.groups == ("dusk", "queen")
