"""Who may open the pages of the site itself."""

from tests.access_matrix import Row, answers, everybody


def lesson(cast):
    return {"lesson": cast.lesson.code}


ROWS = (
    Row("website:the_day", "GET", everybody(200)),
    Row("website:lesson", "GET", answers(403, "student other_student external", rest=200), lesson),
    Row("website:healthz", "GET", everybody(200, anonymous=200)),
    Row("website:without_network", "GET", everybody(200, anonymous=200)),
    Row("website:favicon", "GET", everybody(302)),
)
