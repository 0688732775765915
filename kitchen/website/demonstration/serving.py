"""Serves the demonstration on this machine, with a worker beside it, until Ctrl-C.

The server is the one that comes with Django, threaded, for one machine and a few people;
static files come through whitenoise. The worker is the project's own command in a
process of its own, ended with the server.
"""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from types import FrameType

from django.core.management import get_commands
from django.core.servers.basehttp import ThreadedWSGIServer, WSGIRequestHandler
from django.core.wsgi import get_wsgi_application

#: The command that works through jobs outside the request, where the project has one.
WORKER = "work"
#: How long a worker may take to put its work down before it is killed. A setting of ours, no source.
PATIENCE_SECONDS = 10


class Ended(Exception):
    """Somebody asked the demonstration to end: Ctrl-C, or a signal by its process number."""


class QuietHandler(WSGIRequestHandler):
    """Answers without a line for each request."""

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing."""


class QuietServer(ThreadedWSGIServer):
    """A server whose open connections do not keep it from ending."""

    daemon_threads = True


def serve(host: str, port: int) -> None:
    """Answer on that address until Ctrl-C or SIGTERM; returns when server and worker have ended.

    OSError when somebody took the port in the meantime.
    """
    with QuietServer((host, port), QuietHandler, ipv6=False) as server:
        server.set_app(get_wsgi_application())
        with _ending_by_signal(), _worker(), suppress(Ended, KeyboardInterrupt):
            server.serve_forever()


def _end(number: int, frame: FrameType | None) -> None:
    raise Ended


def _deaf_to_ctrl_c() -> None:
    """Ctrl-C reaches everybody at the terminal; the worker waits for the server to end it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


@contextmanager
def _ending_by_signal() -> Iterator[None]:
    """SIGINT and SIGTERM end the server; a shell in the background ignores SIGINT otherwise."""
    before = {number: signal.signal(number, _end) for number in (signal.SIGINT, signal.SIGTERM)}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


@contextmanager
def _worker() -> Iterator[None]:
    """The worker runs while the server does; nothing when the project has none."""
    if WORKER not in get_commands():
        yield
        return
    where = os.pathsep.join(path or os.getcwd() for path in sys.path)
    process = subprocess.Popen(
        [sys.executable, "-m", "django", WORKER],
        env={**os.environ, "PYTHONPATH": where},
        preexec_fn=_deaf_to_ctrl_c,
    )
    try:
        yield
    finally:
        process.terminate()
        try:
            process.wait(PATIENCE_SECONDS)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()
