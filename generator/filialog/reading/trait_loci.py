"""The loci of a trait file: alleles, sex chromosomes, linkage."""

from fractions import Fraction

from filialog.findings.nearest import did_you_mean
from filialog.genetics import SEX_SYSTEMS, LinkageGroup, Locus, SexSystem, sex_system
from filialog.journal.keys import Key, Shape
from filialog.reading.node import Kind, Node
from filialog.reading.scalars import read_text
from filialog.reading.trait_sheet import TraitSheet

__all__ = ["read_linkage", "read_loci", "read_sex"]

_ALLELES = Key(name="alleles", shape=Shape.TEXTS, says="alleles, the dominant one first")
_LINKED = "[{loci: [a, b], recombination: 17 %}]"
_SEX = "sex"


def read_sex(traits: TraitSheet) -> tuple[Locus, SexSystem] | None:
    """Read the system of sex chromosomes; None where the file names none."""
    if "sex" not in traits.found:
        return None
    node = traits.found["sex"][1]
    if node.kind is Kind.MAP:
        for key, value in node.pairs:
            if key.text == "system":
                node = value
            else:
                traits.unknown(key, "`sex`", ("system",))
        if node.kind is Kind.MAP:
            if not traits.failed:
                traits.fault("R204", node, "`sex` needs `system`", helps=("write `sex: XY`",))
            return None
    system = traits.word(node)
    if system is None:
        return None
    if system not in SEX_SYSTEMS:
        known = ", ".join(f"`{one}`" for one in SEX_SYSTEMS)
        traits.fault(
            "R514",
            node,
            f"no system of sex chromosomes is called `{system}`",
            helps=(f"known are {known}",),
        )
        return None
    return sex_system(system, locus=_SEX)


def read_loci(traits: TraitSheet, sex: tuple[Locus, SexSystem] | None) -> tuple[Locus, ...]:
    """Read the loci; that of the sex chromosomes comes first."""
    loci: list[Locus] = [] if sex is None else [sex[0]]
    for name, value in traits.part("loci", "{a: {alleles: [A, a]}}"):
        alleles: tuple[str, ...] = ()
        absent_from: tuple[str, ...] = ()
        for key, inner in traits.pairs(value, name.text, f"{name.text}: {{alleles: [A, a]}}"):
            if key.text == "alleles":
                nodes = inner.items if inner.kind is Kind.LIST else (inner,)
                read = [read_text(item, _ALLELES, traits.sheet) for item in nodes]
                alleles = tuple(word for word in read if word is not None)
                traits.failed |= len(alleles) < len(read)
            elif key.text == "chromosome":
                absent_from = _absent_from(traits, inner, sex)
            else:
                traits.fault(
                    "R201",
                    key,
                    f"a locus takes no `{key.text}`",
                    helps=("write `alleles`, the dominant one first, and perhaps `chromosome`",),
                )
        word = name.text.strip()
        loci.append(Locus(name=word, alleles=alleles, absent_from=absent_from))
        traits.places[f"declared {word}"] = traits.sheet.place(name)
    return tuple(loci)


def _absent_from(
    traits: TraitSheet, node: Node, sex: tuple[Locus, SexSystem] | None
) -> tuple[str, ...]:
    """Return the sex chromosomes that lack a locus that is on the named ones."""
    named = traits.words(node)
    if sex is None:
        traits.fault(
            "R514",
            node,
            f"`chromosome: {' '.join(named)}` names a sex chromosome, and the file no system",
            helps=("write `sex: XY` or `sex: ZW` above `loci`",),
        )
        return ()
    chromosomes = sex[0].alleles
    for name in named:
        if name not in chromosomes:
            traits.fault(
                "R514",
                node,
                f"the system has no sex chromosome `{name}`",
                helps=did_you_mean(name, chromosomes, kind="chromosome")
                or (f"its chromosomes are {', '.join(chromosomes)}",),
            )
            return ()
    return tuple(one for one in chromosomes if one not in named)


def read_linkage(
    traits: TraitSheet, loci: tuple[Locus, ...], sex: tuple[Locus, SexSystem] | None
) -> tuple[LinkageGroup, ...]:
    """Read the linkage groups; a single locus of a sex chromosome needs none."""
    groups: list[LinkageGroup] = []
    placed: set[str] = set()
    for item in traits.items("linkage", _LINKED):
        group = _group(traits, item)
        if group is None:
            continue
        for name in group.loci:
            if name in placed:
                traits.failed = True
                traits.sheet.fault(
                    "R513",
                    traits.places[f"linked {name}"],
                    f"locus `{name}` has more than one place in the linkage groups",
                    helps=("put loci of one chromosome into one list, in their order",),
                )
            placed.add(name)
        groups.append(group)
    lone = [one for one in loci if one.absent_from and one.name not in placed]
    if len(lone) == 1 and sex is not None and _SEX not in placed:
        # With one locus there is nothing that could come apart from it.
        never = (Fraction(0),)
        groups.append(
            LinkageGroup(
                loci=(_SEX, lone[0].name), dam_recombination=never, sire_recombination=never
            )
        )
    return tuple(groups)


def _group(traits: TraitSheet, item: Node) -> LinkageGroup | None:
    loci: tuple[str, ...] = ()
    recombination: Node | None = None
    for key, value in traits.pairs(item, "linkage", f"linkage: {_LINKED}"):
        if key.text == "loci":
            loci = traits.words(value)
            for name, node in zip(loci, value.items, strict=False):
                traits.places[f"linked {name}"] = traits.sheet.place(node)
                traits.places.setdefault(f"locus {name}", traits.sheet.place(node))
        elif key.text == "recombination":
            recombination = value
        else:
            traits.unknown(key, "a linkage group", ("loci", "recombination"))
    if not traits.failed and (len(loci) < 2 or recombination is None):
        traits.fault(
            "R204",
            item,
            "a linkage group needs two or more `loci` and their `recombination`",
            helps=(f"write `linkage: {_LINKED}`",),
        )
    if traits.failed or recombination is None:
        return None
    by_parent = _by_parent(traits, recombination)
    if by_parent is None:
        return None
    dam, sire = (_fractions(traits, node, len(loci) - 1) for node in by_parent)
    if dam is None or sire is None:
        return None
    return LinkageGroup(loci=loci, dam_recombination=dam, sire_recombination=sire)


def _by_parent(traits: TraitSheet, node: Node) -> tuple[Node, Node] | None:
    """Return what is written of dams and of sires."""
    if node.kind is not Kind.MAP:
        return node, node
    given = {}
    for key, value in node.pairs:
        if key.text in {"dam", "sire"}:
            given[key.text] = value
        else:
            traits.unknown(key, "`recombination`", ("dam", "sire"))
    if len(given) == 2:
        return given["dam"], given["sire"]
    if not traits.failed:
        traits.fault(
            "R204",
            node,
            "`recombination` by parent needs both `dam` and `sire`",
            helps=("write `recombination: {dam: 17 %, sire: 0}`",),
        )
    return None


def _fractions(traits: TraitSheet, node: Node, wanted: int) -> tuple[Fraction, ...] | None:
    if traits.failed:
        return None
    nodes = node.items if node.kind is Kind.LIST else (node,)
    if len(nodes) != wanted:
        traits.fault(
            "R512",
            node,
            f"{wanted + 1} loci have {wanted} stretches between them, and here "
            f"{'is' if len(nodes) == 1 else 'are'} {len(nodes)}",
            helps=("write one fraction between each locus and the next: `[0.1, 0.2]`",),
        )
        return None
    half = Fraction(1, 2)
    found = [
        traits.fraction(one, code="R512", name="a recombination fraction", most=half)
        for one in nodes
    ]
    return tuple(one for one in found if one is not None) if None not in found else None
