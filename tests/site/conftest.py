"""The compiled example, once for all tests of the site."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tools.browser import chromium
from tools.sites import EXAMPLE, compile_journal

if TYPE_CHECKING:
    from playwright.sync_api import Browser

# The reproducibility test compiles the same journal in other surroundings than these.
_SURROUNDINGS = {"PYTHONHASHSEED": "0", "TZ": "UTC", "LC_ALL": "C.UTF-8"}


@pytest.fixture(scope="session")
def public_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    output = tmp_path_factory.mktemp("public") / "site"
    return compile_journal(EXAMPLE, output, "--edition", "public", variables=_SURROUNDINGS)


@pytest.fixture(scope="session")
def keeper_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    output = tmp_path_factory.mktemp("keeper") / "site"
    return compile_journal(EXAMPLE, output, "--edition", "keeper", variables=_SURROUNDINGS)


@pytest.fixture(scope="session", params=["public", "keeper"])
def site(request: pytest.FixtureRequest) -> Path:
    folder: Path = request.getfixturevalue(f"{request.param}_site")
    return folder


@pytest.fixture(scope="module")  # two at once cannot run in one process
def browser() -> Iterator["Browser"]:
    with chromium() as started:
        yield started
