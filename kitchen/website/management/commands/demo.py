"""``python manage.py demo``: makes the demonstration college, works two lessons through, serves it."""

import json
from argparse import ArgumentParser
from pathlib import Path

from django.conf import settings
from django.core.management.base import BaseCommand
from django.db import OperationalError

from kitchen.website.demonstration import bought, files, ground, people, report, serving, work
from kitchen.website.demonstration.lessons import lessons_to_work
from kitchen.website.demonstration.summary import worked

HOST = "127.0.0.1"
PORT = 8000


class Command(BaseCommand):
    """Makes, works and serves the demonstration; refuses a database that is another college's."""

    help = "Makes a demonstration college, works two of its lessons through and serves it on 127.0.0.1."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Where to serve, or not at all, and how to say what was done."""
        parser.add_argument("--port", type=int, default=PORT, help="the port to serve on (8000)")
        parser.add_argument("--no-serve", action="store_true", help="stop before serving")
        parser.add_argument("--json", action="store_true", help="say what was done as JSON, and only that")

    def handle(self, *args: object, port: int, no_serve: bool, json: bool, **options: object) -> None:
        """Check the ground, do the work, say what was done, serve."""
        try:
            self._look_at_ground(None if no_serve else port)
            self._do(json, port)
            if not no_serve:
                self._serve(port, json)
        except ground.GroundRefused as refused:
            self.stderr.write(str(refused))
            raise SystemExit(refused.returncode) from None

    def _look_at_ground(self, port: int | None) -> None:
        if port is not None:
            ground.demand_port(HOST, port)
        file = ground.sqlite_file()
        for folder in (file.parent if file else None, Path(settings.MEDIA_ROOT)):
            if folder is not None:
                ground.demand_writable(folder)
        ground.demand_ours(files.fingerprint())

    def _do(self, as_json: bool, port: int) -> None:
        say = (lambda words: None) if as_json else self._say
        try:
            lessons = self._work(say)
        except (OSError, OperationalError) as error:
            raise ground.GroundRefused(
                f"The database of the demonstration could not be written ({error}).",
                returncode=ground.NOT_WRITABLE,
            ) from error
        if as_json:
            answer = {"lessons": [worked(each).values() for each in lessons], "logins": people.logins()}
            self.stdout.write(json.dumps(answer, ensure_ascii=False, indent=1))
            return
        for line in report.lines(lessons, f"http://{HOST}:{port}"):
            self._say(line)

    def _work(self, say: work.Say) -> list:
        file = ground.sqlite_file()
        if file is not None:
            file.parent.mkdir(parents=True, exist_ok=True)
        work.make_college(say)
        found = [work.work_through(said, say) for said in lessons_to_work()]
        bought.deliver()
        return found

    def _serve(self, port: int, as_json: bool) -> None:
        if not as_json:
            self._say(f"Serving on http://{HOST}:{port}/ until Ctrl-C.")
        Path(settings.STATIC_ROOT).mkdir(parents=True, exist_ok=True)
        try:
            serving.serve(HOST, port)
        except OSError as error:
            raise ground.GroundRefused(
                f"Port {port} on {HOST} was taken in the meantime ({error.strerror}).",
                returncode=ground.PORT_BUSY,
            ) from error

    def _say(self, words: str) -> None:
        self.stdout.write(words)
        self.stdout.flush()
