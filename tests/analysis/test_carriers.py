"""What counts of young tell of hidden carriers; the numbers are worked out by hand."""

import pytest

from filialog.analysis import JournalResults
from filialog.analysis.carrier_pools import KINDREDS
from filialog.analysis.carriers import LAW
from filialog.analysis.looks import PRIOR_LAW
from filialog.analysis.rows import Assumption
from filialog.analysis.tables import EXPECTATION
from filialog.genetics import Genotype
from tools.diaries import results_of

_SIBS = """
    2026-01-01 fen | bought: {group: ma, count: 1, genotype: G/g}
    2026-01-01 fen | bought: {group: pa, count: 1, genotype: G/g}
    2026-01-01 fen | bought: {group: shine, count: 1, look: glowing}
    2026-03-01 tarn | hatched: {brood: sibs, dams: ma, sires: pa, count: 20}
    2026-05-01 tarn | sorted: {from: sibs, into: {he: {count: 1, look: dull}}}
    2026-05-02 tarn | sorted: {from: sibs, into: {she: {count: 1, look: dull}}}
"""
"""Plain young of two carriers: each is a carrier with probability 2/3."""

_CARRIER: Genotype = (("G", "g"),)


def _tested(young: int, glowing: int = 0) -> str:
    seen = f"dull: {young - glowing}, glowing: {glowing}"
    return f"""{_SIBS}
        2026-07-01 tarn | hatched: {{brood: test, dams: shine, sires: he, count: {young}}}
        2026-08-01 tarn | counted: {{brood: test, looks: {{{seen}}}}}
    """


def _carrier(results: JournalResults, group: str) -> float:
    law = results.evaluator.get(LAW, f"glow/{group}").law
    assert law is not None
    return float(law.probability(_CARRIER))


# --- test crosses ---------------------------------------------------------------------------


def test_law__of_plain_young_of_two_carriers_is_two_in_three() -> None:
    results = results_of(_SIBS)

    assert _carrier(results, "he") == pytest.approx(2 / 3)
    assert _carrier(results, "she") == pytest.approx(2 / 3)


@pytest.mark.parametrize("young", [1, 5, 9])
def test_law__after_plain_young_of_a_test_cross_follows_bayes(young: int) -> None:
    results = results_of(_tested(young))

    left = 2 / 3 / 2**young
    assert _carrier(results, "he") == pytest.approx(left / (left + 1 / 3), abs=1e-12)
    # Both parents were known to carry, so his sister is as before.
    assert _carrier(results, "she") == pytest.approx(2 / 3)


def test_law__after_one_glowing_young_is_certain() -> None:
    assert _carrier(results_of(_tested(9, 1)), "he") == pytest.approx(1.0)


def test_carriers__names_the_count_that_moved_the_chance() -> None:
    (row,) = results_of(_tested(9)).group("he").carriers

    assert row.allele == "g"
    assert (row.before, row.chance) == pytest.approx((2 / 3, 1 / 257))
    (change,) = row.changes
    assert (change.kind, change.group, change.counts) == ("tally", "test", (("dull", 9),))
    assert change.mates == ("shine",)
    assert (change.before, change.after) == pytest.approx((2 / 3, 1 / 257))
    assert [event.entry for event in change.events] == ["008"]


def test_carriers__says_how_many_young_of_which_test_cross_clear() -> None:
    (row,) = results_of(_SIBS).group("he").carriers

    assert row.changes == ()
    assert row.clearing is not None
    assert (row.clearing.tester, row.clearing.looks) == ("g/g", ("glowing",))
    # 1/2^5 = 3.1 %, 1/2^7 = 0.8 %, 1/2^10 = 0.098 %: the first below 5, 1 and 0.1 %.
    assert row.clearing.young == ((0.95, 5), (0.99, 7), (0.999, 10))


@pytest.mark.parametrize(("young", "open_still"), [(10, True), (11, True), (12, False)])
def test_carriers__stops_asking_once_the_chance_is_one_in_a_thousand(
    young: int, open_still: bool
) -> None:
    """2/2^n to 1: 1/513 after ten, 1/1025 after eleven."""
    (row,) = results_of(_tested(young - 1)).group("he").carriers

    assert (row.chance > 1 / 1000) is open_still
    assert (row.clearing is not None) is open_still


def test_carriers__of_an_animal_that_can_hide_nothing_are_none() -> None:
    assert results_of(_SIBS).group("shine").carriers == ()


# --- what flows on --------------------------------------------------------------------------


def test_law__of_a_brood_mate_is_told_by_the_young_of_the_other() -> None:
    """One shown to carry: then its plain dam does, and half of all her young do."""
    diary = """
        2026-01-01 fen | bought: {group: ma, count: 1, look: dull}
        2026-01-01 fen | bought: {group: pa, count: 1, genotype: G/G}
        2026-01-01 fen | bought: {group: shine, count: 1, look: glowing}
        2026-03-01 tarn | hatched: {brood: sibs, dams: ma, sires: pa, count: 20}
        2026-05-01 tarn | moved: {group: sibs, count: 1, as: he, to: fen}
        2026-05-01 tarn | moved: {group: sibs, count: 1, as: she, to: fen}
        2026-07-01 tarn | hatched: {brood: test, dams: shine, sires: he, count: 4}
    """
    counted = "2026-08-01 tarn | counted: {brood: test, looks: {dull: 3, glowing: 1}}"
    before, after = results_of(diary), results_of(f"{diary}\n{counted}")

    assert _carrier(before, "she") == pytest.approx(2 / 3 * 1 / 2)
    assert [_carrier(after, name) for name in ("he", "ma")] == pytest.approx([1.0, 1.0])
    assert _carrier(after, "she") == pytest.approx(1 / 2)
    assert Assumption.ONE_BY_ONE not in after.group("she").assumptions


def test_law__weighs_the_sires_of_a_set_by_their_young() -> None:
    """Three plain young: 1/8 by the carrier, 1 by the other, so he is the sire in 1 of 9."""
    results = results_of(
        """
        2026-01-01 fen | bought: {group: a, count: 1, genotype: G/g}
        2026-01-01 fen | bought: {group: b, count: 1, genotype: G/G}
        2026-01-01 fen | bought: {group: shine, count: 1, look: glowing}
        2026-03-01 tarn | hatched: {brood: y, mating: one, dams: shine, sires: {of: [a, b]}}
        2026-08-01 tarn | counted: {brood: y, looks: {dull: 3}}
        """
    )

    prior = results.evaluator.get(PRIOR_LAW, "glow/y").law
    assert prior is not None
    assert float(prior.probability(_CARRIER)) == pytest.approx(3 / 4)
    assert _carrier(results, "y") == pytest.approx(1 / 9 * 1 / 2 + 8 / 9)


def test_law__of_a_sorted_part_knows_what_the_whole_brood_showed() -> None:
    """Twelve plain young of two plain founders: both carry in (3/4)^12 of what was 4/9."""
    results = results_of(
        """
        2026-01-01 fen | bought: {group: ma, count: 1, look: dull}
        2026-01-01 fen | bought: {group: pa, count: 1, look: dull}
        2026-03-01 tarn | hatched: {brood: y, dams: ma, sires: pa, count: 12}
        2026-04-01 tarn | counted: {brood: y, looks: {dull: 12}}
        2026-05-01 tarn | sorted: {from: y, into: {keep: {count: 5, look: dull}}}
        """
    )

    both = 4 / 9 * (3 / 4) ** 12
    total = 1 / 9 + 4 / 9 + both
    assert _carrier(results, "keep") == pytest.approx(
        (4 / 9 * 1 / 2 + both * 2 / 3) / total, abs=1e-9
    )
    assert _carrier(results, "ma") == pytest.approx((2 / 9 + both) / total, abs=1e-9)


def test_law__of_a_joined_group_is_that_of_one_drawn_from_its_parts() -> None:
    results = results_of(
        f"{_tested(9)}\n2026-09-01 tarn | joined: {{parts: {{he: 1, she: 1}}, into: both}}"
    )

    assert _carrier(results, "both") == pytest.approx((1 / 257 + 2 / 3) / 2)


def test_law__without_any_count_is_that_by_descent_to_the_last_digit() -> None:
    results = results_of(_SIBS)

    for group in results.groups():
        by_descent = results.evaluator.get(PRIOR_LAW, f"glow/{group}").law
        assert results.evaluator.get(LAW, f"glow/{group}").law == by_descent


def test_law__takes_several_sires_where_one_cannot_be() -> None:
    """Eight by one and two by the other: a share between 0 and 1 is then 9/12 on average."""
    results = results_of(
        """
        2026-01-01 fen | bought: {group: a, count: 1, genotype: G/G}
        2026-01-01 fen | bought: {group: b, count: 1, genotype: g/g}
        2026-01-01 fen | bought: {group: shine, count: 1, look: glowing}
        2026-03-01 tarn | hatched: {brood: y, dams: shine, sires: {of: [a, b]}}
        2026-08-01 tarn | counted: {brood: y, looks: {dull: 8, glowing: 2}}
        """
    )

    assert _carrier(results, "y") == pytest.approx(9 / 12, abs=1e-6)
    assert Assumption.SEVERAL_PARENTS_TAKEN in results.group("y").assumptions


def test_law__of_a_brood_with_more_young_counted_than_hatched_is_still_given() -> None:
    results = results_of(_tested(9).replace("sires: he, count: 9", "sires: he, count: 1"))

    assert _carrier(results, "he") == pytest.approx(1 / 257)


def test_law__of_a_long_line_is_cut_and_says_that_it_is_near_only() -> None:
    """One pair of plain animals in each of 90 generations, and every brood counted."""
    lines = ["2000-01-01 fen | bought: {group: k0, count: 5, look: dull}"]
    for number in range(90):
        year = 2001 + number
        lines += [
            f"{year}-01-01 fen | hatched: {{brood: y{number}, dams: k{number}, sires: k{number}}}",
            f"{year}-02-01 fen | counted: {{brood: y{number}, looks: {{dull: 6}}}}",
            f"{year}-03-01 fen | sorted: "
            f"{{from: y{number}, into: {{k{number + 1}: {{look: dull}}}}}}",
        ]
    results = results_of("\n".join(lines))

    sizes = {len(kindred) for kindred in results.evaluator.get(KINDREDS, "glow").values()}
    assert sizes == {120, 61}
    (row,) = results.group("k1").carriers
    (change,) = row.changes
    assert change.kind == "all"
    assert change.after == row.chance < row.before == change.before
    assert [event.entry for event in change.events] == ["006"]
    assert Assumption.APPROXIMATE in results.group("k89").assumptions


# --- what a table rests on, and contradictions ----------------------------------------------


def test_expectation__of_a_brood_does_not_use_its_own_count() -> None:
    before = results_of(_tested(9).rsplit("2026-08-01", 1)[0])
    after = results_of(_tested(9))

    expected = after.evaluator.get(EXPECTATION, "test")
    assert expected is not None
    assert expected == before.evaluator.get(EXPECTATION, "test")
    assert Assumption.BEFORE_COUNTS in expected.assumptions
    # 2/3 of 1/2 and 1/3 of 1.
    assert float(expected.average[0]) == pytest.approx(2 / 3)


_STRAY = """
    2026-02-01 moor | bought: {group: glint, count: 1, look: glowing}
    2026-02-01 moor | bought: {group: spark, count: 1, look: glowing}
    2026-03-01 moor | hatched: {brood: odd, dams: glint, sires: spark, count: 9}
    2026-04-01 moor | counted: {brood: odd, looks: {dull: 4, glowing: 5}}
"""


def test_contradiction__names_its_entries_and_leaves_other_kindreds_alone() -> None:
    results = results_of(f"{_tested(9)}\n{_STRAY}")
    odd = results.group("odd")

    assert {event.entry for event in odd.contradiction} == {"009", "010", "012"}
    assert [(one.genotype, one.probability) for one in odd.genotypes] == [("g/g", 1.0)]
    assert Assumption.COUNTS_LEFT_OUT in odd.assumptions
    assert odd.carriers == ()
    assert results.group("glint").contradiction == ()
    assert _carrier(results, "he") == pytest.approx(1 / 257)


def test_kindreds__end_at_animals_of_one_certain_genotype() -> None:
    results = results_of(f"{_tested(3)}\n{_STRAY}")

    kindreds = results.evaluator.get(KINDREDS, "glow")
    assert kindreds["he"] == ("sibs", "he", "she", "test")
    assert kindreds["shine"] == ("shine",)


@pytest.mark.parametrize("settings", ["", "public: [counted]\n"])
def test_law__leaves_out_counts_that_are_not_published(settings: str) -> None:
    """A private count may be claimed, but what rests on it is no evidence on a public page."""
    diary = _tested(9).replace("glowing: 0}", "glowing: 0}, private: true")
    keeper = results_of(diary, settings=settings)
    public = results_of(diary, settings=settings, public=True)

    assert _carrier(keeper, "he") == pytest.approx(1 / 257)
    assert _carrier(public, "he") == pytest.approx(2 / 3)
    assert [row.changes for row in public.group("he").carriers] == [()]
