"""Messages: every word of the interface, in one catalogue, and how dates and numbers are written.

In: keys with values, dates, counts, readings, shares. Out: text, or safe HTML where links stand
inside a sentence. The keeper's own words never pass through the catalogue.
"""

from filialog.messages.english import ENGLISH
from filialog.messages.formats import (
    age_text,
    chance_text,
    chance_word,
    count_text,
    day_text,
    decimal_text,
    either_text,
    list_text,
    month_text,
    p_value_text,
    portion_text,
    reading_text,
    share_text,
    short_day_text,
    short_when_text,
    signed_text,
    value_text,
    when_text,
)
from filialog.messages.words import UnknownWordError, Words

__all__ = [
    "ENGLISH",
    "UnknownWordError",
    "Words",
    "age_text",
    "chance_text",
    "chance_word",
    "count_text",
    "day_text",
    "decimal_text",
    "either_text",
    "list_text",
    "month_text",
    "p_value_text",
    "portion_text",
    "reading_text",
    "share_text",
    "short_day_text",
    "short_when_text",
    "signed_text",
    "value_text",
    "when_text",
]
