"""Words of the interface by key, in plain text or with links inside."""

from collections.abc import Mapping
from hashlib import blake2b

from markupsafe import Markup, escape

from filialog.journal.quantities import Count

__all__ = ["UnknownWordError", "Words"]


class UnknownWordError(KeyError):
    """A key that the catalogue does not have."""


class Words:
    """A catalogue of words: call it with a key and the values that stand in its text.

    `pick` appends a name that is known only at run time (`level` picked by `observed` is
    `level.observed`); `number` appends `one` or `other`, whichever form the number takes.

    >>> words = Words({"young.one": "{n} young animal", "young.other": "{n} young <all>"})
    >>> words("young", number=1, n=1)
    '1 young animal'
    >>> words.rich("young", number=3, n=Markup("<b>3</b>"))
    Markup('<b>3</b> young &lt;all&gt;')
    """

    def __init__(self, catalogue: Mapping[str, str]) -> None:
        self._texts = dict(catalogue)
        self._rich = {key: escape(text) for key, text in self._texts.items()}
        digest = blake2b(digest_size=16)
        for key, text in sorted(self._texts.items()):
            digest.update(f"{len(key)}:{key}{len(text)}:{text}".encode())
        self.digest = digest.hexdigest()

    def __call__(
        self,
        key: str,
        /,
        *,
        number: Count | int | None = None,
        pick: str | None = None,
        **values: object,
    ) -> str:
        """Return plain text."""
        return self._text(_full(key, pick, number)).format(**values)

    def rich(
        self,
        key: str,
        /,
        *,
        number: Count | int | None = None,
        pick: str | None = None,
        **values: object,
    ) -> Markup:
        """Return safe HTML: values are escaped unless they are safe HTML already."""
        full = _full(key, pick, number)
        self._text(full)
        return self._rich[full].format(**values)

    def has(self, key: str, *, pick: str) -> bool:
        """Say whether a family of keys has this one."""
        return f"{key}.{pick}" in self._texts

    def _text(self, key: str) -> str:
        try:
            return self._texts[key]
        except KeyError:
            raise UnknownWordError(key) from None


def _full(key: str, pick: str | None, number: Count | int | None) -> str:
    parts = [key] if pick is None else [key, pick]
    if number is not None:
        exact = number.exact if isinstance(number, Count) else number
        parts.append("one" if exact == 1 else "other")
    return ".".join(parts)
