"""topend: sizes, checks and makes the parts that fit a foreign cylinder head to a small air-cooled engine's barrel."""

__version__ = "0.1.0"
