"""Sheets: what a person reads or cuts by: coordinates, outlines, drawings, the job sheet. A sheet never sizes."""
