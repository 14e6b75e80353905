"""The same job gives the same bytes whatever the machine is set to: compared with a run of plain settings."""

import os
import subprocess
import sys

import pytest

from parts.making.manifest import digest
from tests.conftest import ROOT
from tests.whole.test_gallery import same

ELSEWHERE = {  # each of them has made some program's output differ
    "PYTHONHASHSEED": "4242",
    "LC_ALL": "tr_TR.UTF-8",
    "LANG": "de_DE.UTF-8",
    "LANGUAGE": "de",
    "TZ": "Pacific/Kiritimati",
    "FONTCONFIG_FILE": "/dev/null",
    "COLUMNS": "20",
    "SOURCE_DATE_EPOCH": "1",
    "USER": "somebody",
    "USERNAME": "else",
}
OTHER_PROCESSOR = {  # one without fused multiply-add, on one core
    "OMP_NUM_THREADS": "1",
    "OPENBLAS_CORETYPE": "Prescott",
    "NPY_DISABLE_CPU_FEATURES": "FMA3 AVX2",
    "GLIBC_TUNABLES": "glibc.cpu.hwcaps=-AVX2,-FMA,-FMA4,-AVX512F,-AVX2_Usable,-FMA_Usable",
}
OTHER_SUM = """
import builtins, math, operator, functools, sys
plain = builtins.sum
def other(items, /, start=0):  # of floats: to the last digit as from Python 3.12 on; there as before
    items = list(items)
    if not all(type(one) in (int, float) for one in [*items, start]):
        return plain(items, start)
    exact = sys.version_info < (3, 12) and float in map(type, items)
    return math.fsum([*items, start]) if exact else functools.reduce(operator.add, items, start)
builtins.sum = other
"""
ALONE = {
    "C": {"LC_ALL": "C"},
    "hash seed 0": {"PYTHONHASHSEED": "0"},
    "processor": OTHER_PROCESSOR,
    "sum": {"SUM": OTHER_SUM},
    "no fonts": {"FONTCONFIG_FILE": "/dev/null"},
}


def remade(tmp_path, **env):
    """Make the worked job in a folder of its own, with nothing of this user's surroundings; return where it is."""
    python = tmp_path / "python"
    python.mkdir()
    (python / "sitecustomize.py").write_text(env.pop("SUM", ""))
    plain = {"PATH": os.environ["PATH"], "PYTHONPATH": f"{python}{os.pathsep}{ROOT}", "PYTHONDONTWRITEBYTECODE": "1"}
    place = tmp_path / "some where else"
    place.mkdir()
    found = subprocess.run(
        [sys.executable, "-W", "ignore", "-m", "cli.main", "demo", "--into", "ça/va"],
        cwd=place, env=plain | env, umask=0o077, capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert (found.returncode, found.stderr) == (0, "")
    return place / "ça" / "va"


def differing(one, other):
    """Names of files whose bytes differ; the assembly by its content."""
    files = {
        folder: {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()} for folder in (one, other)
    }
    assert files[one] == files[other]
    changed = {name for name in files[one] if digest(one / name) != digest(other / name)}
    if changed <= {"assembly.step", "manifest.json"} and same(one / "assembly.step", other / "assembly.step"):
        return []
    return sorted(changed)


def test_other_settings_and_another_processor_give_the_same_bytes(made, tmp_path):
    """No home, no fonts, another language, time zone, order of sets, folder, umask, vector unit, sum: all at once."""
    _, first = made
    assert differing(first, remade(tmp_path, **ELSEWHERE, **OTHER_PROCESSOR, SUM=OTHER_SUM)) == []


@pytest.mark.long
@pytest.mark.parametrize("what", [*ELSEWHERE, *OTHER_PROCESSOR, *ALONE])
def test_each_setting_by_itself(made, tmp_path, what):
    _, first = made
    env = ALONE.get(what) or {what: {**ELSEWHERE, **OTHER_PROCESSOR}[what]}
    assert differing(first, remade(tmp_path, **env)) == []
