"""Cells of a CSV as every spreadsheet takes them, whatever its language."""

from __future__ import annotations

from decimal import Decimal

FORMULA = "=+-@＝＋－＠\t\r"  # what begins a formula, the wide forms too


def words(text: str) -> str:
    """Keep a spreadsheet from taking words for a formula.

    >>> words("=1+1"), words(" @x"), words("push rod")
    ("'=1+1", "' @x", 'push rod')
    """
    return f"'{text}" if text.lstrip(" ")[:1] in {*FORMULA} else text


def number(value: float) -> str:
    """Write a number in full without a decimal point, which a spreadsheet that writes commas takes for thousands.

    >>> number(73.475), number(-1.2), number(8.0), number(1.15e-5)
    ('73475E-3', '-12E-1', '8', '115E-7')
    """
    sign, digits, exponent = Decimal(repr(value + 0.0)).normalize().as_tuple()
    whole = "-" * sign + "".join(map(str, digits))
    return f"{whole}E{exponent}" if isinstance(exponent, int) and exponent < 0 else f"{Decimal(repr(value + 0.0)):.0f}"
