"""What is installed is what stands in the checkout: tables, font, templates, styles and all, and it runs elsewhere."""

import os
import shutil
import subprocess
import sys
import zipfile

import pytest

from tests.conftest import ROOT

HELD = ("pyproject.toml", "README.md", "LICENSE", "parts", "cli")
RUN = "import sys, parts; print(parts.__file__); from cli.main import run; run()"


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """The wheel of a clean copy: in the checkout an old build's files would hide what is missing."""
    base = tmp_path_factory.mktemp("wheel")
    for name in HELD:
        place = ROOT / name
        if place.is_dir():
            shutil.copytree(place, base / "src" / name, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            (base / "src").mkdir(exist_ok=True)
            shutil.copy(place, base / "src")
    command = [
        sys.executable,
        "-m",
        "pip",
        "wheel",
        ".",
        "-w",
        base,
        "--no-deps",
        "--quiet",
        "--disable-pip-version-check",
    ]
    built = subprocess.run(command, cwd=base / "src", capture_output=True, text=True, timeout=300, check=False)
    if built.returncode:
        pytest.skip(f"no wheel can be built here: {(built.stderr.strip().splitlines() or ['pip says nothing'])[-1]}")
    (found,) = base.glob("*.whl")
    with zipfile.ZipFile(found) as packed:
        packed.extractall(base / "site")
        return base, packed.namelist()


def test_it_holds_every_file_of_the_packages_and_nothing_else(wheel):
    base, names = wheel
    wanted = {
        p.relative_to(base / "src").as_posix()
        for name in ("parts", "cli")
        for p in (base / "src" / name).rglob("*")
        if p.is_file()
    }
    assert {n for n in names if ".dist-info/" not in n} == wanted
    assert {
        "parts/units.txt",
        "parts/job/examples/demo.toml",
        "parts/sheets/page/page.css",
        "parts/sheets/page/page.html.j2",
    } <= wanted
    (entry,) = (n for n in names if n.endswith("entry_points.txt"))
    assert "topend = cli.main:run" in (base / "site" / entry).read_text()


def test_every_dependency_has_a_lower_and_an_upper_bound(wheel):
    base, names = wheel
    (metadata,) = (n for n in names if n.endswith(".dist-info/METADATA"))
    needs = [line for line in (base / "site" / metadata).read_text().splitlines() if line.startswith("Requires-Dist")]
    assert len(needs) > 15
    assert [line for line in needs if ">=" not in line or "<" not in line] == []


def test_it_runs_from_another_folder(wheel, tmp_path):
    base, _ = wheel

    def run(*arguments):
        return subprocess.run(
            [sys.executable, "-c", RUN, *arguments], cwd=tmp_path, capture_output=True, encoding="utf-8", check=False,
            env={**os.environ, "PYTHONPATH": str(base / "site")},
        )  # fmt: skip

    assert run("new", "job.toml", "--from", "demo").returncode == 0
    checked = run("check", "job.toml")
    assert (checked.returncode, checked.stderr) == (0, "")
    assert checked.stdout.startswith(str(base / "site" / "parts"))
    made = run("make", "job.toml", "--only", "stepped-stud")
    assert (made.returncode, made.stderr) == (0, "")
    written = {p.name for p in (tmp_path / "outputs" / "job").rglob("*") if p.is_file()}
    assert {"index.html", "deck-template.pdf", "stepped-stud.dxf", "stepped-stud.step", "sizes.json"} <= written
