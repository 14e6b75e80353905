"""`topend plug`: from flags alone, no job file."""

from __future__ import annotations

from cli.flags import part_verb

EXAMPLE = 'topend plug --hole "8.50 mm" --fit bonded --length "12 mm"'
plug = part_verb("plug", {"plug": (), "engine": ("bore", "peak_pressure")}, ["blanking-plug"], EXAMPLE)
