"""`topend ask` as it is called: its one line at once, its end, and what it can't do, in a sentence each."""

import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from contextlib import contextmanager

import pypdfium2
import pytest

from tests.conftest import ROOT

LINE = re.compile(r"http://127\.0\.0\.1:(\d+)/\?token=[A-Za-z0-9_-]{43,}\n")


@contextmanager
def asking(*arguments, cwd, **more):
    env = {**os.environ, "PYTHONPATH": str(ROOT), **more}
    run = subprocess.Popen(
        [sys.executable, "-m", "cli.main", "ask", *map(str, arguments)],
        cwd=cwd, env=env, stdout=subprocess.PIPE, stderr=subprocess.PIPE, encoding="utf-8",
    )  # fmt: skip
    try:
        yield run
    finally:
        run.kill()
        run.communicate()


def fetched(line):
    with urllib.request.urlopen(line.strip(), timeout=20) as answer:  # noqa: S310 - our own server
        return answer.read().decode()


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_it_prints_one_line_at_once_and_ends_well(tmp_path, number):
    with asking("mine.toml", "--no-browser", cwd=tmp_path) as run:
        line = run.stdout.readline()
        assert LINE.fullmatch(line)
        page = fetched(line)
        assert 'name="make"' in page
        with socket.create_connection(("127.0.0.1", int(LINE.fullmatch(line)[1]))):  # a page is open
            began = time.monotonic()
            run.send_signal(number)
            out, err = run.communicate(timeout=20)
        assert time.monotonic() - began < 10
        assert (run.returncode, out, err) == (0, "", "")
    assert list(tmp_path.iterdir()) == []  # nothing was answered


def test_an_end_amid_a_make_leaves_nothing_behind(tmp_path, demo):
    (tmp_path / "mine.toml").write_text(demo, encoding="utf-8")
    with asking("mine.toml", "--no-browser", cwd=tmp_path) as run:
        line = run.stdout.readline().strip()
        with urllib.request.urlopen(line, timeout=20) as answer:  # noqa: S310 - our own server
            cookie = {"Cookie": answer.headers["set-cookie"].partition(";")[0]}
        url = line.partition("?")[0]
        with urllib.request.urlopen(urllib.request.Request(f"{url}make", b"at=end", cookie), timeout=20):  # noqa: S310
            pass
        for _ in range(200):
            if list(tmp_path.glob("outputs/.mine.topend-*")):
                break
            time.sleep(0.1)
        run.send_signal(signal.SIGINT)
        out, err = run.communicate(timeout=60)
        assert (run.returncode, out, err) == (0, "", "")
    assert [path.name for path in tmp_path.iterdir()] == ["mine.toml"]


def test_what_is_no_request_at_all_is_not_told_on_the_terminal(tmp_path):
    with asking("mine.toml", "--no-browser", cwd=tmp_path) as run:
        port = int(LINE.fullmatch(run.stdout.readline())[1])
        with socket.create_connection(("127.0.0.1", port)) as stranger:
            stranger.sendall(b"\x16\x03\x01 no HTTP\r\n\r\n")
            stranger.recv(1000)
        run.send_signal(signal.SIGINT)
        out, err = run.communicate(timeout=20)
        assert (run.returncode, out, err) == (0, "", "")


def test_a_second_one_on_the_file_and_on_the_port_is_refused(tmp_path, run):
    with asking("mine.toml", "--no-browser", cwd=tmp_path) as first:
        port = LINE.fullmatch(first.stdout.readline())[1]
        (tmp_path / "link.toml").symlink_to("mine.toml")
        for arguments, says in (
            (("mine.toml",), "mine.toml is open in another topend ask or watch: use that page, or end it with Ctrl-C"),
            (("link.toml",), "mine.toml is open in another topend ask or watch: use that page, or end it with Ctrl-C"),
            (
                ("other.toml", "--port", port),
                f"--port: {port} can't be had (Address already in use): name another, or none",
            ),
        ):
            second = run("ask", *arguments, "--no-browser", cwd=tmp_path)
            assert (second.returncode, second.stdout) == (2, "")
            assert second.stderr.endswith(f"{says}\n")
            assert second.stderr.count("\n") == 1
    with asking("mine.toml", "--no-browser", cwd=tmp_path) as again:  # a killed one has let go
        assert LINE.fullmatch(again.stdout.readline())


@pytest.mark.parametrize(
    ("arguments", "code", "says"),
    [
        (("no/mine.toml",), 2, "there is no folder"),
        (("mine.toml", "--port", "70000"), 2, "--port"),
        (("mine.toml", "--paper", "there.pdf"), 2, "--paper: there.pdf is there already and is not overwritten"),
        (("mine.toml", "--paper", "no/form.pdf"), 3, "no/form.pdf"),
        (("broken.toml", "--paper", "form.pdf"), 2, "is not TOML"),
    ],
)
def test_what_can_t_be_is_one_sentence(tmp_path, run, arguments, code, says):
    (tmp_path / "there.pdf").write_text("mine")
    (tmp_path / "broken.toml").write_text("[engine\n")
    done = run("ask", *arguments, "--no-browser", cwd=tmp_path)
    assert (done.returncode, done.stdout, done.stderr.count("\n")) == (code, "", 1), done.stderr
    assert says in done.stderr
    assert sorted(p.name for p in tmp_path.iterdir()) == ["broken.toml", "there.pdf"]


BROWSER = """#!/bin/sh
case "$1" in file://*) cp "${1#file://}" "$SEEN"; ls -l "${1#file://}" > "$SEEN.mode";; *) echo "$1" > "$SEEN";; esac
"""


def test_the_token_is_on_no_command_line(tmp_path):
    """The browser gets a file that only its user can read."""
    browser, seen = tmp_path / "browser", tmp_path / "seen"
    browser.write_text(BROWSER)
    browser.chmod(0o755)
    with asking("mine.toml", cwd=tmp_path, BROWSER=f"{browser} %s", SEEN=str(seen)) as run:
        line = run.stdout.readline().strip()
        for _ in range(100):
            if (tmp_path / "seen.mode").exists() and (tmp_path / "seen.mode").read_text():
                break
            time.sleep(0.1)
        assert line in seen.read_text()
        mode = (tmp_path / "seen.mode").read_text()
        assert mode.startswith("-rw-------")
        run.send_signal(signal.SIGINT)
        _, err = run.communicate(timeout=20)
        assert (run.returncode, err) == (0, "")
    assert not os.path.exists(mode.split()[-1])  # noqa: PTH110 - a name that `ls` printed


def test_without_a_browser_it_says_so_and_serves(tmp_path):
    with asking("mine.toml", cwd=tmp_path, BROWSER=str(tmp_path / "none"), PATH="", DISPLAY="") as run:
        line = run.stdout.readline()
        assert "no browser could be opened: open the address above" in run.stderr.readline()
        assert 'name="make"' in fetched(line)


def test_the_form_is_written_instead(tmp_path, run, demo):
    (tmp_path / "mine.toml").write_text(demo, encoding="utf-8")
    done = run("ask", "mine.toml", "--paper", "form.pdf", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "form.pdf: written; print it, fill it in at the bench, then: topend ask mine.toml\n"
    with pypdfium2.PdfDocument(tmp_path / "form.pdf") as pdf:
        assert 1 <= len(pdf) <= 4
    done = run("ask", "new.toml", "--paper", "blank.pdf", cwd=tmp_path)
    assert done.returncode == 0
    assert sorted(p.name for p in tmp_path.iterdir()) == ["blank.pdf", "form.pdf", "mine.toml"]
