"""The job file's tables about the workshop: its lathe, and what else is at hand."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from parts.job.fields import Length, Table, key


class Lathe(Table):
    """[lathe]."""

    least_depth_of_cut: Length = key("least cut that still cuts", "0.25 mm")
    feed: Length = key("feed per turn", "0.08 mm", free="0.02..0.20mm/0.02|0.001..0.008in/0.001")
    nose_radius: Length = key(
        "nose radius of the tool", "0.4 mm", free="0.1 mm,0.2 mm,0.4 mm,0.8 mm|1/256 in,1/128 in,1/64 in,1/32 in"
    )
    taper_limit: Length = key("on diameter, over one turned section", "0.03 mm")
    tailstock: bool = key("a tailstock centre is used", True, default=False)


class Workshop(Table):
    """[workshop]: what is at hand; what is designed and the steps of work go by it."""

    rotary_table: bool = key("a rotary table, or a dividing head, on the mill", True, default=False)
    scales: bool = key("a digital readout on the mill", True, default=False)
    cnc: bool = key("a mill that follows a file", False, default=False)
    printer: bool = key("a printer for plastic parts", False, default=False)
    oven: bool = key("an oven that holds the heat of setting rings", True, default=True)
    steady: bool = key("a travelling steady for the lathe", False, default=False)
    saws: Annotated[list[Length], Field(max_length=36)] = key(
        "widths of the slitting saws at hand", ["0.30 mm", "0.50 mm"], default=[]
    )
    reamers: Annotated[list[Length], Field(max_length=100)] = key(
        "sizes of the reamers at hand", ["6.00 mm", "8.00 mm"], default=[]
    )
