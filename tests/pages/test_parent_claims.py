"""What a page says of the parents on one side: one sentence a hobbyist understands."""

from collections.abc import Sequence

from filialog.analysis import JournalResults
from filialog.analysis.rows import Level
from filialog.journal import check_journal, public_view
from filialog.messages import ENGLISH, Words
from filialog.pages.here import Here, Site
from filialog.pages.parent_claims import parents_fact
from filialog.pages.pictures import NO_PICTURES
from tools.diaries import checked, diary_files

_SETTINGS = "species: neocaridina-davidi\n"

_PAIR = """
    2026-01-01 fen | bought: {group: dusk, females: 1}
    2026-01-01 fen | bought: {group: dawn, males: 1}
"""


def _told(diary: str, side: str, *, public: Sequence[str] | None = None) -> str:
    settings = _SETTINGS + (f"public: [{', '.join(public)}]\n" if public else "")
    found = checked(diary_files(diary, settings=settings))
    if public is not None:
        found = check_journal(public_view(found.journal))
    results = JournalResults(found)
    row = results.brood("young")
    assert row is not None
    here = Here(Site(results, Words(ENGLISH), "0.1.0", NO_PICTURES), "groups/young.html")
    parents = row.dams if side == "dams" else row.sires
    return str(parents_fact(here, side, parents).text.striptags())


def test_sentence__of_one_animal() -> None:
    diary = _PAIR + "2026-03-01 fen | hatched: {brood: young}"

    assert _told(diary, "dams") == (
        "Dam: dusk (the only one that can have been an adult female in fen when the young hatched)."
    )
    assert _told(diary, "sires") == (
        "Sire: dawn (the only one that can have been an adult male in fen between 26 Jan 2026 and"
        " 14 Feb 2026; eggs of the species take 15 to 31 days)."
    )


def test_sentence__of_several_groups() -> None:
    diary = (
        _PAIR
        + """
        2026-01-01 fen | bought: {group: noon, count: 3}
        2026-02-03 fen | berried: {group: dusk}
        2026-03-01 fen | hatched: {brood: young, dams: dusk}
        """
    )

    assert _told(diary, "sires") == (
        "Sire: dawn or noon (one of 2 groups that can have had adult males in fen between 26 Jan"
        " 2026 and 3 Feb 2026; eggs were first seen on 3 Feb 2026)."
    )
    assert _told(diary, "dams") == "Dam: dusk (named by the keeper)."


def test_sentence__names_what_lowers_the_claim() -> None:
    diary = (
        _PAIR
        + """
        2026-02-01 fen | strayed: {from: tarn, to: fen}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: dawn}
        """
    )

    assert _told(diary, "sires") == (
        "Sire: dawn (named by the keeper; an animal of another tank may have been in fen since"
        " 1 Feb 2026)."
    )


def test_sentence__says_that_the_book_speaks_against_a_name() -> None:
    diary = """
        2025-11-01 fen | bought: {group: dusk, females: 1}
        2025-11-01 tarn | bought: {group: noon, males: 1}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: noon}
    """

    assert _told(diary, "sires") == (
        "Sire: noon (named by the keeper; but the book speaks against it)."
    )


def test_sentence__of_nobody() -> None:
    diary = _PAIR + "2026-03-01 tarn | hatched: {brood: young}"

    assert _told(diary, "dams") == (
        "Dam: unknown (the book has nobody of an age and sex to breed there at that time)."
    )


def test_sentence__gives_no_private_day_away() -> None:
    diary = (
        _PAIR
        + """
        2026-02-03 fen | berried: {group: dusk, private: true}
        2026-03-01 fen | hatched: {brood: young}
        """
    )
    told = _told(diary, "sires", public=["berried"])

    assert "3 Feb" not in told
    assert "first seen" not in told


def test_sentence__does_not_tell_of_a_private_move() -> None:
    diary = """
        2025-11-01 fen | bought: {group: dusk, females: 1}
        2025-11-01 fen | bought: {group: dawn, males: 1}
        2025-11-01 tarn | bought: {group: noon, males: 1}
        2026-01-10 fen | moved: {group: dusk, to: tarn, private: true}
        2026-03-01 tarn | hatched: {brood: young}
    """

    assert "before her move" in _told(diary, "sires")
    assert "before her move" not in _told(diary, "sires", public=["given"])


def test_level__is_claimed_for_names_and_inferred_for_the_book() -> None:
    found = checked(
        diary_files(
            _PAIR + "2026-03-01 fen | hatched: {brood: young, dams: dusk}", settings=_SETTINGS
        )
    )
    results = JournalResults(found)
    row = results.brood("young")
    assert row is not None
    here = Here(Site(results, Words(ENGLISH), "0.1.0", NO_PICTURES), "groups/young.html")

    assert parents_fact(here, "dams", row.dams).level.name == Level.CLAIMED.value
    assert parents_fact(here, "sires", row.sires).level.name == Level.INFERRED.value
