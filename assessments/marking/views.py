"""Pages of marking: the overview of a lesson, the sheet at the bench, a card to read."""

import uuid

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from assessments.marking import access, actions, queries
from assessments.marking.forms import AgreeForm, KeyForm, MarkForm, NameMarkerForm, read_mark
from assessments.marking.models import MarkEntry, Sheet
from assessments.marking.queries import SittingRow
from assessments.marking.shown import (
    card_said,
    entry_said,
    outcome_words,
    parts_shown,
    sheet_shown,
    short_name,
    slot_shown,
)
from assessments.marking.sittings import differences, takes_more_markers, visible_parts
from assessments.marking.slots import slot_at
from curriculum.errors import RuleBroken
from curriculum.look.middleware import is_script
from curriculum.people.queries import the_college, today_at
from curriculum.records.actions import note_health_read
from kitchen.lessons.models import Lesson


@require_safe
def overview(request: HttpRequest, lesson: str) -> HttpResponse:
    """Every sheet of a lesson: who, where, how far."""
    found = access.marks_lesson_for(request.user, lesson)
    rows = queries.sitting_rows(found)
    shown = [_overview_line(request, found, row) for row in rows]
    may_open = access.may_mark(request.user, found)
    said = {
        "lesson": found,
        "rows": shown,
        "may_open": may_open,
        "brief": queries.brief_state(found),
        "late": queries.without_sheet(found, rows) if may_open else [],
        "name_form": _name_form(request, found)
        if takes_more_markers(rows) and access.may_name_others(request.user, found)
        else None,
        "may_join": takes_more_markers(rows) and access.may_join(request.user, found),
    }
    return render(request, "marking/overview.html", said)


def _overview_line(request: HttpRequest, lesson: Lesson, row: SittingRow) -> dict:
    own = access.own_part(request.user, lesson, row)
    reads = bool(own) or access.reads_cards(request.user)
    seen = visible_parts(own, row.data.sheets) if reads else frozenset()
    name = "marking:sheet" if own else "marking:card" if seen else ""
    number = row.learner.college_number
    return {
        "row": row,
        "parts": parts_shown(row.data, seen),
        "url": reverse(name, kwargs={"lesson": lesson.code, "learner": number}) if name else "",
        "differences": differences(row.data) if len(seen) > 1 else (),
        "agree": access.may_name_others(request.user, lesson),
    }


def _name_form(request: HttpRequest, lesson: Lesson, data: object = None) -> NameMarkerForm:
    return NameMarkerForm(data, markers=queries.possible_markers(lesson))


@require_POST
def open_sheets(request: HttpRequest, lesson: str) -> HttpResponse:
    """Open a sheet for everybody who is placed and there."""
    found = access.lesson_to_mark(request.user, lesson)
    opened = actions.open_sittings(lesson=found, by=request.user)
    messages.success(request, f"Sheets are open: {len(opened)}.")
    return redirect("marking:lesson", lesson=found.code)


@require_POST
def name_marker(request: HttpRequest, lesson: str) -> HttpResponse:
    """Give somebody a blind sheet of every sitting; a second marker may only take one themselves."""
    found = access.lesson_to_name_markers(request.user, lesson)
    marker = request.user
    if access.may_name_others(request.user, found):
        form = _name_form(request, found, request.POST)
        if not form.is_valid():
            raise RuleBroken("nobody_named", "Nobody was named. Choose one of the people listed.")
        marker = form.chosen()
    actions.name_marker(lesson=found, marker=marker, by=request.user)
    messages.success(request, f"{marker.name} has a sheet of their own for every learner.")
    return redirect("marking:lesson", lesson=found.code)


@require_safe
def sheet(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """The person's own sheet of one learner, at the bench."""
    row, own = access.sheet_for(request.user, lesson, learner)
    if row.learner.tasting_note:
        today = today_at(the_college())
        note_health_read(reader=request.user, students=[row.learner], page="mark sheet", day=today)
    return _page(request, row, own)


def _page(
    request: HttpRequest, row: SittingRow, own: Sheet, wrong: tuple[str, str, str] = ("", "", "")
) -> HttpResponse:
    template = "marking/sheet.html"
    if request.htmx:
        template = "marking/given.html"
    said = _said(row, own, wrong)
    said["changed"] = slot_shown(said["sheet"], request.POST.get("place", ""))
    if request.htmx and said["changed"] is None:
        template = "marking/sheet.html"
    return render(request, template, said)


def _said(row: SittingRow, own: Sheet, wrong: tuple[str, str, str] = ("", "", "")) -> dict:
    codes = [subject.code for subject in row.data.subjects]
    shown = sheet_shown(
        row.data, own.part, queries.faults_of(codes), queries.cues_of(codes), queries.time_now(), wrong
    )
    following = queries.next_learner(row, own.part)
    return {
        "lesson": row.sitting.brief.lesson,
        "row": row,
        "own": own,
        "sheet": shown,
        "submitted": own.submitted_at is not None,
        "next": following,
        "next_name": short_name(following.user.name) if following else "",
        "bench": queries.bench_of(row),
        "new_key": uuid.uuid4,
    }


@require_POST
def give(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """Keep one mark at once; a script gets its key back as JSON."""
    row, own = access.sheet_for(request.user, lesson, learner)
    form = MarkForm(request.POST)
    if not form.is_valid():
        raise RuleBroken("not_a_mark", " ".join(words for errors in form.errors.values() for words in errors))
    place = form.cleaned_data["place"]
    slot = slot_at(place, row.data.slots(own.part))
    if slot is None:
        raise RuleBroken("no_such_slot", "This sheet has nothing of that name to mark. Open it again.")
    try:
        sent = read_mark(form, slot, row.data.start, queries.time_now())
    except ValueError as error:
        return _refused(request, row, own, (place, request.POST.get("value", ""), str(error)))
    entry = actions.give_mark(
        sheet=own,
        place=place,
        milli=sent.milli,
        faults=sent.faults,
        based_on=sent.based_on,
        device_at=sent.device_at,
        words=sent.words,
        by=request.user,
        key=sent.key,
    )
    return _answer(request, row, own, entry, place)


def _refused(request: HttpRequest, row: SittingRow, own: Sheet, wrong: tuple[str, str, str]) -> HttpResponse:
    if is_script(request):
        return JsonResponse({"code": "not_a_mark", "message": wrong[2]}, status=400)
    return _page(request, row, own, wrong)


def _answer(request: HttpRequest, row: SittingRow, own: Sheet, entry: MarkEntry, place: str) -> HttpResponse:
    """What was kept: as JSON for scripts, as the changed section for htmx, else the page again."""
    data = queries.sitting_data(row.sitting)
    slot = slot_at(place, data.slots(own.part))
    if is_script(request):
        return JsonResponse(entry_said(entry, slot, data))
    if request.htmx:
        return _page(request, SittingRow(row.sitting, data, row.bench), own)
    address = reverse("marking:sheet", kwargs=request.resolver_match.kwargs)
    return redirect(f"{address}#slot-{place.replace('.', '-')}")


@require_POST
def undo(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """Undo the last mark of a slot, by one more entry."""
    row, own = access.sheet_for(request.user, lesson, learner)
    form = KeyForm(request.POST)
    if not form.is_valid():
        raise RuleBroken("not_a_mark", "Nothing was undone. Open the sheet again.")
    place = form.cleaned_data["place"]
    entry = actions.undo_mark(sheet=own, place=place, by=request.user, key=form.cleaned_data["key"])
    return _answer(request, row, own, entry, place)


@require_POST
def submit(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """Hand in the person's own sheet."""
    row, own = access.sheet_for(request.user, lesson, learner)
    after = actions.submit_sheet(sheet=own, by=request.user)
    if after.submitted_at is None:
        messages.warning(request, "The judges are too far apart. Talk it over; then every judge marks again.")
        return redirect("marking:sheet", lesson=lesson, learner=learner)
    messages.success(request, f"The sheet of {row.learner.user.name} is submitted.")
    return redirect("marking:lesson", lesson=lesson)


@require_POST
def take_back(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """Take the person's own sheet back to change it."""
    row, own = access.sheet_for(request.user, lesson, learner)
    actions.take_back_sheet(sheet=own, by=request.user)
    messages.success(request, f"The sheet of {row.learner.user.name} is open again.")
    return redirect("marking:sheet", lesson=lesson, learner=learner)


@require_safe
def card(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """The marks of a sitting to read, with their arithmetic; only what may be seen by then."""
    row, own = access.card_for(request.user, lesson, learner)
    found = row.sitting.brief.lesson
    seen = visible_parts(own, row.data.sheets)
    may_agree = access.may_name_others(request.user, found) and len(seen) > 1 and not row.data.together
    said = {
        "lesson": found,
        **card_said(row, seen),
        "agree_form": _agree_form(row) if may_agree and differences(row.data) else None,
    }
    return render(request, "marking/card.html", said)


def _agree_form(row: SittingRow, data: object = None) -> AgreeForm:
    choices = [
        (sheet.part, f"{sheet.marker}: {outcome_words(row.data.outcome(sheet.part), row.data)}")
        for sheet in row.data.sheets
    ]
    return AgreeForm(data, choices=choices)


@require_http_methods(["POST"])
def agree(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """Agree on one of two marks, with the reason."""
    row = access.sitting_to_agree(request.user, lesson, learner)
    form = _agree_form(row, request.POST)
    if form.is_valid():
        try:
            actions.agree_marks(
                sitting=row.sitting,
                take=form.cleaned_data["take"],
                reason=form.cleaned_data["reason"],
                by=request.user,
            )
            messages.success(request, "The agreed mark stands; both sheets stay as they were given.")
            return redirect("marking:card", lesson=lesson, learner=learner)
        except RuleBroken as error:
            form.refuse(error)
    seen = visible_parts(Sheet.Part.FIRST, row.data.sheets)
    said = {"lesson": row.sitting.brief.lesson, **card_said(row, seen), "agree_form": form}
    return render(request, "marking/card.html", said)
