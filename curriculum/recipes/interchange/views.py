"""Taking a recipe out: as schema.org JSON-LD, plain text or a table."""

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from curriculum.recipes import access, queries
from curriculum.recipes.interchange import json_ld, plain_text, table


@require_safe
def take_out_json(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """The version as a schema.org Recipe."""
    recipe = queries.recipe_data(access.version_for(request.user, code, number))
    return _file(json_ld.write(recipe), "application/ld+json", f"{code}-{number}.jsonld")


@require_safe
def take_out_text(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """The version as plain text."""
    recipe = queries.recipe_data(access.version_for(request.user, code, number))
    return _file(plain_text.write(recipe), "text/plain; charset=utf-8", f"{code}-{number}.txt")


@require_safe
def take_out_table(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """The lines of the version as CSV."""
    recipe = queries.recipe_data(access.version_for(request.user, code, number))
    return _file(table.write(recipe), "text/csv; charset=utf-8", f"{code}-{number}.csv")


def _file(text: str, kind: str, name: str) -> HttpResponse:
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return HttpResponse(text.encode(), content_type=kind, headers=headers)
