"""Whole journals: entries, pages of things, names, privacy, and text that is no text."""

import gc
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.findings.render import render_findings
from filialog.genetics import ConditionKind, sure_look
from filialog.journal.events import Event
from filialog.journal.kinds import EVENT_KINDS
from filialog.journal.records import Entry, Journal, Scale
from filialog.reading import read_journal
from tools.cases import read_files

BASE = {"journal.yaml": "title: The rack\n", "tanks/fen.md": "", "tanks/fen-2.md": ""}


def read(files: dict[str, str], *, codes: tuple[str, ...] = ()) -> Journal:
    result = read_files({path: text.encode() for path, text in {**BASE, **files}.items()})
    found = tuple(finding.code for finding in result.findings)
    assert found == codes, render_findings(result.findings, result.line_of)
    assert result.journal is not None
    return result.journal


def entry(name: str, text: str, *, codes: tuple[str, ...] = ()) -> Entry:
    return read({f"diary/{name}": text}, codes=codes).entries[0]


def event(head: str, *, codes: tuple[str, ...] = ()) -> Event:
    (only,) = entry("2026-03-14.md", f"---\ntank: fen\n{head}\n---\n", codes=codes).events
    return only


@pytest.mark.parametrize("kind", EVENT_KINDS, ids=lambda kind: kind.name)
def test_kinds__the_example_of_each_is_read_without_a_finding(kind: object) -> None:
    head = getattr(kind, "example")  # noqa: B009 (typed as object for the id function)
    files = {
        "journal.yaml": "title: x\n",
        "diary/2026-03-14.md": f"---\n{head}\n---\n",
    }
    result = read_files({path: text.encode() for path, text in files.items()})

    assert result.findings == ()
    assert result.journal is not None
    (only,) = result.journal.entries[0].events
    assert only.kind is kind
    assert only.values


def test_entry__one_sentence_and_a_dated_name_are_enough() -> None:
    read_entry = entry("2026-03-14.md", "Two dead.")

    assert read_entry.when.exact == date(2026, 3, 14)
    assert read_entry.sections[0].prose.plain == "Two dead."
    assert (read_entry.tank, read_entry.title, read_entry.events) == (None, None, ())


@pytest.mark.parametrize(
    ("name", "tank", "title"),
    [
        ("2026-03-14.md", None, None),
        ("2026-03-14.txt", None, None),
        ("2026-03-14 fen.md", "fen", None),
        ("2026-03-14-fen.md", "fen", None),
        ("2026-03-14_FEN.md", "fen", None),
        ("2026-03-14 fen-2.md", "fen-2", None),
        ("2026-03-14 fen 2.md", "fen-2", None),
        ("2026-03-14 fen water change.md", "fen", "water change"),
        ("2026-03-14 fenland.md", None, "fenland"),
        ("2026/03/2026-03-14 new year.md", None, "new year"),
        ("2026-03.md", None, None),
        ("2026-W11 fen.md", "fen", None),
    ],
)
def test_file_name__gives_day_tank_and_title(
    name: str, tank: str | None, title: str | None
) -> None:
    read_entry = entry(name, "All well.\n")

    assert (read_entry.tank, read_entry.title) == (tank, title)
    assert read_entry.when.earliest <= date(2026, 3, 14) <= read_entry.when.latest


def test_file_name__gives_the_tank_to_events() -> None:
    (died,) = entry("2026-03-14 fen.md", "---\ndied: 1\n---\n").events

    assert died.tank == "fen"


def test_front_matter__wins_over_the_file_name() -> None:
    read_entry = entry(
        "2026-03-14 fen.md", "---\ndate: 2026-03-15\ntank: fen-2\n---\n", codes=("R402", "R403")
    )

    assert read_entry.when.exact == date(2026, 3, 15)
    assert read_entry.tank == "fen-2"


def test_unknown_tank_in_file_names__is_said_once_and_stays_a_title() -> None:
    text = "---\ndied: 1\n---\n"
    journal = read(
        {"diary/2026-03-14 tarn.md": text, "diary/2026-03-15 tarn.md": text}, codes=("R404",)
    )

    assert [found.title for found in journal.entries] == ["tarn", "tarn"]


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_text__line_ends_and_byte_order_mark_do_not_matter(ends: str, mark: str) -> None:
    text = mark + ends.join(["---", "tank: fen", "died: 1", "---", "Text.", "", "[[x]]"])
    read_entry = entry("2026-03-14.md", text)

    assert read_entry.tank == "fen"
    assert read_entry.sections[0].prose.links[0].place.line == 7
    assert read_entry.events[0].place.line == 3


@pytest.mark.parametrize("text", ["---\n---\nText.", "---\n# only a comment\n---\nText.", "Text."])
def test_front_matter__may_be_empty_or_missing(text: str) -> None:
    assert entry("2026-03-14.md", text).sections[0].prose.plain == "Text."


def test_events__mapping_list_and_bare_value_say_the_same() -> None:
    for head in ("died: 2", "died: {count: 2}", "died: [2]", "died:\n  - count: 2"):
        count = event(head).count()
        assert count is not None
        assert count.exact == 2


def test_events__true_is_an_event_of_which_nothing_more_is_known() -> None:
    assert event("berried: true").values == {}
    assert event("died: {}").values == {}


def test_events__own_day_and_tank_win() -> None:
    died = event("died: {count: 1, when: 2026-03-10/2026-03-12, tank: fen-2}")

    assert died.tank == "fen-2"
    assert died.when.earliest == date(2026, 3, 10)
    assert set(died.values) == {"count"}


def test_events__places_name_inner_words() -> None:
    head = "hatched: {brood: b, dams: {of: dusk, count: 1}, sires: [x, y]}"
    hatched = event(head)

    line = head.splitlines()[0]
    for key in ("dams.dusk", "sires.y", "brood"):
        place = hatched.place_of(key)
        assert place.line == 3
        word = key.rpartition(".")[2] if "." in key else "b,"
        assert line[place.column - 1 :].startswith(word)


def test_events__per_cent_of_a_bare_water_change() -> None:
    assert event("changed: 20 %").number("percent") == 20.0
    assert event("changed: 5 L").number("litres") == 5.0


def test_failed_value__leaves_the_event_without_it() -> None:
    died = event("died: {group: young, count: -3}", codes=("R306",))

    assert died.values == {"group": "young"}


def test_failed_needs__drop_the_event_and_report_its_words() -> None:
    journal = read(
        {"diary/2026-03-14.md": "---\nmoved: {group: a, as: [ember, b], count: 2}\n---\n"},
        codes=("R202",),
    )

    assert journal.entries[0].events == ()
    assert {"ember", "a"} <= journal.reported


def test_unreadable_entry__reports_its_words() -> None:
    journal = read({"diary/2026-03-14.md": "---\nhatched: {brood: ember\n---\n"}, codes=("R115",))

    assert journal.entries == ()
    assert "ember" in journal.reported


def test_day_file__gives_events_and_prose_to_tanks() -> None:
    text = (
        "---\ntanks: {fen: {fed: 1 dab, died: 1}, tarn: {measured: {ph: 6.2}}}\n---\n"
        "All well.\n\n## tarn\n\nDark.\n"
    )
    read_entry = entry("2026-03-14.md", text)

    assert [(found.kind_name, found.tank) for found in read_entry.events] == [
        ("fed", "fen"),
        ("died", "fen"),
        ("measured", "tarn"),
    ]
    assert [(part.tank, part.prose.plain) for part in read_entry.sections] == [
        (None, "All well."),
        ("tarn", "Dark."),
    ]
    assert read_entry.tanks == ("fen", "tarn")
    assert [found.id.number for found in read_entry.events] == [0, 1, 2]


@pytest.mark.parametrize(
    ("written", "codes"),
    [
        ("true", ()),
        ("yes", ("R205",)),
        ("no", ("R205",)),
        ("'false'", ("R205",)),
        ("", ("R205",)),
        ("{}", ("R205",)),
        ("1", ("R205",)),
    ],
)
def test_private__fails_closed_in_entries_events_and_pages(
    written: str, codes: tuple[str, ...]
) -> None:
    assert entry("2026-03-14.md", f"---\nprivate: {written}\n---\nx\n", codes=codes).private
    assert event(f"died:\n  count: 1\n  private: {written}", codes=codes).private
    page = read({"groups/a.md": f"---\nprivate: {written}\n---\n"}, codes=codes).groups["a"]
    assert page.private


def test_private__false_is_public() -> None:
    assert not entry("2026-03-14.md", "---\nprivate: false\n---\nx\n").private


@pytest.mark.parametrize("key", ["privat", "Private", "prviate", "hidden", "secret", "publish"])
def test_private__keys_that_look_like_it_hide(key: str) -> None:
    assert entry("2026-03-14.md", f"---\n{key}: true\n---\nx\n", codes=("R205",)).private
    assert event(f"died: {{count: 1, {key}: true}}", codes=("R205",)).private
    assert read({"lines/a.md": f"---\n{key}: 1\n---\n"}, codes=("R205",)).lines["a"].private


def test_private__of_a_tank_hides_its_events_and_prose() -> None:
    text = "---\ntanks: {fen: {private: true, died: 1}, tarn: {died: 1}}\n---\n## fen\n\nsecret\n"
    read_entry = entry("2026-03-14.md", text)

    assert [found.private for found in read_entry.events] == [True, False]
    assert all(piece.private for piece in read_entry.sections[0].prose.pieces)
    assert read_entry.sections[0].prose.plain == ""


def test_private__one_event_does_not_hide_the_next() -> None:
    text = "---\ndied:\n  - {into: 1, hidden: true}\n  - {count: 1}\n---\n"
    hidden, shown = entry("2026-03-14.md", text, codes=("R201", "R205")).events

    assert (hidden.private, shown.private) == (True, False)


def test_private__inside_an_inner_mapping_hides_its_event_and_no_other() -> None:
    text = (
        "---\nsorted: {from: a, into: {b: {count: 1, privat: true}}}\n"
        "moved: {group: a, to: fen}\n---\n"
    )
    hidden, shown = entry("2026-03-14.md", text, codes=("R205",)).events

    assert (hidden.private, shown.private) == (True, False)


def test_always_private_kinds__stay_in_the_journal() -> None:
    away = event("away: {since: 2026-07-01, phone: '1'}")

    assert (away.private, away.text("phone")) == (False, "1")


def test_names__what_is_not_named_is_named_by_tank_and_day() -> None:
    journal = read(
        {
            "diary/2026-03-14.md": (
                "---\ntank: fen\nhatched: [{}, {}]\nbought: 10\npresent: {group: stock}\n---\n"
            ),
            "diary/2026-03-15.md": (
                "---\nhatched: {group: cloud}\nmoved: {group: cloud, as: fen-2026-03-14-2}\n---\n"
            ),
            "diary/2026-04.md": "---\nhatched: {}\n---\n",
        }
    )
    named = [
        found.text("brood") or found.text("group")
        for read_entry in journal.entries
        for found in read_entry.events
    ]

    assert named == [
        "fen-2026-03-14",
        "fen-2026-03-14-3",
        "fen-2026-03-14-4",
        "stock",
        "cloud",
        "cloud",
        "hatched-2026-04",
    ]


def test_photos__of_events_are_paths_in_the_journal() -> None:
    files = {
        "journal.yaml": b"title: x\n",
        "diary/2026-03-14.md": b"---\ndied: {photo: [../photos/1.jpg, photos/1.jpg]}\n---\n",
    }
    result = read_files(files, pictures=["photos/1.jpg"])

    assert result.findings == ()
    assert result.journal is not None
    assert result.journal.entries[0].events[0].names("photo") == ("photos/1.jpg",) * 2


def test_photos__missing_and_outside_ones_are_reported() -> None:
    event("died: {count: 1, photo: [photos/1.jpg, ../../x.jpg]}", codes=("M101", "M103"))


def test_entries__are_in_the_order_of_days() -> None:
    journal = read(
        {
            "diary/b.md": "---\ndate: 2026-01-02\n---\nx\n",
            "diary/a.md": "---\ndate: 2026-03\n---\nx\n",
            "diary/2026-01-02 c.md": "x\n",
        }
    )

    assert [found.id for found in journal.entries] == ["2026-01-02-c", "b", "a"]


def test_pages__are_read_by_their_tables() -> None:
    journal = read(
        {
            "tanks/fen.md": (
                "---\ntitle: The fen\nlitres: 22 L\nlength: 40 cm\nplace: top left\n"
                "targets: {ph: 6.2-6.8, ec: 0.2-0.3 mS/cm}\n---\nDark.\n"
            ),
            "groups/Ember.md": "---\nname: ember\nsex: female\ngenotype: A/a\n---\n",
            "lines/amber.md": (
                "---\ngoal: fancy\nfounders: [a, b]\ntraits: one-locus-recessive\n"
                "scales: {band: {order: [narrow, wide]}}\n---\n"
            ),
            "journal.yaml": (
                "title: The rack\nspecies: Neocaridina davidi\nunits: {tds: ppm}\n"
                "pens: {pocket pen: 0.5}\nkits: {drops: bought 2025}\npublic: [given]\n"
            ),
        }
    )
    fen = journal.tanks["fen"]

    assert (fen.title, fen.litres, fen.length_cm, fen.where) == ("The fen", 22.0, 40.0, "top left")
    assert [(name, row.low, row.high, row.unit) for name, row in fen.targets] == [
        ("ph", 6.2, 6.8, ""),
        ("ec", 200.0, 300.0, "µS/cm"),
    ]
    assert journal.groups["ember"].genotype == "A/a"
    line = journal.lines["amber"]
    assert (line.founders, line.scales) == (
        ("a", "b"),
        (Scale(name="band", order=("narrow", "wide")),),
    )
    assert line.places["founders.b"].column == 15
    assert journal.settings.species == "neocaridina-davidi"
    assert journal.species is not None
    assert journal.species.earliest_maturity_days == 60
    assert journal.settings.pens == (("pocket pen", 0.5),)
    assert set(journal.traits) == {"one-locus-recessive"}
    assert journal.traits["one-locus-recessive"].shipped


@pytest.mark.parametrize(
    ("head", "code"),
    [
        ("units: {tds: ppb}", "R309"),
        ("units: {salt: ppm}", "R201"),
        ("pens: {pocket pen: 2}", "R311"),
        ("address: ftp://example.org", "R323"),
        ("species: nothing", "R510"),
        ("titel: x", "R201"),
    ],
)
def test_settings__slips_have_one_finding(head: str, code: str) -> None:
    read({"journal.yaml": f"title: x\n{head}\n"}, codes=(code,))


def test_settings__a_title_is_needed() -> None:
    read({"journal.yaml": "keeper: someone\n"}, codes=("R204",))


def test_settings__unreadable_ones_give_no_journal_but_all_findings() -> None:
    result = read_files(
        {"journal.yaml": b"title: [x\n", "diary/2026-03-14.md": b"---\ntds: 1\ndied: -1\n---\n"}
    )

    assert result.journal is None
    assert [finding.code for finding in result.findings] == ["R201", "R306", "R115"]


MODEL = """\
name: eye
says: orange eyes are recessive
source: our own tallies
loci: {o: {alleles: [O, o]}, "1": {alleles: [M, N]}}
looks:
  - {look: orange, when: {o: hom o}, says: seen from above}
  - {look: half, when: {o: has O, "1": is N/M}}
  - {look: dark}
lethal: [{"1": hom N}]
coarse: {not-orange: [half, dark]}
"""


def test_traits__a_model_of_the_journal_wins_over_a_shipped_one() -> None:
    journal = read(
        {
            "traits/eye.yaml": MODEL,
            "traits/one.yaml": MODEL.replace("name: eye", "name: one-locus-recessive"),
            "lines/a.md": "---\ntraits: one-locus-recessive\n---\n",
        }
    )
    page = journal.traits["eye"]

    assert not journal.traits["one-locus-recessive"].shipped
    assert page.look_words == (("orange", "seen from above"),)
    assert sure_look((("O", "o"), ("M", "N")), page.model) == "half"
    assert page.model.lethal[0][0].kind is ConditionKind.HOM
    assert page.model.coarse[0].looks == ("half", "dark")


def test_traits__shipped_models_enter_only_where_a_line_names_them() -> None:
    assert read({"lines/a.md": "x\n"}).traits == {}


def test_traits__every_shipped_model_can_be_read() -> None:
    from tools.cases import catalogue  # noqa: PLC0415 (needed in this test alone)

    names = [path[7:-5] for path in catalogue() if path.startswith("traits/")]
    journal = read({f"lines/{name}.md": f"---\ntraits: {name}\n---\n" for name in names})

    assert sorted(journal.traits) == sorted(names)


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("hom o", "hom x", "R502"),
        ("{o: hom o}", "{x: hom o}", "R501"),
        ("hom o", "o/o", "R507"),
        ("  - {look: dark}\n", "", "R503"),
        ("[half, dark]", "[half, dull]", "R503"),
        ("loci:", "locus:", "R201"),
        ("[O, o]", "[O, O]", "R505"),
    ],
)
def test_traits__slips_have_a_finding_and_no_model(old: str, new: str, code: str) -> None:
    result = read_files(
        {"journal.yaml": b"title: x\n", "traits/eye.yaml": MODEL.replace(old, new).encode()}
    )

    assert code in {finding.code for finding in result.findings}
    assert result.journal is not None
    assert result.journal.traits == {}


def test_traits__too_many_genotypes_are_refused_at_once() -> None:
    loci = "\n".join(f"  l{n}: {{alleles: [A{n}, a{n}]}}" for n in range(40))
    read({"traits/eye.yaml": f"loci:\n{loci}\nlooks: [{{look: x}}]\n"}, codes=("R505",))


def test_misplaced__files_are_reported_where_they_seem_meant() -> None:
    read(
        {
            "tanks/tarn.yaml": "x",
            "dairy/2026-03-14.md": "x",
            "notes/x.md": "x",
            "README.md": "x",
            "photos/a/album.md": "x",
        },
        codes=("R008", "R008"),
    )


def test_text__a_very_long_file_is_refused() -> None:
    read({"diary/2026-03-14.md": "word " * 300_000}, codes=("R007",))


def test_species__a_file_that_is_not_whole_is_a_finding() -> None:
    result = read_journal(
        {"journal.yaml": b"title: x\nspecies: one\n"},
        pictures=(),
        catalogue={
            "species/one.yaml": b"name: One\nearliest-maturity: {value: 8, unit: weeks}\n",
        },
    )

    assert [finding.code for finding in result.findings] == ["R506", "R510"]


def test_reading__leaves_the_collector_as_it_was() -> None:
    assert gc.isenabled()
    read({})
    assert gc.isenabled()


HEADS = [
    b"---\ntank: fen\ncounted:\n  - {brood: b, age: 45 d, looks: {a: 9}, other: [{count: 1}]}\n"
    b"---\n",
    "---\nmeasured: {ph: 6.1, ec: 256 µS/cm, nh4: <0.05 mg/L}\n---\n"
    "# x\n\n:::private\n[[a]]\n:::\n".encode(),
    b"---\nsorted: {from: b, into: {c: {count: 9, look: {left: a}}}}\nprivate: true\n---\n"
    b"![x](y)\n",
    MODEL.encode(),
    b"title: x\nunits: {tds: ppm}\npens: {a: 0.5}\nspecies: x\n",
]
PATHS = [
    "diary/2026-03-14.md",
    "tanks/fen.md",
    "groups/a.md",
    "lines/a.md",
    "traits/eye.yaml",
    "journal.yaml",
]
SIGNS = [bytes([byte]) for byte in b"{}[]:,-#&*!|>'\"%@`~?\n\t \\<0x"] + [
    b"\xff",
    b"\x00",
    b"\xc3\xa4",
    b"---\n",
    "\u202e".encode(),
    b": ",
    b"- ",
    b":::",
]


@given(
    st.sampled_from(HEADS),
    st.sampled_from(PATHS),
    st.lists(st.tuples(st.integers(0, 120), st.integers(0, 4), st.sampled_from(SIGNS)), max_size=6),
)
def test_reading__no_bytes_raise(
    text: bytes, path: str, cuts: list[tuple[int, int, bytes]]
) -> None:
    for at, length, sign in cuts:
        text = text[:at] + sign + text[at + length :]
    result = read_files({"journal.yaml": b"title: x\n", path: text})

    assert render_findings(result.findings, result.line_of) is not None
    for finding in result.findings:
        assert finding.place.line == 0 or finding.place.column >= 1


@given(st.binary(max_size=200), st.sampled_from(PATHS))
def test_reading__random_bytes_never_raise(data: bytes, path: str) -> None:
    result = read_files({path: data})

    assert isinstance(render_findings(result.findings, result.line_of), str)
