"""Shapes: what a part looks like, as plain numbers taken from the book. Imports no CAD.

The one source for the solid, the drawing and the outlines; a shape that can't be is refused here, with key and value,
before any kernel is loaded.
"""
