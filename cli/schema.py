"""`topend schema`: the JSON Schema of the job file, for editors."""

from __future__ import annotations


def schema() -> int:
    """Print the JSON Schema of the job file.

    Example: topend schema > job.schema.json
    """
    from cli.say import print_json
    from parts.job.schema import job_schema

    print_json(job_schema())
    return 0
