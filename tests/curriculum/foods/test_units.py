from curriculum.foods import units


def test_a_word_means_one_thing_in_a_system_and_is_in_one_list_only():
    lists = (units.SAME_EVERYWHERE, units.BY_SYSTEM, units.COUNTED, units.NOT_A_MEASURE)
    words = [word for each in lists for word in each]
    assert len(words) == len(set(words))


def test_every_system_that_a_word_names_is_known():
    assert all(set(meanings) <= set(units.SYSTEMS) for meanings in units.BY_SYSTEM.values())


def test_measures_have_names_of_their_own():
    names = [unit.name for unit in units.MEASURES]
    assert len(names) == len(set(names)) > 20
