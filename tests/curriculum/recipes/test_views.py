import re
import uuid
from html import unescape

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from curriculum.recipes import actions, queries
from curriculum.recipes.approval import actions as approval
from curriculum.recipes.data import ComponentData
from curriculum.recipes.models import Recipe, Version
from tests.builders.book import a_book, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db


@pytest.fixture
def lecturer(client):
    client.force_login(a_person("odile"))
    return client


@pytest.fixture
def student(client):
    client.force_login(a_person("wren", "student"))
    return client


@pytest.fixture
def draft():
    a_book("R02")
    return actions.write_recipe(recipe=college_recipe("R01"), by=a_person("odile"))


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def _key():
    return {"key": str(uuid.uuid4())}


# Reading


def test_the_book_lists_what_is_approved_and_what_is_being_written_apart(lecturer, draft):
    words = _words(lecturer.get("/recipes/"))
    approved, writing = words.split("Being written")
    assert "One recipe approved to teach." in words
    assert "Glazed lemon tart" in approved and "Leek and Cheddar quiche" in writing


def test_a_learner_sees_no_draft_and_no_cost(student, draft):
    words = _words(student.get("/recipes/"))
    assert "Being written" not in words and "Leek and Cheddar" not in words
    assert "£" not in _words(student.get("/recipes/R02/"))
    assert student.get("/recipes/R01/").status_code == 404
    assert student.get("/recipes/R01/1/").status_code == 404


def test_a_recipe_page_shows_components_steps_allergens_times_and_cost(lecturer):
    a_book("R02")
    words = _words(lecturer.get("/recipes/R02/"))
    for wanted in (
        "Glazed lemon tart",
        "Contains gluten (wheat) , egg , milk .",
        "200 g Soft wheat flour ( wheat )",
        "3 h 41",
        "£5.73",
        "£0.72",
        "Caution.",
        "Given whole to a bench: 8 × Hen egg in shell, medium; 4 × Lemon, whole.",
        "165 °C fan",
        "Blind baking",
    ):
        assert wanted in words, wanted
    assert "safe" not in words.lower()


def test_the_recipe_page_is_not_scaled_itself_but_leads_to_the_one_place_that_scales(student):
    a_book("R02")
    answer = student.get("/recipes/R02/?portions=12")
    assert 'action="/recipes/R02/1/scale/"' in answer.content.decode()
    assert "200 g Soft wheat flour" in _words(answer) and "400 g" not in _words(answer)
    assert "400 g Soft wheat flour" in _words(student.get("/recipes/R02/1/scale/?portions=12"))


def test_portions_that_are_none_are_said_at_the_field_and_kept(lecturer):
    a_book("R02")
    for portions in ("0", "-3", "many", "1.5", "9999999"):
        answer = lecturer.get("/recipes/R02/1/scale/", {"portions": portions})
        assert answer.status_code == 200
        assert f'value="{portions}"' in answer.content.decode() and "Write a whole number" in _words(answer)


def test_a_step_shows_its_faults_its_two_ways_and_its_caution_with_whose_it_is(student):
    a_book("R03")
    words = _words(student.get("/recipes/R03/"))
    for wanted in (
        "What goes wrong",
        "By machine, mixer usual 10 min By hand 14 min",
        "By hand: Beat with a stiff spoon",
        "Source: the college’s own risk assessment; it and the local rules decide.",
        "Vegan Not for it:",
        "The same in order of time",
    ):
        assert wanted in words, wanted


def test_a_recipe_page_takes_as_many_queries_for_the_longest_recipe_as_for_the_shortest(
    lecturer, django_assert_num_queries
):
    a_book("R06", "R11")
    with CaptureQueriesContext(connection) as short:
        lecturer.get("/recipes/R06/")
    with django_assert_num_queries(len(short)):
        lecturer.get("/recipes/R11/")
    assert len(short) < 24


def test_a_variant_says_what_it_is_made_without_and_of_what(lecturer):
    a_book("R01", "V1")
    words = _words(lecturer.get("/recipes/V1/"))
    assert "Made without cereals containing gluten, a variant of Leek and Cheddar quiche" in words
    assert "No label read" in words and "Gluten-free flour blend" in words
    assert "Quiche without gluten" in _words(lecturer.get("/recipes/R01/"))


def test_a_technique_shows_cue_faults_and_the_recipes_that_train_it(student):
    a_book("R01", "R02")
    words = _words(student.get("/techniques/blind_baking/"))
    assert "Look for:" in words and "Leek and Cheddar quiche" in words and "Glazed lemon tart" in words
    assert "Blind baking" in _words(student.get("/techniques/?q=blind"))
    assert "No technique is so." in _words(student.get("/techniques/?q=juggling"))


# Writing


def _new(**changes):
    return {
        "title": "Plum tart",
        "code": "plum-tart",
        "level": "foundation",
        "portions_stated": "8",
        "unit": "slice",
        **_key(),
    } | changes


def test_a_recipe_is_begun_with_its_title(lecturer):
    answer = lecturer.post(
        "/recipes/write/", _new(equipment="2 mixing bowl\nblowtorch (shared)", cut_for="10")
    )
    assert answer.status_code == 302 and answer.url == "/recipes/plum-tart/1/write/"
    recipe = queries.recipe_data(Version.objects.get())
    assert (recipe.portions_obtainable, recipe.may_be_cut_for, recipe.equipment[1].shared_by_room) == (
        8,
        (10,),
        True,
    )
    assert "It has no component." in _words(lecturer.get(answer.url))


def test_a_form_sent_twice_begins_one_recipe(lecturer):
    data = _new()
    lecturer.post("/recipes/write/", data)
    assert lecturer.post("/recipes/write/", data).status_code == 200
    assert Recipe.objects.count() == 1


BAD_TITLES = [
    ({"portions_stated": "0"}, "from 1 to 1,000"),
    ({"portions_stated": "-8"}, "from 1 to 1,000"),
    ({"portions_stated": "eight"}, "“eight”"),
    ({"portions_stated": ""}, "This is empty."),
    ({"title": ""}, "This is empty."),
    ({"title": "x" * 161}, "Write 160 at most"),
    ({"code": "plum tart"}, "letters, figures and hyphens"),
    ({"code": "R02"}, "is taken"),
    ({"level": "heavenly"}, "not listed"),
    ({"portion_milligrams": "a lot"}, "begins with no amount"),
    ({"serve_low_decicelsius": "50", "serve_high_decicelsius": "45"}, "below the lower end"),
    ({"serve_low_decicelsius": "hot"}, "“hot”"),
    ({"cut_for": "ten"}, "“ten”"),
    ({"equipment": "4"}, "names no thing"),
    ({"free_from": ["gold"]}, "not listed"),
]


def test_bad_input_is_said_at_its_field_and_what_was_typed_stays(lecturer):
    a_book("R02")
    for changes, says in BAD_TITLES:
        answer = lecturer.post("/recipes/write/", _new(**changes))
        page = answer.content.decode()
        assert answer.status_code == 200 and says in _words(answer), changes
        assert "plum-tart" in page or "Plum tart" in page
        kept = [typed for name, typed in changes.items() if name not in ("level", "free_from")]
        assert all(typed in page for typed in kept), changes
    assert Recipe.objects.count() == 1


def test_names_in_any_script_and_html_in_names_are_text(lecturer):
    lecturer.post("/recipes/write/", _new(title="<b>饺子</b> خبز"))
    page = lecturer.get("/recipes/plum-tart/").content.decode()
    assert "&lt;b&gt;饺子&lt;/b&gt; خبز" in page and "<b>饺子" not in page


def test_a_component_is_added_and_its_lines_are_pasted_next(lecturer, draft):
    answer = lecturer.post(
        "/recipes/R01/1/write/components/", {"name": "Salad", "basis": "portions", **_key()}
    )
    assert answer.url == "/recipes/R01/1/write/components/E/paste/"
    read = lecturer.post(
        answer.url, {"text": "120 g unsalted butter\n1 cup whole milk\n30 g moon dust", "system": ""}
    )
    words = _words(read)
    assert "120 g unsalted butter" in words and "is not the same everywhere" in words
    assert "“moon dust” is not one food of the book" in words
    assert queries.recipe_data(draft).components[-1].lines == ()


def _read(number, **changes):
    said = {
        "keep": "on",
        "food": "unsalted_butter",
        "milligrams": "120",
        "pieces": "",
        "note": "",
        "text": "x",
    }
    return {f"form-{number}-{name}": value for name, value in (said | changes).items() if value is not None}


def _formset(*forms):
    data = {"form-TOTAL_FORMS": str(len(forms)), "form-INITIAL_FORMS": str(len(forms)), **_key()}
    for form in forms:
        data |= form
    return data


PASTE = "/recipes/R01/1/write/components/A/paste/"


def test_only_lines_that_are_kept_are_added(lecturer, draft):
    data = _formset(
        _read(0),
        _read(1, keep=None, food="", milligrams="rubbish"),
        _read(2, food="lemon", milligrams="", pieces="2"),
    )
    assert lecturer.post(PASTE, data).status_code == 302
    lines = queries.recipe_data(draft).components[0].lines
    assert [(line.food, line.milligrams, line.pieces) for line in lines[4:]] == [
        ("unsalted_butter", 120_000, None),
        ("lemon", 90_000, 2),
    ]


def test_pasted_lines_sent_twice_are_added_once(lecturer, draft):
    data = _formset(_read(0))
    lecturer.post(PASTE, data)
    lecturer.post(PASTE, data)
    assert len(queries.recipe_data(draft).components[0].lines) == 5


def test_a_pasted_line_without_food_or_weight_is_said_at_the_line(lecturer, draft):
    answer = lecturer.post(PASTE, _formset(_read(0, food=""), _read(1, milligrams="2 cups")))
    words = _words(answer)
    assert "No food is chosen." in words and "not the same everywhere" in words
    assert len(queries.recipe_data(draft).components[0].lines) == 4


def test_too_many_lines_are_refused_with_the_text_kept(lecturer, draft):
    answer = lecturer.post(PASTE, {"text": "1 g fine salt\n" * 101})
    assert "These are 101 lines." in _words(answer) and "1 g fine salt" in answer.content.decode()


def test_a_megabyte_of_pasted_text_is_refused_at_its_field_and_kept(lecturer, draft):
    answer = lecturer.post(PASTE, {"text": "1 g fine salt, coarse; " * 50_000})
    assert answer.status_code == 200 and "A field takes up to 1 MB" in _words(answer)
    assert answer.content.count(b"fine salt") >= 50_000


LINE = "/recipes/R01/1/write/components/A/lines/4/"


def _line(**changes):
    return {
        "food": "water",
        "milligrams": "62",
        "weight_is": "prepared",
        "issued": "prepared",
        "part": "recipe",
        "enters_portion": "on",
        **_key(),
    } | changes


def test_a_line_takes_a_held_back_part_a_yield_and_a_class(lecturer, draft):
    said = _line(milligrams="2 oz", held_back_milligrams="20", yield_per_mille="55.5", scaling_class="linear")
    assert lecturer.post(LINE, said).status_code == 302
    line = queries.recipe_data(draft).components[0].lines[3]
    assert (line.milligrams, line.held_back_milligrams, line.yield_per_mille) == (56_699, 20_000, 555)


def _sent_back(client, url):
    """The form of a page, posted as it was shown."""
    data = {}
    for bound in client.get(url).context["form"]:
        shown = bound.field.prepare_value(bound.form.get_initial_for_field(bound.field, bound.name))
        if shown not in (None, "", False, []):
            data[bound.name] = shown
    return client.post(url, data)


def test_forms_shown_and_sent_back_unchanged_change_nothing(lecturer, draft):
    before = queries.recipe_data(draft)
    pages = ["title/", "tins/1/", *(f"steps/{n}/" for n in (2, 3, 5, 8, 9))]
    pages += ["components/A/", "components/A/lines/3/", "components/A/lines/4/", "components/B/lines/1/"]
    pages += ["components/C/lines/1/", "components/X/lines/1/"]
    for page in pages:
        assert _sent_back(lecturer, f"/recipes/R01/1/write/{page}").status_code == 302, page
    assert queries.recipe_data(draft) == before


def test_a_tin_is_written_in_centimetres_and_asked_for_its_measures(lecturer, draft):
    url = "/recipes/R01/1/write/tins/1/"
    said = {"shape": "round", "kind": "Flan tin 20", "count": "1", "diameter_mm": "20.5", "depth_mm": "3"}
    said |= _key()
    lined = {"lined_with": "A", "filled_with": ["B", "C"], "paste_thickness_tenths_mm": "2.5"}
    assert lecturer.post(url, said | lined).status_code == 302
    tin = queries.recipe_data(draft).tins[0]
    assert (tin.diameter_mm, tin.paste_thickness_tenths_mm, tin.lined_with, tin.kind) == (
        205,
        25,
        "A",
        "flan_tin_20",
    )
    for changes, says in (
        ({"diameter_mm": ""}, "This measure is needed."),
        ({"shape": "rectangular"}, "This measure is needed."),
        ({"depth_mm": "-3"}, "Write a figure from"),
        ({"count": "0"}, "Write a whole number"),
        ({"paste_thickness_tenths_mm": "40"}, "thicker than the tin is deep"),
        ({"lined_with": "Q"}, "not listed"),
        ({"shape": "ring", "width_mm": "20.5"}, "as wide as the ring"),
        ({"shape": "loaf", "length_mm": "20", "width_mm": "0.5"}, "as wide as the loaf tin"),
    ):
        assert says in _words(lecturer.post(url, said | lined | changes)), changes
    lecturer.post(f"{url}remove/")
    assert queries.recipe_data(draft).tins == ()


BAD_LINES = [
    ({"milligrams": ""}, "Write a weight, or whole pieces."),
    ({"milligrams": "0"}, "An amount of nothing"),
    ({"milligrams": "-5"}, "below nothing"),
    ({"milligrams": "2 cups"}, "not the same everywhere"),
    ({"milligrams": "100 ml"}, "is no weight"),
    ({"milligrams": "100-120 g"}, "is a range"),
    ({"milligrams": "12 furlongs"}, "left over"),
    ({"milligrams": "", "pieces": "2"}, "not counted in pieces"),
    ({"held_back_milligrams": "63"}, "more than the weight of the line"),
    ({"least_milligrams": "50"}, "A range has two ends."),
    ({"least_milligrams": "50", "most_milligrams": "60"}, "less than the weight"),
    ({"yield_per_mille": "0"}, "Write a figure from"),
    ({"yield_per_mille": "101"}, "Write a figure from"),
    ({"food": "moon_dust"}, "not listed"),
    ({"food": ""}, "Nothing is chosen."),
]


def test_a_bad_line_is_said_at_its_field_and_nothing_is_written(lecturer, draft):
    before = queries.recipe_data(draft)
    for changes, says in BAD_LINES:
        answer = lecturer.post(LINE, _line(**changes))
        assert answer.status_code == 200 and says in _words(answer), changes
    assert queries.recipe_data(draft) == before


STEP = "/recipes/R01/1/write/steps/5/"


def _step(**changes):
    return {
        "words": "Bake blind.",
        "cue": "Pale gold.",
        "components": ["A"],
        "techniques": ["blind_baking"],
        "usual": "hand",
        "hand_minutes": "4",
        "hand_at": "bench",
        "stay1_in": "oven",
        "stay1_minutes": "20",
        "stay1_decicelsius": "180",
        "stay1_heat": "fan",
        "stay1_door": "shut",
        "after_4": "on",
        "after_4_longest": "1440",
        "kept": "bench",
        **_key(),
    } | changes


def test_a_step_is_written_with_its_stays_ways_and_what_comes_before(lecturer, draft):
    said = _step(
        machine_minutes="3",
        machine_at="mixer",
        usual="machine",
        stay2_in="oven",
        stay2_minutes="60",
        stay2_door="off_and_shut",
        core_decicelsius="75",
        core_seconds="30",
    )
    assert lecturer.post(STEP, said).status_code == 302
    step = queries.recipe_data(draft).step(5)
    assert [way.name for way in step.ways] == ["machine", "hand"]
    assert [(stay.minutes, stay.decicelsius, stay.door) for stay in step.stays] == [
        (20, 1800, "shut"),
        (60, None, "off_and_shut"),
    ]
    assert [(after.needs, after.longest_minutes) for after in step.after] == [(4, 1440)]
    assert (step.core_decicelsius, step.core_seconds) == (750, 30)


BAD_STEPS = [
    ({"words": ""}, "This is empty."),
    ({"hand_minutes": ""}, "Nobody does it."),
    ({"hand_minutes": "-4"}, "Write a whole number"),
    ({"usual": "machine"}, "The usual way has no minutes."),
    ({"stay1_minutes": ""}, "It stays there for no time."),
    ({"stay1_in": ""}, "Choose where."),
    ({"stay1_decicelsius": "hot"}, "“hot”"),
    ({"stay1_decicelsius": "900"}, "from \u221240 to 300"),
    ({"after_3_least": "4"}, "Step 3 has minutes. Choose it, or take them out."),
    ({"after_4_least": "30", "after_4_longest": "20"}, "shorter than the least wait"),
    ({"after_8": "on"}, "Step 5 waits for step 8"),
    ({"core_decicelsius": "80", "core_most_decicelsius": "75"}, "below the lower end"),
    ({"components": ["Z"]}, "not listed"),
    ({"techniques": ["juggling"]}, "not listed"),
]


def test_a_bad_step_is_said_at_its_field_and_nothing_is_written(lecturer, draft):
    before = queries.recipe_data(draft)
    for changes, says in BAD_STEPS:
        answer = lecturer.post(STEP, _step(**changes))
        assert answer.status_code == 200 and says in _words(answer), changes
    assert queries.recipe_data(draft) == before


def test_a_new_step_goes_where_it_is_wanted(lecturer, draft):
    said = _step(words="Taste.", before="2", after_1="on", stay1_in="", stay1_minutes="")
    assert lecturer.post("/recipes/R01/1/write/steps/", said).status_code == 302
    assert queries.recipe_data(draft).step(2).words == "Taste."


def test_a_step_is_moved_earlier_and_taken_out(lecturer, draft):
    words = queries.recipe_data(draft).step(7).words
    lecturer.post("/recipes/R01/1/write/steps/7/earlier/")
    assert queries.recipe_data(draft).step(6).words == words
    lecturer.post("/recipes/R01/1/write/steps/6/remove/")
    assert words not in [step.words for step in queries.recipe_data(draft).steps]


def test_a_version_goes_from_draft_to_approved_by_a_second_person(client, draft):
    approval.send_for_check(version=draft, by=draft.written_by)
    client.force_login(a_person("solveig"))
    assert client.post("/recipes/R01/1/check/").status_code == 302
    assert client.post("/recipes/R01/1/approve/").status_code == 302
    assert "approved to teach" in _words(client.get("/recipes/R01/"))
    assert client.get("/recipes/R01/1/write/").status_code == 409
    assert client.post("/recipes/R01/1/revise/", _key()).url == "/recipes/R01/2/write/"


def test_a_revision_shows_what_is_different_to_whoever_checks_it(client):
    a_book("R02")
    odile = a_person("odile")
    new = actions.revise(version=Version.objects.get(), by=odile)
    client.force_login(a_person("solveig"))
    assert "Nothing is different yet." in _words(client.get("/recipes/R02/2/"))
    assert "It waits for Odile, who is writing it." in _words(client.get("/recipes/R02/2/"))
    assert "I have checked it" not in _words(client.get("/recipes/R02/2/"))
    approval.send_for_check(version=new, by=odile)
    assert "It waits for somebody other than Odile to check it." in _words(client.get("/recipes/R02/2/"))
    assert "I have checked it" in _words(client.get("/recipes/R02/2/"))
    actions.remove_line(version=new, code="A", position=4, by=odile)
    words = _words(client.get("/recipes/R02/2/"))
    assert "Different from version 1" in words and "Sweet paste, Fine salt 1 g" in words
    actions.remove_step(version=new, position=8, by=odile)
    approval.send_for_check(version=new, by=odile)
    words = _words(client.get("/recipes/R02/2/"))
    assert "No step uses" not in words and "I have checked it" in words
    actions.put_component(version=new, component=ComponentData("E", "Compote", "portions", ()), by=odile)
    words = _words(client.get("/recipes/R02/2/"))
    assert "Compote has no line." in words and "I have checked it" not in words


def test_the_writer_is_told_why_she_cannot_check(lecturer, draft):
    answer = lecturer.post("/recipes/R01/1/check/")
    assert answer.status_code == 409 and "Somebody else has to check it." in _words(answer)


def test_a_page_of_a_component_line_or_step_that_is_not_there_is_not_found(lecturer, draft):
    for part in ("components/Z/", "components/A/lines/99/", "steps/99/", "components/Z/paste/"):
        assert lecturer.get(f"/recipes/R01/1/write/{part}").status_code == 404
