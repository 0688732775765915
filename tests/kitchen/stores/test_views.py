"""The stores through the client: make, weigh by tap, issue; words, never a half-done thing."""

from uuid import uuid4

import pytest
from django.urls import reverse

from curriculum.foods.models import Avoidance, Food
from curriculum.records.models import HealthRead
from kitchen.lessons.models import PlaceLearner
from kitchen.stores.actions import issue_kits
from kitchen.stores.models import Kit, KitLine, KitSet, Movement, Requisition
from tests.builders.book import TERM
from tests.builders.stores import a_lesson_of, a_lot, college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
BACKEND = "django.contrib.auth.backends.ModelBackend"


@pytest.fixture
def stage():
    """The quiche lesson with full stores."""
    made = quiche_stage()
    college_lots()
    return made


@pytest.fixture
def hana(client, stage):
    """The stores person, signed in."""
    client.force_login(stage.stores, BACKEND)
    return client


def address(name, stage, **more):
    return reverse(f"stores:{name}", kwargs={"lesson": stage.lesson.code, **more})


def words_of(answer):
    return " ".join(answer.content.decode().split())


def test_the_kits_page_shows_exact_beside_issued_and_the_lots_before_anything_is_kept(hana, stage):
    page = words_of(hana.get(address("kits", stage)))
    assert (
        "Twelve kits: seven for benches, one to demonstrate, one to spare and three prepared ahead." in page
    )
    assert "1,000 g from lot LS-2207, then 440 g from lot LS-2219" in page
    assert "No label read: Gluten-free flour blend" in page
    assert not KitSet.objects.exists()


def test_the_lecturer_reads_the_kits_and_cannot_make_them(client, stage):
    client.force_login(stage.lecturer, BACKEND)
    assert "Make the kits" not in words_of(client.get(address("kits", stage)))
    assert client.post(address("make_kits", stage), {"key": uuid4()}).status_code == 403


def test_kits_are_made_once_although_the_form_is_sent_twice(hana, stage):
    key = uuid4()
    for _ in range(2):
        assert hana.post(address("make_kits", stage), {"key": key}).status_code == 302
    assert KitSet.objects.count() == 1


def test_a_changed_lesson_says_that_its_kits_no_longer_fit(hana, stage):
    kits_made(stage)
    assert "has changed since" not in words_of(hana.get(address("kits", stage)))
    stage.lesson.dishes.update(portions_a_bench=10)
    assert "The lesson has changed since these kits were made" in words_of(hana.get(address("kits", stage)))


def test_who_reads_a_variant_page_is_noted_once_a_day(hana, stage):
    for _ in range(2):
        hana.get(address("kits", stage))
    assert HealthRead.objects.filter(reader=stage.stores, page="kits").count() == 4


@pytest.mark.parametrize(
    ("name", "page"),
    [("labels_pdf", "kit labels"), ("issue_sheet_pdf", "issue sheet"), ("weigh", "weigh-out")],
)
def test_papers_and_the_weigh_out_name_who_works_a_variant_and_are_noted_too(hana, stage, name, page):
    kits_made(stage)
    assert hana.get(address(name, stage)).status_code == 200
    assert HealthRead.objects.filter(reader=stage.stores, page=page).count() == 4


def test_issuing_leaves_blocked_kits_and_says_which(hana, stage):
    kits_made(stage)
    assert "These kits stay" in words_of(hana.get(address("issue", stage)))
    page = words_of(hana.post(address("issue", stage), {"key": uuid4()}, follow=True))
    assert "The kits have left the stores." in page
    assert KitLine.objects.filter(kit__version__recipe__code="V1", movements__isnull=False).count() == 0


def test_a_shortage_is_said_at_the_form_until_it_is_accepted(hana, stage):
    eclairs = a_lesson_of(stage.versions, "R03", ("R03",) * 4 + ("V3",), portions=12)
    kits_made(eclairs)
    refused = words_of(hana.post(address("issue", eclairs), {"key": uuid4()}))
    assert (
        "Nothing has left the stores." in refused and "Short of 600 g White fondant icing paste." in refused
    )
    assert not Movement.objects.filter(kind="issue").exists()
    assert "short of 300 g" in words_of(hana.get(address("weigh_station", eclairs, stop="white_fondant")))
    hana.post(address("issue", eclairs), {"key": uuid4(), "short_accepted": "on"})
    assert Movement.objects.filter(kind="issue").exists()
    assert words_of(hana.get(address("kits", eclairs))).count("Issued, short") == 2
    assert "Nothing more can leave" in words_of(hana.get(address("issue", eclairs)))
    a_lot("white_fondant", "QS-0999", grams=1000)
    hana.post(address("issue", eclairs), {"key": uuid4()})
    assert "Everything has left" in words_of(hana.get(address("issue", eclairs)))


def test_a_label_is_read_and_its_kits_may_leave(hana, stage):
    kits_made(stage)
    here = reverse("stores:label", kwargs={"food": "gluten_free_flour_blend"})
    facts = dict.fromkeys(("meat", "pork", "fish", "slaughter_by_product", "alcohol", "animal_rennet"), "no")
    nothing = words_of(hana.post(here, {"key": uuid4(), **facts}))
    assert "Nothing is ticked." in nothing and Kit.objects.exclude(blocked_why="").exists()
    hana.post(here, {"key": uuid4(), **facts, "may_contain": ["lupin"]})
    assert Food.objects.get(code="gluten_free_flour_blend").label_read_on is not None
    assert not Kit.objects.exclude(blocked_why="").exists()


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"amount": "a dozen"}, "a dozen"),
        ({"amount": "0"}, "0"),
        ({"received_on": "31 February 2027"}, "31 February"),
        ({"code": "<b>x</b>"}, "letters, figures and dashes"),
        ({"dated_on": ""}, "Write the date"),
        ({"date_kind": "none"}, "A lot without a date has none."),
    ],
)
def test_bad_input_is_said_at_its_field_and_what_was_typed_is_kept(hana, typed, said):
    right = {
        "key": uuid4(),
        "food": Food.objects.get(code="fine_salt").pk,
        "code": "NEW-1",
        "amount": "500",
        "received_on": "16 Feb 2027",
        "date_kind": "best_before",
        "dated_on": "30 Nov 2027",
    }
    before = Movement.objects.count()
    answer = hana.post(reverse("stores:receive"), right | typed)
    assert answer.status_code == 200 and said in words_of(answer)
    assert Movement.objects.count() == before


def test_eggs_come_in_by_the_piece(hana):
    lot = {"key": uuid4(), "code": "EGG-1", "amount": "90", "received_on": "16 Feb 2027", "date_kind": "none"}
    hana.post(reverse("stores:receive"), lot | {"food": Food.objects.get(code="egg_in_shell").pk})
    assert Movement.objects.get(lot__code="EGG-1").milligrams == 90 * 57_000


def test_a_lot_shows_where_it_went_and_what_came_back(hana, stage):
    kits_made(stage)
    issue_kits(lesson=stage.lesson, by=stage.stores)
    page = words_of(hana.get(reverse("stores:lot", kwargs={"code": "MP-0633"})))
    assert "Leek and Cheddar quiche, G-R01, bench 1" in page and "Came back" in page
    issue = Movement.objects.filter(lot__code="MP-0633", kind="issue").first()
    back = reverse("stores:give_back", kwargs={"code": "MP-0633", "number": issue.number})
    refused = words_of(hana.post(back, {"key": uuid4(), "grams": "100"}))
    assert "Only what is sealed and was kept cold goes back" in refused
    hana.post(back, {"key": uuid4(), "grams": "100", "sealed_and_cold": "on"})
    assert Movement.objects.filter(kind="return").count() == 1


def test_paper_is_pdf_and_names_the_free_from_kit(hana, stage):
    learner = PlaceLearner.objects.filter(place__bench__number=7).first().student
    Avoidance.objects.create(student=learner, kind="egg", from_on=TERM, noted_by=stage.stores)
    kits_made(stage)
    for name in ("labels_pdf", "issue_sheet_pdf"):
        answer = hana.get(address(name, stage))
        assert answer["content-type"] == "application/pdf" and answer.content.startswith(b"%PDF")


def test_a_requisition_goes_from_the_lecturer_to_the_stores(client, stage):
    client.force_login(stage.lecturer, BACKEND)
    page = words_of(client.post(address("requisition", stage), {"key": uuid4()}, follow=True))
    assert "Number 1, submitted." in page and "35 pieces" in page
    client.force_login(stage.stores, BACKEND)
    page = words_of(client.post(address("query_requisition", stage), {"query": ""}))
    assert "This is empty." in page
    page = words_of(client.post(address("approve_requisition", stage), {"number": 1}, follow=True))
    assert "approved by Hana" in page


def test_what_nobody_has_read_is_not_approved(client, stage):
    client.force_login(stage.lecturer, BACKEND)
    client.post(address("requisition", stage), {"key": uuid4()})
    stage.lesson.__class__.objects.filter(pk=stage.lesson.pk).update(spare_batches=9)
    client.post(address("requisition", stage), {"key": uuid4()})
    client.force_login(stage.stores, BACKEND)
    page = words_of(client.post(address("approve_requisition", stage), {"number": 1}, follow=True))
    assert "Number 2 is with you now. Nothing is approved yet" in page
    assert not Requisition.objects.filter(state="approved").exists()


def test_a_question_typed_while_another_approves_is_not_lost(client, stage):
    client.force_login(stage.lecturer, BACKEND)
    client.post(address("requisition", stage), {"key": uuid4()})
    client.force_login(stage.stores, BACKEND)
    client.post(address("approve_requisition", stage), {"number": 1})
    page = words_of(client.post(address("query_requisition", stage), {"query": "Which butter?"}))
    assert "Only one that is submitted is approved or queried." in page and "Which butter?" in page


def test_names_are_text_in_any_script_and_never_a_tag(hana, stage):
    user = PlaceLearner.objects.filter(place__bench__number=1).first().student.user
    user.name = "<b>Ολγα</b> عمر"
    user.save()
    page = hana.get(address("kits", stage)).content.decode()
    assert "&lt;b&gt;Ολγα&lt;/b&gt; عمر" in page and "<b>Ολγα" not in page
