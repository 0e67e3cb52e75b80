from pathlib import Path

import pytest

from tools import oracles
from tools.oracles import ask_oracle


def test_ask_oracle__skips_and_says_how_to_get_it(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.delenv("CI", raising=False)
    monkeypatch.setattr(oracles, "_PYTHON", tmp_path / "python")

    with pytest.raises(pytest.skip.Exception, match=r"pip install --requirement \.ci/oracles"):
        ask_oracle("sgkit_kinship.py", {})


def test_ask_oracle__fails_where_all_must_run(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("CI", "true")
    monkeypatch.setattr(oracles, "_PYTHON", tmp_path / "python")

    with pytest.raises(pytest.fail.Exception, match="reference libraries is not here"):
        ask_oracle("sgkit_kinship.py", {})


def test_ask_oracle__a_script_that_fails_is_no_answer() -> None:
    with pytest.raises(RuntimeError, match=r"sgkit_kinship\.py ended with exit code 1: KeyError"):
        ask_oracle("sgkit_kinship.py", {"no pedigrees": []})
