"""The page's server: what each address answers. Nothing changes by GET; who may ask is settled in guard.py."""

from __future__ import annotations

import hashlib
import json
from contextlib import suppress
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any
from urllib.parse import parse_qsl, urlencode

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.responses import FileResponse, HTMLResponse, JSONResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from parts.asking import saving
from parts.asking.desk import MAKE
from parts.asking.guard import Guard
from parts.asking.screen import HERE, screen
from parts.errors import TopendError
from parts.making.manifest import read_manifest
from parts.register import PARTS
from parts.sheets.page import HERE as PAGE_FILES

if TYPE_CHECKING:
    from starlette.requests import Request

    from parts.asking.desk import Desk
    from parts.asking.door import Door

FILES = {"ask.css": (HERE, "text/css"), "ask.js": (HERE, "text/javascript"), "page.css": (PAGE_FILES, "text/css")}
NOTHING, SEE_OTHER, WRONG, NONE = 204, 303, 422, 404
SHEET = "index.html"
JOB_SHEET = f"/sheet/{SHEET}"
SHEET_POLICY = "frame-ancestors 'none'; base-uri 'none'"
"""a job sheet has its own in it"""
MOST_FIELDS = 2000


class Pages:
    """What the addresses answer for one desk."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk

    def page(self, request: Request) -> Response:
        """The page, at the question that is named or where one left off."""
        now = self.desk.whole() if "ranges" in request.query_params else self.desk.now()
        return HTMLResponse(screen(self.desk, now, request.query_params.get("at", "") or now.open))

    def file(self, request: Request) -> Response:
        """A script or a style of ours."""
        folder, kind = FILES[request.url.path.removeprefix("/")]
        return Response((folder / request.url.path.removeprefix("/")).read_bytes(), media_type=kind)

    def state(self, request: Request) -> Response:
        """What the file is like just now, and how far a make is: asked every other second."""
        del request
        work = self.desk.work
        told = {"doing": work.doing, "said": work.said, "outcome": work.outcome} if work else None
        return JSONResponse({"mark": self.desk.now().mark, "work": told, "advice": self.desk.advised})

    async def attempt(self, request: Request) -> Response:
        """What would come of an answer that is being typed; asked with `ranges` for all that is not known, later."""
        fields = await _fields(request)
        tried = await run_in_threadpool(self.desk.ranged if "ranges" in fields else self.desk.tried, fields)
        return HTMLResponse(await run_in_threadpool(screen, self.desk, tried.sight, tried.at, tried.told))

    async def answer(self, request: Request) -> Response:
        """Write an answer and go on to the next question, or say why not."""
        done = await run_in_threadpool(self.desk.answered, await _fields(request))
        if not done.told:
            return RedirectResponse(f"/?{urlencode({'at': done.at})}", SEE_OTHER)
        text = await run_in_threadpool(screen, self.desk, done.sight, done.at, done.told)
        return HTMLResponse(text)

    async def make(self, request: Request) -> Response:
        """Start to make the folder."""
        fields = await _fields(request)
        await run_in_threadpool(self.desk.make)
        return RedirectResponse(f"/?{urlencode({'at': (fields.get('at') or [MAKE])[0]})}", SEE_OTHER)

    async def advise(self, request: Request) -> Response:
        """Start to look for advice."""
        fields = await _fields(request)
        await run_in_threadpool(self.desk.advise)
        return RedirectResponse(f"/?{urlencode({'at': (fields.get('at') or [MAKE])[0]})}", SEE_OTHER)

    def form(self, request: Request) -> Response:
        """The form for the bench."""
        del request
        from parts.asking.form import write_form

        now = self.desk.now()
        with TemporaryDirectory() as folder:
            write_form(now.raw, now.standing.make or tuple(PARTS), path := Path(folder) / "form.pdf")
            return Response(path.read_bytes(), media_type="application/pdf")

    def made(self, request: Request) -> Response:
        """A file of the folder that was made: one that its manifest lists."""
        name = request.path_params["name"]
        listed = {one["path"] for one in read_manifest(self.desk.into) or []}
        if name == SHEET and not listed:  # the page says what is lacking
            return RedirectResponse("/", SEE_OTHER)
        if name not in listed:
            return PlainTextResponse("the folder has no such file: make it", NONE)
        heads = {"content-security-policy": SHEET_POLICY}
        if name != SHEET:
            return FileResponse(self.desk.into / name, headers=heads)
        data = (self.desk.into / name).read_bytes()
        heads["server-timing"] = f'sheet;desc="{_mark(data)}"'  # which its script can read
        return HTMLResponse(data, headers=heads)

    def live(self, request: Request) -> Response:
        """Which job sheet stands, and what came of the last save: the sheet asks it again and again."""
        del request
        work, sheet = self.desk.work, ""
        doing = [f"{work.doing} …"] if work and work.outcome is None else []
        with suppress(OSError):
            sheet = _mark((self.desk.into / SHEET).read_bytes())
        return JSONResponse({"sheet": sheet, "news": [*self.desk.news, *doing]})

    def notes(self, request: Request) -> Response:
        """Ticks and notes of the job sheet."""
        del request
        with suppress(OSError, ValueError):
            return JSONResponse(json.loads(self.desk.notes.read_bytes()))
        return JSONResponse({})

    async def keep(self, request: Request) -> Response:
        """Keep ticks and notes beside the folder."""
        try:
            kept = json.loads(await request.body())
            if not (isinstance(kept, dict) and all(isinstance(value, str | bool) for value in kept.values())):
                return PlainTextResponse("notes are texts and ticks by their names", WRONG)
            saving.replace(self.desk.notes, json.dumps(kept, indent=1, sort_keys=True).encode())
        except ValueError:
            return PlainTextResponse("notes come as JSON", WRONG)
        except OSError as error:
            return PlainTextResponse(f"the notes could not be kept: {error.strerror}", 500)
        return JSONResponse({})


def _mark(sheet: bytes) -> str:
    """Tells one job sheet from another."""
    return hashlib.sha256(sheet).hexdigest()


async def _fields(request: Request) -> dict[str, list[str]]:
    """Boxes that were sent, each name with all that was sent under it."""
    found: dict[str, list[str]] = {}
    with suppress(ValueError):  # too many, or no text: nothing is asked of such
        text = (await request.body()).decode()
        for name, value in parse_qsl(text, keep_blank_values=True, max_num_fields=MOST_FIELDS):
            found.setdefault(name, []).append(value)
    return found


async def _failed(request: Request, error: Exception) -> Response:
    del request
    odd = "topend failed in a way it should not: " if not isinstance(error, TopendError) else ""
    return PlainTextResponse(f"{odd}{error or type(error).__name__}", 500)


def application(desk: Desk, door: Door) -> Guard:
    """Return the server's application for one job file, behind its door."""
    pages = Pages(desk)
    routes = [
        Route("/", pages.page),
        *(Route(f"/{name}", pages.file) for name in FILES),
        Route("/favicon.ico", lambda _: Response(status_code=NOTHING)),
        Route("/state", pages.state),
        Route("/form.pdf", pages.form),
        Route("/try", pages.attempt, methods=["POST"]),
        Route("/answer", pages.answer, methods=["POST"]),
        Route("/make", pages.make, methods=["POST"]),
        Route("/advise", pages.advise, methods=["POST"]),
        Route("/sheet/live", pages.live),
        Route("/sheet/notes", pages.notes),
        Route("/sheet/notes", pages.keep, methods=["POST"]),
        Route("/sheet/{name:path}", pages.made),
    ]
    handlers: Any = {TopendError: _failed, Exception: _failed}
    return Guard(Starlette(routes=routes, exception_handlers=handlers), door)
