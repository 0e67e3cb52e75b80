"""Seeded pedigrees as breeders have them, as nodes of a drawing."""

import random
from dataclasses import replace

from filialog.pages.drawing import PedigreeNode, Side, swatches

__all__ = ["breeding_nodes"]

_FOUNDERS = 6
_PER_SEASON = 9
_LOOKS = ("dusk blue", "pale", "rust", "barred", "half-moon")


def breeding_nodes(size: int, *, seed: int) -> tuple[PedigreeNode, ...]:
    """Return `size` nodes: the last brood of a stock of several lines, and its nearest ancestors.

    Each season hatches broods of parents of the last seasons, mostly of one line, now and then
    from another; some are sorted into parts, some have a set for a parent. Sets and parts count
    as nodes. The page's own group is the first.
    """
    chance = random.Random(seed)
    nodes: dict[str, PedigreeNode] = {}
    lines = [f"{colour}" for colour in ("amber", "slate", "moss", "rust", "chalk", "dusk")]
    seasons: list[list[str]] = [[]]
    for line in lines[: _FOUNDERS if size > 20 else 3]:
        name = f"{line}-0"
        nodes[name] = PedigreeNode(
            key=name, label=name, sex="unknown", number=str(chance.randint(5, 30)), lines=("P",),
            href=f"{name}.html", look=chance.choice(_LOOKS),
        )  # fmt: skip
        seasons[0].append(name)
    while len(_nearest(nodes, seasons[-1][0], size)) < size:
        season: list[str] = []
        for number in range(_PER_SEASON):
            season += _brood(nodes, seasons, chance, f"{len(seasons)}{'abcdefghi'[number]}")
        seasons.append(season)
    chosen = _nearest(nodes, seasons[-1][0], size)
    marks = swatches(node.look for node in nodes.values() if node.look is not None)
    return tuple(
        replace(
            node,
            swatch=marks.get(node.look or ""),
            is_subject=key == chosen[0],
            goes_on=bool(node.parents) and not any(up in chosen for up, _ in node.parents),
        )
        for key, node in ((key, nodes[key]) for key in chosen)
    )


def _brood(
    nodes: dict[str, PedigreeNode], seasons: list[list[str]], chance: random.Random, mark: str
) -> list[str]:
    recent = [name for season in seasons[-2:] for name in season]
    first = chance.choice(recent)
    line = first.split("-")[0]
    kin = [name for name in recent if name.startswith(f"{line}-")]
    others = recent if chance.random() < 0.2 else kin
    name = f"{line}-{mark}"
    parents: list[tuple[str, Side]] = [(first, "dam")]
    if chance.random() < 0.15 and len(others) > 2:
        members = sorted(chance.sample(others, 2))
        key = "set " + " ".join(members)
        nodes[key] = PedigreeNode(
            key=key, label="one of 2", sex="male", is_set=True,
            parents=tuple((member, "part") for member in members),
        )  # fmt: skip
        parents.append((key, "sire"))
    else:
        parents.append((chance.choice(others), "sire"))
    nodes[name] = PedigreeNode(
        key=name, label=name, number=str(chance.randint(8, 60)), lines=(f"F{len(seasons)}",),
        parents=tuple(parents), href=f"{name}.html", kin_parents=chance.random() < 0.3,
        look=chance.choice((*_LOOKS, None)),
    )  # fmt: skip
    if chance.random() > 0.4:
        return [name]
    part = f"{name}x"
    alone = chance.random() < 0.5
    nodes[part] = PedigreeNode(
        key=part, label=part, sex=chance.choice(("female", "male")),
        number=None if alone else str(chance.randint(2, 8)), lines=(f"F{len(seasons)}",),
        parents=((name, "part"),), deceased=alone and chance.random() < 0.5, href=f"{part}.html",
        look=chance.choice(_LOOKS),
    )  # fmt: skip
    return [name, part]


def _nearest(nodes: dict[str, PedigreeNode], start: str, size: int) -> list[str]:
    found = [start]
    for key in found:
        found += [up for up in dict.fromkeys(up for up, _ in nodes[key].parents) if up not in found]
    return found[:size]
