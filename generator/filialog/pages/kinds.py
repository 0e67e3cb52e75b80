"""All kinds of pages, in one table: where they live, what they show, which template draws them."""

from collections.abc import Callable
from dataclasses import dataclass

from filialog.pages import addresses
from filialog.pages.about import about_view
from filialog.pages.counts import counts_view
from filialog.pages.cross import cross_view
from filialog.pages.diary import diary_view, entry_view, month_view, months
from filialog.pages.front import front_view
from filialog.pages.group import group_view
from filialog.pages.here import Here, Site
from filialog.pages.line import line_view
from filialog.pages.lists import crosses_view, groups_view, lines_view, tanks_view
from filialog.pages.look import look_view, looks_view
from filialog.pages.offers import offers_view
from filialog.pages.pedigree import pedigree_page
from filialog.pages.pedigree_walk import has_more
from filialog.pages.relatives import relatives_view
from filialog.pages.tank import tank_view

__all__ = ["PAGE_KINDS", "PageKind", "Subjects"]

Subjects = tuple[tuple[str, str], ...]
"""Subjects of a kind of page, each with its address."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageKind:
    """A kind of page."""

    name: str
    """Name, and stem of the template."""
    addresses: Callable[[Site], Subjects]
    """Every subject that has such a page, with the page's address."""
    view: Callable[[Here, str], object]
    """The view model of a subject: a frozen dataclass of finished text and links."""

    @property
    def template(self) -> str:
        """Name of the template."""
        return f"{self.name}.html.jinja"


def _one(address: str) -> Callable[[Site], Subjects]:
    return lambda _: (("", address),)


def _months(site: Site) -> Subjects:
    return tuple(
        (f"{year:04d}-{month:02d}", addresses.month_address(year=year, month=month))
        for year, month in months(site)
    )


def _entries(site: Site) -> Subjects:
    return tuple((name, addresses.entry_address(name)) for name in site.order)


def _groups(site: Site) -> Subjects:
    return tuple((name, addresses.group_address(name)) for name in site.results.groups())


def _relatives(site: Site) -> Subjects:
    return tuple((name, addresses.relatives_address(name)) for name in site.results.groups())


def _pedigrees(site: Site) -> Subjects:
    return tuple(
        (name, addresses.pedigree_address(name))
        for name in site.results.groups()
        if has_more(site.results, name)
    )


def _tanks(site: Site) -> Subjects:
    return tuple((name, addresses.tank_address(name)) for name in site.results.tanks())


def _lines(site: Site) -> Subjects:
    return tuple((name, addresses.line_address(name)) for name in site.results.lines())


def _looks(site: Site) -> Subjects:
    return tuple((name, addresses.look_address(name)) for name in site.results.looks())


def _crosses(site: Site) -> Subjects:
    return tuple((name, addresses.cross_address(name)) for name in site.results.crosses())


PAGE_KINDS = (
    PageKind(name="front", addresses=_one(addresses.FRONT), view=front_view),
    PageKind(name="diary", addresses=_one(addresses.DIARY), view=diary_view),
    PageKind(name="month", addresses=_months, view=month_view),
    PageKind(name="entry", addresses=_entries, view=entry_view),
    PageKind(name="tanks", addresses=_one(addresses.TANKS), view=tanks_view),
    PageKind(name="tank", addresses=_tanks, view=tank_view),
    PageKind(name="groups", addresses=_one(addresses.GROUPS), view=groups_view),
    PageKind(name="group", addresses=_groups, view=group_view),
    PageKind(name="relatives", addresses=_relatives, view=relatives_view),
    PageKind(name="pedigree", addresses=_pedigrees, view=pedigree_page),
    PageKind(name="crosses", addresses=_one(addresses.CROSSES), view=crosses_view),
    PageKind(name="cross", addresses=_crosses, view=cross_view),
    PageKind(name="counts", addresses=_one(addresses.COUNTS), view=counts_view),
    PageKind(name="lines", addresses=_one(addresses.LINES), view=lines_view),
    PageKind(name="line", addresses=_lines, view=line_view),
    PageKind(name="looks", addresses=_one(addresses.LOOKS), view=looks_view),
    PageKind(name="look", addresses=_looks, view=look_view),
    PageKind(name="offers", addresses=_one(addresses.OFFERS), view=offers_view),
    PageKind(name="about", addresses=_one(addresses.ABOUT), view=about_view),
)
"""Every kind of page there is."""
