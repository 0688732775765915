"""The ordinary recipe behind a variant, and the foods that may stand in a variant."""

from curriculum.foods.data import FoodData
from curriculum.foods.queries import all_foods_data
from curriculum.recipes import queries
from curriculum.recipes.models import Version


def ordinary_of(version: Version) -> Version | None:
    """The ordinary recipe as it is taught now, else the version that the variant was made from."""
    ordinary = version.recipe.variant_of
    if ordinary is None:
        return None
    taught = queries.approved(ordinary.code)
    made_from = version.made_from
    if taught is None and made_from is not None and made_from.recipe_id == ordinary.pk:
        return made_from
    return taught


def foods_by_code() -> dict[str, FoodData]:
    """Every food in use, by name. Three queries."""
    return {food.code: food for food in all_foods_data()}
