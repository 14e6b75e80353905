"""What the user writes is drawn, or refused in a sentence: a sheet with empty boxes names nothing."""

import unicodedata

import pytest

from parts.errors import JobError
from parts.job import load
from parts.job.fields import LETTERS
from parts.writers.fonts import outlines


def test_the_font_has_every_letter_that_is_let_in():
    """By the font file's own table of characters, read by fontTools."""
    has = set(outlines().getBestCmap())
    let_in = {code for some in LETTERS for code in some if unicodedata.category(chr(code)) not in ("Cn", "Cf")}
    assert len(let_in) > 1500
    assert let_in <= has


@pytest.mark.parametrize("title", ["Жук", "Σύνδεση", "Größe Ø 57 ± 0,1 → 1½", "Kolbenring für Anhänger"])
def test_latin_greek_and_cyrillic_are_drawn(demo, title):
    assert load(demo.swap("Orchard sprayer engine", title)).job.title.startswith(title)


@pytest.mark.parametrize(("title", "lacking"), [("噴霧器", "噴霧器"), ("مرش", "مرش"), ("sprayer 🍎", "🍎")])
def test_others_are_refused(demo, title, lacking):
    with pytest.raises(JobError, match=rf"job.title \(line \d+\): has letters that the sheets can't draw, '{lacking}'"):
        load(demo.swap("Orchard sprayer engine", title))
