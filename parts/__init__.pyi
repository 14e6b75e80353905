from parts.book import Book as Book
from parts.book import Entry as Entry
from parts.errors import BuildError as BuildError
from parts.errors import Fault as Fault
from parts.errors import JobError as JobError
from parts.errors import TopendError as TopendError
from parts.errors import WriteError as WriteError
from parts.job import Job as Job
from parts.job import load as load
from parts.job.examples import demo_text as demo
from parts.judging.finding import Finding as Finding
from parts.judging.findings import judge as judge
from parts.making.make import make as make
from parts.making.standing import Outcome as Outcome
from parts.sizing import size as size

__all__ = [
    "Book",
    "BuildError",
    "Entry",
    "Fault",
    "Finding",
    "Job",
    "JobError",
    "Outcome",
    "TopendError",
    "WriteError",
    "demo",
    "judge",
    "load",
    "make",
    "size",
]
__version__: str
PUBLIC: dict[str, str]
