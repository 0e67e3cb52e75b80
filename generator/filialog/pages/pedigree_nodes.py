"""From a group and its ancestors to the nodes of a drawing."""

from collections.abc import Mapping

from filialog.analysis.pedigree_graph import KinRow
from filialog.journal.quantities import Count
from filialog.lineage import GenerationKind
from filialog.messages import either_text, list_text, short_when_text
from filialog.pages.drawing import PedigreeNode, Sex, Side
from filialog.pages.here import Here
from filialog.pages.parts import look_text
from filialog.pages.pedigree_walk import Walk

__all__ = ["death_of", "look_of_kin", "number_of_kin", "pedigree_nodes"]

_Parent = tuple[str, Side]


def pedigree_nodes(here: Here, walk: Walk) -> tuple[PedigreeNode, ...]:
    """Return one node for each group, for each set of parents, and for each unknown parent."""
    roles = _roles(walk)
    nodes: dict[str, PedigreeNode] = {}
    for row in walk.rows:
        parents: list[_Parent] = []
        if row.group not in walk.cut:
            parents += [(_key(source), "part") for source in row.sources]
            if row.dams or row.sires:
                parents.append(_parent(here, row, "dam", nodes))
                parents.append(_parent(here, row, "sire", nodes))
        node = _node(
            here,
            row,
            role=roles.get(row.group, ""),
            parents=tuple(parents),
            is_subject=row is walk.rows[0],
            goes_on=row.group in walk.cut,
        )
        nodes[node.key] = node
    return tuple(nodes.values())


def _key(group: str) -> str:
    return f"group {group}"


def _roles(walk: Walk) -> Mapping[str, str]:
    """Say of each group whether it stands in the drawing as dam, as sire, or as both."""
    found: dict[str, str] = {}
    for row in walk.rows:
        if row.group in walk.cut:
            continue
        for role, groups in (("dam", row.dams), ("sire", row.sires)):
            for group in groups:
                found[group] = role if found.get(group, role) == role else "dam-and-sire"
    return found


def _parent(here: Here, row: KinRow, side: Side, nodes: dict[str, PedigreeNode]) -> _Parent:
    """Return the node that stands for a parent; one for a set or an unknown one is made."""
    groups = row.dams if side == "dam" else row.sires
    if len(groups) == 1:
        return _key(groups[0]), side
    sex: Sex = "female" if side == "dam" else "male"
    words, role = here.words, here.words("pedigree-role", pick=side)
    if groups:
        key = f"set {side} {', '.join(sorted(groups))}"
        nodes[key] = PedigreeNode(
            key=key,
            label=words("pedigree.one-of", n=len(groups)),
            sex=sex,
            is_set=True,
            parents=tuple((_key(group), "part") for group in groups),
            told=(role, list_text(words, groups)),
        )
    else:
        key = f"unknown {side} {row.group}"
        nodes[key] = PedigreeNode(
            key=key, label=words("pedigree.unknown"), sex=sex, told=(role,)
        )  # fmt: skip
    return key, side


def _node(
    here: Here,
    row: KinRow,
    *,
    role: str,
    parents: tuple[_Parent, ...],
    is_subject: bool,
    goes_on: bool,
) -> PedigreeNode:
    words, name = here.words, row.group
    address = here.site.address_of(name, ("group",))
    number = number_of_kin(here, name)
    look = look_of_kin(here, name)
    died = death_of(here, name)
    told = [words("pedigree-role", pick=role)] if role else []
    if died:
        told.append(words("pedigree.died", day=died))
    if goes_on:
        told.append(words("pedigree.goes-on"))
    href = None
    if address is not None and address != here.address:
        href = here.to(f"{address}#pedigree" if goes_on else address)
    return PedigreeNode(
        key=_key(name),
        label=name,
        lines=(_code(here, name),) if address is not None else (),
        href=href,
        sex=_sex(here, name, role, alone=number is None),
        number=number,
        parents=parents,
        deceased=bool(died),
        kin_parents=row.kin_parents,
        look=look,
        swatch=here.site.swatches.get(look) if look is not None else None,
        goes_on=goes_on,
        is_subject=is_subject,
        told=tuple(told),
    )


def look_of_kin(here: Here, group: str) -> str | None:
    """Return the look a group is recorded as; None where none is."""
    if here.site.address_of(group, ("group",)) is None:
        return None
    look = here.results.group(group).look
    return look_text(here.words, look) if look is not None else None


def _sex(here: Here, group: str, role: str, *, alone: bool) -> Sex:
    """Return the sex a shape stands for: that of an animal, or of a group of one sex only."""
    page = here.results.journal.groups.get(group)
    if page is not None and page.sex in {"female", "male"}:
        return "female" if page.sex == "female" else "male"
    if alone and role in {"dam", "sire"}:
        return "female" if role == "dam" else "male"
    if here.site.address_of(group, ("group",)) is not None:
        found = here.results.group(group)
        if _some(found.females) and _none(found.males):
            return "female"
        if _some(found.males) and _none(found.females):
            return "male"
    return "unknown"


def _some(count: Count | None) -> bool:
    return count is not None and count.low > 0


def _none(count: Count | None) -> bool:
    return count is not None and count.high == 0


def number_of_kin(here: Here, group: str) -> str | None:
    """Return how many they were at first: None for one animal, a letter where not known."""
    if here.site.address_of(group, ("group",)) is None:
        return None
    changes = (line.change for line in here.results.group(group).book)
    first = next((change for change in changes if change is not None), None)
    exact = None if first is None else first.exact
    if exact == 1:
        return None
    return here.words("pedigree.many") if exact is None else str(exact)


def death_of(here: Here, group: str) -> str | None:
    """Return the day the last of a group died; None where that is not what became of all of it.

    Animals that were sold, went to another group or are missing are not known to be dead.
    """
    if here.site.address_of(group, ("group",)) is None:
        return None
    book = here.results.group(group).book
    if not book or book[-1].after.high != 0:
        return None
    losses = [
        line
        for line in book
        if not line.gained
        and (line.change is not None or line.unaccounted is not None)
        and not (line.to_tank is not None and line.other_group is None)
    ]
    if not losses or any(
        line.kind_name != "died" or line.unaccounted is not None or here.event(line.event) is None
        for line in losses
    ):
        return None
    return short_when_text(here.words, losses[-1].when)


def _code(here: Here, name: str) -> str:
    """Return the short label of a generation: a drawing has no room for words."""
    found = here.results.group(name).generation
    if found.kind is GenerationKind.ALTERNATIVES:
        codes = dict.fromkeys(label.code for label in found.alternatives)
        return either_text(here.words, tuple(codes))
    return found.code
