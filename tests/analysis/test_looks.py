"""Trait models of groups, and the genotypes their members can have."""

import pytest

from filialog.analysis import JournalResults
from filialog.analysis.carriers import LAW
from filialog.analysis.rows import Assumption, Level
from tools.diaries import GLOW, results_of

_LETHAL = """\
name: glow
says: Two copies of Y die in the egg; made up.
loci:
  y: {alleles: [Y, y]}
looks:
  - look: sunny
    when: {y: has Y}
  - look: plain
    when: {y: hom y}
lethal:
  - {y: hom Y}
source: made up
"""

_COARSE = """\
name: glow
says: One locus without dominance; made up.
loci:
  d: {alleles: [D, d]}
looks:
  - look: deep
    when: {d: hom D}
  - look: middling
    when: {d: is D/d}
  - look: faint
    when: {d: hom d}
coarse: {coloured: [deep, middling]}
source: made up
"""

_PURE_CROSS = """
    2026-01-01 fen | bought: {group: dusk, count: 5, look: dull, genotype: G/G}
    2026-01-01 fen | bought: {group: dawn, count: 5, look: glowing, genotype: g/g}
    2026-03-01 tarn | hatched: {brood: first, dams: dusk, sires: dawn, count: 20}
    2026-06-01 tarn | hatched: {brood: second, dams: first, sires: first, count: 20}
"""


def _law(results: JournalResults, group: str) -> dict[str, float]:
    return {row.genotype: row.probability for row in results.group(group).genotypes}


def _assumptions(results: JournalResults, group: str) -> set[Assumption]:
    return set(results.group(group).assumptions) - {
        Assumption.UNRELATED_FOUNDERS,
        Assumption.DIFFERENT_ANIMALS,
    }


# --- founders -------------------------------------------------------------------------------


def test_founder__claimed_genotype_is_taken_as_given() -> None:
    results = results_of(_PURE_CROSS)

    assert _law(results, "dusk") == {"G/G": 1.0}
    assert results.group("dusk").genotypes_level is Level.CLAIMED
    assert _assumptions(results, "dusk") == {Assumption.FOUNDER_GENOTYPE_CLAIMED}


def test_founder__claimed_on_its_page_likewise() -> None:
    results = results_of(
        "2026-01-01 fen | bought: {group: dusk, count: 5}", groups={"dusk": "genotype: G/-"}
    )

    # Of G/G, G/g and G/g again, one in three.
    assert _law(results, "dusk") == pytest.approx({"G/G": 1 / 3, "G/g": 2 / 3})
    assert results.group("dusk").genotypes_level is Level.CLAIMED


def test_founder__look_only_is_two_carriers_in_three() -> None:
    results = results_of("2026-01-01 fen | bought: {group: dusk, count: 5, look: dull}")

    assert _law(results, "dusk") == pytest.approx({"G/G": 1 / 3, "G/g": 2 / 3})
    assert results.group("dusk").genotypes_level is Level.INFERRED
    assert _assumptions(results, "dusk") == {Assumption.FOUNDER_LOOK_ONLY}
    ((allele, chance),) = results.group("dusk").hidden
    assert (allele, chance) == ("g", 2 / 3)


def test_founder__of_which_nothing_is_known_shows_no_genotypes() -> None:
    """Equal allele frequencies are put in, not found out; sorted young tell more."""
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 5}
        2026-01-02 fen | moved: {group: dusk, count: 2, as: away, to: tarn}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: dusk, count: 20}
        2026-04-01 fen | sorted: {from: young, into: {shine: {count: 2, look: glowing}}}
        """
    )

    assert [_law(results, name) for name in ("dusk", "away")] == [{}, {}]
    # There were glowing young, so both parents had g: one G/g in two of three, else g/g.
    assert _law(results, "young") == pytest.approx({"G/G": 1 / 9, "G/g": 4 / 9, "g/g": 4 / 9})
    assert _law(results, "shine") == {"g/g": 1.0}
    assert _assumptions(results, "dusk") == {Assumption.FOUNDER_UNKNOWN}
    law = results.evaluator.get(LAW, "glow/dusk").law
    assert law is not None
    assert [str(share) for _, share in law.probabilities] == ["1/4", "1/2", "1/4"]


def test_founder__look_and_claim_that_exclude_each_other_are_a_contradiction() -> None:
    results = results_of(
        "2026-01-01 fen | bought: {group: dusk, count: 5, look: dull, genotype: g/g}"
    )

    assert _law(results, "dusk") == {}
    assert [event.entry for event in results.group("dusk").contradiction] == ["001"]


def test_founder__half_sided_animal_tells_no_genotype() -> None:
    results = results_of(
        "2026-01-01 fen | bought: {group: dusk, count: 1, look: {left: dull, right: glowing}}"
    )

    assert _law(results, "dusk") == {}


def test_brood__of_a_set_of_parents_says_that_each_is_taken_as_likely() -> None:
    diary = """
        2026-01-01 fen | bought: {{group: dusk, count: 5, genotype: G/G}}
        2026-01-01 fen | bought: {{group: dawn, count: 5, genotype: g/g}}
        2026-03-01 tarn | hatched: {{brood: young, dams: {dams}, sires: dawn, count: 20}}
    """
    either = results_of(diary.format(dams="{of: [dusk, dawn]}"))
    one = results_of(diary.format(dams="dusk"))

    assert _law(either, "young") == {"G/g": 0.5, "g/g": 0.5}
    assert Assumption.PARENTS_EQUALLY_LIKELY in _assumptions(either, "young")
    assert _assumptions(one, "young") == {Assumption.FOUNDER_GENOTYPE_CLAIMED}


# --- broods, sorts and splits ---------------------------------------------------------------


def test_sorted__dull_of_a_second_generation_are_carriers_two_to_one() -> None:
    results = results_of(
        _PURE_CROSS
        + """
        2026-07-01 tarn | sorted: {from: second, into: {keep: {count: 5, look: dull}}}
        2026-07-01 tarn | sorted: {from: second, into: {shine: {count: 4, look: glowing}}}
        """
    )

    assert _law(results, "first") == {"G/g": 1.0}
    assert _law(results, "second") == {"G/G": 0.25, "G/g": 0.5, "g/g": 0.25}
    assert _law(results, "keep") == pytest.approx({"G/G": 1 / 3, "G/g": 2 / 3})
    assert _law(results, "shine") == {"g/g": 1.0}
    assert Assumption.BLIND_SPLIT not in _assumptions(results, "keep")
    assert results.group("keep").genotypes_level is Level.INFERRED


@pytest.mark.parametrize(
    "event",
    [
        "moved: {group: second, count: 5, as: away, to: fen}",
        "chosen: {from: second, into: away, count: 5}",
        "sorted: {from: second, into: {away: {females: 5}}}",
        "joined: {parts: {second: 5}, into: away}",
    ],
)
def test_split__blind_to_look_keeps_the_law_and_says_so(event: str) -> None:
    results = results_of(f"{_PURE_CROSS}\n2026-07-01 tarn | {event}")

    assert _law(results, "away") == {"G/G": 0.25, "G/g": 0.5, "g/g": 0.25}
    assert Assumption.BLIND_SPLIT in _assumptions(results, "away")


def test_split__of_a_blind_split_keeps_the_assumption_below_a_sort() -> None:
    """Sorting says nothing of an earlier split that was blind."""
    results = results_of(
        _PURE_CROSS
        + """
        2026-07-01 tarn | moved: {group: second, count: 9, as: away, to: fen}
        2026-07-02 fen | sorted: {from: away, into: {keep: {count: 5, look: dull}}}
        """
    )

    assert _law(results, "keep") == pytest.approx({"G/G": 1 / 3, "G/g": 2 / 3})
    assert Assumption.BLIND_SPLIT in _assumptions(results, "keep")


def test_moved__with_a_look_is_no_blind_split() -> None:
    results = results_of(
        f"{_PURE_CROSS}\n2026-07-01 tarn | "
        "moved: {group: second, count: 5, as: away, to: fen, look: dull}"
    )

    assert _law(results, "away") == pytest.approx({"G/G": 1 / 3, "G/g": 2 / 3})
    assert Assumption.BLIND_SPLIT not in _assumptions(results, "away")


_TWO_SORTS = (
    _PURE_CROSS
    + """
    2026-07-01 tarn | sorted: {from: second, into: {keep: {count: 6, look: dull}}}
    2026-07-01 tarn | sorted: {from: second, into: {shine: {count: 4, look: glowing}}}
    """
)


def test_joined__counts_give_the_shares() -> None:
    results = results_of(
        f"{_TWO_SORTS}\n2026-07-02 tarn | joined: {{parts: {{keep: 6, shine: 2}}, into: mix}}"
    )

    assert _law(results, "mix") == pytest.approx({"G/G": 1 / 4, "G/g": 1 / 2, "g/g": 1 / 4})
    assert Assumption.PARTS_ALIKE not in _assumptions(results, "mix")
    assert results.group("mix").from_groups == ("keep", "shine")
    assert results.group("keep").parts == ("mix",)


def test_joined__unknown_numbers_count_alike_and_say_so() -> None:
    results = results_of(
        f"{_TWO_SORTS}\n2026-07-02 tarn | joined: {{parts: {{keep: some, shine: 2}}, into: mix}}"
    )

    assert _law(results, "mix") == pytest.approx({"G/G": 1 / 6, "G/g": 1 / 3, "g/g": 1 / 2})
    assert Assumption.PARTS_ALIKE in _assumptions(results, "mix")


def test_joined__each_part_keeps_the_look_it_was_sorted_by() -> None:
    """Six dull ones, and two blind ones later: only the six are known to be dull."""
    results = results_of(
        f"{_TWO_SORTS}\n2026-07-02 tarn | joined: {{parts: {{second: 2}}, into: keep}}"
    )

    # 6/8 of (1/3, 2/3, 0) and 2/8 of (1/4, 1/2, 1/4).
    assert _law(results, "keep") == pytest.approx({"G/G": 5 / 16, "G/g": 5 / 8, "g/g": 1 / 16})
    assert results.group("keep").from_groups == ("second",)


def test_joined__bought_animals_keep_their_part() -> None:
    results = results_of(
        f"""{_TWO_SORTS}
        2026-07-01 tarn | bought: {{group: noon, count: 5, genotype: G/G}}
        2026-07-02 tarn | joined: {{parts: {{shine: 4}}, into: noon}}
        """
    )

    # Five bought G/G, four g/g joined.
    noon = results.group("noon")
    assert _law(results, "noon") == pytest.approx({"G/G": 5 / 9, "g/g": 4 / 9})
    assert {row.founder: row.share for row in noon.founder_shares} == pytest.approx(
        {"dawn": 2 / 9, "dusk": 2 / 9, "noon": 5 / 9}
    )
    assert noon.genotypes_level is Level.INFERRED


def test_moved__into_a_group_joins_it() -> None:
    results = results_of(
        f"{_TWO_SORTS}\n2026-07-02 tarn | moved: {{group: shine, to: keep}}",
        tanks=("fen", "tarn"),
    )

    # Six dull (2, 4, 0) and four glowing ones.
    assert _law(results, "keep") == pytest.approx({"G/G": 0.2, "G/g": 0.4, "g/g": 0.4})
    assert results.group("shine").parts == ("keep",)


def test_netted__from_a_tank_can_be_of_any_group_there() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 5, genotype: G/G}
        2026-01-01 fen | bought: {group: dawn, count: 5, genotype: g/g}
        2026-02-01 fen | moved: {from: fen, count: 3, as: caught, to: tarn}
        """
    )

    assert _law(results, "caught") == {"G/G": 0.5, "g/g": 0.5}
    assert results.group("caught").from_groups == ("dusk", "dawn")
    assert Assumption.PARTS_ALIKE in _assumptions(results, "caught")
    assert results.group("dawn").parts == ("caught",)


def test_returned__young_put_back_to_their_parents_are_left_out_and_said_so() -> None:
    results = results_of(
        """
        2026-01-01 fen | present: {group: stock, count: 10, look: dull}
        2026-04-01 fen | hatched: {brood: young, count: 20}
        2026-07-01 fen | joined: {parts: {young: 20}, into: stock}
        """
    )

    stock, young = results.group("stock"), results.group("young")
    assert (stock.generation.code, young.generation.code) == ("P", "I1")
    assert Assumption.RETURNED_LEFT_OUT in stock.assumptions
    assert young.brood is not None
    assert young.brood.dams.groups == ("stock",)
    assert _law(results, "young") == pytest.approx({"G/G": 4 / 9, "G/g": 4 / 9, "g/g": 1 / 9})


# --- contradictions, lethal genotypes, classes ----------------------------------------------


def test_contradiction__a_look_its_parents_cannot_give_is_told_not_raised() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 5, genotype: G/G}
        2026-03-01 tarn | hatched: {brood: first, dams: dusk, sires: dusk, count: 20}
        2026-06-01 tarn | sorted: {from: first, into: {odd: {count: 1, look: glowing}}}
        2026-08-01 tarn | hatched: {brood: next, dams: odd, sires: dusk, count: 9}
        2026-09-01 tarn | counted: {brood: next, looks: {dull: 9}}
        """
    )

    odd = results.group("odd")
    assert odd.genotypes == ()
    assert [event.entry for event in odd.contradiction] == ["002", "003"]
    assert results.group("next").contradiction == odd.contradiction
    assert results.table("next").table is None
    assert results.table("next").why_none == "contradiction"
    assert results.cross_table("odd by dusk").why_none == "contradiction"


def test_lethal__genotype_never_appears_and_carriers_hide_nothing() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: sun, count: 5, look: sunny}
        2026-03-01 tarn | hatched: {brood: first, dams: sun, sires: sun, count: 20}
        """,
        traits={"glow": _LETHAL},
    )

    assert _law(results, "sun") == {"Y/y": 1.0}
    assert results.group("sun").hidden == ()
    assert _law(results, "first") == pytest.approx({"Y/y": 2 / 3, "y/y": 1 / 3})
    assert results.table("first").expected == (
        ("sunny", 2 / 3, 2 / 3),
        ("plain", 1 / 3, 1 / 3),
    )


def test_coarse__a_class_stands_for_its_looks() -> None:
    results = results_of(
        "2026-01-01 fen | bought: {group: dusk, count: 5, look: coloured}",
        traits={"glow": _COARSE},
    )

    assert _law(results, "dusk") == pytest.approx({"D/D": 1 / 3, "D/d": 2 / 3})


def test_look__that_no_model_knows_stays_out_of_the_genotypes() -> None:
    results = results_of(
        f"{_PURE_CROSS}\n2026-07-01 tarn | "
        "moved: {group: second, count: 1, as: odd, to: fen, look: {left: dull, right: glowing}}"
    )

    assert _law(results, "odd") == {"G/G": 0.25, "G/g": 0.5, "g/g": 0.25}
    assert results.group("odd").look is not None


# --- which model ----------------------------------------------------------------------------

_SPOT = GLOW.replace("glow\n", "spot\n", 1).replace("g:", "s:").replace("[G, g]", "[S, s]")
_SPOT = _SPOT.replace("has G", "has S").replace("hom g", "hom s").replace("glowing", "spotted")


def test_model__of_the_line_that_began_with_an_ancestor() -> None:
    results = results_of(
        _PURE_CROSS,
        traits={"glow": GLOW, "spot": _SPOT},
        lines={"spots": "founders: [dawn]\ntraits: spot"},
    )

    assert results.group("second").model == "spot"
    assert results.group("dawn").model == "spot"


def test_model__line_may_begin_with_animals_bred_here() -> None:
    results = results_of(
        f"{_PURE_CROSS}\n2026-07-01 tarn | chosen: {{from: second, into: best, count: 2}}",
        traits={"glow": GLOW, "spot": _SPOT},
        lines={"spots": "founders: [best]\ntraits: spot"},
    )

    assert results.group("best").lines == ("spots",)
    assert results.group("best").model == "spot"
    assert results.group("second").lines == ()
    assert results.line("spots").groups == ("best",)


def test_model__by_the_looks_recorded() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 5, look: spotted}
        2026-01-01 fen | bought: {group: dawn, count: 5, look: glowing}
        2026-01-01 fen | bought: {group: noon, count: 5}
        """,
        traits={"glow": GLOW, "spot": _SPOT},
    )

    assert results.group("dusk").model == "spot"
    assert results.group("dawn").model == "glow"
    assert results.group("noon").model is None
    assert results.group("noon").genotypes == ()


def test_model__two_that_know_the_looks_alike_are_not_guessed_between() -> None:
    results = results_of(
        "2026-01-01 fen | bought: {group: dusk, count: 5, look: dull}",
        traits={"glow": GLOW, "spot": _SPOT},
    )

    assert results.group("dusk").model is None


def test_model__shipped_one_is_taken_where_the_looks_are_its_own() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 5}
        2026-01-01 tarn | bought: {group: noon, count: 5}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: dusk}
        2026-05-01 fen | counted: {brood: young, looks: {plain: 15, fancy: 5}}
        """,
        traits={},
        lines={"others": "founders: [noon]\ntraits: one-locus-recessive"},
    )

    assert results.group("young").model == "one-locus-recessive"


def test_model__parents_are_looked_at_under_the_model_of_their_young() -> None:
    """The sire's own line has another model; hundreds of generations lie behind him."""
    pedigree = ["2000-01-01 fen | bought: {group: s0, count: 2}"]
    pedigree += [
        f"{2000 + n // 4}-{1 + 3 * (n % 4):02}-02 fen | "
        f"hatched: {{brood: s{n + 1}, dams: s{n}, sires: s{n}, count: 4}}"
        for n in range(300)
    ]
    results = results_of(
        "\n".join(
            [
                *pedigree,
                "2080-01-01 tarn | bought: {group: dusk, count: 2, genotype: G/G}",
                "2080-03-01 tarn | hatched: {brood: young, dams: dusk, sires: s300, count: 4}",
                "2080-05-01 tarn | counted: {brood: young, looks: {dull: 4, glowing: 0}}",
            ]
        ),
        traits={"glow": GLOW, "spot": _SPOT},
        lines={
            "spots": "founders: [s0]\ntraits: spot",
            "glows": "founders: [dusk]\ntraits: glow",
        },
    )

    assert results.group("s300").model == "spot"
    assert results.group("young").model == "glow"
    assert _law(results, "young") == {"G/G": 0.5, "G/g": 0.5}
