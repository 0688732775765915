"""The page of waste by reason, and its table."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from curriculum.people.queries import the_college, today_at
from kitchen.stores.moves.listed import access
from kitchen.stores.moves.wasted.forms import SpanForm
from kitchen.stores.moves.wasted.queries import waste_page, wasted_between
from kitchen.stores.moves.wasted.sums import table


@require_safe
def by_reason(request: HttpRequest) -> HttpResponse:
    """What was thrown away between two days: by reason, food and lesson."""
    access.reader(request.user)
    form = SpanForm(request.GET or None, today_at(the_college()))
    span = form.span()
    facts = {"form": form, "span": span, "page": waste_page(*span) if span else None}
    return render(request, "stores/waste_by_reason.html", facts)


@require_safe
def by_reason_csv(request: HttpRequest) -> HttpResponse:
    """The same as a table."""
    access.reader(request.user)
    span = SpanForm(request.GET or None, today_at(the_college())).span()
    if span is None:
        raise Http404("No such days.")
    first, last = (day.isoformat() for day in span)
    answer = HttpResponse(table(wasted_between(*span), first, last), content_type="text/csv; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="waste-{first}-{last}.csv"'
    return answer
