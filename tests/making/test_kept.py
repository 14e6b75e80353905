"""What the user changed in an output folder, or put there, is theirs: kept beside what is made, and said."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from parts.making.exchange import remove
from parts.making.folder import new_folder
from parts.making.manifest import entry, read_manifest, write_manifest
from tests.conftest import ROOT
from tests.making.test_folder import held

NAMES = ("job.toml", "parts/stud.dxf", "parts/stud.preview.png")


def make(into, word="made", names=NAMES):
    """Make a folder; return what was said."""
    said = []
    with new_folder(into, said.append) as new:
        (new / "parts").mkdir()
        for name in names:
            (new / name).write_text(word)
        write_manifest(new, [entry(new, name, "stud", "text", "x") for name in names])
    return said


def changed(name, to):
    return f"{name} was changed since topend wrote it: kept as {to}"


@pytest.fixture
def into(tmp_path):
    make(tmp_path / "o")
    return tmp_path / "o"


def test_what_was_changed_stands_beside_the_new_one_by_the_next_number(into):
    for n in (1, 2, 3):
        (into / "parts" / "stud.dxf").write_text(f"mine {n}")
        assert make(into, f"made {n}") == [changed("parts/stud.dxf", f"parts/stud.kept-{n}.dxf")]
        kept = {f"parts/stud.kept-{k}.dxf": f"mine {k}" for k in range(1, n + 1)}
        assert held(into) == dict.fromkeys(NAMES, f"made {n}") | kept
    assert make(into, "again") == []
    assert [one["path"] for one in read_manifest(into)] == sorted(NAMES)


def test_the_ending_is_the_file_s_own(into):
    (into / "parts" / "stud.preview.png").write_text("mine")
    make(into)
    assert (into / "parts" / "stud.preview.kept-1.png").read_text() == "mine"


def test_what_was_changed_is_kept_where_no_new_one_is_made(into):
    """Of a part that the job asks for no more: a drawing by the old name would pass for the part's."""
    (into / "parts" / "stud.dxf").write_text("mine")
    assert make(into, "new", ("job.toml",)) == [changed("parts/stud.dxf", "parts/stud.kept-1.dxf")]
    assert held(into) == {"job.toml": "new", "parts/stud.kept-1.dxf": "mine"}


def test_a_number_that_is_taken_is_left_out(into):
    (into / "parts" / "stud.kept-1.dxf").write_text("by hand")
    (into / "parts" / "stud.kept-3.dxf").mkdir()
    (into / "parts" / "stud.dxf").write_text("mine")
    assert make(into) == [changed("parts/stud.dxf", "parts/stud.kept-2.dxf")]
    assert (into / "parts" / "stud.kept-1.dxf").read_text() == "by hand"


def test_a_change_that_the_new_one_has_too_is_not_kept(into):
    """The job file in its folder was edited, and the folder made from it."""
    (into / "job.toml").write_text("mine")
    with new_folder(into) as new:
        (new / "job.toml").write_text("mine")
        write_manifest(new, [entry(new, "job.toml", "job", "record", "x")])
    assert held(into) == {"job.toml": "mine"}


def test_a_link_in_the_place_of_a_file_of_ours_is_kept_as_a_link(into, tmp_path):
    (tmp_path / "elsewhere").write_text("secret")
    (into / "job.toml").unlink()
    (into / "job.toml").symlink_to("../elsewhere")
    assert make(into, "new") == [changed("job.toml", "job.kept-1.toml")]
    assert (into / "job.kept-1.toml").readlink() == Path("../elsewhere")
    assert ((tmp_path / "elsewhere").read_text(), (into / "job.toml").read_text()) == ("secret", "new")


def test_a_file_of_the_user_s_in_the_way_is_kept_with_all_that_stands_in_its_folder(into):
    (into / "more").mkdir()
    for name in ("a", "b"):
        (into / "more" / name).write_text(name)
    said = []
    with new_folder(into, said.append) as new:
        (new / "more").write_text("new")
        write_manifest(new, [entry(new, "more", "", "text", "x")])
    assert held(into) == {"more": "new", "more.kept-1/a": "a", "more.kept-1/b": "b"}
    assert said == [f"more/{n} stood where topend writes: kept as more.kept-1/{n}" for n in "ab"]


# folders --------------------------------------------------------------------------------------------------------------


def test_folders_keep_their_modes_and_the_user_s_their_dates(into):
    deep = into / "photos" / "july"
    deep.mkdir(parents=True)
    (deep / "1.jpg").write_text("mine")
    modes = {into: 0o750, into / "parts": 0o711, into / "photos": 0o2770, deep: 0o500}
    for folder, mode in modes.items():
        folder.chmod(mode)
    for folder, when in ((deep, 1e9), (into / "photos", 1.1e9), (into / "parts", 1.2e9)):
        os.utime(folder, (when, when))
    make(into, "new")
    assert {folder: folder.stat().st_mode & 0o7777 for folder in modes} == modes
    assert (deep.stat().st_mtime, (into / "photos").stat().st_mtime) == (1e9, 1.1e9)
    assert (into / "parts").stat().st_mtime > 1.2e9  # topend wrote there
    assert [p.name for p in into.parent.iterdir()] == ["o"]


AS_SOMEBODY = """
import sys
from pathlib import Path
from parts.errors import WriteError
from parts.making.exchange import remove
from parts.making.folder import new_folder
into = Path(sys.argv[1])
with new_folder(into) as new:
    (new / "a").write_text("new")
print(sorted(p.name for p in into.parent.iterdir()))
into.chmod(0o500)
try:
    with new_folder(into):
        pass
except WriteError as error:
    print(error)
into.chmod(0o700)
"""


@pytest.fixture
def held_back():
    """What is put before a command so that modes hold it back as they do anybody: root goes past them."""
    if os.geteuid():
        return []
    if not shutil.which("setpriv"):
        pytest.skip("no setpriv here, and root is held back by no mode")
    return ["setpriv", "--bounding-set=-dac_override,-dac_read_search", "--inh-caps=-dac_override,-dac_read_search"]


def test_folders_that_are_set_read_only(held_back, tmp_path):
    """One of the user's in the output folder stays as it is; the output folder itself is refused."""
    into = tmp_path / "out" / "o"
    make(into)
    (into / "mine").mkdir()
    (into / "mine" / "b").write_text("mine")
    (into / "mine" / "b").chmod(0o440)
    (into / "mine").chmod(0o500)
    found = subprocess.run(
        [*held_back, sys.executable, "-c", AS_SOMEBODY, str(into)], cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert found.stderr == ""
    assert found.stdout.splitlines()[0] == "['o']"
    assert "is set to be read only" in found.stdout.splitlines()[1]
    assert (into / "mine").stat().st_mode & 0o777 == 0o500
    assert (
        into / "mine" / "b"
    ).stat().st_mode & 0o777 == 0o440  # a second link of what was removed with the old folder
    assert held(into) == {"a": "new", "mine/b": "mine"}


def test_a_folder_is_removed_and_what_is_linked_elsewhere_keeps_its_mode(tmp_path):
    (tmp_path / "o" / "below").mkdir(parents=True)
    (tmp_path / "mine").write_text("mine")
    (tmp_path / "mine").chmod(0o440)
    (tmp_path / "o" / "below" / "mine").hardlink_to(tmp_path / "mine")
    (tmp_path / "o" / "link").symlink_to(tmp_path)
    (tmp_path / "o" / "below").chmod(0o500)
    remove(tmp_path / "o")
    assert [p.name for p in tmp_path.iterdir()] == ["mine"]
    assert (tmp_path / "mine").stat().st_mode & 0o777 == 0o440
