"""A page served for a test: in this process, on a port of its own, asked by plain requests."""

import http.client
import re
import socket
import threading
import time
from contextlib import contextmanager
from html import unescape
from urllib.parse import urlencode

from uvicorn import Config, Server

from parts.asking.desk import Desk
from parts.asking.door import Door
from parts.asking.serve import application


class Page:
    """A desk behind its door."""

    def __init__(self, desk, door):
        self.desk, self.door = desk, door

    def ask(self, method, path, body=None, **heads):
        """Status, heads and text of one answer; `heads`: what is said besides or in the place of a browser's own."""
        own = {"Host": self.door.host, "Cookie": f"{self.door.name}={self.door.token}"}
        if method == "POST":
            own |= {"Origin": f"http://{self.door.host}", "Sec-Fetch-Site": "same-origin"}
        told = own | {name.replace("_", "-"): value for name, value in heads.items()}
        connection = http.client.HTTPConnection("127.0.0.1", self.door.port, timeout=20)
        try:
            connection.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
            data = body if isinstance(body, bytes) else urlencode(body or [], doseq=True).encode()
            if method == "POST" and "Content_Length" not in heads:
                told["Content-Length"] = str(len(data))
            for name, value in told.items():
                if value is not None:
                    connection.putheader(name, value)
            connection.endheaders(data if method == "POST" else None)
            answer = connection.getresponse()
            return answer.status, dict(answer.getheaders()), answer.read().decode()
        finally:
            connection.close()

    def show(self, key=""):
        return self.ask("GET", f"/?{urlencode({'at': key})}" if key else "/")[2]

    def answer(self, key, fields, to="/answer"):
        """Send a question's boxes as its form does; the page that comes of it, which is the next question where all is well."""
        was = re.search(r'name="was" value="(\w+)"', self.show(key))[1]
        beside = {name: f"{key}@{name}" for name in ("unit", "form", "way", "more", "know")}
        sent = {beside.get(name, name): value for name, value in fields.items()}
        status, heads, text = self.ask("POST", to, {"question": key, "was": was, **sent})
        return self.ask("GET", heads["location"])[2] if status == 303 else text

    @property
    def text(self):
        return self.desk.path.read_text(encoding="utf-8")


def told(page):
    """What is told beside the boxes, and below them."""
    places = re.findall(r'class="told".*?</div>', page, re.DOTALL)
    return [unescape(says) for place in places for says in re.findall(r"<p>(.*?)</p>", place)]


def question(page):
    """Key of the question that a page shows, of several of the first."""
    return re.search(r'name="question" value="([^"]*)"', page)[1]


@contextmanager
def served(path, into=None):
    with socket.socket() as ears:
        ears.bind(("127.0.0.1", 0))
        ears.listen()
        desk, door = Desk(path.resolve(), into or path.parent / "outputs" / path.stem), Door(ears.getsockname()[1])
        config = Config(
            application(desk, door), http="h11", ws="none", lifespan="off", log_config=None, access_log=False
        )
        server = Server(config)
        thread = threading.Thread(target=server.run, args=([ears],), daemon=True)
        thread.start()
        while not server.started:
            time.sleep(0.01)
        try:
            yield Page(desk, door)
        finally:
            server.should_exit = True
            thread.join(10)
            desk.close()
