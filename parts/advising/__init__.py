"""What to change: candidates from the job file's models, judged as variants."""
