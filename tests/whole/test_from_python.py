"""What others call from Python: the README's example runs, every public name is there, documented and typed."""

import ast
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import parts

ROOT = Path(__file__).parents[2]


def test_the_readmes_example_runs(made, tmp_path):
    (block,) = re.findall(r"```python\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    assert len([line for line in block.splitlines() if line.strip()]) == 7
    (tmp_path / "outputs" / "demo").mkdir(parents=True)
    shutil.copy(made[1] / "job.toml", tmp_path / "outputs" / "demo")
    told = subprocess.run(
        [sys.executable, "-c", block], cwd=tmp_path, capture_output=True, encoding="utf-8", check=True
    )
    *findings, last = told.stdout.splitlines()
    assert findings
    assert all(line.startswith("caution: ") for line in findings)
    assert re.fullmatch(r"\d+ files", last)
    assert (tmp_path / "outputs" / "mine" / "parts" / "blanking-plug.step").is_file()


@pytest.mark.parametrize("name", parts.PUBLIC)
def test_a_public_name_is_there_and_says_what_it_is(name):
    assert getattr(parts, name).__doc__
    assert name in dir(parts)


def test_the_stub_types_the_very_names():
    """Each name comes from where the table says that it stands."""
    stub = ast.parse((ROOT / "parts" / "__init__.pyi").read_text(encoding="utf-8"))
    typed = {
        alias.asname: f"{node.module}:{alias.name}"
        for node in stub.body
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
    }
    assert typed == parts.PUBLIC


def test_another_name_is_refused_with_what_there_is():
    with pytest.raises(AttributeError, match="parts has no 'weigh'; it has Book"):
        parts.weigh  # noqa: B018
