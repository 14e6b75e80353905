"""The machines people have: types for each system, Python told otherwise, and nothing written outside the output folder."""

import json
import os
import subprocess
import sys

import pytest

from tests.conftest import JOBS, ROOT, topend
from tests.making.test_making_again import digests

JOB = JOBS / "gasket.toml"


@pytest.fixture(scope="module")
def usual(tmp_path_factory):
    """What `check` says and `make` writes."""
    into = tmp_path_factory.mktemp("usual") / "o"
    assert topend("make", JOB, "--into", into).returncode in (0, 1)
    return topend("check", JOB).stdout, digests(into)


# Python told otherwise --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("flags", "env"),
    [(["-OO"], {}), ([], {"PYTHONOPTIMIZE": "2"}), ([], {"PYTHONWARNINGS": "error"}), (["-X", "dev"], {}), (["-W", "error"], {}), (["-I"], {})],
    ids=["-OO", "optimize", "warnings", "dev", "-W error", "-I"],
)  # fmt: skip
def test_python_told_otherwise_does_the_same(usual, tmp_path, flags, env):
    start = [
        sys.executable,
        *flags,
        "-c",
        f"import sys; sys.path.insert(0, {str(ROOT)!r}); from cli.main import run; run()",
    ]
    settings = {**os.environ, **env}
    if not flags:
        start = [sys.executable, "-m", "cli.main"]
        settings["PYTHONPATH"] = str(ROOT)
    found = [
        subprocess.run([*start, *what], cwd=tmp_path, env=settings, capture_output=True, text=True, encoding="utf-8", check=False)
        for what in (["check", str(JOB)], ["make", str(JOB), "--into", "o"])
    ]  # fmt: skip
    assert [run.stderr for run in found] == ["", ""]
    assert found[0].stdout == usual[0]
    assert digests(tmp_path / "o") == usual[1]


def test_help_is_there_without_docstrings():
    plain, bare = (subprocess.run([sys.executable, *flags, "-m", "cli.main", "stud", "--help"], cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, check=True).stdout
                   for flags in ([], ["-OO"]))  # fmt: skip
    assert plain == bare
    assert b"Make one stepped stud from flags alone" in bare


# another package of the same name -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["package", "module", "with a register"])
def test_another_parts_on_the_path_is_named(tmp_path, kind):
    """In a sentence, and without running it."""
    other = tmp_path / ("parts.py" if kind == "module" else "parts/__init__.py")
    other.parent.mkdir(exist_ok=True)
    other.write_text("raise SystemExit('loaded')\n")
    if kind == "with a register":
        (other.parent / "register.py").write_text("raise SystemExit('loaded')\n")
    (tmp_path / "here").mkdir()
    found = topend("check", JOB, first=tmp_path, cwd=tmp_path / "here")
    assert (found.returncode, found.stdout) == (3, "")
    assert found.stderr == (
        f"topend: a package named parts stands before topend's own where Python looks for it ({str(other)!r}): "
        "take its folder out of PYTHONPATH, or go to another folder\n"
    )


def test_a_folder_named_parts_that_is_no_package_is_no_other(tmp_path):
    (tmp_path / "parts").mkdir()
    assert topend("check", JOB, first=tmp_path, cwd=tmp_path).returncode in (0, 1)


# nothing outside the folder -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("cache", ["", "elsewhere"])
def test_nothing_is_written_outside_the_folder(tmp_path, cache):
    """Neither in the home folder (where a library would put a list of fonts) nor in the system's for temporary files."""
    for name in ("home", "tmp", "work"):
        (tmp_path / name).mkdir()
    env = {
        "HOME": str(tmp_path / "home"),
        "TMPDIR": str(tmp_path / "tmp"),
        "XDG_CACHE_HOME": str(tmp_path / cache) if cache else "",
    }
    for what in (
        ["make", JOB, "--into", "o"],
        ["make", JOB, "--into", "o", "--fresh"],
        ["check", JOB],
        ["compare", JOB, "--vary", "gasket.thickness=0.8mm,1.2mm"],
    ):
        assert topend(*what, cwd=tmp_path / "work", **env).returncode in (0, 1)
    assert sorted(p.relative_to(tmp_path).as_posix() for p in tmp_path.glob("*/*")) == ["work/o"]


def test_the_caller_s_settings_stay_as_they_are():
    """Where the font list is looked for is the caller's again once the library is loaded."""
    program = "import os; import parts.writers; print(os.environ.get('XDG_CACHE_HOME'))"
    for value in (None, "/somewhere"):
        env = {k: v for k, v in os.environ.items() if k != "XDG_CACHE_HOME"} | (
            {"XDG_CACHE_HOME": value} if value else {}
        )
        found = subprocess.run(
            [sys.executable, "-c", program], cwd=ROOT, env=env, capture_output=True, text=True, check=True
        )
        assert found.stdout == f"{value}\n"


def test_the_empty_list_of_fonts_is_one_that_the_library_takes():
    """One that it does not take it would write anew, into the program's own folder."""
    from ezdxf.fonts.font_manager import FontManager

    from parts.runtime.loading import OURS

    manager = FontManager()
    manager.loads((OURS / "ezdxf" / "font_manager_cache.json").read_text())
    assert json.loads(manager.dumps()) == json.loads((OURS / "ezdxf" / "font_manager_cache.json").read_text())


def test_two_threads_may_load_at_once():
    """As the kernel's process does, which loads while the orders come in and bring their own modules."""
    program = (
        "import os, threading; from parts.runtime.loading import load_drawing_library as load\n"
        "gate, failed = threading.Barrier(8), []\n"
        "threading.excepthook = failed.append\n"
        "def at_once(): gate.wait(); load()\n"
        "threads = [threading.Thread(target=at_once) for _ in range(8)]\n"
        "[t.start() for t in threads]; [t.join() for t in threads]\n"
        "print(failed, os.environ.get('XDG_CACHE_HOME'))\n"
    )
    env = {**os.environ, "XDG_CACHE_HOME": "/somewhere"}
    found = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, env=env, capture_output=True, text=True, check=True
    )
    assert found.stdout == "[] /somewhere\n"
