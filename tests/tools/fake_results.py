"""A small journal with results made by hand, for tests of pages: nothing of it is computed."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from filialog.analysis.line_rows import (
    BandKind,
    FigureName,
    GoalState,
    GradeMean,
    GradeRow,
    LineBand,
    LineFigure,
    LineGeneration,
    LineRow,
    ResponseRow,
    SurvivalRow,
    WhyNot,
)
from filialog.analysis.pedigree_graph import KinRow
from filialog.analysis.relation_rows import RelativesRow
from filialog.analysis.rows import (
    Assumption,
    BookLine,
    BroodRow,
    BroodTable,
    CountLine,
    CountsRow,
    CrossRow,
    FounderShareRow,
    GenotypeRow,
    GroupRow,
    HoldingRow,
    Level,
    LookLine,
    LookRow,
    LookSeenIn,
    LotRow,
    LotState,
    Mention,
    ReadingRow,
    SortedIn,
    Stay,
    StrayRow,
    Table,
    TallyRow,
    TankRow,
    UnexplainedRow,
    WaterChangeRow,
)
from filialog.findings.finding import Place
from filialog.genetics import (
    Condition,
    ConditionKind,
    Locus,
    LookRule,
    TraitModel,
)
from filialog.journal.events import (
    Event,
    EventId,
    LookCount,
    LookSeen,
    Other,
    Parents,
    Sorting,
    Value,
)
from filialog.journal.parentage import Claim, ParentSet
from filialog.journal.quantities import Age, Count, Reading, When
from filialog.journal.records import (
    Edition,
    Entry,
    GroupPage,
    Journal,
    LinePage,
    Link,
    LinkTarget,
    Piece,
    Prose,
    Scale,
    Section,
    Settings,
    Species,
    TankPage,
    TraitPage,
)
from filialog.lineage import Completeness, Generation, GenerationKind, KinshipRange
from filialog.statistics import judge, wilson_interval

__all__ = ["FakeResults", "empty_results", "event", "fake_results", "kin", "theme"]

PLACE = Place("diary/x.md", 1)
FOUNDER = Generation(kind=GenerationKind.FOUNDER, strains=("slate",))
F1 = Generation(kind=GenerationKind.FILIAL, strains=("ivory", "slate"), n=1, fewest=1, most=1)
F2 = Generation(kind=GenerationKind.FILIAL, strains=("ivory", "slate"), n=2, fewest=2, most=2)


def theme() -> Mapping[str, str]:
    """Return the texts of the shipped theme."""
    folder = Path(__file__).resolve().parents[2] / "themes" / "plain"
    return {path.name: path.read_text("utf-8") for path in sorted(folder.iterdir())}


def event(entry: str, number: int, kind: str, day: str, tank: str | None, **values: Value) -> Event:
    """Make an event; an underscore in a key stands for a hyphen, one at its end for nothing."""
    named = {key.removesuffix("_").replace("_", "-"): value for key, value in values.items()}
    return Event(
        id=EventId(entry, number),
        kind_name=kind,
        when=When.on(date.fromisoformat(day)),
        tank=tank,
        private=False,
        values=named,
        place=PLACE,
        places={},
    )


def kin(
    group: str,
    *,
    sources: tuple[str, ...] = (),
    dams: tuple[str, ...] = (),
    sires: tuple[str, ...] = (),
    kin_parents: bool = False,
) -> KinRow:
    """Make a row of the graph of groups; one with parents has hatched."""
    return KinRow(
        group=group,
        sources=sources,
        hatched=bool(dams or sires),
        dams=dams,
        sires=sires,
        kin_parents=kin_parents,
    )


def _html(*pieces: str | Link, plain: str = "") -> Prose:
    return Prose(pieces=tuple(Piece(content=piece) for piece in pieces), plain=plain)


def _name(name: str) -> Link:
    return Link(target=LinkTarget.NAME, name=name, text=name, place=PLACE)


def _reading(value: float, unit: str = "") -> Reading:
    return Reading(low=value, high=value, unit=unit, text=f"{value} {unit}".strip())


@dataclass(frozen=True, kw_only=True)
class FakeResults:
    """Rows by name."""

    journal: Journal
    as_of: date
    group_rows: Mapping[str, GroupRow] = field(default_factory=dict)
    tank_rows: Mapping[str, TankRow] = field(default_factory=dict)
    line_rows: Mapping[str, LineRow] = field(default_factory=dict)
    cross_rows: Mapping[str, CrossRow] = field(default_factory=dict)
    counts_row: CountsRow = field(default=CountsRow(lines=(), misfits=0, standing=0))
    brood_rows: Mapping[str, BroodRow] = field(default_factory=dict)
    tables: Mapping[str, BroodTable] = field(default_factory=dict)
    holding_rows: tuple[HoldingRow, ...] = ()
    look_rows: Mapping[str, LookRow] = field(default_factory=dict)
    unexplained_rows: tuple[UnexplainedRow, ...] = ()
    lot_rows: Mapping[str, LotRow] = field(default_factory=dict)
    stray_rows: Mapping[str, tuple[StrayRow, ...]] = field(default_factory=dict)
    relatives_rows: Mapping[str, RelativesRow] = field(default_factory=dict)
    kin_rows: Mapping[str, KinRow] = field(default_factory=dict)
    hidden: frozenset[EventId] = frozenset()

    def groups(self) -> tuple[str, ...]:
        return tuple(self.group_rows)

    def group(self, name: str) -> GroupRow:
        return self.group_rows[name]

    def relatives(self, group: str) -> RelativesRow:
        nobody = RelativesRow(
            group=group,
            mates_low=None,
            mates_high=None,
            relatives=(),
            further=(),
            unrelated=(),
            unknown=(),
        )
        return self.relatives_rows.get(group, nobody)

    def kin(self, group: str) -> KinRow:
        return self.kin_rows.get(group, kin(group))

    def tanks(self) -> tuple[str, ...]:
        return tuple(self.tank_rows)

    def tank(self, name: str) -> TankRow:
        return self.tank_rows[name]

    def lines(self) -> tuple[str, ...]:
        return tuple(self.line_rows)

    def line(self, name: str) -> LineRow:
        return self.line_rows[name]

    def crosses(self) -> tuple[str, ...]:
        return tuple(self.cross_rows)

    def cross(self, identifier: str) -> CrossRow:
        return self.cross_rows[identifier]

    def brood(self, name: str) -> BroodRow | None:
        return self.brood_rows.get(name)

    def table(self, brood: str) -> BroodTable:
        return self.tables[brood]

    def cross_table(self, cross: str) -> BroodTable:
        return self.tables[cross]

    def counts(self) -> CountsRow:
        return self.counts_row

    def holdings(self, day: date) -> tuple[HoldingRow, ...]:
        return self.holding_rows if day == self.as_of else ()

    def looks(self) -> tuple[str, ...]:
        return tuple(self.look_rows)

    def look(self, name: str) -> LookRow:
        return self.look_rows[name]

    def unexplained(self) -> tuple[UnexplainedRow, ...]:
        return self.unexplained_rows

    def lots(self) -> tuple[str, ...]:
        return tuple(self.lot_rows)

    def lot(self, name: str) -> LotRow:
        return self.lot_rows[name]

    def strays(self, group: str) -> tuple[StrayRow, ...]:
        return self.stray_rows.get(group, ())

    def strays_of_cross(self, cross: str) -> tuple[StrayRow, ...]:
        broods = self.cross_rows[cross].broods
        return tuple(row for brood in broods for row in self.strays(brood))

    def event(self, identifier: EventId) -> Event | None:
        if identifier in self.hidden:
            return None
        for entry in self.journal.entries:
            if entry.id == identifier.entry:
                return entry.events[identifier.number]
        return None


_BOUGHT = event(
    "2026-01-03-hazel", 0, "bought", "2026-01-03", "hazel", group="slate", count=Count.of(6),
    source="a club member", label="F2",
)  # fmt: skip
_BOUGHT_IVORY = event(
    "2026-01-03-hazel", 1, "bought", "2026-01-03", "hazel", group="ivory", count=Count.of(4)
)
_HATCHED_F1 = event(
    "2026-03-14-hazel", 0, "hatched", "2026-03-14", "hazel", brood="slate-f1",
    dams=Parents(groups=("slate",)), sires=Parents(groups=("ivory",)),
    count=Count(low=15, high=20, text="15-20"),
)  # fmt: skip
_MEASURED = event(
    "2026-03-14-hazel", 1, "measured", "2026-03-14", "hazel", ph=_reading(6.4),
    temperature=_reading(22.5, "°C"), no2=Reading(low=None, high=0.05, unit="mg/L", text="<0.05"),
    kit="drop kit",
)  # fmt: skip
_MOVED = event(
    "2026-05-02", 0, "moved", "2026-05-02", "hazel", group="slate-f1", to="rowan",
    note="netted gently; <b>one</b> jumped",
)  # fmt: skip
_CHANGED = event(
    "2026-05-02", 1, "changed", "2026-05-02", "rowan", percent=20.0, ec=_reading(180.0, "µS/cm")
)
_SOIL = event(
    "2026-05-02", 2, "soil", "2026-05-02", "rowan", top_up=True, what="baked clay", depth="4 cm"
)
_HATCHED_F2 = event(
    "2026-07-08-rowan", 0, "hatched", "2026-07-08", "rowan", brood="slate-f2-a", cross="first try",
    count=Count.of(22),
)  # fmt: skip
_COUNTED = event(
    "2026-08-20-rowan", 0, "counted", "2026-08-20", "rowan", brood="slate-f2-a", how="netted",
    age=Age(low_days=43, high_days=43, text="43 d"),
    looks=(
        LookCount(look="dark", count=Count.of(11)),
        LookCount(look="pale", count=Count.of(9)),
    ),
    unsorted=Count.of(2),
)  # fmt: skip
_SORTED = event(
    "2026-08-20-rowan", 1, "sorted", "2026-08-20", "rowan", from_="slate-f2-a",
    into=(Sorting(group="pale-next", count=Count.of(9), look=LookSeen(whole="pale")),),
)  # fmt: skip
_DIED = event("2026-08-20-rowan", 2, "died", "2026-08-20", "rowan", count=Count.of(1))
_STRAYED = event(
    "2026-08-20-rowan", 3, "strayed", "2026-06-02", "rowan", from_="hazel", note="a wet net"
)
_OFFERED = event(
    "2026-08-21", 0, "offered", "2026-08-21", None, lot="pale-1", group="slate-f1",
    count=Count.of(5), note="plain, all carriers",
)  # fmt: skip

_PROSE = _html(
    "<p>The ", _name("slate-f1"), " went to ", _name("rowan"),
    ". See ", Link(target=LinkTarget.PICTURE, name="photos/secret-0231.jpg",
                   text="Two of them on moss", place=PLACE),
    " and ", Link(target=LinkTarget.FILE, name="notes/private.md", text="my notes", place=PLACE),
    ".</p>\n<h3>Later</h3>\n<p>All calm.</p>", plain="The slate-f1 went to rowan.",
)  # fmt: skip


def _entry(
    identifier: str, day: str, tank: str | None, *events: Event, prose: Prose | None = None
) -> Entry:
    return Entry(
        id=identifier,
        path=f"diary/{identifier}.md",
        title=None,
        when=When.on(date.fromisoformat(day)),
        tank=tank,
        private=False,
        sections=(Section(tank=None, prose=prose or _html()),),
        events=events,
    )


_ENTRIES = (
    _entry("2026-01-03-hazel", "2026-01-03", "hazel", _BOUGHT, _BOUGHT_IVORY),
    _entry("2026-03-14-hazel", "2026-03-14", "hazel", _HATCHED_F1, _MEASURED),
    replace(
        _entry("2026-05-02", "2026-05-02", None, _MOVED, _CHANGED, _SOIL, prose=_PROSE),
        title="A big move",
    ),
    _entry("2026-07-08-rowan", "2026-07-08", "rowan", _HATCHED_F2),
    _entry("2026-08-20-rowan", "2026-08-20", "rowan", _COUNTED, _SORTED, _DIED, _STRAYED),
    _entry(
        "2026-08-21",
        "2026-08-21",
        None,
        _OFFERED,
        prose=_html("<p>A quiet day.</p>", plain="Quiet."),
    ),
)


def _model() -> TraitModel:
    return TraitModel(
        name="pale",
        loci=(Locus(name="P", alleles=("P", "p")),),
        looks=(
            LookRule(
                look="pale",
                conditions=(Condition(locus="P", kind=ConditionKind.HOM, alleles=("p",)),),
            ),
            LookRule(look="dark"),
        ),
    )


def _settings() -> Settings:
    return Settings(
        title="Two shelves of shrimp",
        keeper="Rue",
        species="neocaridina",
        time_zone="UTC",
        address=None,
        about="A small rack in a cool cellar, and one pale line.",
        units=(),
        public=(),
    )


def _journal() -> Journal:
    tank_page = TankPage(
        name="rowan", title="Rowan", litres=24.0, length_cm=40.0, width_cm=25.0, height_cm=25.0,
        soil="baked clay", filter="sponge", light=None, where="lower shelf",
        targets=(("ph", Reading(low=6.2, high=6.8, unit="", text="6.2-6.8")),),
        private=False, prose=_html("<p>The warmer one.</p>"), place=PLACE,
    )  # fmt: skip
    group_page = GroupPage(
        name="slate", title="Slate, first stock", genotype="P/P", look="dark", sex=None,
        strain="slate", private=False, prose=_html("<p>Bold grazers.</p>"), place=PLACE, places={},
    )  # fmt: skip
    line_page = LinePage(
        name="pale-line", title="The pale line", goal="pale", founders=("slate", "ivory"),
        traits="pale", scales=(Scale(name="cover", order=("thin", "middling", "dense")),),
        private=False, prose=_html("<p>Towards a pale one that thrives.</p>"), place=PLACE,
        places={},
    )  # fmt: skip
    trait_page = TraitPage(
        model=_model(), says="One recessive allele makes them pale.", source="the keeper’s counts",
        look_words=(("pale", "see-through white"),), shipped=False, place=PLACE,
    )  # fmt: skip
    return Journal(
        edition=Edition.PUBLIC,
        settings=_settings(),
        entries=_ENTRIES,
        tanks={"rowan": tank_page},
        groups={"slate": group_page},
        lines={"pale-line": line_page},
        traits={"pale": trait_page},
        pictures=frozenset({"photos/secret-0231.jpg"}),
        species=Species(
            identifier="neocaridina",
            name="Neocaridina davidi",
            earliest_maturity_days=60,
            incubation_low_days=14,
            incubation_high_days=45,
            sources=(("earliest maturity", "a made-up source for a test"),),
        ),
    )


def _line(
    source: Event, after: int, *, change: int | None, gained: bool, **more: object
) -> BookLine:
    plain = BookLine(
        event=source.id,
        when=source.when,
        kind_name=source.kind_name,
        tank=source.tank,
        to_tank=None,
        other_group=None,
        change=None if change is None else Count.of(change),
        gained=gained,
        after=Count.of(after),
        shared_with=(),
        unaccounted=None,
    )
    return replace(plain, **more)  # type: ignore[arg-type]  # the test that calls it says which


def _plain_group(name: str, origin: Event, **more: object) -> GroupRow:
    plain = GroupRow(
        group=name,
        origin=origin.kind_name,
        origin_event=origin.id,
        origin_when=origin.when,
        origin_tank=origin.tank,
        source=None,
        seller_label=None,
        from_groups=(),
        brood=None,
        colony=False,
        look=None,
        females=None,
        males=None,
        generation=FOUNDER,
        inbreeding=KinshipRange(low=0.0, high=0.0),
        founder_shares=(FounderShareRow(founder=name, share=1.0),),
        genotypes=(),
        genotypes_level=Level.INFERRED,
        contradiction=(),
        hidden=(),
        carriers=(),
        model=None,
        assumptions=(),
        completeness=Completeness(equivalent_generations=0.0, known=(0.0,) * 5, index=0.0),
        crosses=(),
        parts=(),
        tallies=(),
        book=(),
        mentions=(Mention(entry=origin.id.entry, when=origin.when, in_prose=False),),
        lines=("pale-line",),
    )
    return replace(plain, **more)  # type: ignore[arg-type]  # the test that calls it says which


def _parents(group: str, claim: Claim, *events: Event) -> ParentSet:
    return ParentSet(
        groups=(group,),
        claim=claim,
        named=claim is Claim.FIRM,
        events=tuple(item.id for item in events),
    )


_BROOD_F1 = BroodRow(
    group="slate-f1",
    when=_HATCHED_F1.when,
    tank="hazel",
    cross="slate-ivory",
    dams=_parents("slate", Claim.FIRM, _HATCHED_F1),
    sires=_parents("ivory", Claim.FIRM, _HATCHED_F1),
    mating="unknown",
    count=Count(low=15, high=20, text="15-20"),
    event=_HATCHED_F1.id,
)
_BROOD_F2 = BroodRow(
    group="slate-f2-a",
    when=_HATCHED_F2.when,
    tank="rowan",
    cross="first-try",
    dams=_parents("slate-f1", Claim.LIKELY, _MOVED),
    sires=ParentSet(groups=("slate-f1", "ivory"), claim=Claim.SET, named=False, events=()),
    mating="one",
    count=Count.of(22),
    event=_HATCHED_F2.id,
)
_TALLY = TallyRow(
    event=_COUNTED.id,
    when=_COUNTED.when,
    group="slate-f2-a",
    tank="rowan",
    how="netted",
    total=False,
    age=None,
    age_days_computed=(43, 43),
    looks=(("dark", Count.of(11)), ("pale", Count.of(9))),
    other=(Other(count=Count.of(1), note="half pale"),),
    unsorted=Count.of(2),
    number=Count.of(23),
    used=True,
    why_not_used=None,
)


def _look_line(look: str, share: float, seen: int, number: int) -> LookLine:
    interval = wilson_interval(seen=seen, counted=number)
    return LookLine(
        look=look,
        share_low=share,
        share_high=share,
        expected=share * number,
        observed=seen,
        difference=seen - share * number,
        interval_low=interval.low,
        interval_high=interval.high,
    )


def _sorted_in(dark: int, pale: int, *, pale_more: int) -> SortedIn:
    """Put two more to looks, all to the same."""
    counts = [dark + 2 - pale_more, pale + pale_more]
    look, seen = ("pale", counts[1]) if pale_more else ("dark", counts[0])
    judgement = judge(counts, [(1, (0.75, 0.25))], [])
    return SortedIn(
        looks=((look, 2),), shares=((look, seen / sum(counts)),), p_value=judgement.p_value
    )


def _table(dark: int, pale: int) -> Table:
    judgement = judge([dark, pale], [(1, (0.75, 0.25))], [(0.5, 0.5), (0.0, 1.0)])
    number = dark + pale
    return Table(
        lines=(_look_line("dark", 0.75, dark, number), _look_line("pale", 0.25, pale, number)),
        sorted_number=number,
        unsorted=2,
        unsorted_worst=_sorted_in(dark, pale, pale_more=2),
        unsorted_best=_sorted_in(dark, pale, pale_more=0),
        unexplained=(Other(count=Count.of(1), note="half pale"),),
        judgement=judgement,
        more_at_once=80,
        rival_pairs=(("P/p", "p/p"),),
        rival_shares=(("dark", 0.5), ("pale", 0.5)),
        rivals=(),
        assumptions=(Assumption.ONE_PAIR, Assumption.EQUAL_VIABILITY),
        model="pale",
        events=(_COUNTED.id,),
    )


def _count_line(table: Table) -> CountLine:
    return CountLine(
        brood="slate-f2-a", cross="first-try", when=_HATCHED_F2.when, number=table.sorted_number,
        p_value=table.judgement.p_value, adjusted_p=table.judgement.p_value, stands_out=False,
        verdict=table.judgement.verdict, events=table.events,
    )  # fmt: skip


def _brood_table(subject: str, table: Table | None, why: str | None) -> BroodTable:
    return BroodTable(
        subject=subject,
        table=table,
        why_none=why,
        expected=(("dark", 0.75, 0.75), ("pale", 0.25, 0.5)) if table else (("dark", 1.0, 1.0),),
        heterogeneity_p=None,
        broods=(),
    )


def fake_results() -> FakeResults:
    """Return a journal with a cross, its intercross, a sorted group and a line."""
    half = (
        FounderShareRow(founder="ivory", share=0.5),
        FounderShareRow(founder="slate", share=0.5),
    )
    groups = {
        "slate": _plain_group(
            "slate", _BOUGHT, source="a club member", seller_label="F2", crosses=("slate-ivory",),
            look=LookSeen(whole="dark"), book=(_line(_BOUGHT, 6, change=6, gained=True),),
        ),
        "ivory": _plain_group(
            "ivory", _BOUGHT_IVORY, book=(_line(_BOUGHT_IVORY, 4, change=4, gained=True),),
            crosses=("slate-ivory",),
        ),
        "slate-f1": _plain_group(
            "slate-f1", _HATCHED_F1, brood=_BROOD_F1, generation=F1, founder_shares=half,
            hidden=(("p", 1.0),), model="pale", crosses=("first-try",),
            genotypes=(GenotypeRow(genotype="P/p", probability=1.0, look="dark"),),
            assumptions=(Assumption.FOUNDER_GENOTYPE_CLAIMED,),
            book=(
                _line(_HATCHED_F1, 15, change=15, gained=True),
                _line(_MOVED, 15, change=15, gained=True, to_tank="rowan"),
                _line(_DIED, 14, change=1, gained=False, shared_with=("slate-f2-a",)),
            ),
        ),
        "slate-f2-a": _plain_group(
            "slate-f2-a", _HATCHED_F2, brood=_BROOD_F2, generation=F2, founder_shares=half,
            hidden=(("p", 0.375),), model="pale", tallies=(_TALLY,),
            genotypes=(
                GenotypeRow(genotype="P/P", probability=0.25, look="dark"),
                GenotypeRow(genotype="P/p", probability=0.5, look="dark"),
                GenotypeRow(genotype="p/p", probability=0.25, look="pale"),
            ),
            inbreeding=KinshipRange(low=0.125, high=0.25), parts=("pale-next",),
            book=(
                _line(_HATCHED_F2, 22, change=22, gained=True),
                _line(_SORTED, 13, change=9, gained=False, other_group="pale-next",
                      unaccounted=Count.of(1)),
            ),
        ),
        "pale-next": _plain_group(
            "pale-next", _SORTED, from_groups=("slate-f2-a",), look=LookSeen(whole="pale"),
            generation=F2, brood=_BROOD_F2, model="pale", contradiction=(_COUNTED.id,),
            inbreeding=None, founder_shares=(FounderShareRow(founder=None, share=1.0),),
            book=(_line(_SORTED, 9, change=9, gained=True, other_group="slate-f2-a"),),
        ),
    }  # fmt: skip
    cross_f1 = CrossRow(
        identifier="slate-ivory", name=None, dams=_BROOD_F1.dams, sires=_BROOD_F1.sires,
        broods=("slate-f1",), when=_HATCHED_F1.when, generation=F1,
    )  # fmt: skip
    cross_f2 = CrossRow(
        identifier="first-try", name="first try", dams=_BROOD_F2.dams, sires=_BROOD_F2.sires,
        broods=("slate-f2-a",), when=_HATCHED_F2.when, generation=F2,
    )  # fmt: skip
    holding = HoldingRow(
        group="slate-f1", tank="rowan", count=Count.of(14), colony=False, events=(_MOVED.id,)
    )
    young = HoldingRow(
        group="slate-f2-a", tank="rowan", count=Count(low=12, high=13, text="12-13"), colony=False,
        events=(_HATCHED_F2.id, _SORTED.id),
    )  # fmt: skip
    colony = HoldingRow(
        group="slate", tank="hazel", count=Count(low=6, high=None, text="6+"), colony=True,
        events=(_BOUGHT.id,),
    )  # fmt: skip
    quiet = TankRow(
        tank="alder", stays=(), last_day=None, holdings=(), total=None, readings=(), changes=(),
        other_events=(), mentions=(), closed=None,
    )  # fmt: skip
    rowan = TankRow(
        tank="rowan",
        stays=(
            Stay(group="slate-f1", tank="rowan", since=date(2026, 5, 2), until=None,
                 event=_MOVED.id),
            Stay(group="slate-f2-a", tank="rowan", since=date(2026, 7, 8),
                 until=date(2026, 8, 20), event=_HATCHED_F2.id),
        ),
        last_day=date(2026, 8, 20), holdings=(holding, young), total=Count.of(27),
        readings=(), other_events=(_SOIL.id,), closed=None,
        changes=(WaterChangeRow(event=_CHANGED.id, when=_CHANGED.when, litres=None, percent=20.0),),
        mentions=(Mention(entry="2026-05-02", when=_MOVED.when, in_prose=True),),
    )  # fmt: skip
    hazel = replace(
        quiet, tank="hazel", last_day=date(2026, 5, 2), holdings=(colony,), total=colony.count,
        readings=(
            ReadingRow(
                event=_MEASURED.id, when=_MEASURED.when, before_change=True,
                readings=(("ph", _reading(6.4)), ("temperature", _reading(22.5, "°C"))),
            ),
        ),
    )  # fmt: skip
    table = _table(11, 9)
    timeline = _timeline(half)
    return FakeResults(
        journal=_journal(),
        as_of=date(2026, 8, 21),
        group_rows=groups,
        tank_rows={"alder": quiet, "hazel": hazel, "rowan": rowan},
        line_rows={
            "pale-line": _line_row(timeline, groups=tuple(groups)),
        },
        cross_rows={"slate-ivory": cross_f1, "first-try": cross_f2},
        counts_row=CountsRow(lines=(_count_line(table),), misfits=0, standing=0),
        brood_rows={"slate-f1": _BROOD_F1, "slate-f2-a": _BROOD_F2},
        tables={
            "slate-f1": _brood_table("slate-f1", None, "all-one-look"),
            "slate-ivory": _brood_table("slate-ivory", None, "all-one-look"),
            "slate-f2-a": _brood_table("slate-f2-a", table, None),
            "first-try": _brood_table("first-try", table, None),
        },
        holding_rows=(colony, holding, young),
        look_rows=_look_rows(),
        unexplained_rows=(
            UnexplainedRow(
                event=_COUNTED.id, when=_COUNTED.when, tank="rowan", groups=("slate-f2-a",),
                count=Count.of(1), note="half pale", look=None,
            ),
            UnexplainedRow(
                event=_SORTED.id, when=_SORTED.when, tank="rowan", groups=(), count=Count.of(1),
                note="", look=LookSeen(left="pale", right="dark"),
            ),
        ),
        lot_rows=_lot_rows(),
        kin_rows={
            "slate": kin("slate", sources=tuple(f"stock-{n:02d}" for n in range(1, 17))),
            "slate-f1": kin("slate-f1", dams=("slate",), sires=("ivory",)),
            "slate-f2-a": kin("slate-f2-a", dams=("slate-f1",), sires=("slate-f1", "ivory"),
                              kin_parents=True),
            "pale-next": kin("pale-next", sources=("slate-f2-a",)),
        },
        stray_rows={"slate-f2-a": (
            StrayRow(
                event=_STRAYED.id, when=_STRAYED.when, tank="rowan", into=True, other_tank="hazel",
                cleared=None, cleared_by=None,
            ),
        )},
    )  # fmt: skip


_GRADE = GradeRow(
    scale="cover", group="slate-f2-a", broods=("slate-f2-a",), event=_COUNTED.id,
    when=_COUNTED.when, counts=(("thin", 2), ("middling", 3), ("dense", 4)), number=9, mean=2.22,
    low=1.58, high=2.86, error=0.28, left_out=0,
)  # fmt: skip
_SURVIVAL = SurvivalRow(
    base=22, base_total=True, survivors=20, low=0.722, high=0.975,
    events=(_HATCHED_F2.id, _COUNTED.id),
)  # fmt: skip


def _timeline(half: tuple[FounderShareRow, ...]) -> tuple[LineGeneration, ...]:
    return tuple(
        LineGeneration(
            brood=name, cross=cross, generation=generation, when=source.when, number=number,
            goal_seen=seen, goal_share=None if seen is None or not number else seen / number,
            interval_low=low, interval_high=high, goal_expected=share, inbreeding_low=0.0,
            inbreeding_high=inbred, founder_shares=half, events=(_COUNTED.id,) if seen else (),
            grades=(_GRADE,) if seen else (), survival=_SURVIVAL if seen else None,
            why_no_survival=None if seen else WhyNot.ONE_COUNT,
        )
        for name, cross, generation, source, number, seen, low, high, share, inbred in (
            ("slate-f1", "slate-ivory", F1, _HATCHED_F1, None, None, None, None, 0.0, 0.0),
            ("slate-f2-a", "first-try", F2, _HATCHED_F2, 20, 9, 0.258, 0.658, 0.25, 0.25),
        )
    )  # fmt: skip


def _line_row(timeline: tuple[LineGeneration, ...], *, groups: tuple[str, ...]) -> LineRow:
    return LineRow(
        line="pale-line",
        goal="pale",
        goal_number=None,
        goal_by=None,
        goal_state=GoalState.SOME,
        goal_brood="slate-f2-a",
        founders=("slate", "ivory"),
        groups=groups,
        timeline=timeline,
        bands=tuple(_band(item) for item in timeline),
        scales=(("cover", ("thin", "middling", "dense")),),
        grades=(_GRADE,),
        alive=Count.of(9),
        model="pale",
    )


def _band(item: LineGeneration) -> LineBand:
    """Return a generation of one brood."""
    means = tuple(
        GradeMean(scale=one.scale, mean=one.mean, low=one.low, high=one.high, number=one.number,
                  groups=(one.group,))
        for one in item.grades
    )  # fmt: skip
    figures = tuple(
        LineFigure(name=name, low=None, high=None, why_not=WhyNot.NUMBER_UNKNOWN)
        if name is FigureName.SIZE_BY_SEX
        else LineFigure(name=name, low=0.25, high=0.5, why_not=None)
        for name in FigureName
    )
    response = ResponseRow(
        scale="cover", group=item.brood, parents=("slate-f1", "ivory"), selection=None,
        response=None, heritability=None, low=None, high=None, several=True,
        ungraded=("slate-f1",), why_not=WhyNot.PARENTS_NOT_GRADED,
    )  # fmt: skip
    return LineBand(
        kind=BandKind.LABEL, labels=(item.generation,), low=item.generation.fewest,
        high=item.generation.most, broods=(item.brood,), first=item.when, last=item.when,
        number=item.number, goal_seen=item.goal_seen, goal_share=item.goal_share,
        interval_low=item.interval_low, interval_high=item.interval_high,
        goal_expected=item.goal_expected, grades=means, survival=item.survival,
        inbreeding_low=item.inbreeding_low, inbreeding_high=item.inbreeding_high,
        founder_shares=item.founder_shares, responses=(response,) if means else (),
        figures=figures,
    )  # fmt: skip


def _look_rows() -> dict[str, LookRow]:
    def row(look: str, seen: int, share: float, *genotypes: str) -> LookRow:
        interval = wilson_interval(seen=seen, counted=20)
        return LookRow(
            look=look,
            models=("pale",),
            genotypes=tuple(("pale", genotype) for genotype in genotypes),
            shown_by=("pale-next",) if look == "pale" else ("slate",),
            must_show=() if look == "pale" else ("slate-f1",),
            seen_in=(
                LookSeenIn(
                    cross="first-try", broods=("slate-f2-a",), seen=seen, counted=20,
                    interval_low=interval.low, interval_high=interval.high, expected=share,
                    events=(_COUNTED.id,),
                ),
            ),
        )  # fmt: skip

    return {"dark": row("dark", 11, 0.75, "P/P", "P/p"), "pale": row("pale", 9, 0.25, "p/p")}


def _lot_rows() -> dict[str, LotRow]:
    now = LotRow(
        lot="pale-1", groups=("slate-f1",), event=_OFFERED.id, when=_OFFERED.when,
        note="plain, all carriers", offered=Count.of(5), reserved=Count.of(2),
        handed_over=Count.of(0), on_book=Count.of(14), left=Count.of(5), state=LotState.OPEN,
        tanks=("rowan",), events=(_OFFERED.id,),
    )  # fmt: skip
    gone = replace(
        now, lot="old ones", groups=("slate",), offered=None, left=Count.of(0), note="",
        reserved=Count.of(0), handed_over=Count.of(3), state=LotState.SOLD,
    )  # fmt: skip
    return {"old ones": gone, "pale-1": now}


def empty_results() -> FakeResults:
    """Return a journal in which nothing has been written yet."""
    settings = replace(_settings(), keeper="", about="", species=None)
    journal = Journal(
        edition=Edition.KEEPER, settings=settings, entries=(), tanks={}, groups={}, lines={},
        traits={}, pictures=frozenset(), species=None,
    )  # fmt: skip
    return FakeResults(journal=journal, as_of=date(2026, 1, 1))
