"""The ways in which editors save, each by the calls that it makes; what was saved is the file as it then stands."""

import os
import time

import pytest

from parts.errors import JobError
from parts.watching.saves import EVERY, PATIENCE, Saves

OLD, NEW = '[engine]\nbore = "57.20 mm"\n', '[engine]\nbore = "57.30 mm"\n'
DRAWN = '[barrel]\noutline = { dxf = "deck.dxf" }\n'


def looked(saves, seconds):
    """What is seen over a time."""
    found, end = [], time.monotonic() + seconds
    while time.monotonic() < end:
        if (text := saves.look()) is not None:
            found.append(str(text))
        time.sleep(EVERY)
    return found


@pytest.fixture
def job(tmp_path):
    (tmp_path / "mine.toml").write_text(OLD)
    return tmp_path / "mine.toml"


@pytest.fixture
def saves(job):
    saves = Saves(job)
    assert saves.look() == OLD  # at once
    return saves


def in_place(path, _saves):
    with path.open("r+") as file:
        file.write(NEW)


def truncated(path, saves):
    path.write_text("")
    assert looked(saves, PATIENCE / 3) == []
    path.write_text(NEW)


def in_pieces(path, _saves):
    with path.open("w", buffering=1) as file:
        for line in NEW.splitlines(keepends=True):
            file.write(line)
            file.flush()


def renamed_over(path, _saves):
    other = path.with_name(".mine.toml.swp")
    other.write_text(NEW)
    other.replace(path)


def renamed_away(path, saves):
    path.rename(path.with_name("mine.toml~"))
    assert looked(saves, PATIENCE / 3) == []
    path.write_text(NEW)


def removed(path, saves):
    path.unlink()
    assert looked(saves, PATIENCE / 3) == []
    path.write_text(NEW)


def linked_elsewhere(path, _saves):
    other = path.with_name("other.toml")
    other.write_text(NEW)
    link = path.with_name("link")
    link.symlink_to("other.toml")
    link.replace(path)


def same_size_and_date(path, _saves):
    """As a tool that gives back a file's date."""
    before = path.stat()
    path.write_text(NEW)
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert path.stat().st_size == before.st_size


WAYS = [in_place, truncated, in_pieces, renamed_over, renamed_away, removed, linked_elsewhere, same_size_and_date]


@pytest.mark.parametrize("save", WAYS, ids=lambda way: way.__name__)
def test_a_save_is_seen_once_and_whole(save, job, saves):
    save(job, saves)
    assert looked(saves, 2 * PATIENCE) == [NEW]


@pytest.mark.parametrize("save", [in_place, truncated, renamed_over, removed], ids=lambda way: way.__name__)
def test_behind_a_link_too(save, job, tmp_path):
    (tmp_path / "link.toml").symlink_to(job)
    saves = Saves(tmp_path / "link.toml")
    assert saves.look() == OLD
    save(job, saves)
    assert looked(saves, 2 * PATIENCE) == [NEW]


def test_what_was_not_saved_is_not_seen(job, saves):
    job.read_text()
    job.with_name("beside.toml").write_text(NEW)
    assert looked(saves, 3 * EVERY) == []


@pytest.mark.parametrize(
    ("lose", "says"), [("unlink", "can't be read"), ("mkdir", "is a folder"), ("bytes", "is not UTF-8")]
)
def test_one_that_stays_away_is_told_once_and_seen_when_it_is_back(lose, says, job, saves):
    job.unlink()
    if lose == "mkdir":
        job.mkdir()
    elif lose == "bytes":
        job.write_bytes(b"\xff")
    with pytest.raises(JobError, match=says):
        looked(saves, 2 * PATIENCE)
    assert looked(saves, PATIENCE) == []
    job.rmdir() if lose == "mkdir" else job.unlink(missing_ok=True)
    job.write_text(OLD)
    assert looked(saves, 2 * PATIENCE) == [OLD]


def test_an_empty_file_is_seen_after_a_while(job, saves):
    job.write_text("")
    assert looked(saves, PATIENCE / 2) == []
    assert looked(saves, PATIENCE) == [""]


def test_a_drawing_that_the_file_names_counts_as_well(job, saves):
    drawing = job.with_name("deck.dxf")
    job.write_text(DRAWN)
    assert looked(saves, 5 * EVERY) == [DRAWN]
    for change in (drawing.write_text, lambda text: drawing.write_text(text * 2)):
        change("0\nEOF\n")
        assert looked(saves, 5 * EVERY) == [DRAWN]
    drawing.unlink()
    assert looked(saves, PATIENCE / 2) == []  # it may be being saved
    assert looked(saves, PATIENCE) == [DRAWN]
    job.write_text(OLD)
    assert looked(saves, 5 * EVERY) == [OLD]
    drawing.write_text("0\nEOF\n")  # named no more
    assert looked(saves, 5 * EVERY) == []
