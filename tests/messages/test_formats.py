"""Dates, counts and shares as words."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup

from filialog.journal.quantities import Age, Count, Reading, When
from filialog.messages import (
    ENGLISH,
    Words,
    age_text,
    chance_text,
    count_text,
    day_text,
    decimal_text,
    either_text,
    list_text,
    p_value_text,
    portion_text,
    reading_text,
    share_text,
    short_when_text,
    signed_text,
    value_text,
    when_text,
)

WORDS = Words(ENGLISH)


def _plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def _window(first: str, last: str, *, about: bool = False) -> When:
    return When(
        earliest=date.fromisoformat(first), latest=date.fromisoformat(last), text="", about=about
    )


def test_day__is_written_out() -> None:
    assert _plain(day_text(WORDS, date(2026, 3, 14))) == "14 March 2026"


@pytest.mark.parametrize(
    ("when", "wanted"),
    [
        (_window("2026-03-14", "2026-03-14"), "on 14 March 2026"),
        (_window("2026-03-14", "2026-03-14", about=True), "about 14 March 2026"),
        (_window("2026-05-01", "2026-05-09"), "between 1 and 9 May 2026"),
        (_window("2026-04-28", "2026-05-09"), "between 28 April and 9 May 2026"),
        (_window("2025-12-30", "2026-01-02"), "between 30 December 2025 and 2 January 2026"),
        (_window("2026-05-01", "2026-05-31"), "in May 2026"),
        (_window("2024-02-01", "2024-02-29"), "in February 2024"),
        (_window("2026-02-01", "2026-02-27"), "between 1 and 27 February 2026"),
        (_window("2026-04-15", "2026-06-15", about=True), "about May 2026"),
        (_window("9999-12-01", "9999-12-31"), "in December 9999"),
    ],
)
def test_when__follows_a_verb(when: When, wanted: str) -> None:
    assert _plain(when_text(WORDS, when)) == wanted


def test_short_when__fits_a_narrow_column() -> None:
    assert _plain(short_when_text(WORDS, _window("2026-05-01", "2026-05-09"))) == "1–9 May 2026"
    assert _plain(short_when_text(WORDS, _window("2026-03-14", "2026-03-14"))) == "14 Mar 2026"


@pytest.mark.parametrize(
    ("low", "high", "text", "wanted"),
    [
        (12, 12, "12", "12"),
        (10, 14, "10-14", "10 to 14"),
        (12, None, "12+", "at least 12"),
        (9, 15, "~12", "about 12"),
        (0, None, "some", "some"),
        (0, 5, "0-5", "at most 5"),
        (0, 0, "0", "0"),
        (9, 15, "~ twelve", "9 to 15"),
    ],
)
def test_count__keeps_its_bounds(low: int, high: int | None, text: str, wanted: str) -> None:
    assert count_text(WORDS, Count(low=low, high=high, text=text)) == wanted


@pytest.mark.parametrize(
    ("share", "wanted"),
    [
        (0.0, "0 %"),
        (1.0, "100 %"),
        (0.75, "75 %"),
        (0.375, "37.5 %"),
        (0.0625, "6.25 %"),
        (0.9375, "93.8 %"),
        (0.0001, "below 0.1 %"),
        (0.99999, "above 99.9 %"),
        (0.9994, "99.9 %"),
        (1 / 3, "33.3 %"),
    ],
)
def test_share__has_sensible_digits(share: float, wanted: str) -> None:
    assert _plain(share_text(WORDS, share)) == wanted


@given(st.floats(min_value=0, max_value=1), st.booleans())
def test_share__says_none_or_all_only_where_it_is_so(share: float, whole: bool) -> None:
    text = _plain(share_text(WORDS, share, whole=whole))

    assert (text == "0 %") == (share == 0.0)
    assert (text == "100 %") == (share > 1 - 1e-11)


@pytest.mark.parametrize(
    ("p_value", "wanted"),
    [(0.62, "0.62"), (0.004, "0.004"), (0.0009, "below 0.001"), (1.0, "1"), (0.0, "below 0.001")],
)
def test_p_value__has_sensible_digits(p_value: float, wanted: str) -> None:
    assert p_value_text(WORDS, p_value) == wanted


def test_decimal__has_no_zeros_at_the_end_and_no_minus_zero() -> None:
    assert decimal_text(WORDS, 4.50, decimals=2) == "4.5"
    assert decimal_text(WORDS, 100.0, decimals=1) == "100"
    assert decimal_text(WORDS, -0.01, decimals=1) == "0"
    assert signed_text(WORDS, 4.25, decimals=1) == "+4.2"
    assert signed_text(WORDS, -4.0, decimals=1) == "−4"
    assert signed_text(WORDS, 0.0, decimals=1) == "0"


def test_value__is_tied_to_its_unit() -> None:
    assert value_text(WORDS, 22.4, "°C") == "22.4\N{NO-BREAK SPACE}°C"
    assert value_text(WORDS, 6.1, "") == "6.1"


@pytest.mark.parametrize(
    ("low", "high", "wanted"),
    [
        (6.1, 6.1, "6.1 mg/L"),
        (6.2, 6.8, "6.2 to 6.8 mg/L"),
        (None, 0.05, "below 0.05 mg/L"),
        (5.0, None, "above 5 mg/L"),
        (None, None, "as written"),
    ],
)
def test_reading__keeps_its_bounds(low: float | None, high: float | None, wanted: str) -> None:
    reading = Reading(low=low, high=high, unit="mg/L", text="as written")

    assert _plain(reading_text(WORDS, reading)) == wanted


def test_age__takes_the_form_of_its_number() -> None:
    assert age_text(WORDS, Age(low_days=1, high_days=1, text="")) == "1 day"
    assert age_text(WORDS, Age(low_days=45, high_days=45, text="")) == "45 days"
    assert age_text(WORDS, Age(low_days=40, high_days=50, text="")) == "40 to 50 days"


@pytest.mark.parametrize(
    ("probability", "wanted"),
    [
        (0.0, "none"),
        (0.03, "very unlikely, 3 %"),
        (0.25, "unlikely, 25 %"),
        (0.5, "about even, 50 %"),
        (2 / 3, "likely, 66.7 %"),
        (0.99, "very likely, 99 %"),
        (1.0, "certain"),
    ],
)
def test_chance__is_a_word_and_a_number(probability: float, wanted: str) -> None:
    assert _plain(chance_text(WORDS, probability)) == wanted


def test_lists__join_text_and_escape_beside_links() -> None:
    link = Markup("<a>x</a>")

    assert list_text(WORDS, []) == ""
    assert list_text(WORDS, ["a"]) == "a"
    assert list_text(WORDS, ["a", "b", "c"]) == "a, b and c"
    assert either_text(WORDS, ["a", "b"]) == "a or b"
    assert list_text(WORDS, [link, Markup("y")]) == Markup("<a>x</a> and y")
    assert isinstance(list_text(WORDS, [link]), Markup)


@pytest.mark.parametrize(
    ("share", "wanted"),
    [
        (0.0, "none"),
        (1.0, "every one"),
        (1 - 1e-12, "every one"),
        (2 / 3, "2 in 3"),
        (0.5, "1 in 2"),
        (0.375, "3 in 8"),
        (0.6667, "66.7\N{NO-BREAK SPACE}%"),
        (1 / 16, "6.25\N{NO-BREAK SPACE}%"),
        (0.0004, "below 0.1\N{NO-BREAK SPACE}%"),
    ],
)
def test_portion__is_so_many_in_so_many_where_that_is_exact(share: float, wanted: str) -> None:
    assert portion_text(WORDS, share) == wanted
