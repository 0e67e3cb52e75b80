"""A group's ancestors: the drawing, and the same as a nested list."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from filialog.analysis.rows import AncestorRow
from filialog.journal.quantities import Count
from filialog.pages.drawing import SAMPLES, PedigreeNode, pedigree_svg, symbol_svg
from filialog.pages.drawing.pedigree_node import Sex, Side
from filialog.pages.here import Here

__all__ = ["AncestorView", "PedigreeView", "pedigree_view"]

_MOST_DRAWN = 24
"""More ancestors than this make a drawing nobody can read; the list has them all."""
_SIDES: Mapping[str, Side] = {"dam": "dam", "sire": "sire", "part": "part"}


@dataclass(frozen=True, slots=True, kw_only=True)
class AncestorView:
    """An ancestor in the nested list, with its own parents."""

    text: Markup
    parents: tuple["AncestorView", ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LegendLine:
    """A sign of the drawing, and what it means."""

    sample: Markup
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PedigreeView:
    """A pedigree, drawn and listed."""

    drawing: Markup
    label: str
    legend: tuple[LegendLine, ...]
    tree: tuple[AncestorView, ...]


def pedigree_view(here: Here, rows: Sequence[AncestorRow]) -> PedigreeView | None:
    """Return the pedigree of a group; None where nothing of its parents is recorded."""
    if len(rows) < 2:
        return None
    words, name = here.words, rows[0].group or ""
    by_key = {row.key: row for row in rows}
    drawing = pedigree_svg(
        _nodes(here, rows),
        title=words("pedigree.title", group=name),
        describe=words("pedigree.describe"),
    )
    return PedigreeView(
        drawing=drawing,
        label=words("pedigree.title", group=name),
        legend=tuple(
            LegendLine(sample=symbol_svg(sample), says=words("legend", pick=sample))
            for sample in SAMPLES
            if sample != "deceased"
        ),
        tree=(_branch(here, rows[0], by_key),),
    )


def _nodes(here: Here, rows: Sequence[AncestorRow]) -> tuple[PedigreeNode, ...]:
    """Return one node for each group, so that an ancestor on both sides is drawn once."""
    by_key = {row.key: row for row in rows}
    places: dict[str, list[AncestorRow]] = {}
    for row in sorted(rows, key=lambda row: row.depth):
        name = _node_key(row)
        if name in places or len(places) < _MOST_DRAWN:
            places.setdefault(name, []).append(row)
    nodes = []
    for name, found in places.items():
        parents: dict[tuple[str, Side], None] = {}
        for row in found:
            for key in row.children:
                above = by_key.get(key)
                if above is not None:
                    parents[_node_key(above), _SIDES[above.side]] = None
        nodes.append(_node(here, name, found, tuple(parents)))
    return tuple(nodes)


def _node_key(row: AncestorRow) -> str:
    return f"place {row.key}" if row.group is None else f"group {row.group}"


def _node(
    here: Here, key: str, found: Sequence[AncestorRow], parents: tuple[tuple[str, Side], ...]
) -> PedigreeNode:
    words, row = here.words, found[0]
    sides = dict.fromkeys(place.side for place in found if place.side in {"dam", "sire"})
    role = "dam-and-sire" if len(sides) == 2 else next(iter(sides), "")
    lines = [words("pedigree-role", pick=role)] if role else []
    lines.extend([row.generation, *([row.look] if row.look else [])])
    address = here.site.address_of(row.group, ("group",)) if row.group else None
    number = _number(here, row)
    return PedigreeNode(
        key=key,
        label=_label(here, row),
        lines=tuple(lines),
        href=None if address is None or address == here.address else here.to(address),
        sex=_sex(here, row, role, alone=number is None),
        number=number,
        parents=parents,
        is_set=row.set_size > 1,
        deceased=False,
    )


def _label(here: Here, row: AncestorRow) -> str:
    if row.group is not None:
        return row.group
    if row.set_size > 1:
        return here.words("pedigree.one-of", n=row.set_size)
    return here.words("parents.unknown")


def _sex(here: Here, row: AncestorRow, role: str, *, alone: bool) -> Sex:
    """Return the sex a shape stands for: that of an animal, or of a group of one sex only."""
    page = here.results.journal.groups.get(row.group or "")
    if page is not None and page.sex in {"female", "male"}:
        return "female" if page.sex == "female" else "male"
    if alone and role in {"dam", "sire"}:
        return "female" if role == "dam" else "male"
    if row.group is not None and here.site.address_of(row.group, ("group",)):
        found = here.results.group(row.group)
        if _some(found.females) and _none(found.males):
            return "female"
        if _some(found.males) and _none(found.females):
            return "male"
    return "unknown"


def _some(count: Count | None) -> bool:
    return count is not None and count.low > 0


def _none(count: Count | None) -> bool:
    return count is not None and count.high == 0


def _number(here: Here, row: AncestorRow) -> str | None:
    """Return the number inside the shape: none for one animal, a letter where not known."""
    if row.group is None or here.site.address_of(row.group, ("group",)) is None:
        return None
    changes = (line.change for line in here.results.group(row.group).book)
    first = next((change for change in changes if change is not None), None)
    exact = None if first is None else first.exact
    if exact == 1:
        return None
    return here.words("pedigree.many") if exact is None else str(exact)


def _branch(here: Here, row: AncestorRow, by_key: Mapping[str, AncestorRow]) -> AncestorView:
    words = here.words
    who = here.group(row.group) if row.group else escape(_label(here, row))
    more = [row.generation, *([row.look] if row.look else [])]
    if row.group is not None and row.set_size > 1:
        more.append(words("pedigree.one-of", n=row.set_size))
    text = words.rich(
        "pedigree-line", pick=row.side, group=who, more=words("list.comma").join(more)
    )
    parents = tuple(_branch(here, by_key[key], by_key) for key in row.children if key in by_key)
    return AncestorView(text=text, parents=parents)
