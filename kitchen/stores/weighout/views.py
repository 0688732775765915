"""The pages of the weigh-out: the order, the clean start, one stop with its taps, the college's rule."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.people.queries import the_college, today_at
from curriculum.records.actions import note_health_read
from kitchen.lessons.models import Lesson
from kitchen.stores.models import KitSet
from kitchen.stores.queries import learners_with_variants
from kitchen.stores.weighout import access, actions, queries
from kitchen.stores.weighout.checks import rule_words
from kitchen.stores.weighout.forms import (
    BulkForm,
    CheckWeightForm,
    CleanForm,
    GoOnForm,
    InitialForm,
    LidForm,
    RuleForm,
    TapForm,
)
from kitchen.stores.weighout.old_trays.queries import old_trays
from kitchen.stores.weighout.order import next_stop
from kitchen.stores.weighout.page import second_round_words


@require_safe
def weigh(request: HttpRequest, lesson: str) -> HttpResponse:
    """The order of the weigh-out, in its two rounds."""
    kit_set = access.weigh_out_for(request.user, lesson)
    page = queries.weigh_out(kit_set, request.user)
    _note_read(request, kit_set.lesson)
    facts = {"lesson": kit_set.lesson, "page": page, "old": old_trays(kit_set.lesson)}
    facts["second_words"] = second_round_words(page.second_round, kit_set.lesson.on)
    return render(request, "stores/weigh.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def clean(request: HttpRequest, lesson: str) -> HttpResponse:
    """The clean start: bench, scale, scoops and hands, one tap each."""
    kit_set = access.weigh_out_for(request.user, lesson)
    if request.method == "POST":
        form = CleanForm(request.POST)
        if form.is_valid():
            actions.tick_clean(kit_set=kit_set, thing=form.cleaned_data["thing"], by=request.user)
        return redirect("stores:weigh_clean", lesson=lesson)
    page = queries.weigh_out(kit_set, request.user)
    return render(request, "stores/weigh_clean.html", {"lesson": kit_set.lesson, "page": page})


@require_http_methods(["GET", "HEAD", "POST"])
def stop(request: HttpRequest, lesson: str, stop: str) -> HttpResponse:
    """One food across all benches, or one whole free-from kit; a tap notes one weight."""
    kit_set = access.weigh_out_for(request.user, lesson)
    if request.method == "POST":
        return _tap(request, kit_set, stop)
    seen = queries.seen_of(kit_set)
    if request.htmx and request.GET.get("seen") == seen:
        return HttpResponse(status=204)
    if not request.htmx:
        _note_read(request, kit_set.lesson)
    return _stop_page(request, kit_set, stop, seen=seen)


def _tap(request: HttpRequest, kit_set: KitSet, stop: str) -> HttpResponse:
    form = TapForm(request.POST)
    if form.is_valid():
        weight = (form.cleaned_data["kit"], form.cleaned_data["food"])
        access.weight_of(kit_set, *weight)
        try:
            key = form.cleaned_data["key"]
            tapped = actions.weigh(kit_set=kit_set, weights=[weight], by=request.user, key=key)
        except RuleBroken as refused:
            messages.warning(request, refused.message)
        else:
            if tapped.before:
                words = f"That was weighed already at {tapped.before}. Put yours back into the pack."
                messages.warning(request, words)
    return _on(request, kit_set, stop)


def _on(request: HttpRequest, kit_set: KitSet, stop: str) -> HttpResponse:
    """The same stop while a hand is needed there, then the next one at once."""
    order = queries.weigh_out(kit_set).order
    here = next((each for each in order if each.code == stop), None)
    if here is not None and not here.to_do and not here.unchecked:
        following = next_stop(order, stop)
        if following is None or following.late != here.late:
            return redirect("stores:weigh", lesson=kit_set.lesson.code)
        stop = following.code
    return redirect("stores:weigh_station", lesson=kit_set.lesson.code, stop=stop)


def _stop_page(request: HttpRequest, kit_set: KitSet, code: str, **forms: Any) -> HttpResponse:
    """A stop as it stands; forms that came back with errors keep what was typed."""
    page = queries.weigh_out(kit_set, request.user)
    stop = access.stop_of(page, code)
    tally = None if stop.is_kit else queries.tally_of(kit_set, stop, page.trays)
    facts = {
        "lesson": kit_set.lesson,
        "page": page,
        "stop": stop,
        "next": next_stop(page.order, code),
        "way": page.in_the_way(stop),
        "tally": tally,
        "seen": forms.pop("seen", None) or queries.seen_of(kit_set),
        "go_on_form": GoOnForm(),
    }
    facts |= {name: form for name, form in _forms(request, stop, tally).items() if form is not None}
    template = "stores/_scale.html" if request.htmx else "stores/weigh_stop.html"
    return render(request, template, facts | forms)


def _forms(request: HttpRequest, stop: Any, tally: Any) -> dict[str, Any]:
    """The forms of a stop, as far as it has something for them."""
    initials = [item for item in stop.unchecked if item.way == "initials"]
    again = [item for item in stop.unchecked if item.way == "check_weight"]
    return {
        "initial_form": InitialForm(queries.second_people(request.user), initials) if initials else None,
        "check_form": CheckWeightForm(again) if again else None,
        "bulk_form": BulkForm(tally.tally) if tally and tally.tally.lots else None,
    }


@require_POST
def take_back(request: HttpRequest, lesson: str, stop: str) -> HttpResponse:
    """Undo a tap."""
    kit_set = access.weigh_out_for(request.user, lesson)
    form = TapForm(request.POST)
    if form.is_valid():
        access.weight_of(kit_set, form.cleaned_data["kit"], form.cleaned_data["food"])
        try:
            actions.take_back(kit_set=kit_set, by=request.user, **form.cleaned_data)
        except RuleBroken as refused:
            messages.warning(request, refused.message)
    return redirect("stores:weigh_station", lesson=lesson, stop=stop)


@require_POST
def lid(request: HttpRequest, lesson: str, stop: str) -> HttpResponse:
    """The lid on a whole kit, or off again."""
    kit_set = access.weigh_out_for(request.user, lesson)
    form = LidForm(request.POST)
    access.free_from_kit(kit_set, stop)
    if form.is_valid():
        said = form.cleaned_data
        try:
            actions.put_lid(
                kit_set=kit_set, kit=stop, is_on=said["lid"] == "on", by=request.user, key=said["key"]
            )
        except RuleBroken as refused:
            messages.warning(request, refused.message)
    return _on(request, kit_set, stop)


@require_POST
def go_on(request: HttpRequest, lesson: str, stop: str) -> HttpResponse:
    """Weigh on before the free-from kits are lidded, with the reason."""
    kit_set = access.weigh_out_for(request.user, lesson)
    form = GoOnForm(request.POST)
    if not form.is_valid():
        return _stop_page(request, kit_set, stop, go_on_form=form)
    actions.go_on(kit_set=kit_set, reason=form.cleaned_data["reason"], by=request.user)
    return redirect("stores:weigh_station", lesson=lesson, stop=stop)


@require_POST
def initial(request: HttpRequest, lesson: str, stop: str) -> HttpResponse:
    """A second person has looked."""
    kit_set = access.weigh_out_for(request.user, lesson)
    here = access.stop_of(queries.weigh_out(kit_set), stop)
    form = InitialForm(queries.second_people(request.user), here.weighed, request.POST)
    if form.is_valid():
        try:
            actions.initial(
                kit_set=kit_set,
                weights=form.pairs(),
                second=form.second_person(),
                by=request.user,
                key=form.cleaned_data["key"],
            )
        except RuleBroken as refused:
            form.refuse(refused)
        else:
            return _on(request, kit_set, stop)
    return _stop_page(request, kit_set, stop, initial_form=form)


@require_POST
def check(request: HttpRequest, lesson: str, stop: str) -> HttpResponse:
    """A pot on the scale once more."""
    kit_set = access.weigh_out_for(request.user, lesson)
    here = access.stop_of(queries.weigh_out(kit_set), stop)
    form = CheckWeightForm(here.weighed, request.POST)
    if not form.is_valid():
        return _stop_page(request, kit_set, stop, check_form=form)
    item = form.item()
    try:
        row = actions.check_weight(
            kit_set=kit_set,
            kit=item.kit,
            food=item.food,
            milligrams=form.milligrams(),
            by=request.user,
            key=form.cleaned_data["key"],
        )
    except RuleBroken as refused:
        form.refuse(refused)
        return _stop_page(request, kit_set, stop, check_form=form)
    if not row.passed:
        messages.warning(request, f"{item.name}: that is not the weight. Take it back and weigh it again.")
    return _on(request, kit_set, stop)


@require_POST
def bulk(request: HttpRequest, lesson: str, stop: str) -> HttpResponse:
    """A pack on the scale."""
    kit_set = access.weigh_out_for(request.user, lesson)
    page = queries.weigh_out(kit_set)
    tally = queries.tally_of(kit_set, access.stop_of(page, stop), page.trays)
    form = BulkForm(tally.tally, request.POST)
    if not form.is_valid():
        return _stop_page(request, kit_set, stop, bulk_form=form)
    actions.read_bulk(
        kit_set=kit_set,
        lot=access.lot_of(form.cleaned_data["lot"]),
        milligrams=form.milligrams(),
        by=request.user,
        key=form.cleaned_data["key"],
    )
    return redirect("stores:weigh_station", lesson=lesson, stop=stop)


@require_http_methods(["GET", "HEAD", "POST"])
def rule(request: HttpRequest) -> HttpResponse:
    """How this college weighs out."""
    may_keep = access.reader_of_rule(request.user)
    kept = queries.rule_of(the_college())
    form = RuleForm(kept, request.POST or None)
    if request.method == "POST":
        access.keeper_of_rule(request.user)
        form = RuleForm(kept, request.POST)
        if form.is_valid():
            actions.keep_rule(rule=form.rule(), by=request.user)
            messages.success(request, "The college weighs out so from now on.")
            return redirect("stores:weigh_rule")
    facts = {"form": form, "may_keep": may_keep, "rule": kept, "leave_url": reverse("stores:stock")}
    return render(request, "stores/weigh_rule.html", facts | {"words": rule_words(kept)})


def _note_read(request: HttpRequest, lesson: Lesson) -> None:
    """Note that this person read who works a variant: what they avoid can be told from it."""
    students = learners_with_variants(lesson)
    note_health_read(reader=request.user, students=students, page="weigh-out", day=today_at(the_college()))
