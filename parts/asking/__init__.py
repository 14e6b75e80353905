"""A job asked for: what to measure, in which order, and the page and the form that ask it."""
