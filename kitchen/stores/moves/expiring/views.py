"""The page of lots that end soon."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from curriculum.people.queries import the_college, today_at
from kitchen.stores import access
from kitchen.stores.moves.expiring import queries


@require_safe
def expiring(request: HttpRequest) -> HttpResponse:
    """Lots by days left, and the lessons already planned that could use them."""
    access.keeper_of_stock(request.user)
    facts = {"rows": queries.expiring(today_at(the_college())), "days": queries.DAYS}
    return render(request, "stores/expiring.html", facts)
