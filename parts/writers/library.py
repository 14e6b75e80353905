"""The drawing library, loaded with our manners: by the writers that need it, and by nothing else in this folder."""

from __future__ import annotations

from parts.runtime.loading import load_drawing_library

load_drawing_library()

import ezdxf  # noqa: E402
from ezdxf.addons.acadctb import new_ctb  # noqa: E402
from ezdxf.addons.drawing import RenderContext  # noqa: E402
from ezdxf.addons.drawing.backend import BackendInterface  # noqa: E402
from ezdxf.addons.drawing.config import ColorPolicy, Configuration, HatchPolicy  # noqa: E402
from ezdxf.addons.drawing.frontend import UniversalFrontend  # noqa: E402
from ezdxf.addons.drawing.pipeline import RenderPipeline2d  # noqa: E402
from ezdxf.entities import Circle, LWPolyline  # noqa: E402
from ezdxf.fonts import fonts  # noqa: E402
from ezdxf.path import Command  # noqa: E402

__all__ = [
    "BackendInterface",
    "Circle",
    "ColorPolicy",
    "Command",
    "Configuration",
    "HatchPolicy",
    "LWPolyline",
    "RenderContext",
    "RenderPipeline2d",
    "UniversalFrontend",
    "ezdxf",
    "fonts",
    "new_ctb",
]
