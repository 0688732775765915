"""Every ledger refuses change, in the model and in the database."""

import pytest
from django.db import DatabaseError, connection, transaction

from curriculum.ledgers import ledger_models, unprotected


@pytest.mark.django_db
def test_every_ledger_has_its_triggers():
    assert unprotected(model._meta.db_table for model in ledger_models()) == []


@pytest.mark.django_db
def test_a_table_without_triggers_is_named():
    assert unprotected(["curriculum_food"]) == ["curriculum_food"]


@pytest.mark.django_db
def test_the_database_refuses_to_change_or_delete_a_row_that_stands():
    from curriculum.people.models import User
    from curriculum.records.models import Receipt

    person = User.objects.create_user("odile", "Odile Farthingbrook")
    Receipt.objects.create(key="7b8f1f0e-9c58-4b53-8a0e-2f1f0f8b1c11", action="x", by=person, fingerprint="y")
    for statement in ("UPDATE curriculum_receipt SET action = 'z'", "DELETE FROM curriculum_receipt"):
        refused = pytest.raises(DatabaseError, match="append-only")
        with refused, transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(statement)
    assert Receipt.objects.get().action == "x"


@pytest.mark.django_db
def test_the_model_refuses_too():
    from curriculum.people.models import User
    from curriculum.records.models import Receipt

    person = User.objects.create_user("odile", "Odile Farthingbrook")
    row = Receipt.objects.create(
        key="7b8f1f0e-9c58-4b53-8a0e-2f1f0f8b1c11", action="x", by=person, fingerprint="y"
    )
    with pytest.raises(TypeError, match="ledger"):
        row.save()
    with pytest.raises(TypeError, match="ledger"):
        row.delete()
