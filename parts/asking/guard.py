"""Stands before the application: lets nothing in that the door refuses, and nothing out without its heads."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from starlette.responses import PlainTextResponse

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

    from parts.asking.door import Door

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
"""the page's own; a job sheet brings a stricter one with it"""
ALWAYS = {
    "content-security-policy": POLICY,
    "cache-control": "no-store",
    "referrer-policy": "same-origin",
    "x-content-type-options": "nosniff",
    "cross-origin-resource-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
}


class Guard:
    """An application behind its door."""

    def __init__(self, app: ASGIApp, door: Door) -> None:
        self.app, self.door = app, door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            return
        status, says = self.door.refuses(scope)
        gives = self.door.cookie if not status and self.door.brings_token(scope) else ""

        async def sent(message: Message) -> None:
            if message["type"] == "http.response.start":
                own = {name for name, _ in message["headers"]}
                heads = {**ALWAYS, **({"set-cookie": gives} if gives else {})}
                message["headers"] += [(n.encode(), v.encode()) for n, v in heads.items() if n.encode() not in own]
            await send(message)

        with suppress(Exception):  # the application has told it on the page, in a sentence
            answer = PlainTextResponse(says, status) if status else self.app
            await answer(scope, receive, sent)
