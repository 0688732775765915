import pytest

from curriculum.techniques import queries
from curriculum.techniques.models import Fault
from tests.builders.book import a_book

pytestmark = pytest.mark.django_db


def test_a_technique_comes_with_its_faults_and_with_what_it_needs_first():
    a_book()
    known = queries.techniques_known(["choux_bake"])
    assert known.keys() == {"choux_bake", "choux_finish", "piping"}
    assert known["choux_bake"].needs == ("choux_finish", "piping")
    assert len(known["choux_bake"].faults) == 2 and known["choux_bake"].faults[0].remedy


def test_a_fault_out_of_use_is_left_out(django_assert_num_queries):
    a_book()
    Fault.objects.filter(technique__code="choux_bake").update(retired_at="2026-11-01T09:00Z")
    with django_assert_num_queries(3):
        assert queries.techniques_known(["choux_bake", "gelatine"])["choux_bake"].faults == ()
