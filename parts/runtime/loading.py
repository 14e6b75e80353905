"""Libraries that have manners of their own as they are loaded, loaded without them.

The drawing library writes a list of the machine's fonts into the home folder; it finds an empty one beside our own font
instead. The kernel's parser warns of the kernel's own grammar where warnings are asked for.
"""

from __future__ import annotations

import os
import sys
import warnings
from importlib.util import find_spec
from pathlib import Path
from threading import RLock
from types import ModuleType

CACHES = "XDG_CACHE_HOME"
OURS = Path(__file__).parents[1] / "writers" / "fonts"
"""holds ezdxf/font_manager_cache.json"""


ONE = RLock()
"""one thread loads at a time: what is set for it is set for the whole process"""


def load_drawing_library() -> None:
    """Load ezdxf, so that it neither looks for fonts nor writes down what it found."""
    with ONE:
        if "ezdxf" in sys.modules:
            return
        before = os.environ.get(CACHES)
        os.environ[CACHES] = str(OURS)
        try:
            import ezdxf  # noqa: F401
        finally:
            os.environ.pop(CACHES)
            if before is not None:
                os.environ[CACHES] = before


def load_kernel() -> None:
    """Load CadQuery's free functions; ImportError where a library of the system is missing.

    All of CadQuery comes with them, ezdxf too, unless the process has it `bare`.
    """
    if "cadquery" not in sys.modules:
        load_drawing_library()
    with ONE, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import cadquery.func  # noqa: F401


def bare(name: str) -> None:
    """Have a package's modules loaded as they are asked for, and nothing by the package itself."""
    if name not in sys.modules and (found := find_spec(name)):
        sys.modules[name] = ModuleType(name)
        sys.modules[name].__path__ = list(found.submodule_search_locations or ())
