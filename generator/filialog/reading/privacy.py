"""What seems to mean `private` keeps an item out of the public edition: it fails closed."""

from difflib import SequenceMatcher
from functools import lru_cache

__all__ = ["seems_private"]

_WORDS = {"confidential", "draft", "hidden", "public", "publish", "secret", "unlisted"}


@lru_cache(maxsize=1024)
def seems_private(word: str) -> bool:
    """Say whether a word that is not read may have been meant to keep something private.

    >>> seems_private("privat"), seems_private("Private"), seems_private("primed")
    (True, True, False)
    """
    folded = word.strip().casefold()
    if folded.startswith("priv") or folded in _WORDS:
        return True
    return 4 <= len(folded) <= 12 and SequenceMatcher(None, folded, "private").ratio() >= 0.75
