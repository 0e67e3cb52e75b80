"""Hidden carriers: what animals can carry that they do not show.

In come pools (where animals come from, how many they are) and labelled evidence (tallies,
looks, declared genotypes); out goes, by `posterior`, the law of a member of every pool given
all evidence together, the joint law of a pair, the parents inferred, and which evidence
moved a probability, or the labels that contradict one another.
"""

from filialog.genetics.carriers.evidence import Declared, Evidence, SeenLook, TallyEvidence
from filialog.genetics.carriers.pools import (
    BroodOf,
    CarrierPool,
    FounderPool,
    FrequencyPoint,
    JoinedOf,
    Parents,
    PoolShare,
    TakenFrom,
)
from filialog.genetics.carriers.posterior import (
    Assumption,
    CarrierLaw,
    Change,
    ContradictoryEvidenceError,
    Posterior,
    posterior,
)
from filialog.genetics.inference import TooLargeError

__all__ = [
    "Assumption",
    "BroodOf",
    "CarrierLaw",
    "CarrierPool",
    "Change",
    "ContradictoryEvidenceError",
    "Declared",
    "Evidence",
    "FounderPool",
    "FrequencyPoint",
    "JoinedOf",
    "Parents",
    "PoolShare",
    "Posterior",
    "SeenLook",
    "TakenFrom",
    "TallyEvidence",
    "TooLargeError",
    "posterior",
]
