"""The verifier draws; the external examiner reads what was drawn and nothing else."""

import uuid

import pytest
from django.urls import reverse

from assessments.verification.actions import draw_sample
from assessments.verification.models import Sample
from tests.builders.cast import build_cast
from tests.builders.marking import WEAK, marked

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def test_the_verifier_draws_by_a_written_seed(client, cast):
    marked(cast, WEAK)
    client.force_login(cast.verifier)
    sent = {"lessons": [cast.lesson.code], "seed": "20270308", "margin": "2", "key": str(uuid.uuid4())}
    page = client.post(reverse("verification:samples"), sent, follow=True).content.decode()
    assert "with the seed “20270308”" in page
    assert "Learner N100" in page and "Not passed: not passed" in page


def test_a_draw_without_lessons_keeps_the_seed_and_says_what_is_missing(client, cast):
    marked(cast, WEAK)
    client.force_login(cast.verifier)
    page = client.post(
        reverse("verification:samples"), {"seed": "a seed", "margin": "2", "key": str(uuid.uuid4())}
    ).content.decode()
    assert "Choose at least one lesson." in page and 'value="a seed"' in page
    assert Sample.objects.count() == 0


def test_the_external_examiner_reads_a_drawn_card_with_its_arithmetic(client, cast):
    sitting = marked(cast, WEAK)
    sample = draw_sample(lessons=[cast.lesson.code], seed="s", by=cast.verifier)
    client.force_login(cast.external)
    assert "Draw a sample" not in client.get(reverse("verification:samples")).content.decode()
    card = reverse("verification:sitting", kwargs={"code": sample.code, "sitting": sitting.code})
    assert "39 of 100" in client.get(card).content.decode()
