"""Two hundred scans and photographs traced, of all kinds that a workshop takes: by hand, `tests/run_long pictures`.

Ten at a time, each told as it is done; `pytest -s -m long tests/tracing/test_many.py -k part-7` takes one such part.
"""

from random import Random

import pytest

from parts.sheets.frame import Frame, write_frame
from parts.tracing.trace import Asked, trace
from tests.tracing.judged import misses
from tests.tracing.shots import GASKETS, Shot, write

PARTS, OF_EACH = 20, 10
FLAT_HOLES, FLAT_OUTLINES = 0.05, 0.10  # mm, of a flat thing on flat paper
COVERED = 0.95  # of all sizes lie within their stated ±


def drawn(number):
    """A way to take a picture."""
    d = Random(number)  # noqa: S311 - pictures, not secrets
    paper = d.choice(("A4", "A4", "Letter"))
    at = (d.uniform(100, 112), d.uniform(150, 165) - 12 * (paper == "Letter"))
    common = {
        "gasket": d.choice(GASKETS), "at": at, "turned": d.uniform(-180, 180), "paper": paper, "seed": number,
        "noise": d.uniform(1, 6), "ink": d.randint(15, 110), "quarters": d.randint(0, 3), "mirrored": d.random() < 0.15,
        "printed": (d.uniform(0.993, 1.007), d.uniform(0.993, 1.007)),
    }  # fmt: skip
    if d.random() < 0.3:
        common["lacking"] = tuple(
            (*Frame(paper).rings[n], d.choice((3.0, 7.0)), d.choice((255, 140, 60)))
            for n in d.sample(range(16), d.randint(1, 3))
        )
    if d.random() < 0.35:
        return Shot(**common, dpi=d.choice((150, 200, 300, 400, 600)), roll=d.uniform(-4, 4), blur=d.uniform(0.6, 1.2))
    return Shot(
        **common, size=d.choice(((3024, 4032), (3000, 4000), (2448, 3264))), height=d.uniform(430, 650), roll=d.uniform(-6, 6),
        tilt=(d.uniform(-15, 15), d.uniform(-15, 15)), lens=d.uniform(-0.05, 0.05), blur=d.uniform(0.6, 1.8),
        shadow=(d.uniform(-0.25, 0.3), d.uniform(-0.2, 0.2)), thick=d.choice((0.0, 0.0, 0.5, 1.2, 3.0)),
        curl=1.0 * (d.random() < 0.2), glare=((d.uniform(40, 170), d.uniform(60, 240), d.uniform(4, 9)),) if d.random() < 0.2 else (),
    )  # fmt: skip


@pytest.fixture(scope="module")
def frames(tmp_path_factory):
    folder = tmp_path_factory.mktemp("frames")
    for paper in ("A4", "Letter"):
        write_frame(folder / f"{paper}.pdf", paper)
    return folder


@pytest.mark.long
@pytest.mark.parametrize("part", [pytest.param(n, id=f"part-{n}") for n in range(PARTS)])
def test_two_hundred_pictures(part, frames, tmp_path):
    """Flat ones within their limits, each ± kept, and what was not found at all is told to be unsure."""
    stated = []
    for number in range(part * OF_EACH, (part + 1) * OF_EACH):
        shot = drawn(number)
        path = write(shot, frames / f"{shot.paper}.pdf", tmp_path / "shot.jpg", 24 if shot.dpi > 400 else 16)
        across, along = (span * grown for span, grown in zip(Frame(shot.paper).spans, shot.printed, strict=True))
        found = trace(path, Asked(across, along, thick=shot.thick))
        holes, outlines, each, wrong = misses(
            found.record()["loops"], [one.loop for one in found.loops], shot.gasket, shot.turned
        )
        print(f"{number}: holes {holes:.3f} outlines {outlines:.3f} of {shot.dpi or 'photo'} {wrong} {found.notes}")
        assert not wrong or (shot.glare and "soft" in " ".join(found.notes)), (number, shot, wrong)
        if not (shot.thick or shot.curl or shot.glare):
            assert holes <= FLAT_HOLES, (number, shot, holes)
            assert outlines <= FLAT_OUTLINES, (number, shot, outlines)
        stated += each
    covered = sum(off <= plus_minus for off, plus_minus in stated) / len(stated)
    print(f"part {part}: {covered:.3f} of {len(stated)} sizes within their ±")
    assert covered >= COVERED
