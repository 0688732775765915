"""Waste, count, count in and correct through the client: words at the field, what was typed is kept."""

from uuid import uuid4

import pytest
from django.urls import reverse

from kitchen.stores.models import Lot, Movement
from kitchen.stores.moves.actions import waste_from_lot
from tests.builders.book import a_person
from tests.builders.stores import a_lot

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
BACKEND = "django.contrib.auth.backends.ModelBackend"


@pytest.fixture
def hana(client):
    """The stores person, signed in."""
    client.force_login(a_person("hana", "stores"), BACKEND)
    return client


def words_of(answer):
    return " ".join(answer.content.decode().split())


def keyed(**more):
    return {"key": str(uuid4()), "note": "", **more}


def test_a_lot_is_thrown_away_from_its_page_with_all_of_it_proposed(hana):
    a_lot("unsalted_butter", "B-1", 1000)
    url = reverse("stores:waste", kwargs={"code": "B-1"})
    page = words_of(hana.get(f"{url}?why=out_of_date"))
    assert 'value="1000"' in page and '<option value="out_of_date" selected>' in page
    assert hana.post(url, keyed(amount="400", reason="dropped")).status_code == 302
    assert Lot.objects.get(code="B-1").on_hand_milligrams == 600_000


def test_something_else_asks_for_words_and_what_was_typed_stays(hana):
    a_lot("unsalted_butter", "B-1", 1000)
    url = reverse("stores:waste", kwargs={"code": "B-1"})
    page = words_of(hana.post(url, keyed(amount="401", reason="other")))
    assert "Write in a few words what it was." in page and 'value="401"' in page
    page = words_of(hana.post(url, keyed(amount="1001", reason="dropped", note="tray slipped")))
    assert "1,001 g were to be thrown away" in page and 'value="tray slipped"' in page
    assert not Movement.objects.filter(kind="waste").exists()


def seen_in(client, url):
    return client.get(url).context["form"]["seen"].value()


def test_a_count_asks_why_at_the_lot_that_differs_and_keeps_the_other_boxes(hana):
    less, same = a_lot("unsalted_butter", "B-1", 1000), a_lot("fine_salt", "S-1", 500)
    url = reverse("stores:count")
    said = keyed(seen=seen_in(hana, url)) | {f"n_{less.pk}": "700", f"n_{same.pk}": "500"}
    page = words_of(hana.post(url, said))
    assert "1,000 g in the book, 700 g counted: 300 g less, more than 2 % of the book." in page
    assert 'value="700"' in page and 'value="500"' in page
    answer = hana.post(url, said | {f"why_{less.pk}": "scale"}, follow=True)
    assert "Two lots are counted. The book is set right for lot B-1." in words_of(answer)
    assert less.movements.get(kind="count").reason == "Weighed wrongly"


def test_a_count_of_no_lot_and_a_page_that_was_changed_by_hand_are_refused_in_words(hana):
    a_lot("unsalted_butter", "B-1", 1000)
    url = reverse("stores:count")
    assert "No lot is counted." in words_of(hana.post(url, keyed(seen=seen_in(hana, url))))
    assert "No lot is counted." in words_of(hana.post(url, keyed(seen="x:y:1 9:1 9:1:²  ::")))


def test_a_lot_that_moved_while_it_was_counted_is_counted_again(hana):
    lot = a_lot("unsalted_butter", "B-1", 1000)
    url = reverse("stores:count")
    said = keyed(seen=seen_in(hana, url)) | {f"n_{lot.pk}": "1000"}
    waste_from_lot(lot=lot, milligrams=500_000, reason="Dropped", by=a_person("hana", "stores"))
    assert "Lot B-1 moved since the page was opened. Count it once more." in words_of(hana.post(url, said))


def test_food_that_the_book_lacks_is_counted_in_with_a_reason(hana):
    url = reverse("stores:found")
    assert '<option value="fine_salt" selected>' in words_of(hana.get(f"{url}?food=fine_salt"))
    said = keyed(food="fine_salt", amount="250", date_kind="none", dated_on="")
    assert "Nothing is chosen. Choose one." in words_of(hana.post(url, said | {"reason": ""}))
    dated = words_of(hana.post(url, said | {"reason": "bought", "date_kind": "use_by"}))
    assert "Write the date" in dated
    page = words_of(hana.post(url, said | {"reason": "bought"}, follow=True))
    assert "is counted in. Read its label before anything leaves it." in page
    assert Lot.objects.get().on_hand_milligrams == 250_000


def test_eggs_are_counted_in_by_the_piece(hana):
    hana.post(
        reverse("stores:found"),
        keyed(food="egg_in_shell", amount="6", date_kind="none", dated_on="", reason="no_papers"),
    )
    lot = Lot.objects.get()
    assert lot.on_hand_milligrams == 6 * lot.food.piece_milligrams
    assert "6 pieces" in words_of(hana.get(reverse("stores:count")))


def test_a_movement_is_corrected_from_the_page_of_its_lot(hana):
    lot = a_lot("unsalted_butter", "B-1", 1000)
    url = reverse("stores:correct", kwargs={"code": "B-1", "number": 1})
    assert url in words_of(hana.get(reverse("stores:lot", kwargs={"code": "B-1"})))
    same = words_of(hana.post(url, keyed(amount="1000", why="Misread")))
    assert "That is what the book says." in same and 'value="Misread"' in same
    assert hana.post(url, keyed(amount="900", why="Misread")).status_code == 302
    lot.refresh_from_db()
    assert lot.on_hand_milligrams == 900_000


QUERIES_OF_THE_COUNT = 8


@pytest.mark.parametrize("lots", [3, 30])
def test_the_count_takes_as_many_queries_for_thirty_lots_as_for_three(
    hana, lots, django_assert_max_num_queries
):
    for number in range(lots):
        a_lot("unsalted_butter", f"B-{number}", 100)
    with django_assert_max_num_queries(8) as asked:
        hana.get(reverse("stores:count"))
    assert len(asked) == QUERIES_OF_THE_COUNT


def test_a_correction_stands_on_the_page_of_its_lot_with_its_reason(hana):
    lot = a_lot("unsalted_butter", "B-1", 1000)
    url = reverse("stores:correct", kwargs={"code": "B-1", "number": 1})
    page = words_of(hana.post(url, keyed(amount="900", why="Misread"), follow=True))
    assert "Corrects movement 1: Misread" in page and lot.movements.count() == 2


@pytest.mark.parametrize("typed", ["2.7", "2,7"])
def test_tenths_of_a_gram_are_thrown_away_counted_and_counted_in(hana, typed):
    lot = a_lot("fine_salt", "S-1", 10)
    url = reverse("stores:waste", kwargs={"code": "S-1"})
    assert "Grams, in steps of 0.1 g" in words_of(hana.get(url))
    hana.post(url, keyed(amount=typed, reason="dropped"))
    lot.refresh_from_db()
    assert lot.on_hand_milligrams == 7_300
    assert 'value="7.3"' in words_of(hana.get(url))
    counts = reverse("stores:count")
    said = keyed(seen=seen_in(hana, counts)) | {f"n_{lot.pk}": typed, f"why_{lot.pk}": "scale"}
    hana.post(counts, said)
    lot.refresh_from_db()
    assert lot.on_hand_milligrams == 2_700
    found = keyed(food="fine_salt", amount=typed, date_kind="none", dated_on="", reason="bought")
    hana.post(reverse("stores:found"), found)
    assert Lot.objects.exclude(pk=lot.pk).get().on_hand_milligrams == 2_700


def test_a_part_of_an_egg_and_a_hundredth_of_a_gram_are_refused_at_their_box(hana):
    found = keyed(food="egg_in_shell", amount="1.5", date_kind="none", dated_on="", reason="bought")
    page = words_of(hana.post(reverse("stores:found"), found))
    assert "counted in whole pieces" in page and 'value="1.5"' in page
    page = words_of(hana.post(reverse("stores:found"), found | {"food": "fine_salt", "amount": "1.55"}))
    assert "one decimal at most" in page and not Lot.objects.exists()
