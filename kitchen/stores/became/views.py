"""The pages of what became of the dishes, the labels for home, and where shared kits went."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from curriculum.errors import RuleBroken
from curriculum.wording import counted_words, sentence
from kitchen.stores.became import access, actions, paper, queries
from kitchen.stores.became.cooling import LIMIT_WORDS, SOURCE
from kitchen.stores.became.forms import BecameForm, GivenForm
from kitchen.stores.prints.views import note_kits_read


@require_http_methods(["GET", "HEAD", "POST"])
def became(request: HttpRequest, lesson: str) -> HttpResponse:
    """Per bench what became of its dish."""
    found = access.lesson_cooked(request.user, lesson)
    note_kits_read(request, found, "what became")
    rows = queries.bench_rows(found)
    form = BecameForm(request.POST if request.method == "POST" else None, lesson=found, rows=rows)
    if request.method == "POST" and form.is_valid():
        said = {"places": form.chosen(), "entry": form.entry(), "key": form.cleaned_data["key"]}
        try:
            benches = actions.say_what_became(lesson=found, by=request.user, **said)
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(
                request, sentence(f"{counted_words(benches, 'bench is', 'benches are')} written down")
            )
            return redirect("stores:became", lesson=found.code)
    facts = {"lesson": found, "rows": rows, "form": form, "shared": queries.shared_kits(found)}
    facts |= {"limit": LIMIT_WORDS, "source": SOURCE}
    return render(request, "stores/became.html", facts)


@require_safe
def labels(request: HttpRequest, lesson: str) -> HttpResponse:
    """The labels for what goes home."""
    found = access.lesson_cooked(request.user, lesson)
    made = queries.take_home_labels(found)
    title = f"Labels to take home, {found.title}"
    return HttpResponse(paper.take_home_labels(made, title), content_type="application/pdf")


@require_http_methods(["GET", "HEAD", "POST"])
def given(request: HttpRequest, lesson: str, kit: str) -> HttpResponse:
    """To which benches one shared kit was given."""
    found, shared = access.shared_kit_of(request.user, lesson, kit)
    rows = queries.bench_rows(found)
    to = queries.given_of([shared.pk]).get(shared.pk)
    form = GivenForm(request.POST if request.method == "POST" else None, rows=rows, to=to)
    if request.method == "POST" and form.is_valid():
        try:
            actions.say_kit_given(
                kit=shared, places=form.chosen(), by=request.user, key=form.cleaned_data["key"]
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"Where kit {shared.code} went is written down. A recall names it so.")
            return redirect("stores:became", lesson=found.code)
    leave = reverse("stores:became", kwargs={"lesson": found.code})
    facts = {"lesson": found, "kit": shared, "form": form, "leave_url": leave}
    return render(request, "stores/kit_given.html", facts)
