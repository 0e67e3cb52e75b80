"""Trait files: loci, looks and lethal genotypes, read into a model that was checked."""

import math
import re
from pathlib import PurePosixPath

from filialog.findings.finding import Place
from filialog.findings.nearest import did_you_mean
from filialog.genetics import (
    CoarseLook,
    Condition,
    ConditionKind,
    Locus,
    LookRule,
    ModelProblem,
    ProblemKind,
    TraitModel,
    model_problems,
)
from filialog.journal.keys import Key, Shape
from filialog.journal.records import TraitPage
from filialog.reading.node import Kind, Node
from filialog.reading.scalars import check_name, read_names, read_text
from filialog.reading.sheet import Sheet
from filialog.reading.yaml_nodes import read_nodes

__all__ = ["read_trait_file"]

_KEYS = ("name", "says", "source", "loci", "looks", "lethal", "coarse")
_MOST_GENOTYPES = 10_000
_CONDITION = re.compile(r"(has|hom)\s+(\S+)|is\s+([^\s/]+)/([^\s/]+)")
_ALLELES = Key(name="alleles", shape=Shape.TEXTS, says="alleles, the dominant one first")
_TEXT = Key(name="says", shape=Shape.TEXT, says="free words")
_JOINS = Key(name="coarse", shape=Shape.GROUPS, says="the looks that a class joins")
_CODES = {
    ProblemKind.UNKNOWN_LOCUS: "R501",
    ProblemKind.UNKNOWN_ALLELE: "R502",
    ProblemKind.LOOK_NOT_SHOWN: "R503",
    ProblemKind.GENOTYPE_WITHOUT_LOOK: "R504",
    ProblemKind.UNKNOWN_LOOK: "R503",
}


def read_trait_file(sheet: Sheet, *, shipped: bool) -> TraitPage | None:
    """Read one trait file; None, with findings, where no model comes of it."""
    stem = PurePosixPath(sheet.path).stem
    root = read_nodes(sheet, sheet.text)
    if root is None:
        sheet.desk.reported.add(stem)
        return None
    reader = _TraitReader(sheet, root)
    name = reader.text("name") or stem
    if check_name(name, reader.found.get("name", (root, root))[1], sheet) is None:
        return None
    looks, words = reader.looks()
    model = TraitModel(
        name=name,
        loci=reader.loci(),
        looks=looks,
        lethal=reader.lethal(),
        coarse=reader.coarse(),
    )
    if reader.failed or not reader.sound(model):
        sheet.desk.reported.update((name, stem))
        return None
    return TraitPage(
        model=model,
        says=reader.text("says") or "",
        source=reader.text("source") or "",
        look_words=words,
        shipped=shipped,
        place=Place(sheet.path),
    )


class _TraitReader:
    """Reads the parts of a trait file."""

    def __init__(self, sheet: Sheet, root: Node) -> None:
        self.sheet = sheet
        self.failed = False
        self.found: dict[str, tuple[Node, Node]] = {}
        self.places: dict[str, Place] = {}
        for key, value in root.pairs:
            if key.text in _KEYS:
                self.found[key.text] = (key, value)
            else:
                self.fault(
                    "R201",
                    key,
                    f"a trait file takes no `{key.text}`",
                    helps=did_you_mean(key.text, _KEYS, kind="key"),
                )

    def fault(self, code: str, node: Node, message: str, *, helps: tuple[str, ...] = ()) -> None:
        """Report a fault after which no model can be made."""
        self.failed = True
        self.sheet.fault(code, node, message, helps=helps)

    def text(self, key: str) -> str | None:
        """Return the words behind a key."""
        if key not in self.found or self.found[key][1].kind is Kind.EMPTY:
            return None
        text = read_text(self.found[key][1], _TEXT, self.sheet)
        return None if text is None else " ".join(text.split())

    def pairs(self, node: Node, name: str, example: str) -> tuple[tuple[Node, Node], ...]:
        """Return keys and values of a mapping."""
        if node.kind is Kind.MAP:
            return node.pairs
        if node.kind is not Kind.EMPTY:
            self.fault("R202", node, f"`{name}` needs a mapping", helps=(f"write `{example}`",))
        return ()

    def part(self, key: str, example: str) -> tuple[tuple[Node, Node], ...]:
        """Return the mapping behind a key of the file."""
        if key not in self.found:
            return ()
        return self.pairs(self.found[key][1], key, f"{key}: {example}")

    def items(self, key: str, example: str) -> tuple[Node, ...]:
        """Return the list behind a key of the file."""
        if key not in self.found:
            return ()
        node = self.found[key][1]
        if node.kind is Kind.LIST:
            return node.items
        if node.kind is Kind.MAP:
            return (node,)
        if node.kind is not Kind.EMPTY:
            self.fault("R202", node, f"`{key}` needs a list", helps=(f"write `{key}: {example}`",))
        return ()

    def loci(self) -> tuple[Locus, ...]:
        """Read the loci."""
        loci: list[Locus] = []
        for name, value in self.part("loci", "{a: {alleles: [A, a]}}"):
            example = f"{name.text}: {{alleles: [A, a]}}"
            alleles: tuple[str, ...] = ()
            for key, inner in self.pairs(value, name.text, example):
                if key.text == "alleles":
                    nodes = inner.items if inner.kind is Kind.LIST else (inner,)
                    read = [read_text(item, _ALLELES, self.sheet) for item in nodes]
                    alleles = tuple(word for word in read if word is not None)
                    self.failed |= len(alleles) < len(read)
                else:
                    self.fault(
                        "R201",
                        key,
                        f"a locus takes no `{key.text}`",
                        helps=("write `alleles`, the dominant one first",),
                    )
            loci.append(Locus(name=name.text.strip(), alleles=alleles))
            self.places[f"declared {name.text.strip()}"] = self.sheet.place(name)
        return tuple(loci)

    def conditions(self, node: Node, name: str) -> tuple[Condition, ...]:
        """Read what is asked of the alleles, by locus."""
        asked: list[Condition] = []
        for locus, value in self.pairs(node, name, "{a: hom a}"):
            text = read_text(value, _TEXT, self.sheet)
            match = _CONDITION.fullmatch(text or "")
            if match is None:
                self.failed = True
                if text is not None:
                    self.fault(
                        "R507",
                        value,
                        f"`{text}` is no condition on a locus",
                        helps=("write `has A`, `hom a` or `is A/a`",),
                    )
                continue
            alleles = (match[2],) if match[1] else (match[3], match[4])
            kind = ConditionKind(match[1] or "is")
            asked.append(Condition(locus=locus.text.strip(), kind=kind, alleles=alleles))
            for allele in alleles:
                self.places.setdefault(f"allele {allele}", self.sheet.place(value))
            self.places.setdefault(f"locus {locus.text.strip()}", self.sheet.place(locus))
        return tuple(asked)

    def looks(self) -> tuple[tuple[LookRule, ...], tuple[tuple[str, str], ...]]:
        """Read the rules of looks, and what each look looks like."""
        rules: list[LookRule] = []
        words: list[tuple[str, str]] = []
        for item in self.items("looks", "[{look: plain, when: {a: has A}}]"):
            name: str | None = None
            says: str | None = None
            when: tuple[Condition, ...] = ()
            for key, value in self.pairs(item, "looks", "- {look: plain, when: {a: has A}}"):
                if key.text == "look":
                    name = check_name(value.text, value, self.sheet)
                    self.failed |= name is None
                    self.places.setdefault(f"look {name}", self.sheet.place(value))
                elif key.text == "when":
                    when = self.conditions(value, "when")
                elif key.text == "says":
                    says = read_text(value, _TEXT, self.sheet)
                else:
                    self.fault(
                        "R201",
                        key,
                        f"a look takes no `{key.text}`",
                        helps=did_you_mean(key.text, ("look", "when", "says"), kind="key"),
                    )
            if name is None:
                if not self.failed:
                    self.fault("R204", item, "a look has no name", helps=("write `look: plain`",))
                continue
            rules.append(LookRule(look=name, conditions=when))
            if says:
                words.append((name, " ".join(says.split())))
        return tuple(rules), tuple(words)

    def lethal(self) -> tuple[tuple[Condition, ...], ...]:
        """Read the genotypes that die before they can be seen."""
        return tuple(
            conditions
            for item in self.items("lethal", "[{a: hom a}]")
            if (conditions := self.conditions(item, "lethal"))
        )

    def coarse(self) -> tuple[CoarseLook, ...]:
        """Read the classes that join looks."""
        classes: list[CoarseLook] = []
        for name, value in self.part("coarse", "{plain: [dark, brown]}"):
            looks = read_names(value, _JOINS, self.sheet)
            word = check_name(name.text, name, self.sheet)
            if looks is None or word is None:
                self.failed = True
                continue
            for item in value.items:
                self.places.setdefault(f"look {item.text.strip()}", self.sheet.place(item))
            classes.append(CoarseLook(name=word, looks=looks))
        return tuple(classes)

    def sound(self, model: TraitModel) -> bool:
        """Report what is wrong with a model; true where nothing is."""
        pairs = [len(locus.alleles) * (len(locus.alleles) + 1) // 2 for locus in model.loci]
        if math.prod(pairs) > _MOST_GENOTYPES:
            self.sheet.fault(
                "R505",
                self.key_place("loci"),
                f"the loci give {math.prod(pairs)} genotypes; at most {_MOST_GENOTYPES} are "
                "computed",
                helps=("leave out loci that no look depends on",),
            )
            return False
        problems = dict.fromkeys(model_problems(model))
        without = [p for p in problems if p.kind is ProblemKind.GENOTYPE_WITHOUT_LOOK]
        for problem in problems:
            if problem in without[1:]:
                continue
            more = len(without) - 1 if problem.kind is ProblemKind.GENOTYPE_WITHOUT_LOOK else 0
            self.sheet.fault(
                _CODES.get(problem.kind, "R505"),
                self.problem_place(problem),
                problem.detail + (f", and so for {more} more" if more else ""),
                helps=_ways_out(problem),
            )
        return not problems

    def key_place(self, key: str) -> Place:
        """Return where a key of the file stands."""
        if key in self.found:
            return self.sheet.place(self.found[key][0])
        return Place(self.sheet.path)

    def problem_place(self, problem: ModelProblem) -> Place:
        """Return where a fault of the model stands."""
        subject = problem.subject
        match problem.kind:
            case ProblemKind.UNKNOWN_LOCUS:
                return self.places.get(f"locus {subject}", self.key_place("looks"))
            case ProblemKind.UNKNOWN_ALLELE:
                return self.places.get(f"allele {subject}", self.key_place("looks"))
            case ProblemKind.LOOK_NOT_SHOWN | ProblemKind.UNKNOWN_LOOK:
                return self.places.get(f"look {subject}", self.key_place("looks"))
            case ProblemKind.GENOTYPE_WITHOUT_LOOK:
                return self.key_place("looks")
            case ProblemKind.NO_ALLELE:
                return self.places.get(f"declared {subject}", self.key_place("loci"))
        return self.key_place("loci")


def _ways_out(problem: ModelProblem) -> tuple[str, ...]:
    match problem.kind:
        case ProblemKind.GENOTYPE_WITHOUT_LOOK:
            return ("add a last look without `when` for all genotypes that are left",)
        case ProblemKind.LOOK_NOT_SHOWN:
            return ("the first look that fits is taken: put the narrower look first",)
        case ProblemKind.UNKNOWN_LOCUS | ProblemKind.UNKNOWN_ALLELE:
            return ("declare it below `loci`, or correct the spelling",)
        case ProblemKind.NO_LOCUS:
            return ("write `loci: {a: {alleles: [A, a]}}`",)
    return ()
