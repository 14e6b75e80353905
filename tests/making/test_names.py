"""Names that Windows does not take, looked at here as paths of Windows; folders that are named so are refused where it is Windows."""

import ntpath
import warnings
from pathlib import PureWindowsPath

import pytest

from parts.errors import JobError
from parts.making import folder
from parts.making.folder import check_target
from parts.making.names import DEVICES, forbidden

TAKEN = [r"C:\Users\anna\outputs\demo", r"outputs\demo", r"\\host\share\demo", "C:demo", "..", ".", r"..\demo", r".\x", "C:\\",
         "console", "com", "com10", "nulls", "a.con", ".hidden", "Kühlrippe größer", "semi;colon&and", "100%s {0} $HOME", "-x"]  # fmt: skip
LEFT = {
    "CON": "device", "nul": "device", "Aux.toml": "device", "COM1": "device", "lpt9.tar.gz": "device", "com².x": "device", "NUL .txt": "device",
    r"C:\x\prn\demo": "device", "demo.": "ends in a dot or a blank", "demo ": "ends in a dot or a blank", r"a.\b": "ends in a dot",
    "ab:c": "holds ':'", r"C:\a\b:stream": "holds ':'", 'a"b': "holds '\"'", "a|b": "holds '|'", "a?": "holds '?'", "<a>": "holds '<'", "a*": "holds '*'",
    "tab\there": r"holds '\\t'",
}  # fmt: skip


@pytest.mark.parametrize("name", TAKEN)
def test_what_windows_takes(name):
    assert forbidden(PureWindowsPath(name)) == ""


@pytest.mark.parametrize(("name", "why"), LEFT.items())
def test_what_windows_does_not_take(name, why):
    assert why.replace("\\\\", "\\") in forbidden(PureWindowsPath(name))


@pytest.mark.parametrize(
    "name", [*sorted(DEVICES), "com0", "clock$", "console", "x.nul", "con.", "com¹", "lpt³.txt", "aux .c"]
)
def test_devices_are_those_that_python_knows(name):
    """Against the standard library's own list."""
    if hasattr(ntpath, "isreserved"):
        reserved = ntpath.isreserved(name)
    else:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", DeprecationWarning)
            reserved = PureWindowsPath(name).is_reserved() or name.endswith(".")
    assert bool(forbidden(PureWindowsPath(name))) == reserved


def test_the_folder_is_refused_on_windows_alone(tmp_path, monkeypatch):
    for name in ("nul", "demo."):
        check_target(tmp_path / name)
    monkeypatch.setattr(folder, "WINDOWS", True)
    for name, says in (("nul", "the name of a device"), ("demo.", "ends in a dot")):
        with pytest.raises(JobError, match=says) as caught:
            check_target(tmp_path / name)
        assert caught.value.faults[0].key == "--into"
    check_target(tmp_path / "demo")
    assert list(tmp_path.iterdir()) == []
