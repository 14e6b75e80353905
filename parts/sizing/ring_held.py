"""Figures that both sizes and rules about the ring rest on."""

from __future__ import annotations

LEAST_PRESSURE = 0.7
"""share of its mean that the pressure on the wall is to have over any 10 degrees: common practice, no source"""
SLIT_UNDER = 0.05
"""mm that the saw may cut finer, the ends are filed to their gap; a wide one can't be: common practice, no source"""
OPEN_HELD = 0.01
"""share of the open gap that it may miss either way: common practice, no source"""
CLOSES = 0.005
"""mm of light between ring and bore that closes as they run in: common practice, no source"""
