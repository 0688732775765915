"""The pages of a lesson's kits: what they are, their papers, the issue."""

from django.conf import settings
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.people.queries import the_college, today_at
from curriculum.records.actions import note_health_read
from curriculum.wording import clock, short_date
from kitchen.lessons.models import Lesson
from kitchen.stores import access, actions, queries
from kitchen.stores.forms import IssueForm, MakeKitsForm
from kitchen.stores.paper import issue_sheet, kit_labels
from kitchen.stores.printing import issue_foods, kit_label, whose
from kitchen.stores.requisitions.queries import requisition_of
from kitchen.stores.weighout.old_trays.queries import some_old
from kitchen.stores.weighout.queries import what_is_open


@require_safe
def kits(request: HttpRequest, lesson: str) -> HttpResponse:
    """Kits per bench, exact beside issued; what is short and what is blocked before anything leaves."""
    found, acts = access.kits_for(request.user, lesson)
    page = queries.kits_page(found)
    _note_read(request, found, "kits")
    facts = {
        "lesson": found,
        "acts": acts,
        "page": page,
        "dish": queries.dish_of(found),
        "form": MakeKitsForm(),
        "requisition": requisition_of(found),
        "some_old": acts.supply and some_old(found),
    }
    return render(request, "stores/kits.html", facts)


@require_POST
def make_kits(request: HttpRequest, lesson: str) -> HttpResponse:
    """Keep the kits as they are reckoned now."""
    found = access.kits_to_supply(request.user, lesson)
    form = MakeKitsForm(request.POST)
    if form.is_valid():
        actions.accept_kits(lesson=found, by=request.user, key=form.cleaned_data["key"])
        messages.success(request, "The kits are made. Weigh them out, then issue them.")
    return redirect("stores:kits", lesson=found.code)


@require_safe
def labels_pdf(request: HttpRequest, lesson: str) -> HttpResponse:
    """The label of every kit, eight to a page."""
    kit_set = access.kit_set_to_read(request.user, lesson)
    found, trays = kit_set.lesson, queries.trays_of(kit_set)
    _note_read(request, found, "kit labels")
    when = f"{short_date(found.on)}, {clock(found.starts)}"
    link = settings.SITE_ADDRESS + reverse("stores:kits", kwargs={"lesson": found.code})
    labels = [
        kit_label(
            tray, number, len(trays), when=when, where=f"{found.group.code}, {found.room.name}", link=link
        )
        for number, tray in enumerate(trays, start=1)
    ]
    return _pdf(kit_labels(labels, title=f"Kit labels: {found.title}", facts=f"{found.group.code}, {when}."))


@require_safe
def issue_sheet_pdf(request: HttpRequest, lesson: str) -> HttpResponse:
    """Each food across the kits, with its sum and lots."""
    kit_set = access.kit_set_to_read(request.user, lesson)
    found, trays = kit_set.lesson, queries.trays_of(kit_set)
    _note_read(request, found, "issue sheet")
    sheet = issue_sheet(
        title=f"Issue sheet: {found.title}",
        facts=f"{found.group.code}, {found.room.name}, {short_date(found.on)}, {clock(found.starts)}.",
        plates=[tray.label for tray in trays],
        foods=issue_foods(trays),
        names=whose(trays),
        shortages=queries.kits_page(found).shortages,
    )
    return _pdf(sheet)


def _note_read(request: HttpRequest, lesson: Lesson, page: str) -> None:
    """Note that this person read who works a variant: what they avoid can be told from it."""
    students = queries.learners_with_variants(lesson)
    note_health_read(reader=request.user, students=students, page=page, day=today_at(the_college()))


def _pdf(content: bytes) -> HttpResponse:
    return HttpResponse(content, content_type="application/pdf")


@require_http_methods(["GET", "HEAD", "POST"])
def issue(request: HttpRequest, lesson: str) -> HttpResponse:
    """What leaves from which lot, what is short, what stays; then issue."""
    kit_set = access.kit_set_to_supply(request.user, lesson)
    page = queries.kits_page(kit_set.lesson)
    standing = what_is_open(kit_set)
    form = IssueForm(request.POST or None, short=bool(page.shortages), unchecked=bool(standing))
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        try:
            actions.issue_kits(
                lesson=kit_set.lesson,
                by=request.user,
                key=said["key"],
                short_accepted=said.get("short_accepted", False),
                unchecked_why=said.get("unchecked_why", ""),
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, "The kits have left the stores. Every line knows its lots.")
            return redirect("stores:kits", lesson=kit_set.lesson.code)
    leave = reverse("stores:kits", kwargs={"lesson": kit_set.lesson.code})
    facts = {"lesson": kit_set.lesson, "page": page, "form": form, "leave_url": leave, "standing": standing}
    return render(request, "stores/issue.html", facts)
