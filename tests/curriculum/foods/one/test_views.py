"""The page of a food, its forms with what was typed kept, and a number of queries that does not grow."""

import re
import uuid
from datetime import date, timedelta
from html import unescape

import pytest

from curriculum.foods.models import Food, Pack, PieceWeight, Supplier, YieldFigure, YieldTest
from tests.builders.book import a_book, a_person

pytestmark = pytest.mark.django_db
PAGE = "/foods/leek/"


@pytest.fixture
def hana(client):
    a_book("R04")
    client.user = a_person("hana", "stores")
    client.force_login(client.user)
    return client


@pytest.fixture
def leek(hana):
    return Food.objects.get(code="leek")


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def _key():
    return {"key": str(uuid.uuid4())}


def test_the_page_names_whose_the_figures_are_and_how_far_they_lie_apart(hana, leek):
    YieldFigure.objects.create(food=leek, usable_per_mille=440, source="One table")
    YieldFigure.objects.create(food=leek, usable_per_mille=900, source="Another table")
    words = _words(hana.get(PAGE))
    assert "44 % One table." in words and "90 % Another table." in words
    assert "The figures lie between 44 % and 90 %" in words
    assert leek.usable_source in words


def test_a_figure_is_chosen_by_a_person(hana, leek):
    row = YieldFigure.objects.create(food=leek, usable_per_mille=910, source="One table")
    answer = hana.post(f"{PAGE}use/{row.pk}/", follow=True)
    assert "The figure in use is now from One table." in _words(answer)
    leek.refresh_from_db()
    assert (leek.usable_per_mille, leek.usable_source) == (910, "One table")
    assert hana.post(f"{PAGE}use/{row.pk + 999}/").status_code == 404


def test_a_yield_test_is_written_and_its_result_shown(hana, leek):
    data = {"on": "16 Feb 2027", "purchased": "5.2 kg", "usable": "4.6 kg"} | _key()
    words = _words(hana.post(f"{PAGE}test/", data, follow=True))
    assert "88.5 %" in words and "4,600 g usable of 5,200 g bought" in words
    refused = hana.post(f"{PAGE}test/", data | {"usable": "6 kg"} | _key())
    assert "More is left than was bought" in _words(refused) and 'value="6 kg"' in refused.content.decode()


def test_a_price_is_written_and_said_a_kilogram_as_bought_and_as_used(hana, leek):
    leek.usable_per_mille = 500
    leek.save()
    supplier = Supplier.objects.first()
    data = {"supplier": supplier.code, "milligrams": "7.7 kg", "pence": "15.40", "from_on": "16 Feb 2027"}
    words = _words(hana.post(f"{PAGE}price/", data | {"for_costing": "on"} | _key(), follow=True))
    assert "£15.40 £2.00 £4.00 From 16 Feb. Recipes are costed by it." in words
    refused = hana.post(f"{PAGE}price/", data | {"pence": "dear"} | _key())
    assert "You wrote “dear”." in _words(refused) and 'value="dear"' in refused.content.decode()
    assert "has a price from 16 February" in _words(hana.post(f"{PAGE}price/", data | _key()))


def test_a_label_keeps_contains_and_may_contain_apart(hana, leek):
    answers = {f"fact_{code}": "no" for code in ("meat", "pork", "beef", "fish", "slaughter_by_product")}
    answers |= {"fact_animal_rennet": "no", "fact_alcohol": "unknown"}
    data = {"read_on": "16 Feb 2027", "contains": ["sulphites"], "may_contain": ["celery"]} | answers
    words = _words(hana.post(f"{PAGE}label/", data, follow=True))
    assert "Contains sulphites . May contain celery ." in words
    assert "Label read on Tuesday 16 February 2027 by Hana." in words and "Not known Alcohol." in words
    both = hana.post(f"{PAGE}label/", data | {"may_contain": ["sulphites"]})
    assert "Tick it once" in _words(both) and "checked" in both.content.decode()


def test_a_change_keeps_code_and_label_and_wants_a_source(hana, leek):
    before = leek.label_read_on
    page = hana.get(f"{PAGE}edit/")
    data = {name: value for name, value in page.context["form"].initial.items() if value is not None}
    data = {name: page.context["form"][name].value() for name in data} | _key()
    data["usable_per_mille"] = page.context["form"].fields["usable_per_mille"].prepare_value(700)
    for name in ("piece_milligrams", "edible_piece_milligrams", "increment_milligrams", "density"):
        if name in data:
            data[name] = page.context["form"].fields[name].prepare_value(data[name])
    refused = hana.post(f"{PAGE}edit/", data | {"usable_source": ""})
    assert "A figure has a source." in _words(refused)
    assert hana.post(f"{PAGE}edit/", data | {"usable_source": "Own estimate"}).status_code == 302
    leek.refresh_from_db()
    assert (leek.code, leek.usable_per_mille, leek.usable_source) == ("leek", 700, "Own estimate")
    assert leek.label_read_on == before


def test_a_food_that_somebody_changed_meanwhile_is_not_written_over(hana, leek):
    form = hana.get(f"{PAGE}edit/").context["form"]
    data = {name: "" if form[name].value() is None else form[name].value() for name in form.fields}
    data |= {"name": "Leeks", "key": str(uuid.uuid4())}
    row = YieldFigure.objects.create(food=leek, usable_per_mille=910, source="One table")
    hana.post(f"{PAGE}use/{row.pk}/")
    refused = hana.post(f"{PAGE}edit/", data)
    assert "Somebody changed Leek after you opened this form" in _words(refused)
    leek.refresh_from_db()
    assert (leek.name, leek.usable_per_mille, leek.usable_source) == ("Leek", 910, "One table")
    seen = hana.get(f"{PAGE}edit/").context["form"]["seen"].value()
    assert hana.post(f"{PAGE}edit/", data | {"seen": seen}).status_code == 302
    leek.refresh_from_db()
    assert leek.name == "Leeks"


def test_a_retired_food_leaves_the_list_and_comes_back(hana, leek):
    hana.post(f"{PAGE}retire/")
    assert "Bring it back" in _words(hana.get(PAGE))
    assert leek.name not in _words(hana.get("/foods/?q=leek"))
    assert leek.name in _words(hana.get("/foods/?q=leek&lacks=retired"))
    hana.post(f"{PAGE}back/")
    assert leek.name in _words(hana.get("/foods/?q=leek"))


def test_foods_are_found_by_storage_label_and_what_they_lack(hana, leek):
    Food.objects.filter(pk=leek.pk).update(label_read_on=None, from_tap=False)
    assert leek.name in _words(hana.get("/foods/?lacks=label"))
    assert leek.name not in _words(hana.get("/foods/?kind=milk"))
    assert "Unsalted butter" in _words(hana.get("/foods/?kind=milk&storage=chilled"))
    assert "Unsalted butter" not in _words(hana.get("/foods/?kind=milk&storage=frozen"))
    Pack.objects.filter(food=leek).update(until_on=date(2027, 1, 31))
    assert leek.name in _words(hana.get("/foods/?lacks=price"))
    words = _words(hana.get("/foods/?lacks=price"))
    assert "Unsalted butter" not in words and "Hen egg yolk" not in words


def _more(leek, by, first, last):
    for number in range(first, last):
        YieldFigure.objects.create(food=leek, usable_per_mille=500, source=f"Table {number}")
        PieceWeight.objects.create(food=leek, name=f"stalk {number}", milligrams=1000, source="A table")
        YieldTest.objects.create(
            food=leek, on=date(2027, 2, 1), purchased_milligrams=10, usable_milligrams=9, by=by
        )
        Pack.objects.create(
            food=leek,
            supplier=Supplier.objects.first(),
            milligrams=1000 + number,
            pence=1,
            from_on=date(2027, 1, 4) + timedelta(days=number),
        )
        Food.objects.create(
            code=f"part{number}", name=f"Part {number}", made_from=leek, made_from_milligrams=1
        )


def test_the_page_takes_as_many_queries_for_thirty_of_everything_as_for_three(
    hana, leek, django_assert_max_num_queries
):
    _more(leek, hana.user, 0, 3)
    with django_assert_max_num_queries(20) as few:
        hana.get(PAGE)
    _more(leek, hana.user, 3, 30)
    with django_assert_max_num_queries(20) as many:
        assert "Part 29" in _words(hana.get(PAGE))
    assert len(few) == len(many)
