"""The results of a journal, by subject: what pages are given."""

from collections.abc import Sequence
from datetime import date

from filialog.analysis.forecast_rows import ForecastRow
from filialog.analysis.forecasts import FORECAST, forecast_subject
from filialog.analysis.groups import CROSS, GROUP
from filialog.analysis.line_rows import LineRow
from filialog.analysis.lines import LINE
from filialog.analysis.look_pages import LOOK, LOOKS, UNEXPLAINED
from filialog.analysis.looks import MODEL, PRIOR_LAW
from filialog.analysis.nodes import Evaluator
from filialog.analysis.offers import LOT, LOTS
from filialog.analysis.overview import COUNTS
from filialog.analysis.parentage import BROOD, BROODS_OF_CROSS, CROSSES
from filialog.analysis.pedigree_graph import KIN, KinRow
from filialog.analysis.pedigrees import PEDIGREE
from filialog.analysis.relation_rows import RelativesRow
from filialog.analysis.relations import RELATIVES
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
from filialog.analysis.strays import STRAYS
from filialog.analysis.tables import BROOD_TABLE, CROSS_TABLE
from filialog.analysis.tanks import HOLDINGS, TANK, TANKS
from filialog.journal import CheckedJournal
from filialog.journal.events import Event, EventId
from filialog.journal.records import Journal

__all__ = ["JournalResults"]


class JournalResults:
    """Everything computed from one journal, each result once."""

    def __init__(self, checked: CheckedJournal) -> None:
        self.evaluator = Evaluator(checked)
        self._events = {
            event.id: event for entry in checked.journal.entries for event in entry.events
        }
        # Parents before young: a line of hundreds of generations needs no deep recursion. A
        # parent is looked at under the model of its young, whatever its own is.
        groups = [
            pool.name
            for pool in self.evaluator.get(PEDIGREE, "").ordered
            if pool.name in checked.names.origins
        ]
        models = {self.evaluator.get(MODEL, group) for group in groups} - {None}
        for model in sorted(filter(None, models)):
            for group in groups:
                self.evaluator.get(PRIOR_LAW, f"{model}/{group}")

    @property
    def journal(self) -> Journal:
        """The journal in the view that is published."""
        return self.evaluator.checked.journal

    @property
    def as_of(self) -> date:
        """The last day of the journal, or the day asked for."""
        return self.evaluator.checked.as_of

    def groups(self) -> tuple[str, ...]:
        """Name every group, in order of first mention."""
        return tuple(self.evaluator.checked.names.origins)

    def group(self, name: str) -> GroupRow:
        """Return the row of a group."""
        return self.evaluator.get(GROUP, name)

    def relatives(self, group: str) -> RelativesRow:
        """Return the groups related to a group, and those that are not."""
        return self.evaluator.get(RELATIVES, group)

    def kin(self, group: str) -> KinRow:
        """Return a group with the groups one step behind it."""
        return self.evaluator.get(KIN, group)

    def tanks(self) -> tuple[str, ...]:
        """Name every tank."""
        return self.evaluator.get(TANKS, "")

    def tank(self, name: str) -> TankRow:
        """Return the row of a tank."""
        return self.evaluator.get(TANK, name)

    def lines(self) -> tuple[str, ...]:
        """Name every line."""
        return tuple(sorted(self.journal.lines))

    def line(self, name: str) -> LineRow:
        """Return the row of a line."""
        return self.evaluator.get(LINE, name)

    def crosses(self) -> tuple[str, ...]:
        """Give the identifier of every cross, by the first hatching."""
        return self.evaluator.get(CROSSES, "")

    def cross(self, identifier: str) -> CrossRow:
        """Return the row of a cross."""
        return self.evaluator.get(CROSS, identifier)

    def brood(self, name: str) -> BroodRow | None:
        """Return the row of a brood; None for a group that is none."""
        return self.evaluator.get(BROOD, name)

    def table(self, brood: str) -> BroodTable:
        """Return what there is to say about the looks of a brood."""
        return self.evaluator.get(BROOD_TABLE, brood)

    def cross_table(self, cross: str) -> BroodTable:
        """Return what there is to say about the looks of all broods of a cross."""
        return self.evaluator.get(CROSS_TABLE, cross)

    def counts(self) -> CountsRow:
        """Return the counts of all broods side by side."""
        return self.evaluator.get(COUNTS, "")

    def forecast(
        self, *, dams: Sequence[str], sires: Sequence[str], model: str | None = None
    ) -> ForecastRow:
        """Return what the young of a pairing of known groups or written genotypes would be."""
        subject = forecast_subject(dams=dams, sires=sires, model=model)
        return self.evaluator.get(FORECAST, subject)

    def holdings(self, day: date) -> tuple[HoldingRow, ...]:
        """Return who is where at the end of a day."""
        return self.evaluator.get(HOLDINGS, day.isoformat())

    def looks(self) -> tuple[str, ...]:
        """Name every look of the trait models in use."""
        return self.evaluator.get(LOOKS, "")

    def look(self, name: str) -> LookRow:
        """Return the row of a look."""
        return self.evaluator.get(LOOK, name)

    def unexplained(self) -> tuple[UnexplainedRow, ...]:
        """Return animals seen that no trait model explains, by day."""
        return self.evaluator.get(UNEXPLAINED, "")

    def lots(self) -> tuple[str, ...]:
        """Name every lot that was put on offer, by day."""
        return self.evaluator.get(LOTS, "")

    def lot(self, name: str) -> LotRow:
        """Return the row of a lot."""
        return self.evaluator.get(LOT, name)

    def strays(self, group: str) -> tuple[StrayRow, ...]:
        """Return strays recorded in the tanks of a group while it was there."""
        return self.evaluator.get(STRAYS, group)

    def strays_of_cross(self, cross: str) -> tuple[StrayRow, ...]:
        """Return strays recorded where broods of a cross were, each once."""
        found = dict.fromkeys(
            row
            for brood in self.evaluator.get(BROODS_OF_CROSS, cross)
            for row in self.strays(brood)
        )
        return tuple(found)

    def event(self, identifier: EventId) -> Event | None:
        """Return an event that may be shown; None for one that may not."""
        return self._events.get(identifier)
