"""How a thread may be written, and what is said about one that is written wrong."""

import pytest

from parts.thread import read_thread

WRITTEN = [  # as written, label, family, nominal, pitch [mm], left hand
    ("M10x1.5", "M10x1.5", "metric", 10, 1.5, False),
    ("M10", "M10x1.5", "metric", 10, 1.5, False),
    ("M8 x 1", "M8x1", "metric", 8, 1, False),
    ("m8X1.0", "M8x1", "metric", 8, 1, False),
    ("M 10 × 1.25 LH", "M10x1.25 LH", "metric", 10, 1.25, True),
    ("M5", "M5x0.8", "metric", 5, 0.8, False),
    ("1/4-20 UNC", "1/4-20 UNC", "unified", 6.35, 25.4 / 20, False),
    ("1/4 UNC", "1/4-20 UNC", "unified", 6.35, 25.4 / 20, False),
    ("5/16-24 UNF", "5/16-24 UNF", "unified", 7.9375, 25.4 / 24, False),
    ("5/16-24UNF-LH", "5/16-24 UNF LH", "unified", 7.9375, 25.4 / 24, True),
    ("#10-32 UNF", "#10-32 UNF", "unified", 4.826, 25.4 / 32, False),
    ("10-32 unf", "#10-32 UNF", "unified", 4.826, 25.4 / 32, False),
    (".25-28 UNF", "1/4-28 UNF", "unified", 6.35, 25.4 / 28, False),
    ("5/16 BSW", "5/16 BSW", "whitworth", 7.9375, 25.4 / 18, False),
    ("5/16-18 BSW", "5/16 BSW", "whitworth", 7.9375, 25.4 / 18, False),
    ('1/4" BSF', "1/4 BSF", "whitworth", 6.35, 25.4 / 26, False),
    ("1/4 in BSF LH", "1/4 BSF LH", "whitworth", 6.35, 25.4 / 26, True),
    ("2 BA", "2 BA", "ba", 4.7, 0.81, False),
    ("0BA", "0 BA", "ba", 6, 1, False),
    ("5/16-26 BSC", "5/16-26 BSC", "cycle", 7.9375, 25.4 / 26, False),
    ("5/16 CEI", "5/16-26 BSC", "cycle", 7.9375, 25.4 / 26, False),
]

WRONG = [  # as written, what the sentence has to hold
    ("M10x1.4", ["M10", "1.5, 1.25, 1, 0.75 mm", "'M10x1.4'", '"M10x1.5"']),
    ("M10x1,5", ['"M10x1.5"', "'M10x1,5'"]),
    ("M13", ["M12, M14", '"M10x1.5"', "'M13'"]),
    ("M10x0", ["1.5", "'M10x0'"]),
    ("1/4-20", ["series", "1/4-20 UNC", "1/4 BSW"]),
    ("1/4-28", ["1/4-28 UNF"]),
    ("10-32", ['"1/4-20 UNC"']),
    ("1/4-19 UNC", ["20 threads per inch", "1/4-20 UNC", "'1/4-19 UNC'"]),
    ("5/17 BSW", ["3/8", '"5/16 BSW"']),
    ("1/0 UNC", ["1/4", "'1/0 UNC'"]),
    ("12 BA", ["0 to 10", '"2 BA"']),
    ("10mm", ["not a length", '"M10x1.5"', "'10mm'"]),
    ("10 mm", ["not a length"]),
    ("5/16 in", ["series", "5/16 BSW"]),
    ("Mx1", ['"M10x1.5"']),
    ("", ['"M10x1.5"', "''"]),
    ("nan", ["'nan'"]),
    (10, ["in quotes", "10"]),
    (None, ["in quotes", "None"]),
]


@pytest.mark.parametrize(("text", "label", "family", "nominal", "pitch", "left"), WRITTEN)
def test_thread_is_read_as_the_trade_writes_it(text, label, family, nominal, pitch, left):
    thread = read_thread(text)
    assert (thread.label, thread.family, thread.left_hand) == (label, family, left)
    assert (thread.nominal, thread.pitch) == pytest.approx((nominal, pitch))


@pytest.mark.parametrize("text", [row[0] for row in WRITTEN])
def test_a_label_is_read_as_the_same_thread(text):
    thread = read_thread(text)
    assert read_thread(thread.label) == thread


@pytest.mark.parametrize(("text", "holds"), WRONG)
def test_what_is_written_wrong_is_answered_in_one_sentence(text, holds):
    with pytest.raises(ValueError, match=r"^wants ") as refused:
        read_thread(text)
    said = str(refused.value)
    assert "\n" not in said
    for part in holds:
        assert part in said


@pytest.mark.parametrize(
    ("text", "standard", "angle"),
    [
        ("M8", "ISO 261", 30),
        ("1/4-20 UNC", "ASME B1.1", 30),
        ("1/4 BSW", "BS 84", 27.5),
        ("2 BA", "BS 93", 23.75),
        ("1/4 CEI", "BS 811", 30),  # 60 degrees: memory
    ],
)
def test_a_thread_knows_its_standard_and_flank_angle(text, standard, angle):
    assert (read_thread(text).standard, read_thread(text).half_angle) == (standard, angle)
