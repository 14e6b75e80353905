"""Jobs, or variants of one job, side by side."""
