"""A folder in memory for tests that make thousands of files."""

import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

MEMORY = Path("/dev/shm")


@pytest.fixture
def quick_path() -> Iterator[Path]:
    """Give a new folder, in memory where the system offers that."""
    with tempfile.TemporaryDirectory(dir=MEMORY if MEMORY.is_dir() else None) as name:
        yield Path(name)
