"""The rules on choices about the blanking plug: one small function each, all of them in PLUG_CHOICES."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.finding import Finding
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job

WAY_OUT = (
    "a shoulder in a counterbore, or a threaded plug, holds whatever the fit; a finer finish gives {gain} at most, and "
    "a hole measured closer gives its tolerance"
)


def leak_case(book: Book, job: Job) -> Iterator[Finding]:
    """What pushes on the plug, and when."""
    name = "plug.under_face"
    if name not in book:
        return
    reach = book[name].value
    far = printed(abs(reach), "mm", job.job.print_units)
    if reach < 0:
        says = (
            f"The plug lies {far} outside the ring of the gasket that is pressed: gas gets at it only where the gasket "
            "leaks, and plug.gas_force is that case"
        )
        yield Finding(name, "ok", reach, 0.0, "mm", says, "geometry")
    else:
        says = f"The plug reaches {far} under the ring of the gasket that is pressed: it must be flush, and gas-tight"
        yield Finding(name, "caution", reach, 0.0, "mm", says, "geometry")


def fit_that_holds(book: Book, job: Job) -> Iterator[Finding]:
    """Tighter bursts the hole, looser lets the plug go: whether there is a fit between."""
    names = ("plug.interference_wanted", "plug.interference_allowed", "plug.interference_max", "plug.interference_min")
    if job.plug is None or job.plug.fit != "press" or not book.has(*names, "plug.smoothing"):
        return
    wanted, allowed, greatest, least = (float(book[n].value) for n in names)
    if wanted <= least and greatest <= allowed:
        return
    low, high, gain = (
        printed(v, "mm", job.job.print_units) for v in (max(wanted, 0.0), allowed, book["plug.smoothing"].value)
    )
    if wanted > allowed:
        says = f"No press fit holds here: it wants {low} of interference, and the wall bursts over {high}; "
        yield Finding(
            names[0], "stop", wanted, allowed, "mm", says + WAY_OUT.format(gain=gain), "Lame; DIN 7190-1 (memory)"
        )
        return
    says = (
        f"The tolerances run over what holds: measure the hole, give it with its tolerance, and have the plug {low} to "
        f"{high} over it; or {WAY_OUT.format(gain=gain)}"
    )
    yield Finding(names[0], "caution", wanted, allowed, "mm", says, "Lame; DIN 7190-1 (memory)")


PLUG_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [
    ("plug", leak_case),
    ("plug", fit_that_holds),
]
