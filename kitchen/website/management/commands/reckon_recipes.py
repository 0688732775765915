"""``manage.py reckon_recipes``: reckons times and today's cost of the recipes that are taught."""

from django.core.management.base import BaseCommand

from curriculum.recipes.actions import reckon_figures


class Command(BaseCommand):
    """For after prices have changed, and once for a book written before figures were kept."""

    help = "Reckon the times and today's cost of every recipe that is approved to teach."

    def handle(self, *args: object, **options: object) -> None:
        """Print how many recipes were reckoned."""
        self.stdout.write(f"{reckon_figures(by=None)} recipes reckoned.")
