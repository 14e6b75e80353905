"""Libraries that have manners of their own as they are loaded, loaded without them.

The drawing library writes a list of the machine's fonts into the home folder; it finds an empty one beside our own font
instead. The kernel's parser warns of the kernel's own grammar where warnings are asked for.
"""

from __future__ import annotations

import os
import sys
import warnings
from pathlib import Path
from threading import RLock

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
    """Load CadQuery, which loads ezdxf; ImportError where a library of the system is missing."""
    load_drawing_library()
    with ONE, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import cadquery  # noqa: F401
