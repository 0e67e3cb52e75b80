"""Values with an inner form: parents, parts, sortings, looks, scores, tables, goals and scales."""

from collections.abc import Callable
from typing import TypeVar

from filialog.findings.finding import Place
from filialog.findings.nearest import did_you_mean
from filialog.journal.events import LookCount, LookSeen, Other, Parents, Part, Score, Sorting
from filialog.journal.keys import Key, Shape
from filialog.journal.quantities import Count
from filialog.journal.records import Goal, Scale
from filialog.reading.counts import read_count
from filialog.reading.days import read_day
from filialog.reading.node import Kind, Node
from filialog.reading.privacy import seems_private
from filialog.reading.scalars import check_name, read_name, read_names, read_text
from filialog.reading.sheet import Sheet

__all__ = [
    "read_goal",
    "read_look",
    "read_looks",
    "read_others",
    "read_parents",
    "read_parts",
    "read_scales",
    "read_scores",
    "read_sorted_into",
    "read_table",
]

_T = TypeVar("_T")


def _key(name: str, shape: Shape, says: str) -> Key:
    return Key(name=name, shape=shape, says=says)


_COUNT = _key("count", Shape.COUNT, "how many animals")
_FEMALES = _key("females", Shape.COUNT, "how many females among them")
_MALES = _key("males", Shape.COUNT, "how many males among them")
_NOTE = _key("note", Shape.TEXT, "what they look like")
_LOOK = _key("look", Shape.LOOK, "the look of these animals")
_SIDE = _key("side", Shape.TEXT, "the look of one side")
_OF = _key("of", Shape.GROUPS, "groups of which some took part")
_GOAL_NUMBER = _key("number", Shape.COUNT, "how many animals of that look are wanted")
_GOAL_BY = _key("by", Shape.DAY, "the day they are wanted by")
_ORDER = _key("order", Shape.TEXTS, "steps from worst to best")


def _mapping(
    node: Node, key: Key, sheet: Sheet, example: str
) -> tuple[tuple[Node, Node], ...] | None:
    if node.kind is Kind.MAP:
        return node.pairs
    if node.kind is not Kind.REPORTED:
        sheet.fault(
            "R202",
            node,
            f"`{key.name}` needs a mapping",
            helps=(f"write `{key.name}: {example}`",),
        )
    return None


def _unknown(name: Node, value: Node, known: tuple[str, ...], inside: str, sheet: Sheet) -> None:
    """Report a key that an inner mapping does not take."""
    if seems_private(name.text):
        sheet.private = True
        sheet.fault(
            "R205",
            name,
            f"`{name.text}` is not read inside `{inside}`: the whole event is kept private",
            helps=("write `private: true` beside the event's other keys",),
        )
    else:
        sheet.fault(
            "R201",
            name,
            f"`{inside}` takes no `{name.text}`",
            helps=did_you_mean(name.text, known, kind="key"),
        )
    sheet.give_up(value)


def _counted(
    pairs: tuple[tuple[Node, Node], ...],
    sheet: Sheet,
    make: Callable[[str, Count], _T],
    key: Key,
) -> tuple[_T, ...]:
    made: list[_T] = []
    for name, value in pairs:
        word = check_name(name.text, name, sheet)
        if word is None:
            sheet.give_up(value)
            continue
        of_name = _key(word, Shape.COUNT, key.says)
        count = read_count(value, of_name, sheet)
        if count is not None:
            made.append(make(word, count))
    return tuple(made)


def read_parents(node: Node, key: Key, sheet: Sheet) -> Parents | None:
    """Read dams or sires."""
    if node.kind is not Kind.MAP:
        groups = read_names(node, key, sheet)
        return None if groups is None else Parents(groups=groups)
    groups, count = None, None
    asked = False
    for name, value in node.pairs:
        if name.text in {"of", "group"}:
            asked = True
            groups = read_names(value, _OF, sheet)
        elif name.text == "count":
            count = read_count(value, _COUNT, sheet)
        else:
            _unknown(name, value, ("of", "count"), key.name, sheet)
            asked = True
    if groups is None and not asked:
        sheet.fault(
            "R204",
            node,
            f"`{key.name}` does not say which group",
            helps=(f"write `{key.name}: {{of: group, count: 1-3}}`",),
        )
    return None if groups is None else Parents(groups=groups, count=count)


def read_parts(node: Node, key: Key, sheet: Sheet) -> tuple[Part, ...] | None:
    """Read the parts of a joined group."""
    if node.kind is Kind.MAP:
        return (
            _counted(node.pairs, sheet, lambda name, count: Part(group=name, count=count), key)
            or None
        )
    names = read_names(node, key, sheet)
    return None if names is None else tuple(Part(group=name, count=None) for name in names)


def read_sorted_into(node: Node, key: Key, sheet: Sheet) -> tuple[Sorting, ...] | None:
    """Read the groups that a sorting makes."""
    pairs = _mapping(node, key, sheet, "{new-group: {count: 9, look: plain}}")
    if pairs is None:
        return None
    made: list[Sorting] = []
    for name, value in pairs:
        group = check_name(name.text, name, sheet)
        if group is None:
            sheet.give_up(value)
        elif value.kind is Kind.MAP:
            made.append(_sorting(group, value, sheet))
        elif value.kind is Kind.EMPTY:
            made.append(Sorting(group=group))
        else:
            count = read_count(value, _key(group, Shape.COUNT, key.says), sheet)
            made.append(Sorting(group=group, count=count))
    return tuple(made) or None


def _sorting(group: str, node: Node, sheet: Sheet) -> Sorting:
    count = females = males = None
    look = None
    for name, value in node.pairs:
        match name.text:
            case "count":
                count = read_count(value, _COUNT, sheet)
            case "females":
                females = read_count(value, _FEMALES, sheet)
            case "males":
                males = read_count(value, _MALES, sheet)
            case "look":
                look = read_look(value, _LOOK, sheet)
            case _:
                _unknown(name, value, ("count", "look", "females", "males"), group, sheet)
    return Sorting(group=group, count=count, look=look, females=females, males=males)


def read_look(node: Node, key: Key, sheet: Sheet) -> LookSeen | None:
    """Read the look of an animal, or of its two sides."""
    if node.kind is not Kind.MAP:
        name = read_name(node, key, sheet)
        return None if name is None else LookSeen(whole=name)
    sides: dict[str, str | None] = {"left": None, "right": None}
    for name_node, value in node.pairs:
        if name_node.text in sides:
            sides[name_node.text] = read_name(value, _SIDE, sheet)
        else:
            _unknown(name_node, value, ("left", "right"), key.name, sheet)
    if sides["left"] is None and sides["right"] is None:
        if not node.pairs:
            sheet.fault(
                "R204",
                node,
                f"`{key.name}` says no look",
                helps=(f"write `{key.name}: {{left: plain, right: fancy}}`",),
            )
        return None
    return LookSeen(left=sides["left"], right=sides["right"])


def read_looks(node: Node, key: Key, sheet: Sheet) -> tuple[LookCount, ...] | None:
    """Read how many of each look."""
    pairs = _mapping(node, key, sheet, "{plain: 14, fancy: 5}")
    if pairs is None:
        return None
    return _counted(pairs, sheet, lambda name, count: LookCount(look=name, count=count), key)


def read_scores(node: Node, key: Key, sheet: Sheet) -> tuple[Score, ...] | None:
    """Read how many of each score."""
    pairs = _mapping(node, key, sheet, "{narrow: 2, wide: 3}")
    if pairs is None:
        return None
    return _counted(pairs, sheet, lambda name, count: Score(score=name, count=count), key) or None


def read_others(node: Node, key: Key, sheet: Sheet) -> tuple[Other, ...] | None:
    """Read animals that no look fits."""
    nodes = node.items if node.kind is Kind.LIST else (node,)
    made: list[Other] = []
    for item in nodes:
        pairs = _mapping(item, key, sheet, "[{count: 1, note: half and half}]")
        count, note = None, ""
        for name, value in pairs or ():
            if name.text == "count":
                count = read_count(value, _COUNT, sheet)
            elif name.text == "note":
                note = read_text(value, _NOTE, sheet) or ""
            else:
                _unknown(name, value, ("count", "note"), key.name, sheet)
        if count is not None:
            made.append(Other(count=count, note=note))
        elif pairs is not None and all(name.text != "count" for name, _ in pairs):
            sheet.fault(
                "R204",
                item,
                f"`{key.name}` does not say how many",
                helps=("write `count`, such as `{count: 1, note: half and half}`",),
            )
    return tuple(made) or None


def read_table(node: Node, key: Key, sheet: Sheet) -> tuple[tuple[str, str], ...] | None:
    """Read texts by name."""
    pairs = _mapping(node, key, sheet, "{name: text}")
    if pairs is None:
        return None
    rows: list[tuple[str, str]] = []
    for name, value in pairs:
        text = read_text(value, _key(name.text, Shape.TEXT, key.says), sheet)
        if text is not None:
            rows.append((name.text.strip(), text))
    return tuple(rows)


def read_scales(node: Node, key: Key, sheet: Sheet) -> tuple[Scale, ...] | None:
    """Read scales for grading."""
    pairs = _mapping(node, key, sheet, "{band: {order: [narrow, middle, wide]}}")
    if pairs is None:
        return None
    scales: list[Scale] = []
    for name, value in pairs:
        word = check_name(name.text, name, sheet)
        of_name = _key(name.text, Shape.SCALES, key.says)
        inner = _mapping(value, of_name, sheet, "{order: [narrow, middle, wide]}")
        steps: tuple[str, ...] | None = None
        for inner_name, inner_value in inner or ():
            if inner_name.text == "order":
                steps = read_names(inner_value, _ORDER, sheet)
            else:
                _unknown(inner_name, inner_value, ("order",), name.text, sheet)
        if word is not None and steps is not None:
            scales.append(Scale(name=word, order=steps))
        elif word is not None and inner == ():
            sheet.fault(
                "R204",
                Place(sheet.path, name.line, name.column, name.length),
                f"scale `{word}` has no `order`",
                helps=("write its steps from worst to best, `order: [narrow, wide]`",),
            )
    return tuple(scales)


def read_goal(node: Node, key: Key, sheet: Sheet) -> tuple[Goal] | None:
    """Read what a line is bred for: a look, or how many of it by when."""
    if node.kind is not Kind.MAP:
        text = read_text(node, key, sheet)
        if text == "":
            _no_look(node, key, sheet)
        return (Goal(look=text),) if text else None
    look = number = by = None
    asked = False
    for name, value in node.pairs:
        match name.text:
            case "look":
                asked = True
                look = read_text(value, _LOOK, sheet)
            case "number":
                number = _whole_number(value, sheet)
            case "by":
                by = read_day(value, _GOAL_BY, sheet)
            case _:
                _unknown(name, value, ("look", "number", "by"), key.name, sheet)
                asked = True
    if look == "" or (look is None and not asked):
        _no_look(node, key, sheet)
    return (Goal(look=look, number=number, by=by),) if look else None


def _no_look(node: Node, key: Key, sheet: Sheet) -> None:
    sheet.fault(
        "R204",
        node,
        f"`{key.name}` does not say which look",
        helps=(f"write `{key.name}: {{look: fancy, number: 40}}`",),
    )


def _whole_number(node: Node, sheet: Sheet) -> int | None:
    """Read how many are wanted: one number, for it can be reached or not."""
    count = read_count(node, _GOAL_NUMBER, sheet)
    if count is None:
        return None
    if count.exact is None or count.exact == 0:
        sheet.fault(
            "R311",
            node,
            f"`number` cannot be `{count.text}`: a goal is one number of animals, 1 or more",
            helps=("write `number: 40`",),
        )
        return None
    return count.exact
