"""The Nu checker: HTML, CSS and SVG against the standards."""

import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

from tools.needed import missing
from tools.sites import ROOT

__all__ = ["nu_messages"]

_JAR = ROOT / ".ci" / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"

# The checker takes `'self'` for an address it cannot resolve on disk.
_NOT_A_FAULT = ".*violates Content Security Policy.*"


def nu_messages(files: Sequence[Path]) -> tuple[str, ...]:
    """Return every message of the checker about these files, in its own order."""
    java = shutil.which("java")
    if java is None:
        missing("A Java runtime", how="apt-get install default-jre-headless")
    if not _JAR.exists():
        missing(
            "The Nu checker",
            how="npm install --prefix .ci --no-save --no-package-lock --no-audit --no-fund"
            " --ignore-scripts vnu-jar@26.9.27",
        )
    done = subprocess.run(
        [
            java,
            "-jar",
            str(_JAR),
            "--Werror",
            "--also-check-css",
            "--also-check-svg",
            "--filterpattern",
            _NOT_A_FAULT,
            *map(str, files),
        ],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=300,
        check=False,
    )
    lines = tuple(line for line in (done.stdout + done.stderr).splitlines() if line.strip())
    if done.returncode != 0 and not lines:
        return (f"the checker ended with exit code {done.returncode} and no message",)
    return lines
