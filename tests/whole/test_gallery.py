"""The gallery in outputs/demo is what `topend demo` makes today: remade and compared, file by file."""

import json
import re
import shutil
import subprocess

import pytest

from tests.conftest import ROOT

GALLERY = ROOT / "outputs" / "demo"
NUMBER = re.compile(r"-?\d+\.\d*(?:[eE][-+]?\d+)?")


def kept():
    """Files of the gallery as the repository has them; where this is no repository, or has no git, all but the meshes."""
    git = shutil.which("git")
    listed = git and subprocess.run(
        [git, "ls-files", "outputs/demo"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    if not listed or listed.returncode:
        return [p for p in GALLERY.rglob("*") if p.is_file() and p.suffix not in (".stl", ".3mf")]
    return [ROOT / line for line in listed.stdout.splitlines()]


def test_the_gallery_is_kept():
    assert {"sizes.json", "findings.json", "coordinates.csv", "job.toml", "manifest.json"} <= {p.name for p in kept()}
    assert not [p.name for p in kept() if p.suffix in (".stl", ".3mf")]


def test_each_file_is_what_is_made_today(made):
    _, remade = made
    differ = [p.relative_to(GALLERY).as_posix() for p in kept() if not same(p, remade / p.relative_to(GALLERY))]
    assert differ == [], "run `topend demo`, look at what changed, and keep it"


def listed(manifest):
    return [(e["path"], e["part"], e["kind"], e["made_from"]) for e in json.loads(manifest)]


def same(kept_file, made_file):
    """Byte for byte; or, on a processor whose last digits differ, the same text with numbers equal to 1e-7."""
    if not made_file.exists():
        return False
    old, new = kept_file.read_bytes(), made_file.read_bytes()
    if old == new:
        return True
    if kept_file.name == "manifest.json":  # holds the hashes of the others
        return listed(old) == listed(new)
    if kept_file.suffix not in (".step", ".dxf", ".svg"):
        return False
    texts = [b.decode("latin-1") for b in (old, new)]
    if NUMBER.sub("#", texts[0]) != NUMBER.sub("#", texts[1]):
        return False
    numbers = [[float(n) for n in NUMBER.findall(t)] for t in texts]
    return numbers[0] == pytest.approx(numbers[1], abs=1e-7)
