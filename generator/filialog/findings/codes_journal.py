"""Codes of findings about sense: names (N), the book of animals (L), parentage (P), traits (T)."""

from filialog.findings.code import Code
from filialog.findings.finding import Severity

__all__ = ["JOURNAL_CODES"]

JOURNAL_CODES: tuple[Code, ...] = (
    Code(
        code="N101",
        severity=Severity.ERROR,
        title="group not known",
        why="An event about a group that no entry brings into being would be lost.",
        example="died: {group: amber-sok, count: 1}",
        better="died: {group: amber-stock, count: 1}",
    ),
    Code(
        code="N102",
        severity=Severity.ERROR,
        title="tank not known",
        why=(
            "Where tanks have pages, a tank without one is most likely misspelt, and its events"
            " would stand apart from the others."
        ),
        example="moved: {group: amber-stock, to: rowam}",
        better="moved: {group: amber-stock, to: rowan}",
    ),
    Code(
        code="N103",
        severity=Severity.WARNING,
        title="look that no trait model has",
        why=(
            "It is kept in the number counted and listed as unexplained, but it cannot speak"
            " for or against an expectation."
        ),
        example="looks: {amberglas: 5, slate: 14}",
        better="looks: {amberglass: 5, slate: 14}",
    ),
    Code(
        code="N104",
        severity=Severity.WARNING,
        title="scale or step that no line declares",
        why="A score enters a mean only where a line says which steps are better and which worse.",
        example="graded: {group: amber-young, scale: band, values: {wyde: 3}}",
        better="graded: {group: amber-young, scale: band, values: {wide: 3}}",
    ),
    Code(
        code="N105",
        severity=Severity.WARNING,
        title="page of a group the diary does not know",
        why="The page is shown nowhere until an entry brings the group into being.",
    ),
    Code(
        code="N106",
        severity=Severity.ERROR,
        title="two names for one address",
        why=(
            "Addresses are fixed by name, and some disks and hosts do not tell capitals from"
            " small letters."
        ),
    ),
    Code(
        code="N107",
        severity=Severity.WARNING,
        title="link that leads nowhere",
        why="The words are shown, without a link.",
        example="Moved the [[amber-yung]].",
        better="Moved the [[amber-young]].",
    ),
    Code(
        code="L101",
        severity=Severity.ERROR,
        title="more taken than can be there",
        why=(
            "Animals cannot leave twice. Either a count or a name is wrong, or an event is"
            " missing; every later number of the group would be wrong with it."
        ),
        example="sold: {group: amber-pair, count: 3}   # a pair was bought, none hatched",
        better="sold: {group: amber-pair, count: 2}",
    ),
    Code(
        code="L102",
        severity=Severity.ERROR,
        title="group not in that tank",
        why="The book has the group elsewhere: a move is missing, or a name is wrong.",
    ),
    Code(
        code="L103",
        severity=Severity.ERROR,
        title="group used before it is there",
        why="Nothing can happen to animals before they came, hatched or were sorted out.",
    ),
    Code(
        code="L104",
        severity=Severity.ERROR,
        title="animals in a tank that was taken down",
        why="A closed tank holds no water. One of the dates is wrong, or it is in use again.",
    ),
    Code(
        code="L201",
        severity=Severity.NOTE,
        title="more counted than on the book",
        why=(
            "Young born unseen, a missed move or a double count. The difference is kept as"
            " unaccounted, and shown."
        ),
    ),
    Code(
        code="L203",
        severity=Severity.WARNING,
        title="more dead than the book has in the tank",
        why="Bodies are facts, so the book must lack something. The difference is unaccounted.",
    ),
    Code(
        code="L204",
        severity=Severity.NOTE,
        title="fewer counted than on the book",
        why=(
            "Most losses among dwarf shrimp are never seen. The difference is kept as"
            " unaccounted, and shown."
        ),
    ),
    Code(
        code="L205",
        severity=Severity.WARNING,
        title="tank taken down with animals on its book",
        why="From then on nobody can say where they are.",
        example="closed: true",
        better="closed: {left: {young: some}}",
    ),
    Code(
        code="P101",
        severity=Severity.ERROR,
        title="animal as its own ancestor",
        why="Descent has no circles; nothing can be computed from one.",
    ),
    Code(
        code="P102",
        severity=Severity.ERROR,
        title="brood older than its parents' first breeding age",
        why=(
            "No animal breeds before its earliest maturity, and eggs need their time. A date or"
            " a name is wrong."
        ),
    ),
    Code(
        code="P103",
        severity=Severity.ERROR,
        title="parent of the wrong sex",
        why="Males only cannot be dams, females only cannot be sires.",
    ),
    Code(
        code="P104",
        severity=Severity.WARNING,
        title="named parent that the book rules out",
        why=(
            "What is named is computed with. Where it cannot be, the name, a date or a move is"
            " wrong, and every figure of the young with it."
        ),
        example="hatched: {brood: fen-07, sires: dusk}   # dusk was sold two months before",
        better="hatched: {brood: fen-07, sires: dawn}",
    ),
    Code(
        code="P105",
        severity=Severity.WARNING,
        title="one animal of two sexes",
        why=(
            "An animal is dam or sire. Two animals under one name, or a wrong name, would join"
            " two lines that have nothing in common."
        ),
        example="hatched: {brood: fen-08, sires: nick}   # nick was the dam of fen-07",
        better="hatched: {brood: fen-08, sires: notch}",
    ),
    Code(
        code="T101",
        severity=Severity.ERROR,
        title="genotype that no trait model can read",
        why="A genotype is written with the alleles that the trait model declares.",
        example="genotype: Amber/amber",
        better="genotype: G/g",
    ),
)
"""In the order of the rules that make them."""
