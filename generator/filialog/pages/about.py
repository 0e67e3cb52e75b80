"""About the site: levels, methods, assumptions, sources, cautions."""

from dataclasses import dataclass

from filialog.analysis.rows import Assumption
from filialog.journal.records import TraitPage
from filialog.pages.here import Here
from filialog.pages.parts import Frame, LevelLine, Term, frame, level_lines

__all__ = ["AboutView", "about_view"]

_CHANCES = ("none", "very-unlikely", "unlikely", "even", "likely", "very-likely", "certain")
_METHODS = (
    "exact",
    "g-williams",
    "wilson",
    "heterogeneity",
    "verdict",
    "rivals",
    "many-counts",
    "expectation",
    "inbreeding",
    "founder-shares",
    "generations",
    "book",
)
_CAUTIONS = ("electricity", "release", "chemicals", "shipping", "not-advice")


@dataclass(frozen=True, slots=True, kw_only=True)
class Method:
    """A way of computing: what it gives, and its source."""

    name: str
    says: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """A trait model: what it claims, on what ground, and its looks."""

    name: str
    says: str
    source: str
    looks: tuple[Term, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AboutView:
    """Everything the page about the site shows."""

    frame: Frame
    opening: str
    levels: tuple[LevelLine, ...]
    chances: tuple[Term, ...]
    methods: tuple[Method, ...]
    assumptions: tuple[str, ...]
    models: tuple[Model, ...]
    species: str
    species_facts: tuple[Term, ...]
    cautions: tuple[Term, ...]


def about_view(here: Here, _: str) -> AboutView:
    """Return the page about the site."""
    words, journal = here.words, here.results.journal
    opening = words("about.opening")
    heading = words("about.heading")
    return AboutView(
        frame=frame(here, heading=heading, section="about", description=opening),
        opening=opening,
        levels=level_lines(words),
        chances=tuple(
            Term(name=words("chance", pick=name), says=words("chance-says", pick=name))
            for name in _CHANCES
        ),
        methods=tuple(
            Method(
                name=words("method-name", pick=name),
                says=words("method-says", pick=name),
                source=words("method-source", pick=name),
            )
            for name in _METHODS
        ),
        assumptions=tuple(words("assumption", pick=item.value) for item in Assumption),
        models=tuple(_model(here, page) for _, page in sorted(journal.traits.items())),
        species="" if journal.species is None else journal.species.name,
        species_facts=_species(here),
        cautions=tuple(
            Term(name=words("caution", pick=name), says=words("caution-says", pick=name))
            for name in _CAUTIONS
        ),
    )


def _model(here: Here, page: TraitPage) -> Model:
    kept = "shipped" if page.shipped else "own"
    return Model(
        name=page.model.name,
        says=page.says or here.words("model.says-nothing"),
        source=here.words("model-source", pick=kept, source=page.source)
        if page.source
        else here.words("model.no-source"),
        looks=tuple(Term(name=look, says=says) for look, says in page.look_words),
    )


def _species(here: Here) -> tuple[Term, ...]:
    words, species = here.words, here.results.journal.species
    if species is None:
        return ()
    low, high = species.incubation_low_days, species.incubation_high_days
    facts = [
        Term(
            name=words("species.maturity"),
            says=words("species.maturity-days", n=species.earliest_maturity_days),
        ),
        Term(
            name=words("species.incubation"),
            says=words("species.incubation-days", low=low, high=high),
        ),
    ]
    facts.extend(
        Term(name=words("species.source", fact=name), says=source)
        for name, source in species.sources
    )
    return tuple(facts)
