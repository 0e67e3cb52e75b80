"""Species of the shipped catalogue: the facts that computations lean on, with their sources."""

from collections.abc import Iterable, Mapping
from pathlib import PurePosixPath

from filialog.journal.records import Species
from filialog.reading.node import Kind, Node
from filialog.reading.sheet import Sheet
from filialog.reading.yaml_nodes import read_nodes

__all__ = ["find_species", "read_species_file"]


def read_species_file(sheet: Sheet) -> tuple[Species, tuple[str, ...]] | None:
    """Return a species and the other names it goes by; None where the file is not whole."""
    root = read_nodes(sheet, sheet.text)
    if root is None:
        return None
    tree = _tree(root)
    try:
        name = str(tree["name"])
        maturity = _block(tree, "earliest-maturity")
        incubation = _block(tree, "incubation")
        brood = _block(tree, "brood-size", unit="young") if "brood-size" in tree else None
        species = Species(
            identifier=PurePosixPath(sheet.path).stem,
            name=name,
            earliest_maturity_days=int(maturity["value"]),
            incubation_low_days=int(incubation["low"]),
            incubation_high_days=int(incubation["high"]),
            brood_low=int(brood["low"]) if brood is not None else None,
            brood_high=int(brood["high"]) if brood is not None else None,
            brood_source=_source(brood) if brood is not None else "",
            sources=tuple(
                (key, _source(block))
                for key, block in (
                    ("earliest-maturity", maturity),
                    ("incubation", incubation),
                )
            ),
        )
    except (KeyError, TypeError, ValueError) as error:
        sheet.fault("R506", root, f"a species of the catalogue is not whole: {error}")
        return None
    also = tree.get("also", ())
    return species, tuple(str(other) for other in also) if isinstance(also, tuple) else ()


def find_species(written: str, known: Iterable[tuple[Species, tuple[str, ...]]]) -> Species | None:
    """Return the species that goes by a name, whatever its case."""
    wanted = written.strip().casefold()
    for species, also in known:
        if wanted in {name.casefold() for name in (species.identifier, species.name, *also)}:
            return species
    return None


def _tree(node: Node) -> dict[str, object]:
    """Return a mapping as plain values; the catalogue needs no places."""
    return {key.text: _plain(value) for key, value in node.pairs}


def _plain(node: Node) -> object:
    if node.kind is Kind.MAP:
        return _tree(node)
    if node.kind is Kind.LIST:
        return tuple(_plain(item) for item in node.items)
    return node.text


def _block(tree: Mapping[str, object], key: str, unit: str = "d") -> dict[str, str]:
    block = tree[key]
    if not isinstance(block, dict) or block.get("unit") != unit:
        raise ValueError(f"the unit of `{key}` is not {unit}")
    return block


def _source(block: Mapping[str, str]) -> str:
    return " ".join(f"{block['source']} ({block['provenance']})".split())
