"""What pages ask of the results: one protocol that analysis, or a test, fulfils."""

from datetime import date
from typing import Protocol

from filialog.analysis.line_rows import LineRow
from filialog.analysis.pedigree_graph import KinRow
from filialog.analysis.relation_rows import RelativesRow
from filialog.analysis.rows import (
    BroodRow,
    BroodTable,
    CountsRow,
    CrossRow,
    GroupRow,
    HoldingRow,
    LookRow,
    LotRow,
    StrayRow,
    TankRow,
    UnexplainedRow,
)
from filialog.journal.events import Event, EventId
from filialog.journal.records import Journal

__all__ = ["Results"]


class Results(Protocol):
    """Result rows by subject; the names a method lists are in the order pages show them."""

    @property
    def journal(self) -> Journal:
        """The journal in the view that is published."""

    @property
    def as_of(self) -> date:
        """The last day of the journal, or the day asked for."""

    def groups(self) -> tuple[str, ...]:
        """Name every group that has a page."""

    def group(self, name: str) -> GroupRow:
        """Return the row of a group."""

    def relatives(self, group: str) -> RelativesRow:
        """Return the groups related to a group, and those that are not."""

    def kin(self, group: str) -> KinRow:
        """Return a group with the groups one step behind it."""

    def tanks(self) -> tuple[str, ...]:
        """Name every tank that has a page."""

    def tank(self, name: str) -> TankRow:
        """Return the row of a tank."""

    def lines(self) -> tuple[str, ...]:
        """Name every line that has a page."""

    def line(self, name: str) -> LineRow:
        """Return the row of a line."""

    def crosses(self) -> tuple[str, ...]:
        """Give the identifier of every cross that has a page."""

    def cross(self, identifier: str) -> CrossRow:
        """Return the row of a cross."""

    def brood(self, name: str) -> BroodRow | None:
        """Return the row of a brood; None for a group that is none."""

    def table(self, brood: str) -> BroodTable:
        """Return what there is to say about the looks of a brood."""

    def cross_table(self, cross: str) -> BroodTable:
        """Return what there is to say about the looks of all broods of a cross."""

    def counts(self) -> CountsRow:
        """Return the counts of all broods side by side."""

    def holdings(self, day: date) -> tuple[HoldingRow, ...]:
        """Return who is where at the end of a day."""

    def looks(self) -> tuple[str, ...]:
        """Name every look that has a page."""

    def look(self, name: str) -> LookRow:
        """Return the row of a look."""

    def unexplained(self) -> tuple[UnexplainedRow, ...]:
        """Return animals seen that no trait model explains."""

    def lots(self) -> tuple[str, ...]:
        """Name every lot that was put on offer."""

    def lot(self, name: str) -> LotRow:
        """Return the row of a lot."""

    def strays(self, group: str) -> tuple[StrayRow, ...]:
        """Return strays recorded in the tanks of a group while it was there."""

    def strays_of_cross(self, cross: str) -> tuple[StrayRow, ...]:
        """Return strays recorded where broods of a cross were."""

    def event(self, identifier: EventId) -> Event | None:
        """Return an event that may be shown; None for one that may not."""
