"""Any sequence of runs, damage and foreign files equals one clean run."""

import contextlib
import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.build.names import check_names
from filialog.build.refusals import NameRefused
from filialog.build.trees import Written
from tools.faulty_files import FaultyFiles
from tools.page_sets import clean_tree, publish, tree_in

MEMORY = Path("/dev/shm")  # many small files, quick to make and remove
DAMAGES = ("cut", "long", "gone", "link")
PATHS = ("index.html", "a.html", "a.css", "d", "d/a.html", "d/e", "d/e/b.html", "f/g/h.html")
# Some of the same length, which the writer cannot tell apart by size.
TEXTS = ("", "one", "two", "three", "x" * 5000)


@st.composite
def page_texts(draw: st.DrawFn) -> dict[str, str]:
    chosen: dict[str, str] = {}
    for path in PATHS:
        if draw(st.booleans()):
            try:
                check_names([*chosen, path])
            except NameRefused:
                continue
            chosen[path] = draw(st.sampled_from(TEXTS))
    return chosen


steps = st.lists(
    st.one_of(
        st.tuples(st.just("write"), page_texts(), st.booleans(), st.booleans()),
        st.tuples(st.just("fail"), page_texts(), st.booleans(), st.integers(1, 60)),
        st.tuples(st.just("damage"), st.sampled_from(PATHS), st.sampled_from(DAMAGES)),
        st.tuples(st.just("foreign"), st.sampled_from(("mine.txt", "own/mine.txt", "d.txt"))),
    ),
    max_size=8,
)


@settings(max_examples=80, deadline=None)
@given(steps=steps, last=page_texts())
def test_write__any_history_equals_a_clean_run(
    steps: list[tuple[object, ...]], last: dict[str, str]
) -> None:
    with tempfile.TemporaryDirectory(dir=MEMORY if MEMORY.is_dir() else None) as name:
        folder = Path(name) / "kept"
        folder.mkdir()
        foreign: dict[str, bytes] = {}
        for step in steps:
            _take(folder, step, foreign)
        done = publish(folder, last)
        assert tree_in(folder / "site") == clean_tree(Path(name) / "clean", last) | foreign
        _check_counts(done, last)


def _check_counts(done: Written, last: dict[str, str]) -> None:
    assert len(done.new) + len(done.changed) + done.unchanged == len(last)
    assert set(done.new) | set(done.changed) <= last.keys()
    assert set(done.removed).isdisjoint(last)


def _take(folder: Path, step: tuple[object, ...], foreign: dict[str, bytes]) -> None:
    site = folder / "site"
    match step:
        case ["write", dict(texts), bool(exchange), bool(link)]:
            publish(folder, texts, files=FaultyFiles(can_exchange=exchange, can_link=link))
        case ["fail", dict(texts), bool(exchange), int(number)]:
            with contextlib.suppress(OSError):
                publish(folder, texts, files=FaultyFiles(can_exchange=exchange, fail_at=number))
        case ["damage", str(path), str(kind)]:
            if (site / path).is_file() and not (site / path).is_symlink():
                _damage(site / path, kind)
        case ["foreign", str(path)] if site.exists():
            (site / path).parent.mkdir(exist_ok=True)
            (site / path).write_text("mine")
            foreign[path] = b"mine"


def _damage(path: Path, kind: str) -> None:
    if kind == "cut" and path.stat().st_size:
        path.write_bytes(b"")
    elif kind == "long":
        path.write_bytes(path.read_bytes() + b"more")
    elif kind == "gone":
        path.unlink()
    elif kind == "link":
        path.unlink()
        path.symlink_to("/etc/hostname")
