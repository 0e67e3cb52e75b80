"""All counts of broods side by side, with allowance for their number."""

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD, BROODS_OF_CROSS, CROSSES
from filialog.analysis.rows import CountLine, CountsRow
from filialog.analysis.tables import BROOD_TABLE
from filialog.statistics import Verdict, benjamini_hochberg

__all__ = ["COUNTS"]


def _counts(reader: Reader, _: str) -> CountsRow:
    """Collect the table of every brood; crosses are left out, whose broods are here already."""
    found = []
    for cross in reader.get(CROSSES):
        for brood in reader.get(BROODS_OF_CROSS, cross):
            row, table = reader.get(BROOD, brood), reader.get(BROOD_TABLE, brood).table
            if row is None or table is None or not table.sorted_number:
                continue
            found.append((row, table))
    together = benjamini_hochberg([table.judgement.p_value for _, table in found])
    lines = [
        CountLine(
            brood=row.group,
            cross=row.cross,
            when=row.when,
            number=table.sorted_number,
            p_value=table.judgement.p_value,
            adjusted_p=adjusted,
            stands_out=place in together.found,
            verdict=table.judgement.verdict,
            events=table.events,
        )
        for place, ((row, table), adjusted) in enumerate(zip(found, together.adjusted, strict=True))
    ]
    return CountsRow(
        lines=tuple(sorted(lines, key=lambda line: (line.p_value, line.brood))),
        misfits=sum(line.verdict is Verdict.DOES_NOT_FIT for line in lines),
        standing=sum(line.stands_out and line.verdict is Verdict.DOES_NOT_FIT for line in lines),
    )


COUNTS: NodeKind[CountsRow] = NodeKind("counts", _counts)
"""Every brood that was counted by look, the count that fits least first."""
