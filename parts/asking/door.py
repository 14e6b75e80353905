"""Who may ask: this machine alone, this user alone, and no page but ours.

A random token stands in the address once, then in a cookie that no script reads and no other site's page can send.
Besides, every request has to be for our own name and port, and from our own page: a name that another site has pointed
at this machine, or a form that another page sends here, is turned away before anything is read.
"""

from __future__ import annotations

import secrets
from dataclasses import dataclass, field
from hmac import compare_digest
from http.cookies import CookieError, SimpleCookie
from typing import TYPE_CHECKING
from urllib.parse import parse_qs

if TYPE_CHECKING:
    from starlette.types import Scope

HOME = "127.0.0.1"
MOST = 200_000  # bytes of a request's body
FORBIDDEN, TOO_LARGE = 403, 413


@dataclass(frozen=True)
class Door:
    """The way in to one page."""

    port: int
    token: str = field(default_factory=lambda: secrets.token_urlsafe(32), repr=False)
    page: str = "/"
    """that it leads to"""

    @property
    def host(self) -> str:
        """As a browser names it."""
        return f"{HOME}:{self.port}"

    @property
    def address(self) -> str:
        """Where the page is, with the token."""
        return f"http://{self.host}{self.page}?token={self.token}"

    @property
    def cookie(self) -> str:
        """What the browser is given to come back with."""
        return f"{self.name}={self.token}; HttpOnly; SameSite=Strict; Path=/"

    @property
    def name(self) -> str:
        """Of the cookie: browsers keep one jar for all ports of a machine."""
        return f"topend-{self.port}"

    def refuses(self, scope: Scope) -> tuple[int, str]:
        """Status and reason why a request is turned away; 0 where it is let in."""
        heads = [(name.decode("latin-1"), value.decode("latin-1")) for name, value in scope["headers"]]
        of = {name: [value for one, value in heads if one == name] for name, _ in heads}
        if of.get("host") != [self.host]:
            return FORBIDDEN, "this is another host"
        if any(origin != f"http://{self.host}" for origin in of.get("origin", [])):
            return FORBIDDEN, "another page sent this"
        if not (self.brings_token(scope) or self._brings_cookie(of.get("cookie", []), of)):
            return FORBIDDEN, "open the address that topend printed: it lets you in"
        if scope["method"] == "POST" and not 0 <= _length(of.get("content-length", [])) <= MOST:
            return TOO_LARGE, f"a request has a length of at most {MOST} bytes, and says so"
        return 0, ""

    def brings_token(self, scope: Scope) -> bool:
        """Tell whether the address has the token; it only opens a page."""
        tokens = parse_qs(scope["query_string"].decode("latin-1")).get("token", [])
        return scope["method"] == "GET" and any(map(self._is_token, tokens))

    def _brings_cookie(self, cookies: list[str], of: dict[str, list[str]]) -> bool:
        if not {"same-origin", "none"}.issuperset(of.get("sec-fetch-site", [])):
            return False
        return any(self._is_token(value) for one in cookies for value in self._values(one))

    def _values(self, cookie: str) -> list[str]:
        try:
            read = SimpleCookie(cookie)
        except CookieError:
            return []
        return [read[self.name].value] if self.name in read else []

    def _is_token(self, text: str) -> bool:
        return compare_digest(text.encode(), self.token.encode())


def _length(told: list[str]) -> int:
    return int(told[0]) if len(told) == 1 and told[0].isdecimal() else -1
