"""The page of a group's relatives: in one breath how related, through whom, and how sure."""

import re
from dataclasses import replace

import pytest

from filialog.analysis.relation_rows import RelationRow, RelativesRow
from filialog.lineage import RelationshipKind
from filialog.messages import ENGLISH
from filialog.pages import render_pages
from tools.fake_results import fake_results, theme

HALF_SIBS = RelationRow(
    other="pale-next",
    kind=RelationshipKind.HALF_SIBS,
    possible=False,
    generations_here=1,
    generations_there=1,
    through=("slate",),
    kinship_low=0.125,
    kinship_high=0.125,
)
NOBODY = RelativesRow(
    group="slate-f1",
    mates_low=0.1875,
    mates_high=0.25,
    relatives=(),
    further=(),
    unrelated=(),
    unknown=(),
)


def text_of(row: RelativesRow) -> str:
    results = replace(fake_results(), relatives_rows={"slate-f1": row})
    pages = {page.address: page.body().decode() for page in render_pages(results, theme(), "0")}
    html = pages["relatives/slate-f1.html"].partition("<main")[2].partition("</main")[0]
    return " ".join(re.sub(r"<[^>]*>", " ", html).split())


def text_with(*relatives: RelationRow) -> str:
    return text_of(replace(NOBODY, relatives=relatives))


@pytest.mark.parametrize(
    ("kind", "here", "there", "says"),
    [
        (RelationshipKind.PARENT_YOUNG, 1, 0, "A parent kinship"),
        (RelationshipKind.PARENT_YOUNG, 0, 1, "Young of theirs kinship"),
        (RelationshipKind.ANCESTOR, 3, 0, "An ancestor, 3 generations back kinship"),
        (RelationshipKind.ANCESTOR, 0, 2, "Descendants, 2 generations on kinship"),
        (
            RelationshipKind.COLLATERAL,
            2,
            3,
            "A common ancestor, 2 generations back from here and 3 from there kinship",
        ),
        (RelationshipKind.COLLATERAL, 0, 0, "Partly from the same group kinship"),
    ],
)
def test_relatives__tell_which_way_a_relation_goes(
    kind: RelationshipKind, here: int, there: int, says: str
) -> None:
    row = replace(HALF_SIBS, kind=kind, generations_here=here, generations_there=there)

    assert says in text_with(row)


@pytest.mark.parametrize("kind", list(RelationshipKind))
def test_relatives__every_kind_has_words(kind: RelationshipKind) -> None:
    assert "pale-next" in text_with(replace(HALF_SIBS, kind=kind))


def test_relatives__that_are_only_possible_are_called_so() -> None:
    text = text_with(replace(HALF_SIBS, possible=True))

    assert "Possibly half sisters and brothers kinship 0.125" in text


def test_relatives__of_unknown_mating_show_both_numbers() -> None:
    row = replace(HALF_SIBS, kinship_low=0.1875, kinship_high=0.25)

    assert "kinship 0.188 to 0.25" in text_with(row)


def test_relatives__alike_stand_in_one_line_and_others_do_not() -> None:
    text = text_with(
        HALF_SIBS,
        replace(HALF_SIBS, other="slate"),
        replace(HALF_SIBS, through=("pale-next",)),
    )

    assert text.count("Half sisters and brothers kinship 0.125") == 2
    assert "pale-next and slate through slate" in text


def test_relatives__none_is_said_apart_from_not_known() -> None:
    none = text_of(replace(NOBODY, unrelated=("pale-next",)))
    unknown = text_of(replace(NOBODY, unknown=("pale-next",)))

    assert "slate-f1 is related to no other group on record." in none
    assert "back to the founders on all sides: pale-next." in none
    assert ENGLISH["relatives-opening.unknown"].format(group="slate-f1") in unknown
    assert "not all parents are known: pale-next." in unknown


def test_relatives__beyond_the_nearest_are_listed_with_their_kinship() -> None:
    far = tuple((f"far-{number}", 0.01, 0.02) for number in range(302))

    text = text_of(replace(NOBODY, relatives=(HALF_SIBS,), further=far))

    assert "slate-f1 has 303 relatives on record" in text
    assert "far-0 0.01 to 0.02, far-1" in text
    assert text.count("far-") == 300
    assert "And 2 more." in text


def test_relatives__say_how_two_of_the_group_are_related_and_nothing_of_a_single_one() -> None:
    says = "Two animals of slate-f1 have a kinship of 0.188 to 0.25 with each other."

    assert says in text_of(NOBODY)
    assert "Two animals" not in text_of(replace(NOBODY, mates_low=None, mates_high=None))
