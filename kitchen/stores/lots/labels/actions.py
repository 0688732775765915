"""A person reads the label on the pack of one lot; the label of its food may then be widened to it.

The rules of every action of the stores hold here too (``kitchen.stores.actions``). Kits and diets are
judged by the label of the food; a lot whose own pack names more goes into no kit until the food's
label names it too.
"""

import uuid
from datetime import date
from uuid import UUID

from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.stores.entries import LabelRead
from kitchen.stores.ledgers import lots_locked
from kitchen.stores.lots.actions import read_label, short_as_it_is_now, waiting_sets_locked, widen_label
from kitchen.stores.lots.labels.facts import stricter
from kitchen.stores.lots.models import LabelReading
from kitchen.stores.made.bowls import Label
from kitchen.stores.models import Lot


@transaction.atomic
def read_lot_label(
    *,
    lot: Lot,
    read: LabelRead,
    on: date,
    by: User,
    same_as: Lot | None = None,
    key: UUID | None = None,
) -> Lot:
    """Note what the label on this lot's pack says; the first label of a food that is read is the food's too.

    Answers to other facts are kept on the food, the stricter of what was known and what was read.
    RuleBroken "made_lot".
    """

    def do() -> dict:
        if lot.made_in_id:
            raise RuleBroken("made_lot", f"Lot {lot.code} was made here: its label is that of its parts.")
        waiting_sets_locked()
        food = Food.objects.select_for_update().get(pk=lot.food_id)
        if food.label_read_on is None:
            read_label(food=food, read=read, on=on, by=by)
        else:
            _keep_facts(food, read)
        row = lots_locked([lot.pk])[lot.pk]
        _write(row, read, on, by, same_as, key)
        short_as_it_is_now({food.code})
        return {"lot": row.pk}

    said = {"lot": lot.code, "read": [read.contains, read.may_contain, read.facts], "on": on.isoformat()}
    said |= {"same_as": same_as.code if same_as else ""}
    return Lot.objects.get(pk=once(key=key, action="read_lot_label", by=by, said=said, do=do)["lot"])


@transaction.atomic
def let_food_name_it_too(*, lot: Lot, by: User, key: UUID | None = None) -> Food:
    """Widen the label of the lot's food by what the lot's own pack names; waiting kits are judged by it.

    RuleBroken "label_not_read".
    """

    def do() -> dict:
        row = Lot.objects.get(pk=lot.pk)
        if row.label_read_on is None:
            raise RuleBroken("label_not_read", f"Nobody has read the pack of lot {row.code} yet.")
        label = Label(tuple(row.label_allergens), tuple(row.label_may_contain))
        food = widen_label(food=row.food, label=label, by=by)
        short_as_it_is_now({food.code})
        return {"food": food.pk}

    answer = once(key=key, action="let_food_name_it_too", by=by, said={"lot": lot.code}, do=do)
    return Food.objects.get(pk=answer["food"])


def _keep_facts(food: Food, read: LabelRead) -> None:
    facts = stricter(food.facts, dict(read.facts))
    if facts != food.facts:
        food.facts = facts
        food.save(update_fields=["facts"])


def _write(lot: Lot, read: LabelRead, on: date, by: User, same_as: Lot | None, key: UUID | None) -> None:
    lot.label_allergens, lot.label_may_contain = list(read.contains), list(read.may_contain)
    lot.label_read_on, lot.label_read_by = on, by
    lot.save(update_fields=["label_allergens", "label_may_contain", "label_read_on", "label_read_by"])
    LabelReading.objects.create(
        lot=lot,
        number=lot.label_readings.count() + 1,
        contains=lot.label_allergens,
        may_contain=lot.label_may_contain,
        same_as=same_as,
        on=on,
        key=key or uuid.uuid4(),
        by=by,
    )
