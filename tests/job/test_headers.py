"""A header that is commented out while its keys are not: named once, as the cause of all that follows from it."""

import pytest

from parts.job import JobError, load
from parts.job.examples import demo_text
from parts.job.schema import template

UNDER = "is commented out, and {} below it {} not: take the # off {}"


def told(text):
    with pytest.raises(JobError) as error:
        load(text)
    return [(fault.key, fault.line, fault.says) for fault in error.value.faults]


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        (
            '# [engine]\nbore = "60 mm"\nstroke = "60 mm"\n',
            [("engine", 1, UNDER.format("bore, stroke", "are", "[engine]"))],
        ),
        (
            '[job]\ntitle = "x"\n#[engine]  # measured\n# cycle = "four-stroke"\nbore = "60 mm"\n',
            [("engine", 3, UNDER.format("bore", "is", "[engine]"))],
        ),
        (  # it would be taken for the gasket's
            '[gasket]\nthickness = "1 mm"\n# [plug]\nmaterial = "11SMn30"\n',
            [("plug", 3, UNDER.format("material", "is", "[plug]"))],
        ),
        (  # TOML's own word would be that a key stands there twice
            '[barrel]\nmaterial = "EN-GJL-250"\n# [head]\nmaterial = "EN-GJL-250"\n',
            [("head", 3, UNDER.format("material", "is", "[head]"))],
        ),
        (
            '[barrel]\nmaterial = "EN-GJL-250"\n# [[barrel.passages]]\nname = "oil"\n[engine]\nboar = "60 mm"\n',
            [
                ("barrel.passages", 3, UNDER.format("name", "is", "[[barrel.passages]]")),
                ("engine.bore", 5, 'is missing: bore of the barrel, as honed, like "57.20 mm"'),
                ("engine.boar", 6, "is not a key here; did you mean bore?"),
            ],
        ),
        (
            '# [lathe]\nleast_depth_of_cut = "1 mm"\nfeed = "1 mm"\nnose_radius = "1 mm"\ntaper_limit = "1 mm"\ntailstock = true',
            [
                (
                    "lathe",
                    1,
                    UNDER.format("least_depth_of_cut, feed, nose_radius, taper_limit and 1 more", "are", "[lathe]"),
                )
            ],
        ),
    ],
)
def test_the_header_is_named_as_the_cause(text, faults):
    assert told(text) == faults


@pytest.mark.parametrize(
    "text",
    [
        template(),
        demo_text(),
        '[engine]\nbore = "60 mm"\n# [engine.hot]\n# stud = "145 degC"\nstroke = "60 mm"\n',
        '[engine]\n# [see the drawing]\nbore = "60 mm"\n',
        '# [engine]\n[engine]\nbore = "60 mm"\n',
        '[engine]\n# [engine.notes]\nbore = "60 mm"\n',
    ],
)
def test_other_comments_are_nobodys_business(text):
    load(text)
