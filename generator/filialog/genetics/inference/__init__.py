"""Exact inference on networks of tables; it knows nothing of animals.

In comes a `Network`: variables with a few states each, and factors over a few of them, those
that stand for evidence with a label. Out goes the law of each variable given all factors, or
the joint law of a few, or the labels that cannot hold together.
"""

from filialog.genetics.inference.contradictions import ImpossibleEvidenceError
from filialog.genetics.inference.limits import Limits, Method, TooLargeError
from filialog.genetics.inference.marginals import Marginals, joint, marginals
from filialog.genetics.inference.network import Factor, Network

__all__ = [
    "Factor",
    "ImpossibleEvidenceError",
    "Limits",
    "Marginals",
    "Method",
    "Network",
    "TooLargeError",
    "joint",
    "marginals",
]
