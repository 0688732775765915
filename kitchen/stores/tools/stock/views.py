"""The pages of the stock of small equipment: every place, one thing, correct, move, add."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.people.queries import now_at, the_college
from kitchen.stores.access import keeper_of_stock
from kitchen.stores.tools import access, actions
from kitchen.stores.tools.kinds import counted, name_of
from kitchen.stores.tools.queries import not_back, wash_minutes
from kitchen.stores.tools.stock import queries
from kitchen.stores.tools.stock.forms import AddForm, CorrectForm, MoveForm, WashForm


@require_safe
def stock(request: HttpRequest) -> HttpResponse:
    """What is not back, then every thing with its places."""
    keeps, college = access.reader_of_equipment(request.user), the_college()
    return render(request, "stores/equipment.html", _stock(request, keeps, _wash_form(wash_minutes(college))))


def _wash_form(minutes: int) -> WashForm:
    return WashForm(initial={"minutes": minutes})


def _stock(request: HttpRequest, keeps: bool, form: WashForm) -> dict:
    places = queries.rooms()
    chosen = next((each for each in places if each.code == request.GET.get("room", "")), None)
    facts = {"groups": queries.stock(chosen.code if chosen else ""), "places": places, "chosen": chosen}
    return facts | {"keeps": keeps, "open": not_back(now_at(the_college())), "form": form}


@require_POST
def wash(request: HttpRequest) -> HttpResponse:
    """Keep the minutes for washing."""
    keeper_of_stock(request.user)
    form = WashForm(request.POST)
    if not form.is_valid():
        return render(request, "stores/equipment.html", _stock(request, True, form))
    kept = actions.keep_wash_minutes(minutes=form.cleaned_data["minutes"] or 0, by=request.user)
    messages.success(request, f"Between two lessons {kept} min are kept for washing.")
    return redirect("stores:equipment")


@require_http_methods(["GET", "HEAD", "POST"])
def add(request: HttpRequest) -> HttpResponse:
    """A thing that a place has and its book lacks."""
    keeper_of_stock(request.user)
    form = AddForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        new = {"room": said["room"], "item": form.item(), "count": said["count"], "reason": form.why()}
        try:
            thing = actions.add_thing(**new, by=request.user, key=said["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"{said['room'].name} has {counted(thing.count, thing.item)} now.")
            return redirect("stores:thing", item=thing.item)
    return render(
        request, "stores/equipment_add.html", {"form": form, "leave_url": reverse("stores:equipment")}
    )


@require_safe
def thing(request: HttpRequest, item: str) -> HttpResponse:
    """One thing in every place, with its last changes."""
    rows = access.things_named(request.user, item)
    facts = {"name": name_of(item), "rows": rows, "moves": queries.latest(item)}
    return render(request, "stores/equipment_thing.html", facts | {"keeps": access.may_keep(request.user)})


@require_http_methods(["GET", "HEAD", "POST"])
def correct(request: HttpRequest, item: str, room: str) -> HttpResponse:
    """Let the book say how many there are."""
    row = access.thing_to_keep(request.user, item, room)
    form = CorrectForm(request.POST or None, thing=row)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        told = {"count": said["count"], "reason": form.why(), "moves_seen": said["seen"]}
        try:
            actions.correct_count(thing=row, **told, by=request.user, key=said["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"{row.room.name} has {counted(said['count'], item)} in the book.")
            return redirect("stores:thing", item=item)
    return render(request, "stores/equipment_correct.html", _one(form, row, "Correct"))


@require_http_methods(["GET", "HEAD", "POST"])
def move(request: HttpRequest, item: str, room: str) -> HttpResponse:
    """Move some to another place."""
    row = access.thing_to_keep(request.user, item, room)
    form = MoveForm(request.POST or None, thing=row)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        told = {"to": said["to"], "count": said["count"], "reason": form.why()}
        try:
            actions.move_things(thing=row, **told, by=request.user, key=said["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"{counted(said['count'], item)} are in {said['to'].name} now.")
            return redirect("stores:thing", item=item)
    return render(request, "stores/equipment_correct.html", _one(form, row, "Move"))


def _one(form: CorrectForm | MoveForm, row: object, what: str) -> dict:
    leave = reverse("stores:thing", kwargs={"item": row.item})
    return {"form": form, "thing": row, "name": name_of(row.item), "what": what, "leave_url": leave}
