"""The limit for nitrite in fresh water."""

from filialog.husbandry.limits import Limit
from filialog.husbandry.provenance import Basis, Provenance

__all__ = ["NITRITE_LIMIT_MG_N_PER_L"]

NITRITE_LIMIT_MG_N_PER_L = Limit(
    rule="nitrite",
    amount=0.06,
    source=Provenance(
        source=(
            "guideline for the protection of aquatic life, 0.06 mg NO2-N/L (CCME); no value for"
            " dwarf shrimp is known"
        ),
        basis=Basis.FROM_MEMORY,
    ),
)
"""0.06 mg/L of nitrite as nitrogen, 0.197 mg/L as NO2.

Chloride protects against nitrite by competing uptake (Lewis & Morris 1986, from memory), and very
soft water has little of it. For comparison: larvae of *Macrobrachium carcinus* in brackish water
of 20 g/L, called safe up to 0.328 mg NO2-N/L (Gomes et al. 2016, J. World Aquac. Soc., abstract
read).
"""
