"""axe-core: what it finds against WCAG 2.2 A and AA and its own best practice."""

from pathlib import Path
from typing import TYPE_CHECKING

from tools.needed import missing
from tools.sites import ROOT

if TYPE_CHECKING:
    from playwright.sync_api import Page

__all__ = ["axe_violations"]

_SCRIPT = ROOT / ".ci" / "node_modules" / "axe-core" / "axe.min.js"
_TAGS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
_RUN = """async tags => {
  const found = await axe.run(document, {runOnly: {type: 'tag', values: tags}});
  return found.violations.map(rule => rule.id + ': ' + rule.nodes.map(node => node.html).join(' '));
}"""


def axe_violations(page: "Page", script: Path = _SCRIPT) -> list[str]:
    """Return every violation on an open page, whose context lets scripts be added."""
    if not script.exists():
        missing(
            "axe-core",
            how="npm install --prefix .ci --no-save --no-package-lock --no-audit --no-fund"
            " --ignore-scripts axe-core@4.14.1",
        )
    page.evaluate(script.read_text(encoding="utf-8"))
    found: list[str] = page.evaluate(_RUN, list(_TAGS))
    return found
