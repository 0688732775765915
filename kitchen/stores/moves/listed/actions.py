"""What the stores do with the lists of reasons: write their own, retire, take up again."""

from uuid import UUID

from django.db import transaction
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.people.models import College, User
from curriculum.records.actions import once
from kitchen.stores.moves import reasons
from kitchen.stores.moves.listed import queries
from kitchen.stores.moves.listed.college import SHIPPED, same_words
from kitchen.stores.moves.listed.models import Reason


@transaction.atomic
def add_reason(*, which: str, words: str, by: User, key: UUID | None = None) -> Reason:
    """Put words of the college's own on a list. RuleBroken "reason_there" for words that it has already.

    The college is locked: a list that is empty has no row that two persons could wait for.
    """

    def do() -> dict:
        College.objects.select_for_update().get(pk=1)
        there = same_words(queries.reasons_of(which), words)
        if there is not None:
            how = "is retired. Take it up again" if there.retired else "is on this list already. Choose it"
            raise RuleBroken("reason_there", f"“{there.words}” {how}.", field="words")
        number = Reason.objects.filter(which=which, code__startswith="own-").count() + 1
        row = Reason.objects.create(which=which, code=f"own-{number}", words=words.strip(), by=by)
        return {"reason": row.pk}

    said = {"which": which, "words": words}
    return Reason.objects.get(pk=once(key=key, action="add_reason", by=by, said=said, do=do)["reason"])


@transaction.atomic
def retire_reason(*, which: str, code: str, by: User) -> Reason:
    """Nobody chooses it any more; movements that have it keep it. RuleBroken "reason_stays"."""
    if code == reasons.OTHER:
        raise RuleBroken(
            "reason_stays", "“Something else” stays, so that nobody has to choose a reason that is wrong."
        )
    row = _own_row(which, code, by)
    if row.retired_at is None:
        row.retired_at = timezone.now()
        row.save(update_fields=["retired_at"])
    return row


@transaction.atomic
def take_up_again(*, which: str, code: str, by: User) -> Reason:
    """A retired reason is offered again."""
    row = _own_row(which, code, by)
    row.retired_at = None
    row.save(update_fields=["retired_at"])
    return row


def _own_row(which: str, code: str, by: User) -> Reason:
    """The row of a reason, locked; a shipped one gets its row with its words."""
    words = dict(SHIPPED[which]).get(code, "")
    if words:
        Reason.objects.get_or_create(which=which, code=code, defaults={"words": words, "by": by})
    return Reason.objects.select_for_update().get(which=which, code=code)
