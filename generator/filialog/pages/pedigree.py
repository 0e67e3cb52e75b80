"""A group's ancestors, drawn and as a table: the nearest beside it, all on their own page."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from filialog.analysis.pedigree_graph import KinRow
from filialog.analysis.rows import Level
from filialog.messages import either_text, list_text
from filialog.pages.addresses import group_address, pedigree_address
from filialog.pages.drawing import (
    SAMPLES,
    PedigreeNode,
    pedigree_svg,
    swatch_svg,
    symbol_svg,
)
from filialog.pages.here import Here
from filialog.pages.parts import Frame, LevelMark, frame, generation_label, level_mark
from filialog.pages.pedigree_nodes import death_of, look_of_kin, number_of_kin, pedigree_nodes
from filialog.pages.pedigree_walk import MOST_BESIDE, MOST_DRAWN, Walk, nearest_kin

__all__ = [
    "KinLine",
    "LegendLine",
    "PedigreePage",
    "PedigreeView",
    "pedigree_page",
    "pedigree_view",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class KinLine:
    """A group of the pedigree, and where it comes from."""

    group: Markup
    generation: str
    look: str
    number: str
    comes_from: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class LegendLine:
    """A sign of the drawing, and what it means."""

    sample: Markup
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PedigreeView:
    """A pedigree, drawn and as a table."""

    nodes: tuple[PedigreeNode, ...]
    label: str
    describe: str
    legend: tuple[LegendLine, ...]
    """The signs that the drawing uses, then its looks."""
    kin: tuple[KinLine, ...]
    """Every group once, the nearest first."""
    whole: Markup
    """Where more ancestors are drawn; empty where there are no more."""

    @property
    def drawing(self) -> Markup:
        """The drawing, made only when the page is: it costs more than all the rest of a page."""
        return pedigree_svg(self.nodes, title=self.label, describe=self.describe)


@dataclass(frozen=True, slots=True, kw_only=True)
class PedigreePage:
    """The page of a whole pedigree."""

    frame: Frame
    opening: Markup
    inferred: LevelMark
    pedigree: PedigreeView


def pedigree_view(here: Here, group: str) -> PedigreeView | None:
    """Return the nearest ancestors of a group; None where nothing of its parents is recorded."""
    walk = nearest_kin(here.results, group, most=MOST_BESIDE)
    if len(walk.rows) < 2:
        return None
    whole = Markup("")
    if walk.cut:
        whole = here.link(here.words("pedigree.to-whole"), pedigree_address(group))
    return _view(here, walk, whole=whole)


def pedigree_page(here: Here, subject: str) -> PedigreePage:
    """Return the page of all ancestors of a group, or of the nearest of very many."""
    words = here.words
    walk = nearest_kin(here.results, subject, most=MOST_DRAWN)
    page = here.results.journal.groups.get(subject)
    title = page.title if page is not None and page.title else subject
    opening = words.rich(
        "pedigree-opening",
        pick="nearest" if walk.cut else "whole",
        group=here.link(title, group_address(subject)),
        n=len(walk.rows) - 1,
    )
    return PedigreePage(
        frame=frame(
            here,
            heading=words("pedigree.title", group=title),
            section="groups",
            description=opening.striptags(),
        ),
        opening=opening,
        inferred=level_mark(words, Level.INFERRED),
        pedigree=_view(here, walk, whole=Markup("")),
    )


def _view(here: Here, walk: Walk, *, whole: Markup) -> PedigreeView:
    words, nodes = here.words, pedigree_nodes(here, walk)
    return PedigreeView(
        nodes=nodes,
        label=words("pedigree.title", group=walk.rows[0].group),
        describe=words("pedigree.describe"),
        legend=(*_signs(here, nodes), *_looks(here, nodes)),
        kin=tuple(_kin_line(here, row) for row in walk.rows),
        whole=whole,
    )


def _signs(here: Here, nodes: Sequence[PedigreeNode]) -> tuple[LegendLine, ...]:
    """Explain the signs of a drawing, each that occurs."""
    sides = {side for node in nodes for _, side in node.parents}
    used = {str(node.sex) for node in nodes if not node.is_set} | sides | {"subject"}
    for sign, found in (
        ("several", any(node.number is not None for node in nodes)),
        ("deceased", any(node.deceased for node in nodes)),
        ("set", any(node.is_set for node in nodes)),
        ("related", any(node.kin_parents and not node.goes_on for node in nodes)),
        ("goes-on", any(node.goes_on for node in nodes)),
    ):
        if found:
            used.add(sign)
    return tuple(
        LegendLine(sample=symbol_svg(sample), says=here.words("legend", pick=sample))
        for sample in SAMPLES
        if sample in used
    )


def _looks(here: Here, nodes: Sequence[PedigreeNode]) -> tuple[LegendLine, ...]:
    found = {
        node.look: node.swatch
        for node in nodes
        if node.look is not None and node.swatch is not None
    }
    return tuple(
        LegendLine(sample=swatch_svg(swatch), says=here.words("legend-look", look=look))
        for look, swatch in sorted(found.items())
    )


def _kin_line(here: Here, row: KinRow) -> KinLine:
    words = here.words
    known = here.site.address_of(row.group, ("group",)) is not None
    number = number_of_kin(here, row.group) or ("1" if known else "")
    died = death_of(here, row.group)
    if died:
        number = words("list.comma").join((number, words("pedigree.died", day=died)))
    return KinLine(
        group=here.group(row.group),
        generation=generation_label(words, here.results.group(row.group).generation)
        if known
        else "",
        look=look_of_kin(here, row.group) or "",
        number=number,
        comes_from=_comes_from(here, row),
    )


def _comes_from(here: Here, row: KinRow) -> Markup:
    words = here.words
    said: list[Markup] = []
    if row.dams or row.sires:
        for side, groups in (("dam", row.dams), ("sire", row.sires)):
            named = either_text(words, [here.group(group) for group in groups])
            unknown = escape(words("pedigree.unknown"))
            said.append(words.rich("pedigree-from", pick=side, groups=named if groups else unknown))
    elif row.hatched:
        said.append(words.rich("pedigree-from", pick="hatched"))
    if row.sources:
        groups_named = list_text(words, [here.group(group) for group in row.sources])
        said.append(words.rich("pedigree-from", pick="part", groups=groups_named))
    if not said:
        return words.rich("pedigree-from", pick="founder")
    return Markup("; ").join(said)
