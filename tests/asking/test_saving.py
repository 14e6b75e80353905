"""A file is written whole or not at all, and by one page at a time."""

import errno
import os
import signal
import stat
import subprocess
import sys
import time

import pytest

from parts.asking import saving
from parts.errors import JobError, WriteError

OLD, NEW = '[job]\ntitle = "old"\n', '[job]\ntitle = "new"\n'


def test_a_file_keeps_its_mode_and_what_it_is_a_link_to(tmp_path):
    real = tmp_path / "real.toml"
    real.write_text(OLD)
    real.chmod(0o640)
    link = tmp_path / "link.toml"
    link.symlink_to(real)
    with saving.alone(link) as path:
        saving.write(path, NEW)
    assert link.is_symlink()
    assert real.read_text() == NEW
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
    assert sorted(p.name for p in tmp_path.iterdir()) == ["link.toml", "real.toml"]


def test_bytes_are_those_of_the_text(tmp_path):
    path = tmp_path / "mine.toml"
    for text in ("\ufeffa = 1\r\nb = 2\n", "", "# µ ± °\n"):
        saving.write(path, text)
        assert path.read_bytes() == text.encode("utf-8")
        assert saving.read(path) == text


@pytest.mark.parametrize("call", ["parts.asking.saving.os.fsync", "pathlib.Path.replace"])
def test_a_disk_that_fails_leaves_the_old_file(tmp_path, monkeypatch, call):
    path = tmp_path / "mine.toml"
    path.write_text(OLD)

    def full(*_):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(call, full)
    with pytest.raises(
        WriteError, match=r"^mine.toml could not be written, it stands as it was \(No space left on device\)$"
    ):
        saving.write(path, NEW)
    assert path.read_text() == OLD
    assert [p.name for p in tmp_path.iterdir()] == ["mine.toml"]


def test_a_file_that_is_set_to_be_read_only_stays(tmp_path, monkeypatch):
    path = tmp_path / "mine.toml"
    path.write_text(OLD)
    monkeypatch.setattr(saving.os, "access", lambda *_: False)  # root may do everything
    with pytest.raises(WriteError, match="it is set to be read only"):
        saving.write(path, NEW)
    assert path.read_text() == OLD


def test_what_could_not_be_read_again_is_not_written(tmp_path):
    path = tmp_path / "mine.toml"
    with pytest.raises(JobError, match="at most 100000 bytes"):
        saving.write(path, "#" * 100_001)
    assert not path.exists()


KILLED = """
import sys
from pathlib import Path
from parts.asking import saving
path, texts = Path(sys.argv[1]), [f"# {c * 60_000}\\n" for c in "ab"]
saving.write(path, texts[0])
print("begun", flush=True)
n = 0
while True:
    n += 1
    saving.write(path, texts[n % 2])
"""


def test_a_kill_amid_a_save_leaves_one_or_the_other(tmp_path):
    path, whole = tmp_path / "mine.toml", {f"# {c * 60_000}\n" for c in "ab"}
    for pause in (0.0, 0.003, 0.011, 0.02, 0.05):
        run = subprocess.Popen([sys.executable, "-c", KILLED, str(path)], stdout=subprocess.PIPE)
        run.stdout.readline()
        time.sleep(pause)
        run.send_signal(signal.SIGKILL)
        run.wait()
        run.stdout.close()
        assert path.read_text() in whole
    with saving.alone(path) as held:  # and the next one clears away what is left
        saving.write(held, NEW)
    assert path.read_text() == NEW
    assert [p.name for p in tmp_path.iterdir()] == ["mine.toml"]


def test_a_second_page_on_one_file_is_refused_by_any_name_of_it(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text(OLD)
    (tmp_path / "link.toml").symlink_to(path)
    with saving.alone(path):
        for name in (path, tmp_path / "link.toml", tmp_path / "x" / ".." / "mine.toml"):
            with (
                pytest.raises(
                    JobError, match="is open in another topend ask or watch: use that page, or end it with Ctrl-C"
                ),
                saving.alone(name),
            ):
                pass
        with saving.alone(tmp_path / "other.toml"):
            pass
    with saving.alone(path):
        pass


def test_where_nothing_can_be_written_is_told_at_once(tmp_path, monkeypatch):
    with pytest.raises(JobError, match="there is no folder"), saving.alone(tmp_path / "no" / "mine.toml"):
        pass

    def denied(*_):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    monkeypatch.setattr("parts.making.lock.os.open", denied)
    with (
        pytest.raises(WriteError, match=r"nothing can be written in .*Permission denied"),
        saving.alone(tmp_path / "mine.toml"),
    ):
        pass
