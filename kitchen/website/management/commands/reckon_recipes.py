"""``manage.py reckon_recipes``: reckons times and today's cost of the recipes that the book lists."""

from django.core.management.base import BaseCommand

from curriculum.recipes.reckoning.tasks import reckon_book


class Command(BaseCommand):
    """For after prices have changed, where tomorrow's round of the worker is too late."""

    help = "Reckon the times and today's cost of every recipe that is taught or being written."

    def handle(self, *args: object, **options: object) -> None:
        """Print how many versions were reckoned."""
        self.stdout.write(f"{reckon_book()} recipes reckoned.")
