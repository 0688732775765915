from curriculum.foods.measures import systems_for, words_that_differ


def test_words_that_differ_are_named_with_what_each_system_makes_of_them():
    words = words_that_differ("1 cup flour\n2 tbsp sugar\n100 g butter\n3 eggs")
    assert list(words) == ["cup", "tbsp"]
    assert "US 236.6 ml" in words["cup"] and "Australian 20 ml" in words["tbsp"]


def test_a_text_in_grams_has_no_such_words_and_fits_every_system():
    assert not words_that_differ("100 g butter\n1.5 l milk")
    assert systems_for("100 g butter") == ("metric", "us", "imperial", "australian")


def test_words_narrow_the_systems_and_choose_none():
    assert systems_for("1 cup flour\n1 pint milk") == ("us", "imperial")
    assert systems_for("1 stick butter\n1 cup flour") == ("us",)
    assert systems_for("1 cup flour\nmoon dust") == ("metric", "us", "imperial", "australian")
