import pytest

from tools.needed import missing


def test_missing__skips_and_says_why(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("CI", raising=False)

    with pytest.raises(pytest.skip.Exception, match=r"A lens is not here.*grind one"):
        missing("A lens", how="grind one")


def test_missing__fails_where_all_must_run(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CI", "true")

    with pytest.raises(pytest.fail.Exception, match="A lens is not here"):
        missing("A lens", how="grind one")
