"""The page of all counts: each with its own p value, and one that allows for their number."""

from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import CountLine, CountsRow, Level
from filialog.messages import p_value_text, short_when_text
from filialog.pages.here import Here
from filialog.pages.parts import Frame, LevelMark, frame, level_mark
from filialog.statistics import Verdict

__all__ = ["CountsView", "counts_view"]

_MOST_SHOWN = 60
"""More rows make the page heavy; those left out are the ones that fit best."""
_VERDICTS = {
    Verdict.FITS: "fits",
    Verdict.DOES_NOT_FIT: "does-not-fit",
    Verdict.CANNOT_TELL: "cannot-tell",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class CountedBrood:
    """A brood and what its count says."""

    brood: Markup
    cross: Markup
    day: str
    number: str
    p_value: str
    adjusted: str
    verdict: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CountsView:
    """All counts of broods, the ones that fit least first."""

    frame: Frame
    opening: str
    counts: tuple[CountedBrood, ...]
    left_out: str
    """Words on those not shown; empty where all are."""
    method: tuple[str, ...]
    inferred: LevelMark


def counts_view(here: Here, _: str) -> CountsView:
    """Return the page of all counts."""
    words, row = here.words, here.results.counts()
    opening = _opening(here, row)
    rest = row.lines[_MOST_SHOWN:]
    return CountsView(
        frame=frame(here, heading=words("counts.heading"), section="crosses", description=opening),
        opening=opening,
        counts=tuple(_line(here, line) for line in row.lines[:_MOST_SHOWN]),
        left_out=words("counts.left-out", number=len(rest), n=len(rest)) if rest else "",
        method=(words("counts.own-p"), words("counts.adjusted-p"), words("counts.family")),
        inferred=level_mark(words, Level.INFERRED),
    )


def _opening(here: Here, row: CountsRow) -> str:
    words, number = here.words, len(row.lines)
    if not number:
        return words("counts.none")
    if not row.misfits:
        return words("counts.all-fit", number=number, n=number)
    if number == 1:
        return words("counts.only-misfit")
    said = words("counts.misfits", number=row.misfits, n=number, misfits=row.misfits)
    pick = "all" if row.standing == row.misfits else "some" if row.standing else "none"
    return f"{said} {words('counts-standing', pick=pick, n=row.standing)}"


def _line(here: Here, line: CountLine) -> CountedBrood:
    words = here.words
    pick = _VERDICTS[line.verdict]
    if line.verdict is Verdict.DOES_NOT_FIT and not line.stands_out:
        pick = "does-not-fit-alone"
    return CountedBrood(
        brood=here.group(line.brood),
        cross=here.cross(line.cross),
        day=short_when_text(words, line.when),
        number=str(line.number),
        p_value=p_value_text(words, line.p_value),
        adjusted=p_value_text(words, line.adjusted_p),
        verdict=words("counts-verdict", pick=pick),
    )
