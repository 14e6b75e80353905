"""What may stand and what may not: rules, choices, limits, what was missed and what saves it."""
