"""A job file watched: what was saved, what it changed, what is made again."""
