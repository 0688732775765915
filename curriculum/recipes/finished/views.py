"""Writing what a draft weighs when it is finished, and what of it is served."""

from django.http import HttpRequest, HttpResponse

from curriculum.recipes import access, actions, queries
from curriculum.recipes.finished.forms import FinishedForm
from curriculum.recipes.finished.queries import may_be_lost
from curriculum.recipes.finished.words import put_in
from curriculum.recipes.opened.parts import fingerprint, head
from curriculum.recipes.writing.views import answered, form_page, where


@form_page
def finished(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Finished weights, rejects, what stays in the kitchen, and techniques that a variant loses."""
    draft = access.draft_for(request.user, code, number)
    before = queries.recipe_data(draft)
    names, says = may_be_lost(before)
    about = {"recipe": before, "lost": names, "wrote": draft.written_by.name}
    form = FinishedForm(request.POST or None, initial=FinishedForm.initial_of(before), **about)
    if "more" in request.POST:
        form = FinishedForm(initial=form.with_one_more(), **about)

    def do() -> str:
        seen, recipe = fingerprint(head(before)), form.recipe(before)
        return where(actions.write_title(version=draft, recipe=recipe, by=request.user, seen=seen))

    heading, sums = "Finished weights and what is served", (before, lambda: form.recipe(before))
    return answered(request, form, do, heading, draft, says=(*put_in(before), *says), sums=sums)
