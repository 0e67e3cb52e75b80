"""What a seller's label claims, and when it contradicts the parents."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.lineage import (
    Blend,
    Generation,
    GenerationKind,
    LabelVerdict,
    Origin,
    Part,
    claims_of_label,
    equal_shares,
    generation_label,
    seller_label_conflict,
)
from tools.pedigrees import brood, pedigree

_ORIGINS: dict[str, Origin | str] = {
    "blue": "blue",
    "wild": "wild",
    "red": "red",
    "jade": "jade",
    "i1": brood("blue", "blue"),
    "i2": brood("i1", "i1"),
    "i3": brood("i2", "i2"),
    "f1": brood("wild", "blue"),
    "f2": brood("f1", "f1"),
    "f3": brood("f2", "f2"),
    "bc1": brood("f1", "blue"),
    "bc2": brood("bc1", "blue"),
    "bc1f2": brood("bc1", "bc1"),
    "three": brood("f1", "red"),
    "out": brood("f2", "red"),
    "red-jade": brood("red", "jade"),
    "four": brood("f1", "red-jade"),
    "unlike": brood("f1", "f2"),
    "either": brood("f1", "f1 blue"),
    "half-known": brood("f1", None),
    "uneven": brood("i1", "i2"),
    "joined": Blend(parts=equal_shares("bc1", "f2")),
    "part": Part(of="bc1"),
}


def _generation(name: str) -> Generation:
    return generation_label(pedigree(_ORIGINS), name)


_VERDICT = LabelVerdict


@pytest.mark.parametrize(
    ("label", "pool", "verdict"),
    [
        ("F2", "f2", _VERDICT.AGREES),
        ("f 2", "f2", _VERDICT.AGREES),
        ("F3", "f2", _VERDICT.OTHER_NUMBER),
        ("3rd filial generation", "f3", _VERDICT.AGREES),
        ("2nd generation", "f3", _VERDICT.OTHER_NUMBER),
        ("F2", "bc1", _VERDICT.OTHER_CROSS),
        ("F2", "part", _VERDICT.OTHER_CROSS),
        ("BC1", "bc1", _VERDICT.AGREES),
        ("bc-1", "bc1", _VERDICT.AGREES),
        ("backcrossed to blue", "bc2", _VERDICT.AGREES),
        ("BC1 (backcross)", "bc2", _VERDICT.OTHER_NUMBER),
        ("BC1", "bc1f2", _VERDICT.OTHER_NUMBER),
        ("BC1F2", "bc1f2", _VERDICT.AGREES),
        ("BC1 F2", "bc1f2", _VERDICT.AGREES),
        ("backcross", "f2", _VERDICT.OTHER_CROSS),
        ("F2 or BC1", "bc1", _VERDICT.AGREES),
        ("outcross", "out", _VERDICT.AGREES),
        ("outcross", "three", _VERDICT.AGREES),
        ("three-way", "out", _VERDICT.OTHER_CROSS),
        ("three-way", "three", _VERDICT.AGREES),
        ("4-way cross", "four", _VERDICT.AGREES),
        ("F3", "unlike", _VERDICT.OTHER_CROSS),
        ("F2", "either", _VERDICT.AGREES),
        ("BC1", "either", _VERDICT.AGREES),
        ("F3", "either", _VERDICT.OTHER_NUMBER),
        ("BC1", "joined", _VERDICT.AGREES),
        ("F2", "half-known", _VERDICT.CANNOT_SAY),
        ("F4", "blue", _VERDICT.CANNOT_SAY),
        ("P", "blue", _VERDICT.CANNOT_SAY),
        ("P", "f1", _VERDICT.OTHER_CROSS),
        ("I3", "i3", _VERDICT.AGREES),
        ("F3", "i3", _VERDICT.AGREES),
        ("F5", "i3", _VERDICT.CANNOT_SAY),
        ("F1", "i3", _VERDICT.OTHER_NUMBER),
        ("F3", "uneven", _VERDICT.AGREES),
        ("F2", "uneven", _VERDICT.AGREES),
        ("BC1", "i3", _VERDICT.OTHER_CROSS),
        ("outcross", "i3", _VERDICT.OTHER_CROSS),
        ("very blue, grade A", "bc1", _VERDICT.CLAIMS_NOTHING),
        ("", "bc1", _VERDICT.CLAIMS_NOTHING),
    ],
)
def test_seller_label__is_held_against_the_parents(
    label: str, pool: str, verdict: LabelVerdict
) -> None:
    assert seller_label_conflict(label, _generation(pool)) is verdict


@pytest.mark.parametrize(
    "label",
    ["tank F12b", "lot N-F2-07", "i 3 of them", "p", "fF2", "RF4", "PF", "F2x", "BC", "F", "I",
     "no back to cross", "F1234"],
)  # fmt: skip
def test_claims__of_words_that_are_no_label_are_none(label: str) -> None:
    assert claims_of_label(label) == ()


def test_claims__stand_in_order_and_each_once() -> None:
    found = claims_of_label("F2, some say BC1, really F2; an outcross once")

    assert [(claim.kind, claim.n) for claim in found] == [
        (GenerationKind.FILIAL, 2),
        (GenerationKind.BACKCROSS, 1),
        (GenerationKind.OUTCROSS, None),
    ]


@pytest.mark.parametrize("pool", ["f1", "f2", "f3", "bc1", "bc2", "bc1f2", "i1", "i3"])
def test_seller_label__agrees_with_the_code_of_each_computed_generation(pool: str) -> None:
    generation = _generation(pool)

    assert seller_label_conflict(generation.code, generation) is _VERDICT.AGREES


@given(st.text(alphabet=st.characters(exclude_characters="FfBbIP0123456789"), max_size=30))
def test_seller_label__unknown_words_never_conflict(words: str) -> None:
    for pool in ("bc1", "f2", "unlike"):
        verdict = seller_label_conflict(words, _generation(pool))
        assert verdict in (_VERDICT.CLAIMS_NOTHING, _VERDICT.AGREES) or "cross" in words.lower()
