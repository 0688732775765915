"""Signing in and out, and how the site looks for one person."""

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.views import LoginView, LogoutView
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.people.actions import keep_look
from curriculum.people.forms import LookForm, SignInForm

sign_in = require_http_methods(["GET", "HEAD", "POST"])(
    LoginView.as_view(
        template_name="people/sign_in.html",
        authentication_form=SignInForm,
        redirect_authenticated_user=True,
    )
)
sign_out = require_POST(LogoutView.as_view())


@require_safe
@login_not_required
def cannot_sign_in(request: HttpRequest) -> HttpResponse:
    """What to do without a password: nobody resets it by letter, a person is asked."""
    return render(request, "people/cannot_sign_in.html")


@require_http_methods(["GET", "HEAD", "POST"])
def look_for_me(request: HttpRequest) -> HttpResponse:
    """Large print, the dim room, the name on paper: kept with the account, never guessed from the device."""
    user = request.user
    kept = {name: getattr(user, name) for name in ("large_print", "dim_room", "name_to_print")}
    form = LookForm(initial=kept)
    if request.method == "POST":
        form = LookForm(request.POST)
        if form.is_valid():
            keep_look(user=user, by=user, **form.cleaned_data)
            messages.success(request, "The site looks so for you from now on, on every device.")
            return redirect("people:look_for_me")
    return render(request, "people/look_for_me.html", {"form": form, "leave_url": "/"})
