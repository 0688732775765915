"""Who may open the pages of groups and learners."""

from tests.access_matrix import Row, answers
from tests.builders.lessons import an_adjustment, avoids

#: Whose lessons or groups the learner of the cast is in; the cover teaches one lesson of theirs.
READERS = "lecturer cover manager"


def learner(cast):
    return {"learner": cast.learner.college_number}


def avoidance(cast):
    return {**learner(cast), "row": avoids(cast, cast.learner, kind="milk").pk}


def adjustment(cast):
    return {**learner(cast), "row": an_adjustment(cast, cast.learner).pk}


WRITE = answers(200, "lecturer", 404, "other_lecturer", rest=403)
END = answers(302, "lecturer", 404, "other_lecturer", rest=403)
GROUP_READERS = "lecturer other_lecturer cover stores technician manager"

ROWS = (
    Row("learners:groups", "GET", answers(200, GROUP_READERS, rest=403)),
    Row("learners:group", "GET", answers(200, GROUP_READERS, rest=403), {"group": "BK1"}),
    Row("learners:learner", "GET", answers(200, READERS, 404, "other_lecturer", rest=403), learner),
    Row("learners:avoids", "GET", WRITE, learner),
    Row("learners:avoids", "POST", WRITE, learner),
    Row("learners:agreed", "GET", WRITE, learner),
    Row("learners:agreed", "POST", WRITE, learner),
    Row("learners:end_avoids", "POST", END, avoidance),
    Row("learners:end_agreed", "POST", END, adjustment),
)
