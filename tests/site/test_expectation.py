"""The numbers a cross page shows, computed a second time by SciPy.

Expected counts are n·1/4 and n·3/4 for two carriers of one recessive allele (Mendel 1866, the
3:1 ratio of the second generation). The p value and the interval are those of
`scipy.stats.binomtest`: the exact two-sided test, and the score interval of Wilson (1927).
"""

from pathlib import Path

import pytest
from scipy.stats import binomtest

from tools.sites import Table, pages_of_kind, read_page


@pytest.fixture(scope="module")
def carrier_tables(public_site: Path) -> dict[str, Table]:
    """Tables of broods whose looks are expected 1:3, by page and number."""
    found = {}
    for name in pages_of_kind(public_site, "cross"):
        for number, table in enumerate(read_page(public_site, name).tables):
            total = sum(row.observed for row in table.rows)
            shares = sorted(row.expected / total for row in table.rows) if total else []
            if shares == pytest.approx([0.25, 0.75], abs=1e-12):
                found[f"{name} {number}"] = table
    assert found, "the example has no counted brood of two carriers"
    return found


def test_cross_page__expected_counts_of_two_carriers_are_a_quarter_and_three_quarters(
    carrier_tables: dict[str, Table],
) -> None:
    for name, table in carrier_tables.items():
        total = sum(row.observed for row in table.rows)
        rare, common = sorted(table.rows, key=lambda row: row.expected)
        assert rare.expected == pytest.approx(total * 0.25, rel=1e-12), name
        assert common.expected == pytest.approx(total * 0.75, rel=1e-12), name


def test_cross_page__p_value_of_two_carriers_is_that_of_scipy(
    carrier_tables: dict[str, Table],
) -> None:
    for name, table in carrier_tables.items():
        total = sum(row.observed for row in table.rows)
        assert table.method == "exact", name  # two looks always are
        for row in table.rows:
            tested = binomtest(row.observed, total, row.expected / total)
            assert table.p == pytest.approx(tested.pvalue, rel=1e-9), (name, row.look)


def test_cross_page__intervals_of_two_carriers_are_those_of_scipy(
    carrier_tables: dict[str, Table],
) -> None:
    for name, table in carrier_tables.items():
        total = sum(row.observed for row in table.rows)
        for row in table.rows:
            interval = binomtest(row.observed, total).proportion_ci(0.95, method="wilson")
            assert row.low == pytest.approx(interval.low, rel=1e-9, abs=1e-12), (name, row.look)
            assert row.high == pytest.approx(interval.high, rel=1e-9), (name, row.look)


def test_cross_page__observed_and_expected_animals_are_equally_many(public_site: Path) -> None:
    seen = 0
    for name in pages_of_kind(public_site, "cross"):
        for table in read_page(public_site, name).tables:
            if not table.rows:
                continue
            seen += 1
            observed = sum(row.observed for row in table.rows)
            assert sum(row.expected for row in table.rows) == pytest.approx(observed), name
            assert all(0 <= row.low <= row.high <= 1 for row in table.rows), name
            assert table.p is None or 0 <= table.p <= 1, name
    assert seen > 0
