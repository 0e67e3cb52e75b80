"""What may be said of the genotype of a group to someone who takes its animals."""

from markupsafe import Markup

from filialog.analysis.rows import GroupRow, Level
from filialog.messages import portion_text
from filialog.pages.here import Here
from filialog.pages.parts import Fact, fact, is_half_sided, is_misfit

__all__ = ["genotype_claim"]


def genotype_claim(here: Here, row: GroupRow) -> Fact:
    """Return the claim with its level: shown, certain, claimed, expected or unknown."""
    words = here.words
    found = [one for one in row.genotypes if one.probability > 0.0]
    if row.contradiction:
        return _unknown(here, "contradiction")
    if is_half_sided(row):
        return _unknown(here, "half-sided")
    if not found:
        return _unknown(here, "no-genotypes" if row.model else "no-model")
    if len(found) == 1:
        return _of_one(here, row)
    if is_misfit(here, row):
        return _unknown(here, "misfit")
    told = [
        words("genotype-portion.carry", portion=portion_text(words, probability), allele=allele)
        for allele, probability in row.hidden
        if probability > 0.0
    ] or [
        words(
            "genotype-portion.have",
            portion=portion_text(words, one.probability),
            genotype=one.genotype,
        )
        for one in found
    ]
    expected = words("list.comma").join(told)
    return fact(here, words.rich("genotype-expected", expected=expected), row.genotypes_level)


def _unknown(here: Here, why: str) -> Fact:
    return fact(here, here.words.rich("genotype-unknown", pick=why), Level.INFERRED)


def _of_one(here: Here, row: GroupRow) -> Fact:
    words = here.words
    (only,) = (one for one in row.genotypes if one.probability > 0.0)
    genotype = Markup("<code>{}</code>").format(only.genotype)
    look = only.look or words("look.unknown")
    if only.look is not None and _tells_all(here, row, only.look) and _was_seen(row, only.look):
        text = words.rich("genotype-shown", look=look, genotype=genotype)
        return fact(here, text, Level.OBSERVED)
    if is_misfit(here, row):
        return _unknown(here, "misfit")
    key = "claimed" if row.genotypes_level is Level.CLAIMED else "certain"
    text = words.rich("genotype-one", pick=key, look=look, genotype=genotype)
    return fact(here, text, row.genotypes_level)


def _tells_all(here: Here, row: GroupRow, look: str) -> bool:
    """Say whether one genotype only shows this look."""
    if look not in here.results.looks():
        return False
    ways = [model for model, _ in here.results.look(look).genotypes if model == row.model]
    return len(ways) == 1


def _was_seen(row: GroupRow, look: str) -> bool:
    """Say whether the look was recorded of the group, or counted of all that were looked at."""
    if row.look is not None:
        return row.look.whole == look
    counted = [tally for tally in row.tallies if any(count.low for _, count in tally.looks)]
    return bool(counted) and all(
        name == look or count.high == 0 for tally in counted for name, count in tally.looks
    )
