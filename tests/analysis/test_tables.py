"""Expected against observed: which count is used, what stands in it, and what is said of it."""

import pytest
from scipy.stats import binomtest, chi2_contingency

from filialog.analysis import JournalResults
from filialog.analysis.rows import Assumption, Table, TallyRow
from filialog.statistics import Verdict
from tools.diaries import results_of

_CARRIERS = """
    2026-01-01 fen | bought: {group: dusk, count: 9, genotype: G/g}
    2026-03-01 tarn | hatched: {brood: young, dams: dusk, sires: dusk, count: 40}
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


def _table(results: JournalResults, brood: str = "young") -> Table:
    table = results.table(brood).table
    assert table is not None, results.table(brood).why_none
    return table


def _observed(table: Table) -> dict[str, int]:
    return {line.look: line.observed for line in table.lines}


def _counted(*said: str, before: str = "") -> JournalResults:
    """Return results of a brood of two carriers with some counts, a week apart."""
    days = [f"2026-04-{1 + 7 * week:02}" for week in range(len(said))]
    lines = [
        f"{day} tarn | counted: {{brood: young, {one}}}"
        for day, one in zip(days, said, strict=True)
    ]
    return results_of("\n".join([_CARRIERS, before, *lines]))


def _used(results: JournalResults) -> list[str | None]:
    return [row.why_not_used for row in results.group("young").tallies]


# --- the table of a brood -------------------------------------------------------------------


def test_table__expected_numbers_intervals_and_p_are_those_of_scipy() -> None:
    table = _table(_counted("looks: {dull: 11, glowing: 9}"))

    assert [(line.look, line.expected, line.observed) for line in table.lines] == [
        ("dull", 15.0, 11),
        ("glowing", 5.0, 9),
    ]
    tested = binomtest(9, 20, 0.25)
    interval = tested.proportion_ci(0.95, method="wilson")
    glowing = table.lines[1]
    assert table.judgement.p_value == pytest.approx(tested.pvalue, rel=1e-9)
    assert (glowing.interval_low, glowing.interval_high) == pytest.approx(
        (interval.low, interval.high), rel=1e-9
    )
    assert glowing.difference == 4.0
    assert (glowing.share_low, glowing.share_high) == (0.25, 0.25)
    assert Assumption.EQUAL_VIABILITY in table.assumptions


def test_table__look_left_out_of_a_tally_was_seen_no_times() -> None:
    assert _observed(_table(_counted("looks: {dull: 12}"))) == {"dull": 12, "glowing": 0}


def test_table__unsorted_and_unexplained_stay_out_of_the_test() -> None:
    table = _table(
        _counted("looks: {dull: 11, glowing: 9}, unsorted: 3, other: [{count: 2, note: half}]")
    )

    assert table.sorted_number == 20
    assert table.unsorted == 3
    assert [(other.count.low, other.note) for other in table.unexplained] == [(2, "half")]
    assert sum(line.expected for line in table.lines) == 20.0


@pytest.mark.parametrize(
    ("looks", "verdict", "rivals"),
    [
        pytest.param("dull: 15, glowing: 4", Verdict.FITS, (), id="fits"),
        pytest.param(
            "dull: 10, glowing: 10",
            Verdict.CANNOT_TELL,
            (("G/g", "g/g"), ("g/g", "G/g")),
            id="half would come of a back cross",
        ),
        pytest.param(
            "dull: 0, glowing: 12",
            Verdict.DOES_NOT_FIT,
            (("g/g", "g/g"),),
            id="all glowing",
        ),
        pytest.param("dull: 0, glowing: 0", Verdict.NOTHING_COUNTED, (), id="none"),
    ],
)
def test_table__verdict_and_rivals(
    looks: str, verdict: Verdict, rivals: tuple[tuple[str, str], ...]
) -> None:
    table = _table(_counted(f"looks: {{{looks}}}"))

    assert table.judgement.verdict is verdict
    assert set(table.rival_pairs) == set(rivals)
    assert sum(share for _, share in table.rival_shares) == (1.0 if rivals else 0)
    assert (table.judgement.more_needed is not None) is (
        verdict in {Verdict.CANNOT_TELL, Verdict.NOTHING_COUNTED}
    )


def test_table__of_a_coarse_look_joins_its_classes() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 9, genotype: D/d}
        2026-03-01 tarn | hatched: {brood: young, dams: dusk, sires: dusk, count: 40}
        2026-04-01 tarn | counted: {brood: young, looks: {coloured: 16, faint: 4}}
        """,
        traits={"glow": _COARSE},
    )

    assert [(line.look, line.expected, line.observed) for line in _table(results).lines] == [
        ("coloured", 15.0, 16),
        ("faint", 5.0, 4),
    ]
    (tally,) = results.group("young").tallies
    assert [look for look, _ in tally.looks] == ["coloured", "faint"]


# --- parents that can be several things -----------------------------------------------------

_LOOK_ONLY = """
    2026-01-01 fen | bought: {{group: dusk, count: 9, look: dull}}
    2026-01-01 fen | bought: {{group: dawn, count: 9, look: glowing}}
    2026-03-01 tarn | hatched: {{brood: young, dams: dusk, sires: dawn, count: 40{more}}}
    2026-04-01 tarn | counted: {{brood: young, looks: {{{looks}}}}}
"""
# The dam is G/G in one of three, then all young are dull; else half of them are.


def _mixed(looks: str, more: str = "") -> Table:
    return _table(results_of(_LOOK_ONLY.format(looks=looks, more=more)))


@pytest.mark.parametrize(
    ("mating", "looks", "assumed"),
    [
        ("one", "dull: 13, glowing: 7", Assumption.ONE_PAIR),
        ("several", "dull: 13, glowing: 7", Assumption.MANY_PAIRS),
        ("unknown", "dull: 13, glowing: 7", Assumption.MANY_PAIRS),
        ("unknown", "dull: 20, glowing: 0", Assumption.ONE_PAIR),
    ],
)
def test_table__of_uncertain_parents_takes_the_more_lenient_p(
    mating: str, looks: str, assumed: Assumption
) -> None:
    table = _mixed(looks, f", mating: {mating}")
    one = _mixed(looks, ", mating: one").judgement.p_value
    many = _mixed(looks, ", mating: several").judgement.p_value

    assert many == pytest.approx(binomtest(7 if "7" in looks else 0, 20, 1 / 3).pvalue, rel=1e-9)
    assert table.judgement.p_value == {"one": one, "several": many}.get(mating, max(one, many))
    assert assumed in table.assumptions
    assert len({Assumption.ONE_PAIR, Assumption.MANY_PAIRS} & set(table.assumptions)) == 1
    assert (table.lines[1].share_low, table.lines[1].share_high) == (0.0, 0.5)
    assert table.lines[1].expected == pytest.approx(20 / 3)


def test_table__of_certain_parents_assumes_nothing_of_pairs() -> None:
    table = _table(_counted("looks: {dull: 11, glowing: 9}"))

    assert not {Assumption.ONE_PAIR, Assumption.MANY_PAIRS} & set(table.assumptions)


def test_expected__is_there_before_any_count() -> None:
    table = results_of(_CARRIERS).table("young")

    assert (table.table, table.why_none) == (None, "no-tally")
    assert table.expected == (("dull", 0.75, 0.75), ("glowing", 0.25, 0.25))


@pytest.mark.parametrize(
    ("diary", "traits", "why"),
    [
        pytest.param(_CARRIERS, {}, "no-model", id="no model"),
        pytest.param(
            """
            2026-03-01 tarn | hatched: {brood: young, count: 40}
            2026-04-01 tarn | counted: {brood: young, looks: {dull: 30, glowing: 10}}
            """,
            None,
            "no-parents",
            id="no parents",
        ),
    ],
)
def test_table__missing_says_why(diary: str, traits: dict[str, str] | None, why: str) -> None:
    results = results_of(diary, traits=traits)

    assert results.table("young").table is None
    assert results.table("young").why_none == why
    assert results.cross_table(results.crosses()[0]).why_none == why
    assert results.cross_table(results.crosses()[0]).broods == ()


# --- which count ----------------------------------------------------------------------------


def test_used__most_complete_count_speaks() -> None:
    results = _counted("looks: {dull: 5, glowing: 2}", "looks: {dull: 15, glowing: 5}")

    assert _used(results) == ["another-tally", None]
    assert _observed(_table(results)) == {"dull": 15, "glowing": 5}


def test_used__earliest_of_equal_counts_speaks() -> None:
    assert _used(_counted("looks: {dull: 6, glowing: 2}", "looks: {dull: 5, glowing: 3}")) == [
        None,
        "another-tally",
    ]


def test_used__fewest_unsorted_then_a_total_speaks() -> None:
    looks = "looks: {dull: 6, glowing: 2}"
    assert _used(_counted(f"{looks}, unsorted: 1", looks)) == ["another-tally", None]
    assert _used(_counted(looks, f"{looks}, how: emptied")) == ["another-tally", None]


def test_used__marked_count_speaks_though_smaller() -> None:
    results = _counted("looks: {dull: 5, glowing: 2}, use: true", "looks: {dull: 15, glowing: 5}")

    assert _used(results) == [None, "another-tally"]


def test_used__kept_out_count_never_speaks() -> None:
    results = _counted("looks: {dull: 15, glowing: 5}, use: false", "looks: {dull: 5, glowing: 2}")

    assert _used(results) == ["kept-out", None]
    only = _counted("looks: {dull: 15, glowing: 5}, use: false")
    assert only.table("young").why_none == "no-tally"


def test_used__count_that_is_not_exact_never_speaks() -> None:
    results = _counted("looks: {dull: ~15, glowing: 5}", "looks: {dull: 5, glowing: 2}")

    assert _used(results) == ["not-exact", None]


def test_used__count_without_looks_never_speaks() -> None:
    assert _used(_counted("count: 30", "looks: {dull: 5, glowing: 2}")) == ["no-looks", None]


def test_used__count_of_a_part_is_no_count_of_a_brood() -> None:
    results = results_of(
        f"""{_CARRIERS}
        2026-04-01 tarn | moved: {{group: young, count: 9, as: away, to: fen}}
        2026-05-01 fen | counted: {{group: away, looks: {{dull: 7, glowing: 2}}}}
        """
    )

    assert [(row.used, row.why_not_used) for row in results.group("away").tallies] == [
        (False, "not-a-brood")
    ]
    assert results.table("young").why_none == "no-tally"


def test_used__withheld_count_is_a_claim() -> None:
    diary = (
        f"{_CARRIERS}\n2026-04-01 tarn | "
        "counted: {brood: young, looks: {dull: 15, glowing: 5}, private: true}"
    )

    keeper = results_of(diary)
    public = results_of(diary, public=True)
    allowed = results_of(diary, public=True, settings="public: [counted]\n")
    assert _observed(_table(keeper)) == {"dull": 15, "glowing": 5}
    assert public.group("young").tallies == ()
    assert public.table("young").why_none == "no-tally"
    assert _used(allowed) == ["claimed"]
    assert allowed.table("young").why_none == "no-tally"


def test_tallies__rows_say_age_how_and_numbers() -> None:
    results = _counted("looks: {glowing: 5, dull: 15}, unsorted: 2, how: emptied, age: 30 d")

    (row,) = results.group("young").tallies
    assert isinstance(row, TallyRow)
    assert row.age_days_computed == (31, 31)
    assert row.age is not None
    assert row.age.low_days == 30
    assert (row.how, row.total, row.number.exact) == ("emptied", True, 22)
    assert [(look, number.exact) for look, number in row.looks] == [("dull", 15), ("glowing", 5)]


# --- young that were taken out before -------------------------------------------------------


def test_culled__before_the_count_stay_in_the_denominator() -> None:
    before = """
        2026-03-10 tarn | culled: {group: young, count: 3, look: glowing}
        2026-03-11 tarn | culled: {group: young, count: 2}
    """
    table = _table(_counted("looks: {dull: 15, glowing: 2}", before=before))

    assert _observed(table) == {"dull": 15, "glowing": 5}
    assert table.unsorted == 2
    assert [event.entry for event in table.events] == ["005", "003", "004"]


def test_culled__after_the_count_or_on_its_day_were_counted() -> None:
    before = "2026-04-01 tarn | culled: {group: young, count: 3, look: glowing}"

    assert _observed(_table(_counted("looks: {dull: 15, glowing: 5}", before=before))) == {
        "dull": 15,
        "glowing": 5,
    }


def test_sorted__out_before_the_count_stay_in_the_denominator() -> None:
    """Left out, fifteen dull ones alone would look like a cross without carriers."""
    before = "2026-03-20 tarn | sorted: {from: young, into: {shine: {count: 5, look: glowing}}}"
    table = _table(_counted("looks: {dull: 15, glowing: 0}", before=before))

    assert _observed(table) == {"dull": 15, "glowing": 5}
    assert [event.entry for event in table.events] == ["004", "003"]


_WHOLE = """
    2026-01-01 fen | bought: {group: dusk, count: 9, genotype: G/g}
    2026-03-01 tarn | hatched: {brood: young, dams: dusk, sires: dusk, count: 20}
    2026-03-05 tarn | died: {group: young, count: 1}
    2026-04-01 tarn | sorted: {from: young, into: {shine: {count: 5, look: glowing}}}
"""


def test_sorted__a_whole_brood_is_its_own_count() -> None:
    results = results_of(
        f"{_WHOLE}\n2026-04-02 tarn | "
        "sorted: {from: young, into: {keep: {count: 14, look: dull}}}"
    )

    assert _observed(_table(results)) == {"dull": 14, "glowing": 5}
    assert [event.entry for event in _table(results).events] == ["004", "005"]


@pytest.mark.parametrize(
    "event",
    [
        pytest.param("sorted: {from: young, into: {keep: {count: 9, look: dull}}}", id="some left"),
        pytest.param("sorted: {from: young, into: {keep: {look: dull}}}", id="number unknown"),
        pytest.param("moved: {group: young, as: rest, to: fen}", id="rest not sorted"),
        pytest.param(
            "sorted: {from: young, into: {keep: {count: 13-14, look: dull}}}\n"
            "2026-04-03 tarn | counted: {brood: young, count: 0, how: emptied}",
            id="about",
        ),
    ],
)
def test_sorted__a_part_of_a_brood_is_no_count(event: str) -> None:
    """The last case leaves none, but how many dull ones there were is not known exactly."""
    results = results_of(f"{_WHOLE}\n2026-04-02 tarn | {event}")

    assert results.table("young").why_none == "no-tally"


# --- several broods of a cross --------------------------------------------------------------


def _broods(genotype: str, *counts: tuple[int, int], number: int = 9) -> JournalResults:
    lines = [
        f"2026-01-01 fen | bought: {{group: dusk, count: {number}, females: {number}, {genotype}}}"
    ]
    lines += [
        f"2026-01-01 fen | bought: {{group: dawn, count: {number}, males: {number}, look: glowing}}"
    ]
    for month, (dull, glowing) in enumerate(counts, start=3):
        looks = f"{{dull: {dull}, glowing: {glowing}}}"
        lines += [
            f"2026-{month:02}-01 tarn | hatched: {{brood: y{month}, dams: dusk, sires: dawn}}",
            f"2026-{month:02}-25 tarn | counted: {{brood: y{month}, looks: {looks}}}",
        ]
    return results_of("\n".join(lines))


def test_cross_table__adds_up_broods_and_compares_them() -> None:
    pooled = _broods("genotype: G/g", (12, 8), (7, 13), (10, 10)).cross_table("dusk by dawn")

    assert pooled.broods == ("y3", "y4", "y5")
    assert pooled.table is not None
    assert _observed(pooled.table) == {"dull": 29, "glowing": 31}
    assert pooled.table.judgement.p_value == pytest.approx(binomtest(29, 60, 0.5).pvalue, rel=1e-9)
    # G of heterogeneity is the G of the contingency table (Sokal & Rohlf, from memory).
    g = chi2_contingency([[12, 8], [7, 13], [10, 10]], lambda_="log-likelihood", correction=False)
    assert pooled.heterogeneity_p == pytest.approx(g.pvalue, rel=1e-9)
    assert len(pooled.table.events) == 3


def test_cross_table__of_one_brood_is_the_table_of_the_brood() -> None:
    results = _broods("genotype: G/g", (12, 8))

    pooled = results.cross_table("dusk by dawn")
    assert pooled.table == results.table("y3").table
    assert (pooled.subject, pooled.broods, pooled.heterogeneity_p) == (
        "dusk by dawn",
        ("y3",),
        None,
    )


def test_cross_table__broods_of_uncertain_pairs_are_not_compared() -> None:
    """One dam can be G/G, the other G/g: their broods differ by right."""
    pooled = _broods("look: dull", (20, 0), (9, 11)).cross_table("dusk by dawn")

    assert pooled.table is not None
    assert pooled.heterogeneity_p is None
    assert pooled.table.judgement.verdict is not Verdict.DOES_NOT_FIT


def test_cross_table__of_one_pair_follows_one_of_its_expectations() -> None:
    """The same two animals: 40 dull of 40 mean that the dam is G/G, and fit."""
    pooled = _broods("look: dull", (20, 0), (20, 0), number=1).cross_table("dusk by dawn")

    assert pooled.table is not None
    assert Assumption.ONE_PAIR in pooled.table.assumptions
    assert pooled.table.judgement.verdict is Verdict.FITS
    assert pooled.heterogeneity_p is not None


def test_cross_table__broods_put_to_other_classes_stay_apart() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 9, genotype: D/d}
        2026-03-01 tarn | hatched: {brood: one, dams: dusk, sires: dusk, count: 40}
        2026-04-01 tarn | counted: {brood: one, looks: {coloured: 16, faint: 4}}
        2026-05-01 tarn | hatched: {brood: two, dams: dusk, sires: dusk, count: 40}
        2026-06-01 tarn | counted: {brood: two, looks: {deep: 4, middling: 9, faint: 4}}
        """,
        traits={"glow": _COARSE},
    )

    pooled = results.cross_table("dusk by dusk")
    assert pooled.broods == ("one",)
    assert pooled.table is not None
    assert pooled.table.sorted_number == 20
