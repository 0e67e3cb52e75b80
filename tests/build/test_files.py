"""The file layer on the real file system."""

import errno
import fcntl
import os
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

from filialog.build import locks, system_calls
from filialog.build.files import Kind, RealFiles, exists, write_aside

FILES = RealFiles()


def test_stat__tells_every_kind_and_follows_no_link(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"abc")
    (tmp_path / "folder").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "nowhere")
    os.mkfifo(tmp_path / "pipe")
    found = {entry.name: entry.stat for entry in FILES.list_folder(tmp_path)}

    assert list(found) == ["file", "folder", "link", "pipe"]
    kinds = [stat.kind for stat in found.values()]
    assert kinds == [Kind.FILE, Kind.FOLDER, Kind.LINK, Kind.OTHER]
    assert found["file"].size == 3
    for name, stat in found.items():
        assert FILES.stat(tmp_path / name) == stat
        assert exists(FILES, tmp_path / name)
    assert not exists(FILES, tmp_path / "none")
    assert not exists(FILES, tmp_path / "file" / "none")


def test_read__gives_all_or_the_first_bytes(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"abcdef")
    assert FILES.read(tmp_path / "file") == b"abcdef"
    assert FILES.read(tmp_path / "file", at_most=4) == b"abcd"
    assert FILES.read(tmp_path / "file", at_most=40) == b"abcdef"


def test_read__refuses_links_folders_and_pipes_without_waiting(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"abc")
    (tmp_path / "link").symlink_to(tmp_path / "file")
    os.mkfifo(tmp_path / "pipe")
    for name in ("link", "pipe", "none", "."):
        with pytest.raises(OSError, match=r".+"):
            FILES.read(tmp_path / name)


@pytest.mark.parametrize("sync", [True, False])
def test_write__never_touches_what_is_there(tmp_path: Path, sync: bool) -> None:
    FILES.write(tmp_path / "file", b"abc", sync=sync)
    assert (tmp_path / "file").read_bytes() == b"abc"
    (tmp_path / "link").symlink_to(tmp_path / "elsewhere")
    for name in ("file", "link"):
        with pytest.raises(FileExistsError):
            FILES.write(tmp_path / name, b"x", sync=sync)
    assert (tmp_path / "file").read_bytes() == b"abc"
    assert not (tmp_path / "elsewhere").exists()


def test_write_aside__replaces_and_clears_what_a_killed_run_left(tmp_path: Path) -> None:
    (tmp_path / "part").write_bytes(b"half")
    (tmp_path / "file").write_bytes(b"old")
    write_aside(FILES, tmp_path / "file", b"new", aside=tmp_path / "part")

    assert [entry.name for entry in FILES.list_folder(tmp_path)] == ["file"]
    assert (tmp_path / "file").read_bytes() == b"new"


def test_exchange__swaps_two_folders_in_one_step(tmp_path: Path) -> None:
    for name in ("one", "other"):
        (tmp_path / name).mkdir()
        (tmp_path / name / name).write_text(name)
    if not FILES.exchange(tmp_path / "one", tmp_path / "other"):
        pytest.skip("this file system cannot exchange two names")
    assert (tmp_path / "one" / "other").read_text() == "other"
    assert (tmp_path / "other" / "one").read_text() == "one"


def test_exchange__a_missing_name_is_an_error_and_not_an_impossibility(tmp_path: Path) -> None:
    (tmp_path / "one").mkdir()
    with pytest.raises(FileNotFoundError) as caught:
        FILES.exchange(tmp_path / "one", tmp_path / "other")
    assert caught.value.filename == str(tmp_path / "one")


def test_exchange__a_system_without_the_call_says_no(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(system_calls, "_c_library", lambda: None)
    (tmp_path / "one").mkdir()
    (tmp_path / "other").mkdir()
    assert not FILES.exchange(tmp_path / "one", tmp_path / "other")
    FILES.sync(tmp_path)


def test_exchange__another_file_system_says_no(tmp_path: Path) -> None:
    other = Path("/dev/shm")
    if not other.is_dir() or other.stat().st_dev == tmp_path.stat().st_dev:
        pytest.skip("there is no second file system here")
    assert not FILES.exchange(tmp_path, other)


def test_sync__takes_a_folder_and_reports_a_missing_one(tmp_path: Path) -> None:
    FILES.sync(tmp_path)
    with pytest.raises(FileNotFoundError):
        FILES.sync(tmp_path / "none")


def test_make_folder__makes_those_above_and_leaves_what_is_there(tmp_path: Path) -> None:
    FILES.make_folder(tmp_path / "a/b")
    (tmp_path / "a/b/file").write_text("x")
    FILES.make_folder(tmp_path / "a/b")
    assert (tmp_path / "a/b/file").read_text() == "x"


HOLDER = """
import sys, time
from pathlib import Path
from filialog.build.locks import take_lock, _take_by_presence
take = take_lock if sys.argv[2] == "flock" else _take_by_presence
lock = take(Path(sys.argv[1]))
print("held" if lock is not None else "busy", flush=True)
if lock is not None:
    with lock:
        sys.stdin.readline()
"""


@pytest.mark.parametrize("way", ["flock", "presence"])
def test_lock__only_one_process_holds_it_and_death_frees_it(tmp_path: Path, way: str) -> None:
    path = tmp_path / "lock"
    take = locks.take_lock if way == "flock" else locks._take_by_presence

    def start() -> subprocess.Popen[str]:
        return subprocess.Popen(
            [sys.executable, "-c", textwrap.dedent(HOLDER), str(path), way],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
        )

    with start() as holder:
        assert holder.stdout is not None
        assert holder.stdout.readline() == "held\n"
        assert take(path) is None
        holder.kill()
    assert path.exists()
    lock = take(path)
    assert lock is not None
    with lock, start() as second:
        assert second.communicate("\n")[0] == "busy\n"
    assert not path.exists()


def test_lock__a_link_in_its_place_is_refused(tmp_path: Path) -> None:
    (tmp_path / "lock").symlink_to(tmp_path / "victim")
    with pytest.raises(OSError, match="symbolic links"):
        FILES.lock(tmp_path / "lock")
    assert not (tmp_path / "victim").exists()


@pytest.mark.parametrize("content", [b"", b"0", b"-1", b"x", b"9" * 30])
def test_lock__a_holder_that_cannot_be_told_counts_as_alive(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "lock").write_bytes(content)
    assert locks._take_by_presence(tmp_path / "lock") is None
    assert (tmp_path / "lock").read_bytes() == content


def test_lock__where_flock_is_missing_the_file_is_the_lock(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_handle: int, _how: int) -> None:
        raise OSError(errno.ENOTSUP, "not supported")

    monkeypatch.setattr("fcntl.flock", refuse)
    lock = FILES.lock(tmp_path / "lock")
    assert lock is not None
    with lock:
        assert (tmp_path / "lock-held").read_text() == str(os.getpid())
        assert FILES.lock(tmp_path / "lock") is None
    assert list(tmp_path.iterdir()) == []


def test_lock__a_file_that_its_last_holder_removed_is_no_lock(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "lock"
    real, calls = fcntl.flock, []

    def removed_meanwhile(handle: int, how: int) -> None:
        calls.append(handle)
        if len(calls) == 1:
            path.unlink()
        real(handle, how)

    monkeypatch.setattr("fcntl.flock", removed_meanwhile)
    lock = FILES.lock(path)
    assert lock is not None
    with lock:
        assert path.exists()
        assert FILES.lock(path) is None
    assert len(calls) == 3
