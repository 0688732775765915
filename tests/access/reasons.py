"""Who may read and keep the lists of reasons, and read the waste by reason."""

from tests.access.stores import keyed
from tests.access_matrix import Row, answers

READ = answers(200, "stores technician manager", rest=403)
KEEP_POST = answers(302, "stores manager", rest=403)


def own_words(cast):
    return keyed(cast) | {"which": "waste", "words": "Left in the proofer"}


A_REASON = {"which": "waste", "code": "burnt"}

ROWS = (
    Row("stores:reasons", "GET", READ),
    Row("stores:reasons", "POST", KEEP_POST, {}, own_words),
    Row("stores:retire_reason", "POST", KEEP_POST, A_REASON),
    Row("stores:reason_again", "POST", KEEP_POST, A_REASON),
    Row("stores:waste_by_reason", "GET", READ),
    Row("stores:waste_csv", "GET", READ),
)
