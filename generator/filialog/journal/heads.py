"""What may stand at the head of every kind of file that is not an event: the second table."""

from dataclasses import dataclass

from filialog.journal.keys import Key, Shape
from filialog.journal.kinds import MEASURED_KEYS

__all__ = ["ENTRY_HEAD", "GROUP_HEAD", "LINE_HEAD", "SETTINGS_HEAD", "TANK_HEAD", "Head"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """The keys of one kind of file."""

    name: str
    """Kind of file, in the keeper's words."""
    where: str
    """Folder or file of the journal."""
    keys: tuple[Key, ...]
    """What may be written."""
    needs: tuple[str, ...] = ()
    """What must be written."""


def _key(name: str, shape: Shape, says: str, *, choices: tuple[str, ...] = ()) -> Key:
    return Key(name=name, shape=shape, says=says, choices=choices)


_NAME = _key("name", Shape.TEXT, "the name used in the diary, where it is not the file's")
_TITLE = _key("title", Shape.TEXT, "the name as shown, where it is longer")
_PRIVATE = _key("private", Shape.FLAG, "true keeps the page out of the public edition")

ENTRY_HEAD = Head(
    name="diary entry",
    where="diary/",
    keys=(
        _key("date", Shape.DAY, "the day, where the file's name does not say it"),
        _key("tank", Shape.TANK, "the tank, where the entry is about one"),
        _TITLE,
        _PRIVATE,
    ),
)
"""Besides these an entry takes every kind of event, and `tanks:` with events by tank."""

TANK_HEAD = Head(
    name="tank",
    where="tanks/",
    keys=(
        _NAME,
        _TITLE,
        _key("litres", Shape.NUMBER, "net litres of water"),
        _key("length", Shape.NUMBER, "outside length in cm"),
        _key("width", Shape.NUMBER, "outside width in cm"),
        _key("height", Shape.NUMBER, "outside height in cm"),
        _key("soil", Shape.TEXT, "what lies on the bottom"),
        _key("filter", Shape.TEXT, "the filter"),
        _key("light", Shape.TEXT, "the light and its hours"),
        _key("place", Shape.TEXT, "the place on the rack"),
        _key("targets", Shape.RANGES, "target range by quantity, such as `ph: 6.2-6.8`"),
        _PRIVATE,
    ),
)

GROUP_HEAD = Head(
    name="group",
    where="groups/",
    keys=(
        _NAME,
        _TITLE,
        _key("genotype", Shape.GENOTYPE, "the genotype the keeper takes the group to have"),
        _key("look", Shape.TEXT, "the look they show"),
        _key("sex", Shape.CHOICE, "the sex of a named animal", choices=("female", "male", "both")),
        _key("strain", Shape.TEXT, "the pure line that bought stock belongs to"),
        _PRIVATE,
    ),
)

LINE_HEAD = Head(
    name="line",
    where="lines/",
    keys=(
        _NAME,
        _TITLE,
        _key("goal", Shape.GOAL, "the look bred for, or `{look, number, by}`"),
        _key("founders", Shape.GROUPS, "the groups the line began with"),
        _key("traits", Shape.TEXT, "the name of the trait model"),
        _key("scales", Shape.SCALES, "scales for grading, worst step first"),
        _PRIVATE,
    ),
)

SETTINGS_HEAD = Head(
    name="journal",
    where="journal.yaml",
    keys=(
        _key("title", Shape.TEXT, "the name of the journal"),
        _key("keeper", Shape.TEXT, "who keeps it"),
        _key("species", Shape.TEXT, "the species, by its name in the catalogue"),
        _key("time-zone", Shape.TEXT, "the time zone of the rack"),
        _key("address", Shape.TEXT, "the address the site is published at"),
        _key("about", Shape.TEXT, "a sentence or two for the front page"),
        _key("units", Shape.TABLE, "the unit a bare number takes, by quantity"),
        _key("kits", Shape.TABLE, "test kits and pens, in the keeper's words"),
        _key("pens", Shape.TABLE, "ppm pens with their factor"),
        _key("public", Shape.TEXTS, "kinds of private events that may still count, as claims"),
    ),
    needs=("title",),
)

QUANTITY_NAMES = tuple(key.name for key in MEASURED_KEYS)
"""Quantities that have units and target ranges."""
