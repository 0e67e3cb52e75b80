"""All counts side by side, against the correction of SciPy."""

import pytest
from scipy.stats import false_discovery_control

from filialog.analysis import JournalResults
from filialog.statistics import Verdict
from tools.diaries import results_of

_COUNTED = [(30, 10), (18, 22), (27, 13), (12, 28), (29, 11), (22, 18)]


def _results(counts: list[tuple[int, int]]) -> JournalResults:
    """Return broods of two carriers, two to a cross, that were counted so."""
    lines = []
    for number, (dull, glowing) in enumerate(counts):
        dam = f"dusk{number // 2}"
        if number % 2 == 0:
            lines.append(f"2026-01-01 fen | bought: {{group: {dam}, count: 9, genotype: G/g}}")
        day = f"2026-{number + 2:02}"
        looks = f"{{dull: {dull}, glowing: {glowing}}}"
        lines += [
            f"{day}-01 tarn | hatched: {{brood: y{number}, dams: {dam}, sires: {dam}}}",
            f"{day}-25 tarn | counted: {{brood: y{number}, looks: {looks}}}",
        ]
    return results_of("\n".join(lines))


def test_counts__every_brood_once_with_its_own_p_and_that_of_all_together() -> None:
    results = _results(_COUNTED)
    row = results.counts()

    assert sorted(line.brood for line in row.lines) == [f"y{n}" for n in range(len(_COUNTED))]
    for line in row.lines:
        table = results.table(line.brood).table
        assert table is not None
        assert line.p_value == table.judgement.p_value
        assert line.verdict is table.judgement.verdict
        assert line.events == table.events
        assert line.number == 40
    adjusted = false_discovery_control([line.p_value for line in row.lines], method="bh")
    assert [line.adjusted_p for line in row.lines] == pytest.approx(list(adjusted), rel=1e-9)
    assert [line.p_value for line in row.lines] == sorted(line.p_value for line in row.lines)
    assert [line.stands_out for line in row.lines] == [bool(p <= 0.05) for p in adjusted]
    assert row.misfits == sum(line.verdict is Verdict.DOES_NOT_FIT for line in row.lines) == 3
    assert row.standing == 3


def test_counts__misfit_among_many_can_be_chance() -> None:
    """One p of 0.007 among twelve is no discovery: 12 × 0.007 is above 0.05."""
    counts = [(30, 10)] * 10 + [(22, 18)]
    row = _results(counts).counts()

    assert row.lines[0].brood == "y10"
    assert row.lines[0].p_value < 0.05
    assert row.lines[0].adjusted_p == pytest.approx(11 * row.lines[0].p_value)


def test_counts__brood_without_a_count_is_no_member_of_the_family() -> None:
    assert [line.brood for line in _results([(30, 10), (0, 0)]).counts().lines] == ["y0"]
    none = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 9, genotype: G/g}
        2026-03-01 tarn | hatched: {brood: young, dams: dusk, sires: dusk, count: 40}
        """
    ).counts()
    assert (none.lines, none.misfits, none.standing) == ((), 0, 0)
