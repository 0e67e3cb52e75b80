"""One converter for each shape that a key of the journal can have."""

from collections.abc import Callable

from filialog.journal.events import Value
from filialog.journal.keys import Key, Shape
from filialog.reading.ages import read_age
from filialog.reading.counts import read_count
from filialog.reading.days import read_day
from filialog.reading.node import Node
from filialog.reading.scalars import (
    read_amount,
    read_choice,
    read_choices,
    read_clock,
    read_flag,
    read_genotype,
    read_name,
    read_names,
    read_number,
    read_text,
    read_texts,
)
from filialog.reading.sheet import Sheet
from filialog.reading.tables import (
    read_goal,
    read_look,
    read_looks,
    read_others,
    read_parents,
    read_parts,
    read_scales,
    read_scores,
    read_sorted_into,
    read_table,
)
from filialog.reading.water import read_ranges, read_reading

__all__ = ["CONVERTERS", "read_value"]

Converter = Callable[[Node, Key, Sheet], Value | None]

CONVERTERS: dict[Shape, Converter] = {
    Shape.TEXT: read_text,
    Shape.FLAG: read_flag,
    Shape.NUMBER: read_number,
    Shape.COUNT: read_count,
    Shape.DAY: read_day,
    Shape.CLOCK: read_clock,
    Shape.AGE: read_age,
    Shape.CHOICE: read_choice,
    Shape.CHOICES: read_choices,
    Shape.GROUP: read_name,
    Shape.GROUPS: read_names,
    Shape.NEW_GROUP: read_name,
    Shape.TANK: read_name,
    Shape.PLACE: read_name,
    Shape.PARENTS: read_parents,
    Shape.PARTS: read_parts,
    Shape.SORTED_INTO: read_sorted_into,
    Shape.LOOK: read_look,
    Shape.LOOKS: read_looks,
    Shape.OTHERS: read_others,
    Shape.GENOTYPE: read_genotype,
    Shape.SCORES: read_scores,
    Shape.READING: read_reading,
    Shape.AMOUNT: read_amount,
    Shape.TEXTS: read_texts,
    Shape.TABLE: read_table,
    Shape.GOAL: read_goal,
    Shape.SCALES: read_scales,
    Shape.RANGES: read_ranges,
}
"""Each lays a finding on the desk and returns None where a value cannot be read."""


def read_value(node: Node, key: Key, sheet: Sheet) -> Value | None:
    """Read the value of a key by the shape that the tables declare for it."""
    return CONVERTERS[key.shape](node, key, sheet)
