"""The recipe book is written once for each file of tests that cooks from it."""

import pytest
from django.db import transaction

from tests.builders.book import a_book
from tests.builders.stores import COOKED


@pytest.fixture(scope="module")
def book(django_db_setup, django_db_blocker):
    """Foods, packs and the recipes of the main job; taken back after the last test of the file."""
    with django_db_blocker.unblock(), transaction.atomic():
        yield a_book(*COOKED)
        transaction.set_rollback(True)
