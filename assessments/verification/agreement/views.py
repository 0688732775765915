"""Pages of agreement: which schemes were marked twice, and how well the markers of one agree."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from assessments.verification.agreement import access, queries
from assessments.verification.agreement.figures import LEAST_PLATES, figures, markers
from assessments.verification.agreement.plates import beside, lines
from assessments.verification.agreement.words import EXPLAINED, line_said, marker_said


@require_safe
def schemes(request: HttpRequest) -> HttpResponse:
    """Every scheme with how many sittings of it were marked by more than one."""
    access.demand_reader(request.user)
    return render(request, "verification/agreements.html", {"schemes": queries.marked_twice()})


@require_safe
def scheme(request: HttpRequest, code: str) -> HttpResponse:
    """How well the markers of one scheme agree."""
    found = access.scheme_for(request.user, code)
    sittings = queries.sittings_of(code)
    said = {
        "scheme": found,
        "sittings": len(sittings),
        "least": LEAST_PLATES,
        "lines": [line_said(figures(line)) for line in lines(data for _, data in sittings)],
        "markers": [marker_said(each) for each in markers(beside(sittings))],
        "explained": EXPLAINED,
    }
    return render(request, "verification/agreement.html", said)
