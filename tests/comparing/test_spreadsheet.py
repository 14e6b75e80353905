"""Tables as a spreadsheet opens them, in the languages of decimal points and commas. By hand: tests/run_long programs.

`soffice` of Debian's libreoffice-calc-nogui, which opens the file as its dialogue would offer it and writes back the
kind and the value of each cell.
"""

import csv
import os
import shutil
import subprocess
from dataclasses import replace
from io import StringIO
from xml.etree import ElementTree as ET

import pytest

from parts.checked import checked
from parts.comparing.compare import vary_job
from parts.comparing.records import as_csv
from parts.comparing.sweep import read_varied
from parts.job.examples import demo_text
from parts.sheets.coordinates import coordinates_csv, rows

pytestmark = [
    pytest.mark.long,
    pytest.mark.skipif(not shutil.which("soffice"), reason="libreoffice-calc is not installed"),
]
TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
LANGUAGES = {"German": 1031, "English": 1033, "French": 1036}  # as the filter numbers them
GIVEN = ("=1+1", "+2 mm", "-2 mm", "@sum")


def opened(text, language, folder):
    """Cells of every row: a number as a float, words as they are; no cell may be a formula."""
    (folder / "table.csv").write_text(text, encoding="utf-8", newline="")
    subprocess.run(
        ["soffice", "--headless", f"--infilter=CSV:44,34,76,1,,{LANGUAGES[language]},false,true",
         "--convert-to", "fods", "--outdir", str(folder), str(folder / "table.csv")],
        env=os.environ | {"HOME": str(folder)}, check=True, capture_output=True, timeout=180,
    )  # fmt: skip
    for row in ET.parse(folder / "table.fods").getroot().iter(f"{TABLE}table-row"):
        cells = []
        for cell in row.iter(f"{TABLE}table-cell"):
            assert cell.get(f"{TABLE}formula") is None
            number = cell.get(f"{OFFICE}value-type") == "float"
            value = float(cell.get(f"{OFFICE}value")) if number else "".join(cell.itertext()).strip()
            cells += [value] * int(cell.get(f"{TABLE}number-columns-repeated", 1))
        yield cells


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_comparison_keeps_its_numbers_and_words(language, tmp_path):
    found = vary_job(demo_text(), [read_varied("gasket.thickness=0.9..1.2mm/0.1")])
    cases = [replace(case, given=(text,)) for case, text in zip(found.cases, GIVEN, strict=True)]
    text = "".join(as_csv(replace(found, cases=cases)))
    written = list(csv.reader(StringIO(text)))
    sizes = [f"{name} [{found.units[name]}]" for name in found.differing()]
    assert len(sizes) > 20
    for wrote, read in zip(written[1:], list(opened(text, language, tmp_path))[1:], strict=True):
        assert read[0] == wrote[0].lstrip("'") or read[0] == wrote[0]
        for name in sizes:
            at = written[0].index(name)
            assert read[at] == pytest.approx(float(wrote[at]), rel=1e-13), (name, wrote[at])


@pytest.mark.parametrize("language", LANGUAGES)
def test_coordinates_are_read_right_or_as_words(language, tmp_path):
    """Six places are no group of thousands: where the comma is the decimal sign, they stay words and are never misread."""
    done = checked(demo_text())
    text = coordinates_csv(rows(done.book, done.job))
    for wrote, read in zip(csv.reader(StringIO(text)), opened(text, language, tmp_path), strict=True):
        for one, other in zip(wrote, read, strict=False):
            assert other == one or float(one) == pytest.approx(other)
