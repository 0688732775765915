"""Who may open the pages of signing in."""

from tests.access_matrix import Row, answers, everybody

ROWS = (
    Row("people:sign_in", "GET", everybody(302, anonymous=200)),
    Row("people:sign_in", "POST", everybody(302, anonymous=200)),
    Row("people:sign_out", "POST", everybody(302)),
    Row("people:cannot_sign_in", "GET", everybody(200, anonymous=200)),
    Row("people:look_for_me", "GET", everybody(200)),
    Row("people:look_for_me", "POST", answers(rest=302)),
)
