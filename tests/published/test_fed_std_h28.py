"""FED-STD-H28/2, ASME B1.1 appendix B, Machinery's Handbook: shear areas of threads and least engagement."""

from math import pi, sqrt

import pytest

from parts.relations import strip
from tests.published.status import computed

AREAS = (
    computed(  # thread 6g/6H, Le = 1 d: pitch, D1 max, d2 min, d min, D2 max; ASs and ASn worked by the formulas with
        # limits of ISO 965-2 (M8, M10, M12 as printed)
        pytest.param(8, 1.25, 6.912, 7.042, 7.760, 7.348, 97.29, 134.63, id="M8"),
        pytest.param(10, 1.5, 8.676, 8.862, 9.732, 9.206, 155.8, 214.77, id="M10"),
        pytest.param(12, 1.75, 10.441, 10.679, 11.701, 11.063, 227.71, 313.41, id="M12"),
    )
)


@pytest.mark.parametrize(("d", "pitch", "minor", "pitch_min", "major", "pitch_max", "external", "internal"), AREAS)
def test_shear_areas(d, pitch, minor, pitch_min, major, pitch_max, external, internal):
    assert strip.external_area(pitch, d, minor, pitch_min, 30) == pytest.approx(external, rel=1.5e-3)
    assert strip.internal_area(pitch, d, major, pitch_max, 30) == pytest.approx(internal, rel=1.5e-3)


@pytest.mark.parametrize("row", [row.values for row in AREAS])
def test_shear_area_is_what_a_saw_would_meet(row):
    """Plane geometry: turns in the hole times circumference at the tips times the tooth's width there."""
    d, pitch, minor, pitch_min, major, pitch_max, *_ = row
    turns = d / pitch
    tooth = pitch / 2 + (pitch_min - minor) / sqrt(3)
    assert strip.external_area(pitch, d, minor, pitch_min, 30) == pytest.approx(turns * pi * minor * tooth)
    tooth = pitch / 2 + (major - pitch_max) / sqrt(3)
    assert strip.internal_area(pitch, d, major, pitch_max, 30) == pytest.approx(turns * pi * major * tooth)


def test_handbook_engagement():
    """Machinery's Handbook's formula for 3/8-16 UNC 2A/2B: tensile area 0.0775, D1 max 0.321, d2 min 0.3287 in."""
    assert strip.engagement_to_break(0.0775, 1 / 16, 0.321, 0.3287, 30) == pytest.approx(0.2691, abs=5e-5)
    assert strip.engagement_to_break(57.99, 1.5, 8.676, 8.862, 30) == pytest.approx(7.444, abs=2e-3)


def test_engagement_and_area_agree():
    """At the handbook's engagement the stud's thread has twice its tensile area to shear."""
    area, limits = 57.99, {"hole_minor": 8.676, "pitch_diameter": 8.862, "half_angle": 30}
    engaged = strip.engagement_to_break(area, 1.5, **limits)
    assert strip.external_area(1.5, engaged, **limits) == pytest.approx(2 * area)


def test_a_weak_parent_asks_for_more():
    """J of the handbook: a thread of half the strength in the hole wants twice the engagement, a stronger one no less."""
    assert strip.engagement_with_ratio(8, strip.strength_ratio(200, 100)) == 16
    assert strip.engagement_with_ratio(8, strip.strength_ratio(100, 200)) == 8
    assert strip.least_engagement(10, 30, 60) == 5
