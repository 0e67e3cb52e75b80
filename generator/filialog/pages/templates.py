"""Templates as given by the caller: the environment that fills them, and their digests."""

from collections.abc import Mapping
from hashlib import blake2b

from jinja2 import DictLoader, Environment, StrictUndefined, Template, meta

from filialog.messages import Words

__all__ = ["TemplateSource", "Templates"]

TemplateSource = Mapping[str, str]
"""The texts of a theme by file name: `*.html.jinja`, and `*.css`."""


class Templates:
    """A theme ready to be filled; every value is escaped, every unknown name is an error."""

    def __init__(self, source: TemplateSource, words: Words) -> None:
        self._source = dict(source)
        self._environment = Environment(
            loader=DictLoader(self._source),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
            auto_reload=False,
        )
        self._environment.globals["words"] = words
        self._digests: dict[str, str] = {}

    @property
    def style(self) -> str:
        """All style sheets of the theme as one, by name."""
        sheets = sorted(name for name in self._source if name.endswith(".css"))
        return "\n".join(self._source[name] for name in sheets)

    def template(self, name: str) -> Template:
        """Return a template ready to be filled."""
        return self._environment.get_template(name)

    def digest(self, name: str) -> str:
        """Return the digest of a template with all that it extends, includes or imports."""
        if name not in self._digests:
            digest = blake2b(digest_size=16)
            for part in sorted(self._closure(name)):
                text = self._source[part]
                digest.update(f"{len(part)}:{part}{len(text)}:{text}".encode())
            self._digests[name] = digest.hexdigest()
        return self._digests[name]

    def _closure(self, name: str) -> set[str]:
        seen: set[str] = set()
        waiting = [name]
        while waiting:
            part = waiting.pop()
            if part in seen:
                continue
            seen.add(part)
            tree = self._environment.parse(self._source[part])
            for other in meta.find_referenced_templates(tree):
                if other is None:
                    raise ValueError(f"template {part} names another one by a computed name")
                waiting.append(other)
        return seen
