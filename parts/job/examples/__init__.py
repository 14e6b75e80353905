"""The worked job, carried inside the package."""

from pathlib import Path


def demo_text() -> str:
    """Return the text of the worked job file."""
    return (Path(__file__).parent / "demo.toml").read_text(encoding="utf-8")
