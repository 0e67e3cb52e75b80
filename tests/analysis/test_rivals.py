"""What else could be behind a count that does not fit: another sire, or worse survival."""

import math

import pytest
from scipy.stats import binom

from filialog.analysis.rows import RivalKind, RivalLine, Table
from tools.diaries import results_of

_DIARY = """
    2026-01-01 fen | bought: {{group: dams, count: 9, genotype: {dams}}}
    2026-01-01 fen | bought: {{group: sires, count: 9, genotype: {sires}}}
    2026-03-01 tarn | hatched: {{brood: young, dams: dams, sires: sires, count: 40{more}}}
    2026-04-01 tarn | counted: {{brood: young, looks: {{dull: {dull}, glowing: {glowing}}}}}
"""


def _table(
    *, dull: int, glowing: int, dams: str = "g/g", sires: str = "G/g", more: str = ""
) -> Table:
    diary = _DIARY.format(dams=dams, sires=sires, dull=dull, glowing=glowing, more=more)
    table = results_of(diary).table("young").table
    assert table is not None
    return table


def _rivals(table: Table) -> dict[RivalKind, RivalLine]:
    assert len({line.kind for line in table.rivals}) == len(table.rivals)
    return {line.kind: line for line in table.rivals}


def test_rivals__another_sire_of_all_young() -> None:
    """Twenty dull of a glowing dam: half were expected, and a sire G/G gives them all."""
    line = _rivals(_table(dull=20, glowing=0))[RivalKind.ALL_SIRES]

    assert line.of == ("G/G",)
    assert line.log_ratio == pytest.approx(20 * math.log(2), rel=1e-9)
    assert (line.estimate, line.low, line.high) == (None, None, None)


def test_rivals__another_sire_keeps_the_dams_that_were_recorded() -> None:
    """All glowing of G/g × G/g would need two g/g; no sire gives that with this dam."""
    line = _rivals(_table(dull=1, glowing=29, dams="G/g"))[RivalKind.ALL_SIRES]

    assert line.of == ("g/g",)
    assert line.log_ratio == pytest.approx(
        math.log(binom.pmf(1, 30, 0.5) / binom.pmf(1, 30, 0.75)), rel=1e-9
    )


def test_rivals__stray_sire_of_a_part_of_the_young() -> None:
    """Of glowing parents six in forty are dull: a stray G/G had a part of them."""
    found = _rivals(_table(dull=6, glowing=34, sires="g/g", more=", mating: several"))
    line = found[RivalKind.SOME_SIRES]

    assert line.of == ("G/G",)
    assert line.estimate == pytest.approx(0.15, abs=1e-6)
    assert line.log_ratio == math.inf
    assert line.low is not None
    assert line.high is not None
    assert 0 < line.low < line.high < 1


def test_rivals__part_that_would_be_all_is_no_part() -> None:
    found = _rivals(_table(dull=20, glowing=0, sires="g/g", more=", mating: several"))

    assert RivalKind.SOME_SIRES not in found
    assert found[RivalKind.ALL_SIRES].of == ("G/G",)


def test_rivals__one_sire_has_all_of_a_brood_or_none() -> None:
    found = _rivals(_table(dull=6, glowing=34, sires="g/g", more=", mating: one"))

    assert RivalKind.SOME_SIRES not in found
    assert found[RivalKind.ALL_SIRES].of == ("G/g",)


def test_rivals__survival_of_the_look_that_is_short() -> None:
    """55 to 5 where 3:1 was expected: by hand (5 / 55) × 3, and its likelihood by SciPy."""
    line = _rivals(_table(dull=55, glowing=5, dams="G/g"))[RivalKind.SURVIVAL]

    assert line.of == ("glowing",)
    assert line.estimate == pytest.approx(15 / 55, rel=1e-6)
    assert line.low is not None
    assert line.high is not None
    assert line.low < 15 / 55 < line.high < 1
    assert line.log_ratio == pytest.approx(
        math.log(binom.pmf(5, 60, 5 / 60) / binom.pmf(5, 60, 0.25)), rel=1e-9
    )


def test_rivals__deaths_add_no_look() -> None:
    found = _rivals(_table(dull=6, glowing=34, sires="g/g"))

    assert RivalKind.SURVIVAL not in found


@pytest.mark.parametrize(("dull", "glowing"), [(10, 10), (0, 0), (9, 11)])
def test_rivals__are_for_a_misfit_only(dull: int, glowing: int) -> None:
    assert _table(dull=dull, glowing=glowing).rivals == ()
