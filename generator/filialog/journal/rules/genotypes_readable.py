"""A genotype that is written can be read by a trait model."""

import re
from collections.abc import Iterator

from filialog.domain_error import DomainError
from filialog.findings import Finding
from filialog.findings.finding import Place
from filialog.genetics import parse_genotype
from filialog.journal.rules.context import Context

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report genotypes that no trait model of the journal can read (T101)."""
    models = [page.model for page in context.journal.traits.values()]
    if not models:
        return
    for text, place in _genotypes(context):
        if set(re.split(r"[\s/]+", text)) & context.journal.reported:
            continue  # alleles of a trait file that could not be read
        problems = []
        for model in models:
            try:
                parse_genotype(text, model)
            except DomainError as error:
                problems.append(error)
        if len(problems) == len(models):
            problem = problems[0]
            names = ", ".join(f"`{model.name}`" for model in models)
            yield Finding(
                code="T101",
                place=place,
                message=f"genotype `{text}` cannot be read",
                label=f"found `{problem.value}`, expected {problem.expected}",
                notes=(f"trait models of this journal: {names}",),
                helps=("write it as genetics does: `A/a`, `A/-`, loci separated by spaces",),
            )


def _genotypes(context: Context) -> Iterator[tuple[str, Place]]:
    for event in context.journal.events():
        if (text := event.text("genotype")) is not None:
            yield text, event.place_of("genotype")
    for page in context.journal.groups.values():
        if page.genotype is not None:
            yield page.genotype, page.places.get("genotype", page.place)
