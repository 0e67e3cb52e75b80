"""The lines between two columns of a pedigree.

Each net has one upright line on a track of its own; level lines lead from it to the children on
the left and to the parents on the right.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from filialog.pages.drawing.pedigree_order import Item, Net
from filialog.pages.drawing.symbols import Symbol

__all__ = ["Dot", "Port", "Segment", "route_gutter"]

_TRACK = 10.0
_LEFT_MARGIN = 12.0
_RIGHT_MARGIN = 24.0
"""Wide enough to show whether the line of a parent is solid, dashed or dotted."""
_CLEAR = 12.0
"""How far apart two upright lines on one track must end."""
_NUDGES = (0.0, 4.0, -4.0, 8.0, -8.0)
_DOUBLE = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """One straight line, level or upright."""

    x1: float
    y1: float
    x2: float
    y2: float
    style: str
    """`dam`, `sire`, `part` or `descent`; `related` for each of the two lines of kin mates."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dot:
    """Where lines join."""

    x: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Port:
    """Where a net's line ends."""

    y: float
    """The level of the line."""
    symbol: Symbol | None
    """The symbol that it meets; None where it goes on through the column."""
    distance: float
    """From the gutter's edge to the centre of the column."""
    lift: float = 0.0
    """The level of the line below the symbol's centre."""


@dataclass(slots=True)
class _Wire:
    """A net with its levels, while tracks are given out."""

    net: Net
    lefts: list[float]
    rights: list[float]
    straight: bool
    track: int = 0

    @property
    def low(self) -> float:
        return min(self.lefts + self.rights)

    @property
    def high(self) -> float:
        return max(self.lefts + self.rights)

    def crossed_by(self, levels: Sequence[float]) -> int:
        return 0 if self.straight else sum(self.low < y < self.high for y in levels)


def route_gutter(
    nets: Sequence[Net], ports: Mapping[tuple[Item, str], Port], *, left: float
) -> tuple[float, list[Segment], list[Dot]]:
    """Return where the next column begins, and the lines and joints of one gutter."""
    uses: dict[tuple[Item, str], int] = {}
    for net in nets:
        for port in net.right:
            uses[port] = uses.get(port, 0) + 1
    wires = []
    for net in nets:
        lefts = [ports[item, ""].y for item in net.left]
        rights = [ports[port].y for port in net.right]
        alone = len(lefts) == 1 and lefts == rights and uses[net.right[0]] == 1
        wires.append(_Wire(net=net, lefts=lefts, rights=rights, straight=alone))
    _give_tracks(wires)
    _nudge(wires)
    tracks = 1 + max((wire.track for wire in wires if not wire.straight), default=0)
    right = left + _LEFT_MARGIN + (tracks - 1) * _TRACK + _RIGHT_MARGIN
    segments: list[Segment] = []
    dots: list[Dot] = []
    reach: dict[tuple[Item, str], float] = {}
    for wire in wires:
        x = left if wire.straight else left + _LEFT_MARGIN + wire.track * _TRACK
        for port in wire.net.right:
            reach[port] = min(reach.get(port, x), x)
    for wire in wires:
        x = left + _LEFT_MARGIN + wire.track * _TRACK
        for item, y in zip(wire.net.left, wire.lefts, strict=True):
            segments += _left_stub(ports[item, ""], wire, y=y, left=left, x=x)
        if not wire.straight:
            segments += _upright(wire, x)
            goes_on = {ports[port].y for port in wire.net.right if reach[port] < x}
            dots += _joints(wire, x, goes_on)
    for port, x in reach.items():
        end = ports[port]
        meets = right if end.symbol is None else (
            right + end.distance - end.symbol.edge_x(end.lift))  # fmt: skip
        segments.append(Segment(x1=x, y1=end.y, x2=meets, y2=end.y, style=port[1]))
    return right, segments, dots


def _give_tracks(wires: list[_Wire]) -> None:
    """Order upright lines so that few level lines cross them, then pack them from the left.

    One after the other is put in where it costs least; of equal places the rightmost is taken.
    """
    bent: list[_Wire] = []
    for wire in sorted((one for one in wires if not one.straight), key=lambda one: one.low):
        cost, least, to = 0, 0, len(bent)
        for index in range(len(bent) - 1, -1, -1):
            cost += _crossed(wire, bent[index]) - _crossed(bent[index], wire)
            if cost < least:
                least, to = cost, index
        bent.insert(to, wire)
    for index, wire in enumerate(bent):
        near = [
            other.track
            for other in bent[:index]
            if other.low < wire.high + _CLEAR and wire.low < other.high + _CLEAR
        ]
        wire.track = 1 + max(near, default=-1)


def _crossed(left: _Wire, right: _Wire) -> int:
    """Return how many crossings two upright lines have with each other's level lines."""
    if left.high < right.low or right.high < left.low:
        return 0
    return right.crossed_by(left.rights) + left.crossed_by(right.lefts)


def _nudge(wires: Sequence[_Wire]) -> None:
    """Move a child's line a little where it would lie on the line of another child's parent."""
    for wire in wires:
        if wire.straight:
            continue
        foreign = [
            level
            for other in wires
            if other is not wire
            for level in other.rights
            if other.track <= wire.track or other.straight or level in wire.rights
        ]
        wire.lefts = [
            next((y + by for by in _NUDGES if all(abs(y + by - f) >= 2 for f in foreign)), y)
            for y in wire.lefts
        ]


def _left_stub(port: Port, wire: _Wire, *, y: float, left: float, x: float) -> list[Segment]:
    net = wire.net
    style = "descent"
    if net.union is None or net.union.is_part:
        style = net.right[0][1]
    if wire.straight and net.union is not None:
        style = net.right[0][1]
    end = left if wire.straight else x
    if port.symbol is None:
        if wire.straight:
            return []
        stub = [Segment(x1=left, y1=y, x2=x, y2=y, style=style)]
        if y != port.y:
            stub.append(Segment(x1=left, y1=port.y, x2=left, y2=y, style=style))
        return stub
    meets = left - port.distance + port.symbol.edge_x(y - port.y)
    return [Segment(x1=meets, y1=y, x2=end, y2=y, style=style)]


def _upright(wire: _Wire, x: float) -> list[Segment]:
    union = wire.net.union
    style = "descent"
    if union is None or union.is_part:
        style = wire.net.right[0][1]
    if union is None or not union.related:
        return [Segment(x1=x, y1=wire.low, x2=x, y2=wire.high, style=style)]
    top, end = min(wire.rights), max(wire.rights)
    lines = [
        Segment(x1=x + by, y1=top, x2=x + by, y2=end, style="related") for by in (-_DOUBLE, _DOUBLE)
    ]
    for low, high in ((wire.low, top), (end, wire.high)):
        if low < high:
            lines.append(Segment(x1=x, y1=low, x2=x, y2=high, style=style))
    return lines


def _joints(wire: _Wire, x: float, goes_on: set[float]) -> list[Dot]:
    dots = []
    for y in sorted({*wire.lefts, *wire.rights}):
        arms = (
            (y > wire.low)
            + (y < wire.high)
            + (y in wire.lefts or y in goes_on)
            + (y in wire.rights)
        )
        if arms >= 3:
            dots.append(Dot(x=x, y=y))
    return dots
