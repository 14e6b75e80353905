"""topend: sizes, checks and makes the parts that fit a foreign cylinder head to a small air-cooled engine's barrel.

>>> from parts import demo, judge, load, size
>>> job = load(demo())
>>> book = size(job)
>>> book["joint.gas_force"].unit, book["stud.projection"].status
('N', 'computed')
>>> [finding.name for finding in judge(book, job) if finding.verdict == "stop"]
[]
"""

from importlib import import_module

__version__ = "0.1.0"

PUBLIC = {  # name -> where it stands; loaded when it is asked for, so that nothing is imported for a version number
    "Book": "parts.book:Book",
    "BuildError": "parts.errors:BuildError",
    "Entry": "parts.book:Entry",
    "Fault": "parts.errors:Fault",
    "Finding": "parts.judging.finding:Finding",
    "Job": "parts.job:Job",
    "JobError": "parts.errors:JobError",
    "Outcome": "parts.making.standing:Outcome",
    "TopendError": "parts.errors:TopendError",
    "WriteError": "parts.errors:WriteError",
    "demo": "parts.job.examples:demo_text",
    "judge": "parts.judging.findings:judge",
    "load": "parts.job:load",
    "make": "parts.making.make:make",
    "size": "parts.sizing:size",
}
__all__ = list(PUBLIC)


def __getattr__(name: str) -> object:
    """Load a public name."""
    if name not in PUBLIC:
        raise AttributeError(f"parts has no {name!r}; it has {', '.join(PUBLIC)}")
    module, _, attribute = PUBLIC[name].partition(":")
    return getattr(import_module(module), attribute)


def __dir__() -> list[str]:
    """Name what there is."""
    return [*globals(), *PUBLIC]
