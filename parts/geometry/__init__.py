"""Plane outlines and turned profiles, as plain numbers: the one source of solid, drawing, cutting file and area."""
