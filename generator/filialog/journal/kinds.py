"""Every kind of event a diary can record: the one table from which all else derives.

The reader converts by it, the ledger books by it, the handbook and the schema are printed
from it. To add a kind, add a row here, and say in the handbook when to use it.
"""

from dataclasses import dataclass
from enum import Enum, auto

from filialog.journal.keys import Key, Shape

__all__ = ["COMMON_KEYS", "EVENT_KINDS", "KIND_BY_NAME", "MEASURED_KEYS", "Books", "EventKind"]


class Books(Enum):
    """What an event does to the ledger of animals."""

    APPEARS = auto()
    """Animals enter the book."""
    LEAVES = auto()
    """Animals leave the book for good."""
    MOVES = auto()
    """Animals change tank, group or both."""
    SORTS = auto()
    """Animals of a group become groups of their own, in the same tank."""
    JOINS = auto()
    """Groups, or parts of them, become one."""
    COUNTS = auto()
    """Animals were counted; the book is compared."""
    CLOSES = auto()
    """A tank is taken down."""
    NOTHING = auto()
    """No animal enters, leaves or moves."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EventKind:
    """One kind of event."""

    name: str
    """The key in front matter."""
    says: str
    """What it records, one sentence for the handbook."""
    books: Books = Books.NOTHING
    """What it does to the ledger."""
    own: tuple[Key, ...] = ()
    """Keys beyond the common ones."""
    needs: tuple[tuple[str, ...], ...] = ()
    """Sets of keys of which at least one must be there."""
    bare: str | None = None
    """The key that a bare value fills (`died: 1` is `died: {count: 1}`)."""
    private: bool = False
    """True where the whole event never enters the public edition."""
    example: str = ""
    """A short YAML example that a test reads."""


def _key(
    name: str,
    shape: Shape,
    says: str,
    *,
    choices: tuple[str, ...] = (),
    always_private: bool = False,
) -> Key:
    return Key(name=name, shape=shape, says=says, choices=choices, always_private=always_private)


COMMON_KEYS = (
    _key("tank", Shape.TANK, "the tank, where it is not that of the entry"),
    _key("group", Shape.GROUP, "the group of animals concerned"),
    _key("of", Shape.GROUPS, "one of these groups, or some of each: not known which"),
    _key("count", Shape.COUNT, "how many animals"),
    _key("females", Shape.COUNT, "how many females among them"),
    _key("males", Shape.COUNT, "how many males among them"),
    _key("young", Shape.COUNT, "how many young among them"),
    _key("at", Shape.CLOCK, "time of day, in the journal's time zone"),
    _key("when", Shape.DAY, "the day, where it is not that of the entry: some day within"),
    _key("since", Shape.DAY, "first day of something that lasts"),
    _key("until", Shape.DAY, "last day of something that lasts"),
    _key("note", Shape.TEXT, "a remark"),
    _key("photo", Shape.TEXTS, "pictures that show it, as paths in the journal"),
    _key("private", Shape.FLAG, "true keeps it out of the public edition"),
)
"""Keys that every event may carry."""

MEASURED_KEYS = (
    _key("ph", Shape.READING, "pH"),
    _key("gh", Shape.READING, "general hardness"),
    _key("kh", Shape.READING, "carbonate hardness"),
    _key("ec", Shape.READING, "electrical conductivity"),
    _key("tds", Shape.READING, "dissolved solids as a pen shows them; its factor is declared"),
    _key("temperature", Shape.READING, "water temperature"),
    _key("nh3", Shape.READING, "un-ionised ammonia"),
    _key("nh4", Shape.READING, "ammonium"),
    _key("tan", Shape.READING, "total ammonia nitrogen"),
    _key("no2", Shape.READING, "nitrite"),
    _key("no3", Shape.READING, "nitrate"),
    _key("o2", Shape.READING, "dissolved oxygen"),
    _key("cu", Shape.READING, "copper"),
)
"""Water readings, in the order pages show them."""

_CAUSE = _key("cause", Shape.TEXT, "what they died of, as far as known")
_WHY = _key("why", Shape.TEXT, "the keeper's reason")
_LOOK = _key("look", Shape.LOOK, "the look of these animals")
_GENOTYPE = _key("genotype", Shape.GENOTYPE, "the genotype the keeper takes them to have")
_SOURCE = _key("source", Shape.TEXT, "where they came from")
_PRICE = _key("price", Shape.TEXT, "what was paid", always_private=True)
_BUYER = _key("buyer", Shape.TEXT, "who takes them", always_private=True)
_ITEM = _key("item", Shape.TEXT, "the named piece of equipment")
_WHAT = _key("what", Shape.TEXT, "what it is")
_LOT = _key("lot", Shape.TEXT, "the name of the lot")
_CROSS = _key("cross", Shape.TEXT, "a name for the cross; the same name is the same cross")
_DAMS = _key("dams", Shape.PARENTS, "the dams: a group, several, or some of a group")
_SIRES = _key("sires", Shape.PARENTS, "the sires: a group, several, or some of a group")
_FROM_GROUP = _key("from", Shape.GROUP, "the group they are taken from")
_BROOD = _key("brood", Shape.GROUP, "the brood")
_ON_ITS_WAY = (
    _LOT,
    _key("sale", Shape.TEXT, "the name of the sale"),
    _BUYER,
    _PRICE,
    _key("dead", Shape.COUNT, "how many arrived dead"),
    _key("replaced", Shape.COUNT, "how many were replaced"),
)

EVENT_KINDS = (
    EventKind(
        name="present",
        says="opening stock: animals that are here when the journal begins",
        books=Books.APPEARS,
        own=(
            _key("came", Shape.DAY, "when they came, as far as known"),
            _SOURCE,
            _key("colony", Shape.FLAG, "true where they breed unrecorded"),
            _LOOK,
            _GENOTYPE,
        ),
        bare="count",
        example="present: {group: colony, count: ~40, colony: true}",
    ),
    EventKind(
        name="bought",
        says="new animals from outside",
        books=Books.APPEARS,
        own=(
            _SOURCE,
            _key("label", Shape.TEXT, "the seller's own words, quoted"),
            _key("statement", Shape.TEXT, "the signed statement that came with them"),
            _LOOK,
            _GENOTYPE,
            _PRICE,
        ),
        bare="count",
        example='bought: {group: plain-stock, count: 10, source: a club member, label: "F2"}',
    ),
    EventKind(
        name="paired",
        says="dams and sires put together",
        own=(_DAMS, _SIRES, _CROSS),
        needs=(("dams", "sires", "of", "group"),),
        example="paired: {dams: plain-stock, sires: fancy-stock, cross: first-cross}",
    ),
    EventKind(
        name="berried",
        says="a berried female was seen",
        own=(_key("animal", Shape.GROUP, "the female, where she has a name"),),
        bare="count",
        example="berried: {group: plain-stock, count: 1}",
    ),
    EventKind(
        name="hatched",
        says="young seen for the first time: a brood, or one cloud of several broods",
        books=Books.APPEARS,
        own=(
            _key("brood", Shape.NEW_GROUP, "the name of the brood"),
            _CROSS,
            _DAMS,
            _SIRES,
            _key(
                "mating",
                Shape.CHOICE,
                "how many sires the brood can have",
                choices=("one", "several", "unknown"),
            ),
        ),
        bare="brood",
        example="hatched: {brood: first-brood, cross: first-cross, count: ~25}",
    ),
    EventKind(
        name="counted",
        says="a tally of a brood, a group or the young of a tank, by look where looks are known",
        books=Books.COUNTS,
        own=(
            _BROOD,
            _key("all-young", Shape.FLAG, "true for all young of the tank together"),
            _key(
                "how",
                Shape.CHOICE,
                "how they were counted; only `emptied` is a total",
                choices=("looked", "netted", "photo", "emptied"),
            ),
            _key("all", Shape.FLAG, "true where all were counted although nothing was emptied"),
            _key("age", Shape.AGE, "their age at the count"),
            _key("looks", Shape.LOOKS, "how many of each look; a look left out was seen 0 times"),
            _key("other", Shape.OTHERS, "animals that no declared look fits"),
            _key("unsorted", Shape.COUNT, "animals counted but not put to a look"),
            _key("use", Shape.FLAG, "false keeps the tally out of the tables"),
        ),
        bare="count",
        example=(
            "counted: {brood: first-brood, how: netted, age: 45 d,"
            " looks: {plain: 14, fancy: 5}, unsorted: 2}"
        ),
    ),
    EventKind(
        name="sorted",
        says="part of a group becomes a group of its own by look or sex",
        books=Books.SORTS,
        own=(
            _FROM_GROUP,
            _key("into", Shape.SORTED_INTO, "the new groups, each with count and look or sex"),
        ),
        needs=(("from", "group"), ("into",)),
        example="sorted: {from: first-brood, into: {fancy-young: {count: 5, look: fancy}}}",
    ),
    EventKind(
        name="sexed",
        says="what turned out to be which, later",
        own=(),
        example="sexed: {group: fancy-young, females: 3, males: 2}",
    ),
    EventKind(
        name="chosen",
        says="picked for breeding among several; says nothing about genotypes",
        books=Books.SORTS,
        own=(
            _FROM_GROUP,
            _key("into", Shape.NEW_GROUP, "the group they form from now on"),
            _key("out-of", Shape.COUNT, "how many there were to choose from"),
            _key("for", Shape.TABLE, "what they were chosen for: `{scale: value}`"),
        ),
        needs=(("from", "group"), ("into",)),
        example="chosen: {from: fancy-young, into: fancy-best, count: 2, out-of: 5}",
    ),
    EventKind(
        name="moved",
        says="animals netted from one place to another; without a look they are taken blind to it",
        books=Books.MOVES,
        own=(
            _key("from", Shape.PLACE, "the tank or group they are taken from"),
            _key("to", Shape.PLACE, "the tank they go to"),
            _key("as", Shape.NEW_GROUP, "the new group they form from now on"),
            _LOOK,
            _key("berried", Shape.FLAG, "true where a berried female moved"),
        ),
        needs=(("to", "as"),),
        example="moved: {group: fancy-young, to: spare-tank}",
    ),
    EventKind(
        name="joined",
        says="groups, or parts of them, become one",
        books=Books.JOINS,
        own=(
            _key("parts", Shape.PARTS, "what is joined: groups, or `{group: count}`"),
            _key("into", Shape.NEW_GROUP, "the group they form from now on"),
        ),
        needs=(("parts", "of"), ("into",)),
        example="joined: {parts: {fancy-young: some, fancy-best: 2}, into: fancy-line}",
    ),
    EventKind(
        name="graded",
        says="scores on a scale that a line declares",
        own=(
            _key("scale", Shape.TEXT, "the scale"),
            _key("values", Shape.SCORES, "how many of each score"),
            _key("background", Shape.TEXT, "what they were judged against"),
            _key("by", Shape.TEXT, "who judged"),
        ),
        needs=(("scale",), ("values",)),
        example="graded: {group: fancy-young, scale: band, values: {narrow: 2, wide: 3}}",
    ),
    EventKind(
        name="died",
        says="animals found dead",
        books=Books.LEAVES,
        own=(_CAUSE, _WHY, _LOOK),
        bare="count",
        example="died: {count: 1, cause: failed moult}",
    ),
    EventKind(
        name="culled",
        says="animals taken out of life by choice",
        books=Books.LEAVES,
        own=(_CAUSE, _WHY, _LOOK),
        bare="count",
        example="culled: {group: first-brood, count: 1, why: bent back}",
    ),
    EventKind(
        name="withdrawn",
        says="animals that live on but are not bred from any more",
        own=(_CAUSE, _WHY),
        bare="count",
        example="withdrawn: {group: fancy-best, count: 1, why: age}",
    ),
    EventKind(
        name="strayed",
        says="an escape, a shared net, an unknown animal: taints later claims until cleared",
        own=(
            _key("from", Shape.TANK, "the tank it came from, as far as known"),
            _key("to", Shape.TANK, "the tank it got into"),
            _key("cleared", Shape.FLAG, "true where the matter is settled"),
        ),
        bare="note",
        example="strayed: {from: first-tank, to: spare-tank, note: wet net used in both}",
    ),
    EventKind(
        name="offered",
        says="a lot is on offer",
        own=_ON_ITS_WAY,
        example="offered: {lot: young-1, group: fancy-young, count: 4}",
    ),
    EventKind(
        name="reserved",
        says="a lot, or part of it, is promised",
        own=_ON_ITS_WAY,
        example="reserved: {lot: young-1, count: 2}",
    ),
    EventKind(
        name="sold",
        says="animals sold",
        books=Books.LEAVES,
        own=_ON_ITS_WAY,
        bare="count",
        example="sold: {group: fancy-young, count: 2, lot: young-1, buyer: a neighbour}",
    ),
    EventKind(
        name="given",
        says="animals given away",
        books=Books.LEAVES,
        own=_ON_ITS_WAY,
        bare="count",
        example="given: {group: first-brood, count: 6, note: to the school}",
    ),
    EventKind(
        name="arrived",
        says="a lot reached its buyer",
        own=_ON_ITS_WAY,
        example="arrived: {lot: young-1, dead: 0}",
    ),
    EventKind(
        name="measured",
        says="water readings",
        own=(
            *MEASURED_KEYS,
            _key("kit", Shape.TEXT, "the kit or pen, as declared in journal.yaml"),
            _key("before", Shape.CHOICE, "taken before a water change", choices=("change",)),
        ),
        needs=(tuple(key.name for key in MEASURED_KEYS),),
        example="measured: {ph: 6.4, gh: 6, ec: 240 µS/cm, temperature: 23.5}",
    ),
    EventKind(
        name="changed",
        says="a water change",
        own=(
            _key("litres", Shape.NUMBER, "litres changed"),
            _key("percent", Shape.NUMBER, "per cent of the volume changed"),
            *MEASURED_KEYS,
        ),
        bare="litres",
        example="changed: {percent: 20, ec: 180 µS/cm}",
    ),
    EventKind(
        name="soil",
        says="soil in a tank or a filter box",
        own=(
            _key("new", Shape.FLAG, "true where the whole layer is new"),
            _key("part", Shape.FLAG, "true where a part was replaced"),
            _key("top-up", Shape.FLAG, "true where some was added"),
            _WHAT,
            _key("depth", Shape.AMOUNT, "depth of the layer"),
            _ITEM,
        ),
        bare="what",
        example="soil: {new: true, what: baked clay, depth: 4 cm}",
    ),
    EventKind(
        name="fitted",
        says="equipment fitted; items have names and a history",
        own=(
            _ITEM,
            _WHAT,
            _key("watts", Shape.NUMBER, "power in watts"),
            _key("timer", Shape.TEXT, "hours it runs"),
        ),
        bare="what",
        example="fitted: {item: heater-2, what: heater, watts: 25}",
    ),
    EventKind(
        name="planted",
        says="plants put in",
        own=(_ITEM, _WHAT),
        bare="what",
        example="planted: {what: java moss}",
    ),
    EventKind(
        name="cycle",
        says="maturing of a tank or an item",
        own=(_ITEM, _key("state", Shape.CHOICE, "how far it is", choices=("begun", "ready"))),
        bare="state",
        example="cycle: {state: begun}",
    ),
    EventKind(
        name="fed",
        says="food given",
        own=(
            _key("food", Shape.TEXT, "what"),
            _key("amount", Shape.AMOUNT, "how much, free words allowed"),
            _key("by", Shape.TEXT, "who fed"),
        ),
        bare="amount",
        example="fed: {food: leaf powder, amount: a pinch}",
    ),
    EventKind(
        name="dosed",
        says="an additive given",
        own=(_WHAT, _key("amount", Shape.AMOUNT, "how much")),
        bare="what",
        example="dosed: {what: mineral salt, amount: 2 g}",
    ),
    EventKind(
        name="treated",
        says="a treatment, with the time before animals may be sold again",
        own=(
            _WHAT,
            _key("amount", Shape.AMOUNT, "how much"),
            _key("by", Shape.TEXT, "who treated"),
            _key("withdraw", Shape.AGE, "time from the last dose before animals may be sold"),
        ),
        bare="what",
        example="treated: {what: salt dip, withdraw: 14 d}",
    ),
    EventKind(
        name="sick",
        says="signs of illness",
        own=(_key("signs", Shape.TEXT, "what is seen"),),
        bare="signs",
        example="sick: {group: fancy-best, count: 1, signs: milky tail}",
    ),
    EventKind(
        name="quarantine",
        says="animals kept apart",
        own=(_WHY,),
        example="quarantine: {group: plain-stock, since: 2026-02-01, until: 2026-02-22}",
    ),
    EventKind(
        name="seen",
        says="a remark that carries weight",
        own=(
            _key(
                "what",
                Shape.CHOICES,
                "what was seen",
                choices=("saddled", "not-berried", "eggs-dropped", "moult", "mating"),
            ),
        ),
        needs=(("what", "note"),),
        bare="what",
        example="seen: {what: saddled, group: plain-stock}",
    ),
    EventKind(
        name="away",
        says="the keeper's absence",
        own=(
            _key("sitter", Shape.TEXT, "who looks after the rack"),
            _key("phone", Shape.TEXT, "how to reach whom"),
        ),
        private=True,
        example="away: {since: 2026-07-01, until: 2026-07-08, sitter: a neighbour}",
    ),
    EventKind(
        name="closed",
        says="a tank is taken down",
        books=Books.CLOSES,
        own=(_key("left", Shape.TABLE, "what was left in it: `{young: some}`"),),
        bare="note",
        example="closed: {left: {young: some}}",
    ),
)
"""All kinds, in the order the handbook explains them."""

KIND_BY_NAME = {kind.name: kind for kind in EVENT_KINDS}
"""The same, by the key that stands in front matter."""
