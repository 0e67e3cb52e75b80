"""Animals are held back after the last dose, whatever the order of the doses."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.provenance import Sourced
from filialog.husbandry.withdrawal import WITHDRAWAL_DAYS, first_day_for_sale


@given(st.lists(st.dates(date(2000, 1, 1), date(2100, 1, 1)), min_size=1))
def test_withdrawal__counts_from_the_last_dose(doses: list[date]) -> None:
    found = first_day_for_sale(doses)

    assert found is not None
    assert all(found.value - dose >= timedelta(days=14) for dose in doses)
    assert found.value - timedelta(days=14) in doses
    assert found.sources == WITHDRAWAL_DAYS.sources


def test_withdrawal__without_a_dose_there_is_none() -> None:
    assert first_day_for_sale([]) is None


def test_withdrawal__refuses_a_negative_wait() -> None:
    with pytest.raises(DomainError, match="days to wait"):
        first_day_for_sale(
            [date(2031, 3, 1)], wait_days=Sourced(value=-1, sources=WITHDRAWAL_DAYS.sources)
        )
