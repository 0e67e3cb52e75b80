"""Test crosses: numbers of young, chances after them, and the mate that tells most."""

from fractions import Fraction
from math import log2

import pytest

from filialog.domain_error import DomainError
from filialog.genetics import certain, law_of
from filialog.genetics.clearing import (
    animals_to_keep,
    carrier_after_plain_young,
    chance_of_all_plain,
    rank_mates,
    young_to_clear,
)
from genetics.carriers.journals import SHADES

CLEAR, CARRIER, PALE = (("A", "A"),), (("A", "a"),), (("a", "a"),)
HALF = Fraction(1, 2)


@pytest.mark.parametrize("share", [Fraction(1, 2), Fraction(3, 4), Fraction(5, 6), Fraction(7, 8)])
@pytest.mark.parametrize("confidence", [Fraction(3, 4), Fraction(99, 100), Fraction(999, 1000)])
def test_young_to_clear__is_the_least_number(share: Fraction, confidence: Fraction) -> None:
    young = young_to_clear(plain_if_carrier=share, confidence=confidence).young

    assert share**young <= 1 - confidence < share ** (young - 1)


def test_rank_mates__information_of_one_young_by_hand() -> None:
    """Pale mate, one young: pale says carrier; plain leaves 1/3 carriers of 1/2 before."""
    he = law_of({CLEAR: HALF, CARRIER: HALF})

    best, none = rank_mates(
        SHADES,
        he,
        {"clear": certain(CLEAR), "pale": certain(PALE)},
        carriers=[CARRIER],
        young=1,
    )

    left = 3 / 4 * -(1 / 3 * log2(1 / 3) + 2 / 3 * log2(2 / 3))
    assert best.mate == "pale"
    assert best.information_bits == pytest.approx(1 - left, abs=1e-12)
    assert best.sure_share == pytest.approx(1 / 4, abs=1e-12)
    # A clear mate gives dark young of a clear suspect, and mid ones (3/8) of a carrier.
    left = 13 / 16 * -(5 / 13 * log2(5 / 13) + 8 / 13 * log2(8 / 13))
    assert none.information_bits == pytest.approx(1 - left, abs=1e-12)


def test_degenerate_numbers__are_refused_or_defined() -> None:
    assert young_to_clear(plain_if_carrier=Fraction(0), confidence=HALF).young == 1
    assert animals_to_keep(share=Fraction(1), confidence=HALF) == 1
    assert chance_of_all_plain([]) == 1
    assert carrier_after_plain_young(prior=HALF, plain_if_carrier=HALF, young=0) == HALF
    for share, confidence in ((Fraction(1), HALF), (HALF, Fraction(1)), (Fraction(-1), HALF)):
        with pytest.raises(DomainError):
            young_to_clear(plain_if_carrier=share, confidence=confidence)
    with pytest.raises(DomainError):
        carrier_after_plain_young(prior=Fraction(1), plain_if_carrier=Fraction(0), young=1)
    with pytest.raises(DomainError):
        animals_to_keep(share=Fraction(0), confidence=HALF)
    with pytest.raises(DomainError):
        rank_mates(SHADES, certain(CLEAR), {}, carriers=[CARRIER], young=0)
