"""The worked cases of hidden carriers and test crosses, computed through public functions."""

import math
from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from pathlib import Path

import pytest

from filialog.genetics import (
    Condition,
    ConditionKind,
    Genotype,
    GenotypeLaw,
    Locus,
    LookRule,
    Sex,
    TraitModel,
    condition_on_sex,
    law_of,
    look_shares,
    parse_genotype,
    pool_law,
    sex_system,
)
from filialog.genetics.carriers import (
    BroodOf,
    CarrierLaw,
    CarrierPool,
    Declared,
    Evidence,
    FounderPool,
    FrequencyPoint,
    PoolShare,
    SeenLook,
    TallyEvidence,
    posterior,
)
from filialog.genetics.clearing import (
    animals_to_keep,
    carrier_after_plain_young,
    chance_of_all_plain,
    young_to_clear,
)
from tools.worked_cases import Case, exact_numbers, expected_numbers, flat, read_cases

FOLDER = Path(__file__).parent / "genetics_carriers"
CASES = [*read_cases(FOLDER / "pedigrees.yaml"), *read_cases(FOLDER / "test_crosses.yaml")]

SEXES = {"m": Sex.MALE, "f": Sex.FEMALE}


class Pedigree:
    """A case's animals as pools of one, each known by sex where the locus is sex-linked."""

    def __init__(self, inputs: Case) -> None:
        self.linked = "locus" in inputs
        self.model = sex_linked_model(inputs["locus"]) if self.linked else one_locus(inputs)
        self.q = Fraction(inputs["q"])
        self.pools: list[CarrierPool] = []
        self.evidence: list[Evidence] = []
        self.log_ways = 0.0
        """Logarithm of the ways to order the young of each look, and of their sexes."""
        for animal in inputs["individuals"]:
            self._animal(animal)
        for brood in inputs.get("broods", ()):
            self._brood(brood)
        for name, text in inputs.get("genotype_known", {}).items():
            genotypes = tuple(parse_genotype(f"{text[0]}/{text[1]}", self.model))
            self.evidence.append(Declared(label=f"{name} known", pool=name, genotypes=genotypes))
        for name, look in inputs.get("phenotypes", {}).items():
            self.evidence.append(SeenLook(label=f"{name} seen", pool=name, look=look))

    def _animal(self, animal: Case) -> None:
        sex = SEXES[animal["sex"]]
        if "sire" in animal:
            origin: BroodOf | FounderPool = brood_of([animal["dam"]], [animal["sire"]])
            if self.linked:
                looks = ("normal", "affected")
                self._seen_sex(animal["id"], tuple(f"{look}_{animal['sex']}" for look in looks))
        else:
            law = self._founder_law(animal.get("prior"))
            law = condition_on_sex(law, self.model, sex) if self.linked else law
            origin = FounderPool(points=(FrequencyPoint(weight=Fraction(1), law=law),))
        self.pools.append(CarrierPool(name=animal["id"], origin=origin, size=1))

    def _seen_sex(self, name: str, looks: tuple[str, ...]) -> None:
        self.evidence.append(SeenLook(label=f"{name} sex", pool=name, look=looks[0][-1]))
        self.log_ways += math.log(0.5)

    def _founder_law(self, prior: Mapping[str, str] | None) -> GenotypeLaw:
        if prior is None:
            return pool_law(self.model, {"gene": {"A": 1 - self.q, "a": self.q}})
        return law_of({((genotype[0], genotype[1]),): Fraction(p) for genotype, p in prior.items()})

    def _brood(self, brood: Case) -> None:
        dams = brood.get("dam_candidates", {brood.get("dam"): "1"})
        sires = brood.get("sire_candidates", {brood.get("sire"): "1"})
        name = f"brood {brood['id']}"
        self.pools.append(CarrierPool(name=name, origin=brood_of(dams, sires)))
        counts = tuple(
            (look, brood[look])
            for look in (shown for shown, _ in look_shares(pool_law(self.model), self.model))
            if look in brood
        )
        self.evidence.append(TallyEvidence(label=name, pool=name, looks=counts))
        young = [count for _, count in counts]
        self.log_ways += math.log(math.factorial(sum(young)))
        self.log_ways -= sum(math.log(math.factorial(count)) for count in young)
        if self.linked:
            self.log_ways += sum(young) * math.log(0.5)


def brood_of(dams: Iterable[str], sires: Iterable[str]) -> BroodOf:
    return BroodOf(
        dams=tuple(PoolShare(pool=name) for name in dams),
        sires=tuple(PoolShare(pool=name) for name in sires),
    )


def one_locus(inputs: Case) -> TraitModel:
    penetrance = inputs.get("penetrance", {"AA": 0, "Aa": 0, "aa": 1})
    rules = tuple(
        LookRule(
            look="affected",
            conditions=(
                Condition(locus="gene", kind=ConditionKind.IS, alleles=(pair[0], pair[1])),
            ),
            others=(("normal", 1 - Fraction(share)),),
        )
        for pair, share in penetrance.items()
    )
    return TraitModel(name="one", loci=(Locus(name="gene", alleles=("A", "a")),), looks=rules)


def sex_linked_model(chromosome: str) -> TraitModel:
    locus, system = sex_system({"X": "XY", "Z": "ZW"}[chromosome])
    other = {"X": "Y", "Z": "W"}[chromosome]
    gene = Locus(name="gene", alleles=("A", "a"), absent_from=(other,))
    rules = []
    from filialog.genetics import CoarseLook, LinkageGroup  # noqa: PLC0415

    for letter, sex in SEXES.items():
        of_sex = Condition(locus=locus.name, kind=ConditionKind.SEX, alleles=(sex.value,))
        plain = Condition(locus="gene", kind=ConditionKind.HAS, alleles=("A",))
        rules.append(LookRule(look=f"normal_{letter}", conditions=(of_sex, plain)))
        rules.append(LookRule(look=f"affected_{letter}", conditions=(of_sex,)))
    none = (Fraction(0),)
    return TraitModel(
        name="linked",
        loci=(locus, gene),
        looks=tuple(rules),
        coarse=(
            CoarseLook(name="normal", looks=("normal_m", "normal_f")),
            *(
                CoarseLook(name=letter, looks=(f"normal_{letter}", f"affected_{letter}"))
                for letter in SEXES
            ),
        ),
        linkage=(
            LinkageGroup(
                loci=(locus.name, "gene"), dam_recombination=none, sire_recombination=none
            ),
        ),
        sex=system,
    )


def by_dose(law: CarrierLaw) -> dict[str, float]:
    """Return a law by number of recessive alleles; one copy in the sex with one is `aa`."""
    found = {"AA": 0.0, "Aa": 0.0, "aa": 0.0}
    for genotype, probability in law.probabilities:
        found[dose(genotype)] += probability
    return found


def dose(genotype: Genotype) -> str:
    alleles = [allele for allele in genotype[-1] if allele in {"A", "a"}]
    copies = alleles if len(alleles) == 2 else alleles * 2
    return "".join(sorted(copies))


def pedigree_posterior(inputs: Case) -> Case:
    pedigree = Pedigree(inputs)
    found = posterior(pedigree.model, pedigree.pools, pedigree.evidence)
    assert found.exact
    rows: Case = {}
    for name in inputs["query"]:
        if name.startswith("parent:"):
            parents = found.parents_of(f"brood {name.removeprefix('parent:')}")
            rows[name] = {f"{sire}+{dam}": share for dam, sire, share in parents}
        else:
            rows[name] = by_dose(found.law_of(name))
    likelihood = math.exp(found.log_evidence - pedigree.log_ways)
    return {"posterior": rows, "likelihood_of_evidence": likelihood}


def needed(inputs: Case) -> Case:
    share = Fraction(inputs["p_offspring_normal_if_carrier"])
    found: Case = {}
    for name, confidence in (("95", "95/100"), ("99", "99/100"), ("99_9", "999/1000")):
        result = young_to_clear(plain_if_carrier=share, confidence=Fraction(confidence))
        found |= {f"n_{name}": result.young, f"real_{name}": result.without_rounding}
    return found


def simple_power(inputs: Case) -> Case:
    shares = [Fraction(inputs["p_miss"])] * inputs["n"]
    return {"confidence": 1 - chance_of_all_plain(shares)}


def power_of_mates(inputs: Case) -> Case:
    return {"p_all_normal": chance_of_all_plain(map(Fraction, inputs["factors"]))}


def updates(inputs: Case) -> Case:
    return {
        "posterior": [
            carrier_after_plain_young(
                prior=Fraction(inputs["prior"]),
                plain_if_carrier=Fraction(inputs["p_normal_if_carrier"]),
                young=young,
            )
            for young in range(inputs["n_max"] + 1)
        ]
    }


def grandsons(inputs: Case) -> Case:
    """Daughter of a carrier and a normal male, with one daughter that has n normal sons."""
    assert Fraction(inputs["prior"]) == Fraction(1, 2)
    found = []
    for sons in inputs["n"]:
        pedigree = Pedigree(
            {
                "locus": "X",
                "q": "0",
                "individuals": [
                    {"id": "grandam", "sex": "f"},
                    {"id": "males", "sex": "m"},
                    {"id": "she", "sex": "f", "sire": "males", "dam": "grandam"},
                    {"id": "daughter", "sex": "f", "sire": "males", "dam": "she"},
                ],
                "broods": [{"id": "sons", "sire": "males", "dam": "daughter", "normal_m": sons}],
            }
        )
        carrier = law_of({(("X", "X"), ("A", "a")): Fraction(1)})
        point = FrequencyPoint(weight=Fraction(1), law=carrier)
        pools = [
            CarrierPool(name="grandam", origin=FounderPool(points=(point,)), size=1)
            if pool.name == "grandam"
            else pool
            for pool in pedigree.pools
        ]
        result = posterior(pedigree.model, pools, pedigree.evidence)
        found.append(by_dose(result.law_of("she"))["Aa"])
    return {"posterior": found}


def negative_test(inputs: Case) -> Case:
    missed = 1 - Fraction(inputs["sensitivity"])
    prior = Fraction(inputs["prior"])
    return {"posterior": carrier_after_plain_young(prior=prior, plain_if_carrier=missed, young=1)}


def to_keep(inputs: Case) -> Case:
    return {
        "n": [
            [
                animals_to_keep(share=Fraction(share), confidence=Fraction(wanted))
                for wanted in inputs["confidence"]
            ]
            for share in inputs["p"]
        ]
    }


COMPUTE: dict[str, Callable[[Case], Case]] = {
    "pedigree_bayes": pedigree_posterior,
    "testmating_n": needed,
    "power_simple": simple_power,
    "power_product": power_of_mates,
    "carrier_update": updates,
    "carrier_grandsons": grandsons,
    "imperfect_test": negative_test,
    "keep_at_least_one": to_keep,
}


def test_carrier_cases__are_all_there() -> None:
    numbers = {
        "BAY": (1, 2, 4, 6, 7, 9, 11, 12, 14, 16, 17, 19, 21, 22, 24),
        "TST": (1, 2, 4, 6, 7, 9, 11, 12, 14, 16, 17),
    }
    assert [case["id"] for case in CASES] == [
        f"{family}-{number:02}" for family, some in numbers.items() for number in some
    ]


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_carrier_case__gives_the_expected_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))

    for path, value in expected_numbers(case).items():
        tolerance = min(case["tolerance"], 1e-6 * value) if 0 < value < 1e-3 else case["tolerance"]
        assert float(computed[path]) == pytest.approx(value, abs=tolerance, rel=0), path
    for path, value in exact_numbers(case).items():
        assert float(computed[path]) == pytest.approx(value, abs=1e-12, rel=0), path


@pytest.mark.parametrize(
    "case", [pytest.param(case, id=case["id"]) for case in CASES if "published" in case]
)
def test_carrier_case__gives_the_printed_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))

    for path, number in case["published"].items():
        half_a_digit = number.get("tol", 0.5 * 10.0 ** -number.get("places", 0))
        assert float(computed[path]) == pytest.approx(number["value"], abs=half_a_digit), path
