"""The looks of a trait file: conditions, shares, mortality, coarser classes."""

import re
from fractions import Fraction

from filialog.genetics import (
    CoarseLook,
    Condition,
    ConditionKind,
    LookRule,
    ShownBy,
    Viability,
)
from filialog.journal.keys import Key, Shape
from filialog.reading.node import Kind, Node
from filialog.reading.scalars import check_name, read_names, read_text
from filialog.reading.trait_sheet import TEXT, TraitSheet

__all__ = ["read_coarse", "read_lethal", "read_looks", "read_shown_by", "read_viability"]

_CONDITION = re.compile(r"(has|hom|lacks)\s+(\S+)|is\s+([^\s/]+)/([^\s/]+)|(female|male)")
_JOINS = Key(name="coarse", shape=Shape.GROUPS, says="the looks that a class joins")
_LOOK_KEYS = ("look", "when", "says", "share", "otherwise")


def read_conditions(traits: TraitSheet, node: Node, name: str) -> tuple[Condition, ...]:
    """Read what is asked of the alleles, by locus."""
    asked: list[Condition] = []
    for locus, value in traits.pairs(node, name, "{a: hom a}"):
        text = read_text(value, TEXT, traits.sheet)
        match = _CONDITION.fullmatch(text or "")
        if match is None:
            traits.failed = True
            if text is not None:
                traits.fault(
                    "R507",
                    value,
                    f"`{text}` is no condition on a locus",
                    helps=("write `has A`, `lacks A`, `hom a` or `is A/a`",),
                )
            continue
        alleles: tuple[str, ...]
        if match[5]:
            kind, alleles = ConditionKind.SEX, (match[5],)
        elif match[1]:
            kind, alleles = ConditionKind(match[1]), (match[2],)
        else:
            kind, alleles = ConditionKind.IS, (match[3], match[4])
        asked.append(Condition(locus=locus.text.strip(), kind=kind, alleles=alleles))
        for allele in alleles:
            traits.places.setdefault(f"allele {allele}", traits.sheet.place(value))
        traits.places.setdefault(f"locus {locus.text.strip()}", traits.sheet.place(locus))
        if kind is ConditionKind.SEX:
            traits.places.setdefault(f"sex {locus.text.strip()}", traits.sheet.place(value))
    return tuple(asked)


def read_looks(traits: TraitSheet) -> tuple[tuple[LookRule, ...], tuple[tuple[str, str], ...]]:
    """Read the rules of looks, and what each look looks like."""
    rules: list[LookRule] = []
    words: list[tuple[str, str]] = []
    for item in traits.items("looks", "[{look: plain, when: {a: has A}}]"):
        keys: dict[str, Node] = {}
        for key, value in traits.pairs(item, "looks", "- {look: plain, when: {a: has A}}"):
            if key.text in _LOOK_KEYS:
                keys[key.text] = value
            else:
                traits.unknown(key, "a look", _LOOK_KEYS)
        if "look" not in keys:
            if not traits.failed:
                traits.fault("R204", item, "a look has no name", helps=("write `look: plain`",))
            continue
        name = _look_name(traits, keys["look"])
        when = read_conditions(traits, keys["when"], "when") if "when" in keys else ()
        says = read_text(keys["says"], TEXT, traits.sheet) if "says" in keys else None
        if name is None:
            continue
        others = _others(traits, name, keys)
        rules.append(LookRule(look=name, conditions=when, others=others))
        if says:
            words.append((name, " ".join(says.split())))
    return tuple(rules), tuple(words)


def _look_name(traits: TraitSheet, node: Node) -> str | None:
    name = check_name(node.text, node, traits.sheet)
    if name is None:
        traits.failed = True
        return None
    traits.places.setdefault(f"look {name}", traits.sheet.place(node))
    return name


def _share(traits: TraitSheet, node: Node, name: str) -> Fraction | None:
    return traits.fraction(node, code="R511", name=name, most=Fraction(1))


def _others(
    traits: TraitSheet, look: str, keys: dict[str, Node]
) -> tuple[tuple[str, Fraction], ...]:
    """Read which looks are shown by animals that fit a look and do not show it."""
    if "share" not in keys and "otherwise" not in keys:
        return ()
    if "share" not in keys or "otherwise" not in keys:
        given = "share" if "share" in keys else "otherwise"
        missing = "otherwise" if given == "share" else "share"
        traits.fault(
            "R204",
            keys[given],
            f"`{look}` has `{given}` and no `{missing}`",
            helps=(f"write `{{look: {look}, share: 80 %, otherwise: plain}}`",),
        )
        return ()
    own = _share(traits, keys["share"], "a share")
    otherwise = keys["otherwise"]
    if otherwise.kind is not Kind.MAP:
        name = traits.word(otherwise)
        rest = _look_name(traits, otherwise) if name is not None else None
        return () if rest is None or own is None else ((rest, 1 - own),)
    others: list[tuple[str, Fraction]] = []
    for key, value in otherwise.pairs:
        name = _look_name(traits, key)
        share = _share(traits, value, "a share")
        if name is not None and share is not None:
            others.append((name, share))
    if own is None or len(others) < len(otherwise.pairs):
        return ()
    total = own + sum((share for _, share in others), Fraction(0))
    if total != 1:
        traits.fault(
            "R511",
            keys["share"],
            f"the shares of `{look}` and of the looks beside it are together "
            f"{float(100 * total):g} %, not 100 %",
            helps=("write `otherwise: plain` for a look that all others show",),
        )
    return tuple(others)


def read_lethal(traits: TraitSheet) -> tuple[tuple[Condition, ...], ...]:
    """Read the genotypes that die before they can be seen."""
    return tuple(
        conditions
        for item in traits.items("lethal", "[{a: hom a}]")
        if (conditions := read_conditions(traits, item, "lethal"))
    )


def read_viability(traits: TraitSheet) -> tuple[Viability, ...]:
    """Read the genotypes of which a share lives."""
    example = "[{when: {a: hom a}, share: 80 %}]"
    found: list[Viability] = []
    for item in traits.items("viability", example):
        conditions: tuple[Condition, ...] = ()
        share: Fraction | None = None
        given = set()
        for key, value in traits.pairs(item, "viability", f"viability: {example}"):
            given.add(key.text)
            if key.text == "when":
                conditions = read_conditions(traits, value, "when")
            elif key.text == "share":
                share = _share(traits, value, "a share that lives")
            else:
                traits.unknown(key, "an entry of `viability`", ("when", "share"))
        if not {"when", "share"} <= given:
            traits.fault(
                "R204",
                item,
                "an entry of `viability` needs `when` and `share`",
                helps=(f"write `viability: {example}`",),
            )
        elif share is not None:
            found.append(Viability(conditions=conditions, share=share))
    return tuple(found)


def read_coarse(traits: TraitSheet) -> tuple[CoarseLook, ...]:
    """Read the classes that join looks."""
    classes: list[CoarseLook] = []
    for name, value in traits.part("coarse", "{plain: [dark, brown]}"):
        looks = read_names(value, _JOINS, traits.sheet)
        word = check_name(name.text, name, traits.sheet)
        if looks is None or word is None:
            traits.failed = True
            continue
        for item in value.items:
            traits.places.setdefault(f"look {item.text.strip()}", traits.sheet.place(item))
        classes.append(CoarseLook(name=word, looks=looks))
    return tuple(classes)


def read_shown_by(traits: TraitSheet) -> ShownBy:
    """Read whose genotype gives the looks."""
    text = traits.text("by")
    if text is None:
        return ShownBy.OWN
    try:
        return ShownBy(text)
    except ValueError:
        traits.fault(
            "R202",
            traits.found["by"][1],
            f"looks cannot be shown by `{text}`",
            helps=("write `by: dam` where the dam's genotype gives the look of her young",),
        )
        return ShownBy.OWN
