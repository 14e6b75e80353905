"""Names of folders that cannot be, or not on Windows."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import PureWindowsPath

NUMBERED = {f"{device}{n}" for device in ("COM", "LPT") for n in "123456789¹²³"}
DEVICES = {"CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$", *NUMBERED}
"""Microsoft, Naming Files, Paths, and Namespaces"""
SIGNS = '<>:"|?*'
"""the same; the slashes part names"""
LAST_CONTROL = 31


def is_utf8(text: str) -> bool:
    """Tell whether a text that was typed came as UTF-8: bytes in another encoding come as lone surrogates."""
    return not any("\ud800" <= c <= "\udfff" for c in text)


def forbidden(path: PureWindowsPath) -> str:
    r"""Say what Windows does not take in the names of a path; empty where it takes all of them.

    >>> from pathlib import PureWindowsPath
    >>> forbidden(PureWindowsPath("C:\\parts\\nul.toml"))
    "'nul.toml' is the name of a device on Windows"
    """
    for name in path.parts[bool(path.anchor) :]:
        if name.partition(".")[0].rstrip(" ").upper() in DEVICES:
            return f"{name!r} is the name of a device on Windows"
        if name.strip(".") and name[-1] in ". ":
            return f"{name!r} ends in a dot or a blank, which Windows takes away"
        if sign := next((c for c in name if c in SIGNS or ord(c) <= LAST_CONTROL), ""):
            return f"{name!r} holds {sign!r}, which Windows does not take in a name"
    return ""
