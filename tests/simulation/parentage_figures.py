"""How parent sets compare with the truth and with a brute-force oracle, over random journals.

    python tests/simulation/parentage_figures.py [journals]

prints how often a true parent was missed, how large the sets are beside the oracle's, and how
often parents are missed in journals where an animal jumped into another tank, written down or not.
"""

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from filialog.analysis import JournalResults
from filialog.analysis.rows import BroodRow
from filialog.build import RealFiles
from filialog.build.shipped import Shipped, read_shipped
from filialog.findings import Severity
from filialog.findings.catalogue import severity_of
from filialog.journal import check_journal
from filialog.journal.parentage import Claim
from filialog.reading import read_journal
from simulation.parentage_oracle import ParentSets, TooManyWorldsError, possible_parents
from simulation.tank_histories import History, tank_history
from simulation.tank_life import Birth
from simulation.tank_records import Record
from tools.diaries import diary_files

__all__ = [
    "BrokenJournalError",
    "Figures",
    "Verdict",
    "brood_rows",
    "figures",
    "judged",
    "random_journals",
    "written",
]

_SETTINGS = "species: neocaridina-davidi\n"


class BrokenJournalError(Exception):
    """The program finds an error in a journal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """The parent sets of one brood, beside the truth and the oracle."""

    seed: int
    birth: Birth
    dams: frozenset[str]
    sires: frozenset[str]
    dam_claim: Claim
    sire_claim: Claim
    oracle: ParentSets

    @property
    def dam_missed(self) -> bool:
        """True where the true dam is in no group of the set."""
        return not self.dams & self.birth.dam

    @property
    def sire_missed(self) -> bool:
        """True where a true sire is in no group of the set."""
        return any(not self.sires & sire for sire in self.birth.sires)

    @property
    def firm_and_missed(self) -> bool:
        """True where a parent is missed whose side is called firm."""
        return (self.dam_missed and self.dam_claim is Claim.FIRM) or (
            self.sire_missed and self.sire_claim is Claim.FIRM
        )

    @property
    def overclaimed(self) -> bool:
        """True where a side is called firm although the records allow another parent."""
        return (self.dam_claim is Claim.FIRM and not self.oracle.dams <= self.dams) or (
            self.sire_claim is Claim.FIRM and not self.oracle.sires <= self.sires
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Sums over the broods of many journals."""

    journals: int
    broods: int
    dams: int
    sires: int
    """Groups in all dam sets, and in all sire sets."""
    oracle_dams: int
    oracle_sires: int
    strayed: int
    """Broods of which a parent was in a tank that the records do not have it in."""
    misses: tuple[Verdict, ...]
    overclaims: tuple[Verdict, ...]
    """Broods of which a side is called firm although the records allow another parent."""

    @property
    def ratio(self) -> float:
        """Mean size of the sets over that of the oracle's."""
        return (self.dams + self.sires) / (self.oracle_dams + self.oracle_sires)

    @property
    def firm(self) -> int:
        """Broods of which a parent is missed although its side is called firm."""
        return sum(one.firm_and_missed for one in self.misses)

    @property
    def miss_rate(self) -> float:
        """Share of broods of which a true parent is missed."""
        return len(self.misses) / self.broods

    def __str__(self) -> str:
        """Say the figures in a few lines."""
        means = [
            number / self.broods
            for number in (self.dams, self.oracle_dams, self.sires, self.oracle_sires)
        ]
        lines = [
            f"{self.journals} journals, {self.broods} broods",
            f"a true parent missed: {len(self.misses)} broods ({self.miss_rate:.1%})",
            "mean size of dam sets {:.3f} (oracle {:.3f}), of sire sets {:.3f} ({:.3f})".format(
                *means
            ),
            f"all sets over the oracle's: {self.ratio:.3f}",
        ]
        if self.strayed:
            missed = sum(one.birth.strayed for one in self.misses)
            lines.append(
                f"broods of which a parent had jumped: {self.strayed}, missed: {missed}"
                f" ({missed / self.strayed:.1%}), one side of them called firm: {self.firm}"
            )
        else:
            lines.append(f"called firm against the oracle: {len(self.overclaims)} broods")
        lines += [
            f"  missed in journal {one.seed}: {one.birth}, found dams {sorted(one.dams)}"
            f" and sires {sorted(one.sires)}, possible {one.oracle}"
            for one in self.misses[:5]
        ]
        return "\n".join(lines)


@cache
def _shipped() -> Shipped:
    return read_shipped(RealFiles())


def written(records: Sequence[Record], tanks: Sequence[str]) -> JournalResults:
    """Return what the program makes of records.

    Raises
    ------
    BrokenJournalError
        If it finds an error in them.
    """
    history = History(seed=0, tanks=tuple(tanks), records=tuple(records), births=())
    files = diary_files(history.diary, settings=_SETTINGS, tanks=tanks)
    read = read_journal(files, pictures=(), catalogue=_shipped().catalogue)
    assert read.journal is not None
    found = check_journal(read.journal)
    errors = [
        one for one in (*read.findings, *found.findings) if severity_of(one.code) is Severity.ERROR
    ]
    if errors:
        raise BrokenJournalError(f"{errors[0].code}: {errors[0].message}\n{history.diary}")
    return JournalResults(found)


def brood_rows(history: History) -> dict[str, BroodRow]:
    """Return the program's row of each brood of a history."""
    results = written(history.records, history.tanks)
    rows = {birth.brood: results.brood(birth.brood) for birth in history.births}
    return {brood: row for brood, row in rows.items() if row is not None}


def random_journals(
    number: int, *, stray: str | None = None
) -> Iterator[tuple[History, dict[str, ParentSets]]]:
    """Give so many random histories with their possible parents; such as fork too often are left.

    Unrecorded strays can have left records that no world fits: their sets are empty then.
    """
    seed = 0
    while number:
        history = tank_history(seed, stray=stray)
        seed += 1
        try:
            sets = possible_parents(history.records)
        except TooManyWorldsError:
            continue
        number -= 1
        yield history, sets


def judged(history: History, sets: dict[str, ParentSets]) -> tuple[Verdict, ...]:
    """Return the verdict of each brood of a history."""
    rows = brood_rows(history)
    assert set(rows) == set(sets) == {birth.brood for birth in history.births}
    return tuple(
        Verdict(
            seed=history.seed,
            birth=birth,
            dams=frozenset(rows[birth.brood].dams.groups),
            sires=frozenset(rows[birth.brood].sires.groups),
            dam_claim=rows[birth.brood].dams.claim,
            sire_claim=rows[birth.brood].sires.claim,
            oracle=sets[birth.brood],
        )
        for birth in history.births
    )


def figures(number: int, *, stray: str | None = None) -> Figures:
    """Return the figures of so many random journals."""
    verdicts = [
        verdict
        for history, sets in random_journals(number, stray=stray)
        for verdict in judged(history, sets)
    ]
    return Figures(
        journals=number,
        broods=len(verdicts),
        dams=sum(len(one.dams) for one in verdicts),
        sires=sum(len(one.sires) for one in verdicts),
        oracle_dams=sum(len(one.oracle.dams) for one in verdicts),
        oracle_sires=sum(len(one.oracle.sires) for one in verdicts),
        strayed=sum(one.birth.strayed for one in verdicts),
        overclaims=tuple(one for one in verdicts if one.overclaimed),
        misses=tuple(one for one in verdicts if one.dam_missed or one.sire_missed),
    )


def main() -> None:
    """Print the figures."""
    number = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    print("Honest records\n" + str(figures(number)))
    for stray in ("unrecorded", "recorded"):
        print(f"\nAn animal jumped in each journal, {stray}")
        print(figures(number, stray=stray))


if __name__ == "__main__":
    main()
