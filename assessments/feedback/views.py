"""Pages of feedback: the lecturer drafts and hands back, the learner reads and prints."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from assessments.feedback import access, actions, queries
from assessments.feedback.content import read_handed_back
from assessments.feedback.forms import FeedbackForm
from assessments.feedback.paper import feedback_paper
from assessments.feedback.shown import feedback_line, handed_back_shown, wanting
from assessments.marking.queries import SittingRow
from curriculum.errors import RuleBroken
from curriculum.people.access import student_of
from curriculum.people.queries import the_college


@require_safe
def lesson_feedback(request: HttpRequest, lesson: str) -> HttpResponse:
    """The feedback of a lesson: what is ready, what is out."""
    found = access.lesson_for_feedback(request.user, lesson)
    lines = [feedback_line(*each) for each in queries.feedback_rows(found)]
    said = {
        "lesson": found,
        "lines": lines,
        "may_hand_back": access.may_hand_back(request.user, found),
        "ready": any(line.ready for line in lines),
    }
    return render(request, "feedback/lesson.html", said)


@require_http_methods(["GET", "HEAD", "POST"])
def write(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """The draft of one learner's feedback; once it is handed back, what was given."""
    row = access.sitting_for_feedback(request.user, lesson, learner)
    given = queries.handed_back_of(row.sitting)
    if given is not None and request.method != "POST":
        shown = handed_back_shown(read_handed_back(given.content))
        said = {"lesson": row.sitting.brief.lesson, "row": row, "given": given, "shown": shown}
        return render(request, "feedback/given.html", said)
    drafted = queries.drafted_for(row)
    form = FeedbackForm(request.POST or None, drafted=drafted)
    if request.method == "POST" and form.is_valid() and _written(form, row, request):
        return redirect("feedback:write", lesson=lesson, learner=learner)
    said = {
        "lesson": row.sitting.brief.lesson,
        "row": row,
        "form": form,
        "wanting": wanting(drafted.advice),
        "line": feedback_line(row, None, None),
        "may_hand_back": access.may_hand_back(request.user, row.sitting.brief.lesson),
    }
    return render(request, "feedback/write.html", said)


def _written(form: FeedbackForm, row: SittingRow, request: HttpRequest) -> bool:
    try:
        actions.write_feedback(sitting=row.sitting, draft=form.draft(), by=request.user)
    except RuleBroken as error:
        form.refuse(error)
        return False
    messages.success(request, "The draft is kept. The learner sees nothing before you hand it back.")
    return True


@require_POST
def hand_back(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """Hand one learner's feedback back."""
    row = access.sitting_to_hand_back(request.user, lesson, learner)
    actions.hand_back(sitting=row.sitting, by=request.user)
    messages.success(request, f"{row.learner.user.name} can read it now.")
    return redirect("feedback:lesson", lesson=lesson)


@require_POST
def hand_back_all(request: HttpRequest, lesson: str) -> HttpResponse:
    """Hand back everything that is ready; what is not is named with its reason."""
    found = access.lesson_to_hand_back(request.user, lesson)
    done, refused = actions.hand_back_all(lesson=found, by=request.user)
    messages.success(request, f"Handed back: {len(done)}.")
    for words in refused:
        messages.warning(request, words)
    return redirect("feedback:lesson", lesson=lesson)


@require_safe
def own_list(request: HttpRequest) -> HttpResponse:
    """What the learner was given, the newest first."""
    student = student_of(request.user)
    given = [
        (each, handed_back_shown(read_handed_back(each.content))) for each in queries.handed_back_to(student)
    ]
    return render(request, "feedback/list.html", {"given": given})


@require_safe
def own(request: HttpRequest, code: str) -> HttpResponse:
    """One sitting's feedback, for its own learner."""
    given = access.handed_back_for(request.user, code)
    shown = handed_back_shown(read_handed_back(given.content))
    return render(request, "feedback/own.html", {"given": given, "shown": shown})


@require_safe
def paper(request: HttpRequest, code: str) -> HttpResponse:
    """The same on paper."""
    given = access.handed_back_for(request.user, code)
    pdf = feedback_paper(
        handed_back_shown(read_handed_back(given.content)),
        college=the_college().name,
        large=request.user.large_print,
    )
    return HttpResponse(
        pdf,
        content_type="application/pdf",
        headers={"Content-Disposition": f'inline; filename="feedback-{given.sitting.code}.pdf"'},
    )
