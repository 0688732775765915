"""Refusals in words: too much at once, a session that ended, a rule of the trade, others who write.

For browsers they are pages of the site; for scripts they are JSON with the right status,
so that a queue on a tablet never takes the sign-in page for an answer.
"""

from collections.abc import Callable
from urllib.parse import urlencode

from django.conf import settings
from django.core.exceptions import RequestDataTooBig, TooManyFieldsSent
from django.db import OperationalError
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render, resolve_url
from django.utils.http import url_has_allowed_host_and_scheme

from curriculum.errors import RuleBroken
from curriculum.look.forms import megabytes

Answer = Callable[[HttpRequest], HttpResponse]
#: What is still read and thrown away of a body that is too large, so that the answer arrives.
DRAINED_AT_MOST = 64 * 1024 * 1024
#: A form with files beyond this is not even read; below it the field of the file says its own limit.
LONGEST_WITH_FILES = 16 * 1024 * 1024
CHUNK = 64 * 1024
#: How a database says that others hold what is to be written: SQLITE_BUSY and SQLITE_LOCKED
#: (sqlite.org/rescode.html); serialization_failure, deadlock_detected and lock_not_available (PostgreSQL's
#: documentation, appendix A).
BUSY_SQLITE = {5, 6}
BUSY_POSTGRES = {"40001", "40P01", "55P03"}


def is_script(request: HttpRequest) -> bool:
    """Whether a script asks, which cannot read a page: it sends or wants JSON, or fetches.

    The script that runs beside the pages of a running class fetches for the browser: what it asks
    for is a page, and a person reads it.
    """
    if "HX-Request" in request.headers:
        return False
    wants = request.headers.get("Accept", "")
    return (
        request.content_type == "application/json"
        or ("application/json" in wants and "text/html" not in wants)
        or request.headers.get("X-Requested-With") == "XMLHttpRequest"
        or (request.headers.get("Sec-Fetch-Dest") == "empty" and "text/html" not in wants)
    )


def way_back(request: HttpRequest) -> str:
    """The page that the person came from, when it is one of ours; else the first page."""
    came_from = request.headers.get("Referer", "")
    if url_has_allowed_host_and_scheme(came_from, {request.get_host()}, require_https=request.is_secure()):
        return came_from
    return "/"


class BodyTooLargeMiddleware:
    """Answers a form that is too large, or an address that cannot be, before anything reads it."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """413 with the limit in words; 400 for an address with a NUL in it."""
        if "\0" in request.path or "%00" in request.META.get("QUERY_STRING", ""):
            return render(request, "look/400.html", status=400)
        length = _length(request)
        with_files = request.content_type == "multipart/form-data"
        if length > (LONGEST_WITH_FILES if with_files else settings.DATA_UPLOAD_MAX_MEMORY_SIZE):
            _drain(request, length)
            return too_large(request, length)
        try:
            if with_files:
                request.POST  # noqa: B018  (read here, where a refusal has words)
        except (RequestDataTooBig, TooManyFieldsSent):
            _drain(request, length)
            return too_large(request, length)
        return self.get_response(request)


def _length(request: HttpRequest) -> int:
    sent = request.META.get("CONTENT_LENGTH") or "0"
    return int(sent) if sent.isdecimal() else 0


def _drain(request: HttpRequest, length: int) -> None:
    """Read and throw away what the browser still sends: it shows no answer before that."""
    left = min(length, DRAINED_AT_MOST)
    while left > 0:
        try:
            chunk = request._stream.read(min(CHUNK, left))
        except (OSError, AttributeError):
            return
        if not chunk:
            return
        left -= len(chunk)


def too_large(request: HttpRequest, length: int) -> HttpResponse:
    """413: how much was sent, how much is taken, and that Back still has the text."""
    said = {"sent": megabytes(length), "limit": megabytes(settings.DATA_UPLOAD_MAX_MEMORY_SIZE)}
    if is_script(request):
        return JsonResponse({"code": "too_large", **said}, status=413)
    return render(request, "look/413.html", said | {"way_back": way_back(request)}, status=413)


class ExpiredSessionMiddleware:
    """Tells scripts that the session ended, by 401 and never by the sign-in page."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass on; the view decides whether it needs somebody signed in."""
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: Callable, args: tuple, kwargs: dict
    ) -> HttpResponse | None:
        """Answer scripts before LoginRequiredMiddleware sends them to the sign-in page."""
        if request.user.is_authenticated or not getattr(view, "login_required", True):
            return None
        if "HX-Request" in request.headers:
            return HttpResponse(status=401, headers={"HX-Redirect": _sign_in(request)})
        if is_script(request):
            said = {"code": "signed_out", "message": "You are signed out. Sign in again; nothing was taken."}
            return JsonResponse(said, status=401)
        return None


def _sign_in(request: HttpRequest) -> str:
    """The sign-in page, which leads back to the page that htmx stood on."""
    page = request.headers.get("HX-Current-URL", "/")
    return f"{resolve_url(settings.LOGIN_URL)}?{urlencode({'next': page})}"


class RuleBrokenMiddleware:
    """Answers a rule of the trade that was broken: in words, with a way back, nothing changed."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass on; refusals arrive as exceptions."""
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        """409 for RuleBroken; everything else is somebody else's."""
        if not isinstance(error, RuleBroken):
            return None
        if is_script(request):
            return JsonResponse({"code": error.code, "message": error.message}, status=409)
        said = {"refusal": error.message, "way_back": way_back(request)}
        return render(request, "look/409.html", said, status=409)


class OthersWriteMiddleware:
    """Answers a change whose turn did not come: in words, with what was typed to send once more."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass on; what the database refuses arrives as an exception."""
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        """503 while others hold what is to be written; everything else is somebody else's.

        409 for what htmx sends, which shows the page then; what it asks for on its own it asks again.
        """
        if not others_write(error):
            return None
        if is_script(request):
            said = {"code": "others_write", "message": "Others are writing just now. Nothing was changed."}
            return JsonResponse(said, status=503, headers={"Retry-After": "5"})
        shown = "HX-Request" in request.headers and request.method == "POST"
        said = {"typed": typed(request)}
        answer = render(request, "look/503.html", said, status=409 if shown else 503)
        answer["Retry-After"] = "5"
        return answer


def others_write(error: Exception) -> bool:
    """Whether the database gave up since others hold what is to be written; the change is undone then."""
    if not isinstance(error, OperationalError):
        return False
    code = getattr(error.__cause__, "sqlite_errorcode", 0) & 0xFF
    return code in BUSY_SQLITE or getattr(error.__cause__, "sqlstate", "") in BUSY_POSTGRES


def typed(request: HttpRequest) -> list[tuple[str, str]]:
    """What a form sent, field by field, to be sent again; nothing with a password or a file in it."""
    if request.FILES or any("password" in name for name in request.POST):
        return []
    fields = request.POST.lists()
    return [(name, each) for name, found in fields for each in found if name != "csrfmiddlewaretoken"]
