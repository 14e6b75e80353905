"""The kernel in a process of its own: the same files and errors as in this one, and none left behind, whatever happens."""

import os
import pickle
import signal
import subprocess
import sys
import time
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest

import parts.making.kernel
from parts.checked import checked
from parts.errors import BuildError, Fault, JobError, WriteError
from parts.geometry.profile import Profile
from parts.making.files import orders
from parts.making.kernel import Plain, _ended, _filled_here, _filled_there, _started, kernel
from parts.making.plan import plan
from parts.making.solids import Order
from parts.making.standing import Options
from tests.conftest import JOBS, ROOT

ROD = Profile(((0.0, 0.0), (0.0, 5.0), (20.0, 5.0), (20.0, 0.0)))
SPECK = Profile(((0.0, 0.0), (0.0, 1e-9), (1e-9, 1e-9), (1e-9, 0.0)))
"""too small for the kernel"""
NO_KERNEL = """
import sys
from pathlib import Path
from parts.making.make import make
make(Path(sys.argv[1]).read_text(encoding="utf-8"), Path(sys.argv[2]))
print(sorted({"OCP", "cadquery"} & set(sys.modules)))
"""
WHAT_IT_LOADS = """
import pickle, sys
from parts.making.kernel import _filled, _load
_load()
orders = pickle.load(sys.stdin.buffer)
for order in orders:
    assert _filled(order).models
print(sorted({"ezdxf", "pydantic", "vtk.vtkRenderingCore", "cadquery.cq"} & set(sys.modules)))
"""
linux = pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="looks processes up in /proc")


def order(folder, shape=ROD, **changes):
    (folder / "parts").mkdir(exist_ok=True)
    return replace(Order("blanking-plug", "blanking-plug", shape, "plug", folder, write=True, show=True), **changes)


@pytest.fixture
def process():
    process = _started()
    yield process
    _ended(process)


@pytest.fixture
def there(process):
    """What fills orders in a second process, though this one has the kernel."""
    return lambda orders: _filled_there(process, orders)


def below(pid):
    """Processes that a process has started."""
    try:
        return [int(p) for p in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]
    except FileNotFoundError:
        return []


def runs(pid):
    try:
        return Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()[0] != "Z"
    except (FileNotFoundError, ProcessLookupError):
        return False


def wait_for(condition, seconds=60):
    end = time.monotonic() + seconds
    while not condition():
        assert time.monotonic() < end
        time.sleep(0.02)


# the same as here -----------------------------------------------------------------------------------------------------


def test_the_same_files_and_meshes_as_here(there, tmp_path):
    for name in "ab":
        (tmp_path / name).mkdir()
    (here,) = _filled_here([order(tmp_path / "a")])
    (far,) = there([order(tmp_path / "b")])
    assert far.models == here.models
    assert (far.meshes[0].points == here.meshes[0].points).all()
    for end in ("step", "stl", "3mf"):
        one, other = (tmp_path / name / "parts" / f"blanking-plug.{end}" for name in "ab")
        assert one.read_bytes() == other.read_bytes()


@pytest.mark.parametrize("name", ["lists.toml", "inch.toml"])
def test_it_is_sent_plain_numbers_and_loads_of_its_libraries_what_it_needs(name, tmp_path):
    done = checked((JOBS / name).read_text(encoding="utf-8"))
    planned = plan(done, [], Options(), tmp_path)
    sent = BytesIO()
    Plain(sent).dump([replace(one, write=False, show=True) for one in orders(tmp_path, done, planned, "simplified")])
    assert b"parts.job" not in sent.getvalue()
    told = subprocess.run(
        [sys.executable, "-c", WHAT_IT_LOADS], cwd=ROOT, input=sent.getvalue(), capture_output=True, check=True
    )
    assert told.stdout == b"[]\n"


@pytest.mark.parametrize("error", [BuildError, WriteError])
def test_the_same_errors_as_here(error, there, tmp_path):
    bad = order(tmp_path, SPECK) if error is BuildError else replace(order(tmp_path), folder=tmp_path / "nowhere")
    told = []
    for fill in (_filled_here, there):
        with pytest.raises(error) as caught:
            list(fill([bad]))
        told.append(str(caught.value))
    assert told[0] == told[1]
    assert "\n" not in told[1]
    assert "Traceback" in caught.value.__notes__[0]  # for --debug


def test_an_error_of_the_input_keeps_its_faults():
    sent = pickle.dumps(JobError(Fault("ring.slit", "is too wide", 3), Fault("", "b")))
    error = pickle.loads(sent)  # noqa: S301
    assert error.faults == (Fault("ring.slit", "is too wide", 3), Fault("", "b"))
    assert str(error) == "ring.slit (line 3): is too wide\nb"


def test_a_kernel_that_dies_is_a_build_error(process, tmp_path):
    process.kill()
    with pytest.raises(BuildError, match=r"^plug: the kernel's process ended \(signal 9\) before it was made$"):
        next(_filled_there(process, [order(tmp_path)]))


def test_without_a_second_process_the_kernel_works_here(tmp_path, monkeypatch):
    def fails(*_, **__):
        raise OSError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(parts.making.kernel.subprocess, "Popen", fails)
    assert _started() is None
    monkeypatch.setattr(sys, "executable", "")
    assert _started() is None
    with kernel() as ask:
        assert ask is _filled_here
        assert [one.stem for one in ask([order(tmp_path)])] == ["blanking-plug"]


def test_this_process_never_loads_the_kernel(tmp_path):
    job = JOBS / "gasket.toml"
    found = subprocess.run(
        [sys.executable, "-c", NO_KERNEL, str(job), str(tmp_path / "o")],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (found.stdout, found.stderr) == ("[]\n", "")


def test_a_folder_named_as_ours_where_the_user_is_does_no_harm(tmp_path):
    (tmp_path / "parts").mkdir()
    (tmp_path / "cadquery.py").write_text("raise SystemExit('loaded')\n")
    job = JOBS / "gasket.toml"
    found = subprocess.run(
        [sys.executable, "-P", "-m", "cli.main", "make", str(job), "--into", "o"],
        cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (found.returncode, found.stderr) == (0, "")


# errors on either side ------------------------------------------------------------------------------------------------

FAULTS = {
    "kernel": """
if "parts.making.kernel" in sys.orig_argv:
    import parts.builders.flat as module
    def extrude(*_): raise RuntimeError("BRep_API: command not done")
    module.extrude = extrude
""",
    "sheet": """
if "parts.making.kernel" not in sys.orig_argv:
    import parts.sheets.outlines as module
    from parts.errors import WriteError
    def gasket_template(*_): raise WriteError("head-gasket.pdf: could not be written (No space left on device)")
    module.gasket_template = gasket_template
""",
}
SAYS = {
    "kernel": "topend: head gasket: the kernel could not build it (RuntimeError: BRep_API: command not done)\n",
    "sheet": "topend: head-gasket.pdf: could not be written (No space left on device)\n",
}


@pytest.mark.parametrize("where", FAULTS)
def test_a_failure_on_either_side_is_one_sentence_and_leaves_nothing(where, run, tmp_path):
    first = tmp_path / "first"
    first.mkdir()
    (first / "sitecustomize.py").write_text(f"import sys\n{FAULTS[where]}")
    found = run("make", JOBS / "gasket.toml", "--into", tmp_path / "o", first=first)
    assert (found.returncode, found.stdout, found.stderr) == (3, "", SAYS[where])
    assert [p.name for p in tmp_path.iterdir()] == ["first"]


# interrupted ----------------------------------------------------------------------------------------------------------


@pytest.fixture
def at_work(tmp_path, demo):
    """A make that is writing, and the second process it has started."""
    job = tmp_path / "job.toml"
    job.write_bytes(demo.encode())
    command = [sys.executable, "-m", "cli.main", "make", str(job), "--into", str(tmp_path / "o")]
    process = subprocess.Popen(command, cwd=ROOT, stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True)
    wait_for(lambda: list(tmp_path.glob(".o.topend-*/parts/*")))
    (other,) = below(process.pid)
    yield process, other
    process.kill()
    process.wait()
    process.stderr.close()


@linux
def test_an_interrupt_ends_both_and_leaves_nothing(at_work, tmp_path):
    process, other = at_work
    process.send_signal(signal.SIGINT)
    assert process.wait(60) == 130
    assert process.stderr.read() == "topend: stopped: nothing was changed\n"
    wait_for(lambda: not runs(other))
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]


@linux
def test_a_killed_make_takes_the_kernel_with_it_and_the_next_clears_up(at_work, tmp_path, run):
    process, other = at_work
    process.kill()
    process.wait()
    wait_for(lambda: not runs(other))
    assert not (tmp_path / "o").exists()
    found = run("make", JOBS / "gasket.toml", "--into", tmp_path / "o")
    assert found.returncode == 0
    assert sorted(p.name for p in tmp_path.iterdir()) == ["job.toml", "o"]


@linux
def test_a_wrong_job_ends_the_kernel_that_was_loading(run, tmp_path):
    (tmp_path / "job.toml").write_text('[gasket]\nthickness = "1.2 bar"\n')
    assert run("make", tmp_path / "job.toml", "--into", tmp_path / "o", first=tmp_path).returncode == 2
    assert [p for p in Path("/proc").glob("[0-9]*") if str(tmp_path) in environment(p)] == []


def environment(process):
    try:
        return (process / "environ").read_text(errors="replace")
    except OSError:
        return ""
