"""A group's relatives: how related each is, and through whom."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from filialog.analysis.relation_rows import RelationRow, RelativesRow
from filialog.analysis.rows import Level
from filialog.lineage import RelationshipKind
from filialog.pages.group import group_title
from filialog.pages.here import Here
from filialog.pages.parts import Frame, LevelMark, capital, frame, level_mark
from filialog.pages.tables import coefficient_span

__all__ = ["RelativesView", "relation_text", "relatives_view"]

_MOST_NAMED = 300
"""Names in one run of text; a longer one is ended with how many more there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RelationLine:
    """Relatives of one kind, through the same groups, with the same kinship."""

    how: Markup
    kinship: str
    groups: Markup
    through: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class RelativesView:
    """Everything the page of a group's relatives shows."""

    frame: Frame
    opening: Markup
    back: Markup
    mates: str
    relatives: tuple[RelationLine, ...]
    further: str
    unrelated: Markup
    unknown: Markup
    inferred: LevelMark


def relatives_view(here: Here, subject: str) -> RelativesView:
    """Return the page of a group's relatives."""
    words, row = here.words, here.results.relatives(subject)
    opening = _opening(here, row)
    return RelativesView(
        frame=frame(
            here,
            heading=words("relatives.title", group=group_title(here, subject)),
            section="groups",
            description=opening.striptags(),
        ),
        opening=opening,
        back=words.rich("relatives.back", group=here.group(subject)),
        mates=_mates(here, row),
        relatives=_lines(here, row.relatives),
        further=_further(here, row),
        unrelated=_run(here, "unrelated", row.unrelated),
        unknown=_run(here, "unknown", row.unknown),
        inferred=level_mark(words, Level.INFERRED),
    )


def relation_text(here: Here, row: RelationRow) -> str:
    """Say what the other is to the group of the page, such as `half sisters and brothers`."""
    words = here.words
    back, on = row.generations_here, row.generations_there
    match row.kind:
        case RelationshipKind.PARENT_YOUNG:
            how = words("relation", pick="parent" if back else "young")
        case RelationshipKind.ANCESTOR:
            pick, n = ("ancestor", back) if back else ("descendant", on)
            how = words("relation", pick=pick, n=n)
        case RelationshipKind.COLLATERAL:
            how = words("relation", pick="collateral" if back or on else "common", n=back, m=on)
        case _:
            how = words("relation", pick=row.kind.value.replace(" ", "-"))
    return words("relation.possibly", how=how) if row.possible else how


def _opening(here: Here, row: RelativesRow) -> Markup:
    words = here.words
    if not row.relatives:
        pick = "unknown" if row.unknown else "none"
        return words.rich("relatives-opening", pick=pick, group=row.group)
    first = row.relatives[0]
    return words.rich(
        "relatives-opening",
        pick="some",
        number=len(row.relatives) + len(row.further),
        n=len(row.relatives) + len(row.further),
        group=row.group,
        first=here.group(first.other),
        how=relation_text(here, first),
        kinship=coefficient_span(words, first.kinship_low, first.kinship_high),
    )


def _mates(here: Here, row: RelativesRow) -> str:
    if row.mates_low is None or row.mates_high is None:
        return ""
    kinship = coefficient_span(here.words, row.mates_low, row.mates_high)
    return here.words("relatives.mates", group=row.group, kinship=kinship)


def _lines(here: Here, rows: Sequence[RelationRow]) -> tuple[RelationLine, ...]:
    """Return the relatives in their order; those that are related alike stand together."""
    alike: dict[tuple[str, str, tuple[str, ...]], list[str]] = {}
    for one in rows:
        kinship = coefficient_span(here.words, one.kinship_low, one.kinship_high)
        alike.setdefault((relation_text(here, one), kinship, one.through), []).append(one.other)
    return tuple(
        RelationLine(
            how=capital(escape(how)),
            kinship=here.words("relatives.kinship-of", kinship=kinship),
            groups=here.groups(names),
            through=here.words.rich("relatives.through", groups=here.groups(through))
            if through
            else Markup(""),
        )
        for (how, kinship, through), names in alike.items()
    )


def _further(here: Here, row: RelativesRow) -> str:
    if not row.further:
        return ""
    words = here.words
    named = [
        words("relatives.one", group=name, kinship=coefficient_span(words, low, high))
        for name, low, high in row.further[:_MOST_NAMED]
    ]
    more = len(row.further) - len(named)
    text = words("relatives.further", groups=words("list.comma").join(named))
    return text + (" " + words("relatives.more", number=more, n=more) if more else "")


def _run(here: Here, pick: str, names: tuple[str, ...]) -> Markup:
    if not names:
        return Markup("")
    words, more = here.words, len(names) - _MOST_NAMED
    named = words("list.comma").join(names[:_MOST_NAMED])
    text = words.rich("relatives-apart", pick=pick, groups=named)
    return text + (" " + words.rich("relatives.more", number=more, n=more) if more > 0 else "")
