"""What a seller's words on the generation claim, held against what parentage shows."""

import re
from dataclasses import dataclass
from enum import Enum

from filialog.lineage.generation import Generation, GenerationKind

__all__ = ["LabelClaim", "LabelVerdict", "claims_of_label", "seller_label_conflict"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelClaim:
    """One statement on the generation."""

    kind: GenerationKind
    """FOUNDER for `P`, FILIAL for `F2`, PURE for `I3`, BACKCROSS, or a kind of cross."""
    n: int | None = None
    """Its number; None where the words give none, as in `a backcross`."""
    then_filial: int | None = None
    """BACKCROSS only: the number of the filial generation after it."""


class LabelVerdict(Enum):
    """How a label stands against the generation computed from the recorded parents."""

    CLAIMS_NOTHING = "claims nothing"
    """No word in it speaks of a generation."""
    CANNOT_SAY = "cannot say"
    """The parents recorded neither show it nor rule it out."""
    AGREES = "agrees"
    OTHER_NUMBER = "other number"
    """The same sort of cross, but another generation of it."""
    OTHER_CROSS = "other cross"
    """Another sort of cross: what is called F2 is a backcross."""


_SIGNS = re.compile(
    r"(?<![\w-])(?:"
    r"(?P<pure>I)\s?(?P<i>\d{1,3})"
    r"|BC[\s-]?(?P<bc>\d{1,3})(?:\s?F\s?(?P<bcf>\d{1,3}))?"
    r"|F[\s-]?(?P<f>\d{1,3})"
    r"|(?P<p>P)"
    r")(?![\w-])"
)
_WORDS = (
    (
        re.compile(r"\b(\d{1,2})(?:st|nd|rd|th) (?:filial )?generation\b", re.IGNORECASE),
        GenerationKind.FILIAL,
    ),
    (re.compile(r"\bback[- ]?cross(?:ed|es)?\b", re.IGNORECASE), GenerationKind.BACKCROSS),
    (re.compile(r"\bout[- ]?cross(?:ed|es)?\b", re.IGNORECASE), GenerationKind.OUTCROSS),
    (re.compile(r"\b(?:3|three)[- ]way\b", re.IGNORECASE), GenerationKind.THREE_WAY),
    (re.compile(r"\b(?:4|four)[- ]way\b", re.IGNORECASE), GenerationKind.FOUR_WAY),
)
_OUTCROSSES = (GenerationKind.OUTCROSS, GenerationKind.THREE_WAY)


def claims_of_label(text: str) -> tuple[LabelClaim, ...]:
    """Read what a seller's label claims.

    Parameters
    ----------
    text
        The label as quoted.

    Returns
    -------
    tuple of LabelClaim
        In the order of the text, signs before words, each once; empty where nothing in
        it is understood. A word that an understood sign already says in full is left out.

    Notes
    -----
    Read are the signs of genetics (P and I only as capitals), and backcross, outcross,
    three-way, four-way and `2nd generation` in English words.

    References
    ----------
    .. [1] Signs as in `generation_label`. That sellers write them freely is common
       practice, no source.

    Examples
    --------
    >>> [(claim.kind.name, claim.n) for claim in claims_of_label("tank-bred, f2 (backcross)")]
    [('FILIAL', 2), ('BACKCROSS', None)]
    >>> claims_of_label("very blue")
    ()
    """
    found: list[LabelClaim] = []
    for match in _SIGNS.finditer(_signs_as_capitals(text)):
        if match["pure"]:
            claim = LabelClaim(kind=GenerationKind.PURE, n=int(match["i"]))
        elif match["bc"]:
            filial = int(match["bcf"]) if match["bcf"] else 1
            claim = LabelClaim(
                kind=GenerationKind.BACKCROSS, n=int(match["bc"]), then_filial=filial
            )
        elif match["f"]:
            claim = LabelClaim(kind=GenerationKind.FILIAL, n=int(match["f"]))
        else:
            claim = LabelClaim(kind=GenerationKind.FOUNDER)
        found.append(claim)
    signs = {claim.kind for claim in found}
    for pattern, kind in _WORDS:
        for match in pattern.finditer(text):
            if kind is GenerationKind.FILIAL:
                found.append(LabelClaim(kind=kind, n=int(match[1])))
            elif kind not in signs:
                found.append(LabelClaim(kind=kind))
    return tuple(dict.fromkeys(found))


def _signs_as_capitals(text: str) -> str:
    """Write f2 and bc1 large; a small p or i is too often a letter of something else."""
    return re.sub(
        r"\b(?:bc|f)(?=[\s-]?\d)", lambda match: match[0].upper(), text, flags=re.IGNORECASE
    )


def seller_label_conflict(text: str, generation: Generation) -> LabelVerdict:
    """Say whether a quoted label contradicts the generation that parentage shows.

    Parameters
    ----------
    text
        The label as quoted.
    generation
        The label computed by `generation_label`.

    Returns
    -------
    LabelVerdict
        OTHER_NUMBER and OTHER_CROSS are conflicts. Of several claims, as of several
        alternatives of the generation, it is enough that one agrees.

    Notes
    -----
    Of founders nothing lies before them in the record, so a label on them is neither
    shown nor ruled out; likewise where a parent is unknown, or nothing simple can be
    said. Counting in a pure line begins with its founders here, who can be of any
    generation there: only a label that is lower than the recorded number conflicts.

    References
    ----------
    .. [1] As `generation_label`. Calling a backcross F2 is common practice, no source.

    Examples
    --------
    >>> back = Generation(
    ...     kind=GenerationKind.BACKCROSS,
    ...     strains=("blue", "wild"),
    ...     n=1,
    ...     then_filial=1,
    ...     recurrent="blue",
    ... )
    >>> seller_label_conflict("F2, very blue", back).value
    'other cross'
    >>> seller_label_conflict("very blue", back).value
    'claims nothing'
    """
    verdicts = {
        _verdict(claim, simple)
        for claim in claims_of_label(text)
        for simple in generation.alternatives or (generation,)
    }
    if not verdicts:
        return LabelVerdict.CLAIMS_NOTHING
    return min(verdicts, key=_STRENGTH.index)


_STRENGTH = (
    LabelVerdict.AGREES,
    LabelVerdict.CANNOT_SAY,
    LabelVerdict.OTHER_NUMBER,
    LabelVerdict.OTHER_CROSS,
)


def _verdict(claim: LabelClaim, generation: Generation) -> LabelVerdict:
    kind = generation.kind
    if kind in (GenerationKind.FOUNDER, GenerationKind.UNKNOWN):
        return LabelVerdict.CANNOT_SAY
    if kind is GenerationKind.MIXED and not generation.parents:
        return LabelVerdict.CANNOT_SAY
    if claim.kind is GenerationKind.FOUNDER:
        return LabelVerdict.OTHER_CROSS
    if kind is GenerationKind.PURE:
        return _in_pure_line(claim, generation)
    if claim.kind in _OUTCROSSES and kind in _OUTCROSSES:
        # Every three-way cross is an outcross, though not the other way round.
        wider = claim.kind is GenerationKind.OUTCROSS
        return LabelVerdict.AGREES if wider or claim.kind is kind else LabelVerdict.OTHER_CROSS
    if claim.kind is not kind:
        return LabelVerdict.OTHER_CROSS
    if claim.n is None:
        return LabelVerdict.AGREES
    same = (claim.n, claim.then_filial) == (generation.n, generation.then_filial)
    return LabelVerdict.AGREES if same else LabelVerdict.OTHER_NUMBER


def _in_pure_line(claim: LabelClaim, generation: Generation) -> LabelVerdict:
    if claim.kind not in (GenerationKind.PURE, GenerationKind.FILIAL) or claim.n is None:
        return LabelVerdict.OTHER_CROSS
    fewest, most = generation.fewest, generation.most
    if fewest is None or most is None:
        return LabelVerdict.CANNOT_SAY
    if claim.n < fewest:
        return LabelVerdict.OTHER_NUMBER
    return LabelVerdict.AGREES if claim.n <= most else LabelVerdict.CANNOT_SAY
