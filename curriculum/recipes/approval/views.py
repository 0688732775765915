"""A draft sent for checking, sent back, checked, approved; a version opened again or withdrawn."""

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from curriculum.errors import RuleBroken
from curriculum.recipes import access
from curriculum.recipes.approval import actions
from curriculum.recipes.approval.forms import SendBackForm, SendForm, WithdrawForm
from curriculum.recipes.models import Version
from curriculum.recipes.writing.views import answered, form_page, where

WITHDRAWN_MEANS = (
    "It can then not be chosen for a lesson any more, and learners do not find it in the book.",
    "Lessons that were planned with it keep it: their kits, their sheets and their time plans stay as they "
    "are. It cannot be approved again; to teach it again, revise it and let a second person check it.",
)


@require_POST
def send(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Say that the draft may be checked."""
    version, form = access.to_write(request.user, code, number), SendForm(request.POST)
    if not form.is_valid():
        raise RuleBroken("too_long", f"Not sent yet. {' '.join(form.errors['words'])}")
    sent = actions.send_for_check(version=version, by=request.user, **form.cleaned_data)
    messages.info(request, f"Version {sent.number} is sent. Somebody other than its writer checks it.")
    return redirect(where(sent, "version"))


@form_page
def send_back(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Give a version back to its writer with the reason."""
    version = access.to_ask(request.user, code, number, _opened(request, "send_back"))
    form = SendBackForm(request.POST or None)

    def do() -> str:
        back = actions.send_back(version=version, by=request.user, **form.cleaned_data)
        messages.info(request, f"Version {back.number} is sent back to {back.written_by.name}.")
        return where(back, "version")

    facts = f"Version {number}, written by {version.written_by.name}, who reads your words and changes it."
    return answered(request, form, do, f"Send {version.recipe.title} back", version, facts=facts)


@require_POST
def check(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """A second person has read the draft."""
    return _moved(request, access.to_approve(request.user, code, number), actions.check)


@require_POST
def approve(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Approve a checked version to teach."""
    return _moved(request, access.to_approve(request.user, code, number), actions.approve_to_teach)


@require_POST
def back(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Open a checked version again for writing."""
    return _moved(request, access.to_write(request.user, code, number), actions.back_to_draft)


@form_page
def withdraw(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Take an approved version out of teaching; asks first, with what it means."""
    version = access.to_ask(request.user, code, number, _opened(request, "withdraw"))
    form = WithdrawForm(request.POST or None)

    def do() -> str:
        gone = actions.withdraw(version=version, by=request.user, **form.cleaned_data)
        messages.info(request, f"Version {gone.number} of {gone.recipe.title} is withdrawn now.")
        return where(gone, "version")

    heading = f"Withdraw {version.recipe.title}, version {number}?"
    return answered(request, form, do, heading, version, facts=WITHDRAWN_MEANS[0], says=WITHDRAWN_MEANS[1:])


def _opened(request: HttpRequest, act: str) -> str:
    """The act that a page asks about; when its form is sent the action itself refuses, or knows it again."""
    return "" if request.method == "POST" else act


def _moved(request: HttpRequest, version: Version, deed: Callable[..., Version]) -> HttpResponse:
    moved = deed(version=version, by=request.user)
    messages.info(
        request, f"Version {moved.number} of {moved.recipe.title} is {moved.get_state_display()} now."
    )
    return redirect(where(moved, "version"))
