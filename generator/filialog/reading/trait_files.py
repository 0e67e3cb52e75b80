"""Trait files, read into a trait model that was checked.

A trait file is `traits/<name>.yaml`. It takes

- `name` (else the name of the file), `says`, `source`: words about the model.
- `loci: {a: {alleles: [A, a]}}`: loci in the order in which genotypes are written, the
  dominant allele first. `chromosome: X` puts a locus on that sex chromosome only.
- `looks`: rules in order; the first whose `when` holds gives the `look`. A condition is
  `has A`, `lacks A`, `hom a` (two copies) or `is A/a`; of `sex` one asks `female` or `male`.
  `share: 80 %` with `otherwise: dark` (or `otherwise: {dark: 15 %, brown: 5 %}`) says that
  only so many of the animals that fit show the look.
- `by: dam`: the dam's genotype gives the look of her young, not their own.
- `lethal: [{a: hom a}]`: genotypes that die before they can be seen.
- `viability: [{when: {a: hom a}, share: 80 %}]`: genotypes of which only a share lives;
  where several entries hold, shares multiply.
- `sex: XY`, `ZW` or `WXY` (or `sex: {system: XY}`): adds a locus `sex` whose alleles are
  the sex chromosomes.
- `linkage: [{loci: [a, b, c], recombination: [10 %, 0.2]}]`: loci of one chromosome in
  their order, and how often each comes apart from the next, 0 to 0.5; with
  `recombination: {dam: 17 %, sire: 0}` dams and sires differ. `sex` may stand in such a
  list: a locus that X and Y both carry.
- `coarse: {plain: [dark, brown]}`: classes that a tally may use.
"""

from pathlib import PurePosixPath

from filialog.findings.finding import Place
from filialog.genetics import LookRule, ModelProblem, ProblemKind, TraitModel, model_problems
from filialog.journal.records import TraitPage
from filialog.reading.scalars import check_name
from filialog.reading.sheet import Sheet
from filialog.reading.trait_loci import read_linkage, read_loci, read_sex
from filialog.reading.trait_looks import (
    read_coarse,
    read_lethal,
    read_looks,
    read_shown_by,
    read_viability,
)
from filialog.reading.trait_sheet import TraitSheet
from filialog.reading.yaml_nodes import read_nodes

__all__ = ["TRAIT_KEYS", "read_trait_file"]

TRAIT_KEYS = (
    "name",
    "says",
    "source",
    "sex",
    "loci",
    "linkage",
    "looks",
    "by",
    "lethal",
    "viability",
    "coarse",
)
"""The keys that a trait file takes."""

_CODES = {
    ProblemKind.UNKNOWN_LOCUS: "R501",
    ProblemKind.UNKNOWN_ALLELE: "R502",
    ProblemKind.LOOK_NOT_SHOWN: "R503",
    ProblemKind.GENOTYPE_WITHOUT_LOOK: "R504",
    ProblemKind.UNKNOWN_LOOK: "R503",
    ProblemKind.NOT_ON_SEX_CHROMOSOME: "R513",
    ProblemKind.UNKNOWN_SEX: "R514",
}

_TOLD_ONCE = {ProblemKind.GENOTYPE_WITHOUT_LOOK, ProblemKind.NOT_ON_SEX_CHROMOSOME}
"""Faults of which many have one cause."""


def read_trait_file(sheet: Sheet, *, shipped: bool) -> TraitPage | None:
    """Read one trait file; None, with findings, where no model comes of it."""
    stem = PurePosixPath(sheet.path).stem
    root = read_nodes(sheet, sheet.text)
    if root is None:
        sheet.desk.reported.add(stem)
        return None
    traits = TraitSheet(sheet, root, TRAIT_KEYS)
    name = traits.text("name") or stem
    if check_name(name, traits.found.get("name", (root, root))[1], sheet) is None:
        return None
    looks, words = read_looks(traits)
    model = _model(traits, name, looks)
    if traits.failed or not _sound(traits, model):
        sheet.desk.reported.update((name, stem))
        return None
    return TraitPage(
        model=model,
        says=traits.text("says") or "",
        source=traits.text("source") or "",
        look_words=words,
        shipped=shipped,
        place=Place(sheet.path),
    )


def _model(traits: TraitSheet, name: str, looks: tuple[LookRule, ...]) -> TraitModel:
    sex = read_sex(traits)
    loci = read_loci(traits, sex)
    return TraitModel(
        name=name,
        loci=loci,
        looks=looks,
        lethal=read_lethal(traits),
        coarse=read_coarse(traits),
        linkage=read_linkage(traits, loci, sex),
        sex=sex[1] if sex is not None else None,
        viability=read_viability(traits),
        shown_by=read_shown_by(traits),
    )


def _sound(traits: TraitSheet, model: TraitModel) -> bool:
    """Report what is wrong with a model; true where nothing is."""
    problems = list(dict.fromkeys(model_problems(model)))
    for problem in problems:
        alike = [one for one in problems if one.kind is problem.kind]
        more = 0
        if problem.kind in _TOLD_ONCE:
            if problem is not alike[0]:
                continue
            more = len(alike) - 1
        traits.sheet.fault(
            _CODES.get(problem.kind, "R505"),
            _problem_place(traits, problem),
            problem.detail + (f", and so for {more} more" if more else ""),
            helps=_ways_out(problem),
        )
    return not problems


def _problem_place(traits: TraitSheet, problem: ModelProblem) -> Place:
    """Return where a fault of the model stands."""
    looks, loci = traits.key_place("looks"), traits.key_place("loci")
    subject = problem.subject
    match problem.kind:
        case ProblemKind.UNKNOWN_LOCUS:
            return traits.places.get(f"locus {subject}", looks)
        case ProblemKind.UNKNOWN_ALLELE:
            return traits.places.get(f"allele {subject}", looks)
        case ProblemKind.UNKNOWN_SEX:
            return traits.places.get(f"sex {subject}", looks)
        case ProblemKind.LOOK_NOT_SHOWN | ProblemKind.UNKNOWN_LOOK:
            return traits.places.get(f"look {subject}", looks)
        case ProblemKind.GENOTYPE_WITHOUT_LOOK:
            return looks
        case ProblemKind.NO_ALLELE | ProblemKind.NOT_ON_SEX_CHROMOSOME:
            return traits.places.get(f"declared {subject}", loci)
    return loci


def _ways_out(problem: ModelProblem) -> tuple[str, ...]:
    match problem.kind:
        case ProblemKind.GENOTYPE_WITHOUT_LOOK:
            return ("add a last look without `when` for all genotypes that are left",)
        case ProblemKind.LOOK_NOT_SHOWN:
            return ("the first look that fits is taken: put the narrower look first",)
        case ProblemKind.UNKNOWN_LOCUS | ProblemKind.UNKNOWN_ALLELE:
            return ("declare it below `loci`, or correct the spelling",)
        case ProblemKind.NOT_ON_SEX_CHROMOSOME:
            return ("put `sex` and the loci of that chromosome into one list below `linkage`",)
        case ProblemKind.UNKNOWN_SEX:
            return ("write `sex: XY` above, and ask `when: {sex: female}`",)
        case ProblemKind.TOO_MANY_GENOTYPES:
            return ("leave out loci that no look depends on",)
        case ProblemKind.NO_LOCUS:
            return ("write `loci: {a: {alleles: [A, a]}}`",)
    return ()
