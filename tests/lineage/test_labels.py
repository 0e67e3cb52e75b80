"""Generation labels: the rules one by one, sets and blends, and what never changes them."""

import pytest
from hypothesis import given

from filialog.domain_error import DomainError
from filialog.lineage import (
    MOST_ALTERNATIVES,
    Blend,
    Brood,
    Founder,
    Generation,
    GenerationKind,
    Origin,
    Part,
    Pedigree,
    Pool,
    equal_shares,
    generation_label,
)
from tools.pedigrees import brood, pedigree, pedigrees

_CROSSES: dict[str, Origin | str] = {
    "a": "A",
    "a2": "A",
    "b": "B",
    "c": "C",
    "d": "D",
    "i1": brood("a", "a2"),
    "i2": brood("i1", "i1"),
    "i2-i3": brood("i1 i2", "a"),
    "f1": brood("b", "a"),
    "f1-bred": brood("i2", "b"),
    "f2": brood("f1", "f1-bred"),
    "f3": brood("f2", "f2"),
    "f2xf3": brood("f3", "f2"),
    "f2xa": brood("f2", "a"),
    "bc1": brood("f1", "i2"),
    "bc1b": brood("b", "f1"),
    "bc2": brood("a", "bc1"),
    "bc2xb": brood("b", "bc2"),
    "bc1f2": brood("bc1", "bc1"),
    "bc1f3": brood("bc1f2", "bc1f2"),
    "bc1f2xa": brood("bc1f2", "a"),
    "bc1xbc1b": brood("bc1", "bc1b"),
    "ac": brood("a", "c"),
    "cd": brood("c", "d"),
    "3-way": brood("f1", "c"),
    "3-wayxb": brood("3-way", "b"),
    "4-way": brood("cd", "f1"),
    "f1xac": brood("ac", "f1"),
    "outcross": brood("f2", "c"),
    "outcross2": brood("f2xf3", "d"),
    "mixed": brood("f2xf3", "f2"),
    "mixed2": brood("mixed", "f2xf3"),
    "half": brood("f1", None),
    "half2": brood("half", "a"),
    "none": brood(None, None),
}
_LINES = pedigree(_CROSSES)


@pytest.mark.parametrize(
    ("pool", "code", "kind"),
    [
        ("a", "P", "founder"),
        ("i1", "I1", "pure line"),
        ("i2", "I2", "pure line"),
        ("i2-i3", "I1–3", "pure line"),
        ("f1", "F1", "filial"),
        ("f1-bred", "F1", "filial"),
        ("f2", "F2", "filial"),
        ("f3", "F3", "filial"),
        ("f2xf3", "F2 × F3", "mixed"),
        ("f2xa", "P × F2", "mixed"),
        ("bc1", "BC1", "backcross"),
        ("bc1b", "BC1", "backcross"),
        ("bc2", "BC2", "backcross"),
        ("bc2xb", "P × BC2", "mixed"),
        ("bc1f2", "BC1F2", "backcross"),
        ("bc1f3", "BC1F3", "backcross"),
        ("bc1f2xa", "P × BC1F2", "mixed"),
        ("bc1xbc1b", "BC1 × BC1", "mixed"),
        ("3-way", "3-way", "three-way cross"),
        ("3-wayxb", "P × 3-way", "mixed"),
        ("4-way", "4-way", "four-way cross"),
        ("f1xac", "F1 × F1", "mixed"),
        ("outcross", "outcross", "outcross"),
        ("outcross2", "outcross", "outcross"),
        ("mixed", "mixed", "mixed"),
        ("mixed2", "mixed", "mixed"),
        ("half", "F1 × ?", "unknown"),
        ("half2", "P × ?", "unknown"),
        ("none", "?", "unknown"),
    ],
)
def test_label__of_each_cross(pool: str, code: str, kind: str) -> None:
    label = generation_label(_LINES, pool)

    assert (label.code, label.kind.value) == (code, kind)


def test_label__carries_what_the_code_leaves_out() -> None:
    bc2 = generation_label(_LINES, "bc2")
    assert (bc2.n, bc2.then_filial, bc2.recurrent, bc2.strains) == (2, 1, "A", ("A", "B"))
    assert generation_label(_LINES, "bc1b").recurrent == "B"
    bc1f3 = generation_label(_LINES, "bc1f3")
    assert (bc1f3.n, bc1f3.then_filial, bc1f3.recurrent) == (1, 3, "A")
    assert generation_label(_LINES, "4-way").strains == ("A", "B", "C", "D")
    unlike = generation_label(_LINES, "f2xf3")
    assert [parent.code for parent in unlike.parents] == ["F2", "F3"]
    assert generation_label(_LINES, "half").strains == ("A", "B")


@pytest.mark.parametrize(
    ("pool", "fewest", "most"),
    [
        ("a", 0, 0),
        ("i2", 2, 2),
        ("i2-i3", 1, 3),
        ("f1-bred", 1, 3),
        ("f2xf3", 3, 6),
        ("bc2", 1, 4),
        ("half", None, None),
        ("half2", None, None),
    ],
)
def test_label__counts_generations_back_to_a_founder(
    pool: str, fewest: int | None, most: int | None
) -> None:
    label = generation_label(_LINES, pool)

    assert (label.fewest, label.most) == (fewest, most)


def _label(origins: dict[str, Origin | str], pool: str) -> Generation:
    return generation_label(pedigree({**_CROSSES, **origins}), pool)


def test_label__of_a_set_that_agrees_is_that_label() -> None:
    label = _label({"y": brood("f1 f1-bred", "f1")}, "y")

    assert (label.code, label.kind, label.most) == ("F2", GenerationKind.FILIAL, 4)


def test_label__of_a_set_that_differs_is_all_of_them_in_a_stable_order() -> None:
    one, two = (_label({"y": brood("f1", sires)}, "y") for sires in ("a f1", "f1 a"))

    assert one == two
    assert one.kind is GenerationKind.ALTERNATIVES
    assert one.code == "F2|BC1"
    assert [label.code for label in one.alternatives] == ["F2", "BC1"]
    assert (one.fewest, one.most) == (1, 2)


def test_label__backcrosses_to_different_strains_are_alternatives_of_one_code() -> None:
    label = _label({"y": brood("f1", "a b")}, "y")

    assert label.code == "BC1"
    assert [simple.recurrent for simple in label.alternatives] == ["A", "B"]


def test_label__brood_mates_share_whichever_label_is_right() -> None:
    origins: dict[str, Origin | str] = {
        "set": brood("f1", "a f1"),
        "pale": Part(of="set"),
        "mates": brood("set", "pale"),
        "again": brood("f1", "a f1"),
        "not mates": brood("set", "again"),
    }

    assert _label(origins, "mates").code == "F3|BC1F2"
    assert _label(origins, "not mates").code == "F3|BC1F2|F2 × BC1"


def test_label__with_an_unknown_parent_lists_each_known_alternative() -> None:
    label = _label({"set": brood("f1", "a f1"), "y": brood(None, "set")}, "y")

    assert label.code == "F2 × ?|BC1 × ?"
    assert label.fewest is None


def test_label__of_too_many_alternatives_is_mixed() -> None:
    origins: dict[str, Origin | str] = {"g1": brood("a", "b")}
    for number in range(2, 10):
        origins[f"g{number}"] = brood(f"g{number - 1}", f"g{number - 1}")
    names = " ".join(f"g{number}" for number in range(1, 10))
    few = " ".join(names.split()[:MOST_ALTERNATIVES])
    origins |= {
        "few": Blend(parts=equal_shares(*few.split())),
        "many": Blend(parts=equal_shares(*names.split())),
        "unknown": Blend(parts=equal_shares(*names.split(), "half")),
    }

    assert _label(origins, "few").code == "F1|F2|F3|F4|F5|F6"
    many = _label(origins, "many")
    assert (many.code, many.fewest, many.most) == ("mixed", 1, 9)
    assert (_label(origins, "unknown").code, _label(origins, "unknown").fewest) == ("?", None)


def test_label__of_parts_and_blends() -> None:
    origins: dict[str, Origin | str] = {
        "part": Part(of="bc1"),
        "same": Blend(parts=equal_shares("f1", "f1-bred")),
        "pure": Blend(parts=equal_shares("i2", "i1")),
        "unlike": Blend(parts=equal_shares("f3", "f1", "a")),
        "nested": Blend(parts=equal_shares("unlike", "bc1")),
    }

    assert _label(origins, "part") == _label(origins, "bc1")
    assert _label(origins, "same").code == "F1"
    assert _label(origins, "pure").code == "I1–2"
    assert _label(origins, "pure").n is None
    assert _label(origins, "unlike").code == "P|F1|F3"
    assert _label(origins, "nested").code == "P|F1|F3|BC1"


def test_label__of_two_thousand_generations() -> None:
    origins: dict[str, Origin | str] = {"g1": brood("a", "b")}
    for number in range(2, 2001):
        origins[f"g{number}"] = brood(f"g{number - 1}", f"g{number - 1}")

    assert _label(origins, "g2000").code == "F2000"


def test_label__refuses_an_unknown_name() -> None:
    with pytest.raises(DomainError, match="gone"):
        generation_label(_LINES, "gone")


@given(pedigrees())
def test_label__ignores_which_parent_is_sire_and_the_order_of_pools(lines: Pedigree) -> None:
    swapped = Pedigree(
        pools=tuple(
            Pool(
                name=pool.name,
                origin=Brood(dams=pool.origin.sires[::-1], sires=pool.origin.dams)
                if isinstance(pool.origin, Brood)
                else pool.origin,
            )
            for pool in reversed(lines.pools)
        )
    )
    for pool in lines.pools:
        assert generation_label(swapped, pool.name) == generation_label(lines, pool.name)


@given(pedigrees())
def test_label__does_not_depend_on_the_names_of_strains(lines: Pedigree) -> None:
    renamed = {"A": "C", "B": "A", "C": "B"}
    other = Pedigree(
        pools=tuple(
            Pool(name=pool.name, origin=Founder(strain=renamed[pool.origin.strain]))
            if isinstance(pool.origin, Founder)
            else pool
            for pool in lines.pools
        )
    )
    for pool in lines.pools:
        before, after = (generation_label(given, pool.name) for given in (lines, other))
        assert (after.kind, after.n, after.fewest, after.most) == (
            before.kind,
            before.n,
            before.fewest,
            before.most,
        )
        assert set(after.strains) == {renamed[strain] for strain in before.strains}
        if before.kind is not GenerationKind.ALTERNATIVES:
            assert after.code == before.code


@given(pedigrees())
def test_label__is_one_of_few_and_always_has_a_code(lines: Pedigree) -> None:
    for pool in lines.pools:
        label = generation_label(lines, pool.name)
        assert label.code
        assert len(label.alternatives) <= MOST_ALTERNATIVES
        assert all(simple.kind is not label.kind for simple in label.alternatives)
