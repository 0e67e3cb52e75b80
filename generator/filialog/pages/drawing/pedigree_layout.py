"""Where the boxes and lines of a pedigree lie.

Inside a column lies nothing but boxes and the ways kept free for passing lines; all turns are
made in the gutters between columns. So no line can run through a box.
"""

import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from filialog.pages.drawing.letters import fitted, wrapped
from filialog.pages.drawing.pedigree_layers import columns_of, known_parents, unions_of
from filialog.pages.drawing.pedigree_node import PedigreeNode
from filialog.pages.drawing.pedigree_order import Item, Net, Web, nets_of, webs_of
from filialog.pages.drawing.pedigree_routes import Dot, Port, Segment, route_gutter
from filialog.pages.drawing.spread import spread
from filialog.pages.drawing.swatches import SWATCH_SIZE
from filialog.pages.drawing.symbols import Symbol, symbol_of

__all__ = ["LABEL_SIZE", "LINE_HEIGHT", "LOOK_INDENT", "NOTE_SIZE", "Box", "Layout", "lay_out"]

LABEL_SIZE = 12.0
NOTE_SIZE = 11.0
LINE_HEIGHT = 14.0
LOOK_INDENT = SWATCH_SIZE + 4.0
"""From the left of a swatch to the word behind it."""
_BESIDE = 20.0
"""Room beside a symbol for the dots of what goes on, or for the arrow."""
_ABOVE_SUBJECT = 168.0
"""How far below the top of a drawing its subject stands at most: a phone shows it at once."""
_MAX_TEXT = 120.0
_MIN_COLUMN = 44.0
_GRID = 8.0
"""Centres stand on this grid, so that a port moved by half of it meets no other."""
_GAP = 12.0
_MARGIN = 4.0
_LIFT = 6.0
"""How far apart from the centre the lines leave a node that is dam and sire at once."""
_NEAREST = 4
"""Columns that a phone may show beside the subject."""
_WAY_WEIGHT = 4.0
_SWEEPS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """One node: its symbol, and the text below it."""

    node: PedigreeNode
    """What is drawn."""
    symbol: Symbol
    """The symbol, centred on x and y."""
    label: tuple[str, ...]
    """The name, wrapped and shortened."""
    notes: tuple[str, ...]
    """The further lines, shortened."""
    look: str
    """The look, shortened; empty for none. It has a line of its own."""
    x: float
    """Centre of the symbol and of the text."""
    y: float
    """Centre of the symbol."""
    width: float
    """Width kept for the whole box, centred on x."""

    @property
    def text_top(self) -> float:
        """Where the text begins."""
        return self.y + self.symbol.reach_y + 2.0

    @property
    def bottom(self) -> float:
        """Where the text ends."""
        return self.text_top + LINE_HEIGHT * _rows(self.label, self.notes, self.look)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A whole pedigree drawing as geometry."""

    boxes: tuple[Box, ...]
    """All nodes, by column and from top to bottom."""
    segments: tuple[Segment, ...]
    """All lines."""
    dots: tuple[Dot, ...]
    """Where lines join; lines that only cross have no dot."""
    width: float
    """Width of the drawing."""
    height: float
    """Height of the drawing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Draft:
    """One node before it has a place."""

    node: PedigreeNode
    symbol: Symbol
    label: tuple[str, ...]
    notes: tuple[str, ...]
    look: str
    width: float

    @property
    def below(self) -> float:
        rows = _rows(self.label, self.notes, self.look)
        return self.symbol.reach_y + 2.0 + LINE_HEIGHT * rows


def _rows(label: tuple[str, ...], notes: tuple[str, ...], look: str) -> int:
    return len(label) + len(notes) + bool(look)


def _draft(node: PedigreeNode) -> _Draft:
    label = wrapped(node.label, width=_MAX_TEXT, size=LABEL_SIZE, bold=True)
    notes = tuple(wrapped(line, width=_MAX_TEXT, size=NOTE_SIZE, lines=1)[0] for line in node.lines)
    room = LOOK_INDENT if node.swatch is not None else 0.0
    look = wrapped(node.look or "", width=_MAX_TEXT - room, size=NOTE_SIZE, lines=1)[0]
    symbol = symbol_of(node)
    beside = _BESIDE if node.goes_on or node.is_subject else 0.0
    widths = [float(fitted(line, size=LABEL_SIZE, bold=True)) for line in label]
    widths += [float(fitted(line, size=NOTE_SIZE)) for line in notes]
    widths.append(fitted(look, size=NOTE_SIZE) + room if look else 0.0)
    return _Draft(
        node=node,
        symbol=symbol,
        label=label,
        notes=notes,
        look=look,
        width=max((*widths, 2.0 * (symbol.reach_x + beside), _MIN_COLUMN)),
    )


def lay_out(nodes: Sequence[PedigreeNode]) -> Layout:
    """Return the places of all nodes and lines; raise DomainError for what is no pedigree."""
    parents = known_parents(nodes)
    column = columns_of(parents)
    unions = unions_of(parents, column, kin={node.key for node in nodes if node.kin_parents})
    nets = nets_of(unions, column)
    webs = webs_of(column, nets)
    drafts = {node.key: _draft(node) for node in nodes}
    columns = [
        [item for web in webs for item in web.columns[place]]
        for place in range(len(webs[0].columns))
    ]
    level: dict[Item, float] = {}
    top = _MARGIN
    for web in webs:
        spots, top = _levels(web, drafts, top=top)
        level.update(spots)
    widths = [max(drafts[item.key].width for item in items if not item.way) for items in columns]
    lifts = _lifts(nets)
    segments: list[Segment] = []
    dots: list[Dot] = []
    boxes: list[Box] = []
    x = _MARGIN
    for place, items in enumerate(columns):
        centre = x + widths[place] / 2.0
        for item in items:
            if item.way:
                segments.append(
                    Segment(x1=x, y1=level[item], x2=x + widths[place], y2=level[item],
                            style=item.way.split()[0])
                )  # fmt: skip
                continue
            draft = drafts[item.key]
            boxes.append(
                Box(node=draft.node, symbol=draft.symbol, label=draft.label, notes=draft.notes,
                    look=draft.look,
                    x=centre, y=level[item], width=draft.width)
            )  # fmt: skip
        x += widths[place]
        if place + 1 < len(columns):
            here = [net for net in nets if net.gutter == place]
            ports = _ports(
                here,
                level=level,
                lifts=lifts,
                drafts=drafts,
                to_left=x - centre,
                to_right=widths[place + 1] / 2.0,
            )
            x, lines, joints = route_gutter(here, ports, left=x)
            segments += lines
            dots += joints
    bottoms = [box.bottom for box in boxes] + [segment.y2 for segment in segments]
    return Layout(
        boxes=tuple(boxes),
        segments=tuple(segments),
        dots=tuple(dots),
        width=x + _MARGIN,
        height=math.ceil(max(bottoms)) + _MARGIN,
    )


def _lifts(nets: Sequence[Net]) -> dict[tuple[Item, str], float]:
    """Return how far from a node's centre each side's line leaves, where it has several."""
    sides: dict[Item, set[str]] = {}
    for net in nets:
        for item, side in net.right:
            if not item.way:
                sides.setdefault(item, set()).add(side)
    lifts: dict[tuple[Item, str], float] = {}
    for item, used in sides.items():
        ranked = [side for side in ("sire", "part", "dam") if side in used]
        for index, side in enumerate(ranked):
            lifts[item, side] = _LIFT * (2 * index - len(ranked) + 1) / max(len(ranked) - 1, 1)
    return lifts


def _ports(
    nets: Sequence[Net],
    *,
    level: Mapping[Item, float],
    lifts: Mapping[tuple[Item, str], float],
    drafts: Mapping[str, _Draft],
    to_left: float,
    to_right: float,
) -> dict[tuple[Item, str], Port]:
    """Return the ports of one gutter: level, and how far outside of the gutter a line ends."""
    ports: dict[tuple[Item, str], Port] = {}
    for net in nets:
        for item in net.left:
            symbol = None if item.way else drafts[item.key].symbol
            ports[item, ""] = Port(y=level[item], symbol=symbol, distance=to_left)
        for item, side in net.right:
            symbol = None if item.way else drafts[item.key].symbol
            y = level[item] + lifts.get((item, side), 0.0)
            ports[item, side] = Port(
                y=y, symbol=symbol, distance=to_right, lift=lifts.get((item, side), 0.0)
            )
    return ports


def _levels(
    web: Web, drafts: Mapping[str, _Draft], *, top: float
) -> tuple[dict[Item, float], float]:
    """Return the level of every item, near its neighbours', and where the next web may begin."""

    def above(item: Item) -> float:
        return _GRID if item.way else drafts[item.key].symbol.reach_y

    def below(item: Item) -> float:
        return _GRID if item.way else drafts[item.key].below

    def gap(upper: Item, lower: Item) -> float:
        clear = 0.0 if upper.way and lower.way else _GAP
        return _GRID * math.ceil((below(upper) + clear + above(lower)) / _GRID)

    columns = web.columns
    gaps = [[gap(a, b) for a, b in itertools.pairwise(items)] for items in columns]
    level = _relaxed(web, gaps)
    last = [item for items in columns for item in items if not web.lefts[item]]
    if len(last) == 1:
        reach = min(spot - above(item) for item, spot in level.items())
        if level[last[0]] - reach > _ABOVE_SUBJECT:
            lows = {item: above(item) - _ABOVE_SUBJECT for item in level}
            level = _relaxed(web, gaps, lows=lows)
    snapped = {item: _GRID * math.floor(spot / _GRID + 0.5) for item, spot in level.items()}
    reach = min(spot - above(item) for item, spot in snapped.items())
    shift = _GRID * math.ceil((top - reach) / _GRID)
    bottom = max(spot + below(item) for item, spot in snapped.items())
    return {item: spot + shift for item, spot in snapped.items()}, bottom + shift + _GAP


def _relaxed(
    web: Web,
    gaps: Sequence[Sequence[float]],
    *,
    lows: Mapping[Item, float] | None = None,
) -> dict[Item, float]:
    """Return levels near the neighbours'.

    With `lows` none stands above them, the one item of the first column stands at 0, and its
    nearest ancestors as near to their young as can be, whatever lies behind them.
    """
    columns = web.columns
    level: dict[Item, float] = {}
    for items, between in zip(columns, gaps, strict=True):
        level.update(zip(items, spread([0.0] * len(items), between), strict=True))
    settled = 0
    if lows is not None:
        settled = _NEAREST
        for place in range(1, min(_NEAREST, len(columns))):
            items = columns[place]
            if not items:
                break
            wanted = [_mean(level, web.lefts[item]) for item in items]
            spots = spread(wanted, gaps[place], low=lows[items[0]])
            level.update(zip(items, spots, strict=True))
    rightward = (web.lefts, range(max(settled, 1), len(columns)))
    leftward = (web.rights, range(len(columns) - 2, settled - 1, -1))
    for near, places in (rightward, leftward) * _SWEEPS:
        for place in places:
            items = columns[place]
            if not items:
                continue
            wanted = [_mean(level, near[item]) if near[item] else level[item] for item in items]
            weights = [_WAY_WEIGHT if item.way else 1.0 for item in items]
            low = None if lows is None else lows[items[0]]
            spots = spread(wanted, gaps[place], weights=weights, low=low)
            level.update(zip(items, spots, strict=True))
    return level


def _mean(level: Mapping[Item, float], items: Sequence[Item]) -> float:
    return sum(level[item] for item in items) / len(items)
