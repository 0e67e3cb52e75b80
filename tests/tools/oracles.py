"""Reference libraries in an environment of their own, asked through a script of tests/oracles."""

import json
import subprocess
from typing import Any

from tools.needed import missing
from tools.sites import ROOT

__all__ = ["ask_oracle"]

_PYTHON = ROOT / ".ci" / "oracles" / "venv" / "bin" / "python"


def ask_oracle(script: str, question: object, *, timeout_s: float = 300.0) -> Any:  # noqa: ANN401 - any JSON
    """Run one script with the question as JSON on its input; return its answer."""
    if not _PYTHON.exists():
        missing(
            "The environment of the reference libraries",
            how="python3 -m venv .ci/oracles/venv"
            " && .ci/oracles/venv/bin/pip install --requirement .ci/oracles/requirements.txt",
        )
    done = subprocess.run(
        [str(_PYTHON), str(ROOT / "tests" / "oracles" / script)],
        input=json.dumps(question),
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=timeout_s,
        check=False,
    )
    if done.returncode != 0:
        last = done.stderr.strip().splitlines()[-1:] or ["no message"]
        raise RuntimeError(f"{script} ended with exit code {done.returncode}: {last[0]}")
    return json.loads(done.stdout)
